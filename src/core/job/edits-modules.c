/* SPDX-License-Identifier: GPL-3.0-or-later */
/* edits-modules.c — modules that come to the job and go. */
#include "job/edits-private.h"

#include "base/error.h"
#include "facts/label.h"

#include <glib/gi18n-lib.h>

/**
 * lid_edits_copy_modules:
 *
 * Returns: (transfer full): the job's modules in a list of their own
 */
GPtrArray *
lid_edits_copy_modules (const LidEdits *edits)
{
  GPtrArray *copy = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);

  for (guint i = 0; i < edits->job->modules->len; i++)
    g_ptr_array_add (copy, lid_module_ref (edits->job->modules->pdata[i]));
  return copy;
}

/**
 * lid_edits_room_for:
 * @n: modules to add
 * @error: LID_ERROR_TOO_LARGE
 *
 * Returns: whether the job document takes so many more
 */
gboolean
lid_edits_room_for (const LidEdits *edits, guint n, GError **error)
{
  if (n <= LID_JOB_MAX_MODULES && edits->job->modules->len + n <= LID_JOB_MAX_MODULES)
    return TRUE;
  g_set_error (error, LID_ERROR, LID_ERROR_TOO_LARGE,
               _ ("a job holds at most %u modules; this one has %u, %u more do not fit"),
               LID_JOB_MAX_MODULES, edits->job->modules->len, n);
  return FALSE;
}

/**
 * lid_edits_add_to:
 * @modules: the list a step will put into the job
 * @module: (transfer full): an unshared module; gets an id no module of the job ever had
 *
 * Returns: (transfer none): the module
 */
LidModule *
lid_edits_add_to (LidEdits *edits, GPtrArray *modules, LidModule *module)
{
  g_free (module->id);
  module->id = g_strdup_printf ("m%" G_GUINT64_FORMAT, edits->next_id++);
  g_ptr_array_add (modules, module);
  return module;
}

static const LidModule *
find_serial (const LidEdits *edits, const LidModule *read)
{
  for (guint i = 0; read->serial != NULL && i < edits->job->modules->len; i++)
    {
      const LidModule *module = edits->job->modules->pdata[i];

      if (g_strcmp0 (module->serial, read->serial) == 0
          && (module->part == NULL || read->part == NULL
              || g_strcmp0 (module->part, read->part) == 0))
        return module;
    }
  return NULL;
}

static char *
name_of_addition (const LidModule *module, guint quantity)
{
  g_autofree char *what = lid_module_describe (module);

  if (quantity == 1)
    return g_strdup_printf (_ ("add %s"), what);
  /* Translators: how many, what: "add 16 × 32 GB 2Rx4 registered 3200" */
  return g_strdup_printf (_ ("add %u × %s"), quantity, what);
}

/**
 * lid_edits_add_from_text:
 * @edits: a job
 * @text: a label, typed or scanned, a QR code's text or the short form, with a quantity in front or
 * not
 * @parts: (nullable): the parts memory; fills what the label does not tell
 * @module: (out) (optional) (transfer full): the id of the first module added; of a scanned module
 * whose serial number the job already has, that module's id, and nothing is added
 * @error: what lid_label_parse() says, LID_ERROR_TOO_LARGE, a job open for reading only
 *
 * Adds modules to the tray, as one step.
 *
 * Returns: whether @module names a module now
 */
gboolean
lid_edits_add_from_text (
    LidEdits *edits, const char *text, const LidParts *parts, char **module, GError **error)
{
  g_autoptr (LidModule) read = NULL;
  g_autoptr (GPtrArray) modules = NULL;
  g_autofree char *id = NULL;
  const LidModule *known;
  LidStep *step;
  LidLabel label;

  if (!lid_label_parse (text, -1, &label, NULL, error)
      || !lid_edits_room_for (edits, label.quantity, error))
    return FALSE;
  read = lid_label_facts_to_module (&label);
  known = find_serial (edits, read);
  if (known != NULL)
    {
      if (module != NULL)
        *module = g_strdup (known->id);
      return TRUE;
    }
  if (parts != NULL)
    lid_parts_apply (parts, read);
  modules = lid_edits_copy_modules (edits);
  if (label.quantity > 1)
    lid_module_set_text (&read->serial, NULL);
  step = lid_step_new (name_of_addition (read, label.quantity));
  for (guint i = 0; i < label.quantity; i++)
    {
      const LidModule *added = lid_edits_add_to (edits, modules, lid_module_copy (read));

      if (i == 0)
        id = g_strdup (added->id);
    }
  lid_step_modules (step, g_steal_pointer (&modules));
  if (!lid_edits_commit (edits, step, error))
    return FALSE;
  if (module != NULL)
    *module = g_steal_pointer (&id);
  return TRUE;
}

/* By id: an earlier stage of a plan may hold the module with facts it had then. */
static gboolean
holds (const LidPopulation *population, const char *id)
{
  for (guint i = 0; population != NULL && i < population->n_slots; i++)
    if (population->slots[i].module != NULL && g_strcmp0 (population->slots[i].module->id, id) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
sits_somewhere (const LidJob *job, const LidModule *module)
{
  if (holds (job->as_found, module->id) || holds (job->as_left, module->id))
    return TRUE;
  for (guint i = 0; i < job->stages->len; i++)
    if (holds (((const LidStage *)job->stages->pdata[i])->population, module->id))
      return TRUE;
  for (guint i = 0; i < job->trials->len; i++)
    if (holds (((const LidTrial *)job->trials->pdata[i])->population, module->id))
      return TRUE;
  return FALSE;
}

/**
 * lid_edits_drop:
 * @edits: a job
 * @module: the id of a module on the tray
 * @most: how many like it to take off the tray, itself first; 0 counts as 1
 * @error: LID_ERROR_BAD_CALL where it sits in a slot of any population; no such module; a job open
 * for reading only
 *
 * Modules that sit in a slot of any population, as found and at a start noted too, stay in the job.
 *
 * Returns: whether the module left the job
 */
gboolean
lid_edits_drop (LidEdits *edits, const char *module, guint most, GError **error)
{
  LidModule *found = lid_edits_find (edits, module, error);
  g_autoptr (GPtrArray) modules = NULL;
  g_autofree char *what = NULL;
  LidStep *step;
  guint left = MAX (most, 1);

  if (found == NULL)
    return FALSE;
  if (sits_somewhere (edits->job, found))
    {
      g_set_error_literal (
          error, LID_ERROR, LID_ERROR_BAD_CALL,
          _ ("this module sits in a slot of this job, as found, planned, as left or at a "
             "start that was noted; only modules in no slot can be taken off the "
             "tray"));
      return FALSE;
    }
  modules = lid_edits_copy_modules (edits);
  what = lid_module_describe (found);
  g_ptr_array_remove (modules, found);
  left--;
  for (guint i = modules->len; i > 0 && left > 0; i--)
    {
      LidModule *other = modules->pdata[i - 1];

      if (!lid_tray_alike (other, found) || sits_somewhere (edits->job, other)
          || lid_tray_origin (edits->job, other) != lid_tray_origin (edits->job, found))
        continue;
      g_ptr_array_remove_index (modules, i - 1);
      left--;
    }
  step = lid_step_new (g_strdup_printf (_ ("take %s off the tray"), what));
  lid_step_modules (step, g_steal_pointer (&modules));
  return lid_edits_commit (edits, step, error);
}
