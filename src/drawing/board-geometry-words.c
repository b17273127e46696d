/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "drawing/board-geometry-private.h"
#include "figures/bandwidth.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The words on the board and the room they need. Room is kept for modules as large as they come,
 * so that nothing moves when another one is fitted. */
static const char *const sample[LID_N_WORDS]
    = { "128 GB", "128 GB 2Rx4 3200", "128 GB 2Rx4 registered 3200" };

static const char *
keep (LidBoardPlan *plan, char *text)
{
  const char *kept = g_string_chunk_insert_const (plan->g->texts, text);

  g_free (text);
  return kept;
}

static double
latch_width (const LidBoardPlan *plan, double cell)
{
  return plan->latched ? CLAMP (0.2 * cell, 3, 12) : 0;
}

static double
trailer_width (double cell)
{
  return CLAMP (0.75 * cell, 6, 44);
}

/**
 * lid_board_words_measure:
 *
 * How wide the words get, asked once: type grows evenly.
 */
void
lid_board_words_measure (LidBoardPlan *plan)
{
  LidBoardKept *kept = lid_board_geometry_kept (plan->g);

  if (plan->like != NULL)
    memcpy (plan->words_em, lid_board_geometry_kept (plan->like)->words_em, sizeof plan->words_em);
  for (guint w = 0; plan->like == NULL && w < LID_N_WORDS; w++)
    plan->words_em[w] = lid_measure_width (plan->measure, lid_theme_px (16, FALSE), sample[w]) / 16;
  lid_board_names_find (plan);
  memcpy (kept->words_em, plan->words_em, sizeof kept->words_em);
  memcpy (kept->name_em, plan->name_em, sizeof kept->name_em);
}

/**
 * lid_board_words_need:
 * @words: LidWords, or -1: the name alone
 * @names: how much of the name, 0: all
 *
 * Returns: how wide a slot must be for them
 */
double
lid_board_words_need (const LidBoardPlan *plan, double cell, int words, guint names)
{
  LidBoardScale s = lid_board_scale (plan, cell);
  double need = 2 * latch_width (plan, cell) + plan->name_em[names] * s.name + 0.9 * s.name;

  if (words >= 0)
    need += plan->words_em[words] * s.name * 0.94 + 2.4 * s.name + trailer_width (cell);
  return need;
}

static const double names_worth[LID_BOARD_N_NAMES] = { 1, 0.94, 0.86 };

static double
detail_px (const LidBoardPlan *plan, double name)
{
  return MAX (LID_BOARD_LEAST_PX * plan->type, name * 0.85);
}

/* Two lines, where the slot is tall and narrow: the name, with mark and pattern beside it, over the
 * capacity. */
static void
try_below (const LidBoardPlan *plan, double cell, double column, LidBoardTold *told)
{
  double em = lid_board_scale (plan, cell).name, body = column - 2 * latch_width (plan, cell);
  double under = plan->words_em[LID_WORDS_SHORT] * detail_px (plan, em);

  if (cell < 1.22 * (em + detail_px (plan, em)) || body < under + trailer_width (cell) + 8)
    return;
  for (guint names = 0; names < plan->n_names; names++)
    if (body >= plan->name_em[names] * em + 1.9 * em + trailer_width (cell))
      {
        *told = (LidBoardTold){ LID_WORDS_SHORT, TRUE, names, TRUE, 0.68 * names_worth[names] };
        return;
      }
}

/**
 * lid_board_words_told:
 * @cell: a slot's height
 * @column: its width
 *
 * Returns: the most a slot of that size tells. Words before whole names: what a name lacks stands
 *   over its channel and on its processor.
 */
LidBoardTold
lid_board_words_told (const LidBoardPlan *plan, double cell, double column)
{
  static const double words_worth[] = { 0.5, 0.72, 0.95, 1.0 };
  LidBoardTold told = { -1, FALSE, plan->n_names - 1, FALSE, 0 };

  for (int words = -1; words < LID_N_WORDS; words++)
    for (guint names = 0; names < plan->n_names; names++)
      if (column + 1e-6 >= lid_board_words_need (plan, cell, words, names)
          && words_worth[words + 1] * names_worth[names] > told.worth)
        told = (LidBoardTold){ words, FALSE, names, TRUE,
                               words_worth[words + 1] * names_worth[names] };
  if (told.words < 0)
    try_below (plan, cell, column, &told);
  return told;
}

/**
 * lid_board_words_shape:
 *
 * How much each slot tells at this size, the same for all.
 */
