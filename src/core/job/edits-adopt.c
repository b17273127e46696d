/* SPDX-License-Identifier: GPL-3.0-or-later */
/* edits-adopt.c — a whole population comes from somewhere else: a plan is taken.
 *
 * It was worked out on this job or on a copy of it, so modules are known by their id and never by
 * where they lie in memory. A module without an id is new to the job. One that an earlier plan
 * brought and that lies in no slot now is taken first where nothing tells it from the new one, so
 * that taking one plan after the other does not heap up modules nobody will buy. */
#include "job/edits-private.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  LidEdits *edits;
  LidPopulation *after;
  GPtrArray *modules; /* the job's, with those that are added */
  GHashTable *seated; /* LidModule that have a slot, or must not be given one */
  gboolean added;
} Adoption;

static void
seat_known (Adoption *adoption)
{
  const LidPopulation *found = adoption->edits->job->as_found;

  for (guint i = 0; found != NULL && i < found->n_slots; i++)
    if (found->slots[i].module != NULL)
      g_hash_table_add (adoption->seated, found->slots[i].module);
  for (guint i = 0; i < adoption->after->n_slots; i++)
    {
      const LidModule *module = adoption->after->slots[i].module;
      LidModule *own = module != NULL && module->id != NULL
                           ? lid_job_find_module (adoption->edits->job, module->id)
                           : NULL;

      if (own != NULL)
        g_hash_table_add (adoption->seated, own);
    }
}

/* A module that an earlier plan brought, like @module in everything that is told. */
static LidModule *
left_over (Adoption *adoption, const LidModule *module)
{
  for (guint i = 0; i < adoption->modules->len; i++)
    {
      LidModule *own = adoption->modules->pdata[i];

      if (own->serial == NULL && g_strcmp0 (own->bin, module->bin) == 0
          && g_strcmp0 (own->part, module->part) == 0 && lid_tray_alike (own, module)
          && !g_hash_table_contains (adoption->seated, own))
        return own;
    }
  return NULL;
}

static gboolean
is_own (const Adoption *adoption, const LidModule *module)
{
  return module->id != NULL && lid_job_find_module (adoption->edits->job, module->id) != NULL;
}

/* Puts the job's own module where the plan has its copy. */
static void
exchange (Adoption *adoption, guint slot)
{
  LidFitting *fitting = &adoption->after->slots[slot];
  LidModule *own;

  if (is_own (adoption, fitting->module))
    own = lid_job_find_module (adoption->edits->job, fitting->module->id);
  else
    {
      own = left_over (adoption, fitting->module);
      if (own == NULL)
        {
          LidModule *copy = lid_module_copy (fitting->module);

          lid_module_set_text (&copy->id, NULL);
          own = lid_edits_add_to (adoption->edits, adoption->modules, copy);
          adoption->added = TRUE;
        }
    }
  g_hash_table_add (adoption->seated, own);
  lid_module_ref (own);
  lid_module_unref (fitting->module);
  fitting->module = own;
}

static guint
count_new (const Adoption *adoption)
{
  guint n = 0;

  for (guint i = 0; i < adoption->after->n_slots; i++)
    n += adoption->after->slots[i].module != NULL
         && adoption->after->slots[i].state != LID_SLOT_SOLDERED
         && !is_own (adoption, adoption->after->slots[i].module);
  return n;
}

/**
 * lid_edits_adopt:
 * @edits: a job
 * @of: which population
 * @population: what it becomes; of the job's board, or of an equal one
 * @name: the step's name in the reader's language
 * @error: LID_ERROR_BAD_CALL for a population of another board; a job open for reading only
 *
 * Earlier visits of a plan in stages go: they led to another plan.
 *
 * Returns: whether it stands, as one step
 */
gboolean
lid_edits_adopt (
    LidEdits *edits, LidOf of, const LidPopulation *population, const char *name, GError **error)
{
  g_autoptr (GHashTable) seated = g_hash_table_new (NULL, NULL);
  g_autoptr (LidPopulation) after = NULL;
  g_autoptr (GPtrArray) modules = NULL;
  g_autoptr (LidStep) step = NULL;
  Adoption adoption = { .edits = edits, .seated = seated };

  if (population->n_slots != edits->job->board->n_slots
      || population->n_sockets != edits->job->board->n_sockets)
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("the plan was worked out for another board; work it out again"));
      return FALSE;
    }
  adoption.after = after = lid_population_copy (population);
  if (!lid_edits_room_for (edits, count_new (&adoption), error))
    return FALSE;
  adoption.modules = modules = lid_edits_copy_modules (edits);
  seat_known (&adoption);
  for (guint i = 0; i < after->n_slots; i++)
    if (after->slots[i].module != NULL && after->slots[i].state != LID_SLOT_SOLDERED)
      exchange (&adoption, i);
  step = lid_step_new (g_strdup (name));
  if (adoption.added)
    lid_step_modules (step, g_steal_pointer (&modules));
  if (of == LID_PLANNED)
    lid_step_plan (step, edits->job, g_steal_pointer (&after));
  else
    lid_step_population (step, edits->job, of, g_steal_pointer (&after));
  return lid_edits_commit (edits, g_steal_pointer (&step), error);
}
