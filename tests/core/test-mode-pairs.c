/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the rule of pairs offers by itself: the modules of slots that differ, dealt out again. Held,
 * on machines drawn at random, to what that is for: nothing is lost that was not taken out, each
 * pair that faced something else holds two alike or nothing, the first slots get the largest, what
 * can stay stays, and what goes out is what has no partner or no room. Pairs slot by slot:
 * product.md 6, "Usable capacity", and shared/facts/population.md 3; the largest first, fewest
 * hands: common practice, no source. */
#include "checks/assessment-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "cures-oracle.h"
#include "pairs-machine.h"

#include <string.h>

#define MACHINES 1500

static guint n_dealt, n_out, n_bare, n_blocked;

/* Two slots that are to be alike. */
typedef struct
{
  guint slots[2], position;
} Facing;

typedef struct
{
  const LidBoard *board;
  LidAlike level;
  const LidPopulation *before;
  const LidFinding *finding;
  Facing facing[LID_BOARD_MAX_SLOTS];
  guint n_facing;
} Pairs;

static gboolean
is_named (const Pairs *pairs, guint slot)
{
  for (guint i = 0; i < pairs->finding->n_slots; i++)
    if (pairs->finding->slots[i] == slot)
      return TRUE;
  return FALSE;
}

/* Where something sits that cannot be used, nothing else goes. */
static gboolean
is_blocked (const Pairs *pairs, guint slot)
{
  return pairs->before->slots[slot].module != NULL && !is_named (pairs, slot);
}

static void
find_facing (Pairs *pairs)
{
  const LidBoardMode *mode = &pairs->board->modes[0];

  for (guint position = 0; position < 3; position++)
    for (guint i = 0; i < mode->n_pairs; i++)
      {
        const LidBoardChannel *a = &pairs->board->channels[mode->pairs[i].a];
        const LidBoardChannel *b = &pairs->board->channels[mode->pairs[i].b];
        Facing facing = { .position = position };

        if (position >= a->n_slots || position >= b->n_slots)
          continue;
        facing.slots[0] = a->slots[position];
        facing.slots[1] = b->slots[position];
        if (!is_named (pairs, facing.slots[0]) && !is_named (pairs, facing.slots[1]))
          continue;
        if (is_blocked (pairs, facing.slots[0]) || is_blocked (pairs, facing.slots[1]))
          n_blocked++;
        else
          pairs->facing[pairs->n_facing++] = facing;
      }
}

/* How many modules like @sort are to be dealt out at a processor, without those that the first
 * @given pairs hold in @after. */
static guint
count_left (const Pairs *pairs, const LidPopulation *after, guint given, guint sort, int socket)
{
  guint n = 0;

  for (guint i = 0; i < pairs->finding->n_slots; i++)
    {
      guint slot = pairs->finding->slots[i];

      n += pairs->board->slots[slot].socket == socket
           && pairs_alike (pairs->level, sort, pairs_sort_of (pairs->before->slots[slot].module));
    }
  for (guint i = 0; i < given; i++)
    for (guint k = 0; k < 2; k++)
      {
        guint slot = pairs->facing[i].slots[k];
        const LidModule *module = after->slots[slot].module;

        n -= module != NULL && pairs->board->slots[slot].socket == socket
             && pairs_alike (pairs->level, sort, pairs_sort_of (module));
      }
  return n;
}

/* How many of a pair stay if it gets two like @module. */
static int
count_staying (const Pairs *pairs, const Facing *facing, const LidModule *module)
{
  int n = 0;

  for (guint k = 0; k < 2 && module != NULL; k++)
    n += is_named (pairs, facing->slots[k])
         && pairs_alike (pairs->level, pairs_sort_of (module),
                         pairs_sort_of (pairs->before->slots[facing->slots[k]].module));
  return n;
}

/* Two alike. What was left when the first slots, the second slots and so on were filled is no
 * larger; of what is left in the end nothing as large would stay rather. */
