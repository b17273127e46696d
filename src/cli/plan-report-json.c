/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of product.md 11, "plan"; picks, loses, empty_slots, remark, uneven and ties_open are
 * more. A module is named by its id in the job; one that is bought, by the line of what can be had
 * and its number in it, so that options that buy the same name the same. */
#include "json-line.h"
#include "plan-report.h"

#include "base/json-write.h"

typedef struct
{
  const LidPlanReport *report;
  LidJsonWriter *writer;
  GHashTable *seen; /* names told under "modules" */
  guint *bought;    /* per good: how many of the option at hand are named */
} Writer;

static char *
name_module (Writer *w, const LidPlanModule *module)
{
  if (module->good == LID_NOWHERE)
    return g_strdup (module->module->id != NULL ? module->module->id : "");
  return g_strdup_printf ("new-%d-%u", module->good + 1, ++w->bought[module->good]);
}

static void
forget_bought (Writer *w)
{
  for (guint i = 0; i < w->report->ask->goods->len; i++)
    w->bought[i] = 0;
}

static void
write_population (Writer *w, const LidPlanOption *option)
{
  const LidBoard *board = w->report->job->board;

  forget_bought (w);
  lid_json_write_open (w->writer, "population", '[');
  for (guint i = 0; i < option->modules->len; i++)
    {
      const LidPlanModule *module = &g_array_index (option->modules, LidPlanModule, i);
      g_autofree char *name = NULL;

      if (module->to_slot == LID_NOWHERE)
        continue;
      name = name_module (w, module);
      lid_json_write_open (w->writer, NULL, '{');
      lid_json_write_text (w->writer, "slot", board->slots[module->to_slot].id);
      lid_json_write_text (w->writer, "module", name);
      lid_json_write_close (w->writer, '}');
    }
  lid_json_write_close (w->writer, ']');
}

static void
write_buys (Writer *w, const LidPlanOption *option)
{
  lid_json_write_open (w->writer, "buy", '[');
  for (guint i = 0; i < option->buys->len; i++)
    {
      const LidPlanBuy *buy = &g_array_index (option->buys, LidPlanBuy, i);
      const LidGood *good = &g_array_index (w->report->ask->goods, LidGood, buy->good);

      lid_json_write_open (w->writer, NULL, '{');
      lid_json_write_text (w->writer, "part", good->part);
      lid_json_write_text (w->writer, "label", good->label);
      lid_json_write_int (w->writer, "quantity", buy->count);
      lid_json_write_text (w->writer, "bin", good->bin);
      lid_json_write_int_or_null (w->writer, "cost_minor", good->price_minor * buy->count,
                                  good->price_minor >= 0);
      lid_json_write_close (w->writer, '}');
    }
  lid_json_write_close (w->writer, ']');
}

static void
write_pulls (Writer *w, const LidPlanOption *option)
{
  const LidBoard *board = w->report->job->board;

  lid_json_write_open (w->writer, "pull", '[');
  for (guint i = 0; i < option->modules->len; i++)
    {
      const LidPlanModule *module = &g_array_index (option->modules, LidPlanModule, i);

      if (module->to_slot != LID_NOWHERE)
        continue;
      lid_json_write_open (w->writer, NULL, '{');
      lid_json_write_text (w->writer, "module", module->module->id);
      lid_json_write_text (w->writer, "slot", board->slots[module->from_slot].id);
      lid_json_write_text (w->writer, "to",
                           lid_plan_report_goes_to_stock (w->report, module->module) ? "stock"
                                                                                     : "owner");
      lid_json_write_close (w->writer, '}');
    }
  lid_json_write_close (w->writer, ']');
}

static void
write_picks (Writer *w, guint picks)
{
  static const char *const words[] = { "cheapest",     "fastest", "fewest-hands", "most-room",
                                       "least-unsure", "more",    "as-found",     "most-capacity" };

  lid_json_write_open (w->writer, "picks", '[');
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if ((picks >> i & 1) == 1)
      lid_json_write_text (w->writer, NULL, words[i]);
  lid_json_write_close (w->writer, ']');
}

static void
write_option (Writer *w, const LidPlanOption *option)
{
  gboolean whole = lid_ratio_is_known (option->whole_mbs);

  lid_json_write_open (w->writer, NULL, '{');
  lid_json_write_text (w->writer, "why", option->why);
  write_picks (w, option->picks);
  lid_json_write_int (w->writer, "capacity_mib", option->capacity_mib);
  lid_json_write_int (w->writer, "usable_mib", option->usable_mib);
  lid_json_write_int_or_null (w->writer, "whole_mbs",
                              whole ? lid_ratio_round (option->whole_mbs) : 0, whole);
  lid_json_write_int_or_null (w->writer, "running_mts", lid_rate_mts (option->running),
                              option->running != LID_RATE_UNKNOWN);
  lid_json_write_int_or_null (w->writer, "cost_minor", option->cost_minor, option->cost_minor >= 0);
  lid_json_write_text (w->writer, "currency", w->report->ask->currency);
  lid_json_write_int (w->writer, "hands", option->hands);
  lid_json_write_int (w->writer, "unsure", option->unsure);
  lid_json_write_int (w->writer, "loses", option->loses);
  lid_json_write_int (w->writer, "empty_slots", option->empty_slots);
  write_population (w, option);
  write_buys (w, option);
  write_pulls (w, option);
  lid_json_write_close (w->writer, '}');
}

static void
write_modules (Writer *w, const LidPlanOption *option)
{
  const LidBoard *board = w->report->job->board;

  forget_bought (w);
  for (guint i = 0; i < option->modules->len; i++)
    {
      const LidPlanModule *module = &g_array_index (option->modules, LidPlanModule, i);
      char *name = name_module (w, module);

      if (!g_hash_table_add (w->seen, name))
        continue;
      lid_json_write_open (w->writer, NULL, '{');
      lid_json_write_text (w->writer, "module", name);
      lid_json_write_text (w->writer, "label", module->module->label);
      lid_json_write_text (w->writer, "part", module->module->part);
      lid_json_write_text (w->writer, "from_slot",
                           module->from_slot != LID_NOWHERE ? board->slots[module->from_slot].id
                                                            : NULL);
      lid_json_write_text (w->writer, "bin", module->module->bin);
      lid_json_write_close (w->writer, '}');
    }
}

/**
 * lid_plan_report_json:
 * @out: gets one line of JSON
 * @report: what to tell
 */
void
lid_plan_report_json (GString *out, const LidPlanReport *report)
{
  LidJsonWriter writer;
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree guint *bought = g_new0 (guint, report->ask->goods->len + 1);
  Writer w = { report, &writer, seen, bought };

  lid_json_line_open (&writer, out, report->source, NULL);
  lid_json_write_open (&writer, "options", '[');
  for (guint i = 0; i < report->options->len; i++)
    write_option (&w, report->options->pdata[i]);
  lid_json_write_close (&writer, ']');
  lid_json_write_open (&writer, "modules", '[');
  for (guint i = 0; i < report->options->len; i++)
    write_modules (&w, report->options->pdata[i]);
  lid_json_write_close (&writer, ']');
  lid_json_write_bool (&writer, "proved", report->plan->proved);
  lid_json_write_bool (&writer, "ties_open", report->plan->ties_open);
  lid_json_write_bool (&writer, "uneven", report->plan->uneven);
  lid_json_write_text (&writer, "remark", report->plan->reason);
  lid_json_line_close (&writer);
}
