/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of tests/data/handbook/handbook_checks.csv whose input says all there is go through the
 * figures as the program runs them. Every row of the file is answered here, by another test of
 * tests/outside/, or has its reason in tests/outside/rows-elsewhere.csv. */
#include "base/json-parse.h"
#include "figures-case.h"
#include "support.h"

#include <string.h>

#define MOST 64u

static GPtrArray *rows;

static const char *
cell (guint row, const char *column)
{
  return support_cell (rows, row, column);
}

static char *
repeat (const char *text, guint n)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (out, "%s%s", i > 0 ? ", " : "", text);
  return g_string_free (out, FALSE);
}

/* One module on each of @n channels, on sockets of at most 12, that nothing slows. */
static FiguresCase *
fit_rate (LidGeneration generation, guint mts, guint n)
{
  guint sockets = n > 12 ? 2 : 1;
  g_autofree char *slots = repeat ("1", n / sockets);

  g_assert_cmpuint (n % sockets, ==, 0);
  return figures_case_parse (
      "{\"layout\": {\"sockets\": %u, \"slots\": [%s]}, \"put\": {\"m\": \"*\"}, \"modules\": "
      "{\"m\": {\"generation\": \"%s\", \"capacity_mib\": 8192, \"rated_mts\": %u}}}",
      sockets, slots, lid_generation_to_text (generation), mts);
}

/* Peak of one channel in MB/s: tests/data/rates/data_rates.csv, each row with its source (JEDEC).
 * Stops the test where there is no such rate. */
static double
peak_of_standard (LidGeneration generation, guint mts)
{
  g_autofree char *path = support_data ("rates/data_rates.csv");
  g_autoptr (GPtrArray) rates = support_read_csv (path);

  for (guint i = 1; i < rates->len; i++)
    if (strcmp (support_cell (rates, i, "generation"), lid_generation_to_text (generation)) == 0
        && g_ascii_strtoull (support_cell (rates, i, "nominal_mts"), NULL, 10) == mts)
      return g_ascii_strtod (support_cell (rates, i, "peak_mb_s_64bit"), NULL);
  g_error ("%s has no rate %u", lid_generation_to_text (generation), mts);
}

/* "4 channels at 1333", "1 channel DDR3-800", "DDR5-4800 module: …": where no generation is named,
 * the one the rate is common in. */
static void
read_peak (const char *words, LidGeneration *generation, guint *mts, guint *n)
{
  const char *at = strstr (words, " at "), *ddr = strstr (words, "DDR");

  *n = g_ascii_isdigit (*words) ? (guint)g_ascii_strtoull (words, NULL, 10) : 1;
  g_assert_true (at != NULL || ddr != NULL);
  *mts = (guint)g_ascii_strtoull (ddr != NULL ? ddr + 5 : at + 4, NULL, 10);
  *generation = *mts < 2133   ? LID_GENERATION_DDR3
                : *mts < 4000 ? LID_GENERATION_DDR4
                              : LID_GENERATION_DDR5;
}

/* C01 to C21. The rows multiply the printed rate; the standard's own peak is a third of a whole
 * number (C02, C03, C05, C06): the program follows the standard, and stays within the tolerance the
 * row gives. C22 is in jedec.json. */
static void
test_peaks (void)
{
  guint checked = 0;

  for (guint i = 1; i < rows->len; i++)
    {
      g_autoptr (FiguresCase) c = NULL;
      LidGeneration generation;
      double mbs;
      guint mts, n;

      if (strcmp (cell (i, "area"), "peak") != 0 || strcmp (cell (i, "id"), "C22") == 0)
        continue;
      g_test_message ("%s %s: %s", cell (i, "id"), cell (i, "input"), cell (i, "source"));
      read_peak (cell (i, "input"), &generation, &mts, &n);
      c = fit_rate (generation, mts, n);
      mbs = lid_ratio_to_double (c->figures.peak_mbs);
      g_assert_cmpuint (lid_rate_mts (c->figures.running), ==, mts);
      g_assert_cmpfloat_with_epsilon (mbs / 1e3, g_ascii_strtod (cell (i, "expected"), NULL),
                                      g_ascii_strtod (cell (i, "tolerance"), NULL));
      g_assert_cmpfloat_with_epsilon (mbs, peak_of_standard (generation, mts) * n, 0.005 * n);
      checked++;
    }
  g_assert_cmpuint (checked, ==, 21);
}

