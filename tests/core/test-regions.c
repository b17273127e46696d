/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The three region models against a slow second writing of them from the
 * handbook's pseudocode, and against what must hold for any capacities. */
#include "figures/regions.h"
#include "slow-regions.h"
#include "support.h"

#include <string.h>

#define MOST SLOW_REGIONS_MOST

typedef SlowRegionsNode Node;

static GArray *
form (const Node *node)
{
  GArray *regions = g_array_new (FALSE, FALSE, sizeof (LidRegion));

  lid_regions_form (node->rule, node->channels, node->n, regions);
  return regions;
}

static gint64
sum_of (const GArray *regions)
{
  gint64 sum = 0;

  for (guint i = 0; i < regions->len; i++)
    sum += g_array_index (regions, LidRegion, i).mib;
  return sum;
}

/* Σ size ÷ ways: how long reading all of it takes one channel. */
static double
steps_of (const GArray *regions)
{
  double steps = 0;

  for (guint i = 0; i < regions->len; i++)
    steps += (double)g_array_index (regions, LidRegion, i).mib
             / g_array_index (regions, LidRegion, i).ways;
  return steps;
}

static Node
random_node (GRand *rand, LidRegionModel model)
{
  static const guint32 sets[] = {
    1u << 1 | 1u << 2 | 1u << 4 | 1u << 8,
    1u << 1 | 1u << 2 | 1u << 3 | 1u << 4 | 1u << 6,
    1u << 1 | 1u << 2 | 1u << 4 | 1u << 6 | 1u << 8,
    1u << 1 | 1u << 2 | 1u << 3 | 1u << 4 | 1u << 6 | 1u << 8 | 1u << 10 | 1u << 12,
    1u << 1,
  };
  Node node = { { model, 0, FALSE }, 0, { { 0, 0, 0 } } };
  guint n_controllers = (guint)g_rand_int_range (rand, 1, 5);
  gint64 unit = g_rand_boolean (rand) ? 1 : 4096;

  /* The layered model does not look at it. */
  if (model != LID_REGIONS_LAYERED || g_rand_boolean (rand))
    node.rule.ways = sets[g_rand_int_range (rand, 0, G_N_ELEMENTS (sets))];
  node.n = (guint)g_rand_int_range (rand, 1, 17);
  for (guint i = 0; i < node.n; i++)
    node.channels[i]
        = (LidRegionChannel){ unit * g_rand_int_range (rand, 0, 5),
                              g_rand_int_range (rand, 0, (gint32)n_controllers + 1), i };
  return node;
}

/* Each channel gives a region its share, and all of them together what it carries. */
static void
check_every_mib_is_in_one_region (const Node *node, const GArray *regions)
{
  for (guint i = 0; i < node->n; i++)
    {
      gint64 given = 0;

      for (guint k = 0; k < regions->len; k++)
        {
          const LidRegion *region = &g_array_index (regions, LidRegion, k);

          if ((region->channels >> i & 1) == 1)
            given += region->mib / region->ways;
        }
      g_assert_cmpint (given, ==, node->channels[i].mib);
    }
}

static void
check_properties (const Node *node, const GArray *regions)
{
  gint64 sum = 0, most = 0, distinct = 0;
  guint last = G_MAXUINT;

  for (guint i = 0; i < node->n; i++)
    {
      gboolean seen = node->channels[i].mib == 0;

      for (guint k = 0; k < i; k++)
        seen = seen || node->channels[k].mib == node->channels[i].mib;
      distinct += seen ? 0 : 1;
      sum += node->channels[i].mib;
      most = MAX (most, node->channels[i].mib);
    }
  g_assert_cmpint (sum_of (regions), ==, sum);
  g_assert_cmpuint (regions->len, <=, node->n);
  check_every_mib_is_in_one_region (node, regions);
  for (guint i = 0; i < regions->len; i++)
    {
      const LidRegion *region = &g_array_index (regions, LidRegion, i);

      g_assert_cmpint (region->mib, >, 0);
      g_assert_cmpint (region->mib % region->ways, ==, 0);
      if (node->rule.model != LID_REGIONS_LAYERED)
        g_assert_cmpuint (node->rule.ways >> region->ways & 1, ==, 1);
      if (node->rule.model != LID_REGIONS_EQUAL_GROUPS)
        {
          g_assert_cmpuint (region->ways, <=, last);
          last = region->ways;
        }
    }
  if (node->rule.model != LID_REGIONS_LAYERED)
    return;
  g_assert_cmpint (regions->len, <=, distinct);
  /* C78: reading all of it takes as long as the fullest channel. */
  g_assert_cmpfloat_with_epsilon (steps_of (regions), (double)most, 1e-6);
}

