/* SPDX-License-Identifier: GPL-3.0-or-later */
/* render-board SCENE FILE.png [THEME 0-3] [WIDTHxHEIGHT] [lid] [zoom N] [dots N]: the board of a
 * scene as a picture, to be looked at. */
#include "drawing/draw-board.h"
#include "scenes.h"

#include <stdio.h>
#include <stdlib.h>

static void
draw (cairo_t *cr, LidDrawText *text, const LidTheme *theme, const LidBoardGeometry *geometry)
{
  cairo_set_source_rgb (cr, theme->paper.red, theme->paper.green, theme->paper.blue);
  cairo_paint (cr);
  lid_draw_board_ground (cr, text, theme, geometry);
  for (guint i = 0; i < geometry->n_slots; i++)
    lid_draw_board_slot (cr, text, theme, geometry, i, i == 1 ? LID_SLOT_FOCUS : LID_SLOT_PLAIN);
}

int
main (int argc, char **argv)
{
  LidBoardView view = { FALSE, 1440, 660, 0, 1 };
  const LidTheme *theme = lid_theme_screen (argc > 3 ? (LidThemeName)atoi (argv[3]) : 0);
  double dots = 1;
  cairo_surface_t *surface;
  cairo_t *cr;

  if (argc < 3)
    return 1;
  for (int i = 4; i < argc; i++)
    {
      if (g_str_equal (argv[i], "lid"))
        view.lid_off = TRUE;
      else if (g_str_equal (argv[i], "zoom") && i + 1 < argc)
        view.zoom = g_ascii_strtod (argv[++i], NULL);
      else if (g_str_equal (argv[i], "type") && i + 1 < argc)
        view.text_scale = g_ascii_strtod (argv[++i], NULL);
      else if (g_str_equal (argv[i], "dots") && i + 1 < argc)
        dots = g_ascii_strtod (argv[++i], NULL);
      else
        sscanf (argv[i], "%lfx%lf", &view.width, &view.height);
    }
  {
    g_autoptr (LidJob) job = scenes_job (scenes_find (argv[1]));
    g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_PLANNED);
    g_autoptr (LidDrawText) text = lid_draw_text_new (theme);
    LidMeasure measure = lid_draw_text_measure (text);
    g_autoptr (LidBoardGeometry) geometry
        = lid_board_geometry_new (job->board, lid_job_get_population (job, LID_PLANNED), assessment,
                                  job->as_found, &view, &measure);

    surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)(geometry->width * dots),
                                          (int)(geometry->height * dots));
    cr = cairo_create (surface);
    cairo_scale (cr, dots, dots);
    draw (cr, text, theme, geometry);
    g_print ("%s: %.0f x %.0f, zoom %.2f\n", argv[1], geometry->width, geometry->height,
             geometry->zoom);
  }
  cairo_destroy (cr);
  cairo_surface_write_to_png (surface, argv[2]);
  cairo_surface_destroy (surface);
  return 0;
}
