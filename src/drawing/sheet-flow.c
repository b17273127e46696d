/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-flow.h"

#include "drawing/sheet-row.h"

#include <glib/gi18n-lib.h>

#define COLUMN_GAP 8.0

void
lid_sheet_flow_init (LidFlow *flow, LidSheet *sheet, const LidMeasure *measure)
{
  *flow = (LidFlow){ .sheet = sheet, .measure = *measure, .width = -1 };
  lid_sheet_flow_set_size (flow, 9.5);
  flow->rows = g_array_new (FALSE, TRUE, sizeof (LidRow));
  flow->cells = g_array_new (FALSE, TRUE, sizeof (LidCell));
}

/**
 * lid_sheet_flow_set_size:
 * @pt: size of the words; headings follow
 */
void
lid_sheet_flow_set_size (LidFlow *flow, double pt)
{
  double factor = flow->body.pt > 0 ? pt / flow->body.pt : 1;

  flow->head = (LidType){ pt + 2, TRUE };
  flow->body = (LidType){ pt, FALSE };
  flow->strong = (LidType){ pt, TRUE };
  flow->label *= factor;
  flow->cell *= factor;
  flow->width = -1;
}

void
lid_sheet_flow_clear (LidFlow *flow)
{
  g_clear_pointer (&flow->rows, g_array_unref);
  g_clear_pointer (&flow->cells, g_array_unref);
}

static LidRow *
add (LidFlow *flow, LidRowKind kind, const char *label, const char *text)
{
  LidRow row = { .kind = kind };

  if (label != NULL)
    row.label = g_string_chunk_insert_const (flow->sheet->texts, label);
  if (text != NULL)
    row.text = g_string_chunk_insert_const (flow->sheet->texts, text);
  g_array_append_val (flow->rows, row);
  flow->width = -1;
  return &g_array_index (flow->rows, LidRow, flow->rows->len - 1);
}

/**
 * lid_sheet_flow_end:
 *
 * Takes back a last heading that nothing follows.
 */
void
lid_sheet_flow_end (LidFlow *flow)
{
  if (flow->rows->len > 0
      && g_array_index (flow->rows, LidRow, flow->rows->len - 1).kind == LID_ROW_HEAD)
    g_array_set_size (flow->rows, flow->rows->len - 1);
}

/**
 * lid_sheet_flow_head:
 * @text: a heading; one that nothing follows is taken back by the next heading
 */
void
lid_sheet_flow_head (LidFlow *flow, const char *text)
{
  lid_sheet_flow_end (flow);
  add (flow, LID_ROW_HEAD, NULL, text);
}

void
lid_sheet_flow_text (LidFlow *flow, const char *text)
{
  add (flow, LID_ROW_TEXT, NULL, text);
}

void
lid_sheet_flow_tick (LidFlow *flow, const char *text)
{
  add (flow, LID_ROW_TICK, NULL, text);
}

void
lid_sheet_flow_pair (LidFlow *flow, const char *label, const char *value)
{
  flow->label = MAX (flow->label, lid_measure_width (&flow->measure, flow->body, label));
  add (flow, LID_ROW_PAIR, label, value);
}

void
lid_sheet_flow_fill (LidFlow *flow, const char *label)
{
  add (flow, LID_ROW_FILL, label, NULL);
}

void
lid_sheet_flow_grade (LidFlow *flow, LidGrade grade, const char *text)
{
  /* Translators: the grade of a finding, then what it says */
  g_autofree char *both = g_strdup_printf (_ ("%s: %s"), lid_grade_to_words (grade), text);

  add (flow, LID_ROW_GRADE, NULL, both)->number = grade;
}

void
lid_sheet_flow_step (LidFlow *flow, guint number, gboolean ring, const char *name, const char *text)
{
  LidRow *row = add (flow, LID_ROW_STEP, name, text);

  row->number = number;
  row->ring = ring;
}

/**
 * lid_sheet_flow_cell:
 *
 * Adds one slot to tick; cells added one after the other share rows. How many fit a row is known
 * only with the column's width, so a row of cells is as high as it needs.
 */
void
lid_sheet_flow_cell (LidFlow *flow, guint number, gboolean ring, const char *name)
{
  LidCell cell = { number, name };
  LidRow *row = NULL;

  if (flow->rows->len > 0)
    row = &g_array_index (flow->rows, LidRow, flow->rows->len - 1);
  /* At most so many a row that a page can be broken between rows. */
  if (row == NULL || row->kind != LID_ROW_CELLS || row->n_cells == 12)
    {
      row = add (flow, LID_ROW_CELLS, NULL, NULL);
      row->cell = flow->cells->len;
      row->ring = ring;
    }
  flow->cell = MAX (flow->cell, lid_measure_width (&flow->measure, flow->strong, name));
  row->n_cells++;
  g_array_append_val (flow->cells, cell);
  flow->width = -1;
}

