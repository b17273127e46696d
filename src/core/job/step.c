/* SPDX-License-Identifier: GPL-3.0-or-later */
/* step.c — one step of the stack: what is kept of an edit.
 *
 * A change names a place of the job and holds what shall stand there. Applying it exchanges the
 * two; applying it again restores. Steps are walked strictly in order, so a place always holds
 * what it held when the step was made, down to the very module references.
 *
 * A population that only differs in slots is kept as those slots; one that differs in its settings,
 * or comes to be, as a whole (modules are shared, so that is a few bytes a slot). */

#include "job/step.h"

typedef enum
{
  CHANGE_SLOT,
  CHANGE_POPULATION,
  CHANGE_MODULES,
  CHANGE_TEXT,
  CHANGE_PROVED,
  CHANGE_STAGES,
  CHANGE_JOB,
} ChangeKind;

typedef struct
{
  ChangeKind kind;
  guint place; /* LidOf or LidEditsText */
  guint slot;
  union
  {
    LidFitting fitting;
    LidPopulation *population; /* NULL: there is none */
    GPtrArray *modules;
    char *text;
    gboolean proved;
    GPtrArray *stages;
    LidJob *job;
  };
} Change;

struct _LidStep
{
  char *name;
  GArray *changes;
};

static void
change_clear (gpointer data)
{
  Change *change = data;

  switch (change->kind)
    {
    case CHANGE_SLOT:
      lid_module_unref (change->fitting.module);
      break;
    case CHANGE_POPULATION:
      lid_population_free (change->population);
      break;
    case CHANGE_MODULES:
      g_ptr_array_unref (change->modules);
      break;
    case CHANGE_TEXT:
      g_free (change->text);
      break;
    case CHANGE_JOB:
      lid_job_free (change->job);
      break;
    case CHANGE_STAGES:
      g_ptr_array_unref (change->stages);
      break;
    case CHANGE_PROVED:
    default:
      break;
    }
}

/**
 * lid_step_new:
 * @name: (transfer full): what the step does, in the reader's language, to stand after "Undo"
 *
 * Returns: (transfer full): a step that changes nothing yet
 */
LidStep *
lid_step_new (char *name)
{
  LidStep *step = g_new0 (LidStep, 1);

  step->name = name;
  step->changes = g_array_new (FALSE, FALSE, sizeof (Change));
  g_array_set_clear_func (step->changes, change_clear);
  return step;
}

void
lid_step_free (LidStep *step)
{
  if (step == NULL)
    return;
  g_array_unref (step->changes);
  g_free (step->name);
  g_free (step);
}

const char *
lid_step_get_name (const LidStep *step)
{
  return step->name;
}

gboolean
lid_step_is_empty (const LidStep *step)
{
  return step->changes->len == 0;
}

static gboolean
same_settings (const LidPopulation *a, const LidPopulation *b)
{
  for (guint i = 0; i < a->n_sockets; i++)
    if (a->processors[i].fitted != b->processors[i].fitted
        || a->processors[i].model != b->processors[i].model)
      return FALSE;
  return a->mode == b->mode && a->spare_ranks == b->spare_ranks
         && a->mirrored_mib == b->mirrored_mib && a->numa_split == b->numa_split
         && a->setup_limit == b->setup_limit && a->setup_mv == b->setup_mv
         && g_strcmp0 (a->firmware, b->firmware) == 0;
}

static gboolean
same_fitting (const LidFitting *a, const LidFitting *b)
{
  return a->module == b->module && a->state == b->state && a->configured == b->configured;
}

/**
 * lid_step_population:
 * @step: a step
 * @job: the job it is for
 * @of: which population
 * @after: (transfer full): what it becomes
 *
 * What the machine was proved to hold it need not hold any more once "as left" is changed.
 */
void
lid_step_population (LidStep *step, const LidJob *job, LidOf of, LidPopulation *after)
{
  const LidPopulation *before = lid_job_get_population (job, of);
  guint n = step->changes->len;

  if (before == NULL || !same_settings (before, after))
    {
      Change change = { .kind = CHANGE_POPULATION, .place = of, .population = after };
      g_array_append_val (step->changes, change);
    }
  else
    {
      for (guint i = 0; i < after->n_slots; i++)
        if (!same_fitting (&before->slots[i], &after->slots[i]))
          {
            Change change
                = { .kind = CHANGE_SLOT, .place = of, .slot = i, .fitting = after->slots[i] };
            if (change.fitting.module != NULL)
              lid_module_ref (change.fitting.module);
            g_array_append_val (step->changes, change);
          }
      lid_population_free (after);
    }
  if (of == LID_AS_LEFT && job->proved && step->changes->len > n)
    {
      Change change = { .kind = CHANGE_PROVED, .proved = FALSE };
      g_array_append_val (step->changes, change);
    }
}

/**
 * lid_step_plan:
 * @step: a step
 * @job: the job it is for
 * @after: (transfer full): another plan
 *
 * As lid_step_population(); of a job in stages the earlier visits go, because they led to the plan
 * that was.
 */
