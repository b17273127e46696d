/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-missing.c — what to do about modules that are not seen: read the setup, then seat, then
 * change places; a whole processor or channel is no module's fault (population.md 7.2). */
#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* How much of a group of slots is planned, and whether all of it is missing; takes those out of
 * @left that are. */
static guint
all_missing (const LidProof *proof, const guint8 *group, guint8 *left)
{
  guint planned = 0;

  for (guint i = 0; i < proof->board->n_slots; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      if (!group[i] || slot->planned == NULL)
        continue;
      if (slot->verdict != LID_VERDICT_MISSING)
        return 0;
      planned++;
    }
  for (guint i = 0; planned > 1 && i < proof->board->n_slots; i++)
    if (group[i])
      left[i] = FALSE;
  return planned;
}

/* A processor of several that shows none of its memory. */
static void
say_missing_sockets (LidProof *proof, guint8 *left)
{
  g_autofree guint8 *group = g_new0 (guint8, proof->board->n_slots + 1);

  for (guint s = 0; proof->board->n_sockets > 1 && s < proof->board->n_sockets; s++)
    {
      for (guint i = 0; i < proof->board->n_slots; i++)
        group[i] = proof->board->slots[i].socket == (int)s;
      if (all_missing (proof, group, left) > 1)
        lid_proof_say (proof,
                       _ ("Nothing of the memory of processor %s is seen: is the processor fitted "
                          "and seated, and its memory enabled in the setup?"),
                       proof->board->sockets[s].name);
    }
}

static void
say_missing_channels (LidProof *proof, guint8 *left)
{
  g_autofree guint8 *group = g_new0 (guint8, proof->board->n_slots + 1);

  for (guint c = 0; c < proof->board->n_channels; c++)
    {
      const LidBoardChannel *channel = &proof->board->channels[c];
      gboolean open = FALSE;

      memset (group, 0, proof->board->n_slots);
      for (guint k = 0; k < channel->n_slots; k++)
        {
          group[channel->slots[k]] = TRUE;
          open |= left[channel->slots[k]];
        }
      if (open && all_missing (proof, group, left) > 1)
        lid_proof_say (
            proof,
            _ ("All modules of processor %s, channel %s are missing at once: that is the "
               "channel and hardly the modules. Where modules were just fitted there and the "
               "processor was not touched, seat those once more first; then look at how the "
               "processor is seated, a bent pin in its socket among it, before any module is "
               "blamed."),
            proof->board->sockets[channel->socket].name, channel->name);
    }
}

/**
 * lid_proof_say_disabled:
 * @slots: per slot of the board: 1: missing, and not seen elsewhere; none: nothing is said
 *
 * A look that needs no hands: a slot disabled after a fault stays so until somebody enables it
 * (population.md 7.1, S40 in its source).
 */
void
lid_proof_say_disabled (LidProof *proof, const guint8 *slots)
{
  g_autofree char *names = NULL;

  if (memchr (slots, TRUE, proof->board->n_slots) == NULL)
    return;
  names = lid_proof_names (proof->board, slots);
  lid_proof_say (proof, _ ("Look whether the setup lists as disabled: %s."), names);
}

/**
 * lid_proof_say_missing:
 * @slots: as for lid_proof_say_disabled()
 */
void
lid_proof_say_missing (LidProof *proof, const guint8 *slots)
{
  g_autofree guint8 *left = g_memdup2 (slots, proof->board->n_slots + 1);
  g_autofree char *names = NULL;

  if (memchr (slots, TRUE, proof->board->n_slots) == NULL)
    return;
  lid_proof_say_hands (proof);
  say_missing_sockets (proof, left);
  say_missing_channels (proof, left);
  if (memchr (left, TRUE, proof->board->n_slots) == NULL)
    return;
  names = lid_proof_names (proof->board, left);
  lid_proof_say (proof,
                 _ ("Seat once more what is in these slots, until both latches close by "
                    "themselves, and clean the slot if it is dirty: %s."),
                 names);
  lid_proof_say (proof, "%s",
                 _ ("Still missing: change places with a module that is seen, in another channel, "
                    "one change per start. A fault that goes along is the module’s, one that stays "
                    "is the slot’s or lies behind it."));
}
