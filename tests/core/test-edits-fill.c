/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "edits-sample.h"

#include "base/error.h"
#include "board/board-file.h"
#include "checks/assessment.h"
#include "checks/finding.h"

#include <string.h>

/* Every slot the hands run over, in the order they are offered: "A1 C1 …". */
static char *
run_on (LidEdits *edits, LidOf of, const char *text)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  int slot;

  while ((slot = lid_edits_next_slot (edits, of)) != LID_NOWHERE)
    {
      g_autofree char *module = NULL;

      lid_edits_add_from_text (edits, text, NULL, &module, &error);
      g_assert_no_error (error);
      lid_edits_fill (edits, of, (guint)slot, module, &error);
      g_assert_no_error (error);
      g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "",
                              lid_board_name_slot (lid_edits_job (edits)->board, (guint)slot));
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static LidEdits *
empty_machine (const char *board_id)
{
  g_autoptr (LidBoard) board = edits_sample_board (board_id);

  return lid_edits_new (lid_job_new (board));
}

/* The order of the chart room's board as platforms/tern-w4.json prints it. */
static void
test_run_on (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern (), empty = empty_machine ("tern-w4");
  g_autoptr (LidEdits) logger = empty_machine ("dunlin-s1");
  g_autofree char *rest = run_on (edits, LID_PLANNED, "16GB 2Rx8 PC4-3200AA-RE2-12");
  g_autofree char *all = run_on (empty, LID_AS_FOUND, "16GB 2Rx8 PC4-3200AA-RE2-12");
  /* The other one is soldered. */
  g_autofree char *one = run_on (logger, LID_AS_FOUND, "8GB 1Rx8 PC4-2666V-SA0-11");

  g_assert_cmpstr (rest, ==, "C1 D1 A2 C2 B2 D2");
  g_assert_cmpstr (all, ==, "A1 C1 B1 D1 A2 C2 B2 D2");
  g_assert_cmpstr (one, ==, "SO-DIMM");
}

/* A derived board names no order: the slots' own. */
static void
test_run_on_without_order (void)
{
  g_autoptr (LidBoard) board = lid_board_new ();
  g_autoptr (LidEdits) edits = NULL;
  g_autofree char *order = NULL;

  board->derived = TRUE;
  board->n_slots = 3;
  board->slots = g_new0 (LidBoardSlot, 3);
  for (guint i = 0; i < 3; i++)
    {
      board->slots[i].id = g_strdup_printf ("DIMM %u", 3 - i);
      board->slots[i].socket = LID_NOWHERE;
      board->slots[i].channel = LID_NOWHERE;
    }
  edits = lid_edits_new (lid_job_new (board));
  order = run_on (edits, LID_PLANNED, "16GB 2Rx8 PC4-3200AA-RE2-12");
  g_assert_cmpstr (order, ==, "DIMM 3 DIMM 2 DIMM 1");
}

/* Slots of a processor that is not there are passed over, by run-on and by fill. */
static void
test_absent_processor (void)
{
  g_autoptr (LidEdits) edits = empty_machine ("curlew-r2");
  const LidBoard *board = lid_edits_job (edits)->board;
  g_autoptr (GError) error = NULL;
  g_autofree char *module = NULL;
  const LidPopulation *planned;
  guint n = 0;

  g_assert_cmpuint (board->n_sockets, ==, 2);
  g_assert_true (lid_edits_set_processor (edits, LID_PLANNED, 1, FALSE, LID_NOWHERE, &error));
  g_assert_true (
      lid_edits_add_from_text (edits, "32GB 2Rx4 PC4-3200AA-RB2-12", NULL, &module, &error));
  g_assert_true (lid_edits_fill_alike (edits, LID_PLANNED, module, &error));
  g_assert_no_error (error);
  planned = lid_edits_population (edits, LID_PLANNED);
  for (guint i = 0; i < board->n_slots; i++)
    {
      g_assert_true ((planned->slots[i].module != NULL) == (board->slots[i].socket == 0));
      n += planned->slots[i].module != NULL;
    }
  /* The one that was there, and the rest to buy. */
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, n);
  g_assert_cmpint (lid_edits_next_slot (edits, LID_PLANNED), ==, LID_NOWHERE);
  g_assert_false (lid_edits_fill_alike (edits, LID_PLANNED, module, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
}

static void
test_first_slots (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) tray = NULL;
  const LidPopulation *planned;
  const LidModule *bought;

  g_assert_true (lid_edits_fill_first_slots (edits, LID_PLANNED,
                                             edits_sample_id (edits, LID_AS_FOUND, 0), &error));
  g_assert_no_error (error);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "fill all first slots");
  planned = lid_edits_population (edits, LID_PLANNED);
  for (guint i = 0; i < planned->n_slots; i++)
    g_assert_true ((planned->slots[i].module != NULL)
                   == (lid_edits_job (edits)->board->slots[i].position == 1));
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, 4);
  /* What is to buy has the part's facts and nobody's serial number. */
  bought = lid_edits_job (edits)->modules->pdata[3];
  g_assert_cmpstr (bought->part, ==, "TP-16R-32");
  g_assert_null (bought->serial);
  g_assert_cmpint (lid_module_capacity (bought), ==, 16384);
  g_assert_cmpint (lid_tray_origin (lid_edits_job (edits), bought), ==, LID_TRAY_TO_BUY);
  tray = lid_edits_tray (edits, LID_PLANNED);
  g_assert_cmpuint (tray->len, ==, 0);
  /* One step, whatever it touched. */
  g_assert_true (lid_edits_undo (edits));
  g_assert_false (lid_edits_can_undo (edits));
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, 2);
}

