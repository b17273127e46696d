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

/* Windows-1252 from 80 to 9F (the code page's table as the WHATWG Encoding standard lists it, from
 * memory); the bytes from A0 on are ISO 8859-1, which are the first code points. 0: not in use. */
static const gunichar windows[32] = {
  0x20ac, 0,      0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160,
  0x2039, 0x0152, 0,      0x017d, 0,      0,      0x2018, 0x2019, 0x201c, 0x201d, 0x2022,
  0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0,      0x017e, 0x0178,
};

/* What a spreadsheet writes that knows no other way. NULL: it is none, see @bad. */
static char *
from_windows (const char *text, gsize size, gsize *out_size, const char **bad)
{
  GString *out = g_string_sized_new (size + size / 8);

  for (gsize i = 0; i < size; i++)
    {
      guchar byte = (guchar)text[i];
      gunichar c = byte >= 0x80 && byte < 0xa0 ? windows[byte - 0x80] : byte;

      if (c == 0)
        {
          *bad = text + i;
          g_string_free (out, TRUE);
          return NULL;
        }
      g_string_append_unichar (out, c);
    }
  *out_size = out->len;
  return g_string_free (out, FALSE);
}

/* Text whose encoding nobody names: UTF-8 where it can be that. Takes @text. */
static char *
settle (char *text, gsize *size, gboolean *assumed, GError **error)
{
  g_autofree char *own = text;
  const char *bad = NULL;
  char *other;

  if (memchr (own, 0, *size) != NULL)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_FORMAT,
                   _ ("no stock file: it holds zero bytes, as no text does; save the sheet as CSV "
                      "in UTF-8"));
      return NULL;
    }
  if (g_utf8_validate (own, (gssize)*size, &bad))
    return g_steal_pointer (&own);
  other = from_windows (own, *size, size, &bad);
  *assumed = other != NULL;
  if (other == NULL)
    g_set_error (
        error, LID_ERROR, LID_ERROR_BAD_FORMAT,
        _ ("line %u: the text is not in UTF-8 (byte %02X); save the sheet as CSV in UTF-8"),
        line_of (own, bad), (guchar)*bad);
  return other;
}

/**
 * lid_stock_text_decode:
 * @bytes: a file's bytes: UTF-8 with or without byte order mark, UTF-16 with it, or Windows-1252
 * @size: how many
 * @out_size: (out): bytes of the text
 * @assumed: (out): nothing in the file names its encoding, and it is not UTF-8: it was read as
 *   Windows-1252, which has to be said
 * @error: LID_ERROR_BAD_FORMAT: another encoding, with the line and what to do
 *
 * Returns: (transfer full) (nullable): the text in UTF-8, without byte order mark
 */
char *
lid_stock_text_decode (
    const char *bytes, gsize size, gsize *out_size, gboolean *assumed, GError **error)
{
  gboolean little = size >= 2 && memcmp (bytes, "\xff\xfe", 2) == 0;
  gboolean big = size >= 2 && memcmp (bytes, "\xfe\xff", 2) == 0;
  g_autofree char *text = NULL;

  *out_size = 0;
  *assumed = FALSE;
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
  return settle (g_steal_pointer (&text), out_size, assumed, error);
}
