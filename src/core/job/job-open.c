/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job-open.c — the one way in: a job document, or an inventory that becomes a job.
 *
 * read → recall → place → match → job. The command line and the window both come through here, so
 * that the same file is the same machine in both. */
#include "job/job-open.h"

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
      if (inventory == NULL || !take_inventory (inventory, board, parts, opened, error))
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
