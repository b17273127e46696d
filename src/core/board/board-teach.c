/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-teach.h"

#include "board/board-derive.h"
#include "board/board-file.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* "/srv/Heron 1.json" → "heron-1"; NULL when nothing is left of it. */
static char *
id_of (const char *name)
{
  g_autofree char *base = g_path_get_basename (name);
  GString *id = g_string_new (NULL);

  if (g_str_has_suffix (base, ".json"))
    base[strlen (base) - strlen (".json")] = 0;
  for (const char *p = base; *p != 0 && id->len < 64; p++)
    if (g_ascii_isalnum (*p))
      g_string_append_c (id, g_ascii_tolower (*p));
    else if (id->len > 0 && id->str[id->len - 1] != '-')
      g_string_append_c (id, '-');
  while (id->len > 0 && id->str[id->len - 1] == '-')
    g_string_truncate (id, id->len - 1);
  return g_string_free (id, id->len == 0);
}

/**
 * lid_board_teach:
 * @inventory: a machine whose places were taught (locators/teach.h)
 * @order: (nullable) (element-type utf8): slot ids in the order of fitting, where it was taught
 * @pattern: (nullable): by what it was taught, told in the board
 * @name: (nullable): the file it will lie in; its id is made of it. NULL: of the slots' names
 *
 * Serials stay behind: a board may be given away.
 *
 * Returns: (transfer full): the board, with the machine's fingerprint
 */
LidBoard *
lid_board_teach (const LidInventory *inventory,
                 const GPtrArray *order,
                 const char *pattern,
                 const char *name)
{
  LidBoard *board = lid_board_derive (inventory, order);
  char *id = name != NULL ? id_of (name) : NULL;

  if (id != NULL)
    {
      g_free (board->id);
      board->id = id;
    }
  if (pattern != NULL)
    {
      g_free (board->about);
      board->about = g_strdup_printf (_ ("Taught by the pattern %s."), pattern);
    }
  board->json = lid_board_file_to_node (board);
  board->hash = lid_board_file_hash (board->json);
  return board;
}
