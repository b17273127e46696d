/* SPDX-License-Identifier: GPL-3.0-or-later */
/* label.c — from any text to a label, or to the field at fault.
 *
 * A text may begin with a quantity ("16x"). Behind it stands a QR text ("(L)…"), a label line, or
 * the short form. What has "PC" or a hyphen is held to the label's grammar, never to the short
 * form (product.md 11): so a misread label cannot pass as a handful of words. */
#include "facts/label.h"

#include "base/error.h"
#include "facts/label-cursor.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const forms[LID_LABEL_N_FORMS] = {
  [LID_LABEL_FULL] = "label",
  [LID_LABEL_SHORT] = "short-label",
  [LID_LABEL_QR] = "qr",
  [LID_LABEL_SHORT_FORM] = "short-form",
};

static const struct
{
  const char *text;
  const char *words;
} fields[LID_LABEL_N_FIELDS] = {
  [LID_LABEL_FIELD_TEXT] = { "text", N_ ("text") },
  [LID_LABEL_FIELD_QUANTITY] = { "quantity", N_ ("quantity") },
  [LID_LABEL_FIELD_CAPACITY] = { "capacity", N_ ("capacity") },
  [LID_LABEL_FIELD_RANKS] = { "ranks", N_ ("ranks") },
  [LID_LABEL_FIELD_STACK] = { "stack", N_ ("stacked dies") },
  [LID_LABEL_FIELD_CHIP_WIDTH] = { "chip_width", N_ ("chip width") },
  [LID_LABEL_FIELD_GENERATION] = { "generation", N_ ("generation") },
  [LID_LABEL_FIELD_VOLTAGE] = { "voltage", N_ ("voltage mark") },
  [LID_LABEL_FIELD_RATE] = { "rate", N_ ("rate") },
  [LID_LABEL_FIELD_GRADE] = { "grade", N_ ("timing grade") },
  [LID_LABEL_FIELD_TYPE] = { "type", N_ ("kind of module") },
  [LID_LABEL_FIELD_CL] = { "cl", N_ ("CAS latency") },
  [LID_LABEL_FIELD_CARD] = { "card", N_ ("raw card") },
  [LID_LABEL_FIELD_CARD_REVISION] = { "card_revision", N_ ("raw card revision") },
  [LID_LABEL_FIELD_SPD_REVISION] = { "spd_revision", N_ ("SPD revision") },
  [LID_LABEL_FIELD_MODULE_REVISION] = { "module_revision", N_ ("SPD module revision") },
  [LID_LABEL_FIELD_TEMPERATURE] = { "temperature", N_ ("temperature code") },
  [LID_LABEL_FIELD_MAKER_SUFFIX] = { "maker_suffix", N_ ("maker's suffix") },
  [LID_LABEL_FIELD_SERIAL] = { "serial", N_ ("serial number") },
  [LID_LABEL_FIELD_PART] = { "part", N_ ("part number") },
  [LID_LABEL_FIELD_MAKER] = { "maker", N_ ("maker") },
};

/**
 * lid_label_form_to_text:
 *
 * Returns: the form's word in JSON, product.md 11
 */
const char *
lid_label_form_to_text (LidLabelForm form)
{
  g_return_val_if_fail ((guint)form < LID_LABEL_N_FORMS, NULL);
  return forms[form];
}

/**
 * lid_label_field_to_text:
 *
 * Returns: the field's word in JSON
 */
const char *
lid_label_field_to_text (LidLabelField field)
{
  g_return_val_if_fail ((guint)field < LID_LABEL_N_FIELDS, NULL);
  return fields[field].text;
}

/**
 * lid_label_field_to_words:
 *
 * Returns: the field's name in the reader's language
 */
const char *
lid_label_field_to_words (LidLabelField field)
{
  g_return_val_if_fail ((guint)field < LID_LABEL_N_FIELDS, NULL);
  return _ (fields[field].words);
}

/* "16x ", "16 x ", "16×": figures, maybe blanks, then a cross. Anything else is left alone. */
static gboolean
read_quantity (LidLabelCursor *cursor, LidLabel *label)
{
  const char *start = cursor->at;
  guint n, quantity;

  label->quantity = 1;
  n = lid_label_cursor_digits (cursor, &quantity);
  lid_label_cursor_skip_blanks (cursor);
  if (n > 0
      && (lid_label_cursor_take (cursor, 'x') || lid_label_cursor_take (cursor, 'X')
          || (cursor->end - cursor->at >= 2 && memcmp (cursor->at, "\xc3\x97", 2) == 0
              && (cursor->at += 2) != NULL)))
    {
      if (*start == '0' || quantity > LID_LABEL_MAX_QUANTITY)
        return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_QUANTITY, start, cursor->at,
                                        _ ("1 to 9999, as in 16x"), NULL);
      label->quantity = quantity;
      lid_label_cursor_skip_blanks (cursor);
    }
  else
    cursor->at = start;
  return TRUE;
}

