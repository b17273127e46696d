/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages as pictures against tests/references/. Anti-aliasing differs a little between versions of
 * the libraries, hence a tolerance; a block that moves by a millimetre is far outside it.
 * .ci/update-references draws them anew: look at each before you commit it. */
#include "drawing/draw-sheet.h"
#include "drawing/sheet-layout.h"
#include "scenes.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DOTS_PER_MM 3.0
#define MOST_DIFFERENT                                                                             \
  0.004 /* share of dots that may differ by more than a quarter of the scale                       \
         */

typedef struct
{
  const char *name;
  const char *scene;
  LidSheetOptions options;
} Reference;

static const Reference references[] = {
  { "one-lid-half", "one", { LID_SHEET_LID, LID_PAPER_A4, FALSE, TRUE } },
  { "four-bench", "four", { LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE } },
  { "four-lid-sideways", "four", { LID_SHEET_LID, LID_PAPER_LETTER, TRUE, FALSE } },
  { "eighteen-bench", "eighteen", { LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE } },
  { "eighteen-lid", "eighteen", { LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE } },
  { "twentyfour-lid", "twentyfour", { LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE } },
  { "twentyfour-lid-half", "twentyfour", { LID_SHEET_LID, LID_PAPER_A4, FALSE, TRUE } },
  { "fortyeight-bench", "fortyeight", { LID_SHEET_BENCH, LID_PAPER_LETTER, FALSE, FALSE } },
  { "untold-lid", "thirtytwo-untold", { LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE } },
  { "ninetysix-lid", "ninetysix", { LID_SHEET_LID, LID_PAPER_A4, TRUE, FALSE } },
  { "onehundredninetytwo-bench",
    "onehundredninetytwo",
    { LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE } },
  { "one-balance", "one", { LID_SHEET_BALANCE, LID_PAPER_A4, FALSE, FALSE } },
  { "twentyfour-balance", "twentyfour", { LID_SHEET_BALANCE, LID_PAPER_A4, FALSE, FALSE } },
  { "untold-balance", "thirtytwo-untold", { LID_SHEET_BALANCE, LID_PAPER_LETTER, TRUE, FALSE } },
  { "onehundredninetytwo-balance",
    "onehundredninetytwo",
    { LID_SHEET_BALANCE, LID_PAPER_A4, FALSE, FALSE } },
};

static cairo_surface_t *
draw_first_page (const LidSheet *sheet, LidDrawText *text)
{
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_RGB24, (int)(sheet->width * DOTS_PER_MM), (int)(sheet->height * DOTS_PER_MM));
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, DOTS_PER_MM, DOTS_PER_MM);
  lid_draw_sheet_page (cr, text, sheet, 0);
  cairo_destroy (cr);
  return surface;
}

/* Ink is black, so one of the colours tells all. */
static int
grey (cairo_surface_t *surface, int x, int y)
{
  int stride = cairo_image_surface_get_stride (surface);

  return cairo_image_surface_get_data (surface)[y * stride + 4 * x];
}

static double
share_different (cairo_surface_t *a, cairo_surface_t *b)
{
  int width = cairo_image_surface_get_width (a), height = cairo_image_surface_get_height (a);
  guint different = 0;

  if (cairo_image_surface_get_width (b) != width || cairo_image_surface_get_height (b) != height
      || cairo_image_surface_get_format (b) == CAIRO_FORMAT_A8)
    return 1;
  cairo_surface_flush (a);
  cairo_surface_flush (b);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      different += abs (grey (a, x, y) - grey (b, x, y)) > 64;
  return (double)different / (width * (double)height);
}

static cairo_surface_t *
load (const char *path)
{
  cairo_surface_t *file = cairo_image_surface_create_from_png (path);

  if (cairo_surface_status (file) != CAIRO_STATUS_SUCCESS)
    g_error ("%s: %s; .ci/update-references draws it", path,
             cairo_status_to_string (cairo_surface_status (file)));
  return file;
}

static void
save (cairo_surface_t *surface, const char *path)
{
  g_assert_cmpint (cairo_surface_write_to_png (surface, path), ==, CAIRO_STATUS_SUCCESS);
}

/* The pictures are of the drawing: what the rules say may change without them. */
static void
say (LidAssessment *assessment, LidGrade grade, guint slot, const char *text)
{
  LidFinding *finding = g_new0 (LidFinding, 1);

  finding->fact = LID_NOWHERE;
  finding->grade = grade;
  finding->stops = grade == LID_GRADE_STOPS ? LID_STOPS_SLOTS : LID_STOPS_NOTHING;
  finding->n_slots = 1;
  finding->slots = g_memdup2 (&slot, sizeof slot);
  finding->text = g_strdup (text);
  g_ptr_array_add (assessment->findings, finding);
}

static LidAssessment *
make_assessment (const LidJob *job)
{
  LidAssessment *assessment = scenes_assess (job, LID_PLANNED);
  guint last = job->board->n_slots - 1;

  g_ptr_array_set_size (assessment->findings, 0);
  say (assessment, LID_GRADE_STOPS, last, "The module in the last slot is not seen.");
  say (assessment, LID_GRADE_LOSES, last / 2, "A slot in the middle is rated less than the rest.");
  say (assessment, LID_GRADE_UNSURE, 0, "The chip width is not told.");
  return assessment;
}

static void
test_reference (gconstpointer data)
{
  const Reference *reference = data;
  g_autofree char *file = g_strconcat (reference->name, ".png", NULL);
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "tests", "references", file, NULL);
  g_autoptr (LidJob) job = scenes_job (scenes_find (reference->scene));
  g_autoptr (LidAssessment) assessment = make_assessment (job);
  g_autoptr (LidDrawText) text = lid_draw_text_new (lid_theme_print ());
  LidMeasure measure = lid_draw_text_measure (text);
  g_autoptr (LidSheet) sheet
      = lid_sheet_layout_new (job, assessment, &reference->options, &measure);
  cairo_surface_t *drawn = draw_first_page (sheet, text), *wanted;
  double share;

  if (g_getenv ("LID_UPDATE_REFERENCES") != NULL)
    save (drawn, path);
  wanted = load (path);
  share = share_different (drawn, wanted);
  g_test_message ("%s: %.5f different", reference->name, share);
  if (share > MOST_DIFFERENT)
    {
      g_autofree char *seen = g_build_filename (g_getenv ("LID_BUILD"), file, NULL);

      save (drawn, seen);
      g_test_message ("drawn now: %s", seen);
      g_test_fail ();
    }
  cairo_surface_destroy (drawn);
  cairo_surface_destroy (wanted);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (references); i++)
    {
      g_autofree char *name = g_strdup_printf ("/references/%s", references[i].name);

      g_test_add_data_func (name, &references[i], test_reference);
    }
  return g_test_run ();
}
