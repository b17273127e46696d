/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The planner against brute force: on random small boards, jobs, shelves and wishes its whole front
 * is the one that planner-oracle.c finds by judging every population. The definition of the front
 * is product.md 8, settled reading 11. */
#include "planner-case.h"

/* Under the sanitizers, which look at memory and not at answers, a fifth of them. */
#ifdef __SANITIZE_ADDRESS__
#define CASES 88u
#else
#define CASES 440u /* the 430th is the first to see a bound of lean.c that is wrong */
#endif
#define PERSISTENT (CASES / 4)
#define MOST_FILLINGS 20000u
#define LONG_BUDGET 50000000u /* where more fillings are asked for: is it exact, not how soon */

static guint n_points, n_empty, n_open, n_more, n_cheapest, n_quick;
static guint64 n_judged;

static PlannerPoint
point_of (const LidPlanOption *option)
{
  return (PlannerPoint){ .usable = option->usable_mib,
                         .cost = option->cost_minor < 0 ? G_MAXINT64 : option->cost_minor,
                         .hands = option->hands,
                         .rated = option->rated,
                         .speed = option->rated ? option->whole_mbs : option->speed,
                         .loses = option->loses,
                         .unsure = option->unsure,
                         .staying = option->staying };
}

static gboolean
same_point (const PlannerPoint *a, const PlannerPoint *b, gboolean ties_open)
{
  if (a->cost != b->cost || a->hands != b->hands || a->rated != b->rated
      || lid_ratio_compare (a->speed, b->speed) != 0)
    return FALSE;
  return ties_open || (a->loses == b->loses && a->unsure == b->unsure && a->staying == b->staying);
}

static void
complain (const PlannerCase *c, const GArray *expected, const LidPlan *plan)
{
  g_printerr ("%s\n", c->about);
  for (guint i = 0; i < expected->len; i++)
    {
      g_autofree char *text = planner_point_to_text (&g_array_index (expected, PlannerPoint, i));

      g_printerr ("  oracle  %s\n", text);
    }
  for (guint i = 0; i < plan->front->len; i++)
    {
      PlannerPoint point = point_of (plan->front->pdata[i]);
      g_autofree char *text = planner_point_to_text (&point);

      g_printerr ("  planner %s\n", text);
    }
  g_error ("the fronts differ");
}

static void
compare (const PlannerCase *c, const GArray *expected, const LidPlan *plan)
{
  if (expected->len != plan->front->len)
    complain (c, expected, plan);
  for (guint i = 0; i < plan->front->len; i++)
    {
      PlannerPoint point = point_of (plan->front->pdata[i]);
      guint k = 0;

      while (k < expected->len
             && !same_point (&point, &g_array_index (expected, PlannerPoint, k), plan->ties_open))
        k++;
      if (k == expected->len)
        complain (c, expected, plan);
    }
}

/* The means for long searches, from the first step on. */
static void
compare_hastes (PlannerCase *c, const GArray *expected)
{
  for (guint haste = LID_HASTE_WHOLE; haste <= LID_HASTE_EACH; haste++)
    {
      LidWish wish = c->wish;
      g_autoptr (LidPlan) plan = NULL;

      wish.haste = haste;
      plan = lid_plan_new (&c->question, &wish, NULL, NULL);
      g_assert_true (plan->proved);
      compare (c, expected, plan);
    }
}

static gint64
least_cost (const GArray *front)
{
  gint64 least = -1;

  for (guint i = 0; i < front->len; i++)
    {
      gint64 cost = g_array_index (front, PlannerPoint, i).cost;

      if (least < 0 || cost < least)
        least = cost;
    }
  return least;
}

