/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-advice.c — what to try where a machine does not show what was planned, the cheapest first:
 * wait, read, seat again, change places, and parts last. The table of symptoms and the order are
 * shared/facts/population.md 7.1 and 7.2 (common practice, no source, but for what is named). */
#include "prove/proof.h"

#include "base/text.h"
#include "base/units.h"
#include "checks/assessment.h"
#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_NAMES 8

void
lid_proof_say (LidProof *proof, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  g_ptr_array_add (proof->advice, g_strdup_vprintf (format, arguments));
  va_end (arguments);
}

/**
 * lid_proof_names:
 * @slots: per slot of the board: 1 for those to name
 *
 * Returns: (transfer full): "A1, B1 and 6 more"
 */
char *
lid_proof_names (const LidBoard *board, const guint8 *slots)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < board->n_slots; i++)
    if (slots[i])
      g_ptr_array_add (names, (char *)lid_board_name_slot (board, i));
  return lid_text_join ((const char *const *)names->pdata, names->len, MOST_NAMES);
}

static const LidProofSlot *
slot_at (const LidProof *proof, guint slot)
{
  return proof->slots->len > slot ? proof->slots->pdata[slot] : NULL;
}

/* The slots of one verdict. */
static guint
mark (const LidProof *proof, LidVerdict verdict, guint8 *slots)
{
  guint n = 0;

  for (guint i = 0; i < proof->board->n_slots; i++)
    {
      const LidProofSlot *slot = slot_at (proof, i);

      slots[i] = slot != NULL && slot->verdict == verdict;
      n += slots[i];
    }
  return n;
}

/* A memory maker's FAQ KTM-012711-GEN-20: DDR5 training takes minutes, up to fifteen. */
static void
say_wait (LidProof *proof)
{
  lid_proof_say (
      proof, "%s",
      _ ("Before anything else: a black screen or a restart for up to 15 minutes after a "
         "change can be memory training and no fault."));
}

static void
say_hands (LidProof *proof)
{
  lid_proof_say (proof, "%s",
                 _ ("Before hands go in again: shut down, every cord out, wait until the standby "
                    "lamp is out, strap on; the machine maker's service guide and local rules come "
                    "first."));
}

static void
say_firmware (LidProof *proof)
{
  if (proof->firmware == NULL || proof->planned->firmware == NULL
      || strcmp (proof->firmware, proof->planned->firmware) == 0)
    return;
  lid_proof_say (proof,
                 _ ("The machine reports firmware %s where %s is planned: what the plan needs may "
                    "come with it."),
                 proof->firmware, proof->planned->firmware);
}

/* Whether what is seen elsewhere is what is planned here: by its serial, else by its part. */
static gboolean
is_planned_for (const LidProofSlot *slot, const LidModule *seen)
{
  const LidModule *planned = slot->planned;
  LidFact fact;

  if (planned == NULL || !lid_verdict_is_difference (slot->verdict)
      || lid_verdict_is_difference (lid_verdict_of (planned, seen, &fact)))
    return FALSE;
  if (planned->serial != NULL && seen->serial != NULL)
    return strcmp (planned->serial, seen->serial) == 0;
  return planned->part != NULL && g_strcmp0 (planned->part, seen->part) == 0;
}

/* A module in the wrong slot is no fault of the module. Each slot is named once. */
static void
say_moved (LidProof *proof)
{
  g_autofree guint8 *found = g_new0 (guint8, proof->board->n_slots + 1);

  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      if (slot->slot == LID_NOWHERE || slot->seen == NULL
          || (slot->verdict != LID_VERDICT_NOT_PLANNED && slot->verdict != LID_VERDICT_ANOTHER
              && slot->verdict != LID_VERDICT_SMALLER))
        continue;
      for (guint k = 0; k < proof->board->n_slots; k++)
        if (!found[k] && k != (guint)slot->slot && is_planned_for (slot_at (proof, k), slot->seen))
          {
            found[k] = TRUE;
            lid_proof_say (proof, _ ("What is planned for %s sits in %s: put it where it belongs."),
                           lid_board_name_slot (proof->board, k),
                           lid_board_name_slot (proof->board, (guint)slot->slot));
            break;
          }
    }
}

/* How much of a group of slots is planned, and whether all of it is missing; takes those out of
 * @left that are. */
static guint
all_missing (const LidProof *proof, const guint8 *group, guint8 *left)
{
  guint planned = 0;

  for (guint i = 0; i < proof->board->n_slots; i++)
    {
      const LidProofSlot *slot = slot_at (proof, i);

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
               "channel and hardly the modules. Look at how the processor is seated, a "
               "bent pin in its socket among it, before any module is blamed."),
            proof->board->sockets[channel->socket].name, channel->name);
    }
}

