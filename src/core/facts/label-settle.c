/* SPDX-License-Identifier: GPL-3.0-or-later */
/* label-settle.c — what the words of a short form come to, once all are read. */
#include "facts/label-short.h"
#include "facts/label-tables.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The rows of the kinds: exactly these marks, ECC apart. */
static const struct
{
  guint says;
  LidKind plain, ecc;
} kinds[] = {
  { 0, LID_KIND_UNKNOWN, LID_KIND_UNKNOWN },
  { SAYS_SO, LID_KIND_SO_UNBUFFERED, LID_KIND_SO_ECC_UNBUFFERED },
  { SAYS_UNBUFFERED, LID_KIND_UNBUFFERED, LID_KIND_ECC_UNBUFFERED },
  { SAYS_SO | SAYS_UNBUFFERED, LID_KIND_SO_UNBUFFERED, LID_KIND_SO_ECC_UNBUFFERED },
  { SAYS_REGISTERED, LID_KIND_REGISTERED, LID_KIND_REGISTERED },
  { SAYS_SO | SAYS_REGISTERED, LID_KIND_SO_REGISTERED, LID_KIND_SO_REGISTERED },
  { SAYS_LOAD_REDUCED, LID_KIND_LOAD_REDUCED, LID_KIND_LOAD_REDUCED },
  { SAYS_CLOCKED, LID_KIND_CLOCKED_UNBUFFERED, LID_KIND_CLOCKED_UNBUFFERED },
  { SAYS_CLOCKED | SAYS_UNBUFFERED, LID_KIND_CLOCKED_UNBUFFERED, LID_KIND_CLOCKED_UNBUFFERED },
  { SAYS_CLOCKED | SAYS_SO, LID_KIND_SO_CLOCKED_UNBUFFERED, LID_KIND_SO_CLOCKED_UNBUFFERED },
  { SAYS_CLOCKED | SAYS_SO | SAYS_UNBUFFERED, LID_KIND_SO_CLOCKED_UNBUFFERED,
    LID_KIND_SO_CLOCKED_UNBUFFERED },
  { SAYS_MULTIPLEXED, LID_KIND_MULTIPLEXED_RANK, LID_KIND_MULTIPLEXED_RANK },
  { SAYS_FULLY_BUFFERED, LID_KIND_FULLY_BUFFERED, LID_KIND_FULLY_BUFFERED },
};

static gboolean
refuse_word (LidLabelShort *s, LidLabelField field, const char *taken, const char *remedy)
{
  return lid_label_cursor_refuse (s->cursor, field, s->start, s->stop, taken, remedy);
}

/* The rate, and the generation where only one has it. */
static gboolean
settle_rate (LidLabelShort *s)
{
  static const LidGeneration all[] = { LID_GENERATION_DDR, LID_GENERATION_DDR2, LID_GENERATION_DDR3,
                                       LID_GENERATION_DDR4, LID_GENERATION_DDR5 };
  LidGeneration given = s->label->generation, only = LID_GENERATION_UNKNOWN;
  guint n = 0;

  if (s->rate_start == NULL)
    return TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      LidRate rate = lid_rate_snap (all[i], s->mts);

      if ((given != LID_GENERATION_UNKNOWN && given != all[i]) || !lid_rate_is_step (all[i], rate))
        continue;
      s->label->rated = rate;
      only = all[i];
      n++;
    }
  s->start = s->rate_start;
  s->stop = s->rate_stop;
  if (n == 0)
    return refuse_word (s, LID_LABEL_FIELD_RATE,
                        given == LID_GENERATION_UNKNOWN
                            ? _ ("a rate that DDR memory has, as in 2666")
                            : _ ("a rate that this generation has"),
                        s->mts >= 6400 ? _ ("A bandwidth is not taken here.") : NULL);
  if (n == 1)
    s->label->generation = only;
  return TRUE;
}

