/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/draw-board-private.h"
#include "drawing/draw-slot.h"

#define CAP_HALF 0.36
#define LEAST_SHRUNK 0.8

typedef struct
{
  cairo_t *cr;
  LidDrawText *text;
  const LidTheme *theme;
  const LidSlotLook *look;
  const LidSlotShape *shape;
  LidSlotFlags flags;
  LidBox box, body;
  double em; /* of the name */
} Pen;

static void
draw_latches (const Pen *pen)
{
  double high = pen->box.height * 0.72, width = pen->shape->latch + 2;
  LidBox latch = { pen->box.x, pen->box.y + (pen->box.height - high) / 2, width, high };

  if (pen->look->hue == NULL)
    return;
  if (pen->shape->lines == 0)
    {
      /* From far a colour is all there is to see, and an outline costs as much as the slot. */
      cairo_rectangle (pen->cr, latch.x, latch.y, width, high);
      cairo_rectangle (pen->cr, pen->box.x + pen->box.width - width, latch.y, width, high);
      lid_draw_board_source (pen->cr, lid_theme_hue (pen->look->hue, pen->theme->paper));
      cairo_fill (pen->cr);
      return;
    }
  for (guint side = 0; side < 2; side++)
    {
      lid_draw_slot_outline (pen->cr, latch, 2.5);
      latch.x = pen->box.x + pen->box.width - width;
    }
  lid_draw_board_source (pen->cr, lid_theme_hue (pen->look->hue, pen->theme->paper));
  cairo_fill_preserve (pen->cr);
  lid_draw_board_source (pen->cr, pen->theme->outline);
  cairo_set_line_width (pen->cr, 1);
  cairo_stroke (pen->cr);
}

static void
draw_body (const Pen *pen)
{
  const LidTheme *theme = pen->theme;
  gboolean heavy = pen->look->heavy || (pen->flags & LID_SLOT_SELECTED) != 0;
  /* Where a module goes that is let go now: a line without gaps is seen in any contrast. */
  gboolean broken = pen->look->empty && (~pen->flags & (LID_SLOT_SELECTED | LID_SLOT_HOVER)) != 0;
  double weight = heavy ? MIN (theme->heavy, pen->box.height * 0.1) : theme->line,
         half = weight / 2;
  LidBox body = { pen->body.x + half, pen->body.y + half, pen->body.width - weight,
                  pen->body.height - weight };

  if (pen->look->empty)
    {
      cairo_rectangle (pen->cr, body.x, body.y, body.width, body.height);
      lid_draw_board_source (pen->cr, theme->paper);
      cairo_fill (pen->cr);
    }
  lid_draw_slot_outline (pen->cr, body, MIN (theme->radius, pen->box.height * 0.16));
  lid_draw_board_source (pen->cr, theme->face);
  if (!pen->look->empty)
    cairo_fill_preserve (pen->cr);
  if (pen->flags & LID_SLOT_HOVER)
    {
      cairo_set_source_rgba (pen->cr, theme->leaf.red, theme->leaf.green, theme->leaf.blue, 0.13);
      cairo_fill_preserve (pen->cr);
    }
  lid_draw_board_source (pen->cr, (pen->flags & LID_SLOT_SELECTED) ? theme->leaf
                                  : heavy                          ? theme->ink
                                                                   : theme->outline);
  cairo_set_line_width (pen->cr, weight);
  if (broken)
    cairo_set_dash (pen->cr, theme->dash, 2, 0);
  cairo_stroke (pen->cr);
  if (broken)
    cairo_set_dash (pen->cr, NULL, 0, 0);
}

