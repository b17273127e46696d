/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a memory mode leaves on each channel, on random modules, against the definition of
 * product.md 6, "Usable capacity" and "Expected bandwidth", reckoned rank by rank and pair by pair.
 * Published totals: tests/outside/handbook-modes.json. */
#include "figures-case.h"

#define MOST 6u
#define RANKS 3u

/* What was put on one channel: a size and a number of ranks for each of its two slots; 0: empty. */
typedef struct
{
  gint64 mib[2];
  guint ranks[2];
} Channel;

typedef struct
{
  guint n, first_pair; /* channels; the first that is in a pair, its partner is the next */
  Channel channels[MOST];
  const char *mode;
  guint spare;
  gint64 mirrored;
} Drawn;

static gint64
size_of (const Channel *channel)
{
  return channel->mib[0] + channel->mib[1];
}

static gint64
size_of_all (const Drawn *drawn)
{
  gint64 mib = 0;

  for (guint c = 0; c < drawn->n; c++)
    mib += size_of (&drawn->channels[c]);
  return mib;
}

static void
draw (GRand *rand, Drawn *drawn)
{
  static const char *const modes[] = { "plain", "mirrored", "partly-mirrored", "spared", "paired" };
  static const gint64 sizes[] = { 0, 0, 999, 1000, 4096, 4097, 8192 };

  drawn->n = (guint)g_rand_int_range (rand, 1, MOST + 1);
  drawn->first_pair = (guint)g_rand_int_range (rand, 0, 2);
  drawn->mode = modes[g_rand_int_range (rand, 0, G_N_ELEMENTS (modes))];
  drawn->spare = (guint)g_rand_int_range (rand, 1, 5);
  for (guint c = 0; c < drawn->n; c++)
    for (guint k = 0; k < 2; k++)
      {
        drawn->channels[c].mib[k] = sizes[g_rand_int_range (rand, 0, G_N_ELEMENTS (sizes))];
        drawn->channels[c].ranks[k] = (guint)g_rand_int_range (rand, 1, RANKS + 1);
      }
  drawn->mirrored = g_rand_int_range (rand, 0, (gint32)(size_of_all (drawn) * 5 / 8) + 1);
}

static FiguresCase *
build (const Drawn *drawn)
{
  g_autoptr (GString) slots = g_string_new (NULL), pairs = g_string_new (NULL);
  g_autoptr (GString) modules = g_string_new (NULL), put = g_string_new (NULL);

  for (guint c = 0; c < drawn->n; c++)
    g_string_append_printf (slots, "%s2", c > 0 ? ", " : "");
  for (guint c = drawn->first_pair; c + 1 < drawn->n; c += 2)
    g_string_append_printf (pairs, "%s[\"%c\", \"%c\"]", pairs->len > 0 ? ", " : "", 'A' + c,
                            'A' + c + 1);
  for (guint c = 0; c < drawn->n; c++)
    for (guint k = 0; k < 2; k++)
      if (drawn->channels[c].mib[k] > 0)
        {
          const char *comma = put->len > 0 ? ", " : "";

          g_string_append_printf (put, "%s\"%u%u\": \"1-%c%u\"", comma, c, k, 'A' + c, k + 1);
          g_string_append_printf (
              modules, "%s\"%u%u\": {\"capacity_mib\": %d, \"logical_ranks\": %u}", comma, c, k,
              (int)drawn->channels[c].mib[k], drawn->channels[c].ranks[k]);
        }
  return figures_case_parse (
      "{\"layout\": {\"slots\": [%s]}, \"board\": {\"modes\": [{\"id\": \"mirrored\", \"pairs\": "
      "[%s], \"source\": \"invented\"}, {\"id\": \"paired\", \"pairs\": [%s], \"source\": "
      "\"invented\"}, {\"id\": \"spared\", \"source\": \"invented\"}, {\"id\": "
      "\"partly-mirrored\", "
      "\"pairs\": [%s], \"source\": \"invented\"}]}, \"modules\": {%s}, \"put\": {%s}, \"mode\": "
      "\"%s\", \"spare_ranks\": %u, \"mirrored_mib\": %d}",
      slots->str, pairs->str, pairs->str, pairs->str, modules->str, put->str, drawn->mode,
      drawn->spare, (int)drawn->mirrored);
}

/* The k largest ranks of a channel, taken one by one, in sixths of a MiB, which all sizes are. */
static gint64
spared_of (const Channel *channel, guint k)
{
  gint64 sixths = 0;
  guint left[2] = { channel->mib[0] > 0 ? channel->ranks[0] : 0,
                    channel->mib[1] > 0 ? channel->ranks[1] : 0 };

  for (; k > 0 && left[0] + left[1] > 0; k--)
    {
      gint64 a = left[0] > 0 ? channel->mib[0] * 6 / channel->ranks[0] : 0;
      gint64 b = left[1] > 0 ? channel->mib[1] * 6 / channel->ranks[1] : 0;

      sixths += MAX (a, b);
      left[a >= b ? 0 : 1]--;
    }
  return sixths;
}

