/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sums and changes of power; what one module draws is held to published figures in
 * tests/outside/power.json. */
#include "figures-case.h"
#include "figures/power-words.h"
#include "figures/power.h"

#include <string.h>

#define BOARD                                                                                      \
  "\"layout\": {\"sockets\": 2, \"slots\": [2, 2]}, \"modules\": {\"a\": \"16GB 2Rx4 "             \
  "PC4-2400T-RA1-11\", \"b\": \"128GB 2S4Rx4 PC4-2666V-RA2-12\", \"p\": {\"persistent\": true, "   \
  "\"capacity_mib\": 131072}}"

static FiguresCase *
fit (const char *put)
{
  return figures_case_parse ("{" BOARD ", \"absent\": [2], \"put\": {%s}}", put);
}

/* By hand from the table's rows: a 1.5 to 7.5 W, b 3.5 to 18 W. */
static void
test_machine (void)
{
  g_autoptr (FiguresCase) none = fit (""), three = fit ("\"a\": \"1-A1 1-B1\", \"b\": \"1-A2\"");
  g_autoptr (FiguresCase) dead = fit ("\"a\": \"1-A1 2-A1\", \"p\": \"1-B1\"");
  LidPowerSum sum = lid_power_machine (none->board, none->population);
  g_autofree char *words = NULL, *not_known = NULL;

  g_assert_cmpuint (sum.n, ==, 0);
  g_assert_null (lid_power_words_range (&sum));
  sum = lid_power_machine (three->board, three->population);
  g_assert_cmpint (sum.low_mw, ==, 1500 + 1500 + 3500);
  g_assert_cmpint (sum.high_mw, ==, 7500 + 7500 + 18000);
  words = lid_power_words_range (&sum);
  g_assert_cmpstr (words, ==, "6 to 33 W when busy");
  /* An absent processor's slots have no power; of persistent modules nothing is published. */
  sum = lid_power_machine (dead->board, dead->population);
  g_assert_cmpuint (sum.n, ==, 2);
  g_assert_cmpuint (sum.n_not_known, ==, 1);
  g_assert_cmpint (sum.high_mw, ==, 7500);
  not_known = lid_power_words_range (&sum);
  g_assert_cmpstr (not_known, ==,
                   "1 to 8 W when busy, without 1 module of which nothing is published");
}

static void
check_change (const char *before, const char *after, gint64 low, gint64 high, const char *words)
{
  g_autoptr (FiguresCase) old = fit (before), new = fit (after);
  LidPowerSum sum = lid_power_change (old->board, old->population, new->population);
  g_autofree char *said = lid_power_words_change (&sum);

  g_assert_cmpint (sum.low_mw, ==, low);
  g_assert_cmpint (sum.high_mw, ==, high);
  g_assert_cmpstr (said, ==, words);
}

/* What stays, or moves, makes no range of its own. */
static void
test_change (void)
{
  check_change ("\"a\": \"1-A1\"", "\"a\": \"1-B1\"", 0, 0, NULL);
  check_change ("\"a\": \"1-A1\"", "\"a\": \"1-A1 1-B1\"", 1500, 7500,
                "1 to 8 W more than as found");
  check_change ("\"a\": \"1-A1 1-B1\"", "\"a\": \"1-A1\"", -7500, -1500,
                "1 to 8 W less than as found");
  check_change ("\"a\": \"1-A1\"", "\"b\": \"1-A1\"", 3500 - 7500, 18000 - 1500,
                "between 4 W less and 17 W more than as found");
  check_change ("\"a\": \"1-A1\"", "\"a\": \"1-A1\", \"p\": \"1-B1\"", 0, 0, NULL);
}

/* What is not told widens the range to all that may hold, and is named. */
static void
test_not_told (void)
{
  g_autoptr (LidBoard) board = lid_board_new ();
  g_autoptr (LidModule) module = lid_module_new ();
  LidPower power = lid_power_module (board, module, 0);

  g_assert_true (power.known);
  g_assert_cmpint (power.low_mw, ==, 1000);
  g_assert_cmpint (power.high_mw, ==, 30000);
  g_assert_cmpuint (power.missing, ==,
                    1u << LID_FACT_GENERATION | 1u << LID_FACT_KIND | 1u << LID_FACT_CAPACITY);
  board->generations = 1u << LID_GENERATION_DDR4;
  board->kinds = 1u << LID_KIND_REGISTERED;
  power = lid_power_module (board, module, 0);
  g_assert_cmpint (power.low_mw, ==, 1500);
  g_assert_cmpint (power.high_mw, ==, 18000);
  lid_module_set (module, LID_FACT_GENERATION, LID_GENERATION_DDR2, LID_BASIS_TOLD);
  g_assert_false (lid_power_module (board, module, 0).known);
}

