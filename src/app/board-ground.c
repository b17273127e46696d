/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/board-ground.h"

#include "drawing/board-pieces.h"

#include <math.h>

struct _LidBoardGround
{
  GArray *pieces;   /* LidBoardPiece; NULL: nothing is kept */
  GPtrArray *nodes; /* GskRenderNode by piece; NULL: to be painted */
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
  return self;
}

void
lid_board_ground_free (LidBoardGround *self)
{
  lid_board_ground_clear (self);
  g_ptr_array_unref (self->nodes);
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

  if (self->pieces == NULL)
    return;
  pieces = lid_board_pieces_new (now);
  nodes = g_ptr_array_new_with_free_func (unref_node);
  for (guint i = 0; i < pieces->len; i++)
    g_ptr_array_add (nodes,
                     take_kept (self, before, now, &g_array_index (pieces, LidBoardPiece, i), i));
  g_array_unref (self->pieces);
  g_ptr_array_unref (self->nodes);
  self->pieces = pieces;
  self->nodes = nodes;
}

static GskRenderNode *
paint (LidDrawText *text,
       const LidTheme *theme,
       const LidBoardGeometry *geometry,
       const LidBoardPiece *piece)
{
  double x = floor (piece->box.x), y = floor (piece->box.y);
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT ((float)x, (float)y, (float)ceil (piece->box.x + piece->box.width - x),
                            (float)ceil (piece->box.y + piece->box.height - y));
  GskRenderNode *node = gsk_cairo_node_new (&bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);

  lid_draw_board_piece (cr, text, theme, geometry, piece);
  cairo_destroy (cr);
  return node;
}

void
lid_board_ground_snapshot (LidBoardGround *self,
                           GtkSnapshot *snapshot,
                           LidDrawText *text,
                           const LidTheme *theme,
                           const LidBoardGeometry *geometry)
{
  if (self->pieces == NULL)
    {
      self->pieces = lid_board_pieces_new (geometry);
      g_ptr_array_set_size (self->nodes, (int)self->pieces->len);
    }
  for (guint i = 0; i < self->pieces->len; i++)
    {
      if (self->nodes->pdata[i] == NULL)
        self->nodes->pdata[i]
            = paint (text, theme, geometry, &g_array_index (self->pieces, LidBoardPiece, i));
      gtk_snapshot_append_node (snapshot, self->nodes->pdata[i]);
    }
}