/* The finding's pattern fills the right end; returns the edge left of it. */
static double
draw_finding (const Pen *pen)
{
  double right = pen->body.x + pen->body.width, inset = pen->shape->lines == 0 ? 1.2 : 2.2;
  double width
      = pen->shape->lines == 0 ? CLAMP (0.14 * pen->body.width, 4, 12) : pen->shape->trailer;
  gboolean marked = pen->shape->lines != 0 && pen->look->mark != LID_MARK_NONE;
  /* The name comes first, then the mark: the hatch takes what they leave, never less than a strip
   * one can see. */
  double room = right - inset - pen->body.x - pen->shape->name - (marked ? 2.15 : 1.1) * pen->em;
  LidBox strip;

  width = MIN (width, MAX (room, 6));
  strip
      = (LidBox){ right - inset - width, pen->body.y + inset, width, pen->body.height - 2 * inset };

  if (pen->look->grade == LID_NOWHERE)
    return right - 0.3 * pen->em;
  if (pen->look->grade == LID_GRADE_NOTE)
    {
      LidBox ring = { pen->body.x + 3, pen->body.y + 3, pen->body.width - 6, pen->body.height - 6 };

      lid_draw_slot_outline (pen->cr, ring, MIN (3, pen->box.height * 0.12));
      lid_draw_board_source (pen->cr, pen->theme->grade[LID_GRADE_NOTE]);
      cairo_set_line_width (pen->cr, 1);
      cairo_stroke (pen->cr);
      return right - 0.4 * pen->em;
    }
  lid_draw_board_hatch (pen->cr, pen->theme, strip, (LidGrade)pen->look->grade,
                        CLAMP (pen->box.height / 40, 0.7, 1.3));
  cairo_move_to (pen->cr, strip.x, strip.y);
  cairo_line_to (pen->cr, strip.x, strip.y + strip.height);
  cairo_set_line_width (pen->cr, 1.2);
  cairo_stroke (pen->cr);
  return strip.x - (pen->shape->lines == 0 ? 0 : 0.25 * pen->em);
}

static double
draw_mark (const Pen *pen, double right)
{
  /* From far the name is most of the slot. */
  double size = pen->shape->lines == 0 ? 0.75 * pen->em : pen->em;
  double mm = size / 4.2, width = size * 0.95;
  LidBox box = { right - width, pen->body.y, width, pen->body.height };

  if (pen->look->mark == LID_MARK_NONE)
    return right;
  /* From far the name comes first; the heavy outline still says where the hand works. */
  if (pen->shape->lines == 0 && pen->look->mark != LID_MARK_SOLDERED
      && right - width - pen->body.x < pen->shape->name + 0.6 * pen->em)
    return right;
  lid_draw_board_source (pen->cr, pen->look->mark == LID_MARK_NOT_SEEN
                                      ? pen->theme->grade[LID_GRADE_STOPS]
                                      : pen->theme->ink);
  cairo_save (pen->cr);
  cairo_scale (pen->cr, mm, mm);
  lid_draw_slot_mark (pen->cr, pen->theme,
                      (LidBox){ box.x / mm, box.y / mm, box.width / mm, box.height / mm },
                      pen->look->mark);
  cairo_restore (pen->cr);
  return box.x - 0.15 * pen->em;
}

/* Room is kept for what is common; what is a little longer ("126.3 GB persistent", a name beside a
 * lock) is written a little smaller rather than cut. */
static double
shrink (const Pen *pen, const char *text, LidType type, double room)
{
  LidMeasure measure = lid_draw_text_measure (pen->text);
  double width;

  width = lid_measure_width (&measure, type, text);
  return width > room && width * LEAST_SHRUNK <= room ? 0.98 * room / width : 1;
}

static const char *
words_for (const Pen *pen, LidType type, double room)
{
  LidMeasure measure = lid_draw_text_measure (pen->text);
  const char *words = pen->look->words[pen->shape->words];

  if (pen->look->brief == NULL || lid_measure_width (&measure, type, words) * LEAST_SHRUNK <= room)
    return words;
  return pen->look->brief;
}

