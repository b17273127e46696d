/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"
#include "base/units.h"
#include "checks/balance.h"
#include "checks/names.h"
#include "checks/rules.h"
#include "figures/bandwidth.h"
#include "figures/regions.h"

#include <glib/gi18n-lib.h>

#define MOST_PARTS 8u

/* One processor whose channels in use all hold the same and are read in several parts all the same,
 * and what other numbers of channels would carry: all as multiples of one channel. */
typedef struct
{
  guint in_use, fewer, more; /* more: 0: no number is faster, or there is no channel for it */
  LidRatio now, with_fewer, with_more;
} Split;

/* What @n channels alike carry: n × size ÷ Σ size_i ÷ ways_i, of one channel. */
static LidRatio
carry (const LidRegionRule *rule, const LidRegionChannel *channels, guint n)
{
  g_autoptr (GArray) regions = g_array_new (FALSE, FALSE, sizeof (LidRegion));
  gint64 size = 0, steps = 0;

  lid_regions_form (*rule, channels, n, regions);
  for (guint i = 0; i < regions->len; i++)
    {
      const LidRegion *region = &g_array_index (regions, LidRegion, i);

      size += region->mib;
      steps += region->mib / region->ways;
    }
  return lid_ratio (size, steps);
}

/* The channels of a processor that could be in use, those that are first. Returns FALSE where those
 * in use do not all hold the same: that is rule-uneven-channels.c's. */
static gboolean
collect (const LidCheck *check, guint socket, LidRegionChannel *channels, guint *n, Split *split)
{
  const LidBoardSocket *place = &check->board->sockets[socket];
  gint64 mib = 0;

  for (guint i = 0; i < place->n_channels; i++)
    {
      guint c = place->first_channel + i;
      gint64 here = check->figures->channels[c].region_mib;

      if (here == 0)
        continue;
      if (split->in_use++ && here != mib)
        return FALSE;
      mib = here;
      channels[(*n)++] = (LidRegionChannel){ mib, check->board->channels[c].controller, i };
    }
  for (guint i = 0; i < place->n_channels; i++)
    {
      guint c = place->first_channel + i;

      if (check->figures->channels[c].region_mib == 0)
        channels[(*n)++] = (LidRegionChannel){ mib, check->board->channels[c].controller, i };
    }
  return TRUE;
}

static gboolean
look_at (LidCheck *check, guint socket, Split *split)
{
  const LidRegionRule rule = lid_regions_rule (check->board, check->population);
  LidRegionChannel channels[LID_BOARD_MAX_CHANNELS];
  guint n = 0;

  *split = (Split){ 0 };
  if (check->figures->sockets[socket].n_regions < 2
      || !collect (check, socket, channels, &n, split))
    return FALSE;
  split->now = split->with_fewer = split->with_more = carry (&rule, channels, split->in_use);
  for (guint k = 2; k <= n; k++) /* one alone is never faster */
    {
      LidRatio other = carry (&rule, channels, k);
      LidRatio *best = k < split->in_use ? &split->with_fewer : &split->with_more;

      if (lid_ratio_compare (other, *best) <= 0)
        continue;
      *best = other;
      *(k < split->in_use ? &split->fewer : &split->more) = k;
    }
  return split->fewer != 0;
}

/* "4, 2 and 1". */
static char *
parts_words (const LidFigures *figures, guint socket)
{
  const LidSocketFigures *here = &figures->sockets[socket];
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < here->n_regions; i++)
    g_ptr_array_add (
        parts, g_strdup_printf (
                   "%u", g_array_index (figures->regions, LidRegion, here->first_region + i).ways));
  return lid_text_join ((const char *const *)parts->pdata, parts->len, MOST_PARTS);
}

static char *
reach (const LidCheck *check, guint socket, const Split *split, LidRatio other)
{
  LidRatio whole = lid_ratio_mul (check->figures->sockets[socket].whole_mbs,
                                  lid_ratio_div (other, split->now));

  return lid_units_bandwidth (lid_ratio_round (whole));
}

/* @names: the processors, @n of them, all like @socket. */
static char *
sentence (const LidCheck *check, guint socket, const char *names, gulong n, const Split *split)
{
  g_autofree char *parts = parts_words (check->figures, socket), *now = NULL, *fewer = NULL,
                  *more = NULL;

  if (!lid_ratio_is_known (check->figures->sockets[socket].whole_mbs))
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE,
                     "The %u channels in use at processor %s hold the same but are read in parts "
                     "of %s channels: %u of them alone would be read faster.",
                     "The %u channels in use at each of the processors %s hold the same but are "
                     "read in parts of %s channels: %u of them alone would be read faster.",
                     n),
        split->in_use, names, parts, split->fewer);
  now = reach (check, socket, split, split->now);
  fewer = reach (check, socket, split, split->with_fewer);
  more = reach (check, socket, split, split->with_more);
  if (split->more == 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE,
                     "The %u channels in use at processor %s hold the same but are read in parts "
                     "of %s channels: reading all of it reaches %s there, and would reach %s with "
                     "only %u of them.",
                     "The %u channels in use at each of the processors %s hold the same but are "
                     "read in parts of %s channels: reading all of it reaches %s there, and would "
                     "reach %s with only %u of them.",
                     n),
        split->in_use, names, parts, now, fewer, split->fewer);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "The %u channels in use at processor %s hold the same but are read in parts of "
                   "%s channels: reading all of it reaches %s there, and would reach %s with only "
                   "%u of them, or %s with %u filled alike.",
                   "The %u channels in use at each of the processors %s hold the same but are read "
                   "in parts of %s channels: reading all of it reaches %s there, and would reach "
                   "%s with only %u of them, or %s with %u filled alike.",
                   n),
      split->in_use, names, parts, now, fewer, split->fewer, more, split->more);
}

