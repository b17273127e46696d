/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which of several ways to clear a finding is offered, and what it costs, in words. */
#include "checks/cure-private.h"

#include "base/units.h"
#include "checks/remedy.h"

#include <glib/gi18n-lib.h>

/* Positive: @a is more, negative: less, 0: the same. Where a rate is not known, by the even share.
 */
static int
compare_whole (const LidFigures *a, const LidFigures *b)
{
  if (lid_ratio_is_known (a->whole_mbs) && lid_ratio_is_known (b->whole_mbs))
    return lid_ratio_compare (a->whole_mbs, b->whole_mbs);
  return lid_ratio_compare (a->even_share, b->even_share);
}

/**
 * lid_cure_is_better:
 * @cure: at work
 * @a: judged
 * @b: judged, made before @a
 *
 * By the planner's measure: usable capacity, then all of it read once, then hands; the one made
 * first stays where they are alike (product.md 6, settled reading 11). Before hands come findings
 * that are left, or the next remedy would move the same modules again; and where all arrangements
 * are tried, channels that hold the same.
 *
 * Returns: whether @a is to be offered rather than @b
 */
gboolean
lid_cure_is_better (const LidCureWork *cure, LidCureCandidate *a, LidCureCandidate *b)
{
  const LidFigures *x = &a->after->figures, *y = &b->after->figures;
  gint64 by = x->starts - y->starts;

  if (by == 0)
    by = x->usable_mib - y->usable_mib;
  if (by == 0)
    by = compare_whole (x, y);
  if (by == 0)
    by = (gint64)lid_cure_count_faults (b->after) - lid_cure_count_faults (a->after);
  if (by == 0 && cure->all)
    by = (gint64)lid_cure_count_alike (cure->check, a->moves)
         - lid_cure_count_alike (cure->check, b->moves);
  if (by == 0)
    by = (gint64)b->moves->len - a->moves->len;
  return by > 0;
}

/* Takes @sentence. */
static void
append (LidRemedy *remedy, char *sentence)
{
  char *text = g_strdup_printf ("%s %s", remedy->text, sentence);

  g_free (remedy->text);
  g_free (sentence);
  remedy->text = text;
}

static gboolean
is_less (LidRatio is, LidRatio was)
{
  return lid_ratio_is_known (is) && lid_ratio_is_known (was) && lid_ratio_compare (is, was) < 0;
}

/* @words: a format that says then and now */
static void
append_bandwidths (LidRemedy *remedy, const char *words, LidRatio is, LidRatio was)
{
  g_autofree char *then = lid_units_bandwidth (lid_ratio_round (is));
  g_autofree char *now = lid_units_bandwidth (lid_ratio_round (was));

  append (remedy, g_strdup_printf (words, then, now));
}

/**
 * lid_cure_say_price:
 * @cure: at work
 * @after: what the checker says after the moves
 * @remedy: (inout): a remedy with its words; a sentence is added for each figure it lowers
 *
 * A remedy that costs something says so. A machine that does not start has no figures: it has
 * nothing to lose.
 */
void
lid_cure_say_price (const LidCureWork *cure, const LidAssessment *after, LidRemedy *remedy)
{
  const LidFigures *was = cure->figures, *is = &after->figures;

  if (was->usable_known && is->usable_known && is->usable_mib < was->usable_mib)
    {
      g_autofree char *then = lid_units_capacity (is->usable_mib);
      g_autofree char *now = lid_units_capacity (was->usable_mib);

      append (remedy, g_strdup_printf (_ ("Of the memory %s is then usable, not %s."), then, now));
    }
  if (is->running != LID_RATE_UNKNOWN && is->running < was->running)
    {
      g_autofree char *then = lid_units_rate (is->running);
      g_autofree char *now = lid_units_rate (was->running);

      append (remedy, g_strdup_printf (_ ("It then runs at %s, not at %s."), then, now));
    }
  if (is_less (is->whole_mbs, was->whole_mbs))
    append_bandwidths (remedy, _ ("Reading all of it then reaches %s, not %s."), is->whole_mbs,
                       was->whole_mbs);
  else if (is_less (is->worst_mbs, was->worst_mbs))
    append_bandwidths (remedy, _ ("Its slowest part is then read at %s, not at %s."), is->worst_mbs,
                       was->worst_mbs);
}

/**
 * lid_cure_say_rest:
 * @cure: at work
 * @after: what the checker says after the moves
 * @remedy: (inout): one that only leaves modules out
 *
 * What that costs a machine that does not start with them: there is no capacity to lose, and what
 * is left of all that is fitted is still the price.
 */
void
lid_cure_say_rest (const LidCureWork *cure, const LidAssessment *after, LidRemedy *remedy)
{
  g_autofree char *all = NULL, *rest = NULL;

  if (cure->figures->starts || !after->figures.usable_known)
    return;
  all = lid_units_capacity (cure->figures->fitted_mib);
  rest = lid_units_capacity (after->figures.usable_mib);
  append (remedy, g_strdup_printf (_ ("Of %s then %s is usable."), all, rest));
}

/* Whether two remedies send one module to different places. */
static gboolean
disagree (const LidRemedy *a, const LidRemedy *b)
{
  for (guint i = 0; i < a->moves->len; i++)
    for (guint k = 0; k < b->moves->len; k++)
      {
        const LidMove *x = &g_array_index (a->moves, LidMove, i);
        const LidMove *y = &g_array_index (b->moves, LidMove, k);

        if (x->module == y->module && x->from != LID_NOWHERE && x->from == y->from
            && x->to != y->to)
          return TRUE;
      }
  return FALSE;
}

/* Whether @other's moves do for @finding as well; then they become its own. */
static gboolean
takes_over (const LidCureWork *cure, LidFinding *finding, const LidFinding *other)
{
  LidCureCandidate theirs = { other->remedy->moves, NULL, FALSE };
  gboolean clears = lid_cure_clears (cure, finding, &theirs, TRUE);
  LidRemedy *remedy;

  if (clears)
    {
      remedy = lid_remedy_new_moves (cure->check, theirs.moves);
      lid_cure_say_price (cure, theirs.after, remedy);
      lid_remedy_free (finding->remedy);
      finding->remedy = remedy;
    }
  lid_assessment_free (theirs.after);
  return clears;
}

/**
 * lid_cure_agree:
 * @cure: at work
 * @index: of a finding that has its remedy, as have those before it
 *
 * Two findings shall not send one module to two places where one of the remedies does for both: the
 * one of the rule that comes first then stands for both.
 */
void
lid_cure_agree (const LidCureWork *cure, guint index)
{
  LidFinding *finding = cure->check->findings->pdata[index];

  for (guint i = 0; i < index && finding->remedy != NULL; i++)
    {
      const LidFinding *other = cure->check->findings->pdata[i];

      if (other->remedy != NULL && other->grade >= finding->grade
          && disagree (other->remedy, finding->remedy) && takes_over (cure, finding, other))
        return;
    }
}
