/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hands of what the rule of pairs deals out: on machines drawn at random that are small enough,
 * every dealing there is is tried. One is right where each pair of slots holds two alike or
 * nothing, the largest are kept and come first, depth by depth, and the same pairs as ever stay
 * empty. None that is right may leave more modules where they are. Pairs slot by slot: product.md
 * 6, "Usable capacity", and shared/facts/population.md 3; the largest first, fewest hands: common
 * practice, no source. */
#include "checks/assessment-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "pairs-machine.h"

#include <string.h>

/* Under the sanitizers a third: what is asked there is whether memory is read as it should be. */
#ifdef __SANITIZE_ADDRESS__
#define MACHINES 2000
#else
#define MACHINES 6000
#endif
#define MOST_FACING 6u /* at one processor: 7 to the 6th dealings at most */

typedef struct
{
  guint slots[2], position;
  guint mib; /* a module's, of the two alike that the largest first would give it; 0: none left */
} Facing;

/* The pairs of one processor whose modules are dealt out. */
typedef struct
{
  const LidBoard *board;
  LidAlike level;
  const LidPopulation *before;
  const LidFinding *finding;
  int socket;
  Facing facing[LID_BOARD_MAX_SLOTS];
  guint n_facing;
  guint sorts[PAIRS_SORTS], left[PAIRS_SORTS], n_sorts; /* what there is, and how many */
  guint chosen[MOST_FACING];                            /* a sort; n_sorts: nothing */
  guint best;
} Deal;

static guint n_tried, n_missed;

static gboolean
is_named (const Deal *deal, guint slot)
{
  for (guint i = 0; i < deal->finding->n_slots; i++)
    if (deal->finding->slots[i] == slot)
      return deal->board->slots[slot].socket == deal->socket;
  return FALSE;
}

static gboolean
is_blocked (const Deal *deal, guint slot)
{
  return deal->before->slots[slot].module != NULL && !is_named (deal, slot);
}

static void
find_facing (Deal *deal)
{
  const LidBoardMode *mode = &deal->board->modes[0];

  for (guint position = 0; position < 3; position++)
    for (guint i = 0; i < mode->n_pairs; i++)
      {
        const LidBoardChannel *a = &deal->board->channels[mode->pairs[i].a];
        const LidBoardChannel *b = &deal->board->channels[mode->pairs[i].b];

        if (position >= MIN (a->n_slots, b->n_slots) || a->socket != deal->socket)
          continue;
        if (!is_named (deal, a->slots[position]) && !is_named (deal, b->slots[position]))
          continue;
        if (!is_blocked (deal, a->slots[position]) && !is_blocked (deal, b->slots[position]))
          deal->facing[deal->n_facing++]
              = (Facing){ { a->slots[position], b->slots[position] }, position, 0 };
      }
}

static guint
count_here (const Deal *deal, guint slot, guint sort)
{
  return is_named (deal, slot)
         && pairs_alike (deal->level, sort, pairs_sort_of (deal->before->slots[slot].module));
}

static void
count_sorts (Deal *deal)
{
  for (guint slot = 0; slot < deal->board->n_slots; slot++)
    {
      guint sort, i = 0;

      if (!is_named (deal, slot))
        continue;
      sort = pairs_sort_of (deal->before->slots[slot].module);
      while (i < deal->n_sorts && !pairs_alike (deal->level, sort, deal->sorts[i]))
        i++;
      deal->sorts[i] = sort;
      deal->n_sorts = MAX (deal->n_sorts, i + 1);
      deal->left[i]++;
    }
}

/* The largest two alike that are left to the first pair, and so on. */
static void
give_capacities (Deal *deal)
{
  guint pairs[PAIRS_SORTS];

  for (guint i = 0; i < deal->n_sorts; i++)
    pairs[i] = deal->left[i] / 2;
  for (guint f = 0; f < deal->n_facing; f++)
    {
      guint best = deal->n_sorts;

      for (guint i = 0; i < deal->n_sorts; i++)
        if (pairs[i] > 0
            && (best == deal->n_sorts
                || pairs_sorts[deal->sorts[i]].mib > pairs_sorts[deal->sorts[best]].mib))
          best = i;
      if (best == deal->n_sorts)
        return;
      pairs[best]--;
      deal->facing[f].mib = pairs_sorts[deal->sorts[best]].mib;
    }
}

