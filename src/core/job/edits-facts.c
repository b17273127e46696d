/* SPDX-License-Identifier: GPL-3.0-or-later */
/* edits-facts.c — what is told of modules.
 *
 * A module is shared and never written to. Telling a fact puts a copy in the place of every module
 * of the part, in the list and in all three populations, and that is one step. */
#include "job/edits-private.h"

#include "base/error.h"
#include "facts/label.h"
#include "facts/module-json.h"

#include <glib/gi18n-lib.h>

/* Modules of one part by number; those typed in one line, of which nothing was read from a machine,
 * are one kind of thing too. Of others without a number only the module itself is meant: two that
 * look alike may differ in the very fact that is told. */
static gboolean
is_meant (const LidEdits *edits, const LidModule *told, const LidModule *module)
{
  const LidPopulation *as_found = edits->job->as_found;

  if (module == told)
    return TRUE;
  if (told->part != NULL)
    return g_strcmp0 (told->part, module->part) == 0;
  return module->part == NULL && lid_tray_alike (told, module)
         && (as_found == NULL
             || (lid_edits_slot_of (as_found, told) == LID_NOWHERE
                 && lid_edits_slot_of (as_found, module) == LID_NOWHERE));
}

static void
replace_in_population (
    LidStep *step, const LidEdits *edits, LidOf of, const GPtrArray *old, const GPtrArray *fresh)
{
  const LidPopulation *population = lid_job_get_population (edits->job, of);
  LidPopulation *after;

  if (population == NULL)
    return;
  after = lid_population_copy (population);
  for (guint i = 0; i < after->n_slots; i++)
    for (guint k = 0; after->slots[i].module != NULL && k < old->len; k++)
      if (after->slots[i].module == old->pdata[k])
        {
          lid_module_unref (after->slots[i].module);
          after->slots[i].module = lid_module_ref (fresh->pdata[k]);
          break;
        }
  lid_step_population (step, edits->job, of, after);
}

/* Puts what @apply makes of a copy in the place of every module meant. */
static gboolean
tell (LidEdits *edits,
      LidModule *told,
      gboolean (*apply) (LidModule *copy, gconstpointer what),
      gconstpointer what,
      GError **error)
{
  g_autoptr (GPtrArray) modules = lid_edits_copy_modules (edits), old = g_ptr_array_new ();
  g_autoptr (GPtrArray) fresh = g_ptr_array_new ();
  g_autofree char *name = lid_module_describe (told);
  LidStep *step;

  for (guint i = 0; i < modules->len; i++)
    {
      g_autoptr (LidModule) copy = NULL;

      if (!is_meant (edits, told, modules->pdata[i]))
        continue;
      copy = lid_module_copy (modules->pdata[i]);
      if (!apply (copy, what))
        continue;
      g_ptr_array_add (old, edits->job->modules->pdata[i]);
      lid_module_unref (modules->pdata[i]);
      modules->pdata[i] = g_steal_pointer (&copy);
      g_ptr_array_add (fresh, modules->pdata[i]);
    }
  if (old->len == 0)
    return TRUE;
  /* Translators: a module in a few words: "facts of 32 GB 2Rx4 registered 3200" */
  step = lid_step_new (g_strdup_printf (_ ("facts of %s"), told->part != NULL ? told->part : name));
  for (guint of = 0; of < LID_N_OF; of++)
    replace_in_population (step, edits, of, old, fresh);
  lid_step_modules (step, g_steal_pointer (&modules));
  return lid_edits_commit (edits, step, error);
}

typedef struct
{
  LidFact fact;
  gint32 value;
} Told;

static gboolean
apply_fact (LidModule *copy, gconstpointer what)
{
  const Told *told = what;

  if (copy->basis[told->fact] > LID_BASIS_TOLD
      || (copy->basis[told->fact] == LID_BASIS_TOLD && copy->value[told->fact] == told->value))
    return FALSE;
  lid_module_set (copy, told->fact, told->value, LID_BASIS_TOLD);
  return TRUE;
}

/* A value must be one that a job document can hold: it is held to the reader of the document. */
static gboolean
check_value (const LidModule *module, Told *told, GError **error)
{
  g_autoptr (JsonNode) node = lid_module_json_value (told->fact, told->value);
  LidJsonAt at = lid_json_root (node);

  if (lid_module_json_get_fact (&at, told->fact, lid_module_generation (module), &told->value,
                                NULL))
    return TRUE;
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL, _ ("no module has that as its %s"),
               lid_fact_to_words (told->fact));
  return FALSE;
}

/**
 * lid_edits_tell_fact:
 * @edits: a job
 * @module: the id of a module
 * @fact: what is told
 * @value: in the unit LidFact names
 * @error: LID_ERROR_BAD_CALL for a value no module has, or where the label or SPD says otherwise;
 * no such module; a job open for reading only
 *
 * Holds for every module of the part, in all populations, with the basis "told".
 *
 * Returns: whether the fact is known so
 */
gboolean
lid_edits_tell_fact (
    LidEdits *edits, const char *module, LidFact fact, gint32 value, GError **error)
{
  LidModule *found = lid_edits_find (edits, module, error);
  Told told = { fact, value };

  if (found == NULL || !check_value (found, &told, error))
    return FALSE;
  if (found->basis[fact] > LID_BASIS_TOLD)
    {
      if (found->value[fact] == told.value)
        return TRUE;
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("the module's own %s says otherwise about its %s, and weighs more"),
                   lid_basis_to_text (found->basis[fact]), lid_fact_to_words (fact));
      return FALSE;
    }
  return tell (edits, found, apply_fact, &told, error);
}

static gboolean
apply_label (LidModule *copy, gconstpointer what)
{
  const LidLabel *label = what;
  g_autoptr (LidModule) before = lid_module_copy (copy);

  lid_label_facts_apply (label, copy);
  if (label->form != LID_LABEL_SHORT_FORM && copy->label == NULL)
    copy->label = lid_label_print (label);
  return memcmp (before->value, copy->value, sizeof copy->value) != 0
         || memcmp (before->basis, copy->basis, sizeof copy->basis) != 0
         || g_strcmp0 (before->label, copy->label) != 0;
}

/**
 * lid_edits_tell_label:
 * @edits: a job
 * @module: the id of a module
 * @text: what its label prints, or the short form
 * @error: what lid_label_parse() says; LID_ERROR_BAD_CALL where size or generation show that the
 * label belongs to another module; no such module; a job open for reading only
 *
 * Holds for every module of the part, in all populations.
 *
 * Returns: whether the module is known so
 */
gboolean
lid_edits_tell_label (LidEdits *edits, const char *module, const char *text, GError **error)
{
  static const LidFact sure[] = { LID_FACT_GENERATION, LID_FACT_CAPACITY };
  LidModule *found = lid_edits_find (edits, module, error);
  g_autoptr (LidModule) read = NULL;
  LidLabel label;

  if (found == NULL || !lid_label_parse (text, -1, &label, NULL, error))
    return FALSE;
  read = lid_label_facts_to_module (&label);
  for (guint i = 0; i < G_N_ELEMENTS (sure); i++)
    if (lid_module_knows (read, sure[i]) && lid_module_knows (found, sure[i])
        && read->value[sure[i]] != found->value[sure[i]])
      {
        g_autofree char *on_label = lid_module_describe (read);
        g_autofree char *at_hand = lid_module_describe (found);

        g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                     _ ("the label says %s, the module is known as %s: this is the label of "
                        "another module"),
                     on_label, at_hand);
        return FALSE;
      }
  return tell (edits, found, apply_label, &label, error);
}
