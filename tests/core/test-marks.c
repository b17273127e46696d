/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "locators/marks.h"
#include "support.h"

#include <string.h>

static void
put (GString *out, const char *name, int value)
{
  if (value == LID_MARK_NONE)
    return;
  g_string_append_printf (out, "%s%s ", out->len > 0 ? " " : "", name);
  if (lid_mark_is_letter (value))
    g_string_append_c (out, (char)('A' + value - LID_MARK_FIRST_LETTER));
  else
    g_string_append_printf (out, "%d", value);
}

static char *
print_marks (const LidMarks *marks)
{
  GString *out = g_string_new (NULL);

  put (out, "processor", marks->processor);
  put (out, "node", marks->node);
  put (out, "controller", marks->controller);
  put (out, "board", marks->board);
  put (out, "channel", marks->channel);
  put (out, "dimm", marks->dimm);
  put (out, "bank", marks->bank);
  put (out, "bank-letter", marks->bank_letter);
  put (out, "bank-number", marks->bank_number);
  if (marks->shape == LID_SHAPE_NUMBER || marks->shape == LID_SHAPE_NUMBER_LETTER)
    put (out, "pair", marks->number);
  if (marks->shape == LID_SHAPE_NUMBER_LETTER)
    put (out, "then", marks->letter);
  if (marks->shape == LID_SHAPE_LETTER_NUMBER)
    {
      put (out, "pair", marks->letter);
      put (out, "then", marks->number);
    }
  return g_string_free (out, FALSE);
}

/* tests/data/locators/marks.csv: spellings of shared/facts/locators.md, others that differ from
 * them only in case and separators, and strings that state nothing. */
static void
test_strings (void)
{
  g_autofree char *path = support_data ("locators/marks.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);

  for (guint i = 1; i < rows->len; i++)
    {
      const char *text = support_cell (rows, i, "text");
      g_autofree char *got = NULL;
      LidMarks marks;

      lid_marks_read (text, *support_cell (rows, i, "bank") == '1', &marks);
      got = print_marks (&marks);
      if (strcmp (got, support_cell (rows, i, "marks")) != 0)
        {
          g_test_message ("“%s”: %s, want %s", text, got, support_cell (rows, i, "marks"));
          g_test_fail ();
        }
    }
}

static void
test_spelling_of_pairs (void)
{
  static const struct
  {
    const char *text;
    guint dimm_word, word_split, hyphen, pair_split;
  } cases[] = {
    { "DIMM1A", 1, 0, 0, 0 },  { "DIMM-1A", 1, 1, 1, 0 }, { "DIMM 1A", 1, 1, 0, 0 },
    { "DIMM1_A", 1, 0, 0, 1 }, { "A1", 0, 0, 0, 0 },      { "DDR4_A1", 1, 1, 0, 0 },
    { "P1-1A", 0, 0, 0, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      LidMarks marks;

      lid_marks_read (cases[i].text, FALSE, &marks);
      g_test_message ("%s", cases[i].text);
      g_assert_cmpuint (marks.dimm_word, ==, cases[i].dimm_word);
      g_assert_cmpuint (marks.word_split, ==, cases[i].word_split);
      g_assert_cmpuint (marks.hyphen, ==, cases[i].hyphen);
      g_assert_cmpuint (marks.pair_split, ==, cases[i].pair_split);
    }
}

static void
test_silence (void)
{
  LidMarks marks;

  lid_marks_read ("no dimm", FALSE, &marks);
  g_assert_true (marks.lost && marks.silent);
  lid_marks_read ("Not Specified", TRUE, &marks);
  g_assert_true (!marks.lost && marks.silent);
  lid_marks_read ("n/a", TRUE, &marks);
  g_assert_false (marks.silent);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/marks/strings", test_strings);
  g_test_add_func ("/marks/spelling-of-pairs", test_spelling_of_pairs);
  g_test_add_func ("/marks/silence", test_silence);
  return g_test_run ();
}
