/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ways to move that checks/cure.h promises, written from its words alone: over whole lists of
 * slots, nothing counted along. */
#include "cures-oracle.h"

#include <string.h>

#define MOST_SORTS 16u

static gboolean
is_fitted (const LidQuestion *q, guint slot)
{
  int socket = q->board->slots[slot].socket;

  return socket == LID_NOWHERE || q->population->processors[socket].fitted;
}

static const LidModule *
module_in (const LidQuestion *q, guint slot)
{
  return q->population->slots[slot].module;
}

/* Nothing moves here: soldered, or it holds data. */
static gboolean
is_held (const LidQuestion *q, guint slot)
{
  return q->board->slots[slot].soldered != NULL
         || (module_in (q, slot) != NULL && module_in (q, slot)->persistent);
}

static gboolean
can_go (const LidQuestion *q, guint slot)
{
  return module_in (q, slot) != NULL && !is_held (q, slot) && is_fitted (q, slot)
         && q->population->slots[slot].state != LID_SLOT_NOT_SEEN;
}

/* In the order of fitting; slots the board does not name come after those it names. */
guint
cures_deal_place (const LidBoard *board, guint slot)
{
  for (guint i = 0; i < board->n_order; i++)
    if (board->order[i] == slot)
      return i;
  return board->n_order + slot;
}

/* Two modules of one part, or with the same facts from the same hands. */
gboolean
cures_deal_alike (const LidModule *a, const LidModule *b)
{
  gboolean facts = a->persistent == b->persistent && g_strcmp0 (a->part, b->part) == 0;

  for (guint f = 0; f < LID_N_FACTS; f++)
    facts = facts && a->value[f] == b->value[f] && a->basis[f] == b->basis[f];
  return a == b || facts || lid_module_same (a, b);
}

/* MiB that a list of (slot, module) puts on a channel, a processor, a controller. */
typedef struct
{
  const LidQuestion *q;
  GArray *moves;            /* where each came to lie: from, to */
  gboolean as_is;           /* what sits in the machine counts too, or only what is soldered */
  const LidFinding *leaves; /* nullable: what it names goes, so that nothing may come behind it */
  const gboolean *barred;   /* nullable: slots that are not looked at */
} Loads;

static gboolean
counts (const Loads *loads, guint slot)
{
  return module_in (loads->q, slot) != NULL && !module_in (loads->q, slot)->persistent
         && (loads->as_is ? is_fitted (loads->q, slot)
                          : loads->q->board->slots[slot].soldered != NULL);
}

/* @level: 0 the channel of @of, 1 its processor, 2 its controller. */
static gboolean
is_near (const LidBoard *board, guint slot, guint of, guint level)
{
  const LidBoardChannel *x, *y;

  if (board->slots[slot].channel == LID_NOWHERE)
    return FALSE;
  x = &board->channels[board->slots[slot].channel];
  y = &board->channels[board->slots[of].channel];
  return level == 0 ? x == y
                    : x->socket == y->socket && (level == 1 || x->controller == y->controller);
}

static gint64
load (const Loads *loads, guint of, guint level)
{
  const LidBoard *board = loads->q->board;
  gint64 mib = 0;

  for (guint i = 0; i < board->n_slots; i++)
    if (counts (loads, i) && is_near (board, i, of, level))
      mib += lid_module_capacity (module_in (loads->q, i));
  for (guint i = 0; i < loads->moves->len; i++)
    {
      const LidMove *move = &g_array_index (loads->moves, LidMove, i);

      if (is_near (board, (guint)move->to, of, level))
        mib += lid_module_capacity (move->module);
    }
  return mib;
}

/* Whether something was given this slot already. */
static gboolean
is_given (const Loads *loads, guint slot)
{
  for (guint i = 0; i < loads->moves->len; i++)
    if (g_array_index (loads->moves, LidMove, i).to == (int)slot)
      return TRUE;
  return FALSE;
}

static gboolean
does_leave (const Loads *loads, guint slot)
{
  for (guint i = 0; loads->leaves != NULL && i < loads->leaves->n_slots; i++)
    if (loads->leaves->slots[i] == slot)
      return TRUE;
  return FALSE;
}

/* Whether the slot may take one more: free, and no free one before it on its channel. */
static gboolean
is_next (const Loads *loads, guint slot)
{
  const LidQuestion *q = loads->q;
  const LidBoardChannel *channel;

  if (q->board->slots[slot].channel == LID_NOWHERE || !is_fitted (q, slot))
    return FALSE;
  channel = &q->board->channels[q->board->slots[slot].channel];
  for (guint i = 0; i < channel->n_slots; i++)
    {
      guint here = channel->slots[i];
      gboolean taken = is_given (loads, here) || q->board->slots[here].soldered != NULL
                       || (loads->as_is ? module_in (q, here) != NULL : is_held (q, here));

      if (!taken || does_leave (loads, here))
        return !taken && here == slot;
    }
  return FALSE;
}

