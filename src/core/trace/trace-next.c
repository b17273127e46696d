/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace-next.c — the next start that tells most.
 *
 * Every single change is thought of: seat again, two modules change places, all back, half of them
 * out, the setup eased, processors change places. For each the explanations that are left say what
 * they would show; the fewer look alike at worst, the better. Contact comes first where it is still
 * possible: it is the likeliest and the cheapest (population.md 7.1, 7.3 step 0). Among equals the
 * cheaper, then another processor or controller, then the board's order. Where nobody can tell the
 * slot, the modules suspected are halved first: N of them need log2 N starts (population.md 7.3).
 * None that the checker stops, and none that ends a memory mode that holds: that would be a second
 * fault (population.md 7.3). */
#include "checks/assessment.h"
#include "trace/trace-candidates.h"

#include <string.h>

void
lid_trace_next_free (LidNextTrial *next)
{
  if (next == NULL)
    return;
  lid_trial_free (next->trial);
  g_free (next->text);
  g_free (next);
}

/* What one explanation would show: two that show the same are not told apart. */
typedef struct
{
  LidShows shows;
  LidSlotSet where;
} Shown;

static Shown
shown (const LidTraceSearch *search, const LidExplanation *explanation, const LidTrial *trial)
{
  Shown all = { LID_SHOWS_NOTHING, { { 0 } } };

  for (guint i = 0; i < (explanation->two ? 2u : 1u); i++)
    {
      LidSlotSet where;
      LidShows shows = lid_suspects_shows (
          search->about, i == 0 ? &explanation->one : &explanation->other, trial, &where);

      lid_slot_set_merge (&all.where, &where);
      if (all.shows != LID_SHOWS_FAULT && shows != LID_SHOWS_NOTHING)
        all.shows = shows;
    }
  if (!lid_trial_is_told_where (search->began))
    memset (&all.where, 0, sizeof all.where);
  return all;
}

static gboolean
is_same (const Shown *a, const Shown *b)
{
  return a->shows == b->shows && memcmp (&a->where, &b->where, sizeof a->where) == 0;
}

/* Whether @one would still be left where what @seen shows is seen; what may show or not is left
 * either way. */
static gboolean
is_left (const Shown *one, const Shown *seen, gboolean clean)
{
  if (one->shows == LID_SHOWS_EITHER)
    return TRUE;
  if (clean || one->shows == LID_SHOWS_NOTHING)
    return clean && one->shows == LID_SHOWS_NOTHING;
  for (guint i = 0; i < LID_SLOT_SET_WORDS; i++)
    if ((seen->where.word[i] & ~one->where.word[i]) != 0)
      return FALSE;
  return TRUE;
}

/* Whether it blames one module, alone. */
static gboolean
is_of_module (const LidTraceSearch *search, guint i)
{
  const LidExplanation *one = &g_array_index (search->left, LidExplanation, i);

  return !one->two && one->one.kind == LID_SUSPECT_MODULE;
}

/* So many explanations would show the same. */
typedef struct
{
  Shown what;
  guint n; /* of those that count */
} Alike;

/* @modules: only those that blame one module count. A machine of a hundred modules leaves hundreds
 * of explanations, of which few show anything of their own.
 *
 * Returns: (transfer full): Alike, each different */
static GArray *
group (const LidTraceSearch *search, const LidTrial *trial, gboolean modules)
{
  GArray *groups = g_array_new (FALSE, FALSE, sizeof (Alike));

  for (guint i = 0; i < search->left->len; i++)
    {
      Shown what = shown (search, &g_array_index (search->left, LidExplanation, i), trial);
      guint at = 0;

      while (at < groups->len && !is_same (&g_array_index (groups, Alike, at).what, &what))
        at++;
      if (at == groups->len)
        {
          Alike one = { what, 0 };

          g_array_append_val (groups, one);
        }
      g_array_index (groups, Alike, at).n += !modules || is_of_module (search, i);
    }
  return groups;
}

/**
 * lid_trace_worst_left:
 * @trial: a start that is thought of
 * @modules: count only those that blame one module
 *
 * Returns: how many explanations are left at worst
 */
guint
lid_trace_worst_left (const LidTraceSearch *search, const LidTrial *trial, gboolean modules)
{
  g_autoptr (GArray) groups = group (search, trial, modules);
  guint worst = 0;

  for (guint i = 0; i < groups->len; i++)
    {
      const Shown *seen = &g_array_index (groups, Alike, i).what;
      guint clean = 0, fault = 0;

      for (guint k = 0; k < groups->len; k++)
        {
          const Alike *one = &g_array_index (groups, Alike, k);

          if (seen->shows != LID_SHOWS_FAULT && is_left (&one->what, seen, TRUE))
            clean += one->n;
          if (seen->shows != LID_SHOWS_NOTHING && is_left (&one->what, seen, FALSE))
            fault += one->n;
        }
      worst = MAX (worst, MAX (clean, fault));
    }
  return worst;
}

