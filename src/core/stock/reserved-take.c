/* SPDX-License-Identifier: GPL-3.0-or-later */
/* reserved-take.c — putting modules by and giving them back, against other programs doing the same.
 *
 * The file of reservations is its own lock (flock). It is replaced whole by renaming, so whoever
 * got the lock looks whether the name still leads to the file that was locked, and begins anew if
 * not. A file without reservations is taken away; an empty one means the same. */
#include "stock/reserved.h"

#include "base/error.h"
#include "base/json-parse.h"
#include "base/save.h"
#include "base/text.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define TRIES 100u
#define PAUSE_US 50000u

static gboolean
is_still_there (int fd, const char *path)
{
  struct stat mine, there;

  return fstat (fd, &mine) == 0 && stat (path, &there) == 0 && mine.st_ino == there.st_ino
         && mine.st_dev == there.st_dev;
}

/* The file locked; -1: it cannot be, see @error. */
static int
lock (const char *path, GError **error)
{
  int failure = EWOULDBLOCK;

  for (guint i = 0; i < TRIES; i++)
    {
      int fd = g_open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOCTTY | O_NONBLOCK, 0666);

      if (fd >= 0 && flock (fd, LOCK_EX | LOCK_NB) == 0 && is_still_there (fd, path))
        return fd;
      failure = fd < 0 ? errno : EWOULDBLOCK;
      if (fd >= 0)
        close (fd);
      if (fd < 0)
        break;
      g_usleep (PAUSE_US);
    }
  if (failure == EWOULDBLOCK)
    g_set_error (error, G_FILE_ERROR, G_FILE_ERROR_AGAIN,
                 _ ("%s: another program holds the reservations; try again when it is done"), path);
  else
    g_set_error (error, G_FILE_ERROR, (gint)g_file_error_from_errno (failure),
                 _ ("%s: cannot be written: %s"), path, g_strerror (failure));
  return -1;
}

static void
drop_job (LidReserved *reserved, const char *job, guint *n_modules)
{
  *n_modules = 0;
  for (guint i = reserved->entries->len; i > 0; i--)
    {
      LidReservation *entry = reserved->entries->pdata[i - 1];

      if (strcmp (entry->job, job) != 0)
        continue;
      *n_modules += entry->count;
      g_ptr_array_remove_index (reserved->entries, i - 1);
    }
}

static gboolean
save (const LidReserved *reserved, const char *path, GError **error)
{
  g_autofree char *text = NULL;

  if (reserved->entries->len == 0)
    {
      if (g_unlink (path) == 0 || errno == ENOENT)
        return TRUE;
      g_set_error (error, G_FILE_ERROR, (gint)g_file_error_from_errno (errno),
                   _ ("%s: cannot be written: %s"), path, g_strerror (errno));
      return FALSE;
    }
  text = lid_reserved_to_text (reserved);
  return lid_save_bytes (path, text, strlen (text), 0666, error);
}

static gboolean
add_wanted (
    LidReserved *reserved, LidStock *stock, const char *job, GPtrArray *wanted, GError **error)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *when = g_date_time_format_iso8601 (now);

  lid_reserved_apply (reserved, stock, NULL);
  for (guint i = 0; i < wanted->len; i++)
    {
      const LidReservation *wish = wanted->pdata[i];
      LidReservation *entry;
      guint lacking = lid_reserved_allot (stock, wish);

      if (lacking > 0)
        {
          g_autofree char *what
              = lid_text_clean (wish->part != NULL ? wish->part : wish->label, -1);

          g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
                       g_dngettext (GETTEXT_PACKAGE,
                                    "%u of the %u modules of “%s” is no longer free on the "
                                    "shelf; plan again",
                                    "%u of the %u modules of “%s” are no longer free on the "
                                    "shelf; plan again",
                                    lacking),
                       lacking, wish->count, what);
          return FALSE;
        }
      entry = g_new0 (LidReservation, 1);
      entry->job = g_strdup (job);
      entry->part = g_strdup (wish->part);
      entry->label = g_strdup (wish->label);
      entry->bin = g_strdup (wish->bin);
      entry->count = wish->count;
      entry->when = g_strdup (when);
      g_ptr_array_add (reserved->entries, entry);
    }
  return TRUE;
}

