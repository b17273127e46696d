/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mode-refusal.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/mode-demands.h"

#include <glib/gi18n-lib.h>

/* The two slots that face each other in a pair, and what is to be in them. */
typedef struct
{
  guint a, b;
  guint position;
  int into_a, into_b; /* the slots their modules come from; LID_NOWHERE: empty */
} Facing;

/* What a remedy works with: the facing slots that are not alike, and the modules in them. */
typedef struct
{
  const LidCheck *check;
  LidAlike alike;
  Facing *facing;
  guint n_facing;
  guint *from; /* slots whose modules are dealt out again */
  gboolean *dealt;
  guint n_from;
} Deal;

static void
collect (Deal *deal, const LidSlotSet *slots, int socket, guint position, LidChannelPair pair)
{
  const LidBoardChannel *a = &deal->check->board->channels[pair.a];
  const LidBoardChannel *b = &deal->check->board->channels[pair.b];
  Facing facing = { .position = position, .into_a = LID_NOWHERE, .into_b = LID_NOWHERE };
  guint both[2];

  if (a->socket != socket || position >= a->n_slots || position >= b->n_slots)
    return;
  both[0] = facing.a = a->slots[position];
  both[1] = facing.b = b->slots[position];
  if (!lid_slot_set_has (slots, facing.a) && !lid_slot_set_has (slots, facing.b))
    return;
  deal->facing[deal->n_facing++] = facing;
  for (guint k = 0; k < 2; k++)
    if (lid_check_is_usable (deal->check, both[k]))
      deal->from[deal->n_from++] = both[k];
}

static LidModule *
module_at (const Deal *deal, guint slot)
{
  return deal->check->population->slots[slot].module;
}

/* Takes the module that suits @like best: one that sits in @at already, rather not the one in the
 * slot that @faces it. Returns the slot it comes from. */
static int
take_alike (Deal *deal, const LidModule *like, guint at, guint faces)
{
  guint best = deal->n_from;
  int most = -1;

  for (guint i = 0; i < deal->n_from; i++)
    {
      int suits = deal->from[i] == at ? 2 : deal->from[i] != faces;

      if (deal->dealt[i] || suits <= most
          || lid_mode_demands_compare (deal->alike, like, module_at (deal, deal->from[i])) != 1)
        continue;
      best = i;
      most = suits;
    }
  if (best == deal->n_from)
    return LID_NOWHERE;
  deal->dealt[best] = TRUE;
  return (int)deal->from[best];
}

/* Two alike that are left, the largest first; a pair that one of them sits in already goes first.
 */
static const LidModule *
find_double (const Deal *deal, const Facing *facing)
{
  const LidModule *best = NULL;
  gboolean here = FALSE;

  for (guint i = 0; i < deal->n_from; i++)
    {
      const LidModule *one = module_at (deal, deal->from[i]);
      gboolean stays = deal->from[i] == facing->a || deal->from[i] == facing->b, two = FALSE;

      if (deal->dealt[i])
        continue;
      for (guint k = 0; k < deal->n_from; k++)
        two = two
              || (k != i && !deal->dealt[k]
                  && lid_mode_demands_compare (deal->alike, one, module_at (deal, deal->from[k]))
                         == 1);
      if (!two
          || (best != NULL
              && (lid_module_capacity (one) < lid_module_capacity (best)
                  || (lid_module_capacity (one) == lid_module_capacity (best)
                      && (here || !stays)))))
        continue;
      best = one;
      here = stays;
    }
  return best;
}

/* Deals the modules out again, two alike at a time, first slots first. FALSE: a first slot stays
 * empty and a module is left over, which is better given a partner. */
static gboolean
deal_out (Deal *deal)
{
  gboolean bare = FALSE;

  for (guint i = 0; i < deal->n_facing; i++)
    {
      Facing *facing = &deal->facing[i];
      const LidModule *like = find_double (deal, facing);

      bare = bare || (like == NULL && facing->position == 0);
      if (like == NULL)
        continue;
      facing->into_a = take_alike (deal, like, facing->a, facing->b);
      facing->into_b = take_alike (deal, like, facing->b, facing->a);
    }
  for (guint i = 0; bare && i < deal->n_from; i++)
    if (!deal->dealt[i])
      return FALSE;
  return TRUE;
}

