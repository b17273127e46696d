/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Peaks against published numbers, through the whole chain from modules to figures; the expected
 * range against a slow writing in floating point, on random populations. */
#include "figures-case.h"
#include "figures/bandwidth.h"
#include "support.h"

#include <string.h>

static double
to_double (LidRatio ratio)
{
  g_assert_true (lid_ratio_is_known (ratio));
  return lid_ratio_to_double (ratio);
}

/* Modules of one rate, one a channel, on @channels channels of each of @sockets sockets. */
static FiguresCase *
fit (LidGeneration generation, guint mts, guint sockets, guint channels, guint filled)
{
  g_autoptr (GString) slots = g_string_new (NULL);
  g_autoptr (GString) put = g_string_new (NULL);

  for (guint i = 0; i < channels; i++)
    g_string_append_printf (slots, "%s1", i > 0 ? ", " : "");
  for (guint s = 0; s < sockets; s++)
    for (guint i = 0; i < filled; i++)
      g_string_append_printf (put, "%s%u-%c1", put->len > 0 ? " " : "", s + 1, (char)('A' + i));
  return figures_case_parse (
      "{\"layout\": {\"sockets\": %u, \"slots\": [%s]}, \"put\": {\"m\": \"%s\"}, \"modules\": "
      "{\"m\": {\"generation\": \"%s\", \"capacity_mib\": 16384, \"rated_mts\": %u, "
      "\"check_bits\": 16, \"ecc\": true}}}",
      sockets, slots->str, put->str, lid_generation_to_text (generation), mts);
}

static guint
number (const GPtrArray *rows, guint row, const char *column)
{
  return (guint)g_ascii_strtoull (support_cell (rows, row, column), NULL, 10);
}

/* Source: tests/data/handbook/bandwidth_cases.csv, worked examples W1 to W10 after JEDEC's exact
 * rates. W7's modules are rated 5600 and set to 4400; here the set rate is what counts. */
