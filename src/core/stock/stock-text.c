/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/stock-text.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static guint
line_of (const char *text, const char *at)
{
  guint line = 1;

  for (; text < at; text++)
    line += *text == '\n';
  return line;
}

static gboolean
check_utf8 (const char *text, gsize size, GError **error)
{
  const char *bad;
  gboolean nul = memchr (text, 0, size) != NULL;

  if (!nul && g_utf8_validate (text, (gssize)size, &bad))
    return TRUE;
  if (nul)
    g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
                 _ ("no stock file: it holds zero bytes, as no text does; save the sheet as CSV in "
                    "UTF-8"));
  else
    g_set_error (
        error, LID_ERROR, LID_ERROR_BAD_FORMAT,
        _ ("line %u: the text is not in UTF-8 (byte %02X); save the sheet as CSV in UTF-8"),
        line_of (text, bad), (guchar)*bad);
  return FALSE;
}

/**
 * lid_stock_text_decode:
 * @bytes: a file's bytes: UTF-8 with or without byte order mark, or UTF-16 with it
 * @size: how many
 * @out_size: (out): bytes of the text
 * @error: LID_ERROR_BAD_FORMAT: another encoding, with the line and what to do
 *
 * Returns: (transfer full) (nullable): the text in UTF-8, without byte order mark
 */
char *
lid_stock_text_decode (const char *bytes, gsize size, gsize *out_size, GError **error)
{
  gboolean little = size >= 2 && memcmp (bytes, "\xff\xfe", 2) == 0;
  gboolean big = size >= 2 && memcmp (bytes, "\xfe\xff", 2) == 0;
  g_autofree char *text = NULL;

  *out_size = 0;
  if (little || big)
    {
      text = g_convert (bytes + 2, (gssize)size - 2, "UTF-8", little ? "UTF-16LE" : "UTF-16BE",
                        NULL, out_size, NULL);
      if (text == NULL)
        {
          g_set_error (
              error, LID_ERROR, LID_ERROR_BAD_FORMAT,
              _ ("the text calls itself UTF-16 and is not; save the sheet as CSV in UTF-8"));
          return NULL;
        }
    }
  else
    {
      gsize skip = size >= 3 && memcmp (bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;

      *out_size = size - skip;
      text = g_malloc (size - skip + 1);
      if (size > skip) /* an empty file may be no text at all */
        memcpy (text, bytes + skip, size - skip);
      text[size - skip] = 0;
    }
  return check_utf8 (text, *out_size, error) ? g_steal_pointer (&text) : NULL;
}
