/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/board-columns.h"

#include <gsk/gsk.h>

/* In which margin a note stands, or between them. */
static guint
column_of (const LidBoardGeometry *geometry, const LidBoardPiece *piece)
{
  double middle = piece->box.x + piece->box.width / 2;

  if (middle < geometry->left.x + geometry->left.width)
    return 0;
  return middle < geometry->right.x ? 1 : 2;
}

/**
 * lid_board_columns_shared:
 * @note: a note
 * @piece: any piece
 *
 * Returns: whether @piece is a note of the same column
 */
gboolean
lid_board_columns_shared (const LidBoardGeometry *geometry,
                          const LidBoardPiece *note,
                          const LidBoardPiece *piece)
{
  return piece->kind == LID_PIECE_NOTE && column_of (geometry, piece) == column_of (geometry, note);
}

/**
 * lid_board_columns_count:
 * @pieces: LidBoardPiece
 * @n: (out caller-allocates): the notes of each of the LID_BOARD_COLUMNS
 */
void
lid_board_columns_count (const GArray *pieces, const LidBoardGeometry *geometry, guint *n)
{
  for (guint column = 0; column < LID_BOARD_COLUMNS; column++)
    n[column] = 0;
  for (guint i = 0; i < pieces->len; i++)
    {
      const LidBoardPiece *piece = &g_array_index (pieces, LidBoardPiece, i);

      if (piece->kind == LID_PIECE_NOTE)
        n[column_of (geometry, piece)]++;
    }
}

/**
 * lid_board_columns_drop_changed:
 * @pieces: as they are now
 * @nodes: GskRenderNode by piece, kept from before; NULL: it looks otherwise
 * @n_before: the notes each column had
 *
 * Drops what is kept of a column any of whose notes looks otherwise, is new or is gone.
 */
void
lid_board_columns_drop_changed (const LidBoardGeometry *geometry,
                                const GArray *pieces,
                                GPtrArray *nodes,
                                const guint *n_before)
{
  guint n[LID_BOARD_COLUMNS];

  lid_board_columns_count (pieces, geometry, n);
  for (guint column = 0; column < LID_BOARD_COLUMNS; column++)
    {
      gboolean same = n[column] == n_before[column];

      for (guint pass = 0; pass < 2; pass++)
        for (guint i = 0; i < pieces->len; i++)
          {
            const LidBoardPiece *piece = &g_array_index (pieces, LidBoardPiece, i);

            if (piece->kind != LID_PIECE_NOTE || column_of (geometry, piece) != column)
              continue;
            same = same && nodes->pdata[i] != NULL;
            if (pass == 1 && !same)
              g_clear_pointer (&nodes->pdata[i], gsk_render_node_unref);
          }
    }
}
