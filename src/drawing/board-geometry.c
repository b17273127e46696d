/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-geometry.h"

#include "drawing/board-geometry-private.h"
#include "drawing/board-notes.h"

#include <math.h>

#define EDGE 16.0    /* free all around */
#define MARGIN 216.0 /* for notes */
#define MOST_MARGIN 270.0
#define MARGIN_GAP 34.0
#define FOOT_LINE 30.0
#define ONE_MARGIN 720.0 /* room from which there is one */
#define TWO_MARGINS 1180.0
#define TWO_MARGINS_MANY 1800.0
#define MANY 48
#define ONE_MARGIN_MOST 1300.0 /* as many as there can be */
#define MOST 96

static void
add_twig (LidBoardPlan *plan, LidBranch *branch, int channel, guint n_slots, guint *slots)
{
  LidTwig twig = { channel, n_slots, slots };

  g_array_append_val (plan->twigs, twig);
  branch->n_twigs++;
}

static void
add_told (LidBoardPlan *plan, int socket)
{
  LidBranch branch = { .socket = socket, .first_twig = plan->twigs->len };

  for (guint c = 0; c < plan->board->n_channels; c++)
    {
      const LidBoardChannel *channel = &plan->board->channels[c];

      if (channel->socket != socket || channel->n_slots == 0)
        continue;
      add_twig (plan, &branch, (int)c, channel->n_slots, channel->slots);
      plan->most_abreast = MAX (plan->most_abreast, channel->n_slots);
    }
  if (branch.n_twigs > 0)
    g_array_append_val (plan->branches, branch);
}

static void
add_untold (LidBoardPlan *plan, int socket)
{
  LidBranch branch = { .socket = socket, .list = TRUE, .first_twig = plan->twigs->len };

  for (guint i = 0; i < plan->board->n_slots; i++)
    if (plan->board->slots[i].channel == LID_NOWHERE && plan->board->slots[i].socket == socket)
      add_twig (plan, &branch, LID_NOWHERE, 1, &plan->alone[i]);
  if (branch.n_twigs > 0)
    g_array_append_val (plan->branches, branch);
}

static void
group (LidBoardPlan *plan)
{
  plan->most_abreast = 1;
  for (int socket = LID_NOWHERE; socket < (int)plan->board->n_sockets; socket++)
    {
      add_told (plan, socket);
      add_untold (plan, socket);
    }
}

/* From how wide on there is a margin. */
static double
one_margin (const LidBoardPlan *plan)
{
  return (plan->board->n_slots > MOST ? ONE_MARGIN_MOST : ONE_MARGIN) * plan->type;
}

/* Room for notes is kept whether or not there is one: a board that moves when a finding comes up
 * moves under the hand. A narrow window keeps a line at the foot. */
static void
set_margins (LidBoardPlan *plan, gboolean noted)
{
  double width = plan->view->width, margin = (MARGIN + MARGIN_GAP) * plan->type;

  plan->noted = noted;
  plan->area = (LidBox){ EDGE, EDGE, width - 2 * EDGE, plan->view->height - 2 * EDGE };
  if (noted)
    plan->area.width -= margin;
  else
    plan->area.height -= FOOT_LINE * plan->type;
  /* Many slots need the room more than the notes do. */
  if (noted && width >= (plan->board->n_slots > MANY ? TWO_MARGINS_MANY : TWO_MARGINS) * plan->type)
    {
      plan->area.x += margin;
      plan->area.width -= margin;
    }
  plan->area.width = MAX (plan->area.width, 120);
  plan->area.height = MAX (plan->area.height, 120);
}

static gboolean
place_lid (LidBoardPlan *plan)
{
  if (!plan->view->lid_off)
    return FALSE;
  /* Bars too narrow for their names get the notes' room too. */
  if (plan->noted && plan->view->zoom <= 0 && lid_board_lid_cell (plan) < LID_BOARD_LEAST_CELL)
    set_margins (plan, FALSE);
  return lid_board_lid_place (plan);
}

/* Left and right end of what is drawn. */
static void
find_ends (const LidBoardGeometry *g, double *left, double *right)
{
  *left = G_MAXDOUBLE;
  *right = -G_MAXDOUBLE;
  for (guint i = 0; i < g->n_slots; i++)
    {
      *left = MIN (*left, g->slots[i].box.x);
      *right = MAX (*right, g->slots[i].box.x + g->slots[i].box.width);
    }
  for (guint i = 0; i < g->leaves->len; i++)
    {
      const LidBox *box = &lid_board_geometry_leaf (g, i)->box;

      *left = MIN (*left, box->x);
      *right = MAX (*right, box->x + box->width);
    }
  if (g->outline.width > 0)
    {
      *left = MIN (*left, g->outline.x);
      *right = MAX (*right, g->outline.x + g->outline.width);
    }
}

/* A board stands in the middle of the window, not of what its notes leave it: where that brings it
 * too near to them it moves as little as needed. */
