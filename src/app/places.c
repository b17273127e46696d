/* SPDX-License-Identifier: GPL-3.0-or-later */
/* places.c — where the program's own files are: it also runs from the folder it was built in, and
 * from wherever an installed tree was moved to. */
#include "app/places.h"

/**
 * lid_places_find:
 * @installed: below the prefix: "share/locale"
 * @built: below the build folder: "po"
 * @file: (nullable): what must lie there; NULL: nothing
 *
 * Looks beside the program that runs, not in the working directory.
 *
 * Returns: (transfer full) (nullable): the folder; NULL: in neither place
 */
char *
lid_places_find (const char *installed, const char *built, const char *file)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = program != NULL ? g_path_get_dirname (program) : NULL;
  const char *up[] = { "..", "../.." }, *below[] = { installed, built };

  for (guint i = 0; folder != NULL && i < G_N_ELEMENTS (up); i++)
    {
      g_autofree char *relative = g_build_filename (up[i], below[i], NULL);
      g_autofree char *place = g_canonicalize_filename (relative, folder);
      g_autofree char *needed = g_build_filename (place, file, NULL);

      if (g_file_test (needed, G_FILE_TEST_EXISTS))
        return g_steal_pointer (&place);
    }
  return NULL;
}
