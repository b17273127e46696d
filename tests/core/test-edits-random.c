/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random edits of jobs on every board of platforms/ and of machines without a board. Held to: undo
 * and redo give back every state byte for byte, no module sits twice, the tray and the population
 * hold every module once, and the document reloads equal. */
#include "edits-sample.h"
#include "support.h"

#include "checks/assessment.h"
#include "job/job-file.h"
#include "job/job-open.h"
#include "job/job-teach.h"

#include <string.h>

#define N_EDITS 40

static LidOf
any_of (GRand *random)
{
  static const LidOf often[] = { LID_PLANNED, LID_PLANNED, LID_PLANNED, LID_AS_FOUND, LID_AS_LEFT };

  return often[g_rand_int_range (random, 0, G_N_ELEMENTS (often))];
}

static const char *
any_module (const LidEdits *edits, GRand *random)
{
  const GPtrArray *modules = lid_edits_job (edits)->modules;

  if (modules->len == 0)
    return "none";
  return ((const LidModule *)modules->pdata[g_rand_int_range (random, 0, (gint32)modules->len)])
      ->id;
}

static const char *
any_text (GRand *random)
{
  static const char *const texts[]
      = { "16GB 2Rx8 PC4-3200AA-RE2-12", "4x 32GB 2Rx4 PC4-3200AA-RB2-12", "8x 64g 2rx4 4800",
          "32GB 2Rx8 PC5-4800B-EA0-1110", "2 x 16g 1600" };

  return texts[g_rand_int_range (random, 0, G_N_ELEMENTS (texts))];
}

/* A remedy the checker itself offers for the population. */
static void
apply_any_remedy (LidEdits *edits, LidOf of)
{
  const LidPopulation *population = lid_edits_population (edits, of);
  LidQuestion question
      = { lid_edits_job (edits)->board, population, lid_edits_population (edits, LID_AS_FOUND) };
  g_autoptr (LidAssessment) assessment = NULL;

  if (population == NULL)
    return;
  assessment = lid_assessment_new (&question);
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];
      g_autoptr (GError) error = NULL;

      if (lid_finding_remedy (finding) == NULL || lid_finding_remedy (finding)->moves->len == 0)
        continue;
      lid_edits_apply_remedy (edits, of, lid_finding_remedy (finding), &error);
      g_assert_no_error (error);
      return;
    }
}

static void
edit_machine (LidEdits *edits, GRand *random, LidOf of)
{
  const LidBoard *board = lid_edits_job (edits)->board;

  switch (g_rand_int_range (random, 0, 5))
    {
    case 0:
      lid_edits_set_firmware (edits, of, g_rand_boolean (random) ? "2.4" : NULL, NULL);
      break;
    case 1:
      lid_edits_set_processor (edits, of, (guint)g_rand_int_range (random, 0, 3),
                               g_rand_boolean (random),
                               g_rand_int_range (random, -1, 1 + (int)board->n_processors), NULL);
      break;
    case 2:
      lid_edits_set_mode (edits, of, g_rand_int_range (random, 0, LID_N_MODES), 2, 8192, NULL);
      break;
    case 3:
      lid_edits_set_setup (edits, of, g_rand_boolean (random) ? 3 * 2400 : LID_RATE_UNKNOWN, 1200,
                           NULL);
      break;
    default:
      lid_edits_set_numa_split (edits, of, (guint)g_rand_int_range (random, 0, 5), NULL);
      break;
    }
}

static void
edit_hands (LidEdits *edits, GRand *random, LidOf of)
{
  const LidBoard *board = lid_edits_job (edits)->board;
  guint slot = (guint)g_rand_int_range (random, 0, (gint32)board->n_slots);
  guint other = (guint)g_rand_int_range (random, 0, (gint32)board->n_slots);
  int next;

  switch (g_rand_int_range (random, 0, 6))
    {
    case 0:
      lid_edits_fill (edits, of, slot, any_module (edits, random), NULL);
      break;
    case 1:
      next = lid_edits_next_slot (edits, of);
      if (next != LID_NOWHERE)
        lid_edits_fill (edits, of, (guint)next, any_module (edits, random), NULL);
      break;
    case 2:
      lid_edits_take (edits, of, slot, NULL);
      break;
    case 3:
      lid_edits_move (edits, of, slot, other, NULL);
      break;
    case 4:
      lid_edits_drop (edits, any_module (edits, random), 2, NULL);
      break;
    default:
      apply_any_remedy (edits, of);
      break;
    }
}