static void
draw_words (const Pen *pen, double right)
{
  const char *text;
  const LidSlotShape *shape = pen->shape;
  double middle = pen->body.y + pen->body.height / 2, pad = MIN (0.55 * pen->em, 9);
  double left = pen->body.x + (shape->lines == 0 ? MAX (4, 0.35 * pen->em) : pad);
  double words = (shape->lines == 2 ? shape->detail_type : shape->words_type).pt * LID_MM_PER_PT;
  LidBox name = { left, 0, right - left, 0 }, area = name;
  LidType words_type = shape->lines == 2 ? shape->detail_type : shape->words_type;
  LidType name_type = shape->name_type;
  double base = middle + CAP_HALF * pen->em;

  if (shape->lines == 2)
    base = middle - 0.16 * pen->em;
  lid_draw_board_source (pen->cr, pen->theme->ink);
  if (shape->lines == 0 && pen->look->mark != LID_MARK_NONE)
    name_type.pt *= shrink (pen, pen->look->name, name_type, name.width);
  lid_draw_text_fit (pen->text, pen->cr, name, base, name_type, LID_ALIGN_LEFT, pen->look->name);
  if (shape->lines == 0)
    return;
  if (shape->lines == 1)
    {
      area.x += shape->name + 0.9 * pen->em;
      area.width = right - area.x;
    }
  else
    area.width = right + (pen->look->mark != LID_MARK_NONE ? 0.9 * pen->em : 0) - area.x;
  if (pen->look->empty)
    lid_draw_board_source (pen->cr, pen->theme->soft);
  text = words_for (pen, words_type, area.width);
  if (text == pen->look->brief && pen->look->persistent)
    lid_draw_board_source (pen->cr, pen->theme->soft); /* as from far: no memory to count on */
  if (pen->look->brief != NULL)
    words_type.pt *= shrink (pen, text, words_type, area.width);
  lid_draw_text_fit (pen->text, pen->cr, area,
                     shape->lines == 1 ? middle + CAP_HALF * words : middle + 0.92 * words,
                     words_type, LID_ALIGN_LEFT, text);
}

/* From far a filled slot is told from an empty one by a solid foot, not by its words. */
static void
draw_filled (const Pen *pen)
{
  if (pen->shape->lines != 0 || pen->look->empty)
    return;
  lid_draw_board_source (pen->cr, pen->look->persistent ? pen->theme->soft : pen->theme->ink);
  cairo_rectangle (pen->cr, pen->body.x + 1, pen->body.y + 1.5,
                   MAX (1.5, MIN (4, pen->body.width * 0.05)), pen->body.height - 3);
  cairo_fill (pen->cr);
}

static void
draw_focus (const Pen *pen)
{
  LidBox ring = { pen->box.x - 2, pen->box.y - 2, pen->box.width + 4, pen->box.height + 4 };

  lid_draw_slot_outline (pen->cr, ring, pen->theme->radius + 2);
  lid_draw_board_source (pen->cr, pen->theme->leaf);
  cairo_set_line_width (pen->cr, 2.5);
  cairo_stroke (pen->cr);
}

/**
 * lid_draw_board_slot:
 * @cr: in the pixels of @geometry; the focus ring reaches 3.5 outside the slot's box
 * @slot: which
 * @flags: how the hand stands to it
 */
void
lid_draw_board_slot (cairo_t *cr,
                     LidDrawText *text,
                     const LidTheme *theme,
                     const LidBoardGeometry *geometry,
                     guint slot,
                     LidSlotFlags flags)
{
  const LidPlacedSlot *placed = &geometry->slots[slot];
  Pen pen = { cr,          text,           theme, &geometry->looks[slot], &geometry->shape, flags,
              placed->box, { 0, 0, 0, 0 }, 0 };
  double right;

  cairo_save (cr);
  if (placed->upright)
    {
      /* Read from below upwards: the box lies on its side, its left end at the foot. */
      cairo_translate (cr, placed->box.x, placed->box.y + placed->box.height);
      cairo_rotate (cr, -G_PI_2);
      pen.box = (LidBox){ 0, 0, placed->box.height, placed->box.width };
    }
  pen.em = pen.shape->name_type.pt * LID_MM_PER_PT;
  pen.body = (LidBox){ pen.box.x + pen.shape->latch, pen.box.y,
                       pen.box.width - 2 * pen.shape->latch, pen.box.height };
  draw_latches (&pen);
  draw_body (&pen);
  draw_filled (&pen);
  right = draw_mark (&pen, draw_finding (&pen));
  draw_words (&pen, right);
  if (flags & LID_SLOT_FOCUS)
    draw_focus (&pen);
  cairo_restore (cr);
}
