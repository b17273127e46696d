/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words are common practice, no source; what they may and may not mean is product.md 3 and 11.
 */
#include "facts/label.h"

#include <string.h>

static const struct
{
  const char *text;
  guint quantity;
  LidGeneration generation;
  guint capacity_mib;
  guint ranks, logical_ranks, width, mts;
  LidKind kind;
  LidForm outline;
  gint ecc;
  const char *printed;
} taken[] = {
  { "32g 2rx4 3200 registered", 1, LID_GENERATION_UNKNOWN, 32768, 2, 2, 4, 3200,
    LID_KIND_REGISTERED, LID_FORM_DIMM, 1, "32GB 2Rx4 3200 registered" },
  { "16g 1rx8 ddr4 2666 ecc unbuffered", 1, LID_GENERATION_DDR4, 16384, 1, 1, 8, 2666,
    LID_KIND_ECC_UNBUFFERED, LID_FORM_DIMM, 1, "16GB 1Rx8 DDR4 2666 ECC unbuffered" },
  { "8gb registered", 1, LID_GENERATION_UNKNOWN, 8192, 0, 0, 0, 0, LID_KIND_REGISTERED,
    LID_FORM_DIMM, 1, "8GB registered" },
  { "8GB unbuffered ECC 2666", 1, LID_GENERATION_DDR4, 8192, 0, 0, 0, 2666, LID_KIND_ECC_UNBUFFERED,
    LID_FORM_DIMM, 1, "8GB DDR4 2666 ECC unbuffered" },
  { "12x 64 gb lrdimm 4DRx4 2667 MT/s", 12, LID_GENERATION_DDR4, 65536, 4, 4, 4, 2666,
    LID_KIND_LOAD_REDUCED, LID_FORM_DIMM, 1, "64GB 4DRx4 DDR4 2666 load reduced" },
  { "128g 2s4rx4 reg ddr4", 1, LID_GENERATION_DDR4, 131072, 2, 8, 4, 0, LID_KIND_REGISTERED,
    LID_FORM_DIMM, 1, "128GB 2S4Rx4 DDR4 registered" },
  { "16g so dimm 4800", 1, LID_GENERATION_DDR5, 16384, 0, 0, 0, 4800, LID_KIND_SO_UNBUFFERED,
    LID_FORM_SO_DIMM, 0, "16GB DDR5 4800 SODIMM unbuffered" },
  { "16g sodimm ecc", 1, LID_GENERATION_UNKNOWN, 16384, 0, 0, 0, 0, LID_KIND_SO_ECC_UNBUFFERED,
    LID_FORM_SO_DIMM, 1, "16GB SODIMM ECC unbuffered" },
  { "4g 1333 udimm", 1, LID_GENERATION_DDR3, 4096, 0, 0, 0, 1333, LID_KIND_UNBUFFERED,
    LID_FORM_DIMM, 0, "4GB DDR3 1333 unbuffered" },
  { "4g 1600 rdimm", 1, LID_GENERATION_UNKNOWN, 4096, 0, 0, 0, 1600, LID_KIND_REGISTERED,
    LID_FORM_DIMM, 1, "4GB 1600 registered" },
  { "4g ddr3l 1600 x8 2r rdimm", 1, LID_GENERATION_DDR3, 4096, 2, 2, 8, 1600, LID_KIND_REGISTERED,
    LID_FORM_DIMM, 1, "4GB 2Rx8 DDR3L 1600 registered" },
  { "512m 667 ecc", 1, LID_GENERATION_DDR2, 512, 0, 0, 0, 667, LID_KIND_UNKNOWN, LID_FORM_UNKNOWN,
    1, "512MB DDR2 667 ECC" },
  { "2g fbdimm", 1, LID_GENERATION_DDR2_FB, 2048, 0, 0, 0, 0, LID_KIND_FULLY_BUFFERED,
    LID_FORM_DIMM, -1, "2GB DDR2 fully buffered" },
  { "32g dimm 3200", 1, LID_GENERATION_UNKNOWN, 32768, 0, 0, 0, 3200, LID_KIND_UNKNOWN,
    LID_FORM_DIMM, -1, "32GB 3200 DIMM" },
  { "32g non ecc reg", 1, LID_GENERATION_UNKNOWN, 32768, 0, 0, 0, 0, LID_KIND_REGISTERED,
    LID_FORM_DIMM, 0, "32GB registered non ECC" },
  { "16g csodimm 6400", 1, LID_GENERATION_DDR5, 16384, 0, 0, 0, 6400,
    LID_KIND_SO_CLOCKED_UNBUFFERED, LID_FORM_SO_DIMM, -1,
    "16GB DDR5 6400 SODIMM clocked unbuffered" },
};

