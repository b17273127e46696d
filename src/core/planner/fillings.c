/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fillings.c: the ways to fill one column.
 *
 * Slot by slot, and the checker is asked about each beginning on the otherwise empty board. Left
 * out is
 *   - what a lasting rule stops: it is stopped in every larger population (rule.h, lasting);
 *   - a whole filling that a rule of scope module or channel stops: what it looks at is all there
 *     (rule.h, scope); not where it speaks of another channel, on which persistent or soldered
 *     memory stays while nothing is planned there yet;
 *   - a whole filling for which the rate table has no row, where no row asks for a voltage: then
 *     the row hangs on the channel alone (rate-table.c).
 *
 * What a filling carries for the bounds: capacity; the rate the machine would run at with nothing
 * else in it, and whatever is added only adds limits (running-rate.c), unless the table knows
 * voltages, which all modules choose together: then the ratings alone count; and hands. Where all
 * that is found is used again, each module that comes to another slot is one hand, and that is
 * exact. Where it may leave, a hand is each module found that leaves its slot, and each module
 * fitted of a kind that is not found at all; what is missing from that (more of a found kind than
 * there were) is added when all is known. */
#include "planner/fillings.h"

#include "checks/rule.h"

#include <string.h>

#define MOST_FILLINGS 6000u /* of one group */

typedef struct
{
  LidPlanJudge *judge;
  const LidPlanColumn *column;
  GArray *out;
  const GArray *usable; /* guint: kinds to try */
  gboolean by_voltage;
  LidPlanFillings *all;
  int *kinds; /* per slot of the board, scratch */
} Filler;

/**
 * lid_plan_fillings_put:
 * @column: a column
 * @filling: how its channels are filled
 * @kinds: (inout): per slot of the board
 */
void
lid_plan_fillings_put (const LidPlanColumn *column, const LidPlanFilling *filling, int *kinds)
{
  for (guint c = 0; c < column->n_channels; c++)
    for (guint i = 0; i < column->n_slots; i++)
      kinds[column->slots[c * column->n_slots + i]] = filling->kinds[i];
}

/**
 * lid_plan_fillings_voltage_matters:
 *
 * Returns: whether the board's rate table asks for a voltage: a row then hangs on all modules
 */
gboolean
lid_plan_fillings_voltage_matters (const LidBoard *board)
{
  for (guint i = 0; i < board->n_rates; i++)
    if (board->rates[i].voltage_mv > 0)
      return TRUE;
  return FALSE;
}

/* Whether all that the rule of a finding looks at is in the column: it speaks of one module or one
 * channel, and of one of these. */
static gboolean
is_settled (const Filler *filler, const LidFinding *finding)
{
  const LidBoardSlot *slots = filler->judge->question->board->slots;
  gboolean ours = finding->n_slots == 0;

  for (guint i = 0; i < finding->n_slots; i++)
    for (guint c = 0; c < filler->column->n_channels; c++)
      ours = ours || slots[finding->slots[i]].channel == (int)filler->column->channels[c];
  return ours
         && (finding->rule->scope == LID_SCOPE_MODULE || finding->rule->scope == LID_SCOPE_CHANNEL);
}

static gboolean
is_stopped (const Filler *filler, const LidAssessment *assessment, gboolean whole)
{
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->grade == LID_GRADE_STOPS
          && (finding->rule->lasting || (whole && is_settled (filler, finding))))
        return TRUE;
    }
  for (guint c = 0; whole && !filler->by_voltage && c < filler->column->n_channels; c++)
    if (assessment->figures.rates[filler->column->channels[c]].row == LID_ROW_MISSING)
      return TRUE;
  return FALSE;
}

static LidRate
least_rating (const Filler *filler, const LidPlanFilling *filling)
{
  LidRate least = LID_RATE_UNKNOWN;

  for (guint i = 0; i < filler->column->n_slots; i++)
    {
      int kind = filling->kinds[i];
      LidRate rated = kind == LID_NOWHERE
                          ? LID_RATE_UNKNOWN
                          : lid_module_rated (
                              lid_candidates_kind (filler->judge->candidates, (guint)kind)->module);

      if (rated != LID_RATE_UNKNOWN && (least == LID_RATE_UNKNOWN || rated < least))
        least = rated;
    }
  return least;
}

static void
count (const Filler *filler, LidPlanFilling *filling)
{
  const LidPlanColumn *column = filler->column;
  const LidCandidates *candidates = filler->judge->candidates;
  gboolean may_leave = filler->judge->wish->hands == LID_HANDS_PULL;

  filling->n_modules = filling->hands = 0;
  filling->channel_mib = column->soldered;
  for (guint i = 0; i < column->n_slots; i++)
    if (filling->kinds[i] != LID_NOWHERE)
      filling->channel_mib += lid_module_capacity (
          lid_candidates_kind (candidates, (guint)filling->kinds[i])->module);
  filling->mib = (filling->channel_mib - column->soldered) * column->n_channels;
  for (guint i = 0; i < column->n_channels * column->n_slots; i++)
    {
      int kind = filling->kinds[i % column->n_slots];
      int found = candidates->found_kind[column->slots[i]];

      filling->n_modules += kind != LID_NOWHERE;
      if (!may_leave)
        filling->hands += kind != LID_NOWHERE && kind != found;
      else
        filling->hands
            += (found != LID_NOWHERE && kind != found)
               + (kind != LID_NOWHERE && lid_candidates_kind (candidates, (guint)kind)->found == 0);
    }
}

