/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "edits-sample.h"

#include "base/error.h"
#include "job/job-file.h"
#include "job/recovery.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static void
clear_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_unlink (path);
    }
  g_rmdir (folder);
}

static char *
new_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("lidleaf-recovery-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

static void
test_round_trip (void)
{
  g_autofree char *top = new_folder ();
  g_autofree char *folder = g_build_filename (top, "a", "recovery", NULL);
  g_autofree char *above = g_build_filename (top, "a", NULL);
  g_autoptr (LidJob) job = edits_sample_job (), again = NULL;
  g_autofree char *text = lid_job_file_to_text (job), *path = NULL, *back = NULL;
  g_autofree char *own = g_build_filename (top, "Gezeiten ä.lidleaf", NULL);
  g_autoptr (LidRecovery) recovery = NULL;
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *file = NULL;
  GStatBuf info;

  recovery = lid_recovery_new (folder, &error);
  g_assert_no_error (error);
  g_assert_true (lid_recovery_write (recovery, NULL, NULL, "older", &error));
  g_assert_true (lid_recovery_write (recovery, own, job->title, text, &error));
  g_assert_no_error (error);
  /* The job is being worked on: nothing was left behind. */
  list = lid_recovery_list (folder);
  g_assert_cmpuint (list->len, ==, 0);
  g_clear_pointer (&list, g_ptr_array_unref);
  g_clear_pointer (&recovery, lid_recovery_free);

  list = lid_recovery_list (folder);
  g_assert_cmpuint (list->len, ==, 1);
  g_assert_cmpstr (((LidRecovered *)list->pdata[0])->path, ==, own);
  g_assert_cmpstr (((LidRecovered *)list->pdata[0])->title, ==, "Chart room, desk 3");
  g_assert_cmpint (((LidRecovered *)list->pdata[0])->when, >, 1577836800);
  file = g_strdup (((LidRecovered *)list->pdata[0])->file);
  /* Serials lie in it: for nobody else's eyes, and the list tells none. */
  g_assert_cmpint (g_stat (file, &info), ==, 0);
  g_assert_cmpuint (info.st_mode & 0777, ==, 0600);
  g_assert_cmpint (g_stat (folder, &info), ==, 0);
  g_assert_cmpuint (info.st_mode & 0777, ==, 0700);
  g_assert_null (strstr (file, "S101"));

  recovery = lid_recovery_take_up (file, &path, &back, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (path, ==, own);
  g_assert_cmpstr (back, ==, text);
  again = lid_job_file_parse (back, strlen (back), &error);
  g_assert_no_error (error);
  g_assert_true (g_file_test (file, G_FILE_TEST_EXISTS));
  g_assert_null (lid_recovery_take_up (file, &path, &back, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_clear_error (&error);
  g_assert_false (lid_recovery_discard (file, NULL));
  g_assert_true (lid_recovery_remove (recovery, &error));
  g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));
  g_assert_true (lid_recovery_remove (recovery, &error));
  g_clear_pointer (&recovery, lid_recovery_free);
  /* Nothing is left lying about. */
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_rmdir (above);
  g_rmdir (top);
}

/* The case it is for: a program that is killed while it works. */
static void
test_killed (void)
{
  g_autofree char *folder = new_folder ();
  g_autoptr (GPtrArray) list = NULL;
  int ready[2], status;
  char byte;
  pid_t child;

  g_assert_cmpint (pipe (ready), ==, 0);
  child = fork ();
  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    {
      LidRecovery *recovery = lid_recovery_new (folder, NULL);
      gboolean done = recovery != NULL && lid_recovery_write (recovery, NULL, "x", "{}\n", NULL);

      if (write (ready[1], done ? "y" : "n", 1) != 1)
        _exit (1);
      for (;;)
        pause ();
    }
  g_assert_cmpint (read (ready[0], &byte, 1), ==, 1);
  g_assert_cmpint (byte, ==, 'y');
  list = lid_recovery_list (folder);
  g_assert_cmpuint (list->len, ==, 0);
  g_ptr_array_unref (list);
  g_assert_cmpint (kill (child, SIGKILL), ==, 0);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  list = lid_recovery_list (folder);
  g_assert_cmpuint (list->len, ==, 1);
  g_assert_true (lid_recovery_discard (((LidRecovered *)list->pdata[0])->file, NULL));
  g_ptr_array_unref (list);
  list = lid_recovery_list (folder);
  g_assert_cmpuint (list->len, ==, 0);
  close (ready[0]);
  close (ready[1]);
  clear_folder (folder);
}

/* Files somebody else put there, or cut: listed, told, not destroyed. */
static void
test_damaged (void)
{
  static const char *const texts[] = { "",
                                       "\n",
                                       "{}\n{}",
                                       "[1]\nx",
                                       "{\"lidleaf_recovery\": 1, \"when\": -4}\n",
                                       "{\"lidleaf_recovery\": 1, \"when\": 4, \"uri\": 7}\n{}",
                                       "no line end at all" };
  g_autofree char *folder = new_folder ();
  g_autoptr (GPtrArray) list = NULL;
  g_autofree char *other = g_build_filename (folder, "notes.txt", NULL);

  g_assert_true (g_file_set_contents (other, "mine", -1, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *name = g_strdup_printf ("%u.recovery", i);
      g_autofree char *file = g_build_filename (folder, name, NULL);

      g_assert_true (g_file_set_contents (file, texts[i], -1, NULL));
    }
  list = lid_recovery_list (folder);
  g_assert_cmpuint (list->len, ==, G_N_ELEMENTS (texts));
  for (guint i = 0; i < list->len; i++)
    {
      const LidRecovered *recovered = list->pdata[i];
      g_autofree char *path = NULL, *text = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_null (lid_recovery_take_up (recovered->file, &path, &text, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, recovered->file));
      g_assert_true (g_file_test (recovered->file, G_FILE_TEST_EXISTS));
    }
  g_assert_true (g_file_test (other, G_FILE_TEST_EXISTS));
  clear_folder (folder);
}

static void
test_no_folder (void)
{
  g_autoptr (GPtrArray) list = lid_recovery_list ("/nonexistent/recovery");
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (list->len, ==, 0);
  g_assert_null (lid_recovery_new ("/dev/null/recovery", &error));
  g_assert_nonnull (error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/recovery/round-trip", test_round_trip);
  g_test_add_func ("/recovery/killed", test_killed);
  g_test_add_func ("/recovery/damaged", test_damaged);
  g_test_add_func ("/recovery/no-folder", test_no_folder);
  return g_test_run ();
}
