/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/report-text.h"

#include <string.h>

static guint
utf16_at (LidBytes bytes, gsize at, gboolean big)
{
  return big ? (guint)bytes.data[at] << 8 | bytes.data[at + 1]
             : (guint)bytes.data[at + 1] << 8 | bytes.data[at];
}

static char *
decode_utf16 (LidBytes bytes, gboolean big, LidBytes *text)
{
  GString *out = g_string_sized_new (bytes.size / 2 + 1);

  for (gsize at = 2; at + 1 < bytes.size; at += 2)
    {
      gunichar c = utf16_at (bytes, at, big);

      if (c >= 0xd800 && c < 0xdc00 && at + 3 < bytes.size)
        {
          guint low = utf16_at (bytes, at + 2, big);
          if (low >= 0xdc00 && low < 0xe000)
            {
              c = 0x10000 + ((c - 0xd800) << 10) + (low - 0xdc00);
              at += 2;
            }
        }
      if (c < 0x80)
        g_string_append_c (out, (char)c);
      else
        g_string_append_unichar (out, c >= 0xd800 && c < 0xe000 ? 0xfffd : c);
    }
  text->data = (const guint8 *)out->str;
  text->size = out->len;
  return g_string_free (out, FALSE);
}

/**
 * lid_report_text_decode:
 * @bytes: a text in UTF-8, Latin-1, or UTF-16 with its byte order mark, as some shells write it
 * @text: (out): the text, without byte order mark
 *
 * Returns: (transfer full) (nullable): memory that @text borrows; NULL when it borrows @bytes
 */
char *
lid_report_text_decode (LidBytes bytes, LidBytes *text)
{
  if (lid_bytes_starts (bytes, "\xff\xfe", 2))
    return decode_utf16 (bytes, FALSE, text);
  if (lid_bytes_starts (bytes, "\xfe\xff", 2))
    return decode_utf16 (bytes, TRUE, text);
  *text = bytes;
  if (lid_bytes_starts (bytes, "\xef\xbb\xbf", 3))
    lid_bytes_slice (bytes, 3, bytes.size - 3, text);
  return NULL;
}

void
lid_report_text_lines (LidReportLines *lines, LidBytes text)
{
  lines->rest = text;
  lines->number = 0;
  lines->unclosed = FALSE;
}

/**
 * lid_report_text_next:
 * @lines: where we are
 * @line: (out): the next line, without indent, quote marks of mails ("> ", "| ") and trailing
 *   blanks; borrowed
 *
 * Returns: FALSE at the end
 */
gboolean
lid_report_text_next (LidReportLines *lines, LidBytes *line)
{
  const guint8 *from = lines->rest.data, *end, *last;

  if (lines->rest.size == 0)
    return FALSE;
  last = from + lines->rest.size;
  end = memchr (from, '\n', lines->rest.size);
  lines->unclosed = end == NULL;
  if (end == NULL)
    end = last;
  lines->rest.data = end < last ? end + 1 : last;
  lines->rest.size = (gsize)(last - lines->rest.data);
  lines->number++;
  for (;; from++)
    if (from + 1 < end && from[0] == 0xc2 && from[1] == 0xa0) /* no-break space */
      from++;
    else if (from == end || (*from > ' ' && *from != '>' && *from != '|' && *from != 0xa0))
      break;
  while (end > from && end[-1] <= ' ')
    end--;
  line->data = from;
  line->size = (gsize)(end - from);
  return TRUE;
}

/**
 * lid_report_text_holds:
 *
 * Returns: whether the text holds the mark somewhere
 */
gboolean
lid_report_text_holds (LidBytes text, const char *mark)
{
  gsize size = strlen (mark);
  const guint8 *at = text.data;

  while (text.size >= size)
    {
      at = memchr (text.data, mark[0], text.size - size + 1);
      if (at == NULL)
        return FALSE;
      if (memcmp (at, mark, size) == 0)
        return TRUE;
      text.size -= (gsize)(at + 1 - text.data);
      text.data = at + 1;
    }
  return FALSE;
}

gboolean
lid_report_text_starts (LidBytes line, const char *start)
{
  return lid_bytes_starts (line, start, strlen (start));
}

gboolean
lid_report_text_ends (LidBytes line, const char *end)
{
  gsize size = strlen (end);

  return line.size >= size && memcmp (line.data + line.size - size, end, size) == 0;
}
