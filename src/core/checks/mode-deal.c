/* SPDX-License-Identifier: GPL-3.0-or-later */
/* mode-deal.c: modules dealt out again so that the channels of each pair hold the same.
 *
 * Two alike at a time, within their processor, the largest first and first slots first. Then pairs
 * hand on what they have, two or three in a ring, as long as more modules stay where they are and
 * every depth holds what it held. That longer rings are never needed is not proved:
 * tests/core/test-mode-pairs-least.c tries every dealing of small machines and finds no better. */
#include "checks/mode-deal.h"

#include "figures/mode-demands.h"

/* Two slots that face each other in a pair and differ. */
typedef struct
{
  guint slots[2];
  guint position;
  int socket; /* pairs are of one processor */
  int like;   /* both shall hold what is like the module in this slot; LID_NOWHERE: nothing */
} Facing;

/* Of two alike that are left: no depth. What they change for has to be as large. */
#define LEFT G_MAXUINT
/* No more than so many hand on, what is left among them. */
#define LONGEST_RING 3u

/* What a remedy works with: the modules of the slots that differ are dealt out again, two alike at
 * a time, within their processor. */
typedef struct
{
  const LidCheck *check;
  const LidBoardMode *mode;
  const LidSlotSet *slots;
  Facing *facing; /* in the order they are filled: first slots first */
  guint n_facing;
  guint n_all; /* with what is left behind them: two alike that go nowhere, at LEFT */
  int *to;     /* by slot: where its module goes; LID_NOWHERE: out */
} Deal;

/* What cannot be used neither goes nor makes room. */
static gboolean
is_free (const Deal *deal, guint slot)
{
  return lid_slot_set_has (deal->slots, slot) || lid_check_module (deal->check, slot) == NULL;
}

/* Returns whether the channels of the pair are as deep as @position, from 0. */
static gboolean
collect (Deal *deal, LidChannelPair pair, guint position)
{
  const LidBoardChannel *a = &deal->check->board->channels[pair.a];
  const LidBoardChannel *b = &deal->check->board->channels[pair.b];
  Facing facing = { .position = position, .socket = a->socket, .like = LID_NOWHERE };

  if (position >= MIN (a->n_slots, b->n_slots))
    return FALSE;
  facing.slots[0] = a->slots[position];
  facing.slots[1] = b->slots[position];
  if ((lid_slot_set_has (deal->slots, facing.slots[0])
       || lid_slot_set_has (deal->slots, facing.slots[1]))
      && is_free (deal, facing.slots[0]) && is_free (deal, facing.slots[1]))
    deal->facing[deal->n_facing++] = facing;
  return TRUE;
}

static void
collect_all (Deal *deal)
{
  guint position = 0;
  gboolean deeper;

  deal->facing = g_new0 (Facing, deal->check->board->n_slots);
  do
    {
      deeper = FALSE;
      for (guint i = 0; i < deal->mode->n_pairs; i++)
        deeper = collect (deal, deal->mode->pairs[i], position) || deeper;
      position++;
    }
  while (deeper);
  deal->n_all = deal->n_facing;
}

static int
socket_of (const Deal *deal, guint slot)
{
  return deal->check->board->slots[slot].socket;
}

/* Whether the modules of two slots may face each other. */
static gboolean
is_alike (const Deal *deal, guint a, guint b)
{
  return socket_of (deal, a) == socket_of (deal, b)
         && lid_mode_demands_compare (deal->mode->alike, lid_check_module (deal->check, a),
                                      lid_check_module (deal->check, b))
                == 1;
}

/* How many like the one in @slot nothing was given of yet. */
static int
count_left (const Deal *deal, guint slot)
{
  int n = 0;

  LID_SLOT_SET_EACH (deal->slots, other)
    n += is_alike (deal, slot, (guint)other);
  for (guint i = 0; i < deal->n_all; i++)
    if (deal->facing[i].like != LID_NOWHERE && is_alike (deal, slot, (guint)deal->facing[i].like))
      n -= 2;
  return n;
}

/* One of two alike that are left: the largest. */
static int
find_double (const Deal *deal, const Facing *facing)
{
  gint64 most = -1;
  int best = LID_NOWHERE;

  LID_SLOT_SET_EACH (deal->slots, slot)
    {
      gint64 mib = lid_module_capacity (lid_check_module (deal->check, slot));

      if (mib <= most || socket_of (deal, slot) != facing->socket || count_left (deal, slot) < 2)
        continue;
      most = mib;
      best = slot;
    }
  return best;
}

/* Whether what is in @slot stays, if the slot shall hold what is like the one in @like. */
static gboolean
stays (const Deal *deal, guint slot, int like)
{
  return like != LID_NOWHERE && lid_slot_set_has (deal->slots, slot)
         && is_alike (deal, (guint)like, slot);
}

static int
count_staying (const Deal *deal, const Facing *facing, int like)
{
  if (facing->position == LEFT)
    return 0;
  return stays (deal, facing->slots[0], like) + stays (deal, facing->slots[1], like);
}

static gint64
capacity_of (const Deal *deal, int slot)
{
  return lid_module_capacity (lid_check_module (deal->check, (guint)slot));
}

/* Whether the pairs of each depth, each with what the next of the ring has, hold the capacities
 * they held: then the largest are first as before. */