/* What was published of a module, in mW, the least and the most: shared/facts/population.md 5, read
 * by hand; 0: nothing. DDR3 is that of 1333. */
static gboolean
published (LidGeneration generation, LidKind kind, gint32 mib, gboolean stacked, guint mv, int *mw)
{
  gboolean registered = kind == LID_KIND_REGISTERED || kind == LID_KIND_SO_REGISTERED;
  gboolean buffered = kind == LID_KIND_LOAD_REDUCED;
  gboolean bare = !registered && !buffered && kind != LID_KIND_MULTIPLEXED_RANK
                  && kind != LID_KIND_FULLY_BUFFERED;
  int base = mv == 1350 ? 8500 : 10000;

  mw[0] = mw[1] = 0;
  if (generation == LID_GENERATION_DDR3 && (registered || bare))
    mw[0] = mw[1] = base - 1000 * bare;
  else if (generation == LID_GENERATION_DDR3 && buffered)
    mw[1] = (mw[0] = base + 4000) + 1000;
  else if (generation == LID_GENERATION_DDR4 && bare)
    mw[1] = 2 * (mw[0] = 2000);
  else if (generation == LID_GENERATION_DDR4 && (registered || buffered))
    {
      mw[0] = buffered || (stacked && mib > 32 * 1024) ? 7000 : 3000;
      mw[1] = buffered || mib > 32 * 1024 ? 12000 : 5000;
    }
  else if (generation == LID_GENERATION_DDR5 && bare)
    mw[1] = (mw[0] = 3000) + 4000;
  else if (generation == LID_GENERATION_DDR5 && (registered || buffered))
    mw[1] = (mw[0] = 10000) + 8000;
  else if (generation == LID_GENERATION_DDR5 && kind == LID_KIND_MULTIPLEXED_RANK)
    mw[0] = mw[1] = 20000;
  return mw[0] > 0;
}

static void
check_one (LidGeneration generation, LidKind kind, gint32 mib, gboolean stacked, guint mv)
{
  g_autoptr (LidBoard) board = lid_board_new ();
  g_autoptr (LidModule) module = lid_module_new ();
  LidPower power;
  int mw[2];

  lid_module_set (module, LID_FACT_GENERATION, generation, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_KIND, kind, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_CAPACITY, mib, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_STACK, stacked ? LID_STACK_3DS : LID_STACK_DUAL, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_RATED, 4000, LID_BASIS_TOLD);
  if (mv == 1500)
    lid_module_set (module, LID_FACT_VOLTAGE, LID_VOLTAGE_1500, LID_BASIS_TOLD);
  /* One that cannot run lower stays at 1.5 V whatever setup says. */
  power = lid_power_module (board, module, 1350);
  g_assert_cmpint (power.known, ==, published (generation, kind, mib, stacked, mv, mw));
  g_assert_cmpint (power.low_mw, ==, mw[0] / 2);
  g_assert_cmpint (power.high_mw, ==, mw[1] * 3 / 2);
  g_assert_cmpint (power.plan_mw, ==, (mw[0] + mw[1]) / 2);
  g_assert_cmpint (power.most_mw, ==, (mw[0] + mw[1]) / 2);
  g_assert_cmpuint (power.missing, ==, 0);
  if (generation == LID_GENERATION_DDR3 && kind == LID_KIND_REGISTERED)
    g_assert_nonnull (strstr (power.source, "1333"));
}

static void
test_published (void)
{
  static const gint32 sizes[] = { 1, 32 * 1024, 32 * 1024 + 1, 1024 * 1024 };

  for (LidGeneration generation = 1; generation < LID_N_GENERATIONS; generation++)
    for (LidKind kind = 1; kind < LID_N_KINDS; kind++)
      for (guint size = 0; size < G_N_ELEMENTS (sizes); size++)
        for (guint stacked = 0; stacked < 2; stacked++)
          for (guint mv = 1350; mv <= 1500; mv += 150)
            check_one (generation, kind, sizes[size], stacked == 1, mv);
}

/* A 64 GB module of four ranks: stacked or not is told by its ranks, where it is not told itself.
 * DDR3 that may run at either voltage, as nothing forbids it: both are in the range. */
