/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Source of the cases: facts/label_cases.csv and label_rejects.csv, labels of real modules and
 * labels built from the grammar, each row with its source. */
#include "facts/label.h"
#include "support.h"

#include <string.h>

static const char *
cell (const GPtrArray *rows, guint row, const char *column)
{
  return support_cell (rows, row, column);
}

static guint
number (const GPtrArray *rows, guint row, const char *column)
{
  return (guint)g_ascii_strtoull (cell (rows, row, column), NULL, 10);
}

static void
check_printed_fields (const GPtrArray *rows, guint i, const LidLabel *label)
{
  static const char *const stacks[] = { "", "D", "S" };
  double gib = g_ascii_strtod (cell (rows, i, "capacity_gib"), NULL);
  const char type[] = { label->type, 0 }, revision[] = { label->card_revision, 0 };

  g_assert_cmpstr (lid_label_form_to_text (label->form), ==,
                   strcmp (cell (rows, i, "form"), "full") == 0 ? "label" : "short-label");
  g_assert_cmpuint (label->quantity, ==, 1);
  g_assert_cmpstr (lid_generation_to_text (label->generation), ==, cell (rows, i, "generation"));
  g_assert_cmpuint (label->capacity_mib, ==, (guint)(gib * 1024));
  g_assert_cmpuint (label->ranks, ==, number (rows, i, "package_ranks"));
  g_assert_cmpstr (stacks[label->stack], ==, cell (rows, i, "stack_code"));
  g_assert_cmpuint (label->stack_height, ==, number (rows, i, "logical_per_package"));
  g_assert_cmpuint (label->logical_ranks, ==, number (rows, i, "logical_ranks"));
  g_assert_cmpuint (label->chip_width, ==, number (rows, i, "chip_width"));
  g_assert_cmpuint (lid_rate_mts (label->rated), ==, number (rows, i, "rate_mts"));
  g_assert_true (lid_rate_is_step (label->generation, label->rated));
  g_assert_cmpstr (label->grade, ==, cell (rows, i, "grade"));
  g_assert_cmpstr (label->cl, ==, cell (rows, i, "cl"));
  g_assert_cmpstr (type, ==, cell (rows, i, "type_letter"));
  g_assert_cmpstr (label->card, ==, cell (rows, i, "raw_card"));
  g_assert_cmpstr (revision, ==, cell (rows, i, "raw_card_rev"));
  g_assert_cmpstr (label->spd_revision, ==, cell (rows, i, "spd_rev"));
  g_assert_cmpstr (label->module_revision, ==, cell (rows, i, "module_spd_rev"));
  g_assert_cmpstr (label->temperature, ==, cell (rows, i, "temp"));
  g_assert_cmpstr (label->maker_suffix, ==, cell (rows, i, "maker_suffix"));
}

/* module_type and buffering of the file, told by our kind alone. */
static const struct
{
  LidKind kind;
  const char *module_type;
  const char *buffering;
} kinds[] = {
  { LID_KIND_UNBUFFERED, "UDIMM", "unbuffered" },
  { LID_KIND_ECC_UNBUFFERED, "UDIMM", "unbuffered" },
  { LID_KIND_REGISTERED, "RDIMM", "registered" },
  { LID_KIND_LOAD_REDUCED, "LRDIMM", "load-reduced" },
  { LID_KIND_SO_UNBUFFERED, "SO-DIMM", "unbuffered" },
  { LID_KIND_SO_ECC_UNBUFFERED, "SO-DIMM", "unbuffered" },
  { LID_KIND_SO_CLOCKED_UNBUFFERED, "CSODIMM", "unbuffered with clock driver" },
};

static void
check_derived_fields (const GPtrArray *rows, guint i, const LidLabel *label)
{
  gboolean so = label->outline == LID_FORM_SO_DIMM, two = label->generation == LID_GENERATION_DDR5;
  guint total = two ? 2 * number (rows, i, "total_bits") : number (rows, i, "total_bits");
  double volts = g_ascii_strtod (cell (rows, i, "voltage_v"), NULL);
  guint k = 0;

  while (k < G_N_ELEMENTS (kinds) && kinds[k].kind != label->kind)
    k++;
  g_assert_cmpuint (k, <, G_N_ELEMENTS (kinds));
  g_assert_cmpstr (kinds[k].module_type, ==, cell (rows, i, "module_type"));
  g_assert_cmpstr (kinds[k].buffering, ==, cell (rows, i, "buffering"));
  g_assert_true (so == (strstr (cell (rows, i, "module_type"), "SO") != NULL));
  g_assert_cmpint (label->ecc, ==, strcmp (cell (rows, i, "ecc"), "yes") == 0);
  if (two) /* "2x40" */
    total = 2 * (guint)g_ascii_strtoull (cell (rows, i, "total_bits") + 2, NULL, 10);
  g_assert_cmpstr (cell (rows, i, "data_bits"), ==, two ? "2x32" : "64");
  g_assert_cmpint (label->check_bits, ==, (gint)total - 64);
  g_assert_cmpuint (lid_voltage_lowest_mv (label->voltages), ==, (guint)(volts * 1000 + 0.5));
  g_assert_cmpuint (label->die_gbit, ==, number (rows, i, "die_gbit"));
}

