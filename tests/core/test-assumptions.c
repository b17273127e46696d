/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the expected bandwidth says it rests on is what it is made of. */
#include "figures-case.h"
#include "figures/assumptions.h"
#include "help/explain.h"

#include <string.h>

#define MODULE "{\"generation\": \"DDR4\", \"capacity_mib\": 16384, \"rated_mts\": 2400}"
#define LARGER "{\"generation\": \"DDR4\", \"capacity_mib\": 49152, \"rated_mts\": 2400}"
#define LAYOUT                                                                                     \
  "\"layout\": {\"sockets\": 1, \"slots\": [1, 1, 1, 1]}, \"modules\": {\"m\": " MODULE "}"
#define PAIRS "[[\"A\", \"B\"], [\"C\", \"D\"]]"

static const LidAssumption *
find (const GPtrArray *list, const char *id)
{
  for (guint i = 0; i < list->len; i++)
    if (strcmp (((const LidAssumption *)list->pdata[i])->id, id) == 0)
      return list->pdata[i];
  return NULL;
}

static const char *const ids[]
    = { "efficiency", "bytes-per-transfer", "modules-per-channel", "mirrored-reads", "paired" };

/* The product of the constants shown, the rate and the channels is the figure shown. */
static void
check_product (const FiguresCase *c, const GPtrArray *list)
{
  LidRatio product = lid_ratio ((gint64)c->figures.running * c->figures.channels_in_use, 3);

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    if (find (list, ids[i]) != NULL)
      product = lid_ratio_mul (product, find (list, ids[i])->value);
  g_assert_cmpint (lid_ratio_compare (product, c->figures.whole_mbs), ==, 0);
}

static void
check_all_told (const GPtrArray *list)
{
  for (guint i = 0; i < list->len; i++)
    {
      const LidAssumption *one = list->pdata[i];

      g_assert_true (g_str_has_suffix (one->text, "."));
      g_assert_cmpstr (one->source, !=, "");
      g_assert_cmpint (one->caveat, ==,
                       !lid_ratio_is_known (one->value) && strcmp (one->id, "regions") != 0);
      g_assert_true (one->caveat || i == 0 || !((const LidAssumption *)list->pdata[i - 1])->caveat);
    }
  g_assert_nonnull (find (list, "firmware"));
  g_assert_nonnull (find (list, "not-performance"));
}

static void
even (gconstpointer data)
{
  const char *mode = data;
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{" LAYOUT ", \"mode\": \"%s\", \"put\": {\"m\": \"*\"}, \"board\": {\"efficiency\": "
      "{\"value\": 0.75, \"source\": \"measured\"}, \"modes\": [{\"id\": \"mirrored\", "
      "\"pairs\": " PAIRS "}, {\"id\": \"paired\", \"pairs\": " PAIRS "}]}}",
      mode);
  g_autoptr (GPtrArray) list = lid_assumptions_new (c->board, &c->figures);

  check_all_told (list);
  check_product (c, list);
  g_assert_cmpint (lid_ratio_compare (find (list, "efficiency")->value, lid_ratio (3, 4)), ==, 0);
  g_assert_cmpstr (find (list, "efficiency")->source, ==, "measured");
  g_assert_cmpint (find (list, "mirrored-reads") != NULL, ==, strcmp (mode, "mirrored") == 0);
  g_assert_cmpint (find (list, "paired") != NULL, ==, strcmp (mode, "paired") == 0);
  g_assert_null (find (list, "range"));
  g_assert_null (find (list, "partial"));
}

/* The default stands in one place, and is said to be from memory. */
static void
silent (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse ("{" LAYOUT ", \"put\": {\"m\": \"1-A1\"}}");
  g_autoptr (GPtrArray) list = lid_assumptions_new (c->board, &c->figures);

  check_all_told (list);
  check_product (c, list);
  g_assert_nonnull (strstr (find (list, "efficiency")->source, "from memory"));
  g_assert_nonnull (strstr (find (list, "regions")->text, "not told"));
  g_assert_nonnull (find (list, "partial"));
}

static void
uneven (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"sockets\": 1, \"slots\": [2, 1]}, \"modules\": {\"m\": " MODULE
      "}, \"put\": {\"m\": \"*\"}, \"board\": {\"interleave\": {\"model\": \"ways\", "
      "\"ways\": [1, 2]}}}");
  g_autoptr (GPtrArray) list = lid_assumptions_new (c->board, &c->figures);

  check_all_told (list);
  g_assert_nonnull (find (list, "range"));
}

