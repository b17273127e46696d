/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* What a module is to the wires: product.md 11, key "kind". */
typedef enum
{
  LID_KIND_UNKNOWN,
  LID_KIND_UNBUFFERED,
  LID_KIND_ECC_UNBUFFERED,
  LID_KIND_REGISTERED,
  LID_KIND_LOAD_REDUCED,
  LID_KIND_SO_UNBUFFERED,
  LID_KIND_SO_ECC_UNBUFFERED,
  LID_KIND_SO_REGISTERED,
  LID_KIND_CLOCKED_UNBUFFERED,
  LID_KIND_SO_CLOCKED_UNBUFFERED,
  LID_KIND_MULTIPLEXED_RANK,
  LID_KIND_FULLY_BUFFERED,
  LID_N_KINDS
} LidKind;

/* The outline that has to go into the slot. */
typedef enum
{
  LID_FORM_UNKNOWN,
  LID_FORM_DIMM,
  LID_FORM_SO_DIMM,
  LID_FORM_OTHER, /* soldered, a card, anything that is no DIMM */
  LID_N_FORMS
} LidForm;

const char *lid_kind_to_text (LidKind kind);
LidKind lid_kind_from_text (const char *text);
const char *lid_kind_to_words (LidKind kind);
LidForm lid_kind_form (LidKind kind);
const char *lid_form_to_text (LidForm form);
const char *lid_form_to_words (LidForm form);
LidForm lid_form_from_text (const char *text);
