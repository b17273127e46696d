/* SPDX-License-Identifier: GPL-3.0-or-later */
/* cheapest.c: where only the price matters, the answer first and the search after.
 *
 * No population costs less than the cheapest mix of modules (cheapest-mix.c), wherever they go:
 * slots, rates and rules only take populations away. So that mix is put into the slots in a few
 * ways that mostly please every rule, and the checker is asked about each. If nothing stops one of
 * them it is a cheapest population, and that is proved: the checker was asked once or twice, and no
 * filling of a channel was looked at.
 *
 * If all are refused, a kind of the mix may be one that no slot takes at all, as of another
 * generation: a rule that is lasting stops it wherever it sits, alone. Such a kind is in no
 * population that is shown, so it is barred, and the cheapest mix without it is asked about. A kind
 * that is rated below the wished rate is barred from the start. When nothing can be barred any
 * more, nothing is known, and the search (search.c) has to answer. */
#include "planner/cheapest.h"

#include <string.h>

#define MOST_MIXES 64u

/* A slot of every channel of a column at once. */
typedef struct
{
  const LidPlanColumn *column;
  guint at;        /* of the column's slots */
  guint32 by_list; /* place in the board's order of fitting */
  guint32
      by_turn; /* all first slots of a channel, then all second ones, socket by socket in turn */
} Place;

typedef struct
{
  LidPlanJudge *judge;
  const LidPlanColumns *columns;
  LidPlanFront *front;
  GArray *places;           /* Place */
  gboolean *barred, *taken; /* per kind: no slot takes it; some slot does */
  guint *counts, *left;     /* per kind, in units */
  int *kinds;               /* per slot of the board */
} Finder;

typedef enum
{
  BY_LIST,   /* what is found stays, the rest in the board's order */
  BY_TURN,   /* what is found stays, the rest channel by channel */
  ANEW_LIST, /* likewise, but everything is put anew */
  ANEW_TURN,
  N_WAYS
} Way;

static guint
slot_of (const Place *place, guint channel)
{
  return place->column->slots[channel * place->column->n_slots + place->at];
}

static void
list_places (Finder *finder)
{
  const LidBoard *board = finder->judge->question->board;

  for (guint i = 0; i < finder->columns->columns->len; i++)
    {
      const LidPlanColumn *column = lid_plan_columns_at (finder->columns, i);

      for (guint at = 0; at < column->n_slots; at++)
        {
          Place place = { .column = column, .at = at };
          guint slot = slot_of (&place, 0), channel = column->channels[0];
          int socket = board->channels[channel].socket;
          guint first = socket != LID_NOWHERE ? board->sockets[socket].first_channel : 0;

          place.by_list = lid_board_order_of (board, slot);
          place.by_turn = (at * LID_BOARD_MAX_CHANNELS + channel - first) * LID_BOARD_MAX_SOCKETS
                          + (guint)MAX (socket, 0);
          g_array_append_val (finder->places, place);
        }
    }
}

static int
compare_by_list (gconstpointer a, gconstpointer b)
{
  guint32 x = ((const Place *)a)->by_list, y = ((const Place *)b)->by_list;

  return (x > y) - (x < y);
}

static int
compare_by_turn (gconstpointer a, gconstpointer b)
{
  guint32 x = ((const Place *)a)->by_turn, y = ((const Place *)b)->by_turn;

  return (x > y) - (x < y);
}

/* The largest kind of which some are left, the one with most of them first; LID_NOWHERE. */
static int
next_kind (const Finder *finder)
{
  const LidCandidates *candidates = finder->judge->candidates;
  int best = LID_NOWHERE;
  gint64 most = 0;

  for (guint k = 0; k < candidates->kinds->len; k++)
    {
      gint64 mib = lid_module_capacity (lid_candidates_kind (candidates, k)->module);

      if (finder->left[k] > 0
          && (best == LID_NOWHERE || mib > most
              || (mib == most && finder->counts[k] > finder->counts[best])))
        {
          best = (int)k;
          most = mib;
        }
    }
  return best;
}

static void
put (Finder *finder, const Place *place, int kind)
{
  for (guint c = 0; c < place->column->n_channels; c++)
    finder->kinds[slot_of (place, c)] = kind;
  finder->left[kind]--;
}

/* What is found there in every channel, if it is used again; LID_NOWHERE. */
static int
kind_to_stay (const Finder *finder, const Place *place)
{
  const int *found = finder->judge->candidates->found_kind;
  int kind = found[slot_of (place, 0)];

  for (guint c = 1; c < place->column->n_channels; c++)
    if (found[slot_of (place, c)] != kind)
      return LID_NOWHERE;
  return kind != LID_NOWHERE && finder->left[kind] > 0 ? kind : LID_NOWHERE;
}

static void
arrange (Finder *finder, Way way)
{
  const LidCandidates *candidates = finder->judge->candidates;

  memcpy (finder->left, finder->counts, candidates->kinds->len * sizeof (guint));
  for (guint i = 0; i < candidates->n_slots; i++)
    finder->kinds[i] = LID_NOWHERE;
  g_array_sort (finder->places,
                way == BY_LIST || way == ANEW_LIST ? compare_by_list : compare_by_turn);
  for (guint i = 0; i < finder->places->len && (way == BY_LIST || way == BY_TURN); i++)
    {
      const Place *place = &g_array_index (finder->places, Place, i);
      int kind = kind_to_stay (finder, place);

      if (kind != LID_NOWHERE)
        put (finder, place, kind);
    }
  for (guint i = 0; i < finder->places->len; i++)
    {
      const Place *place = &g_array_index (finder->places, Place, i);
      int kind = next_kind (finder);

      if (kind != LID_NOWHERE && finder->kinds[slot_of (place, 0)] == LID_NOWHERE)
        put (finder, place, kind);
    }
}

