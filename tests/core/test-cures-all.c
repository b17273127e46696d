/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far the offered moves are from the best of all arrangements of what is in the machine: the
 * head of checks/cure.c says that not all are tried, and this holds what is missed. Every
 * arrangement of small machines is judged (arithmetic: a brute force), by the order which that head
 * states, on the boards of the checker's cases with modules put at random. */
#include "checks-case.h"
#include "checks/assessment-private.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "cures-oracle.h"

#include <string.h>

#define MOST_SLOTS 6u
#define SHUFFLES 6

typedef enum
{
  AS_GOOD,     /* none is better than what is offered */
  NOTHING,     /* none clears it, and none is offered */
  OTHERS,      /* nothing is offered for it alone; what is offered for another finding clears it */
  MORE_MOVES,  /* another does the same with fewer hands */
  LESS_GAIN,   /* another leaves the machine faster, or with more memory */
  ONLY_EMPTY,  /* slots are to be left empty, though moving would do */
  NONE_OFFERED /* no moves are offered, though some would do */
} Outcome;

#define N_OUTCOMES (NONE_OFFERED + 1)

static const char *const words[N_OUTCOMES]
    = { "as good",   "nothing to offer", "another's",   "more moves",
        "less gain", "only empty",       "none offered" };

static GRand *dice;
static guint counts[N_OUTCOMES];
static GHashTable *by_rule; /* "rule: outcome" to count */

/* What is in the machine, in another arrangement. */
typedef struct
{
  const CuresOracle *oracle;
  guint at[MOST_SLOTS];  /* slots that may change */
  guint was[MOST_SLOTS]; /* sort of the module in each; 0: empty */
  guint n;
  guint is[MOST_SLOTS];
  GPtrArray *tries; /* CuresTry */
} Arranging;

/* Each place that gets another sort takes it from a place that loses that sort. */
static GArray *
moves_of (const Arranging *all)
{
  const LidPopulation *population = all->oracle->question->population;
  GArray *moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  gboolean used[MOST_SLOTS] = { FALSE };

  for (guint to = 0; to < all->n; to++)
    for (guint from = 0; all->is[to] != 0 && all->is[to] != all->was[to] && from < all->n; from++)
      if (!used[from] && all->was[from] == all->is[to] && all->is[from] != all->was[from])
        {
          LidMove move
              = { population->slots[all->at[from]].module, (int)all->at[from], (int)all->at[to] };

          used[from] = TRUE;
          g_array_append_val (moves, move);
          break;
        }
  return moves;
}

/* @left: how many of each sort are still to be put. */
static void
arrange (Arranging *all, guint place, guint left[MOST_SLOTS + 1])
{
  if (place == all->n)
    {
      g_autoptr (GArray) moves = moves_of (all);

      if (moves->len > 0)
        g_ptr_array_add (all->tries, cures_try_new (all->oracle, moves));
      return;
    }
  for (guint sort = 0; sort <= MOST_SLOTS; sort++)
    if (left[sort] > 0)
      {
        left[sort]--;
        all->is[place] = sort;
        arrange (all, place + 1, left);
        left[sort]++;
      }
}

static gboolean
is_held (const LidQuestion *question, guint slot)
{
  const LidFitting *here = &question->population->slots[slot];
  int socket = question->board->slots[slot].socket;

  return question->board->slots[slot].soldered != NULL || here->state == LID_SLOT_NOT_SEEN
         || (here->module != NULL && here->module->persistent)
         || (socket != LID_NOWHERE && !question->population->processors[socket].fitted);
}

static void
arrange_all (Arranging *all)
{
  const LidQuestion *question = all->oracle->question;
  guint left[MOST_SLOTS + 1] = { 0 }, sorts = 0;

  for (guint i = 0; i < question->board->n_slots; i++)
    {
      const LidModule *module = question->population->slots[i].module;
      guint sort = 0;

      if (is_held (question, i))
        continue;
      for (guint k = 0; module != NULL && sort == 0 && k < all->n; k++)
        if (all->was[k] != 0
            && cures_deal_alike (question->population->slots[all->at[k]].module, module))
          sort = all->was[k];
      if (module != NULL && sort == 0)
        sort = ++sorts;
      all->at[all->n] = i;
      all->was[all->n++] = sort;
      left[sort]++;
    }
  arrange (all, 0, left);
}

static gboolean
only_takes_out (const GArray *moves)
{
  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, LidMove, i).to != LID_NOWHERE)
      return FALSE;
  return TRUE;
}

static gboolean
is_cleared_with_another (const Arranging *all, const LidFinding *finding)
{
  for (guint i = 0; i < all->oracle->seen->findings->len; i++)
    {
      const LidFinding *other = all->oracle->seen->findings->pdata[i];
      g_autoptr (CuresTry) one = NULL;

      if (other->remedy == NULL || other->remedy->moves->len == 0
          || only_takes_out (other->remedy->moves))
        continue;
      one = cures_try_new (all->oracle, other->remedy->moves);
      if (cures_oracle_clears (all->oracle, finding, one->after, TRUE))
        return TRUE;
    }
  return FALSE;
}

