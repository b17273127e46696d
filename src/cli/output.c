/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "output.h"

#include "job/job-file.h"

#include <stdio.h>
#include <string.h>

/**
 * lid_output:
 * @text: goes to standard output as it is
 * @size: bytes, or -1 up to the NUL
 */
void
lid_output (const char *text, gssize size)
{
  fwrite (text, 1, size < 0 ? strlen (text) : (gsize)size, stdout);
}

/**
 * lid_output_job:
 * @path: where it goes; "-": to standard output
 * @error: as for lid_job_file_save()
 *
 * Returns: whether it is written
 */
gboolean
lid_output_job (const LidJob *job, const char *path, GError **error)
{
  g_autofree char *text = NULL;

  if (strcmp (path, "-") != 0)
    return lid_job_file_save (job, path, error);
  text = lid_job_file_to_text (job);
  lid_output (text, -1);
  return TRUE;
}

void
lid_output_line (const char *format, ...)
{
  va_list args;

  va_start (args, format);
  vfprintf (stdout, format, args);
  va_end (args);
  putc ('\n', stdout);
}

/**
 * lid_complain:
 * @format: one sentence, to standard error, with the program's name in front
 */
void
lid_complain (const char *format, ...)
{
  va_list args;

  fflush (stdout);
  fputs ("lidleaf-cli: ", stderr);
  va_start (args, format);
  vfprintf (stderr, format, args);
  va_end (args);
  putc ('\n', stderr);
}

/**
 * lid_complain_raw:
 * @text: goes to standard error as it is: a report whose usual place is taken
 */
void
lid_complain_raw (const char *text)
{
  fflush (stdout);
  fputs (text, stderr);
}

/**
 * lid_output_flush:
 *
 * Returns: whether all that was written arrived; a full disk or a closed pipe must not end as
 * success
 */
gboolean
lid_output_flush (void)
{
  return fflush (stdout) == 0 && !ferror (stdout);
}

/**
 * lid_output_quote:
 * @path: a file
 *
 * Returns: (transfer full): as a shell takes it: bare where it can be, else quoted
 */
char *
lid_output_quote (const char *path)
{
  static const char bare[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._/-+";

  return *path != 0 && path[strspn (path, bare)] == 0 ? g_strdup (path) : g_shell_quote (path);
}
