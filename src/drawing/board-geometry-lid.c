/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-geometry-private.h"

#include <math.h>

#define PAD 16.0 /* from the slots that lie at its edge to the board's */

/* Lid off: slots where they lie on the board, to scale, as the hand sees them. */
typedef struct
{
  LidBoardPlan *plan;
  double scale; /* pixels per mm */
  double x, y;  /* of the board's corner */
} Put;

static LidBox
place_mm (const LidBoardSlot *slot)
{
  LidBox box = { slot->x, slot->y, slot->width, slot->height };
  double turn = fmod (fabs (slot->turn), 180);

  /* A slot is drawn straight: a quarter turn about its middle changes its sides, less is left. */
  if (turn > 45 && turn < 135)
    {
      box.x += (slot->width - slot->height) / 2;
      box.y += (slot->height - slot->width) / 2;
      box.width = slot->height;
      box.height = slot->width;
    }
  return box;
}

static double
apart (LidBox a, LidBox b)
{
  double dx = MAX (a.x - (b.x + b.width), b.x - (a.x + a.width));
  double dy = MAX (a.y - (b.y + b.height), b.y - (a.y + a.height));

  return MAX (dx, dy);
}

/* Least distance between two slots, mm; negative: they overlap. */
static double
least_gap (const LidBoard *board)
{
  double least = 12;

  for (guint i = 0; i < board->n_slots; i++)
    for (guint k = 0; k < i; k++)
      least = MIN (least, apart (place_mm (&board->slots[i]), place_mm (&board->slots[k])));
  return least;
}

static gboolean
can_be_drawn (const LidBoard *board)
{
  if (!board->placed || board->n_slots == 0 || board->width_mm <= 0 || board->height_mm <= 0)
    return FALSE;
  for (guint i = 0; i < board->n_slots; i++)
    {
      LidBox box = place_mm (&board->slots[i]);

      if (box.width <= 0 || box.height <= 0 || box.x < 0 || box.y < 0
          || box.x + box.width > board->width_mm || box.y + box.height > board->height_mm)
        return FALSE;
    }
  return least_gap (board) >= 0;
}

static LidBox
scaled (const Put *put, LidBox mm)
{
  return (LidBox){ put->x + mm.x * put->scale, put->y + mm.y * put->scale, mm.width * put->scale,
                   mm.height * put->scale };
}

static void
put_slots (const Put *put, double half_gap)
{
  LidBoardPlan *plan = put->plan;

  for (guint i = 0; i < plan->board->n_slots; i++)
    {
      LidPlacedSlot *placed = &plan->g->slots[i];
      LidBox box = scaled (put, place_mm (&plan->board->slots[i]));

      placed->leaf = LID_NOWHERE;
      placed->box = box;
      placed->upright = box.height > box.width;
      placed->hit = (LidBox){ box.x - half_gap, box.y - half_gap, box.width + 2 * half_gap,
                              box.height + 2 * half_gap };
    }
}

static gboolean
covered (const LidBoardGeometry *g, LidBox box)
{
  for (guint i = 0; i < g->n_slots; i++)
    if (apart (g->slots[i].box, box) < 0)
      return TRUE;
  return FALSE;
}

static LidBox
bounds (const LidBoardGeometry *g, const LidBoardChannel *channel)
{
  LidBox b = g->slots[channel->slots[0]].box;

  for (guint s = 1; s < channel->n_slots; s++)
    lid_box_unite (&b, g->slots[channel->slots[s]].box);
  return b;
}

/* A channel's vein lies flat under its slots, its words below; @above: over them, its words above.
 */
static LidVein
vein_of (const LidBoardPlan *plan, guint channel, double px, gboolean above)
{
  LidBox b = bounds (plan->g, &plan->board->channels[channel]);
  double line = above ? b.y - 7 : b.y + b.height + 7;

  return (LidVein){
    .channel = (int)channel,
    .leaf = LID_NOWHERE,
    .form = LID_VEIN_RULE,
    .type = lid_theme_px (px, FALSE),
    .x0 = b.x + 1,
    .x1 = b.x + b.width - 1,
    .y0 = line,
    .y1 = line,
    .caption = { b.x, above ? line - 5 - px * 1.4 : line + 5, b.width, px * 1.4 },
    .hit = { b.x, above ? line - 5 - px * 1.4 : line - 5, b.width, px * 1.4 + 10 },
  };
}

static gboolean
has_vein (const LidBoardGeometry *g, guint channel)
{
  for (guint i = 0; i < g->veins->len; i++)
    if (g_array_index (g->veins, LidVein, i).channel == (int)channel)
      return TRUE;
  return FALSE;
}

/* Neither on a slot nor on another channel's words, nor over the board's edge. */
static gboolean
is_free (const LidBoardGeometry *g, const LidVein *vein)
{
  for (guint i = 0; i < g->veins->len; i++)
    if (apart (g_array_index (g->veins, LidVein, i).hit, vein->hit) < 0)
      return FALSE;
  return vein->hit.y > g->outline.y && !covered (g, vein->hit);
}

/* Below where there is room, then above those that have it there. */
static void
put_channels (const Put *put, double px)
{
  LidBoardPlan *plan = put->plan;

  for (guint pass = 0; pass < 2; pass++)
    for (guint c = 0; c < plan->board->n_channels; c++)
      {
        LidVein vein;

        if (plan->board->channels[c].n_slots == 0 || has_vein (plan->g, c))
          continue;
        vein = vein_of (plan, c, px, pass == 1);
        if (pass == 0 ? covered (plan->g, vein.hit) : !is_free (plan->g, &vein))
          continue;
        lid_board_words_vein (plan, &vein, vein.caption.width, 5);
        g_array_append_val (plan->g->veins, vein);
      }
}