static void
test_worked_examples (void)
{
  g_autofree char *path = support_data ("handbook/bandwidth_cases.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  for (guint i = 1; i < rows->len; i++)
    {
      const char *words = support_cell (rows, i, "case");
      const char *name = strstr (words, "DDR");
      g_autofree char *generation = g_strndup (name, 4);
      guint sockets = number (rows, i, "sockets");
      guint filled = number (rows, i, "channels_filled_per_socket");
      g_autoptr (FiguresCase) c = NULL;

      g_test_message ("%s %s", support_cell (rows, i, "id"), words);
      c = fit (lid_generation_from_text (generation), number (rows, i, "rate_label_mts"), sockets,
               MAX (filled, 8), filled);
      g_assert_cmpfloat_with_epsilon (to_double (c->figures.peak_mbs),
                                      g_ascii_strtod (support_cell (rows, i, "peak_mb_s"), NULL),
                                      0.005001);
      g_assert_cmpuint (c->figures.channels_in_use, ==, sockets * filled);
      g_assert_cmpfloat_with_epsilon (to_double (c->figures.sockets[0].peak_mbs),
                                      to_double (c->figures.peak_mbs) / sockets, 1e-6);
    }
  g_assert_cmpuint (rows->len, ==, 11);
}

/* "4 channels at 1333", "1 channel DDR3-800", "DDR5-4800 module: …"; C22 has no rate of its own:
 * the same channel with check bits, which fit() gives all of them. */
static FiguresCase *
fit_words (const char *words)
{
  guint channels = g_ascii_isdigit (*words) ? (guint)g_ascii_strtoull (words, NULL, 10) : 1;
  const char *at = strstr (words, " at "), *name = strstr (words, "DDR");
  LidGeneration generation = LID_GENERATION_UNKNOWN;

  if (name != NULL)
    {
      g_autofree char *text = g_strndup (name, 4);

      generation = lid_generation_from_text (text);
      return fit (generation, (guint)g_ascii_strtoull (name + 5, NULL, 10), 1, channels, channels);
    }
  g_assert_nonnull (at);
  for (guint g = LID_GENERATION_DDR3; g <= LID_GENERATION_DDR5; g++)
    if (lid_rate_is_step (g, lid_rate_snap (g, (guint)g_ascii_strtoull (at + 4, NULL, 10))))
      generation = g;
  g_assert_cmpint (generation, !=, LID_GENERATION_UNKNOWN);
  return fit (generation, (guint)g_ascii_strtoull (at + 4, NULL, 10), 1, channels, channels);
}

/* Source: tests/data/handbook/handbook_checks.csv, area "peak", C01 to C22; each row names its own
 * (S05, S12, S33 and arithmetic). */
static void
test_handbook_peaks (void)
{
  g_autofree char *path = support_data ("handbook/handbook_checks.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);
  guint checked = 0;

  for (guint i = 1; i < rows->len; i++)
    {
      const char *expected = support_cell (rows, i, "expected");
      g_autoptr (FiguresCase) c = NULL;

      if (strcmp (support_cell (rows, i, "area"), "peak") != 0)
        continue;
      checked++;
      g_test_message ("%s: %s", support_cell (rows, i, "id"), support_cell (rows, i, "source"));
      if (g_str_has_prefix (expected, "no change"))
        continue;
      c = fit_words (support_cell (rows, i, "input"));
      g_assert_cmpfloat_with_epsilon (to_double (c->figures.peak_mbs) / 1000,
                                      g_ascii_strtod (expected, NULL),
                                      g_ascii_strtod (support_cell (rows, i, "tolerance"), NULL));
    }
  g_assert_cmpuint (checked, ==, 22);
}

/* C22: check bits carry no payload. Source: K5, 64 data bits of 72 wires. */
static void
test_check_bits (void)
{
  g_autoptr (FiguresCase) with = fit (LID_GENERATION_DDR5, 4800, 1, 1, 1);

  g_assert_cmpint (lid_ratio_compare (with->figures.peak_mbs, lid_ratio (38400, 1)), ==, 0);
  g_assert_cmpint (
      lid_ratio_compare (with->figures.peak_mbs, lid_bandwidth_peak (lid_rate_exact (4800), 1)), ==,
      0);
}

/* Up to three sockets of eight channels, each channel empty or with one of three modules. */
static FiguresCase *
random_case (GRand *rand, gboolean with_ways)
{
  static const char *const ways[] = { "1, 2, 4, 8", "1, 2, 3, 4, 6", "1, 2, 4, 6, 8", "1" };
  guint numa = 1u << g_rand_int_range (rand, 0, 3), sockets = (guint)g_rand_int_range (rand, 1, 4);
  g_autoptr (GString) put = g_string_new (NULL);
  g_autofree char *interleave = NULL;
  GString *where[3] = { g_string_new (NULL), g_string_new (NULL), g_string_new (NULL) };

  for (guint s = 0; s < sockets; s++)
    for (guint i = 0; i < 8; i++)
      if (g_rand_int_range (rand, 0, 3) > 0)
        {
          GString *list = where[g_rand_int_range (rand, 0, 3)];

          g_string_append_printf (list, "%s%u-%c1", list->len > 0 ? " " : "", s + 1,
                                  (char)('A' + i));
        }
  for (guint m = 0; m < 3; m++)
    {
      if (where[m]->len > 0)
        g_string_append_printf (put, "%s\"%u\": \"%s\"", put->len > 0 ? ", " : "", m,
                                where[m]->str);
      g_string_free (where[m], TRUE);
    }
  if (with_ways)
    interleave
        = g_strdup_printf (", \"board\": {\"interleave\": {\"model\": \"%s\", \"ways\": [%s]}}",
                           g_rand_boolean (rand) ? "ways" : "equal-groups",
                           ways[g_rand_int_range (rand, 0, G_N_ELEMENTS (ways))]);
  return figures_case_parse (
      "{\"layout\": {\"sockets\": %u, \"controllers\": 2, \"slots\": [1, 1, 1, 1, 1, 1, 1, 1]}, "
      "\"numa\": %u%s, \"put\": {%s}, \"modules\": "
      "{\"0\": {\"generation\": \"DDR4\", \"capacity_mib\": 8192, \"rated_mts\": 2666}, "
      "\"1\": {\"generation\": \"DDR4\", \"capacity_mib\": 16384, \"rated_mts\": 2666}, "
      "\"2\": {\"generation\": \"DDR4\", \"capacity_mib\": 49152, \"rated_mts\": 3200}}}",
      sockets, numa, interleave != NULL ? interleave : "", put->str);
}

/* B_n of the regions of one node, and the node's widest and narrowest. */
static void
read_node (const FiguresCase *c, guint socket, guint64 channels, double peak, double *time)
{
  const LidSocketFigures *figures = &c->figures.sockets[socket];
  double size = 0, all = 0, most = 0, least = 1e300;

  for (guint i = 0; i < figures->n_regions; i++)
    {
      const LidRegion *region
          = &g_array_index (c->figures.regions, LidRegion, figures->first_region + i);
      double speed = region->ways * peak * 0.8;

      if ((region->channels & channels) == 0)
        continue;
      g_assert_cmphex (region->channels & ~channels, ==, 0);
      size += (double)region->mib;
      all += (double)region->mib / speed;
      most = MAX (most, speed);
      least = MIN (least, speed);
    }
  if (size == 0)
    return;
  time[0] = MAX (time[0], all);
  time[1] = MAX (time[1], size / most);
  time[2] = MAX (time[2], size / least);
}

/* whole = S ÷ max_n (S_n ÷ B_n), and best and worst with the widest and the narrowest region;
 * worst ≤ whole ≤ best; even share = whole ÷ (channels × peak × efficiency). product.md 6. */
static void
test_range (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6174);

  for (guint round = 0; round < 1500; round++)
    {
      g_autoptr (FiguresCase) c = random_case (rand, round % 2 == 0);
      const LidFigures *figures = &c->figures;
      double time[3] = { 0, 0, 0 }, mib = (double)figures->capacity_mib;
      double peak = figures->running / 3.0 * 8;
      guint nodes = c->population->numa_split;

      if (figures->capacity_mib == 0)
        continue;
      for (guint s = 0; s < c->board->n_sockets; s++)
        for (guint node = 0; node < nodes; node++)
          read_node (c, s, ((1u << 8 / nodes) - 1) << (node * 8 / nodes), peak, time);
      g_assert_cmpfloat_with_epsilon (to_double (figures->whole_mbs), mib / time[0], 1e-3);
      g_assert_cmpfloat_with_epsilon (to_double (figures->best_mbs), mib / time[1], 1e-3);
      g_assert_cmpfloat_with_epsilon (to_double (figures->worst_mbs), mib / time[2], 1e-3);
      g_assert_cmpint (lid_ratio_compare (figures->worst_mbs, figures->whole_mbs), <=, 0);
      g_assert_cmpint (lid_ratio_compare (figures->whole_mbs, figures->best_mbs), <=, 0);
      g_assert_cmpfloat_with_epsilon (to_double (figures->even_share),
                                      mib / time[0] / (c->board->n_channels * peak * 0.8), 1e-9);
      g_assert_cmpint (lid_ratio_compare (figures->even_share, lid_ratio (1, 1)), <=, 0);
    }
}

/* C78 and population.md 4.6: layered, one node: whole = efficiency × peak × S ÷ fullest channel. */
static void
test_layered_is_the_fullest_channel (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1729);
  guint checked = 0;

  for (guint round = 0; round < 600; round++)
    {
      g_autoptr (FiguresCase) c = random_case (rand, FALSE);
      gint64 most = 0;

      if (c->board->n_sockets > 1 || c->population->numa_split > 1 || c->figures.capacity_mib == 0)
        continue;
      for (guint i = 0; i < c->board->n_channels; i++)
        most = MAX (most, c->figures.channels[i].usable_mib);
      checked++;
      g_assert_cmpint (
          lid_ratio_compare (c->figures.even_share, lid_ratio (c->figures.capacity_mib, 8 * most)),
          ==, 0);
      g_assert_cmpint (
          lid_ratio_compare (c->figures.whole_mbs,
                             lid_ratio_mul (lid_bandwidth_peak (c->figures.running, 1),
                                            lid_ratio (c->figures.capacity_mib * 8, most * 10))),
          ==, 0);
    }
  g_assert_cmpuint (checked, >, 20);
}

/* A split the board lists is made, and one of a board that lists none; no split always is. */
static void
test_splits (void)
{
  guint listed[] = { 4, 8 };
  g_autoptr (LidBoard) board = lid_board_new ();

  g_assert_true (lid_bandwidth_splits (board, 3));
  board->n_numa = G_N_ELEMENTS (listed);
  board->numa = g_memdup2 (listed, sizeof listed);
  for (guint nodes = 0; nodes <= 9; nodes++)
    g_assert_cmpint (lid_bandwidth_splits (board, nodes), ==,
                     nodes <= 1 || nodes == 4 || nodes == 8);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bandwidth/worked-examples", test_worked_examples);
  g_test_add_func ("/bandwidth/handbook-peaks", test_handbook_peaks);
  g_test_add_func ("/bandwidth/splits", test_splits);
  g_test_add_func ("/bandwidth/check-bits", test_check_bits);
  g_test_add_func ("/bandwidth/range", test_range);
  g_test_add_func ("/bandwidth/layered-is-the-fullest-channel",
                   test_layered_is_the_fullest_channel);
  return g_test_run ();
}
