/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mode-refusal.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/mode-demands.h"

#include <glib/gi18n-lib.h>

/* Two slots that face each other in a pair and differ. */
typedef struct
{
  guint slots[2];
  guint position;
  int socket; /* pairs are of one processor */
  int like;   /* both shall hold what is like the module in this slot; LID_NOWHERE: nothing */
} Facing;

/* What a remedy works with: the modules of the slots that differ are dealt out again, two alike at
 * a time, within their processor. */
typedef struct
{
  const LidCheck *check;
  const LidBoardMode *mode;
  const LidSlotSet *slots;
  Facing *facing; /* in the order they are filled: first slots first */
  guint n_facing;
  int *to; /* by slot: where its module goes; LID_NOWHERE: out */
} Deal;

/* What cannot be used neither goes nor makes room. */
static gboolean
is_free (const Deal *deal, guint slot)
{
  return lid_slot_set_has (deal->slots, slot) || lid_check_module (deal->check, slot) == NULL;
}

/* Returns whether the channels of the pair are as deep as @position, from 0. */
static gboolean
collect (Deal *deal, LidChannelPair pair, guint position)
{
  const LidBoardChannel *a = &deal->check->board->channels[pair.a];
  const LidBoardChannel *b = &deal->check->board->channels[pair.b];
  Facing facing = { .position = position, .socket = a->socket, .like = LID_NOWHERE };

  if (position >= MIN (a->n_slots, b->n_slots))
    return FALSE;
  facing.slots[0] = a->slots[position];
  facing.slots[1] = b->slots[position];
  if ((lid_slot_set_has (deal->slots, facing.slots[0])
       || lid_slot_set_has (deal->slots, facing.slots[1]))
      && is_free (deal, facing.slots[0]) && is_free (deal, facing.slots[1]))
    deal->facing[deal->n_facing++] = facing;
  return TRUE;
}

static void
collect_all (Deal *deal)
{
  guint position = 0;
  gboolean deeper;

  deal->facing = g_new (Facing, deal->check->board->n_slots);
  do
    {
      deeper = FALSE;
      for (guint i = 0; i < deal->mode->n_pairs; i++)
        deeper = collect (deal, deal->mode->pairs[i], position) || deeper;
      position++;
    }
  while (deeper);
  deal->facing = g_renew (Facing, deal->facing, deal->n_facing);
}

static int
socket_of (const Deal *deal, guint slot)
{
  return deal->check->board->slots[slot].socket;
}

/* Whether the modules of two slots may face each other. */
static gboolean
is_alike (const Deal *deal, guint a, guint b)
{
  return socket_of (deal, a) == socket_of (deal, b)
         && lid_mode_demands_compare (deal->mode->alike, lid_check_module (deal->check, a),
                                      lid_check_module (deal->check, b))
                == 1;
}

/* How many like the one in @slot nothing was given of yet. */
static int
count_left (const Deal *deal, guint slot)
{
  int n = 0;

  LID_SLOT_SET_EACH (deal->slots, other)
    n += is_alike (deal, slot, (guint)other);
  for (guint i = 0; i < deal->n_facing; i++)
    if (deal->facing[i].like != LID_NOWHERE && is_alike (deal, slot, (guint)deal->facing[i].like))
      n -= 2;
  return n;
}

/* One of two alike that are left: the largest, of those one that sits here already. */
static int
find_double (const Deal *deal, const Facing *facing)
{
  gint64 most = -1;
  int best = LID_NOWHERE;

  LID_SLOT_SET_EACH (deal->slots, slot)
    {
      gboolean here = slot == (int)facing->slots[0] || slot == (int)facing->slots[1];
      gint64 worth = 2 * lid_module_capacity (lid_check_module (deal->check, slot)) + here;

      if (worth <= most || socket_of (deal, slot) != facing->socket || count_left (deal, slot) < 2)
        continue;
      most = worth;
      best = slot;
    }
  return best;
}

/* Whether what is in @slot stays, if the slot shall hold what is like the one in @like. */
static gboolean
stays (const Deal *deal, guint slot, int like)
{
  return like != LID_NOWHERE && lid_slot_set_has (deal->slots, slot)
         && is_alike (deal, (guint)like, slot);
}

static int
count_staying (const Deal *deal, const Facing *facing, int like)
{
  return stays (deal, facing->slots[0], like) + stays (deal, facing->slots[1], like);
}

