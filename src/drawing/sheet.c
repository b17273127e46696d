/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet.h"

/* Width and height in mm, upright. A4: ISO 216; Letter: 8.5 × 11 in, ANSI/ASME Y14.1. A half page
 * is the same sheet cut across its long side: A5, and 5.5 × 8.5 in. */
static const struct
{
  double width, height, half_width, half_height;
} papers[] = {
  [LID_PAPER_A4] = { 210, 297, 148, 210 },
  [LID_PAPER_LETTER] = { 215.9, 279.4, 139.7, 215.9 },
};

static void
page_free (gpointer data)
{
  LidPage *page = data;

  g_array_unref (page->items);
  g_free (page);
}

/**
 * lid_sheet_new:
 * @options: what for, on which paper
 *
 * Returns: (transfer full): a sheet without pages
 */
LidSheet *
lid_sheet_new (const LidSheetOptions *options)
{
  LidSheet *sheet = g_new0 (LidSheet, 1);
  gboolean half = options->half && options->what != LID_SHEET_BALANCE;
  double width = half ? papers[options->paper].half_width : papers[options->paper].width;
  double height = half ? papers[options->paper].half_height : papers[options->paper].height;

  sheet->options = *options;
  sheet->options.half = half;
  sheet->width = options->sideways ? height : width;
  sheet->height = options->sideways ? width : height;
  /* Printers of the trade leave 5 to 6.35 mm blank at the edge (toolbox: GTK's own default is
   * 6.35); the rest is air, and room for the tape. */
  sheet->margin = half ? 9 : 12;
  sheet->pages = g_ptr_array_new_with_free_func (page_free);
  sheet->texts = g_string_chunk_new (4096);
  sheet->shapes = g_ptr_array_new_with_free_func (g_free);
  sheet->boards = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_board_geometry_free);
  return sheet;
}

void
lid_sheet_free (LidSheet *sheet)
{
  if (sheet == NULL)
    return;
  g_ptr_array_unref (sheet->pages);
  g_string_chunk_free (sheet->texts);
  g_ptr_array_unref (sheet->shapes);
  g_ptr_array_unref (sheet->boards);
  g_free (sheet->looks);
  g_free (sheet->title);
  g_free (sheet);
}

LidPage *
lid_sheet_add_page (LidSheet *sheet)
{
  LidPage *page = g_new0 (LidPage, 1);

  page->items = g_array_sized_new (FALSE, TRUE, sizeof (LidItem), 128);
  g_ptr_array_add (sheet->pages, page);
  return page;
}

/**
 * lid_sheet_keep:
 * @text: (transfer full): a text made for this sheet
 *
 * Returns: (transfer none): the same text, kept as long as the sheet
 */
const char *
lid_sheet_keep (LidSheet *sheet, char *text)
{
  const char *kept = g_string_chunk_insert (sheet->texts, text);

  g_free (text);
  return kept;
}

/**
 * lid_sheet_add:
 *
 * Returns: (transfer none): the new item, to be filled before the next one is added
 */
LidItem *
lid_sheet_add (LidPage *page, LidItemKind kind, LidBox box)
{
  LidItem item = { .kind = kind, .box = box, .weight = lid_theme_print ()->line };

  g_array_append_val (page->items, item);
  return &g_array_index (page->items, LidItem, page->items->len - 1);
}

void
lid_sheet_text (LidPage *page, LidBox box, LidType type, LidAlign align, const char *text)
{
  LidItem *item = lid_sheet_add (page, LID_ITEM_TEXT, box);

  item->type = type;
  item->align = align;
  item->text = text;
}

void
lid_sheet_line (LidPage *page, LidBox box, LidType type, LidAlign align, const char *text)
{
  lid_sheet_text (page, box, type, align, text);
  g_array_index (page->items, LidItem, page->items->len - 1).kind = LID_ITEM_LINE;
}

void
lid_sheet_rule (LidPage *page, double x, double y, double width, double weight)
{
  lid_sheet_add (page, LID_ITEM_RULE, (LidBox){ x, y, width, 0 })->weight = weight;
}