/* Of the processor's channels in use the one that comes last in the order of fitting, of those that
 * come before @before: by the first of its modules. @place: (out): where that stands. */
static const LidSurveyChannel *
find_last (const LidCheck *check, guint socket, guint32 before, guint32 *place)
{
  const LidBoardSocket *here = &check->board->sockets[socket];
  const LidSurveyChannel *last = NULL;

  for (guint c = here->first_channel; c < here->first_channel + here->n_channels; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];
      guint32 first = G_MAXUINT32;

      for (guint i = 0; i < channel->n_fitted; i++)
        first = MIN (first, check->place[channel->fitted[i]]);
      if (check->figures->channels[c].region_mib == 0 || first >= before
          || (last != NULL && first < *place))
        continue;
      last = channel;
      *place = first;
    }
  return last;
}

/* The slots of the channels that are too many: the last in the order of fitting, so that what stays
 * is in order without them. All hold the same, so that any other would do for the figures. */
static void
add_slots (const LidCheck *check, guint socket, const Split *split, LidSlotSet *slots)
{
  guint32 before = G_MAXUINT32;

  for (guint n = split->fewer; n < split->in_use; n++)
    {
      const LidSurveyChannel *channel = find_last (check, socket, before, &before);

      for (guint i = 0; i < channel->n_fitted; i++)
        lid_slot_set_add (slots, channel->fitted[i]);
    }
}

static gboolean
same_split (const LidFigures *figures, guint a, const Split *x, guint b, const Split *y)
{
  LidRatio of_a = figures->sockets[a].whole_mbs, of_b = figures->sockets[b].whole_mbs;

  return x->in_use == y->in_use && x->fewer == y->fewer && x->more == y->more
         && lid_ratio_is_known (of_a) == lid_ratio_is_known (of_b)
         && (!lid_ratio_is_known (of_a) || lid_ratio_compare (of_a, of_b) == 0);
}

/* One finding for all processors that are alike in it. */
static void
speak (LidCheck *check, guint socket, const Split *splits, guint32 *left)
{
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL;
  guint32 here = 0;
  LidFinding *finding;

  for (guint32 rest = *left; rest != 0; rest &= rest - 1)
    {
      guint s = (guint)__builtin_ctz (rest);

      if (same_split (check->figures, socket, &splits[socket], s, &splits[s]))
        {
          here |= 1u << s;
          add_slots (check, s, &splits[s], &slots);
        }
    }
  *left &= ~here;
  names = lid_names_sockets (check, here);
  finding = lid_check_add (
      check, LID_GRADE_LOSES, LID_STOPS_NOTHING, &slots,
      sentence (check, socket, names, (gulong)__builtin_popcount (here), &splits[socket]));
  if (check->board->ways_source != NULL)
    finding->source = check->board->ways_source;
}

/* Only some numbers of channels go together (shared/facts/population.md 4.1, 4.3): five or seven
 * alike are read in parts, and the last, narrow part makes all of it slower than four are. Only
 * where the figures prove it; under a split into nodes each node has its own channels, and there
 * the range of the figures is all that is said. */
static void
check_regions (LidCheck *check)
{
  const LidFigures *figures = check->figures;
  Split splits[LID_BOARD_MAX_SOCKETS];
  guint32 left = 0;

  if (!figures->starts || !check->board->channels_told || check->population->numa_split > 1)
    return;
  for (guint s = 0; s < check->board->n_sockets; s++)
    if (lid_balance_is_sized (check, (int)s) && lid_ratio_is_known (figures->even_share)
        && look_at (check, s, &splits[s]))
      left |= 1u << s;
  while (left != 0)
    speak (check, (guint)__builtin_ctz (left), splits, &left);
}

const LidRule lid_rule_split_regions = {
  .id = "split-regions",
  .title = N_ ("numbers of channels that go together"),
  .scope = LID_SCOPE_MACHINE, /* figures are null where another processor stops the machine */
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why
  = N_ ("A processor reads only some numbers of channels as one, the board's definition names "
        "them. Other numbers are read in parts, one after the other, and what lies in a narrow "
        "part takes longer than all the rest: fewer or more modules can be faster."),
  .clears = N_ ("Fill as many channels as go together, or use fewer of them, where the capacity "
                "allows it."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "listed",
  .source = "Linux kernel, drivers/ras: interleave modes of the address translation library (K2)",
  .check = check_regions,
};
