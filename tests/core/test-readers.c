/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "readers/readers.h"
#include "support.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* Source of the samples and of what they hold: ../shared/data/README.md and manifest.csv, counted
 * there by another program (a Python script over the text, not this reader). */

static gint64
number (const GPtrArray *rows, guint row, const char *column)
{
  return g_ascii_strtoll (support_cell (rows, row, column), NULL, 10);
}

static guint
n_memory_arrays (const LidInventory *inventory)
{
  guint n = 0;

  for (guint i = 0; i < inventory->arrays->len; i++)
    n += g_array_index (inventory->arrays, LidArray, i).system_memory;
  return n;
}

static void
check_manifest_row (const GPtrArray *rows, guint i)
{
  const char *name = support_cell (rows, i, "file");
  g_autofree char *below = g_build_filename ("data/machines", name, NULL);
  g_autofree char *path = support_shared (below);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidInventory) inventory = NULL;

  g_assert_nonnull (path);
  g_test_message ("%s", name);
  inventory = lid_readers_read_path (path, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (inventory->format, ==, "report");
  g_assert_cmpint (inventory->devices->len, ==, number (rows, i, "slots"));
  g_assert_cmpint (lid_inventory_n_filled (inventory), ==, number (rows, i, "populated"));
  g_assert_cmpint (lid_inventory_total_mib (inventory), ==, number (rows, i, "total_mib"));
  g_assert_cmpint (n_memory_arrays (inventory), ==, number (rows, i, "arrays"));
  g_assert_cmpint (inventory->processors->len, >=, number (rows, i, "processors"));
}

static void
test_manifest (void)
{
  g_autofree char *path = support_shared ("data/manifest.csv");
  g_autoptr (GPtrArray) rows = NULL;

  if (path == NULL)
    {
      g_test_skip ("no ../shared beside the checkout");
      return;
    }
  rows = support_read_csv (path);
  g_assert_cmpuint (rows->len, >, 160);
  for (guint i = 1; i < rows->len; i++)
    check_manifest_row (rows, i);
}

/* The generated machines: what gen_smbios.py put in, by locator in table order; read from the table
 * and from the text that dmidecode 3.4 made of it. */
static void
check_generated (const char *folder, const char *stem)
{
  static const char *const suffixes[] = { ".bin", ".txt" };
  g_autofree char *csv = g_strconcat (folder, "/", stem, ".csv", NULL);
  g_autoptr (GPtrArray) rows = support_read_csv (csv);

  for (guint s = 0; s < G_N_ELEMENTS (suffixes); s++)
    {
      g_autofree char *path = g_strconcat (folder, "/", stem, suffixes[s], NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (LidInventory) inventory = lid_readers_read_path (path, &error);

      g_test_message ("%s%s", stem, suffixes[s]);
      g_assert_no_error (error);
      for (guint i = 1, d = 0; i < rows->len; i++)
        {
          const LidDevice *device;
          const char *size = support_cell (rows, i, "size_mib");
          g_autofree char *locator = g_strdup (support_cell (rows, i, "locator"));

          if (g_strcmp0 (support_cell (rows, i, "type"), "FLASH") == 0)
            continue;
          g_assert_cmpuint (d, <, inventory->devices->len);
          device = inventory->devices->pdata[d++];
          g_assert_cmpstr (device->locator, ==, g_strchomp (locator));
          g_assert_cmpint (device->capacity_mib, ==,
                           *size == '?' || *size == 0 ? -1 : number (rows, i, "size_mib"));
          if (device->module != NULL && number (rows, i, "speed") != 65535)
            g_assert_cmpint (device->rated_raw, ==, number (rows, i, "speed"));
        }
    }
}

static void
test_generated (void)
{
  g_autofree char *folder = support_shared ("data/gen/samples");
  g_autoptr (GDir) dir = NULL;
  const char *name;
  guint n = 0;

  if (folder == NULL)
    {
      g_test_skip ("no ../shared beside the checkout");
      return;
    }
  dir = g_dir_open (folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".csv"))
      {
        g_autofree char *stem = g_strndup (name, strlen (name) - 4);
        check_generated (folder, stem);
        n++;
      }
  g_assert_cmpuint (n, >=, 16);
}

static void
write_file (const char *folder, const char *name, const char *data, gsize size)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  g_assert_true (g_file_set_contents (path, data, (gssize)size, NULL));
}

static void
remove_file (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  g_assert_cmpint (g_unlink (path), ==, 0);
}

static void
check_refused (const char *path, const char *says)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidInventory) inventory = lid_readers_read_path (path, &error);

  g_assert_null (inventory);
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, path));
  g_assert_nonnull (strstr (error->message, says));
}

/* A folder with the kernel's two files, one of them alone, and what is none. */
static void
test_folder (void)
{
  g_autofree char *sample = support_data ("smbios/sm3_ddr4_server.bin");
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-XXXXXX", NULL);
  g_autofree char *entry = g_build_filename (folder, "smbios_entry_point", NULL);
  gsize size = 0;
  g_autofree char *all = support_read_file (sample, &size);
  const char *paths[] = { folder, entry };

  check_refused (folder, "holds no file named DMI");
  write_file (folder, "smbios_entry_point", all, 0x18);
  check_refused (entry, "only the entry point is here");
  write_file (folder, "DMI", all + 0x20, size - 0x20);
  for (guint i = 0; i < G_N_ELEMENTS (paths); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (LidInventory) inventory = lid_readers_read_path (paths[i], &error);

      g_assert_no_error (error);
      g_assert_cmpstr (inventory->source, ==, paths[i]);
      g_assert_cmpuint (inventory->devices->len, ==, 6);
    }
  all[0x05] ^= 1;
  write_file (folder, "smbios_entry_point", all, 0x18);
  check_refused (folder, "checksum of the entry point is wrong");
  remove_file (folder, "DMI");
  remove_file (folder, "smbios_entry_point");
  check_refused (entry, "cannot be opened");
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static void
test_standard_input (void)
{
  g_autofree char *sample = support_data ("report/station.whole.txt");
  g_autoptr (GError) error = NULL;
  g_autoptr (LidInventory) inventory = NULL;
  int kept = dup (STDIN_FILENO), fd = open (sample, O_RDONLY | O_CLOEXEC);

  g_assert_cmpint (dup2 (fd, STDIN_FILENO), ==, STDIN_FILENO);
  inventory = lid_readers_read_path ("-", &error);
  dup2 (kept, STDIN_FILENO);
  close (kept);
  close (fd);
  g_assert_no_error (error);
  g_assert_cmpstr (inventory->source, ==, "-");
  g_assert_cmpuint (inventory->devices->len, ==, 8);
}

static void
test_size_bound (void)
{
  g_autofree guint8 *zeros = g_malloc0 (LID_READERS_MAX_BYTES + 1);
  LidBytes bytes = { zeros, LID_READERS_MAX_BYTES + 1 };
  g_autoptr (GError) error = NULL;

  g_assert_null (lid_readers_read_bytes (bytes, "paste", &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_TOO_LARGE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/readers/manifest", test_manifest);
  g_test_add_func ("/readers/generated", test_generated);
  g_test_add_func ("/readers/folder", test_folder);
  g_test_add_func ("/readers/standard-input", test_standard_input);
  g_test_add_func ("/readers/size-bound", test_size_bound);
  return g_test_run ();
}