static void
check_spared (const Drawn *drawn, const FiguresCase *c)
{
  gboolean enough = TRUE;

  for (guint i = 0; i < drawn->n; i++)
    {
      const Channel *channel = &drawn->channels[i];
      guint ranks
          = (channel->mib[0] > 0) * channel->ranks[0] + (channel->mib[1] > 0) * channel->ranks[1];

      enough = enough && (ranks == 0 || ranks > drawn->spare);
    }
  g_assert_cmpint (c->figures.mode.effect, ==, enough ? LID_EFFECT_TAKEN : LID_EFFECT_REFUSED);
  for (guint i = 0; enough && i < drawn->n; i++)
    {
      gint64 gone = spared_of (&drawn->channels[i], drawn->spare);
      const LidChannelFigures *channel = &c->figures.channels[i];

      /* A part of a MiB is gone too; of two modules each may leave one. */
      g_assert_cmpint ((size_of (&drawn->channels[i]) - channel->usable_mib) * 6, >=, gone);
      g_assert_cmpint ((size_of (&drawn->channels[i]) - channel->usable_mib) * 6, <, gone + 6);
      g_assert_cmpint (channel->region_mib, ==, channel->usable_mib);
    }
}

/* Whether some pair has memory on both sides. */
static gboolean
some_pair (const Drawn *drawn)
{
  gboolean both = FALSE;

  for (guint i = drawn->first_pair; i + 1 < drawn->n; i += 2)
    both = both || (size_of (&drawn->channels[i]) > 0 && size_of (&drawn->channels[i + 1]) > 0);
  return both;
}

static void
check_pairs (const Drawn *drawn, const FiguresCase *c, gboolean mirrored)
{
  gboolean both = some_pair (drawn);

  if (drawn->first_pair + 1 >= drawn->n)
    {
      g_assert_cmpint (c->figures.mode.effect, ==, LID_EFFECT_UNSURE);
      return;
    }
  g_assert_cmpint (c->figures.mode.effect, ==, both ? LID_EFFECT_TAKEN : LID_EFFECT_REFUSED);
  for (guint i = 0; both && i < drawn->n; i++)
    {
      guint first = (i - drawn->first_pair) % 2 == 0 ? i : i - 1;
      gboolean paired = i >= drawn->first_pair && first + 1 < drawn->n;
      gint64 side
          = paired ? MIN (size_of (&drawn->channels[first]), size_of (&drawn->channels[first + 1]))
                   : 0;
      const LidChannelFigures *channel = &c->figures.channels[i];

      g_assert_cmpint (channel->in_use, ==, side > 0);
      g_assert_cmpint (channel->region_mib, ==, side);
      g_assert_cmpint (channel->usable_mib, ==,
                       !mirrored    ? side
                       : i == first ? (side + 1) / 2
                                    : side / 2);
    }
  if (both)
    g_assert_cmpint (lid_ratio_compare (c->figures.region_unit, lid_ratio (1, mirrored ? 2 : 1)),
                     ==, 0);
}

/* Each channel gives in proportion: what the first so many keep is never off by a whole MiB. */
static void
check_partly (const Drawn *drawn, const FiguresCase *c)
{
  gint64 all = size_of_all (drawn), so_far = 0, kept = 0;

  if (drawn->mirrored > all / 2 || (drawn->first_pair + 1 < drawn->n && !some_pair (drawn)))
    {
      g_assert_cmpint (c->figures.mode.effect, ==, LID_EFFECT_REFUSED);
      return;
    }
  g_assert_cmpint (c->figures.usable_mib, ==, all - drawn->mirrored);
  for (guint i = 0; i < drawn->n; i++)
    {
      so_far += size_of (&drawn->channels[i]);
      kept += c->figures.channels[i].usable_mib;
      g_assert_cmpint (ABS (2 * (kept * all - so_far * (all - drawn->mirrored))), <=, all);
      g_assert_cmpint (c->figures.channels[i].region_mib, ==, size_of (&drawn->channels[i]));
    }
  g_assert_cmpint (kept, ==, all - drawn->mirrored);
  g_assert_cmpint (
      lid_ratio_compare (c->figures.region_unit,
                         all > 0 ? lid_ratio (all - drawn->mirrored, all) : lid_ratio (1, 1)),
      ==, 0);
}

static void
check (const Drawn *drawn, const FiguresCase *c)
{
  const LidFigures *figures = &c->figures;
  gint64 usable = 0;

  if (figures->mode.asked == LID_MODE_SPARED)
    check_spared (drawn, c);
  else if (figures->mode.asked == LID_MODE_PARTLY_MIRRORED)
    check_partly (drawn, c);
  else if (figures->mode.asked != LID_MODE_PLAIN)
    check_pairs (drawn, c, figures->mode.asked == LID_MODE_MIRRORED);
  for (guint i = 0; i < drawn->n; i++)
    {
      usable += figures->channels[i].usable_mib;
      g_assert_cmpint (figures->channels[i].capacity_mib, ==, size_of (&drawn->channels[i]));
      if (figures->mode.effect == LID_EFFECT_TAKEN || figures->mode.effect == LID_EFFECT_UNSURE)
        continue;
      g_assert_cmpint (figures->channels[i].usable_mib, ==, size_of (&drawn->channels[i]));
      g_assert_cmpint (figures->channels[i].region_mib, ==, size_of (&drawn->channels[i]));
      g_assert_cmpint (figures->channels[i].in_use, ==, size_of (&drawn->channels[i]) > 0);
    }
  if (figures->usable_known)
    g_assert_cmpint (figures->usable_mib, ==, usable);
}

static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4096);
  guint taken = 0;

  for (guint round = 0; round < 3000; round++)
    {
      g_autoptr (FiguresCase) c = NULL;
      Drawn drawn;

      draw (rand, &drawn);
      c = build (&drawn);
      check (&drawn, c);
      taken += c->figures.mode.effect == LID_EFFECT_TAKEN;
    }
  g_assert_cmpuint (taken, >, 800);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mode-shares/random", test_random);
  return g_test_run ();
}
