/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/draw-board.h"

#include "drawing/draw-board-private.h"
#include "drawing/draw-slot.h"

void
lid_draw_board_source (cairo_t *cr, LidColour colour)
{
  cairo_set_source_rgb (cr, colour.red, colour.green, colour.blue);
}

/* The pattern of a grade, with its outline; the hatch is drawn in millimetres of 96 to the inch. */
void
lid_draw_board_hatch (cairo_t *cr, const LidTheme *theme, LidBox box, LidGrade grade, double scale)
{
  double mm = 96 / 25.4 * scale;
  LidHatch hatch = lid_theme_hatch (grade);
  const LidTheme *print = lid_theme_print ();

  lid_draw_board_source (cr, theme->grade[grade]);
  cairo_save (cr);
  cairo_scale (cr, mm, mm);
  lid_draw_slot_hatch (cr, print,
                       (LidBox){ box.x / mm, box.y / mm, box.width / mm, box.height / mm }, hatch);
  cairo_restore (cr);
}

static void
draw_stem (cairo_t *cr, const LidTheme *theme, const LidPlacedLeaf *leaf)
{
  double half = leaf->stem_width / 2, tip = leaf->stem_top, bottom = leaf->stem_bottom;

  if (leaf->stem_top >= leaf->stem_bottom)
    return;
  if (leaf->stem_width <= 0)
    {
      lid_draw_board_source (cr, theme->soft);
      cairo_set_line_width (cr, 1.4);
      cairo_set_dash (cr, theme->dash, 2, 0);
      cairo_move_to (cr, leaf->stem_x, bottom);
      cairo_line_to (cr, leaf->stem_x, tip);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
      return;
    }
  lid_draw_board_source (cr, theme->leaf);
  half = MAX (half, 1.5);
  cairo_move_to (cr, leaf->stem_x - half, bottom);
  cairo_line_to (cr, leaf->stem_x - 0.6, tip);
  cairo_line_to (cr, leaf->stem_x + 0.6, tip);
  cairo_line_to (cr, leaf->stem_x + half, bottom);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* Out of the midrib steeply, into the slots level. */
static void
draw_vein (cairo_t *cr, const LidTheme *theme, const LidVein *vein)
{
  double dx = vein->x1 - vein->x0;

  lid_draw_board_source (cr, vein->idle ? theme->soft : theme->leaf);
  cairo_set_line_width (cr, vein->width);
  if (vein->idle)
    cairo_set_dash (cr, theme->dash, 2, 0);
  cairo_move_to (cr, vein->x0, vein->y0);
  if (vein->form == LID_VEIN_RULE || ABS (dx) < 1)
    cairo_line_to (cr, vein->x1, vein->y1);
  else
    cairo_curve_to (cr, vein->x0 + dx * 0.08, vein->y0 + (vein->y1 - vein->y0) * 0.72,
                    vein->x0 + dx * 0.42, vein->y1, vein->x1, vein->y1);
  cairo_stroke (cr);
  if (vein->spine_bottom > vein->spine_top)
    {
      cairo_move_to (cr, vein->x1, vein->spine_top);
      cairo_line_to (cr, vein->x1, vein->spine_bottom);
      cairo_stroke (cr);
    }
  cairo_set_dash (cr, NULL, 0, 0);
}

/* Where the words of a channel stand. */
double
lid_draw_board_caption_baseline (const LidVein *vein)
{
  return vein->caption.y + vein->caption.height * 0.5 + 0.36 * vein->type.pt * LID_MM_PER_PT;
}

static void
draw_caption (cairo_t *cr, LidDrawText *text, const LidTheme *theme, const LidVein *vein)
{
  LidType bold = { vein->type.pt, TRUE };
  double baseline = lid_draw_board_caption_baseline (vein);
  gboolean alone = vein->form == LID_VEIN_RULE && vein->carries == NULL;

  /* A note's line may pass here: words stand on paper. */
  if (!alone)
    {
      lid_draw_board_source (cr, theme->paper);
      cairo_rectangle (cr, vein->caption.x - 2, vein->caption.y,
                       MIN (vein->caption.width, vein->name_width) + 4, vein->caption.height);
      cairo_fill (cr);
    }
  lid_draw_board_source (cr, vein->idle ? theme->soft : theme->leaf);
  lid_draw_text_fit (text, cr, vein->caption, baseline, bold,
                     alone ? LID_ALIGN_CENTRE : LID_ALIGN_LEFT, vein->name);
  if (vein->carries == NULL)
    return;
  lid_draw_board_source (cr, theme->soft);
  lid_draw_text_fit (text, cr, vein->caption, baseline, vein->type, LID_ALIGN_RIGHT, vein->carries);
}

/* Where the words of a processor stand; @under counts where it has any. */
void
lid_draw_board_leaf_baselines (const LidPlacedLeaf *leaf, double *title, double *under)
{
  double em = leaf->type.pt * LID_MM_PER_PT, middle = leaf->box.y + leaf->box.height / 2;

  *title = middle + (leaf->under != NULL ? -0.25 * em : 0.36 * em);
  *under = middle + 1.12 * leaf->under_type.pt * LID_MM_PER_PT;
}

static void
draw_leaf_words (cairo_t *cr, LidDrawText *text, const LidTheme *theme, const LidPlacedLeaf *leaf)
{
  double em = leaf->type.pt * LID_MM_PER_PT, title, under;
  LidBox box
      = { leaf->box.x + em * 0.3, leaf->box.y, leaf->box.width - em * 0.6, leaf->box.height };
  LidAlign align = leaf->list ? LID_ALIGN_LEFT : LID_ALIGN_CENTRE;

  lid_draw_board_leaf_baselines (leaf, &title, &under);
  lid_draw_board_source (cr, leaf->fitted ? theme->ink : theme->soft);
  lid_draw_text_fit (text, cr, box, title, leaf->type, align, leaf->title);
  if (leaf->under == NULL)
    return;
  lid_draw_board_source (cr, theme->soft);
  lid_draw_text_fit (text, cr, box, under, leaf->under_type, align, leaf->under);
}

static void
draw_leaf (cairo_t *cr, LidDrawText *text, const LidTheme *theme, const LidPlacedLeaf *leaf)
{
  if (!leaf->list)
    {
      lid_draw_slot_outline (cr, leaf->box, 7);
      lid_draw_board_source (cr, leaf->fitted ? theme->face : theme->paper);
      cairo_fill_preserve (cr);
      lid_draw_board_source (cr, leaf->fitted ? theme->ink : theme->soft);
      cairo_set_line_width (cr, leaf->fitted ? 1.6 : 1.2);
      if (!leaf->fitted)
        cairo_set_dash (cr, theme->dash, 2, 0);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
    }
  draw_leaf_words (cr, text, theme, leaf);
}

static void
draw_note_lines (cairo_t *cr, const LidTheme *theme, const LidBoardNote *note)
{
  lid_draw_board_source (cr, theme->soft);
  cairo_set_line_width (cr, 0.9);
  for (guint l = 0; l < note->n_lines; l++)
    {
      cairo_move_to (cr, note->lines[l].x0, note->lines[l].y0);
      cairo_line_to (cr, note->lines[l].x1, note->lines[l].y1);
    }
  cairo_stroke (cr);
}

/* The title says why when it is asked: dots under it, as under a word that has a definition. */
static void
draw_note_dots (cairo_t *cr, LidDrawText *text, const LidTheme *theme, const LidBoardNote *note)
{
  static const double dots[] = { 1.2, 2.4 };
  double width
      = MIN (lid_draw_text_width (text, note->title_type, note->title), note->title_box.width);
  double y = note->title_box.y + note->title_box.height + 0.5;

  lid_draw_board_source (cr, theme->soft);
  cairo_set_line_width (cr, 1.2);
  cairo_set_dash (cr, dots, G_N_ELEMENTS (dots), 0);
  cairo_move_to (cr, note->title_box.x, y);
  cairo_line_to (cr, note->title_box.x + width, y);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  lid_draw_board_source (cr, theme->ink);
}

static void
draw_note (cairo_t *cr, LidDrawText *text, const LidTheme *theme, const LidBoardNote *note)
{
  LidType bold = { note->text_type.pt, TRUE };
  double px = note->text_type.pt * LID_MM_PER_PT;

  if (note->swatch.width > 0)
    {
      lid_draw_board_hatch (cr, theme, note->swatch, note->grade, 1);
      lid_draw_slot_outline (cr, note->swatch, 3);
      cairo_set_line_width (cr, 1.5);
      cairo_stroke (cr);
    }
  /* What stands for others opens: it is something to be done. */
  lid_draw_board_source (cr, note->finding != NULL ? theme->ink : theme->leaf);
  lid_draw_text_box (text, cr, note->title_box, note->title_type, LID_ALIGN_LEFT, note->title);
  if (note->finding != NULL)
    draw_note_dots (cr, text, theme, note);
  if (note->text != NULL)
    lid_draw_text_box (text, cr, note->text_box, note->text_type, LID_ALIGN_LEFT, note->text);
  if (note->remedy == NULL)
    return;
  lid_draw_board_source (cr, theme->leaf);
  lid_draw_text_box (
      text, cr,
      (LidBox){ note->link.x, note->link.y + 0.25 * px, note->box.width, note->link.height }, bold,
      LID_ALIGN_LEFT, note->remedy);
}

static void
draw_outline (cairo_t *cr, const LidTheme *theme, LidBox outline)
{
  lid_draw_slot_outline (cr, outline, 10);
  lid_draw_board_source (cr, theme->soft);
  cairo_set_line_width (cr, theme->thin);
  cairo_stroke (cr);
}

/**
 * lid_draw_board_piece:
 * @cr: in pixels at scale 1, the origin in the drawing's top left corner
 * @text: the helper whose measure made @geometry
 * @piece: of @geometry
 */
void
lid_draw_board_piece (cairo_t *cr,
                      LidDrawText *text,
                      const LidTheme *theme,
                      const LidBoardGeometry *geometry,
                      const LidBoardPiece *piece)
{
  cairo_save (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  switch (piece->kind)
    {
    case LID_PIECE_OUTLINE:
      draw_outline (cr, theme, geometry->outline);
      break;
    case LID_PIECE_VEIN:
      draw_vein (cr, theme, lid_board_geometry_vein (geometry, piece->index));
      break;
    case LID_PIECE_LEAF:
      draw_stem (cr, theme, lid_board_geometry_leaf (geometry, piece->index));
      draw_leaf (cr, text, theme, lid_board_geometry_leaf (geometry, piece->index));
      break;
    case LID_PIECE_CAPTION:
      draw_caption (cr, text, theme, lid_board_geometry_vein (geometry, piece->index));
      break;
    case LID_PIECE_NOTE:
      draw_note_lines (cr, theme, lid_board_geometry_note (geometry, piece->index));
      draw_note (cr, text, theme, lid_board_geometry_note (geometry, piece->index));
      break;
    default:
      break;
    }
  cairo_restore (cr);
}

/**
 * lid_draw_board_ground:
 * @cr: in pixels at scale 1, the origin in the drawing's top left corner
 * @text: the helper whose measure made @geometry
 *
 * Draws all but the slots; paper is left as it is.
 */
void
lid_draw_board_ground (cairo_t *cr,
                       LidDrawText *text,
                       const LidTheme *theme,
                       const LidBoardGeometry *geometry)
{
  g_autoptr (GArray) pieces = lid_board_pieces_new (geometry);

  for (guint i = 0; i < pieces->len; i++)
    lid_draw_board_piece (cr, text, theme, geometry, &g_array_index (pieces, LidBoardPiece, i));
}