static gboolean
is_any (const guint8 *slots, guint n)
{
  return memchr (slots, TRUE, n) != NULL;
}

static void
say_missing (LidProof *proof)
{
  g_autofree guint8 *left = g_new0 (guint8, proof->board->n_slots + 1);
  guint n = mark (proof, LID_VERDICT_MISSING, left);

  if (n == 0)
    return;
  say_hands (proof);
  say_missing_sockets (proof, left);
  say_missing_channels (proof, left);
  if (is_any (left, proof->board->n_slots))
    {
      g_autofree char *names = lid_proof_names (proof->board, left);

      lid_proof_say (
          proof,
          _ ("Look whether the setup lists as disabled: %s. Then seat there once more, "
             "until both latches close by themselves, and clean the slot if it is dirty."),
          names);
      lid_proof_say (proof, "%s",
                     _ ("Still missing: change places with a module that is seen, in another "
                        "channel, one change per start. A fault that goes along is the module’s, "
                        "one that stays is the slot’s or lies behind it."));
    }
}

static void
say_others (LidProof *proof)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  guint n = mark (proof, LID_VERDICT_SMALLER, slots);
  g_autofree guint8 *more = g_new0 (guint8, proof->board->n_slots + 1);
  g_autofree char *names = NULL;

  n += mark (proof, LID_VERDICT_ANOTHER, more);
  for (guint i = 0; i < proof->board->n_slots; i++)
    slots[i] |= more[i];
  if (n == 0)
    return;
  names = lid_proof_names (proof->board, slots);
  lid_proof_say (proof,
                 _ ("Compare the labels of what sits in these slots with the pick list: %s. A "
                    "module taken from the wrong bin is the usual cause."),
                 names);
}

/* Why the population seen cannot run faster, where it is its own doing. */
static gboolean
say_own_limits (LidProof *proof)
{
  static const char *const causes[LID_N_CAPS] = {
    [LID_CAP_MODULE] = N_ ("The slowest module seen is rated no faster: all run at its rate. "
                           "Compare the labels."),
    [LID_CAP_TABLE] = N_ ("So many modules or ranks on a channel run no faster on this board."),
    [LID_CAP_PROCESSOR] = N_ ("The processor runs memory no faster."),
    [LID_CAP_BOARD] = N_ ("The board runs memory no faster."),
    [LID_CAP_FIRMWARE] = N_ ("The firmware level reported runs memory no faster."),
    [LID_CAP_SETUP] = N_ ("The setup is planned to hold memory at that rate."),
  };
  g_autoptr (LidAssessment) assessment = NULL;
  gboolean said = FALSE;

  if (proof->seen == NULL)
    return FALSE;
  assessment = lid_assessment_new_plain (&(LidQuestion){ proof->board, proof->seen, NULL });
  for (guint i = 0; i < assessment->figures.n_limits; i++)
    {
      const LidRateLimit *limit = &assessment->figures.limits[i];

      if (!limit->binding || limit->rate != proof->runs || causes[limit->what] == NULL)
        continue;
      lid_proof_say (proof, "%s", _ (causes[limit->what]));
      said = TRUE;
    }
  return said;
}

static void
say_slow (LidProof *proof)
{
  g_autofree char *runs = NULL, *expected = NULL;

  if (!lid_proof_is_slow (proof))
    return;
  runs = lid_units_rate (proof->runs);
  expected = lid_units_rate (proof->expected);
  lid_proof_say (proof, _ ("It runs at %s where %s is expected."), runs, expected);
  if (!say_own_limits (proof))
    lid_proof_say (
        proof, "%s",
        _ ("Look in the setup for a fixed memory rate (setup may call it MHz), a "
           "power profile or a voltage; then for one slow module, for it holds all back."));
}

static void
say_names (LidProof *proof)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  guint n = mark (proof, LID_VERDICT_OTHER_NAME, slots);
  g_autofree char *names = NULL;

  if (n == 0)
    return;
  names = lid_proof_names (proof->board, slots);
  lid_proof_say (proof,
                 _ ("The machine spells these slots in another way than the board does: %s. They "
                    "were told by the place in the name; compare with the print on the board."),
                 names);
}

/**
 * lid_proof_advise:
 * @proof: all its slots judged
 */
void
lid_proof_advise (LidProof *proof)
{
  gboolean is_short = proof->seen == NULL && !lid_proof_is_total_as_planned (proof);
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  gboolean is_missing = mark (proof, LID_VERDICT_MISSING, slots) > 0;

  if (is_missing || (is_short && proof->seen_mib < proof->fitted_mib))
    say_wait (proof);
  if (!proof->matches)
    say_firmware (proof);
  if (is_short && !is_missing)
    lid_proof_say_short (proof);
  say_moved (proof);
  say_missing (proof);
  say_others (proof);
  say_slow (proof);
  say_names (proof);
}
