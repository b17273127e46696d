/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Modules that come in: from the tray, or from slots of a processor that is not there. */
#include "checks/cure.h"

#define LEAVES 2u /* its module goes: nothing comes behind it */

/* What channels and processors hold while slots are given away one after the other. */
typedef struct
{
  const LidCheck *check;
  int socket;         /* the only one slots are taken of; LID_NOWHERE: any */
  gboolean by_order;  /* as the board names them, whatever channels hold */
  guint8 *taken;      /* by slot: TRUE, or LEAVES */
  gint64 *by_channel; /* MiB that counts, and what was given a slot since */
  gint64 *by_socket;  /* the same, at 1 + socket; at 0: of channels whose socket is not told */
} Filling;

static void
filling_clear (Filling *filling)
{
  g_free (filling->taken);
  g_free (filling->by_channel);
  g_free (filling->by_socket);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Filling, filling_clear)

static void
add_load (Filling *filling, guint channel, const LidModule *module)
{
  gint64 mib = lid_module_capacity (module);

  filling->by_channel[channel] += mib;
  filling->by_socket[1 + filling->check->board->channels[channel].socket] += mib;
}

static Filling
filling_start (const LidCheck *check)
{
  const LidBoard *board = check->board;
  Filling filling = { check,
                      LID_NOWHERE,
                      FALSE,
                      g_new0 (guint8, board->n_slots),
                      g_new0 (gint64, board->n_channels),
                      g_new0 (gint64, board->n_sockets + 1) };

  for (guint i = 0; i < board->n_slots; i++)
    {
      int channel = board->slots[i].channel;

      filling.taken[i] = board->slots[i].soldered != NULL || lid_check_module (check, i) != NULL;
      if (channel != LID_NOWHERE && lid_check_counts (check, i))
        add_load (&filling, (guint)channel, lid_check_module (check, i));
    }
  return filling;
}

/* The first free slot of a channel, unless one before it is left empty. */
static int
first_free (const Filling *filling, guint channel)
{
  const LidBoardChannel *here = &filling->check->board->channels[channel];

  for (guint i = 0; i < here->n_slots && filling->taken[here->slots[i]] != LEAVES; i++)
    if (!filling->taken[here->slots[i]])
      return (int)here->slots[i];
  return LID_NOWHERE;
}

/* Least on the channel, then at its processor, then first in the board's order; or by order alone.
 */
static gboolean
comes_first (const Filling *filling, guint a, guint b)
{
  const LidBoard *board = filling->check->board;
  guint x = (guint)board->slots[a].channel, y = (guint)board->slots[b].channel;
  gint64 by = filling->by_order ? 0 : filling->by_channel[x] - filling->by_channel[y];

  if (by == 0 && !filling->by_order)
    by = filling->by_socket[1 + board->channels[x].socket]
         - filling->by_socket[1 + board->channels[y].socket];
  if (by == 0)
    by = (gint64)filling->check->place[a] - filling->check->place[b];
  return by < 0;
}

/* The slot for one more, or LID_NOWHERE. It is given away. */
static int
take_slot (Filling *filling, const LidModule *with)
{
  const LidBoard *board = filling->check->board;
  int best = LID_NOWHERE;

  for (guint c = 0; c < board->n_channels; c++)
    {
      int slot = first_free (filling, c);

      if (slot != LID_NOWHERE && lid_survey_socket_fitted (filling->check->survey, (guint)slot)
          && (filling->socket == LID_NOWHERE || filling->socket == board->channels[c].socket)
          && (best == LID_NOWHERE || comes_first (filling, (guint)slot, (guint)best)))
        best = slot;
    }
  if (best != LID_NOWHERE)
    {
      filling->taken[best] = TRUE;
      add_load (filling, (guint)board->slots[best].channel, with);
    }
  return best;
}

/* The modules at hand that are as @like, in their order; at most @most. */
static guint
at_hand (const LidCheck *check, const LidModule *like, guint most, LidModule **modules)
{
  guint n = 0;

  for (guint i = 0; check->at_hand != NULL && i < check->at_hand->len && n < most; i++)
    if (lid_cure_same (check->at_hand->pdata[i], like))
      modules[n++] = check->at_hand->pdata[i];
  return n;
}

/**
 * lid_cure_settle:
 * @check: whose population
 * @slots: slots whose modules are not used where they are
 * @n_slots: how many
 * @socket: whose slots they may take; LID_NOWHERE: any fitted processor's
 * @by_order: into the next slots of the board's order, not where channels hold least
 *
 * Returns: (transfer full) (nullable): moves of all of them to free slots of fitted processors;
 * NULL where they do not all find one
 */
GArray *
lid_cure_settle (
    const LidCheck *check, const guint *slots, guint n_slots, int socket, gboolean by_order)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  g_auto (Filling) filling = filling_start (check);

  filling.socket = socket;
  filling.by_order = by_order;
  for (guint i = 0; i < n_slots; i++)
    filling.taken[slots[i]] = LEAVES;
  for (guint i = 0; i < n_slots; i++)
    {
      LidMove move = { check->population->slots[slots[i]].module, (int)slots[i], LID_NOWHERE };

      if (move.module == NULL || lid_cure_is_held (check, slots[i]))
        return NULL;
      move.to = take_slot (&filling, move.module);
      if (move.to == LID_NOWHERE)
        return NULL;
      g_array_append_val (moves, move);
    }
  return g_steal_pointer (&moves);
}

/**
 * lid_cure_fit:
 * @check: whose population
 * @like: a module on the tray
 * @count: how many
 *
 * Returns: (transfer full) (nullable): so many of them from the tray into the slots next in line;
 *   NULL where modules or slots are too few
 */
GArray *
lid_cure_fit (const LidCheck *check, const LidModule *like, guint count)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  g_autofree LidModule **modules = g_new0 (LidModule *, count);
  g_auto (Filling) filling = { 0 };

  if (!check->board->channels_told || at_hand (check, like, count, modules) < count)
    return NULL;
  filling = filling_start (check);
  for (guint i = 0; i < count; i++)
    {
      LidMove move = { modules[i], LID_NOWHERE, take_slot (&filling, like) };

      if (move.to == LID_NOWHERE)
        return NULL;
      g_array_append_val (moves, move);
    }
  return g_steal_pointer (&moves);
}

/**
 * lid_cure_exchange:
 * @check: whose population
 * @slots: slots whose modules go
 * @n_slots: how many
 * @like: a module on the tray
 *
 * Returns: (transfer full) (nullable): those out, and as many like @like in; NULL where there are
 *   too few
 */
GArray *
lid_cure_exchange (const LidCheck *check, const guint *slots, guint n_slots, const LidModule *like)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  g_autofree LidModule **modules = g_new0 (LidModule *, n_slots);

  if (at_hand (check, like, n_slots, modules) < n_slots)
    return NULL;
  for (guint i = 0; i < n_slots; i++)
    {
      LidMove out = { check->population->slots[slots[i]].module, (int)slots[i], LID_NOWHERE };
      LidMove in = { modules[i], LID_NOWHERE, (int)slots[i] };

      if (out.module == NULL || lid_cure_is_held (check, slots[i]))
        return NULL;
      g_array_append_val (moves, out);
      g_array_append_val (moves, in);
    }
  return g_steal_pointer (&moves);
}
