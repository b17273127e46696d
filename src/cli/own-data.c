/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "own-data.h"

#include "output.h"

#include "board/board-list.h"

static LidParts *parts;
static gboolean tried;

static LidParts *
load_once (void)
{
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;

  if (tried)
    return parts;
  tried = TRUE;
  path = lid_parts_default_path ();
  parts = lid_parts_load (path, &error);
  if (parts == NULL)
    lid_complain ("%s", error->message);
  return parts;
}

/**
 * lid_own_parts:
 *
 * Returns: (transfer none) (nullable): the user's parts memory; NULL, after one complaint, where it
 * cannot be read
 */
const LidParts *
lid_own_parts (void)
{
  return load_once ();
}

/**
 * lid_own_parts_learn:
 * @module: has a part number
 *
 * Returns: whether its facts are remembered from now on; if not, it was said why
 */
gboolean
lid_own_parts_learn (const LidModule *module)
{
  g_autoptr (GError) error = NULL;
  LidParts *own = load_once ();

  if (own == NULL)
    return FALSE;
  lid_parts_learn (own, module);
  if (lid_parts_save (own, &error))
    return TRUE;
  lid_complain ("%s", error->message);
  return FALSE;
}

/**
 * lid_own_board:
 * @name: (nullable): id or file of a board
 * @board: (out) (transfer full): the board; NULL where no name was given
 *
 * Returns: FALSE, after a complaint, when there is no such board
 */
gboolean
lid_own_board (const char *name, LidBoard **board)
{
  g_autoptr (GError) error = NULL;

  *board = name != NULL ? lid_board_list_load (name, &error) : NULL;
  if (error == NULL)
    return TRUE;
  lid_complain ("%s", error->message);
  return FALSE;
}
