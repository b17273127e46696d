/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every board of platforms/ with its lid off, found by scan, in several rooms: the board's outline
 * goes round the words of its channels, which lie on no slot and on no others, and no such words
 * are larger than the slots' names. */
#include "board/board-file.h"
#include "drawing/board-geometry.h"
#include "fake-measure.h"

#include <string.h>

static const struct
{
  double width, height, zoom;
} rooms[] = { { 1024, 430, 0 }, { 1440, 640, 0 }, { 2560, 1200, 0 }, { 1440, 640, 1.6 } };

static gboolean
apart (LidBox a, LidBox b)
{
  return a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y
         || b.y + b.height <= a.y;
}

static void
check_captions (const LidBoardGeometry *g)
{
  double name = g->shape.name_type.pt * LID_MM_PER_PT;

  g_assert_cmpfloat (g->outline.y + g->outline.height, <=, g->height + 1e-6);
  for (guint i = 0; i < g->veins->len; i++)
    {
      const LidVein *vein = &g_array_index (g->veins, LidVein, i);

      g_assert_cmpfloat (vein->caption.y + vein->caption.height, <,
                         g->outline.y + g->outline.height);
      g_assert_cmpfloat (vein->caption.y, >, g->outline.y);
      for (guint s = 0; s < g->n_slots; s++)
        g_assert_true (apart (vein->caption, g->slots[s].box));
      for (guint k = 0; k < i; k++)
        g_assert_true (apart (vein->caption, g_array_index (g->veins, LidVein, k).caption));
      g_assert_cmpfloat (vein->type.pt * LID_MM_PER_PT, <=, MAX (name, LID_BOARD_LEAST_PX) + 1e-6);
    }
}

static void
check_board (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_load (path, &error);
  g_autoptr (LidPopulation) empty = NULL;

  g_assert_no_error (error);
  g_test_message ("%s", board->id);
  empty = lid_population_new (board);
  for (guint i = 0; i < G_N_ELEMENTS (rooms) && board->placed; i++)
    {
      LidBoardView view = { TRUE, rooms[i].width, rooms[i].height, rooms[i].zoom, 1 };
      g_autoptr (LidBoardGeometry) g
          = lid_board_geometry_new (board, empty, NULL, NULL, &view, &fake);

      g_assert_true (g->lid_off);
      check_captions (g);
      /* close below the soldered memory lies a slot: the words of its channel stand above it */
      if (g_str_equal (board->id, "dunlin-s1"))
        g_assert_cmpuint (g->veins->len, ==, board->n_channels);
    }
}

static void
test_captions (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".json"))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);

        check_board (path);
        n++;
      }
  g_assert_cmpuint (n, >=, 29);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/board-lid/captions", test_captions);
  return g_test_run ();
}
