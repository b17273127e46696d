/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-words.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>

/* The page to work by. Order of the work: common practice, no source; ESD: ANSI/ESD S20.20, scope
 * as published by the ANSI web store; modules stay hot after power-down: common practice; training
 * up to 15 minutes: the memory maker's FAQ KTM-012711-GEN-20 on DDR5 training time. The cautions
 * stand beside the step they belong to. A new block is one function and one line in
 * lid_sheet_bench_fill(). */
#define MOST_STEPS 14u /* more pulls or fits than this are told as boxes to tick, by slot */

static void
put_before (LidFlow *flow, const LidSheetSource *source)
{
  const LidPopulation *found = source->job->as_found;
  const char *now = found != NULL ? found->firmware : NULL;
  const char *then = source->population->firmware;

  lid_sheet_flow_head (flow, _ ("Before you start"));
  lid_sheet_flow_tick (flow, _ ("Owner: backup made and read back? Recovery key of any disk "
                                "encryption at hand?"));
  lid_sheet_flow_tick (flow, _ ("Photograph the slots; note error counters and firmware level."));
  if (source->of == LID_PLANNED && then != NULL && g_strcmp0 (now, then) != 0)
    {
      g_autofree char *text
          = now != NULL
                ? g_strdup_printf (_ ("Firmware first, with the old modules in: from %s to %s."),
                                   now, then)
                : g_strdup_printf (_ ("Firmware first, with the old modules in: to %s."), then);

      lid_sheet_flow_tick (flow, text);
    }
}

static void
put_safe (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, _ ("Make it safe"));
  lid_sheet_flow_tick (flow, _ ("Shut down. Every supply cord out: with one in, standby power is "
                                "on."));
  lid_sheet_flow_tick (flow, _ ("Press the power button to drain; wait until the standby lamp on "
                                "the board is out."));
  lid_sheet_flow_tick (flow, _ ("ESD strap on bare skin, clipped to bare chassis metal; modules "
                                "stay in their bags until then."));
  lid_sheet_flow_tick (flow, _ ("Modules may be hot: let them cool. Sheet metal has sharp edges."));
  lid_sheet_flow_tick (flow, source->job->board->has_baffle || source->job->board->derived
                                 ? _ ("Air baffle off; it goes back before power-on.")
                                 : _ ("Nothing loose over the board; tools counted."));
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
    text
        = g_strdup_printf (_ ("%s, for slot %s"), what, source->job->board->slots[change->to].name);
  else if (change->before->persistent)
    text = g_strdup_printf (_ ("%s. Holds data: only with the owner's written release"), what);
  else
    text = g_strdup_printf (_ ("%s, out: bag and tag"), what);
  lid_sheet_flow_step (flow, change->mat, FALSE, source->job->board->slots[slot].name, text);
}

static void
put_pulls (LidFlow *flow, const LidSheetSource *source)
{
  const LidChanges *changes = source->changes;
  gboolean data = FALSE;

  if (changes->n_pulled == 0)
    return;
  lid_sheet_flow_head (flow, _ ("Pull, each to its numbered place on the mat"));
  for (guint i = 0; i < changes->n_pulled; i++)
    {
      guint slot = changes->pulled[i];

      data |= changes->slots[slot].before->persistent;
      if (changes->n_pulled <= MOST_STEPS)
        put_pull (flow, source, slot);
      else
        lid_sheet_flow_cell (flow, i + 1, FALSE, source->job->board->slots[slot].name);
    }
  if (data && changes->n_pulled > MOST_STEPS)
    lid_sheet_flow_tick (flow, _ ("Persistent modules hold data: pull them only with the owner's "
                                  "written release."));
}

static void
put_fit (LidFlow *flow, const LidSheetSource *source, guint slot)
{
  const LidSlotChange *change = &source->changes->slots[slot];
  const char *what = module_words (flow, change->after);
  g_autofree char *text = NULL;

  if (change->kind == LID_CHANGE_MOVED)
    text = g_strdup_printf (_ ("%s, from mat %u"), what, source->changes->slots[change->from].mat);
  else if (change->after->bin != NULL)
    text = g_strdup_printf (_ ("%s, new, bin %s"), what, change->after->bin);
  else
    text = g_strdup_printf (_ ("%s, new"), what);
  lid_sheet_flow_step (flow, change->fit, TRUE, source->job->board->slots[slot].name, text);
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
  for (guint i = 0; i < changes->n_fitted; i++)
    if (changes->n_fitted <= MOST_STEPS)
      put_fit (flow, source, changes->fitted[i]);
    else
      lid_sheet_flow_cell (flow, i + 1, TRUE, source->job->board->slots[changes->fitted[i]].name);
}

static void
put_each (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, source->changes->n_fitted > 0 ? _ ("At every module")
                                                           : _ ("If a module is touched"));
  lid_sheet_flow_tick (flow, _ ("Hold it by the edges, never the contacts. Open the latches; some "
                                "slots have one fixed end."));
  lid_sheet_flow_tick (flow, _ ("The notch is off centre: line it up with the key. Never force."));
  lid_sheet_flow_tick (flow, _ ("Press both ends straight down until the latches click by "
                                "themselves: two clicks."));
  lid_sheet_flow_tick (flow, _ ("All tops level along the row, every latch upright, nothing "
                                "dropped inside?"));
  lid_sheet_flow_tick (flow, _ ("Blanks in empty slots, baffle and lid back before power-on."));
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
  lid_sheet_flow_text (flow, _ ("Memory trains at the first start: a black screen for up to 15 "
                                "minutes and a restart or two can be normal. Do not cut power."));
  lid_sheet_flow_fill (flow, _ ("Powered on at (time)"));
  lid_sheet_flow_fill (flow, _ ("First picture at (time)"));
  lid_sheet_flow_tick (flow, _ ("Count slots, not only the total: a lost channel keeps its speed. "
                                "Error counters at zero?"));
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
      = { put_stops, put_before,  put_safe,     put_pulls,  put_fits,
          put_each,  put_modules, put_settings, put_expect, put_losses };

  for (guint i = 0; i < G_N_ELEMENTS (blocks); i++)
    blocks[i](flow, source);
}
