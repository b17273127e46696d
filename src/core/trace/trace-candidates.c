/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace-candidates.c — every single change that can be thought of before the next start: seat
 * again, two modules change places, all back, some of them out, the setup eased, processors change
 * places. */
#include "trace/trace-candidates.h"

#include <string.h>

/* A start that was made once tells nothing when it is made again. */
static gboolean
was_made (const LidTraceSearch *search, const LidTrial *trial)
{
  for (guint t = search->about->first; t < search->about->trials->len; t++)
    {
      const LidTrial *before = search->about->trials->pdata[t];

      if (before->outcome != LID_OUTCOME_INCONCLUSIVE && before->eased == trial->eased
          && memcmp (before->processor_of, trial->processor_of, trial->n_sockets * sizeof (guint))
                 == 0
          && memcmp (before->reseated, trial->reseated, trial->population->n_slots) == 0
          && lid_population_equal (before->population, trial->population))
        return TRUE;
    }
  return FALSE;
}

static void
think_of (LidTraceSearch *search, LidNextKind kind, LidTrial *trial, int a, int b)
{
  LidNextTrial *next = g_new0 (LidNextTrial, 1);

  next->kind = kind;
  next->trial = trial;
  next->a = a;
  next->b = b;
  next->worst = lid_trace_worst_left (search, trial, FALSE);
  next->modules
      = lid_trial_is_told_where (search->began) ? 0 : lid_trace_worst_left (search, trial, TRUE);
  if (next->worst < search->left->len && !was_made (search, trial))
    g_ptr_array_add (search->candidates, next);
  else
    lid_trace_next_free (next);
}

static gboolean
is_movable (const LidTrial *trial, guint slot)
{
  const LidFitting *fitting = &trial->population->slots[slot];

  return fitting->module != NULL && fitting->state != LID_SLOT_SOLDERED
         && !fitting->module->persistent;
}

/* The slots that what is left speaks of, by place or by the module in it now. */
static void
mark_places (const LidTraceSearch *search, guint8 *places)
{
  for (guint i = 0; i < search->left->len; i++)
    {
      const LidExplanation *one = &g_array_index (search->left, LidExplanation, i);

      for (guint k = 0; k < (one->two ? 2u : 1u); k++)
        {
          const LidSuspect *suspect = k == 0 ? &one->one : &one->other;

          if (suspect->slot != LID_NOWHERE)
            places[suspect->slot] = TRUE;
          for (guint s = 0; suspect->module != NULL && s < search->about->board->n_slots; s++)
            if (is_movable (search->now, s)
                && g_strcmp0 (search->now->population->slots[s].module->id, suspect->module) == 0)
              places[s] = TRUE;
        }
    }
}

static void
think_of_seating (LidTraceSearch *search)
{
  LidTrial *trial = lid_trial_next (search->now);
  gboolean any = FALSE;

  for (guint i = 0; i < search->left->len; i++)
    {
      const LidSuspect *suspect = &g_array_index (search->left, LidExplanation, i).one;

      if (suspect->kind == LID_SUSPECT_SEATING && is_movable (search->now, (guint)suspect->slot))
        any = trial->reseated[suspect->slot] = TRUE;
    }
  if (any)
    think_of (search, LID_NEXT_RESEAT, trial, LID_NOWHERE, LID_NOWHERE);
  else
    lid_trial_free (trial);
}

/* Whether a suspect may go from one slot to another. @places: where suspects are. */
typedef gboolean (*MayGo) (const LidTraceSearch *search,
                           const guint8 *places,
                           guint from,
                           guint to);

static void
think_of_pairs (LidTraceSearch *search, LidNextKind kind, MayGo may_go)
{
  guint n = search->about->board->n_slots;
  g_autofree guint8 *places = g_new0 (guint8, n + 1);

  mark_places (search, places);
  for (guint from = 0; from < n; from++)
    for (guint to = 0; places[from] && is_movable (search->now, from) && to < n; to++)
      if (may_go (search, places, from, to))
        {
          LidTrial *trial = lid_trial_next (search->now);

          lid_trial_swap (trial, from, to);
          think_of (search, kind, trial, (int)from, (int)to);
        }
}

/* With a module nobody suspects, on another channel, it changes places. */
static gboolean
is_trusted (const LidTraceSearch *search, const guint8 *places, guint from, guint to)
{
  const LidBoardSlot *slots = search->about->board->slots;

  return !places[to] && is_movable (search->now, to)
         && (slots[from].channel == LID_NOWHERE || slots[from].channel != slots[to].channel);
}

/* An empty slot is the way out where two modules are all there are. */
static gboolean
is_empty (const LidTraceSearch *search, const guint8 *places, guint from, guint to)
{
  (void)places;
  (void)from;
  return search->now->population->slots[to].module == NULL
         && search->about->board->slots[to].soldered == NULL;
}

