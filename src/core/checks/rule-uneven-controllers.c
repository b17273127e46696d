/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/balance.h"
#include "checks/names.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  guint channels; /* of the board */
  guint in_use;
  gint64 mib;
} Sum;

/* FALSE where a channel's controller is not told, or no controller has a second channel: then
 * idle channels say it all. */
static gboolean
sum_up (const LidCheck *check, guint socket, Sum *sums)
{
  const LidBoardSocket *here = &check->board->sockets[socket];
  gboolean several = FALSE;

  for (guint i = 0; i < here->n_channels; i++)
    {
      guint c = here->first_channel + i;
      int controller = check->board->channels[c].controller;
      Sum *sum;

      if (controller < 1 || controller > (int)here->n_controllers)
        return FALSE;
      sum = &sums[controller - 1];
      several = several || sum->channels > 0;
      sum->channels++;
      sum->in_use += check->balance->channels[c].n > 0;
      sum->mib += check->balance->channels[c].mib;
    }
  return several;
}

/* Where the controller with most sits. */
static void
add_slots (const LidCheck *check, guint socket, guint controller, LidSlotSet *slots)
{
  const LidBoardSocket *here = &check->board->sockets[socket];

  for (guint i = 0; i < here->n_channels; i++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[here->first_channel + i];

      if (check->board->channels[here->first_channel + i].controller == (int)controller + 1)
        for (guint k = 0; k < channel->n_fitted; k++)
          lid_slot_set_add (slots, channel->fitted[k]);
    }
}

/* Spread over the controllers first (P4). */
static void
check_controllers (LidCheck *check)
{
  const LidBoard *board = check->board;
  guint32 uneven = 0;
  Sum least = { 0 }, most = { 0 };
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL, *low = NULL, *high = NULL;

  for (guint s = 0; s < board->n_sockets; s++)
    {
      g_autofree Sum *sums = g_new0 (Sum, MAX (board->sockets[s].n_controllers, 1));
      guint a = 0, b = 0;

      /* One module alone cannot be spread. */
      if (check->balance->sockets[s].n <= 1 || !sum_up (check, s, sums)
          || !lid_balance_is_sized (check, (int)s))
        continue;
      for (guint i = 1; i < board->sockets[s].n_controllers; i++)
        {
          if (sums[i].channels == 0)
            continue;
          if (sums[i].in_use < sums[a].in_use
              || (sums[i].in_use == sums[a].in_use && sums[i].mib < sums[a].mib))
            a = i;
          if (sums[i].in_use > sums[b].in_use
              || (sums[i].in_use == sums[b].in_use && sums[i].mib > sums[b].mib))
            b = i;
        }
      if (sums[a].in_use == sums[b].in_use && sums[a].mib == sums[b].mib)
        continue;
      if (uneven == 0)
        {
          least = sums[a];
          most = sums[b];
        }
      uneven |= 1u << s;
      add_slots (check, s, b, &slots);
    }
  if (uneven == 0)
    return;
  names = lid_names_sockets (check, uneven);
  low = lid_units_capacity (least.mib);
  high = lid_units_capacity (most.mib);
  lid_check_add (check, LID_GRADE_LOSES, LID_STOPS_NOTHING, &slots,
                 g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                               "The memory controllers of processor %s carry "
                                               "unequal loads: the most has %s (channels in use: "
                                               "%u), the least %s (%u).",
                                               "The memory controllers of processors %s carry "
                                               "unequal loads: the most has %s (channels in use: "
                                               "%u), the least %s (%u).",
                                               (gulong)__builtin_popcount (uneven)),
                                  names, high, most.in_use, low, least.in_use));
}

const LidRule lid_rule_uneven_controllers = {
  .id = "uneven-controllers",
  .title = N_ ("uneven controllers"),
  .scope = LID_SCOPE_SOCKET,
  .lasting = FALSE,
  .phase = LID_PHASE_USABLE,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why
  = N_ ("A processor has several memory controllers, each with channels of its own. The same "
        "modules carry more when they are spread over all controllers than when they sit on one."),
  .clears = N_ ("Move modules until the controllers hold the same."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "physics",
  .source = "Linux kernel, drivers/edac/skx_base.c: channels interleaved per controller",
  .check = check_controllers,
};
