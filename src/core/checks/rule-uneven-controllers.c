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

/* The highest number of a processor's controllers; 0 where one is not told. */
static guint
highest (const LidBoard *board, guint socket)
{
  const LidBoardSocket *here = &board->sockets[socket];
  int most = 0;

  for (guint i = 0; i < here->n_channels; i++)
    {
      if (board->channels[here->first_channel + i].controller < 1)
        return 0;
      most = MAX (most, board->channels[here->first_channel + i].controller);
    }
  return (guint)most;
}

/* FALSE where no controller has a second channel: then idle channels say it all. */
static gboolean
sum_up (const LidCheck *check, guint socket, Sum *sums)
{
  const LidBoardSocket *here = &check->board->sockets[socket];
  gboolean several = FALSE;

  for (guint i = 0; i < here->n_channels; i++)
    {
      guint c = here->first_channel + i;
      Sum *sum = &sums[check->board->channels[c].controller - 1];

      several = several || sum->channels > 0;
      sum->channels++;
      sum->in_use += check->balance->channels[c].n > 0;
      sum->mib += check->balance->channels[c].mib;
    }
  return several;
}

/* Channels in use first, then what they hold. */
static gboolean
is_more (const Sum *x, const Sum *y)
{
  return x->in_use > y->in_use || (x->in_use == y->in_use && x->mib > y->mib);
}

/* The controllers with least and most, by number from 0. FALSE: they carry the same. */
static gboolean
find_ends (const Sum *sums, guint n, guint *least, guint *most)
{
  *least = *most = n;
  for (guint i = 0; i < n; i++)
    if (sums[i].channels > 0)
      {
        if (*least == n || is_more (&sums[*least], &sums[i]))
          *least = i;
        if (*most == n || is_more (&sums[i], &sums[*most]))
          *most = i;
      }
  return is_more (&sums[*most], &sums[*least]);
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
      guint n = highest (board, s), a, b;
      g_autofree Sum *sums = g_new0 (Sum, n);

      /* One module alone cannot be spread, nor can many with one controller. */
      if (check->balance->sockets[s].n < 2 || n < 2 || !sum_up (check, s, sums)
          || !lid_balance_is_sized (check, (int)s) || !find_ends (sums, n, &a, &b))
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