/* Six capitals or digits, as g_mkstemp() fills in; somebody's "backup" is not. */
static gboolean
is_begun (const char *ending)
{
  return strlen (ending) == 6 && strspn (ending, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") == 6;
}

/* What a program that was killed had begun to write: "FILE.reserved.AB12CD", as GLib calls it. Only
 * who has the lock writes, so nobody else's is swept away. */
static void
sweep (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path), *name = g_path_get_basename (path);
  g_autofree char *begins = g_strconcat (name, ".", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *other;

  while (dir != NULL && (other = g_dir_read_name (dir)) != NULL)
    if (g_str_has_prefix (other, begins) && is_begun (other + strlen (begins)))
      {
        g_autofree char *left = g_build_filename (folder, other, NULL);

        g_unlink (left);
      }
}

/* The reservations under the lock, without those of @job. */
static LidReserved *
begin (const char *stock_path, const char *job, guint *n_modules, GError **error)
{
  LidReserved *reserved = lid_reserved_load (stock_path, error);

  if (reserved == NULL)
    return NULL;
  if (reserved->newer)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_NEWER,
                   _ ("what is reserved of %s was written by a newer version and is only read"),
                   stock_path);
      lid_reserved_free (reserved);
      return NULL;
    }
  drop_job (reserved, job, n_modules);
  return reserved;
}

/* An empty file made only to be locked does not stay behind. */
static void
unlock (int fd, const char *path)
{
  struct stat mine;

  if (is_still_there (fd, path) && fstat (fd, &mine) == 0 && S_ISREG (mine.st_mode)
      && mine.st_size == 0)
    g_unlink (path);
  close (fd);
}

/**
 * lid_reserved_take:
 * @stock_path: a stock file
 * @options: (nullable): as for lid_stock_read()
 * @job: whose reservations these are; those it had are given back
 * @wanted: (element-type LidReservation): what to put by; their job is not looked at
 * @error: LID_ERROR_NOT_FOUND: something of it is not free any more; LID_ERROR_NEWER; what the
 *   stock or the file system says
 *
 * All of it or nothing. The stock file is read anew under the lock, so that two jobs never take the
 * same modules.
 *
 * Returns: whether it is reserved
 */
gboolean
lid_reserved_take (const char *stock_path,
                   const LidStockOptions *options,
                   const char *job,
                   GPtrArray *wanted,
                   GError **error)
{
  g_autofree char *path = lid_reserved_path (stock_path);
  g_autoptr (LidReserved) reserved = NULL;
  g_autoptr (LidStock) stock = NULL;
  gboolean done = FALSE;
  guint n_before;
  int fd;

  if (!g_file_test (stock_path, G_FILE_TEST_IS_REGULAR))
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("%s: only of a stock in a file can something be reserved"), stock_path);
      return FALSE;
    }
  fd = lock (path, error);
  if (fd < 0)
    return FALSE;
  sweep (path);
  reserved = begin (stock_path, job, &n_before, error);
  if (reserved != NULL)
    stock = lid_stock_read (stock_path, options, error);
  if (stock != NULL)
    done = add_wanted (reserved, stock, job, wanted, error) && save (reserved, path, error);
  unlock (fd, path);
  return done;
}

/**
 * lid_reserved_release:
 * @stock_path: a stock file
 * @job: whose reservations to give back
 * @n_modules: (out): how many modules that were
 * @error: as for lid_reserved_take()
 *
 * Returns: whether it was done; a job without reservations is no error
 */
gboolean
lid_reserved_release (const char *stock_path, const char *job, guint *n_modules, GError **error)
{
  g_autofree char *path = lid_reserved_path (stock_path);
  g_autoptr (LidReserved) reserved = NULL;
  gboolean done;
  int fd;

  *n_modules = 0;
  if (!g_file_test (path, G_FILE_TEST_EXISTS))
    return TRUE;
  fd = lock (path, error);
  if (fd < 0)
    return FALSE;
  sweep (path);
  reserved = begin (stock_path, job, n_modules, error);
  done = reserved != NULL && (*n_modules == 0 || save (reserved, path, error));
  unlock (fd, path);
  return done;
}
