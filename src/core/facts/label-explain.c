/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/label.h"

#include "base/units.h"
#include "facts/label-tables.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
part_free (gpointer data)
{
  LidLabelPart *part = data;

  g_free (part->text);
  g_free (part->meaning);
  g_free (part);
}

/* Takes @text and @meaning. */
static void
add (GPtrArray *parts, LidLabelField field, char *text, char *meaning)
{
  LidLabelPart *part = g_new (LidLabelPart, 1);

  part->field = field;
  part->text = text;
  part->meaning = meaning;
  g_ptr_array_add (parts, part);
}

static void
explain_head (const LidLabel *label, GPtrArray *parts)
{
  gboolean whole = label->capacity_mib % 1024 == 0;

  if (label->quantity > 1)
    add (parts, LID_LABEL_FIELD_QUANTITY, g_strdup_printf ("%u×", label->quantity),
         g_strdup_printf (_ ("%u modules of this kind"), label->quantity));
  add (parts, LID_LABEL_FIELD_CAPACITY,
       g_strdup_printf (whole ? "%uGB" : "%uMB",
                        whole ? label->capacity_mib / 1024 : label->capacity_mib),
       g_strdup_printf (_ ("%u MiB of data; check bits do not count"), label->capacity_mib));
}

static void
explain_ranks (const LidLabel *label, GPtrArray *parts)
{
  if (label->ranks > 0 && label->stack == LID_STACK_3DS)
    add (parts, LID_LABEL_FIELD_RANKS,
         g_strdup_printf ("%uS%uR", label->ranks, label->stack_height),
         g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                       "%u package rank of stacked dies (3DS), %u logical ranks "
                                       "each: %u in all, one load a package",
                                       "%u package ranks of stacked dies (3DS), %u logical ranks "
                                       "each: %u in all, one load a package",
                                       label->ranks),
                          label->ranks, label->stack_height, label->logical_ranks));
  else if (label->ranks > 0 && label->stack == LID_STACK_DUAL)
    add (parts, LID_LABEL_FIELD_RANKS, g_strdup_printf ("%uDR", label->ranks),
         g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                       "%u rank, two dies a package, each die a load of its own",
                                       "%u ranks, two dies a package, each die a load of its own",
                                       label->ranks),
                          label->ranks));
  else if (label->ranks == 8 && label->generation != LID_GENERATION_DDR3)
    add (parts, LID_LABEL_FIELD_RANKS, g_strdup ("8R"),
         g_strdup (_ ("8 logical ranks, as shops write a stacked module; the full label tells the "
                      "package ranks")));
  else if (label->ranks > 0)
    add (parts, LID_LABEL_FIELD_RANKS, g_strdup_printf ("%uR", label->ranks),
         g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u rank: chips that answer together",
                                       "%u ranks: groups of chips that answer in turn",
                                       label->ranks),
                          label->ranks));
  if (label->chip_width > 0)
    add (parts, LID_LABEL_FIELD_CHIP_WIDTH, g_strdup_printf ("x%u", label->chip_width),
         label->die_gbit > 0
             ? g_strdup_printf (_ ("%u data wires a chip; that makes dies of %u Gbit"),
                                label->chip_width, label->die_gbit)
             : g_strdup_printf (_ ("%u data wires a chip"), label->chip_width));
}

static void
explain_generation (const LidLabel *label, GPtrArray *parts)
{
  const char *name = lid_generation_to_text (label->generation);
  gboolean words = label->form == LID_LABEL_SHORT_FORM;

  if (name == NULL)
    return;
  add (parts, LID_LABEL_FIELD_GENERATION,
       words ? g_strdup (name)
             : g_strdup_printf ("PC%u", 3 + (guint)(label->generation - LID_GENERATION_DDR3)),
       g_strdup_printf (_ ("%s; other generations do not go into its slots"), name));
  if (label->voltage_mark == 'L')
    add (parts, LID_LABEL_FIELD_VOLTAGE, g_strdup ("L"),
         g_strdup (_ ("runs at 1.35 V, and at 1.5 V too")));
  else if (label->voltage_mark == 'U')
    add (parts, LID_LABEL_FIELD_VOLTAGE, g_strdup ("U"), g_strdup (_ ("runs at 1.25 V")));
}

static void
explain_rate (const LidLabel *label, GPtrArray *parts)
{
  gboolean ddr3 = label->generation == LID_GENERATION_DDR3 && label->form != LID_LABEL_SHORT_FORM;
  guint mts = lid_rate_mts (label->rated);
  g_autofree char *peak = lid_units_bandwidth (((gint64)label->rated * 8 + 1) / 3);

  if (label->rated == LID_RATE_UNKNOWN)
    return;
  if (ddr3)
    add (parts, LID_LABEL_FIELD_RATE,
         g_strdup (lid_label_tables_bandwidth_name (LID_GENERATION_DDR3, label->rated)),
         g_strdup_printf (_ ("%u MT/s at most; DDR3 prints the bandwidth in MB/s, cut off"), mts));
  else
    add (parts, LID_LABEL_FIELD_RATE, g_strdup_printf ("%u", mts),
         g_strdup_printf (_ ("%u MT/s at most, %s over one channel"), mts, peak));
}