/* Of those that cost @cost the one for fewest hands, then the fastest. */
static const PlannerPoint *
best_placed (const GArray *front, gint64 cost)
{
  const PlannerPoint *best = NULL;

  for (guint i = 0; i < front->len; i++)
    {
      const PlannerPoint *point = &g_array_index (front, PlannerPoint, i);

      if (point->cost == cost
          && (best == NULL || point->hands < best->hands
              || (point->hands == best->hands && point->rated >= best->rated
                  && lid_ratio_compare (point->speed, best->speed) > 0)))
        best = point;
    }
  return best;
}

/* The cheapest with more usable capacity than the cheapest of all: the same long way. */
static void
compare_more (PlannerCase *c, const LidPlan *plan, gboolean alike)
{
  gint64 amount = c->wish.amount, cost = -1;
  g_autoptr (GArray) above = NULL;
  guint64 judged;

  if (c->wish.what != LID_WISH_CAPACITY || plan->front->len == 0)
    return;
  c->wish.amount = ((const LidPlanOption *)plan->front->pdata[0])->usable_mib + 1;
  above = planner_oracle_front (c, alike, &judged);
  c->wish.amount = amount;
  if (plan->more->len > 0)
    cost = ((const LidPlanOption *)plan->more->pdata[0])->cost_minor < 0
               ? G_MAXINT64
               : ((const LidPlanOption *)plan->more->pdata[0])->cost_minor;
  if (cost != least_cost (above))
    g_error ("%s: more for %" G_GINT64_FORMAT ", the oracle says %" G_GINT64_FORMAT, c->about, cost,
             least_cost (above));
  n_more += plan->more->len;
  if (plan->more->len > 0)
    {
      const PlannerPoint *best = best_placed (above, cost);
      PlannerPoint more = point_of (plan->more->pdata[0]);

      if (more.hands != best->hands || lid_ratio_compare (more.speed, best->speed) != 0)
        g_error ("%s: more for %u hands, the oracle says %u", c->about, more.hands, best->hands);
    }
}

/* The cheapest alone costs what the cheapest of the whole front does; asked after any and after the
 * first by the ties, so that both the quick way to it and the search are held to that. */
static void
compare_cheapest (PlannerCase *c, const GArray *expected)
{
  for (guint any = 0; any < 2 && c->wish.what == LID_WISH_CAPACITY; any++)
    {
      LidWish wish = c->wish;
      g_autoptr (LidPlan) plan = NULL;
      gint64 cost = -1;

      wish.what = LID_WISH_CHEAPEST;
      wish.any = any > 0;
      plan = lid_plan_new (&c->question, &wish, NULL, NULL);
      g_assert_true (plan->proved);
      g_assert_cmpuint (plan->front->len, <=, 1);
      if (plan->front->len > 0)
        cost = point_of (plan->front->pdata[0]).cost;
      if (cost != least_cost (expected))
        g_error ("%s: cheapest for %" G_GINT64_FORMAT ", the oracle says %" G_GINT64_FORMAT,
                 c->about, cost, least_cost (expected));
      n_cheapest++;
      n_quick += plan->steps == 0 && plan->front->len > 0;
    }
}

static void
try_case (PlannerCase *c)
{
  const char *most = g_getenv ("LID_FILLINGS");
  g_autoptr (GError) error = NULL;
  gboolean alike = planner_oracle_alike_matters (c);
  guint64 judged = 0;
  g_autoptr (GArray) expected = planner_oracle_front (c, alike, &judged);
  g_autoptr (LidPlan) plan = NULL;

  if (most != NULL)
    c->wish.budget = LONG_BUDGET;
  n_judged += judged;
  if (alike && expected->len == 0)
    {
      g_array_unref (expected);
      alike = FALSE;
      expected = planner_oracle_front (c, FALSE, &judged);
      n_judged += judged;
    }
  plan = lid_plan_new (&c->question, &c->wish, NULL, &error);
  g_assert_no_error (error);
  if (!plan->proved)
    {
      g_printerr ("%s\n", c->about);
      g_error ("not proved");
    }
  compare (c, expected, plan);
  compare_hastes (c, expected);
  compare_more (c, plan, alike);
  compare_cheapest (c, expected);
  n_points += plan->front->len;
  n_empty += plan->front->len == 0;
  n_open += plan->ties_open;
}

