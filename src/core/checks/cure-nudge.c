/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One hand's work: a module to another slot, or two modules that change places. Dealing all out
 * anew is often more than it takes, and does not know what pairs of channels need. */
#include "checks/cure.h"

#define MOST_TRIED 96u /* each is judged; on large machines that costs more than it finds */

static gboolean
may_go (const LidCheck *check, guint slot)
{
  return lid_check_module (check, slot) != NULL && lid_cure_may_change (check, slot);
}

/* The first free slot of a channel; LID_NOWHERE: none, or its processor is absent. */
static int
free_slot (const LidCheck *check, const LidBoardChannel *channel)
{
  for (guint i = 0; i < channel->n_slots; i++)
    if (check->population->slots[channel->slots[i]].module == NULL
        && check->board->slots[channel->slots[i]].soldered == NULL)
      return lid_survey_socket_fitted (check->survey, channel->slots[i]) ? (int)channel->slots[i]
                                                                         : LID_NOWHERE;
  return LID_NOWHERE;
}

static LidMove
move_of (const LidCheck *check, guint from, guint to)
{
  return (LidMove){ check->population->slots[from].module, (int)from, (int)to };
}

static void
add (GPtrArray *nudges, const LidMove *moves, guint n)
{
  GArray *copy = g_array_sized_new (FALSE, FALSE, sizeof (LidMove), n);

  g_array_append_vals (copy, moves, n);
  g_ptr_array_add (nudges, copy);
}

static void
add_moves (const LidCheck *check, GPtrArray *nudges, guint from)
{
  const LidBoardChannel *channels = check->board->channels;

  for (guint c = 0; c < check->board->n_channels; c++)
    {
      int to = free_slot (check, &channels[c]);

      if (to != LID_NOWHERE)
        add (nudges, (LidMove[]){ move_of (check, from, (guint)to) }, 1);
    }
}

static void
add_swaps (const LidCheck *check, GPtrArray *nudges, guint one)
{
  for (guint other = one + 1; other < check->board->n_slots; other++)
    if (may_go (check, other)
        && !lid_cure_same (lid_check_module (check, one), lid_check_module (check, other)))
      {
        const LidMove both[] = { move_of (check, one, other), move_of (check, other, one) };

        add (nudges, both, G_N_ELEMENTS (both));
      }
}

/**
 * lid_cure_nudges:
 * @check: whose population
 *
 * Returns: (transfer full) (element-type GArray): moves to try, slot by slot: to the first free
 *   slot of each channel, then with each later slot that holds another sort; none where channels
 * are not told, or where they are more than anybody waits for
 */
GPtrArray *
lid_cure_nudges (const LidCheck *check)
{
  GPtrArray *nudges = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);

  for (guint i = 0; check->board->channels_told && i < check->board->n_slots; i++)
    {
      if (!may_go (check, i))
        continue;
      add_moves (check, nudges, i);
      add_swaps (check, nudges, i);
      if (nudges->len > MOST_TRIED)
        {
          g_ptr_array_set_size (nudges, 0);
          break;
        }
    }
  return nudges;
}
