/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/draw-slot.h"

#define CAP_HALF 0.36 /* half the height of a capital, of the em; most sans faces */

/**
 * lid_draw_slot_outline:
 *
 * Adds a rounded rectangle to the path.
 */
void
lid_draw_slot_outline (cairo_t *cr, LidBox box, double radius)
{
  double r = MIN (radius, MIN (box.width, box.height) / 2);
  double right = box.x + box.width, bottom = box.y + box.height;

  cairo_new_sub_path (cr);
  cairo_arc (cr, right - r, box.y + r, r, -G_PI_2, 0);
  cairo_arc (cr, right - r, bottom - r, r, 0, G_PI_2);
  cairo_arc (cr, box.x + r, bottom - r, r, G_PI_2, G_PI);
  cairo_arc (cr, box.x + r, box.y + r, r, G_PI, 3 * G_PI_2);
  cairo_close_path (cr);
}

#define HATCH_LINE 0.22 /* mm */

static void
slanted (cairo_t *cr, LidBox box, double step, gboolean rising)
{
  double right = box.x + box.width, bottom = box.y + box.height;

  /* Clipped by hand: a clip path a slot is what makes a PDF large and slow. */
  for (double d = step / 2; d < box.width + box.height; d += step)
    {
      double x0 = MIN (box.x + d, right), y0 = box.y + MAX (0, d - box.width);
      double x1 = box.x + MAX (0, d - box.height), y1 = MIN (box.y + d, bottom);

      if (!rising)
        {
          x0 = box.x + right - x0;
          x1 = box.x + right - x1;
        }
      cairo_move_to (cr, x0, y0);
      cairo_line_to (cr, x1, y1);
    }
}

static void
dots (cairo_t *cr, LidBox box, double step)
{
  for (double y = box.y + step / 2; y < box.y + box.height; y += step)
    for (double x = box.x + step / 2; x < box.x + box.width; x += step)
      {
        cairo_new_sub_path (cr);
        cairo_arc (cr, x, y, 0.22, 0, 2 * G_PI);
      }
  cairo_fill (cr);
}

/* The lines of a pattern; those that are filled have none. */
static void
add_hatch (cairo_t *cr, const LidTheme *theme, LidBox box, LidHatch hatch)
{
  double step = theme->hatch, right = box.x + box.width, bottom = box.y + box.height;

  switch (hatch)
    {
    case LID_HATCH_NONE:
    case LID_HATCH_SOLID:
    case LID_HATCH_DOTS:
      return;
    case LID_HATCH_DIAGONAL:
      slanted (cr, box, step * 1.2, TRUE);
      break;
    case LID_HATCH_CROSS:
      slanted (cr, box, step * 1.2, TRUE);
      slanted (cr, box, step * 1.2, FALSE);
      break;
    case LID_HATCH_ACROSS:
      for (double y = box.y + step / 2; y < bottom; y += step)
        {
          cairo_move_to (cr, box.x, y);
          cairo_line_to (cr, right, y);
        }
      break;
    case LID_HATCH_UPRIGHT:
    default:
      for (double x = box.x + step / 2; x < right; x += step)
        {
          cairo_move_to (cr, x, box.y);
          cairo_line_to (cr, x, bottom);
        }
      break;
    }
}

static void
fill_hatch (cairo_t *cr, const LidTheme *theme, LidBox box, LidHatch hatch)
{
  if (hatch == LID_HATCH_DOTS)
    dots (cr, box, theme->hatch);
  if (hatch != LID_HATCH_SOLID)
    return;
  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  cairo_fill (cr);
}

/**
 * lid_draw_slot_hatch:
 * @box: filled with the pattern; no outline
 */
void
lid_draw_slot_hatch (cairo_t *cr, const LidTheme *theme, LidBox box, LidHatch hatch)
{
  fill_hatch (cr, theme, box, hatch);
  add_hatch (cr, theme, box, hatch);
  cairo_set_line_width (cr, HATCH_LINE);
  cairo_stroke (cr);
}

static void
lines (cairo_t *cr, double x, double y, const double points[][4], guint n)
{
  for (guint i = 0; i < n; i++)
    {
      cairo_move_to (cr, x + points[i][0], y + points[i][1]);
      cairo_line_to (cr, x + points[i][2], y + points[i][3]);
    }
}

/**
 * lid_draw_slot_mark:
 * @box: the mark stands in its middle, 3 mm high
 */
