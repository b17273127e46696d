/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan-report.h"

#include "base/text.h"
#include "base/units.h"
#include "planner/plan-words.h"
#include "stock/stock-amount.h"

#include <glib/gi18n.h>

#define MOST_SLOTS 192u

/**
 * lid_plan_report_goes_to_stock:
 *
 * Returns: whether the shelf takes a pulled module back: a row of the same kind names a credit
 */
gboolean
lid_plan_report_goes_to_stock (const LidPlanReport *report, const LidModule *module)
{
  for (guint i = 0; i < report->ask->rows->len; i++)
    {
      const LidStockRow *row = report->ask->rows->pdata[i];

      if (row != NULL && row->credit_minor >= 0 && lid_module_same (row->module, module))
        return TRUE;
    }
  return FALSE;
}

/* What happens to a module, for the lines below an option. */
typedef enum
{
  STAYS,
  FITTED,
  MOVED,
  PULLED
} Deed;

static Deed
deed_of (const LidPlanModule *module)
{
  if (module->to_slot == LID_NOWHERE)
    return PULLED;
  if (module->from_slot == LID_NOWHERE)
    return FITTED;
  return module->from_slot == module->to_slot ? STAYS : MOVED;
}

static char *
slot_words (const LidPlanReport *report, const LidPlanModule *module, Deed deed)
{
  const LidBoard *board = report->job->board;

  if (deed == MOVED)
    return g_strdup_printf (_ ("%s to %s"), lid_board_name_slot (board, (guint)module->from_slot),
                            lid_board_name_slot (board, (guint)module->to_slot));
  return g_strdup (
      lid_board_name_slot (board, (guint)(deed == PULLED ? module->from_slot : module->to_slot)));
}

/* One line for each sort of module to which it happens: "fit 32 GB …: A1, B1". */
static void
add_deed (GString *out,
          const LidPlanReport *report,
          const LidPlanOption *option,
          Deed deed,
          const char *format)
{
  g_autoptr (GHashTable) done = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < option->modules->len; i++)
    {
      const LidPlanModule *first = &g_array_index (option->modules, LidPlanModule, i);
      g_autoptr (GPtrArray) slots = g_ptr_array_new_with_free_func (g_free);
      g_autofree char *names = NULL;
      char *words;

      if (deed_of (first) != deed)
        continue;
      words = lid_module_describe (first->module);
      if (!g_hash_table_add (done, words))
        continue;
      for (guint k = i; k < option->modules->len; k++)
        {
          const LidPlanModule *module = &g_array_index (option->modules, LidPlanModule, k);
          g_autofree char *other = lid_module_describe (module->module);

          if (deed_of (module) == deed && g_str_equal (other, words))
            g_ptr_array_add (slots, slot_words (report, module, deed));
        }
      names = lid_text_join ((const char *const *)slots->pdata, slots->len, MOST_SLOTS);
      g_string_append (out, "   ");
      g_string_append_printf (out, format, words, names);
      g_string_append_c (out, '\n');
    }
}

static void
add_buys (GString *out, const LidPlanReport *report, const LidPlanOption *option)
{
  for (guint i = 0; i < option->buys->len; i++)
    {
      const LidPlanBuy *buy = &g_array_index (option->buys, LidPlanBuy, i);
      const LidGood *good = &g_array_index (report->ask->goods, LidGood, buy->good);
      g_autofree char *words = lid_module_describe (good->module);
      g_autofree char *price
          = good->price_minor >= 0
                ? lid_stock_amount_to_text (good->price_minor * buy->count, report->ask->currency)
                : g_strdup (_ ("no price"));

      g_string_append (out, "   ");
      g_string_append_printf (out, _ ("take %u × %s, part %s, bin %s: %s"), buy->count, words,
                              good->part != NULL ? good->part : "–",
                              good->bin != NULL ? good->bin : "–", price);
      g_string_append_c (out, '\n');
    }
}

static void
add_option (GString *out, const LidPlanReport *report, guint number, const LidPlanOption *option)
{
  g_autofree char *size = lid_units_capacity (option->usable_mib);
  g_autofree char *picks = lid_plan_words_picks (option->picks);
  g_autofree char *speed = lid_plan_words_speed (option);
  g_autofree char *cost = lid_plan_words_cost (option, report->ask->currency);
  g_autofree char *hands = lid_plan_words_hands (option);

  g_string_append_printf (out, "\n%u. ", number);
  if (*picks != 0)
    g_string_append_printf (out, _ ("%s usable: %s"), size, picks);
  else
    g_string_append_printf (out, _ ("%s usable"), size);
  g_string_append_printf (out, "\n   %s\n   %s\n   %s; %s\n", option->why, speed, cost, hands);
  if (option->unsure > 0)
    {
      g_string_append (out, "   ");
      g_string_append_printf (
          out,
          g_dngettext (GETTEXT_PACKAGE, "%u finding is unsure: a fact is not told",
                       "%u findings are unsure: facts are not told", option->unsure),
          option->unsure);
      g_string_append_c (out, '\n');
    }
  add_buys (out, report, option);
  add_deed (out, report, option, PULLED, _ ("pull %s: %s"));
  add_deed (out, report, option, MOVED, _ ("move %s: %s"));
  add_deed (out, report, option, FITTED, _ ("fit %s: %s"));
}

static char *
wish_words (const LidPlanReport *report)
{
  g_autofree char *amount = NULL;

  switch (report->wish->what)
    {
    case LID_WISH_CAPACITY:
      amount = lid_units_capacity (report->wish->amount);
      return g_strdup_printf (_ ("at least %s"), amount);
    case LID_WISH_SPEND:
      amount = lid_stock_amount_to_text (report->wish->amount, report->ask->currency);
      return g_strdup_printf (_ ("the most for %s"), amount);
    case LID_WISH_CHEAPEST:
      amount = lid_units_capacity (report->wish->amount);
      return g_strdup_printf (_ ("the cheapest with at least %s"), amount);
    case LID_WISH_REARRANGE:
    default:
      return g_strdup (_ ("rearrange what is there, and buy nothing"));
    }
}

/**
 * lid_plan_report_text:
 * @out: gets what a person reads
 * @report: what to tell
 */
void
lid_plan_report_text (GString *out, const LidPlanReport *report)
{
  g_autofree char *wish = wish_words (report);

  g_string_append_printf (out,
                          g_dngettext (GETTEXT_PACKAGE, "%s: %s: %s; %u option\n",
                                       "%s: %s: %s; %u options\n", report->options->len),
                          report->source, report->job->board->name, wish, report->options->len);
  if (report->plan->reason != NULL)
    g_string_append_printf (out, "%s\n", report->plan->reason);
  if (report->plan->uneven && report->options->len > 0)
    g_string_append (out, _ ("No plan fills the processors alike; in these they differ.\n"));
  if (!report->plan->proved)
    g_string_append (out, _ ("The search was given up before everything was tried: there may be "
                             "better ones.\n"));
  for (guint i = 0; i < report->options->len; i++)
    add_option (out, report, i + 1, report->options->pdata[i]);
  if (report->plan->front->len > report->options->len)
    {
      guint more = report->plan->front->len;

      g_string_append_c (out, '\n');
      g_string_append_printf (
          out,
          g_dngettext (GETTEXT_PACKAGE, "%u option is beaten by none; --all shows it.\n",
                       "%u options are beaten by none; --all shows them.\n", more),
          more);
    }
}