static void
centre (LidBoardPlan *plan)
{
  LidBoardGeometry *g = plan->g;
  double left, right, by;

  if (g->n_slots == 0)
    return;
  find_ends (g, &left, &right);
  by = MIN ((plan->view->width - left - right) / 2, plan->area.x + plan->area.width - right);
  if (by <= 0)
    return;
  for (guint i = 0; i < g->n_slots; i++)
    {
      g->slots[i].box.x += by;
      g->slots[i].hit.x += by;
    }
  for (guint i = 0; i < g->leaves->len; i++)
    {
      lid_board_geometry_leaf (g, i)->box.x += by;
      lid_board_geometry_leaf (g, i)->stem_x += by;
    }
  for (guint i = 0; i < g->veins->len; i++)
    {
      LidVein *vein = lid_board_geometry_vein (g, i);

      vein->x0 += by;
      vein->x1 += by;
      vein->hit.x += by;
      vein->caption.x += by;
    }
  g->outline.x += by;
}

/* Notes stand near what they speak of, not at the window's edge. */
static void
close_margins (LidBoardPlan *plan)
{
  LidBoardGeometry *g = plan->g;
  double least = MARGIN * plan->type, most = MOST_MARGIN * plan->type, left, right, room;
  gboolean noted = plan->noted && g->n_slots > 0;

  g->height = plan->area.y + plan->area.height + EDGE;
  g->width = MAX (plan->view->width, plan->area.x + plan->area.width + EDGE);
  find_ends (g, &left, &right);
  if (noted)
    {
      g->width = MAX (g->width, right + (MARGIN_GAP + MARGIN) * plan->type + EDGE);
      room = g->width - EDGE - right;
      g->right.width = CLAMP (room - 1.6 * MARGIN_GAP * plan->type, least, most);
      g->right.x = right + MIN (room - g->right.width, 2.4 * MARGIN_GAP * plan->type);
      room = left - EDGE;
      if (room >= (MARGIN + MARGIN_GAP) * plan->type - 1e-6)
        {
          g->left.width = CLAMP (room - 1.6 * MARGIN_GAP * plan->type, least, most);
          g->left.x
              = left - MIN (room - g->left.width, 2.4 * MARGIN_GAP * plan->type) - g->left.width;
        }
      g->left.y = g->right.y = plan->area.y;
      g->left.height = g->right.height = plan->area.height;
    }
  else if (g->n_slots > 0)
    {
      g->foot = (LidBox){ EDGE, g->height - EDGE + 5, g->width - 2 * EDGE,
                          (FOOT_LINE - 5) * plan->type };
      g->height += FOOT_LINE * plan->type;
    }
}

static LidBoardGeometry *
make (const LidBoard *board,
      const LidBoardGeometry *like,
      const LidPopulation *population,
      const LidAssessment *assessment,
      const LidPopulation *before,
      const LidBoardView *view,
      const LidMeasure *measure)
{
  LidBoardGeometry *g = g_new0 (LidBoardGeometry, 1);
  g_autoptr (GArray) twigs = g_array_new (FALSE, FALSE, sizeof (LidTwig));
  g_autoptr (GArray) branches = g_array_new (FALSE, FALSE, sizeof (LidBranch));
  g_autofree guint *alone = g_new (guint, board->n_slots + 1);
  g_autofree const char **names = g_new0 (const char *, LID_BOARD_N_NAMES * board->n_slots + 1);
  LidBoardPlan plan = { .g = g,
                        .like = lid_board_fit_like (like, view),
                        .board = board,
                        .population = population,
                        .assessment = assessment,
                        .view = view,
                        .measure = measure,
                        .type = CLAMP (view->text_scale, 0.5, 4),
                        .alone = alone,
                        .twigs = twigs,
                        .branches = branches,
                        .most_abreast = 1,
                        .names = { names, names + board->n_slots, names + 2 * board->n_slots },
                        .n_names = view->lid_off ? 2 : LID_BOARD_N_NAMES };

  g->board = board;
  g->view = *view;
  g->kept = g_new0 (LidBoardKept, 1);
  g->n_slots = board->n_slots;
  g->slots = g_new0 (LidPlacedSlot, board->n_slots + 1);
  g->looks = g_new0 (LidSlotLook, board->n_slots + 1);
  g->leaves = g_array_new (FALSE, TRUE, sizeof (LidPlacedLeaf));
  g->veins = g_array_new (FALSE, TRUE, sizeof (LidVein));
  g->notes = g_array_new (FALSE, TRUE, sizeof (LidBoardNote));
  g->texts = g_string_chunk_new (4096);
  for (guint i = 0; i < board->n_slots; i++)
    {
      alone[i] = i;
      plan.latched |= board->slots[i].latch_hue != NULL;
    }
  lid_slot_look_board (g->looks, g->texts, board, population, before, assessment);
  set_margins (&plan, view->width >= one_margin (&plan));
  group (&plan);
  lid_board_words_measure (&plan);
  g->lid_off = place_lid (&plan);
  if (!g->lid_off && board->n_slots > 0)
    {
      plan.n_names = LID_BOARD_N_NAMES;
      lid_board_leaf_place (&plan, lid_board_fit_take (&plan));
    }
  centre (&plan);
  close_margins (&plan);
  lid_board_notes_place (g, assessment, measure, plan.type);
  return g;
}

