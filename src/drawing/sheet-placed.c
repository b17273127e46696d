/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-placed.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <stdlib.h>

/* Nearly every board has its slots upright in one row, with the processors between them. Drawn to
 * scale such a row is too fine for names that are read at arm's length, so only order, neighbours
 * and gaps are kept; the page says so. Boards that lie otherwise are drawn by channel. */
#define GAP_FACTOR 2.2   /* a distance so much wider than the least is a gap */
#define PROCESSOR_GAP 31 /* where a processor lies between its slots */
#define OTHER_GAP 7
#define MOST_PITCH 14.0
#define BETWEEN 1.3  /* between neighbours */
#define CAPTION 5.5  /* over the slots */
#define CHANNELS 6.0 /* under them */

typedef struct
{
  guint slot;
  double x;   /* on the board, mm */
  double gap; /* on the page, before this slot */
} Place;

static int
compare_places (gconstpointer a, gconstpointer b)
{
  double d = ((const Place *)a)->x - ((const Place *)b)->x;

  return d < 0 ? -1 : d > 0;
}

/* The row, or NULL where the slots do not stand in one. */
static GArray *
find_row (const LidBoard *board, double *gaps)
{
  g_autoptr (GArray) row = g_array_sized_new (FALSE, FALSE, sizeof (Place), board->n_slots);
  double least = G_MAXDOUBLE;

  if (!board->placed || board->n_slots < 2)
    return NULL;
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidBoardSlot *slot = &board->slots[i];
      Place place = { i, slot->x + slot->width / 2, 0 };

      if (slot->soldered != NULL || slot->turn != 0 || slot->height < 3 * slot->width
          || fabs (slot->y - board->slots[0].y) > slot->height / 4)
        return NULL;
      g_array_append_val (row, place);
    }
  g_array_sort (row, compare_places);
  for (guint i = 1; i < row->len; i++)
    least = MIN (least, g_array_index (row, Place, i).x - g_array_index (row, Place, i - 1).x);
  if (least <= 0)
    return NULL;
  *gaps = 0;
  for (guint i = 1; i < row->len; i++)
    {
      Place *place = &g_array_index (row, Place, i), *left = place - 1;

      if (place->x - left->x > GAP_FACTOR * least)
        place->gap = board->slots[place->slot].socket == board->slots[left->slot].socket
                         ? PROCESSOR_GAP
                         : OTHER_GAP;
      *gaps += place->gap;
    }
  return g_steal_pointer (&row);
}

/**
 * lid_sheet_placed_try:
 * @best: (inout): replaced if the board can be drawn as it lies and that is the better page
 */
void
lid_sheet_placed_try (const LidMachine *machine,
                      const LidPart *part,
                      const LidFitWidest *widest,
                      double width,
                      double height,
                      LidFit *best)
{
  double gaps;
  g_autoptr (GArray) row = NULL;
  LidFit one = { .placed = TRUE, .across = 1, .sides = 1 };

  /* The lid sheet is read from a step away: its names stand level, by channel. Where the hands are,
   * places count for more. */
  if (machine->sheet->options.what == LID_SHEET_LID || part->n_slots != machine->board->n_slots)
    return;
  row = find_row (machine->board, &gaps);
  if (row == NULL)
    return;
  one.cell = MIN ((width - gaps) / row->len, MOST_PITCH) - BETWEEN;
  for (one.shape.lines = 1; one.shape.lines <= 2; one.shape.lines++)
    for (one.shape.words = LID_WORDS_MEDIUM; one.shape.words < LID_N_WORDS; one.shape.words++)
      for (guint scale = 0; scale < LID_FIT_SCALES; scale++)
        {
          double room = height - CAPTION - CHANNELS, needed;

          lid_sheet_fit_shape (machine, widest, scale, &one.shape);
          needed = lid_sheet_fit_needed (machine, widest, &one, scale);
          if (needed > room || lid_sheet_fit_least_cell (&one, scale) > one.cell + BETWEEN / 2)
            continue;
          one.column = MIN (needed * 1.25, room);
          one.height = one.column + CAPTION + CHANNELS;
          /* Where the hands work, the board as it lies is worth more than larger words. */
          one.quality = lid_sheet_fit_judge (machine, part, &one, scale, height) + 3;
          if (best->across == 0 || one.quality > best->quality)
            *best = one;
        }
}

