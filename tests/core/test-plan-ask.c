/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a job and a shelf to a plan, and back into the job as one step. */
#include "edits-sample.h"
#include "planner/plan-ask.h"
#include "planner/plan-words.h"

#include <string.h>

static const char shelf[] = "part,label,quantity,price EUR 0.00,bin\n"
                            "TRN-R16,16GB 1Rx4 PC4-2400T-RC1-11,6,31.00,K-1\n"
                            "TRN-R32,32GB 2Rx4 PC4-2400T-RB1-11,8,58.50,K-2\n";

static LidStock *
read_shelf (void)
{
  g_autoptr (GError) error = NULL;
  LidStock *stock
      = lid_stock_parse (shelf, sizeof shelf - 1, &(LidStockOptions){ 0, NULL, NULL }, &error);

  g_assert_no_error (error);
  return stock;
}

static LidPlan *
plan (const LidJob *job, const LidStock *stock, gint64 gb)
{
  g_autoptr (LidPlanAsk) ask = lid_plan_ask_new (job, stock);
  LidWish wish = { .what = LID_WISH_CAPACITY, .amount = gb * 1024, .hands = LID_HANDS_MOVE };
  g_autoptr (GError) error = NULL;
  LidPlan *out = lid_plan_new (&ask->question, &wish, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (out->front->len, >, 0);
  return out;
}

/* What was planned before does not change what is asked; undone, the job is as it was. */
static void
test_take (void)
{
  g_autoptr (LidEdits) edits = lid_edits_new (edits_sample_job ());
  g_autoptr (LidStock) stock = read_shelf ();
  g_autoptr (LidPlan) first = plan (lid_edits_job (edits), stock, 128), again = NULL;
  const LidPlanOption *option = first->front->pdata[0];
  guint before = lid_edits_job (edits)->modules->len, bought = 0;
  g_autoptr (GError) error = NULL;
  const LidPopulation *planned;
  gint64 mib = 0;

  for (guint i = 0; i < option->buys->len; i++)
    bought += g_array_index (option->buys, LidPlanBuy, i).count;
  g_assert_cmpuint (bought, >, 0);
  g_assert_true (lid_plan_take (edits, option, &error));
  g_assert_no_error (error);
  planned = lid_edits_population (edits, LID_PLANNED);
  for (guint i = 0; i < planned->n_slots; i++)
    if (planned->slots[i].module != NULL)
      {
        g_assert_nonnull (planned->slots[i].module->id);
        mib += lid_module_capacity (planned->slots[i].module);
      }
  g_assert_cmpint (mib, ==, option->capacity_mib);
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, before + bought);
  again = plan (lid_edits_job (edits), stock, 128);
  g_assert_cmpint (((const LidPlanOption *)again->front->pdata[0])->cost_minor, ==,
                   option->cost_minor);
  g_assert_true (lid_plan_take (edits, again->front->pdata[0], &error));
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, before + bought);
  while (lid_edits_can_undo (edits))
    lid_edits_undo (edits);
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, before);
}

/* Channels that are not told: only as found, and a reason. */
static void
test_untold (void)
{
  g_autoptr (LidJob) job = edits_sample_untold ();
  g_autoptr (LidPlanAsk) ask = lid_plan_ask_new (job, NULL);
  LidWish wish = { .what = LID_WISH_REARRANGE, .hands = LID_HANDS_MOVE };
  g_autoptr (LidPlan) told = lid_plan_new (&ask->question, &wish, NULL, NULL);

  g_assert_cmpuint (told->front->len, ==, 1);
  g_assert_cmpuint (((const LidPlanOption *)told->front->pdata[0])->hands, ==, 0);
  g_assert_nonnull (told->reason);
}

/* Where it may be that what is found stands in the way, that is said; where it may be pulled, or
 * there is nothing to pull, not. */
static void
test_out_of_reach (void)
{
  g_autoptr (LidJob) job = edits_sample_job ();
  g_autoptr (LidStock) stock = read_shelf ();
  g_autoptr (LidPlanAsk) ask = lid_plan_ask_new (job, stock);

  for (guint turn = 0; turn < 3; turn++)
    {
      LidPlanQuestion question = ask->question;
      LidWish wish = { .what = LID_WISH_CAPACITY,
                       .amount = G_GINT64_CONSTANT (1) << 30,
                       .hands = turn == 1 ? LID_HANDS_PULL : LID_HANDS_MOVE };
      g_autoptr (LidPlan) told = NULL;

      question.as_found = turn == 2 ? NULL : question.as_found;
      told = lid_plan_new (&question, &wish, NULL, NULL);
      g_assert_cmpuint (told->front->len, ==, 0);
      g_assert_nonnull (strstr (told->reason, "no population reaches the wish"));
      g_assert_true ((strstr (told->reason, "nothing pulled") != NULL) == (turn == 0));
    }
}

static void
test_wrong_wishes (void)
{
  g_autoptr (LidJob) job = edits_sample_job ();
  g_autoptr (LidPlanAsk) ask = lid_plan_ask_new (job, NULL);
  LidWish stay = { .what = LID_WISH_REARRANGE, .hands = LID_HANDS_STAY };
  LidWish less = { .what = LID_WISH_CAPACITY, .amount = -1 };
  g_autoptr (GError) error = NULL;

  g_assert_null (lid_plan_new (&ask->question, &stay, NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_null (lid_plan_new (&ask->question, &less, NULL, &error));
  g_assert_nonnull (error);
}

static void
test_words (void)
{
  g_autoptr (LidJob) job = edits_sample_job ();
  g_autoptr (LidStock) stock = read_shelf ();
  g_autoptr (LidPlan) told = plan (job, stock, 128);
  const LidPlanOption *option = told->front->pdata[0];
  g_autofree char *cost = lid_plan_words_cost (option, "EUR");
  g_autofree char *hands = lid_plan_words_hands (option);
  g_autofree char *picks = lid_plan_words_picks (LID_PICK_CHEAPEST | LID_PICK_FEWEST_HANDS);

  g_assert_nonnull (strstr (cost, "EUR"));
  g_assert_nonnull (strstr (hands, "hands"));
  g_assert_cmpstr (picks, ==, "cheapest and fewest hands");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan-ask/take", test_take);
  g_test_add_func ("/plan-ask/untold", test_untold);
  g_test_add_func ("/plan-ask/out-of-reach", test_out_of_reach);
  g_test_add_func ("/plan-ask/wrong-wishes", test_wrong_wishes);
  g_test_add_func ("/plan-ask/words", test_words);
  return g_test_run ();
}
