/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-whose.c — whether an inventory can be this machine's at all: its serials, its slots, their
 * names. A sibling with the same modules passes slot by slot. */
#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define LEAST_SERIALS 2u /* so many known ones all gone are no exchange any more (from memory) */

static void
note (LidProof *proof, char *text)
{
  g_ptr_array_add (proof->notes, text);
}

static gboolean
is_seen (const LidProof *proof, const char *serial)
{
  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      if (slot->seen != NULL && slot->seen->serial != NULL
          && g_ascii_strcasecmp (slot->seen->serial, serial) == 0)
        return TRUE;
    }
  return FALSE;
}

/* None of the serials that the plan knows is seen, though the machine tells serials. Returns
 * whether one is, and so it is this machine. */
static gboolean
look_at_serials (LidProof *proof)
{
  guint known = 0, told = 0;

  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      told += slot->seen != NULL && lid_proof_is_told_serial (slot->seen->serial);
      if (slot->planned == NULL || !lid_proof_is_told_serial (slot->planned->serial))
        continue;
      known++;
      if (is_seen (proof, slot->planned->serial))
        return TRUE;
    }
  if (known < LEAST_SERIALS || told < LEAST_SERIALS)
    return FALSE;
  proof->is_other = TRUE;
  proof->untold = g_strdup_printf (_ ("None of the %u serials that the plan knows is seen: this "
                                      "looks like another machine’s inventory. Look whether it was "
                                      "read from the machine of this job."),
                                   known);
  return FALSE;
}

/* Of this machine, and yet a module of the plan is gone and one like it sits in its slot. */
static void
look_at_strangers (LidProof *proof)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  g_autofree char *names = NULL;
  gboolean any = FALSE;

  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      if (slot->planned == NULL || slot->seen == NULL || lid_verdict_is_difference (slot->verdict)
          || !lid_proof_is_told_serial (slot->planned->serial)
          || !lid_proof_is_told_serial (slot->seen->serial)
          || is_seen (proof, slot->planned->serial))
        continue;
      any = slots[slot->slot] = TRUE;
    }
  if (!any)
    return;
  names = lid_proof_names (proof->board, slots);
  note (proof,
        g_strdup_printf (_ ("In these slots sits a module like the one planned, with another "
                            "serial, and the planned one is nowhere seen: %s."),
                         names));
}

static void
look_at_count (LidProof *proof, guint listed, guint told)
{
  if (told > listed && listed < proof->board->n_slots)
    {
      proof->is_cut = TRUE;
      note (proof, g_strdup_printf (_ ("The machine says it has %u slots and %u are listed: the "
                                       "inventory is not whole, so read it once more before hands "
                                       "go in."),
                                    told, listed));
    }
  else if (listed != proof->board->n_slots)
    note (proof,
          g_strdup_printf (_ ("The inventory lists %u slots and the board of the job has %u: "
                              "look whether it was read from the machine of this job."),
                           listed, proof->board->n_slots));
}

static void
look_at_names (LidProof *proof, const int *map, guint listed)
{
  guint known = 0;

  for (guint i = 0; i < listed; i++)
    known
        += map[i] != LID_NOWHERE && !((const LidProofSlot *)proof->slots->pdata[map[i]])->by_place;
  if (2 * known >= listed)
    return;
  if (!proof->is_cut && listed != proof->board->n_slots)
    {
      proof->is_other = TRUE;
      if (proof->untold == NULL)
        proof->untold
            = g_strdup (_ ("Neither the number of slots nor their names are those of this "
                           "board: this looks like another machine’s inventory."));
    }
  note (proof, g_strdup_printf (_ ("%u of the %u slots listed have names that the board of the job "
                                   "does not: look whether the inventory was read from the machine "
                                   "of this job."),
                                listed - known, listed));
}

/**
 * lid_proof_look_whose:
 * @map: as lid_proof_map() returns it
 *
 * Says before the verdicts what speaks against its being the machine of the job.
 */
void
lid_proof_look_whose (LidProof *proof, const LidInventory *inventory, const int *map)
{
  guint listed = inventory->devices->len, told = 0;
  gboolean is_own;

  if (listed == 0)
    return;
  for (guint i = 0; i < inventory->arrays->len; i++)
    {
      const LidArray *array = &g_array_index (inventory->arrays, LidArray, i);

      told += array->system_memory ? array->n_devices_told : 0;
    }
  is_own = look_at_serials (proof);
  look_at_count (proof, listed, told);
  if (is_own)
    look_at_strangers (proof);
  else
    look_at_names (proof, map, listed);
}
