/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a plan brings, by part, and what of it is not there: as the job knows, as the shelf says, as
 * a plan in stages has it. The counts are written here by hand from how the jobs are made. */
#include "board/board-file.h"
#include "changeover/stage-parts.h"
#include "changeover/stages.h"
#include "facts/label.h"
#include "job/edits.h"

#include <string.h>

#define LABEL "16GB 2Rx4 PC4-2400T-RA1-11"

static LidModule *
add_module (LidJob *job, const char *part, const char *serial, const char *bin)
{
  g_autoptr (LidModule) module = NULL;
  LidLabel label;

  g_assert_true (lid_label_parse (LABEL, -1, &label, NULL, NULL));
  module = lid_label_facts_to_module (&label);
  lid_module_set_text (&module->part, part);
  lid_module_set_text (&module->serial, serial);
  lid_module_set_text (&module->bin, bin);
  module->id = g_strdup_printf ("m%u", job->modules->len + 1);
  return lid_job_add_module (job, g_steal_pointer (&module));
}

static LidPopulation *
begin (const LidBoard *board)
{
  LidPopulation *population = lid_population_new (board);

  population->processors[0].fitted = TRUE;
  population->firmware = g_strdup ("2.2");
  return population;
}

/* Slots are named by the board: one found in A1; new ones of the part P in B1 (to buy), C1 (a bin),
 * D1 (in somebody's hand), and one without a part number in A2 (to buy). */
static LidJob *
make_job (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", "tern-w4.json", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_load (path, &error);
  static const struct
  {
    const char *slot, *part, *serial, *bin;
  } brings[] = { { "B1", "P", NULL, NULL },
                 { "C1", "P", NULL, "B3" },
                 { "D1", "P", "S9", NULL },
                 { "A2", NULL, NULL, NULL } };
  LidStage *stage = g_new0 (LidStage, 1);
  LidModule *old;
  LidJob *job;

  g_assert_no_error (error);
  job = lid_job_new (board);
  old = add_module (job, "OLD", "S1", NULL);
  job->as_found = begin (board);
  lid_population_put (job->as_found, (guint)lid_board_find_slot (board, "A1"), old);
  stage->population = begin (board);
  lid_population_put (stage->population, (guint)lid_board_find_slot (board, "A1"), old);
  for (guint i = 0; i < G_N_ELEMENTS (brings); i++)
    lid_population_put (stage->population, (guint)lid_board_find_slot (board, brings[i].slot),
                        add_module (job, brings[i].part, brings[i].serial, brings[i].bin));
  g_ptr_array_add (job->stages, stage);
  return job;
}

static const LidStagePart *
part_of (const GPtrArray *parts, const char *name)
{
  for (guint i = 0; i < parts->len; i++)
    if (g_strcmp0 (((LidStagePart *)parts->pdata[i])->part, name) == 0)
      return parts->pdata[i];
  g_assert_not_reached ();
}

static LidStock *
shelf (const char *rows)
{
  g_autofree char *text = g_strconcat ("part,label,quantity\n", rows, NULL);
  g_autoptr (GError) error = NULL;
  LidStock *stock = lid_stock_parse (text, strlen (text), NULL, &error);

  g_assert_no_error (error);
  return stock;
}

static void
test_as_the_job_knows (void)
{
  g_autoptr (LidJob) job = make_job ();
  g_autoptr (GPtrArray) parts = lid_stage_parts_new (job);
  g_autoptr (GHashTable) missing = lid_stage_parts_missing (parts);
  const LidPopulation *plan = lid_job_get_population (job, LID_PLANNED);
  const LidStagePart *part = part_of (parts, "P");

  g_assert_cmpuint (parts->len, ==, 2);
  g_assert_cmpuint (part->modules->len, ==, 3);
  g_assert_cmpuint (part->missing, ==, 1);
  g_assert_cmpuint (part_of (parts, NULL)->missing, ==, 1);
  /* It is those to be bought that are missing, though they would be fitted first. */
  g_assert_cmpuint (g_hash_table_size (missing), ==, 2);
  g_assert_true (
      g_hash_table_contains (missing, plan->slots[lid_board_find_slot (job->board, "B1")].module));
  g_assert_true (
      g_hash_table_contains (missing, plan->slots[lid_board_find_slot (job->board, "A2")].module));
}