static void
edit_many (LidEdits *edits, GRand *random, LidOf of)
{
  const LidBoard *board = lid_edits_job (edits)->board;
  const char *module = any_module (edits, random);

  switch (g_rand_int_range (random, 0, 6))
    {
    case 0:
      lid_edits_fill_first_slots (edits, of, module, NULL);
      break;
    case 1:
      lid_edits_fill_channel (edits, of,
                              (guint)g_rand_int_range (random, 0, 1 + (gint32)board->n_channels),
                              module, NULL);
      break;
    case 2:
      lid_edits_fill_alike (edits, of, module, NULL);
      break;
    case 3:
      lid_edits_empty_all (edits, of, NULL);
      break;
    case 4:
      lid_edits_plan_from_found (edits, NULL);
      break;
    default:
      lid_edits_left_from_planned (edits, NULL);
      break;
    }
}

static void
edit (LidEdits *edits, GRand *random)
{
  LidOf of = any_of (random);

  switch (g_rand_int_range (random, 0, 8))
    {
    case 0:
      edit_machine (edits, random, of);
      break;
    case 1:
      lid_edits_set_text (edits, g_rand_int_range (random, 0, LID_EDITS_N_TEXTS), "Tide “7”\n",
                          NULL);
      break;
    case 2:
      lid_edits_add_from_text (edits, any_text (random), NULL, NULL, NULL);
      break;
    case 3:
      if (g_rand_boolean (random))
        lid_edits_tell_label (edits, any_module (edits, random), any_text (random), NULL);
      else
        lid_edits_tell_fact (edits, any_module (edits, random), LID_FACT_CHIP_WIDTH,
                             g_rand_boolean (random) ? 4 : 8, NULL);
      break;
    case 4:
      edit_many (edits, random, of);
      break;
    default:
      edit_hands (edits, random, of);
      break;
    }
}

/* Now and then the board itself becomes another one. */
static void
teach (LidEdits *edits, GRand *random)
{
  const LidJob *job = lid_edits_job (edits);
  g_autoptr (GPtrArray) offers = lid_job_teach_offers (job);
  LidJob *taught;

  if (offers->len == 0)
    return;
  taught
      = lid_job_teach (job, offers->pdata[g_rand_int_range (random, 0, (gint32)offers->len)], NULL);
  if (taught != NULL)
    lid_edits_become (edits, taught, "teach", NULL);
}

static gboolean
is_soldered (const LidJob *job, const LidPopulation *population, guint slot)
{
  return job->board->slots[slot].soldered != NULL
         || population->slots[slot].state == LID_SLOT_SOLDERED;
}

/* Every module of the job lies once in the tray or sits once in the population. */
static void
check_whereabouts (const LidEdits *edits, LidOf of)
{
  const LidJob *job = lid_edits_job (edits);
  const LidPopulation *population = lid_edits_population (edits, of);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) tray = lid_edits_tray (edits, of);
  guint n_seen = 0;

  if (population == NULL)
    return;
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module != NULL
        && !(is_soldered (job, population, i)
             && !g_ptr_array_find (job->modules, population->slots[i].module, NULL)))
      {
        g_assert_true (g_ptr_array_find (job->modules, population->slots[i].module, NULL));
        g_assert_true (g_hash_table_add (seen, population->slots[i].module->id));
        n_seen++;
      }
  for (guint i = 0; i < tray->len; i++)
    {
      const LidTrayGroup *group = tray->pdata[i];

      g_assert_cmpuint (group->count, ==, group->all->len);
      g_assert_true (group->all->pdata[0] == group->module);
      for (guint k = 0; k < group->all->len; k++)
        g_assert_true (g_hash_table_add (seen, ((LidModule *)group->all->pdata[k])->id));
      n_seen += group->count;
    }
  g_assert_cmpuint (n_seen, ==, job->modules->len);
}

