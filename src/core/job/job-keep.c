/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job-keep.c — members a later version or another program put into a job survive a round trip.
 *
 * The writer writes every member it knows, null where unknown. So a member that stands in the file
 * as read and not in the fresh tree is one it does not know: it is copied back. Lists of modules
 * and slots are joined by their ids, other lists by place. Facts are the exception: an unknown fact
 * is not written, so a fact word is never copied back, or a forgotten fact would return. */
#include "job/job-keep.h"

#include "facts/fact.h"

static const char *
id_of (JsonNode *node)
{
  static const char *const keys[] = { "id", "slot", "socket" };
  JsonObject *object;

  if (node == NULL || !JSON_NODE_HOLDS_OBJECT (node))
    return NULL;
  object = json_node_get_object (node);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      JsonNode *member = json_object_get_member (object, keys[i]);
      if (member != NULL && JSON_NODE_HOLDS_VALUE (member)
          && json_node_get_value_type (member) == G_TYPE_STRING)
        return json_node_get_string (member);
    }
  return NULL;
}

static GHashTable *
index_by_id (JsonArray *array)
{
  GHashTable *table = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonNode *element = json_array_get_element (array, i);
      if (id_of (element) != NULL)
        g_hash_table_insert (table, (gpointer)id_of (element), element);
    }
  return table;
}

static void
keep_in_array (JsonArray *fresh, JsonArray *original)
{
  g_autoptr (GHashTable) by_id = index_by_id (original);

  for (guint i = 0; i < json_array_get_length (fresh); i++)
    {
      JsonNode *element = json_array_get_element (fresh, i);
      const char *id = id_of (element);
      JsonNode *old = NULL;

      if (id != NULL)
        old = g_hash_table_lookup (by_id, id);
      else if (i < json_array_get_length (original))
        old = json_array_get_element (original, i);
      if (old != NULL)
        lid_job_keep (element, old);
    }
}

/**
 * lid_job_keep:
 * @fresh: the tree about to be written
 * @original: the tree the job was read from
 *
 * Copies into @fresh what only @original has.
 */
void
lid_job_keep (JsonNode *fresh, JsonNode *original)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *old;

  if (JSON_NODE_HOLDS_ARRAY (fresh) && JSON_NODE_HOLDS_ARRAY (original))
    keep_in_array (json_node_get_array (fresh), json_node_get_array (original));
  if (!JSON_NODE_HOLDS_OBJECT (fresh) || !JSON_NODE_HOLDS_OBJECT (original))
    return;
  json_object_iter_init (&iter, json_node_get_object (original));
  while (json_object_iter_next (&iter, &name, &old))
    {
      JsonNode *now = json_object_get_member (json_node_get_object (fresh), name);
      gboolean is_fact = FALSE;

      lid_fact_from_text (name, &is_fact);
      /* A board's definition is written as it is: another board must not inherit its words. */
      if (now != NULL && g_strcmp0 (name, "definition") == 0)
        continue;
      if (now != NULL)
        lid_job_keep (now, old);
      else if (!is_fact)
        json_object_set_member (json_node_get_object (fresh), name, json_node_copy (old));
    }
}
