/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib.h>

/* fuzz-main.c: runs a fuzz entry over every file below the folders named, so that the entry keeps
 * compiling and the seeds keep passing where there is no libFuzzer. */

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

static guint
run_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *data = NULL;
      gsize size = 0;

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        n += run_folder (path);
      else if (g_file_get_contents (path, &data, &size, NULL))
        {
          g_autofree guint8 *copy = g_memdup2 (data, size); /* exact size, for the sanitizer */
          LLVMFuzzerTestOneInput (copy, size);
          n++;
        }
    }
  return n;
}

int
main (int argc, char **argv)
{
  guint n = 0;

  for (int i = 1; i < argc; i++)
    n += run_folder (argv[i]);
  g_print ("%u files\n", n);
  return n > 0 ? 0 : 1;
}
