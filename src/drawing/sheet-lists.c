/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-lists.h"

#include "drawing/board-page-table.h"

#include <glib/gi18n-lib.h>

static void
append (GString *out, const char *format, const char *text)
{
  if (text == NULL || *text == 0)
    return;
  if (out->len > 0)
    g_string_append (out, "  ·  ");
  g_string_append_printf (out, format, text);
}

static char *
say_who (const LidJob *job)
{
  GString *out = g_string_new (NULL);

  append (out, "%s", job->title != NULL ? job->title : job->board->name);
  append (out, "%s", job->owner);
  append (out, _ ("asset %s"), job->asset);
  append (out, _ ("job %s"), job->number);
  return g_string_free (out, FALSE);
}

static void
put_head (LidTablePen *pen, const char *title, const char *who)
{
  const LidType large = { 20, TRUE }, small = { 10, FALSE };
  double width = pen->sheet->width - 2 * pen->sheet->margin, x = pen->sheet->margin;

  pen->page = lid_sheet_add_page (pen->sheet);
  pen->y = pen->sheet->margin;
  lid_sheet_line (pen->page, (LidBox){ x, pen->y, width, lid_measure_line (large) }, large,
                  LID_ALIGN_LEFT, title);
  pen->y += lid_measure_line (large) + 0.5;
  lid_sheet_line (pen->page, (LidBox){ x, pen->y, width, lid_measure_line (small) }, small,
                  LID_ALIGN_LEFT, who);
  pen->y += lid_measure_line (small) + 1;
  lid_sheet_rule (pen->page, x, pen->y, width, 0.65);
}

/* Columns that are empty in every row take no room. */
static void
make_table (LidBoardTable *table, const LidChangeoverList *list)
{
  guint keep[LID_LIST_MOST] = { 0 };

  table->rows = g_ptr_array_new_with_free_func (g_free);
  for (guint c = 0; c < list->n_columns && table->n_columns < LID_BOARD_TABLE_MOST; c++)
    for (guint r = 0; r < list->rows->len; r++)
      if (*((char **)list->rows->pdata[r])[c] != 0)
        {
          keep[table->n_columns] = c;
          table->heads[table->n_columns++] = list->heads[c];
          break;
        }
  for (guint r = 0; r < list->rows->len; r++)
    {
      char **row = g_new0 (char *, table->n_columns + 1);

      for (guint c = 0; c < table->n_columns; c++)
        row[c] = ((char **)list->rows->pdata[r])[keep[c]]; /* borrowed */
      g_ptr_array_add (table->rows, row);
    }
}

static void
put_table (LidTablePen *pen, const LidChangeoverList *list)
{
  const LidType type = { 10, FALSE };
  LidBoardTable table
      = { .title = list->kind == LID_LIST_PICK ? _ ("Fetch, and tick off at the bin")
                                               : _ ("By place on the mat") };

  if (list->rows->len == 0)
    {
      lid_sheet_line (pen->page,
                      (LidBox){ pen->sheet->margin, pen->y + 4,
                                pen->sheet->width - 2 * pen->sheet->margin,
                                lid_measure_line (type) },
                      type, LID_ALIGN_LEFT, _ ("Nothing."));
      return;
    }
  make_table (&table, list);
  lid_board_page_table_put (pen, &table);
  g_ptr_array_unref (table.rows);
}

static void
put_foot (LidSheet *sheet)
{
  const LidType type = { 8, FALSE };
  double width = sheet->width - 2 * sheet->margin, line = lid_measure_line (type);

  for (guint i = 0; i < sheet->pages->len; i++)
    {
      LidBox box = { sheet->margin, sheet->height - sheet->margin - line, width, line };

      lid_sheet_line (sheet->pages->pdata[i], box, type, LID_ALIGN_LEFT,
                      _ ("The machine maker's service guide and local rules come first."));
      lid_sheet_line (
          sheet->pages->pdata[i], box, type, LID_ALIGN_RIGHT,
          lid_sheet_keep (sheet, g_strdup_printf (_ ("page %u of %u"), i + 1, sheet->pages->len)));
    }
}

/**
 * lid_sheet_lists_new:
 * @job: whose
 * @list: the list
 * @paper: upright
 * @measure: of type
 *
 * Returns: (transfer full): the pages; they borrow nothing
 */
LidSheet *
lid_sheet_lists_new (const LidJob *job,
                     const LidChangeoverList *list,
                     LidPaper paper,
                     const LidMeasure *measure)
{
  LidSheetOptions options = { LID_SHEET_BENCH, paper, FALSE, FALSE };
  LidSheet *sheet = lid_sheet_new (&options);
  /* Read at the shelf and over an open machine. */
  LidTablePen pen = { .sheet = sheet, .measure = *measure, .pt = 11, .ticks = 7 };

  sheet->title = say_who (job);
  pen.bottom = sheet->height - sheet->margin - lid_measure_line ((LidType){ 8, FALSE }) - 3;
  if (list->kind == LID_LIST_TAGS && list->rows->len > 0)
    lid_sheet_tags_put (sheet, measure, list);
  else
    {
      put_head (&pen, lid_changeover_list_title (list->kind), sheet->title);
      put_table (&pen, list);
    }
  put_foot (sheet);
  return sheet;
}
