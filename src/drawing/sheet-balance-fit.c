/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-balance-fit.h"

/* The leaf of the page for the owner, smaller than the one to work by: two of them stand beside
 * each other, with 192 slots if need be. What is in a slot is told in words where there is room for
 * them, else by weight: full, new, empty. Both sides are set alike, so that the eye compares. */
#define LEAST_PT 8.0
#define LETTER_SHARE 1.0 /* of a line, what a letter needs with its gap */
#define TOUCHING 2.0     /* quality lost where letters touch */
#define ACROSS_GAP LID_BALANCE_ACROSS_GAP
#define SLOT_GAP LID_BALANCE_SLOT_GAP

static guint
most_slots (const LidMachine *machine)
{
  guint most = 1;

  for (guint u = 0; u < machine->units->len; u++)
    most = MAX (most, lid_sheet_machine_unit (machine, u)->n_slots);
  return most;
}

/* The channel's own name; the whole label says "channel" before it. */
static const char *
short_label (const LidMachine *machine, const LidUnit *unit)
{
  int channel = machine->board->slots[unit->slots[0]].channel;

  return channel != LID_NOWHERE ? machine->board->channels[channel].name : "";
}

const char *
lid_sheet_balance_fit_label (const LidMachine *machine,
                             const LidUnit *unit,
                             const LidBalanceFit *fit)
{
  return fit->long_label && unit->label != NULL ? unit->label : short_label (machine, unit);
}

static void
widen_words (const LidBalanceSide *side, const LidMeasure *measure, LidBalanceFit *fit)
{
  LidType strong = { fit->pt, TRUE }, plain = { fit->pt, FALSE };

  if (side->population == NULL)
    return;
  for (guint i = 0; i < side->machine->board->n_slots; i++)
    {
      const LidSlotLook *look = &side->looks[i];

      if (fit->words == 2)
        fit->name = MAX (fit->name, lid_measure_width (measure, strong, look->name));
      fit->needed
          = MAX (fit->needed, lid_measure_width (measure, plain, look->words[LID_WORDS_SHORT]));
    }
}

static void
measure_words (const LidBalance *balance, const LidMeasure *measure, LidBalanceFit *fit)
{
  fit->name = fit->needed = 0;
  if (fit->words == 0)
    return;
  widen_words (&balance->found, measure, fit);
  widen_words (&balance->planned, measure, fit);
  fit->needed += fit->name + (fit->words == 2 ? 2.0 : 0) + 2.6 + LID_BALANCE_TRAILER;
}

guint
lid_sheet_balance_fit_sides (const LidLeaf *leaf, const LidBalanceFit *fit)
{
  double least = fit->words > 0 ? fit->needed : 7;

  if (!leaf->list)
    return leaf->n_units > 1 ? 2 : 1;
  return CLAMP ((guint)((fit->leaf + SLOT_GAP) / (least + SLOT_GAP)), 1, MIN (leaf->n_slots, 6));
}

double
lid_sheet_balance_fit_unit (const LidUnit *unit, const LidBalanceFit *fit)
{
  return fit->stacked ? unit->n_slots * (fit->cell + SLOT_GAP) - SLOT_GAP : fit->cell;
}

/* Shares channels out to the columns: the first ones take what is over, reading goes downwards. */
guint
lid_sheet_balance_fit_column (const LidLeaf *leaf, guint sides, guint column)
{
  return (leaf->n_units * (column + 1) + sides - 1) / sides;
}

double
lid_sheet_balance_fit_leaf (const LidMachine *machine,
                            const LidLeaf *leaf,
                            const LidBalanceFit *fit)
{
  guint sides = lid_sheet_balance_fit_sides (leaf, fit), unit = 0;
  double gap = leaf->list ? SLOT_GAP : fit->unit_gap, highest = 0;

  for (guint c = 0; c < sides; c++)
    {
      double height = 0;

      for (; unit < lid_sheet_balance_fit_column (leaf, sides, c); unit++)
        height += lid_sheet_balance_fit_unit (
                      lid_sheet_machine_unit (machine, leaf->first_unit + unit), fit)
                  + (height > 0 ? gap : 0);
      highest = MAX (highest, height);
    }
  return highest + (leaf->list ? LID_BALANCE_LIST_HEAD : sides > 1 ? fit->head : fit->head + 3);
}

static double
whole_height (const LidMachine *machine, const LidBalanceFit *fit)
{
  double height = 0;

  for (guint l = 0; l < machine->leaves->len; l += fit->across)
    {
      double row = 0;

      for (guint i = l; i < MIN (l + fit->across, machine->leaves->len); i++)
        row = MAX (row, lid_sheet_balance_fit_leaf (
                            machine, &g_array_index (machine->leaves, LidLeaf, i), fit));
      height += row + (l > 0 ? fit->leaf_gap : 0);
    }
  return height;
}

