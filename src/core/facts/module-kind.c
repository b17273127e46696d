/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/module-kind.h"

#include <glib/gi18n-lib.h>

static const struct
{
  const char *text;
  const char *words;
  LidForm form;
} kinds[LID_N_KINDS] = {
  [LID_KIND_UNKNOWN] = { NULL, NULL, LID_FORM_UNKNOWN },
  [LID_KIND_UNBUFFERED] = { "unbuffered", N_ ("unbuffered"), LID_FORM_DIMM },
  [LID_KIND_ECC_UNBUFFERED] = { "ecc-unbuffered", N_ ("ECC unbuffered"), LID_FORM_DIMM },
  [LID_KIND_REGISTERED] = { "registered", N_ ("registered"), LID_FORM_DIMM },
  [LID_KIND_LOAD_REDUCED] = { "load-reduced", N_ ("load-reduced"), LID_FORM_DIMM },
  [LID_KIND_SO_UNBUFFERED] = { "so-unbuffered", N_ ("SO-DIMM unbuffered"), LID_FORM_SO_DIMM },
  [LID_KIND_SO_ECC_UNBUFFERED]
  = { "so-ecc-unbuffered", N_ ("SO-DIMM ECC unbuffered"), LID_FORM_SO_DIMM },
  [LID_KIND_SO_REGISTERED] = { "so-registered", N_ ("SO-DIMM registered"), LID_FORM_SO_DIMM },
  [LID_KIND_CLOCKED_UNBUFFERED]
  = { "clocked-unbuffered", N_ ("clocked unbuffered"), LID_FORM_DIMM },
  [LID_KIND_SO_CLOCKED_UNBUFFERED]
  = { "so-clocked-unbuffered", N_ ("SO-DIMM clocked unbuffered"), LID_FORM_SO_DIMM },
  [LID_KIND_MULTIPLEXED_RANK] = { "multiplexed-rank", N_ ("multiplexed-rank"), LID_FORM_DIMM },
  [LID_KIND_FULLY_BUFFERED] = { "fully-buffered", N_ ("fully buffered"), LID_FORM_DIMM },
};

static const char *const forms[LID_N_FORMS] = {
  [LID_FORM_DIMM] = "dimm",
  [LID_FORM_SO_DIMM] = "so-dimm",
  [LID_FORM_OTHER] = "other",
};

/**
 * lid_kind_to_text:
 *
 * Returns: (nullable): the word in files and JSON, NULL when not told
 */
const char *
lid_kind_to_text (LidKind kind)
{
  g_return_val_if_fail ((guint)kind < LID_N_KINDS, NULL);
  return kinds[kind].text;
}

LidKind
lid_kind_from_text (const char *text)
{
  for (guint i = 1; i < LID_N_KINDS; i++)
    if (g_strcmp0 (text, kinds[i].text) == 0)
      return i;
  return LID_KIND_UNKNOWN;
}

/**
 * lid_kind_to_words:
 *
 * Returns: (nullable): the kind in the reader's language
 */
const char *
lid_kind_to_words (LidKind kind)
{
  g_return_val_if_fail ((guint)kind < LID_N_KINDS, NULL);
  return kinds[kind].words != NULL ? _ (kinds[kind].words) : NULL;
}

/**
 * lid_kind_form:
 *
 * Returns: the outline that goes with a kind
 */
LidForm
lid_kind_form (LidKind kind)
{
  g_return_val_if_fail ((guint)kind < LID_N_KINDS, LID_FORM_UNKNOWN);
  return kinds[kind].form;
}

const char *
lid_form_to_text (LidForm form)
{
  g_return_val_if_fail ((guint)form < LID_N_FORMS, NULL);
  return forms[form];
}

/**
 * lid_form_to_words:
 *
 * Returns: (nullable): the form as the trade says it, in every language
 */
const char *
lid_form_to_words (LidForm form)
{
  g_return_val_if_fail ((guint)form < LID_N_FORMS, NULL);
  return form == LID_FORM_DIMM ? "DIMM" : form == LID_FORM_SO_DIMM ? "SO-DIMM" : NULL;
}

LidForm
lid_form_from_text (const char *text)
{
  for (guint i = 1; i < LID_N_FORMS; i++)
    if (g_strcmp0 (text, forms[i]) == 0)
      return i;
  return LID_FORM_UNKNOWN;
}
