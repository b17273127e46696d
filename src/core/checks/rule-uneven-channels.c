/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/balance.h"
#include "checks/names.h"
#include "checks/rules.h"
#include "figures/bandwidth.h"

#include <glib/gi18n-lib.h>

/* Least and most over the channels in use of one processor, or of one node it is cut into: a node
 * is read by its own cores (product.md 6), so that what another node holds is no counterpart. */
typedef struct
{
  gint64 least_mib, most_mib, sum_mib;
  guint least_n, most_n;
  guint least_ranks, most_ranks;
  gboolean told;
  guint n;
} Span;

/* Of @n channels of the board from @first on, those that hang on @socket. */
typedef struct
{
  int socket;
  guint first, n;
} Part;

static Part
whole (const LidCheck *check, int socket)
{
  return (Part){ socket, 0, check->board->n_channels };
}

static guint
count_nodes (const LidCheck *check, int socket)
{
  return socket == LID_NOWHERE
             ? 1
             : lid_bandwidth_nodes (check->board, check->population->numa_split, (guint)socket);
}

static Part
part_of (const LidCheck *check, int socket, guint nodes, guint node)
{
  Part part = whole (check, socket);

  if (nodes > 1)
    part.first = lid_bandwidth_node (check->board, (guint)socket, nodes, node, &part.n);
  return part;
}

static Span
span_of (const LidCheck *check, Part part)
{
  Span span
      = { .told = TRUE, .least_mib = G_MAXINT64, .least_n = G_MAXUINT, .least_ranks = G_MAXUINT };

  for (guint c = part.first; c < part.first + part.n; c++)
    {
      const LidBalanceSum *sum = &check->balance->channels[c];

      if (check->board->channels[c].socket != part.socket || sum->n == 0)
        continue;
      span.least_mib = MIN (span.least_mib, sum->mib);
      span.most_mib = MAX (span.most_mib, sum->mib);
      span.sum_mib += sum->mib;
      span.least_n = MIN (span.least_n, sum->n);
      span.most_n = MAX (span.most_n, sum->n);
      span.least_ranks = MIN (span.least_ranks, sum->ranks);
      span.most_ranks = MAX (span.most_ranks, sum->ranks);
      span.told = span.told && !sum->ranks_missing;
      span.n++;
    }
  return span;
}

/* The slots of the channels with most in them: where the unevenness sits. */
static void
add_slots (const LidCheck *check, Part part, gint64 most_mib, LidSlotSet *slots)
{
  for (guint c = part.first; c < part.first + part.n; c++)
    if (check->board->channels[c].socket == part.socket
        && check->balance->channels[c].mib == most_mib)
      for (guint i = 0; i < check->survey->channels[c].n_fitted; i++)
        lid_slot_set_add (slots, check->survey->channels[c].fitted[i]);
}

/* What is uneven: capacity, else modules, else ranks. @names: the processors, @n of them; NULL
 * where there is one or none told. */
static char *
say (const char *names, gulong n, const Span *span)
{
  g_autofree char *least = lid_units_capacity (span->least_mib);
  g_autofree char *most = lid_units_capacity (span->most_mib);

  if (span->least_mib != span->most_mib)
    return names == NULL ? g_strdup_printf (_ ("Channels hold from %s to %s: what is above the "
                                               "least is read over fewer channels."),
                                            least, most)
                         : g_strdup_printf (
                             g_dngettext (GETTEXT_PACKAGE,
                                          "At processor %s channels hold from %s to %s: what is "
                                          "above the least is read over fewer channels.",
                                          "At processors %s each, channels hold from %s to %s: "
                                          "what is above the least is read over fewer channels.",
                                          n),
                             names, least, most);
  if (span->least_n != span->most_n)
    return names == NULL ? g_strdup_printf (
               _ ("All channels in use hold %s, but in different numbers of modules: %u to %u."),
               most, span->least_n, span->most_n)
                         : g_strdup_printf (
                             g_dngettext (GETTEXT_PACKAGE,
                                          "At processor %s all channels in use hold %s, but in "
                                          "different numbers of modules: %u to %u.",
                                          "At processors %s each, all channels in use hold %s, but "
                                          "in different numbers of modules: %u to %u.",
                                          n),
                             names, most, span->least_n, span->most_n);
  return names == NULL
             ? g_strdup_printf (
                 _ ("All channels in use hold %s, but in different numbers of ranks: %u to %u."),
                 most, span->least_ranks, span->most_ranks)
             : g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                             "At processor %s all channels in use hold %s, but in "
                                             "different numbers of ranks: %u to %u.",
                                             "At processors %s each, all channels in use hold %s, "
                                             "but in different numbers of ranks: %u to %u.",
                                             n),
                                names, most, span->least_ranks, span->most_ranks);
}

/* The same of a node of the processors named. */
static char *
say_of_node (const char *names, gulong n, const Span *span)
{
  g_autofree char *least = lid_units_capacity (span->least_mib);
  g_autofree char *most = lid_units_capacity (span->most_mib);

  if (span->least_mib != span->most_mib)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE,
                     "In a node of processor %s channels hold from %s to %s: what is above the "
                     "least is read over fewer channels.",
                     "In a node of each of the processors %s channels hold from %s to %s: what is "
                     "above the least is read over fewer channels.",
                     n),
        names, least, most);
  if (span->least_n != span->most_n)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE,
                     "In a node of processor %s all channels in use hold %s, but in different "
                     "numbers of modules: %u to %u.",
                     "In a node of each of the processors %s all channels in use hold %s, but in "
                     "different numbers of modules: %u to %u.",
                     n),
        names, most, span->least_n, span->most_n);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "In a node of processor %s all channels in use hold %s, but in different "
                   "numbers of ranks: %u to %u.",
                   "In a node of each of the processors %s all channels in use hold %s, but in "
                   "different numbers of ranks: %u to %u.",
                   n),
      names, most, span->least_ranks, span->most_ranks);
}

