/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/filler.h"

#include <glib.h>

/* Source of the fillers: counted over 5,048 real machines, ../shared/facts/locators.md section 4
 * and the part, serial and maker strings of ../shared/data/machines. The names are invented. */
static void
test_fillers (void)
{
  static const char *const nothing[] = {
    "",
    " ",
    "--",
    "NO DIMM",
    "Unknown",
    "UNKNOWN",
    "Not Specified",
    "[Empty]",
    "ModulePartNumber03",
    "Array1_PartNumber4",
    "Dimm0_PartNum",
    "Dimm12_PartNum_____",
    "Undefined",
    "Manufacturer03",
    "ABCD",
    "<BAD INDEX>",
    "NOT AVAILABLE",
    "not defined",
    "00000000",
    "FFFFFFFF",
    "xxxx",
    "x",
    "0",
    "N/A",
    "None",
    "SerNum03",
    "Dimm3_Manufacturer",
    "123456789012345678",
    "NOT SUPPORT",
  };
  static const char *const something[] = {
    "EXM32R2X4-29",   "0A1B2C3D",        "42",         "7",
    "00CE00B300CE",   "0x80AD",          "029E",       "JEDEC ID:80 CE",
    "Example Memory", "Exämple",         "8ATF1G64AZ", "99U5428-018.A00LF",
    "NA1234",         "Unknown Maker 7",
  };

  for (guint i = 0; i < G_N_ELEMENTS (nothing); i++)
    if (!lid_filler_is_filler (nothing[i]))
      g_error ("kept: \"%s\"", nothing[i]);
  for (guint i = 0; i < G_N_ELEMENTS (something); i++)
    if (lid_filler_is_filler (something[i]))
      g_error ("dropped: \"%s\"", something[i]);
  g_assert_true (lid_filler_is_no_text (""));
  g_assert_true (lid_filler_is_no_text ("Not Specified"));
  g_assert_true (lid_filler_is_no_text ("<BAD INDEX>"));
  g_assert_false (lid_filler_is_no_text ("NO DIMM"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/filler/fillers", test_fillers);
  return g_test_run ();
}
