/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-geometry-private.h"

/* By channel: the processor is the root, the midrib rises from it, channels are veins left and
 * right, nearest first from below, and slots hang on them. */
typedef struct
{
  LidBoardPlan *plan;
  const LidBoardFit *fit;
  const LidBranch *branch;
  LidBoardScale s;
  LidPlacedLeaf leaf;
  guint index; /* of the leaf */
  double x, y, width, height;
} Put;

static void
put_slot (const Put *put, guint slot, double x, double y)
{
  LidPlacedSlot *placed = &put->plan->g->slots[slot];
  double half = put->s.gap / 2;

  placed->leaf = (int)put->index;
  placed->box = (LidBox){ x, y, put->fit->column, put->fit->cell };
  placed->hit = (LidBox){ x, y - half, put->fit->column, put->fit->cell + 2 * half };
}

/* Slots of one channel from (@x, @y); returns the height they take. */
static double
put_twig_slots (const Put *put, const LidTwig *twig, double x, double y)
{
  guint abreast = put->fit->abreast, lines = (twig->n_slots + abreast - 1) / abreast;

  for (guint i = 0; i < twig->n_slots; i++)
    put_slot (put, twig->slots[i], x + (i % abreast) * (put->fit->column + put->s.gap),
              y + (i / abreast) * (put->fit->cell + put->s.gap));
  return lines * put->fit->cell + (lines - 1) * put->s.gap;
}

static LidVein *
put_vein (const Put *put, const LidTwig *twig, double x, double y, double side)
{
  LidBoardGeometry *g = put->plan->g;
  double thick = CLAMP (lid_board_fit_middle (put->fit) * 0.075, 2.5, 10);
  LidVein vein = { .channel = twig->channel,
                   .leaf = (int)put->index,
                   .type = lid_theme_px (put->s.caption_px, FALSE) };

  vein.caption = (LidBox){ x + put->plan->g->shape.latch, y, side - 2 * put->plan->g->shape.latch,
                           put->s.caption };
  vein.hit = (LidBox){ x, y, side, put->s.caption - put->s.gap / 2 };
  lid_board_words_vein (put->plan, &vein, vein.caption.width, thick);
  g_array_append_val (g->veins, vein);
  return lid_board_geometry_vein (g, g->veins->len - 1);
}

/* One side of the midrib, upwards from the root. */
static void
put_side (Put *put, guint first, guint n, double x, double edge)
{
  double side = put->fit->abreast * put->fit->column + (put->fit->abreast - 1) * put->s.gap;
  double bottom = put->leaf.stem_bottom - put->s.root_gap;
  gboolean left = edge < put->leaf.stem_x;

  for (guint t = first; t < first + n; t++)
    {
      const LidTwig *twig = lid_board_plan_twig (put->plan, t);
      guint lines = (twig->n_slots + put->fit->abreast - 1) / put->fit->abreast;
      double high = lines * put->fit->cell + (lines - 1) * put->s.gap;
      double top = bottom - high, rise, reach = ABS (edge - put->leaf.stem_x);
      LidVein *vein = put_vein (put, twig, x, top - put->s.caption, side);

      put_twig_slots (put, twig, x, top);
      rise = MIN (reach * 0.8, high / 2 + put->s.unit_gap + put->s.caption * 0.5);
      vein->x0 = put->leaf.stem_x;
      vein->y1 = top + high / 2;
      vein->y0 = MIN (vein->y1 + rise, put->leaf.stem_bottom - 3);
      vein->x1 = edge + (left ? 1 : -1) * vein->width * 0.5;
      vein->spine_top = top + put->fit->cell * 0.25;
      vein->spine_bottom = bottom - put->fit->cell * 0.25;
      put->leaf.stem_top = MIN (put->leaf.stem_top, vein->y0 - MAX (10, put->fit->cell * 1.3));
      put->leaf.stem_width += vein->idle ? 0 : vein->width;
      bottom = top - put->s.caption - put->s.unit_gap;
    }
}

static void
put_root (Put *put)
{
  double px = put->s.caption_px, widest, room = put->width + put->s.between * 0.6;
  gboolean two = put->s.root > 3 * px;
  LidPlacedLeaf *leaf = &put->leaf;

  if (!two)
    leaf->under = NULL;

  leaf->type = lid_theme_px (px, TRUE);
  leaf->under_type = lid_theme_px (MIN (px, MAX (13 * put->plan->type, px * 0.94)), FALSE);
  widest = lid_measure_width (put->plan->measure, leaf->type, leaf->title);
  if (leaf->under != NULL)
    widest = MAX (widest, lid_measure_width (put->plan->measure, leaf->under_type, leaf->under));
  widest = MIN (widest + (two ? 2.4 : 1.2) * px, room);
  leaf->box = (LidBox){ put->x + (put->width - widest) / 2, put->y + put->height - put->s.root,
                        widest, put->s.root };
}

