/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bench-sheet [N]: a sheet of 192 slots against the bare drawing of as many: rounded boxes with one
 * or two texts each, no layout, no cache. Both to PDF and to images, warm medians of N runs. The
 * sheet is laid out anew in every run (issue: at most 3 times the bare drawing). */
#include "bare-board.h"
#include "drawing/draw-sheet.h"
#include "drawing/export.h"
#include "drawing/sheet-layout.h"
#include "scenes.h"

#include <cairo-pdf.h>
#include <math.h>
#include <stdlib.h>
#include <time.h>

static cairo_status_t
sink (void *closure, const unsigned char *data, unsigned int length)
{
  *(gsize *)closure += length;
  return CAIRO_STATUS_SUCCESS;
}

static gsize
bare (gboolean pdf, int n_slots)
{
  gsize bytes = 0;
  cairo_surface_t *surface = pdf ? cairo_pdf_surface_create_for_stream (sink, &bytes, 842, 595)
                                 : cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 1600, 1000);
  cairo_t *cr = cairo_create (surface);

  bare_scene (cr, pdf ? 842 : 1600, pdf ? 595 : 1000, n_slots, 16);
  cairo_show_page (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  cairo_surface_destroy (surface);
  return bytes;
}

typedef struct
{
  const LidJob *job;
  const LidAssessment *assessment;
  LidSheetOptions options;

} Job;

/* All pages onto surfaces of together as many dots as the bare image has. */
static void
draw_images (const LidSheet *sheet, LidDrawText *text)
{
  double dots = 1600.0 * 1000.0 / sheet->pages->len;
  double scale = sqrt (dots / (sheet->width * sheet->height));

  for (guint p = 0; p < sheet->pages->len; p++)
    {
      cairo_surface_t *surface = cairo_image_surface_create (
          CAIRO_FORMAT_ARGB32, (int)(sheet->width * scale), (int)(sheet->height * scale));
      cairo_t *cr = cairo_create (surface);

      cairo_scale (cr, scale, scale);
      lid_draw_sheet_page (cr, text, sheet, p);
      cairo_destroy (cr);
      cairo_surface_destroy (surface);
    }
}

static gsize
whole (gboolean pdf, const Job *job)
{
  g_autoptr (LidDrawText) text = lid_draw_text_new (lid_theme_print ());
  LidMeasure measure = lid_draw_text_measure (text);
  g_autoptr (LidSheet) sheet
      = lid_sheet_layout_new (job->job, job->assessment, &job->options, &measure);
  g_autoptr (GBytes) bytes = NULL;

  if (!pdf)
    {
      draw_images (sheet, text);
      return 0;
    }
  bytes = lid_export_bytes (lid_export_find ("x.pdf", NULL), text, sheet, 0, NULL);
  return g_bytes_get_size (bytes);
}

static int
compare (gconstpointer a, gconstpointer b)
{
  double d = *(const double *)a - *(const double *)b;

  return d < 0 ? -1 : d > 0;
}

/* Processor time, not the clock on the wall: others work on this machine too. */
static double
now_ms (void)
{
  struct timespec t;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

/* The two by turns, so that what disturbs one disturbs the other; the first of each is not counted.
 */
static void
measure (gboolean pdf, const Job *job, int n, const char *name)
{
  g_autofree double *plain = g_new0 (double, n);
  g_autofree double *ours = g_new0 (double, n);
  gsize plain_bytes = 0, our_bytes = 0;

  for (int i = -1; i < n; i++)
    {
      double start = now_ms (), middle, end;

      plain_bytes = bare (pdf, 192);
      middle = now_ms ();
      our_bytes = whole (pdf, job);
      end = now_ms ();
      if (i < 0)
        continue;
      plain[i] = middle - start;
      ours[i] = end - middle;
    }
  qsort (plain, (size_t)n, sizeof *plain, compare);
  qsort (ours, (size_t)n, sizeof *ours, compare);
  g_print ("%s %s: bare %.1f ms, sheet %.1f ms, %.2f times (%zu, %zu bytes)\n", name,
           pdf ? "pdf" : "image", plain[n / 2], ours[n / 2], ours[n / 2] / plain[n / 2],
           plain_bytes, our_bytes);
}

int
main (int argc, char **argv)
{
  int n = argc > 1 ? atoi (argv[1]) : 21;
  g_autoptr (LidJob) job = scenes_job (scenes_find ("onehundredninetytwo"));
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_PLANNED);

  for (guint w = 0; w < 2; w++)
    for (gboolean pdf = FALSE; pdf <= TRUE; pdf++)
      {
        Job sheet = { job,
                      assessment,
                      { w == 0 ? LID_SHEET_BENCH : LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE } };

        measure (pdf, &sheet, n, w == 0 ? "bench" : "lid");
      }
  return 0;
}