static void
measure_rows (LidFlow *flow, double width)
{
  if (flow->width == width)
    return;
  for (guint i = 0; i < flow->rows->len; i++)
    {
      LidRow *row = &g_array_index (flow->rows, LidRow, i);

      row->height = lid_sheet_row_height (flow, row, width);
    }
  flow->width = width;
}

/* What a heading must not be parted from: the row behind it, and where that is a word on steps that
 * follow, the first of them too. */
static double
kept_height (const LidFlow *flow, guint head)
{
  double height = g_array_index (flow->rows, LidRow, head).height;
  guint last = head + 1, n = flow->rows->len;

  while (last < n && g_array_index (flow->rows, LidRow, last).kind == LID_ROW_TEXT)
    last++;
  if (last >= n
      || (g_array_index (flow->rows, LidRow, last).kind != LID_ROW_STEP
          && g_array_index (flow->rows, LidRow, last).kind != LID_ROW_TICK
          && g_array_index (flow->rows, LidRow, last).kind != LID_ROW_CELLS))
    last = head + 1;
  for (guint i = head + 1; i <= last && i < n; i++)
    height += g_array_index (flow->rows, LidRow, i).height;
  return height;
}

/* Sets rows from @from on into one column of at most @height; a heading does not end a column. */
static guint
set_column (LidFlow *flow, guint from, LidPage *page, LidBox column, double *used)
{
  double y = 0;
  guint i;

  for (i = from; i < flow->rows->len; i++)
    {
      const LidRow *row = &g_array_index (flow->rows, LidRow, i);
      double above = i > from && row->kind == LID_ROW_HEAD ? flow->body.pt * 0.22 : 0;
      double with = row->kind == LID_ROW_HEAD ? kept_height (flow, i) : row->height;

      if (y + above + with > column.height + 1e-6 && (i > from || page == NULL))
        break;
      if (page != NULL)
        lid_sheet_row_put (flow, row, page,
                           (LidBox){ column.x, column.y + y + above, column.width, row->height });
      y += above + row->height;
    }
  *used = y;
  return i;
}

static guint
set_columns (LidFlow *flow, guint from, LidPage *page, LidBox area, guint columns, double height)
{
  double width = lid_sheet_flow_column (area.width, columns), used;

  for (guint c = 0; c < columns && from < flow->rows->len; c++)
    from = set_column (flow, from, page,
                       (LidBox){ area.x + c * (width + COLUMN_GAP), area.y, width, height }, &used);
  return from;
}

/**
 * lid_sheet_flow_column:
 *
 * Returns: the width of one of @columns columns in @width, mm
 */
double
lid_sheet_flow_column (double width, guint columns)
{
  return (width - (columns - 1) * COLUMN_GAP) / columns;
}

/**
 * lid_sheet_flow_height:
 * @from: first row
 * @width: of all columns together, mm
 * @columns: how many
 * @most: the height there is, mm
 *
 * Returns: the least height that holds every row from @from on, in tenths of a mm; more than @most
 * if none does
 */
double
lid_sheet_flow_height (LidFlow *flow, guint from, double width, guint columns, double most)
{
  double low = 0, high = most;
  LidBox area = { 0, 0, width, 0 };

  measure_rows (flow, lid_sheet_flow_column (width, columns));
  if (from >= flow->rows->len)
    return 0;
  if (set_columns (flow, from, NULL, area, columns, most) < flow->rows->len)
    return most + 1;
  while (high - low > 0.1)
    {
      double half = (low + high) / 2;

      if (set_columns (flow, from, NULL, area, columns, half) < flow->rows->len)
        low = half;
      else
        high = half;
    }
  return high;
}

/**
 * lid_sheet_flow_set:
 * @from: first row
 * @page: gets the items
 * @area: left, top, width
 * @columns: how many
 * @height: of each
 *
 * Returns: the first row that found no room
 */
guint
lid_sheet_flow_set (
    LidFlow *flow, guint from, LidPage *page, LidBox area, guint columns, double height)
{
  measure_rows (flow, lid_sheet_flow_column (area.width, columns));
  return set_columns (flow, from, page, area, columns, height);
}