/**
 * lid_board_geometry_new:
 * @board: the machine
 * @population: what sits in it
 * @assessment: (nullable): what the checker says of @population
 * @before: (nullable): as found, for the marks of what changed
 * @view: the room and how it is looked at
 * @measure: of type; see lid_draw_text_measure()
 *
 * Returns: (transfer full): where everything lies. Borrows @board and the findings of @assessment
 *   for as long as it lives; the same input gives the same numbers.
 */
LidBoardGeometry *
lid_board_geometry_new (const LidBoard *board,
                        const LidPopulation *population,
                        const LidAssessment *assessment,
                        const LidPopulation *before,
                        const LidBoardView *view,
                        const LidMeasure *measure)
{
  return make (board, NULL, population, assessment, before, view, measure);
}

/**
 * lid_board_geometry_again:
 * @like: a geometry of the same board, made with the same @measure
 *
 * As lid_board_geometry_new(), after an edit: the same numbers, in half the time where the view is
 * the same.
 */
LidBoardGeometry *
lid_board_geometry_again (const LidBoardGeometry *like,
                          const LidPopulation *population,
                          const LidAssessment *assessment,
                          const LidPopulation *before,
                          const LidBoardView *view,
                          const LidMeasure *measure)
{
  return make (like->board, like, population, assessment, before, view, measure);
}

void
lid_board_geometry_free (LidBoardGeometry *geometry)
{
  if (geometry == NULL)
    return;
  g_free (geometry->slots);
  g_free (geometry->looks);
  g_array_unref (geometry->leaves);
  g_array_unref (geometry->veins);
  g_array_unref (geometry->notes);
  g_string_chunk_free (geometry->texts);
  g_free (geometry->kept);
  g_free (geometry);
}

static gboolean
inside (LidBox box, double x, double y)
{
  return x >= box.x && x < box.x + box.width && y >= box.y && y < box.y + box.height;
}

/**
 * lid_board_geometry_hit:
 * @x: in the drawing's pixels
 *
 * Returns: what lies there
 */
LidHit
lid_board_geometry_hit (const LidBoardGeometry *geometry, double x, double y)
{
  for (guint i = 0; i < geometry->n_slots; i++)
    if (inside (geometry->slots[i].hit, x, y))
      return (LidHit){ LID_HIT_SLOT, i };
  for (guint i = 0; i < geometry->notes->len; i++)
    {
      const LidBoardNote *note = lid_board_geometry_note (geometry, i);

      if (inside (note->link, x, y))
        return (LidHit){ LID_HIT_REMEDY, i };
      if (note->finding != NULL && inside (note->box, x, y)
          && y < note->title_box.y + note->title_box.height + 3)
        return (LidHit){ LID_HIT_WHY, i };
      if (inside (note->box, x, y))
        return (LidHit){ LID_HIT_NOTE, i };
    }
  for (guint i = 0; i < geometry->veins->len; i++)
    if (inside (lid_board_geometry_vein (geometry, i)->hit, x, y))
      return (LidHit){ LID_HIT_CHANNEL, (guint)lid_board_geometry_vein (geometry, i)->channel };
  for (guint i = 0; i < geometry->leaves->len; i++)
    {
      const LidPlacedLeaf *leaf = lid_board_geometry_leaf (geometry, i);

      if (leaf->socket != LID_NOWHERE && inside (leaf->box, x, y))
        return (LidHit){ LID_HIT_PROCESSOR, (guint)leaf->socket };
    }
  return (LidHit){ LID_HIT_NOTHING, 0 };
}

/**
 * lid_board_geometry_neighbour:
 *
 * Returns: the slot an arrow key goes to: the nearest in that direction, what lies straight ahead
 *   before what lies aside; LID_NOWHERE: none. A way that exists leads from every slot to every
 *   other.
 */
int
lid_board_geometry_neighbour (const LidBoardGeometry *geometry, guint slot, LidWay way)
{
  LidBox from = geometry->slots[slot].box;
  double cx = from.x + from.width / 2, cy = from.y + from.height / 2, least = G_MAXDOUBLE;
  int best = LID_NOWHERE;

  for (guint i = 0; i < geometry->n_slots; i++)
    {
      LidBox to = geometry->slots[i].box;
      double dx = to.x + to.width / 2 - cx, dy = to.y + to.height / 2 - cy;
      gboolean across = way == LID_WAY_LEFT || way == LID_WAY_RIGHT;
      double ahead = across ? dx : dy, aside = fabs (across ? dy : dx), cost;

      if (way == LID_WAY_LEFT || way == LID_WAY_UP)
        ahead = -ahead;
      if (i == slot || ahead < 1)
        continue;
      cost = ahead + 3 * aside;
      if (cost < least - 1e-6)
        {
          least = cost;
          best = (int)i;
        }
    }
  return best;
}
