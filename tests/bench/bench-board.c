/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bench-board [N]: the board of 192 slots on an image of 1600 x 1000 against the bare drawing of as
 * many: rounded boxes with one or two texts each. Warm medians of N runs, processor time. Full: new
 * geometry after an edit, ground and all slots (at most 1.5 times); one: one slot (at most 2). */
#include "bare-board.h"
#include "drawing/draw-board.h"
#include "scenes.h"

#include <stdlib.h>
#include <time.h>

typedef struct
{
  const LidJob *job;
  const LidAssessment *assessment;
  LidDrawText *text;
  LidBoardGeometry *g;
  cairo_t *cr;
} Bench;

static LidBoardGeometry *
lay_out (const Bench *bench)
{
  LidBoardView view = { FALSE, 1600, 1000, 0, 1 };
  LidMeasure measure = lid_draw_text_measure (bench->text);

  return lid_board_geometry_new (bench->job->board,
                                 lid_job_get_population (bench->job, LID_PLANNED),
                                 bench->assessment, bench->job->as_found, &view, &measure);
}

static void
ours (Bench *bench, gboolean geometry, gboolean one)
{
  const LidTheme *theme = lid_theme_screen (LID_THEME_LIGHT);

  if (geometry)
    {
      lid_board_geometry_free (bench->g);
      bench->g = lay_out (bench);
    }
  if (!one)
    lid_draw_board_ground (bench->cr, bench->text, theme, bench->g);
  for (guint i = 0; i < (one ? 1 : bench->g->n_slots); i++)
    lid_draw_board_slot (bench->cr, bench->text, theme, bench->g, i, LID_SLOT_PLAIN);
}

static double
now_ms (void)
{
  struct timespec t;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static int
compare (gconstpointer a, gconstpointer b)
{
  double d = *(const double *)a - *(const double *)b;

  return d < 0 ? -1 : d > 0;
}

static void
measure (Bench *bench, int n, const char *name, gboolean geometry, gboolean one)
{
  g_autofree double *plain = g_new0 (double, n);
  g_autofree double *own = g_new0 (double, n);

  for (int i = -1; i < n; i++)
    {
      double start = now_ms (), middle, end;

      if (one)
        bare_slot (bench->cr, 90, 75, "A1", "32 G", FALSE);
      else
        bare_scene (bench->cr, 1600, 1000, 192, 16);
      middle = now_ms ();
      ours (bench, geometry, one);
      end = now_ms ();
      if (i < 0)
        continue;
      plain[i] = middle - start;
      own[i] = end - middle;
    }
  qsort (plain, (size_t)n, sizeof *plain, compare);
  qsort (own, (size_t)n, sizeof *own, compare);
  g_print ("%s: bare %.3f ms, board %.3f ms, %.2f times\n", name, plain[n / 2], own[n / 2],
           own[n / 2] / plain[n / 2]);
}

int
main (int argc, char **argv)
{
  int n = argc > 1 ? MAX (1, atoi (argv[1])) : 51;
  g_autoptr (LidJob) job = scenes_job (scenes_find ("onehundredninetytwo"));
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_PLANNED);
  g_autoptr (LidDrawText) text = lid_draw_text_new (lid_theme_screen (LID_THEME_LIGHT));
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 1600, 1000);
  Bench bench = { job, assessment, text, NULL, cairo_create (surface) };

  bench.g = lay_out (&bench);
  measure (&bench, n, "full redraw, 192 slots", FALSE, FALSE);
  measure (&bench, n, "edit and full redraw, 192 slots", TRUE, FALSE);
  measure (&bench, n, "one slot", FALSE, TRUE);
  lid_board_geometry_free (bench.g);
  cairo_destroy (bench.cr);
  cairo_surface_destroy (surface);
  return 0;
}
