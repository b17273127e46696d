/* SPDX-License-Identifier: GPL-3.0-or-later */
/* label-line.c — the label line: capacity, ranks and width, then the part that begins with PC.
 *
 *   32GB 2S2Rx4 PC4-3200AA-RB2-12
 *
 * The tail behind the hyphen changes its order with the generation: label-tail.c. Once all is
 * read, the fields are held against each other: no stack on an unbuffered module, and the
 * capacity must come out with a die that exists:
 * die Gbit = capacity in GiB × 8 × chip width ÷ (64 × logical ranks). */
#include "facts/label-cursor.h"
#include "facts/label-tables.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *
token_end (const LidLabelCursor *cursor)
{
  const char *stop = cursor->at;

  while (stop < cursor->end && *stop != ' ' && *stop != '\t')
    stop++;
  return stop;
}

static gboolean
read_capacity (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at, *stop = token_end (cursor);
  const char *taken = _ ("a whole number and GB or MB, as in 32GB");
  gboolean gb, swapped = stop - start >= 3 && g_ascii_toupper (start[1]) == 'R';
  guint n, value;

  n = lid_label_cursor_digits (cursor, &value);
  gb = stop - cursor->at == 2 && cursor->at[0] == 'G';
  if (n == 0 || *start == '0' || stop - cursor->at != 2 || cursor->at[1] != 'B'
      || (!gb && cursor->at[0] != 'M'))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_CAPACITY, start, stop, taken,
                                    swapped ? _ ("The capacity comes first, the ranks second.")
                                            : NULL);
  if (value > (gb ? 65536u : 65536u * 1024u))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_CAPACITY, start, stop, taken,
                                    _ ("No module is that large."));
  label->capacity_mib = gb ? value * 1024 : value;
  cursor->at = stop;
  return TRUE;
}

static gboolean
read_stack (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at;
  guint n, height;

  label->stack_height = 1;
  if (lid_label_cursor_take (cursor, 'D'))
    {
      label->stack = LID_STACK_DUAL;
      return TRUE;
    }
  if (lid_label_cursor_take (cursor, 'S'))
    {
      n = lid_label_cursor_digits (cursor, &height);
      if (n == 0 || start[1] == '0' || (height != 2 && height != 4 && height != 8 && height != 16))
        return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_STACK, start, cursor->at,
                                        _ ("S with 2, 4, 8 or 16 behind it, as in 2S4Rx4"), NULL);
      label->stack = LID_STACK_3DS;
      label->stack_height = height;
      return TRUE;
    }
  label->stack = LID_STACK_NONE;
  if (cursor->at < cursor->end && *cursor->at != 'R' && g_ascii_isalpha (*cursor->at))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_STACK, start, start + 1,
                                    _ ("nothing, D, or S with a number, before the R"), NULL);
  return TRUE;
}

static gboolean
read_width (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at, *stop = lid_label_cursor_run_end (cursor);
  guint n = 0, width = 0;

  if (lid_label_cursor_take (cursor, 'x') || lid_label_cursor_take (cursor, 'X'))
    n = lid_label_cursor_digits (cursor, &width);
  if (n == 0 || start[1] == '0' || cursor->at != stop || (width != 4 && width != 8 && width != 16))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_CHIP_WIDTH, start, stop,
                                    _ ("x4, x8 or x16"), NULL);
  label->chip_width = width;
  return TRUE;
}

/**
 * lid_label_line_read_ranks:
 * @width_needed: whether "2R" without a chip width is refused
 *
 * Reads "2Rx4", "4DRx4", "2S4Rx4" up to the next blank or hyphen.
 *
 * Returns: whether it is one
 */
gboolean
lid_label_line_read_ranks (LidLabelCursor *cursor, LidLabel *label, gboolean width_needed)
{
  const char *start = cursor->at, *stop = lid_label_cursor_run_end (cursor);
  const char *taken = _ ("1, 2, 4 or 8 ranks, as in 2Rx4, 4DRx4 or 2S4Rx4");
  guint n, ranks;

  if (strncmp (start, "PC", 2) == 0)
    stop = start;
  n = lid_label_cursor_digits (cursor, &ranks);
  if (n == 2 && start[0] != '0')
    return lid_label_cursor_refuse (
        cursor, LID_LABEL_FIELD_RANKS, start, stop, taken,
        _ ("A second figure before the R stands only behind an S, as in 2S2Rx4."));
  if (n != 1 || (ranks != 1 && ranks != 2 && ranks != 4 && ranks != 8))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_RANKS, start, stop, taken, NULL);
  label->ranks = ranks;
  if (!read_stack (cursor, label))
    return FALSE;
  label->logical_ranks = label->ranks * label->stack_height;
  if (!lid_label_cursor_take (cursor, 'R'))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_RANKS, start, stop, taken, NULL);
  if (cursor->at == stop && !width_needed)
    return TRUE;
  return read_width (cursor, label);
}

