/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan in two visits, in the window: what is not there is asked, tonight and later are shown,
 * either is taken as one step, each has its own bench sheet. */
#include "app/bench-view.h"
#include "app/stages-view.h"
#include "app/window-private.h"
#include "desk.h"
#include "jobs.h"

#include "stock/reserved.h"

#include <string.h>

static LidStagesView *
find_view (GtkWidget *widget)
{
  LidStagesView *found = LID_IS_STAGES_VIEW (widget) ? LID_STAGES_VIEW (widget) : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_view (child);
  return found;
}

/* The example's plan brings one module; here it is still to be bought. */
static LidWindow *
open_to_buy (void)
{
  g_autoptr (GFile) file = jobs_file ("to-buy.lidleaf", "\"bin\": \"C2\"", "\"bin\": null");

  return jobs_open_job (file);
}

static LidStagesView *
open_page (LidWindow *window)
{
  LidStagesView *view;

  g_assert_null (find_view (GTK_WIDGET (window))); /* nothing of it is made before */
  jobs_act (window, "stages");
  view = find_view (GTK_WIDGET (window));
  g_assert_nonnull (view);
  return view;
}

static void
wait_for_words (LidStagesView *view)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (*lid_stages_view_get_sentence (view) == 0 && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, TRUE);
  g_assert_cmpstr (lid_stages_view_get_sentence (view), !=, "");
}

