/* SPDX-License-Identifier: GPL-3.0-or-later */
/* search.c: the planner, and why it is exact.
 *
 * Wanted is the whole front (front.c) over all populations that nothing stops and that reach the
 * wish. There are far too many populations to ask the checker about each. What may be left out, and
 * by which argument:
 *
 * 1. A population that is shown has no stopping finding, so every module in it is usable, and its
 *    figures are those of figures/ over all that is fitted: rules have no part in them. So bounds
 *    of the figures hold whatever the rules say, and a rule added tomorrow cannot make them wrong.
 *    Rules only take populations away, and the checker itself is asked before one is kept.
 *
 * 2. Bounds of the bandwidth. Reading all memory once, each region in turn, takes as long as T MiB
 *    from one channel; whole = rate × S ÷ T. A region takes as much from each of its channels as
 *    reading it takes time, so T is at least the capacity of the fullest channel, t, in each of the
 *    three models and under every NUMA split. And at no time do more channels work than the widest
 *    region that the channels in use allow, so S ÷ T is at most the sum of those widths, W, over
 *    the nodes. So whole ≤ rate × min (S ÷ t, W). Neither says that more modules are faster, or
 *    that channels are alike: a seventh module may lower W, and does so in the bound too. For
 *    mirrored, paired and spared only W is used: what they leave on a channel is less.
 *
 * 3. Passes. Every population has one rate R and one fullest channel t. The search goes through all
 *    pairs (R, t): in one pass only fillings that may run at R or more and carry at most t. A
 *    population whose own pair is another one is looked at in that one's pass, so in this pass the
 *    bound R × min (S ÷ t, W) may be used for all, even where it is false for such a population.
 *    Rates are taken from everything that can be the least of all limits. With a rate per socket
 *    there is one pass for all rates, by the highest.
 *    Populations whose rate is not known have a pass of their own, and only those that may be such
 *    are looked at in it. A module added only adds limits, and a limit that is open is closed by a
 *    lower one that is told (running-rate.c); so without a voltage in the table a population whose
 *    every filling has a known rate when it is alone has one too. Nor is one such that has a
 *    filling slow enough to close what the others leave open (rated.c).
 *
 * 4. Targets. In a pass, populations fall apart by capacity S and by hands, both sums over columns.
 *    For each (S, hands) bounds.c gives the least cost, and least.c the least T that any channels
 *    of that S and t have. If the front has something that is as good as (bound of whole, that
 *    cost, hands), the target is settled: front.c calls that covered. If not, descent.c decides
 *    column by column what each carries, and leaves a branch where bounds are covered; when all is
 *    decided T is exact, and choice.c decides which modules it is.
 *    floor.c knows every price and no slots, bounds.c the slots and the cheapest price; lean.c
 *    joins them by prices of the target's own, and sizes.c knows what a list of capacities costs.
 *    Where what is found may leave, a target stands for every number of hands from its own on:
 *    modules of a found kind beyond those found come on top, and it is settled if it is so for
 *    each number by itself, by what floor.c has for it.
 *    Where descents take long, all targets of a capacity are looked at together, by what each node
 *    can hold at all, with how few hands and how low a T (node-mixes.c): few such mixes are not
 *    covered, and those are put into slots and the checker is asked. If it takes each, or the front
 *    covers it, the capacity is settled, for it has nothing that is not such a mix; if it does not,
 *    the descents go on.
 *    The order of passes and targets changes no answer, but how soon there is something to cover
 *    with: the highest rate and the least fullest channel first, and little capacity first, for
 *    even plans of no more than is asked for beat most others.
 *
 * 5. Columns of one group are filled in rising order, and of fillings that differ in the order of
 *    their modules alone one stands for all (twins.c), so that arrangements which differ by such an
 *    exchange are looked at once. No figure changes by that (columns.c). Where a finding speaks
 *    against the one arrangement, the others are asked one by one (leaf.c).
 *
 * 6. Rules prune by what they declare and tests prove (rule.h): a filling of one channel by lasting
 *    rules and rules of scope module or channel (fillings.c); a set of fillings by lasting rules:
 *    the checker is asked once about the columns so far, and what it says of a set holds for every
 *    population that contains it.
 *
 * 7. Ties. When the front stands, a second sweep asks about the populations that equal one of it,
 *    and the ties choose. That sweep is bounded; it changes which of two equal populations is shown
 *    and nothing else.
 *
 * The work is counted in steps, not in time, so that the same question has the same answer. Out of
 * steps, or cancelled, the answer is what was found, and `proved` is false. */
