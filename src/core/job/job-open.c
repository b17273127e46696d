/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job-open.c — the one way in: a job document, or an inventory that becomes a job.
 *
 * read → recall → place → match → job. The command line and the window both come through here, so
 * that the same file is the same machine in both. */
#include "job/job-open.h"

#include "job/job-board.h"
#include "job/job-file.h"
#include "locators/locators.h"
#include "readers/readers.h"

#include <glib/gi18n-lib.h>

/* What the user once learnt of a part number fills in what this inventory does not tell. */
static void
recall (LidInventory *inventory, const LidParts *parts)
{
  for (guint i = 0; parts != NULL && i < inventory->devices->len; i++)
    {
      LidDevice *device = inventory->devices->pdata[i];

      if (device->module != NULL)
        lid_parts_apply (parts, device->module);
    }
}

static gboolean
take_inventory (LidInventory *inventory,
                const LidBoard *board,
                const LidParts *parts,
                LidOpened *opened,
                GError **error)
{
  opened->inventory = inventory;
  recall (inventory, parts);
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
 * @parts: (nullable): the user's parts memory
 * @opened: (out): set to what was read; clear it with lid_job_opened_clear()
 * @error: one sentence with file, place and remedy
 *
 * Returns: whether anything could be read
 */
gboolean
lid_job_open_inventory (const char *source,
                        const LidBoard *board,
                        const LidParts *parts,
                        LidOpened *opened,
                        GError **error)
{
  LidInventory *inventory;

  *opened = (LidOpened){ NULL, NULL, NULL };
  inventory = lid_readers_read_path (source, error);
  if (inventory == NULL)
    return FALSE;
  if (take_inventory (inventory, board, parts, opened, error))
    return TRUE;
  lid_job_opened_clear (opened);
  return FALSE;
}

/**
 * lid_job_open_bytes:
 * @data: a job document or an inventory, as somebody pasted it
 * @size: its bytes
 * @source: what to call it, on the sheet and in complaints
 * @board: (nullable): the board to read an inventory with; NULL: match or derive. A job document
 * has its own
 * @parts: (nullable): the user's parts memory
 * @opened: (out): set to what was read; clear it with lid_job_opened_clear()
 * @error: one sentence with source, place and remedy
 *
 * Returns: whether anything could be read
 */
gboolean
lid_job_open_bytes (const void *data,
                    gsize size,
                    const char *source,
                    const LidBoard *board,
                    const LidParts *parts,
                    LidOpened *opened,
                    GError **error)
{
  *opened = (LidOpened){ NULL, NULL, NULL };
  if (lid_job_file_sniff (data, size))
    {
      opened->job = lid_job_file_parse (data, size, error);
      if (opened->job == NULL)
        g_prefix_error (error, "%s: ", source);
    }
  else
    {
      LidInventory *inventory
          = lid_readers_read_bytes ((LidBytes){ (const guint8 *)data, size }, source, error);
      if (inventory == NULL || !take_inventory (inventory, board, parts, opened, error))
        lid_job_opened_clear (opened);
    }
  return opened->job != NULL;
}

/**
 * lid_job_open:
 * @source: a job document or an inventory; a file, a folder or "-"
 * @board: (nullable): the board to read an inventory with; NULL: match or derive. A job document
 * has its own
 * @parts: (nullable): the user's parts memory
 * @opened: (out): set to what was read; clear it with lid_job_opened_clear()
 * @error: one sentence with file, place and remedy
 *
 * Returns: whether anything could be read
 */
gboolean
lid_job_open (const char *source,
              const LidBoard *board,
              const LidParts *parts,
              LidOpened *opened,
              GError **error)
{
  g_autoptr (GBytes) bytes = NULL;
  const char *text;
  gsize size;

  *opened = (LidOpened){ NULL, NULL, NULL };
  if (g_file_test (source, G_FILE_TEST_IS_DIR))
    return lid_job_open_inventory (source, board, parts, opened, error);
  bytes = lid_readers_load (source, error);
  if (bytes == NULL)
    return FALSE;
  text = g_bytes_get_data (bytes, &size);
  return lid_job_open_bytes (text, size, source, board, parts, opened, error);
}

/**
 * lid_job_open_offered:
 * @job: the job as it stands, made of what was opened; it may have been worked on since
 * @opened: what it was made of: an inventory, and the match that offers a board
 * @error: the inventory has none of that board's slots
 *
 * Returns: (transfer full) (nullable): the same job on the board that was offered, for
 * lid_edits_become()
 */
LidJob *
lid_job_open_offered (const LidJob *job, const LidOpened *opened, GError **error)
{
  const LidMatch *derived = opened->match;
  g_autoptr (LidMatch) match = NULL;
  g_autofree int *slot_of = g_new (int, job->board->n_slots);
  LidJob *moved;

  match = lid_match_inventory (opened->inventory, derived->offered, error);
  if (match == NULL)
    return NULL;
  for (guint i = 0; i < job->board->n_slots; i++)
    slot_of[i] = LID_NOWHERE;
  /* Taught meanwhile, the job counts its slots in another order: their ids are the same. */
  for (guint i = 0; i < opened->inventory->devices->len; i++)
    if (derived->slot_of_device[i] != LID_NOWHERE)
      {
        const char *id = derived->board->slots[derived->slot_of_device[i]].id;
        int slot = lid_board_find_slot (job->board, id);

        if (slot != LID_NOWHERE)
          slot_of[slot] = match->slot_of_device[i];
      }
  moved = lid_job_board_move (job, match->board, slot_of, error);
  if (moved == NULL)
    return NULL;
  g_free (moved->match);
  moved->match = g_strdup (lid_match_kind_to_text (match->kind));
  lid_job_remember (moved, "changed", _ ("board taken as offered: %s"), match->board->name);
  return moved;
}

void
lid_job_opened_clear (LidOpened *opened)
{
  g_clear_pointer (&opened->job, lid_job_free);
  g_clear_pointer (&opened->match, lid_match_free);
  g_clear_pointer (&opened->inventory, lid_inventory_free);
}
