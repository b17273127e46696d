/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"
#include "base/units.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/rate-table.h"

#include <glib/gi18n-lib.h>

/* One finding, whatever binds (settled reading 6). "By population" only if fewer modules on each
 * channel that binds would run faster; it loses where the same modules, spread over more channels,
 * would. */
typedef struct
{
  LidRate fastest; /* rating of the fastest fitted module */
  gboolean by_population;
  guint most_filled; /* on the channels whose table value binds */
  LidSlotSet slots;  /* what binds */
} Slowdown;

/* On automatic, what a higher voltage was taken for may be gone with fewer modules: then it falls
 * to @low, unless the table has no row there either. @low is 0 where it falls nowhere: a rate that
 * all voltages have in common is no less. */
static gboolean
faster_with_fewer (const LidCheck *check, guint channel, guint32 voltages, guint32 low)
{
  const LidRate now = check->figures->rates[channel].table;

  for (guint n = check->survey->channels[channel].n_fitted; n-- > 1;)
    {
      LidChannelRate fewer = { 0 }, lower = { 0 };

      lid_rate_table_look_up (check->survey, channel, n, voltages, &fewer);
      lid_rate_table_look_up (check->survey, channel, n, low, &lower);
      if (fewer.row == LID_ROW_FOUND && fewer.table > now
          && (lower.row != LID_ROW_FOUND || lower.table > now))
        return TRUE;
    }
  return FALSE;
}

/* @alone: nothing else holds it to the same rate; then fewer modules on each channel would help. */
static void
look_at_table (const LidCheck *check, Slowdown *slow, gboolean alone)
{
  guint32 instead, voltages = lid_rate_table_voltages (check->survey);
  gboolean told;
  guint32 low = lid_rate_table_passed_over (check->survey, &instead, &told);

  slow->by_population = alone;
  for (guint c = 0; c < check->board->n_channels; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];

      if (check->figures->rates[c].row != LID_ROW_FOUND
          || check->figures->rates[c].table != check->figures->running)
        continue;
      slow->by_population = slow->by_population && faster_with_fewer (check, c, voltages, low);
      slow->most_filled = MAX (slow->most_filled, channel->n_fitted);
      for (guint i = 0; i < channel->n_fitted; i++)
        lid_slot_set_add (&slow->slots, channel->fitted[i]);
    }
}

static void
look_at_modules (const LidCheck *check, Slowdown *slow, gboolean by_module)
{
  for (guint i = 0; i < check->n_live; i++)
    {
      LidRate rated = lid_module_rated (lid_check_module (check, check->live[i]));

      slow->fastest = MAX (slow->fastest, rated);
      if (by_module && rated == check->figures->running)
        lid_slot_set_add (&slow->slots, check->live[i]);
    }
}

/* Whether all the modules would find place with fewer of them on each channel. */
static gboolean
could_spread (const LidCheck *check, guint most_filled)
{
  guint places = 0;

  for (guint c = 0; c < check->board->n_channels; c++)
    {
      int socket = check->board->channels[c].socket;

      if (socket == LID_NOWHERE || check->population->processors[socket].fitted)
        places += MIN (check->survey->channels[c].n_slots, most_filled - 1);
    }
  return check->board->channels_told && check->n_dram <= places;
}

/* What holds it down, each a sentence of its own. */
static const char *
sentence_of (LidCap what, const Slowdown *slow)
{
  switch (what)
    {
    case LID_CAP_MODULE:
      return _ ("Other modules, which are rated lower, hold it down.");
    case LID_CAP_TABLE:
      return slow->by_population
                 ? _ ("The population holds it down: fewer modules on the channel run faster.")
                 : _ ("The board's rate table holds it down.");
    case LID_CAP_PROCESSOR:
      return _ ("The processor holds it down.");
    case LID_CAP_BOARD:
      return _ ("The board holds it down.");
    case LID_CAP_FIRMWARE:
      return _ ("The firmware level holds it down.");
    case LID_CAP_SETUP:
      return _ ("A setting in setup holds it down.");
    case LID_CAP_INVENTORY:
    case LID_N_CAPS:
    default:
      return _ ("The machine itself reports so; whether processor, board or setup holds it down "
                "is not told.");
    }
}

