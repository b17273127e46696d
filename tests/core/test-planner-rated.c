/* SPDX-License-Identifier: GPL-3.0-or-later */
/* At which rate a filling that leaves the rate open closes it (planner/rated.c): what is pruned by
 * it is not looked at again, so each reason to close nothing is asked by itself. A processor or a
 * firmware level that is not told cannot bind where something told is as slow as the slowest of
 * them: product.md 6, settled reading 5. */
#include "figures-case.h"
#include "planner/fillings.h"

#define BOARD                                                                                      \
  "{\"layout\": {\"sockets\": 1, \"slots\": [1, 1]}, \"modules\": {\"m\": {\"generation\": "       \
  "\"DDR4\", \"kind\": \"registered\", \"capacity_mib\": 16384, \"ranks\": 2, \"logical_ranks\": " \
  "2, \"voltages_mv\": [1200]%s}}, \"put\": {\"m\": \"1-A1\"}, \"board\": {%s}}"
#define RATED ", \"rated_mts\": 3200"
#define PROCESSORS                                                                                 \
  "\"processors\": [{\"id\": \"slow\", \"name\": \"slow\", \"mts\": 2400, \"source\": "            \
  "\"invented\"}, {\"id\": \"fast\", \"name\": \"fast\", \"mts\": 2933, \"source\": "              \
  "\"invented\"}]"
#define FIRMWARE                                                                                   \
  "\"firmware\": [{\"level\": \"1\", \"ceiling_mts\": 2133, \"source\": \"invented\"}, "           \
  "{\"level\": \"2\", \"ceiling_mts\": 2666, \"source\": \"invented\"}]"
#define FAST_FIRMWARE                                                                              \
  "\"firmware\": [{\"level\": \"1\", \"ceiling_mts\": 2666, \"source\": \"invented\"}, "           \
  "{\"level\": \"2\", \"source\": \"invented\"}]"
#define VOLTAGE "\"rates\": [{\"voltage_mv\": 1200, \"mts\": 3200, \"source\": \"invented\"}]"
#define NO_VOLTAGE "\"rates\": [{\"mts\": 3200, \"source\": \"invented\"}]"

static LidRate
closes (const char *module, const char *board)
{
  g_autoptr (FiguresCase) c = figures_case_parse (BOARD, module, board);
  LidModule *tray[] = { c->population->slots[0].module };
  const LidWish wish = { .what = LID_WISH_CAPACITY, .hands = LID_HANDS_PULL };
  const LidPlanQuestion question
      = { .board = c->board, .settings = c->population, .tray = tray, .n_tray = 1 };
  g_autoptr (LidCandidates) candidates = lid_candidates_new (&question, &wish);
  const int kinds[] = { 0, LID_NOWHERE };
  LidPlanJudge judge;
  LidRate rate;

  g_assert_cmpuint (candidates->kinds->len, ==, 1);
  lid_plan_judge_init (&judge, &question, &wish, candidates);
  g_assert_cmpuint (lid_plan_judge_rate (&judge, (int *)kinds), ==, LID_RATE_UNKNOWN);
  rate = lid_plan_rated_closes (&judge, kinds);
  lid_plan_judge_clear (&judge);
  return rate;
}

static void
test_closes (void)
{
  g_assert_cmpuint (closes (RATED, PROCESSORS), ==, 3 * 2400);
  g_assert_cmpuint (closes (RATED, FIRMWARE), ==, 6400); /* 2133 is 6400/3 */
  g_assert_cmpuint (closes (RATED, PROCESSORS ", " FIRMWARE), ==, 6400);
  g_assert_cmpuint (closes (RATED, PROCESSORS ", " FAST_FIRMWARE), ==, 3 * 2400);
  g_assert_cmpuint (closes (RATED, PROCESSORS ", " NO_VOLTAGE), ==, 3 * 2400);
}

static void
test_closes_nothing (void)
{
  /* The slow one may be in the other socket. */
  g_assert_cmpuint (closes (RATED, PROCESSORS ", \"rate_scope\": \"socket\""), ==, 0);
  /* Whatever else is fitted may change the voltage, and so the row. */
  g_assert_cmpuint (closes (RATED, PROCESSORS ", " VOLTAGE), ==, 0);
  /* A rating that is not told leaves the rate open beside anything. */
  g_assert_cmpuint (closes ("", PROCESSORS), ==, 0);
  g_assert_cmpuint (closes ("", NO_VOLTAGE), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planner-rated/closes", test_closes);
  g_test_add_func ("/planner-rated/closes-nothing", test_closes_nothing);
  return g_test_run ();
}