static Outcome
look_at (const Arranging *all, const LidFinding *finding)
{
  const GArray *offered = finding->remedy != NULL ? finding->remedy->moves : NULL;
  g_autoptr (CuresTry) own = NULL;
  const CuresTry *best = NULL;

  for (guint i = 0; i < all->tries->len; i++)
    if (cures_oracle_clears (all->oracle, finding, ((CuresTry *)all->tries->pdata[i])->after, TRUE)
        && (best == NULL || cures_oracle_compare (all->tries->pdata[i], best) > 0))
      best = all->tries->pdata[i];
  if (best == NULL)
    return offered == NULL || offered->len == 0 ? NOTHING : AS_GOOD;
  if (offered == NULL || offered->len == 0)
    return is_cleared_with_another (all, finding) ? OTHERS : NONE_OFFERED;
  if (only_takes_out (offered))
    return ONLY_EMPTY;
  own = cures_try_new (all->oracle, offered);
  if (cures_oracle_compare (best, own) <= 0)
    return AS_GOOD;
  return best->moves->len < own->moves->len && cures_oracle_compare_gain (best, own) == 0
             ? MORE_MOVES
             : LESS_GAIN;
}

static void
write_down (const LidFinding *finding, Outcome outcome)
{
  char *key = g_strdup_printf ("%s: %s", finding->rule->id, words[outcome]);
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (by_rule, key));

  g_hash_table_replace (by_rule, key, GUINT_TO_POINTER (n + 1));
  counts[outcome]++;
}

static void
try_population (const LidQuestion *question)
{
  g_autoptr (LidAssessment) seen
      = lid_assessment_new_how (question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NOW });
  g_autoptr (LidAssessment) planned = lid_assessment_new_how (
      question, (LidAssessmentHow){ .remedies = LID_REMEDIES_NEVER, .only_planned = TRUE });
  const CuresOracle oracle = { question, NULL, seen, planned };
  g_autoptr (GPtrArray) tries = g_ptr_array_new_with_free_func ((GDestroyNotify)cures_try_free);
  Arranging all = { .oracle = &oracle, .tries = tries };

  arrange_all (&all);
  for (guint i = 0; i < seen->findings->len; i++)
    {
      const LidFinding *finding = seen->findings->pdata[i];

      if (finding->grade != LID_GRADE_NOTE && finding->fact == LID_NOWHERE
          && !(finding->remedy != NULL && finding->remedy->by_setting))
        write_down (finding, look_at (&all, finding));
    }
}

static void
try_case (JsonObject *file, JsonObject *one, const LidRule *rule)
{
  g_autoptr (ChecksCase) c = checks_case_new (file, one);
  LidQuestion question = { c->figures->board, c->population, NULL };

  if (question.board->n_slots > MOST_SLOTS)
    return;
  g_rand_set_seed (dice, g_str_hash (json_object_get_string_member (one, "case")));
  try_population (&question);
  for (guint i = 0; i < SHUFFLES; i++)
    {
      g_autoptr (LidPopulation) population
          = cures_machine_shuffle (dice, question.board, c->population);

      question.population = population;
      try_population (&question);
    }
}

static void
test_all (void)
{
  g_autoptr (GList) keys = NULL;
  guint cleared = 0, missed;

  dice = g_rand_new ();
  by_rule = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  checks_case_each (try_case);
  keys = g_list_sort (g_hash_table_get_keys (by_rule), (GCompareFunc)strcmp);
  for (GList *l = keys; l != NULL; l = l->next)
    g_test_message ("%s: %u", (const char *)l->data,
                    GPOINTER_TO_UINT (g_hash_table_lookup (by_rule, l->data)));
  for (guint i = 0; i < N_OUTCOMES; i++)
    g_test_message ("all: %s: %u", words[i], counts[i]);
  for (guint i = AS_GOOD; i < N_OUTCOMES; i++)
    cleared += i != NOTHING && i != OTHERS ? counts[i] : 0;
  missed = cleared - counts[AS_GOOD];
  g_test_message ("of %u that some arrangement clears, %u have a better one than is offered",
                  cleared, missed);
  /* What the head of checks/cure.c says of it. */
  g_assert_cmpuint (cleared, >, 1000);
  g_assert_cmpuint (missed * 100, <=, cleared * 8);
  g_assert_cmpuint ((counts[NONE_OFFERED] + counts[ONLY_EMPTY]) * 100, <=, cleared * 2);
  g_hash_table_unref (by_rule);
  g_rand_free (dice);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cures/all-arrangements", test_all);
  return g_test_run ();
}