static double
carries_of (const LidMachine *machine, guint slot)
{
  for (guint u = 0; u < machine->units->len; u++)
    {
      const LidUnit *unit = lid_sheet_machine_unit (machine, u);

      for (guint s = 0; s < unit->n_slots; s++)
        if (unit->slots[s] == slot)
          return unit->carries;
    }
  return 0;
}

/* One channel's neighbours: the vein under them as a bar, and its name. */
static void
put_channel (const LidMachine *machine, LidPage *page, guint slot, double x, double y, double width)
{
  const LidBoardSlot *first = &machine->board->slots[slot];
  const LidType type = { 8, FALSE };
  double carries = carries_of (machine, slot);
  const char *name;
  LidItem *bar;

  if (first->channel == LID_NOWHERE)
    return;
  bar = lid_sheet_add (page, LID_ITEM_RULE, (LidBox){ x + 0.4, y + 1.2, width - 0.8, 0 });
  bar->weight = carries > 0 ? carries * lid_theme_print ()->fullvein : 0.3;
  bar->broken = carries <= 0;
  name = machine->board->channels[first->channel].name;
  if (width >= 15)
    name = lid_sheet_keep (machine->sheet, g_strdup_printf (_ ("channel %s"), name));
  lid_sheet_line (page, (LidBox){ x, y + 2.4, width, lid_measure_line (type) }, type,
                  LID_ALIGN_CENTRE, name);
}

static void
put_processor (const LidMachine *machine, LidPage *page, int socket, double x, double y)
{
  const LidType type = { 10, TRUE };
  double line = lid_measure_line (type);
  LidBox box = { x + 3.5, y, PROCESSOR_GAP - 7, 30 };
  LidItem *frame = lid_sheet_add (page, LID_ITEM_FRAME, box);
  const char *name = socket == LID_NOWHERE ? NULL : machine->board->sockets[socket].name;

  frame->weight = 0.5;
  lid_sheet_line (page, (LidBox){ box.x + 1, y + 15 - line, box.width - 2, line }, type,
                  LID_ALIGN_CENTRE, _ ("processor"));
  if (name != NULL)
    lid_sheet_line (page, (LidBox){ box.x + 1, y + 15, box.width - 2, line }, type,
                    LID_ALIGN_CENTRE, name);
}

static void
put_caption (LidPage *page, double x, double y, double width)
{
  const LidType type = { 8, FALSE };

  lid_sheet_line (page, (LidBox){ x, y, width, lid_measure_line (type) }, type, LID_ALIGN_LEFT,
                  _ ("The board as it lies, lid off; order and gaps as they are, not to scale."));
}

/**
 * lid_sheet_placed_put:
 * @fit: a fit with @placed set
 * @width: the same as for lid_sheet_placed_try()
 */
void
lid_sheet_placed_put (const LidMachine *machine,
                      const LidFit *fit,
                      const LidSlotShape *shape,
                      LidPage *page,
                      double x,
                      double y,
                      double width)
{
  double gaps, pitch = fit->cell + BETWEEN, run = 0;
  g_autoptr (GArray) row = find_row (machine->board, &gaps);
  guint first = 0;

  put_caption (page, x, y, width);
  x += (width - gaps - row->len * pitch) / 2;
  y += CAPTION;
  for (guint i = 0; i < row->len; i++)
    {
      const Place *place = &g_array_index (row, Place, i);
      const LidBoardSlot *slot = &machine->board->slots[place->slot];
      LidItem *item;

      if (place->gap == PROCESSOR_GAP)
        put_processor (machine, page, slot->socket, x, y + fit->column / 2 - 15);
      x += place->gap;
      item = lid_sheet_add (page, LID_ITEM_SLOT,
                            (LidBox){ x + BETWEEN / 2, y, fit->cell, fit->column });
      item->look = &machine->sheet->looks[place->slot];
      item->shape = shape;
      item->turn = 270;
      if (i == first)
        run = x;
      x += pitch;
      if (i + 1 == row->len || (place + 1)->gap > 0
          || machine->board->slots[(place + 1)->slot].channel != slot->channel)
        {
          put_channel (machine, page, place->slot, run, y + fit->column, x - run);
          first = i + 1;
        }
    }
}
