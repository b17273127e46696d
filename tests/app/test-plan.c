/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans in the window: worked out in the background, shown as cards, taken as one step; modules of
 * the shelf are put by, and a price that can be read in two ways is asked about. */
#include "app/bench-view.h"
#include "app/plan-card.h"
#include "app/window-private.h"
#include "jobs.h"

#include "job/job-file.h"
#include "stock/reserved.h"

#include <glib/gstdio.h>
#include <string.h>

/* Labels that the example's machine takes; names and prices are invented. */
#define SHELF                                                                                      \
  "part,label,quantity,price EUR%s,bin\n"                                                          \
  "TW-R16-24,16GB 2Rx4 PC4-2400T-RB1-11,12,%s,B1\n"                                                \
  "TW-R32-24,32GB 2Rx4 PC4-2400T-RB1-11,8,61.00,B2\n"

static LidPlanView *
view_of (LidWindow *window)
{
  return lid_bench_view_get_plan_view (
      LID_BENCH_VIEW (gtk_widget_get_first_child (window->board_place)));
}

static void
wait_for_plan (LidPlanView *view)
{
  LidPlanRunner *runner = lid_plan_view_get_runner (view);
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (lid_plan_runner_get_plan (runner) == NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, TRUE);
  g_assert_nonnull (lid_plan_runner_get_plan (runner));
}

static guint
count_cards (GtkWidget *widget)
{
  guint n = LID_IS_PLAN_CARD (widget);

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_cards (child);
  return n;
}

static LidWindow *
open_example (void)
{
  g_autoptr (GFile) file = jobs_file ("plan.lidleaf", NULL, NULL);

  return jobs_open_job (file);
}

static GFile *
write_shelf (const char *name, const char *mark, const char *price)
{
  g_autofree char *path = g_build_filename (jobs_folder, name, NULL);
  g_autofree char *text = g_strdup_printf (SHELF, mark, price);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  return g_file_new_for_path (path);
}

static void
wait_for_shelf (LidPlanView *view)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (lid_plan_view_get_shelf (view) == NULL && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, TRUE);
  g_assert_nonnull (lid_plan_view_get_shelf (view));
}

static void
test_rearrange (void)
{
  LidWindow *window = open_example ();
  LidPlanView *view = view_of (window);
  const LidPlan *plan;

  jobs_act (window, "plan");
  wait_for_plan (view);
  plan = lid_plan_runner_get_plan (lid_plan_view_get_runner (view));
  g_assert_true (plan->proved);
  g_assert_cmpuint (plan->options->len, >=, 1);
  g_assert_cmpuint (count_cards (GTK_WIDGET (view)), ==, plan->options->len);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The plan is one step; undone, the machine is planned as before, and the plans are gone with the
 * question they answered. */
static void
test_take (void)
{
  LidWindow *window = open_example ();
  LidPlanView *view = view_of (window);
  LidEdits *edits = lid_job_model_get_edits (window->model);
  g_autoptr (LidPopulation) before
      = lid_population_copy (lid_edits_population (edits, LID_PLANNED));
  const LidPlan *plan;
  guint as_found = 0;

  jobs_act (window, "plan");
  wait_for_plan (view);
  plan = lid_plan_runner_get_plan (lid_plan_view_get_runner (view));
  for (guint i = 0; i < plan->options->len; i++)
    if (((LidPlanOption *)plan->options->pdata[i])->hands == 0)
      as_found = i;
  lid_plan_view_take (view, as_found);
  g_assert_null (lid_plan_runner_get_plan (lid_plan_view_get_runner (view)));
  for (guint i = 0; i < before->n_slots; i++)
    g_assert_true (lid_edits_population (edits, LID_PLANNED)->slots[i].module
                   == lid_edits_job (edits)->as_found->slots[i].module);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "take a plan");
  lid_job_model_undo (window->model);
  g_assert_true (lid_population_equal (lid_edits_population (edits, LID_PLANNED), before));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_shelf_is_put_by (void)
{
  LidWindow *window = open_example ();
  LidPlanView *view = view_of (window);
  LidWishLine *wish = lid_plan_view_get_wish (view);
  g_autoptr (GFile) file = write_shelf ("shelf.csv", "", "28.50");
  g_autoptr (LidReserved) reserved = NULL;
  g_autoptr (GError) error = NULL;
  const LidPlanOption *option;
  guint bought = 0;

  lid_window_use_shelf (window, file);
  wait_for_shelf (view);
  lid_wish_line_set_what (wish, LID_WISH_CAPACITY);
  lid_wish_line_set_amount (wish, "128 GB");
  jobs_act (window, "plan");
  wait_for_plan (view);
  option = lid_plan_runner_get_plan (lid_plan_view_get_runner (view))->options->pdata[0];
  g_assert_cmpint (option->usable_mib, >=, 128 * 1024);
  for (guint i = 0; i < option->buys->len; i++)
    bought += g_array_index (option->buys, LidPlanBuy, i).count;
  g_assert_cmpuint (bought, >, 0);
  lid_plan_view_take (view, 0);
  reserved = lid_reserved_load (g_file_peek_path (file), &error);
  g_assert_no_error (error);
  for (guint i = 0; i < reserved->entries->len; i++)
    bought -= ((LidReservation *)reserved->entries->pdata[i])->count;
  g_assert_cmpuint (bought, ==, 0);
  g_assert_true (jobs_says (window, "put by for this job"));
  gtk_window_destroy (GTK_WINDOW (window));
}

static guint
count_put_by (GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidReserved) reserved = lid_reserved_load (g_file_peek_path (file), &error);
  guint n = 0;

  g_assert_no_error (error);
  for (guint i = 0; i < reserved->entries->len; i++)
    n += ((LidReservation *)reserved->entries->pdata[i])->count;
  return n;
}