static void
test_split_is_shown (void)
{
  LidWindow *window = open_to_buy ();
  LidStagesView *view = open_page (window);

  g_assert_cmpuint (lid_stages_view_get_n_parts (view), ==, 1);
  g_assert_cmpuint (lid_stages_view_get_missing (view, 0), ==, 1);
  wait_for_words (view);
  g_assert_cmpuint (lid_stages_view_get_job (view)->stages->len, ==, 2);
  lid_stages_view_set_missing (view, 0, 0);
  g_assert_null (lid_stages_view_get_job (view));
  wait_for_words (view);
  g_assert_nonnull (strstr (lid_stages_view_get_sentence (view), "All that the plan brings"));
  gtk_widget_activate_action (GTK_WIDGET (view), "bench.back", NULL);
  g_assert_null (find_view (GTK_WIDGET (window)));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_tonight_is_taken (void)
{
  LidWindow *window = open_to_buy ();
  LidEdits *edits = lid_job_model_get_edits (window->model);
  LidStagesView *view = open_page (window);
  guint d1 = (guint)lid_board_find_slot (lid_edits_job (edits)->board, "D1");
  LidBoard *board = lid_edits_job (edits)->board;

  wait_for_words (view);
  g_assert_nonnull (lid_edits_population (edits, LID_PLANNED)->slots[d1].module);
  g_signal_emit_by_name (view, "wanted", LID_STAGE_TAKE, 1);
  g_assert_null (lid_edits_population (edits, LID_PLANNED)->slots[d1].module);
  g_assert_cmpuint (lid_edits_job (edits)->stages->len, ==, 1);
  g_assert_true (lid_edits_job (edits)->board == board); /* or what was taught would be forgotten */
  g_assert_null (find_view (GTK_WIDGET (window)));
  g_assert_true (jobs_says (window, "undo brings the rest back"));
  lid_job_model_undo (window->model);
  g_assert_nonnull (lid_edits_population (edits, LID_PLANNED)->slots[d1].module);
  g_assert_false (lid_edits_can_undo (edits));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_both_are_kept (void)
{
  LidWindow *window = open_to_buy ();
  LidEdits *edits = lid_job_model_get_edits (window->model);
  LidStagesView *view = open_page (window);

  wait_for_words (view);
  g_signal_emit_by_name (view, "wanted", LID_STAGE_KEEP, 0);
  g_assert_cmpuint (lid_edits_job (edits)->stages->len, ==, 2);
  /* Asked again, what the first does without is not there. */
  view = open_page (window);
  g_assert_cmpuint (lid_stages_view_get_missing (view, 0), ==, 1);
  lid_job_model_undo (window->model);
  g_assert_cmpuint (lid_edits_job (edits)->stages->len, ==, 1);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The shelf holds the module, but another job has put it by. */
static void
test_shelf_counts (void)
{
  LidWindow *window = open_to_buy ();
  g_autofree char *path = g_build_filename (jobs_folder, "counts.csv", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autofree char *uri = g_file_get_uri (file);
  const char text[] = "part,label,quantity\nHM-16G2R4-R24,16g 2rx4 2400 registered,1\n";
  LidStagesView *view;

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  g_assert_nonnull (window->settings);
  g_settings_set_string (window->settings, "shelf", uri);
  view = open_page (window);
  while (lid_stages_view_get_missing (view, 0) > 0)
    g_main_context_iteration (NULL, TRUE);
  gtk_widget_activate_action (GTK_WIDGET (view), "bench.back", NULL);
  {
    g_autoptr (GPtrArray) wanted
        = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_reservation_free);
    LidReservation *one = g_new0 (LidReservation, 1);
    g_autoptr (GError) error = NULL;

    one->part = g_strdup ("HM-16G2R4-R24");
    one->count = 1;
    g_ptr_array_add (wanted, one);
    g_assert_true (lid_reserved_take (path, NULL, "another job", wanted, &error));
    g_assert_no_error (error);
  }
  view = open_page (window);
  for (gint64 end = g_get_monotonic_time () + 500 * 1000; g_get_monotonic_time () < end;)
    g_main_context_iteration (NULL, FALSE);
  g_assert_cmpuint (lid_stages_view_get_missing (view, 0), ==, 1);
  g_settings_reset (window->settings, "shelf");
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A plan of nothing but what is not there: a whole sentence says so, and no stage is shown. */
static void
test_nothing_tonight (void)
{
  LidWindow *window = open_to_buy ();
  LidEdits *edits = lid_job_model_get_edits (window->model);
  guint d1 = (guint)lid_board_find_slot (lid_edits_job (edits)->board, "D1");
  g_autofree char *id = g_strdup (lid_edits_population (edits, LID_PLANNED)->slots[d1].module->id);
  g_autoptr (GError) error = NULL;
  LidStagesView *view;
  const char *sentence;

  g_assert_true (lid_edits_plan_from_found (edits, &error));
  g_assert_true (lid_edits_fill (edits, LID_PLANNED, d1, id, &error));
  lid_job_model_edited (window->model);
  view = open_page (window);
  wait_for_words (view);
  sentence = lid_stages_view_get_sentence (view);
  g_assert_null (lid_stages_view_get_job (view));
  g_assert_true (g_str_has_prefix (sentence, "With the modules at hand nothing"));
  g_assert_true (g_str_has_suffix (sentence, "."));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Another plan asks anew; a window that goes while it is split takes nothing with it. */
static void
test_plan_changes (void)
{
  LidWindow *window = open_to_buy ();
  LidStagesView *view = open_page (window);

  wait_for_words (view);
  jobs_act (window, "plan-from-found");
  g_assert_cmpuint (lid_stages_view_get_n_parts (view), ==, 0);
  wait_for_words (view);
  g_assert_nonnull (strstr (lid_stages_view_get_sentence (view), "brings no module"));
  lid_job_model_undo (window->model);
  for (gint64 end = g_get_monotonic_time () + 300 * 1000; g_get_monotonic_time () < end;)
    g_main_context_iteration (NULL, FALSE);
  gtk_window_destroy (GTK_WINDOW (window));
  desk_settle ();
}

static void
add (void)
{
  g_test_add_func ("/stages/split-is-shown", test_split_is_shown);
  g_test_add_func ("/stages/tonight-is-taken", test_tonight_is_taken);
  g_test_add_func ("/stages/both-are-kept", test_both_are_kept);
  g_test_add_func ("/stages/shelf-counts", test_shelf_counts);
  g_test_add_func ("/stages/nothing-tonight", test_nothing_tonight);
  g_test_add_func ("/stages/plan-changes", test_plan_changes);
}

int
main (int argc, char **argv)
{
  return jobs_run (&argc, &argv, add);
}
