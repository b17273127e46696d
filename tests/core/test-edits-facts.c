/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "edits-sample.h"

#include "base/error.h"
#include "job/job-file.h"

#include <string.h>

static const LidModule *
module_of (const LidEdits *edits, const char *id)
{
  const LidModule *module = lid_job_find_module (lid_edits_job (edits), id);

  g_assert_nonnull (module);
  return module;
}

/* The same part with facts an inventory did not tell. */
static LidEdits *
known_by_inventory (gboolean with_part)
{
  LidJob *job = edits_sample_job ();
  LidPopulation *found = job->as_found;

  for (guint i = 0; i < job->modules->len; i++)
    {
      LidModule *module = job->modules->pdata[i];

      for (guint f = 0; f < LID_N_FACTS; f++)
        lid_module_set (module, f, module->value[f],
                        f == LID_FACT_CHIP_WIDTH ? LID_BASIS_NONE : LID_BASIS_INVENTORY);
      lid_module_set_text (&module->label, NULL);
      if (!with_part)
        lid_module_set_text (&module->part, NULL);
    }
  g_assert_nonnull (found);
  return lid_edits_new (job);
}

/* Told once, known of every module of the part, in every population; taken back likewise. */
static void
test_told_once (void)
{
  g_autoptr (LidEdits) edits = known_by_inventory (TRUE);
  g_autofree char *a = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 0));
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (GError) error = NULL;
  const LidPopulation *planned, *found;

  g_assert_true (lid_edits_move (edits, LID_PLANNED, 2, 4, &error));
  before = lid_job_file_to_text (lid_edits_job (edits));
  g_assert_true (lid_edits_tell_fact (edits, a, LID_FACT_CHIP_WIDTH, 8, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "facts of TP-16R-32");
  planned = lid_edits_population (edits, LID_PLANNED);
  found = lid_edits_population (edits, LID_AS_FOUND);
  g_assert_true (planned->slots[4].module == found->slots[2].module);
  g_assert_cmpint (lid_module_get (planned->slots[4].module, LID_FACT_CHIP_WIDTH, 0), ==, 8);
  g_assert_cmpint (lid_module_get (found->slots[0].module, LID_FACT_CHIP_WIDTH, 0), ==, 8);
  g_assert_cmpint (found->slots[0].module->basis[LID_FACT_CHIP_WIDTH], ==, LID_BASIS_TOLD);
  g_assert_cmpuint (found->slots[0].configured, ==, 3 * 2933);
  g_assert_cmpstr (found->slots[0].module->serial, ==, "S101");
  lid_edits_undo (edits);
  after = lid_job_file_to_text (lid_edits_job (edits));
  g_assert_cmpstr (before, ==, after);
}

/* Without a part number two modules that look alike may differ in the very fact that is told. */
static void
test_no_part (void)
{
  g_autoptr (LidEdits) edits = known_by_inventory (FALSE);
  g_autofree char *a = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 0));
  g_autofree char *b = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 2));
  g_autofree char *typed = NULL;
  const GPtrArray *modules;

  g_assert_true (lid_edits_tell_fact (edits, a, LID_FACT_CHIP_WIDTH, 4, NULL));
  g_assert_true (lid_module_knows (module_of (edits, a), LID_FACT_CHIP_WIDTH));
  g_assert_false (lid_module_knows (module_of (edits, b), LID_FACT_CHIP_WIDTH));
  /* Two typed in one line are one kind of thing. */
  lid_edits_add_from_text (edits, "2x 32g 3200 registered", NULL, &typed, NULL);
  g_assert_true (lid_edits_tell_fact (edits, typed, LID_FACT_CHIP_WIDTH, 4, NULL));
  modules = lid_edits_job (edits)->modules;
  for (guint i = 2; i < 4; i++)
    g_assert_cmpint (lid_module_get (modules->pdata[i], LID_FACT_CHIP_WIDTH, 0), ==, 4);
}

