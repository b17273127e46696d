/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-page.h"

#include "drawing/board-page-table.h"

#include <glib/gi18n-lib.h>

#define LEAST_PX_PER_MM 4.0 /* at this the screen's least type is 9 pt on paper */
#define MOST_PX_PER_MM 16.0
#define MOST_HIGH 0.8 /* of a page, for one picture */
#define EDGE 6.0      /* px around what is drawn */

/* What is drawn; a geometry fills its room and keeps margins for notes, of which there are none. */
static LidBox
crop_of (const LidBoardGeometry *geometry)
{
  LidBox all = geometry->slots[0].box;

  if (geometry->outline.width > 0)
    lid_box_unite (&all, geometry->outline);
  for (guint i = 0; i < geometry->n_slots; i++)
    lid_box_unite (&all, geometry->slots[i].box);
  for (guint i = 0; i < geometry->leaves->len; i++)
    {
      const LidPlacedLeaf *leaf = &g_array_index (geometry->leaves, LidPlacedLeaf, i);

      lid_box_unite (&all, leaf->box);
      if (leaf->stem_top != leaf->stem_bottom)
        lid_box_unite (&all, (LidBox){ leaf->box.x, leaf->stem_top, leaf->box.width, 0 });
    }
  for (guint i = 0; i < geometry->veins->len; i++)
    lid_box_unite (&all, g_array_index (geometry->veins, LidVein, i).caption);
  return (LidBox){ all.x - EDGE, all.y - EDGE, all.width + 2 * EDGE, all.height + 2 * EDGE };
}

static gboolean
names_whole (const LidBoardGeometry *geometry)
{
  for (guint i = 0; i < geometry->n_slots; i++)
    if (g_strcmp0 (geometry->looks[i].name, lid_board_name_slot (geometry->board, i)) != 0)
      return FALSE;
  return TRUE;
}

/* A board is laid out in a room of the page's width, the finer the more slots there are, until
 * their names stand in them whole. */
static LidBoardGeometry *
lay_out (const LidBoard *board,
         const LidPopulation *population,
         gboolean lid_off,
         LidBox room,
         const LidMeasure *measure)
{
  LidBoardGeometry *geometry = NULL;

  for (double scale = LEAST_PX_PER_MM; scale <= MOST_PX_PER_MM; scale *= 1.2)
    {
      LidBoardView view = { .lid_off = lid_off,
                            .width = room.width * scale,
                            .height = room.height * scale,
                            .zoom = 0,
                            .text_scale = 1 };

      g_clear_pointer (&geometry, lid_board_geometry_free);
      geometry = lid_board_geometry_new (board, population, NULL, NULL, &view, measure);
      if (names_whole (geometry))
        break;
    }
  return geometry;
}

static void
put_picture (LidTablePen *pen,
             const LidBoard *board,
             const LidPopulation *population,
             gboolean lid_off,
             const char *caption)
{
  const LidType type = { 11, TRUE };
  double line = lid_measure_line (type);
  LidBox box = { pen->sheet->margin, 0, pen->sheet->width - 2 * pen->sheet->margin,
                 (pen->sheet->height - 2 * pen->sheet->margin) * MOST_HIGH };
  LidBoardGeometry *geometry = lay_out (board, population, lid_off, box, &pen->measure);
  LidBox crop = crop_of (geometry);
  double scale = MIN (MIN (box.width / crop.width, box.height / crop.height), 1 / LEAST_PX_PER_MM);
  LidItem *item;

  g_ptr_array_add (pen->sheet->boards, geometry);
  box.x += (box.width - crop.width * scale) / 2;
  box.width = crop.width * scale;
  box.height = crop.height * scale;
  if (pen->y + line + 2 + box.height > pen->bottom)
    lid_board_page_table_new_page (pen);
  lid_sheet_line (
      pen->page,
      (LidBox){ pen->sheet->margin, pen->y, pen->sheet->width - 2 * pen->sheet->margin, line },
      type, LID_ALIGN_LEFT, caption);
  pen->y += line + 1;
  box.y = pen->y;
  item = lid_sheet_add (pen->page, LID_ITEM_BOARD, box);
  item->board = geometry;
  item->crop = crop;
  pen->y += box.height + 4;
}

static void
put_head (LidTablePen *pen, const LidBoard *board)
{
  const LidType title = { 20, TRUE }, sub = { 10, FALSE };
  double width = pen->sheet->width - 2 * pen->sheet->margin, x = pen->sheet->margin;
  double line = lid_measure_line (title), high;

  pen->page = lid_sheet_add_page (pen->sheet);
  pen->y = pen->sheet->margin;
  lid_sheet_line (pen->page, (LidBox){ x, pen->y, width, line }, title, LID_ALIGN_LEFT,
                  pen->sheet->title);
  pen->y += line + 0.5;
  if (board->about != NULL)
    {
      high = lid_measure_height (&pen->measure, sub, board->about, width);
      lid_sheet_text (pen->page, (LidBox){ x, pen->y, width, high }, sub, LID_ALIGN_LEFT,
                      lid_sheet_keep (pen->sheet, g_strdup (board->about)));
      pen->y += high + 1;
    }
  lid_sheet_rule (pen->page, x, pen->y, width, 0.65);
  pen->y += 4;
}

static void
put_foot (const LidTablePen *pen)
{
  const LidType type = { 8, FALSE };
  double width = pen->sheet->width - 2 * pen->sheet->margin, line = lid_measure_line (type);

  for (guint i = 0; i < pen->sheet->pages->len; i++)
    {
      LidPage *page = pen->sheet->pages->pdata[i];
      LidBox box
          = { pen->sheet->margin, pen->sheet->height - pen->sheet->margin - line, width, line };

      lid_sheet_line (page, box, type, LID_ALIGN_LEFT,
                      _ ("The machine maker's service guide and local rules come first."));
      lid_sheet_line (page, box, type, LID_ALIGN_RIGHT,
                      lid_sheet_keep (pen->sheet, g_strdup_printf (_ ("page %u of %u"), i + 1,
                                                                   pen->sheet->pages->len)));
    }
}

/**
 * lid_board_page_new:
 * @board: a board, known or derived
 * @paper: the page's format; upright
 * @measure: of type, of the family the sheet is drawn in
 *
 * Returns: (transfer full): the pages. The pictures borrow @board, which must live as long.
 */
LidSheet *
lid_board_page_new (const LidBoard *board, LidPaper paper, const LidMeasure *measure)
{
  LidSheetOptions options = { LID_SHEET_BALANCE, paper, FALSE, FALSE };
  LidSheet *sheet = lid_sheet_new (&options);
  LidTablePen pen = { .sheet = sheet, .measure = *measure };
  g_autoptr (LidPopulation) empty = lid_population_new (board);
  g_autoptr (GPtrArray) tables = lid_board_tables_new (board);

  sheet->title = g_strdup (board->name != NULL ? board->name : _ ("Board without a name"));
  pen.bottom = sheet->height - sheet->margin - lid_measure_line ((LidType){ 8, FALSE }) - 3;
  put_head (&pen, board);
  put_picture (&pen, board, empty, FALSE, _ ("By channel"));
  if (board->placed)
    put_picture (&pen, board, empty, TRUE, _ ("Lid off"));
  for (guint i = 0; i < tables->len; i++)
    lid_board_page_table_put (&pen, tables->pdata[i]);
  put_foot (&pen);
  return sheet;
}
