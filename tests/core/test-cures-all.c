/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the offered moves are from the best of all arrangements of what is in the machine. Every
 * arrangement of small machines is judged (arithmetic: a brute force), by the order which the head
 * of checks/cure.c states, on the boards of the checker's cases and on two of its own, with modules
 * put at random. Up to the size named there none is missed; of larger ones it is counted how many.
 */
#include "checks-case.h"
#include "checks/assessment-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "cures-oracle.h"

#include <string.h>

#define MOST_SLOTS 8u
#define SHUFFLES 6
#define DRAWN 150 /* populations of each board of its own */

/* Two processors with two channels of two, and one with as many: four or three sorts of modules,
 * modes with pairs. Boards are invented. */
static const char *const boards[] = {
  "{\"layout\": {\"sockets\": 2, \"slots\": [2, 2]}, \"board\": {%s},"
  " \"modules\": {%s}, \"put\": {\"R16\": \"1-A1 1-A2 1-B1 2-A1\", \"S16\": \"1-B2\","
  " \"R32\": \"2-A2 2-B1\"}}",
  "{\"layout\": {\"sockets\": 1, \"slots\": [2, 2]}, \"board\": {%s},"
  " \"modules\": {%s}, \"put\": {\"R16\": \"1-A1\", \"S16\": \"1-A2\", \"R32\": \"1-B1\"}}",
};
static const char board_of_all[]
    = "\"own_memory\": \"required\", \"rates\": [{\"filled\": 1, \"mts\": 2666, \"source\": "
      "\"invented\"},"
      " {\"filled\": 2, \"mts\": 2400, \"source\": \"invented\"}],"
      " \"ranks\": {\"limits\": [{\"most_ranks\": 3, \"source\": \"invented\"}]},"
      " \"modes\": [{\"id\": \"mirrored\", \"pairs\": [[\"A\", \"B\"]], \"alike\": "
      "\"organisation\","
      " \"source\": \"invented\"}, {\"id\": \"paired\", \"pairs\": [[\"A\", \"B\"]], \"source\":"
      " \"invented\"}, {\"id\": \"spared\", \"most_ranks\": 1, \"source\": \"invented\"}]";
static const char modules_of_all[] = "\"R16\": \"16GB 2Rx4 PC4-2666V-RB2-12\", \"S16\":"
                                     " \"16GB 1Rx4 PC4-2666V-RC2-12\", \"R32\":"
                                     " \"32GB 2Rx4 PC4-2666V-RB2-12\"";

typedef enum
{
  AS_GOOD,     /* none is better than what is offered */
  NOTHING,     /* none clears it, and none is offered */
  SHARED,      /* another's moves stand for both, and none that clears both is better */
  MORE_MOVES,  /* another does the same with fewer hands */
  LESS_GAIN,   /* another leaves the machine faster, or with more memory */
  ONLY_EMPTY,  /* slots are to be left empty, though moving would do */
  NONE_OFFERED /* no moves are offered, though some would do */
} Outcome;

#define N_OUTCOMES (NONE_OFFERED + 1)

static const char *const words[N_OUTCOMES]
    = { "as good",   "nothing to offer", "shared",      "more moves",
        "less gain", "only empty",       "none offered" };

static GRand *dice;
static guint counts[2][N_OUTCOMES]; /* at 1: where all arrangements are tried */
static GHashTable *by_rule;         /* "rule: outcome" to count */

typedef struct
{
  const CuresOracle *oracle;
  GPtrArray *tries; /* CuresTry: every arrangement */
} Arranging;

static gboolean
only_takes_out (const GArray *moves)
{
  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, LidMove, i).to != LID_NOWHERE)
      return FALSE;
  return TRUE;
}

/* The finding whose moves were taken over, if they were. */
static const LidFinding *
whose_moves (const Arranging *all, guint index)
{
  const LidAssessment *seen = all->oracle->seen;
  const LidFinding *finding = seen->findings->pdata[index];

  for (guint i = 0; i < seen->findings->len; i++)
    {
      const LidFinding *other = seen->findings->pdata[i];

      if (i != index && cures_speaks_before (seen, i, index) && other->grade >= finding->grade
          && other->remedy != NULL
          && cures_same_moves (other->remedy->moves, finding->remedy->moves))
        return other;
    }
  return NULL;
}

/* The best that clears the one and, where there is one, the other. */
static const CuresTry *
find_best (const Arranging *all, const LidFinding *finding, const LidFinding *other)
{
  const CuresTry *best = NULL;

  for (guint i = 0; i < all->tries->len; i++)
    {
      const CuresTry *one = all->tries->pdata[i];

      if (cures_oracle_clears (all->oracle, finding, one, TRUE)
          && (other == NULL || cures_oracle_clears (all->oracle, other, one, TRUE))
          && (best == NULL || cures_oracle_compare (one, best) > 0))
        best = one;
    }
  return best;
}

static Outcome
compare (const Arranging *all, const CuresTry *best, const GArray *offered)
{
  g_autoptr (CuresTry) own = NULL;

  if (best == NULL)
    return offered == NULL || offered->len == 0 ? NOTHING : AS_GOOD;
  if (offered == NULL || offered->len == 0)
    return NONE_OFFERED;
  if (only_takes_out (offered))
    return ONLY_EMPTY;
  own = cures_try_new (all->oracle, offered);
  if (cures_oracle_compare (best, own) <= 0)
    return AS_GOOD;
  return best->moves->len < own->moves->len && cures_oracle_compare_gain (best, own) == 0
             ? MORE_MOVES
             : LESS_GAIN;
}

