/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/balance.h"
#include "checks/names.h"
#include "checks/rules.h"
#include "figures/bandwidth.h"
#include "figures/regions.h"

#include <glib/gi18n-lib.h>
#include <string.h>

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

/* Neighbours that are read as one: those of a processor, or of a node it is cut into. */
typedef struct
{
  guint first, n;
} Part;

/* FALSE where no controller has a second channel: then idle channels say it all. */
static gboolean
sum_up (const LidCheck *check, Part part, Sum *sums)
{
  gboolean several = FALSE;

  for (guint c = part.first; c < part.first + part.n; c++)
    {
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
add_slots (const LidCheck *check, Part part, guint controller, LidSlotSet *slots)
{
  for (guint c = part.first; c < part.first + part.n; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];

      if (check->board->channels[c].controller == (int)controller + 1)
        for (guint k = 0; k < channel->n_fitted; k++)
          lid_slot_set_add (slots, channel->fitted[k]);
    }
}

/* What is to be said of loads that differ. */
typedef enum
{
  UNEQUAL,     /* other places would even them out */
  READ_AS_ONE, /* so many channels cannot be spread more evenly, and it costs nothing */
  ODD          /* nor these; what it costs other rules say */
} Kind;

/* Channels in use that all hold the same, and no controller with two more of them than another: two
 * or six alike on four controllers cannot be spread more evenly, and are read as one
 * (shared/facts/archetypes.md, "Classing a count"). Not an odd number: regions are so many channels
 * of each of so many controllers (population.md 4.1, K1), so that three of two controllers are two
 * and one, whatever the board's numbers say. With a second module on them there is more to spread.
 */
static Kind
kind_of (const LidCheck *check, Part part, const Sum *least, const Sum *most)
{
  const LidRegionRule rule = lid_regions_rule (check->board, check->population);
  gint64 mib = 0;
  guint in_use = 0, deepest = 0;

  for (guint c = part.first; c < part.first + part.n; c++)
    {
      gint64 of_channel = check->balance->channels[c].mib;

      if (of_channel != 0 && mib != 0 && of_channel != mib)
        return UNEQUAL;
      mib = MAX (mib, of_channel);
      in_use += of_channel != 0;
      deepest = MAX (deepest, check->balance->channels[c].n);
    }
  if (most->in_use - least->in_use > 1)
    return UNEQUAL;
  if (in_use % 2 == 0
      && (rule.model == LID_REGIONS_LAYERED || ((guint64)rule.ways >> MIN (in_use, 63) & 1) == 1))
    return READ_AS_ONE;
  return deepest == 1 ? ODD : UNEQUAL;
}

/* Where one controller of a processor, or of a node, carries more than another. */
typedef struct
{
  Sum least, most;
  Part part;
  guint fullest;
} Uneven;

/* The controllers with least and with most of a part. Returns FALSE where they are alike. */
static gboolean
compare_part (LidCheck *check, guint s, Part part, Sum *sums, guint n, Uneven *out)
{
  guint a, b;

  memset (sums, 0, n * sizeof *sums);
  if (!sum_up (check, part, sums) || !lid_balance_is_sized (check, (int)s)
      || !find_ends (sums, n, &a, &b))
    return FALSE;
  *out = (Uneven){ sums[a], sums[b], part, b };
  return TRUE;
}

/* The first node whose controllers differ; a processor that is not cut is one. Returns FALSE where
 * there is none, or nothing to compare: one module alone cannot be spread, nor can many with one
 * controller. */
static gboolean
compare (LidCheck *check, guint s, Uneven *out)
{
  guint n = highest (check->board, s);
  guint nodes = lid_bandwidth_nodes (check->board, check->population->numa_split, s);
  g_autofree Sum *sums = g_new0 (Sum, n);
  gboolean found = FALSE;

  if (check->balance->sockets[s].n < 2 || n < 2)
    return FALSE;
  for (guint node = 0; node < nodes && !found; node++)
    {
      Part part;

      part.first = lid_bandwidth_node (check->board, s, nodes, node, &part.n);
      found = compare_part (check, s, part, sums, n, out);
    }
  return found;
}

static char *
sentence (Kind kind, guint32 sockets, const char *names, const Sum *least, const Sum *most)
{
  g_autofree char *low = lid_units_capacity (least->mib), *high = lid_units_capacity (most->mib);
  const char *rest[] = { NULL,
                         _ ("So many channels cannot be spread more evenly, and they are read as "
                            "one."),
                         _ ("So many channels cannot be spread more evenly.") };
  g_autofree char *said = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "The memory controllers of processor %s carry unequal loads: the most has "
                   "%s (channels in use: %u), the least %s (%u).",
                   "The memory controllers of processors %s carry unequal loads: the most "
                   "has %s (channels in use: %u), the least %s (%u).",
                   (gulong)__builtin_popcount (sockets)),
      names, high, most->in_use, low, least->in_use);

  return rest[kind] != NULL ? g_strdup_printf ("%s %s", said, rest[kind]) : g_steal_pointer (&said);
}

/* All processors that are uneven in one way; the figures are the first one's. */
typedef struct
{
  guint32 sockets;
  Uneven first;
  LidSlotSet slots;
} Alike;

static void
speak (LidCheck *check, Kind kind, const Alike *alike)
{
  g_autofree char *names = lid_names_sockets (check, alike->sockets);

  lid_check_add (check, kind == UNEQUAL ? LID_GRADE_LOSES : LID_GRADE_NOTE, LID_STOPS_NOTHING,
                 &alike->slots,
                 sentence (kind, alike->sockets, names, &alike->first.least, &alike->first.most));
}

/* Spread over the controllers first (P4). */
static void
check_controllers (LidCheck *check)
{
  Alike by_kind[ODD + 1] = { { .sockets = 0 } };

  for (guint s = 0; s < check->board->n_sockets; s++)
    {
      Uneven here;
      Alike *alike;

      if (!compare (check, s, &here))
        continue;
      alike = &by_kind[kind_of (check, here.part, &here.least, &here.most)];
      if (alike->sockets == 0)
        alike->first = here;
      alike->sockets |= 1u << s;
      add_slots (check, here.part, here.fullest, &alike->slots);
    }
  for (Kind kind = UNEQUAL; kind <= ODD; kind++)
    if (by_kind[kind].sockets != 0)
      speak (check, kind, &by_kind[kind]);
}

const LidRule lid_rule_uneven_controllers = {
  .id = "uneven-controllers",
  .title = N_ ("uneven controllers"),
  .scope = LID_SCOPE_SOCKET,
  .lasting = FALSE,
  .phase = LID_PHASE_USABLE,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES) | LID_GRADE_BIT (LID_GRADE_NOTE),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why
  = N_ ("A processor has several memory controllers, each with channels of its own. The same "
        "modules carry more when they are spread over all controllers than when they sit on one. "
        "Where so many channels cannot be spread more evenly it is only noted."),
  .clears = N_ ("Move modules until the controllers hold the same."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "physics",
  .source = "Linux kernel, drivers/edac/skx_base.c: channels interleaved per controller",
  .check = check_controllers,
};