static void
test_as_the_shelf_says (void)
{
  static const struct
  {
    const char *rows;
    guint p, unnamed;
  } cases[] = {
    /* of P one is in hand; the shelf has none, one, many, and other things */
    { "Q,16g 2rx4 2400 registered,9\n", 2, 1 },
    { "P,16g 2rx4 2400 registered,1\n", 1, 1 },
    { "P,16g 2rx4 2400 registered,1\nP,16g 2rx4 2400 registered,40\n", 0, 1 },
    /* without a part number the facts tell: the same label, and another */
    { "," LABEL ",1\n", 2, 0 },
    { ",32GB 2Rx4 PC4-2400T-RA1-11,1\n", 2, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (LidJob) job = make_job ();
      g_autoptr (GPtrArray) parts = lid_stage_parts_new (job);
      g_autoptr (LidStock) stock = shelf (cases[i].rows);

      lid_stage_parts_use_stock (parts, stock);
      g_assert_cmpuint (part_of (parts, "P")->missing, ==, cases[i].p);
      g_assert_cmpuint (part_of (parts, NULL)->missing, ==, cases[i].unnamed);
    }
}

static LidModule *
planned_in (const LidJob *job, const char *slot)
{
  const LidPopulation *plan = lid_job_get_population (job, LID_PLANNED);

  return plan->slots[lid_board_find_slot (job->board, slot)].module;
}

/* Of an empty shelf nothing is there but what is in somebody's hand; asked again of the job in
 * stages, that is what the first visit does without, whatever the job knows. */
static void
test_in_hand (void)
{
  g_autoptr (LidJob) job = make_job ();
  g_autoptr (GPtrArray) parts = lid_stage_parts_new (job), again = NULL;
  g_autoptr (LidStock) stock = shelf ("Q,16g 2rx4 2400 registered,9\n");
  g_autoptr (GHashTable) missing = NULL;

  lid_stage_parts_use_stock (parts, stock);
  missing = lid_stage_parts_missing (parts);
  g_assert_cmpuint (g_hash_table_size (missing), ==, 3);
  g_assert_false (g_hash_table_contains (missing, planned_in (job, "D1")));
  g_assert_true (lid_stages_split_job (job, missing, NULL));
  again = lid_stage_parts_new (job);
  g_assert_cmpuint (part_of (again, "P")->missing, ==, 2);
  lid_stages_keep_one (job, 2);
  g_assert_cmpuint (job->stages->len, ==, 1);
  g_assert_nonnull (planned_in (job, "A2"));
}

/* A new one planned for where one like it sits is brought all the same. */
static void
test_where_one_like_it_sits (void)
{
  g_autoptr (LidJob) job = make_job ();
  LidPopulation *plan = ((LidStage *)job->stages->pdata[0])->population;
  guint a1 = (guint)lid_board_find_slot (job->board, "A1");
  g_autoptr (GPtrArray) parts = NULL;

  lid_population_take (plan, a1);
  lid_population_put (plan, a1, add_module (job, "OLD", NULL, NULL));
  parts = lid_stage_parts_new (job);
  g_assert_cmpuint (part_of (parts, "OLD")->modules->len, ==, 1);
  g_assert_cmpstr (((LidStagePart *)parts->pdata[parts->len - 1])->part, ==, "OLD");
}

/* What other jobs put by is not there for this one. */
static void
test_reserved_for_others (void)
{
  g_autoptr (LidJob) job = make_job ();
  g_autoptr (GPtrArray) parts = lid_stage_parts_new (job);
  g_autoptr (LidStock) stock = shelf ("P,16g 2rx4 2400 registered,4\n");

  ((LidStockRow *)stock->rows->pdata[0])->reserved = 3;
  lid_stage_parts_use_stock (parts, stock);
  g_assert_cmpuint (part_of (parts, "P")->missing, ==, 1);
}

/* Split, looked at again, and tonight taken as one step that is taken back as one. */
static void
test_split (void)
{
  LidEdits *edits = lid_edits_new (make_job ());
  const LidJob *job = lid_edits_job (edits);
  g_autoptr (LidPopulation) planned
      = lid_population_copy (lid_job_get_population (job, LID_PLANNED));
  g_autoptr (GError) error = NULL;
  LidJob *copy = lid_stages_copy_job (job, &error);
  g_autoptr (GPtrArray) parts = lid_stage_parts_new (copy), again = NULL;
  g_autoptr (GHashTable) missing = lid_stage_parts_missing (parts);
  guint b1 = (guint)lid_board_find_slot (job->board, "B1");
  const LidPopulation *tonight;

  g_assert_true (copy->board == job->board);
  g_assert_true (lid_stages_split_job (copy, missing, &error));
  g_assert_no_error (error);
  g_assert_true (lid_stages_every_way (copy));
  again = lid_stage_parts_new (copy);
  g_assert_cmpuint (part_of (again, "P")->missing, ==, 1);
  lid_stages_keep_one (copy, 1);
  g_assert_cmpuint (copy->stages->len, ==, 1);
  g_assert_true (lid_edits_become (edits, copy, "tonight", &error));
  /* One of the same part stands where the missing one was planned; that one sits nowhere. */
  tonight = lid_edits_population (edits, LID_PLANNED);
  g_assert_cmpstr (tonight->slots[b1].module->part, ==, "P");
  for (guint i = 0; i < tonight->n_slots; i++)
    g_assert_true (tonight->slots[i].module == NULL
                   || strcmp (tonight->slots[i].module->id, planned->slots[b1].module->id) != 0);
  g_assert_true (lid_edits_undo (edits));
  g_assert_true (lid_population_equal (lid_edits_population (edits, LID_PLANNED), planned));
  lid_edits_free (edits);
}

/* What was put by stays put by, whatever is undone: no step gives anything back to a shelf. */
static void
test_reserved (void)
{
  g_autoptr (LidEdits) edits = lid_edits_new (make_job ());
  const LidJob *job = lid_edits_job (edits);

  g_assert_true (lid_edits_become (edits, lid_stages_copy_job (job, NULL), "x", NULL));
  lid_edits_set_reserved (edits, "shelf.csv", "job 7");
  for (guint way = 0; way < 2; way++)
    {
      g_assert_true (way == 0 ? lid_edits_undo (edits) : lid_edits_redo (edits));
      g_assert_cmpstr (job->reserved_in, ==, "shelf.csv");
      g_assert_cmpstr (job->reserved_as, ==, "job 7");
    }
}

/* Another plan is one visit again, whichever way it comes; undone, both visits are back. */
static void
test_another_plan (void)
{
  g_autoptr (LidEdits) edits = lid_edits_new (make_job ());
  const LidJob *job = lid_edits_job (edits);
  LidJob *copy = lid_stages_copy_job (job, NULL);
  g_autoptr (GPtrArray) parts = lid_stage_parts_new (copy);
  g_autoptr (GHashTable) missing = lid_stage_parts_missing (parts);
  g_autoptr (LidPopulation) planned
      = lid_population_copy (lid_job_get_population (job, LID_PLANNED));

  g_assert_true (lid_stages_split_job (copy, missing, NULL));
  g_assert_true (lid_edits_become (edits, copy, "both", NULL));
  for (guint way = 0; way < 2; way++)
    {
      g_assert_true (way == 0 ? lid_edits_plan_from_found (edits, NULL)
                              : lid_edits_adopt (edits, LID_PLANNED, job->as_found, "x", NULL));
      g_assert_cmpuint (job->stages->len, ==, 1);
      g_assert_true (
          lid_population_equal (lid_edits_population (edits, LID_PLANNED), job->as_found));
      g_assert_true (lid_edits_undo (edits));
      g_assert_cmpuint (job->stages->len, ==, 2);
    }
  g_assert_true (
      lid_edits_take (edits, LID_PLANNED, 0, NULL)); /* a change by hand is no other plan */
  g_assert_cmpuint (job->stages->len, ==, 2);
  g_assert_true (lid_edits_undo (edits));
  g_assert_true (lid_edits_undo (edits));
  g_assert_true (lid_population_equal (lid_edits_population (edits, LID_PLANNED), planned));
}

static void
test_sentences (void)
{
  g_autoptr (LidJob) job = make_job ();
  g_autoptr (GPtrArray) parts = lid_stage_parts_new (job);
  g_autoptr (GHashTable) missing = lid_stage_parts_missing (parts);
  static const char *const words[] = { "2 modules are touched, and 48 GB can be used until",
                                       "2 modules are touched, and then 80 GB can be used." };

  g_assert_true (lid_stages_split_job (job, missing, NULL));
  for (guint i = 0; i < 2; i++)
    {
      const LidStage *stage = job->stages->pdata[i];
      LidQuestion question = { job->board, stage->population, job->as_found };
      g_autoptr (LidAssessment) assessment = lid_assessment_new_plain (&question);
      g_autofree char *text = lid_stages_describe (job, i + 1, assessment);

      g_test_message ("%s", text);
      g_assert_true (g_str_has_prefix (text, words[i]));
    }
}

static char *
describe_with (LidModule *module)
{
  g_autoptr (LidModule) own = module;
  g_autoptr (LidJob) job = make_job ();
  LidPopulation *plan = ((LidStage *)job->stages->pdata[0])->population;
  LidQuestion question = { job->board, plan, job->as_found };
  g_autoptr (LidAssessment) assessment = NULL;

  lid_population_take (plan, (guint)lid_board_find_slot (job->board, "B1"));
  lid_population_put (plan, (guint)lid_board_find_slot (job->board, "B1"), own);
  assessment = lid_assessment_new_plain (&question);
  return lid_stages_describe (job, 1, assessment);
}

/* No size is told of what does not start, nor where one module's is not known. */
static void
test_no_size (void)
{
  g_autofree char *stopped = NULL, *untold = NULL;
  LidLabel label;
  LidModule *module;

  g_assert_true (lid_label_parse ("16GB 2Rx8 PC4-2400T-EE1-11", -1, &label, NULL, NULL));
  stopped = describe_with (lid_label_facts_to_module (&label));
  g_assert_true (g_str_has_prefix (stopped, "Something stops it"));
  g_assert_true (lid_label_parse (LABEL, -1, &label, NULL, NULL));
  module = lid_label_facts_to_module (&label);
  lid_module_set (module, LID_FACT_CAPACITY, 0, LID_BASIS_NONE);
  untold = describe_with (module);
  g_assert_nonnull (strstr (untold, "a size that is not told can be used"));
}

static void
test_nothing_planned (void)
{
  g_autoptr (LidJob) job = make_job ();
  g_autoptr (GPtrArray) parts = NULL;

  g_ptr_array_set_size (job->stages, 0);
  parts = lid_stage_parts_new (job);
  g_assert_cmpuint (parts->len, ==, 0);
}

static void
test_nothing_found (void)
{
  g_autoptr (LidJob) job = make_job ();
  g_autoptr (GPtrArray) parts = NULL;

  g_clear_pointer (&job->as_found, lid_population_free);
  parts = lid_stage_parts_new (job);
  g_assert_cmpuint (parts->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stage-parts/as-the-job-knows", test_as_the_job_knows);
  g_test_add_func ("/stage-parts/as-the-shelf-says", test_as_the_shelf_says);
  g_test_add_func ("/stage-parts/in-hand", test_in_hand);
  g_test_add_func ("/stage-parts/where-one-like-it-sits", test_where_one_like_it_sits);
  g_test_add_func ("/stage-parts/reserved-for-others", test_reserved_for_others);
  g_test_add_func ("/stage-parts/split", test_split);
  g_test_add_func ("/stage-parts/another-plan", test_another_plan);
  g_test_add_func ("/stage-parts/sentences", test_sentences);
  g_test_add_func ("/stage-parts/no-size", test_no_size);
  g_test_add_func ("/stage-parts/nothing-planned", test_nothing_planned);
  g_test_add_func ("/stage-parts/nothing-found", test_nothing_found);
  g_test_add_func ("/stage-parts/reserved", test_reserved);
  return g_test_run ();
}