static void
move_from (const Deal *deal, LidFinding *finding, guint slot)
{
  int to = LID_NOWHERE;

  for (guint i = 0; i < deal->n_facing; i++)
    if (deal->facing[i].into_a == (int)slot)
      to = (int)deal->facing[i].a;
    else if (deal->facing[i].into_b == (int)slot)
      to = (int)deal->facing[i].b;
  if (to != (int)slot)
    lid_remedy_move (deal->check, finding, (int)slot, to);
}

/* The same modules dealt out again within each processor, where that makes every pair alike. */
static void
add_remedy (const LidCheck *check, LidFinding *finding, const LidSlotSet *slots)
{
  const LidBoard *board = check->board;
  const LidBoardMode *rule = lid_board_find_mode (board, check->population->mode);
  g_autofree Facing *facing = g_new0 (Facing, board->n_slots);
  g_autofree guint *from = g_new0 (guint, board->n_slots);
  g_autofree gboolean *dealt = g_new0 (gboolean, board->n_slots);
  Deal deal = { check, rule->alike, facing, 0, from, dealt, 0 };
  guint most = 0;
  gboolean can = TRUE;

  for (guint c = 0; c < board->n_channels; c++)
    most = MAX (most, board->channels[c].n_slots);
  for (int s = 0; can && s < (int)board->n_sockets; s++)
    {
      guint facing_before = deal.n_facing, from_before = deal.n_from;
      Deal own;

      for (guint position = 0; position < most; position++)
        for (guint i = 0; i < rule->n_pairs; i++)
          collect (&deal, slots, s, position, rule->pairs[i]);
      own = (Deal){ check,
                    rule->alike,
                    facing + facing_before,
                    deal.n_facing - facing_before,
                    from + from_before,
                    dealt + from_before,
                    deal.n_from - from_before };
      can = deal_out (&own);
    }
  LID_SLOT_SET_EACH (slots, slot)
    can = can && board->slots[slot].soldered == NULL;
  if (!can)
    {
      lid_remedy_say (
          check, finding,
          check->population->mode == LID_MODE_MIRRORED
              ? g_strdup (_ ("Fit the same modules in the same places of both channels of each "
                             "pair. Mirrored, half of the capacity is then usable."))
              : g_strdup (_ ("Fit the same modules in the same places of both channels of each "
                             "pair.")));
      return;
    }
  lid_remedy_say (check, finding,
                  g_strdup (_ ("Change modules over so that both channels of each pair "
                               "hold the same in the same places.")));
  for (guint i = 0; i < deal.n_from; i++)
    move_from (&deal, finding, deal.from[i]);
}

static void
check_alike (LidCheck *check)
{
  LidSlotSet slots, channels = { { 0 } };
  g_autofree char *names = NULL;
  LidFinding *finding;

  lid_mode_refusal_ask (check, LID_DEMAND_ALIKE);
  if (lid_mode_refusal_met (check, LID_DEMAND_ALIKE, &slots))
    return;
  LID_SLOT_SET_EACH (&slots, slot)
    lid_slot_set_add (&channels, (guint)check->board->slots[slot].channel);
  names = lid_names_channels (check, &channels);
  finding = lid_mode_refusal_add (
      check, &slots,
      g_strdup_printf (_ ("The mode works with pairs of channels that hold the same, slot by slot, "
                          "and these differ: %s."),
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
  .why = N_ ("In mirrored and paired modes one channel answers for the other, so both hold the "
             "same modules in the same places. A pair that differs makes the firmware stay plain."),
  .clears = N_ ("Change modules over, or fit the missing ones, until both channels of each pair "
                "are alike."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_pairs,
};
