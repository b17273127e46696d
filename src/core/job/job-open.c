/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job-open.c — the one way in: a job document, or an inventory that becomes a job.
 *
 * read → place → match → job. The command line and the window both come through here, so that the
 * same file is the same machine in both. */
#include "job/job-open.h"

#include "board/board-list.h"
#include "job/job-file.h"
#include "locators/locators.h"
#include "readers/readers.h"

#include <glib/gi18n-lib.h>

/* Reads, places, matches; the job is the caller's. */
static gboolean
take_inventory (LidInventory *inventory, const LidBoard *board, LidOpened *opened, GError **error)
{
  opened->inventory = inventory;
  lid_locators_place (inventory);
  opened->match = lid_match_inventory (inventory, board, error);
  if (opened->match == NULL)
    return FALSE;
  opened->job = lid_job_from_inventory (inventory, opened->match);
  return TRUE;
}

/**
 * lid_job_open_inventory:
 * @source: a file, a folder with the kernel's two table files, or "-"
 * @board: (nullable): the board to use; NULL: match or derive
 * @opened: (out): set to what was read; clear it with lid_job_opened_clear()
 * @error: one sentence with file, place and remedy
 *
 * Returns: whether anything could be read
 */
gboolean
lid_job_open_inventory (const char *source,
                        const LidBoard *board,
                        LidOpened *opened,
                        GError **error)
{
  LidInventory *inventory;

  *opened = (LidOpened){ NULL, NULL, NULL };
  inventory = lid_readers_read_path (source, error);
  if (inventory == NULL)
    return FALSE;
  if (take_inventory (inventory, board, opened, error))
    return TRUE;
  lid_job_opened_clear (opened);
  return FALSE;
}

/**
 * lid_job_open:
 * @source: a job document or an inventory; a file, a folder or "-"
 * @board: (nullable): id or file of the board to read an inventory with
 * @opened: (out): set to what was read; clear it with lid_job_opened_clear()
 * @error: one sentence with file, place and remedy
 *
 * Returns: whether anything could be read
 */
gboolean
lid_job_open (const char *source, const char *board, LidOpened *opened, GError **error)
{
  g_autoptr (LidBoard) given = NULL;
  g_autoptr (GBytes) bytes = NULL;
  const char *text;
  gsize size;

  *opened = (LidOpened){ NULL, NULL, NULL };
  if (board != NULL)
    {
      given = lid_board_list_load (board, error);
      if (given == NULL)
        return FALSE;
    }
  if (g_file_test (source, G_FILE_TEST_IS_DIR))
    return lid_job_open_inventory (source, given, opened, error);
  bytes = lid_readers_load (source, error);
  if (bytes == NULL)
    return FALSE;
  text = g_bytes_get_data (bytes, &size);
  if (lid_job_file_sniff (text, size))
    {
      opened->job = lid_job_file_parse (text, size, error);
      if (opened->job == NULL)
        g_prefix_error (error, "%s: ", source);
    }
  else
    {
      LidInventory *inventory
          = lid_readers_read_bytes ((LidBytes){ (const guint8 *)text, size }, source, error);
      if (inventory == NULL || !take_inventory (inventory, given, opened, error))
        lid_job_opened_clear (opened);
    }
  return opened->job != NULL;
}

void
lid_job_opened_clear (LidOpened *opened)
{
  g_clear_pointer (&opened->job, lid_job_free);
  g_clear_pointer (&opened->match, lid_match_free);
  g_clear_pointer (&opened->inventory, lid_inventory_free);
}