static void
try_one (guint32 seed)
{
  const char *most = g_getenv ("LID_FILLINGS");
  g_autoptr (PlannerCase) c = planner_case_random (
      seed, most != NULL ? (guint)g_ascii_strtoull (most, NULL, 10) : MOST_FILLINGS);

  try_case (c);
}

static void
test_brute_force (void)
{
  const char *from = g_getenv ("LID_SEED_FROM"), *to = g_getenv ("LID_SEED_TO");
  guint32 first = from != NULL ? (guint32)g_ascii_strtoull (from, NULL, 10) : 1;
  guint32 last = to != NULL ? (guint32)g_ascii_strtoull (to, NULL, 10) : CASES;

  for (guint32 seed = first; seed <= last; seed++)
    try_one (seed);
  g_test_message ("%u fronts, %u of them empty, %u points, %" G_GUINT64_FORMAT
                  " populations judged; %u times the cheapest, %u of them without a search",
                  last - first + 1, n_empty, n_points, n_judged, n_cheapest, n_quick);
  g_assert_cmpuint (n_points, >, last - first);
  g_assert_cmpuint (n_more, >, (last - first) / 12);
  g_assert_cmpuint (n_quick, >, n_cheapest / 10);
  /* As many as were counted: an arrangement that is tried no more, a kind that is barred no more
   * leaves it to the search, whose answer is the same. */
  if (from == NULL && to == NULL && CASES == 440)
    g_assert_cmpuint (n_quick, >=, 52);
  g_assert_cmpuint (n_empty, <, (last - first + 2) / 2);
  g_assert_cmpuint (n_open, <, (last - first + 30) / 30);
}

/* Those of the seeds beyond CASES that were seen to notice what no earlier one does. */
static void
test_rare (void)
{
  static const guint32 seeds[] = {
    690,  /* cheapest.c: a kind barred that is rated just as the wish asks */
    1076, /* cheapest.c: all that is found used again, though hands may pull */
    1449, /* rated.c: a rate that closes too high by 500 MT/s, in both places that ask for it */
    2384, /* cheapest.c: a kind barred because the first slot does not take it */
  };

  for (guint i = 0; i < G_N_ELEMENTS (seeds); i++)
    try_one (seeds[i]);
}

/* Persistent memory in a slot that is empty, most often the second of its channel: it stays, and
 * what goes in beside it is planned as ever. A channel where it sits behind an empty first slot was
 * seen to take every filling from the others. */
static void
put_persistent (PlannerCase *c, guint32 seed)
{
  const LidBoard *board = c->machine->board;
  g_autoptr (LidModule) module = lid_module_copy (c->pool->pdata[seed % c->pool->len]);

  module->persistent = TRUE;
  lid_module_set_text (&module->part, "TRN-P");
  for (guint n = 0; n < 2 * board->n_slots; n++)
    {
      guint slot = (seed + n) % board->n_slots;

      if (c->as_found->slots[slot].module != NULL
          || (n < board->n_slots && board->slots[slot].position < 2))
        continue;
      lid_population_put (c->as_found, slot, module);
      return;
    }
}

static void
test_persistent (void)
{
  guint before = n_points;

  for (guint32 seed = 1; seed <= PERSISTENT; seed++)
    {
      g_autoptr (PlannerCase) c = planner_case_random (seed, MOST_FILLINGS / 10);

      put_persistent (c, seed);
      try_case (c);
    }
  g_test_message ("%u points", n_points - before);
  g_assert_cmpuint (n_points - before, >, PERSISTENT / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planner/brute-force", test_brute_force);
  g_test_add_func ("/planner/rare", test_rare);
  g_test_add_func ("/planner/persistent", test_persistent);
  return g_test_run ();
}