/* Where sets over controllers make the slow end, and nothing else is made of them, that is said. */
static gboolean
tells_matched (const char *put, const char *matched)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"sockets\": 1, \"controllers\": 2, \"slots\": [1, 1, 1, 1, 1, 1]}, "
      "\"modules\": {\"m\": " MODULE "}, \"put\": {\"m\": \"%s\"}, \"board\": {\"interleave\": "
      "{\"model\": \"ways\", \"ways\": [1, 2, 3, 4, 6]%s}}}",
      put, matched);
  g_autoptr (GPtrArray) list = lid_assumptions_new (c->board, &c->figures);

  check_all_told (list);
  return find (list, "matched") != NULL;
}

static void
matched_sets (void)
{
  const char *told = ", \"matched\": {\"source\": \"invented\"}";

  g_assert_true (tells_matched ("1-A1 1-B1 1-C1 1-D1", told));
  g_assert_false (tells_matched ("1-A1 1-B1 1-D1 1-E1", told));
  g_assert_false (tells_matched ("1-A1 1-B1 1-C1 1-D1", ""));
  g_assert_false (tells_matched ("1-A1 1-B1 1-C1 1-D1 1-E1", ""));
}

/* Two processors of four channels, cut or not, with 16 GiB modules in @put and 48 GiB ones in
 * @larger: whether the caveat of unlike nodes stands. */
static gboolean
tells_unlike_of (const char *put, const char *larger, guint nodes)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"sockets\": 2, \"slots\": [2, 2, 2, 2]}, \"modules\": {\"m\": " MODULE
      ", \"l\": " LARGER "}, \"put\": {\"m\": \"%s\", \"l\": \"%s\"}, \"numa\": %u, \"board\": "
      "{\"numa\": [1, 2], \"interleave\": {\"model\": \"ways\", \"ways\": [1, 2, 4]}}}",
      put, larger, nodes);
  g_autoptr (GPtrArray) list = lid_assumptions_new (c->board, &c->figures);

  check_all_told (list);
  return find (list, "unlike-nodes") != NULL;
}

static gboolean
tells_unlike (const char *put, guint nodes)
{
  return tells_unlike_of (put, "", nodes);
}

/* Each node is read by its own cores: what a test of equal shares reaches is not the figure where
 * nodes hold or carry unlike amounts (product.md 6: S divided by the longest a node takes). */
static void
unlike (void)
{
  g_assert_false (tells_unlike ("1-A1 1-B1 2-A1 2-B1", 1));
  g_assert_false (tells_unlike ("1-A1 1-B1", 1));
  g_assert_true (tells_unlike ("1-A1 1-B1 1-C1 1-D1 2-A1 2-B1", 1));
  g_assert_true (tells_unlike ("1-A1 1-A2 1-B1 1-B2 2-A1 2-B1", 1));
  g_assert_true (tells_unlike ("1-A1 1-A2 2-A1 2-B1", 1));
  g_assert_false (tells_unlike ("1-A1 1-B1 1-C1 2-A1 2-B1 2-C1", 1));
  g_assert_true (tells_unlike ("1-A1 1-B1 1-C1 2-A1 2-B1 2-C1", 2));
  g_assert_false (tells_unlike ("1-A1 1-B1 1-C1 1-D1 2-A1 2-B1", 2));
  g_assert_true (tells_unlike ("1-A1 1-B1 2-A1 2-A2", 2));
  /* 96 GiB in 48 GiB of one channel's time both: two by two, or 64 by four and 32 by one. */
  g_assert_false (tells_unlike_of ("2-B1 2-C1 2-D1", "1-A1 1-B1 2-A1", 1));
}

/* How regions are formed, in the board's own way. */
static void
check_regions (const char *interleave, const char *wanted, const char *source)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{" LAYOUT ", \"put\": {\"m\": \"*\"}, \"board\": {\"interleave\": %s}}", interleave);
  g_autoptr (GPtrArray) list = lid_assumptions_new (c->board, &c->figures);

  check_all_told (list);
  g_assert_cmpstr (find (list, "regions")->text, ==, wanted);
  g_assert_cmpstr (find (list, "regions")->source, ==, source);
}

