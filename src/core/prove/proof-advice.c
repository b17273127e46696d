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

/**
 * lid_proof_mark:
 * @slots: (out): per slot of the board: 1 for those of the verdict
 *
 * Returns: how many
 */
guint
lid_proof_mark (const LidProof *proof, LidVerdict verdict, guint8 *slots)
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

/**
 * lid_proof_say_hands:
 *
 * The cautions, once, before the first sentence that sends hands into the machine.
 */
void
lid_proof_say_hands (LidProof *proof)
{
  if (proof->hands_told)
    return;
  proof->hands_told = TRUE;
  lid_proof_say (proof, "%s",
                 _ ("Before hands go in again: shut down, every cord out, wait until the standby "
                    "lamp is out, strap on; the machine maker’s service guide and local rules come "
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

/* A module in the wrong slot is no fault of the module. */
static void
say_moved (LidProof *proof)
{
  for (guint k = 0; k < proof->board->n_slots; k++)
    {
      const LidProofSlot *slot = slot_at (proof, k);

      if (proof->seen_in[k] == LID_NOWHERE || !lid_verdict_is_difference (slot->verdict))
        continue;
      lid_proof_say_hands (proof);
      lid_proof_say (proof, _ ("What is planned for %s sits in %s: put it where it belongs."),
                     lid_board_name_slot (proof->board, k),
                     lid_board_name_slot (proof->board, (guint)proof->seen_in[k]));
    }
}

/* By eye nobody reads what sits in a slot; with the total right, one empty and one too many are one
 * module in the wrong slot. */
static void
say_maybe_moved (LidProof *proof)
{
  g_autofree guint8 *missing = g_new0 (guint8, proof->board->n_slots + 1);
  g_autofree guint8 *extra = g_new0 (guint8, proof->board->n_slots + 1);
  g_autofree char *from = NULL, *to = NULL;
  guint n = lid_proof_mark (proof, LID_VERDICT_MISSING, missing);

  if (proof->seen != NULL || n == 0 || lid_proof_mark (proof, LID_VERDICT_NOT_PLANNED, extra) != n
      || !lid_proof_is_total_as_planned (proof))
    return;
  from = lid_proof_names (proof->board, extra);
  to = lid_proof_names (proof->board, missing);
  lid_proof_say_hands (proof);
  lid_proof_say (proof,
                 _ ("What is planned for %s may sit in %s: look at the labels, and put it where it "
                    "belongs, before anything is taken for missing."),
                 to, from);
}

/* The slots of a verdict that no module in the wrong slot explains; of a list that is cut, what is
 * not listed may well be there. */
static guint
mark_unsettled (const LidProof *proof, LidVerdict verdict, guint8 *slots)
{
  guint left = 0;

  lid_proof_mark (proof, verdict, slots);
  for (guint i = 0; i < proof->board->n_slots; i++)
    {
      if (slots[i] && verdict == LID_VERDICT_MISSING)
        slots[i]
            = proof->seen_in[i] == LID_NOWHERE && (!proof->is_cut || slot_at (proof, i)->listed);
      else if (slots[i])
        slots[i] = !lid_proof_holds_another (proof, i);
      left += slots[i];
    }
  return left;
}

static void
say_others (LidProof *proof)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  guint n = mark_unsettled (proof, LID_VERDICT_SMALLER, slots);
  g_autofree guint8 *more = g_new0 (guint8, proof->board->n_slots + 1);
  g_autofree char *names = NULL;

  n += mark_unsettled (proof, LID_VERDICT_ANOTHER, more);
  for (guint i = 0; i < proof->board->n_slots; i++)
    slots[i] |= more[i];
  if (n == 0)
    return;
  names = lid_proof_names (proof->board, slots);
  lid_proof_say_hands (proof);
  lid_proof_say (proof,
                 _ ("Compare the labels of what sits in these slots with the pick list: %s. A "
                    "module taken from the wrong bin is the usual cause."),
                 names);
}

static void
say_extra (LidProof *proof)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  guint n = mark_unsettled (proof, LID_VERDICT_NOT_PLANNED, slots);
  g_autofree char *names = NULL;

  if (n == 0)
    return;
  names = lid_proof_names (proof->board, slots);
  lid_proof_say_hands (proof);
  lid_proof_say (
      proof,
      _ ("The plan leaves these slots empty: %s. Look at the pull list for a module that "
         "was to come out, and take it out; or, if it is to stay, plan once more with "
         "it."),
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
      if (limit->what == LID_CAP_MODULE)
        lid_proof_say_hands (proof);
      lid_proof_say (proof, "%s", _ (causes[limit->what]));
      said = TRUE;
    }
  return said;
}

static void
say_slow (LidProof *proof)
{
  g_autofree char *runs = NULL, *expected = NULL;

  if (!lid_proof_is_slow (proof) || say_own_limits (proof))
    return;
  runs = lid_units_rate (proof->runs);
  expected = lid_units_rate (proof->expected);
  lid_proof_say (proof,
                 _ ("It runs at %s where %s is expected: look in the setup for a fixed memory rate "
                    "(setup may call it MHz), a power profile or a voltage; then for one slow "
                    "module, for it holds all back."),
                 runs, expected);
}

static void
say_names (LidProof *proof)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  guint n = lid_proof_mark (proof, LID_VERDICT_OTHER_NAME, slots);
  g_autofree char *names = NULL;

  if (n == 0)
    return;
  names = lid_proof_names (proof->board, slots);
  lid_proof_say (proof,
                 _ ("The machine spells these slots in another way than the board does: %s. They "
                    "were told by the place in the name; compare with the print on the board."),
                 names);
}

/* Modules in slots that are none of the board's. */
static void
say_strays (LidProof *proof)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *list = NULL;

  for (guint i = 0; i < proof->slots->len; i++)
    {
      LidProofSlot *slot = proof->slots->pdata[i];

      if (slot->slot == LID_NOWHERE)
        g_ptr_array_add (names, slot->name != NULL ? slot->name : _ ("a slot without a name"));
    }
  if (names->len == 0)
    return;
  list = lid_text_join ((const char *const *)names->pdata, names->len, MOST_NAMES);
  lid_proof_say (
      proof,
      _ ("What the inventory names %s is none of the board’s slots or one of two named so: "
         "read the machine once more, and compare with the print on the board, before "
         "hands go in."),
      list);
}

/**
 * lid_proof_advise:
 * @proof: all its slots judged
 *
 * What costs nothing first, the cautions before the first work with hands, parts last.
 */
void
lid_proof_advise (LidProof *proof)
{
  gboolean is_short = proof->seen == NULL && !lid_proof_is_total_as_planned (proof);
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);
  gboolean is_missing = lid_proof_mark (proof, LID_VERDICT_MISSING, slots) > 0;

  if (proof->is_other)
    {
      lid_proof_say (proof, "%s",
                     _ ("Read the machine of this job before anything is done: what differs may be "
                        "another machine’s."));
      return;
    }
  if (is_missing || (is_short && proof->seen_mib < proof->fitted_mib))
    say_wait (proof);
  if (!proof->matches)
    say_firmware (proof);
  say_names (proof);
  say_strays (proof);
  mark_unsettled (proof, LID_VERDICT_MISSING, slots);
  lid_proof_say_disabled (proof, slots);
  say_slow (proof);
  if (is_short && !is_missing)
    lid_proof_say_short (proof);
  say_moved (proof);
  say_maybe_moved (proof);
  say_others (proof);
  say_extra (proof);
  lid_proof_say_missing (proof, slots);
}
