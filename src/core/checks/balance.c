/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/balance.h"

static void
add (LidBalanceSum *sum, gint64 mib, guint ranks, gboolean told)
{
  sum->mib += mib;
  sum->ranks += ranks;
  sum->ranks_missing = sum->ranks_missing || !told;
  sum->n++;
}

/**
 * lid_balance_init:
 * @balance: sums to set up
 * @check: after the rules of the fitted phase, which say what is usable
 */
void
lid_balance_init (LidBalance *balance, const LidCheck *check)
{
  const LidBoard *board = check->board;

  *balance = (LidBalance){ .n_channels = board->n_channels, .n_sockets = board->n_sockets };
  balance->channels = g_new0 (LidBalanceSum, board->n_channels);
  balance->sockets = g_new0 (LidBalanceSum, board->n_sockets);
  for (guint i = 0; i < check->n_live; i++)
    {
      guint slot = check->live[i];
      const LidModule *module = lid_check_module (check, slot);
      gint64 mib = lid_module_capacity (module);
      gboolean told;
      guint ranks;

      if (check->unusable[slot] || module->persistent)
        continue;
      ranks = lid_board_count_ranks (board, module, &told);
      if (board->slots[slot].channel != LID_NOWHERE)
        add (&balance->channels[board->slots[slot].channel], mib, ranks, told);
      if (board->slots[slot].socket != LID_NOWHERE)
        add (&balance->sockets[board->slots[slot].socket], mib, ranks, told);
      balance->n++;
    }
}

void
lid_balance_clear (LidBalance *balance)
{
  g_clear_pointer (&balance->channels, g_free);
  g_clear_pointer (&balance->sockets, g_free);
}

/**
 * lid_balance_is_sized:
 * @check: the context, from the usable phase on
 * @socket: a socket's index; LID_NOWHERE: what hangs on none
 *
 * A sum with a part that is not told says nothing of balance: the rule at work asks for it.
 *
 * Returns: whether the capacity of all usable modules there is told
 */
gboolean
lid_balance_is_sized (LidCheck *check, int socket)
{
  gboolean sized = TRUE;

  /* Where all are in slots, and all tell theirs, nobody has to look. */
  if (check->n_dram == check->n_live && !(check->missing & LID_FACT_BIT (LID_FACT_CAPACITY)))
    return TRUE;
  for (guint i = 0; i < check->n_live; i++)
    {
      guint slot = check->live[i];

      if (check->board->slots[slot].socket != socket || !lid_check_is_usable (check, slot)
          || lid_module_knows (lid_check_module (check, slot), LID_FACT_CAPACITY))
        continue;
      lid_check_miss (check, LID_FACT_CAPACITY, slot);
      sized = FALSE;
    }
  return sized;
}