static void
test_taken (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (taken); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *printed = NULL;
      LidLabel label;

      g_test_message ("%s", taken[i].text);
      lid_label_parse (taken[i].text, -1, &label, NULL, &error);
      g_assert_no_error (error);
      g_assert_cmpint (label.form, ==, LID_LABEL_SHORT_FORM);
      g_assert_cmpuint (label.quantity, ==, taken[i].quantity);
      g_assert_cmpint (label.generation, ==, taken[i].generation);
      g_assert_cmpuint (label.capacity_mib, ==, taken[i].capacity_mib);
      g_assert_cmpuint (label.ranks, ==, taken[i].ranks);
      g_assert_cmpuint (label.logical_ranks, ==, taken[i].logical_ranks);
      g_assert_cmpuint (label.chip_width, ==, taken[i].width);
      g_assert_cmpuint (lid_rate_mts (label.rated), ==, taken[i].mts);
      g_assert_cmpint (label.kind, ==, taken[i].kind);
      g_assert_cmpint (label.outline, ==, taken[i].outline);
      g_assert_cmpint (label.ecc, ==, taken[i].ecc);
      printed = lid_label_print (&label);
      g_assert_cmpstr (printed, ==, taken[i].printed);
    }
}

static const struct
{
  const char *text;
  LidLabelField field;
  const char *remedy; /* nullable */
} refused[] = {
  { "hello", LID_LABEL_FIELD_CAPACITY, NULL },
  { "registered 8gb", LID_LABEL_FIELD_CAPACITY, NULL },
  { "8gb", LID_LABEL_FIELD_TEXT, "at least one word" },
  { "8tb registered", LID_LABEL_FIELD_CAPACITY, NULL },
  { "0g registered", LID_LABEL_FIELD_CAPACITY, NULL },
  { "8gb reg green", LID_LABEL_FIELD_TEXT, NULL },
  { "8gb reg udimm", LID_LABEL_FIELD_TYPE, NULL },
  { "8gb lrdimm reg", LID_LABEL_FIELD_TYPE, NULL },
  { "8gb ecc non ecc", LID_LABEL_FIELD_TYPE, NULL },
  { "8gb load", LID_LABEL_FIELD_TEXT, NULL },
  { "8gb 2rx4 2rx8", LID_LABEL_FIELD_RANKS, NULL },
  { "8gb x4 x8", LID_LABEL_FIELD_CHIP_WIDTH, NULL },
  { "8gb 3rx4", LID_LABEL_FIELD_RANKS, NULL },
  { "8gb 2rx5", LID_LABEL_FIELD_CHIP_WIDTH, NULL },
  { "8gb ddr4 ddr5", LID_LABEL_FIELD_GENERATION, NULL },
  { "8gb 2666 3200", LID_LABEL_FIELD_RATE, NULL },
  { "8gb 2700", LID_LABEL_FIELD_RATE, NULL },
  { "8gb ddr5 2666", LID_LABEL_FIELD_RATE, NULL },
  { "8gb ddr3 12800", LID_LABEL_FIELD_RATE, "bandwidth" },
  { "8gb fbdimm ddr4", LID_LABEL_FIELD_TYPE, NULL },
  { "33g 2rx4 ddr4", LID_LABEL_FIELD_CAPACITY, "die" },
  { "32g 2s2rx4 ddr3", LID_LABEL_FIELD_STACK, NULL },
  { "32g 2s2r ddr3", LID_LABEL_FIELD_STACK, NULL },
  { "32g 2s2rx4 udimm", LID_LABEL_FIELD_STACK, NULL },
  { "8gb x4 2RX8", LID_LABEL_FIELD_RANKS, NULL },
  /* A hyphen or PC: held to the label's grammar, and the words are shown. */
  { "8gb so-dimm", LID_LABEL_FIELD_CAPACITY, "8GB SODIMM unbuffered" },
  { "32g load-reduced", LID_LABEL_FIELD_CAPACITY, "32GB load reduced" },
  { "8GB registered pc", LID_LABEL_FIELD_RANKS, NULL },
  { "32GB 2Rx4 3200-registered", LID_LABEL_FIELD_GENERATION, "32GB 2Rx4 3200 registered" },
};

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;
      LidLabelFault fault;
      LidLabel label;

      g_assert_false (lid_label_parse (refused[i].text, -1, &label, &fault, &error));
      g_test_message ("%s: %s", refused[i].text, error->message);
      g_assert_cmpstr (lid_label_field_to_text (fault.field), ==,
                       lid_label_field_to_text (refused[i].field));
      g_assert_true (refused[i].remedy == NULL || strstr (error->message, refused[i].remedy));
      g_assert_cmpuint (fault.start + fault.length, <=, strlen (refused[i].text));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/label-short/taken", test_taken);
  g_test_add_func ("/label-short/refused", test_refused);
  return g_test_run ();
}