static void
set_label (const LidMachine *machine, const LidMeasure *measure, LidBalanceFit *fit)
{
  fit->label = 0;
  for (guint u = 0; u < machine->units->len; u++)
    fit->label = MAX (fit->label,
                      lid_measure_width (measure, lid_sheet_balance_fit_type (fit),
                                         lid_sheet_balance_fit_label (
                                             machine, lid_sheet_machine_unit (machine, u), fit)));
  fit->label = CLAMP (fit->label, 3, fit->long_label ? 22 : 9);
}

double
lid_sheet_balance_fit_slot (const LidBalanceFit *fit, double column, guint n)
{
  return fit->stacked ? column : (column - (n - 1) * SLOT_GAP) / n;
}

/* The largest cell that fits the height; between what its words need and what looks filled. */
static gboolean
set_cell (const LidMachine *machine, double height, LidBalanceFit *fit)
{
  double line = lid_measure_line ((LidType){ fit->pt, FALSE });
  double low = fit->words > 0 ? line * 1.08 : 1.75, high = fit->words > 0 ? line * 2.3 : 5.5;

  fit->cell = low;
  if (whole_height (machine, fit) > height)
    return FALSE;
  for (guint i = 0; i < 12; i++)
    {
      fit->cell = (low + high) / 2;
      if (whole_height (machine, fit) > height)
        high = fit->cell;
      else
        low = fit->cell;
    }
  fit->cell = low;
  fit->height = whole_height (machine, fit);
  return TRUE;
}

static void
try_one (const LidBalance *balance,
         const LidMachine *machine,
         const LidMeasure *measure,
         double width,
         double height,
         LidBalanceFit *one,
         LidBalanceFit *best)
{
  gboolean lists = TRUE;

  for (guint l = 0; l < machine->leaves->len; l++)
    lists = lists && g_array_index (machine->leaves, LidLeaf, l).list;
  set_label (machine, measure, one);
  one->leaf = (width - (one->across - 1) * ACROSS_GAP) / one->across;
  one->unit_gap = one->words > 0 ? 1.9 : 0.7;
  one->leaf_gap = one->words > 0 ? 4.0 : 2.0;
  one->head = one->words > 0 ? 9.0 : 6.9;
  one->middle = 2 * (one->label + 2.2) + 5;
  one->column = MIN ((one->leaf - one->middle) / 2, 60);
  if (lists ? one->leaf < one->needed
            : lid_sheet_balance_fit_slot (one, one->column, most_slots (machine))
                  < MAX (one->needed, 3.2))
    return;
  if (!set_cell (machine, height, one))
    return;
  one->quality = one->words * 2.0 + (one->pt - LEAST_PT) * 0.5 + (one->long_label ? 0.8 : 0)
                 + MIN (1, one->height / height) - 0.1 * one->across;
  /* Larger words beside a leaf whose channels' letters touch are no gain. */
  if (machine->units->len > 0
      && lid_sheet_balance_fit_unit (lid_sheet_machine_unit (machine, 0), one) + one->unit_gap
             < lid_measure_line (lid_sheet_balance_fit_type (one)) * LETTER_SHARE)
    one->quality -= TOUCHING;
  if (best->across == 0 || one->quality > best->quality)
    *best = *one;
}

/**
 * lid_sheet_balance_fit_find:
 * @width: of one side, mm
 * @height: there is, mm
 * @fit: (out): the best way to set the machine
 *
 * Returns: whether there is one
 */
gboolean
lid_sheet_balance_fit_find (const LidBalance *balance,
                            const LidMeasure *measure,
                            double width,
                            double height,
                            LidBalanceFit *fit)
{
  static const double sizes[] = { 12, 10.5, 9.5, 8.5, LEAST_PT };
  const LidMachine *machine
      = balance->planned.population != NULL ? balance->planned.machine : balance->found.machine;
  guint most_across = MIN (machine->leaves->len, 4);
  LidBalanceFit one = { 0 };

  *fit = (LidBalanceFit){ 0 };
  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (one.words = 0; one.words <= 2; one.words++)
      {
        one.pt = sizes[s];
        if (one.words == 0 && s + 1 < G_N_ELEMENTS (sizes))
          continue;
        measure_words (balance, measure, &one);
        for (guint o = 0; o < 4 * most_across; o++)
          {
            one.across = 1 + o / 4;
            one.stacked = (o & 1) != 0;
            one.long_label = (o & 2) != 0;
            try_one (balance, machine, measure, width, height, &one, fit);
          }
      }
  return fit->across > 0;
}
