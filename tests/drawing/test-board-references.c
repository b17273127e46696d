/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board as pictures against tests/references/board-*.png; a tolerance for anti-aliasing, which
 * differs between versions of the libraries. LID_UPDATE_REFERENCES=1 draws them anew: look at each
 * before you commit it. */
#include "drawing/draw-board.h"
#include "scenes.h"

#include <stdlib.h>

#define MOST_DIFFERENT 0.004 /* share of dots that differ by more than a quarter of the scale */

typedef struct
{
  const char *name;
  const char *scene;
  LidThemeName theme;
  LidBoardView view;
} Reference;

static const Reference references[] = {
  { "one", "one", LID_THEME_LIGHT, { FALSE, 1024, 430, 0, 1 } },
  { "four", "four", LID_THEME_LIGHT, { FALSE, 1024, 430, 0, 1 } },
  { "twentyfour", "twentyfour", LID_THEME_LIGHT, { FALSE, 1024, 430, 0, 1 } },
  { "twentyfour-dark", "twentyfour", LID_THEME_DARK, { FALSE, 1024, 430, 0, 1 } },
  { "twentyfour-contrast", "twentyfour", LID_THEME_HIGH_CONTRAST, { FALSE, 1024, 430, 0, 1 } },
  { "twentyfour-contrast-dark",
    "twentyfour",
    LID_THEME_HIGH_CONTRAST_DARK,
    { FALSE, 1024, 430, 0, 1 } },
  { "thirtytwo-untold", "thirtytwo-untold", LID_THEME_LIGHT, { FALSE, 1024, 430, 0, 1 } },
  { "ninetysix", "ninetysix", LID_THEME_LIGHT, { FALSE, 1440, 640, 0, 1 } },
  { "onehundredninetytwo", "onehundredninetytwo", LID_THEME_LIGHT, { FALSE, 1024, 430, 0, 1 } },
  { "curlew-lid", "curlew", LID_THEME_LIGHT, { TRUE, 1440, 640, 0, 1 } },
};

/* The pictures are of the drawing: what the rules say may change without them. */
static void
say (LidAssessment *assessment, LidGrade grade, guint slot, const char *text)
{
  LidFinding *finding = g_new0 (LidFinding, 1);

  finding->fact = LID_NOWHERE;
  finding->grade = grade;
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

static cairo_surface_t *
draw (const Reference *reference)
{
  const LidTheme *theme = lid_theme_screen (reference->theme);
  g_autoptr (LidJob) job = scenes_job (scenes_find (reference->scene));
  g_autoptr (LidAssessment) assessment = make_assessment (job);
  g_autoptr (LidDrawText) text = lid_draw_text_new (theme);
  LidMeasure measure = lid_draw_text_measure (text);
  g_autoptr (LidBoardGeometry) g
      = lid_board_geometry_new (job->board, lid_job_get_population (job, LID_PLANNED), assessment,
                                job->as_found, &reference->view, &measure);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)g->width, (int)g->height);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, theme->paper.red, theme->paper.green, theme->paper.blue);
  cairo_paint (cr);
  lid_draw_board_ground (cr, text, theme, g);
  for (guint i = 0; i < g->n_slots; i++)
    lid_draw_board_slot (cr, text, theme, g, i, i == 1 ? LID_SLOT_FOCUS : LID_SLOT_PLAIN);
  cairo_destroy (cr);
  return surface;
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
    {
      const guchar *p = cairo_image_surface_get_data (a) + y * cairo_image_surface_get_stride (a);
      const guchar *q = cairo_image_surface_get_data (b) + y * cairo_image_surface_get_stride (b);

      for (int x = 0; x < width; x++)
        different += abs (p[4 * x] - q[4 * x]) > 64 || abs (p[4 * x + 1] - q[4 * x + 1]) > 64
                     || abs (p[4 * x + 2] - q[4 * x + 2]) > 64;
    }
  return different / (width * (double)height);
}

static void
test_reference (gconstpointer data)
{
  const Reference *reference = data;
  g_autofree char *file = g_strdup_printf ("board-%s.png", reference->name);
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "tests", "references", file, NULL);
  g_autofree char *seen = g_build_filename (g_getenv ("LID_BUILD"), file, NULL);
  cairo_surface_t *drawn = draw (reference), *wanted;
  double share;

  if (g_getenv ("LID_UPDATE_REFERENCES") != NULL)
    cairo_surface_write_to_png (drawn, path);
  wanted = cairo_image_surface_create_from_png (path);
  g_assert_cmpint (cairo_surface_status (wanted), ==, CAIRO_STATUS_SUCCESS);
  share = share_different (drawn, wanted);
  if (share > MOST_DIFFERENT)
    {
      cairo_surface_write_to_png (drawn, seen);
      g_test_message ("%s: %.5f different; drawn now: %s", reference->name, share, seen);
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
      g_autofree char *name = g_strdup_printf ("/board-references/%s", references[i].name);

      g_test_add_data_func (name, &references[i], test_reference);
    }
  return g_test_run ();
}
