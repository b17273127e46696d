/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-pieces.h"

#include "drawing/draw-board-private.h"

#include <string.h>

static void
grow_by (LidBox *box, LidBox by, double edge)
{
  lid_box_unite (box,
                 (LidBox){ by.x - edge, by.y - edge, by.width + 2 * edge, by.height + 2 * edge });
}

/* What is drawn of a line reaches half its width out, and a dot that is touched is a whole one. */
static LidBox
box_of_vein (const LidVein *vein)
{
  double edge = vein->width / 2 + 0.5;
  LidBox box = { vein->x0, vein->y0, 0, 0 };

  lid_box_unite (&box, (LidBox){ vein->x1, vein->y1, 0, 0 });
  grow_by (&box, box, edge);
  if (vein->spine_bottom > vein->spine_top)
    grow_by (&box, (LidBox){ vein->x1, vein->spine_top, 0, vein->spine_bottom - vein->spine_top },
             edge);
  return box;
}

static LidBox
box_of_stem (const LidPlacedLeaf *leaf)
{
  double half = MAX (leaf->stem_width / 2, 1.5) + 0.5;

  return (LidBox){ leaf->stem_x - half, leaf->stem_top, 2 * half,
                   leaf->stem_bottom - leaf->stem_top };
}

/* Accents and tails of a line of words around its baseline. */
static LidBox
box_of_words (LidBox box, double baseline, LidType type)
{
  double em = type.pt * LID_MM_PER_PT;

  return (LidBox){ box.x - 1, baseline - 1.1 * em, box.width + 2, 1.5 * em };
}

static LidBox
box_of_caption (const LidVein *vein)
{
  LidBox box
      = { vein->caption.x - 2, vein->caption.y, vein->caption.width + 4, vein->caption.height };

  grow_by (&box, box_of_words (vein->caption, lid_draw_board_caption_baseline (vein), vein->type),
           0);
  return box;
}

static LidBox
box_of_leaf (const LidPlacedLeaf *leaf)
{
  LidBox box = leaf->box;
  double title, under;

  lid_draw_board_leaf_baselines (leaf, &title, &under);
  grow_by (&box, leaf->box, leaf->list ? 0 : 1); /* its outline */
  grow_by (&box, box_of_words (leaf->box, title, leaf->type), 0);
  if (leaf->under != NULL)
    grow_by (&box, box_of_words (leaf->box, under, leaf->under_type), 0);
  if (leaf->stem_top < leaf->stem_bottom)
    grow_by (&box, box_of_stem (leaf), 0);
  return box;
}

static LidBox
box_of_note (const LidBoardNote *note)
{
  LidBox box = note->box;

  grow_by (&box, note->swatch, 1);
  grow_by (&box, note->title_box, 2);
  if (note->text != NULL)
    grow_by (&box, note->text_box, 2);
  if (note->remedy != NULL)
    grow_by (&box, note->link, 2);
  for (guint l = 0; l < note->n_lines; l++)
    {
      const LidNoteLine *line = &note->lines[l];

      grow_by (&box, (LidBox){ line->x0, line->y0, 0, 0 }, 2);
      grow_by (&box, (LidBox){ line->x1, line->y1, 0, 0 }, 2);
    }
  return box;
}

static void
add (GArray *pieces, LidPieceKind kind, guint index, int leaf, LidBox box)
{
  LidBoardPiece piece = { kind, index, leaf, box };

  g_array_append_val (pieces, piece);
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
    add (pieces, LID_PIECE_OUTLINE, 0, LID_NOWHERE, outline);
  for (guint i = 0; i < geometry->veins->len; i++)
    {
      const LidVein *vein = lid_board_geometry_vein (geometry, i);

      add (pieces, LID_PIECE_VEIN, i, vein->leaf, box_of_vein (vein));
    }
  for (guint i = 0; i < geometry->leaves->len; i++)
    add (pieces, LID_PIECE_LEAF, i, geometry->lid_off ? LID_NOWHERE : (int)i,
         box_of_leaf (lid_board_geometry_leaf (geometry, i)));
  for (guint i = 0; i < geometry->veins->len; i++)
    {
      const LidVein *vein = lid_board_geometry_vein (geometry, i);

      add (pieces, LID_PIECE_CAPTION, i, vein->leaf, box_of_caption (vein));
    }
  for (guint i = 0; i < geometry->notes->len; i++)
    add (pieces, LID_PIECE_NOTE, i, LID_NOWHERE,
         box_of_note (lid_board_geometry_note (geometry, i)));
  return pieces;
}

/* What is compared is all there is, less the pointers, which are compared by what they point to,
 * and what another piece draws: a field that comes later is compared from the start, and one that
 * is not known to be the same is drawn again. */
static gboolean
same_vein (const LidVein *a, const LidVein *b)
{
  LidVein x, y;

  memcpy (&x, a, sizeof x);
  memcpy (&y, b, sizeof y);
  x.name = y.name = x.carries = y.carries = NULL;
  x.caption = y.caption = x.hit = y.hit = (LidBox){ 0, 0, 0, 0 };
  x.type = y.type = (LidType){ 0, FALSE };
  return memcmp (&x, &y, sizeof x) == 0;
}

static gboolean
same_caption (const LidVein *a, const LidVein *b)
{
  LidVein x, y;

  memcpy (&x, a, sizeof x);
  memcpy (&y, b, sizeof y);
  x.name = y.name = x.carries = y.carries = NULL;
  x.x0 = x.y0 = x.x1 = x.y1 = x.width = x.spine_top = x.spine_bottom = 0;
  y.x0 = y.y0 = y.x1 = y.y1 = y.width = y.spine_top = y.spine_bottom = 0;
  return memcmp (&x, &y, sizeof x) == 0 && g_strcmp0 (a->name, b->name) == 0
         && g_strcmp0 (a->carries, b->carries) == 0;
}

static gboolean
same_stem (const LidPlacedLeaf *a, const LidPlacedLeaf *b)
{
  return a->stem_x == b->stem_x && a->stem_top == b->stem_top && a->stem_bottom == b->stem_bottom
         && a->stem_width == b->stem_width;
}

static gboolean
same_leaf (const LidPlacedLeaf *a, const LidPlacedLeaf *b)
{
  LidPlacedLeaf x, y;

  memcpy (&x, a, sizeof x);
  memcpy (&y, b, sizeof y);
  x.title = y.title = x.under = y.under = NULL;
  x.stem_x = x.stem_top = x.stem_bottom = x.stem_width = 0;
  y.stem_x = y.stem_top = y.stem_bottom = y.stem_width = 0;
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
  if (x->kind != y->kind || x->leaf != y->leaf || memcmp (&x->box, &y->box, sizeof x->box) != 0)
    return FALSE;
  switch (x->kind)
    {
    case LID_PIECE_OUTLINE:
      return memcmp (&a->outline, &b->outline, sizeof a->outline) == 0;
    case LID_PIECE_NOTE:
      return same_note (lid_board_geometry_note (a, x->index),
                        lid_board_geometry_note (b, y->index));
    case LID_PIECE_VEIN:
      return same_vein (lid_board_geometry_vein (a, x->index),
                        lid_board_geometry_vein (b, y->index));
    case LID_PIECE_LEAF:
      return same_stem (lid_board_geometry_leaf (a, x->index),
                        lid_board_geometry_leaf (b, y->index))
             && same_leaf (lid_board_geometry_leaf (a, x->index),
                           lid_board_geometry_leaf (b, y->index));
    case LID_PIECE_CAPTION:
      return same_caption (lid_board_geometry_vein (a, x->index),
                           lid_board_geometry_vein (b, y->index));
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
