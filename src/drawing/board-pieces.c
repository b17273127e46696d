/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-pieces.h"

#include <string.h>

static void
grow (LidBox *box, double x, double y)
{
  double right = MAX (box->x + box->width, x), bottom = MAX (box->y + box->height, y);

  box->x = MIN (box->x, x);
  box->y = MIN (box->y, y);
  box->width = right - box->x;
  box->height = bottom - box->y;
}

static void
grow_by (LidBox *box, LidBox by, double edge)
{
  grow (box, by.x - edge, by.y - edge);
  grow (box, by.x + by.width + edge, by.y + by.height + edge);
}

static LidBox
box_of_vein (const LidVein *vein)
{
  double edge = vein->width / 2 + 2;
  LidBox box = { vein->x0, vein->y0, 0, 0 };

  grow (&box, vein->x1, vein->y1);
  if (vein->spine_bottom > vein->spine_top)
    {
      grow (&box, vein->x1, vein->spine_top);
      grow (&box, vein->x1, vein->spine_bottom);
    }
  grow_by (&box, box, edge);
  return box;
}

/* Words may stand higher than the box they were given. */
static LidBox
box_of_words (LidBox box, LidType type)
{
  double em = type.pt * LID_MM_PER_PT;
  LidBox words = { box.x, box.y + box.height / 2 - em, box.width, 2 * em };

  grow_by (&box, words, 4);
  return box;
}

/**
 * lid_board_pieces_in_leaf:
 *
 * Returns: whether that vein is drawn with that leaf: it springs from its midrib
 */
gboolean
lid_board_pieces_in_leaf (const LidBoardGeometry *geometry, guint vein, guint leaf)
{
  const LidVein *v = lid_board_geometry_vein (geometry, vein);
  const LidPlacedLeaf *l = lid_board_geometry_leaf (geometry, leaf);

  return v->form == LID_VEIN_CURVE && !l->list && v->channel != LID_NOWHERE
         && geometry->board->channels[v->channel].socket == l->socket;
}

static LidBox
box_of_leaf (const LidPlacedLeaf *leaf)
{
  LidBox box = box_of_words (leaf->box, leaf->type);

  grow_by (&box, leaf->box, 2); /* its outline */
  if (leaf->under != NULL)
    grow (&box, box.x, leaf->box.y + leaf->box.height / 2 + 1.6 * leaf->under_type.pt);
  return box;
}

/* Of the midrib and the veins; width 0: there are none. */
static LidBox
box_of_veins (const LidBoardGeometry *geometry, guint i)
{
  const LidPlacedLeaf *leaf = lid_board_geometry_leaf (geometry, i);
  double half = MAX (leaf->stem_width / 2, 2);
  LidBox box = { leaf->stem_x, leaf->stem_bottom, 0, 0 };
  gboolean any = leaf->stem_top < leaf->stem_bottom;

  if (any)
    box = (LidBox){ leaf->stem_x - half, leaf->stem_top - 1, 2 * half,
                    leaf->stem_bottom - leaf->stem_top + 2 };
  for (guint v = 0; v < geometry->veins->len; v++)
    if (lid_board_pieces_in_leaf (geometry, v, i))
      {
        LidBox vein = box_of_vein (lid_board_geometry_vein (geometry, v));

        if (!any)
          box = vein;
        grow_by (&box, vein, 0);
        any = TRUE;
      }
  return box;
}

static LidBox
box_of_lines (const LidBoardNote *note)
{
  LidBox box = { note->lines[0].x0, note->lines[0].y0, 0, 0 };

  for (guint l = 0; l < note->n_lines; l++)
    {
      grow (&box, note->lines[l].x0, note->lines[l].y0);
      grow (&box, note->lines[l].x1, note->lines[l].y1);
    }
  grow_by (&box, box, 2);
  return box;
}

