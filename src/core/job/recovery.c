/* SPDX-License-Identifier: GPL-3.0-or-later */
/* recovery.c — what survives a kill.
 *
 *   …/lidleaf/recovery/ID.recovery   one line of JSON about the job, then the job document, as is
 *   …/lidleaf/recovery/ID.lock       empty; locked by the program that works on the job
 *
 * The document is written beside and renamed, so the file is whole or the one before. The lock is a
 * file of its own because renaming puts another file in the place of a locked one. A job holds
 * serial numbers: folder and files are the user's alone, and what is listed tells none. */
#include "job/recovery.h"

#include "base/error.h"
#include "base/json-read.h"
#include "base/json-write.h"

#include <errno.h>
#include <fcntl.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define FORMAT 1
#define SUFFIX ".recovery"
#define LOCK_SUFFIX ".lock"
#define MOST_HEAD (64u * 1024u) /* a path and a title */

struct _LidRecovery
{
  char *file;
  char *lock_path;
  int lock;
};

/**
 * lid_recovery_default_folder:
 *
 * Returns: (transfer full): the user's folder of recovery files
 */
char *
lid_recovery_default_folder (void)
{
  return g_build_filename (g_get_user_data_dir (), "lidleaf", "recovery", NULL);
}

static char *
lock_path_of (const char *file)
{
  g_autofree char *stem = g_strndup (file, strlen (file) - strlen (SUFFIX));

  return g_strconcat (stem, LOCK_SUFFIX, NULL);
}

static void
set_errno (GError **error, const char *path, int number)
{
  g_set_error (error, G_FILE_ERROR, g_file_error_from_errno (number), "%s: %s", path,
               g_strerror (number));
}

/* The lock, or -1 with EWOULDBLOCK when somebody else holds it. Between opening and locking the
 * holder before may have removed the file: then what was locked has no name any more. */
static int
lock (const char *path)
{
  for (;;)
    {
      int fd = g_open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
      struct stat held, named;

      if (fd < 0)
        return -1;
      if (flock (fd, LOCK_EX | LOCK_NB) != 0)
        {
          int number = errno;

          close (fd);
          errno = number;
          return -1;
        }
      if (fstat (fd, &held) == 0 && stat (path, &named) == 0 && held.st_ino == named.st_ino)
        return fd;
      close (fd);
    }
}

static LidRecovery *
hold (const char *file, GError **error)
{
  g_autofree char *path = lock_path_of (file);
  int fd = lock (path);
  LidRecovery *recovery;

  if (fd < 0)
    {
      if (errno == EWOULDBLOCK)
        g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                     _ ("%s: another window works on this job"), file);
      else
        set_errno (error, path, errno);
      return NULL;
    }
  recovery = g_new0 (LidRecovery, 1);
  recovery->file = g_strdup (file);
  recovery->lock_path = g_steal_pointer (&path);
  recovery->lock = fd;
  return recovery;
}

/**
 * lid_recovery_new:
 * @folder: lid_recovery_default_folder(), or another; made where it is not there
 * @error: what the file system says
 *
 * Returns: (transfer full) (nullable): a place for one job's recovery file, nothing in it yet
 */
LidRecovery *
lid_recovery_new (const char *folder, GError **error)
{
  g_autofree char *id = g_uuid_string_random (), *name = NULL, *file = NULL;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      set_errno (error, folder, errno);
      return NULL;
    }
  name = g_strconcat (id, SUFFIX, NULL);
  file = g_build_filename (folder, name, NULL);
  return hold (file, error);
}

/**
 * lid_recovery_free:
 * @recovery: (nullable): is let go of; a file written and not removed stays, to be found by
 * lid_recovery_list()
 */
void
lid_recovery_free (LidRecovery *recovery)
{
  if (recovery == NULL)
    return;
  g_unlink (recovery->lock_path);
  close (recovery->lock);
  g_free (recovery->file);
  g_free (recovery->lock_path);
  g_free (recovery);
}

/**
 * lid_recovery_write:
 * @recovery: a place
 * @path: (nullable): the job's own file; NULL: it has none yet
 * @title: (nullable): the machine, to know the job by in a list
 * @job_text: lid_job_file_to_text()
 * @error: what the file system says
 *
 * Puts the job in the place of what was there, whole or not at all.
 *
 * Returns: whether it is there
 */
gboolean
lid_recovery_write (LidRecovery *recovery,
                    const char *path,
                    const char *title,
                    const char *job_text,
                    GError **error)
{
  g_autoptr (GString) out = g_string_sized_new (strlen (job_text) + 512);
  g_autofree char *whole = path != NULL ? g_canonicalize_filename (path, NULL) : NULL;
  g_autofree char *encoded = whole != NULL ? g_filename_to_uri (whole, NULL, error) : NULL;
  LidJsonWriter writer;

  if (whole != NULL && encoded == NULL)
    return FALSE;
  lid_json_write_start (&writer, out);
  lid_json_write_open (&writer, NULL, '{');
  lid_json_write_int (&writer, "lidleaf_recovery", FORMAT);
  lid_json_write_text (&writer, "uri", encoded);
  lid_json_write_text (&writer, "title", title);
  lid_json_write_int (&writer, "when", g_get_real_time () / G_USEC_PER_SEC);
  lid_json_write_close (&writer, '}');
  g_string_append_c (out, '\n');
  g_string_append (out, job_text);
  return g_file_set_contents_full (recovery->file, out->str, (gssize)out->len,
                                   G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE,
                                   0600, error);
}