/* The farther apart, the less two places share. */
static guint
shared (const LidBoard *board, const LidNextTrial *next)
{
  const LidBoardSlot *a, *b;

  if (next->kind != LID_NEXT_SWAP)
    return 0;
  a = &board->slots[next->a];
  b = &board->slots[next->b];
  if (a->socket != b->socket)
    return 0;
  if (a->channel == LID_NOWHERE || b->channel == LID_NOWHERE)
    return 2;
  return board->channels[a->channel].controller != board->channels[b->channel].controller ? 1 : 2;
}

static int
compare (const void *left, const void *right, void *data)
{
  const LidNextTrial *a = *(LidNextTrial *const *)left, *b = *(LidNextTrial *const *)right;
  const LidBoard *board = data;
  gboolean a_contact = a->kind == LID_NEXT_RESEAT, b_contact = b->kind == LID_NEXT_RESEAT;

  if (a_contact != b_contact)
    return a_contact ? -1 : 1;
  if (a->modules != b->modules)
    return a->modules < b->modules ? -1 : 1;
  if (a->worst != b->worst)
    return a->worst < b->worst ? -1 : 1;
  if (a->kind != b->kind)
    return a->kind < b->kind ? -1 : 1;
  if (shared (board, a) != shared (board, b))
    return shared (board, a) < shared (board, b) ? -1 : 1;
  return a->a != b->a ? a->a - b->a : a->b - b->b;
}

static gboolean
stops_more (const LidAssessment *now, const LidAssessment *then, const LidTrial *trial)
{
  if (!then->figures.starts)
    return now->figures.starts;
  if (now->figures.mode.effect == LID_EFFECT_TAKEN && then->figures.mode.effect != LID_EFFECT_TAKEN)
    return TRUE;
  for (guint i = 0; i < trial->population->n_slots; i++)
    if (trial->population->slots[i].module != NULL && then->unusable[i] && !now->unusable[i])
      return TRUE;
  return FALSE;
}

/* All slots as filled as they were at first: what the machine does not see is still there. */
static gboolean
is_allowed (const LidTraceSearch *search, const LidNextTrial *next)
{
  const LidBoard *board = search->about->board;
  g_autoptr (LidPopulation) before = lid_population_copy (search->began->population);
  g_autoptr (LidPopulation) after = lid_population_copy (next->trial->population);
  g_autoptr (LidAssessment) now = NULL, then = NULL;

  for (guint i = 0; i < board->n_slots; i++)
    {
      if (before->slots[i].state == LID_SLOT_NOT_SEEN)
        before->slots[i].state = LID_SLOT_FILLED;
      if (after->slots[i].state == LID_SLOT_NOT_SEEN)
        after->slots[i].state = LID_SLOT_FILLED;
    }
  now = lid_assessment_new_plain (&(LidQuestion){ board, before, NULL });
  then = lid_assessment_new_plain (&(LidQuestion){ board, after, NULL });
  return !stops_more (now, then, next->trial);
}

static gboolean
is_moved (const LidTrial *now, const LidTrial *then)
{
  return memcmp (now->processor_of, then->processor_of, now->n_sockets * sizeof (guint)) != 0
         || !lid_population_equal (now->population, then->population);
}

static LidNextTrial *
best_allowed (LidTraceSearch *search)
{
  g_ptr_array_sort_with_data (search->candidates, compare, (gpointer)search->about->board);
  for (guint i = 0; i < search->candidates->len; i++)
    if (is_allowed (search, search->candidates->pdata[i]))
      {
        LidNextTrial *next = g_ptr_array_steal_index (search->candidates, i);

        next->by_hand = next->kind != LID_NEXT_EASE || is_moved (search->now, next->trial);
        return next;
      }
  return NULL;
}

/**
 * lid_trace_find_next:
 * @left: LidExplanation, at least two
 *
 * Returns: (transfer full) (nullable): the next start, without its words; NULL: nothing allowed
 * tells more
 */
LidNextTrial *
lid_trace_find_next (const LidTraceCase *about, const GArray *left)
{
  g_autoptr (GPtrArray) candidates
      = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_trace_next_free);
  LidTraceSearch search = { about, left, about->trials->pdata[about->trials->len - 1],
                            about->trials->pdata[about->first], candidates };
  LidNextTrial *next;

  lid_trace_candidates_find (&search);
  next = best_allowed (&search);
  if (next != NULL)
    return next;
  g_ptr_array_set_size (candidates, 0);
  lid_trace_candidates_find_more (&search);
  return best_allowed (&search);
}
