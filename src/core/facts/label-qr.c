/* SPDX-License-Identifier: GPL-3.0-or-later */
/* label-qr.c — the text of the QR code beside the label: "(L)label(S)serial(P)part(M)maker", one
 * string without separators. Tags come in any order and either case, each at most once; only (L)
 * must be there. Seen on real modules: facts/module_label.md section 5. */
#include "facts/label-cursor.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
is_tag (const char *at, const char *end)
{
  return end - at >= 3 && at[0] == '(' && g_ascii_isalpha (at[1]) && at[2] == ')';
}

static gboolean
keep_text (LidLabelCursor *cursor, LidLabelField field, char *out)
{
  gsize length = (gsize)(cursor->end - cursor->at);

  for (gsize i = 0; i < length; i++)
    if (cursor->at[i] < ' ' || cursor->at[i] > '~')
      return lid_label_cursor_refuse (cursor, field, cursor->at, cursor->end,
                                      _ ("plain letters and figures"), NULL);
  if (length > LID_LABEL_MAX_TAG)
    return lid_label_cursor_refuse (cursor, field, cursor->at, cursor->end,
                                    _ ("at most 64 characters"), NULL);
  memcpy (out, cursor->at, length);
  out[length] = 0;
  return TRUE;
}

static gboolean
read_tag (LidLabelCursor *cursor, char tag, LidLabel *label)
{
  while (cursor->at < cursor->end && g_ascii_isspace (*cursor->at))
    cursor->at++;
  while (cursor->end > cursor->at && g_ascii_isspace (cursor->end[-1]))
    cursor->end--;
  switch (tag)
    {
    case 'L':
      return lid_label_line_read (cursor, label);
    case 'S':
      return keep_text (cursor, LID_LABEL_FIELD_SERIAL, label->serial);
    case 'P':
      return keep_text (cursor, LID_LABEL_FIELD_PART, label->part);
    default:
      return keep_text (cursor, LID_LABEL_FIELD_MAKER, label->maker);
    }
}

/**
 * lid_label_qr_read:
 * @cursor: at the first bracket
 *
 * Returns: whether the text is that of a module's QR code
 */
gboolean
lid_label_qr_read (LidLabelCursor *cursor, LidLabel *label)
{
  const char *end = cursor->end, *start = cursor->at;
  const char *taken = _ ("(L), (S), (P) and (M), each once");
  char seen[5] = "";

  for (const char *at = start; at < end;)
    {
      const char *next = at + 3;
      char tag = is_tag (at, end) ? g_ascii_toupper (at[1]) : 0;

      if (tag == 0 || strchr ("LSPM", tag) == NULL || strchr (seen, tag) != NULL)
        return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_TEXT, at, MIN (at + 3, end), taken,
                                        NULL);
      seen[strlen (seen)] = tag;
      while (next < end && !is_tag (next, end))
        next++;
      cursor->at = at + 3;
      cursor->end = next;
      if (!read_tag (cursor, tag, label))
        return FALSE;
      at = next;
    }
  cursor->at = cursor->end = end;
  if (strchr (seen, 'L') == NULL)
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_TEXT, end, end,
                                    _ ("(L) and the label behind it"), NULL);
  if (label->quantity > 1 && label->serial[0] != 0)
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_QUANTITY, cursor->text, start,
                                    _ ("one module, because a serial number is one module's"),
                                    NULL);
  label->form = LID_LABEL_QR;
  return TRUE;
}
