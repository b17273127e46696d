/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/figures-line.h"

#include "job/job-open.h"

static char *
line_of (const char *path, gboolean empty)
{
  g_autoptr (GError) error = NULL;
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (LidAssessment) assessment = NULL;
  g_autoptr (LidFiguresLine) line = NULL;
  g_autoptr (LidPopulation) nothing = NULL;
  GString *text = g_string_new (NULL);
  LidQuestion question;

  g_assert_true (lid_job_open (path, NULL, NULL, &opened, &error));
  g_assert_no_error (error);
  nothing = lid_population_new (opened.job->board);
  question.board = opened.job->board;
  question.population = empty ? nothing : lid_job_get_population (opened.job, LID_PLANNED);
  question.as_found = opened.job->as_found;
  assessment = lid_assessment_new (&question);
  line = lid_figures_line_new (assessment);
  for (guint i = 0; i < line->n; i++)
    g_string_append_printf (text, "%s|%s\n", line->words[i].large, line->words[i].small);
  return g_string_free (text, FALSE);
}

/* 4 channels x 8 bytes x 2400 MT/s x 0.8 = 61.44 GB/s: product.md 6. */
static void
example (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "example.lidleaf", NULL);
  g_autofree char *full = line_of (path, FALSE), *none = line_of (path, TRUE);

  g_assert_cmpstr (full, ==,
                   "64 GB|fitted, all of it can be used\n"
                   "runs at 2400|MT/s; held by the modules\n"
                   "61.4 GB/s|reading all of it once; a model\n"
                   "4 of 4|channels in use, even share 100 %\n");
  g_assert_true (g_str_has_prefix (none, "0 MB|fitted\ndoes not start|")
                 || g_str_has_prefix (none, "0 GB|fitted\ndoes not start|"));
}

/* As found, by hand: 32 + 16 GB at 2133 MT/s on two of four channels; see tests/cli/sheet.py. */
static void
compared (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "example.lidleaf", NULL);
  g_autoptr (GError) error = NULL;
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (LidAssessment) after = NULL, before = NULL;
  g_autoptr (LidFiguresLine) line = NULL, same = NULL;
  static const char *const was[]
      = { "was 48 GB", "was 2133 MT/s", "was 14 to 27 GB/s", "was 2 of 4" };
  LidQuestion question;

  g_assert_true (lid_job_open (path, NULL, NULL, &opened, &error));
  question = (LidQuestion){ opened.job->board, lid_job_get_population (opened.job, LID_PLANNED),
                            opened.job->as_found };
  after = lid_assessment_new (&question);
  question.population = opened.job->as_found;
  before = lid_assessment_new (&question);
  line = lid_figures_line_new (after);
  lid_figures_line_compare (line, before);
  g_assert_cmpuint (line->n, ==, G_N_ELEMENTS (was));
  for (guint i = 0; i < line->n; i++)
    g_assert_cmpstr (line->words[i].was, ==, was[i]);
  same = lid_figures_line_new (before);
  lid_figures_line_compare (same, before);
  for (guint i = 0; i < same->n; i++)
    g_assert_null (same->words[i].was);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/figures-line/example", example);
  g_test_add_func ("/figures-line/compared", compared);
  return g_test_run ();
}
