/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "readers/readers.h"
#include "support.h"

#include <string.h>

/* The reports in tests/data/report are invented. FAMILY.csv says what every FAMILY.txt and
 * FAMILY.FORM.txt must read as. Field names and value spellings: as dmidecode 2.6 to 3.4 print them
 * (Debian package dmidecode), see ../shared/facts/locators.md, section 4, "Text forms". */

static char *
family_of (const char *file)
{
  g_auto (GStrv) parts = g_strsplit (file, ".", 2);

  return g_strdup_printf ("report/%s.csv", parts[0]);
}

static char *
cell_of (gint64 value, gint64 unknown)
{
  return value == unknown ? g_strdup ("") : g_strdup_printf ("%" G_GINT64_FORMAT, value);
}

static void
check_cell (const GPtrArray *rows, guint i, const char *column, char *ours)
{
  g_autofree char *text = ours;

  if (g_strcmp0 (text, support_cell (rows, i, column)) != 0)
    g_error ("row %u, %s: read \"%s\", expected \"%s\"", i, column, text,
             support_cell (rows, i, column));
}

static void
check_device (const LidDevice *device, const GPtrArray *rows, guint i)
{
  const LidModule *module = device->module;

  check_cell (rows, i, "locator", g_strdup (device->locator));
  check_cell (rows, i, "bank", g_strdup (device->bank));
  check_cell (rows, i, "state", g_strdup (lid_slot_state_to_text (device->state)));
  check_cell (rows, i, "capacity_mib", g_strdup_printf ("%" G_GINT64_FORMAT, device->capacity_mib));
  check_cell (rows, i, "configured_mts", cell_of (device->configured_mts, 0));
  if (module == NULL)
    {
      g_assert_cmpuint (device->rated_raw, ==, 0);
      return;
    }
  check_cell (rows, i, "generation",
              g_strdup (lid_module_generation (module)
                            ? lid_generation_to_text (lid_module_generation (module))
                            : ""));
  check_cell (
      rows, i, "kind",
      g_strdup (lid_module_kind (module) ? lid_kind_to_text (lid_module_kind (module)) : ""));
  check_cell (rows, i, "rated_mts", cell_of (lid_rate_mts (lid_module_rated (module)), 0));
  check_cell (rows, i, "ranks", cell_of (lid_module_get (module, LID_FACT_RANKS, 0), 0));
  check_cell (rows, i, "check_bits",
              cell_of (lid_module_get (module, LID_FACT_CHECK_BITS, -1), -1));
  check_cell (rows, i, "part", g_strdup (module->part ? module->part : ""));
  check_cell (rows, i, "serial", g_strdup (module->serial ? module->serial : ""));
  check_cell (rows, i, "maker", g_strdup (module->maker ? module->maker : ""));
}

static LidInventory *
read_report (const char *file)
{
  g_autofree char *below = g_build_filename ("report", file, NULL);
  g_autofree char *path = support_data (below);
  g_autoptr (GError) error = NULL;
  LidInventory *inventory = lid_readers_read_path (path, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (inventory->format, ==, "report");
  return inventory;
}

static void
test_every_form (void)
{
  g_autofree char *folder = support_data ("report");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *file;
  guint n = 0;

  while ((file = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *family = family_of (file);
      g_autofree char *expected = support_data (family);
      g_autoptr (GPtrArray) rows = NULL;
      g_autoptr (LidInventory) inventory = NULL;

      if (!g_str_has_suffix (file, ".txt"))
        continue;
      g_test_message ("%s", file);
      rows = support_read_csv (expected);
      inventory = read_report (file);
      g_assert_cmpuint (inventory->devices->len, ==, rows->len - 1);
      for (guint i = 1; i < rows->len; i++)
        check_device (inventory->devices->pdata[i - 1], rows, i);
      n++;
    }
  g_assert_cmpuint (n, >=, 19);
}

static char *
all_remarks (const LidInventory *inventory)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < inventory->remarks->len; i++)
    {
      const LidRemark *remark = inventory->remarks->pdata[i];
      g_string_append_printf (out, "%s: %s\n", remark->place, remark->what);
    }
  return g_string_free (out, FALSE);
}