static gboolean
settle_kind (LidLabelShort *s, const char *begin)
{
  guint kind_says = s->says & ~(SAYS_ECC | SAYS_NO_ECC | SAYS_DIMM);
  LidLabel *label = s->label;
  gboolean ecc = (s->says & SAYS_ECC) != 0;
  guint row = 0;

  while (row < G_N_ELEMENTS (kinds) && kinds[row].says != kind_says)
    row++;
  s->start = begin;
  s->stop = s->cursor->end;
  if (row == G_N_ELEMENTS (kinds) || (ecc && (s->says & SAYS_NO_ECC) != 0))
    return refuse_word (s, LID_LABEL_FIELD_TYPE, _ ("words that do not contradict each other"),
                        NULL);
  label->kind = ecc ? kinds[row].ecc : kinds[row].plain;
  label->outline = lid_kind_form (label->kind);
  if (label->kind == LID_KIND_UNKNOWN && (s->says & SAYS_DIMM) != 0)
    label->outline = LID_FORM_DIMM;
  /* Said, or what the kind's letter says on a label: label-tables.c. */
  if (ecc || (s->says & SAYS_NO_ECC) != 0)
    label->ecc = ecc;
  else if (label->kind == LID_KIND_REGISTERED || label->kind == LID_KIND_LOAD_REDUCED)
    label->ecc = 1;
  else if (label->kind == LID_KIND_UNBUFFERED || label->kind == LID_KIND_SO_UNBUFFERED)
    label->ecc = 0;
  if (label->kind == LID_KIND_FULLY_BUFFERED)
    {
      if (label->generation > LID_GENERATION_DDR2_FB || label->generation == LID_GENERATION_DDR)
        return refuse_word (s, LID_LABEL_FIELD_TYPE, _ ("fully buffered with DDR2 only"), NULL);
      label->generation = LID_GENERATION_DDR2_FB;
    }
  return TRUE;
}

/* DDR and DDR2 dies are not tabled: nothing is refused for their sake. */
static gboolean
settle_die (LidLabelShort *s, const char *begin)
{
  LidLabel *label = s->label;
  const char *kind = label->kind != LID_KIND_UNKNOWN ? lid_kind_to_text (label->kind) : "";
  guint die = 0;
  gboolean old = label->generation == LID_GENERATION_DDR || label->generation == LID_GENERATION_DDR2
                 || label->generation == LID_GENERATION_DDR2_FB;

  if (label->stack != LID_STACK_NONE && label->generation == LID_GENERATION_DDR3)
    return lid_label_cursor_refuse (s->cursor, LID_LABEL_FIELD_STACK, begin, s->cursor->end,
                                    _ ("no D or S with DDR3"), NULL);
  if (label->stack == LID_STACK_3DS && strstr (kind, "unbuffered") != NULL)
    return lid_label_cursor_refuse (s->cursor, LID_LABEL_FIELD_STACK, begin, s->cursor->end,
                                    _ ("no S on an unbuffered module"), NULL);
  if (label->ranks == 0 || label->chip_width == 0)
    return TRUE;
  for (guint g = LID_GENERATION_DDR3; g <= LID_GENERATION_DDR5 && !old; g++)
    if ((label->generation == LID_GENERATION_UNKNOWN || label->generation == g)
        && lid_label_line_die (label, g, &die))
      {
        label->die_gbit = die;
        return TRUE;
      }
  if (old
      || (label->generation == LID_GENERATION_UNKNOWN
          && lid_rate_is_step (LID_GENERATION_DDR2, label->rated)))
    return TRUE;
  return lid_label_cursor_refuse (
      s->cursor, LID_LABEL_FIELD_CAPACITY, begin, s->cursor->end,
      _ ("a capacity that these ranks and chips can make"),
      _ ("It would need a die that does not exist: look at the ranks and the chip width too."));
}

static void
settle_rest (LidLabel *label)
{
  if (label->generation == LID_GENERATION_DDR5)
    label->voltages = LID_VOLTAGE_1100;
  else if (label->generation == LID_GENERATION_DDR4)
    label->voltages = LID_VOLTAGE_1200;
  else if (label->voltage_mark == 'L')
    label->voltages = LID_VOLTAGE_1350 | LID_VOLTAGE_1500;
  else if (label->voltage_mark == 'U')
    label->voltages = LID_VOLTAGE_1250;
  if (label->ecc == 0)
    label->check_bits = 0;
  else if (label->ecc > 0
           && (label->generation == LID_GENERATION_DDR3 || label->generation == LID_GENERATION_DDR4
               || (label->generation == LID_GENERATION_DDR5
                   && (label->kind == LID_KIND_ECC_UNBUFFERED
                       || label->kind == LID_KIND_SO_ECC_UNBUFFERED))))
    label->check_bits = 8;
}

/**
 * lid_label_settle:
 * @said: all words of the short form
 * @begin: its first byte
 *
 * Returns: whether the words go together; then the label is complete
 */
gboolean
lid_label_settle (LidLabelShort *said, const char *begin)
{
  if (!settle_rate (said) || !settle_kind (said, begin) || !settle_die (said, begin))
    return FALSE;
  settle_rest (said->label);
  return TRUE;
}