#include "planner/search.h"

#define USUAL_BUDGET 450000u
#define TIE_BUDGET 120000u
#define TIE_ASKS 400u /* per population of the front */

static void
init_nodes (LidPlanSearch *search)
{
  const LidPlanColumns *columns = search->columns;
  g_autoptr (GArray) nodes = g_array_new (FALSE, FALSE, sizeof (guint));
  guint n = columns->columns->len + columns->nodes->len;

  search->live = g_new0 (guint, n + 1);
  search->node_of = g_new0 (guint, n + 1);
  for (guint i = 0; i < n; i++)
    {
      guint node = i < columns->columns->len
                       ? lid_plan_columns_at (columns, i)->node
                       : g_array_index (columns->nodes, guint, i - columns->columns->len);
      guint at = 0;

      while (at < nodes->len && g_array_index (nodes, guint, at) != node)
        at++;
      if (at == nodes->len)
        g_array_append_val (nodes, node);
      search->node_of[i] = at;
      search->live[at]++;
    }
  search->n_nodes = nodes->len;
}

/**
 * lid_plan_search_init:
 * @search: (out): to be given back with lid_plan_search_clear()
 * @judge: borrowed, like the rest
 * @front: (inout): holds what is known already
 */
void
lid_plan_search_init (LidPlanSearch *search,
                      LidPlanJudge *judge,
                      const LidPlanColumns *columns,
                      LidPlanFillings *fillings,
                      LidPlanFront *front,
                      const LidPlanWatch *watch)
{
  guint n_kinds = judge->candidates->kinds->len;

  *search = (LidPlanSearch){
    .judge = judge, .columns = columns, .fillings = fillings, .front = front, .watch = watch
  };
  search->budget = judge->wish->budget > 0 ? judge->wish->budget : USUAL_BUDGET;
  search->gave_up = !fillings->complete;
  lid_plan_bounds_init (&search->bounds, columns, fillings, judge->candidates,
                        front->what == LID_WISH_CHEAPEST);
  lid_plan_times_init (&search->times, judge->question->board, judge->settings, columns,
                       search->bounds.unit_mib, search->bounds.n_mib);
  lid_plan_floor_init (&search->floor, &search->bounds, judge->wish, FALSE);
  lid_plan_floor_init (&search->hands_floor, &search->bounds, judge->wish, TRUE);
  search->picked = g_new0 (guint, columns->columns->len + 1);
  for (guint t = 0; t < G_N_ELEMENTS (search->rest); t++)
    search->rest[t] = g_new0 (gint64, columns->columns->len + 1);
  for (guint i = 0; i < LID_PLAN_SIZES; i++)
    search->sizes[i] = g_array_new (FALSE, FALSE, sizeof (gint64));
  search->owned_kinds = g_new0 (guint, n_kinds + 1);
  search->lean_count = g_new0 (guint, n_kinds + 1);
  search->lean_price = g_new0 (gint64, n_kinds + 1);
  search->apart = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  search->member = g_new0 (guint, columns->columns->len + 1);
  search->chosen = g_new0 (guint, columns->columns->len + 1);
  search->used = g_new0 (guint, n_kinds + 1);
  search->kinds = g_new (int, judge->candidates->n_slots + 1);
  search->asked
      = g_hash_table_new_full (g_bytes_hash, g_bytes_equal, (GDestroyNotify)g_bytes_unref, NULL);
  search->mixes = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  search->never = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < judge->candidates->n_slots; i++)
    search->kinds[i] = LID_NOWHERE;
  for (guint k = 0; k < n_kinds; k++)
    {
      search->missing += lid_candidates_kind (judge->candidates, k)->found;
      if (lid_candidates_kind (judge->candidates, k)->owned > 0)
        search->owned_kinds[search->n_owned++] = k;
    }
  search->n_found = search->missing;
  search->room = g_new0 (guint, (gsize)search->n_owned * (columns->columns->len + 1) + 1);
  search->forced = g_new0 (guint, (gsize)search->n_owned * (columns->columns->len + 1) + 1);
  init_nodes (search);
  lid_plan_node_mixes_init (search);
}

