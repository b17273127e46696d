/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/board-ground.h"

#include "app/board-columns.h"

#include "drawing/board-pieces.h"

#include <math.h>

struct _LidBoardGround
{
  GArray *pieces;   /* LidBoardPiece; NULL: nothing is kept */
  GPtrArray *nodes; /* GskRenderNode by piece; NULL: to be painted */
  /* A processor with all that is drawn with it, its slots too: GskRenderNode by leaf; NULL: to be
   * put together. What is unchanged is neither put together nor looked through for changes. */
  GPtrArray *leaves;
};

static void
unref_node (gpointer node)
{
  if (node != NULL)
    gsk_render_node_unref (node);
}

LidBoardGround *
lid_board_ground_new (void)
{
  LidBoardGround *self = g_new0 (LidBoardGround, 1);

  self->nodes = g_ptr_array_new_with_free_func (unref_node);
  self->leaves = g_ptr_array_new_with_free_func (unref_node);
  return self;
}

void
lid_board_ground_free (LidBoardGround *self)
{
  lid_board_ground_clear (self);
  g_ptr_array_unref (self->nodes);
  g_ptr_array_unref (self->leaves);
  g_free (self);
}

/**
 * lid_board_ground_clear:
 *
 * Nothing is kept: another size, other ink.
 */
void
lid_board_ground_clear (LidBoardGround *self)
{
  g_clear_pointer (&self->pieces, g_array_unref);
  g_ptr_array_set_size (self->nodes, 0);
  g_ptr_array_set_size (self->leaves, 0);
}

/**
 * lid_board_ground_drop_leaf:
 * @leaf: whose slots look otherwise; LID_NOWHERE: of none
 */
void
lid_board_ground_drop_leaf (LidBoardGround *self, int leaf)
{
  if (leaf != LID_NOWHERE && (guint)leaf < self->leaves->len)
    {
      unref_node (self->leaves->pdata[leaf]);
      self->leaves->pdata[leaf] = NULL;
    }
}

/* The kept picture of a piece, most often at the same place in the list. */
static gpointer
take_kept (LidBoardGround *self,
           const LidBoardGeometry *before,
           const LidBoardGeometry *now,
           const LidBoardPiece *piece,
           guint at)
{
  for (guint i = 0; i < self->pieces->len; i++)
    {
      guint k = (at + i) % self->pieces->len;
      const LidBoardPiece *old = &g_array_index (self->pieces, LidBoardPiece, k);

      if (self->nodes->pdata[k] != NULL && lid_board_pieces_same (before, old, now, piece))
        return g_steal_pointer (&self->nodes->pdata[k]);
    }
  return NULL;
}

/**
 * lid_board_ground_follow:
 * @before: what is kept was painted of this
 * @now: what will be painted of, in the same ink and at the same size
 *
 * Keeps what looks the same.
 */
void
lid_board_ground_follow (LidBoardGround *self,
                         const LidBoardGeometry *before,
                         const LidBoardGeometry *now)
{
  GArray *pieces;
  GPtrArray *nodes;
  guint n_before[LID_BOARD_COLUMNS];

  if (self->pieces == NULL)
    return;
  lid_board_columns_count (self->pieces, before, n_before);
  pieces = lid_board_pieces_new (now);
  nodes = g_ptr_array_new_with_free_func (unref_node);
  for (guint i = 0; i < pieces->len; i++)
    {
      const LidBoardPiece *piece = &g_array_index (pieces, LidBoardPiece, i);

      g_ptr_array_add (nodes, take_kept (self, before, now, piece, i));
      if (nodes->pdata[i] == NULL)
        lid_board_ground_drop_leaf (self, piece->leaf);
    }
  lid_board_columns_drop_changed (now, pieces, nodes, n_before);
  g_array_unref (self->pieces);
  g_ptr_array_unref (self->nodes);
  self->pieces = pieces;
  self->nodes = nodes;
}

static cairo_t *
begin (LidBox box, GskRenderNode **node)
{
  double x = floor (box.x), y = floor (box.y);
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT ((float)x, (float)y, (float)ceil (box.x + box.width - x),
                            (float)ceil (box.y + box.height - y));

  *node = gsk_cairo_node_new (&bounds);
  return gsk_cairo_node_get_draw_context (*node);
}

static GskRenderNode *
paint (LidDrawText *text,
       const LidTheme *theme,
       const LidBoardGeometry *geometry,
       const LidBoardPiece *piece)
{
  GskRenderNode *node;
  cairo_t *cr = begin (piece->box, &node);

  lid_draw_board_piece (cr, text, theme, geometry, piece);
  cairo_destroy (cr);
  return node;
}

