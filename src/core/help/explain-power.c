/* SPDX-License-Identifier: GPL-3.0-or-later */
/* explain-power.c: what the modules draw, from where that is known, and how to take it. */
#include "figures/power-words.h"
#include "help/explain-private.h"

#include <glib/gi18n-lib.h>

#define MOST_KINDS 6u

static gboolean
told_before (const LidBoard *board, const LidPopulation *population, guint slot)
{
  for (guint i = 0; i < slot; i++)
    {
      const LidModule *other = lid_power_drawn_by (board, population, i);

      if (other != NULL && lid_module_same (other, population->slots[slot].module))
        return TRUE;
    }
  return FALSE;
}

/* One line for each kind of module. */
static void
add_kinds (LidExplanation *explanation, const LidBoard *board, const LidPopulation *population)
{
  guint n = 0;

  for (guint i = 0; i < board->n_slots && n < MOST_KINDS; i++)
    {
      const LidModule *module = lid_power_drawn_by (board, population, i);
      g_autofree char *what = NULL, *watts = NULL;
      LidPowerSum one = { 0, 0, 1, 0 };
      LidPower power;

      if (module == NULL || told_before (board, population, i))
        continue;
      power = lid_power_module (board, module, population->setup_mv);
      one.low_mw = power.low_mw;
      one.high_mw = power.high_mw;
      one.n_not_known = power.known ? 0 : 1;
      what = lid_module_describe (module);
      watts = lid_power_words_range (&one);
      lid_explain_add (explanation, n == 0 ? _ ("One module") : NULL,
                       power.known
                           ? g_strdup_printf (_ ("%s: %s. Source: %s."), what, watts, power.source)
                           : g_strdup_printf (_ ("%s: %s."), what, watts));
      n++;
    }
}

/**
 * lid_explain_power:
 * @board: a board
 * @before: (nullable): as found, to say what is added
 * @population: whose modules
 *
 * Returns: (transfer full): watts in all, what is added, each kind of module, and how to take it
 */
LidExplanation *
lid_explain_power (const LidBoard *board,
                   const LidPopulation *before,
                   const LidPopulation *population)
{
  LidExplanation *explanation = lid_explain_start (_ ("Power and heat"));
  LidPowerSum sum = lid_power_machine (board, population);
  char *all = lid_power_words_range (&sum);

  if (all == NULL)
    {
      lid_explain_add (explanation, NULL, g_strdup (_ ("No module is fitted.")));
      return explanation;
    }
  lid_explain_add (explanation, _ ("All modules"), all);
  if (before != NULL && before != population)
    {
      LidPowerSum change = lid_power_change (board, before, population);
      char *words = lid_power_words_change (&change);

      if (words != NULL)
        lid_explain_add (explanation, _ ("Changed"), words);
    }
  add_kinds (explanation, board, population);
  lid_explain_add (
      explanation, _ ("How to take it"),
      g_strdup (_ ("Figures to plan with, half to one and a half of what was published of modules "
                   "like these. Hold them against what the supplies have left; the fans follow and "
                   "take power too. What modules draw, they give off as heat: blanks and baffle "
                   "lead the air over them.")));
  return explanation;
}
