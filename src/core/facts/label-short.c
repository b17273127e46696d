/* SPDX-License-Identifier: GPL-3.0-or-later */
/* label-short.c — the short form, typed where no label can be read: a capacity, then words in any
 * order and either case: "32g 2rx4 3200 registered", "16g 1rx8 ddr4 2666 ecc unbuffered".
 *
 * What is not said stays unknown. The generation follows from the rate only where one generation
 * alone has that rate (2666: DDR4; 3200 may be DDR4 or DDR5). Every word must be known and said
 * once; words that contradict each other are refused. */
#include "facts/label-short.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Words of the trade: common practice, no source. Pairs stand before their first words. */
static const struct
{
  const char *first;
  const char *second; /* nullable */
  guint says;
} words[] = {
  { "so", "dimm", SAYS_SO },
  { "load", "reduced", SAYS_LOAD_REDUCED },
  { "fully", "buffered", SAYS_FULLY_BUFFERED },
  { "multiplexed", "rank", SAYS_MULTIPLEXED },
  { "non", "ecc", SAYS_NO_ECC },
  { "no", "ecc", SAYS_NO_ECC },
  { "registered", NULL, SAYS_REGISTERED },
  { "reg", NULL, SAYS_REGISTERED },
  { "rdimm", NULL, SAYS_REGISTERED | SAYS_DIMM },
  { "lrdimm", NULL, SAYS_LOAD_REDUCED | SAYS_DIMM },
  { "loadreduced", NULL, SAYS_LOAD_REDUCED },
  { "unbuffered", NULL, SAYS_UNBUFFERED },
  { "udimm", NULL, SAYS_UNBUFFERED | SAYS_DIMM },
  { "clocked", NULL, SAYS_CLOCKED },
  { "cudimm", NULL, SAYS_CLOCKED | SAYS_DIMM },
  { "csodimm", NULL, SAYS_CLOCKED | SAYS_SO },
  { "mrdimm", NULL, SAYS_MULTIPLEXED | SAYS_DIMM },
  { "fbdimm", NULL, SAYS_FULLY_BUFFERED | SAYS_DIMM },
  { "sodimm", NULL, SAYS_SO },
  { "sordimm", NULL, SAYS_SO | SAYS_REGISTERED },
  { "dimm", NULL, SAYS_DIMM },
  { "ecc", NULL, SAYS_ECC },
  { "nonecc", NULL, SAYS_NO_ECC },
};

static const struct
{
  const char *word;
  LidGeneration generation;
  char mark;
} generations[] = {
  { "ddr", LID_GENERATION_DDR, 0 },      { "ddr2", LID_GENERATION_DDR2, 0 },
  { "ddr3", LID_GENERATION_DDR3, 0 },    { "ddr3l", LID_GENERATION_DDR3, 'L' },
  { "ddr3u", LID_GENERATION_DDR3, 'U' }, { "ddr4", LID_GENERATION_DDR4, 0 },
  { "ddr5", LID_GENERATION_DDR5, 0 },
};

static gboolean
refuse_word (LidLabelShort *s, LidLabelField field, const char *taken, const char *remedy)
{
  return lid_label_cursor_refuse (s->cursor, field, s->start, s->stop, taken, remedy);
}

/* The next word, from the cursor on; FALSE at the end. */
static gboolean
next_word (LidLabelShort *s)
{
  LidLabelCursor *c = s->cursor;

  lid_label_cursor_skip_blanks (c);
  s->start = s->stop = c->at;
  while (s->stop < c->end && *s->stop != ' ' && *s->stop != '\t')
    s->stop++;
  c->at = s->stop;
  return s->stop > s->start;
}

static gboolean
word_is (const LidLabelShort *s, const char *word)
{
  gsize length = strlen (word);

  return (gsize)(s->stop - s->start) == length && g_ascii_strncasecmp (s->start, word, length) == 0;
}

static gboolean
read_capacity (LidLabelShort *s)
{
  const char *taken = _ ("a whole number and g, gb, m or mb, as in 32g");
  const char *start, *number_end;
  guint value, n;
  gboolean gb, there = next_word (s);

  start = s->start;
  s->cursor->at = start;
  n = lid_label_cursor_digits (s->cursor, &value);
  number_end = s->cursor->at;
  if (n > 0 && number_end == s->stop)
    next_word (s); /* "32 gb" */
  else
    s->start = number_end;
  gb = word_is (s, "g") || word_is (s, "gb");
  if (!there || n == 0 || *start == '0' || (!gb && !word_is (s, "m") && !word_is (s, "mb"))
      || value > (gb ? 65536u : 65536u * 1024u))
    {
      s->start = start;
      return refuse_word (s, LID_LABEL_FIELD_CAPACITY, taken, NULL);
    }
  s->label->capacity_mib = gb ? value * 1024 : value;
  s->cursor->at = s->stop;
  return TRUE;
}

