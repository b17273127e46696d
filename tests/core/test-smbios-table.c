/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "inventory/inventory.h"
#include "readers/smbios-table.h"

#include <string.h>

#define BYTES(text) ((LidBytes){ (const guint8 *)text, sizeof text - 1 })

/* Layout of structures and string sets: DMTF DSP0134, 6.1. */
static void
test_strings (void)
{
  static const char table[] = "\x01\x08\x34\x12\x01\x02\x03\x00"
                              "first\0second\0\0"
                              "\x7f\x04\xff\xfe\0\0";
  LidSmbiosWalk walk;
  LidSmbiosStructure structure;
  LidBytes string;

  lid_smbios_table_walk (&walk, BYTES (table));
  g_assert_true (lid_smbios_table_next (&walk, &structure));
  g_assert_cmpint (structure.handle, ==, 0x1234);
  g_assert_true (lid_smbios_table_string (&structure, 4, &string));
  g_assert_cmpmem (string.data, string.size, "first", 5);
  g_assert_true (lid_smbios_table_string (&structure, 5, &string));
  g_assert_cmpmem (string.data, string.size, "second", 6);
  g_assert_false (lid_smbios_table_string (&structure, 6, &string)); /* number 3 of 2 */
  g_assert_cmpuint (string.size, ==, 0);
  g_assert_true (lid_smbios_table_string (&structure, 7, &string));  /* 0: none */
  g_assert_true (lid_smbios_table_string (&structure, 99, &string)); /* beyond the fields: none */
  g_assert_cmpuint (string.size, ==, 0);
  g_assert_false (lid_smbios_table_next (&walk, &structure));
  g_assert_cmpint (walk.end, ==, LID_SMBIOS_END_MARK);
}

static void
test_ends (void)
{
  static const struct
  {
    LidBytes table;
    guint n;
    LidSmbiosEnd end;
    gint32 handle;
  } cases[] = {
    { BYTES (""), 0, LID_SMBIOS_END_SIZE, LID_HANDLE_NONE },
    { BYTES ("\x01\x04\x01\x00\0\0"), 1, LID_SMBIOS_END_SIZE, LID_HANDLE_NONE },
    { BYTES ("\x01\x04\x01\x00\0"), 0, LID_SMBIOS_END_CUT, 1 },
    { BYTES ("\x01\x04\x01\x00"), 0, LID_SMBIOS_END_CUT, 1 },
    { BYTES ("\x01\x04\x01"), 0, LID_SMBIOS_END_CUT, LID_HANDLE_NONE },
    { BYTES ("\x01\x04\x01\x00\0\0\x02"), 1, LID_SMBIOS_END_CUT, LID_HANDLE_NONE },
    { BYTES ("\x01\x04\x01\x00\0\0\x02\x03\x00\x00\0\0"), 1, LID_SMBIOS_END_LENGTH,
      LID_HANDLE_NONE },
    { BYTES ("\x01\x09\x05\x00\0\0"), 0, LID_SMBIOS_END_CUT, 5 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      LidSmbiosWalk walk;
      LidSmbiosStructure structure;
      guint n = 0;

      lid_smbios_table_walk (&walk, cases[i].table);
      while (lid_smbios_table_next (&walk, &structure))
        n++;
      g_test_message ("case %u", i);
      g_assert_cmpuint (n, ==, cases[i].n);
      g_assert_cmpint (walk.end, ==, cases[i].end);
      g_assert_cmpint (walk.cut_handle, ==, cases[i].handle);
    }
}

/* A table without entry point has no mark; texts and other files must not pass for one. */
static void
test_sniff (void)
{
  static const char maker_first[] = "\xda\x04\x00\xda\0\0\x01\x04\x01\x00\0\0\x7f\x04\x02\x00\0\0";
  static const char no_end[] = "\x00\x04\x00\x00\0\0\x01\x04\x01\x00\0\0\x02\x04\x02\x00\0\0";
  static const char wide[] = "\xff\xfeH\0a\0n\0d\0l\0e\0 \0"
                             "0\0x\0"
                             "0\0\n\0";
  static const char zeros[64] = { 0 };
  static const char spd[] = "\x23\x11\x0c\x01\x85\x29\x00\x08\0\0\0\x03\x09\x0b\x80\0\0\0\x06\x0d";

  g_assert_cmpint (lid_smbios_table_sniff (BYTES (maker_first)), ==, 80);
  g_assert_cmpint (lid_smbios_table_sniff (BYTES (no_end)), ==, 60);
  g_assert_cmpint (lid_smbios_table_sniff (BYTES (wide)), ==, 0);
  g_assert_cmpint (lid_smbios_table_sniff (BYTES (zeros)), ==, 0);
  g_assert_cmpint (lid_smbios_table_sniff (BYTES (spd)), ==, 0);
  g_assert_cmpint (lid_smbios_table_sniff (BYTES ("Handle 0x0001, DMI type 17\n")), ==, 0);
  g_assert_cmpint (lid_smbios_table_sniff (BYTES ("{ \"format\": 1 }")), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/smbios-table/strings", test_strings);
  g_test_add_func ("/smbios-table/ends", test_ends);
  g_test_add_func ("/smbios-table/sniff", test_sniff);
  return g_test_run ();
}
