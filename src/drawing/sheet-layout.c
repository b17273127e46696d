/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-layout.h"

#include "changeover/stages.h"
#include "drawing/sheet-balance.h"

#include <glib/gi18n-lib.h>

/**
 * lid_sheet_layout_shows:
 * @job: a job
 * @what: which sheet
 *
 * Returns: the population that sheet shows: product.md 11, default rules of the command "sheet"
 */
LidOf
lid_sheet_layout_shows (const LidJob *job, LidSheetFor what)
{
  if (what == LID_SHEET_LID && job->as_left != NULL)
    return LID_AS_LEFT;
  return job->stages != NULL && job->stages->len > 0 ? LID_PLANNED : LID_AS_FOUND;
}

static void
count (LidSheetSource *source)
{
  source->total_told = TRUE;
  for (guint i = 0; i < source->population->n_slots; i++)
    {
      const LidModule *module = source->population->slots[i].module;

      if (module == NULL)
        continue;
      source->n_modules++;
      if (!module->persistent)
        source->total_mib += lid_module_capacity (module);
      source->total_told &= lid_module_knows (module, LID_FACT_CAPACITY);
    }
}

static const char *
title_of (const LidJob *job)
{
  if (job->title != NULL && job->title[0] != 0)
    return job->title;
  return job->board->name != NULL ? job->board->name : _ ("Machine without a name");
}

/* Which population is shown, and from which it is reached. */
static void
find_source (LidSheetSource *source, LidSheetFor what, guint stage, LidPopulation **none)
{
  const LidJob *job = source->job;
  const LidPopulation *from = job->as_found;

  source->of = lid_sheet_layout_shows (job, what);
  source->population = lid_job_get_population (job, source->of);
  if (stage > 0 && stage <= job->stages->len)
    {
      source->of = LID_PLANNED;
      source->stage = stage;
      source->population = ((LidStage *)job->stages->pdata[stage - 1])->population;
      from = lid_stages_before (job, stage);
    }
  if (source->population == NULL)
    source->population = *none = lid_population_new (job->board);
  source->changeover
      = lid_changeover_new (job->board, from, source->population,
                            source->assessment != NULL ? &source->assessment->figures : NULL);
  source->changes = source->changeover->changes;
}

static void
compose (LidLayout *layout, const LidSheetSource *source)
{
  switch (layout->sheet->options.what)
    {
    case LID_SHEET_BALANCE:
      lid_sheet_balance_compose (layout);
      return;
    case LID_SHEET_LID:
      lid_sheet_lid_fill (layout->flow, source);
      break;
    case LID_SHEET_BENCH:
    case LID_N_SHEETS:
    default:
      lid_sheet_bench_fill (layout->flow, source);
    }
  lid_sheet_flow_end (layout->flow);
  lid_sheet_compose_pages (layout);
}

/**
 * lid_sheet_layout_new_stage:
 * @job: with a board, and a population to show
 * @stage: of a plan in stages, from 1: what it makes of the one before it; 0: what
 *   lid_sheet_layout_shows() names, from as found on
 * @assessment: (nullable): of the population shown; without it the sheet
 *   has neither findings nor rate
 * @options: which sheet, which paper
 * @measure: of type
 *
 * Returns: (transfer full): the pages; they borrow texts from @job, which must live as long
 */
LidSheet *
lid_sheet_layout_new_stage (const LidJob *job,
                            guint stage,
                            const LidAssessment *assessment,
                            const LidSheetOptions *options,
                            const LidMeasure *measure)
{
  g_auto (LidFlow) flow = { 0 };
  g_autoptr (LidPopulation) none = NULL;
  g_autoptr (LidMachine) machine = NULL;
  LidSheet *sheet = lid_sheet_new (options);
  LidSheetSource source = { .job = job, .assessment = assessment };
  LidLayout layout = { .sheet = sheet, .measure = *measure, .source = &source, .flow = &flow };

  find_source (&source, options->what, stage, &none);
  count (&source);
  sheet->title = g_strdup (title_of (job));
  sheet->n_slots = job->board->n_slots;
  sheet->looks = g_new0 (LidSlotLook, job->board->n_slots);
  if (options->what == LID_SHEET_BENCH)
    lid_slot_look_bench (sheet->looks, sheet->texts, job->board, source.population, source.changes,
                         assessment);
  else if (options->what == LID_SHEET_LID)
    lid_slot_look_lid (sheet->looks, sheet->texts, job->board, source.population, assessment);
  if (options->what != LID_SHEET_BALANCE)
    machine = lid_sheet_machine_new (sheet, job->board, source.population, assessment);
  layout.machine = machine;
  lid_sheet_words_head (sheet, &source, &layout.head);
  lid_sheet_flow_init (&flow, sheet, measure);
  compose (&layout, &source);
  lid_changeover_free (source.changeover);
  return sheet;
}

/**
 * lid_sheet_layout_new:
 *
 * Returns: (transfer full): as lid_sheet_layout_new_stage(), of the whole plan
 */
LidSheet *
lid_sheet_layout_new (const LidJob *job,
                      const LidAssessment *assessment,
                      const LidSheetOptions *options,
                      const LidMeasure *measure)
{
  return lid_sheet_layout_new_stage (job, 0, assessment, options, measure);
}
