/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-balance-fit.h"

#define SLOT_GAP LID_BALANCE_SLOT_GAP
#define TRAILER LID_BALANCE_TRAILER

static const LidType head_type = { 9, TRUE };

typedef struct
{
  const LidBalanceSide *side;
  const LidBalanceFit *fit;
  LidPage *page;
} Put;

static LidItem *
put_frame (const Put *put, LidBox box, double weight, gboolean broken)
{
  LidItem *item;

  box.x += weight / 2;
  box.y += weight / 2;
  box.width -= weight;
  box.height -= weight;
  item = lid_sheet_add (put->page, LID_ITEM_FRAME, box);
  item->weight = weight;
  item->broken = broken;
  return item;
}

static void
put_mark (const Put *put, LidMark mark, LidBox box)
{
  if (mark != LID_MARK_NONE)
    lid_sheet_add (put->page, LID_ITEM_MARK, box)->number = mark;
}

/* Without words: black is what stays, lined what comes. */
static LidItem *
put_plain_slot (const Put *put, const LidSlotLook *look, LidBox box)
{
  LidItem *item;

  if (look->empty)
    return put_frame (put, box, lid_theme_print ()->line, TRUE);
  item = lid_sheet_add (put->page, LID_ITEM_PATTERN, box);
  if (look->finding != LID_HATCH_NONE)
    item->number = look->finding;
  else if (look->mark == LID_MARK_NEW)
    item->number = LID_HATCH_UPRIGHT;
  else
    item->number = look->mark == LID_MARK_MOVED ? LID_HATCH_ACROSS : LID_HATCH_SOLID;
  return item;
}

static void
put_slot (const Put *put, guint slot, LidBox box)
{
  const LidSlotLook *look = &put->side->looks[slot];
  const LidBalanceFit *fit = put->fit;
  LidType strong = { fit->pt, TRUE }, plain = { fit->pt, look->heavy };
  double line = lid_measure_line (plain), y = box.y + (box.height - line) / 2;
  double left = box.x + 1.3, right = box.x + box.width - TRAILER;

  if (fit->words == 0)
    {
      put_plain_slot (put, look, box)->look = look;
      return;
    }
  put_frame (put, box, look->heavy ? lid_theme_print ()->heavy : lid_theme_print ()->line,
             look->empty)
      ->look
      = look;
  if (fit->words == 2)
    {
      lid_sheet_line (put->page, (LidBox){ left, y, fit->name, line }, strong, LID_ALIGN_LEFT,
                      look->name);
      left += fit->name + 2.0;
    }
  lid_sheet_line (put->page, (LidBox){ left, y, right - left, line }, plain, LID_ALIGN_LEFT,
                  look->words[LID_WORDS_SHORT]);
  if (look->mark == LID_MARK_NONE && look->finding != LID_HATCH_NONE)
    lid_sheet_add (put->page, LID_ITEM_PATTERN,
                   (LidBox){ right + 0.4, box.y + box.height / 2 - 1.5, 3.6, 3 })
        ->number
        = look->finding;
  put_mark (put, look->mark, (LidBox){ right + 0.4, box.y + box.height / 2 - 1.6, 3.8, 3.2 });
}

static void
put_unit (const Put *put, const LidUnit *unit, double x, double y, double width)
{
  double each = lid_sheet_balance_fit_slot (put->fit, width, unit->n_slots);

  for (guint s = 0; s < unit->n_slots; s++)
    {
      LidBox box = { x, y, each, put->fit->cell };

      if (put->fit->stacked)
        box.y += s * (put->fit->cell + SLOT_GAP);
      else
        box.x += s * (each + SLOT_GAP);
      put_slot (put, unit->slots[s], box);
    }
}

/* As thick as what the channel carries; thinner where slots are small. */
static double
vein_weight (const Put *put, const LidUnit *unit)
{
  double full = put->fit->words > 0 ? lid_theme_print ()->fullvein : 0.8;

  return unit->carries > 0 ? unit->carries * full : 0.3;
}

static void
put_vein (const Put *put, const LidUnit *unit, double stem_x, double stem_y, double edge, double y)
{
  LidItem *item = lid_sheet_add (put->page, LID_ITEM_VEIN,
                                 (LidBox){ stem_x, stem_y, edge - stem_x, y - stem_y });
  double line = lid_measure_line (lid_sheet_balance_fit_type (put->fit)), width = put->fit->label;
  /* The vein comes down to its slots: the room under its end is free. */
  LidBox box = { edge > stem_x ? edge - width - 0.8 : edge + 0.8,
                 y + (put->fit->words > 0 ? 0.9 : 0.4), width, line };

  item->weight = vein_weight (put, unit);
  item->broken = unit->carries <= 0;
  lid_sheet_line (put->page, box, lid_sheet_balance_fit_type (put->fit),
                  edge > stem_x ? LID_ALIGN_RIGHT : LID_ALIGN_LEFT,
                  lid_sheet_balance_fit_label (put->side->machine, unit, put->fit));
}

