/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

typedef struct
{
  LidSlotSet wrong;
  GArray *moves; /* of guint pairs: from, to */
} Swaps;

/* Whether @a belongs before @b: more ranks first, then more capacity (P10, P11). Where ranks are
 * not told it is capacity alone, and the ranks are asked for. */
static gboolean
belongs_before (LidCheck *check, guint a, guint b)
{
  const LidModule *x = lid_check_module (check, a), *y = lid_check_module (check, b);
  gboolean x_told, y_told;
  guint x_ranks = lid_board_count_ranks (check->board, x, &x_told);
  guint y_ranks = lid_board_count_ranks (check->board, y, &y_told);

  if (lid_check_is_alike (x, y))
    return FALSE;
  if (!x_told)
    lid_check_miss_ranks (check, a);
  if (!y_told)
    lid_check_miss_ranks (check, b);
  if (x_told && y_told && x_ranks > y_ranks)
    return TRUE;
  if (x_told && y_told && x_ranks < y_ranks)
    return FALSE;
  if (!lid_module_knows (x, LID_FACT_CAPACITY))
    lid_check_miss (check, LID_FACT_CAPACITY, a);
  if (!lid_module_knows (y, LID_FACT_CAPACITY))
    lid_check_miss (check, LID_FACT_CAPACITY, b);
  return x_told && y_told && lid_module_knows (x, LID_FACT_CAPACITY)
         && lid_module_knows (y, LID_FACT_CAPACITY)
         && lid_module_capacity (x) > lid_module_capacity (y);
}

/* Sorts one channel's modules by insertion. Returns how many there are. */
static guint
sort_channel (LidCheck *check, const LidSurveyChannel *channel, guint *slots, guint *sorted)
{
  guint n = 0;

  for (guint i = 0; i < channel->n_fitted; i++)
    {
      guint slot = channel->fitted[i];

      if (!lid_check_is_dram (check, slot) || check->board->slots[slot].position == 0)
        continue;
      slots[n] = sorted[n] = slot;
      for (guint at = n; at > 0 && belongs_before (check, sorted[at], sorted[at - 1]); at--)
        {
          guint swap = sorted[at];

          sorted[at] = sorted[at - 1];
          sorted[at - 1] = swap;
        }
      n++;
    }
  return n;
}

/* What sits where one of its sort belongs stays there: equal modules are interchangeable
 * (product.md 6, settled reading 11). The others go into the places left, in their order. */
static void
look_at_channel (LidCheck *check, const LidSurveyChannel *channel, Swaps *swaps)
{
  guint slots[LID_BOARD_MAX_SLOTS], sorted[LID_BOARD_MAX_SLOTS];
  guint n = sort_channel (check, channel, slots, sorted), next = 0;
  LidSlotSet stay = { { 0 } };

  for (guint i = 0; i < n; i++)
    if (sorted[i] == slots[i]
        || (!belongs_before (check, sorted[i], slots[i])
            && !belongs_before (check, slots[i], sorted[i])))
      lid_slot_set_add (&stay, slots[i]);
  for (guint i = 0; i < n; i++)
    {
      if (lid_slot_set_has (&stay, slots[i]))
        continue;
      while (lid_slot_set_has (&stay, sorted[next]))
        next++;
      lid_slot_set_add (&swaps->wrong, slots[i]);
      g_array_append_val (swaps->moves, sorted[next]);
      g_array_append_val (swaps->moves, slots[i]);
      next++;
    }
}

static void
check_larger (LidCheck *check)
{
  static const guint32 facts = LID_FACT_BIT (LID_FACT_RANKS) | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS)
                               | LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_KIND);
  g_autoptr (GArray) moves = NULL;
  g_autofree char *names = NULL;
  LidFinding *finding;
  Swaps swaps = { 0 };

  if (check->board->derived || !((check->varying | check->missing) & facts))
    return;
  moves = swaps.moves = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint c = 0; c < check->board->n_channels; c++)
    look_at_channel (check, &check->survey->channels[c], &swaps);
  if (moves->len == 0)
    return;
  names = lid_names_slots (check, &swaps.wrong);
  finding = lid_check_add (
      check, check->board->larger_first_grade, LID_STOPS_MACHINE, &swaps.wrong,
      g_strdup_printf (_ ("In %s modules sit out of order: within a channel more ranks come first, "
                          "then more capacity."),
                       names));
  if (check->board->larger_first_source != NULL)
    finding->source = check->board->larger_first_source;
  else if (check->board->larger_first_told && check->board->source != NULL)
    finding->source = check->board->source;
  lid_remedy_say (check, finding,
                  g_strdup_printf (_ ("Let the modules in %s change places: most ranks "
                                      "first, then the largest."),
                                   names));
  for (guint i = 0; i < moves->len; i += 2)
    lid_remedy_move (check, finding, (int)g_array_index (moves, guint, i),
                     (int)g_array_index (moves, guint, i + 1));
}

const LidRule lid_rule_larger_first = {
  .id = "larger-first",
  .title = N_ ("higher rank or larger first"),
  .scope = LID_SCOPE_CHANNEL,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .board_decides = TRUE,
  .cures = LID_CURE_SPREAD,
  .why
  = N_ ("Within a channel the module with more ranks, and among equals the larger one, belongs "
        "into the first slot. Some boards refuse another order, others warn at each start."),
  .clears = N_ ("Let the modules of the channel change places."),
  .facts = LID_FACT_BIT (LID_FACT_RANKS) | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS)
           | LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_KIND),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_larger,
};
