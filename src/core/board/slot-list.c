/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/slot-list.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>

/**
 * lid_slot_list_mark:
 * @board: whose slots
 * @list: ids or names with commas between them; spaces and empty words are passed over
 * @marks: (inout): per slot; those listed become TRUE, the others stay as they are
 * @error: LID_ERROR_NOT_FOUND: a word is no slot, or the name of several
 *
 * Returns: whether each word is a slot
 */
gboolean
lid_slot_list_mark (const LidBoard *board, const char *list, guint8 *marks, GError **error)
{
  g_auto (GStrv) words = g_strsplit (list, ",", -1);

  for (guint i = 0; words[i] != NULL; i++)
    {
      int slot = lid_board_find_slot (board, g_strstrip (words[i]));

      if (*words[i] == 0)
        continue;
      if (slot == LID_NOWHERE)
        {
          g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
                       _ ("the board has no slot “%s”, or several of that name; lidleaf-cli check "
                          "names its slots"),
                       words[i]);
          return FALSE;
        }
      marks[slot] = TRUE;
    }
  return TRUE;
}
