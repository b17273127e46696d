/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ground in pieces: each inside its box, and kept only when it looks the same. */
#include "drawing/draw-board.h"
#include "scenes.h"

#include <string.h>

typedef struct
{
  LidJob *job;
  LidAssessment *assessment;
  LidDrawText *text;
  LidBoardGeometry *g;
} Board;

static void
lay (Board *board, const char *scene, gboolean lid_off)
{
  LidBoardView view = { lid_off, 1440, 640, 0, 1 };
  LidMeasure measure;

  board->job = scenes_job (scenes_find (scene));
  board->assessment = scenes_assess (board->job, LID_PLANNED);
  board->text = lid_draw_text_new (lid_theme_screen (LID_THEME_LIGHT));
  measure = lid_draw_text_measure (board->text);
  board->g
      = lid_board_geometry_new (board->job->board, lid_job_get_population (board->job, LID_PLANNED),
                                board->assessment, board->job->as_found, &view, &measure);
}

static void
clear (Board *board)
{
  lid_board_geometry_free (board->g);
  lid_draw_text_free (board->text);
  lid_assessment_free (board->assessment);
  lid_job_free (board->job);
}

static cairo_surface_t *
draw (const Board *board, gboolean clipped)
{
  const LidTheme *theme = lid_theme_screen (LID_THEME_LIGHT);
  g_autoptr (GArray) pieces = lid_board_pieces_new (board->g);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int)board->g->width,
                                                         (int)board->g->height);
  cairo_t *cr = cairo_create (surface);

  for (guint i = 0; i < pieces->len; i++)
    {
      const LidBoardPiece *piece = &g_array_index (pieces, LidBoardPiece, i);
      int x = (int)piece->box.x, y = (int)piece->box.y;

      cairo_save (cr);
      if (clipped)
        cairo_rectangle (cr, x, y, (int)(piece->box.x + piece->box.width) + 1 - x,
                         (int)(piece->box.y + piece->box.height) + 1 - y);
      if (clipped)
        cairo_clip (cr);
      lid_draw_board_piece (cr, board->text, theme, board->g, piece);
      cairo_restore (cr);
    }
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* Dots that differ: what a piece drew outside its box would stay on the screen, or be missing. */
static void
test_boxes (void)
{
  for (guint i = 0; i < n_scenes; i++)
    for (gboolean lid_off = FALSE; lid_off <= TRUE; lid_off++)
      {
        Board board;
        cairo_surface_t *whole, *clipped;
        guint differ = 0;

        lay (&board, scenes[i].name, lid_off);
        whole = draw (&board, FALSE);
        clipped = draw (&board, TRUE);
        for (int y = 0; y < cairo_image_surface_get_height (whole); y++)
          {
            gsize at = (gsize)(y * cairo_image_surface_get_stride (whole));
            const guint32 *a = (const guint32 *)(cairo_image_surface_get_data (whole) + at);
            const guint32 *b = (const guint32 *)(cairo_image_surface_get_data (clipped) + at);

            for (int x = 0; x < cairo_image_surface_get_width (whole); x++)
              differ += a[x] != b[x];
          }
        if (differ > 0)
          g_error ("%s%s: %u dots of a piece lie outside its box", scenes[i].name,
                   lid_off ? ", lid off" : "", differ);
        cairo_surface_destroy (whole);
        cairo_surface_destroy (clipped);
        clear (&board);
      }
}

static guint
count_same (const LidBoardGeometry *a, const LidBoardGeometry *b)
{
  g_autoptr (GArray) x = lid_board_pieces_new (a), y = lid_board_pieces_new (b);
  guint same = 0;

  g_assert_cmpuint (x->len, ==, y->len);
  for (guint i = 0; i < x->len; i++)
    same += lid_board_pieces_same (a, &g_array_index (x, LidBoardPiece, i), b,
                                   &g_array_index (y, LidBoardPiece, i));
  return x->len - same;
}

static guint
count_slots (const LidBoardGeometry *a, const LidBoardGeometry *b)
{
  guint differ = 0;

  for (guint i = 0; i < a->n_slots; i++)
    differ += !lid_board_pieces_same_slot (a, b, i);
  return differ;
}