static void
regions (void)
{
  check_regions ("{\"model\": \"ways\", \"ways\": [1, 2, 4]}",
                 "Channels go together in these numbers: 1, 2, 4.", "the board's definition");
  check_regions ("{\"model\": \"equal-groups\", \"ways\": [1, 3]}",
                 "Only channels of equal capacity go together, in these numbers: 1, 3.",
                 "the board's definition");
  check_regions ("{\"model\": \"layered\"}",
                 "All channels that have something left go together, layer by layer.",
                 "the board's definition");
  check_regions ("{\"model\": \"ways\", \"ways\": [1, 2], \"source\": \"a guide\"}",
                 "Channels go together in these numbers: 1, 2.", "a guide");
  /* The source of ways that are added is theirs; of none that is new it is not. */
  check_regions ("{\"model\": \"ways\", \"ways\": [1, 2], \"source\": \"a guide\", \"also\": "
                 "[{\"nodes\": 1, \"ways\": [3], \"source\": \"first\"}]}",
                 "Channels go together in these numbers: 1, 2, 3.", "first");
  check_regions ("{\"model\": \"ways\", \"ways\": [1, 2], \"source\": \"a guide\", \"also\": "
                 "[{\"nodes\": 1, \"ways\": [2], \"source\": \"first\"}]}",
                 "Channels go together in these numbers: 1, 2.", "a guide");
}

/* A newer processor or a split brings ways of its own: they are counted, and their source named. */
static void
more_ways (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"sockets\": 1, \"slots\": [1, 1, 1]}, \"modules\": {\"m\": " MODULE
      "}, \"put\": {\"m\": \"*\"}, \"board\": {\"interleave\": {\"model\": \"ways\", "
      "\"ways\": [1, 2], \"source\": \"old\", \"also\": [{\"nodes\": 2, \"ways\": [4], "
      "\"source\": \"cut\"}, {\"nodes\": 1, \"ways\": [3], \"source\": \"new\"}]}}}");
  g_autoptr (GPtrArray) list = lid_assumptions_new (c->board, &c->figures);

  check_all_told (list);
  g_assert_cmpstr (find (list, "regions")->text, ==,
                   "Channels go together in these numbers: 1, 2, 3.");
  g_assert_cmpstr (find (list, "regions")->source, ==, "new");
}

/* The page has every constant and every caveat some figure may show, each with its source. */
static void
all (void)
{
  g_autoptr (GPtrArray) list = lid_assumptions_all ();
  g_autoptr (LidExplanation) page = lid_explain_bandwidth ();
  g_autofree char *text = lid_explain_to_text (page);

  check_all_told (list);
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    g_assert_true (lid_ratio_is_known (find (list, ids[i])->value));
  for (guint i = 0; i < list->len; i++)
    {
      const LidAssumption *one = list->pdata[i];

      g_assert_nonnull (strstr (text, one->text));
      g_assert_nonnull (strstr (text, one->source));
    }
  /* Capacities 2 1 1 2 1 1 by three models: population.md 4.7, first point. */
  g_assert_nonnull (strstr (text, "67 %, 67 % and 44 %"));
}

/* No figure, nothing it could rest on. */
static void
no_figure (void)
{
  g_autoptr (FiguresCase) c
      = figures_case_parse ("{" LAYOUT ", \"put\": {\"m\": \"*\"}, \"stopped\": true}");
  g_autoptr (GPtrArray) list = lid_assumptions_new (c->board, &c->figures);

  g_assert_cmpuint (list->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/assumptions/all", all);
  g_test_add_data_func ("/assumptions/even/plain", "plain", even);
  g_test_add_data_func ("/assumptions/even/mirrored", "mirrored", even);
  g_test_add_data_func ("/assumptions/even/paired", "paired", even);
  g_test_add_func ("/assumptions/silent", silent);
  g_test_add_func ("/assumptions/uneven", uneven);
  g_test_add_func ("/assumptions/unlike", unlike);
  g_test_add_func ("/assumptions/regions", regions);
  g_test_add_func ("/assumptions/more-ways", more_ways);
  g_test_add_func ("/assumptions/no-figure", no_figure);
  g_test_add_func ("/assumptions/matched", matched_sets);
  return g_test_run ();
}
