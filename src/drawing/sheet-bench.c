/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-words.h"

#include "base/text.h"
#include "base/units.h"
#include "changeover/changeover-lists.h"
#include "figures/power-words.h"
#include "help/cautions.h"

#include <glib/gi18n-lib.h>

/* The page to work by. Its cautions, with their sources, are the table help/cautions.c: each stands
 * at the moment it is needed, a gate as a box to tick, what holds of every module as a line above
 * the steps. A new block is one function and one line in
 * lid_sheet_bench_fill(). */
#define MOST_STEPS 14u /* more pulls or fits than this are told as boxes to tick, by slot */

static void
put_cautions_of (LidFlow *flow, LidMoment moment, guint cases)
{
  guint n;
  const LidCaution *cautions = lid_cautions_all (&n);

  for (guint i = 0; i < n; i++)
    if (cautions[i].moment == moment && lid_cautions_holds (&cautions[i], cases))
      {
        if (cautions[i].gate)
          lid_sheet_flow_tick (flow, _ (cautions[i].text));
        else
          lid_sheet_flow_text (flow, _ (cautions[i].text));
      }
}

static void
put_cautions (LidFlow *flow, const LidSheetSource *source, LidMoment moment)
{
  guint cases = lid_cautions_cases (source->job->board, source->population);

  if (lid_changes_pull_data (source->changes))
    cases |= LID_CASE_DATA;
  put_cautions_of (flow, moment, cases);
}

/* Steps of one kind as boxes to tick. */
static void
put_steps (LidFlow *flow, const LidSheetSource *source, LidStepKind kind)
{
  for (guint i = 0; i < source->changeover->steps->len; i++)
    {
      const LidChangeoverStep *step = source->changeover->steps->pdata[i];

      if (step->kind == kind)
        lid_sheet_flow_tick (flow, step->text);
    }
}

/* Firmware, with the start and the look at it that come before any hand is in the machine. */
static void
put_firmware (LidFlow *flow, const LidSheetSource *source)
{
  const GPtrArray *steps = source->changeover->steps;

  if (steps->len == 0 || ((LidChangeoverStep *)steps->pdata[0])->kind != LID_STEP_FIRMWARE)
    return;
  put_cautions (flow, source, LID_MOMENT_FIRMWARE);
  for (guint i = 0; i < MIN (steps->len, 3); i++)
    lid_sheet_flow_tick (flow, ((LidChangeoverStep *)steps->pdata[i])->text);
}

/* What to have in hand before the lid comes off. Its blanks do not break: a number alone at the end
 * of a line is read as another one. */
static void
put_fetch (LidFlow *flow, const LidSheetSource *source)
{
  g_autoptr (LidChangeoverList) list
      = lid_changeover_list_new (source->changeover, source->job, LID_LIST_PICK, LID_TO_OWNER);

  for (guint i = 0; i < list->rows->len; i++)
    {
      char **row = list->rows->pdata[i];
      const char *what = *row[3] != 0 ? row[3] : row[2];
      g_autofree char *text
          = *row[0] != 0 ? g_strdup_printf (_ ("Fetch from bin %s: %s × %s"), row[0], row[1], what)
                         : g_strdup_printf (_ ("Fetch: %s × %s"), row[1], what);

      lid_sheet_flow_tick (flow, text);
    }
}

static void
put_before (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, lid_cautions_moment (LID_MOMENT_BEFORE));
  put_cautions (flow, source, LID_MOMENT_BEFORE);
  put_fetch (flow, source);
  put_firmware (flow, source);
}

static void
put_safe (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, lid_cautions_moment (LID_MOMENT_SAFE));
  put_cautions (flow, source, LID_MOMENT_SAFE);
}

