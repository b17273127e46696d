/* SPDX-License-Identifier: GPL-3.0-or-later */
/* teach-parse.c — a numbering pattern as it is typed. */
#include "base/error.h"
#include "locators/teach-groups.h"
#include "locators/teach.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_COUNT 64
#define PATTERNS                                                                                   \
  "by-channel:N, first-slots-first:C, mirrored:C, letter-order, letter-socket, letter-socket:C, "  \
  "channels:A1+A2,B1+B2"

typedef struct
{
  const char *word;
  gboolean takes_count, needs_count;
} Spelling;

static const Spelling spellings[] = {
  [LID_TEACH_BY_CHANNEL] = { "by-channel", TRUE, TRUE },
  [LID_TEACH_FIRST_SLOTS_FIRST] = { "first-slots-first", TRUE, TRUE },
  [LID_TEACH_MIRRORED] = { "mirrored", TRUE, TRUE },
  [LID_TEACH_LETTER_ORDER] = { "letter-order", FALSE, FALSE },
  [LID_TEACH_LETTER_SOCKET] = { "letter-socket", TRUE, FALSE },
  [LID_TEACH_CHANNELS] = { "channels", TRUE, TRUE },
};

static gboolean
parse_count (
    const char *text, const char *digits, const Spelling *spelling, guint *count, GError **error)
{
  guint64 value = 0;

  *count = 0;
  if (*digits == 0 && !spelling->needs_count)
    return TRUE;
  if (!spelling->takes_count)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL, _ ("“%s”: %s takes no number"), text,
                   spelling->word);
      return FALSE;
    }
  if (*digits != ':' || !g_ascii_string_to_unsigned (digits + 1, 10, 1, MOST_COUNT, &value, NULL))
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("“%s”: %s needs a number from 1 to %d behind a colon, like %s:2"), text,
                   spelling->word, MOST_COUNT, spelling->word);
      return FALSE;
    }
  *count = (guint)value;
  return TRUE;
}

static gboolean
parse_groups (const char *text, const char *rest, LidTeachPattern *pattern, GError **error)
{
  g_autoptr (LidTeachGroups) groups = NULL;

  if (*rest != ':')
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("“%s”: channels needs the slots behind a colon, like channels:A1+A2,B1+B2"),
                   text);
      return FALSE;
    }
  pattern->groups = rest + 1;
  groups = lid_teach_groups_parse (pattern->groups, error);
  return groups != NULL;
}

/**
 * lid_teach_parse:
 * @text: a pattern as typed, like "first-slots-first:4"
 * @pattern: (out): what it says; good as long as @text
 * @error: LID_ERROR_BAD_CALL
 *
 * Returns: whether it is a pattern
 */
gboolean
lid_teach_parse (const char *text, LidTeachPattern *pattern, GError **error)
{
  gsize size = strcspn (text, ":");

  for (guint i = 0; i < G_N_ELEMENTS (spellings); i++)
    if (strlen (spellings[i].word) == size && strncmp (spellings[i].word, text, size) == 0)
      {
        pattern->kind = i;
        pattern->groups = NULL;
        pattern->count = 0;
        if (i == LID_TEACH_CHANNELS)
          return parse_groups (text, text + size, pattern, error);
        if (!parse_count (text, text + size, &spellings[i], &pattern->count, error))
          return FALSE;
        if (i != LID_TEACH_MIRRORED || pattern->count % 2 == 0)
          return TRUE;
        g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                     _ ("“%s”: two sides need an even number of channels"), text);
        return FALSE;
      }
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
               _ ("“%s” is no numbering pattern; there are %s"), text, PATTERNS);
  return FALSE;
}