/* The least by channel, processor and (@levels 3) controller, then first in the order. */
static int
least_slot (const Loads *loads, int socket, guint levels)
{
  const LidBoard *board = loads->q->board;
  int best = LID_NOWHERE;

  for (guint i = 0; i < board->n_slots; i++)
    {
      gint64 by = 0;

      if (!is_next (loads, i) || (socket >= 0 && board->slots[i].socket != socket)
          || (loads->barred != NULL && loads->barred[i]))
        continue;
      for (guint level = 0; best >= 0 && by == 0 && level < levels; level++)
        by = load (loads, i, level) - load (loads, (guint)best, level);
      if (best < 0 || by < 0
          || (by == 0 && cures_deal_place (board, i) < cures_deal_place (board, (guint)best)))
        best = (int)i;
    }
  return best;
}

/* Of the slots not @barred the one for the next module, where @dealt lie as dealt out so far. */
int
cures_deal_least (const LidQuestion *q, GArray *dealt, int socket, const gboolean *barred)
{
  const Loads loads = { q, dealt, FALSE, NULL, barred };

  return least_slot (&loads, socket, 3);
}

GArray *
cures_deal_settled (const LidQuestion *q, const LidFinding *finding, int socket, gboolean by_order)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  const Loads loads = { q, moves, TRUE, finding, NULL };

  for (guint i = 0; i < finding->n_slots; i++)
    {
      guint slot = finding->slots[i];
      LidMove move = { q->population->slots[slot].module, (int)slot, LID_NOWHERE };

      if (move.module == NULL || is_held (q, slot))
        return NULL;
      move.to = least_slot (&loads, socket, by_order ? 0 : 2);
      if (move.to == LID_NOWHERE)
        return NULL;
      g_array_append_val (moves, move);
    }
  return moves->len > 0 ? g_steal_pointer (&moves) : NULL;
}

GArray *
cures_deal_fitted (const LidQuestion *q, const GPtrArray *modules, guint n)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  const Loads loads = { q, moves, TRUE, NULL, NULL };

  if (!q->board->channels_told || modules->len < n)
    return NULL;
  for (guint i = 0; i < n; i++)
    {
      LidMove move = { modules->pdata[i], LID_NOWHERE, least_slot (&loads, LID_NOWHERE, 2) };

      if (move.to == LID_NOWHERE)
        return NULL;
      g_array_append_val (moves, move);
    }
  return g_steal_pointer (&moves);
}

GArray *
cures_deal_exchanged (const LidQuestion *q, const LidFinding *finding, const GPtrArray *modules)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));

  for (guint i = 0; i < finding->n_slots; i++)
    {
      guint slot = finding->slots[i];
      LidMove out = { q->population->slots[slot].module, (int)slot, LID_NOWHERE };
      LidMove in = { i < modules->len ? modules->pdata[i] : NULL, LID_NOWHERE, (int)slot };

      if (out.module == NULL || in.module == NULL || is_held (q, slot))
        return NULL;
      g_array_append_val (moves, out);
      g_array_append_val (moves, in);
    }
  return moves->len > 0 ? g_steal_pointer (&moves) : NULL;
}

/* Modules of one processor (or of all, LID_NOWHERE) that may move: the most ranks first, then the
 * largest, then as the slots come. FALSE: too many sorts to deal, or one that is not seen. */
gboolean
cures_deal_modules (const LidQuestion *q, int socket, GArray *slots)
{
  guint sorts = 0;
  gint64 last = G_MAXINT64;

  for (guint i = 0; i < q->board->n_slots; i++)
    {
      gboolean new = TRUE;

      if (module_in (q, i) == NULL || is_held (q, i) || !is_fitted (q, i)
          || (socket >= 0 && q->board->slots[i].socket != socket))
        continue;
      if (q->population->slots[i].state == LID_SLOT_NOT_SEEN)
        return FALSE;
      for (guint k = 0; k < slots->len; k++)
        new = new
              && !cures_deal_alike (module_in (q, g_array_index (slots, guint, k)),
                                    module_in (q, i));
      sorts += new;
      g_array_append_val (slots, i);
    }
  for (guint at = 0; at < slots->len; at++)
    {
      guint most = at, slot;
      gint64 most_size = -1;

      for (guint k = at; k < slots->len; k++)
        {
          const LidModule *m = module_in (q, g_array_index (slots, guint, k));
          gboolean told;
          gint64 size = ((gint64)lid_board_count_ranks (q->board, m, &told) << 40)
                        + lid_module_capacity (m);

          if (size > most_size)
            {
              most = k;
              most_size = size;
            }
        }
      g_assert_cmpint (most_size, <=, last);
      last = most_size;
      slot = g_array_index (slots, guint, most);
      g_array_remove_index (slots, most);
      g_array_insert_val (slots, at, slot);
    }
  return sorts <= MOST_SORTS;
}