static void
test_weight (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  const char *a = edits_sample_id (edits, LID_AS_FOUND, 0);
  GError *error = NULL;

  /* The label of the sample prints x8. */
  g_assert_false (lid_edits_tell_fact (edits, a, LID_FACT_CHIP_WIDTH, 4, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_clear_error (&error);
  g_assert_true (lid_edits_tell_fact (edits, a, LID_FACT_CHIP_WIDTH, 8, &error));
  g_assert_false (lid_edits_tell_fact (edits, a, LID_FACT_HEIGHT, -7, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_clear_error (&error);
  g_assert_false (lid_edits_can_undo (edits));
}

static void
test_label (void)
{
  g_autoptr (LidEdits) edits = known_by_inventory (TRUE);
  g_autofree char *a = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 0));
  g_autofree char *b = g_strdup (edits_sample_id (edits, LID_AS_FOUND, 2));
  GError *error = NULL;

  g_assert_false (lid_edits_tell_label (edits, a, "32GB 2Rx4 PC4-3200AA-RB2-12", &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_assert_nonnull (strstr (error->message, "32 GB"));
  g_clear_error (&error);
  g_assert_false (lid_edits_tell_label (edits, a, "not a label", &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_true (lid_edits_tell_label (edits, a, "16GB 2Rx8 PC4-3200AA-RE2-12", &error));
  g_assert_no_error (error);
  g_assert_cmpint (module_of (edits, b)->basis[LID_FACT_CHIP_WIDTH], ==, LID_BASIS_LABEL);
  g_assert_cmpstr (module_of (edits, b)->serial, ==, "S102");
  g_assert_cmpstr (module_of (edits, b)->label, ==, "16GB 2Rx8 PC4-3200AA-RE2-12");
}

static void
test_add (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  g_autofree char *first = NULL, *again = NULL, *scanned = NULL;
  GError *error = NULL;

  g_assert_true (
      lid_edits_add_from_text (edits, "16x 32GB 2Rx4 PC4-3200AA-RB2-12", NULL, &first, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (lid_edits_undo_name (edits), ==, "add 16 × 32 GB 2Rx4 registered 3200");
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, 18);
  g_assert_cmpstr (first, ==, "m3");
  /* A scanner reads one module twice: it is there already. */
  g_assert_true (lid_edits_add_from_text (
      edits, "(L)16GB 2Rx8 PC4-3200AA-RE2-12(S)Z900(P)TP-16R-32", NULL, &scanned, &error));
  g_assert_true (lid_edits_add_from_text (
      edits, "(L)16GB 2Rx8 PC4-3200AA-RE2-12(S)Z900(P)TP-16R-32", NULL, &again, &error));
  g_assert_cmpstr (scanned, ==, again);
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, 19);
  g_assert_false (
      lid_edits_add_from_text (edits, "9000x 32GB 2Rx4 PC4-3200AA-RB2-12", NULL, NULL, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_TOO_LARGE);
  g_clear_error (&error);
  g_assert_false (lid_edits_add_from_text (edits, "tea", NULL, NULL, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
}

static void
test_drop (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  const char *seated = edits_sample_id (edits, LID_AS_FOUND, 0);
  g_autofree char *first = NULL, *later = NULL;
  GError *error = NULL;

  lid_edits_add_from_text (edits, "3x 32GB 2Rx4 PC4-3200AA-RB2-12", NULL, &first, NULL);
  g_assert_false (lid_edits_drop (edits, seated, 1, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_clear_error (&error);
  g_assert_true (lid_edits_drop (edits, first, 2, &error));
  g_assert_cmpuint (lid_edits_job (edits)->modules->len, ==, 3);
  g_assert_null (lid_job_find_module (lid_edits_job (edits), first));
  /* An id that was dropped never means another module. */
  lid_edits_add_from_text (edits, "3x 32GB 2Rx4 PC4-3200AA-RB2-12", NULL, &later, NULL);
  g_assert_cmpstr (later, ==, "m6");
  lid_edits_undo (edits);
  lid_edits_undo (edits);
  g_assert_nonnull (lid_job_find_module (lid_edits_job (edits), first));
}

/* A module that was at hand at a start noted is what that start proves: it stays in the job. */
static void
test_drop_tried (void)
{
  g_autoptr (LidEdits) edits = edits_sample_tern ();
  const LidJob *job = lid_edits_job (edits);
  g_autofree char *id = NULL;
  LidTrial *trial = lid_trial_new (job->as_found);
  GError *error = NULL;

  lid_edits_add_from_text (edits, "32GB 2Rx4 PC4-3200AA-RB2-12", NULL, &id, NULL);
  lid_population_put (trial->population, 0, lid_job_find_module (lid_edits_job (edits), id));
  g_ptr_array_add (lid_edits_job (edits)->trials, trial);
  g_assert_false (lid_edits_drop (edits, id, 1, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
  g_clear_error (&error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edits-facts/told-once", test_told_once);
  g_test_add_func ("/edits-facts/no-part", test_no_part);
  g_test_add_func ("/edits-facts/weight", test_weight);
  g_test_add_func ("/edits-facts/label", test_label);
  g_test_add_func ("/edits-facts/add", test_add);
  g_test_add_func ("/edits-facts/drop", test_drop);
  g_test_add_func ("/edits-facts/drop-tried", test_drop_tried);
  return g_test_run ();
}