static gboolean
is_fitted (const LidTrial *trial, const LidModule *module)
{
  for (guint i = 0; i < trial->population->n_slots; i++)
    if (trial->population->slots[i].module != NULL
        && g_strcmp0 (trial->population->slots[i].module->id, module->id) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
is_suspected (const LidTraceSearch *search, const LidModule *module)
{
  for (guint i = 0; i < search->left->len; i++)
    {
      const LidExplanation *one = &g_array_index (search->left, LidExplanation, i);

      if (g_strcmp0 (one->one.module, module->id) == 0
          || (one->two && g_strcmp0 (one->other.module, module->id) == 0))
        return TRUE;
    }
  return FALSE;
}

/* Two suspects that the order of fitting wants in both: one of those that lie outside goes in. */
static void
think_of_replacing (LidTraceSearch *search, const LidTrial *base)
{
  const LidPopulation *began = search->began->population;
  int good = LID_NOWHERE;

  for (guint i = 0; i < began->n_slots && good == LID_NOWHERE; i++)
    if (is_movable (search->began, i) && !is_fitted (base, began->slots[i].module)
        && !is_suspected (search, began->slots[i].module))
      good = (int)i;
  for (guint a = 0; good != LID_NOWHERE && a < began->n_slots; a++)
    if (is_movable (base, a) && is_suspected (search, base->population->slots[a].module))
      {
        LidTrial *trial = lid_trial_next (base);

        lid_population_put (trial->population, a, began->slots[good].module);
        think_of (search, LID_NEXT_REPLACE, trial, (int)a, good);
      }
}

/* All as at the first start with the fault. */
static LidTrial *
all_back (const LidTrial *began)
{
  LidTrial *trial = lid_trial_new (began->population);

  memcpy (trial->processor_of, began->processor_of, began->n_sockets * sizeof (guint));
  return trial;
}

/**
 * lid_trace_put_back:
 *
 * Returns: (transfer full): the first start with the fault once more, without its words
 */
LidNextTrial *
lid_trace_put_back (const LidTraceCase *about)
{
  LidNextTrial *next = g_new0 (LidNextTrial, 1);

  next->kind = LID_NEXT_BACK;
  next->by_hand = TRUE;
  next->trial = all_back (about->trials->pdata[about->first]);
  next->a = next->b = LID_NOWHERE;
  next->worst = 1;
  return next;
}

static void
think_of_back (LidTraceSearch *search)
{
  LidTrial *trial = all_back (search->began);

  if (lid_population_equal (search->now->population, trial->population))
    lid_trial_free (trial);
  else
    think_of (search, LID_NEXT_BACK, trial, LID_NOWHERE, LID_NOWHERE);
}

static guint
place_of (const LidBoard *board, guint slot)
{
  return board->n_order > 0 ? lid_board_order_of (board, slot) : slot;
}

/* Of what was fitted at first only the first so many in the order of fitting: so the order holds.
 */
static void
think_of_taking_out (LidTraceSearch *search)
{
  const LidBoard *board = search->about->board;
  g_autofree guint *slots = g_new (guint, board->n_slots + 1);
  guint n = 0;

  for (guint i = 0; i < board->n_slots; i++)
    if (search->began->population->slots[i].module != NULL
        && search->began->population->slots[i].state != LID_SLOT_SOLDERED)
      {
        guint at = n++;

        for (; at > 0 && place_of (board, slots[at - 1]) > place_of (board, i); at--)
          slots[at] = slots[at - 1];
        slots[at] = i;
      }
  for (guint keep = 1; keep < n; keep++)
    {
      LidTrial *trial = lid_trial_new (search->began->population);

      memcpy (trial->processor_of, search->now->processor_of,
              search->now->n_sockets * sizeof (guint));
      for (guint i = keep; i < n; i++)
        lid_population_take (trial->population, slots[i]);
      think_of_replacing (search, trial);
      think_of (search, LID_NEXT_TAKE_OUT, trial, (int)keep, LID_NOWHERE);
    }
}

static void
think_of_setup_and_processors (LidTraceSearch *search)
{
  LidTrial *eased = all_back (search->began);

  eased->eased = TRUE;
  think_of (search, LID_NEXT_EASE, eased, LID_NOWHERE, LID_NOWHERE);
  for (guint a = 0; a < search->now->n_sockets; a++)
    for (guint b = a + 1; b < search->now->n_sockets; b++)
      if (search->now->population->processors[a].fitted
          && search->now->population->processors[b].fitted)
        {
          LidTrial *trial = lid_trial_next (search->now);
          guint kept = trial->processor_of[a];

          trial->processor_of[a] = trial->processor_of[b];
          trial->processor_of[b] = kept;
          think_of (search, LID_NEXT_PROCESSORS, trial, (int)a, (int)b);
        }
}

/**
 * lid_trace_candidates_find:
 * @search: gets those that tell something, in no order; none was made before
 */
void
lid_trace_candidates_find (LidTraceSearch *search)
{
  if (lid_trial_is_told_where (search->began))
    think_of_seating (search);
  think_of_pairs (search, LID_NEXT_SWAP, is_trusted);
  think_of_replacing (search, search->now);
  think_of_back (search);
  think_of_taking_out (search);
  think_of_setup_and_processors (search);
}

/* A suspect stays out, and in its slot is one that nobody suspects, whose own slot stays empty: so
 * slot and module are told apart where the order of fitting lets neither be left out alone. */
static void
think_of_standing_in (LidTraceSearch *search)
{
  const LidPopulation *began = search->began->population;

  for (guint a = 0; a < began->n_slots; a++)
    for (guint good = 0; good < began->n_slots; good++)
      {
        LidTrial *trial;

        if (!is_movable (search->began, a) || !is_suspected (search, began->slots[a].module)
            || !is_movable (search->began, good)
            || is_suspected (search, began->slots[good].module))
          continue;
        trial = all_back (search->began);
        lid_population_put (trial->population, a, began->slots[good].module);
        lid_population_take (trial->population, good);
        think_of (search, LID_NEXT_REPLACE, trial, (int)a, (int)good);
      }
}

/**
 * lid_trace_candidates_find_more:
 * @search: gets what goes further, for where nothing else tells more
 */
void
lid_trace_candidates_find_more (LidTraceSearch *search)
{
  think_of_standing_in (search);
  think_of_pairs (search, LID_NEXT_MOVE, is_empty);
}
