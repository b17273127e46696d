/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The planner on boards too large for brute force.
 *
 * An attacker that shares no code with it starts from its options and from random populations,
 * swaps, adds and drops modules at random, asks the checker, and holds what is legal against the
 * front: nothing may beat it (product.md 8, settled reading 11). */
#include "checks/finding.h"
#include "planner-large.h"

#define TRIES 10000u
#ifdef __SANITIZE_ADDRESS__
#define HASTES 8u
#else
#define HASTES 48u /* the 45th is the first to see that a mix needs its lowest T too */
#endif

static guint64 n_legal;

typedef struct
{
  const PlannerLarge *q;
  const LidPlan *plan;
  LidPopulation *now;
  GRand *rand;
} Attack;

static guint
kind_of (const Attack *a, const LidModule *module)
{
  for (guint k = 0; k < a->q->modules->len; k++)
    if (a->q->modules->pdata[k] == module)
      return k;
  return G_MAXUINT;
}

/* Cost and hands, counted anew; -1: the shelf does not hold so many. */
static gint64
reckon (const Attack *a, guint *hands)
{
  const LidPopulation *found = a->q->machine->population;
  gint64 cost = 0;

  *hands = 0;
  for (guint k = 0; k < a->q->modules->len; k++)
    {
      guint in = 0, out = 0, found_n = 0, now_n = 0;
      g_autofree guint *left = g_new0 (guint, a->q->goods->len);

      for (guint i = 0; i < found->n_slots; i++)
        {
          gboolean was = found->slots[i].module != NULL && kind_of (a, found->slots[i].module) == k;
          gboolean is
              = a->now->slots[i].module != NULL && kind_of (a, a->now->slots[i].module) == k;

          in += is && !was;
          out += was && !is;
          found_n += was;
          now_n += is;
        }
      *hands += MAX (in, out);
      for (guint g = 0; g < a->q->goods->len; g++)
        left[g] = g_array_index (a->q->goods, LidGood, g).count;
      for (guint n = found_n; n < now_n; n++)
        {
          int best = -1;

          for (guint g = 0; g < a->q->goods->len; g++)
            {
              const LidGood *good = &g_array_index (a->q->goods, LidGood, g);

              if (left[g] > 0 && kind_of (a, good->module) == k
                  && (best < 0
                      || good->price_minor
                             < g_array_index (a->q->goods, LidGood, best).price_minor))
                best = (int)g;
            }
          if (best < 0)
            return -1;
          left[best]--;
          cost += g_array_index (a->q->goods, LidGood, best).price_minor;
        }
    }
  return cost;
}

static gboolean
is_alike (const LidPopulation *population)
{
  guint per_socket = population->n_slots / population->n_sockets;

  for (guint i = per_socket; i < population->n_slots; i++)
    if (population->slots[i].module != population->slots[i % per_socket].module)
      return FALSE;
  return TRUE;
}

static void
hold_against_front (Attack *a)
{
  LidQuestion question = { a->q->machine->board, a->now, a->q->machine->population };
  g_autoptr (LidAssessment) assessment = NULL;
  guint hands;
  gint64 cost = reckon (a, &hands);

  if (cost < 0 || (!a->q->wish.sockets_free && !is_alike (a->now)))
    return;
  assessment = lid_assessment_new_plain (&question);
  if (lid_assessment_worst (assessment) == LID_GRADE_STOPS
      || assessment->figures.usable_mib < a->q->wish.amount)
    return;
  n_legal++;
  for (guint i = 0; i < a->plan->front->len; i++)
    {
      const LidPlanOption *option = a->plan->front->pdata[i];

      if (option->cost_minor <= cost && option->hands <= hands
          && lid_ratio_compare (option->whole_mbs, assessment->figures.whole_mbs) >= 0)
        return;
    }
  g_error ("nothing on the front is as good as %.1f MB/s for %" G_GINT64_FORMAT " and %u hands",
           lid_ratio_to_double (assessment->figures.whole_mbs), cost, hands);
}

