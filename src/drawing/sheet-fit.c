/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-fit.h"

#include "drawing/sheet-placed.h"

static const struct
{
  double name, words;
} scales[LID_FIT_SCALES]
    = { { 1.6, 1.6 }, { 1.3, 1.3 }, { 1.15, 1.15 }, { 1.0, 1.0 }, { 1.0, 0.9 } };

static LidType
base_type (const LidMachine *machine, guint which)
{
  gboolean half = machine->sheet->options.half;

  if (which == 0)
    return (LidType){ LID_NAME_LEAST_PT, TRUE };
  if (which == 1)
    return (LidType){ half ? 9.0 : 10.0, TRUE };
  return (LidType){ half ? 7.5 : 8.0, FALSE };
}

static void
widen (double *widest, const LidMeasure *measure, LidType type, const char *text)
{
  if (text != NULL && text[0] != 0)
    *widest = MAX (*widest, lid_measure_width (measure, type, text));
}

static void
measure_widest (const LidMachine *machine,
                const LidPart *part,
                const LidMeasure *measure,
                LidFitWidest *widest)
{
  const char *last = NULL;

  for (guint l = 0; l < part->n_leaves; l++)
    for (guint u = 0; u < part->leaves[l].n_units; u++)
      {
        const LidUnit *unit = lid_sheet_machine_unit (machine, part->leaves[l].first_unit + u);

        widen (&widest->label, measure, (LidType){ 8, FALSE }, unit->label);
        for (guint s = 0; s < unit->n_slots; s++)
          {
            const LidSlotLook *look = &machine->sheet->looks[unit->slots[s]];

            widen (&widest->name, measure, base_type (machine, 0), look->name);
            widen (&widest->detail, measure, base_type (machine, 2), look->detail);
            for (guint w = 0; look->words[0] != last && w < LID_N_WORDS; w++)
              widen (&widest->words[w], measure, base_type (machine, 1), look->words[w]);
            last = look->words[0];
          }
      }
}

/**
 * lid_sheet_fit_columns:
 * @leaf: its units
 * @sides: columns to share them out to
 * @first: (out): for each column its first unit, counted from the leaf's first; one more for the
 * end
 */
void
lid_sheet_fit_columns (const LidMachine *machine,
                       const LidLeaf *leaf,
                       guint sides,
                       guint first[LID_FIT_MOST_SIDES + 1])
{
  guint unit = 0, slots = 0;

  for (guint c = 0; c < sides; c++)
    {
      first[c] = unit;
      /* The left columns take the odd slot, so that reading order stays downwards. */
      while (unit < leaf->n_units && slots < (leaf->n_slots * (c + 1) + sides - 1) / sides)
        slots += lid_sheet_machine_unit (machine, leaf->first_unit + unit++)->n_slots;
    }
  first[sides] = leaf->n_units;
}

static double
column_height (
    const LidMachine *machine, const LidLeaf *leaf, guint from, guint to, const LidFit *fit)
{
  double height = 0;

  for (guint u = from; u < to; u++)
    {
      guint n = lid_sheet_machine_unit (machine, leaf->first_unit + u)->n_slots;

      height += n * fit->cell + (n - 1) * LID_FIT_SLOT_GAP;
      if (fit->bars && !leaf->list)
        height += LID_FIT_BAR_LABEL;
      if (u > from)
        height += leaf->list ? LID_FIT_SLOT_GAP : fit->bars ? LID_FIT_BAR_GAP : LID_FIT_UNIT_GAP;
    }
  return height;
}

/**
 * lid_sheet_fit_leaf_height:
 *
 * Returns: the height of a leaf set as @fit says, mm
 */
double
lid_sheet_fit_leaf_height (const LidMachine *machine, const LidLeaf *leaf, const LidFit *fit)
{
  guint first[LID_FIT_MOST_SIDES + 1];
  double highest = 0;

  lid_sheet_fit_columns (machine, leaf, fit->sides, first);
  for (guint c = 0; c < fit->sides; c++)
    highest = MAX (highest, column_height (machine, leaf, first[c], first[c + 1], fit));
  if (leaf->list || fit->bars)
    return highest + LID_FIT_LIST_HEAD;
  return fit->sides == 1 ? MAX (highest, 14) : highest + LID_FIT_HEAD;
}

