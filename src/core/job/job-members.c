/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/job-members.h"

#include "facts/module-json.h"
#include "job/job-parts.h"
#include "job/job-trials.h"

#define MOST_STAGES 64u
#define MOST_HISTORY 100000u

typedef struct
{
  const char *name;
  gsize offset;
} TextMember;

static const TextMember job_texts[] = {
  { "title", G_STRUCT_OFFSET (LidJob, title) },
  { "owner", G_STRUCT_OFFSET (LidJob, owner) },
  { "asset", G_STRUCT_OFFSET (LidJob, asset) },
  { "number", G_STRUCT_OFFSET (LidJob, number) },
  { "shop", G_STRUCT_OFFSET (LidJob, shop) },
  { "technician", G_STRUCT_OFFSET (LidJob, technician) },
  { "notes", G_STRUCT_OFFSET (LidJob, notes) },
  { "match", G_STRUCT_OFFSET (LidJob, match) },
  { "reserved_in", G_STRUCT_OFFSET (LidJob, reserved_in) },
  { "reserved_as", G_STRUCT_OFFSET (LidJob, reserved_as) },
};

static const TextMember history_texts[] = {
  { "when", G_STRUCT_OFFSET (LidHistoryEntry, when) },
  { "who", G_STRUCT_OFFSET (LidHistoryEntry, who) },
  { "what", G_STRUCT_OFFSET (LidHistoryEntry, what) },
  { "text", G_STRUCT_OFFSET (LidHistoryEntry, text) },
};

static gboolean
read_texts (
    gpointer target, const TextMember *members, guint n, const LidJsonAt *at, GError **error)
{
  for (guint i = 0; i < n; i++)
    {
      LidJsonAt member = lid_json_member (at, members[i].name);
      const char *text;

      if (lid_json_is_null (&member))
        continue;
      if (!lid_json_get_text (&member, &text, error))
        return FALSE;
      lid_job_set_text (G_STRUCT_MEMBER_P (target, members[i].offset), text);
    }
  return TRUE;
}

static void
write_texts (gconstpointer source, const TextMember *members, guint n, JsonObject *object)
{
  for (guint i = 0; i < n; i++)
    {
      const char *text = G_STRUCT_MEMBER (const char *, source, members[i].offset);

      if (text != NULL)
        json_object_set_string_member (object, members[i].name, text);
      else
        json_object_set_null_member (object, members[i].name);
    }
}

static gboolean
read_modules (LidJob *job, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "modules");
  guint length;

  if (lid_json_is_null (&list))
    return TRUE;
  if (!lid_json_get_length (&list, LID_JOB_MAX_MODULES, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&list, i), id = lid_json_member (&element, "id");
      g_autoptr (LidModule) module = lid_module_json_read (&element, error);

      if (module == NULL)
        return FALSE;
      if (module->id == NULL)
        return lid_json_fail (&id, error, "every module of a job needs an id");
      if (lid_job_find_module (job, module->id) != NULL)
        return lid_json_fail (&id, error, "“%.60s” stands twice", module->id);
      lid_job_add_module (job, g_steal_pointer (&module));
    }
  return TRUE;
}

static gboolean
read_optional (const LidJob *job,
               const LidJsonAt *at,
               const char *name,
               LidPopulation **population,
               GError **error)
{
  LidJsonAt member = lid_json_member (at, name);

  if (lid_json_is_null (&member))
    return TRUE;
  *population = lid_job_parts_read_population (job, &member, error);
  return *population != NULL;
}

static gboolean
read_stages (LidJob *job, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "stages");
  guint length;

  if (lid_json_is_null (&list))
    return TRUE;
  if (!lid_json_get_length (&list, MOST_STAGES, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&list, i), name = lid_json_member (&element, "name");
      LidStage *stage = g_new0 (LidStage, 1);
      const char *text;

      g_ptr_array_add (job->stages, stage);
      if (!lid_json_is_null (&name))
        {
          if (!lid_json_get_text (&name, &text, error))
            return FALSE;
          stage->name = g_strdup (text);
        }
      if (!read_optional (job, &element, "population", &stage->population, error))
        return FALSE;
      if (stage->population == NULL)
        return lid_json_fail (&element, error, "has no population");
    }
  return TRUE;
}