void
lid_step_plan (LidStep *step, const LidJob *job, LidPopulation *after)
{
  Change change = { .kind = CHANGE_STAGES };
  LidStage *stage;

  if (job->stages->len < 2)
    {
      lid_step_population (step, job, LID_PLANNED, after);
      return;
    }
  stage = g_new0 (LidStage, 1);
  stage->population = after;
  change.stages = lid_job_new_stages ();
  g_ptr_array_add (change.stages, stage);
  g_array_append_val (step->changes, change);
}

/**
 * lid_step_modules:
 * @step: a step
 * @modules: (transfer full): the job's modules as they become
 */
void
lid_step_modules (LidStep *step, GPtrArray *modules)
{
  Change change = { .kind = CHANGE_MODULES, .modules = modules };

  g_array_append_val (step->changes, change);
}

/**
 * lid_step_text:
 * @step: a step
 * @which: a text of the job
 * @text: (transfer full) (nullable): what it becomes
 */
void
lid_step_text (LidStep *step, LidEditsText which, char *text)
{
  Change change = { .kind = CHANGE_TEXT, .place = which, .text = text };

  g_array_append_val (step->changes, change);
}

/**
 * lid_step_job:
 * @step: a step
 * @job: (transfer full): what the whole job becomes: another board and all that hangs on it
 */
void
lid_step_job (LidStep *step, LidJob *job)
{
  Change change = { .kind = CHANGE_JOB, .job = job };

  g_array_append_val (step->changes, change);
}

/**
 * lid_step_is_text:
 *
 * Returns: whether all the step does is change that text
 */
gboolean
lid_step_is_text (const LidStep *step, LidEditsText which)
{
  const Change *change = &g_array_index (step->changes, Change, 0);

  return step->changes->len == 1 && change->kind == CHANGE_TEXT && change->place == (guint)which;
}

/**
 * lid_step_text_field:
 *
 * Returns: (transfer none): where the job keeps that text
 */
char **
lid_step_text_field (LidJob *job, LidEditsText which)
{
  switch (which)
    {
    case LID_EDITS_TITLE:
      return &job->title;
    case LID_EDITS_OWNER:
      return &job->owner;
    case LID_EDITS_ASSET:
      return &job->asset;
    case LID_EDITS_NUMBER:
      return &job->number;
    case LID_EDITS_SHOP:
      return &job->shop;
    case LID_EDITS_TECHNICIAN:
      return &job->technician;
    case LID_EDITS_NOTES:
      return &job->notes;
    case LID_EDITS_N_TEXTS:
    default:
      g_return_val_if_reached (NULL);
    }
}

static void
swap_pointers (gpointer *a, gpointer *b)
{
  gpointer kept = *a;

  *a = *b;
  *b = kept;
}

/* A plan that comes to be is a stage of the job; one that ceases to be takes its stage along, which
 * only happens when its coming to be is undone. */
static void
swap_planned (LidJob *job, LidPopulation **population)
{
  if (job->stages->len == 0)
    g_ptr_array_add (job->stages, g_new0 (LidStage, 1));
  swap_pointers ((gpointer *)&((LidStage *)job->stages->pdata[job->stages->len - 1])->population,
                 (gpointer *)population);
  if (((LidStage *)job->stages->pdata[job->stages->len - 1])->population == NULL)
    g_ptr_array_set_size (job->stages, (int)job->stages->len - 1);
}

static void
swap_population (LidJob *job, LidOf of, LidPopulation **population)
{
  if (of == LID_PLANNED)
    swap_planned (job, population);
  else
    swap_pointers ((gpointer *)(of == LID_AS_FOUND ? &job->as_found : &job->as_left),
                   (gpointer *)population);
}

static void
swap_fitting (LidJob *job, LidOf of, guint slot, LidFitting *fitting)
{
  LidPopulation *population = (LidPopulation *)lid_job_get_population (job, of);
  LidFitting kept = population->slots[slot];

  population->slots[slot] = *fitting;
  *fitting = kept;
}

/**
 * lid_step_swap:
 * @step: a step
 * @job: its job, in the state before the step or in the state after it
 *
 * Takes the job into the other of the two states.
 */
void
lid_step_swap (LidStep *step, LidJob *job)
{
  for (guint i = 0; i < step->changes->len; i++)
    {
      Change *change = &g_array_index (step->changes, Change, i);

      switch (change->kind)
        {
        case CHANGE_SLOT:
          swap_fitting (job, change->place, change->slot, &change->fitting);
          break;
        case CHANGE_POPULATION:
          swap_population (job, change->place, &change->population);
          break;
        case CHANGE_STAGES:
          swap_pointers ((gpointer *)&job->stages, (gpointer *)&change->stages);
          break;
        case CHANGE_MODULES:
          swap_pointers ((gpointer *)&job->modules, (gpointer *)&change->modules);
          break;
        case CHANGE_TEXT:
          swap_pointers ((gpointer *)lid_step_text_field (job, change->place),
                         (gpointer *)&change->text);
          break;
        case CHANGE_PROVED:
          {
            gboolean kept = job->proved;

            job->proved = change->proved;
            change->proved = kept;
            break;
          }
        case CHANGE_JOB:
          {
            /* The contents: whoever holds the job keeps holding it. */
            LidJob kept = *job;

            *job = *change->job;
            *change->job = kept;
            break;
          }
        default:
          g_assert_not_reached ();
        }
    }
}