static LidBox
box_of_note (const LidBoardNote *note)
{
  LidBox box = note->box;

  grow_by (&box, note->swatch, 0);
  grow_by (&box, note->title_box, 0);
  grow_by (&box, note->text_box, 0);
  grow_by (&box, note->link, 0);
  grow_by (&box, box, 6);
  return box;
}

static void
add (GArray *pieces, LidPieceKind kind, guint index, LidBox box)
{
  LidBoardPiece piece = { kind, index, box };

  g_array_append_val (pieces, piece);
}

static gboolean
stands_alone (const LidBoardGeometry *geometry, guint vein)
{
  for (guint l = 0; l < geometry->leaves->len; l++)
    if (lid_board_pieces_in_leaf (geometry, vein, l))
      return FALSE;
  return TRUE;
}

/**
 * lid_board_pieces_new:
 *
 * Returns: (transfer full): LidBoardPiece, in the order they are drawn
 */
GArray *
lid_board_pieces_new (const LidBoardGeometry *geometry)
{
  GArray *pieces = g_array_new (FALSE, TRUE, sizeof (LidBoardPiece));
  LidBox outline = geometry->outline;

  grow_by (&outline, outline, 2);
  if (geometry->outline.width > 0)
    add (pieces, LID_PIECE_OUTLINE, 0, outline);
  for (guint i = 0; i < geometry->notes->len; i++)
    if (lid_board_geometry_note (geometry, i)->n_lines > 0)
      add (pieces, LID_PIECE_LINES, i, box_of_lines (lid_board_geometry_note (geometry, i)));
  for (guint i = 0; i < geometry->veins->len; i++)
    if (stands_alone (geometry, i))
      add (pieces, LID_PIECE_VEIN, i, box_of_vein (lid_board_geometry_vein (geometry, i)));
  for (guint i = 0; i < geometry->leaves->len; i++)
    if (box_of_veins (geometry, i).width > 0)
      add (pieces, LID_PIECE_VEINS, i, box_of_veins (geometry, i));
  for (guint i = 0; i < geometry->leaves->len; i++)
    add (pieces, LID_PIECE_LEAF, i, box_of_leaf (lid_board_geometry_leaf (geometry, i)));
  for (guint i = 0; i < geometry->veins->len; i++)
    {
      const LidVein *vein = lid_board_geometry_vein (geometry, i);

      add (pieces, LID_PIECE_CAPTION, i, box_of_words (vein->caption, vein->type));
    }
  for (guint i = 0; i < geometry->notes->len; i++)
    add (pieces, LID_PIECE_NOTE, i, box_of_note (lid_board_geometry_note (geometry, i)));
  return pieces;
}

/* What is compared is all there is, less the pointers, which are compared by what they point to: a
 * field that comes later is compared from the start, and one that is not known to be the same is
 * drawn again. */
static gboolean
same_vein (const LidVein *a, const LidVein *b)
{
  LidVein x, y;

  memcpy (&x, a, sizeof x);
  memcpy (&y, b, sizeof y);
  x.name = y.name = x.carries = y.carries = NULL;
  return memcmp (&x, &y, sizeof x) == 0 && g_strcmp0 (a->name, b->name) == 0
         && g_strcmp0 (a->carries, b->carries) == 0;
}

static gboolean
same_leaf (const LidPlacedLeaf *a, const LidPlacedLeaf *b)
{
  LidPlacedLeaf x, y;

  memcpy (&x, a, sizeof x);
  memcpy (&y, b, sizeof y);
  x.title = y.title = x.under = y.under = NULL;
  return memcmp (&x, &y, sizeof x) == 0 && g_strcmp0 (a->title, b->title) == 0
         && g_strcmp0 (a->under, b->under) == 0;
}

static gboolean
same_note (const LidBoardNote *a, const LidBoardNote *b)
{
  LidBoardNote x, y;

  memcpy (&x, a, sizeof x);
  memcpy (&y, b, sizeof y);
  x.finding = y.finding = NULL;
  x.title = y.title = x.text = y.text = x.remedy = y.remedy = NULL;
  return memcmp (&x, &y, sizeof x) == 0 && (a->finding == NULL) == (b->finding == NULL)
         && g_strcmp0 (a->title, b->title) == 0 && g_strcmp0 (a->text, b->text) == 0
         && g_strcmp0 (a->remedy, b->remedy) == 0;
}

