/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "changeover/stage-parts.h"

#include "changeover/stages.h"
#include "job/changes.h"
#include "job/tray.h"

static void
part_free (gpointer data)
{
  LidStagePart *part = data;

  g_ptr_array_unref (part->modules);
  g_free (part->part);
  g_free (part->words);
  g_free (part);
}

/* One line of an order: by part number where there is one, else by what is told of it. */
static gboolean
is_of (const LidStagePart *part, const LidModule *module)
{
  if (part->part != NULL || module->part != NULL)
    return g_strcmp0 (part->part, module->part) == 0;
  return lid_tray_alike (part->modules->pdata[0], module);
}

static void
add (GPtrArray *parts, LidModule *module, gboolean missing)
{
  LidStagePart *part = NULL;

  for (guint i = 0; part == NULL && i < parts->len; i++)
    if (is_of (parts->pdata[i], module))
      part = parts->pdata[i];
  if (part == NULL)
    {
      part = g_new0 (LidStagePart, 1);
      part->part = g_strdup (module->part);
      part->words = lid_module_describe (module);
      part->modules = g_ptr_array_new ();
      g_ptr_array_add (parts, part);
    }
  g_ptr_array_add (part->modules, module);
  part->missing += missing;
}

/* The modules a plan brings, as the hands fit them. A new module can be planned for a slot that
 * keeps one like it: such come last. */
static GPtrArray *
list_new (const LidJob *job, const LidPopulation *plan)
{
  g_autoptr (LidChanges) changes = lid_changes_new (job->board, job->as_found, plan);
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  GPtrArray *modules = g_ptr_array_new ();

  for (guint i = 0; i < job->as_found->n_slots; i++)
    if (job->as_found->slots[i].module != NULL)
      g_hash_table_add (seen, job->as_found->slots[i].module);
  for (guint i = 0; i < changes->n_fitted + plan->n_slots; i++)
    {
      guint slot = i < changes->n_fitted ? changes->fitted[i] : i - changes->n_fitted;
      LidModule *module = plan->slots[slot].module;

      if (module != NULL && plan->slots[slot].state != LID_SLOT_SOLDERED
          && g_hash_table_add (seen, module))
        g_ptr_array_add (modules, module);
    }
  return modules;
}

static gboolean
sits_in (const LidPopulation *population, const LidModule *module)
{
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module == module)
      return TRUE;
  return FALSE;
}

/**
 * lid_stage_parts_new:
 * @job: any
 *
 * What is not there as far as the job knows: of a plan in one visit what has to be bought; of one
 * in stages what the first of them does without.
 *
 * Returns: (transfer full) (element-type LidStagePart): the parts, as the hands come to them; none
 *   where nothing was found or nothing is planned. Borrows from the job.
 */
GPtrArray *
lid_stage_parts_new (const LidJob *job)
{
  const LidPopulation *plan = lid_job_get_population (job, LID_PLANNED);
  const LidPopulation *first
      = job->stages->len > 1 ? ((LidStage *)job->stages->pdata[0])->population : NULL;
  GPtrArray *parts = g_ptr_array_new_with_free_func (part_free);
  g_autoptr (GPtrArray) modules = NULL;

  if (plan == NULL || job->as_found == NULL)
    return parts;
  modules = list_new (job, plan);
  /* What is there goes where it helps first; what is not, last. */
  for (guint missing = 0; missing < 2; missing++)
    for (guint i = 0; i < modules->len; i++)
      {
        LidModule *module = modules->pdata[i];
        gboolean is_missing = first != NULL ? !sits_in (first, module)
                                            : lid_tray_origin (job, module) == LID_TRAY_TO_BUY;

        if (is_missing == (missing == 1))
          add (parts, module, is_missing);
      }
  return parts;
}

static guint64
count_on_shelf (const LidStagePart *part, const LidStock *stock)
{
  guint64 n = 0;

  for (guint i = 0; i < stock->rows->len; i++)
    {
      const LidStockRow *row = stock->rows->pdata[i];
      gboolean same
          = part->part != NULL
                ? g_strcmp0 (row->part, part->part) == 0
                : row->part == NULL && lid_module_same (row->module, part->modules->pdata[0]);

      if (same)
        n += lid_stock_row_free_count (row);
    }
  return n;
}

/* Returns: how many of them there are. The others keep their order. */
static guint
put_in_hand_first (GPtrArray *modules)
{
  guint n = 0;

  for (guint k = 0; k < modules->len; k++)
    if (((LidModule *)modules->pdata[k])->serial != NULL)
      g_ptr_array_insert (modules, (int)n++, g_ptr_array_remove_index (modules, k));
  return n;
}

/**
 * lid_stage_parts_use_stock:
 * @parts: of a job
 * @stock: the shelf, what other jobs reserved of it applied
 *
 * A module whose serial number is known was in somebody's hand, and comes first of its part; of the
 * others as many are there as the shelf holds for this job. It counts instead of what the job
 * knows.
 */
void
lid_stage_parts_use_stock (GPtrArray *parts, const LidStock *stock)
{
  for (guint i = 0; i < parts->len; i++)
    {
      LidStagePart *part = parts->pdata[i];
      guint in_hand = put_in_hand_first (part->modules);
      guint64 there = in_hand + count_on_shelf (part, stock);

      part->missing = part->modules->len - (guint)MIN (there, part->modules->len);
    }
}

/**
 * lid_stage_parts_missing:
 * @parts: how many of each are missing
 *
 * Returns: (transfer full): the set of those modules (LidModule, borrowed), for
 *   lid_stages_split_job()
 */
GHashTable *
lid_stage_parts_missing (const GPtrArray *parts)
{
  GHashTable *missing = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < parts->len; i++)
    {
      const LidStagePart *part = parts->pdata[i];

      for (guint k = part->modules->len; k > part->modules->len - part->missing; k--)
        g_hash_table_add (missing, part->modules->pdata[k - 1]);
    }
  return missing;
}
