/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "readers/read-smbios.h"
#include "readers/readers.h"
#include "support.h"

#include <string.h>

static GPtrArray *
rows_of (const char *name)
{
  g_autofree char *path = support_data (name);

  return support_read_csv (path);
}

static gint64
number (const GPtrArray *rows, guint row, const char *column)
{
  const char *cell = support_cell (rows, row, column);

  return *cell == 0 ? 0 : g_ascii_strtoll (cell, NULL, 10);
}

static gboolean
says (const LidInventory *inventory, const char *words)
{
  for (guint i = 0; i < inventory->remarks->len; i++)
    {
      const LidRemark *remark = inventory->remarks->pdata[i];
      g_autofree char *folded = g_utf8_casefold (remark->what, -1);
      g_autofree char *wanted = g_utf8_casefold (words, -1);

      g_assert_cmpstr (remark->place, !=, "");
      if (strstr (folded, wanted) != NULL)
        return TRUE;
    }
  return FALSE;
}

static LidInventory *
read_sample (const char *file, GError **error)
{
  g_autofree char *below = g_build_filename ("smbios", file, NULL);
  g_autofree char *path = support_data (below);

  return lid_readers_read_path (path, error);
}

static void
test_outcomes (void)
{
  g_autoptr (GPtrArray) rows = rows_of ("smbios/outcome.csv");

  g_assert_cmpuint (rows->len, ==, 11);
  for (guint i = 1; i < rows->len; i++)
    {
      const char *file = support_cell (rows, i, "file"), *words = support_cell (rows, i, "says");
      g_autoptr (GError) error = NULL;
      g_autoptr (LidInventory) inventory = read_sample (file, &error);

      g_test_message ("%s", file);
      if (g_strcmp0 (support_cell (rows, i, "outcome"), "refused") == 0)
        {
          g_assert_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT);
          g_assert_nonnull (strstr (error->message, words));
          g_assert_nonnull (strstr (error->message, file));
          continue;
        }
      g_assert_no_error (error);
      g_assert_cmpstr (inventory->format, ==, "smbios");
      g_assert_cmpint (inventory->devices->len, ==, number (rows, i, "slots"));
      g_assert_cmpint (lid_inventory_n_filled (inventory), ==, number (rows, i, "filled"));
      g_assert_cmpint (lid_inventory_total_mib (inventory), ==, number (rows, i, "total_mib"));
      g_assert_cmpint (inventory->processors->len, ==, number (rows, i, "processors"));
      g_assert_cmpint (lid_inventory_n_fitted_processors (inventory), ==,
                       number (rows, i, "fitted"));
      if (g_strcmp0 (words, "-") == 0)
        g_assert_cmpuint (inventory->remarks->len, ==, 0);
      else
        g_assert_true (says (inventory, words));
    }
}

static const LidDevice *
find_device (const LidInventory *inventory, gint32 handle)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      if (device->handle == handle)
        return device;
    }
  g_error ("no device 0x%04X", (guint)handle);
}

/* A text that firmware uses for "nothing" must not be kept. */
static void
check_text (const char *ours, const char *put_in)
{
  if (*put_in == 0 || *put_in == '<' || g_strcmp0 (put_in, "NO DIMM") == 0)
    g_assert_null (ours);
  else
    g_assert_cmpstr (ours, ==, put_in);
}

static const char *
kind_in_words (const char *buffering, const char *form, const char *type, int check)
{
  if (g_strcmp0 (type, "MRDIMM") == 0)
    return "multiplexed-rank";
  if (g_strcmp0 (form, "CUDIMM") == 0)
    return "clocked-unbuffered";
  if (g_strcmp0 (buffering, "unbuffered") == 0)
    return check > 0 ? "ecc-unbuffered" : "unbuffered";
  return *buffering == 0 ? NULL : buffering;
}