void
lid_draw_slot_mark (cairo_t *cr, const LidTheme *theme, LidBox box, LidMark mark)
{
  static const double plus[][4] = { { -1.5, 0, 1.5, 0 }, { 0, -1.5, 0, 1.5 } };
  static const double arrow[][4]
      = { { -1.7, 0, 1.5, 0 }, { 0.2, -1.3, 1.6, 0 }, { 0.2, 1.3, 1.6, 0 } };
  static const double cross[][4] = { { -1.2, -1.2, 1.2, 1.2 }, { -1.2, 1.2, 1.2, -1.2 } };
  double x = box.x + box.width / 2, y = box.y + box.height / 2;

  cairo_set_line_width (cr, 0.6);
  switch (mark)
    {
    case LID_MARK_NEW:
      lines (cr, x, y, plus, G_N_ELEMENTS (plus));
      break;
    case LID_MARK_MOVED:
      lines (cr, x, y, arrow, G_N_ELEMENTS (arrow));
      break;
    case LID_MARK_LEAVES:
      lines (cr, x, y, plus, 1);
      break;
    case LID_MARK_NOT_SEEN:
      lines (cr, x, y, cross, G_N_ELEMENTS (cross));
      break;
    case LID_MARK_SOLDERED:
      cairo_rectangle (cr, x - 1.4, y - 0.4, 2.8, 2.1);
      cairo_fill (cr);
      cairo_set_line_width (cr, 0.4);
      cairo_arc (cr, x, y - 0.4, 0.85, G_PI, 0);
      break;
    case LID_MARK_NONE:
    default:
      return;
    }
  cairo_stroke (cr);
}

/**
 * lid_draw_slot_ring:
 * @box: the ring's square
 * @number: stands in it, smaller where it is long
 */
void
lid_draw_slot_ring (cairo_t *cr, LidDrawText *text, LidBox box, guint number, LidType type)
{
  char digits[12];
  double radius = MIN (box.width, box.height) / 2;
  double x = box.x + box.width / 2, y = box.y + box.height / 2;

  g_snprintf (digits, sizeof digits, "%u", number);
  if (number > 9)
    type.pt *= number > 99 ? 0.72 : 0.9;
  cairo_set_line_width (cr, 0.35);
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, radius - 0.18, 0, 2 * G_PI);
  cairo_stroke (cr);
  lid_draw_text_fit (text, cr, (LidBox){ box.x - 2, box.y, box.width + 4, box.height },
                     y + CAP_HALF * type.pt * LID_MM_PER_PT, type, LID_ALIGN_CENTRE, digits);
}

static LidBox
latch_of (LidBox box, const LidSlotShape *shape, guint side)
{
  double height = box.height * 0.66, width = shape->latch - 0.4;

  return (LidBox){ side == 0 ? box.x : box.x + box.width - width, box.y + (box.height - height) / 2,
                   width, height };
}

static LidBox
body_of (LidBox box, const LidSlotShape *shape)
{
  return (LidBox){ box.x + shape->latch, box.y, box.width - 2 * shape->latch, box.height };
}

static LidBox
strip_of (LidBox body)
{
  return (LidBox){ body.x + body.width - 6.8, body.y + 1.1, 5.8, body.height - 2.2 };
}

static LidSlotLines
outline_of (const LidSlotLook *look)
{
  if (look->heavy)
    return look->empty ? LID_SLOT_LINES_HEAVY_BROKEN : LID_SLOT_LINES_HEAVY;
  return look->empty ? LID_SLOT_LINES_BROKEN : LID_SLOT_LINES_PLAIN;
}

static void
add_outline (cairo_t *cr, const LidTheme *theme, LidBox body, const LidSlotLook *look)
{
  double weight = look->heavy ? theme->heavy : theme->line;

  body.x += weight / 2;
  body.y += weight / 2;
  body.width -= weight;
  body.height -= weight;
  lid_draw_slot_outline (cr, body, theme->radius);
}

/**
 * lid_draw_slot_add_lines:
 * @lines: which lines of the slot
 *
 * Adds to the path what of the slot is drawn with @lines; lid_draw_slot_stroke() draws it. Each
 * stroke costs a PDF as much as a dozen lines, so those of all slots are one.
 */
void
lid_draw_slot_add_lines (cairo_t *cr,
                         const LidTheme *theme,
                         LidBox box,
                         const LidSlotLook *look,
                         const LidSlotShape *shape,
                         LidSlotLines lines)
{
  LidBox body = body_of (box, shape);

  if (lines == outline_of (look))
    add_outline (cr, theme, body, look);
  for (guint side = 0; look->latch_known && side < 2; side++)
    {
      LidBox latch = latch_of (box, shape, side);

      if (lines == LID_SLOT_LINES_PLAIN)
        cairo_rectangle (cr, latch.x, latch.y, latch.width, latch.height);
      else if (lines == LID_SLOT_LINES_HATCH)
        add_hatch (cr, theme, latch, look->latch);
    }
  if (lines == LID_SLOT_LINES_HATCH)
    add_hatch (cr, theme, strip_of (body), look->finding);
}