/* Made twice of the same, everything is kept, though no text lies at the same address. */
static void
test_same (void)
{
  for (guint i = 0; i < n_scenes; i++)
    {
      Board a, b;

      lay (&a, scenes[i].name, FALSE);
      lay (&b, scenes[i].name, FALSE);
      g_assert_cmpuint (count_slots (a.g, b.g), ==, 0);
      b.g->board = a.g->board;
      g_assert_cmpuint (count_same (a.g, b.g), ==, 0);
      clear (&a);
      clear (&b);
    }
}

/* One thing changed is one thing drawn. */
static void
test_changed (void)
{
  Board a, b;

  lay (&a, "twentyfour", FALSE);
  lay (&b, "twentyfour", FALSE);
  b.g->looks[3].words[LID_WORDS_SHORT] = "1 GB";
  b.g->looks[5].mark = LID_MARK_NOT_SEEN;
  b.g->looks[7].grade = LID_GRADE_STOPS;
  b.g->slots[9].box.x += 0.5;
  g_assert_cmpuint (count_slots (a.g, b.g), ==, 4);
  lid_board_geometry_vein (b.g, 2)->carries = "other words";
  g_assert_cmpuint (count_same (a.g, b.g), ==, 1); /* the caption, not the vein */
  lid_board_geometry_vein (b.g, 2)->width += 1;
  g_assert_cmpuint (count_same (a.g, b.g), ==, 2); /* the vein too */
  lid_board_geometry_leaf (b.g, 1)->fitted = FALSE;
  g_assert_cmpuint (count_same (a.g, b.g), ==, 3); /* a processor */
  lid_board_geometry_leaf (b.g, 0)->stem_width += 1;
  g_assert_cmpuint (count_same (a.g, b.g), ==, 4); /* another, by its midrib */
  b.g->shape.lines += 1;
  g_assert_cmpuint (count_slots (a.g, b.g), ==, 24);
  clear (&a);
  clear (&b);
}

/* Made again after an edit, the numbers are those of a geometry made from nothing. */
static void
test_again (void)
{
  for (guint i = 0; i < n_scenes; i++)
    for (gboolean zoomed = FALSE; zoomed <= TRUE; zoomed++)
      {
        LidBoardView view = { FALSE, 1440, 640, zoomed ? 1 : 0, 1 }, other = view;
        g_autoptr (LidJob) job = scenes_job (scenes_find (scenes[i].name));
        g_autoptr (LidDrawText) text = lid_draw_text_new (lid_theme_screen (LID_THEME_LIGHT));
        LidMeasure measure = lid_draw_text_measure (text);
        const LidPopulation *planned = lid_job_get_population (job, LID_PLANNED);
        g_autoptr (LidBoardGeometry) before
            = lid_board_geometry_new (job->board, job->as_found, NULL, NULL, &view, &measure);
        g_autoptr (LidBoardGeometry) plain
            = lid_board_geometry_new (job->board, planned, NULL, job->as_found, &view, &measure);
        g_autoptr (LidBoardGeometry) again
            = lid_board_geometry_again (before, planned, NULL, job->as_found, &view, &measure);
        g_autoptr (LidBoardGeometry) small = NULL;

        g_assert_cmpmem (plain->slots, plain->n_slots * sizeof *plain->slots, again->slots,
                         again->n_slots * sizeof *again->slots);
        g_assert_cmpmem (&plain->shape, sizeof plain->shape, &again->shape, sizeof again->shape);
        g_assert_cmpfloat (plain->width, ==, again->width);
        g_assert_cmpfloat (plain->height, ==, again->height);
        other.height = 400; /* another view: nothing is taken over */
        small = lid_board_geometry_again (before, planned, NULL, job->as_found, &other, &measure);
        g_assert_true (zoomed || job->board->n_slots == 1 || small->height < plain->height);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/board-pieces/boxes", test_boxes);
  g_test_add_func ("/board-pieces/same", test_same);
  g_test_add_func ("/board-pieces/changed", test_changed);
  g_test_add_func ("/board-pieces/again", test_again);
  return g_test_run ();
}
