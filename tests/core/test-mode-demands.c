/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a mode demands, slot by slot. Whether a mode takes effect is cases: tests/cases/figures,
 * modes-*.json. Source: product.md 3 ("same"), 6, settled reading 8. */
#include "figures-case.h"
#include "figures/mode-demands.h"

static LidModule *
make (LidFact other, LidFact forgotten)
{
  static const gint32 values[LID_N_FACTS] = {
    [LID_FACT_GENERATION] = LID_GENERATION_DDR4,
    [LID_FACT_KIND] = LID_KIND_REGISTERED,
    [LID_FACT_FORM] = LID_FORM_DIMM,
    [LID_FACT_CAPACITY] = 8192,
    [LID_FACT_RANKS] = 1,
    [LID_FACT_LOGICAL_RANKS] = 1,
    [LID_FACT_STACK] = LID_STACK_NONE,
    [LID_FACT_CHIP_WIDTH] = 4,
    [LID_FACT_RATED] = 7200,
    [LID_FACT_ECC] = 0,
    [LID_FACT_CHECK_BITS] = 0,
    [LID_FACT_DIE] = 8,
    [LID_FACT_VOLTAGE] = LID_VOLTAGE_1200,
    [LID_FACT_HEIGHT] = 3125,
  };
  LidModule *module = lid_module_new ();

  for (LidFact fact = 0; fact < LID_N_FACTS; fact++)
    if (fact != forgotten)
      lid_module_set (module, fact, values[fact] + (fact == other), LID_BASIS_TOLD);
  return module;
}

static gboolean
matters (LidAlike alike, LidFact fact)
{
  if (alike == LID_ALIKE_CAPACITY)
    return fact == LID_FACT_CAPACITY;
  if (alike == LID_ALIKE_ORGANISATION)
    return fact == LID_FACT_CAPACITY || fact == LID_FACT_KIND || fact == LID_FACT_RANKS
           || fact == LID_FACT_CHIP_WIDTH;
  return lid_fact_is_rule_relevant (fact);
}

/* One fact that differs, or is not told on either side: it matters where the demand names it. */
static void
test_each_fact (void)
{
  for (LidAlike alike = LID_ALIKE_CAPACITY; alike <= LID_ALIKE_PART; alike++)
    for (LidFact fact = 0; fact < LID_N_FACTS; fact++)
      {
        g_autoptr (LidModule) plain = make (LID_N_FACTS, LID_N_FACTS);
        g_autoptr (LidModule) other = make (fact, LID_N_FACTS);
        g_autoptr (LidModule) untold = make (LID_N_FACTS, fact);
        gboolean asked = matters (alike, fact);

        g_test_message ("%s", lid_fact_to_text (fact));
        g_assert_cmpint (lid_mode_demands_compare (alike, plain, other), ==, asked ? 0 : 1);
        g_assert_cmpint (lid_mode_demands_compare (alike, plain, untold), ==, asked ? -1 : 1);
        g_assert_cmpint (lid_mode_demands_compare (alike, untold, plain), ==, asked ? -1 : 1);
        g_assert_cmpint (lid_mode_demands_compare (LID_ALIKE_NOT_TOLD, plain, other), ==, 1);
      }
}

/* Facts that are not told, at the slots where they are missing; a size that differs, at both. */
static void
test_slots (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"sockets\": 1, \"slots\": [2, 2]}, \"board\": {\"modes\": [{\"id\": "
      "\"mirrored\", \"pairs\": [[\"A\", \"B\"]], \"alike\": \"part\", \"source\": \"invented\"}]},"
      "\"modules\": {\"a\": {\"label\": \"8GB 1Rx4 PC4-2400T-R\"}, \"b\": {\"label\": \"16GB 2Rx4 "
      "PC4-2400T-R\"}, \"c\": {\"label\": \"8GB 1Rx4 PC4-2400T-R\", \"generation\": null, "
      "\"chip_width\": null}}, \"mode\": \"mirrored\", \"put\": {\"a\": \"1-A1 1-A2\", \"b\": "
      "\"1-B1\", \"c\": \"1-B2\"}}");
  const LidModeFigures *mode = &c->figures.mode;
  const guint32 alike = 1u << LID_DEMAND_ALIKE;

  g_assert_cmpuint (mode->unmet_at[0], ==, alike);
  g_assert_cmpuint (mode->unmet_at[1], ==, 0);
  g_assert_cmpuint (mode->unmet_at[2], ==, alike);
  g_assert_cmpuint (mode->unmet_at[3], ==, 0);
  g_assert_cmpuint (mode->missed_at[0], ==, 0);
  g_assert_cmphex (mode->missed_at[3] & (1u << LID_FACT_GENERATION | 1u << LID_FACT_CHIP_WIDTH), ==,
                   1u << LID_FACT_GENERATION | 1u << LID_FACT_CHIP_WIDTH);
  g_assert_cmpuint (mode->missed_at[3] & 1u << LID_FACT_CAPACITY, ==, 0);
  lid_figures_stop (c->survey, &c->figures);
  for (guint i = 0; i < c->board->n_slots; i++)
    g_assert_cmpuint (mode->unmet_at[i] | mode->missed_at[i], ==, 0);
}

/* Ranks that are not told, by the fact that board counts. */
static void
check_counted (const char *count, LidFact fact)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"slots\": [2]}, \"board\": {\"ranks\": {\"count\": \"%s\"}, \"modes\": "
      "[{\"id\": \"spared\", \"source\": \"invented\"}]}, \"modules\": {\"a\": {\"kind\": "
      "\"registered\", \"capacity_mib\": 8192}}, \"mode\": \"spared\", \"put\": {\"a\": \"1-A1\"}}",
      count);

  g_assert_cmpint (c->figures.mode.effect, ==, LID_EFFECT_UNSURE);
  g_assert_cmpuint (c->figures.mode.missed_at[0], ==, 1u << fact);
  g_assert_cmpuint (c->figures.mode.missed_at[1], ==, 0);
}

static void
test_ranks (void)
{
  check_counted ("label", LID_FACT_RANKS);
  check_counted ("logical", LID_FACT_LOGICAL_RANKS);
}

/* Counts are offered up to 63: what more modules there are is no count, and is looked up nowhere.
 */
static void
test_more_than_any_count (void)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"sockets\": 1, \"slots\": [4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4]}, "
      "\"board\": {\"modes\": [{\"id\": \"spared\", \"modules_per_socket\": [8, 16], \"source\": "
      "\"invented\"}]}, \"modules\": {\"a\": {\"label\": \"8GB 1Rx4 PC4-2400T-R\"}}, \"mode\": "
      "\"spared\", \"put\": {\"a\": \"*\"}}");

  g_assert_cmpuint (c->board->n_slots, ==, 64);
  g_assert_cmpint (c->figures.mode.effect, ==, LID_EFFECT_REFUSED);
  for (guint i = 0; i < c->board->n_slots; i++)
    g_assert_cmpuint (c->figures.mode.unmet_at[i] & 1u << LID_DEMAND_MODULES_OF_SOCKET, !=, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mode-demands/each-fact", test_each_fact);
  g_test_add_func ("/mode-demands/slots", test_slots);
  g_test_add_func ("/mode-demands/ranks", test_ranks);
  g_test_add_func ("/mode-demands/more-than-any-count", test_more_than_any_count);
  return g_test_run ();
}
