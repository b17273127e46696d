/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-report.h"
#include "columns.h"

#include "base/units.h"
#include "board/slot-names.h"
#include "figures/assumptions.h"
#include "figures/mode-words.h"
#include "figures/power-words.h"

#include <glib/gi18n.h>

static const char *
of_words (LidOf of)
{
  switch (of)
    {
    case LID_PLANNED:
      return _ ("planned");
    case LID_AS_LEFT:
      return _ ("as left");
    case LID_AS_FOUND:
    case LID_N_OF:
    default:
      return _ ("as found");
    }
}

/* Slots first, then the sentence, then what to do. */
static void
add_finding (GString *out, const LidBoard *board, const LidFinding *finding)
{
  lid_check_report_head (out, board, finding);
  g_string_append_printf (out, "    %s\n", finding->text);
  if (lid_finding_remedy (finding) != NULL)
    g_string_append_printf (out, _ ("    What to do: %s\n"), lid_finding_remedy (finding)->text);
}

static void
add_row (LidColumns *columns, const char *name, const char *value)
{
  lid_columns_add (columns, name);
  lid_columns_add (columns, value);
}

/* What the memory mode leaves; the findings say why where it is refused or not known. */
static void
add_mode (LidColumns *columns, const LidPopulation *population, const LidFigures *figures)
{
  g_autofree char *mode = lid_mode_words_new (population), *text = NULL;

  if (figures->mode.effect == LID_EFFECT_TAKEN)
    text = g_steal_pointer (&mode);
  else if (figures->mode.effect == LID_EFFECT_REFUSED)
    text = g_strdup_printf (_ ("%s, refused: starts in plain mode, unprotected"), mode);
  else if (figures->mode.effect == LID_EFFECT_UNSURE)
    text = g_strdup_printf (_ ("%s; whether it takes effect is not known"), mode);
  if (text != NULL)
    add_row (columns, _ ("Mode"), text);
}

static void
add_capacity (LidColumns *columns, const LidFigures *figures)
{
  g_autofree char *capacity = NULL, *usable = NULL, *text = NULL;

  if (!figures->capacity_known)
    {
      add_row (columns, _ ("Capacity"), _ ("not known: a module's size is not told"));
      return;
    }
  capacity = lid_units_capacity (figures->capacity_mib);
  usable = lid_units_capacity (figures->usable_mib);
  if (!figures->usable_known)
    text = g_strdup_printf (_ ("%s; what of it can be used is not known"), capacity);
  else
    text = figures->usable_mib == figures->capacity_mib
               ? g_strdup (capacity)
               : g_strdup_printf (_ ("%s, of which %s can be used"), capacity, usable);
  add_row (columns, _ ("Capacity"), text);
}

static const char *
cap_words (LidCap what)
{
  switch (what)
    {
    case LID_CAP_MODULE:
      return _ ("modules");
    case LID_CAP_TABLE:
      return _ ("board's rate table");
    case LID_CAP_PROCESSOR:
      return _ ("processor");
    case LID_CAP_BOARD:
      return _ ("board");
    case LID_CAP_FIRMWARE:
      return _ ("firmware");
    case LID_CAP_SETUP:
      return _ ("setup");
    case LID_CAP_INVENTORY:
    case LID_N_CAPS:
    default:
      return _ ("as the machine reports");
    }
}

static void
add_rate (LidColumns *columns, const LidFigures *figures)
{
  g_autofree char *rate = figures->running != LID_RATE_UNKNOWN ? lid_units_rate (figures->running)
                                                               : g_strdup (_ ("not known"));

  add_row (columns, _ ("Runs at"), rate);
  for (guint i = 0; i < figures->n_limits; i++)
    {
      const LidRateLimit *limit = &figures->limits[i];
      g_autofree char *value = limit->rate != LID_RATE_UNKNOWN ? lid_units_rate (limit->rate)
                                                               : g_strdup (_ ("not told"));
      g_autofree char *text
          = limit->binding
                ? g_strdup_printf (_ ("%s, limit: %s (binds)"), value, cap_words (limit->what))
                : g_strdup_printf (_ ("%s, limit: %s"), value, cap_words (limit->what));

      add_row (columns, "", text);
    }
}

/* What the expected figures rest on and what the model does not know, at the figures themselves. */
static void
add_assumptions (LidColumns *columns, const LidFigures *figures, const LidBoard *board)
{
  g_autoptr (GPtrArray) list = lid_assumptions_new (board, figures);
  gboolean caveats = FALSE;

  for (guint i = 0; i < list->len; i++)
    {
      const LidAssumption *one = list->pdata[i];
      const char *name = i == 0 ? _ ("Assumes") : one->caveat && !caveats ? _ ("Mind") : "";
      g_autofree char *text = one->caveat ? g_strdup (one->text)
                                          : g_strdup_printf ("%s [%s]", one->text, one->source);

      add_row (columns, name, text);
      caveats = caveats || one->caveat;
    }
}