/* A healthy machine gives no remarks; an odd one gives those that fit. */
static void
test_remarks (void)
{
  static const struct
  {
    const char *file;
    const char *says[12]; /* none: the list of remarks must be empty */
  } cases[] = {
    { "station.whole.txt", { NULL } },
    { "station.quoted.txt", { NULL } },
    { "station.two-line-headers.txt", { NULL } },
    { "station.memory-types.txt", { NULL } },
    { "station.twice.txt",
      { "handles 0x1101, 0x1102, 0x1103, 0x1104 and 4 more: Listed more than once" } },
    { "half.txt", { "handle 0x1106: The record breaks off" } },
    { "odd-values.txt",
      { "handle 0x0027: A module is there but its size is not told",
        "handle 0x0028: The size is told as 32767 MB", "handle 0x0029: A rate is told",
        "handle 0x0028: A number of ranks", "handles 0x0028 and 0x002D: The widths told",
        "handle 0x0029: The program that wrote the report is older",
        "handle 0x002D: The slot belongs to an array that is not listed",
        "handle 0x0020: The array is said to have 16 slots; 13 are listed",
        "handle 0x0020: The array holds " } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (LidInventory) inventory = read_report (cases[i].file);
      g_autofree char *all = all_remarks (inventory);
      guint n = 0;

      g_test_message ("%s\n%s", cases[i].file, all);
      for (; cases[i].says[n] != NULL; n++)
        if (strstr (all, cases[i].says[n]) == NULL)
          g_error ("no remark \"%s\" in:\n%s", cases[i].says[n], all);
      g_assert_cmpuint (inventory->remarks->len, ==, n);
    }
}

/* Names for the fingerprint are kept; what identifies the owner's machine is not. */
static void
test_names_and_secrets (void)
{
  g_autoptr (LidInventory) inventory = read_report ("station.quoted-twice.txt");
  const LidProcessor *processor;

  g_assert_cmpstr (inventory->product, ==, "Field Station 8");
  g_assert_cmpstr (inventory->product_version, ==, "B");
  g_assert_cmpstr (inventory->board_product, ==, "FS8-MB");
  g_assert_cmpstr (inventory->board_version, ==, "1.02");
  g_assert_cmpstr (inventory->firmware, ==, "2.14");
  g_assert_cmpstr (inventory->firmware_date, ==, "03/07/2021");
  g_assert_cmpuint (inventory->processors->len, ==, 2);
  processor = inventory->processors->pdata[1];
  g_assert_cmpstr (processor->name, ==, "CPU2");
  g_assert_cmpuint (lid_inventory_n_fitted_processors (inventory), ==, 1);
  g_assert_cmpuint (inventory->arrays->len, ==, 2);
  g_assert_true (g_array_index (inventory->arrays, LidArray, 0).ecc);
  g_assert_false (g_array_index (inventory->arrays, LidArray, 1).system_memory);
  g_assert_cmpuint (inventory->ranges->len, ==, 1);
  g_assert_cmpuint (g_array_index (inventory->ranges, LidMappedRange, 0).last_kib, ==,
                    128u * 1024 * 1024 - 1);
}

static LidInventory *
read_text (const char *text, GError **error)
{
  return lid_readers_read_bytes ((LidBytes){ (const guint8 *)text, strlen (text) }, "paste", error);
}

static void
test_nothing_to_read (void)
{
  static const char *const texts[] = {
    "",
    "\n\n",
    "Dear shop, please find my machine attached.\n",
    "# dmidecode 3.3\n/dev/mem: Permission denied\n",
    "# dmidecode 3.3\nScanning /dev/mem for entry point.\n# No SMBIOS nor DMI entry point found, "
    "sorry.\n"
    "No SMBIOS nor DMI entry point found, sorry.\n",
  };
  g_autoptr (LidInventory) empty = NULL;
  const LidRemark *remark;

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_null (read_text (texts[i], &error));
      g_assert_nonnull (error);
      g_assert_true (g_str_has_prefix (error->message, "paste: "));
    }
  empty = read_text ("# dmidecode 3.3\nSMBIOS 3.0 present.\n\nHandle 0x0001, DMI type 1, 27 bytes\n"
                     "System Information\n\tProduct Name: Field Station 8\n",
                     NULL);
  g_assert_cmpuint (empty->devices->len, ==, 0);
  g_assert_cmpuint (empty->remarks->len, ==, 1);
  remark = empty->remarks->pdata[0];
  g_assert_cmpstr (remark->what, ==, "No memory device is listed.");
}

