/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must hold of any two questions to the planner that differ in a known way. */
#include "planner-case.h"
#include "planner-large.h"

static LidPlan *
plan_case (PlannerCase *c)
{
  g_autoptr (GError) error = NULL;
  LidPlan *plan;

  c->question.goods = (const LidGood *)c->goods->data;
  c->question.n_goods = c->goods->len;
  plan = lid_plan_new (&c->question, &c->wish, NULL, &error);
  g_assert_no_error (error);
  return plan;
}

static gboolean
same_figures (const LidPlanOption *a, const LidPlanOption *b, gint64 factor)
{
  return a->hands == b->hands && a->rated == b->rated && lid_ratio_compare (a->speed, b->speed) == 0
         && (a->cost_minor < 0 ? b->cost_minor < 0 : a->cost_minor * factor == b->cost_minor);
}

static void
assert_same_front (const PlannerCase *c, const LidPlan *a, const LidPlan *b, gint64 factor)
{
  gboolean same = a->front->len == b->front->len;

  for (guint i = 0; same && i < a->front->len; i++)
    same = same_figures (a->front->pdata[i], b->front->pdata[i], factor);
  if (!same)
    g_error ("%s: the fronts differ", c->about);
}

/* Prices × k: the same front, at k times the cost. */
static void
test_prices (void)
{
  for (guint32 seed = 1; seed <= 60; seed++)
    {
      g_autoptr (PlannerCase) c = planner_case_random (seed, 3000);
      g_autoptr (LidPlan) before = plan_case (c), after = NULL;

      for (guint i = 0; i < c->goods->len; i++)
        if (g_array_index (c->goods, LidGood, i).price_minor >= 0)
          g_array_index (c->goods, LidGood, i).price_minor *= 7;
      if (c->wish.what == LID_WISH_SPEND)
        c->wish.amount *= 7;
      after = plan_case (c);
      assert_same_front (c, before, after, 7);
    }
}

/* A row that no option buys from, taken away: the same front. */
static void
test_unused_row (void)
{
  guint n = 0;

  for (guint32 seed = 1; seed <= 60; seed++)
    {
      g_autoptr (PlannerCase) c = planner_case_random (seed, 3000);
      g_autoptr (LidPlan) before = plan_case (c), after = NULL;

      for (guint g = 0; g < c->goods->len; g++)
        {
          gboolean bought = FALSE;

          for (guint i = 0; i < before->front->len; i++)
            {
              const LidPlanOption *option = before->front->pdata[i];

              for (guint k = 0; k < option->buys->len; k++)
                bought |= g_array_index (option->buys, LidPlanBuy, k).good == g;
            }
          if (bought)
            continue;
          g_array_remove_index (c->goods, g);
          n++;
          break;
        }
      after = plan_case (c);
      if (!before->uneven == !after->uneven)
        assert_same_front (c, before, after, 1);
    }
  g_assert_cmpuint (n, >, 20);
}

/* More on the shelf is never worse: for each option of before there is one as good. */
static void
test_more_stock (void)
{
  for (guint32 seed = 1; seed <= 60; seed++)
    {
      g_autoptr (PlannerCase) c = planner_case_random (seed, 3000);
      g_autoptr (LidPlan) before = plan_case (c), after = NULL;

      for (guint i = 0; i < c->goods->len; i++)
        g_array_index (c->goods, LidGood, i).count += 2;
      after = plan_case (c);
      for (guint i = 0; i < before->front->len && !before->uneven; i++)
        {
          const LidPlanOption *old = before->front->pdata[i];
          gboolean matched = FALSE;

          for (guint k = 0; k < after->front->len && !matched; k++)
            {
              const LidPlanOption *new = after->front->pdata[k];

              matched = new->hands <= old->hands &&new->rated
                            == old->rated &&lid_ratio_compare (new->speed, old->speed) >= 0
                        && (c->wish.what != LID_WISH_CAPACITY
                            || (guint64) new->cost_minor <= (guint64)old->cost_minor)
                        && (c->wish.what != LID_WISH_SPEND || new->usable_mib >= old->usable_mib);
            }
          if (!matched)
            g_error ("%s: more stock made it worse", c->about);
        }
    }
}

/* The two processors change names: the same front. */
static void
test_sockets_permuted (void)
{
  for (guint i = 0; i < 6; i++)
    {
      static const PlannerLargeBoard board = { "2x2x1", 2, 1, 2, 1, 4, "[1, 2]", 64, TRUE };
      g_autoptr (PlannerLarge) one = planner_large_new (&board, 12, TRUE);
      g_autoptr (PlannerLarge) other = planner_large_new (&board, 12, TRUE);
      g_autoptr (LidPlan) a = NULL, b = NULL;
      guint n = one->machine->board->n_slots;

      one->wish.amount = other->wish.amount = 16384 * (gint64)(i + 1);
      for (guint s = 0; s < n; s++)
        if ((i + 1) >> (s % 3) & 1)
          {
            lid_population_put (one->machine->population, s, one->modules->pdata[0]);
            lid_population_put (other->machine->population, (s + n / 2) % n,
                                other->modules->pdata[0]);
          }
      a = lid_plan_new (&one->question, &one->wish, NULL, NULL);
      b = lid_plan_new (&other->question, &other->wish, NULL, NULL);
      g_assert_cmpuint (a->front->len, ==, b->front->len);
      for (guint k = 0; k < a->front->len; k++)
        g_assert_true (same_figures (a->front->pdata[k], b->front->pdata[k], 1));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planner-relations/prices", test_prices);
  g_test_add_func ("/planner-relations/unused-row", test_unused_row);
  g_test_add_func ("/planner-relations/more-stock", test_more_stock);
  g_test_add_func ("/planner-relations/sockets-permuted", test_sockets_permuted);
  return g_test_run ();
}