/* Whether each depth holds the capacities it should, whichever of its pairs has which. */
static gboolean
is_right (const Deal *deal)
{
  for (guint f = 0; f < deal->n_facing; f++)
    {
      guint wanted = 0, given = 0;

      for (guint k = 0; k < deal->n_facing; k++)
        if (deal->facing[k].position == deal->facing[f].position)
          {
            wanted += deal->facing[k].mib == deal->facing[f].mib;
            given += deal->chosen[k] < deal->n_sorts
                     && pairs_sorts[deal->sorts[deal->chosen[k]]].mib == deal->facing[f].mib;
          }
      if (deal->facing[f].mib > 0 && wanted != given)
        return FALSE;
    }
  return TRUE;
}

static void
try_all (Deal *deal, guint f, guint staying)
{
  if (f == deal->n_facing)
    {
      if (is_right (deal))
        deal->best = MAX (deal->best, staying);
      return;
    }
  if (deal->facing[f].mib == 0)
    {
      deal->chosen[f] = deal->n_sorts;
      try_all (deal, f + 1, staying);
      return;
    }
  for (guint i = 0; i < deal->n_sorts; i++)
    {
      const guint *slots = deal->facing[f].slots;

      if (deal->left[i] < 2)
        continue;
      deal->chosen[f] = i;
      deal->left[i] -= 2;
      try_all (deal, f + 1,
               staying + count_here (deal, slots[0], deal->sorts[i])
                   + count_here (deal, slots[1], deal->sorts[i]));
      deal->left[i] += 2;
    }
}

static guint
count_staying (const Deal *deal)
{
  const GArray *moves = deal->finding->remedy->moves;
  guint n = 0;

  for (guint slot = 0; slot < deal->board->n_slots; slot++)
    n += is_named (deal, slot);
  for (guint i = 0; i < moves->len; i++)
    n -= is_named (deal, (guint)g_array_index (moves, LidMove, i).from);
  return n;
}

static void
check_least (const FiguresCase *c, const LidFinding *finding)
{
  for (int socket = 0; socket < (int)c->board->n_sockets; socket++)
    {
      Deal deal = { .board = c->board,
                    .level = c->board->modes[0].alike,
                    .before = c->population,
                    .finding = finding,
                    .socket = socket };
      guint stays;

      find_facing (&deal);
      count_sorts (&deal);
      if (deal.n_facing == 0 || deal.n_facing > MOST_FACING)
        continue;
      give_capacities (&deal);
      try_all (&deal, 0, 0);
      stays = count_staying (&deal);
      g_assert_cmpuint (stays, <=, deal.best);
      n_tried++;
      n_missed += stays < deal.best;
      if (stays < deal.best)
        g_test_message ("%u pairs of slots, %u sorts: %u stay, %u could", deal.n_facing,
                        deal.n_sorts, stays, deal.best);
    }
}

static void
test_least (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2);

  for (guint i = 0; i < MACHINES; i++)
    {
      g_autoptr (FiguresCase) c = pairs_machine_draw (rand);
      const LidQuestion question = { c->board, c->population, NULL };
      g_autoptr (LidAssessment) seen
          = lid_assessment_new_how (&question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NOW });

      for (guint k = 0; k < seen->findings->len; k++)
        {
          const LidFinding *finding = seen->findings->pdata[k];

          if (finding->rule == &lid_rule_mode_pairs && strstr (finding->text, "slot by slot")
              && g_str_has_prefix (finding->remedy->text, "Change modules over")
              && finding->remedy->moves->len > 0)
            check_least (c, finding);
        }
    }
  g_test_message ("processors dealt out: %u, fewer hands were possible: %u", n_tried, n_missed);
  g_assert_cmpuint (n_tried, >, MACHINES / 4);
  g_assert_cmpuint (n_missed, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mode-pairs-least/least", test_least);
  return g_test_run ();
}