/* The job knows where modules are put by for it: through undo, saving and opening; when it is done,
 * it is asked once whether to give them back. */
static void
test_given_back (void)
{
  LidWindow *window = open_example ();
  LidPlanView *view = view_of (window);
  LidWishLine *wish = lid_plan_view_get_wish (view);
  g_autoptr (GFile) file = write_shelf ("back.csv", "", "28.50"), saved = NULL;
  g_autofree char *path = g_build_filename (jobs_folder, "back.lidleaf", NULL);
  g_autoptr (GError) error = NULL;
  guint n;

  lid_window_use_shelf (window, file);
  wait_for_shelf (view);
  lid_wish_line_set_what (wish, LID_WISH_CAPACITY);
  lid_wish_line_set_amount (wish, "128 GB");
  jobs_act (window, "plan");
  wait_for_plan (view);
  lid_plan_view_take (view, 0);
  n = count_put_by (file);
  g_assert_cmpuint (n, >, 0);
  lid_job_model_undo (window->model);
  g_assert_cmpstr (lid_job_model_get_job (window->model)->reserved_in, ==, g_file_peek_path (file));
  lid_job_model_redo (window->model);
  g_assert_true (lid_job_file_save (lid_job_model_get_job (window->model), path, &error));
  gtk_window_destroy (GTK_WINDOW (window));

  saved = g_file_new_for_path (path);
  window = jobs_open_job (saved);
  jobs_act (window, "left-from-planned");
  jobs_answer (window, 0);
  g_assert_cmpuint (count_put_by (file), ==, n);
  jobs_act (window, "left-from-planned");
  jobs_answer (window, 1);
  g_assert_cmpuint (count_put_by (file), ==, 0);
  g_assert_true (jobs_says (window, "no longer put by"));
  jobs_act (window, "left-from-planned");
  g_assert_null (jobs_question_of (window));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_ambiguous_price_is_asked (void)
{
  LidWindow *window = open_example ();
  LidPlanView *view = view_of (window);
  g_autoptr (GFile) file = write_shelf ("two-ways.csv", "", "\"1,234\"");

  lid_window_use_shelf (window, file);
  wait_for_shelf (view);
  g_assert_cmpuint (lid_shelf_get_stock (lid_plan_view_get_shelf (view))->rows->len, ==, 1);
  jobs_answer (window, 1); /* the point */
  while (lid_shelf_get_stock (lid_plan_view_get_shelf (view))->rows->len < 2)
    g_main_context_iteration (NULL, TRUE);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* What cannot be worked out is said where it was wished. */
static void
test_bad_wish (void)
{
  LidWindow *window = open_example ();
  LidPlanView *view = view_of (window);
  LidWishLine *wish = lid_plan_view_get_wish (view);
  g_autofree char *complaint = NULL, *sum = NULL;
  LidWish out;

  lid_wish_line_set_what (wish, LID_WISH_CAPACITY);
  lid_wish_line_set_amount (wish, "much");
  g_assert_false (lid_wish_line_get_wish (wish, NULL, LID_GENERATION_UNKNOWN, &out, &complaint));
  g_assert_nonnull (strstr (complaint, "much"));
  lid_wish_line_set_what (wish, LID_WISH_SPEND);
  g_assert_false (lid_wish_line_get_wish (wish, NULL, LID_GENERATION_UNKNOWN, &out, &sum));
  g_assert_nonnull (strstr (sum, "stock file"));
  gtk_window_destroy (GTK_WINDOW (window));
}

static GtkWidget *
next_of (GtkWidget *widget)
{
  GtkWidget *found = NULL;

  if (GTK_IS_BUTTON (widget)
      && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), "plan.next") == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = next_of (child);
  return found;
}

/* Twice what is there is wished until somebody writes something else; no sum ever is. */
static void
test_proposal (void)
{
  LidWindow *window = open_example ();
  LidWishLine *wish = lid_plan_view_get_wish (view_of (window));
  const LidFigures *found = &lid_job_model_get_found (window->model)->figures;
  g_autofree char *complaint = NULL, *sum = NULL;
  LidWish out;

  lid_wish_line_set_what (wish, LID_WISH_CAPACITY);
  g_assert_true (lid_wish_line_get_wish (wish, NULL, LID_GENERATION_UNKNOWN, &out, &complaint));
  g_assert_cmpint (out.amount, ==, 2 * found->usable_mib);
  lid_wish_line_set_what (wish, LID_WISH_SPEND);
  g_assert_false (lid_wish_line_get_wish (wish, NULL, LID_GENERATION_UNKNOWN, &out, &sum));
  lid_wish_line_set_what (wish, LID_WISH_CAPACITY);
  lid_wish_line_set_amount (wish, "96");
  g_assert_true (lid_wish_line_get_wish (wish, NULL, LID_GENERATION_UNKNOWN, &out, &complaint));
  g_assert_cmpint (out.amount, ==, 96 * 1024);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Where no plan is found the page says what may find one, and a click does it. */
static void
test_no_plan_is_no_dead_end (void)
{
  LidWindow *window = open_example ();
  LidPlanView *view = view_of (window);
  LidWishLine *wish = lid_plan_view_get_wish (view);
  g_autoptr (GFile) file = write_shelf ("wider.csv", "", "28.50");
  GtkWidget *next = next_of (GTK_WIDGET (view));

  lid_plan_view_set_shelf (view, NULL);
  g_settings_reset (window->settings, "shelf"); /* of the tests before */
  lid_wish_line_set_what (wish, LID_WISH_CAPACITY);
  lid_wish_line_set_amount (wish, "90000 GB");
  jobs_act (window, "plan");
  wait_for_plan (view);
  g_assert_cmpuint (count_cards (GTK_WIDGET (view)), ==, 0);
  g_assert_true (gtk_widget_get_visible (next));
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (next)), ==, "Choose a Stock File…");
  lid_window_use_shelf (window, file);
  wait_for_shelf (view);
  wait_for_plan (view);
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (next)), ==, "Let Modules Be Pulled");
  gtk_widget_activate_action (GTK_WIDGET (view), "plan.next", NULL);
  g_assert_cmpint (lid_wish_line_get_reach (wish), ==, LID_HANDS_PULL);
  wait_for_plan (view);
  g_assert_false (gtk_widget_get_visible (next));
  gtk_window_destroy (GTK_WINDOW (window));
}