static double
whole_height (const LidMachine *machine, const LidPart *part, const LidFit *fit)
{
  double height = 0;

  for (guint l = 0; l < part->n_leaves; l += fit->across)
    {
      double row = 0;

      for (guint i = l; i < MIN (l + fit->across, part->n_leaves); i++)
        row = MAX (row, lid_sheet_fit_leaf_height (machine, &part->leaves[i], fit));
      height += row + (l > 0 ? LID_FIT_LEAF_GAP : 0);
    }
  return height;
}

/**
 * lid_sheet_fit_shape:
 * @scale: which of the LID_FIT_SCALES sizes of type
 *
 * Sets where things lie in a slot of that size.
 */
void
lid_sheet_fit_shape (const LidMachine *machine,
                     const LidFitWidest *widest,
                     guint scale,
                     LidSlotShape *shape)
{
  double name = scales[scale].name, words = scales[scale].words;
  double ring = machine->any_ring ? 6.2 * name : 0;

  shape->name_type = base_type (machine, 0);
  shape->words_type = base_type (machine, 1);
  shape->detail_type = base_type (machine, 2);
  shape->name_type.pt *= name;
  shape->words_type.pt *= words;
  shape->detail_type.pt *= MAX (words, 1);
  shape->latch = machine->any_latch ? 3.0 : 0;
  shape->name = widest->name * name;
  shape->trailer = 1.0 + ring + (machine->any_mark ? 4.4 : 0) + (machine->any_finding ? 7.0 : 0);
}

/**
 * lid_sheet_fit_needed:
 *
 * Returns: the width a slot needs for what it says, mm
 */
double
lid_sheet_fit_needed (const LidMachine *machine,
                      const LidFitWidest *widest,
                      const LidFit *fit,
                      guint scale)
{
  double words = widest->words[fit->shape.words] * scales[scale].words;
  double around = 2 * fit->shape.latch + 3.6 + fit->shape.trailer;

  if (fit->shape.lines == 2)
    words = MAX (words, widest->detail * MAX (scales[scale].words, 1));
  if (fit->shape.lines == 3)
    return around + MAX (fit->shape.name, words);
  return around + fit->shape.name + 2.5 + words;
}

/**
 * lid_sheet_fit_least_cell:
 *
 * Returns: the height a slot needs for its lines, mm
 */
double
lid_sheet_fit_least_cell (const LidFit *fit, guint size)
{
  double scale = scales[size].name;

  if (fit->shape.lines == 1)
    return 6.4 * scale;
  return (fit->shape.lines == 2 ? 9.2 : 11.4) * scale;
}

static gboolean
has_lists_only (const LidPart *part)
{
  for (guint l = 0; l < part->n_leaves; l++)
    if (!part->leaves[l].list)
      return FALSE;
  return TRUE;
}

static void
set_widths (const LidPart *part, const LidFitWidest *widest, double width, LidFit *fit)
{
  gboolean lists = has_lists_only (part);

  fit->label = CLAMP (widest->label, 6, 20);
  fit->leaf = (width - (fit->across - 1) * LID_FIT_ACROSS_GAP) / fit->across;
  if (lists)
    fit->middle = 0;
  else if (fit->bars)
    fit->middle = 0;
  else if (fit->sides == 1)
    fit->middle = LID_FIT_BOX + fit->label + 11;
  else
    fit->middle = 2 * (fit->label + 3.5) + 5;
  if (lists || fit->bars)
    fit->column = (fit->leaf - (fit->sides - 1) * LID_FIT_COLUMN_GAP) / fit->sides;
  else
    fit->column = (fit->leaf - fit->middle) / fit->sides;
  if (fit->bars)
    fit->column -= LID_FIT_BAR;
  fit->column = MIN (fit->column, 128);
}

/**
 * lid_sheet_fit_judge:
 * @room: height there is, mm
 *
 * Returns: how good a fit is, to compare fits of one part; about one for each step a reader sees
 */
double
lid_sheet_fit_judge (
    const LidMachine *machine, const LidPart *part, const LidFit *fit, guint scale, double room)
{
  double quality = fit->shape.words * 2.0 + (scales[scale].name - 1) * 3.5
                   + (scales[scale].words < 1 ? -0.4 : 0) - (fit->bars ? 1.2 : 0);

  if (fit->shape.lines == 2 && machine->any_detail)
    quality += 2.0;
  if (fit->shape.lines == 3)
    quality -= 0.5;
  if (fit->sides == 1 && part->n_slots <= 12)
    quality += 1.0;
  if (fit->sides > 2)
    quality -= 0.6 * (fit->sides - 2);
  /* Slots far wider than what they say look empty. */
  quality += 1.5 * MIN (1, fit->height / room);
  return quality;
}