/* "24 modules x 16 GB". C23 to C30. */
static void
test_capacities (void)
{
  guint checked = 0;

  for (guint i = 1; i < rows->len; i++)
    {
      const char *input = cell (i, "input"), *times = strstr (input, " x ");
      g_autoptr (FiguresCase) c = NULL;
      g_autofree char *slots = NULL;

      if (strcmp (cell (i, "area"), "capacity") != 0)
        continue;
      g_test_message ("%s: %s", cell (i, "id"), cell (i, "source"));
      g_assert_nonnull (times);
      slots = repeat ("2", (guint)g_ascii_strtoull (input, NULL, 10) / 4);
      c = figures_case_parse (
          "{\"layout\": {\"sockets\": 2, \"slots\": [%s]}, \"put\": {\"m\": \"*\"}, \"modules\": "
          "{\"m\": {\"capacity_mib\": %" G_GUINT64_FORMAT "}}}",
          slots, g_ascii_strtoull (times + 3, NULL, 10) * 1024);
      g_assert_true (c->figures.capacity_known && c->figures.usable_known);
      g_assert_cmpint (c->figures.capacity_mib, ==,
                       g_ascii_strtoll (cell (i, "expected"), NULL, 10) * 1024);
      g_assert_cmpint (c->figures.usable_mib, ==, c->figures.capacity_mib);
      g_assert_cmpint (c->figures.fitted_mib, ==, c->figures.capacity_mib);
      checked++;
    }
  g_assert_cmpuint (checked, ==, 8);
}

static guint
numbers_after (const char *text, const char *word, guint *out)
{
  const char *at = strstr (text, word);
  guint n = 0;

  for (at = at == NULL ? "" : at + strlen (word); *at == ' ' || g_ascii_isdigit (*at);)
    if (g_ascii_isdigit (*at))
      {
        g_assert_cmpuint (n, <, MOST);
        out[n++] = (guint)g_ascii_strtoull (at, (char **)&at, 10);
      }
    else
      at++;
  return n;
}

static char *
model_of (const char *area, const char *input)
{
  guint ways[MOST], n = numbers_after (input, "ways", ways);
  g_autoptr (GString) list = g_string_new (NULL);

  if (strcmp (area, "regions greedy") == 0)
    return g_strdup ("\"model\": \"layered\"");
  for (guint i = 0; i < n; i++)
    g_string_append_printf (list, "%s%u", i > 0 ? ", " : "", ways[i]);
  return g_strdup_printf ("\"model\": \"%s\", \"ways\": [%s]",
                          strcmp (area, "regions limited") == 0 ? "ways" : "equal-groups",
                          list->str);
}

/* "channel capacities 2 1 1; ways 1 2 3": GiB a channel, efficiency 1, 2400 MT/s. */
static FiguresCase *
fit_regions (const char *area, const char *input, guint *n)
{
  guint capacities[MOST];
  g_autoptr (GString) put = g_string_new (NULL), modules = g_string_new (NULL);
  g_autofree char *model = model_of (area, input), *slots = NULL;

  *n = numbers_after (input, "capacities", capacities);
  g_assert_cmpuint (*n, >, 1);
  for (guint i = 0; i < *n; i++)
    if (capacities[i] > 0)
      {
        const char *comma = put->len > 0 ? ", " : "";

        g_string_append_printf (put, "%s\"m%u\": \"1-%c1\"", comma, i, 'A' + i);
        g_string_append_printf (modules,
                                "%s\"m%u\": {\"generation\": \"DDR4\", \"capacity_mib\": %u, "
                                "\"rated_mts\": 2400}",
                                comma, i, capacities[i] * 1024);
      }
  slots = repeat ("1", *n);
  return figures_case_parse (
      "{\"layout\": {\"sockets\": 1, \"slots\": [%s]}, \"board\": {\"interleave\": {%s}, "
      "\"efficiency\": {\"value\": 1, \"source\": \"a round number\"}}, \"put\": {%s}, "
      "\"modules\": {%s}}",
      slots, model, put->str, modules->str);
}

