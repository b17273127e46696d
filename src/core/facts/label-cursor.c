/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/label-cursor.h"

#include "base/error.h"
#include "base/text.h"

#include <glib/gi18n-lib.h>

#define SHOWN_BYTES 40 /* of what was read, in a complaint */

/**
 * lid_label_cursor_refuse:
 * @cursor: a cursor
 * @field: the field at fault
 * @start: first byte of what was read
 * @stop: behind its last byte; @start where the field is missing
 * @taken: (nullable): what the grammar takes there, translated
 * @remedy: (nullable): one more sentence, translated
 *
 * Returns: FALSE, always
 */
gboolean
lid_label_cursor_refuse (LidLabelCursor *cursor,
                         LidLabelField field,
                         const char *start,
                         const char *stop,
                         const char *taken,
                         const char *remedy)
{
  g_autofree char *read = lid_text_clean (start, MIN (stop - start, SHOWN_BYTES));
  const char *name = lid_label_field_to_words (field);
  GString *message;

  cursor->fault->field = field;
  cursor->fault->start = (gsize)(start - cursor->text);
  cursor->fault->length = (gsize)(stop - start);
  if (cursor->error == NULL)
    return FALSE;
  message = g_string_new (NULL);
  if (taken == NULL)
    g_string_printf (message, _ ("%s: “%s” cannot stand here"), name, read);
  else if (*read == 0)
    g_string_printf (message, _ ("%s: missing; expected: %s"), name, taken);
  else
    g_string_printf (message, _ ("%s: read “%s”; expected: %s"), name, read, taken);
  if (remedy != NULL)
    g_string_append_printf (message, ". %s", remedy);
  g_set_error_literal (cursor->error, LID_ERROR, LID_ERROR_BAD_FORMAT, message->str);
  g_string_free (message, TRUE);
  return FALSE;
}

gboolean
lid_label_cursor_at_end (const LidLabelCursor *cursor)
{
  return cursor->at >= cursor->end;
}

gboolean
lid_label_cursor_take (LidLabelCursor *cursor, char c)
{
  if (cursor->at >= cursor->end || *cursor->at != c)
    return FALSE;
  cursor->at++;
  return TRUE;
}

void
lid_label_cursor_skip_blanks (LidLabelCursor *cursor)
{
  while (cursor->at < cursor->end && (*cursor->at == ' ' || *cursor->at == '\t'))
    cursor->at++;
}

/**
 * lid_label_cursor_run_end:
 *
 * Returns: where the field that begins at the cursor ends: before the next hyphen or blank
 */
const char *
lid_label_cursor_run_end (const LidLabelCursor *cursor)
{
  const char *stop = cursor->at;

  while (stop < cursor->end && *stop != '-' && *stop != ' ' && *stop != '\t')
    stop++;
  return stop;
}

/**
 * lid_label_cursor_digits:
 * @value: (out): the number, held at 99999999 where there are more digits
 *
 * Returns: how many digits were taken
 */
guint
lid_label_cursor_digits (LidLabelCursor *cursor, guint *value)
{
  guint n = 0;

  *value = 0;
  for (; cursor->at < cursor->end && g_ascii_isdigit (*cursor->at); cursor->at++, n++)
    *value = n < 8 ? *value * 10 + (guint)(*cursor->at - '0') : 99999999;
  return n;
}