/* Facts without which the rate may not be known where modules choose a voltage together. */
static gboolean
may_be_unrated (const LidModule *module)
{
  static const LidFact facts[] = { LID_FACT_RATED,   LID_FACT_KIND,          LID_FACT_GENERATION,
                                   LID_FACT_VOLTAGE, LID_FACT_LOGICAL_RANKS, LID_FACT_RANKS };

  for (guint i = 0; i < G_N_ELEMENTS (facts); i++)
    if (!lid_module_knows (module, facts[i]))
      return TRUE;
  return FALSE;
}

static void
add (Filler *filler, LidPlanFilling *filling, const LidAssessment *assessment)
{
  LidRate rating = least_rating (filler, filling), running = assessment->figures.running;

  count (filler, filling);
  if (!assessment->figures.starts)
    running = lid_plan_judge_rate (filler->judge, filler->kinds);
  filling->loses = 0;
  for (guint i = 0; i < assessment->findings->len; i++)
    filling->loses
        += ((const LidFinding *)assessment->findings->pdata[i])->grade == LID_GRADE_LOSES;
  filling->rate = running;
  if (filling->n_modules == 0 || filler->by_voltage || filling->rate == LID_RATE_UNKNOWN)
    filling->rate = rating != LID_RATE_UNKNOWN ? rating : G_MAXUINT32;
  filling->unrated = filling->n_modules > 0 && running == LID_RATE_UNKNOWN;
  for (guint i = 0; i < filler->column->n_slots && filler->by_voltage; i++)
    if (filling->kinds[i] != LID_NOWHERE
        && may_be_unrated (
            lid_candidates_kind (filler->judge->candidates, (guint)filling->kinds[i])->module))
      filling->unrated = TRUE;
  filling->closes
      = filling->unrated ? lid_plan_rated_closes (filler->judge, filler->kinds) : G_MAXUINT32;
  filler->all->closes = MIN (filler->all->closes, filling->closes);
  filler->all->unrated = filler->all->unrated || filling->unrated;
  if (filling->n_modules == 0 && running != LID_RATE_UNKNOWN)
    filler->all->unrated_base = FALSE;
  g_array_append_vals (filler->out, filling, 1);
}

/* What hands allow in the free slot @at of every channel of the column. */
static gboolean
may_hold (const Filler *filler, guint at, int kind)
{
  const LidPlanColumn *column = filler->column;

  for (guint c = 0; c < column->n_channels; c++)
    {
      int found = filler->judge->candidates->found_kind[column->slots[c * column->n_slots + at]];

      if (filler->judge->wish->hands == LID_HANDS_STAY && found != LID_NOWHERE && found != kind)
        return FALSE;
    }
  return TRUE;
}

static gboolean
within_supply (const Filler *filler, const LidPlanFilling *filling, int kind)
{
  guint n = 0;

  if (kind == LID_NOWHERE)
    return TRUE;
  for (guint i = 0; i < filler->column->n_slots; i++)
    n += filling->kinds[i] == kind;
  return (guint64)n * filler->column->n_channels
         <= lid_candidates_kind (filler->judge->candidates, (guint)kind)->supply;
}

static void
fill_from (Filler *filler, LidPlanFilling *filling, guint at)
{
  for (guint i = 0; i <= filler->usable->len; i++)
    {
      int kind = i == 0 ? LID_NOWHERE : (int)g_array_index (filler->usable, guint, i - 1);
      gboolean whole = at + 1 == filler->column->n_slots;
      g_autoptr (LidAssessment) assessment = NULL;

      filling->kinds[at] = kind;
      if (!may_hold (filler, at, kind) || !within_supply (filler, filling, kind))
        continue;
      if (kind != LID_NOWHERE || whole)
        {
          lid_plan_fillings_put (filler->column, filling, filler->kinds);
          assessment = lid_plan_judge_part (filler->judge, filler->kinds);
          if (is_stopped (filler, assessment, whole))
            continue;
        }
      if (whole)
        add (filler, filling, assessment);
      else
        fill_from (filler, filling, at + 1);
    }
  filling->kinds[at] = LID_NOWHERE;
}

static int
compare_fillings (gconstpointer a, gconstpointer b)
{
  const LidPlanFilling *x = a, *y = b;

  if (x->mib != y->mib)
    return x->mib < y->mib ? -1 : 1;
  if (x->n_modules != y->n_modules)
    return x->n_modules < y->n_modules ? -1 : 1;
  for (guint i = 0; i < LID_PLAN_DEPTH; i++)
    if (x->kinds[i] != y->kinds[i])
      return (guint)x->kinds[i] < (guint)y->kinds[i] ? -1 : 1;
  return 0;
}