static void
check_module (const LidModule *module, const GPtrArray *rows, guint i)
{
  const char *type = support_cell (rows, i, "memory_type");
  int check = (int)number (rows, i, "check_bits");
  double mib = g_ascii_strtod (support_cell (rows, i, "size_mib"), NULL);
  guint speed = (guint)number (rows, i, "speed_mts");

  if (g_strcmp0 (type, "MRDIMM") == 0)
    type = "DDR5"; /* the standard's MRDIMM is a DDR5 module */
  g_assert_cmpstr (lid_generation_to_text (lid_module_generation (module)), ==, type);
  g_assert_cmpint (lid_module_capacity (module), ==, mib >= 1 ? (gint64)mib : 0);
  g_assert_cmpint (lid_module_get (module, LID_FACT_RANKS, 0), ==, number (rows, i, "ranks"));
  if (speed <= 20000)
    g_assert_cmpuint (lid_rate_mts (lid_module_rated (module)), ==, speed);
  else
    g_assert_false (lid_module_knows (module, LID_FACT_RATED));
  check_text (module->part, support_cell (rows, i, "part"));
  check_text (module->maker, support_cell (rows, i, "manufacturer"));
  if (strlen (support_cell (rows, i, "serial")) > 2)
    check_text (module->serial, support_cell (rows, i, "serial"));
  g_assert_false (lid_module_knows (module, LID_FACT_CHIP_WIDTH));
  /* One sample has total 8 over data 0, "holds check bits only": no module, so not told. */
  if (*support_cell (rows, i, "data_width") == 0 || number (rows, i, "data_width") == 0)
    {
      g_assert_false (lid_module_knows (module, LID_FACT_ECC));
      return;
    }
  g_assert_cmpint (lid_module_get (module, LID_FACT_CHECK_BITS, -1), ==, check);
  g_assert_cmpint (lid_module_get (module, LID_FACT_ECC, -1), ==, check > 0);
  g_assert_cmpstr (lid_kind_to_text (lid_module_kind (module)), ==,
                   kind_in_words (support_cell (rows, i, "buffering"),
                                  support_cell (rows, i, "form_factor"),
                                  support_cell (rows, i, "memory_type"), check));
}

/* Source: expected_type17.csv, what was put into the samples (fields: DMTF DSP0134, 7.18). */
static void
test_devices_as_put_in (void)
{
  g_autoptr (GPtrArray) rows = rows_of ("smbios/expected_type17.csv");

  g_assert_cmpuint (rows->len, >, 25);
  for (guint i = 1; i < rows->len; i++)
    {
      g_autoptr (LidInventory) inventory = NULL;
      const LidDevice *device;
      const char *state = support_cell (rows, i, "state");
      gboolean empty = g_strcmp0 (state, "empty") == 0;

      inventory = read_sample (support_cell (rows, i, "file"), NULL);
      g_assert_nonnull (inventory);
      g_test_message ("%s %s", support_cell (rows, i, "file"), support_cell (rows, i, "handle"));
      device = find_device (inventory,
                            (gint32)g_ascii_strtoll (support_cell (rows, i, "handle"), NULL, 16));
      g_assert_cmpint (device->array, ==,
                       g_ascii_strtoll (support_cell (rows, i, "array"), NULL, 16));
      g_assert_cmpstr (device->locator, ==, support_cell (rows, i, "locator"));
      g_assert_cmpstr (device->bank, ==, support_cell (rows, i, "bank"));
      g_assert_cmpint (device->state, ==, empty ? LID_SLOT_EMPTY : LID_SLOT_FILLED);
      g_assert_true (empty == (device->module == NULL));
      if (empty)
        continue;
      g_assert_cmpint (device->rated_raw, ==, number (rows, i, "speed_mts"));
      g_assert_cmpint (device->configured_mts, ==, number (rows, i, "configured_mts"));
      g_assert_cmpint (device->configured_mv, ==, number (rows, i, "configured_mv"));
      if (g_strcmp0 (state, "size unknown") == 0)
        g_assert_cmpint (device->capacity_mib, ==, -1);
      else
        check_module (device->module, rows, i);
    }
}