static char *
grade_meaning (const LidLabel *label)
{
  const char *grade = label->grade;

  if (label->generation == LID_GENERATION_DDR4)
    return g_strdup_printf (_ ("timing: %u clocks from row to column (tRCD)"),
                            lid_label_tables_grade_clocks (grade));
  /* facts/standards.md section 2, rule R5. */
  if (strcmp (grade, "AN") == 0)
    return g_strdup (_ ("timing: CAS latency of 14 ns or just above"));
  if (grade[0] == 'B')
    return g_strdup (_ ("timing: CAS latency of 16 ns or just above"));
  if (grade[0] == 'C')
    return g_strdup (_ ("timing: CAS latency of 17.5 ns or just above"));
  return g_strdup (_ ("timing grade"));
}

static void
explain_type (const LidLabel *label, GPtrArray *parts)
{
  const LidLabelType *type = lid_label_tables_type (label->generation, label->type);

  if (label->grade[0] != 0)
    add (parts, LID_LABEL_FIELD_GRADE, g_strdup (label->grade), grade_meaning (label));
  if (label->type != 0)
    add (parts, LID_LABEL_FIELD_TYPE, g_strdup_printf ("%c", label->type),
         g_strdup (_ (type->words)));
  else if (label->kind != LID_KIND_UNKNOWN)
    add (parts, LID_LABEL_FIELD_TYPE, g_strdup (lid_kind_to_text (label->kind)),
         g_strdup (lid_kind_to_words (label->kind)));
  if (label->cl[0] != 0)
    add (parts, LID_LABEL_FIELD_CL, g_strdup (label->cl), g_strdup (_ ("CAS latency in clocks")));
}

static void
explain_card (const LidLabel *label, GPtrArray *parts)
{
  if (strcmp (label->card, "ZZ") == 0)
    add (parts, LID_LABEL_FIELD_CARD, g_strdup ("ZZZ"),
         g_strdup (_ ("none of the standard's circuit boards was used")));
  else if (label->card[0] != 0)
    {
      add (parts, LID_LABEL_FIELD_CARD, g_strdup (label->card),
           g_strdup_printf (_ ("built on the standard's circuit board %s"), label->card));
      if (label->card_revision == 'P')
        add (parts, LID_LABEL_FIELD_CARD_REVISION, g_strdup ("P"),
             g_strdup (_ ("the circuit board before its release")));
      else if (label->card_revision != 0)
        add (parts, LID_LABEL_FIELD_CARD_REVISION, g_strdup_printf ("%c", label->card_revision),
             g_strdup_printf (_ ("revision %c of that board"), label->card_revision));
    }
}

static void
explain_revisions (const LidLabel *label, GPtrArray *parts)
{
  const char *spd = label->spd_revision, *block = label->module_revision;

  if (spd[0] != 0)
    add (parts, LID_LABEL_FIELD_SPD_REVISION, g_strdup (spd),
         g_strdup_printf (_ ("written after revision %c.%c of the SPD standard"), spd[0], spd[1]));
  if (block[0] != 0)
    add (
        parts, LID_LABEL_FIELD_MODULE_REVISION, g_strdup (block),
        g_strdup_printf (_ ("its part about the module after revision %c.%c"), block[0], block[1]));
}

/**
 * lid_label_explain:
 * @label: a label that was read
 *
 * Returns: (transfer full) (element-type LidLabelPart): its fields in the order they are printed,
 * each with what it means
 */
GPtrArray *
lid_label_explain (const LidLabel *label)
{
  GPtrArray *parts = g_ptr_array_new_with_free_func (part_free);

  explain_head (label, parts);
  explain_ranks (label, parts);
  explain_generation (label, parts);
  explain_rate (label, parts);
  explain_type (label, parts);
  if (label->generation == LID_GENERATION_DDR3)
    {
      explain_revisions (label, parts);
      explain_card (label, parts);
    }
  else
    {
      explain_card (label, parts);
      explain_revisions (label, parts);
    }
  if (label->temperature[0] != 0)
    add (parts, LID_LABEL_FIELD_TEMPERATURE, g_strdup (label->temperature),
         g_strdup (_ (lid_label_tables_temperature (label->temperature))));
  if (label->maker_suffix[0] != 0)
    add (parts, LID_LABEL_FIELD_MAKER_SUFFIX, g_strdup (label->maker_suffix),
         g_strdup (_ ("the maker's own mark, outside the standard")));
  if (label->serial[0] != 0)
    add (parts, LID_LABEL_FIELD_SERIAL, g_strdup (label->serial),
         g_strdup (_ ("serial number of this one module")));
  if (label->part[0] != 0)
    add (parts, LID_LABEL_FIELD_PART, g_strdup (label->part), g_strdup (_ ("part number")));
  if (label->maker[0] != 0)
    add (parts, LID_LABEL_FIELD_MAKER, g_strdup (label->maker),
         g_strdup (_ ("maker as the code gives it")));
  return parts;
}