/* The notes of the column that @first, a piece's index, is the first of. */
static void
paint_column (LidBoardGround *self,
              LidDrawText *text,
              const LidTheme *theme,
              const LidBoardGeometry *geometry,
              guint first)
{
  const LidBoardPiece *pieces = &g_array_index (self->pieces, LidBoardPiece, 0);
  LidBox all = pieces[first].box;
  GskRenderNode *node;
  cairo_t *cr;

  for (guint i = first; i < self->pieces->len; i++)
    if (lid_board_columns_shared (geometry, &pieces[first], &pieces[i]))
      lid_box_unite (&all, pieces[i].box);
  cr = begin (all, &node);
  for (guint i = first; i < self->pieces->len; i++)
    if (lid_board_columns_shared (geometry, &pieces[first], &pieces[i]))
      {
        lid_draw_board_piece (cr, text, theme, geometry, &pieces[i]);
        self->nodes->pdata[i] = gsk_render_node_ref (node);
      }
  cairo_destroy (cr);
  gsk_render_node_unref (node);
}

/* What is kept is as long as what there is. */
static void
make_room (LidBoardGround *self, const LidBoardGeometry *geometry)
{
  if (self->pieces != NULL)
    return;
  self->pieces = lid_board_pieces_new (geometry);
  g_ptr_array_set_size (self->nodes, (int)self->pieces->len);
  g_ptr_array_set_size (self->leaves, (int)geometry->leaves->len);
}

/* Whether a piece before it is in the same picture. */
static gboolean
is_drawn (LidBoardGround *self, guint piece)
{
  for (guint i = piece; i > 0; i--)
    if (self->nodes->pdata[i - 1] == self->nodes->pdata[piece])
      return TRUE;
  return FALSE;
}

/**
 * lid_board_ground_snapshot:
 * @part: a leaf's index, or a LidBoardGroundPart
 *
 * Appends what is drawn of the ground there, painting what is not kept.
 */
void
lid_board_ground_snapshot (LidBoardGround *self,
                           GtkSnapshot *snapshot,
                           LidDrawText *text,
                           const LidTheme *theme,
                           const LidBoardGeometry *geometry,
                           int part)
{
  make_room (self, geometry);
  for (guint i = 0; i < self->pieces->len; i++)
    {
      const LidBoardPiece *piece = &g_array_index (self->pieces, LidBoardPiece, i);
      int of = piece->leaf != LID_NOWHERE      ? piece->leaf
               : piece->kind == LID_PIECE_NOTE ? LID_BOARD_GROUND_OVER
                                               : LID_BOARD_GROUND_UNDER;

      if (part != LID_BOARD_GROUND_ALL && part != of)
        continue;
      if (self->nodes->pdata[i] == NULL && piece->kind == LID_PIECE_NOTE)
        paint_column (self, text, theme, geometry, i);
      else if (self->nodes->pdata[i] == NULL)
        self->nodes->pdata[i] = paint (text, theme, geometry, piece);
      if (piece->kind != LID_PIECE_NOTE || !is_drawn (self, i))
        gtk_snapshot_append_node (snapshot, self->nodes->pdata[i]);
    }
}

/**
 * lid_board_ground_append_leaf:
 *
 * Returns: whether the leaf was kept and is drawn
 */
gboolean
lid_board_ground_append_leaf (LidBoardGround *self,
                              GtkSnapshot *snapshot,
                              const LidBoardGeometry *geometry,
                              guint leaf)
{
  make_room (self, geometry);
  if (leaf >= self->leaves->len || self->leaves->pdata[leaf] == NULL)
    return FALSE;
  gtk_snapshot_append_node (snapshot, self->leaves->pdata[leaf]);
  return TRUE;
}

/**
 * lid_board_ground_keep_leaf:
 * @drawn: (transfer full): all that is drawn of it
 *
 * Keeps it, clipped to where it lies: the cairo renderer asks every piece of a picture whether it
 * has to be drawn, but nothing inside a clip it has not.
 */
void
lid_board_ground_keep_leaf (LidBoardGround *self, GtkSnapshot *drawn, guint leaf)
{
  GskRenderNode *node = gtk_snapshot_free_to_node (drawn);
  graphene_rect_t bounds;

  lid_board_ground_drop_leaf (self, (int)leaf);
  if (node == NULL || leaf >= self->leaves->len)
    {
      unref_node (node);
      return;
    }
  gsk_render_node_get_bounds (node, &bounds);
  self->leaves->pdata[leaf] = gsk_clip_node_new (node, &bounds);
  gsk_render_node_unref (node);
}
