/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rate table, the running rate and its limits against a slow reading of their definition, on
 * boards and populations drawn at random with everything in them that may be not told: facts of
 * modules, models of processors, the firmware's level, the channel or the processor of a slot.
 * Source: product.md 6, "Running rate", settled readings 1, 5 and 6. */
#include "figures/rate-table.h"
#include "figures/running-rate.h"
#include "random-machine.h"
#include "slow-rates.h"

static void
check_row (const LidChannelRate *got, const LidChannelRate *wanted)
{
  g_assert_cmpint (got->row, ==, wanted->row);
  g_assert_cmpint (got->slowest, ==, wanted->slowest);
  g_assert_cmpuint (got->unknown_facts, ==, wanted->unknown_facts);
  g_assert_cmpint (got->processor_unknown, ==, wanted->processor_unknown);
  g_assert_cmpint (got->may_miss, ==, wanted->may_miss);
  g_assert_cmpint (got->row_index, ==, wanted->row_index);
  g_assert_cmpuint (got->table_least, ==, wanted->table_least);
  g_assert_cmpuint (got->table_most, ==, wanted->table_most);
  g_assert_cmpuint (got->table, ==, wanted->table);
}

static void
test_limits (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1984);
  guint open = 0, known = 0;

  for (guint round = 0; round < 8000; round++)
    {
      RandomMachine m = random_machine_draw (rand);
      g_autoptr (LidSurvey) survey = lid_survey_new (m.board, m.population);
      gboolean evidence = lid_population_is_evidence (m.population, m.as_found);
      LidFigures got, wanted;

      lid_figures_init (&got, m.board);
      lid_figures_init (&wanted, m.board);
      lid_running_rate_compute (survey, m.as_found, &got);
      slow_limits_compute (m.board, m.population, m.as_found, evidence, &wanted);
      for (guint c = 0; c < m.board->n_channels; c++)
        check_row (&got.rates[c], &wanted.rates[c]);
      g_assert_cmpuint (got.n_limits, ==, wanted.n_limits);
      for (guint i = 0; i < got.n_limits; i++)
        {
          g_assert_cmpint (got.limits[i].what, ==, wanted.limits[i].what);
          g_assert_cmpuint (got.limits[i].rate, ==, wanted.limits[i].rate);
          g_assert_cmpint (got.limits[i].binding, ==, wanted.limits[i].binding);
        }
      g_assert_cmpuint (got.running, ==, wanted.running);
      for (guint s = 0; s < m.board->n_sockets; s++)
        g_assert_cmpuint (got.sockets[s].running, ==, wanted.sockets[s].running);
      known += got.running != LID_RATE_UNKNOWN;
      open += got.running == LID_RATE_UNKNOWN && got.n_limits > 0;
      lid_figures_clear (&wanted);
      lid_figures_clear (&got);
      random_machine_clear (&m);
    }
  g_assert_cmpuint (known, >, 1500);
  g_assert_cmpuint (open, >, 1500);
}

/* A channel asked about with fewer modules, or with more, than there are. */
static void
test_other_counts (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2112);

  for (guint round = 0; round < 6000; round++)
    {
      RandomMachine m = random_machine_draw (rand);
      g_autoptr (LidSurvey) survey = lid_survey_new (m.board, m.population);
      guint c = random_pick (rand, m.board->n_channels), more = 1 + random_pick (rand, 2);
      guint there = slow_rates_fitted (m.board, m.population, c);
      SlowChannel fewer
          = { .filled = random_pick (rand, there + 1), .voltages = random_pick (rand, 8) };
      SlowChannel with = { .filled = there + more,
                           .more = 1u << (LID_KIND_REGISTERED + random_pick (rand, 2)),
                           .more_ranks = random_pick (rand, 3) };
      LidChannelRate got, wanted;

      lid_rate_table_look_up (survey, c, fewer.filled, fewer.voltages, &got);
      wanted = slow_rates_channel (m.board, m.population, c, &fewer);
      check_row (&got, &wanted);
      lid_rate_table_look_up_more (survey, c, more, with.more_ranks, with.more, &got);
      wanted = slow_rates_channel (m.board, m.population, c, &with);
      check_row (&got, &wanted);
      random_machine_clear (&m);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/running-limits/limits", test_limits);
  g_test_add_func ("/running-limits/other-counts", test_other_counts);
  return g_test_run ();
}