static gboolean
same_veins_of_leaf (const LidBoardGeometry *a, const LidBoardGeometry *b, guint leaf)
{
  if (a->veins->len != b->veins->len)
    return FALSE;
  for (guint v = 0; v < a->veins->len; v++)
    {
      LidVein x = *lid_board_geometry_vein (a, v), y = *lid_board_geometry_vein (b, v);

      if (lid_board_pieces_in_leaf (a, v, leaf) != lid_board_pieces_in_leaf (b, v, leaf))
        return FALSE;
      /* Its words are a piece of their own. */
      x.carries = y.carries = NULL;
      if (lid_board_pieces_in_leaf (a, v, leaf) && !same_vein (&x, &y))
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_board_pieces_same:
 * @x: a piece of @a
 * @y: a piece of @b
 *
 * Returns: whether they look the same in the same ink; if in doubt, not
 */
gboolean
lid_board_pieces_same (const LidBoardGeometry *a,
                       const LidBoardPiece *x,
                       const LidBoardGeometry *b,
                       const LidBoardPiece *y)
{
  if (x->kind != y->kind || memcmp (&x->box, &y->box, sizeof x->box) != 0)
    return FALSE;
  switch (x->kind)
    {
    case LID_PIECE_OUTLINE:
      return memcmp (&a->outline, &b->outline, sizeof a->outline) == 0;
    case LID_PIECE_LINES:
    case LID_PIECE_NOTE:
      return same_note (lid_board_geometry_note (a, x->index),
                        lid_board_geometry_note (b, y->index));
    case LID_PIECE_VEIN:
    case LID_PIECE_CAPTION:
      return same_vein (lid_board_geometry_vein (a, x->index),
                        lid_board_geometry_vein (b, y->index));
    case LID_PIECE_LEAF:
      return same_leaf (lid_board_geometry_leaf (a, x->index),
                        lid_board_geometry_leaf (b, y->index));
    case LID_PIECE_VEINS:
      return x->index == y->index
             && same_leaf (lid_board_geometry_leaf (a, x->index),
                           lid_board_geometry_leaf (b, y->index))
             && same_veins_of_leaf (a, b, x->index);
    default:
      return FALSE;
    }
}

static gboolean
same_look (const LidSlotLook *a, const LidSlotLook *b)
{
  LidSlotLook x, y;

  memcpy (&x, a, sizeof x);
  memcpy (&y, b, sizeof y);
  x.name = y.name = x.detail = y.detail = x.channel = y.channel = x.hue = y.hue = NULL;
  for (guint w = 0; w < LID_N_WORDS; w++)
    {
      x.words[w] = y.words[w] = NULL;
      if (g_strcmp0 (a->words[w], b->words[w]) != 0)
        return FALSE;
    }
  return memcmp (&x, &y, sizeof x) == 0 && g_strcmp0 (a->name, b->name) == 0
         && g_strcmp0 (a->detail, b->detail) == 0 && g_strcmp0 (a->channel, b->channel) == 0
         && g_strcmp0 (a->hue, b->hue) == 0;
}

/**
 * lid_board_pieces_same_slot:
 * @slot: of both
 *
 * Returns: whether the slot lies where it lay and looks the same; if in doubt, not
 */
gboolean
lid_board_pieces_same_slot (const LidBoardGeometry *a, const LidBoardGeometry *b, guint slot)
{
  return memcmp (&a->slots[slot], &b->slots[slot], sizeof a->slots[slot]) == 0
         && memcmp (&a->shape, &b->shape, sizeof a->shape) == 0
         && same_look (&a->looks[slot], &b->looks[slot]);
}