static void
try_one (const LidMachine *machine,
         const LidPart *part,
         const LidFitWidest *widest,
         guint scale,
         double room,
         LidFit *one,
         LidFit *best)
{
  lid_sheet_fit_shape (machine, widest, scale, &one->shape);
  if (lid_sheet_fit_needed (machine, widest, one, scale) > one->column)
    return;
  one->cell = lid_sheet_fit_least_cell (one, scale);
  one->height = whole_height (machine, part, one);
  if (one->height > room)
    return;
  one->quality = lid_sheet_fit_judge (machine, part, one, scale, room);
  if (best->across == 0 || one->quality > best->quality)
    *best = *one;
}

static void
try_sides (const LidMachine *machine,
           const LidPart *part,
           const LidFitWidest *widest,
           double width,
           double height,
           LidFit *one,
           LidFit *best)
{
  set_widths (part, widest, width, one);
  for (one->shape.lines = 1; one->shape.lines <= 3; one->shape.lines++)
    for (one->shape.words = 0; one->shape.words < LID_N_WORDS; one->shape.words++)
      for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
        try_one (machine, part, widest, s, height, one, best);
}

/* A name too long for any page is cut in its middle, and only then. */
static void
force (const LidMachine *machine,
       const LidPart *part,
       const LidFitWidest *widest,
       double width,
       LidFit *best)
{
  double around;

  *best = (LidFit){ .across = 1, .sides = 1 };
  set_widths (part, widest, width, best);
  best->shape.lines = 3;
  lid_sheet_fit_shape (machine, widest, G_N_ELEMENTS (scales) - 1, &best->shape);
  around = 2 * best->shape.latch + 3.6 + best->shape.trailer;
  best->shape.name = MIN (best->shape.name, best->column - around);
  best->cell = lid_sheet_fit_least_cell (best, LID_FIT_SCALES - 1);
  best->height = whole_height (machine, part, best);
}

static void
stretch (const LidMachine *machine, const LidPart *part, double room, LidFit *fit)
{
  double least = fit->cell, most = fit->cell * (part->n_slots <= 12 ? 1.5 : 1.35);

  /* Height grows evenly with the cell: two points give the line. */
  double low = fit->height, per_mm;

  fit->cell = least + 1;
  per_mm = whole_height (machine, part, fit) - low;
  fit->cell = MIN (most, least + (per_mm > 0 ? (room - low) / per_mm : 0));
  fit->cell = MAX (fit->cell, least);
  fit->height = whole_height (machine, part, fit);
  if (fit->height > room + 1e-6)
    {
      fit->cell = least;
      fit->height = whole_height (machine, part, fit);
    }
}

/**
 * lid_sheet_fit_find:
 * @part: what stands on the page
 * @measure: of type
 * @width: mm
 * @height: mm
 * @fit: (out): the best way to set it
 *
 * Looks for the richest words, then two lines, then larger type, that fit.
 *
 * Returns: whether it fits; if not, @fit is the least it needs
 */
gboolean
lid_sheet_fit_find (const LidMachine *machine,
                    const LidPart *part,
                    const LidMeasure *measure,
                    double width,
                    double height,
                    LidFit *fit)
{
  LidFitWidest widest = { 0 };
  LidFit one = { 0 };
  gboolean lists = has_lists_only (part);

  measure_widest (machine, part, measure, &widest);
  *fit = (LidFit){ 0 };
  for (one.across = 1; one.across <= MIN (part->n_leaves, 4); one.across++)
    for (one.sides = 1; one.sides <= LID_FIT_MOST_SIDES; one.sides++)
      {
        if (lists || one.sides <= 2)
          try_sides (machine, part, &widest, width, height, &one, fit);
        one.bars = !lists;
        if (one.bars && one.sides >= 2)
          try_sides (machine, part, &widest, width, height, &one, fit);
        one.bars = FALSE;
      }
  lid_sheet_placed_try (machine, part, &widest, width, height, fit);
  if (fit->across == 0)
    {
      force (machine, part, &widest, width, fit);
      return fit->height <= height;
    }
  if (!fit->placed)
    stretch (machine, part, height, fit);
  return TRUE;
}
