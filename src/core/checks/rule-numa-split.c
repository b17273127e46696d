/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/balance.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/bandwidth.h"
#include "figures/regions.h"

#include <glib/gi18n-lib.h>

static char *
splits_words (const LidBoard *board)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < board->n_numa; i++)
    g_string_append_printf (out, "%s%u", i > 0 ? _ (" or ") : "", board->numa[i]);
  return g_string_free (out, FALSE);
}

/* Whether all channels of a node hold the same, none left out. */
static gboolean
is_equal (const LidCheck *check, guint first, guint n)
{
  for (guint c = first + 1; c < first + n; c++)
    if (check->balance->channels[c].mib != check->balance->channels[first].mib)
      return FALSE;
  return TRUE;
}

/* How many channels are in use, where all of them hold the same; else 0. */
static guint
count_alike (const LidCheck *check, const LidBoardSocket *place)
{
  guint in_use = 0;
  gint64 mib = 0;

  for (guint c = place->first_channel; c < place->first_channel + place->n_channels; c++)
    {
      gint64 here = check->balance->channels[c].mib;

      if (here == 0)
        continue;
      if (in_use++ && here != mib)
        return 0;
      mib = here;
    }
  return in_use;
}

/* What runs as one node though channels are left out. One exception is published and does not say
 * which: four particular channels of eight. The other is a number of channels that a newer
 * processor reads as one though the older ones did not: what is asked of those is not asked of
 * it. */
static gboolean
is_taken (const LidCheck *check, const LidBoardSocket *place)
{
  guint32 added = lid_regions_rule (check->board, check->population).ways & ~check->board->ways;
  guint in_use = count_alike (check, place);

  return 2 * in_use == place->n_channels || (added >> MIN (in_use, 31) & 1);
}

static gboolean
is_served (const LidCheck *check, guint socket, guint nodes)
{
  const LidBoardSocket *place = &check->board->sockets[socket];

  if (place->n_channels % nodes != 0 || (nodes == 1 && is_taken (check, place)))
    return TRUE;
  for (guint node = 0; node < nodes; node++)
    if (!is_equal (check, place->first_channel + node * place->n_channels / nodes,
                   place->n_channels / nodes))
      return FALSE;
  return TRUE;
}

/* The processors whose channels are not what a split into @nodes asks for. */
static guint32
find_uneven (LidCheck *check, guint nodes)
{
  guint32 uneven = 0;

  if ((check->board->numa_equal >> MIN (nodes, 31) & 1) == 0)
    return 0;
  for (guint s = 0; s < check->board->n_sockets; s++)
    if (lid_balance_is_sized (check, (int)s) && !is_served (check, s, nodes))
      uneven |= 1u << s;
  return uneven;
}

/* The split into the fewest nodes that what is fitted does for; 0: there is none. */
static guint
serving_split (LidCheck *check)
{
  const LidBoard *board = check->board;
  guint best = 0;

  for (guint i = 0; i < board->n_numa; i++)
    if ((best == 0 || board->numa[i] < best) && find_uneven (check, board->numa[i]) == 0)
      best = board->numa[i];
  return best;
}

/* What a split asks of the channels of a node is one maker's, so the board's definition says it. */
static void
check_counts (LidCheck *check)
{
  guint nodes = MAX (check->population->numa_split, 1), other;
  g_autofree char *names = NULL;
  guint32 uneven;
  LidFinding *finding;

  if (!check->board->channels_told)
    return;
  uneven = find_uneven (check, nodes);
  if (uneven == 0)
    return;
  names = lid_names_sockets (check, uneven);
  finding = lid_check_add (
      check, LID_GRADE_LOSES, LID_STOPS_NOTHING, NULL,
      nodes == 1
          ? g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                          "With one node a processor this board asks that all its "
                                          "channels hold the same, and those of processor %s do "
                                          "not: the firmware may cut it otherwise.",
                                          "With one node a processor this board asks that all its "
                                          "channels hold the same, and those of processors %s do "
                                          "not: the firmware may cut them otherwise.",
                                          (gulong)__builtin_popcount (uneven)),
                             names)
          : g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                          "With %u nodes a processor this board asks that all "
                                          "channels of a node hold the same, and those of "
                                          "processor %s do not: the firmware may cut it otherwise.",
                                          "With %u nodes a processor this board asks that all "
                                          "channels of a node hold the same, and those of "
                                          "processors %s do not: the firmware may cut them "
                                          "otherwise.",
                                          (gulong)__builtin_popcount (uneven)),
                             nodes, names));
  finding->source = check->board->numa_equal_source;
  other = serving_split (check);
  lid_remedy_say (
      check, finding,
      other > 0 ? g_strdup_printf (_ ("Set the nodes of a processor to %u, or fill all channels of "
                                      "a node alike."),
                                   other)
                : g_strdup (_ ("Fill all channels of a node alike.")));
}

/* Where the list of splits is from: its own source, or that of what the splits ask for; only where
 * neither is told, that of the definition. */
static const char *
source_of_splits (const LidBoard *board, const char *otherwise)
{
  if (board->numa_source != NULL)
    return board->numa_source;
  if (board->numa_equal_source != NULL)
    return board->numa_equal_source;
  return board->source != NULL ? board->source : otherwise;
}

/* Into how many nodes setup can cut a processor is the board's word: shared/facts/population.md
 * 4.5. A board that does not say forbids nothing. */
static void
check_split (LidCheck *check)
{
  g_autofree char *splits = NULL;
  LidFinding *finding;

  if (lid_bandwidth_splits (check->board, check->population->numa_split))
    {
      check_counts (check);
      return;
    }
  splits = splits_words (check->board);
  finding = lid_check_add (
      check, LID_GRADE_LOSES, LID_STOPS_NOTHING, NULL,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "Set to %u node a processor, and this board can be cut into "
                                    "%s: the figures are those of one.",
                                    "Set to %u nodes a processor, and this board can be cut into "
                                    "%s: the figures are those of one.",
                                    check->population->numa_split),
                       check->population->numa_split, splits));
  finding->source = source_of_splits (check->board, finding->source);
  lid_remedy_say (check, finding, g_strdup_printf (_ ("Set it to %s."), splits));
}

const LidRule lid_rule_numa_split = {
  .id = "numa-split",
  .title = N_ ("nodes a processor is cut into"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .no_moves = N_ ("It is a setting, and settings are changed in setup."),
  .why
  = N_ ("Setup cuts a processor into the numbers of nodes it was made for, each with channels "
        "of its own, and ignores others. Some numbers ask that all channels of a node hold the "
        "same."),
  .clears = N_ ("Set the split to a number the board offers for what is fitted."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_split,
};