/* Whether the checker takes the mix in some way; then it is in the front. */
static gboolean
is_taken (Finder *finder)
{
  for (guint way = 0; way < N_WAYS; way++)
    {
      LidPlanEntry entry;

      arrange (finder, (Way)way);
      if (lid_plan_judge_ask (finder->judge, finder->kinds, &entry) != LID_PLAN_LEGAL)
        continue;
      lid_plan_front_add (finder->front, &entry);
      return TRUE;
    }
  return FALSE;
}

/* Whether some free slot takes a kind, by the lasting rules, with nothing beside it. */
static gboolean
has_place (Finder *finder, guint kind)
{
  for (guint i = 0; i < finder->places->len; i++)
    {
      const Place *place = &g_array_index (finder->places, Place, i);
      g_autoptr (LidAssessment) assessment = NULL;
      gboolean stopped = FALSE;

      for (guint k = 0; k < finder->judge->candidates->n_slots; k++)
        finder->kinds[k] = LID_NOWHERE;
      finder->kinds[slot_of (place, 0)] = (int)kind;
      assessment = lid_plan_judge_part (finder->judge, finder->kinds);
      for (guint f = 0; f < assessment->findings->len && !stopped; f++)
        stopped = lid_plan_judge_is_lasting (assessment->findings->pdata[f]);
      if (!stopped)
        return TRUE;
    }
  return FALSE;
}

/* Bars the kinds of the mix that no slot takes; whether there are any. */
static gboolean
bar_some (Finder *finder)
{
  gboolean some = FALSE;

  for (guint k = 0; k < finder->judge->candidates->kinds->len; k++)
    {
      if (finder->counts[k] == 0 || finder->taken[k])
        continue;
      finder->taken[k] = has_place (finder, k);
      finder->barred[k] = !finder->taken[k];
      some = some || finder->barred[k];
    }
  return some;
}

static void
bar_slow (Finder *finder)
{
  LidRate least = finder->judge->wish->least_rate;

  for (guint k = 0; k < finder->judge->candidates->kinds->len && least != LID_RATE_UNKNOWN; k++)
    {
      LidRate rated = lid_module_rated (lid_candidates_kind (finder->judge->candidates, k)->module);

      finder->barred[k] = rated != LID_RATE_UNKNOWN && rated < least;
    }
}

static gboolean
is_there (const LidPlanFront *front, gint64 cost)
{
  for (guint i = 0; i < front->entries->len; i++)
    if (((const LidPlanEntry *)front->entries->pdata[i])->vector.cost <= cost)
      return TRUE;
  return FALSE;
}

static gboolean
find (Finder *finder)
{
  const LidPlanJudge *judge = finder->judge;
  const LidPlanColumns *columns = finder->columns;
  guint unit = MAX (columns->n_channels, 1);
  LidPlanMixQuestion question
      = { .candidates = judge->candidates,
          .barred = finder->barred,
          .all_used = judge->wish->hands != LID_HANDS_PULL,
          .unit = unit,
          .places = (columns->n_free - MIN (judge->wish->free_slots, columns->n_free)) / unit,
          .least_mib = judge->least_mib - columns->soldered };

  for (guint i = 0; i < MOST_MIXES; i++)
    {
      gint64 cost;

      if (!lid_plan_cheapest_mix (&question, &cost, finder->counts))
        return FALSE;
      if (is_there (finder->front, cost) || is_taken (finder))
        return TRUE;
      if (!bar_some (finder))
        return FALSE;
    }
  return FALSE;
}

/**
 * lid_plan_cheapest_find:
 * @judge: at work
 * @columns: what is to be filled
 * @front: (inout): of a wish for the cheapest; gets one, where one is found
 *
 * Returns: whether the front has a cheapest population, and that is proved; which of several that
 *   cost the same is not chosen
 */
gboolean
lid_plan_cheapest_find (LidPlanJudge *judge, const LidPlanColumns *columns, LidPlanFront *front)
{
  guint n_kinds = judge->candidates->kinds->len;
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (Place));
  g_autofree gboolean *barred = g_new0 (gboolean, n_kinds + 1);
  g_autofree gboolean *taken = g_new0 (gboolean, n_kinds + 1);
  g_autofree guint *counts = g_new0 (guint, n_kinds + 1);
  g_autofree guint *left = g_new0 (guint, n_kinds + 1);
  g_autofree int *kinds = g_new (int, judge->candidates->n_slots + 1);
  Finder finder = { .judge = judge,
                    .columns = columns,
                    .front = front,
                    .places = places,
                    .barred = barred,
                    .taken = taken,
                    .counts = counts,
                    .left = left,
                    .kinds = kinds };

  /* A memory mode leaves less than is there, and asks for channels that are alike. */
  if (judge->settings->mode != LID_MODE_PLAIN || front->what != LID_WISH_CHEAPEST)
    return FALSE;
  list_places (&finder);
  bar_slow (&finder);
  return find (&finder);
}
