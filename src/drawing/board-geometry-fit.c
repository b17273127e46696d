/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-geometry-private.h"

/* How large, and how many side by side: tries the few arrangements there are and keeps the one in
 * which most can be read. Looks at the board and the room, not at what is fitted. */
#define MOST_CELL 60.0
#define TWO_LINES 30.0 /* from here on a processor has a second line */
#define MOST_LIST_COLUMNS 8

/**
 * lid_board_scale:
 * @cell: a slot's height
 *
 * Returns: the lengths that go with it; by channel no type is ever under LID_BOARD_LEAST_PX
 */
LidBoardScale
lid_board_scale (const LidBoardPlan *plan, double cell)
{
  LidBoardScale s;

  s.name = MAX (LID_BOARD_LEAST_PX, MIN (0.62 * cell, MAX (15 * plan->type, 0.34 * cell)));
  s.name = MIN (s.name, 0.84 * cell); /* lid off a slot is as narrow as it is */
  s.caption_px = MAX (LID_BOARD_LEAST_PX,
                      MIN (0.5 * cell, MAX (LID_BOARD_LEAST_PX * plan->type, 0.3 * cell)));
  s.gap = MAX (2, 0.08 * cell);
  s.caption = s.caption_px * (cell < TWO_LINES ? 1.3 : 1.5);
  s.unit_gap = MAX (3, 0.3 * cell);
  s.root = s.caption_px * (cell < TWO_LINES ? 1.9 : 3.9);
  s.root_gap = MAX (8, 0.55 * cell);
  s.heading = s.caption_px * 3.2;
  s.between = MAX (12, 0.45 * cell);
  return s;
}

/**
 * lid_board_fit_scale:
 *
 * Returns: the lengths of a fit: where a small board leaves room, its channels stand further apart
 */
LidBoardScale
lid_board_fit_scale (const LidBoardPlan *plan, const LidBoardFit *fit)
{
  LidBoardScale s = lid_board_scale (plan, fit->cell);

  s.unit_gap += fit->spread;
  s.root_gap += fit->spread * 0.5;
  return s;
}

/* Between the columns, where the midrib stands. */
double
lid_board_fit_middle (const LidBoardFit *fit)
{
  return CLAMP (fit->column * fit->abreast * 0.5, 15, MAX (36, 3.6 * fit->cell));
}

static guint
lines_of (const LidTwig *twig, guint abreast)
{
  return (twig->n_slots + abreast - 1) / abreast;
}

static double
side_height (
    const LidBoardPlan *plan, guint first, guint n, const LidBoardFit *fit, const LidBoardScale *s)
{
  double high = 0;

  for (guint t = first; t < first + n; t++)
    {
      guint lines = lines_of (lid_board_plan_twig (plan, t), fit->abreast);

      high += s->caption + lines * fit->cell + (lines - 1) * s->gap + s->unit_gap;
    }
  return high;
}

double
lid_board_fit_leaf_width (const LidBoardPlan *plan, const LidBranch *branch, const LidBoardFit *fit)
{
  LidBoardScale s = lid_board_fit_scale (plan, fit);
  double side = fit->abreast * fit->column + (fit->abreast - 1) * s.gap;

  if (branch->list)
    {
      guint columns = MIN (fit->abreast, MAX (branch->n_twigs, 1));

      return columns * fit->column + (columns - 1) * s.gap;
    }
  return branch->n_twigs == 1 ? side : 2 * side + lid_board_fit_middle (fit);
}

double
lid_board_fit_leaf_height (const LidBoardPlan *plan,
                           const LidBranch *branch,
                           const LidBoardFit *fit)
{
  LidBoardScale s = lid_board_fit_scale (plan, fit);
  guint left = (branch->n_twigs + 1) / 2;

  if (branch->list)
    return s.heading + ((branch->n_twigs + fit->abreast - 1) / fit->abreast) * (fit->cell + s.gap);
  return MAX (side_height (plan, branch->first_twig, left, fit, &s),
              side_height (plan, branch->first_twig + left, branch->n_twigs - left, fit, &s))
         + s.root_gap + s.root;
}

static double
total_height (const LidBoardPlan *plan, const LidBoardFit *fit)
{
  double total = 0, row = 0;

  for (guint b = 0; b < plan->branches->len; b++)
    {
      row = MAX (row, lid_board_fit_leaf_height (plan, lid_board_plan_branch (plan, b), fit));
      if (b % fit->across == fit->across - 1 || b + 1 == plan->branches->len)
        {
          total += row + (total > 0 ? lid_board_fit_scale (plan, fit).between : 0);
          row = 0;
        }
    }
  return total;
}

/* Widest column that leaves room for @fit->across leaves. */
static double
widest_column (const LidBoardPlan *plan, LidBoardFit fit)
{
  LidBoardScale s = lid_board_scale (plan, fit.cell);
  double room = (plan->area.width - (fit.across - 1) * s.between) / fit.across;
  double low = 8, high = MAX (6.6 * fit.cell,
                              lid_board_words_need (plan, fit.cell, LID_WORDS_MEDIUM, 0) * 1.12);

  for (guint step = 0; step < 12; step++)
    {
      double widest = 0;

      fit.column = (low + high) / 2;
      for (guint b = 0; b < plan->branches->len; b++)
        widest
            = MAX (widest, lid_board_fit_leaf_width (plan, lid_board_plan_branch (plan, b), &fit));
      if (widest <= room)
        low = fit.column;
      else
        high = fit.column;
    }
  return low;
}

