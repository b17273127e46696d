/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which of several ways to clear a finding is offered, and what it costs, in words. */
#include "checks/cure-private.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>

/* Three ways: 1: @a is more, -1: less, 0: the same or not to be told. */
static int
compare_whole (const LidFigures *a, const LidFigures *b)
{
  if (lid_ratio_is_known (a->whole_mbs) && lid_ratio_is_known (b->whole_mbs))
    return lid_ratio_compare (a->whole_mbs, b->whole_mbs);
  if (lid_ratio_is_known (a->even_share) && lid_ratio_is_known (b->even_share))
    return lid_ratio_compare (a->even_share, b->even_share);
  return 0;
}

/**
 * lid_cure_is_better:
 * @a: judged
 * @b: judged, made before @a
 *
 * By the planner's measure: usable capacity, then all of it read once, then hands; the one made
 * first stays where they are alike (product.md 6, settled reading 11).
 *
 * Returns: whether @a is to be offered rather than @b
 */
gboolean
lid_cure_is_better (LidCureCandidate *a, LidCureCandidate *b)
{
  const LidFigures *x = &a->after->figures, *y = &b->after->figures;
  int whole = compare_whole (x, y);

  if (x->starts != y->starts)
    return x->starts;
  if (x->usable_mib != y->usable_mib)
    return x->usable_mib > y->usable_mib;
  if (whole != 0)
    return whole > 0;
  return a->moves->len < b->moves->len;
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

static char *
bandwidth_of (const LidFigures *figures)
{
  return lid_units_bandwidth (lid_ratio_round (figures->whole_mbs));
}

/**
 * lid_cure_say_price:
 * @cure: at work
 * @after: what the checker says after the moves
 * @remedy: (inout): a remedy with its words; a sentence is added for each figure it lowers
 *
 * A remedy that costs something says so. Where nothing worked before there is nothing to lose.
 */
void
lid_cure_say_price (const LidCureWork *cure, const LidAssessment *after, LidRemedy *remedy)
{
  const LidFigures *was = cure->figures, *is = &after->figures;

  if (cure->nothing_usable || !was->starts || !is->starts)
    return;
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
  if (lid_ratio_is_known (is->whole_mbs) && lid_ratio_is_known (was->whole_mbs)
      && lid_ratio_compare (is->whole_mbs, was->whole_mbs) < 0)
    {
      g_autofree char *then = bandwidth_of (is), *now = bandwidth_of (was);

      append (remedy,
              g_strdup_printf (_ ("Reading all of it then reaches %s, not %s."), then, now));
    }
}