static void
check_facing (const Pairs *pairs, const LidPopulation *after, guint index)
{
  const Facing *facing = &pairs->facing[index];
  const LidModule *a = after->slots[facing->slots[0]].module,
                  *b = after->slots[facing->slots[1]].module;
  int socket = pairs->board->slots[facing->slots[0]].socket;
  guint as_deep = 0;

  g_assert_true ((a == NULL) == (b == NULL));
  if (a != NULL)
    g_assert_true (pairs_alike (pairs->level, pairs_sort_of (a), pairs_sort_of (b)));
  while (as_deep < pairs->n_facing && pairs->facing[as_deep].position <= facing->position)
    as_deep++;
  for (guint i = 0; i < pairs->board->n_slots; i++)
    {
      const LidModule *other = is_named (pairs, i) ? pairs->before->slots[i].module : NULL;

      if (other == NULL || count_left (pairs, after, as_deep, pairs_sort_of (other), socket) < 2)
        continue;
      g_assert_nonnull (a);
      g_assert_cmpint (lid_module_capacity (other), <=, lid_module_capacity (a));
      if (lid_module_capacity (other) == lid_module_capacity (a)
          && count_left (pairs, after, pairs->n_facing, pairs_sort_of (other), socket) >= 2)
        g_assert_cmpint (count_staying (pairs, facing, other), <=,
                         count_staying (pairs, facing, a));
    }
}

/* No two pairs of the same depth would keep more if they changed places. Which stay empty is
 * another matter: what is behind an empty slot may not be seen. */
static void
check_exchange (const Pairs *pairs, const LidPopulation *after, guint index)
{
  const Facing *x = &pairs->facing[index];
  const LidModule *of_x = after->slots[x->slots[0]].module;

  for (guint i = 0; i < index; i++)
    {
      const Facing *y = &pairs->facing[i];
      const LidModule *of_y = after->slots[y->slots[0]].module;

      if (x->position == y->position && of_x != NULL && of_y != NULL
          && pairs->board->slots[x->slots[0]].socket == pairs->board->slots[y->slots[0]].socket)
        g_assert_cmpint (count_staying (pairs, x, of_y) + count_staying (pairs, y, of_x), <=,
                         count_staying (pairs, x, of_x) + count_staying (pairs, y, of_y));
    }
}

static const LidMove *
move_from (const LidRemedy *remedy, guint slot)
{
  for (guint i = 0; i < remedy->moves->len; i++)
    if (g_array_index (remedy->moves, LidMove, i).from == (int)slot)
      return &g_array_index (remedy->moves, LidMove, i);
  return NULL;
}

/* Nothing that stays is thrown over, and nothing moves for one alike. */
static void
check_stays (const Pairs *pairs, const LidPopulation *after)
{
  guint n_before = 0, n_after = 0, n_taken = 0;

  for (guint slot = 0; slot < pairs->board->n_slots; slot++)
    {
      const LidModule *was = pairs->before->slots[slot].module, *is = after->slots[slot].module;
      const LidMove *move = move_from (pairs->finding->remedy, slot);

      n_before += was != NULL;
      n_after += is != NULL;
      n_taken += move != NULL && move->to == LID_NOWHERE;
      if (move == NULL)
        g_assert_true (was == NULL || is == was);
      else if (is != NULL)
        g_assert_false (pairs_alike (pairs->level, pairs_sort_of (was), pairs_sort_of (is)));
    }
  g_assert_cmpuint (n_after, ==, n_before - n_taken);
  n_out += n_taken > 0;
}

/* Slots that are in no pair that can be filled alike end empty. */
static void
check_others (const Pairs *pairs, const LidPopulation *after)
{
  for (guint i = 0; i < pairs->finding->n_slots; i++)
    {
      gboolean faces = FALSE;

      for (guint k = 0; k < pairs->n_facing; k++)
        faces = faces || pairs->facing[k].slots[0] == pairs->finding->slots[i]
                || pairs->facing[k].slots[1] == pairs->finding->slots[i];
      g_assert_true (faces || after->slots[pairs->finding->slots[i]].module == NULL);
    }
}

/* Each pair gets two of the largest that are left, whichever sit where: one way to deal. */
static LidPopulation *
deal_any (const Pairs *pairs)
{
  LidPopulation *after = lid_population_copy (pairs->before);

  for (guint i = 0; i < pairs->finding->n_slots; i++)
    lid_population_take (after, pairs->finding->slots[i]);
  for (guint i = 0; i < pairs->n_facing; i++)
    {
      const guint *slots = pairs->facing[i].slots;
      LidModule *best = NULL;

      for (guint k = 0; k < pairs->finding->n_slots; k++)
        {
          guint from = pairs->finding->slots[k];
          LidModule *one = pairs->before->slots[from].module;

          if (pairs->board->slots[from].socket == pairs->board->slots[slots[0]].socket
              && (best == NULL || lid_module_capacity (one) > lid_module_capacity (best))
              && count_left (pairs, after, i, pairs_sort_of (one), pairs->board->slots[from].socket)
                     > 1)
            best = one;
        }
      for (guint k = 0; best != NULL && k < 2; k++)
        lid_population_put (after, slots[k], best);
    }
  return after;
}

