/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Modules that come in: from the tray, or from slots of a processor that is not there. */
#include "checks/cure.h"

static gint64
held_by (const LidCheck *check, const guint8 *taken, const LidModule *with, guint channel)
{
  const LidBoardChannel *here = &check->board->channels[channel];
  gint64 mib = 0;

  for (guint i = 0; i < here->n_slots; i++)
    if (taken[here->slots[i]] == 2)
      mib += lid_module_capacity (with);
    else if (lid_check_counts (check, here->slots[i]))
      mib += lid_module_capacity (lid_check_module (check, here->slots[i]));
  return mib;
}

static gint64
held_at (const LidCheck *check, const guint8 *taken, const LidModule *with, int socket)
{
  gint64 mib = 0;

  for (guint c = 0; c < check->board->n_channels; c++)
    if (check->board->channels[c].socket == socket)
      mib += held_by (check, taken, with, c);
  return mib;
}

static int
first_free (const LidCheck *check, const guint8 *taken, guint channel)
{
  const LidBoardChannel *here = &check->board->channels[channel];

  for (guint i = 0; i < here->n_slots; i++)
    if (taken[here->slots[i]] == 0)
      return (int)here->slots[i];
  return LID_NOWHERE;
}

/* The slot for one more: on the channel that holds least, of the processor that holds least, the
 * first in the board's order. */
static int
find_slot (const LidCheck *check, const guint8 *taken, const LidModule *with)
{
  const LidBoard *board = check->board;
  gint64 least[2] = { 0, 0 };
  int best = LID_NOWHERE;

  for (guint c = 0; c < board->n_channels; c++)
    {
      int slot = first_free (check, taken, c);
      gint64 here[2];

      if (slot == LID_NOWHERE || !lid_survey_socket_fitted (check->survey, (guint)slot))
        continue;
      here[0] = held_by (check, taken, with, c);
      here[1] = held_at (check, taken, with, board->channels[c].socket);
      if (best == LID_NOWHERE || here[0] < least[0]
          || (here[0] == least[0]
              && (here[1] < least[1]
                  || (here[1] == least[1] && check->place[slot] < check->place[best]))))
        {
          best = slot;
          least[0] = here[0];
          least[1] = here[1];
        }
    }
  return best;
}

static guint8 *
taken_slots (const LidCheck *check)
{
  guint8 *taken = g_new0 (guint8, check->board->n_slots + 1);

  for (guint i = 0; i < check->board->n_slots; i++)
    taken[i] = check->board->slots[i].soldered != NULL || lid_check_module (check, i) != NULL;
  return taken;
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
 *
 * Returns: (transfer full) (nullable): moves of all of them to free slots of fitted processors;
 * NULL where they do not all find one
 */
GArray *
lid_cure_settle (const LidCheck *check, const guint *slots, guint n_slots)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  g_autofree guint8 *taken = taken_slots (check);

  for (guint i = 0; i < n_slots; i++)
    {
      LidMove move = { check->population->slots[slots[i]].module, (int)slots[i], LID_NOWHERE };

      if (move.module == NULL || move.module->persistent
          || check->board->slots[slots[i]].soldered != NULL)
        return NULL;
      move.to = find_slot (check, taken, move.module);
      if (move.to == LID_NOWHERE)
        return NULL;
      taken[move.to] = 2;
      g_array_append_val (moves, move);
    }
  return moves->len > 0 ? g_steal_pointer (&moves) : NULL;
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
  g_autofree LidModule **modules = g_new0 (LidModule *, count + 1);
  g_autofree guint8 *taken = taken_slots (check);

  if (!check->board->channels_told || at_hand (check, like, count, modules) < count)
    return NULL;
  for (guint i = 0; i < count; i++)
    {
      LidMove move = { modules[i], LID_NOWHERE, find_slot (check, taken, like) };

      if (move.to == LID_NOWHERE)
        return NULL;
      taken[move.to] = 2;
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
  g_autofree LidModule **modules = g_new0 (LidModule *, n_slots + 1);

  if (n_slots == 0 || at_hand (check, like, n_slots, modules) < n_slots)
    return NULL;
  for (guint i = 0; i < n_slots; i++)
    {
      LidMove out = { check->population->slots[slots[i]].module, (int)slots[i], LID_NOWHERE };
      LidMove in = { modules[i], LID_NOWHERE, (int)slots[i] };

      if (out.module == NULL || out.module->persistent
          || check->board->slots[slots[i]].soldered != NULL)
        return NULL;
      g_array_append_val (moves, out);
      g_array_append_val (moves, in);
    }
  return g_steal_pointer (&moves);
}