/* Whether more stays where two pairs of the same depth, the first one filled, change places. Which
 * pairs stay empty is left as it is: what is behind an empty slot may not be seen. */
static gboolean
gains (const Deal *deal, const Facing *a, const Facing *b)
{
  return a->socket == b->socket && a->position == b->position && b->like != LID_NOWHERE
         && count_staying (deal, a, b->like) + count_staying (deal, b, a->like)
                > count_staying (deal, a, a->like) + count_staying (deal, b, b->like);
}

static gboolean
exchange_one (const Deal *deal)
{
  for (guint i = 0; i < deal->n_facing; i++)
    if (deal->facing[i].like != LID_NOWHERE)
      for (guint k = i + 1; k < deal->n_facing; k++)
        if (gains (deal, &deal->facing[i], &deal->facing[k]))
          {
            int like = deal->facing[i].like;

            deal->facing[i].like = deal->facing[k].like;
            deal->facing[k].like = like;
            return TRUE;
          }
  return FALSE;
}

/* The best first; then each exchange makes more stay, so it comes to an end. */
static void
choose_all (const Deal *deal)
{
  for (guint i = 0; i < deal->n_facing; i++)
    deal->facing[i].like = find_double (deal, &deal->facing[i]);
  while (exchange_one (deal))
    ;
}

/* Of those alike, one that sits nowhere yet. */
static void
send (Deal *deal, guint like, guint to)
{
  LID_SLOT_SET_EACH (deal->slots, slot)
    if (deal->to[slot] == LID_NOWHERE && is_alike (deal, like, slot))
      {
        deal->to[slot] = (int)to;
        return;
      }
}

/* What sits right stays; the rest comes from elsewhere. */
static void
fill (Deal *deal, gboolean staying)
{
  for (guint i = 0; i < deal->n_facing; i++)
    for (guint k = 0; k < 2 && deal->facing[i].like != LID_NOWHERE; k++)
      {
        guint slot = deal->facing[i].slots[k];
        gboolean right = stays (deal, slot, deal->facing[i].like);

        if (right && staying)
          deal->to[slot] = (int)slot;
        else if (!right && !staying)
          send (deal, (guint)deal->facing[i].like, slot);
      }
}

/* Whether a first slot stays empty and a module is left over: better given a partner. */
static gboolean
is_bare (const Deal *deal)
{
  for (guint i = 0; i < deal->n_facing; i++)
    if (deal->facing[i].position == 0 && deal->facing[i].like == LID_NOWHERE)
      LID_SLOT_SET_EACH (deal->slots, slot)
        if (deal->to[slot] == LID_NOWHERE && socket_of (deal, slot) == deal->facing[i].socket)
          return TRUE;
  return FALSE;
}

/* FALSE: the modules there are do not make every pair alike. */
static gboolean
deal_out (Deal *deal)
{
  collect_all (deal);
  LID_SLOT_SET_EACH (deal->slots, slot)
    if (deal->check->board->slots[slot].soldered != NULL)
      return FALSE;
  choose_all (deal);
  fill (deal, TRUE);
  fill (deal, FALSE);
  return !is_bare (deal);
}

/* The same modules dealt out again within each processor, where that makes every pair alike. */
static void
add_remedy (const LidCheck *check, LidFinding *finding, const LidSlotSet *slots)
{
  const LidBoard *board = check->board;
  g_autofree int *to = g_new (int, board->n_slots);
  Deal deal = { .check = check,
                .mode = lid_board_find_mode (board, check->population->mode),
                .slots = slots,
                .to = to };

  if (check->plain)
    return;
  LID_SLOT_SET_EACH (slots, slot)
    to[slot] = LID_NOWHERE;
  if (deal_out (&deal))
    {
      lid_remedy_say (check, finding,
                      g_strdup (_ ("Change modules over so that both channels of each pair "
                                   "hold the same in the same places.")));
      LID_SLOT_SET_EACH (slots, slot)
        if (to[slot] != slot)
          lid_remedy_move (check, finding, slot, to[slot]);
    }
  else
    lid_remedy_say (
        check, finding,
        check->population->mode == LID_MODE_MIRRORED
            ? g_strdup (_ ("Fit the same modules in the same places of both channels of each "
                           "pair. Mirrored, half of the capacity is then usable."))
            : g_strdup (_ ("Fit the same modules in the same places of both channels of each "
                           "pair.")));
  g_free (deal.facing);
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