static gboolean
read_history (LidJob *job, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "history");
  guint length;

  if (lid_json_is_null (&list))
    return TRUE;
  if (!lid_json_get_length (&list, MOST_HISTORY, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&list, i);
      LidHistoryEntry *entry = g_new0 (LidHistoryEntry, 1);

      g_ptr_array_add (job->history, entry);
      if (!lid_json_need_object (&element, error)
          || !read_texts (entry, history_texts, G_N_ELEMENTS (history_texts), &element, error))
        return FALSE;
    }
  return TRUE;
}

/* "by_eye": what a person read on the setup screen; null where an inventory was read. */
static gboolean
read_by_eye (LidJob *job, const LidJsonAt *at, GError **error)
{
  LidJsonAt by_eye = lid_json_member (at, "by_eye"), total;

  if (lid_json_is_null (&by_eye))
    return TRUE;
  if (!lid_json_need_object (&by_eye, error))
    return FALSE;
  job->is_read_by_eye = TRUE;
  total = lid_json_member (&by_eye, "total_mib");
  return lid_json_is_null (&total)
         || lid_json_get_int (&total, 1, LID_JOB_MAX_TOTAL, &job->eye_mib, error);
}

static JsonNode *
write_by_eye (const LidJob *job)
{
  JsonNode *node = json_node_new (JSON_NODE_NULL);
  JsonObject *object;

  if (!job->is_read_by_eye)
    return node;
  object = json_object_new ();
  if (job->eye_mib > 0)
    json_object_set_int_member (object, "total_mib", job->eye_mib);
  else
    json_object_set_null_member (object, "total_mib");
  json_node_init_object (node, object);
  json_object_unref (object);
  return node;
}

/**
 * lid_job_members_read:
 * @job: a job with its board
 * @at: the document
 * @error: one sentence with the place
 *
 * Returns: whether everything there could be read
 */
gboolean
lid_job_members_read (LidJob *job, const LidJsonAt *at, GError **error)
{
  LidJsonAt proved = lid_json_member (at, "proved");

  if (!lid_json_is_null (&proved) && !lid_json_get_bool (&proved, &job->proved, error))
    return FALSE;
  return read_texts (job, job_texts, G_N_ELEMENTS (job_texts), at, error)
         && read_modules (job, at, error)
         && read_optional (job, at, "as_found", &job->as_found, error)
         && read_stages (job, at, error) && read_optional (job, at, "as_left", &job->as_left, error)
         && read_by_eye (job, at, error) && lid_job_trials_read (job, at, error)
         && read_history (job, at, error);
}

static JsonNode *
population_or_null (const LidJob *job, const LidPopulation *population)
{
  return population != NULL ? lid_job_parts_write_population (job, population)
                            : json_node_new (JSON_NODE_NULL);
}

static JsonArray *
write_modules (const LidJob *job)
{
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < job->modules->len; i++)
    json_array_add_element (list, lid_module_json_write (job->modules->pdata[i]));
  return list;
}

static JsonArray *
write_stages (const LidJob *job)
{
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < job->stages->len; i++)
    {
      const LidStage *stage = job->stages->pdata[i];
      JsonObject *object = json_object_new ();

      if (stage->name != NULL)
        json_object_set_string_member (object, "name", stage->name);
      else
        json_object_set_null_member (object, "name");
      json_object_set_member (object, "population", population_or_null (job, stage->population));
      json_array_add_object_element (list, object);
    }
  return list;
}

static JsonArray *
write_history (const LidJob *job)
{
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < job->history->len; i++)
    {
      JsonObject *object = json_object_new ();

      write_texts (job->history->pdata[i], history_texts, G_N_ELEMENTS (history_texts), object);
      json_array_add_object_element (list, object);
    }
  return list;
}

/**
 * lid_job_members_write:
 * @job: a job
 * @object: gets every member lid_job_members_read() reads, null where unknown
 */
void
lid_job_members_write (const LidJob *job, JsonObject *object)
{
  write_texts (job, job_texts, G_N_ELEMENTS (job_texts), object);
  json_object_set_array_member (object, "modules", write_modules (job));
  json_object_set_member (object, "as_found", population_or_null (job, job->as_found));
  json_object_set_array_member (object, "stages", write_stages (job));
  json_object_set_member (object, "as_left", population_or_null (job, job->as_left));
  json_object_set_boolean_member (object, "proved", job->proved);
  json_object_set_member (object, "by_eye", write_by_eye (job));
  json_object_set_array_member (object, "trials", lid_job_trials_write (job));
  json_object_set_array_member (object, "history", write_history (job));
}
