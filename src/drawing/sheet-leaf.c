/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-leaf.h"

#include "drawing/sheet-placed.h"

/* The leaf on paper: the processor is the root and stands at the top, the midrib grows downwards,
 * because a page is read from the top; a channel is a vein to its slots. */
typedef struct
{
  const LidMachine *machine;
  const LidLeaf *leaf;
  const LidFit *fit;
  const LidSlotShape *shape;
  LidPage *page;
} Put;

static const LidType label_type = { 8, FALSE };
static const LidType head_type = { 10, TRUE };

static void
put_slot (const Put *put, guint slot, double x, double y)
{
  LidItem *item = lid_sheet_add (put->page, LID_ITEM_SLOT,
                                 (LidBox){ x, y, put->fit->column, put->fit->cell });

  item->look = &put->machine->sheet->looks[slot];
  item->shape = put->shape;
}

/* From the stem at (@stem_x, @stem_y) to the slots' edge at (@edge, @middle); the label stands on
 * the vein, at the slots. */
static void
put_vein (
    const Put *put, const LidUnit *unit, double stem_x, double stem_y, double edge, double middle)
{
  gboolean right = edge > stem_x;
  LidItem *item = lid_sheet_add (put->page, LID_ITEM_VEIN,
                                 (LidBox){ stem_x, stem_y, edge - stem_x, middle - stem_y });
  double line = lid_measure_line (label_type);
  LidBox box = { edge - put->fit->label - 1, middle - line - 0.8, put->fit->label, line };

  /* A vein that comes down to its slots leaves the room under its end free, not over it. */
  if (stem_y < middle - 1)
    box.y = middle + 0.9;
  item->weight = unit->carries > 0 ? unit->carries * lid_theme_print ()->fullvein : 0.3;
  item->broken = unit->carries <= 0;
  if (!right)
    box.x = edge + 1;
  lid_sheet_line (put->page, box, label_type, right ? LID_ALIGN_RIGHT : LID_ALIGN_LEFT,
                  unit->label);
}

static double
unit_height (const Put *put, const LidUnit *unit)
{
  return unit->n_slots * put->fit->cell + (unit->n_slots - 1) * LID_FIT_SLOT_GAP;
}

static double
put_unit (const Put *put, const LidUnit *unit, double x, double y)
{
  for (guint s = 0; s < unit->n_slots; s++)
    put_slot (put, unit->slots[s], x, y + s * (put->fit->cell + LID_FIT_SLOT_GAP));
  return unit_height (put, unit);
}

static void
put_processor (const Put *put, LidBox box)
{
  LidItem *frame = lid_sheet_add (put->page, LID_ITEM_FRAME, box);
  double line = lid_measure_line (head_type), under = lid_measure_line (label_type);
  double high = put->leaf->under != NULL ? line + under : line;
  LidBox text = { box.x + 1, box.y + (box.height - high) / 2, box.width - 2, line };

  frame->weight = put->leaf->under != NULL ? 0.3 : 0.5;
  frame->broken = put->leaf->under != NULL;
  lid_sheet_line (put->page, text, head_type, LID_ALIGN_CENTRE, put->leaf->title);
  if (put->leaf->under == NULL)
    return;
  text.y += line;
  text.height = under;
  lid_sheet_line (put->page, text, label_type, LID_ALIGN_CENTRE, put->leaf->under);
}

/* Columns left and right of the midrib; further pairs of columns do not exist. */
static void
put_two_sided (const Put *put, double x, double y)
{
  const LidFit *fit = put->fit;
  double total = 2 * fit->column + fit->middle, lowest = y;
  double centre = x + (fit->leaf - total) / 2 + total / 2;
  double box_height = put->leaf->under != NULL ? LID_FIT_HEAD + 1 : 7;
  guint first[LID_FIT_MOST_SIDES + 1];
  LidItem *stem;
  guint stem_at = put->page->items->len;

  stem = lid_sheet_add (put->page, LID_ITEM_STEM, (LidBox){ centre, y + box_height, 0, 0 });
  stem->weight = 2.6;
  put_processor (put, (LidBox){ centre - 17, y, 34, box_height });
  lid_sheet_fit_columns (put->machine, put->leaf, 2, first);
  for (guint c = 0; c < 2; c++)
    {
      double edge = c == 0 ? centre - fit->middle / 2 : centre + fit->middle / 2;
      double at = y + LID_FIT_HEAD;

      for (guint u = first[c]; u < first[c + 1]; u++)
        {
          const LidUnit *unit = lid_sheet_machine_unit (put->machine, put->leaf->first_unit + u);
          double high = put_unit (put, unit, c == 0 ? edge - fit->column : edge, at);
          double join = MAX (at + high / 2 - 5, y + box_height + 0.6);

          put_vein (put, unit, centre, join, edge, at + high / 2);
          lowest = MAX (lowest, join + 1.5);
          at += high + LID_FIT_UNIT_GAP;
        }
    }
  stem = &g_array_index (put->page->items, LidItem, stem_at);
  stem->box.height = lowest - stem->box.y;
}