static double
number_after (const char *text, const char *word)
{
  const char *at = strstr (text, word);

  g_assert_nonnull (at);
  return g_ascii_strtod (at + strlen (word), NULL);
}

/* "4 at 4-way + 1 at 1-way; whole pass 2.500 channels of 4; best 4; worst 1". */
static void
check_regions (guint row)
{
  const char *expected = cell (row, "expected"), *at = expected;
  guint n;
  g_autoptr (FiguresCase) c = fit_regions (cell (row, "area"), cell (row, "input"), &n);
  const LidFigures *figures = &c->figures;
  const double channel = 19200; /* MB/s at 2400 MT/s */

  for (guint i = 0; i < figures->sockets[0].n_regions; i++)
    {
      const LidRegion *region
          = &g_array_index (figures->regions, LidRegion, figures->sockets[0].first_region + i);

      g_assert_cmpint (g_ascii_strtoll (at, (char **)&at, 10) * 1024, ==, region->mib);
      g_assert_true (g_str_has_prefix (at, " at "));
      g_assert_cmpint (g_ascii_strtoll (at + 4, (char **)&at, 10), ==, region->ways);
      g_assert_true (g_str_has_prefix (at, "-way"));
      at += strlen (i + 1 < figures->sockets[0].n_regions ? "-way + " : "-way");
    }
  g_assert_cmpint (*at, ==, ';');
  g_assert_cmpfloat_with_epsilon (lid_ratio_to_double (figures->whole_mbs) / channel,
                                  number_after (expected, "whole pass "), 0.0005001);
  g_assert_cmpfloat_with_epsilon (lid_ratio_to_double (figures->even_share) * n,
                                  number_after (expected, "whole pass "), 0.0005001);
  if (strstr (expected, "best ") == NULL)
    return;
  g_assert_cmpfloat_with_epsilon (lid_ratio_to_double (figures->best_mbs) / channel,
                                  number_after (expected, "best "), 1e-9);
  g_assert_cmpfloat_with_epsilon (lid_ratio_to_double (figures->worst_mbs) / channel,
                                  number_after (expected, "worst "), 1e-9);
}

/* C51 to C77. Seven rows are published; the others are our own algorithm's output and show a
 * change, not a truth: the page of checks counts them apart. */
static void
test_regions (void)
{
  guint outside = 0, own = 0;

  for (guint i = 1; i < rows->len; i++)
    {
      if (!g_str_has_prefix (cell (i, "area"), "regions "))
        continue;
      g_test_message ("%s: %s", cell (i, "id"), cell (i, "source"));
      check_regions (i);
      if (g_str_has_prefix (cell (i, "strength"), "own algorithm"))
        own++;
      else
        outside++;
    }
  g_assert_cmpuint (outside, ==, 7);
  g_assert_cmpuint (own, ==, 20);
}

/* Rows that the cases of one file of tests/outside/ answer. */
static void
collect (const char *path, GHashTable *answered)
{
  gsize size;
  g_autofree char *text = support_read_file (path, &size);
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = lid_json_parse (text, size, &error);
  JsonArray *groups;

  g_assert_no_error (error);
  groups = json_object_get_array_member (json_node_get_object (node), "groups");
  for (guint g = 0; g < json_array_get_length (groups); g++)
    {
      JsonArray *cases
          = json_object_get_array_member (json_array_get_object_element (groups, g), "cases");

      for (guint i = 0; i < json_array_get_length (cases); i++)
        {
          JsonObject *one = json_array_get_object_element (cases, i);
          const char *row = json_object_get_string_member_with_default (
              one, "handbook", json_object_get_string_member_with_default (one, "row", NULL));

          if (row != NULL)
            g_hash_table_add (answered, g_strdup (row));
        }
    }
}