void
lid_board_words_shape (LidBoardPlan *plan, double cell, double column)
{
  LidBoardScale s = lid_board_scale (plan, cell);
  LidBoardTold told = lid_board_words_told (plan, cell, column);
  LidSlotShape *shape = &plan->g->shape;

  *shape = (LidSlotShape){ .name_type = lid_theme_px (s.name, TRUE),
                           .words_type = lid_theme_px (s.name * 0.94, FALSE),
                           .latch = MIN (latch_width (plan, cell), 0.07 * column),
                           .trailer = trailer_width (cell),
                           .name = plan->name_em[told.names] * s.name };
  shape->detail_type = lid_theme_px (detail_px (plan, s.name), FALSE);
  if (told.words >= 0)
    {
      shape->lines = told.below ? 2 : 1;
      shape->words = (LidWords)told.words;
    }
  for (guint i = 0; i < plan->board->n_slots; i++)
    plan->g->looks[i].name = plan->names[told.names][i];
}

static LidRate
channel_rate (const LidBoardPlan *plan, int channel)
{
  const LidFigures *figures = plan->assessment != NULL ? &plan->assessment->figures : NULL;
  int socket = plan->board->channels[channel].socket;

  if (figures == NULL || !figures->starts)
    return LID_RATE_UNKNOWN;
  if (socket != LID_NOWHERE && figures->sockets != NULL && (guint)socket < figures->n_sockets)
    return figures->sockets[socket].running;
  return figures->running;
}

/* The fastest rating fitted: what a vein's whole thickness stands for. */
static LidRate
fastest (const LidBoardPlan *plan)
{
  LidRate most = LID_RATE_UNKNOWN;

  for (guint i = 0; i < plan->board->n_slots; i++)
    if (plan->population->slots[i].module != NULL)
      most = MAX (most, lid_module_rated (plan->population->slots[i].module));
  return most;
}

static gint64
channel_mib (const LidBoardPlan *plan, int channel)
{
  const LidBoardChannel *c = &plan->board->channels[channel];
  gint64 mib = 0;

  if (plan->assessment != NULL && plan->assessment->figures.channels != NULL
      && (guint)channel < plan->assessment->figures.n_channels)
    return plan->assessment->figures.starts ? plan->assessment->figures.channels[channel].usable_mib
                                            : 0;
  for (guint i = 0; i < c->n_slots; i++)
    if (plan->population->slots[c->slots[i]].module != NULL)
      mib += lid_module_capacity (plan->population->slots[c->slots[i]].module);
  return mib;
}

static char *
carries_text (gint64 mib, LidRate rate, gboolean whole)
{
  g_autofree char *capacity = lid_units_capacity (mib);
  g_autofree char *bandwidth = NULL;

  if (!whole || rate == LID_RATE_UNKNOWN)
    return g_steal_pointer (&capacity);
  bandwidth = lid_units_bandwidth (lid_ratio_round (lid_bandwidth_peak (rate, 1)));
  return g_strdup_printf ("%s \302\267 %s", capacity, bandwidth);
}

/* Both wordings of what a vein carries, as long as the geometry keeps its texts. */
static const LidCarried *
remember (LidBoardPlan *plan, gint64 mib, LidRate rate)
{
  LidVeinMemory *memory = &plan->vein;
  LidCarried *carried;

  if (!memory->any)
    memory->fastest = fastest (plan);
  memory->any = TRUE;
  for (guint i = 0; i < MIN (memory->n, LID_BOARD_N_CARRIED); i++)
    if (memory->carried[i].mib == mib && memory->carried[i].rate == rate)
      return &memory->carried[i];
  carried = &memory->carried[memory->n++ % LID_BOARD_N_CARRIED];
  *carried = (LidCarried){ mib, rate, { NULL, NULL, NULL } };
  for (guint whole = 1; whole <= 2; whole++)
    carried->words[whole] = keep (plan, mib == 0 ? g_strdup (_ ("carries nothing"))
                                                 : carries_text (mib, rate, whole == 2));
  return carried;
}

/* Its name, which an edit does not change: it is looked up where the vein stood before. */
static void
name_vein (LidBoardPlan *plan, LidVein *vein, double room)
{
  const char *name = plan->board->channels[vein->channel].name;
  LidType bold = { vein->type.pt, TRUE };
  guint at = plan->g->veins->len;

  if (plan->like != NULL && at < plan->like->veins->len)
    {
      const LidVein *old = lid_board_geometry_vein (plan->like, at);

      if (old->channel == vein->channel && old->type.pt == vein->type.pt
          && old->caption.width == room)
        {
          vein->name = g_string_chunk_insert (plan->g->texts, old->name);
          vein->name_width = old->name_width;
          return;
        }
    }
  vein->name = keep (plan, g_strdup_printf (_ ("channel %s"), name));
  vein->name_width = lid_measure_width (plan->measure, bold, vein->name);
  if (vein->name_width <= room)
    return;
  vein->name = keep (plan, g_strdup (name));
  vein->name_width = lid_measure_width (plan->measure, bold, vein->name);
}

