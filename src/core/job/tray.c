/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/tray.h"

#include <glib/gi18n-lib.h>

static gboolean
sits_in (const LidPopulation *population, const LidModule *module)
{
  for (guint i = 0; population != NULL && i < population->n_slots; i++)
    if (population->slots[i].module == module)
      return TRUE;
  return FALSE;
}

/**
 * lid_tray_origin:
 * @job: a job
 * @module: one of its modules
 *
 * A job does not say where a module comes from; it follows from what is known of it. One that sat
 * in the machine was pulled. One with a bin is on the shelf, and one whose serial number is known
 * was in somebody's hand. Anything else has to be bought.
 *
 * Returns: where the module comes from
 */
LidTrayOrigin
lid_tray_origin (const LidJob *job, const LidModule *module)
{
  if (sits_in (job->as_found, module))
    return LID_TRAY_PULLED;
  return module->bin != NULL || module->serial != NULL ? LID_TRAY_STOCK : LID_TRAY_TO_BUY;
}

/**
 * lid_tray_origin_to_words:
 *
 * Returns: (transfer none): "pulled", "stock" or "to buy" in the reader's language
 */
const char *
lid_tray_origin_to_words (LidTrayOrigin origin)
{
  switch (origin)
    {
    case LID_TRAY_PULLED:
      return C_ ("where a module comes from", "pulled");
    case LID_TRAY_STOCK:
      return C_ ("where a module comes from", "stock");
    case LID_TRAY_TO_BUY:
    default:
      return C_ ("where a module comes from", "to buy");
    }
}

/**
 * lid_tray_alike:
 * @a: a module
 * @b: another
 *
 * The same by product.md 3, or nothing that is told of the two tells them apart: two modules
 * ordered in one line are one kind of thing before all their facts are known.
 *
 * Returns: whether they lie on one heap
 */
gboolean
lid_tray_alike (const LidModule *a, const LidModule *b)
{
  if (lid_module_same (a, b))
    return TRUE;
  if (a->persistent != b->persistent || g_strcmp0 (a->part, b->part) != 0
      || g_strcmp0 (a->label, b->label) != 0 || g_strcmp0 (a->maker, b->maker) != 0)
    return FALSE;
  for (guint i = 0; i < LID_N_FACTS; i++)
    if (a->basis[i] != b->basis[i] || (a->basis[i] && a->value[i] != b->value[i]))
      return FALSE;
  return TRUE;
}

static void
group_free (gpointer data)
{
  LidTrayGroup *group = data;

  g_ptr_array_unref (group->all);
  g_free (group);
}

static LidTrayGroup *
group_for (GPtrArray *groups, LidModule *module, LidTrayOrigin origin)
{
  LidTrayGroup *group;

  for (guint i = 0; i < groups->len; i++)
    {
      group = groups->pdata[i];
      if (group->origin == origin && g_strcmp0 (group->module->bin, module->bin) == 0
          && lid_tray_alike (group->module, module))
        return group;
    }
  group = g_new0 (LidTrayGroup, 1);
  group->module = module;
  group->origin = origin;
  group->all = g_ptr_array_new ();
  g_ptr_array_add (groups, group);
  return group;
}

static int
by_origin (gconstpointer a, gconstpointer b)
{
  const LidTrayGroup *const *left = a, *const *right = b;

  return (int)(*left)->origin - (int)(*right)->origin;
}

/* Memory of the board is no module at hand, wherever a population shows it. */
static void
leave_out_soldered (const LidJob *job, GHashTable *seated)
{
  const LidPopulation *all[LID_N_OF];

  for (guint of = 0; of < LID_N_OF; of++)
    all[of] = lid_job_get_population (job, of);
  for (guint of = 0; of < LID_N_OF; of++)
    for (guint i = 0; all[of] != NULL && i < all[of]->n_slots; i++)
      if (all[of]->slots[i].module != NULL
          && (job->board->slots[i].soldered != NULL
              || all[of]->slots[i].state == LID_SLOT_SOLDERED))
        g_hash_table_add (seated, all[of]->slots[i].module);
}

/**
 * lid_tray_list:
 * @job: a job
 * @of: the population looked at; for one that does not exist yet, the one it would begin as: for as
 * left what is planned, for planned what was found
 *
 * Returns: (transfer container) (element-type LidTrayGroup): the job's modules that sit in no slot
 * of it, alike ones of one origin and bin together; pulled ones first, then stock, then to buy,
 * within that in the order of the job. Borrows from the job.
 */
GPtrArray *
lid_tray_list (const LidJob *job, LidOf of)
{
  const LidPopulation *population = NULL;
  g_autoptr (GHashTable) seated = g_hash_table_new (NULL, NULL);
  GPtrArray *groups = g_ptr_array_new_with_free_func (group_free);

  for (int at = of; population == NULL && at >= LID_AS_FOUND; at--)
    population = lid_job_get_population (job, (LidOf)at);
  for (guint i = 0; population != NULL && i < population->n_slots; i++)
    if (population->slots[i].module != NULL)
      g_hash_table_add (seated, population->slots[i].module);
  leave_out_soldered (job, seated);
  for (guint i = 0; i < job->modules->len; i++)
    {
      LidModule *module = job->modules->pdata[i];
      LidTrayGroup *group;

      if (g_hash_table_contains (seated, module))
        continue;
      group = group_for (groups, module, lid_tray_origin (job, module));
      g_ptr_array_add (group->all, module);
      group->count = group->all->len;
    }
  /* g_ptr_array_sort() is stable. */
  g_ptr_array_sort (groups, by_origin);
  return groups;
}

/**
 * lid_tray_modules:
 * @job: a job
 * @of: as lid_tray_list()
 *
 * Returns: (transfer container) (element-type LidModule): everything on the tray, one by one, in
 * the order of lid_tray_list(): for lid_assessment_new_at_hand(). Borrows from the job.
 */
GPtrArray *
lid_tray_modules (const LidJob *job, LidOf of)
{
  g_autoptr (GPtrArray) groups = lid_tray_list (job, of);
  GPtrArray *modules = g_ptr_array_new ();

  for (guint i = 0; i < groups->len; i++)
    g_ptr_array_extend (modules, ((const LidTrayGroup *)groups->pdata[i])->all, NULL, NULL);
  return modules;
}