/* Blanks that come out, or go in, in one line; FALSE: there are none. */
static gboolean
put_blanks (LidFlow *flow, const LidSheetSource *source, gboolean out)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *slots = NULL, *text = NULL;

  for (guint i = 0; i < source->changeover->steps->len; i++)
    {
      const LidChangeoverStep *step = source->changeover->steps->pdata[i];

      if (step->kind == LID_STEP_BLANK
          && (source->population->slots[step->slot].module != NULL) == out)
        g_ptr_array_add (names,
                         (gpointer)lid_board_name_slot (source->job->board, (guint)step->slot));
    }
  if (names->len == 0)
    return FALSE;
  slots = lid_text_join ((const char *const *)names->pdata, names->len, MOST_STEPS);
  text = out ? g_strdup_printf (_ ("Blanks out of: %s."), slots)
             : g_strdup_printf (_ ("Blanks into: %s."), slots);
  lid_sheet_flow_tick (flow, text);
  return TRUE;
}

static void
put_processors (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, _ ("Processors"));
  put_steps (flow, source, LID_STEP_PROCESSOR);
}

static const char *
module_words (LidFlow *flow, const LidModule *module)
{
  return lid_sheet_keep (flow->sheet, lid_module_describe (module));
}

static void
put_pull (LidFlow *flow, const LidSheetSource *source, guint slot)
{
  const LidSlotChange *change = &source->changes->slots[slot];
  const char *what = module_words (flow, change->before);
  g_autofree char *text = NULL;

  if (change->to != LID_NOWHERE)
    text = g_strdup_printf (_ ("%s, for slot %s"), what,
                            lid_board_name_slot (source->job->board, (guint)change->to));
  else if (change->before->persistent)
    text = g_strdup_printf (_ ("%s, out, with the owner's written release: bag and tag"), what);
  else
    text = g_strdup_printf (_ ("%s, out: bag and tag"), what);
  lid_sheet_flow_step (flow, change->mat, FALSE, lid_board_name_slot (source->job->board, slot),
                       text);
}

/* The owner signs for what holds data before a hand is on it. */
static void
put_release (LidFlow *flow, const LidSheetSource *source)
{
  if (!lid_changes_pull_data (source->changes))
    return;
  put_cautions (flow, source, LID_MOMENT_DATA);
  lid_sheet_flow_fill (flow, _ ("Owner's release"));
}

/* Of many steps each is told by its slot, and what is nowhere else: whether a module that is pulled
 * leaves, and where one that is fitted lies on the mat. */
static const char *
name_of_cell (LidFlow *flow, const LidSheetSource *source, guint slot, gboolean fit)
{
  const LidSlotChange *change = &source->changes->slots[slot];
  const char *name = lid_board_name_slot (source->job->board, slot);

  if (!fit && change->to == LID_NOWHERE)
    return lid_sheet_keep (flow->sheet, g_strdup_printf (_ ("%s, out"), name));
  if (!fit || change->kind != LID_CHANGE_MOVED)
    return name;
  return lid_sheet_keep (flow->sheet, g_strdup_printf (_ ("%s, mat %u"), name,
                                                       source->changes->slots[change->from].mat));
}

static void
put_pulls (LidFlow *flow, const LidSheetSource *source)
{
  const LidChanges *changes = source->changes;

  if (changes->n_pulled == 0)
    return;
  lid_sheet_flow_head (flow, _ ("Pull, each to its numbered place on the mat"));
  put_release (flow, source);
  put_cautions (flow, source, LID_MOMENT_PULL);
  for (guint i = 0; i < changes->n_pulled; i++)
    if (changes->n_pulled <= MOST_STEPS)
      put_pull (flow, source, changes->pulled[i]);
    else
      lid_sheet_flow_cell (flow, i + 1, FALSE,
                           name_of_cell (flow, source, changes->pulled[i], FALSE));
}