static void
add_bandwidth (LidColumns *columns, const LidFigures *figures, const LidBoard *board)
{
  g_autofree char *peak = NULL, *whole = NULL, *best = NULL, *worst = NULL, *text = NULL;

  if (lid_ratio_is_known (figures->peak_mbs))
    {
      peak = lid_units_bandwidth (lid_ratio_round (figures->peak_mbs));
      add_row (columns, _ ("Peak"), peak);
    }
  if (!lid_ratio_is_known (figures->whole_mbs))
    {
      if (figures->channels_told && !board->sockets_told)
        add_row (columns, _ ("Expected"),
                 _ ("not known: which processor a slot belongs to is not told"));
      return;
    }
  whole = lid_units_bandwidth (lid_ratio_round (figures->whole_mbs));
  best = lid_units_bandwidth (lid_ratio_round (figures->best_mbs));
  worst = lid_units_bandwidth (lid_ratio_round (figures->worst_mbs));
  if (lid_ratio_compare (figures->best_mbs, figures->worst_mbs) == 0)
    text
        = g_strdup_printf (_ ("%s by a model, not a measurement: %u %% of the peak of the channels "
                              "in use"),
                           whole, board->efficiency / 100);
  else
    text = g_strdup_printf (_ ("%s to %s, reading all of it %s; by a model, not a measurement: "
                               "%u %% of the peak of the channels in use"),
                            worst, best, whole, board->efficiency / 100);
  add_row (columns, _ ("Expected"), text);
  add_assumptions (columns, figures, board);
}

static void
add_share (LidColumns *columns, const LidFigures *figures)
{
  g_autofree char *text = NULL;

  if (!figures->channels_told)
    {
      add_row (columns, _ ("Channels"),
               _ ("not told, so bandwidth is not known; “boards --teach” teaches them"));
      return;
    }
  if (lid_ratio_is_known (figures->even_share))
    {
      gint64 parts = lid_ratio_round (lid_ratio_mul (figures->even_share, lid_ratio (10000, 1)));

      text = g_strdup_printf (_ ("%u of %u in use, even share %d.%04d"), figures->channels_in_use,
                              figures->channels_of_fitted, (int)(parts / 10000),
                              (int)(parts % 10000));
    }
  else
    text = g_strdup_printf (_ ("%u of %u in use"), figures->channels_in_use,
                            figures->channels_of_fitted);
  add_row (columns, _ ("Channels"), text);
}

static void
add_room (LidColumns *columns, const LidRoom *room)
{
  g_autofree char *empty = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%u slot empty", "%u slots empty", room->empty_slots),
      room->empty_slots);

  add_row (columns, _ ("Room"), empty);
  if (room->listed_mib > 0)
    {
      g_autofree char *most = lid_units_capacity (room->listed_mib);
      g_autofree char *text = g_strdup_printf (_ ("up to %s by the board's documents"), most);

      add_row (columns, "", text);
    }
  if (room->proven_mib > room->listed_mib)
    {
      g_autofree char *most = lid_units_capacity (room->proven_mib);
      g_autofree char *text = g_strdup_printf (_ ("up to %s as bench-proven"), most);

      add_row (columns, "", text);
    }
}

static void
add_power (LidColumns *columns, const LidJob *job, LidOf of)
{
  const LidPopulation *population = lid_job_get_population (job, of);
  LidPowerSum sum = lid_power_machine (job->board, population);
  g_autofree char *all = lid_power_words_range (&sum), *change = NULL;

  if (all == NULL)
    return;
  add_row (columns, _ ("Power"), all);
  if (of != LID_AS_FOUND && job->as_found != NULL)
    {
      sum = lid_power_change (job->board, job->as_found, population);
      change = lid_power_words_change (&sum);
    }
  if (change != NULL)
    add_row (columns, "", change);
  add_row (columns, "", _ ("to plan with, ± 50 %; “explain power” says more"));
}

/* What is in the slots; sizes that are not told make it a lower bound. */
static char *
fitted_words (const LidPopulation *population, gint64 fitted_mib)
{
  g_autofree char *fitted = lid_units_capacity (fitted_mib);

  for (guint i = 0; i < population->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;

      if (module == NULL || lid_module_knows (module, LID_FACT_CAPACITY))
        continue;
      return fitted_mib == 0 ? g_strdup (_ ("size not told"))
                             : g_strdup_printf (_ ("%s or more fitted"), fitted);
    }
  return g_strdup_printf (_ ("%s fitted"), fitted);
}

/**
 * lid_check_report_text:
 * @out: gets what a person reads: findings worst first, then the figures
 * @source: the input's name
 * @job: whose population
 * @of: which of its populations
 * @assessment: what was found
 */
void
lid_check_report_text (
    GString *out, const char *source, const LidJob *job, LidOf of, const LidAssessment *assessment)
{
  const LidFigures *figures = &assessment->figures;
  const LidPopulation *population = lid_job_get_population (job, of);
  g_autofree char *fitted = fitted_words (population, figures->fitted_mib);
  LidColumns columns = { 0 };
  gboolean facts_told = FALSE;

  g_string_append_printf (out, "%s: %s, %s, %s\n", source, of_words (of), job->board->name, fitted);
  if (lid_slot_names_caveat (job->board) != NULL)
    g_string_append_printf (out, "%s\n", lid_slot_names_caveat (job->board));
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->fact == LID_NOWHERE)
        add_finding (out, job->board, finding);
      else if (!facts_told)
        lid_check_report_facts (out, job->board, population, assessment);
      facts_told = facts_told || finding->fact != LID_NOWHERE;
    }
  if (assessment->findings->len == 0)
    g_string_append (out, _ ("No finding.\n"));
  g_string_append_c (out, '\n');
  lid_columns_start (&columns, 2);
  if (figures->starts)
    {
      add_mode (&columns, population, figures);
      add_capacity (&columns, figures);
      add_rate (&columns, figures);
      add_bandwidth (&columns, figures, job->board);
      add_share (&columns, figures);
    }
  else
    add_row (&columns, _ ("Does not start"), _ ("so there are no figures"));
  add_room (&columns, &assessment->room);
  add_power (&columns, job, of);
  lid_columns_finish (&columns, out, "  ");
}