static void
test_partly_told (void)
{
  g_autoptr (LidBoard) board = lid_board_new ();
  g_autoptr (LidModule) module = lid_module_new ();
  LidPower power;

  lid_module_set (module, LID_FACT_GENERATION, LID_GENERATION_DDR4, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_KIND, LID_KIND_REGISTERED, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_CAPACITY, 65536, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_RATED, 4000, LID_BASIS_TOLD);
  power = lid_power_module (board, module, 0);
  g_assert_cmpint (power.low_mw, ==, 1500);
  g_assert_cmpuint (power.missing, ==, 1u << LID_FACT_STACK);
  lid_module_set (module, LID_FACT_RANKS, 4, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_LOGICAL_RANKS, 4, LID_BASIS_TOLD);
  power = lid_power_module (board, module, 0);
  g_assert_cmpint (power.low_mw, ==, 1500);
  g_assert_cmpuint (power.missing, ==, 0);
  lid_module_set (module, LID_FACT_LOGICAL_RANKS, 8, LID_BASIS_TOLD);
  g_assert_cmpint (lid_power_module (board, module, 0).low_mw, ==, 3500);
  lid_module_set (module, LID_FACT_GENERATION, LID_GENERATION_DDR3, LID_BASIS_TOLD);
  power = lid_power_module (board, module, 0);
  g_assert_cmpint (power.low_mw, ==, 4250);
  g_assert_cmpint (power.high_mw, ==, 15000);
  g_assert_nonnull (strstr (power.source, "1333"));
  lid_module_set (module, LID_FACT_KIND, 0, LID_BASIS_NONE);
  g_assert_cmpstr (lid_power_module (board, module, 0).source, ==, "from memory");
}

static void
check_words (LidPowerSum sum, const char *range, const char *change)
{
  g_autofree char *as_range = lid_power_words_range (&sum);
  g_autofree char *as_change = lid_power_words_change (&sum);

  g_assert_cmpstr (as_range, ==, range);
  g_assert_cmpstr (as_change, ==, change);
}

/* Whole watts, away from the middle. */
static void
test_words (void)
{
  check_words ((LidPowerSum){ 0, 4001, 1, 0 }, "0 to 5 W when busy", "0 to 5 W more than as found");
  check_words ((LidPowerSum){ 999, 4000, 1, 0 }, "0 to 4 W when busy",
               "0 to 4 W more than as found");
  check_words ((LidPowerSum){ 1000, 4000, 1, 0 }, "1 to 4 W when busy",
               "1 to 4 W more than as found");
  check_words ((LidPowerSum){ -4001, 0, 1, 0 }, "-5 to 0 W when busy",
               "0 to 5 W less than as found");
  check_words ((LidPowerSum){ -4000, 1, 1, 0 }, "-4 to 1 W when busy",
               "between 4 W less and 1 W more than as found");
  check_words ((LidPowerSum){ -1, -1, 1, 0 }, "-1 to 0 W when busy", "0 to 1 W less than as found");
  check_words ((LidPowerSum){ 0, 0, 2, 2 }, "not known: nothing is published of such modules",
               NULL);
}

/* A maker's guide, not named: DDR3 at 1600 takes 15 % more than at 1333; where the rate is not told
 * only the upper ends rise. */
static void
test_rate (void)
{
  static const int rates[] = { 1333, 1600, 0 };
  LidPower powers[G_N_ELEMENTS (rates)];
  g_autoptr (LidBoard) board = lid_board_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rates); i++)
    {
      g_autoptr (LidModule) module = lid_module_new ();

      lid_module_set (module, LID_FACT_GENERATION, LID_GENERATION_DDR3, LID_BASIS_TOLD);
      lid_module_set (module, LID_FACT_KIND, LID_KIND_REGISTERED, LID_BASIS_TOLD);
      lid_module_set (module, LID_FACT_CAPACITY, 8192, LID_BASIS_TOLD);
      if (rates[i] > 0)
        lid_module_set (module, LID_FACT_RATED,
                        (gint32)lid_rate_snap (LID_GENERATION_DDR3, (guint)rates[i]),
                        LID_BASIS_TOLD);
      powers[i] = lid_power_module (board, module, 1500);
      g_assert_true (powers[i].known);
    }
  g_assert_cmpint (powers[1].low_mw, ==, powers[0].low_mw * 115 / 100);
  g_assert_cmpint (powers[1].plan_mw, ==, powers[0].plan_mw * 115 / 100);
  g_assert_cmpint (powers[1].most_mw, ==, powers[0].most_mw * 115 / 100);
  g_assert_cmpint (powers[1].high_mw, ==, powers[0].high_mw * 115 / 100);
  g_assert_cmpint (powers[2].low_mw, ==, powers[0].low_mw);
  g_assert_cmpint (powers[2].plan_mw, ==, powers[0].plan_mw);
  g_assert_cmpint (powers[2].most_mw, ==, powers[1].most_mw);
  g_assert_cmpint (powers[2].high_mw, ==, powers[1].high_mw);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/power/machine", test_machine);
  g_test_add_func ("/power/change", test_change);
  g_test_add_func ("/power/not-told", test_not_told);
  g_test_add_func ("/power/published", test_published);
  g_test_add_func ("/power/partly-told", test_partly_told);
  g_test_add_func ("/power/words", test_words);
  g_test_add_func ("/power/rate", test_rate);
  return g_test_run ();
}
