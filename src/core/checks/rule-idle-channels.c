/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/balance.h"
#include "checks/names.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* A mode that works with pairs leaves channels of no pair empty: what rule-mode-unused.c asks for
 * is not to be called idle here. */
static gboolean
is_left_out (const LidCheck *check, guint channel)
{
  const LidBoardMode *mode = lid_board_find_mode (check->board, check->population->mode);

  if (mode == NULL || mode->n_pairs == 0)
    return FALSE;
  for (guint i = 0; i < mode->n_pairs; i++)
    if (mode->pairs[i].a == channel || mode->pairs[i].b == channel)
      return FALSE;
  return TRUE;
}

/* Fill one module in every channel before a second one in any (P3): an idle channel carries
 * nothing. Processors without any memory are another rule's. */
static void
check_idle (LidCheck *check)
{
  const LidBoard *board = check->board;
  LidSlotSet idle = { { 0 } }, slots = { { 0 } };
  guint in_use = 0, all = 0;
  g_autofree char *names = NULL;

  if (!board->channels_told || check->balance->n == 0)
    return;
  for (guint c = 0; c < board->n_channels; c++)
    {
      int socket = board->channels[c].socket;

      if ((check->balance->channels[c].n == 0 && is_left_out (check, c))
          || (socket != LID_NOWHERE && check->balance->sockets[socket].n == 0))
        continue;
      all++;
      if (check->balance->channels[c].n > 0)
        in_use++;
      else
        lid_slot_set_add (&idle, c);
    }
  if (in_use == all)
    return;
  names = lid_names_channels (check, &idle);
  LID_SLOT_SET_EACH (&idle, c)
    lid_slot_set_add (&slots, board->channels[c].slots[0]);
  lid_check_add (check, LID_GRADE_LOSES, LID_STOPS_NOTHING, &slots,
                 g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                               "Channels in use: %u of %u; %s carries nothing.",
                                               "Channels in use: %u of %u; %s carry nothing.",
                                               lid_slot_set_count (&idle)),
                                  in_use, all, names));
}

const LidRule lid_rule_idle_channels = {
  .id = "idle-channels",
  .title = N_ ("idle channels"),
  .scope = LID_SCOPE_SOCKET,
  .lasting = FALSE,
  .phase = LID_PHASE_USABLE,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why = N_ ("Each channel carries its part of the bandwidth. One without a module carries "
             "nothing, however large the others are: one module goes into every channel before a "
             "second one into any."),
  .clears = N_ ("Move modules to the idle channels, or fit more."),
  .basis = "physics",
  .source = "F. Denneman, Memory Deep Dive series",
  .check = check_idle,
};
