/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mode-deal.h"
#include "checks/mode-refusal.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

static LidRemedy *
move_all (const LidCheck *check, const LidSlotSet *slots, const int *to)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  LidRemedy *remedy;
  g_autofree char *which = NULL;

  LID_SLOT_SET_EACH (slots, slot)
    if (to[slot] != slot)
      {
        LidMove move = { check->population->slots[slot].module, slot, to[slot] };

        g_array_append_val (moves, move);
      }
  remedy = lid_remedy_new_moves (check, moves);
  which = remedy->text;
  remedy->text = g_strdup_printf ("%s %s",
                                  _ ("Change modules over so that both channels of each pair hold "
                                     "the same in the same places."),
                                  which);
  return remedy;
}

/* The same modules dealt out again within each processor, where that makes every pair alike. */
static void
add_remedy (const LidCheck *check, LidFinding *finding, const LidSlotSet *slots)
{
  g_autofree int *to = g_new (int, check->board->n_slots);

  if (check->plain)
    return;
  if (lid_mode_deal_out (check, slots, to))
    finding->remedy = move_all (check, slots, to);
  else
    lid_remedy_say (
        check, finding,
        check->population->mode == LID_MODE_MIRRORED
            ? g_strdup (_ ("Fit the same modules in the same places of both channels of each "
                           "pair. Mirrored, half of the capacity is then usable."))
            : g_strdup (_ ("Fit the same modules in the same places of both channels of each "
                           "pair.")));
}

/* Both sides of each pair that differs: of an empty one no slot is named. */
static LidSlotSet
sides_of (const LidCheck *check, const LidSlotSet *slots)
{
  const LidBoardMode *mode = lid_board_find_mode (check->board, check->population->mode);
  LidSlotSet differ = { { 0 } }, sides = { { 0 } };

  LID_SLOT_SET_EACH (slots, slot)
    lid_slot_set_add (&differ, (guint)check->board->slots[slot].channel);
  for (guint i = 0; i < mode->n_pairs; i++)
    if (lid_slot_set_has (&differ, mode->pairs[i].a)
        || lid_slot_set_has (&differ, mode->pairs[i].b))
      {
        lid_slot_set_add (&sides, mode->pairs[i].a);
        lid_slot_set_add (&sides, mode->pairs[i].b);
      }
  return sides;
}

static void
check_alike (LidCheck *check)
{
  LidSlotSet slots, channels;
  g_autofree char *names = NULL;
  LidFinding *finding;

  lid_mode_refusal_ask (check, LID_DEMAND_ALIKE);
  if (lid_mode_refusal_met (check, LID_DEMAND_ALIKE, &slots))
    return;
  channels = sides_of (check, &slots);
  names = lid_names_channels (check, &channels);
  finding = lid_mode_refusal_add (
      check, &slots,
      g_strdup_printf (_ ("The mode works with pairs of channels that hold the same, slot by slot, "
                          "and here the two sides differ: %s."),
                       names));
  add_remedy (check, finding, &slots);
}

static void
check_pairs (LidCheck *check)
{
  LidSlotSet slots, alike;
  LidFinding *finding;

  check_alike (check);
  /* Said already, with what to do, where each side has to be like the other. */
  if (!lid_mode_refusal_met (check, LID_DEMAND_ALIKE, &alike))
    return;
  if (lid_mode_refusal_met (check, LID_DEMAND_PAIRS, &slots))
    return;
  finding = lid_mode_refusal_add (
      check, &slots,
      g_strdup (_ ("No pair of channels has memory on both sides, and the mode works with "
                   "pairs.")));
  lid_remedy_say (
      check, finding,
      check->population->mode == LID_MODE_MIRRORED
          ? g_strdup (
              _ ("Fit both channels of a pair alike. Mirrored, half of the capacity is then "
                 "usable."))
          : g_strdup (_ ("Fit both channels of a pair alike.")));
}

const LidRule lid_rule_mode_pairs = {
  .id = "mode-pairs",
  .title = N_ ("pairs of channels alike"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_KIND)
           | LID_FACT_BIT (LID_FACT_RANKS) | LID_FACT_BIT (LID_FACT_CHIP_WIDTH),
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .refuses_mode = TRUE,
  .why = N_ ("In mirrored and paired modes one channel answers for the other, so both hold the "
             "same modules in the same places. A pair that differs makes the firmware stay plain."),
  .clears = N_ ("Change modules over, or fit the missing ones, until both channels of each pair "
                "are alike."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_pairs,
};