static void
test_random (gconstpointer data)
{
  LidRegionModel model = GPOINTER_TO_UINT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed (20240611 + model);

  for (guint round = 0; round < 20000; round++)
    {
      Node node = random_node (rand, model);
      g_autoptr (GArray) regions = form (&node);
      g_autoptr (GArray) slow = g_array_new (FALSE, FALSE, sizeof (LidRegion));

      check_properties (&node, regions);
      if (model == LID_REGIONS_EQUAL_GROUPS)
        slow_regions_equal_groups (&node, slow);
      else
        slow_regions_ways (&node, slow);
      g_assert_cmpuint (regions->len, ==, slow->len);
      for (guint i = 0; i < slow->len; i++)
        {
          g_assert_cmpint (g_array_index (regions, LidRegion, i).mib, ==,
                           g_array_index (slow, LidRegion, i).mib);
          if (model != LID_REGIONS_EQUAL_GROUPS)
            g_assert_cmphex (g_array_index (regions, LidRegion, i).channels, ==,
                             g_array_index (slow, LidRegion, i).channels);
          g_assert_cmpuint (g_array_index (regions, LidRegion, i).ways, ==,
                            g_array_index (slow, LidRegion, i).ways);
        }
    }
}

/* Equal capacities: the controller with fewest picked, then the lowest number. Which channel goes
 * where does not change sizes, only which channels make a region. Source: population.md 4.3. */
static void
test_ties (void)
{
  Node node = { { LID_REGIONS_WAYS, 1u << 1 | 1u << 2, FALSE },
                4,
                { { 2, 1, 0 }, { 2, 1, 1 }, { 2, 2, 2 }, { 1, 2, 3 } } };
  g_autoptr (GArray) regions = form (&node);

  /* Channel 0, lowest number; then 2 on the other controller, though 1 has as much left and a
   * lower number. Left 0 2 0 1: channels 1 and 3 as far as they go together, then 1 alone. */
  g_assert_cmpuint (regions->len, ==, 3);
  g_assert_cmphex (g_array_index (regions, LidRegion, 0).channels, ==, 1u << 0 | 1u << 2);
  g_assert_cmpint (g_array_index (regions, LidRegion, 0).mib, ==, 4);
  g_assert_cmphex (g_array_index (regions, LidRegion, 1).channels, ==, 1u << 1 | 1u << 3);
  g_assert_cmpint (g_array_index (regions, LidRegion, 1).mib, ==, 2);
  g_assert_cmphex (g_array_index (regions, LidRegion, 2).channels, ==, 1u << 1);
  g_assert_cmpint (g_array_index (regions, LidRegion, 2).mib, ==, 1);
}

/* Equal groups of a board that tells no set are as large as they come. Source: population.md 4.4.
 */
static void
test_no_set (void)
{
  Node node = { { LID_REGIONS_EQUAL_GROUPS, 0, FALSE },
                6,
                { { 2, 1, 0 }, { 1, 1, 1 }, { 1, 1, 2 }, { 2, 2, 3 }, { 1, 2, 4 }, { 0, 2, 5 } } };
  g_autoptr (GArray) regions = form (&node);

  g_assert_cmpuint (regions->len, ==, 2);
  g_assert_cmpint (g_array_index (regions, LidRegion, 0).mib, ==, 4);
  g_assert_cmpuint (g_array_index (regions, LidRegion, 0).ways, ==, 2);
  g_assert_cmpint (g_array_index (regions, LidRegion, 1).mib, ==, 3);
  g_assert_cmpuint (g_array_index (regions, LidRegion, 1).ways, ==, 3);
}

/* One channel alone always does, whatever the set says. Source: population.md 4.3. */
static void
test_alone (void)
{
  Node node
      = { { LID_REGIONS_WAYS, 1u << 2, FALSE }, 3, { { 4, 1, 0 }, { 1, 1, 1 }, { 1, 1, 2 } } };
  g_autoptr (GArray) regions = form (&node);

  g_assert_cmpuint (regions->len, ==, 3);
  g_assert_cmpuint (g_array_index (regions, LidRegion, 0).ways, ==, 2);
  g_assert_cmpuint (g_array_index (regions, LidRegion, 1).ways, ==, 2);
  g_assert_cmpuint (g_array_index (regions, LidRegion, 2).ways, ==, 1);
  g_assert_cmpint (g_array_index (regions, LidRegion, 2).mib, ==, 2);
}