/* Nodes may differ (shared/facts/population.md 4.5: "halves may differ"), so it is only noted. */
static char *
say_apart (const char *names, gulong n, const Span *span)
{
  g_autofree char *least = lid_units_capacity (span->least_mib);
  g_autofree char *most = lid_units_capacity (span->most_mib);

  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "The nodes of processor %s hold from %s to %s: each is read by its own cores, "
                   "and those of the smaller one sooner have to reach into another.",
                   "The nodes of each of the processors %s hold from %s to %s: each is read by its "
                   "own cores, and those of the smaller one sooner have to reach into another.",
                   n),
      names, least, most);
}

static char *
say_bare (const char *names, gulong n, const Span *span)
{
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "Not every node of processor %s has memory of its own: the cores of one without "
                   "read through another node, which takes longer.",
                   "Not every node of processors %s has memory of its own: the cores of one "
                   "without read through another node, which takes longer.",
                   n),
      names);
}

/* What was found at processors: whom, and the figures of the first. */
typedef struct
{
  guint32 sockets;
  Span span;
  gboolean found, of_node;
} Found;

static void
find (Found *found, int socket, const Span *span)
{
  if (socket != LID_NOWHERE)
    found->sockets |= 1u << socket;
  if (!found->found)
    found->span = *span;
  found->found = TRUE;
}

static void
look_at_part (LidCheck *check, Part part, gboolean of_node, Found found[2], LidSlotSet *slots)
{
  Span span = span_of (check, part);
  Found *here = NULL;

  if (span.n < 2)
    return;
  if (span.least_mib != span.most_mib)
    {
      here = &found[0];
      add_slots (check, part, span.most_mib, slots);
    }
  else if (span.least_n != span.most_n || (span.told && span.least_ranks != span.most_ranks))
    here = &found[1];
  if (here == NULL)
    return;
  find (here, part.socket, &span);
  here->of_node = of_node;
}

/* Nodes with memory that do not hold the same, and nodes without: what a processor without memory
 * is to the machine (P8). */
static void
look_at_nodes (const LidCheck *check, int socket, guint nodes, Found *apart, Found *bare)
{
  Span sums = { .least_mib = G_MAXINT64 };
  gboolean without = FALSE;

  for (guint node = 0; node < nodes; node++)
    {
      Span span = span_of (check, part_of (check, socket, nodes, node));

      without = without || span.n == 0;
      if (span.n == 0)
        continue;
      sums.least_mib = MIN (sums.least_mib, span.sum_mib);
      sums.most_mib = MAX (sums.most_mib, span.sum_mib);
    }
  if (sums.most_mib > sums.least_mib)
    find (apart, socket, &sums);
  if (without)
    find (bare, socket, &sums);
}

static void
speak (LidCheck *check, const Found *found, const LidSlotSet *slots)
{
  gboolean named = found->sockets != 0 && (check->board->n_sockets > 1 || found->of_node);
  g_autofree char *names = named ? lid_names_sockets (check, found->sockets) : NULL;
  gulong n = (gulong)__builtin_popcount (found->sockets);

  if (found->found)
    lid_check_add (
        check, slots != NULL ? LID_GRADE_LOSES : LID_GRADE_NOTE, LID_STOPS_NOTHING, slots,
        found->of_node ? say_of_node (names, n, &found->span) : say (names, n, &found->span));
}

static void
note (LidCheck *check, const Found *found, char *(*words) (const char *, gulong, const Span *))
{
  g_autofree char *names = found->found ? lid_names_sockets (check, found->sockets) : NULL;

  if (found->found)
    lid_check_add (check, LID_GRADE_NOTE, LID_STOPS_NOTHING, NULL,
                   words (names, (gulong)__builtin_popcount (found->sockets), &found->span));
}

static void
check_channels (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  Found found[2] = { { .sockets = 0 } }, apart = { .sockets = 0 }, bare = { .sockets = 0 };

  if (!check->board->channels_told)
    return;
  for (int s = check->board->sockets_told ? 0 : LID_NOWHERE; s < (int)check->board->n_sockets; s++)
    {
      guint nodes = count_nodes (check, s);

      if (span_of (check, whole (check, s)).n < 2 || !lid_balance_is_sized (check, s))
        continue;
      for (guint node = 0; node < nodes; node++)
        look_at_part (check, part_of (check, s, nodes, node), nodes > 1, found, &slots);
      if (nodes > 1 && (found[0].sockets >> s & 1) == 0)
        look_at_nodes (check, s, nodes, &apart, &bare);
    }
  speak (check, &found[0], &slots);
  speak (check, &found[1], NULL);
  note (check, &apart, say_apart);
  note (check, &bare, say_bare);
}

const LidRule lid_rule_uneven_channels = {
  .id = "uneven-channels",
  .title = N_ ("uneven channels"),
  .scope = LID_SCOPE_SOCKET,
  .lasting = FALSE,
  .phase = LID_PHASE_USABLE,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES) | LID_GRADE_BIT (LID_GRADE_NOTE),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why = N_ (
      "Memory is read over several channels at once. What one channel holds above the least of "
      "them has no counterpart on the others, so that this part is read over fewer channels. Where "
      "setup cuts a processor into nodes, each is looked at by itself, and nodes that hold "
      "different amounts are only noted."),
  .clears = N_ ("Move or exchange modules until each channel in use holds the same, in the same "
                "number of modules and ranks."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "physics",
  .source = "F. Denneman, Memory Deep Dive series",
  .check = check_channels,
};