void
lid_plan_search_clear (LidPlanSearch *search)
{
  lid_plan_node_mixes_clear (search);
  lid_plan_bounds_clear (&search->bounds);
  lid_plan_times_clear (&search->times);
  lid_plan_floor_clear (&search->floor);
  lid_plan_floor_clear (&search->hands_floor);
  g_free (search->picked);
  for (guint t = 0; t < G_N_ELEMENTS (search->rest); t++)
    g_free (search->rest[t]);
  for (guint i = 0; i < LID_PLAN_SIZES; i++)
    g_array_unref (search->sizes[i]);
  g_free (search->owned_kinds);
  g_free (search->room);
  g_free (search->forced);
  g_free (search->lean_count);
  g_free (search->lean_price);
  g_hash_table_unref (search->apart);
  g_free (search->member);
  g_free (search->chosen);
  g_free (search->used);
  g_free (search->kinds);
  g_free (search->live);
  g_free (search->node_of);
  g_hash_table_unref (search->asked);
  g_hash_table_unref (search->mixes);
  g_hash_table_unref (search->never);
}

/**
 * lid_plan_search_goes_on:
 * @steps: what comes now
 *
 * Returns: whether there is budget for it, and nobody cancelled
 */
gboolean
lid_plan_search_goes_on (LidPlanSearch *search, guint steps)
{
  guint64 before = search->steps;

  search->steps += steps;
  if (search->steps > search->budget
      || (before / 1024 != search->steps / 1024 && search->watch != NULL
          && search->watch->cancellable != NULL
          && g_cancellable_is_cancelled (search->watch->cancellable)))
    {
      search->gave_up = TRUE;
      search->budget = 0;
    }
  return search->budget > 0;
}

/**
 * lid_plan_search_widths:
 *
 * Returns: W of paragraph 2 above, of the channels that carry something or still may
 */
gint64
lid_plan_search_widths (const LidPlanSearch *search)
{
  gint64 widths = 0;

  for (guint i = 0; i < search->n_nodes; i++)
    widths += search->times.ways[MIN (search->live[i], LID_BOARD_MAX_CHANNELS)];
  widths *= MAX (search->columns->n_channels, 1);
  return widths;
}

/**
 * lid_plan_search_speed:
 * @search: at a target; channels that are decided to be empty are not counted
 * as live
 *
 * Returns: the bound of paragraph 2 above, in the unit of front.h
 */
LidRatio
lid_plan_search_speed (const LidPlanSearch *search)
{
  gint64 rate = search->best.rated ? search->pass.rate : 1, time = search->target_time, widths;

  if (!search->judge->has_speed)
    return LID_RATIO_UNKNOWN;
  widths = lid_plan_search_widths (search);
  if (time > 0 && search->target_size < widths * time)
    return (LidRatio){ search->target_size * rate, time };
  return (LidRatio){ widths * rate, 1 };
}

static void
tell_progress (const LidPlanSearch *search, guint done, guint all)
{
  if (search->watch != NULL && search->watch->progress != NULL)
    search->watch->progress (search->share_from
                                 + search->share_of * (double)done / (double)MAX (all, 1),
                             search->watch->data);
}

static void
run_pass (LidPlanSearch *search)
{
  gint64 soldered = search->columns->soldered, unit = search->bounds.unit_mib;
  gboolean little = search->front->what != LID_WISH_SPEND; /* little capacity first */

  for (guint i = 0; i < search->bounds.n_mib && search->budget > 0; i++)
    {
      guint mib = little ? i : search->bounds.n_mib - 1 - i;

      if (lid_plan_targets_usable (search, soldered + (gint64)mib * unit) < search->judge->least_mib
          || lid_plan_targets_are_vain (search, mib))
        continue;
      for (guint hands = 0; hands < search->bounds.n_hands && search->budget > 0; hands++)
        lid_plan_targets_aim (search, mib, hands);
      tell_progress (search, i + 1, search->bounds.n_mib);
    }
}

