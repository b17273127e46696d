/* SPDX-License-Identifier: GPL-3.0-or-later */
/* rated.c: whether the rate of a population is known whatever it is, by its fillings alone.
 *
 * A rating that is not told, or a table that an unknown fact chooses in, leaves the rate not known
 * in any population. A processor or a firmware level that is not told does so only while the least
 * it can be is below everything that is told (running-rate.c). So a filling that alone has no known
 * rate for no other reason closes at a rate: beside any filling that runs no faster than that, the
 * rate is known. Without this every list of a machine whose processors nobody told is asked about
 * twice, once in vain.
 *
 * The caps of a machine are those of its channels together, as long as one group runs at one rate
 * and no voltage is chosen by all; otherwise nothing closes. */
#include "planner/search.h"

#include "figures/running-rate.h"

static LidRate
least_of_processors (const LidBoard *board)
{
  LidRate least = G_MAXUINT32;

  for (guint i = 0; i < board->n_processors; i++)
    for (guint k = 0; k < LID_N_KINDS; k++)
      if (board->processors[i].rate[k] != LID_RATE_UNKNOWN)
        least = MIN (least, board->processors[i].rate[k]);
  return least;
}

static LidRate
least_of_firmware (const LidBoard *board)
{
  LidRate least = G_MAXUINT32;

  for (guint i = 0; i < board->n_firmware; i++)
    if (board->firmware[i].ceiling != LID_RATE_UNKNOWN)
      least = MIN (least, board->firmware[i].ceiling);
  return least;
}

/**
 * lid_plan_rated_closes:
 * @kinds: a filling of some slots whose rate alone is not known
 *
 * Returns: beside a module or a channel that runs no faster than this the rate is known;
 *   LID_RATE_UNKNOWN: that is not sure at any rate
 */
LidRate
lid_plan_rated_closes (const LidPlanJudge *judge, const int *kinds)
{
  const LidBoard *board = judge->question->board;
  g_autoptr (LidPopulation) population = lid_plan_judge_build (judge, kinds);
  g_autoptr (LidSurvey) survey = lid_survey_new (board, population);
  LidRate closes = G_MAXUINT32;
  LidFigures figures;

  if (board->rate_per_socket || lid_plan_fillings_voltage_matters (board))
    return LID_RATE_UNKNOWN;
  lid_figures_init (&figures, board);
  lid_running_rate_compute (survey, NULL, &figures);
  for (guint i = 0; i < figures.n_limits; i++)
    {
      if (figures.limits[i].rate != LID_RATE_UNKNOWN)
        continue;
      if (figures.limits[i].what == LID_CAP_PROCESSOR)
        closes = MIN (closes, least_of_processors (board));
      else if (figures.limits[i].what == LID_CAP_FIRMWARE)
        closes = MIN (closes, least_of_firmware (board));
      else
        closes = LID_RATE_UNKNOWN;
    }
  lid_figures_clear (&figures);
  return closes < G_MAXUINT32 ? closes : LID_RATE_UNKNOWN;
}

/* Whether populations whose rate is known are of no use to the pass at all. */
static gboolean
is_no_matter (const LidPlanSearch *search)
{
  return search->best.rated || search->front->what == LID_WISH_CHEAPEST
         || search->fillings->unrated_base;
}

/**
 * lid_plan_rated_above:
 * @search: at the beginning of a pass
 *
 * Returns: a population of the pass has no filling that runs at this or less: where the rate is not
 *   to be known, it would be, beside whichever filling leaves it open
 */
LidRate
lid_plan_rated_above (const LidPlanSearch *search)
{
  return is_no_matter (search) ? LID_RATE_UNKNOWN : search->fillings->closes;
}

/**
 * lid_plan_rated_steps:
 * @search: every column has its step
 *
 * Returns: whether the rate is not to be known, and is, whichever fillings of the steps are taken
 */
gboolean
lid_plan_rated_steps (const LidPlanSearch *search)
{
  LidRate told = G_MAXUINT32, closes = G_MAXUINT32;

  for (guint i = 0; i < search->columns->columns->len && !is_no_matter (search); i++)
    {
      guint group = lid_plan_columns_at (search->columns, i)->group;
      const LidPlanStep *step
          = &g_array_index (search->bounds.steps[group], LidPlanStep, search->picked[i]);

      told = MIN (told, step->told);
      closes = MIN (closes, step->closes);
    }
  return !is_no_matter (search) && (closes == G_MAXUINT32 || told <= closes);
}

/**
 * lid_plan_rated_fillings:
 * @search: every column has its filling
 *
 * Returns: whether the rate is not to be known, and is
 */
gboolean
lid_plan_rated_fillings (const LidPlanSearch *search)
{
  LidRate told = G_MAXUINT32, closes = G_MAXUINT32;

  for (guint i = 0; i < search->columns->columns->len && !is_no_matter (search); i++)
    {
      const LidPlanFilling *filling = lid_plan_fillings_at (
          search->fillings, lid_plan_columns_at (search->columns, i)->group, search->chosen[i]);

      told = MIN (told, filling->rate);
      closes = MIN (closes, filling->closes);
    }
  return !is_no_matter (search) && (closes == G_MAXUINT32 || told <= closes);
}