static Outcome
look_at (const Arranging *all, guint index)
{
  const LidFinding *finding = all->oracle->seen->findings->pdata[index];
  const GArray *offered = finding->remedy != NULL ? finding->remedy->moves : NULL;
  Outcome outcome = compare (all, find_best (all, finding, NULL), offered);
  const LidFinding *other
      = outcome > SHARED && offered != NULL && offered->len > 0 ? whose_moves (all, index) : NULL;

  if (other != NULL && compare (all, find_best (all, finding, other), offered) == AS_GOOD)
    return SHARED;
  return outcome;
}

static void
write_down (const LidFinding *finding, Outcome outcome, gboolean all_tried)
{
  char *key = g_strdup_printf ("%s: %s", finding->rule->id, words[outcome]);
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (by_rule, key));

  g_hash_table_replace (by_rule, key, GUINT_TO_POINTER (n + 1));
  counts[all_tried][outcome]++;
  if (all_tried && outcome > SHARED)
    g_error ("%s: %s “%s”", words[outcome], finding->text,
             finding->remedy != NULL ? finding->remedy->text : "");
}

/* Where a fact is not told, moving it out of sight tells nobody. */
static gboolean
may_be_cured (const LidFinding *finding)
{
  return finding->grade != LID_GRADE_NOTE && finding->fact == LID_NOWHERE
         && !(finding->grade == LID_GRADE_UNSURE && finding->rule->no_moves != NULL)
         && !(finding->remedy != NULL && finding->remedy->by_setting);
}

static void
try_population (const LidQuestion *question)
{
  g_autoptr (LidAssessment) seen
      = lid_assessment_new_how (question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NOW });
  g_autoptr (LidAssessment) planned = lid_assessment_new_how (
      question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .only_planned = TRUE });
  g_autoptr (GPtrArray) all_tried = cures_all_tried (question);
  const CuresOracle oracle = { question, NULL, seen, planned, all_tried };
  g_autoptr (GPtrArray) ways = cures_arrangements (question, G_MAXUINT);
  g_autoptr (GPtrArray) tries = g_ptr_array_new_with_free_func ((GDestroyNotify)cures_try_free);
  const Arranging all = { &oracle, tries };

  for (guint i = 0; i < ways->len; i++)
    if (!cures_deal_empties (question, ways->pdata[i]))
      g_ptr_array_add (tries, cures_try_new (&oracle, ways->pdata[i]));
  for (guint i = 0; i < seen->findings->len; i++)
    if (may_be_cured (seen->findings->pdata[i]))
      write_down (seen->findings->pdata[i], look_at (&all, i), all_tried != NULL);
}

static void
try_shuffles (LidQuestion question, const LidPopulation *from, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (LidPopulation) population = cures_machine_shuffle (dice, question.board, from);

      if (n == DRAWN && i % 2 == 0)
        population->mode = question.board->modes[i / 2 % question.board->n_modes].mode;
      question.population = population;
      try_population (&question);
    }
}

static void
try_case (JsonObject *file, JsonObject *one, const LidRule *rule)
{
  g_autoptr (ChecksCase) c = checks_case_new (file, one);
  const LidQuestion question = { c->figures->board, c->population, NULL };

  if (question.board->n_slots > MOST_SLOTS)
    return;
  g_rand_set_seed (dice, g_str_hash (json_object_get_string_member (one, "case")));
  try_population (&question);
  try_shuffles (question, c->population, SHUFFLES);
}

static void
start (void)
{
  dice = g_rand_new_with_seed (20261128);
  by_rule = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  memset (counts, 0, sizeof counts);
}

/* At least @least that some arrangement clears; of a hundred in larger machines at most @most have
 * a better one than is offered: what is measured. */
static void
sum_up (guint least, guint most)
{
  g_autoptr (GList) keys = g_list_sort (g_hash_table_get_keys (by_rule), (GCompareFunc)strcmp);
  guint cleared[2] = { 0 }, missed[2] = { 0 };

  for (GList *l = keys; l != NULL; l = l->next)
    g_test_message ("%s: %u", (const char *)l->data,
                    GPOINTER_TO_UINT (g_hash_table_lookup (by_rule, l->data)));
  for (guint tried = 0; tried < 2; tried++)
    {
      for (Outcome i = 0; i < N_OUTCOMES; i++)
        {
          cleared[tried] += i != NOTHING ? counts[tried][i] : 0;
          missed[tried] += i > SHARED ? counts[tried][i] : 0;
        }
      g_test_message ("%s: of %u that some arrangement clears, %u have a better one than is "
                      "offered; %u are cleared with another",
                      tried ? "all tried" : "larger", cleared[tried], missed[tried],
                      counts[tried][SHARED]);
    }
  g_assert_cmpuint (cleared[1], >, least);
  g_assert_cmpuint (missed[1], ==, 0);
  g_assert_cmpuint (missed[0] * 100, <=, cleared[0] * most);
  g_hash_table_unref (by_rule);
  g_rand_free (dice);
}

static void
test_cases (void)
{
  start ();
  checks_case_each (try_case);
  sum_up (1000, 50);
}

static void
test_drawn (void)
{
  start ();
  for (guint i = 0; i < G_N_ELEMENTS (boards); i++)
    {
      g_autoptr (FiguresCase) c = figures_case_parse (boards[i], board_of_all, modules_of_all);

      try_shuffles ((LidQuestion){ c->board, NULL, NULL }, c->population, DRAWN);
    }
  sum_up (200, 80);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cures/all-arrangements", test_cases);
  g_test_add_func ("/cures/all-arrangements-drawn", test_drawn);
  return g_test_run ();
}