/* One random change, in every socket where they shall be alike. */
static void
change (Attack *a)
{
  guint n = a->now->n_slots, per_socket = n / a->now->n_sockets;
  guint unit = a->q->wish.sockets_free ? n : per_socket;
  guint x = (guint)g_rand_int_range (a->rand, 0, (gint32)unit);
  guint y = (guint)g_rand_int_range (a->rand, 0, (gint32)unit);
  gint32 what = g_rand_int_range (a->rand, 0, 4);

  for (guint base = 0; base < n; base += unit)
    {
      LidModule *in_x = a->now->slots[base + x].module, *in_y = a->now->slots[base + y].module;
      g_autoptr (LidModule) keep = in_x != NULL ? lid_module_ref (in_x) : NULL;

      if (what == 0 && in_x != NULL)
        lid_population_take (a->now, base + x);
      else if (what == 1)
        {
          if (in_y != NULL)
            lid_population_put (a->now, base + x, in_y);
          if (keep != NULL)
            lid_population_put (a->now, base + y, keep);
        }
      else if (what > 1)
        lid_population_put (a->now, base + x, a->q->modules->pdata[(x + y) % a->q->modules->len]);
    }
}

static void
back_to (Attack *a)
{
  const LidPlanOption *option
      = a->plan->front->pdata[g_rand_int_range (a->rand, 0, (gint32)a->plan->front->len)];

  lid_population_free (a->now);
  a->now = lid_population_copy (option->population);
  for (guint i = 0; i < a->now->n_slots; i++)
    for (guint k = 0; a->now->slots[i].module != NULL && k < a->q->modules->len; k++)
      if (g_strcmp0 (a->now->slots[i].module->part, ((LidModule *)a->q->modules->pdata[k])->part)
          == 0)
        {
          lid_population_put (a->now, i, a->q->modules->pdata[k]);
          break;
        }
}

static void
attack (const PlannerLarge *q, const LidPlan *plan, guint tries)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261128);
  Attack a = { q, plan, lid_population_new (q->machine->board), rand };

  for (guint i = 0; i < tries; i++)
    {
      if (i % 7 == 0)
        back_to (&a);
      change (&a);
      hold_against_front (&a);
    }
  lid_population_free (a.now);
}

static void
test_attack (void)
{
  const char *wanted = g_getenv ("LID_TRIES");
  guint tries = wanted != NULL ? (guint)g_ascii_strtoull (wanted, NULL, 10) : TRIES;
  guint n_proved = 0;

  static const guint boards[] = { 1, 4, 3 };

  for (guint i = 0; i < G_N_ELEMENTS (boards); i++)
    for (guint empty = 0; empty < 2; empty++)
      {
        const PlannerLargeBoard *board = &planner_large_boards[boards[i]];
        g_autoptr (PlannerLarge) q = planner_large_new (board, 24, empty);
        g_autoptr (LidPlan) plan = NULL;

        q->wish.budget = 20000000;
        plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);
        g_assert_cmpuint (plan->front->len, >, 0);
        g_test_message ("%s: %u on the front, %s", board->name, plan->front->len,
                        plan->proved ? "proved" : "not proved");
        n_proved += plan->proved;
        if (plan->proved)
          attack (q, plan, tries / 6);
      }
  g_test_message ("%u tries, %" G_GUINT64_FORMAT " of them legal", tries, n_legal);
  g_assert_cmpuint (n_proved, >=, 5);
  g_assert_cmpuint (n_legal, >, tries / 20);
}

static void
count_option (const LidPlanOption *option, gpointer data)
{
  (*(guint *)data)++;
  g_assert_cmpuint (option->modules->len, >, 0);
}

static void
cancel_at_once (double share, gpointer data)
{
  g_assert_cmpfloat (share, <=, 1.0);
  g_cancellable_cancel (data);
}

/* Cancelled: what was found, not proved; the plug may be pulled at any time. */
static void
test_cancel (void)
{
  g_autoptr (PlannerLarge) q = planner_large_new (&planner_large_boards[3], 200, FALSE);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  LidPlanWatch watch = { cancellable, cancel_at_once, NULL, cancellable };
  g_autoptr (LidPlan) plan = lid_plan_new (&q->question, &q->wish, &watch, NULL);

  g_assert_false (plan->proved);
  g_assert_cmpuint (plan->steps, <, 1500000);
}

static void
test_options_as_found (void)
{
  g_autoptr (PlannerLarge) q = planner_large_new (&planner_large_boards[0], 24, FALSE);
  guint n = 0;
  LidPlanWatch watch = { NULL, NULL, count_option, &n };
  g_autoptr (LidPlan) plan = lid_plan_new (&q->question, &q->wish, &watch, NULL);

  g_assert_true (plan->proved);
  g_assert_cmpuint (n, >=, plan->front->len);
}

/* The boards of the bench, whose answer is known to be provable in time. Steps are counted, not
 * time, so that this is so on every machine. */