static void
test_cases (void)
{
  g_autofree char *path = support_data ("label/label_cases.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  g_assert_cmpuint (rows->len, ==, 71);
  for (guint i = 1; i < rows->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *printed = NULL;
      LidLabel label;

      g_test_message ("%s %s", cell (rows, i, "id"), cell (rows, i, "label"));
      lid_label_parse (cell (rows, i, "label"), -1, &label, NULL, &error);
      g_assert_no_error (error);
      check_printed_fields (rows, i, &label);
      check_derived_fields (rows, i, &label);
      /* The file's labels are in normal form already. */
      printed = lid_label_print (&label);
      g_assert_cmpstr (printed, ==, cell (rows, i, "label"));
    }
}

static const char *
field_of (const GPtrArray *fields, const char *id)
{
  for (guint i = 1; i < fields->len; i++)
    if (strcmp (cell (fields, i, "id"), id) == 0)
      return cell (fields, i, "field");
  return NULL;
}

static void
test_rejects (void)
{
  g_autofree char *path = support_data ("label/label_rejects.csv");
  g_autofree char *fields_path = support_data ("label/reject_fields.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);
  g_autoptr (GPtrArray) fields = support_read_csv (fields_path);

  g_assert_cmpuint (rows->len, ==, 28);
  for (guint i = 1; i < rows->len; i++)
    {
      const char *text = cell (rows, i, "label");
      g_autoptr (GError) error = NULL;
      LidLabel label;
      LidLabelFault fault;

      g_assert_false (lid_label_parse (text, -1, &label, &fault, &error));
      g_test_message ("%s %s: %s", cell (rows, i, "id"), text, error->message);
      g_assert_cmpstr (lid_label_field_to_text (fault.field), ==,
                       field_of (fields, cell (rows, i, "id")));
      g_assert_true (g_str_has_prefix (error->message, lid_label_field_to_words (fault.field)));
      g_assert_cmpuint (fault.start + fault.length, <=, strlen (text));
      g_assert_cmpuint (label.capacity_mib, ==, 0);
    }
}

static const struct
{
  const char *text;
  guint quantity;
  const char *normal; /* NULL: refused */
  const char *field;  /* where refused */
} odd[] = {
  { "16x 32GB 2Rx4 PC4-3200AA-RB2-12", 16, "32GB 2Rx4 PC4-3200AA-RB2-12", NULL },
  { "16 x 32GB 2Rx4 PC4-3200AA-RB2-12", 16, "32GB 2Rx4 PC4-3200AA-RB2-12", NULL },
  { "4\xc3\x97 32GB 2Rx4 PC4-3200AA-RB2-12", 4, "32GB 2Rx4 PC4-3200AA-RB2-12", NULL },
  { "4X32GB 2Rx4 PC4-3200AA-R", 4, "32GB 2Rx4 PC4-3200AA-R", NULL },
  { " 16GB\t2RX8  PC4-2666V-UB1-11\r\n", 1, "16GB 2Rx8 PC4-2666V-UB1-11", NULL },
  { "8GB 1Rx8 PC4-2666V-RDP-12", 1, "8GB 1Rx8 PC4-2666V-RDP-12", NULL },
  { "64GB 2Rx4 PC5-4800A-RAP-1010-NT", 1, "64GB 2Rx4 PC5-4800A-RAP-1010-NT", NULL },
  { "32GB 2Rx8 PC5-6400B-C", 1, "32GB 2Rx8 PC5-6400B-C", NULL },
  { "64GB 2Rx4 PC5-8800B-M", 1, "64GB 2Rx4 PC5-8800B-M", NULL },
  { "8GB 1Rx4 PC3-12800R", 1, "8GB 1Rx4 PC3-12800R", NULL },
  { "2048MB 1Rx8 PC3-10600E-9", 1, "2GB 1Rx8 PC3-10600E-9", NULL },
  { "0x 32GB 2Rx4 PC4-3200AA-R", 0, NULL, "quantity" },
  { "10000x 32GB 2Rx4 PC4-3200AA-R", 0, NULL, "quantity" },
  { "16x", 0, NULL, "capacity" },
  { "", 0, NULL, "text" },
  { "   ", 0, NULL, "text" },
  { "32GB 2Rx4 PC4-3200AA-RB2-12 spare", 0, NULL, "text" },
  { "32GB 2Rx4 PC4-3200AA-RB2-12-", 0, NULL, "maker_suffix" },
  { "32GB 2Rx4 PC4-3200AA-RB2-12-MA01", 0, NULL, "maker_suffix" },
  { "64GB 2Rx4 PC5-4800B-RA0-1010-XT-M1", 0, NULL, "maker_suffix" },
  { "32GB 2Rx4 PC4-3200-RB2-12", 0, NULL, "grade" },
  { "32GB 2Rx4 PC4-3200AA", 0, NULL, "type" },
  { "32GB 2Rx4 PC4-3200AA-RB-12", 0, NULL, "card_revision" },
  { "64GB 2Rx4 PC5-4800B-RBB-1010-XT", 0, NULL, "card_revision" },
  { "32GB 2Rx4 PC4-3200AA-RBCD2-12", 0, NULL, "card" },
  { "8GB 2Rx8 PC3-12800RR-11-12-B1", 0, NULL, "type" },
  { "8GB 2Rx8 PC3-12800R-15-12-B1", 0, NULL, "cl" },
  { "8GB 2DRx8 PC3-12800R-11-12-B1", 0, NULL, "stack" },
  { "64GB 4QRx4 PC4-2666V-LD2-12", 0, NULL, "stack" },
  { "33GB 2Rx4 PC4-3200AA-RB2-12", 0, NULL, "capacity" },
  { "99999999999999999999GB 2Rx4 PC4-3200AA-R", 0, NULL, "capacity" },
  { "16gb 2rx8 pc4-2666v-ub1-11", 0, NULL, "capacity" },
  { "2Rx8 16GB PC4-2666V-UB1-11", 0, NULL, "capacity" },
  { "16GB 2Rx8 PC4-21300V-UB1-11", 0, NULL, "rate" },
};

static void
test_odd (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    {
      g_autoptr (GError) error = NULL;
      LidLabel label;
      LidLabelFault fault;
      gboolean ok = lid_label_parse (odd[i].text, -1, &label, &fault, &error);

      g_test_message ("%s: %s", odd[i].text, ok ? "taken" : error->message);
      g_assert_true (ok == (odd[i].normal != NULL));
      if (ok)
        {
          g_autofree char *printed = lid_label_print (&label);

          g_assert_cmpstr (printed, ==, odd[i].normal);
          g_assert_cmpuint (label.quantity, ==, odd[i].quantity);
        }
      else
        g_assert_cmpstr (lid_label_field_to_text (fault.field), ==, odd[i].field);
    }
}

static void
test_from_memory_letters (void)
{
  LidLabel label;

  g_assert_true (lid_label_parse ("32GB 2Rx8 PC5-6400B-C", -1, &label, NULL, NULL));
  g_assert_cmpint (label.kind, ==, LID_KIND_CLOCKED_UNBUFFERED);
  g_assert_cmpint (label.ecc, ==, -1);
  g_assert_true (lid_label_parse ("64GB 2Rx4 PC5-8800B-M", -1, &label, NULL, NULL));
  g_assert_cmpint (label.kind, ==, LID_KIND_MULTIPLEXED_RANK);
  g_assert_cmpint (label.check_bits, ==, -1);
}

static void
test_bounds (void)
{
  g_autofree char *longer = g_strnfill (LID_LABEL_MAX_BYTES + 1, '1');
  g_autoptr (GError) error = NULL;
  LidLabel label;
  LidLabelFault fault;

  g_assert_false (lid_label_parse (longer, -1, &label, &fault, &error));
  g_assert_nonnull (strstr (error->message, "256 bytes"));
  g_assert_false (lid_label_parse ("16GB 2Rx8 PC4-2666V-E\0E1-11", 27, &label, &fault, NULL));
  g_assert_cmpint (fault.field, ==, LID_LABEL_FIELD_TEXT);
  g_assert_cmpuint (fault.start, ==, 21);
  g_assert_false (lid_label_parse (NULL, 0, &label, &fault, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/label/cases", test_cases);
  g_test_add_func ("/label/rejects", test_rejects);
  g_test_add_func ("/label/odd", test_odd);
  g_test_add_func ("/label/from-memory-letters", test_from_memory_letters);
  g_test_add_func ("/label/bounds", test_bounds);
  return g_test_run ();
}