/* A first slot is left empty, and modules that have no partner are left over: they are better given
 * one. */
static gboolean
is_bare (const Pairs *pairs, const LidPopulation *dealt, int socket)
{
  guint n = 0, bare = 0;

  for (guint i = 0; i < pairs->finding->n_slots; i++)
    n += pairs->board->slots[pairs->finding->slots[i]].socket == socket;
  for (guint i = 0; i < pairs->n_facing; i++)
    if (pairs->board->slots[pairs->facing[i].slots[0]].socket == socket)
      {
        gboolean filled = dealt->slots[pairs->facing[i].slots[0]].module != NULL;

        n -= 2 * filled;
        bare += !filled && pairs->facing[i].position == 0;
      }
  return n > 0 && bare > 0;
}

static void
check_offer (const CuresOracle *oracle, const LidFinding *finding, Pairs *pairs)
{
  const LidRemedy *remedy = finding->remedy;
  gboolean own = g_str_has_prefix (remedy->text, "Change modules over"), bare = FALSE;
  g_autoptr (LidPopulation) any = NULL, after = lid_remedy_apply (remedy, pairs->before);

  find_facing (pairs);
  any = deal_any (pairs);
  for (int s = 0; s < (int)pairs->board->n_sockets; s++)
    bare = bare || is_bare (pairs, any, s);
  n_bare += bare;
  if (bare)
    g_assert_false (own);
  else
    g_assert_false (g_str_has_prefix (remedy->text, "Fit the same modules"));
  if (!bare && remedy->moves->len == 0)
    {
      g_autoptr (LidAssessment) then = lid_assessment_new_plain (
          &(LidQuestion){ pairs->board, any, oracle->question->as_found });
      g_autoptr (GArray) out = g_array_new (FALSE, TRUE, sizeof (LidMove));

      /* whatever of it is out: then no capacity is lost by moving */
      for (int i = 0; i < (int)pairs->board->n_slots; i++)
        if (oracle->question->population->slots[i].module != NULL)
          g_array_append_val (
              out, ((LidMove){ oracle->question->population->slots[i].module, i, LID_NOWHERE }));
      g_assert_false (cures_oracle_clears (oracle, finding, &(CuresTry){ out, then, 0 }, FALSE));
    }
  if (!own || remedy->moves->len == 0)
    return;
  n_dealt++;
  for (guint i = 0; i < pairs->n_facing; i++)
    {
      check_facing (pairs, after, i);
      check_exchange (pairs, after, i);
    }
  check_stays (pairs, after);
  check_others (pairs, after);
}

static void
test_dealt (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261128);

  for (guint i = 0; i < MACHINES; i++)
    {
      g_autoptr (FiguresCase) c = pairs_machine_draw (rand);
      const LidQuestion question = { c->board, c->population, NULL };
      g_autoptr (LidAssessment) seen
          = lid_assessment_new_how (&question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NOW });
      const CuresOracle oracle = { &question, NULL, seen, seen, NULL };

      for (guint k = 0; k < seen->findings->len; k++)
        {
          const LidFinding *finding = seen->findings->pdata[k];
          Pairs pairs = { .board = c->board,
                          .level = c->board->modes[0].alike,
                          .before = c->population,
                          .finding = finding };

          if (finding->rule == &lid_rule_mode_pairs && strstr (finding->text, "slot by slot"))
            check_offer (&oracle, finding, &pairs);
        }
    }
  g_test_message ("dealt: %u, with some out: %u, bare: %u, blocked: %u", n_dealt, n_out, n_bare,
                  n_blocked);
  g_assert_cmpuint (n_dealt, >, MACHINES / 4);
  g_assert_cmpuint (n_out, >, MACHINES / 20);
  g_assert_cmpuint (n_bare, >, MACHINES / 20);
  g_assert_cmpuint (n_blocked, >, MACHINES / 40);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mode-pairs/dealt", test_dealt);
  return g_test_run ();
}