static gboolean
read_generation (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at, *stop = lid_label_cursor_run_end (cursor);
  const char *taken = _ ("PC3-, PC4- or PC5-");
  const char *mark;

  if (stop - start < 3 || strncmp (start, "PC", 2) != 0 || start[2] < '3' || start[2] > '5')
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_GENERATION, start, stop, taken, NULL);
  label->generation = LID_GENERATION_DDR3 + (guint)(start[2] - '3');
  mark = cursor->at = start + 3;
  if (cursor->at < cursor->end && g_ascii_isalpha (*cursor->at))
    {
      if (label->generation != LID_GENERATION_DDR3)
        return lid_label_cursor_refuse (
            cursor, LID_LABEL_FIELD_VOLTAGE, mark, mark + 1, _ ("no voltage mark"),
            label->generation == LID_GENERATION_DDR4 ? _ ("DDR4 runs at 1.2 V only.")
                                                     : _ ("DDR5 runs at 1.1 V only."));
      if (*mark != 'L' && *mark != 'U')
        return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_VOLTAGE, mark, mark + 1,
                                        _ ("no mark (1.5 V), L (1.35 V) or U (1.25 V)"), NULL);
      label->voltage_mark = *cursor->at++;
    }
  if (!lid_label_cursor_take (cursor, '-'))
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_GENERATION, start, stop, taken, NULL);
  return TRUE;
}

/**
 * lid_label_line_die:
 * @label: a label with capacity, ranks and width
 * @generation: whose dies
 * @die_gbit: (out): the die in Gbit, 0 where it is no whole number
 *
 * Returns: whether such a die exists
 */
gboolean
lid_label_line_die (const LidLabel *label, LidGeneration generation, guint *die_gbit)
{
  guint64 bits = (guint64)label->capacity_mib * 8 * label->chip_width;
  guint64 share = (guint64)64 * 1024 * label->logical_ranks;

  *die_gbit = bits % share == 0 ? (guint)(bits / share) : 0;
  return lid_label_tables_has_die (generation, *die_gbit);
}

static gboolean
check_whole (LidLabelCursor *cursor, LidLabel *label, const char *capacity, const char *ranks)
{
  const LidLabelType *type = lid_label_tables_type (label->generation, label->type);
  const char *ranks_end = ranks, *capacity_end = capacity;

  while (*ranks_end != ' ' && *ranks_end != '\t')
    ranks_end++;
  while (*capacity_end != ' ' && *capacity_end != '\t')
    capacity_end++;
  if (label->stack != LID_STACK_NONE && label->generation == LID_GENERATION_DDR3)
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_STACK, ranks, ranks_end,
                                    _ ("no D or S on a DDR3 label"), NULL);
  if (label->stack == LID_STACK_3DS && !type->buffered)
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_STACK, ranks, ranks_end,
                                    _ ("no S on an unbuffered module"), NULL);
  if (!lid_label_line_die (label, label->generation, &label->die_gbit))
    return lid_label_cursor_refuse (
        cursor, LID_LABEL_FIELD_CAPACITY, capacity, capacity_end,
        _ ("a capacity that these ranks and chips can make"),
        _ ("It would need a die that does not exist: look at the ranks and the chip width too."));
  return TRUE;
}

/* What follows from the fields. PC3L runs at 1.35 V and at 1.5 V too; PC3U, 1.25 V, from memory. */
static void
derive (LidLabel *label)
{
  const LidLabelType *type = lid_label_tables_type (label->generation, label->type);

  label->kind = type->kind;
  label->outline = lid_kind_form (type->kind);
  label->ecc = type->ecc;
  label->check_bits = type->check_bits;
  if (label->generation == LID_GENERATION_DDR5)
    label->voltages = LID_VOLTAGE_1100;
  else if (label->generation == LID_GENERATION_DDR4)
    label->voltages = LID_VOLTAGE_1200;
  else if (label->voltage_mark == 'L')
    label->voltages = LID_VOLTAGE_1350 | LID_VOLTAGE_1500;
  else
    label->voltages = label->voltage_mark == 'U' ? LID_VOLTAGE_1250 : LID_VOLTAGE_1500;
  label->form = label->spd_revision[0] != 0 ? LID_LABEL_FULL : LID_LABEL_SHORT;
}

/**
 * lid_label_line_read:
 * @cursor: at the first byte of the label
 * @label: (inout): what is read goes here
 *
 * Returns: whether the whole of the cursor's text is one label
 */
gboolean
lid_label_line_read (LidLabelCursor *cursor, LidLabel *label)
{
  const char *capacity = cursor->at, *ranks, *blank;
  gboolean ok;

  if (!read_capacity (cursor, label))
    return FALSE;
  lid_label_cursor_skip_blanks (cursor);
  ranks = cursor->at;
  if (!lid_label_line_read_ranks (cursor, label, TRUE))
    return FALSE;
  lid_label_cursor_skip_blanks (cursor);
  if (!read_generation (cursor, label))
    return FALSE;
  blank = token_end (cursor);
  if (blank != cursor->end)
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_TEXT, blank, cursor->end,
                                    _ ("nothing behind the label"), NULL);
  if (label->generation == LID_GENERATION_DDR3)
    ok = lid_label_tail_ddr3 (cursor, label);
  else if (label->generation == LID_GENERATION_DDR4)
    ok = lid_label_tail_ddr4 (cursor, label);
  else
    ok = lid_label_tail_ddr5 (cursor, label);
  if (!ok || !check_whole (cursor, label, capacity, ranks))
    return FALSE;
  derive (label);
  return TRUE;
}
