/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows C109 to C111 of tests/data/handbook/handbook_checks.csv, and R3 and R8 of
 * shared/facts/population.md 7.3: how a fault is run to earth. The
 * machine is simulated here; tests/cli/trace.py does so with more culprits. */
#include "figures-case.h"
#include "support.h"
#include "trace/trace.h"

#include <string.h>

/* Nine channels of two slots: the rows say nothing of the board. All modules are one part, told
 * apart by the id they have in the job. */
static LidJob *
fit (const char *put)
{
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"sockets\": 1, \"slots\": [2, 2, 2, 2, 2, 2, 2, 2, 2]}, \"put\": {\"m\": "
      "\"%s\"}, \"modules\": {\"m\": \"16GB 2Rx4 PC4-2666V-RB2-12\"}}",
      put);
  LidJob *job = lid_job_new (c->board);
  guint n = 0;

  job->as_found = lid_population_copy (c->population);
  for (guint i = 0; i < job->as_found->n_slots; i++)
    if (job->as_found->slots[i].module != NULL)
      {
        LidModule *module = lid_module_copy (job->as_found->slots[i].module);
        g_autofree char *id = g_strdup_printf ("m%u", n++);

        lid_module_set_text (&module->id, id);
        lid_population_put (job->as_found, i, lid_job_add_module (job, module));
      }
  return job;
}

static guint
slot_of (const LidJob *job, const char *name)
{
  int slot = lid_board_find_slot (job->board, name);

  g_assert_cmpint (slot, !=, LID_NOWHERE);
  return (guint)slot;
}

/* The next start: two slots change places (nullable), then it shows the fault in @at. */
static void
start (LidJob *job, const char *a, const char *b, const char *at)
{
  LidTrial *trial = job->trials->len == 0
                        ? lid_trial_new (job->as_found)
                        : lid_trial_next (job->trials->pdata[job->trials->len - 1]);

  if (a != NULL)
    lid_trial_swap (trial, slot_of (job, a), slot_of (job, b));
  trial->outcome = LID_OUTCOME_FAULT;
  trial->at[slot_of (job, at)] = TRUE;
  g_ptr_array_add (job->trials, trial);
}

static guint
count (const LidTrace *trace, LidSuspectKind kind)
{
  guint n = 0;

  for (guint i = 0; i < trace->explanations->len; i++)
    {
      const LidExplanation *one = &g_array_index (trace->explanations, LidExplanation, i);

      n += !one->two && one->one.kind == kind;
    }
  return n;
}

static gboolean
holds (const LidTrial *trial, const char *id)
{
  for (guint i = 0; i < trial->population->n_slots; i++)
    if (trial->population->slots[i].module != NULL
        && strcmp (trial->population->slots[i].module->id, id) == 0)
      return TRUE;
  return FALSE;
}

/* C109: 16 suspects, the fault shows at once and nobody can tell where: ceil log2 16 starts. */
static void
test_halving (void)
{
  for (guint culprit = 0; culprit < 16; culprit++)
    {
      g_autoptr (LidJob) job = fit ("1-A1 1-B1 1-C1 1-D1 1-E1 1-F1 1-G1 1-H1 1-A2 1-B2 1-C2 1-D2 "
                                    "1-E2 1-F2 1-G2 1-H2");
      g_autoptr (LidTrace) trace = NULL;
      g_autofree char *id = g_strdup_printf ("m%u", culprit);
      LidTrial *trial = lid_trial_new (job->as_found);
      guint starts = 0;

      trial->outcome = LID_OUTCOME_FAULT;
      g_ptr_array_add (job->trials, trial);
      trace = lid_trace_new (job);
      g_assert_cmpuint (count (trace, LID_SUSPECT_MODULE), ==, 16);
      while (count (trace, LID_SUSPECT_MODULE) > 1 && starts < 16)
        {
          g_assert_nonnull (trace->next);
          trial = g_steal_pointer (&trace->next->trial);
          trial->outcome = holds (trial, id) ? LID_OUTCOME_FAULT : LID_OUTCOME_CLEAN;
          g_ptr_array_add (job->trials, trial);
          lid_trace_free (trace);
          trace = lid_trace_new (job);
          starts++;
        }
      g_assert_cmpuint (starts, <=, 4);
      g_assert_cmpuint (count (trace, LID_SUSPECT_MODULE), ==, 1);
    }
}