static double
put_processor (const Put *put, const LidLeaf *leaf, double centre, double y)
{
  double line = lid_measure_line (head_type),
         under = lid_measure_line (lid_sheet_balance_fit_type (put->fit));
  double height = put->fit->head - (leaf->under == NULL ? 2.5 : put->fit->words > 0 ? 1 : 0.5);
  double width = MIN (34, put->fit->leaf);
  double top = y + (height - line - (leaf->under != NULL ? under : 0)) / 2;
  LidBox box = { centre - width / 2, y, width, height };

  put_frame (put, box, leaf->under != NULL ? 0.3 : 0.5, leaf->under != NULL);
  lid_sheet_line (put->page, (LidBox){ box.x + 1, top, width - 2, line }, head_type,
                  LID_ALIGN_CENTRE, leaf->title);
  if (leaf->under != NULL)
    lid_sheet_line (put->page, (LidBox){ box.x + 1, top + line, width - 2, under },
                    lid_sheet_balance_fit_type (put->fit), LID_ALIGN_CENTRE, leaf->under);
  return y + height;
}

/* One channel: straight below its processor. */
static void
put_single (const Put *put, const LidLeaf *leaf, double centre, double y)
{
  const LidUnit *unit = lid_sheet_machine_unit (put->side->machine, leaf->first_unit);
  double below = put_processor (put, leaf, centre, y), top = y + put->fit->head + 3;
  double width = MIN (put->fit->column * 2, put->fit->leaf);
  LidItem *item
      = lid_sheet_add (put->page, LID_ITEM_RULE, (LidBox){ centre, below, 0, top - below });

  item->weight = vein_weight (put, unit);
  item->broken = unit->carries <= 0;
  lid_sheet_line (
      put->page,
      (LidBox){ centre + 1.5, top - lid_measure_line (lid_sheet_balance_fit_type (put->fit)) - 0.4,
                put->fit->label, lid_measure_line (lid_sheet_balance_fit_type (put->fit)) },
      lid_sheet_balance_fit_type (put->fit), LID_ALIGN_LEFT,
      lid_sheet_balance_fit_label (put->side->machine, unit, put->fit));
  put_unit (put, unit, centre - width / 2, top, width);
}

static void
put_leaf (const Put *put, const LidLeaf *leaf, double centre, double y)
{
  const LidBalanceFit *fit = put->fit;
  double below = put_processor (put, leaf, centre, y), lowest = below + 2;
  LidItem *stem = lid_sheet_add (put->page, LID_ITEM_STEM, (LidBox){ centre, below, 0, 0 });
  guint stem_at = put->page->items->len - 1, unit = 0;

  stem->weight = 2.0;
  for (guint c = 0; c < 2; c++)
    {
      double edge = centre + (c == 0 ? -0.5 : 0.5) * fit->middle, at = y + fit->head;

      for (; unit < lid_sheet_balance_fit_column (leaf, 2, c); unit++)
        {
          const LidUnit *one = lid_sheet_machine_unit (put->side->machine, leaf->first_unit + unit);
          double high = lid_sheet_balance_fit_unit (one, fit);
          double join = MAX (at + high / 2 - 4, below + 0.5);

          put_unit (put, one, c == 0 ? edge - fit->column : edge, at, fit->column);
          put_vein (put, one, centre, join, edge, at + high / 2);
          lowest = MAX (lowest, join + 1.2);
          at += high + fit->unit_gap;
        }
    }
  stem = &g_array_index (put->page->items, LidItem, stem_at);
  stem->box.height = lowest - below;
}

static void
put_list (const Put *put, const LidLeaf *leaf, double x, double y)
{
  const LidBalanceFit *fit = put->fit;
  guint sides = lid_sheet_balance_fit_sides (leaf, fit), unit = 0;
  double width = MIN ((fit->leaf - (sides - 1) * SLOT_GAP * 2) / sides, 60);
  double line = lid_measure_line (head_type), left = x;
  double used = sides * width + (sides - 1) * SLOT_GAP * 2;

  left += (fit->leaf - used) / 2;
  lid_sheet_line (put->page, (LidBox){ left, y, used * 0.55, line }, head_type, LID_ALIGN_LEFT,
                  leaf->title);
  lid_sheet_line (put->page, (LidBox){ left + used * 0.57, y + 0.3, used * 0.43, line },
                  lid_sheet_balance_fit_type (put->fit), LID_ALIGN_RIGHT, leaf->under);
  for (guint c = 0; c < sides; c++)
    for (double at = y + LID_BALANCE_LIST_HEAD;
         unit < lid_sheet_balance_fit_column (leaf, sides, c); unit++, at += fit->cell + SLOT_GAP)
      put_unit (put, lid_sheet_machine_unit (put->side->machine, leaf->first_unit + unit),
                left + c * (width + SLOT_GAP * 2), at, width);
}

/**
 * lid_sheet_balance_leaf_put:
 * @fit: what lid_sheet_balance_fit_find() found
 * @area: left, top and the width that was given to it
 *
 * Draws one side.
 */
void
lid_sheet_balance_leaf_put (const LidBalanceSide *side,
                            const LidBalanceFit *fit,
                            LidPage *page,
                            LidBox area)
{
  Put put = { side, fit, page };
  double row = 0, y = area.y;

  for (guint l = 0; l < side->machine->leaves->len; l++)
    {
      const LidLeaf *leaf = &g_array_index (side->machine->leaves, LidLeaf, l);
      double x = area.x + (l % fit->across) * (fit->leaf + LID_BALANCE_ACROSS_GAP);

      if (l % fit->across == 0 && l > 0)
        {
          y += row + fit->leaf_gap;
          row = 0;
        }
      row = MAX (row, lid_sheet_balance_fit_leaf (side->machine, leaf, fit));
      if (leaf->list)
        put_list (&put, leaf, x, y);
      else if (leaf->n_units == 1)
        put_single (&put, leaf, x + fit->leaf / 2, y);
      else
        put_leaf (&put, leaf, x + fit->leaf / 2, y);
    }
}
