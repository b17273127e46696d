/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/save.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

static gboolean
write_all (int fd, const char *data, gsize size)
{
  while (size > 0)
    {
      gssize n = write (fd, data, size);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return FALSE;
      data += n;
      size -= (gsize)n;
    }
  return TRUE;
}

/* A device or a pipe (/dev/stdout, a fifo) is written into, never replaced by a file. */
static int
write_into (const char *path, const void *data, gsize size)
{
  int fd = g_open (path, O_WRONLY | O_CLOEXEC | O_NOCTTY, 0), failure = 0;

  if (fd < 0)
    return errno;
  if (!write_all (fd, data, size))
    failure = errno;
  if (close (fd) != 0 && failure == 0)
    failure = errno;
  return failure;
}

static int
replace (const char *path, const void *data, gsize size, int mode)
{
  g_autoptr (GError) error = NULL;

  if (g_file_set_contents_full (path, data, (gssize)size,
                                G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, mode,
                                &error))
    return 0;
  /* GLib's sentence names a file of its own making; the reason is what people need. */
  for (int i = 1; i < 200 && error->code != G_FILE_ERROR_FAILED; i++)
    if (g_file_error_from_errno (i) == (GFileError)error->code)
      return i;
  return EIO;
}

/**
 * lid_save_bytes:
 * @path: where to; a link is followed, so it stays a link
 * @data: what
 * @size: bytes
 * @mode: permissions of a new file, as far as the umask leaves them
 * @error: a GFileError whose one sentence names @path and the reason
 *
 * Written beside and renamed: at no moment is there half a file. What is no regular file is
 * written into as it stands.
 *
 * Returns: whether it was saved
 */
gboolean
lid_save_bytes (const char *path, const void *data, gsize size, int mode, GError **error)
{
  char *real = realpath (path, NULL);
  struct stat there;
  int failure;

  if (*path == 0)
    failure = ENOENT;
  else if (stat (path, &there) == 0 && S_ISDIR (there.st_mode))
    failure = EISDIR;
  else if (stat (path, &there) == 0 && !S_ISREG (there.st_mode))
    failure = write_into (path, data, size);
  else
    failure = replace (real != NULL ? real : path, data, size, mode);
  free (real);
  if (failure == 0)
    return TRUE;
  g_set_error (error, G_FILE_ERROR, (gint)g_file_error_from_errno (failure),
               _ ("%s: cannot be written: %s"), path, g_strerror (failure));
  return FALSE;
}