static double
tallest_cell (const LidBoardPlan *plan, LidBoardFit fit, double most)
{
  double low = LID_BOARD_LEAST_CELL, high = most;

  fit.column = 100;
  for (guint step = 0; step < 9; step++)
    {
      fit.cell = (low + high) / 2;
      if (total_height (plan, &fit) <= plan->area.height)
        low = fit.cell;
      else
        high = fit.cell;
    }
  return low;
}

static double
judge (const LidBoardPlan *plan, const LidBoardFit *fit)
{
  LidBoardTold told = lid_board_words_told (plan, fit->cell, fit->column);
  double high = total_height (plan, fit);
  double worth = told.worth * MIN (fit->cell / 40, 1) * (fit->abreast > 1 ? 0.92 : 1);

  /* What does not fit in has to be scrolled. */
  if (!told.fits)
    worth = 0.1 * fit->column / lid_board_words_need (plan, fit->cell, -1, plan->n_names - 1);
  return high > plan->area.height ? worth * 0.3 * plan->area.height / high : worth;
}

static void
try_one (const LidBoardPlan *plan, guint across, guint abreast, LidBoardFit *best)
{
  LidBoardFit fit = { .across = across,
                      .rows = (plan->branches->len + across - 1) / across,
                      .abreast = abreast };
  double most = tallest_cell (plan, fit, MAX (MOST_CELL, 34 * plan->type));

  /* A lower slot has smaller type and may so show more: hence not the tallest alone. */
  for (double share = 1; share > 0.6; share -= 0.13)
    {
      fit.cell = MAX (LID_BOARD_LEAST_CELL, most * share);
      fit.column = widest_column (plan, fit);
      fit.quality = judge (plan, &fit);
      if (fit.quality > best->quality + 1e-6)
        *best = fit;
    }
}

/* What a small board leaves of the height goes between its channels, as far as it looks one. */
static void
spread (const LidBoardPlan *plan, LidBoardFit *fit)
{
  double left = plan->area.height - total_height (plan, fit);
  guint rows = 0;

  for (guint b = 0; b < plan->branches->len; b += fit->across)
    {
      guint most = 0;

      for (guint i = b; i < MIN (b + fit->across, plan->branches->len); i++)
        most = MAX (most, (lid_board_plan_branch (plan, i)->n_twigs + 1) / 2);
      rows += most;
    }
  if (left > 0)
    fit->spread = MIN (left * 0.8 / (rows + 0.5 * fit->rows), fit->cell);
}

static void
take_zoom (const LidBoardPlan *plan, LidBoardFit *fit)
{
  double cell = LID_BOARD_CELL * plan->view->zoom;

  fit->column = MAX (fit->column * cell / fit->cell,
                     lid_board_words_need (plan, cell, LID_WORDS_MEDIUM, 0));
  fit->cell = cell;
}

/* Two beside each other and a third below them would tell an order that is not there. */
static gboolean
is_even (const LidBoardPlan *plan, guint abreast)
{
  for (guint t = 0; t < plan->twigs->len; t++)
    {
      guint n = lid_board_plan_twig (plan, t)->n_slots;

      if (n > abreast && n % abreast != 0)
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_board_fit_find:
 *
 * Returns: the arrangement in which most can be read; the view's zoom changes its size, never the
 *   arrangement
 */
LidBoardFit
lid_board_fit_find (const LidBoardPlan *plan)
{
  LidBoardFit best = { .quality = -1 };
  guint most = plan->most_abreast;

  for (guint b = 0; b < plan->branches->len; b++)
    if (lid_board_plan_branch (plan, b)->list)
      most = MAX (most, MIN (MOST_LIST_COLUMNS, lid_board_plan_branch (plan, b)->n_twigs));
  for (guint across = 1; across <= plan->branches->len; across++)
    for (guint abreast = 1; abreast <= most; abreast++)
      if (is_even (plan, abreast))
        try_one (plan, across, abreast, &best);
  if (plan->view->zoom > 0)
    take_zoom (plan, &best);
  best.column = MAX (best.column, lid_board_words_need (plan, best.cell, -1, plan->n_names - 1));
  spread (plan, &best);
  return best;
}

/**
 * lid_board_fit_like:
 * @like: (nullable): a geometry of the same board
 *
 * Returns: (transfer none) (nullable): @like, where it is looked at in the same way
 */
const LidBoardGeometry *
lid_board_fit_like (const LidBoardGeometry *like, const LidBoardView *view)
{
  const LidBoardView *old = like != NULL ? &like->view : NULL;

  return old != NULL && old->lid_off == view->lid_off && old->width == view->width
                 && old->height == view->height && old->zoom == view->zoom
                 && old->text_scale == view->text_scale
             ? like
             : NULL;
}

/**
 * lid_board_fit_take:
 *
 * How the slots are spread does not depend on what sits in them, and the search for it costs half
 * of an edit.
 *
 * Returns: (transfer none): lid_board_fit_find(), or what the plan's like was spread by; kept
 */
const LidBoardFit *
lid_board_fit_take (const LidBoardPlan *plan)
{
  LidBoardKept *kept = lid_board_geometry_kept (plan->g);

  kept->spread = TRUE;
  if (plan->like != NULL && lid_board_geometry_kept (plan->like)->spread)
    kept->fit = lid_board_geometry_kept (plan->like)->fit;
  else
    kept->fit = lid_board_fit_find (plan);
  return &kept->fit;
}