static gboolean
is_label_line (const char *at, const char *end)
{
  for (; at < end; at++)
    if (*at == '-' || (end - at >= 2 && g_ascii_strncasecmp (at, "PC", 2) == 0))
      return TRUE;
  return FALSE;
}

static gboolean
check_bytes (LidLabelCursor *cursor)
{
  for (const char *at = cursor->at; at < cursor->end; at++)
    if (((guchar)*at < ' ' && *at != '\t') || *at == 0x7f)
      return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_TEXT, at, at + 1,
                                      _ ("letters, figures, blanks and hyphens"),
                                      _ ("The text holds a control character."));
  if (cursor->at == cursor->end)
    return lid_label_cursor_refuse (cursor, LID_LABEL_FIELD_TEXT, cursor->at, cursor->at,
                                    _ ("a label, as in 32GB 2Rx4 PC4-3200AA-RB2-12"), NULL);
  return TRUE;
}

/* Private, see label-cursor.h: @text must be NUL-terminated at @size or behind it. */
gboolean
lid_label_parse_plain (
    const char *text, gsize size, LidLabel *label, LidLabelFault *fault, GError **error)
{
  LidLabelCursor cursor
      = { .text = text, .at = text, .end = text + size, .fault = fault, .error = error };

  memset (label, 0, sizeof *label);
  while (cursor.at < cursor.end && g_ascii_isspace (*cursor.at))
    cursor.at++;
  while (cursor.end > cursor.at && g_ascii_isspace (cursor.end[-1]))
    cursor.end--;
  if (!check_bytes (&cursor) || !read_quantity (&cursor, label))
    return FALSE;
  if (!lid_label_cursor_at_end (&cursor) && *cursor.at == '(')
    return lid_label_qr_read (&cursor, label);
  if (is_label_line (cursor.at, cursor.end))
    return lid_label_line_read (&cursor, label);
  return lid_label_short_read (&cursor, label);
}

static void
add_hint (GError *error, const char *text, gsize size)
{
  g_autofree char *label = lid_label_hint_find (text, size);
  g_autofree char *words = label == NULL ? lid_label_hint_words (text, size) : NULL;
  g_autofree char *message = error->message;

  if (label != NULL)
    error->message
        = g_strdup_printf (_ ("%s. If “%s” is printed there, enter that."), message, label);
  else if (words != NULL)
    error->message = g_strdup_printf (_ ("%s. A hyphen means a label; as a short form enter “%s”."),
                                      message, words);
  else
    message = NULL;
}

/**
 * lid_label_parse:
 * @text: (nullable): bytes from anywhere: a keyboard, a scanner, a file; NULL only with size 0
 * @size: how many, or -1 up to the NUL
 * @label: (out): the label; zeroed where the text is refused
 * @fault: (out) (optional): the field at fault and where it stands
 * @error: LID_ERROR_BAD_FORMAT: names the field, what was read and what is taken; where a slip of
 * a scanner explains it (B for 8, O for 0, A for 4), also the label it may have been.
 * LID_ERROR_TOO_LARGE above LID_LABEL_MAX_BYTES
 *
 * Grammar: facts/module_label.md section 5.
 *
 * Returns: whether the text is a label or a short form
 */
gboolean
lid_label_parse (
    const char *text, gssize size, LidLabel *label, LidLabelFault *fault, GError **error)
{
  gsize length = size < 0 ? strlen (text) : (gsize)size;
  LidLabelFault own = { 0 };
  char copy[LID_LABEL_MAX_BYTES + 1];
  g_autoptr (GError) inner = NULL;

  if (fault == NULL)
    fault = &own;
  *fault = own;
  if (length > LID_LABEL_MAX_BYTES)
    {
      memset (label, 0, sizeof *label);
      g_set_error (error, LID_ERROR, LID_ERROR_TOO_LARGE,
                   _ ("text: longer than %d bytes, so no label"), LID_LABEL_MAX_BYTES);
      return FALSE;
    }
  if (length > 0)
    memcpy (copy, text, length);
  copy[length] = 0;
  if (lid_label_parse_plain (copy, length, label, fault, &inner))
    return TRUE;
  memset (label, 0, sizeof *label);
  add_hint (inner, copy, length);
  g_propagate_error (error, g_steal_pointer (&inner));
  return FALSE;
}