/* Not g_assert_cmpstr(): two whole documents in one line help nobody. */
static void
check_same (const char *text, const char *other)
{
  guint line = 1;
  gsize at = 0;

  while (text[at] != 0 && text[at] == other[at])
    line += text[at++] == '\n';
  if (text[at] == 0 && other[at] == 0)
    return;
  g_test_message ("line %u: “%.120s” is not “%.120s”", line, text + at, other + at);
  g_assert_not_reached ();
}

static void
check_reload (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) again = lid_job_file_parse (text, strlen (text), &error);
  g_autofree char *second = NULL;

  g_assert_no_error (error);
  second = lid_job_file_to_text (again);
  check_same (text, second);
}

static void
check_state (const LidEdits *edits, const GPtrArray *texts, guint at)
{
  g_autofree char *text = lid_job_file_to_text (lid_edits_job (edits));

  check_same (text, texts->pdata[at]);
}

static void
run (LidJob *job, guint32 seed)
{
  g_autoptr (LidEdits) edits = lid_edits_new (job);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  guint done = 0;

  g_ptr_array_add (texts, lid_job_file_to_text (job));
  for (guint i = 0; i < N_EDITS; i++)
    {
      char *text;

      /* Now and then back and forth in between. */
      if (g_rand_int_range (random, 0, 6) == 0 && lid_edits_undo (edits))
        check_state (edits, texts, --done);
      if (g_rand_int_range (random, 0, 12) == 0 && lid_edits_redo (edits))
        check_state (edits, texts, ++done);
      if (g_rand_int_range (random, 0, 20) == 0)
        teach (edits, random);
      else
        edit (edits, random);
      text = lid_job_file_to_text (lid_edits_job (edits));
      if (g_strcmp0 (text, texts->pdata[done]) == 0)
        {
          g_free (text);
          continue;
        }
      g_assert_nonnull (lid_edits_undo_name (edits));
      g_assert_false (lid_edits_can_redo (edits));
      g_ptr_array_set_size (texts, (int)++done);
      g_ptr_array_add (texts, text);
      for (guint of = 0; of < LID_N_OF; of++)
        check_whereabouts (edits, of);
      check_reload (text);
    }
  for (guint at = done; at > 0; at--)
    {
      g_assert_true (lid_edits_undo (edits));
      check_state (edits, texts, at - 1);
    }
  g_assert_false (lid_edits_can_undo (edits));
  /* What was taken back last and not overwritten can be done again too. */
  for (guint at = 1; at < texts->len; at++)
    {
      g_assert_true (lid_edits_redo (edits));
      check_state (edits, texts, at);
    }
  g_assert_false (lid_edits_can_redo (edits));
}

/* Texts are merged while keys are typed: then no step is added although the text changes. The runs
 * above set each text once, so that cannot happen here. */
static void
test_boards (void)
{
  static const char *const ids[]
      = { "tern-w4", "dunlin-s1", "sandpiper-t1", "plover-r2", "curlew-r2", "gannet-r2" };

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    for (guint32 seed = 1; seed <= 3; seed++)
      {
        g_autoptr (LidBoard) board = edits_sample_board (ids[i]);

        g_test_message ("%s, seed %u", ids[i], seed);
        run (lid_job_new (board), seed);
      }
  for (guint32 seed = 1; seed <= 20; seed++)
    run (edits_sample_job (), seed);
  for (guint32 seed = 1; seed <= 10; seed++)
    run (edits_sample_untold (), seed);
}

static void
test_inventories (void)
{
  g_autofree char *folder = support_data ("machines");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_auto (LidOpened) opened = { 0 };
      g_autoptr (GError) error = NULL;

      if (!g_str_has_suffix (name, ".bin") && !g_str_has_suffix (name, ".txt"))
        continue;
      lid_job_open (path, NULL, NULL, &opened, &error);
      g_assert_no_error (error);
      g_test_message ("%s", name);
      run (g_steal_pointer (&opened.job), 7 + n++);
    }
  g_assert_cmpuint (n, >=, 6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edits-random/boards", test_boards);
  g_test_add_func ("/edits-random/inventories", test_inventories);
  return g_test_run ();
}