/* A value that was cut must not pass for another: numbers carry their unit, texts get a remark. */
static void
test_cut_values (void)
{
  g_autoptr (LidInventory) size = read_text ("Memory Device\n\tLocator: A1\n\tSize: 1638", NULL);
  g_autoptr (LidInventory) type
      = read_text ("Memory Device\n\tLocator: A1\n\tSize: 8 GB\n\tType: DDR", NULL);
  const LidDevice *device = size->devices->pdata[0];
  const LidRemark *remark = type->remarks->pdata[0];

  g_assert_cmpint (device->capacity_mib, ==, -1);
  g_assert_cmpuint (type->remarks->len, ==, 1);
  g_assert_cmpstr (remark->place, ==, "line 4");
}

/* A full size field is no size: the module has 32 GB or more. It still counts in the total. */
static void
test_full_field (void)
{
  g_autoptr (LidInventory) inventory = read_report ("odd-values.txt");
  const LidDevice *device = inventory->devices->pdata[7];

  g_assert_cmpint (device->handle, ==, 0x28);
  g_assert_cmpint (device->capacity_mib, ==, 32767);
  g_assert_false (lid_module_knows (device->module, LID_FACT_CAPACITY));
}

/* Address ranges are held against the modules by their sum and, for arrays that are interleaved and
 * list the same range each, by their union. Handles and sizes are invented. */
static void
test_ranges (void)
{
  static const struct
  {
    const char *ranges[3]; /* first and last byte, of 16 GB fitted */
    const char *says;
  } cases[] = {
    { { "0x00000000000", "0x003FFFFFFFF" }, NULL },
    { { "0x00000000000", "0x001FFFFFFFF" }, "8 GB are mapped of 16 GB fitted" },
    { { "0x00000000000", "0x005FFFFFFFF" }, "24 GB are mapped, more than the 16 GB fitted" },
    { { "0x00000000000", "0x001FFFFFFFF", "twice" }, NULL },
    { { "0x00000000000", "0x003FFFFFFFF", "twice" }, NULL },
    { { "0x00000000000", "0x003F0000000" }, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GString *text = g_string_new ("Memory Device\n\tSize: 16 GB\n\tLocator: A1\n");
      g_autofree char *all = NULL;
      g_autoptr (LidInventory) inventory = NULL;

      for (guint k = 0; k < (cases[i].ranges[2] != NULL ? 2 : 1); k++)
        g_string_append_printf (text,
                                "Memory Array Mapped Address\n\tStarting Address: %s\n"
                                "\tEnding Address: %s\n",
                                cases[i].ranges[0], cases[i].ranges[1]);
      inventory = read_text (text->str, NULL);
      g_string_free (text, TRUE);
      all = all_remarks (inventory);
      if (cases[i].says == NULL)
        g_assert_cmpstr (all, ==, "");
      else
        g_assert_nonnull (strstr (all, cases[i].says));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/read-report/every-form", test_every_form);
  g_test_add_func ("/read-report/remarks", test_remarks);
  g_test_add_func ("/read-report/names-and-secrets", test_names_and_secrets);
  g_test_add_func ("/read-report/nothing-to-read", test_nothing_to_read);
  g_test_add_func ("/read-report/cut-values", test_cut_values);
  g_test_add_func ("/read-report/full-field", test_full_field);
  g_test_add_func ("/read-report/ranges", test_ranges);
  return g_test_run ();
}