static gboolean
keeps_depths (const Deal *deal, Facing *const *ring, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      gint64 mib = capacity_of (deal, ring[(i + 1) % n]->like);
      int more = 0;

      for (guint k = 0; k < n; k++)
        if (ring[k]->position == ring[i]->position)
          more += (capacity_of (deal, ring[(k + 1) % n]->like) == mib)
                  - (capacity_of (deal, ring[k]->like) == mib);
      if (more != 0)
        return FALSE;
    }
  return TRUE;
}

/* Each takes what the next one has, where more stays then. Which pairs stay empty is left as it is:
 * what is behind an empty slot may not be seen. */
static void
hand_on (const Deal *deal, Facing *const *ring, guint n)
{
  int gain = 0, like = ring[0]->like;

  for (guint i = 0; i < n; i++)
    gain += count_staying (deal, ring[i], ring[(i + 1) % n]->like)
            - count_staying (deal, ring[i], ring[i]->like);
  if (gain <= 0 || !keeps_depths (deal, ring, n))
    return;
  for (guint i = 0; i + 1 < n; i++)
    ring[i]->like = ring[i + 1]->like;
  ring[n - 1]->like = like;
}

/* Rings of two and more that begin with the @n of @ring, of which more stay by @gain so far. A ring
 * that gains has a beginning from which it gains all the way, so no other is followed. One of them
 * that comes again adds nothing: a ring with it gains what the ring without it does. */
static void
try_rings (const Deal *deal, Facing **ring, guint n, int gain)
{
  for (guint i = 0; i < deal->n_all; i++)
    {
      Facing *one = &deal->facing[i];
      int then = gain + count_staying (deal, ring[n - 1], one->like)
                 - count_staying (deal, ring[n - 1], ring[n - 1]->like);

      if (then <= 0 || one->like == LID_NOWHERE || one->socket != ring[0]->socket)
        continue;
      ring[n] = one;
      hand_on (deal, ring, n + 1);
      if (n + 1 < LONGEST_RING)
        try_rings (deal, ring, n + 1, then);
    }
}

/* One way through is enough: no ring is left that gains on any machine test-mode-pairs-least.c
 * tries. */
static void
exchange (const Deal *deal)
{
  for (guint i = 0; i < deal->n_facing; i++)
    {
      Facing *ring[LONGEST_RING] = { &deal->facing[i] };

      if (ring[0]->like != LID_NOWHERE)
        try_rings (deal, ring, 1, 0);
    }
}

static void
keep_left (Deal *deal)
{
  LID_SLOT_SET_EACH (deal->slots, slot)
    while (count_left (deal, slot) >= 2)
      deal->facing[deal->n_all++]
          = (Facing){ .position = LEFT, .socket = socket_of (deal, slot), .like = slot };
}

/* The best first; then each exchange makes more stay. */
static void
choose_all (Deal *deal)
{
  for (guint i = 0; i < deal->n_facing; i++)
    deal->facing[i].like = find_double (deal, &deal->facing[i]);
  keep_left (deal);
  exchange (deal);
}

/* Of those alike, one that sits nowhere yet. */
static void
send (Deal *deal, guint like, guint to)
{
  LID_SLOT_SET_EACH (deal->slots, slot)
    if (deal->to[slot] == LID_NOWHERE && is_alike (deal, like, slot))
      {
        deal->to[slot] = (int)to;
        return;
      }
}

/* What sits right stays; the rest comes from elsewhere. */
static void
fill (Deal *deal, gboolean staying)
{
  for (guint i = 0; i < deal->n_facing; i++)
    for (guint k = 0; k < 2 && deal->facing[i].like != LID_NOWHERE; k++)
      {
        guint slot = deal->facing[i].slots[k];
        gboolean right = stays (deal, slot, deal->facing[i].like);

        if (right && staying)
          deal->to[slot] = (int)slot;
        else if (!right && !staying)
          send (deal, (guint)deal->facing[i].like, slot);
      }
}

/* Whether a first slot stays empty and a module is left over: better given a partner. */
static gboolean
is_bare (const Deal *deal)
{
  for (guint i = 0; i < deal->n_facing; i++)
    if (deal->facing[i].position == 0 && deal->facing[i].like == LID_NOWHERE)
      LID_SLOT_SET_EACH (deal->slots, slot)
        if (deal->to[slot] == LID_NOWHERE && socket_of (deal, slot) == deal->facing[i].socket)
          return TRUE;
  return FALSE;
}

/**
 * lid_mode_deal_out:
 * @check: the context, with a memory mode the board has
 * @slots: slots that face something else, filled; of a pair each
 * @to: (out): by slot, for those of @slots: where its module goes; LID_NOWHERE: out
 *
 * Pairs slot by slot: product.md 6, "Usable capacity"; the largest first, fewest hands: common
 * practice, no source.
 *
 * Returns: FALSE: a module is soldered, or a first slot would stay empty while a module is left
 * over
 */
gboolean
lid_mode_deal_out (const LidCheck *check, const LidSlotSet *slots, int *to)
{
  Deal deal = { .check = check,
                .mode = lid_board_find_mode (check->board, check->population->mode),
                .slots = slots,
                .to = to };
  g_autofree Facing *facing = NULL;

  LID_SLOT_SET_EACH (slots, slot)
    {
      if (check->board->slots[slot].soldered != NULL)
        return FALSE;
      to[slot] = LID_NOWHERE;
    }
  collect_all (&deal);
  facing = deal.facing;
  choose_all (&deal);
  fill (&deal, TRUE);
  fill (&deal, FALSE);
  return !is_bare (&deal);
}
