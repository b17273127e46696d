/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Slips seen in real notes (facts/standards.md section 7, label_cases.csv L031, L039, L077) and
 * slips made from the cases: the refusal shows the label it may have been, and is still a refusal.
 */
#include "facts/label.h"
#include "support.h"

#include <string.h>

static const char *const slips[][2] = {
  { "16GB 2RxB PC4-2666V-UB1-11", "16GB 2Rx8 PC4-2666V-UB1-11" },
  { "32GB 2Rx4 PCA-2400T-RA1-11-DC0", "32GB 2Rx4 PC4-2400T-RA1-11-DC0" },
  { "48GB 2Rx8 PC5-56008-REO-1010-XT", "48GB 2Rx8 PC5-5600B-RE0-1010-XT" },
  { "I6GB 2Rx8 PC4-2666V-R", "16GB 2Rx8 PC4-2666V-R" },
  { "16gb 2rx8 pc4-2666v-ub1-11", "16GB 2Rx8 PC4-2666V-UB1-11" },
  { "16GB 2Rx8 PC4\xe2\x80\x93"
    "2666V\xe2\x80\x90UB1\xe2\x80\x91"
    "11",
    "16GB 2Rx8 PC4-2666V-UB1-11" },
  { "16GB 2Rx8 PC4-32OOAA-5E1-11", "16GB 2Rx8 PC4-3200AA-SE1-11" },
};

static const char *const no_hint[] = {
  "16GB 2Rx8 PC4-2400V-EE1-11",
  "16GB 2Rx8 PC6-6400B-RA0-1010-XT",
  "64GB 22Rx4 PC4-2666V-RA1-12",
  "33GB 2Rx4 PC4-3200AA-R",
  "hello",
  "",
};

static void
test_slips (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (slips); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *quoted = g_strdup_printf ("“%s” is printed", slips[i][1]);
      LidLabel label;

      g_assert_false (lid_label_parse (slips[i][0], -1, &label, NULL, &error));
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, quoted));
    }
  for (guint i = 0; i < G_N_ELEMENTS (no_hint); i++)
    {
      g_autoptr (GError) error = NULL;
      LidLabel label;

      g_assert_false (lid_label_parse (no_hint[i], -1, &label, NULL, &error));
      g_assert_null (strstr (error->message, "is printed there"));
    }
}

/* Every B, 8 and 0 of every case misread: refused with the right label shown, or, where the other
 * reading is a label too (a card B for 8 is none, a suffix MAO is), taken as printed. */
static void
test_every_case (void)
{
  static const char swaps[][2] = { { 'B', '8' }, { '8', 'B' }, { '0', 'O' }, { '4', 'A' } };
  g_autofree char *path = support_data ("label/label_cases.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);
  guint shown = 0, refused = 0;

  for (guint i = 1; i < rows->len; i++)
    for (guint s = 0; s < G_N_ELEMENTS (swaps); s++)
      for (const char *at = support_cell (rows, i, "label"); *at != 0; at++)
        {
          const char *text = support_cell (rows, i, "label");
          g_autofree char *slip = g_strdup (text);
          g_autoptr (GError) error = NULL;
          LidLabel label;

          if (*at != swaps[s][0])
            continue;
          slip[at - text] = swaps[s][1];
          if (lid_label_parse (slip, -1, &label, NULL, &error))
            continue;
          refused++;
          shown += strstr (error->message, text) != NULL;
        }
  g_test_message ("%u of %u slips shown", shown, refused);
  g_assert_cmpuint (refused, >, 300);
  g_assert_cmpuint (shown * 10, >=, refused * 9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/label-hint/slips", test_slips);
  g_test_add_func ("/label-hint/every-case", test_every_case);
  return g_test_run ();
}