/* What it would run at if @what let it; LID_RATE_UNKNOWN where another limit is not told. */
static LidRate
without (const LidFigures *figures, LidCap what)
{
  LidRate least = LID_RATE_UNKNOWN;

  for (guint i = 0; i < figures->n_limits; i++)
    if (figures->limits[i].what != what)
      {
        if (figures->limits[i].rate == LID_RATE_UNKNOWN)
          return LID_RATE_UNKNOWN;
        if (least == LID_RATE_UNKNOWN || figures->limits[i].rate < least)
          least = figures->limits[i].rate;
      }
  return least;
}

/* The first later level that lets it run fastest; NULL: none is faster. @rate: what it then runs
 * at. Where a level's ceiling is not told nothing is promised of it. */
static const LidFirmwareLevel *
faster_level (const LidCheck *check, LidRate *rate)
{
  const LidBoard *board = check->board;
  const LidFirmwareLevel *best = NULL;
  LidRate most = without (check->figures, LID_CAP_FIRMWARE);
  int level = lid_board_find_firmware (board, check->population->firmware);

  *rate = check->figures->running;
  while (level >= 0 && most != LID_RATE_UNKNOWN && ++level < (int)board->n_firmware)
    {
      LidRate ceiling = board->firmware[level].ceiling;

      if (ceiling == LID_RATE_UNKNOWN || MIN (ceiling, most) <= *rate)
        continue;
      *rate = MIN (ceiling, most);
      best = &board->firmware[level];
    }
  return best;
}

/* Whether every module in use can run at a voltage, and tells so. */
static gboolean
all_can_run_at (const LidCheck *check, guint32 volt)
{
  for (guint i = 0; i < check->n_live; i++)
    {
      const LidModule *module = lid_check_module (check, check->live[i]);

      if (!lid_module_knows (module, LID_FACT_VOLTAGE)
          || ((guint32)module->value[LID_FACT_VOLTAGE] & volt) == 0)
        return FALSE;
    }
  return TRUE;
}

/* What it would run at with the modules at a voltage; LID_RATE_UNKNOWN where that is not told. */
static LidRate
at_voltage (const LidCheck *check, guint32 volt)
{
  LidRate least = without (check->figures, LID_CAP_TABLE);

  if (!all_can_run_at (check, volt))
    return LID_RATE_UNKNOWN;
  for (guint c = 0; c < check->board->n_channels; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];
      LidChannelRate there = { 0 };

      if (check->figures->rates[c].row != LID_ROW_FOUND)
        continue;
      lid_rate_table_look_up (check->survey, c, channel->n_fitted, volt, &there);
      if (there.row != LID_ROW_FOUND)
        return LID_RATE_UNKNOWN;
      least = MIN (least, there.table);
    }
  return least;
}

/* Automatic takes the lower voltage of DDR3L, whatever it costs: a board may have faster rows at
 * 1.5 V (shared/facts/population.md 2; JEDEC JESD79-3-1 lets such modules run at either). */
static void
say_voltage (LidCheck *check, LidFinding *finding)
{
  guint32 full = LID_VOLTAGE_1500;
  g_autofree char *runs = NULL;
  LidRate rate;

  if (lid_rate_table_voltages (check->survey) == full)
    return;
  rate = at_voltage (check, full);
  if (rate <= check->figures->running) /* not known is less than any */
    return;
  runs = lid_units_rate (rate);
  lid_remedy_say (
      check, finding,
      g_strdup_printf (_ ("Where setup offers a memory voltage of 1.5 V, choose it: it then "
                          "runs at %s, and warmer."),
                       runs));
}