void
lid_draw_slot_stroke (cairo_t *cr, const LidTheme *theme, LidSlotLines lines)
{
  gboolean heavy = lines == LID_SLOT_LINES_HEAVY || lines == LID_SLOT_LINES_HEAVY_BROKEN;
  gboolean broken = lines == LID_SLOT_LINES_BROKEN || lines == LID_SLOT_LINES_HEAVY_BROKEN;

  cairo_set_line_width (cr, lines == LID_SLOT_LINES_HATCH ? HATCH_LINE
                            : heavy                       ? theme->heavy
                                                          : theme->line);
  if (broken)
    cairo_set_dash (cr, theme->dash, 2, 0);
  cairo_stroke (cr);
  if (broken)
    cairo_set_dash (cr, NULL, 0, 0);
}

/* Ring, mark and pattern stand at the right end, in columns of their own. */
static void
draw_trailer (cairo_t *cr,
              LidDrawText *text,
              const LidTheme *theme,
              LidBox body,
              const LidSlotLook *look,
              const LidSlotShape *shape)
{
  double scale = shape->name_type.pt / LID_NAME_LEAST_PT;
  double size = MIN (5.4 * scale, body.height - 1), right = body.x + body.width - 1.0;

  if (look->finding != LID_HATCH_NONE)
    {
      fill_hatch (cr, theme, strip_of (body), look->finding);
      right -= 7;
    }
  if (look->ring > 0)
    lid_draw_slot_ring (cr, text,
                        (LidBox){ right - size, body.y + (body.height - size) / 2, size, size },
                        look->ring, (LidType){ 9.5 * scale, TRUE });
  if (look->ring > 0)
    right -= 6.2 * scale;
  if (look->mark != LID_MARK_NONE)
    lid_draw_slot_mark (cr, theme, (LidBox){ right - 4, body.y, 4, body.height }, look->mark);
}

static void
draw_two_lines (cairo_t *cr,
                LidDrawText *text,
                LidBox area,
                LidType upper_type,
                const char *upper,
                const char *lower,
                LidType lower_type)
{
  double above = upper_type.pt * LID_MM_PER_PT, below = lower_type.pt * LID_MM_PER_PT;
  double gap = 0.34 * below, high = 2 * CAP_HALF * (above + below) + gap + 0.25 * below;
  double top = area.y + (area.height - high) / 2;

  lid_draw_text_fit (text, cr, area, top + 2 * CAP_HALF * above, upper_type, LID_ALIGN_LEFT, upper);
  lid_draw_text_fit (text, cr, area, top + 2 * CAP_HALF * (above + below) + gap + 0.25 * below,
                     lower_type, LID_ALIGN_LEFT, lower);
}

/**
 * lid_draw_slot:
 * @cr: in millimetres, its source the ink
 * @box: the slot with its latches
 * @look: what it says
 * @shape: where things lie
 *
 * Draws all but the lines: see lid_draw_slot_add_lines().
 */
void
lid_draw_slot (cairo_t *cr,
               LidDrawText *text,
               const LidTheme *theme,
               LidBox box,
               const LidSlotLook *look,
               const LidSlotShape *shape)
{
  LidBox body = body_of (box, shape);
  double middle = body.y + body.height / 2, em = shape->name_type.pt * LID_MM_PER_PT;
  const char *words = look->words[shape->words];
  LidType words_type = shape->words_type;
  LidBox area = { body.x + 2, body.y, body.width - 2.2 - shape->trailer, body.height };

  if (look->empty)
    words_type.bold = FALSE;
  for (guint side = 0; look->latch_known && side < 2; side++)
    fill_hatch (cr, theme, latch_of (box, shape, side), look->latch);
  draw_trailer (cr, text, theme, body, look, shape);
  if (shape->lines == 3)
    {
      draw_two_lines (cr, text, area, shape->name_type, look->name, words, words_type);
      return;
    }
  lid_draw_text_fit (text, cr, area, middle + CAP_HALF * em, shape->name_type, LID_ALIGN_LEFT,
                     look->name);
  area.x += shape->name + 2.5;
  area.width -= shape->name + 2.5;
  if (shape->lines == 2 && look->detail != NULL && look->detail[0] != 0)
    draw_two_lines (cr, text, area, words_type, words, look->detail, shape->detail_type);
  else
    lid_draw_text_fit (text, cr, area, middle + CAP_HALF * shape->words_type.pt * LID_MM_PER_PT,
                       words_type, LID_ALIGN_LEFT, words);
}
