/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "prove/verdict.h"

#include <glib/gi18n-lib.h>

static const struct
{
  const char *text;  /* product.md 11, key "verdict" */
  const char *words; /* N_() */
  gboolean difference;
} verdicts[LID_N_VERDICTS] = {
  [LID_VERDICT_AS_PLANNED] = { "as-planned", N_ ("as planned"), FALSE },
  [LID_VERDICT_AS_PLANNED_AS_FAR_AS_TOLD]
  = { "as-planned-as-far-as-told", N_ ("as planned, as far as told"), FALSE },
  [LID_VERDICT_MISSING] = { "missing", N_ ("missing"), TRUE },
  [LID_VERDICT_SMALLER] = { "smaller", N_ ("smaller"), TRUE },
  [LID_VERDICT_SLOWER] = { "slower", N_ ("slower"), TRUE },
  [LID_VERDICT_ANOTHER] = { "another", N_ ("another module"), TRUE },
  [LID_VERDICT_OTHER_NAME] = { "other-name", N_ ("as planned, slot of another name"), FALSE },
  [LID_VERDICT_NOT_PLANNED] = { "not-planned", N_ ("not planned"), TRUE },
};

/**
 * lid_verdict_to_text:
 *
 * Returns: the word in JSON: product.md 11
 */
const char *
lid_verdict_to_text (LidVerdict verdict)
{
  g_return_val_if_fail ((guint)verdict < LID_N_VERDICTS, NULL);
  return verdicts[verdict].text;
}

/**
 * lid_verdict_to_words:
 *
 * Returns: the verdict in the reader's language
 */
const char *
lid_verdict_to_words (LidVerdict verdict)
{
  g_return_val_if_fail ((guint)verdict < LID_N_VERDICTS, NULL);
  return _ (verdicts[verdict].words);
}

/**
 * lid_verdict_is_difference:
 *
 * Returns: whether the slot is not as planned
 */
gboolean
lid_verdict_is_difference (LidVerdict verdict)
{
  g_return_val_if_fail ((guint)verdict < LID_N_VERDICTS, TRUE);
  return verdicts[verdict].difference;
}

static gboolean
differs (const LidModule *planned, const LidModule *seen, LidFact fact)
{
  return lid_module_knows (planned, fact) && lid_module_knows (seen, fact)
         && planned->value[fact] != seen->value[fact];
}

/**
 * lid_verdict_of:
 * @planned: a module
 * @seen: what is reported in its slot
 * @fact: (out): the fact that tells them apart; LID_N_FACTS: none, or that one is persistent
 *
 * Only what both tell can speak against it; the same are two modules only by part number or with
 * every fact known and equal (product.md 3), else it is as planned as far as told; so it is too
 * where the machine does not tell the size, for then it may use less of it. What the machine cannot
 * start with is named first, then the size, then the rest; how tall a module is nothing reads. Some
 * firmware reports the running rate as a module's rating, so a lower rating is slower and not
 * another module (from memory).
 */
LidVerdict
lid_verdict_of (const LidModule *planned, const LidModule *seen, LidFact *fact)
{
  static const LidFact order[]
      = { LID_FACT_GENERATION, LID_FACT_KIND,          LID_FACT_FORM,  LID_FACT_CAPACITY,
          LID_FACT_RANKS,      LID_FACT_LOGICAL_RANKS, LID_FACT_STACK, LID_FACT_CHIP_WIDTH,
          LID_FACT_ECC,        LID_FACT_CHECK_BITS,    LID_FACT_DIE,   LID_FACT_VOLTAGE,
          LID_FACT_RATED };

  *fact = LID_N_FACTS;
  if (planned->persistent != seen->persistent)
    return LID_VERDICT_ANOTHER;
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    {
      LidFact f = order[i];

      if (!differs (planned, seen, f))
        continue;
      *fact = f;
      if (f == LID_FACT_CAPACITY && seen->value[f] < planned->value[f])
        return LID_VERDICT_SMALLER;
      if (f == LID_FACT_RATED && seen->value[f] < planned->value[f])
        return LID_VERDICT_SLOWER;
      return LID_VERDICT_ANOTHER;
    }
  if (lid_module_knows (planned, LID_FACT_CAPACITY) && !lid_module_knows (seen, LID_FACT_CAPACITY))
    return LID_VERDICT_AS_PLANNED_AS_FAR_AS_TOLD;
  return lid_module_same (planned, seen) ? LID_VERDICT_AS_PLANNED
                                         : LID_VERDICT_AS_PLANNED_AS_FAR_AS_TOLD;
}