/* A region names its first 64 channels; what is past them is read all the same. */
static void
test_many_channels (void)
{
  Node node = { { LID_REGIONS_LAYERED, 0, FALSE }, 2, { { 1, 1, 63 }, { 1, 1, 64 } } };
  g_autoptr (GArray) regions = form (&node);

  g_assert_cmpuint (regions->len, ==, 1);
  g_assert_cmphex (g_array_index (regions, LidRegion, 0).channels, ==,
                   G_GUINT64_CONSTANT (1) << 63);
  g_assert_cmpint (g_array_index (regions, LidRegion, 0).mib, ==, 2);
}

/* Ways is the default and needs a set; without one, layered. */
static void
test_rule_of_board (void)
{
  g_autoptr (LidBoard) board = lid_board_new ();

  g_assert_cmpint (lid_regions_rule (board, NULL).model, ==, LID_REGIONS_LAYERED);
  board->ways = 1u << 1 | 1u << 2;
  g_assert_cmpint (lid_regions_rule (board, NULL).model, ==, LID_REGIONS_WAYS);
  g_assert_cmpuint (lid_regions_rule (board, NULL).ways, ==, board->ways);
  board->region_model_told = TRUE;
  board->region_model = LID_REGIONS_EQUAL_GROUPS;
  g_assert_cmpint (lid_regions_rule (board, NULL).model, ==, LID_REGIONS_EQUAL_GROUPS);
  board->region_model = LID_REGIONS_WAYS;
  board->ways = 0;
  g_assert_cmpint (lid_regions_rule (board, NULL).model, ==, LID_REGIONS_LAYERED);
}

/* More ways with every processor there and every split there can be. Source: LidWaysAlso. */
static void
check_also (LidBoard *board, LidPopulation *population, guint nth)
{
  static const guint splits[] = { 0, 1, 2, 4 };
  LidWaysAlso *also = &board->ways_also[0];
  guint cut;
  gboolean holds = TRUE;

  for (guint s = 0; s < 2; s++, nth /= 6)
    population->processors[s] = (LidFittedProcessor){ nth % 2 == 1, (int)(nth / 2 % 3) - 1 };
  *also = (LidWaysAlso){ 1u << 6, (int)(nth % 3) - 1, splits[nth / 3 % 4], NULL };
  population->numa_split = splits[nth / 12 % 4];
  /* Four is not among the board's, so setup cannot cut so: it is whole. */
  cut = population->numa_split == 2 ? 2 : 1;
  for (guint s = 0; s < 2; s++)
    if (population->processors[s].fitted && also->processor != LID_NOWHERE)
      holds = holds && population->processors[s].model == also->processor;
  holds = holds && (also->nodes == 0 || also->nodes == cut);
  g_assert_cmphex (lid_regions_rule (board, population).ways, ==,
                   board->ways | (holds ? also->ways : 0));
  g_assert_cmphex (lid_regions_rule (board, NULL).ways, ==, board->ways);
}

static void
test_ways_also (void)
{
  guint listed[] = { 1, 2 };
  g_autoptr (LidBoard) board = lid_board_new ();
  g_autoptr (LidPopulation) population = NULL;

  board->n_sockets = 2;
  board->sockets = g_new0 (LidBoardSocket, 2);
  board->ways = 1u << 1 | 1u << 2;
  board->n_numa = G_N_ELEMENTS (listed);
  board->numa = g_memdup2 (listed, sizeof listed);
  board->n_ways_also = 1;
  board->ways_also = g_new0 (LidWaysAlso, 1);
  population = lid_population_new (board);
  for (guint nth = 0; nth < 6 * 6 * 3 * 4 * 4; nth++)
    check_also (board, population, nth);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/regions/random/layered", GUINT_TO_POINTER (LID_REGIONS_LAYERED),
                        test_random);
  g_test_add_data_func ("/regions/random/ways", GUINT_TO_POINTER (LID_REGIONS_WAYS), test_random);
  g_test_add_data_func ("/regions/random/equal-groups", GUINT_TO_POINTER (LID_REGIONS_EQUAL_GROUPS),
                        test_random);
  g_test_add_func ("/regions/ties", test_ties);
  g_test_add_func ("/regions/no-set", test_no_set);
  g_test_add_func ("/regions/many-channels", test_many_channels);
  g_test_add_func ("/regions/rule-of-board", test_rule_of_board);
  g_test_add_func ("/regions/alone", test_alone);
  g_test_add_func ("/regions/ways-also", test_ways_also);
  return g_test_run ();
}
