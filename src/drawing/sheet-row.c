/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-row.h"

#define TICK 3.4   /* side of a box to tick */
#define INDENT 5.6 /* text behind it */
#define AIR 1.1    /* below a row */

static double
number_width (const LidFlow *flow)
{
  return flow->strong.pt * LID_MM_PER_PT * 2.3;
}

static double
cell_width (const LidFlow *flow)
{
  return INDENT + number_width (flow) + flow->cell + 4;
}

static guint
cells_a_row (const LidFlow *flow, double width)
{
  return MAX (1, (guint)((width + 4) / cell_width (flow)));
}

static double
label_width (LidFlow *flow, const LidRow *row, double width)
{
  if (row->kind == LID_ROW_PAIR)
    return MIN (flow->label + 4, width * 0.5);
  if (row->kind == LID_ROW_GRADE)
    return 6.5;
  return INDENT + number_width (flow) + lid_measure_width (&flow->measure, flow->strong, row->label)
         + 2.5;
}

/* Of a step whose slot has a long name, the words stand below the name: beside it too little room
 * is left. */
static LidBox
step_text (LidFlow *flow, const LidRow *row, LidBox box)
{
  double label = label_width (flow, row, box.width), line = lid_measure_line (flow->body);

  if (box.width - label >= box.width * 0.3)
    return (LidBox){ box.x + label, box.y, box.width - label, box.height };
  return (LidBox){ box.x + INDENT, box.y + line, box.width - INDENT, box.height - line };
}

/**
 * lid_sheet_row_height:
 * @width: of the column, mm
 *
 * Returns: the height of @row with the air below it, mm
 */
double
lid_sheet_row_height (LidFlow *flow, const LidRow *row, double width)
{
  double line = lid_measure_line (flow->body);
  LidBox box;
  double text;

  switch (row->kind)
    {
    case LID_ROW_HEAD:
      return lid_measure_height (&flow->measure, flow->head, row->text, width) + AIR;
    case LID_ROW_TEXT:
      return lid_measure_height (&flow->measure, flow->body, row->text, width) + AIR;
    case LID_ROW_TICK:
      text = lid_measure_height (&flow->measure, flow->body, row->text, width - INDENT);
      return MAX (text, line) + AIR;
    case LID_ROW_FILL:
      return line + 3.2;
    case LID_ROW_CELLS:
      return (line + AIR + 0.9)
             * ((row->n_cells + cells_a_row (flow, width) - 1) / cells_a_row (flow, width));
    case LID_ROW_PAIR:
      text = lid_measure_height (&flow->measure, flow->strong, row->text,
                                 width - label_width (flow, row, width));
      return MAX (text, lid_measure_height (&flow->measure, flow->body, row->label,
                                            label_width (flow, row, width) - 4))
             + AIR;
    case LID_ROW_GRADE:
    case LID_ROW_STEP:
    default:
      box = step_text (flow, row, (LidBox){ 0, 0, width, 0 });
      text = box.y + lid_measure_height (&flow->measure, flow->body, row->text, box.width);
      return MAX (text, line) + AIR + (row->kind == LID_ROW_STEP ? 0.6 : 0);
    }
}

static void
put_tick (LidFlow *flow, LidPage *page, double x, double y)
{
  double line = lid_measure_line (flow->body);

  lid_sheet_add (page, LID_ITEM_TICK, (LidBox){ x, y + (line - TICK) / 2 - 0.1, TICK, TICK });
}

static void
put_number (LidFlow *flow, LidPage *page, guint number, gboolean ring, double x, double y)
{
  double line = lid_measure_line (flow->body), width = number_width (flow), size = line * 1.15;
  LidItem *item;

  if (number == 0)
    return;
  if (!ring)
    {
      lid_sheet_line (page, (LidBox){ x, y, width - 1.8, line }, flow->body, LID_ALIGN_RIGHT,
                      lid_sheet_keep (flow->sheet, g_strdup_printf ("%u", number)));
      return;
    }
  item = lid_sheet_add (page, LID_ITEM_RING, (LidBox){ x, y + (line - size) / 2, size, size });
  item->number = number;
  item->type = (LidType){ flow->body.pt - 1.5, TRUE };
}

