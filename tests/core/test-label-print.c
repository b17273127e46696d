/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is printed reads back as the same label: for every case of label_cases.csv (labels of real
 * modules, sources in the file) and for whatever random changes of them the reader takes. */
#include "facts/label.h"
#include "support.h"

#include <string.h>

#define MUTATIONS 2000 /* of each label */

/* All that a label means; quantity, QR tags and the form's name are what the normal form drops. */
static gboolean
equal (const LidLabel *a, const LidLabel *b)
{
  return a->generation == b->generation && a->capacity_mib == b->capacity_mib
         && a->ranks == b->ranks && a->stack_height == b->stack_height
         && a->logical_ranks == b->logical_ranks && a->stack == b->stack
         && a->chip_width == b->chip_width && a->rated == b->rated
         && a->voltage_mark == b->voltage_mark && a->type == b->type
         && strcmp (a->grade, b->grade) == 0 && strcmp (a->cl, b->cl) == 0
         && strcmp (a->card, b->card) == 0 && a->card_revision == b->card_revision
         && strcmp (a->spd_revision, b->spd_revision) == 0
         && strcmp (a->module_revision, b->module_revision) == 0
         && strcmp (a->temperature, b->temperature) == 0
         && strcmp (a->maker_suffix, b->maker_suffix) == 0 && a->kind == b->kind
         && a->outline == b->outline && a->ecc == b->ecc && a->check_bits == b->check_bits
         && a->voltages == b->voltages && a->die_gbit == b->die_gbit;
}

static void
check_round_trip (const LidLabel *label, const char *text)
{
  g_autofree char *printed = lid_label_print (label), *again = NULL;
  g_autoptr (GError) error = NULL;
  LidLabel second;

  if (!lid_label_parse (printed, -1, &second, NULL, &error))
    g_error ("%s printed as %s: %s", text, printed, error->message);
  if (!equal (label, &second))
    g_error ("%s printed as %s, which reads differently", text, printed);
  if (label->form != LID_LABEL_QR)
    g_assert_cmpint (label->form, ==, second.form);
  again = lid_label_print (&second);
  g_assert_cmpstr (printed, ==, again);
}

static void
test_cases (void)
{
  g_autofree char *path = support_data ("label/label_cases.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  for (guint i = 1; i < rows->len; i++)
    {
      g_autofree char *dressed = NULL;
      LidLabel label, other;

      g_assert_true (lid_label_parse (support_cell (rows, i, "label"), -1, &label, NULL, NULL));
      check_round_trip (&label, support_cell (rows, i, "label"));
      dressed = g_strdup_printf (" 7 x (l)%s(p)TP-%u", support_cell (rows, i, "label"), i);
      g_assert_true (lid_label_parse (dressed, -1, &other, NULL, NULL));
      g_assert_true (equal (&label, &other));
      g_assert_cmpuint (other.quantity, ==, 7);
      g_assert_cmpint (other.form, ==, LID_LABEL_QR);
      check_round_trip (&other, dressed);
    }
}

/* One to three edits: change, drop, double or insert a byte, mostly of those that labels have. */
static gsize
mutate (GRand *random, char *text, gsize size, gsize room)
{
  static const char likely[] = "0123456789ABCDEFGHJKLMNPRSTUVWXYZxO -()\t\xc3\x97";

  for (int n = g_rand_int_range (random, 1, 4); n > 0; n--)
    {
      gsize at = (gsize)g_rand_int_range (random, 0, (gint32)size + 1);
      char byte = g_rand_int_range (random, 0, 8) == 0
                      ? (char)g_rand_int_range (random, 0, 256)
                      : likely[g_rand_int_range (random, 0, sizeof likely - 1)];

      switch (g_rand_int_range (random, 0, 3))
        {
        case 0:
          if (at < size)
            text[at] = byte;
          break;
        case 1:
          if (at < size)
            memmove (text + at, text + at + 1, --size - at);
          break;
        default:
          if (size < room)
            {
              memmove (text + at + 1, text + at, size++ - at);
              text[at] = byte;
            }
        }
    }
  return size;
}

static void
check_mutant (const char *text, gsize size, guint *taken)
{
  g_autoptr (GError) error = NULL;
  LidLabelFault fault = { 0 };
  LidLabel label;

  if (lid_label_parse (text, (gssize)size, &label, &fault, &error))
    {
      g_autoptr (GPtrArray) parts = lid_label_explain (&label);
      g_autoptr (LidModule) module = lid_label_facts_to_module (&label);
      g_autofree char *copy = g_strndup (text, size);

      g_assert_cmpuint (parts->len, >, 1);
      g_assert_nonnull (module);
      check_round_trip (&label, copy);
      ++*taken;
      return;
    }
  g_assert_nonnull (error);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_null (strchr (error->message, '\n'));
  g_assert_cmpuint (fault.start, <=, size);
  g_assert_cmpuint (fault.length, <=, size - fault.start);
}

static void
test_mutations (void)
{
  static const char *const more[] = { "16x 32GB 2Rx4 PC4-3200AA-RB2-12",
                                      "(L)64GB 2Rx4 PC5-4800B-RA0-1010-XT(S)0A1B2C(P)TP-64(M)80CE",
                                      "16g 1rx8 ddr4 2666 ecc unbuffered",
                                      "8gb registered",
                                      "32g non ecc load reduced ddr3l 1333mt/s 4rx4",
                                      "4 x 16 gb so dimm x8 5600" };
  g_autofree char *path = support_data ("label/label_cases.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);
  GRand *random = g_rand_new_with_seed (20310402);
  guint taken = 0;

  for (guint i = 1; i < rows->len + G_N_ELEMENTS (more); i++)
    for (guint n = 0; n < MUTATIONS; n++)
      {
        const char *text = i < rows->len ? support_cell (rows, i, "label") : more[i - rows->len];
        gsize size = strlen (text);
        char buffer[128];

        memcpy (buffer, text, size);
        size = mutate (random, buffer, size, sizeof buffer);
        check_mutant (buffer, size, &taken);
      }
  g_rand_free (random);
  g_test_message ("%u mutants were labels", taken);
  g_assert_cmpuint (taken, >, 2000);
}

/* Bytes of any kind, at the longest. */
static void
test_noise (void)
{
  GRand *random = g_rand_new_with_seed (7);
  guint taken = 0;

  for (guint n = 0; n < 20000; n++)
    {
      char buffer[LID_LABEL_MAX_BYTES];
      gsize size = (gsize)g_rand_int_range (random, 0, sizeof buffer + 1);
      gboolean tight = n % 2 == 0;

      for (gsize i = 0; i < size; i++)
        buffer[i] = tight ? "8B0O1IPC4-() GxR"[g_rand_int_range (random, 0, 16)]
                          : (char)g_rand_int_range (random, 0, 256);
      check_mutant (buffer, size, &taken);
    }
  g_rand_free (random);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/label-print/cases", test_cases);
  g_test_add_func ("/label-print/mutations", test_mutations);
  g_test_add_func ("/label-print/noise", test_noise);
  return g_test_run ();
}
