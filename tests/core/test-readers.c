/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "readers/readers.h"
#include "support.h"

#include <glib/gstdio.h>
#include <string.h>

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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/readers/manifest", test_manifest);
  return g_test_run ();
}