static int
compare_slots (gconstpointer a, gconstpointer b)
{
  const LidBox *x = a, *y = b;

  return x->x < y->x ? -1 : x->x > y->x;
}

/* Boards do not tell where a processor lies; it is the widest gap between its slots. */
static void
put_processor (const Put *put, int socket, double px)
{
  LidBoardPlan *plan = put->plan;
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (LidBox));
  LidPlacedLeaf leaf = { .socket = socket,
                         .type = lid_theme_px (px, TRUE),
                         .under_type = lid_theme_px (px, FALSE) };
  double widest = 0, need, high = px * 3.9;

  for (guint i = 0; i < plan->board->n_slots; i++)
    if (plan->board->slots[i].socket == socket)
      g_array_append_val (boxes, plan->g->slots[i].box);
  g_array_sort (boxes, compare_slots);
  lid_board_words_leaf (plan, &leaf);
  need = lid_measure_width (plan->measure, leaf.type, leaf.title) + 2 * px;
  for (guint i = 1; i < boxes->len; i++)
    {
      LidBox a = g_array_index (boxes, LidBox, i - 1), b = g_array_index (boxes, LidBox, i);
      double gap = b.x - (a.x + a.width);

      if (gap > widest && gap > need)
        {
          double wide = MIN (gap * 0.8, MAX (need, 190)),
                 tall = MAX (high, MIN (wide * 0.8, a.height * 0.5));

          widest = gap;
          leaf.box = (LidBox){ a.x + a.width + (gap - wide) / 2, a.y + (a.height - tall) / 2, wide,
                               tall };
        }
    }
  /* Half a number says the wrong one: left out where there is no room for all of it. */
  if (leaf.under != NULL
      && lid_measure_width (plan->measure, leaf.under_type, leaf.under) > leaf.box.width - px * 0.6)
    leaf.under = NULL;
  if (widest > 0)
    g_array_append_val (plan->g->leaves, leaf);
}

/* A channel's words lie under its slots, which may be at the board's very edge: its outline goes
 * round them too, and not through. */
static void
hold_captions (LidBoardPlan *plan)
{
  LidBox *outline = &plan->g->outline;

  for (guint i = 0; i < plan->g->veins->len; i++)
    {
      LidBox caption = g_array_index (plan->g->veins, LidVein, i).caption;

      outline->height = MAX (outline->height, caption.y + caption.height + PAD / 4 - outline->y);
    }
  plan->area.height = MAX (plan->area.height, outline->y + outline->height - plan->area.y);
}

/* Pixels per mm of a board that is fitted into the room there is. */
static double
fitted_scale (const LidBoardPlan *plan)
{
  return MIN ((plan->area.width - 2 * PAD) / plan->board->width_mm,
              (plan->area.height - 2 * PAD) / plan->board->height_mm);
}

static void
find_slot_mm (const LidBoard *board, double *cell, double *column)
{
  *cell = *column = G_MAXDOUBLE;
  for (guint i = 0; i < board->n_slots; i++)
    {
      LidBox box = place_mm (&board->slots[i]);

      *cell = MIN (*cell, MIN (box.width, box.height));
      *column = MIN (*column, MAX (box.width, box.height));
    }
}

/**
 * lid_board_lid_cell:
 *
 * Returns: how thin the thinnest slot gets where the whole board is fitted
 */
double
lid_board_lid_cell (const LidBoardPlan *plan)
{
  double cell, column;

  if (!can_be_drawn (plan->board))
    return LID_BOARD_CELL;
  find_slot_mm (plan->board, &cell, &column);
  return cell * fitted_scale (plan);
}

/**
 * lid_board_lid_place:
 *
 * Returns: %FALSE where the board does not tell where its slots lie, or tells what cannot be
 */
gboolean
lid_board_lid_place (LidBoardPlan *plan)
{
  const LidBoard *board = plan->board;
  double gap, cell, column, px, wide, high;
  Put put = { plan, 0, 0, 0 };

  if (!can_be_drawn (board))
    return FALSE;
  gap = least_gap (board);
  find_slot_mm (board, &cell, &column);
  put.scale = fitted_scale (plan);
  /* A small board is not blown up until its slots are doors. */
  put.scale = MIN (put.scale, 2.2 * LID_BOARD_CELL / (cell + gap));
  if (plan->view->zoom > 0)
    put.scale = plan->view->zoom * LID_BOARD_CELL / (cell + gap);
  wide = board->width_mm * put.scale + 2 * PAD;
  high = board->height_mm * put.scale + 2 * PAD;
  plan->area.width = MAX (plan->area.width, wide);
  plan->area.height = MAX (plan->area.height, high);
  plan->g->outline = (LidBox){ plan->area.x + (plan->area.width - wide) / 2,
                               plan->area.y + (plan->area.height - high) / 2, wide, high };
  put.x = plan->g->outline.x + PAD;
  put.y = plan->g->outline.y + PAD;
  plan->g->zoom = (cell + gap) * put.scale / LID_BOARD_CELL;
  put_slots (&put, gap * put.scale / 2);
  lid_board_words_shape (plan, cell * put.scale, column * put.scale);
  px = lid_board_scale (plan, (cell + gap) * put.scale).caption_px;
  px = MAX (px, MIN (LID_BOARD_LEAST_PX, (cell + gap) * put.scale * 0.8));
  /* Where slots are few and large their names are the largest words. */
  px = MIN (px, MAX (plan->g->shape.name_type.pt * LID_MM_PER_PT, LID_BOARD_LEAST_PX));
  put_channels (&put, px);
  hold_captions (plan);
  for (guint s = 0; s < board->n_sockets; s++)
    put_processor (&put, (int)s, px);
  return TRUE;
}
