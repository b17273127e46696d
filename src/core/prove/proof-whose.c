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
      for (guint k = 0; k < proof->slots->len; k++)
        {
          const LidProofSlot *other = proof->slots->pdata[k];

          if (other->seen != NULL && other->seen->serial != NULL
              && g_ascii_strcasecmp (other->seen->serial, slot->planned->serial) == 0)
            return TRUE;
        }
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
  proof->is_other |= !proof->is_cut && listed != proof->board->n_slots;
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
  if (!is_own)
    look_at_names (proof, map, listed);
}
