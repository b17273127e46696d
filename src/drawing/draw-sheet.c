/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/draw-sheet.h"

#include "drawing/draw-board.h"
#include "drawing/draw-slot.h"

static void
draw_rule (cairo_t *cr, const LidTheme *theme, const LidItem *item)
{
  if (item->broken)
    cairo_set_dash (cr, theme->dash, 2, 0);
  cairo_move_to (cr, item->box.x, item->box.y);
  cairo_line_to (cr, item->box.x + item->box.width, item->box.y + item->box.height);
  cairo_set_line_width (cr, item->weight);
  cairo_stroke (cr);
  if (item->broken)
    cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_frame (cairo_t *cr, const LidTheme *theme, const LidItem *item)
{
  lid_draw_slot_outline (cr, item->box, theme->radius * 1.4);
  cairo_set_line_width (cr, item->weight);
  if (item->broken)
    cairo_set_dash (cr, theme->dash, 2, 0);
  cairo_stroke (cr);
  if (item->broken)
    cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_pattern (cairo_t *cr, const LidTheme *theme, const LidItem *item)
{
  lid_draw_slot_hatch (cr, theme, item->box, (LidHatch)item->number);
  cairo_rectangle (cr, item->box.x, item->box.y, item->box.width, item->box.height);
  cairo_set_line_width (cr, 0.25);
  cairo_stroke (cr);
}

/* The midrib: thick at the root, drawn out to a point. */
static void
draw_stem (cairo_t *cr, const LidItem *item)
{
  double x = item->box.x, top = item->box.y, bottom = top + item->box.height;
  double half = item->weight / 2, mid = top + item->box.height * 0.45;

  cairo_move_to (cr, x - half, top);
  cairo_curve_to (cr, x - half * 0.9, mid, x - 0.25, bottom - item->box.height * 0.2, x - 0.12,
                  bottom);
  cairo_line_to (cr, x + 0.12, bottom);
  cairo_curve_to (cr, x + 0.25, bottom - item->box.height * 0.2, x + half * 0.9, mid, x + half,
                  top);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
draw_vein (cairo_t *cr, const LidTheme *theme, const LidItem *item)
{
  double x = item->box.x, y = item->box.y, dx = item->box.width, dy = item->box.height;

  cairo_move_to (cr, x, y);
  cairo_curve_to (cr, x + dx * 0.22, y + dy * 0.75, x + dx * 0.5, y + dy, x + dx, y + dy);
  cairo_set_line_width (cr, item->weight);
  if (item->broken)
    cairo_set_dash (cr, theme->dash, 2, 0);
  cairo_stroke (cr);
  if (item->broken)
    cairo_set_dash (cr, NULL, 0, 0);
}

/* The box is as it lies on the page; turned, it is as long as it was high. To be restored. */
static LidBox
turn (cairo_t *cr, const LidItem *item)
{
  LidBox box = item->box;

  cairo_save (cr);
  if (item->turn == 0)
    return box;
  cairo_translate (cr, box.x + box.width / 2, box.y + box.height / 2);
  cairo_rotate (cr, item->turn * G_PI / 180);
  return (LidBox){ -box.height / 2, -box.width / 2, box.height, box.width };
}

static void
draw_slot (cairo_t *cr, LidDrawText *text, const LidTheme *theme, const LidItem *item)
{
  LidBox box = turn (cr, item);

  lid_draw_slot (cr, text, theme, box, item->look, item->shape);
  cairo_restore (cr);
}

/* A path outlives the turning it was made under. */
static void
draw_slot_lines (cairo_t *cr, const LidTheme *theme, const LidPage *page)
{
  for (int lines = 0; lines < LID_N_SLOT_LINES; lines++)
    {
      for (guint i = 0; i < page->items->len; i++)
        {
          const LidItem *item = &g_array_index (page->items, LidItem, i);

          if (item->kind != LID_ITEM_SLOT)
            continue;
          lid_draw_slot_add_lines (cr, theme, turn (cr, item), item->look, item->shape,
                                   (LidSlotLines)lines);
          cairo_restore (cr);
        }
      lid_draw_slot_stroke (cr, theme, (LidSlotLines)lines);
    }
}

/* The screen's drawing in its black-on-white dress: the hues of the latches are worth having, and
 * what paper draws by pattern is there as well. */
static void
draw_board (cairo_t *cr, LidDrawText *text, const LidItem *item)
{
  const LidTheme *theme = lid_theme_screen (LID_THEME_HIGH_CONTRAST);
  double scale = item->box.width / item->crop.width;

  cairo_save (cr);
  cairo_translate (cr, item->box.x, item->box.y);
  cairo_scale (cr, scale, scale);
  cairo_translate (cr, -item->crop.x, -item->crop.y);
  lid_draw_board_ground (cr, text, theme, item->board);
  for (guint i = 0; i < item->board->n_slots; i++)
    lid_draw_board_slot (cr, text, theme, item->board, i, LID_SLOT_PLAIN);
  cairo_restore (cr);
}

static void
draw_item (cairo_t *cr, LidDrawText *text, const LidTheme *theme, const LidItem *item)
{
  switch (item->kind)
    {
    case LID_ITEM_TEXT:
      lid_draw_text_box (text, cr, item->box, item->type, item->align, item->text);
      break;
    case LID_ITEM_LINE:
      /* Baseline a quarter of the em above the line's foot: all lines of one type stand alike. */
      lid_draw_text_fit (text, cr, item->box, item->box.y + item->type.pt * LID_MM_PER_PT * 0.97,
                         item->type, item->align, item->text);
      break;
    case LID_ITEM_RULE:
      draw_rule (cr, theme, item);
      break;
    case LID_ITEM_FRAME:
      draw_frame (cr, theme, item);
      break;
    case LID_ITEM_TICK:
      cairo_rectangle (cr, item->box.x, item->box.y, item->box.width, item->box.height);
      cairo_set_line_width (cr, 0.3);
      cairo_stroke (cr);
      break;
    case LID_ITEM_RING:
      lid_draw_slot_ring (cr, text, item->box, item->number, item->type);
      break;
    case LID_ITEM_PATTERN:
      draw_pattern (cr, theme, item);
      break;
    case LID_ITEM_MARK:
      lid_draw_slot_mark (cr, theme, item->box, (LidMark)item->number);
      break;
    case LID_ITEM_SLOT:
      draw_slot (cr, text, theme, item);
      break;
    case LID_ITEM_STEM:
      draw_stem (cr, item);
      break;
    case LID_ITEM_VEIN:
      draw_vein (cr, theme, item);
      break;
    case LID_ITEM_BOARD:
      draw_board (cr, text, item);
      break;
    default:
      g_assert_not_reached ();
    }
}

/**
 * lid_draw_sheet_page:
 * @cr: one unit = one millimetre, the origin in the page's top left corner
 * @text: the helper whose measure laid out @sheet
 * @sheet: a laid-out sheet
 * @page: from 0
 *
 * Draws one page; paper is left as it is.
 */
void
lid_draw_sheet_page (cairo_t *cr, LidDrawText *text, const LidSheet *sheet, guint page)
{
  const LidTheme *theme = lid_theme_print ();
  const LidPage *items;

  g_return_if_fail (page < sheet->pages->len);
  items = sheet->pages->pdata[page];
  cairo_set_source_rgb (cr, theme->ink.red, theme->ink.green, theme->ink.blue);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  draw_slot_lines (cr, theme, items);
  for (guint i = 0; i < items->items->len; i++)
    draw_item (cr, text, theme, &g_array_index (items->items, LidItem, i));
}