static gboolean
shows (GtkWidget *widget, const char *words)
{
  gboolean found
      = GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), words) != NULL;

  if (!gtk_widget_get_visible (widget))
    return FALSE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && !found;
       child = gtk_widget_get_next_sibling (child))
    found = shows (child, words);
  return found;
}

/* Who turns to another population sees it, not the plans; as left that nobody noted is said to be
 * none, and noted from there. */
static void
test_populations_show_the_board (void)
{
  LidWindow *window = open_example ();
  GtkWidget *bench = gtk_widget_get_first_child (window->board_place);
  GtkWidget *board = GTK_WIDGET (lid_bench_view_get_board (LID_BENCH_VIEW (bench)));
  LidEdits *edits = lid_job_model_get_edits (window->model);

  jobs_act (window, "plan");
  g_assert_false (gtk_widget_get_mapped (board));
  g_action_group_change_action_state (G_ACTION_GROUP (window), "of",
                                      g_variant_new_string ("as-left"));
  g_assert_true (gtk_widget_get_mapped (board));
  g_assert_true (shows (bench, "Not noted yet"));
  jobs_act (window, "left-from-planned");
  g_assert_nonnull (lid_edits_job (edits)->as_left);
  g_assert_false (shows (bench, "Not noted yet"));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A window that goes while a plan is worked out takes nothing with it. */
static void
test_window_goes (void)
{
  LidWindow *window = open_example ();

  jobs_act (window, "plan");
  for (gint64 end = g_get_monotonic_time () + 300 * 1000; g_get_monotonic_time () < end;)
    g_main_context_iteration (NULL, FALSE);
  gtk_window_destroy (GTK_WINDOW (window));
  for (gint64 end = g_get_monotonic_time () + 300 * 1000; g_get_monotonic_time () < end;)
    g_main_context_iteration (NULL, FALSE);
}

static void
add (void)
{
  g_test_add_func ("/plan/rearrange", test_rearrange);
  g_test_add_func ("/plan/take", test_take);
  g_test_add_func ("/plan/shelf-is-put-by", test_shelf_is_put_by);
  g_test_add_func ("/plan/given-back", test_given_back);
  g_test_add_func ("/plan/ambiguous-price-is-asked", test_ambiguous_price_is_asked);
  g_test_add_func ("/plan/bad-wish", test_bad_wish);
  g_test_add_func ("/plan/proposal", test_proposal);
  g_test_add_func ("/plan/no-plan-is-no-dead-end", test_no_plan_is_no_dead_end);
  g_test_add_func ("/plan/populations-show-the-board", test_populations_show_the_board);
  g_test_add_func ("/plan/window-goes", test_window_goes);
}

int
main (int argc, char **argv)
{
  return jobs_run (&argc, &argv, add);
}