static void
put_tree (Put *put)
{
  const LidBranch *branch = put->branch;
  guint left = (branch->n_twigs + 1) / 2;
  double half = lid_board_fit_middle (put->fit) / 2;
  double side = put->fit->abreast * put->fit->column + (put->fit->abreast - 1) * put->s.gap;
  double centre = put->x + put->width / 2;

  put_root (put);
  put->leaf.stem_x = centre;
  put->leaf.stem_bottom = put->leaf.stem_top = put->leaf.box.y;
  if (branch->n_twigs == 1)
    {
      const LidTwig *twig = lid_board_plan_twig (put->plan, branch->first_twig);
      guint lines = (twig->n_slots + put->fit->abreast - 1) / put->fit->abreast;
      double high = lines * put->fit->cell + (lines - 1) * put->s.gap;
      double x = centre - side / 2, top = put->leaf.box.y - put->s.root_gap - high;
      LidVein *vein = put_vein (put, twig, x, top - put->s.caption, side);

      put_twig_slots (put, twig, x, top);
      vein->x0 = vein->x1 = centre;
      vein->y0 = put->leaf.box.y;
      vein->y1 = top + high;
      return;
    }
  put_side (put, branch->first_twig, left, centre - half - side, centre - half);
  put_side (put, branch->first_twig + left, branch->n_twigs - left, centre + half, centre + half);
  put->leaf.stem_width = MIN (put->leaf.stem_width * 0.6, half * 0.6);
}

static void
put_list (Put *put)
{
  guint columns = put->fit->abreast;

  put->leaf.type = lid_theme_px (put->s.caption_px * 1.12, TRUE);
  put->leaf.under_type = lid_theme_px (put->s.caption_px, FALSE);
  put->leaf.box = (LidBox){ put->x, put->y, put->width, put->s.heading * 0.8 };
  for (guint i = 0; i < put->branch->n_twigs; i++)
    put_slot (put, lid_board_plan_twig (put->plan, put->branch->first_twig + i)->slots[0],
              put->x + (i % columns) * (put->fit->column + put->s.gap),
              put->y + put->s.heading + (i / columns) * (put->fit->cell + put->s.gap));
}

static void
put_leaf (LidBoardPlan *plan, const LidBoardFit *fit, guint b, double x, double y, double height)
{
  const LidBranch *branch = lid_board_plan_branch (plan, b);
  Put put = { plan,
              fit,
              branch,
              lid_board_fit_scale (plan, fit),
              { .socket = branch->socket, .list = branch->list },
              b,
              x,
              y,
              0,
              height };

  put.width = lid_board_fit_leaf_width (plan, branch, fit);
  lid_board_words_leaf (plan, &put.leaf);
  if (branch->list)
    put_list (&put);
  else
    put_tree (&put);
  g_array_append_val (plan->g->leaves, put.leaf);
}

static double
row_width (const LidBoardPlan *plan, const LidBoardFit *fit, guint first, guint n)
{
  double width = (n - 1) * lid_board_fit_scale (plan, fit).between;

  for (guint b = first; b < first + n; b++)
    width += lid_board_fit_leaf_width (plan, lid_board_plan_branch (plan, b), fit);
  return width;
}

static double
row_height (const LidBoardPlan *plan, const LidBoardFit *fit, guint first, guint n)
{
  double height = 0;

  for (guint b = first; b < first + n; b++)
    height = MAX (height, lid_board_fit_leaf_height (plan, lid_board_plan_branch (plan, b), fit));
  return height;
}

/**
 * lid_board_leaf_place:
 *
 * Places leaves, veins and slots; grows the area where they need more than there is.
 */
void
lid_board_leaf_place (LidBoardPlan *plan, const LidBoardFit *fit)
{
  LidBoardScale s = lid_board_fit_scale (plan, fit);
  guint n = plan->branches->len;
  double wide = 0, high = 0, y;

  lid_board_words_shape (plan, fit->cell, fit->column);
  plan->g->zoom = fit->cell / LID_BOARD_CELL;
  for (guint b = 0; b < n; b += fit->across)
    {
      guint in_row = MIN (fit->across, n - b);

      wide = MAX (wide, row_width (plan, fit, b, in_row));
      high += row_height (plan, fit, b, in_row) + (b > 0 ? s.between : 0);
    }
  plan->area.width = MAX (plan->area.width, wide);
  plan->area.height = MAX (plan->area.height, high);
  y = plan->area.y + (plan->area.height - high) / 2;
  for (guint b = 0; b < n; b += fit->across)
    {
      guint in_row = MIN (fit->across, n - b);
      double tall = row_height (plan, fit, b, in_row);
      double x = plan->area.x + (plan->area.width - row_width (plan, fit, b, in_row)) / 2;

      for (guint i = b; i < b + in_row; i++)
        {
          double lone = lid_board_plan_branch (plan, i)->list
                            ? lid_board_fit_leaf_height (plan, lid_board_plan_branch (plan, i), fit)
                            : tall;

          put_leaf (plan, fit, i, x, y, lone);
          x += lid_board_fit_leaf_width (plan, lid_board_plan_branch (plan, i), fit) + s.between;
        }
      y += tall + s.between;
    }
}
