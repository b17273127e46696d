/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/module.h"

/* The line printed on a module, as JEDEC gives it (JESD21-C and JESD401-5B, as collected in
 * facts/module_label.md), and the short form a technician types. Strict: what the grammar does not
 * have is refused with the field at fault, never mended in silence. */

#define LID_LABEL_MAX_BYTES 256 /* longer text is no label */
#define LID_LABEL_MAX_TAG 64    /* serial, part, maker out of a QR code */
#define LID_LABEL_MAX_QUANTITY 9999

typedef enum
{
  LID_LABEL_FULL,       /* all fields: "label" */
  LID_LABEL_SHORT,      /* retail form, ends after the type (DDR3: or CL): "short-label" */
  LID_LABEL_QR,         /* "(L)label(S)serial(P)part(M)maker": "qr" */
  LID_LABEL_SHORT_FORM, /* words, no label: "short-form" */
  LID_LABEL_N_FORMS
} LidLabelForm;

/* The fields, in no order that matters. */
typedef enum
{
  LID_LABEL_FIELD_TEXT, /* the text as a whole */
  LID_LABEL_FIELD_QUANTITY,
  LID_LABEL_FIELD_CAPACITY,
  LID_LABEL_FIELD_RANKS,
  LID_LABEL_FIELD_STACK,
  LID_LABEL_FIELD_CHIP_WIDTH,
  LID_LABEL_FIELD_GENERATION,
  LID_LABEL_FIELD_VOLTAGE,
  LID_LABEL_FIELD_RATE,
  LID_LABEL_FIELD_GRADE,
  LID_LABEL_FIELD_TYPE,
  LID_LABEL_FIELD_CL,
  LID_LABEL_FIELD_CARD,
  LID_LABEL_FIELD_CARD_REVISION,
  LID_LABEL_FIELD_SPD_REVISION,
  LID_LABEL_FIELD_MODULE_REVISION,
  LID_LABEL_FIELD_TEMPERATURE,
  LID_LABEL_FIELD_MAKER_SUFFIX,
  LID_LABEL_FIELD_SERIAL,
  LID_LABEL_FIELD_PART,
  LID_LABEL_FIELD_MAKER,
  LID_LABEL_N_FIELDS
} LidLabelField;

/* Where a refused text went wrong: bytes of the text as given. */
typedef struct
{
  LidLabelField field;
  gsize start;
  gsize length; /* 0: the field is missing there */
} LidLabelFault;

/* A label read. A value: copy it freely, it owns nothing. Numbers are 0, texts empty and letters
 * NUL where the label does not tell. */
typedef struct
{
  LidLabelForm form;
  guint quantity; /* 1 where none is printed */
  LidGeneration generation;
  guint capacity_mib;
  guint ranks;         /* package ranks, as printed */
  guint stack_height;  /* logical ranks per package rank; 1 without S */
  guint logical_ranks; /* ranks × stack_height */
  LidStack stack;
  guint chip_width;
  LidRate rated;
  char voltage_mark; /* DDR3: L or U */
  char type;         /* the type letter */
  char grade[3];     /* DDR4, DDR5 */
  char cl[3];        /* DDR3: digits as printed, 9 and 09 both occur */
  char card[3];      /* reference raw card */
  char card_revision;
  char spd_revision[3];
  char module_revision[3]; /* DDR5: revision of the module's own SPD block */
  char temperature[4];     /* DDR5 */
  char maker_suffix[4];    /* outside the standard's template */
  /* What follows from the printed fields. */
  LidKind kind;
  LidForm outline;
  gint ecc;        /* 1, 0, -1 not told */
  gint check_bits; /* of the whole module, -1 not told */
  LidVoltages voltages;
  guint die_gbit;
  /* Beside the label in a QR code. */
  char serial[LID_LABEL_MAX_TAG + 1];
  char part[LID_LABEL_MAX_TAG + 1];
  char maker[LID_LABEL_MAX_TAG + 1];
} LidLabel;

/* One line of an explanation. */
typedef struct
{
  LidLabelField field;
  char *text;    /* as printed in normal form, "2S2R" */
  char *meaning; /* one sentence in the reader's language */
} LidLabelPart;

gboolean lid_label_parse (
    const char *text, gssize size, LidLabel *label, LidLabelFault *fault, GError **error);
const char *lid_label_form_to_text (LidLabelForm form);
const char *lid_label_field_to_text (LidLabelField field);
const char *lid_label_field_to_words (LidLabelField field);

char *lid_label_print (const LidLabel *label);
GPtrArray *lid_label_explain (const LidLabel *label);
LidModule *lid_label_facts_to_module (const LidLabel *label);
void lid_label_facts_apply (const LidLabel *label, LidModule *module);
