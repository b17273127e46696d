/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job-file.c — the job document on disk: JSON, versioned, written whole or not at all.
 *
 * Published as resources/job.schema.json. Members that are not understood survive (job-keep.c); a
 * file of a newer format is read as far as it is understood and never written. */
#include "job/job-file.h"

#include "base/error.h"
#include "base/json-read.h"
#include "base/json-text.h"
#include "base/save.h"
#include "board/board-file.h"
#include "job/job-keep.h"
#include "job/job-members.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

static LidBoard *
read_board (const LidJsonAt *at, gboolean newer, GError **error)
{
  LidJsonAt board_at = lid_json_member (at, "board");
  LidJsonAt definition = lid_json_member (&board_at, "definition");
  LidBoard *board;

  if (!lid_json_need_object (&definition, error))
    return NULL;
  board = newer ? lid_board_file_from_newer (definition.node, error)
                : lid_board_file_from_node (definition.node, error);
  if (board == NULL)
    g_prefix_error (error, "board.definition: ");
  return board;
}

/**
 * lid_job_file_parse:
 * @text: a job document
 * @size: its bytes
 * @error: one sentence with the place
 *
 * Returns: (transfer full) (nullable): the job; read_only when the file is of a newer format
 */
LidJob *
lid_job_file_parse (const char *text, gsize size, GError **error)
{
  g_autoptr (JsonNode) root = lid_json_parse (text, size, error);
  g_autoptr (LidBoard) board = NULL;
  g_autoptr (LidJob) job = NULL;
  LidJsonAt at, format_at;
  gint64 format;

  if (root == NULL)
    return NULL;
  at = lid_json_root (root);
  format_at = lid_json_member (&at, "lidleaf");
  if (!lid_json_need_object (&at, error))
    return NULL;
  if (!lid_json_get_int (&format_at, 1, G_MAXINT32, &format, error))
    {
      g_prefix_error (error, _ ("this is no job of ours: "));
      return NULL;
    }
  board = read_board (&at, format > LID_JOB_FORMAT, error);
  if (board == NULL)
    return NULL;
  job = lid_job_new (board);
  job->read_only = format > LID_JOB_FORMAT;
  if (!lid_job_members_read (job, &at, error))
    return NULL;
  job->original = g_steal_pointer (&root);
  return g_steal_pointer (&job);
}

/**
 * lid_job_file_load:
 * @path: a file
 * @error: one sentence that names the file and the place
 *
 * Returns: (transfer full) (nullable): the job
 */
LidJob *
lid_job_file_load (const char *path, GError **error)
{
  g_autofree char *text = NULL;
  LidJob *job;
  gsize size;

  if (!lid_json_load (path, &text, &size, error))
    return NULL;
  job = lid_job_file_parse (text, size, error);
  if (job == NULL)
    g_prefix_error (error, "%s: ", path);
  return job;
}

/**
 * lid_job_file_sniff:
 * @text: (nullable): foreign bytes; an empty file may be no text at all
 * @size: how many
 *
 * Returns: whether they look like a job document: a JSON object that names itself early
 */
gboolean
lid_job_file_sniff (const char *text, gsize size)
{
  g_autofree char *head = g_strndup (text != NULL ? text : "", text != NULL ? MIN (size, 4096) : 0);
  const char *at = head;

  while (g_ascii_isspace (*at) || (guchar)*at == 0xef || (guchar)*at == 0xbb || (guchar)*at == 0xbf)
    at++;
  return *at == '{' && strstr (at, "\"lidleaf\"") != NULL;
}

static JsonObject *
write_board (const LidBoard *board)
{
  JsonObject *object = json_object_new ();
  JsonNode *definition = lid_board_file_to_node (board);
  g_autofree char *hash = lid_board_file_hash (definition);

  json_object_set_string_member (object, "id", board->id);
  json_object_set_int_member (object, "version", board->version);
  json_object_set_string_member (object, "hash", hash);
  json_object_set_member (object, "definition", definition);
  return object;
}

/**
 * lid_job_file_to_text:
 * @job: a job
 *
 * Returns: (transfer full): the document, indented, with a newline at its end
 */
char *
lid_job_file_to_text (const LidJob *job)
{
  g_autoptr (JsonNode) node = json_node_new (JSON_NODE_OBJECT);
  JsonObject *object = json_object_new ();

  json_object_set_int_member (object, "lidleaf", LID_JOB_FORMAT);
  json_object_set_object_member (object, "board", write_board (job->board));
  lid_job_members_write (job, object);
  json_node_take_object (node, object);
  if (job->original != NULL)
    lid_job_keep (node, job->original);
  return lid_json_text (node, TRUE);
}

/**
 * lid_job_file_save:
 * @job: a job
 * @path: where to; a link is followed, so it stays a link
 * @error: LID_ERROR_NEWER for a job of a newer format, else what the file system says
 *
 * Written beside and renamed: at no moment is there half a file.
 *
 * Returns: whether it was saved
 */
gboolean
lid_job_file_save (const LidJob *job, const char *path, GError **error)
{
  g_autofree char *text = NULL;

  if (job->read_only)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_NEWER,
                   _ ("%s: this job was written by a newer version and is open for reading only"),
                   path);
      return FALSE;
    }
  text = lid_job_file_to_text (job);
  return lid_save_bytes (path, text, strlen (text), 0666, error);
}
