/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-moved.c — where a module that is planned for one slot is seen instead: by its serial, which
 * is its own; else by its part, where its slot shows something else and the other is not planned
 * so.
 */
#include "prove/proof-private.h"

#include <string.h>

/**
 * lid_proof_is_told_serial:
 * @serial: (nullable): as told
 *
 * Firmware fills the field with one character where it knows none (from memory).
 *
 * Returns: whether it can tell one module from another
 */
gboolean
lid_proof_is_told_serial (const char *serial)
{
  return serial != NULL && strlen (serial) > 2
         && strspn (serial, (char[]){ *serial, 0 }) < strlen (serial);
}

static gboolean
has_serial (const LidModule *module, const char *serial)
{
  return module != NULL && module->serial != NULL
         && g_ascii_strcasecmp (module->serial, serial) == 0;
}

/* The one slot where that serial is seen; none, where it is planned or seen twice. */
static int
find_serial (const LidProof *proof, const char *serial)
{
  int found = LID_NOWHERE;
  guint planned = 0;

  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      planned += has_serial (slot->planned, serial);
      if (!has_serial (slot->seen, serial))
        continue;
      if (found != LID_NOWHERE || slot->slot == LID_NOWHERE)
        return LID_NOWHERE;
      found = slot->slot;
    }
  return planned == 1 ? found : LID_NOWHERE;
}

static void
find_by_serial (LidProof *proof, guint8 *taken)
{
  for (guint k = 0; k < proof->board->n_slots; k++)
    {
      const LidProofSlot *slot = proof->slots->pdata[k];
      int seen_in;

      if (slot->planned == NULL || !lid_proof_is_told_serial (slot->planned->serial))
        continue;
      seen_in = find_serial (proof, slot->planned->serial);
      if (seen_in == LID_NOWHERE || seen_in == (int)k)
        continue;
      proof->seen_in[k] = seen_in;
      taken[seen_in] = TRUE;
    }
}

/* A module whose serial is known to be another cannot be the one planned. */
static gboolean
is_planned_for (const LidProofSlot *slot, const LidModule *seen)
{
  const LidModule *planned = slot->planned;
  LidFact fact;

  return planned != NULL && lid_verdict_is_difference (slot->verdict) && planned->part != NULL
         && g_strcmp0 (planned->part, seen->part) == 0
         && (planned->serial == NULL || seen->serial == NULL
             || g_ascii_strcasecmp (planned->serial, seen->serial) == 0)
         && !lid_verdict_is_difference (lid_verdict_of (planned, seen, &fact));
}

static gboolean
is_out_of_place (const LidProofSlot *slot)
{
  return slot->seen != NULL
         && (slot->verdict == LID_VERDICT_NOT_PLANNED || slot->verdict == LID_VERDICT_ANOTHER
             || slot->verdict == LID_VERDICT_SMALLER);
}

/* Whether what is seen in the slot is what is planned for another. */
gboolean
lid_proof_holds_another (const LidProof *proof, guint slot)
{
  for (guint k = 0; k < proof->board->n_slots; k++)
    if (proof->seen_in[k] == (int)slot)
      return TRUE;
  return FALSE;
}

/* A module in whose slot another sits, its own serial not told, is what sits where that other was.
 */
static void
find_exchanged (LidProof *proof, guint8 *taken)
{
  for (guint k = 0; k < proof->board->n_slots; k++)
    {
      const LidProofSlot *slot = proof->slots->pdata[k];

      if (slot->planned == NULL || slot->planned->serial != NULL || proof->seen_in[k] != LID_NOWHERE
          || !lid_proof_holds_another (proof, k))
        continue;
      for (guint i = 0; i < proof->board->n_slots && proof->seen_in[k] == LID_NOWHERE; i++)
        {
          const LidProofSlot *other = proof->slots->pdata[i];

          if (!taken[i] && proof->seen_in[i] == (int)k && other->seen != NULL
              && slot->planned->part != NULL
              && g_strcmp0 (slot->planned->part, other->seen->part) == 0)
            {
              proof->seen_in[k] = (int)i;
              taken[i] = TRUE;
            }
        }
    }
}

/**
 * lid_proof_find_moved:
 * @proof: its slots judged; seen_in is told
 */
void
lid_proof_find_moved (LidProof *proof)
{
  guint n = proof->board->n_slots;
  g_autofree guint8 *taken = g_new0 (guint8, n + 1);

  if (proof->slots->len < n || proof->seen == NULL)
    return;
  find_by_serial (proof, taken);
  find_exchanged (proof, taken);
  for (guint i = 0; i < n; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      for (guint k = 0; !taken[i] && is_out_of_place (slot) && k < n; k++)
        if (k != i && proof->seen_in[k] == LID_NOWHERE
            && is_planned_for (proof->slots->pdata[k], slot->seen))
          {
            proof->seen_in[k] = (int)i;
            taken[i] = TRUE;
          }
    }
}