static gboolean
remove_file (const char *file, GError **error)
{
  if (g_unlink (file) == 0 || errno == ENOENT)
    return TRUE;
  set_errno (error, file, errno);
  return FALSE;
}

/**
 * lid_recovery_remove:
 * @recovery: a place
 * @error: what the file system says
 *
 * The job was saved, or its changes were thrown away knowingly: there is nothing to recover. The
 * place can be written to again.
 *
 * Returns: whether nothing is there
 */
gboolean
lid_recovery_remove (LidRecovery *recovery, GError **error)
{
  return remove_file (recovery->file, error);
}

static gboolean
read_head (const char *text, gsize size, LidRecovered *out, GError **error)
{
  g_autoptr (JsonNode) root = lid_json_parse (text, size, error);
  LidJsonAt at, format, uri, title, when;
  const char *uri_text = NULL, *title_text = NULL;
  gint64 number;

  if (root == NULL)
    return FALSE;
  at = lid_json_root (root);
  format = lid_json_member (&at, "lidleaf_recovery");
  uri = lid_json_member (&at, "uri");
  title = lid_json_member (&at, "title");
  when = lid_json_member (&at, "when");
  if (!lid_json_need_object (&at, error)
      || !lid_json_get_int (&format, 1, G_MAXINT32, &number, error)
      || !lid_json_get_int (&when, 0, G_MAXINT64 / 2, &out->when, error)
      || (!lid_json_is_null (&uri) && !lid_json_get_text (&uri, &uri_text, error))
      || (!lid_json_is_null (&title) && !lid_json_get_text (&title, &title_text, error)))
    return FALSE;
  out->path = uri_text != NULL ? g_filename_from_uri (uri_text, NULL, NULL) : NULL;
  out->title = g_strdup (title_text);
  return TRUE;
}

static gboolean
read_file (const char *file, LidRecovered *out, char **job_text, GError **error)
{
  g_autofree char *text = NULL;
  const char *end;
  gsize size;

  if (!lid_json_load (file, &text, &size, error))
    return FALSE;
  end = memchr (text, '\n', MIN (size, MOST_HEAD));
  if (end == NULL)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT, _ ("%s: this is no recovery file"),
                   file);
      return FALSE;
    }
  if (!read_head (text, (gsize)(end - text), out, error))
    {
      g_prefix_error (error, "%s: ", file);
      return FALSE;
    }
  if (job_text != NULL)
    *job_text = g_strndup (end + 1, size - (gsize)(end + 1 - text));
  return TRUE;
}

/**
 * lid_recovery_recovered_free:
 * @recovered: (nullable): what lid_recovery_list() told
 */
void
lid_recovery_recovered_free (LidRecovered *recovered)
{
  if (recovered == NULL)
    return;
  g_free (recovered->file);
  g_free (recovered->path);
  g_free (recovered->title);
  g_free (recovered);
}

static int
latest_first (gconstpointer a, gconstpointer b)
{
  const LidRecovered *const *left = a, *const *right = b;

  if ((*left)->when != (*right)->when)
    return (*left)->when > (*right)->when ? -1 : 1;
  return strcmp ((*left)->file, (*right)->file);
}

/**
 * lid_recovery_list:
 * @folder: a folder of recovery files; it need not be there
 *
 * Returns: (transfer full) (element-type LidRecovered): the files nobody works on, the latest
 * first; one whose head cannot be read is listed without title and path
 */
GPtrArray *
lid_recovery_list (const char *folder)
{
  GPtrArray *list = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_recovery_recovered_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (folder, name, NULL);
      g_autoptr (LidRecovery) held = NULL;
      LidRecovered *recovered;

      if (!g_str_has_suffix (name, SUFFIX) || g_file_test (file, G_FILE_TEST_IS_SYMLINK))
        continue;
      held = hold (file, NULL);
      if (held == NULL)
        continue;
      recovered = g_new0 (LidRecovered, 1);
      read_file (file, recovered, NULL, NULL);
      recovered->file = g_steal_pointer (&file);
      g_ptr_array_add (list, recovered);
    }
  g_ptr_array_sort (list, latest_first);
  return list;
}

/**
 * lid_recovery_take_up:
 * @file: a file of lid_recovery_list()
 * @path: (out) (transfer full) (nullable): the job's own file
 * @job_text: (out) (transfer full): the job document as it was written
 * @error: names the file: it cannot be read, or another window works on the job
 *
 * The file stays, and is the place of the job's next recovery: who crashes twice loses nothing.
 *
 * Returns: (transfer full) (nullable): the place
 */
LidRecovery *
lid_recovery_take_up (const char *file, char **path, char **job_text, GError **error)
{
  g_autoptr (LidRecovery) recovery = NULL;
  LidRecovered head = { 0 };

  g_return_val_if_fail (g_str_has_suffix (file, SUFFIX), NULL);
  recovery = hold (file, error);
  if (recovery == NULL || !read_file (file, &head, job_text, error))
    return NULL;
  *path = g_steal_pointer (&head.path);
  g_free (head.title);
  return g_steal_pointer (&recovery);
}

/**
 * lid_recovery_discard:
 * @file: a file of lid_recovery_list()
 * @error: what the file system says, or that another window works on the job
 *
 * Returns: whether it is gone
 */
gboolean
lid_recovery_discard (const char *file, GError **error)
{
  g_autoptr (LidRecovery) recovery = NULL;

  g_return_val_if_fail (g_str_has_suffix (file, SUFFIX), FALSE);
  recovery = hold (file, error);
  return recovery != NULL && remove_file (file, error);
}
