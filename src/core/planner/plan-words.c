/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner/plan-words.h"

#include "base/text.h"
#include "base/units.h"
#include "stock/stock-amount.h"

#include <glib/gi18n-lib.h>

#define MOST_WORDS 8u

/**
 * lid_plan_words_picks:
 * @picks: LidPick, bits
 *
 * Returns: (transfer full): "cheapest, fewest hands"; empty where it is none of the six
 */
char *
lid_plan_words_picks (guint picks)
{
  static const struct
  {
    LidPick pick;
    const char *words;
  } words[] = {
    { LID_PICK_AS_FOUND, N_ ("as found") },         { LID_PICK_MOST, N_ ("most capacity") },
    { LID_PICK_CHEAPEST, N_ ("cheapest") },         { LID_PICK_FASTEST, N_ ("fastest") },
    { LID_PICK_FEWEST_HANDS, N_ ("fewest hands") }, { LID_PICK_MORE, N_ ("more capacity") },
    { LID_PICK_MOST_ROOM, N_ ("most room left") },  { LID_PICK_LEAST_UNSURE, N_ ("least unsure") },
  };
  const char *list[MOST_WORDS];
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if ((picks & words[i].pick) != 0)
      list[n++] = _ (words[i].words);
  return n > 0 ? lid_text_join (list, n, MOST_WORDS) : g_strdup ("");
}

/**
 * lid_plan_words_cost:
 * @option: an option
 * @currency: (nullable): of its amounts
 *
 * Returns: (transfer full): what is bought, and for how much
 */
char *
lid_plan_words_cost (const LidPlanOption *option, const char *currency)
{
  g_autofree char *amount = NULL;
  guint n = 0;

  for (guint i = 0; i < option->buys->len; i++)
    n += g_array_index (option->buys, LidPlanBuy, i).count;
  if (n == 0)
    return g_strdup (_ ("buys nothing"));
  if (option->cost_minor < 0)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "buys %u module; a price is not told",
                                         "buys %u modules; a price is not told", n),
                            n);
  amount = lid_stock_amount_to_text (option->cost_minor, currency);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "buys %u module for %s", "buys %u modules for %s", n), n,
      amount);
}

/**
 * lid_plan_words_hands:
 * @option: an option
 *
 * Returns: (transfer full): how many modules are pulled, fitted or moved
 */
char *
lid_plan_words_hands (const LidPlanOption *option)
{
  guint fitted = 0, moved = 0, pulled = 0;

  for (guint i = 0; i < option->modules->len; i++)
    {
      const LidPlanModule *module = &g_array_index (option->modules, LidPlanModule, i);

      if (module->from_slot == LID_NOWHERE)
        fitted++;
      else if (module->to_slot == LID_NOWHERE)
        pulled++;
      else
        moved += module->from_slot != module->to_slot;
    }
  if (fitted + moved + pulled == 0)
    return g_strdup (_ ("no hands: nothing is touched"));
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u hand: fitted %u, moved %u, pulled %u",
                                       "%u hands: fitted %u, moved %u, pulled %u", option->hands),
                          option->hands, fitted, moved, pulled);
}

/**
 * lid_plan_words_speed:
 * @option: an option
 *
 * Returns: (transfer full): its rate, and the bandwidth of reading all of it once
 */
char *
lid_plan_words_speed (const LidPlanOption *option)
{
  g_autofree char *rate = NULL, *whole = NULL;

  if (option->running == LID_RATE_UNKNOWN)
    return g_strdup (_ ("rate not told"));
  rate = lid_units_rate (option->running);
  if (!lid_ratio_is_known (option->whole_mbs))
    return g_strdup_printf (_ ("runs at %s"), rate);
  whole = lid_units_bandwidth (lid_ratio_round (option->whole_mbs));
  return g_strdup_printf (_ ("runs at %s, all of it read at %s by the model"), rate, whole);
}
