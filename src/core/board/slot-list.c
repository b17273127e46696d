/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/slot-list.h"

#include "base/error.h"
#include "base/text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_NAMES 8

/* The same word in other case, where it is one slot's alone. */
static int
find_folded (const LidBoard *board, const char *word)
{
  int found = LID_NOWHERE;

  for (guint i = 0; i < board->n_slots; i++)
    if (lid_text_equal_folded (board->slots[i].id, word)
        || lid_text_equal_folded (lid_board_name_slot (board, i), word))
      {
        if (found != LID_NOWHERE)
          return LID_NOWHERE;
        found = (int)i;
      }
  return found;
}

/* Slots that have the word in their id, whatever its case: who types A1 may mean DIMM_A1. */
static void
collect_close (const LidBoard *board, const char *word, GPtrArray *names)
{
  g_autofree char *folded = g_utf8_casefold (word, -1);

  for (guint i = 0; i < board->n_slots; i++)
    {
      g_autofree char *id = g_utf8_casefold (board->slots[i].id, -1);

      if (*folded != 0 && strstr (id, folded) != NULL)
        g_ptr_array_add (names, board->slots[i].id);
    }
}

static void
fail (const LidBoard *board, const char *word, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *list = NULL;

  collect_close (board, word, names);
  if (names->len > 0)
    {
      list = lid_text_join ((const char *const *)names->pdata, names->len, MOST_NAMES);
      g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
                   _ ("the board has no slot “%.60s”, or several of that name; like it are: %s"),
                   word, list);
      return;
    }
  for (guint i = 0; i < board->n_slots; i++)
    g_ptr_array_add (names, board->slots[i].id);
  list = lid_text_join ((const char *const *)names->pdata, names->len, MAX (names->len, 1));
  g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
               _ ("the board has no slot “%.60s”, or several of that name; its slots are: %s"),
               word, list);
}

/**
 * lid_slot_list_mark:
 * @board: whose slots
 * @list: ids or names with commas between them; spaces and empty words are passed over, and so is
 *   case where a name is one slot's all the same
 * @marks: (inout): per slot; those listed become TRUE, the others stay as they are
 * @error: LID_ERROR_NOT_FOUND: a word is no slot, or the name of several; names those like it
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
        slot = find_folded (board, words[i]);
      if (slot == LID_NOWHERE)
        {
          fail (board, words[i], error);
          return FALSE;
        }
      marks[slot] = TRUE;
    }
  return TRUE;
}