/* What lies on the tray is used before anything is bought, and goes back where it came from. */
static void
test_tray_first (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autofree char *a = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 0));
  g_autofree char *b = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 2));
  g_autoptr (GError) error = NULL;

  g_assert_true (lid_edits_empty_all (edits, LID_PLANNED, &error));
  g_assert_true (lid_edits_fill_channel (edits, LID_PLANNED, 1, a, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "fill channel B");
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, 2);
  g_assert_cmpstr (edits_sample_id (edits, LID_PLANNED, 2), ==, b);
  g_assert_cmpstr (edits_sample_id (edits, LID_PLANNED, 3), ==, a);
  g_assert_false (lid_edits_fill_channel (edits, LID_PLANNED, 1, a, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_clear_error (&error);
  g_assert_false (lid_edits_fill_channel (edits, LID_PLANNED, 44, a, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_NOT_FOUND);
}

static void
test_channels_not_told (void)
{
  g_autoptr (LidBoard) board = lid_board_new ();
  g_autoptr (LidEdits) edits = lid_edits_new (lid_job_new (board));
  g_autoptr (GError) error = NULL;
  g_autofree char *module = NULL;

  lid_edits_add_from_text (edits, "16GB 2Rx8 PC4-3200AA-RE2-12", NULL, &module, NULL);
  g_assert_false (lid_edits_fill_first_slots (edits, LID_PLANNED, module, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_assert_nonnull (strstr (error->message, "teach"));
}

static const LidFinding *
find (const LidAssessment *assessment, const char *rule)
{
  for (guint i = 0; i < assessment->findings->len; i++)
    if (g_strcmp0 (lid_finding_rule_id (assessment->findings->pdata[i]), rule) == 0)
      return assessment->findings->pdata[i];
  return NULL;
}

static LidAssessment *
assess (const LidEdits *edits, LidOf of)
{
  LidQuestion question = { lid_edits_job (edits)->board, lid_edits_population (edits, of),
                           lid_edits_population (edits, LID_AS_FOUND) };

  return lid_assessment_new (&question);
}

/* The checker's own remedy, clicked: the finding is gone, and back after one undo. A remedy of a
 * state that is past is refused. */
static void
test_remedy (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autoptr (LidAssessment) before = NULL, after = NULL, again = NULL;
  g_autoptr (GError) error = NULL;
  const LidFinding *finding;

  g_assert_true (lid_edits_move (edits, LID_PLANNED, 0, 1, &error));
  before = assess (edits, LID_PLANNED);
  finding = find (before, "first-slot");
  g_assert_nonnull (finding);
  g_assert_true (lid_edits_apply_remedy (edits, LID_PLANNED, lid_finding_remedy (finding), &error));
  g_assert_no_error (error);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "Move modules: A2 → A1 and B1 → C1");
  after = assess (edits, LID_PLANNED);
  g_assert_null (find (after, "first-slot"));
  g_assert_false (
      lid_edits_apply_remedy (edits, LID_PLANNED, lid_finding_remedy (finding), &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  lid_edits_undo (edits);
  again = assess (edits, LID_PLANNED);
  g_assert_nonnull (find (again, "first-slot"));
}

static void
test_plans (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autoptr (GError) error = NULL;

  g_assert_true (lid_edits_take (edits, LID_PLANNED, 0, &error));
  g_assert_true (lid_edits_left_from_planned (edits, &error));
  g_assert_true (lid_population_equal (lid_edits_population (edits, LID_AS_LEFT),
                                       lid_edits_population (edits, LID_PLANNED)));
  g_assert_true (lid_edits_plan_from_found (edits, &error));
  g_assert_no_error (error);
  g_assert_true (lid_population_equal (lid_edits_population (edits, LID_AS_FOUND),
                                       lid_edits_population (edits, LID_PLANNED)));
  g_assert_null (lid_edits_population (edits, LID_AS_LEFT)->slots[0].module);
  g_assert_cmpuint (lid_edits_job (edits)->stages->len, ==, 1);
  /* There and back by hand, the rate it was seen to run at is not known of the module any more; the
   * plan taken from as found anew has it again. */
  g_assert_true (lid_edits_move (edits, LID_PLANNED, 0, 1, &error));
  g_assert_true (lid_edits_move (edits, LID_PLANNED, 1, 0, &error));
  g_assert_cmpuint (lid_edits_population (edits, LID_PLANNED)->slots[0].configured, ==,
                    LID_RATE_UNKNOWN);
  g_assert_true (lid_edits_plan_from_found (edits, &error));
  g_assert_cmpuint (lid_edits_population (edits, LID_PLANNED)->slots[0].configured, ==, 3 * 2933);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edits-fill/run-on", test_run_on);
  g_test_add_func ("/edits-fill/run-on-without-order", test_run_on_without_order);
  g_test_add_func ("/edits-fill/absent-processor", test_absent_processor);
  g_test_add_func ("/edits-fill/first-slots", test_first_slots);
  g_test_add_func ("/edits-fill/tray-first", test_tray_first);
  g_test_add_func ("/edits-fill/channels-not-told", test_channels_not_told);
  g_test_add_func ("/edits-fill/remedy", test_remedy);
  g_test_add_func ("/edits-fill/plans", test_plans);
  return g_test_run ();
}