static void
test_arrays_correct_errors (void)
{
  g_autoptr (LidInventory) inventory = read_sample ("sm3_ddr5_odd_cases.bin", NULL);

  g_assert_cmpuint (inventory->arrays->len, ==, 2);
  for (guint i = 0; i < inventory->arrays->len; i++)
    {
      const LidArray *array = &g_array_index (inventory->arrays, LidArray, i);
      g_assert_true (array->ecc && array->ecc_basis == LID_BASIS_INVENTORY);
      g_assert_true (array->system_memory);
    }
}

/* The kernel's two files, and the table alone, must read as the one-file dump does. */
static void
test_three_ways_in (void)
{
  static const char *const files[] = { "sm3_ddr5_odd_cases.bin", "sm_ddr3_v28.bin" };

  for (guint i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *below = g_build_filename ("smbios", files[i], NULL);
      g_autofree char *path = support_data (below);
      gsize size = 0;
      g_autofree char *all = support_read_file (path, &size);
      LidBytes entry = { (const guint8 *)all, 0x20 };
      LidBytes table = { (const guint8 *)all + 0x20, size - 0x20 };
      g_autoptr (GError) error = NULL;
      g_autoptr (LidInventory) dump = lid_readers_read_path (path, NULL);
      g_autoptr (LidInventory) bare = lid_readers_read_bytes (table, "-", &error);
      g_autoptr (LidInventory) pair = lid_inventory_new ("folder", "smbios");

      g_assert_no_error (error);
      g_assert_cmpstr (bare->format, ==, "smbios");
      g_assert_true (lid_reader_smbios_read_pair (&entry, table, pair, &error));
      g_assert_no_error (error);
      g_assert_cmpuint (dump->devices->len, >, 0);
      g_assert_cmpuint (bare->devices->len, ==, dump->devices->len);
      g_assert_cmpuint (pair->devices->len, ==, dump->devices->len);
      g_assert_cmpint (lid_inventory_total_mib (bare), ==, lid_inventory_total_mib (dump));
      g_assert_cmpint (lid_inventory_total_mib (pair), ==, lid_inventory_total_mib (dump));
      g_assert_cmpuint (pair->remarks->len, ==, dump->remarks->len);
    }
}

/* The entry point bounds the table: what stands behind it is not read, even without an end mark. */
static void
test_table_is_bounded (void)
{
  g_autofree char *path = support_data ("smbios/fault_no_end_of_table.bin");
  gsize size = 0;
  g_autofree char *all = support_read_file (path, &size);
  LidBytes entry = { (const guint8 *)all, 0x18 };
  guint32 length = 0;
  g_autofree guint8 *table = g_malloc0 (size + 64);
  g_autoptr (LidInventory) inventory = lid_inventory_new ("pair", "smbios");

  g_assert_true (lid_bytes_u32 (entry, 0x0c, &length));
  g_assert_cmpuint (length, <=, size - 0x20);
  memset (table, 17, size + 64); /* a device cut short, were it read */
  memcpy (table, all + 0x20, length);
  g_assert_true (
      lid_reader_smbios_read_pair (&entry, (LidBytes){ table, size + 64 }, inventory, NULL));
  g_assert_cmpuint (inventory->devices->len, ==, 3);
  g_assert_cmpuint (inventory->remarks->len, ==, 1);
  g_assert_true (says (inventory, "without its end mark"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/read-smbios/outcomes", test_outcomes);
  g_test_add_func ("/read-smbios/devices-as-put-in", test_devices_as_put_in);
  g_test_add_func ("/read-smbios/arrays-correct-errors", test_arrays_correct_errors);
  g_test_add_func ("/read-smbios/three-ways-in", test_three_ways_in);
  g_test_add_func ("/read-smbios/table-is-bounded", test_table_is_bounded);
  return g_test_run ();
}