/* Where the first, the second and so on shall lie. */
static gboolean
list_places (
    const LidQuestion *q, int socket, gboolean by_order, const GArray *slots, GArray *dealt)
{
  const Loads loads = { q, dealt, FALSE, NULL, NULL };

  for (guint i = 0; i < slots->len; i++)
    {
      LidMove move = { q->population->slots[g_array_index (slots, guint, i)].module, LID_NOWHERE,
                       LID_NOWHERE };

      if (!by_order)
        move.to = least_slot (&loads, socket, 3);
      for (guint k = 0; by_order && move.to == LID_NOWHERE && k < q->board->n_order; k++)
        if (!is_held (q, q->board->order[k]) && is_fitted (q, q->board->order[k])
            && !is_given (&loads, q->board->order[k])
            && (socket < 0 || q->board->slots[q->board->order[k]].socket == socket))
          move.to = (int)q->board->order[k];
      if (move.to == LID_NOWHERE)
        return FALSE;
      g_array_append_val (dealt, move);
    }
  return TRUE;
}

/* Whoever lies where one like it shall lie stays; the others go, the first listed first. */
void
cures_deal_moves (const LidQuestion *q, const GArray *slots, const GArray *dealt, GArray *moves)
{
  g_autoptr (GHashTable) busy = g_hash_table_new (NULL, NULL);

  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < dealt->len; i++)
      {
        const LidMove *want = &g_array_index (dealt, LidMove, i);
        const LidModule *there = module_in (q, (guint)want->to);
        gboolean stays = there != NULL && cures_deal_alike (there, want->module);

        if (pass == 0 && stays)
          g_hash_table_add (busy, GINT_TO_POINTER (want->to));
        for (guint k = 0; pass == 1 && !stays && k < slots->len; k++)
          {
            guint from = g_array_index (slots, guint, k);
            LidMove move = { q->population->slots[from].module, (int)from, want->to };

            if (!cures_deal_alike (move.module, want->module)
                || !g_hash_table_add (busy, GINT_TO_POINTER ((int)from)))
              continue;
            g_array_append_val (moves, move);
            break;
          }
      }
}

GArray *
cures_deal_spread (const LidQuestion *q, gboolean each_socket, gboolean by_order)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));

  if (!q->board->channels_told)
    return NULL;
  for (int s = each_socket ? 0 : LID_NOWHERE; s < (each_socket ? (int)q->board->n_sockets : 0); s++)
    {
      g_autoptr (GArray) slots = g_array_new (FALSE, FALSE, sizeof (guint));
      g_autoptr (GArray) dealt = g_array_new (FALSE, FALSE, sizeof (LidMove));

      if (!cures_deal_modules (q, s, slots) || !list_places (q, s, by_order, slots, dealt))
        continue; /* the others are dealt out all the same */
      cures_deal_moves (q, slots, dealt, moves);
    }
  return moves->len > 0 ? g_steal_pointer (&moves) : NULL;
}

/* One module elsewhere, or two that change places; no more than 96 ways of it are looked at. */
GPtrArray *
cures_deal_nudged (const LidQuestion *q)
{
  GPtrArray *ways = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (LidMove));
  const Loads loads = { q, none, TRUE, NULL, NULL };
  guint n = q->board->n_slots;

  /* places of the channels in turn, then partners; a slot of no channel is no place */
  for (guint from = 0; q->board->channels_told && from < n; from++)
    for (guint pass = 0; pass < 2 && can_go (q, from); pass++)
      for (guint to = pass == 0 ? 0 : from + 1; to < n; to++)
        {
          LidMove there = { q->population->slots[from].module, (int)from, (int)to };
          LidMove back = { q->population->slots[to].module, (int)to, (int)from };
          GArray *moves;

          if (pass == 0 ? !is_next (&loads, to)
                        : !can_go (q, to) || cures_deal_alike (there.module, back.module))
            continue;
          moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
          g_array_append_val (moves, there);
          if (pass == 1)
            g_array_append_val (moves, back);
          g_ptr_array_add (ways, moves);
        }
  if (ways->len > 96)
    g_ptr_array_set_size (ways, 0);
  return ways;
}