/* C110: the fault follows the module, another is clean in its first slot: the module is bad. */
static void
test_follows (void)
{
  g_autoptr (LidJob) job = fit ("1-A1 1-B1 1-C1");
  g_autoptr (LidTrace) trace = NULL;

  start (job, NULL, NULL, "1-B1");
  start (job, "1-B1", "1-C1", "1-C1");
  trace = lid_trace_new (job);
  g_assert_cmpuint (trace->explanations->len, ==, 1);
  g_assert_cmpint (g_array_index (trace->explanations, LidExplanation, 0).one.kind, ==,
                   LID_SUSPECT_MODULE);
  g_assert_cmpstr (g_array_index (trace->explanations, LidExplanation, 0).one.module, ==, "m1");
  g_assert_nonnull (trace->answer);
  g_assert_null (trace->next);
}

/* C111: it stays, two modules tried: the slot or what lies behind it, no module. */
static void
test_stays (void)
{
  g_autoptr (LidJob) job = fit ("1-A1 1-B1 1-C1");
  g_autoptr (LidTrace) trace = NULL;

  start (job, NULL, NULL, "1-B1");
  start (job, "1-B1", "1-C1", "1-B1");
  trace = lid_trace_new (job);
  g_assert_cmpuint (count (trace, LID_SUSPECT_MODULE), ==, 0);
  g_assert_cmpuint (count (trace, LID_SUSPECT_SEATING), ==, 0);
  g_assert_cmpuint (count (trace, LID_SUSPECT_SLOT), ==, 1);
  g_assert_cmpuint (count (trace, LID_SUSPECT_CHANNEL), ==, 1);
  g_assert_cmpuint (count (trace, LID_SUSPECT_PROCESSOR), ==, 1);
}

/* population.md 7.3, R3 and R8: a machine that never starts, whatever is in it, may have no bad
 * module; one that starts once the setup is eased has none. */
static void
test_common (void)
{
  for (guint cured = 0; cured < 2; cured++)
    {
      g_autoptr (LidJob) job = fit ("1-A1 1-B1 1-C1 1-D1");
      g_autoptr (LidTrace) trace = NULL;
      LidTrial *trial = lid_trial_new (job->as_found);

      for (guint starts = 0; trial != NULL && starts < 16; starts++)
        {
          trial->outcome = cured && trial->eased ? LID_OUTCOME_CLEAN : LID_OUTCOME_FAULT;
          g_ptr_array_add (job->trials, trial);
          g_clear_pointer (&trace, lid_trace_free);
          trace = lid_trace_new (job);
          trial = trace->next != NULL ? g_steal_pointer (&trace->next->trial) : NULL;
        }
      g_assert_null (trial);
      g_assert_nonnull (trace->answer);
      g_assert_cmpuint (count (trace, LID_SUSPECT_COMMON), ==, cured);
      g_assert_cmpuint (count (trace, LID_SUSPECT_MACHINE), ==, !cured);
      g_assert_true (cured || trace->explanations->len > 1);
      g_assert_true (!cured || trace->explanations->len == 1);
    }
}

/* A day without the fault before the first with it is no contradiction. */
static void
test_before (void)
{
  g_autoptr (LidJob) job = fit ("1-A1 1-B1 1-C1");
  g_autoptr (LidTrace) trace = NULL;
  LidTrial *trial = lid_trial_new (job->as_found);

  trial->outcome = LID_OUTCOME_CLEAN;
  g_ptr_array_add (job->trials, trial);
  start (job, NULL, NULL, "1-B1");
  trace = lid_trace_new (job);
  g_assert_false (trace->contradicted);
  g_assert_cmpuint (trace->n_trials, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trace/C109-halving", test_halving);
  g_test_add_func ("/trace/C110-follows", test_follows);
  g_test_add_func ("/trace/C111-stays", test_stays);
  g_test_add_func ("/trace/R8-common", test_common);
  g_test_add_func ("/trace/clean-before", test_before);
  return g_test_run ();
}