static void
put_cells (LidFlow *flow, const LidRow *row, LidPage *page, LidBox box)
{
  double line = lid_measure_line (flow->body);
  guint across = cells_a_row (flow, box.width);

  for (guint i = 0; i < row->n_cells; i++)
    {
      const LidCell *cell = &g_array_index (flow->cells, LidCell, row->cell + i);
      double x = box.x + (i % across) * cell_width (flow);
      double y = box.y + (i / across) * (line + AIR + 0.9);
      double name = x + INDENT + number_width (flow);

      put_tick (flow, page, x, y);
      put_number (flow, page, cell->number, row->ring, x + INDENT, y);
      lid_sheet_line (page, (LidBox){ name, y, MIN (flow->cell, box.x + box.width - name), line },
                      flow->strong, LID_ALIGN_LEFT, cell->name);
    }
}

static void
put_labelled (LidFlow *flow, const LidRow *row, LidPage *page, LidBox box)
{
  double line = lid_measure_line (flow->body);
  double label = label_width (flow, row, box.width);
  LidBox text = { box.x + label, box.y, box.width - label, box.height };

  if (row->kind == LID_ROW_PAIR)
    {
      lid_sheet_text (page, (LidBox){ box.x, box.y, label - 4, box.height }, flow->body,
                      LID_ALIGN_LEFT, row->label);
      lid_sheet_text (page, text, flow->strong, LID_ALIGN_LEFT, row->text);
      return;
    }
  if (row->kind == LID_ROW_GRADE)
    {
      LidItem *item = lid_sheet_add (page, LID_ITEM_PATTERN,
                                     (LidBox){ box.x, box.y + (line - 3.6) / 2, 4.6, 3.6 });

      item->number = lid_theme_hatch ((LidGrade)row->number);
    }
  else
    {
      put_tick (flow, page, box.x, box.y);
      put_number (flow, page, row->number, row->ring, box.x + INDENT, box.y);
      lid_sheet_line (page,
                      (LidBox){ box.x + INDENT + number_width (flow), box.y,
                                MIN (label - 2.5, box.width) - INDENT - number_width (flow), line },
                      flow->strong, LID_ALIGN_LEFT, row->label);
    }
  lid_sheet_text (page, step_text (flow, row, box), flow->body, LID_ALIGN_LEFT, row->text);
}

/**
 * lid_sheet_row_put:
 * @box: as high as lid_sheet_row_height() said
 */
void
lid_sheet_row_put (LidFlow *flow, const LidRow *row, LidPage *page, LidBox box)
{
  double label;

  switch (row->kind)
    {
    case LID_ROW_HEAD:
      lid_sheet_text (page, box, flow->head, LID_ALIGN_LEFT, row->text);
      break;
    case LID_ROW_TEXT:
      lid_sheet_text (page, box, flow->body, LID_ALIGN_LEFT, row->text);
      break;
    case LID_ROW_TICK:
      put_tick (flow, page, box.x, box.y);
      box.x += INDENT;
      box.width -= INDENT;
      lid_sheet_text (page, box, flow->body, LID_ALIGN_LEFT, row->text);
      break;
    case LID_ROW_FILL:
      label = lid_measure_width (&flow->measure, flow->body, row->label) + 2;
      lid_sheet_line (page, (LidBox){ box.x, box.y + 1.6, label, lid_measure_line (flow->body) },
                      flow->body, LID_ALIGN_LEFT, row->label);
      lid_sheet_rule (page, box.x + label, box.y + 1.4 + lid_measure_line (flow->body),
                      MAX (box.width - label, 8), lid_theme_print ()->thin);
      break;
    case LID_ROW_CELLS:
      put_cells (flow, row, page, box);
      break;
    case LID_ROW_PAIR:
    case LID_ROW_GRADE:
    case LID_ROW_STEP:
    default:
      put_labelled (flow, row, page, box);
    }
}