/* One column; the processor stands beside it and the veins fan out. */
static void
put_one_sided (const Put *put, double x, double y)
{
  const LidFit *fit = put->fit;
  double high = lid_sheet_fit_leaf_height (put->machine, put->leaf, fit);
  double slots = 0, at, edge;
  double box_height = CLAMP (high * 0.45, 14, 30);
  LidBox box = { x + (fit->leaf - fit->middle - fit->column) / 2, y + (high - box_height) / 2,
                 LID_FIT_BOX, box_height };

  edge = box.x + fit->middle;
  for (guint u = 0; u < put->leaf->n_units; u++)
    slots += unit_height (put, lid_sheet_machine_unit (put->machine, put->leaf->first_unit + u))
             + (u > 0 ? LID_FIT_UNIT_GAP : 0);
  at = y + (high - slots) / 2;
  put_processor (put, box);
  for (guint u = 0; u < put->leaf->n_units; u++)
    {
      const LidUnit *unit = lid_sheet_machine_unit (put->machine, put->leaf->first_unit + u);
      double tall = put_unit (put, unit, edge, at);
      double spread = (u + 0.5) / put->leaf->n_units;

      put_vein (put, unit, box.x + box.width, box.y + box.height * (0.2 + 0.6 * spread), edge,
                at + tall / 2);
      at += tall + LID_FIT_UNIT_GAP;
    }
}

static void
put_heading (const Put *put, double x, double y, double width)
{
  double line = lid_measure_line (head_type);

  lid_sheet_line (put->page, (LidBox){ x, y, width * 0.6, line }, head_type, LID_ALIGN_LEFT,
                  put->leaf->title);
  if (put->leaf->under != NULL)
    lid_sheet_line (put->page, (LidBox){ x + width * 0.6, y + 0.6, width * 0.4, line }, label_type,
                    LID_ALIGN_RIGHT, put->leaf->under);
}

static void
put_list (const Put *put, double x, double y)
{
  const LidFit *fit = put->fit;
  guint first[LID_FIT_MOST_SIDES + 1];
  double step = fit->column + LID_FIT_COLUMN_GAP + (fit->bars ? LID_FIT_BAR : 0);
  double used = fit->sides * step - LID_FIT_COLUMN_GAP;
  double left = x + (fit->leaf - used) / 2;

  put_heading (put, left, y, used);
  lid_sheet_fit_columns (put->machine, put->leaf, fit->sides, first);
  for (guint c = 0; c < fit->sides; c++)
    for (guint u = first[c]; u < first[c + 1]; u++)
      put_unit (put, lid_sheet_machine_unit (put->machine, put->leaf->first_unit + u),
                left + c * step + (fit->bars ? LID_FIT_BAR : 0),
                y + LID_FIT_LIST_HEAD + (u - first[c]) * (fit->cell + LID_FIT_SLOT_GAP));
}

/* Where stems find no room: the channel's name over its slots, and what it carries as a bar. */
static void
put_bar (const Put *put, const LidUnit *unit, double x, double y)
{
  double line = lid_measure_line (label_type), high = unit_height (put, unit);
  LidItem *bar;

  lid_sheet_line (put->page, (LidBox){ x + LID_FIT_BAR, y, put->fit->column, line }, label_type,
                  LID_ALIGN_LEFT, unit->label);
  y += LID_FIT_BAR_LABEL;
  bar = lid_sheet_add (put->page, LID_ITEM_RULE, (LidBox){ x + 1, y + 0.4, 0, high - 0.8 });
  bar->weight = unit->carries > 0 ? unit->carries * lid_theme_print ()->fullvein : 0.3;
  bar->broken = unit->carries <= 0;
  put_unit (put, unit, x + LID_FIT_BAR, y);
}

static void
put_bars (const Put *put, double x, double y)
{
  const LidFit *fit = put->fit;
  guint first[LID_FIT_MOST_SIDES + 1];
  double step = fit->column + LID_FIT_BAR + LID_FIT_COLUMN_GAP;
  double used = fit->sides * step - LID_FIT_COLUMN_GAP;
  double left = x + (fit->leaf - used) / 2;

  put_heading (put, left, y, used);
  lid_sheet_fit_columns (put->machine, put->leaf, fit->sides, first);
  for (guint c = 0; c < fit->sides; c++)
    {
      double at = y + LID_FIT_LIST_HEAD;

      for (guint u = first[c]; u < first[c + 1]; u++)
        {
          const LidUnit *unit = lid_sheet_machine_unit (put->machine, put->leaf->first_unit + u);

          put_bar (put, unit, left + c * step, at);
          at += LID_FIT_BAR_LABEL + unit_height (put, unit) + LID_FIT_BAR_GAP;
        }
    }
}

/**
 * lid_sheet_leaf_put:
 * @fit: what lid_sheet_fit_find() found for @part
 * @page: gets the items
 * @x: left edge, mm
 * @y: top, mm
 * @width: the same that was given to lid_sheet_fit_find()
 */
void
lid_sheet_leaf_put (const LidMachine *machine,
                    const LidPart *part,
                    const LidFit *fit,
                    LidPage *page,
                    double x,
                    double y,
                    double width)
{
  LidSlotShape *shape = g_memdup2 (&fit->shape, sizeof fit->shape);
  double row = 0;

  g_ptr_array_add (machine->sheet->shapes, shape);
  if (fit->placed)
    {
      lid_sheet_placed_put (machine, fit, shape, page, x, y, width);
      return;
    }
  for (guint l = 0; l < part->n_leaves; l++)
    {
      Put put = { machine, &part->leaves[l], fit, shape, page };
      guint column = l % fit->across;
      double left = x + column * (fit->leaf + LID_FIT_ACROSS_GAP);

      if (column == 0 && l > 0)
        {
          y += row + LID_FIT_LEAF_GAP;
          row = 0;
        }
      row = MAX (row, lid_sheet_fit_leaf_height (machine, put.leaf, fit));
      if (put.leaf->list)
        put_list (&put, left, y);
      else if (fit->bars)
        put_bars (&put, left, y);
      else if (fit->sides == 1)
        put_one_sided (&put, left, y);
      else
        put_two_sided (&put, left, y);
    }
}
