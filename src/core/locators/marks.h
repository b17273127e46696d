/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#define LID_MARK_NONE (-1)

/* A bare pair of letter and number, whose meaning only the whole machine tells. */
typedef enum
{
  LID_SHAPE_NONE,
  LID_SHAPE_NUMBER,        /* DIMM 3 */
  LID_SHAPE_LETTER_NUMBER, /* DIMM_A1, A1 */
  LID_SHAPE_NUMBER_LETTER, /* DIMM1A, P1-1A */
} LidShape;

/* What one string states. Numbers as written, LID_MARK_NONE where it says nothing. A channel or
 * letter is held as lid_mark_letter() so that it cannot be taken for a number. */
typedef struct
{
  gint16 processor;
  gint16 node;
  gint16 controller;
  gint16 board;
  gint16 channel;     /* behind the word channel */
  gint16 dimm;        /* the number that goes with that channel */
  gint16 number;      /* of the pair */
  gint16 letter;      /* of the pair */
  gint16 bank;        /* number behind the word bank */
  gint16 bank_letter; /* BANK_A1, BANK-A0 */
  gint16 bank_number;
  guint8 shape;              /* LidShape */
  guint8 digits;             /* of the pair's number */
  guint8 silent : 1;         /* empty, "Not Specified" and the like */
  guint8 lost : 1;           /* "NO DIMM": the firmware drops the names of empty slots */
  guint8 dimm_word : 1;      /* the pair stands behind DIMM, SLOT, DDR4 */
  guint8 word_split : 1;     /* DIMM-1A, DIMM 1A: a separator between word and pair */
  guint8 hyphen : 1;         /* that separator is a hyphen */
  guint8 pair_split : 1;     /* DIMM1_A: a separator inside the pair */
  guint8 processor_word : 1; /* the processor is named by a word, not by the letter P */
} LidMarks;

#define LID_MARK_FIRST_LETTER 10000

static inline gint16
lid_mark_letter (int index)
{
  return (gint16)(LID_MARK_FIRST_LETTER + index);
}

static inline gboolean
lid_mark_is_letter (int mark)
{
  return mark >= LID_MARK_FIRST_LETTER;
}

void lid_marks_read (const char *text, gboolean is_bank, LidMarks *marks);