/* "2rx4", "2s2rx4", "2r": the label's own reader, on a copy in capitals so that case is free. */
static gboolean
read_ranks (LidLabelShort *s)
{
  char copy[16];
  gsize length = (gsize)(s->stop - s->start);
  LidLabelFault fault = { 0 };
  LidLabelCursor cursor = { .text = copy, .at = copy, .fault = &fault, .error = s->cursor->error };

  if (s->label->ranks > 0
      || (s->label->chip_width > 0
          && (memchr (s->start, 'x', length) != NULL || memchr (s->start, 'X', length) != NULL)))
    return refuse_word (s, LID_LABEL_FIELD_RANKS, _ ("ranks and chip width once"), NULL);
  if (length >= sizeof copy)
    return refuse_word (s, LID_LABEL_FIELD_RANKS, _ ("ranks as in 2rx4"), NULL);
  for (gsize i = 0; i < length; i++)
    copy[i] = g_ascii_toupper (s->start[i]);
  copy[length] = 0;
  cursor.end = copy + length;
  if (lid_label_line_read_ranks (&cursor, s->label, FALSE))
    return TRUE;
  s->cursor->fault->field = fault.field;
  s->cursor->fault->start = (gsize)(s->start - s->cursor->text) + fault.start;
  s->cursor->fault->length = fault.length;
  return FALSE;
}

static gboolean
is_rate_unit (const LidLabelShort *s)
{
  return word_is (s, "mt/s") || word_is (s, "mts") || word_is (s, "mhz");
}

/* "3200", "3200mt/s", "3200 MT/s". */
static gboolean
read_number (LidLabelShort *s)
{
  const char *start = s->start, *stop = s->stop;
  guint n;

  s->cursor->at = start;
  n = lid_label_cursor_digits (s->cursor, &s->mts);
  s->start = s->cursor->at;
  s->cursor->at = stop;
  if (n > 6 || s->rate_start != NULL || (s->start != stop && !is_rate_unit (s)))
    {
      s->start = start;
      return refuse_word (s, LID_LABEL_FIELD_RATE, _ ("one rate in MT/s, as in 3200"), NULL);
    }
  s->rate_start = start;
  s->rate_stop = stop;
  if (s->start == stop && !(next_word (s) && is_rate_unit (s)))
    s->cursor->at = stop;
  return TRUE;
}

static gboolean
read_generation (LidLabelShort *s, gboolean *was_one)
{
  *was_one = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (generations); i++)
    if (word_is (s, generations[i].word))
      {
        *was_one = TRUE;
        if (s->label->generation != LID_GENERATION_UNKNOWN)
          return refuse_word (s, LID_LABEL_FIELD_GENERATION, _ ("one generation"), NULL);
        s->label->generation = generations[i].generation;
        s->label->voltage_mark = generations[i].mark;
      }
  return TRUE;
}

static gboolean
read_kind_word (LidLabelShort *s)
{
  const char *start = s->start, *stop = s->stop;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      gboolean match = word_is (s, words[i].first);

      if (match && words[i].second != NULL)
        match = next_word (s) && word_is (s, words[i].second);
      if (match)
        {
          s->says |= words[i].says;
          return TRUE;
        }
      s->start = start;
      s->stop = stop;
      s->cursor->at = stop;
    }
  return refuse_word (s, LID_LABEL_FIELD_TEXT,
                      _ ("2rx4, a rate, ddr3 to ddr5, registered, load reduced, unbuffered, "
                         "sodimm, ecc"),
                      _ ("A label is entered as printed, with PC and its hyphens."));
}

static gboolean
read_word (LidLabelShort *s)
{
  const char *at = s->start;
  gboolean was_one;

  if (!read_generation (s, &was_one))
    return FALSE;
  if (was_one)
    return TRUE;
  if (g_ascii_isdigit (*at))
    {
      while (at < s->stop && g_ascii_isdigit (*at))
        at++;
      if (at == s->stop || g_ascii_tolower (*at) == 'm')
        return read_number (s);
      return read_ranks (s);
    }
  if (word_is (s, "x4") || word_is (s, "x8") || word_is (s, "x16"))
    {
      if (s->label->chip_width > 0)
        return refuse_word (s, LID_LABEL_FIELD_CHIP_WIDTH, _ ("one chip width"), NULL);
      s->label->chip_width = at[1] == '1' ? 16 : (guint)(at[1] - '0');
      return TRUE;
    }
  return read_kind_word (s);
}

/**
 * lid_label_short_read:
 * @cursor: at the first byte behind a quantity
 *
 * Returns: whether all of it is a short form
 */
gboolean
lid_label_short_read (LidLabelCursor *cursor, LidLabel *label)
{
  LidLabelShort s = { .cursor = cursor, .label = label };
  const char *begin = cursor->at;
  guint n = 0;

  label->form = LID_LABEL_SHORT_FORM;
  label->ecc = label->check_bits = -1;
  if (!read_capacity (&s))
    return FALSE;
  for (; next_word (&s); n++)
    if (!read_word (&s))
      return FALSE;
  if (n == 0)
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_TEXT, cursor->end, cursor->end,
                                    _ ("at least one word behind the capacity, as in registered"),
                                    NULL);
  return lid_label_settle (&s, begin);
}
