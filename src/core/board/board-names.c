/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-names.h"

#include <string.h>

static void
append_folded (GString *out, const char *text)
{
  if (text == NULL || strcmp (text, "Not Specified") == 0)
    return;
  for (const char *p = text; *p != 0; p++)
    if (*p != ' ' || (p != text && p[-1] != ' ' && p[1] != 0))
      g_string_append_c (out, *p);
}

/**
 * lid_board_names_add:
 * @lines: (element-type utf8): where the slot's line goes
 * @locator: (nullable): the slot's locator
 * @bank: (nullable): its bank; NULL leaves the bank out
 */
void
lid_board_names_add (GPtrArray *lines, const char *locator, const char *bank)
{
  GString *line = g_string_new (NULL);

  append_folded (line, locator);
  g_string_append_c (line, '|');
  append_folded (line, bank);
  g_string_append_c (line, '\n');
  g_ptr_array_add (lines, g_string_free (line, FALSE));
}

static int
compare_lines (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/**
 * lid_board_names_hash:
 * @lines: (element-type utf8): what lid_board_names_add() made; is sorted
 *
 * Returns: (transfer full): 64 hex digits
 */
char *
lid_board_names_hash (GPtrArray *lines)
{
  g_autoptr (GChecksum) checksum = g_checksum_new (G_CHECKSUM_SHA256);

  g_ptr_array_sort (lines, compare_lines);
  for (guint i = 0; i < lines->len; i++)
    g_checksum_update (checksum, lines->pdata[i], -1);
  return g_strdup (g_checksum_get_string (checksum));
}

/**
 * lid_board_names_of_spellings:
 * @board: a board
 * @with_banks: whether the banks count
 *
 * Returns: (transfer full) (nullable): the hash a machine with this board's smbios spellings has;
 * NULL when they do not name every slot exactly once
 */
char *
lid_board_names_of_spellings (const LidBoard *board, gboolean with_banks)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);
  g_autofree guint8 *seen = g_new0 (guint8, board->n_slots + 1);

  for (guint i = 0; i < board->n_spellings; i++)
    {
      const LidSpelling *spelling = &board->spellings[i];

      if (strcmp (spelling->format, "smbios") != 0)
        continue;
      if (seen[spelling->slot]++)
        return NULL;
      lid_board_names_add (lines, spelling->locator, with_banks ? spelling->bank : NULL);
    }
  return lines->len == board->n_slots ? lid_board_names_hash (lines) : NULL;
}
