/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-finish.c — all slots are judged: is anything other than planned, and was enough told to say
 * that nothing is. */
#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>

/* Modules whose size the machine does not tell: what it uses of them nobody knows. */
static char *
find_sizes_untold (const LidProof *proof)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  g_autofree char *names = NULL;
  guint n = 0;

  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      if (slot->slot == LID_NOWHERE || slot->seen == NULL || slot->planned == NULL
          || lid_verdict_is_difference (slot->verdict)
          || lid_module_knows (slot->seen, LID_FACT_CAPACITY)
          || !lid_module_knows (slot->planned, LID_FACT_CAPACITY))
        continue;
      slots[slot->slot] = TRUE;
      n++;
    }
  if (n == 0)
    return NULL;
  names = lid_proof_names (proof->board, slots);
  return g_strdup_printf (_ ("The machine does not tell the size of what is in these slots: %s. It "
                             "may use less than is fitted; read the total on the setup screen and "
                             "tell it with --seen-total."),
                          names);
}

static char *
find_untold (const LidProof *proof)
{
  if (proof->seen == NULL)
    return proof->seen_mib >= 0 || proof->slots->len > 0
               ? NULL
               : g_strdup (_ ("A rate alone tells nothing of what is fitted: read the total or the "
                              "list of slots too, and tell it with --seen-total or --seen-slots."));
  if (proof->slots->len == 0)
    return g_strdup (_ ("The inventory lists no memory device, so no slot can be judged: read the "
                        "machine once more with all its tables, or read the setup screen and tell "
                        "its total with --seen-total."));
  return find_sizes_untold (proof);
}

/**
 * lid_proof_finish:
 *
 * All slots are judged: does it match, and what to try. What is not told never counts as planned; a
 * sum that is short without a slot that differs comes of a size that is not told.
 */
void
lid_proof_finish (LidProof *proof)
{
  if (proof->untold == NULL)
    proof->untold = find_untold (proof);
  proof->differs = proof->seen == NULL
                   && (!lid_proof_is_total_as_planned (proof) || lid_proof_is_slow (proof));
  for (guint i = 0; i < proof->slots->len; i++)
    proof->differs
        |= lid_verdict_is_difference (((const LidProofSlot *)proof->slots->pdata[i])->verdict);
  proof->matches = !proof->differs && proof->untold == NULL;
  lid_proof_find_moved (proof);
  lid_proof_advise (proof);
}