/* Newer firmware and a setting cost no part and no memory: who reads that they hold it down wants
 * to know which, and what for (shared/facts/population.md 2.2). */
static void
say_what_helps (LidCheck *check, LidFinding *finding, guint32 binding)
{
  const LidFirmwareLevel *level = NULL;
  g_autofree char *runs = NULL;
  LidRate rate = LID_RATE_UNKNOWN;

  if (binding == 1u << LID_CAP_FIRMWARE && (level = faster_level (check, &rate)) != NULL)
    {
      runs = lid_units_rate (rate);
      lid_remedy_say (check, finding,
                      g_strdup_printf (_ ("Update the firmware to %s, with the old modules still "
                                          "in: it then runs at %s."),
                                       level->level, runs));
    }
  else if (binding == 1u << LID_CAP_SETUP
           && (rate = without (check->figures, LID_CAP_SETUP)) > check->figures->running)
    {
      runs = lid_units_rate (rate);
      lid_remedy_say (check, finding,
                      g_strdup_printf (_ ("Set the memory rate to automatic in setup: it then runs "
                                          "at %s."),
                                       runs));
    }
  else if (binding == 1u << LID_CAP_TABLE)
    say_voltage (check, finding);
}

static void
check_slowed (LidCheck *check)
{
  const LidFigures *figures = check->figures;
  const char *sentences[LID_N_CAPS + 2] = { NULL };
  g_autofree char *why = NULL, *runs = NULL, *rated = NULL;
  Slowdown slow = { 0 };
  guint32 binding = 0;
  guint n = 0;
  gboolean cure;
  LidFinding *finding;

  if (figures->running == LID_RATE_UNKNOWN)
    return;
  for (guint i = 0; i < figures->n_limits; i++)
    if (figures->limits[i].binding)
      binding |= 1u << figures->limits[i].what;
  look_at_modules (check, &slow, (binding & (1u << LID_CAP_MODULE)) != 0);
  if (slow.fastest <= figures->running)
    return;
  if (binding & (1u << LID_CAP_TABLE))
    look_at_table (check, &slow, (binding & ~(1u << LID_CAP_TABLE | 1u << LID_CAP_INVENTORY)) == 0);
  for (LidCap what = 0; what < LID_N_CAPS; what++)
    if (binding & (1u << what))
      sentences[n++] = sentence_of (what, &slow);
  /* The last of them: that the machine reports it is no reason where there is another. */
  if (n > 1 && (binding & (1u << LID_CAP_INVENTORY)))
    n--;
  cure = binding == 1u << LID_CAP_TABLE && slow.by_population
         && could_spread (check, slow.most_filled);
  if (n == 0)
    sentences[n++] = _ ("A limit that is not told holds it down.");
  if (cure)
    sentences[n++] = _ ("The same modules spread over more channels would run faster.");
  sentences[n] = NULL;
  why = g_strjoinv (" ", (char **)sentences);
  runs = lid_units_rate (figures->running);
  rated = lid_units_rate (slow.fastest);
  finding = lid_check_add (
      check, cure ? LID_GRADE_LOSES : LID_GRADE_NOTE, LID_STOPS_NOTHING, &slow.slots,
      g_strdup_printf (_ ("Runs at %s though a module is rated %s. %s"), runs, rated, why));
  say_what_helps (check, finding, binding);
}

const LidRule lid_rule_slowed = {
  .id = "slowed",
  .title = N_ ("slowed below a module's rating"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES) | LID_GRADE_BIT (LID_GRADE_NOTE),
  .cures = LID_CURE_SPREAD,
  .why = N_ ("The machine runs at the least of what modules, processor, board, firmware and setup "
             "allow. One slow module or one full channel can hold all of them down."),
  .clears = N_ ("Change what the finding names. Where that is the number of modules on a channel, "
                "spread them over more channels; where it is the board or the processor, nothing "
                "is broken and nothing clears it."),
  .facts = LID_FACT_BIT (LID_FACT_RATED),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_slowed,
};