/* Kinds a slot of the column takes at all. */
static GArray *
usable_kinds (Filler *filler)
{
  GArray *out = g_array_new (FALSE, FALSE, sizeof (guint));
  LidPlanFilling filling;

  memset (filling.kinds, 0xff, sizeof filling.kinds);
  for (guint k = 0; k < filler->judge->candidates->kinds->len; k++)
    for (guint at = 0; at < filler->column->n_slots; at++)
      {
        g_autoptr (LidAssessment) assessment = NULL;

        filling.kinds[at] = (int)k;
        lid_plan_fillings_put (filler->column, &filling, filler->kinds);
        assessment = lid_plan_judge_part (filler->judge, filler->kinds);
        filling.kinds[at] = LID_NOWHERE;
        if (is_stopped (filler, assessment, FALSE))
          continue;
        g_array_append_val (out, k);
        break;
      }
  return out;
}

/* Money for a MiB, and what is at hand before all. */
static int
compare_worth (gconstpointer a, gconstpointer b, gpointer data)
{
  const LidCandidates *candidates = data;
  guint i = *(const guint *)a, k = *(const guint *)b;
  const LidPlanKind *x = lid_candidates_kind (candidates, i);
  const LidPlanKind *y = lid_candidates_kind (candidates, k);
  double cost_x = (double)x->least_price * (double)MAX (lid_module_capacity (y->module), 1);
  double cost_y = (double)y->least_price * (double)MAX (lid_module_capacity (x->module), 1);

  if ((x->owned > 0) != (y->owned > 0))
    return x->owned > 0 ? -1 : 1;
  if (cost_x != cost_y)
    return cost_x < cost_y ? -1 : 1;
  return (i > k) - (i < k);
}

static int
compare_index (gconstpointer a, gconstpointer b)
{
  return (*(const guint *)a > *(const guint *)b) - (*(const guint *)a < *(const guint *)b);
}

/* So many kinds that their fillings stay in number; what is left out is told: not complete. */
static void
limit_kinds (Filler *filler, GArray *usable)
{
  guint most = 1;

  for (;;)
    {
      guint64 n = 1;

      for (guint i = 0; i < filler->column->n_slots; i++)
        n = MIN (n * (most + 2), MOST_FILLINGS + 1);
      if (n > MOST_FILLINGS || most > usable->len)
        break;
      most++;
    }
  if (usable->len <= most)
    return;
  g_array_sort_with_data (usable, compare_worth, (gpointer)filler->judge->candidates);
  g_array_set_size (usable, most);
  g_array_sort (usable, compare_index);
  filler->all->complete = FALSE;
}

static void
fill_group (LidPlanFillings *all, LidPlanJudge *judge, const LidPlanColumn *column)
{
  g_autofree int *kinds = g_new (int, judge->candidates->n_slots + 1);
  g_autoptr (GArray) usable = NULL;
  Filler filler = { .judge = judge, .column = column, .all = all, .kinds = kinds };
  LidPlanFilling filling = { .n_modules = 0 };

  memset (kinds, 0xff, judge->candidates->n_slots * sizeof (int));
  memset (filling.kinds, 0xff, sizeof filling.kinds);
  filler.by_voltage = lid_plan_fillings_voltage_matters (judge->question->board);
  filler.out = g_array_new (FALSE, FALSE, sizeof (LidPlanFilling));
  all->of_group[column->group] = filler.out;
  if (column->n_slots > LID_PLAN_DEPTH)
    {
      all->complete = FALSE;
      return;
    }
  usable = usable_kinds (&filler);
  limit_kinds (&filler, usable);
  memset (kinds, 0xff, judge->candidates->n_slots * sizeof (int));
  filler.usable = usable;
  fill_from (&filler, &filling, 0);
  g_array_sort (filler.out, compare_fillings);
  lid_plan_twins_find (filler.out);
}

/**
 * lid_plan_fillings_new:
 * @judge: at work
 * @columns: what is to be filled
 *
 * Returns: (transfer full): the fillings of each group of columns
 */
LidPlanFillings *
lid_plan_fillings_new (LidPlanJudge *judge, const LidPlanColumns *columns)
{
  LidPlanFillings *out = g_new0 (LidPlanFillings, 1);

  out->n_groups = columns->n_groups;
  out->of_group = g_new0 (GArray *, columns->n_groups + 1);
  out->complete = TRUE;
  out->closes = G_MAXUINT32;
  for (guint i = 0; i < judge->base->n_slots; i++)
    out->unrated_base = out->unrated_base || judge->base->slots[i].module != NULL
                        || judge->question->board->slots[i].soldered != NULL;
  for (guint i = 0; i < columns->columns->len; i++)
    {
      const LidPlanColumn *column = lid_plan_columns_at (columns, i);

      if (out->of_group[column->group] == NULL)
        fill_group (out, judge, column);
    }
  return out;
}

void
lid_plan_fillings_free (LidPlanFillings *fillings)
{
  if (fillings == NULL)
    return;
  for (guint i = 0; i < fillings->n_groups; i++)
    g_clear_pointer (&fillings->of_group[i], g_array_unref);
  g_free (fillings->of_group);
  g_free (fillings);
}
