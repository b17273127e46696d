/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-page-table.h"

#define GAP 3.0    /* between columns */
#define AIR 0.9    /* under a row */
#define BEFORE 5.5 /* over a title */
#define LEAST 22.0 /* less room than this is no beginning */
#define LABEL 0.24 /* of the width, for labels without heads */
#define MOST_ONE 0.5
#define TICK 3.4

static const LidType title_type = { 11, TRUE };

static double
body_width (const LidTablePen *pen)
{
  return pen->sheet->width - 2 * pen->sheet->margin;
}

static LidType
cell_type (const LidTablePen *pen)
{
  return (LidType){ pen->pt > 0 ? pen->pt : 8.5, FALSE };
}

static LidType
head_type (const LidTablePen *pen)
{
  return (LidType){ pen->pt > 0 ? pen->pt - 0.5 : 8, TRUE };
}

/**
 * lid_board_page_table_new_page:
 *
 * Pages after the first name the board, and no more.
 */
void
lid_board_page_table_new_page (LidTablePen *pen)
{
  const LidType type = { 9, TRUE };
  double line = lid_measure_line (type), x = pen->sheet->margin;

  pen->page = lid_sheet_add_page (pen->sheet);
  pen->y = pen->sheet->margin;
  lid_sheet_line (pen->page, (LidBox){ x, pen->y, body_width (pen), line }, type, LID_ALIGN_LEFT,
                  pen->sheet->title);
  lid_sheet_rule (pen->page, x, pen->y + line + 0.8, body_width (pen), 0.3);
  pen->y += line + 4;
}

static const char *
cell_of (const LidBoardTable *table, guint row, guint column)
{
  return ((char **)table->rows->pdata[row])[column];
}

/* The width of the longest word of a text: no column may be narrower. */
static double
longest_word (const LidTablePen *pen, LidType type, const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  double most = 0;

  for (guint i = 0; words[i] != NULL; i++)
    most = MAX (most, lid_measure_width (&pen->measure, type, words[i]));
  return most;
}

/* Columns get what their longest cell asks for, as far as that fits; what is too wide shares what
 * the others leave. */
static void
share_width (const LidTablePen *pen, const LidBoardTable *table, double *widths)
{
  double asked[LID_BOARD_TABLE_MOST] = { 0 }, least[LID_BOARD_TABLE_MOST] = { 0 };
  double room = body_width (pen) - pen->ticks - GAP * (table->n_columns - 1), sum = 0, floor = 0;

  for (guint c = 0; c < table->n_columns; c++)
    {
      if (table->heads[c] != NULL)
        {
          asked[c] = lid_measure_width (&pen->measure, head_type (pen), table->heads[c]) + 0.5;
          least[c] = longest_word (pen, head_type (pen), table->heads[c]) + 0.5;
        }
      for (guint r = 0; r < table->rows->len; r++)
        {
          const char *text = cell_of (table, r, c);

          asked[c] = MAX (asked[c], lid_measure_width (&pen->measure, cell_type (pen), text) + 0.5);
          least[c] = MAX (least[c], longest_word (pen, cell_type (pen), text) + 0.5);
        }
      least[c] = MIN (least[c], room * MOST_ONE);
      sum += asked[c];
      floor += least[c];
    }
  for (guint c = 0; c < table->n_columns; c++)
    widths[c] = sum <= room || sum <= floor
                    ? asked[c]
                    : least[c] + (asked[c] - least[c]) * MAX (0, room - floor) / (sum - floor);
}

static double
row_height (const LidTablePen *pen, const LidBoardTable *table, guint row, const double *widths)
{
  double most = lid_measure_line (cell_type (pen));

  for (guint c = 0; c < table->n_columns; c++)
    most = MAX (most, lid_measure_height (&pen->measure, cell_type (pen), cell_of (table, row, c),
                                          widths[c]));
  return most + AIR;
}

static gboolean
has_heads (const LidBoardTable *table)
{
  return table->heads[0] != NULL;
}