/* The second sweep: what equals each of the front. */
static void
run_ties (LidPlanSearch *search)
{
  g_autoptr (GArray) vectors = g_array_new (FALSE, FALSE, sizeof (LidPlanVector));

  for (guint i = 0; i < search->front->entries->len; i++)
    {
      const LidPlanEntry *entry = search->front->entries->pdata[i];

      if (entry->vector.rated == search->best.rated || search->front->what == LID_WISH_CHEAPEST)
        g_array_append_val (vectors, entry->vector);
    }
  for (guint i = 0; i < vectors->len && search->budget > 0; i++)
    {
      search->seek = &g_array_index (vectors, LidPlanVector, i);
      search->asks = TIE_ASKS;
      for (guint mib = search->bounds.n_mib; mib-- > 0 && search->budget > 0;)
        {
          gint64 size = search->columns->soldered + (gint64)mib * search->bounds.unit_mib;
          guint n_hands = lid_plan_targets_usable (search, size) < search->judge->least_mib
                                  || lid_plan_targets_are_vain (search, mib)
                              ? 0
                              : search->bounds.n_hands;

          for (guint hands = 0; hands < n_hands && search->budget > 0; hands++)
            lid_plan_targets_aim (search, mib, hands);
        }
    }
  search->seek = NULL;
}

static void
sweep (LidPlanSearch *search, const GArray *rates, const GArray *sizes, gboolean ties)
{
  guint n_rates = rates->len + (search->fillings->unrated || rates->len == 0 ? 1 : 0);
  gboolean all_rates = search->judge->question->board->rate_per_socket;

  for (guint r = 0; r < n_rates; r++)
    for (guint t = 0; t < sizes->len && search->budget > 0; t++)
      {
        gboolean rated = r < rates->len || !search->judge->has_speed;

        search->begun = search->filled = FALSE;
        lid_plan_node_mixes_renew (search);
        search->best.rated = rated;
        search->pass.rate
            = r < rates->len ? (LidRate)g_array_index (rates, gint64, r) : LID_RATE_UNKNOWN;
        search->pass.channel_mib = g_array_index (sizes, gint64, sizes->len - 1 - t);
        search->pass.any_rate = all_rates || !rated || r >= rates->len;
        search->pass.above = lid_plan_rated_above (search);
        if (t == 0 && search->pass.channel_mib > 0)
          lid_plan_times_narrow (&search->times, search->columns, search->fillings, &search->pass);
        search->share_of = 1.0 / (2.0 * n_rates * sizes->len);
        search->share_from = (ties ? 0.5 : 0.0) + search->share_of * (double)(r * sizes->len + t);
        if (ties)
          run_ties (search);
        else
          run_pass (search);
      }
}

/**
 * lid_plan_search_run:
 * @search: ready
 *
 * Makes the front whole; see the top of the file.
 */
void
lid_plan_search_run (LidPlanSearch *search)
{
  g_autoptr (GArray) rates = lid_plan_passes_rates (search);
  g_autoptr (GArray) sizes = lid_plan_passes_sizes (search);
  gboolean gave_up;

  if (search->columns->columns->len == 0)
    return;
  sweep (search, rates, sizes, FALSE);
  gave_up = search->gave_up;
  if (!search->quiet
      && (search->watch == NULL || search->watch->cancellable == NULL
          || !g_cancellable_is_cancelled (search->watch->cancellable)))
    {
      search->budget = search->steps
                       + (search->front->what == LID_WISH_CHEAPEST ? TIE_BUDGET / 4 : TIE_BUDGET);
      sweep (search, rates, sizes, TRUE);
      search->ties_open = search->ties_open || search->budget == 0;
    }
  search->gave_up = gave_up;
}