/**
 * lid_board_words_vein:
 * @vein: its channel and caption's type are set
 * @room: for the words, in one line
 * @most_width: of a vein that carries its channel's whole rate
 */
void
lid_board_words_vein (LidBoardPlan *plan, LidVein *vein, double room, double most_width)
{
  gint64 mib = channel_mib (plan, vein->channel);
  LidRate rate = channel_rate (plan, vein->channel), most;
  const LidCarried *carried = remember (plan, mib, rate);
  double share;

  most = plan->vein.fastest;
  share = rate != LID_RATE_UNKNOWN && most > 0 ? MIN (1, (double)rate / most) : 0.7;
  vein->idle = mib == 0;
  vein->width = vein->idle ? 1.4 : MAX (1.6, most_width * share);
  name_vein (plan, vein, room);
  room -= vein->name_width + 0.8 * vein->type.pt;
  for (guint whole = 2; whole > 0 && vein->carries == NULL; whole--)
    if (lid_measure_width (plan->measure, vein->type, carried->words[whole]) <= room)
      vein->carries = carried->words[whole];
}

static char *
processor_takes (const LidBoardPlan *plan, int socket)
{
  int model = socket == LID_NOWHERE ? LID_NOWHERE : plan->population->processors[socket].model;
  LidRate most = LID_RATE_UNKNOWN;

  if (model == LID_NOWHERE || (guint)model >= plan->board->n_processors)
    return NULL;
  for (guint k = 0; k < LID_N_KINDS; k++)
    most = MAX (most, plan->board->processors[model].rate[k]);
  return most != LID_RATE_UNKNOWN ? g_strdup_printf (_ ("up to %u MT/s"), lid_rate_mts (most))
                                  : NULL;
}

/**
 * lid_board_words_leaf:
 * @leaf: its socket and kind are set
 */
void
lid_board_words_leaf (LidBoardPlan *plan, LidPlacedLeaf *leaf)
{
  const char *name = leaf->socket == LID_NOWHERE ? NULL : plan->board->sockets[leaf->socket].name;

  leaf->fitted = leaf->socket == LID_NOWHERE || plan->population->processors[leaf->socket].fitted;
  if (name != NULL && name[0] != 0)
    leaf->title = keep (plan, g_strdup_printf (_ ("processor %s"), name));
  else
    leaf->title = plan->board->n_sockets > 1 ? _ ("processor not told") : _ ("processor");
  if (!leaf->fitted)
    leaf->under = _ ("not fitted");
  else if (leaf->list)
    leaf->under = _ ("channel not told");
  else
    {
      char *takes = processor_takes (plan, leaf->socket);

      leaf->under = takes != NULL ? keep (plan, takes) : NULL;
    }
}

/**
 * lid_board_geometry_tell:
 * @slot: index of a slot
 * @channel: (nullable): the channel it is told to be on; NULL: none yet
 *
 * While channels are taught a slot shows its channel in the place of what sits in it, and a broken
 * outline until it has one.
 */
void
lid_board_geometry_tell (LidBoardGeometry *geometry, guint slot, const char *channel)
{
  LidSlotLook *look = &geometry->looks[slot];
  g_autofree char *words = channel != NULL ? g_strdup_printf (_ ("channel %s"), channel) : NULL;
  /* Drawn so small that the name is all there is room for, the letter goes with a short one and
   * stands for a long one. */
  g_autofree char *name = channel == NULL || geometry->shape.lines > 0 ? NULL
                          : g_utf8_strlen (look->name, -1) <= 2
                              ? g_strdup_printf ("%s·%s", channel, look->name)
                              : g_strdup (channel);
  const char *told = words != NULL ? g_string_chunk_insert_const (geometry->texts, words) : "";

  for (guint i = 0; i < LID_N_WORDS; i++)
    look->words[i] = told;
  if (name != NULL)
    look->name = g_string_chunk_insert_const (geometry->texts, name);
  look->detail = NULL;
  look->ring = 0;
  look->mark = LID_MARK_NONE;
  look->grade = LID_NOWHERE;
  look->finding = LID_HATCH_NONE;
  look->empty = channel == NULL;
  look->heavy = FALSE;
}