static double
heads_height (const LidTablePen *pen, const LidBoardTable *table, const double *widths)
{
  double most = 0;

  for (guint c = 0; c < table->n_columns && has_heads (table); c++)
    most = MAX (most,
                lid_measure_height (&pen->measure, head_type (pen), table->heads[c], widths[c]));
  return most;
}

static void
put_heads (LidTablePen *pen, const LidBoardTable *table, const double *widths)
{
  double x = pen->sheet->margin + pen->ticks, high = heads_height (pen, table, widths);

  if (!has_heads (table))
    return;
  for (guint c = 0; c < table->n_columns; c++)
    {
      lid_sheet_text (pen->page, (LidBox){ x, pen->y, widths[c], high }, head_type (pen),
                      LID_ALIGN_LEFT, table->heads[c]);
      x += widths[c] + GAP;
    }
  pen->y += high + 0.5;
  lid_sheet_rule (pen->page, pen->sheet->margin, pen->y, body_width (pen), 0.25);
  pen->y += 0.9;
}

static void
put_row (LidTablePen *pen, const LidBoardTable *table, guint row, const double *widths)
{
  double x = pen->sheet->margin + pen->ticks, high = row_height (pen, table, row, widths);
  double line = lid_measure_line (cell_type (pen));

  if (pen->ticks > 0)
    lid_sheet_add (pen->page, LID_ITEM_TICK,
                   (LidBox){ pen->sheet->margin, pen->y + (line - TICK) / 2, TICK, TICK });
  for (guint c = 0; c < table->n_columns; c++)
    {
      LidType type = cell_type (pen);

      type.bold = c == 0 && !has_heads (table);
      lid_sheet_text (pen->page, (LidBox){ x, pen->y, widths[c], high - AIR }, type, LID_ALIGN_LEFT,
                      lid_sheet_keep (pen->sheet, g_strdup (cell_of (table, row, c))));
      x += widths[c] + GAP;
    }
  pen->y += high;
}

static void
put_title (LidTablePen *pen, const LidBoardTable *table, double note)
{
  double width = body_width (pen), x = pen->sheet->margin, line = lid_measure_line (title_type);

  lid_sheet_line (pen->page, (LidBox){ x, pen->y, width, line }, title_type, LID_ALIGN_LEFT,
                  table->title);
  pen->y += line + 0.8;
  if (table->note == NULL)
    return;
  lid_sheet_text (pen->page, (LidBox){ x, pen->y, width, note }, cell_type (pen), LID_ALIGN_LEFT,
                  lid_sheet_keep (pen->sheet, g_strdup (table->note)));
  pen->y += note + 1.2;
}

/**
 * lid_board_page_table_put:
 * @pen: where; moves on
 * @table: a table
 *
 * A table that does not fit goes on on the next page under its heads.
 */
void
lid_board_page_table_put (LidTablePen *pen, const LidBoardTable *table)
{
  double widths[LID_BOARD_TABLE_MOST], note = 0, first;

  share_width (pen, table, widths);
  if (!has_heads (table))
    {
      widths[0] = body_width (pen) * LABEL;
      widths[1] = body_width (pen) * (1 - LABEL) - GAP;
    }
  if (table->note != NULL)
    note = lid_measure_height (&pen->measure, cell_type (pen), table->note, body_width (pen));
  first = BEFORE + lid_measure_line (title_type) + note + heads_height (pen, table, widths) + 4;
  if (table->rows->len > 0)
    first += row_height (pen, table, 0, widths);
  if (pen->y + MAX (first, LEAST) > pen->bottom)
    lid_board_page_table_new_page (pen);
  else
    pen->y += BEFORE;
  put_title (pen, table, note);
  if (table->rows->len > 0)
    put_heads (pen, table, widths);
  for (guint r = 0; r < table->rows->len; r++)
    {
      if (pen->y + row_height (pen, table, r, widths) > pen->bottom)
        {
          lid_board_page_table_new_page (pen);
          put_heads (pen, table, widths);
        }
      put_row (pen, table, r, widths);
    }
}
