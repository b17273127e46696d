/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/job-trials.h"

#include "job/job-parts.h"

/* A list of slot ids into marks per slot. */
static gboolean
read_slots (const LidJob *job, const LidJsonAt *at, const char *name, guint8 *marks, GError **error)
{
  LidJsonAt list = lid_json_member (at, name);
  guint length;

  if (lid_json_is_null (&list))
    return TRUE;
  if (!lid_json_get_length (&list, LID_BOARD_MAX_SLOTS, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&list, i);
      const char *id;
      int slot;

      if (!lid_json_get_text (&element, &id, error))
        return FALSE;
      slot = lid_board_find_slot (job->board, id);
      if (slot == LID_NOWHERE)
        return lid_json_fail (&element, error, "the board has no slot “%.60s”", id);
      marks[slot] = TRUE;
    }
  return TRUE;
}

/* Each processor sits in one socket. */
static gboolean
read_processors (LidTrial *trial, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "processor_of");
  g_autofree guint8 *there = g_new0 (guint8, trial->n_sockets + 1);
  guint length;

  if (lid_json_is_null (&list))
    return TRUE;
  if (!lid_json_get_length (&list, LID_BOARD_MAX_SOCKETS, &length, error))
    return FALSE;
  if (length != trial->n_sockets)
    return lid_json_fail (&list, error, "the board has %u sockets, here are %u", trial->n_sockets,
                          length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&list, i);
      gint64 number;

      if (!lid_json_get_int (&element, 1, trial->n_sockets, &number, error))
        return FALSE;
      if (there[number - 1])
        return lid_json_fail (&element, error, "processor %u is in two sockets", (guint)number);
      there[number - 1] = TRUE;
      trial->processor_of[i] = (guint)number - 1;
    }
  return TRUE;
}

static LidTrial *
read_trial (const LidJob *job, const LidJsonAt *at, GError **error)
{
  LidJsonAt population_at = lid_json_member (at, "population");
  LidJsonAt eased = lid_json_member (at, "eased"), outcome = lid_json_member (at, "outcome");
  LidJsonAt ended = lid_json_member (at, "ended");
  g_autoptr (LidPopulation) population = NULL;
  g_autoptr (LidTrial) trial = NULL;
  const char *text;
  gboolean found;

  if (!lid_json_need_object (at, error))
    return NULL;
  population = lid_job_parts_read_population (job, &population_at, error);
  if (population == NULL)
    return NULL;
  trial = lid_trial_new (population);
  if (!read_slots (job, at, "reseated", trial->reseated, error)
      || !read_slots (job, at, "at", trial->at, error) || !read_processors (trial, at, error)
      || (!lid_json_is_null (&eased) && !lid_json_get_bool (&eased, &trial->eased, error))
      || (!lid_json_is_null (&ended) && !lid_json_get_bool (&ended, &trial->ended, error))
      || !lid_json_get_text (&outcome, &text, error))
    return NULL;
  trial->outcome = lid_outcome_from_text (text, &found);
  if (!found)
    {
      lid_json_fail (&outcome, error, "“%.40s” is no outcome: clean, fault or inconclusive", text);
      return NULL;
    }
  return g_steal_pointer (&trial);
}

/**
 * lid_job_trials_read:
 * @job: its board and modules are read
 * @at: the document
 * @error: one sentence with the place
 */
gboolean
lid_job_trials_read (LidJob *job, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "trials");
  guint length;

  if (lid_json_is_null (&list))
    return TRUE;
  if (!lid_json_get_length (&list, LID_JOB_MAX_TRIALS, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&list, i);
      LidTrial *trial = read_trial (job, &element, error);

      if (trial == NULL)
        return FALSE;
      g_ptr_array_add (job->trials, trial);
    }
  return TRUE;
}

static JsonArray *
write_slots (const LidJob *job, const guint8 *marks)
{
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < job->board->n_slots; i++)
    if (marks[i])
      json_array_add_string_element (list, job->board->slots[i].id);
  return list;
}

/**
 * lid_job_trials_write:
 *
 * Returns: (transfer full): what lid_job_trials_read() reads
 */
JsonArray *
lid_job_trials_write (const LidJob *job)
{
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < job->trials->len; i++)
    {
      const LidTrial *trial = job->trials->pdata[i];
      JsonObject *object = json_object_new ();
      JsonArray *processors = json_array_new ();

      for (guint s = 0; s < trial->n_sockets; s++)
        json_array_add_int_element (processors, trial->processor_of[s] + 1);
      json_object_set_member (object, "population",
                              lid_job_parts_write_population (job, trial->population));
      json_object_set_array_member (object, "reseated", write_slots (job, trial->reseated));
      json_object_set_array_member (object, "processor_of", processors);
      json_object_set_boolean_member (object, "eased", trial->eased);
      json_object_set_string_member (object, "outcome", lid_outcome_to_text (trial->outcome));
      json_object_set_array_member (object, "at", write_slots (job, trial->at));
      json_object_set_boolean_member (object, "ended", trial->ended);
      json_array_add_object_element (list, object);
    }
  return list;
}