/* Whole pass = total / largest channel, exactly. */
static void
check_identity (const char *capacities)
{
  guint n, of[MOST], total = 0, largest = 0;
  g_autoptr (FiguresCase) c = fit_regions ("regions greedy", capacities, &n);

  g_assert_cmpuint (numbers_after (capacities, "capacities", of), ==, n);
  for (guint i = 0; i < n; i++)
    {
      total += of[i];
      largest = MAX (largest, of[i]);
    }
  g_test_message ("%s: %u / %u", capacities, total, largest);
  g_assert_cmpint (lid_ratio_compare (c->figures.whole_mbs, lid_ratio (19200 * total, largest)), ==,
                   0);
}

/* C78: its own example, and the capacities of all rows of the layered model. It is what our own
 * arithmetic comes to: a regression, and so the page of checks counts it. */
static void
test_identity (void)
{
  guint checked = 0;

  for (guint i = 1; i < rows->len; i++)
    if (strcmp (cell (i, "area"), "regions greedy") == 0)
      {
        check_identity (cell (i, "input"));
        checked++;
      }
    else if (strcmp (cell (i, "area"), "identity") == 0)
      {
        g_assert_true (g_str_has_prefix (
            cell (i, "expected"), "whole pass = total / largest channel; e.g. 3 2 1 0 -> 6/3"));
        check_identity ("capacities 3 2 1 0");
        checked++;
      }
  g_assert_cmpuint (checked, ==, 14);
}

/* Every row is answered, and by nothing that is not a row; "isolate" by test-trace.c. */
static void
test_every_row (void)
{
  const char *const reckoned[] = { "peak", "capacity", "identity", "isolate", NULL };
  g_autofree char *folder = g_build_filename (g_getenv ("LID_SOURCE"), "tests", "outside", NULL);
  g_autofree char *list = g_build_filename (folder, "rows-elsewhere.csv", NULL);
  g_autoptr (GHashTable) answered = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) elsewhere = support_read_csv (list);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".json"))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);

        collect (path, answered);
      }
  for (guint i = 1; i < elsewhere->len; i++)
    {
      g_assert_cmpstr (support_cell (elsewhere, i, "reason"), !=, "");
      g_hash_table_add (answered, g_strdup (support_cell (elsewhere, i, "id")));
    }
  g_assert_cmpuint (rows->len, ==, 115);
  for (guint i = 1; i < rows->len; i++)
    if (!g_hash_table_remove (answered, cell (i, "id"))
        && !g_strv_contains (reckoned, cell (i, "area"))
        && !g_str_has_prefix (cell (i, "area"), "regions "))
      g_test_fail_printf ("%s (%s) has no check", cell (i, "id"), cell (i, "input"));
  g_assert_cmpuint (g_hash_table_size (answered), ==, 0);
}

/* The copy is the shared file, where that is at hand. */
static void
test_copy (void)
{
  g_autofree char *shared = support_shared ("facts/handbook_checks.csv");
  g_autofree char *copy = support_data ("handbook/handbook_checks.csv");
  g_autofree char *ours = support_read_file (copy, NULL), *theirs = NULL;

  if (shared == NULL)
    {
      g_test_skip ("no shared folder beside the checkout");
      return;
    }
  theirs = support_read_file (shared, NULL);
  g_assert_cmpstr (ours, ==, theirs);
}

int
main (int argc, char **argv)
{
  g_autofree char *path = NULL;
  int status;

  g_test_init (&argc, &argv, NULL);
  path = support_data ("handbook/handbook_checks.csv");
  rows = support_read_csv (path);
  g_test_add_func ("/handbook/peaks", test_peaks);
  g_test_add_func ("/handbook/capacities", test_capacities);
  g_test_add_func ("/handbook/regions", test_regions);
  g_test_add_func ("/handbook/identity", test_identity);
  g_test_add_func ("/handbook/every-row", test_every_row);
  g_test_add_func ("/handbook/copy", test_copy);
  status = g_test_run ();
  g_ptr_array_unref (rows);
  return status;
}
