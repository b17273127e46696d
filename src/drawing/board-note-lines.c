/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-note-lines.h"

/* Whether @line runs over @box; it ends at an edge of its own slot, which does not count. */
static gboolean
crosses (const LidNoteLine *line, LidBox box)
{
  double dx = line->x1 - line->x0, from = 0, to = 1, dy = line->y1 - line->y0;
  double low[] = { box.x + 1 - line->x0, box.y + 1 - line->y0 };
  double high[] = { low[0] + box.width - 2, low[1] + box.height - 2 };
  double d[] = { dx, dy };

  for (guint axis = 0; axis < 2; axis++)
    {
      if (ABS (d[axis]) < 1e-9 && (low[axis] > 0 || high[axis] < 0))
        return FALSE;
      if (ABS (d[axis]) < 1e-9)
        continue;
      from = MAX (from, MIN (low[axis] / d[axis], high[axis] / d[axis]));
      to = MIN (to, MAX (low[axis] / d[axis], high[axis] / d[axis]));
    }
  return from < to;
}

/* A line to the far side of a processor would have to run over its midrib. */
static gboolean
crosses_stem (const LidNoteLine *line, const LidPlacedLeaf *leaf)
{
  double share = (leaf->stem_x - line->x0) / (line->x1 - line->x0), y;

  if (leaf->stem_top >= leaf->stem_bottom || line->x0 == line->x1 || share < 0 || share > 1)
    return FALSE;
  y = line->y0 + share * (line->y1 - line->y0);
  return y > leaf->stem_top && y < leaf->stem_bottom;
}

static gboolean
is_free (const LidBoardGeometry *g, const LidNoteLine *line)
{
  for (guint i = 0; i < g->n_slots; i++)
    if (crosses (line, g->slots[i].box))
      return FALSE;
  for (guint i = 0; i < g->veins->len; i++)
    if (crosses (line, lid_board_geometry_vein (g, i)->caption))
      return FALSE;
  for (guint i = 0; i < g->leaves->len; i++)
    if (crosses (line, lid_board_geometry_leaf (g, i)->box)
        || crosses_stem (line, lid_board_geometry_leaf (g, i)))
      return FALSE;
  return TRUE;
}

/* A line to each of many slots would tell nothing; their pattern does. */
static gboolean
has_lines (const LidBoardNote *note)
{
  return note->finding != NULL && note->finding->n_slots > 0
         && note->finding->n_slots <= (note->grade == LID_GRADE_NOTE ? 2 : LID_BOARD_NOTE_LINES);
}

/**
 * lid_board_note_lines_place:
 * @note: its box and swatch are placed
 *
 * Lines from a note to its slots. One that would have to run over other slots is left out: the
 * note's words name its slots.
 */
void
lid_board_note_lines_place (const LidBoardGeometry *geometry, LidBoardNote *note)
{
  gboolean left = note->box.x < geometry->right.x;
  double x0 = left ? note->box.x + note->box.width + 6 : note->box.x - 6;
  double y0 = note->swatch.y + note->swatch.height / 2;

  if (note->n_lines > 0)
    return; /* it has one already, to its processor */
  for (guint s = 0; has_lines (note) && s < note->finding->n_slots; s++)
    {
      const LidBox *box = &geometry->slots[note->finding->slots[s]].box;
      LidNoteLine line = { x0, y0, left ? box->x : box->x + box->width, box->y + box->height / 2 };

      if (note->n_lines < LID_BOARD_NOTE_LINES && is_free (geometry, &line))
        note->lines[note->n_lines++] = line;
    }
}