static void
put_fit (LidFlow *flow, const LidSheetSource *source, guint slot)
{
  const LidSlotChange *change = &source->changes->slots[slot];
  const char *what = module_words (flow, change->after);
  g_autofree char *text = NULL;

  /* Blanks that do not break, here and above. */
  if (change->kind == LID_CHANGE_MOVED)
    text = g_strdup_printf (_ ("%s, from mat %u"), what, source->changes->slots[change->from].mat);
  else if (change->after->bin != NULL)
    text = g_strdup_printf (_ ("%s, new, bin %s"), what, change->after->bin);
  else
    text = g_strdup_printf (_ ("%s, new"), what);
  lid_sheet_flow_step (flow, change->fit, TRUE, lid_board_name_slot (source->job->board, slot),
                       text);
}

static void
put_fits (LidFlow *flow, const LidSheetSource *source)
{
  const LidChanges *changes = source->changes;

  if (changes->n_fitted == 0)
    return;
  lid_sheet_flow_head (flow, source->job->board->n_order > 0
                                 ? _ ("Fit, in the board's order")
                                 : _ ("Fit (the board's order is not told)"));
  put_cautions (flow, source, LID_MOMENT_FIT);
  put_blanks (flow, source, TRUE);
  for (guint i = 0; i < changes->n_fitted; i++)
    if (changes->n_fitted <= MOST_STEPS)
      put_fit (flow, source, changes->fitted[i]);
    else
      lid_sheet_flow_cell (flow, i + 1, TRUE,
                           name_of_cell (flow, source, changes->fitted[i], TRUE));
}

/* What the hands must know all the same where nothing is to be done. */
static void
put_touched (LidFlow *flow, const LidSheetSource *source)
{
  if (source->changes->n_pulled > 0 || source->changes->n_fitted > 0)
    return;
  lid_sheet_flow_head (flow, _ ("If a module is touched"));
  put_cautions (flow, source, LID_MOMENT_PULL);
  put_cautions (flow, source, LID_MOMENT_FIT);
}

static void
put_close (LidFlow *flow, const LidSheetSource *source)
{
  guint cases = lid_cautions_cases (source->job->board, source->population);

  lid_sheet_flow_head (flow, lid_cautions_moment (LID_MOMENT_CLOSE));
  /* Slots named need no reminder of blanks in general. */
  if (put_blanks (flow, source, FALSE))
    cases &= ~(guint)LID_CASE_BLANKS;
  put_cautions_of (flow, LID_MOMENT_CLOSE, cases);
}

static void
put_settings (LidFlow *flow, const LidSheetSource *source)
{
  const LidPopulation *population = source->population;
  g_autofree char *firmware = lid_sheet_words_firmware (source);
  g_autofree char *mode = lid_sheet_words_mode (source);

  lid_sheet_flow_head (flow, _ ("Firmware and settings"));
  lid_sheet_flow_pair (flow, _ ("Firmware"), firmware);
  lid_sheet_flow_pair (flow, _ ("Memory mode"), mode);
  if (population->setup_limit != LID_RATE_UNKNOWN)
    {
      g_autofree char *rate = lid_units_rate (population->setup_limit);
      lid_sheet_flow_pair (flow, _ ("Speed in setup"), rate);
    }
  else
    lid_sheet_flow_pair (flow, _ ("Speed in setup"), _ ("automatic"));
  if (population->numa_split > 1)
    {
      g_autofree char *split = g_strdup_printf ("%u", population->numa_split);
      lid_sheet_flow_pair (flow, _ ("Nodes per processor"), split);
    }
  put_steps (flow, source, LID_STEP_SETTING);
}

/* What setup shows as the total: under a memory mode what the mode leaves, in some also what is
 * fitted. Source: shared/facts/population.md 7.2, total is half: mirroring on. */
static char *
say_total (const LidSheetSource *source)
{
  const LidFigures *figures = source->assessment != NULL ? &source->assessment->figures : NULL;
  gboolean starts = figures != NULL && figures->starts;
  gint64 capacity = starts ? figures->capacity_mib : source->total_mib;
  gint64 usable = starts && figures->usable_known ? figures->usable_mib : capacity;
  g_autofree char *gb = lid_units_capacity (usable);
  g_autofree char *mb = lid_units_capacity_mb (usable);
  g_autofree char *all = lid_units_capacity (capacity);

  return usable == capacity
             ? g_strdup_printf ("%s = %s", gb, mb)
             : g_strdup_printf (_ ("%s = %s; setup may show %s, all that is fitted"), gb, mb, all);
}