static void
test_proved (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (planner_large_boards); i++)
    for (guint hands = LID_HANDS_MOVE; hands <= LID_HANDS_PULL; hands++)
      {
        guint n_rows = i == 3 && hands == LID_HANDS_PULL ? 100000 : 200;
        g_autoptr (PlannerLarge) q = planner_large_new (&planner_large_boards[i], n_rows, FALSE);
        g_autoptr (LidPlan) plan = NULL;

        q->wish.hands = (LidReach)hands;
        plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);
        g_assert_true (plan->proved);
        g_assert_cmpuint (plan->front->len, >, 1);
      }
}

/* The fronts of two plans of one question, where both are proved. */
static void
compare_fronts (const LidPlan *a, const LidPlan *b, guint seed)
{
  gboolean same = a->front->len == b->front->len;

  for (guint i = 0; i < a->front->len && same; i++)
    {
      const LidPlanOption *x = a->front->pdata[i], *y = b->front->pdata[i];

      same = x->cost_minor == y->cost_minor && x->hands == y->hands
             && lid_ratio_compare (x->whole_mbs, y->whole_mbs) == 0;
    }
  if (!same)
    g_error ("question %u: the means for long searches change the answer", seed);
}

/* The means for long searches (node-mixes.c) used late, at once and one capacity at a time: three
 * ways to the same front, on machines that no brute force reaches. */
static void
test_hastes (void)
{
  guint n_points = 0, n_proved = 0;

  for (guint seed = 1; seed <= HASTES; seed++)
    {
      g_autoptr (PlannerLarge) q = planner_large_random (seed);
      g_autoptr (LidPlan) usual = lid_plan_new (&q->question, &q->wish, NULL, NULL);

      for (guint haste = LID_HASTE_WHOLE; haste <= LID_HASTE_EACH; haste++)
        {
          g_autoptr (LidPlan) plan = NULL;

          q->wish.haste = haste;
          plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);
          if (plan->proved && usual->proved)
            compare_fronts (usual, plan, seed);
          n_proved += plan->proved && usual->proved;
        }
      n_points += usual->front->len;
    }
  g_assert_cmpuint (n_proved, >, HASTES * 3 / 2);
  g_assert_cmpuint (n_points, >, HASTES * 3);
}

/* A module whose size nobody told, and rows without a price: no sum is worked out with them. */
static void
test_not_told (void)
{
  for (guint haste = LID_HASTE_USUAL; haste <= LID_HASTE_EACH; haste++)
    {
      g_autoptr (PlannerLarge) q = planner_large_new (&planner_large_boards[1], 40, FALSE);
      g_autoptr (LidModule) module = lid_module_copy (q->modules->pdata[1]);
      g_autoptr (LidPlan) plan = NULL;

      module->basis[LID_FACT_CAPACITY] = LID_BASIS_NONE;
      lid_population_put (q->machine->population, 1, module);
      for (guint i = 0; i < q->goods->len; i++)
        if (i % q->modules->len % 2 == 1)
          g_array_index (q->goods, LidGood, i).price_minor = LID_PLAN_NO_PRICE;
      q->wish.haste = (LidHaste)haste;
      q->wish.sockets_free = TRUE;
      q->wish.any = TRUE;
      plan = lid_plan_new (&q->question, &q->wish, NULL, NULL);
      g_assert_cmpuint (plan->front->len, >, 0);
    }
}

/* So many channels that the steps of the bounds are too many, hands alone: seen to end the window
 * by a division by nothing, under random hands (tests/app/random-actions.c). */
static void
test_very_many_channels (void)
{
  static const PlannerLargeBoard board
      = { "16x12x1, 1 kind", 16, 4, 12, 1, 1, "[1, 2, 4, 6, 8, 10, 12]", 0, TRUE };
  g_autoptr (PlannerLarge) q = planner_large_new (&board, 0, FALSE);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidPlan) plan = NULL;

  q->wish.what = LID_WISH_REARRANGE;
  q->wish.hands = LID_HANDS_MOVE;
  q->wish.budget = 300;
  plan = lid_plan_new (&q->question, &q->wish, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (plan->options->len, >=, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planner-large/attack", test_attack);
  g_test_add_func ("/planner-large/proved", test_proved);
  g_test_add_func ("/planner-large/hastes", test_hastes);
  g_test_add_func ("/planner-large/not-told", test_not_told);
  g_test_add_func ("/planner-large/cancel", test_cancel);
  g_test_add_func ("/planner-large/options-as-found", test_options_as_found);
  g_test_add_func ("/planner-large/very-many-channels", test_very_many_channels);
  return g_test_run ();
}
