/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Notes in the margin: worst first, folded by rule when there are many, and counted. */
#include "checks/rules.h"
#include "drawing/board-geometry.h"
#include "fake-measure.h"
#include "scenes.h"

static void
say (LidAssessment *assessment, const LidRule *rule, LidGrade grade, guint slot)
{
  LidFinding *finding = g_new0 (LidFinding, 1);

  finding->fact = LID_NOWHERE;
  finding->rule = rule;
  finding->grade = grade;
  finding->n_slots = 1;
  finding->slots = g_memdup2 (&slot, sizeof slot);
  finding->text
      = g_strdup ("The module in this slot is rated less than the others of its channel.");
  g_ptr_array_add (assessment->findings, finding);
}

static LidBoardGeometry *
lay_out (const LidJob *job, const LidAssessment *assessment, double width)
{
  LidBoardView view = { FALSE, width, 640, 0, 1 };

  return lid_board_geometry_new (job->board, job->as_found, assessment, NULL, &view, &fake);
}

/* Forty findings of one rule become one note that says so; two stay two. */
static void
test_folded (void)
{
  static const LidRule rule = { .id = "test", .title = "a rule" };
  static const LidRule other = { .id = "other", .title = "another rule" };
  g_autoptr (LidJob) job = scenes_job (scenes_find ("fortyeight"));
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_AS_FOUND);
  g_autoptr (LidBoardGeometry) few = NULL;
  g_autoptr (LidBoardGeometry) many = NULL;

  g_ptr_array_set_size (assessment->findings, 0);
  say (assessment, &other, LID_GRADE_STOPS, 3);
  say (assessment, &rule, LID_GRADE_LOSES, 0);
  say (assessment, &rule, LID_GRADE_LOSES, 1);
  few = lay_out (job, assessment, 1440);
  g_assert_cmpuint (few->notes->len, ==, 3);
  for (guint i = 2; i < 40; i++)
    say (assessment, &rule, LID_GRADE_LOSES, i);
  many = lay_out (job, assessment, 1440);
  g_assert_cmpuint (many->notes->len, ==, 2);
  g_assert_cmpint (lid_board_geometry_note (many, 0)->grade, ==, LID_GRADE_STOPS);
  g_assert_cmpuint (lid_board_geometry_note (many, 0)->n_findings, ==, 1);
  g_assert_cmpuint (lid_board_geometry_note (many, 1)->n_findings, ==, 40);
  g_assert_nonnull (strstr (lid_board_geometry_note (many, 1)->title, "40"));
}

/* What finds no room even so is counted in a last line; the worst keep theirs. */
static void
test_counted (void)
{
  LidRule rules[40] = { { 0 } };
  g_autoptr (LidJob) job = scenes_job (scenes_find ("fortyeight"));
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_AS_FOUND);
  g_autoptr (LidBoardGeometry) g = NULL;
  const LidBoardNote *last;

  g_ptr_array_set_size (assessment->findings, 0);
  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    {
      rules[i].id = rules[i].title = "a rule";
      say (assessment, &rules[i], i < 2 ? LID_GRADE_STOPS : LID_GRADE_LOSES, i);
    }
  g = lay_out (job, assessment, 1024);
  last = lid_board_geometry_note (g, g->notes->len - 1);
  g_assert_null (last->finding);
  g_assert_cmpuint (last->n_findings, ==, 40 - (g->notes->len - 1));
  g_assert_cmpint (lid_board_geometry_note (g, 0)->grade, ==, LID_GRADE_STOPS);
  g_assert_cmpint (lid_board_geometry_note (g, 1)->grade, ==, LID_GRADE_STOPS);
  /* The findings borrow the rules of this function. */
  g_ptr_array_set_size (assessment->findings, 0);
}

/* A line runs from a note to its slot's edge. */
static void
test_line (void)
{
  static const LidRule rule = { .id = "test", .title = "a rule" };
  g_autoptr (LidJob) job = scenes_job (scenes_find ("tern"));
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_AS_FOUND);
  g_autoptr (LidBoardGeometry) g = NULL;
  const LidBoardNote *note;

  g_ptr_array_set_size (assessment->findings, 0);
  say (assessment, &rule, LID_GRADE_LOSES, 0);
  g = lay_out (job, assessment, 1440);
  note = lid_board_geometry_note (g, 0);
  g_assert_cmpuint (note->n_lines, ==, 1);
  g_assert_cmpfloat (note->lines[0].x1, ==, g->slots[0].box.x);
  g_assert_cmpfloat (note->lines[0].y1, ==, g->slots[0].box.y + g->slots[0].box.height / 2);
  g_assert_cmpfloat (note->lines[0].x0, >, note->box.x + note->box.width);
  g_assert_cmpfloat (note->lines[0].x0, <, g->slots[0].box.x);
  g_assert_cmpint (g->looks[0].grade, ==, LID_GRADE_LOSES);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/board-notes/folded", test_folded);
  g_test_add_func ("/board-notes/counted", test_counted);
  g_test_add_func ("/board-notes/line", test_line);
  return g_test_run ();
}
