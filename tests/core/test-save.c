/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Saving: whole or not at all; what is no regular file is never replaced; one sentence with the
 * name and the reason. */
#include "base/save.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char *folder;

static void
test_file (void)
{
  g_autofree char *path = g_build_filename (folder, "a", NULL);
  g_autofree char *link = g_build_filename (folder, "link", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (lid_save_bytes (path, "one", 3, 0644, &error));
  g_assert_no_error (error);
  g_assert_cmpint (symlink (path, link), ==, 0);
  g_assert_true (lid_save_bytes (link, "two", 3, 0644, &error));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "two");
  g_unlink (link);
  g_unlink (path);
}

/* A pipe stays a pipe and gets the bytes. */
static void
test_pipe (void)
{
  g_autofree char *path = g_build_filename (folder, "pipe", NULL);
  g_autoptr (GError) error = NULL;
  struct stat there;
  char got[8] = "";
  int fd;

  g_assert_cmpint (mkfifo (path, 0600), ==, 0);
  fd = g_open (path, O_RDONLY | O_NONBLOCK, 0);
  g_assert_cmpint (fd, >=, 0);
  g_assert_true (lid_save_bytes (path, "three", 5, 0644, &error));
  g_assert_no_error (error);
  g_assert_cmpint (read (fd, got, sizeof got), ==, 5);
  g_assert_cmpstr (got, ==, "three");
  g_assert_cmpint (stat (path, &there), ==, 0);
  g_assert_true (S_ISFIFO (there.st_mode));
  close (fd);
  g_unlink (path);
}

/* full(4) of the Linux manual pages: every write fails for want of space. Not as root, who would
 * lose the device if the code were wrong. */
static void
test_full (void)
{
  g_autoptr (GError) error = NULL;
  struct stat there;

  if (geteuid () == 0 || stat ("/dev/full", &there) != 0 || !S_ISCHR (there.st_mode))
    {
      g_test_skip ("root, or no /dev/full here");
      return;
    }
  g_assert_false (lid_save_bytes ("/dev/full", "x", 1, 0644, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC);
  g_assert_true (g_str_has_prefix (error->message, "/dev/full: cannot be written: "));
}

static void
test_refused (void)
{
  static const struct
  {
    const char *name;
    int code;
  } cases[] = { { "no/such/folder", G_FILE_ERROR_NOENT }, { ".", G_FILE_ERROR_ISDIR } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_build_filename (folder, cases[i].name, NULL);
      g_autoptr (GError) error = NULL;

      g_assert_false (lid_save_bytes (path, "x", 1, 0644, &error));
      g_assert_error (error, G_FILE_ERROR, cases[i].code);
      g_assert_true (g_str_has_prefix (error->message, path));
      g_assert_null (strstr (error->message + strlen (path), folder));
    }
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("lidleaf-save-XXXXXX", NULL);
  g_test_add_func ("/save/file", test_file);
  g_test_add_func ("/save/pipe", test_pipe);
  g_test_add_func ("/save/full", test_full);
  g_test_add_func ("/save/refused", test_refused);
  status = g_test_run ();
  g_rmdir (folder);
  g_free (folder);
  return status;
}