/* Whether the supplies and the fans have that much left is for the eyes on the machine. */
static void
put_power (LidFlow *flow, const LidSheetSource *source)
{
  const LidPopulation *found = source->of != LID_AS_FOUND ? source->job->as_found : NULL;
  LidPowerSum sum = { 0, 0, 0, 0 };
  g_autofree char *words = NULL;

  if (found != NULL)
    sum = lid_power_change (source->job->board, found, source->population);
  words = lid_power_words_change (&sum);
  if (words == NULL)
    {
      sum = lid_power_machine (source->job->board, source->population);
      words = lid_power_words_range (&sum);
    }
  if (words != NULL)
    lid_sheet_flow_pair (flow, _ ("Power"), words);
}

static void
put_expect (LidFlow *flow, const LidSheetSource *source)
{
  const LidAssessment *assessment = source->assessment;
  g_autofree char *both = say_total (source);
  g_autofree char *filled = lid_sheet_words_filled (source, 12);
  g_autofree char *rate = NULL;

  lid_sheet_flow_head (flow, _ ("At power-on, expect"));
  if (assessment != NULL && !assessment->figures.starts)
    {
      lid_sheet_flow_text (flow, _ ("By the rules known here the machine does not start like "
                                    "this: see what stops it."));
      return;
    }
  lid_sheet_flow_pair (flow, _ ("Memory total"), both);
  if (assessment != NULL && assessment->figures.running != LID_RATE_UNKNOWN)
    rate = g_strdup_printf (_ ("%u (setup may call it MHz)"),
                            lid_rate_mts (assessment->figures.running));
  lid_sheet_flow_pair (flow, _ ("Speed"), rate != NULL ? rate : _ ("not told; note it: ______"));
  lid_sheet_flow_pair (flow, _ ("Slots filled"), filled);
  put_power (flow, source);
  put_cautions (flow, source, LID_MOMENT_START);
  lid_sheet_flow_fill (flow, _ ("Powered on at (time)"));
  lid_sheet_flow_fill (flow, _ ("First picture at (time)"));
  put_cautions (flow, source, LID_MOMENT_READ);
  if (source->changes->n_leaving > 0)
    put_cautions (flow, source, LID_MOMENT_LEAVE);
}

/* What stops comes before anything is touched, the rest where the machine runs again. */
static void
put_stops (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, _ ("Stop: this is not ready"));
  lid_sheet_words_findings (flow, source, LID_GRADE_STOPS, LID_GRADE_STOPS);
}

static void
put_losses (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, _ ("Know of this plan"));
  lid_sheet_words_findings (flow, source, LID_GRADE_UNSURE, LID_GRADE_LOSES);
}

static void
put_modules (LidFlow *flow, const LidSheetSource *source)
{
  if (source->n_modules == 0)
    return;
  lid_sheet_flow_head (flow, source->of == LID_PLANNED ? _ ("Modules, when done") : _ ("Modules"));
  lid_sheet_words_modules (flow, source);
}

/**
 * lid_sheet_bench_fill:
 *
 * Fills @flow with the blocks of the bench sheet, in the order of the work.
 */
void
lid_sheet_bench_fill (LidFlow *flow, const LidSheetSource *source)
{
  static void (*const blocks[]) (LidFlow * flow, const LidSheetSource *source)
      = { put_stops, put_before, put_safe,    put_touched,  put_pulls,  put_processors,
          put_fits,  put_close,  put_modules, put_settings, put_expect, put_losses };

  for (guint i = 0; i < G_N_ELEMENTS (blocks); i++)
    blocks[i](flow, source);
}
