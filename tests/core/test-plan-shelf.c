/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Under which name modules are put by for a job, and what the job knows of it. The order of names
 * is that of lid_plan_shelf_job()'s own words; nothing outside the project says it. */
#include "planner/plan-shelf.h"

#include "stock/reserved.h"

#include <glib/gstdio.h>
#include <string.h>

static LidJob *
make_job (void)
{
  g_autoptr (LidBoard) board = lid_board_new ();

  board->id = g_strdup ("T");
  return lid_job_new (board);
}

static void
check_name (const LidJob *job, const char *name)
{
  g_autofree char *told = lid_plan_shelf_job (job);

  g_assert_cmpstr (told, ==, name);
}

static void
test_name (void)
{
  g_autoptr (LidJob) job = make_job ();
  g_autofree char *moment = lid_plan_shelf_job (job);

  g_assert_true (g_str_has_prefix (moment, "T, 20"));
  lid_job_set_text (&job->title, "title");
  check_name (job, "title");
  lid_job_set_text (&job->reserved_as, "before");
  check_name (job, "before");
  lid_job_set_text (&job->asset, "asset");
  check_name (job, "asset");
  lid_job_set_text (&job->number, "number");
  check_name (job, "number");
}

static LidReservation *
want (guint count)
{
  LidReservation *one = g_new0 (LidReservation, 1);

  one->part = g_strdup ("P");
  one->count = count;
  return one;
}

static gboolean
reserve (LidEdits *edits, const char *path, guint count)
{
  g_autoptr (GPtrArray) wanted
      = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_reservation_free);
  g_autoptr (GError) error = NULL;
  gboolean done;

  if (count > 0)
    g_ptr_array_add (wanted, want (count));
  done = lid_plan_shelf_reserve (edits, path, NULL, wanted, &error);
  g_assert_no_error (error);
  return done;
}

static guint
held (LidEdits *edits)
{
  guint n = 77;

  g_assert_true (lid_plan_shelf_held (lid_edits_job (edits), &n, NULL));
  return n;
}

/* The path is kept whole, whatever folder the program was called in; of a plan that takes nothing
 * nothing is kept, nor of the shelf that held something before. */
static void
test_known (void)
{
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-shelf-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "shelf.csv", NULL);
  g_autofree char *before = g_get_current_dir ();
  g_autoptr (LidEdits) edits = lid_edits_new (make_job ());
  const LidJob *job = lid_edits_job (edits);
  guint n;

  g_assert_true (lid_edits_set_text (edits, LID_EDITS_NUMBER, "118", NULL));
  lid_edits_mark_saved (edits);
  g_assert_true (
      g_file_set_contents (path, "part,label,quantity\nP,16g 2rx4 2400 registered,3\n", -1, NULL));
  g_assert_true (reserve (edits, path, 0));
  g_assert_null (job->reserved_in);
  g_assert_false (lid_edits_changed (edits));
  g_assert_cmpint (g_chdir (folder), ==, 0);
  g_assert_true (reserve (edits, "shelf.csv", 2));
  g_assert_cmpint (g_chdir (before), ==, 0);
  g_assert_cmpstr (job->reserved_in, ==, path);
  g_assert_cmpstr (job->reserved_as, ==, "118");
  g_assert_true (lid_edits_changed (edits));
  g_assert_cmpuint (held (edits), ==, 2);
  g_assert_true (reserve (edits, path, 0));
  g_assert_null (job->reserved_in);
  g_assert_cmpuint (held (edits), ==, 0);
  g_assert_true (reserve (edits, path, 3));
  g_assert_true (lid_plan_shelf_release (edits, &n, NULL));
  g_assert_cmpuint (n, ==, 3);
  g_assert_null (job->reserved_in);
  g_assert_null (job->reserved_as);
  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

/* A plan from another shelf: the first one's modules are free again, unless the job is another. */
static void
test_elsewhere (void)
{
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-shelf-XXXXXX", NULL);
  g_autofree char *first = g_build_filename (folder, "first.csv", NULL);
  g_autofree char *second = g_build_filename (folder, "second.csv", NULL);
  g_autoptr (LidEdits) edits = lid_edits_new (make_job ());
  const char *shelf = "part,label,quantity\nP,16g 2rx4 2400 registered,3\n";
  guint n;

  g_assert_true (g_file_set_contents (first, shelf, -1, NULL));
  g_assert_true (g_file_set_contents (second, shelf, -1, NULL));
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_NUMBER, "118", NULL));
  g_assert_true (reserve (edits, first, 2));
  g_assert_true (reserve (edits, second, 3));
  g_assert_cmpstr (lid_edits_job (edits)->reserved_in, ==, second);
  g_assert_cmpuint (held (edits), ==, 3);
  g_assert_true (lid_reserved_count (first, "118", &n, NULL));
  g_assert_cmpuint (n, ==, 0);
  g_assert_true (reserve (edits, first, 0));
  g_assert_null (lid_edits_job (edits)->reserved_in);
  g_assert_true (lid_reserved_count (second, "118", &n, NULL));
  g_assert_cmpuint (n, ==, 0);
  g_assert_true (reserve (edits, first, 1));
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_NUMBER, "119", NULL));
  g_assert_true (reserve (edits, second, 1));
  g_assert_true (lid_reserved_count (first, "118", &n, NULL));
  g_assert_cmpuint (n, ==, 1);
  g_assert_true (lid_reserved_release (first, "118", &n, NULL));
  g_assert_true (lid_reserved_release (second, "119", &n, NULL));
  g_assert_cmpint (g_unlink (first), ==, 0);
  g_assert_cmpint (g_unlink (second), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

/* Where the first shelf's reservations cannot be read, nothing is put by on the second either. */
static void
test_elsewhere_broken (void)
{
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-shelf-XXXXXX", NULL);
  g_autofree char *first = g_build_filename (folder, "first.csv", NULL);
  g_autofree char *second = g_build_filename (folder, "second.csv", NULL);
  g_autofree char *kept = lid_reserved_path (first);
  g_autoptr (LidEdits) edits = lid_edits_new (make_job ());
  g_autoptr (GPtrArray) wanted
      = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_reservation_free);
  g_autoptr (GError) error = NULL;
  const char *shelf = "part,label,quantity\nP,16g 2rx4 2400 registered,3\n";
  guint n;

  g_assert_true (g_file_set_contents (first, shelf, -1, NULL));
  g_assert_true (g_file_set_contents (second, shelf, -1, NULL));
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_NUMBER, "118", NULL));
  g_assert_true (reserve (edits, first, 2));
  g_assert_true (g_file_set_contents (kept, "{ broken", -1, NULL));
  g_ptr_array_add (wanted, want (1));
  g_assert_false (lid_plan_shelf_reserve (edits, second, NULL, wanted, &error));
  g_assert_nonnull (strstr (error->message, "first.csv"));
  g_assert_cmpstr (lid_edits_job (edits)->reserved_in, ==, first);
  g_assert_true (lid_reserved_count (second, "118", &n, NULL));
  g_assert_cmpuint (n, ==, 0);
  g_assert_cmpint (g_unlink (kept), ==, 0);
  g_assert_cmpint (g_unlink (first), ==, 0);
  g_assert_cmpint (g_unlink (second), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan-shelf/name", test_name);
  g_test_add_func ("/plan-shelf/known", test_known);
  g_test_add_func ("/plan-shelf/elsewhere", test_elsewhere);
  g_test_add_func ("/plan-shelf/elsewhere-broken", test_elsewhere_broken);
  return g_test_run ();
}
