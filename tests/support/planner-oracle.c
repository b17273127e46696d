/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The planner's question answered the long way: every population of every slot is built, judged by
 * the checker and held against every other. It shares no code with src/core/planner. What it holds
 * to is product.md 8 and settled reading 11. */
#include "planner-case.h"

#include "checks/rule.h"

#include <string.h>

typedef struct
{
  const PlannerCase *c;
  gboolean alike;
  GPtrArray *kinds; /* LidModule: no two of them the same */
  int *found;       /* per slot: kind, or -1 */
  int *now;         /* per slot */
  gint64 least;
  GArray *points;
  guint64 judged;
} Oracle;

static int
kind_of (Oracle *o, LidModule *module)
{
  for (guint i = 0; i < o->kinds->len; i++)
    if (lid_module_same (o->kinds->pdata[i], module))
      return (int)i;
  g_ptr_array_add (o->kinds, module);
  return (int)o->kinds->len - 1;
}

static const LidPopulation *
settings (const PlannerCase *c)
{
  return c->settings != NULL ? c->settings : c->as_found;
}

/* What @n more modules of a kind cost, at hand ones first; G_MAXINT64: not known; -1: not to be
 * had. */
static gint64
price (Oracle *o, int kind, guint n)
{
  const PlannerCase *c = o->c;
  gint64 sum = 0;
  gboolean unknown = FALSE;
  g_autofree guint *left = g_new0 (guint, c->goods->len + 1);

  for (guint i = 0; i < c->question.board->n_slots && n > 0; i++)
    n -= o->found[i] == kind;
  for (guint i = 0; i < c->tray->len && n > 0; i++)
    n -= kind_of (o, c->tray->pdata[i]) == kind;
  if (n > 0 && c->wish.what == LID_WISH_REARRANGE)
    return -1;
  for (guint i = 0; i < c->goods->len; i++)
    left[i] = g_array_index (c->goods, LidGood, i).count;
  for (; n > 0; n--)
    {
      int best = -1;

      for (guint i = 0; i < c->goods->len; i++)
        {
          const LidGood *good = &g_array_index (c->goods, LidGood, i);

          if (left[i] > 0 && kind_of (o, good->module) == kind
              && (best < 0
                  || (guint64)good->price_minor
                         < (guint64)g_array_index (c->goods, LidGood, best).price_minor))
            best = (int)i;
        }
      if (best < 0)
        return -1;
      left[best]--;
      unknown = unknown || g_array_index (c->goods, LidGood, best).price_minor < 0;
      sum += g_array_index (c->goods, LidGood, best).price_minor;
    }
  return unknown ? G_MAXINT64 : sum;
}

/* Cost and hands; FALSE where supply or the wished hands do not allow it. */
static gboolean
count (Oracle *o, PlannerPoint *point)
{
  guint n_slots = o->c->question.board->n_slots;

  point->cost = 0;
  for (guint k = 0; k < o->kinds->len; k++)
    {
      guint in = 0, out = 0, used = 0, found = 0;
      gint64 cost;

      if (((const LidModule *)o->kinds->pdata[k])->persistent)
        continue;
      for (guint i = 0; i < n_slots; i++)
        {
          used += o->now[i] == (int)k;
          found += o->found[i] == (int)k;
          in += o->now[i] == (int)k && o->found[i] != (int)k;
          out += o->now[i] != (int)k && o->found[i] == (int)k;
        }
      point->hands += in > out ? in : out;
      point->staying += found - out;
      cost = price (o, (int)k, used);
      if (cost < 0 || (o->c->wish.hands == LID_HANDS_STAY && out > 0)
          || (o->c->wish.hands == LID_HANDS_MOVE && used < found))
        return FALSE;
      point->cost
          = cost == G_MAXINT64 || point->cost == G_MAXINT64 ? G_MAXINT64 : point->cost + cost;
    }
  return TRUE;
}

static LidPopulation *
build (const Oracle *o)
{
  const PlannerCase *c = o->c;
  LidPopulation *population = lid_population_copy (settings (c));

  for (guint i = 0; i < population->n_slots; i++)
    {
      lid_population_take (population, i);
      if (o->now[i] < 0)
        continue;
      if (o->now[i] != o->found[i])
        lid_population_put (population, i, o->kinds->pdata[o->now[i]]);
      else
        {
          lid_population_put (population, i, c->as_found->slots[i].module);
          population->slots[i].state = c->as_found->slots[i].state;
        }
    }
  return population;
}

static void
read_point (const Oracle *o, const LidAssessment *assessment, PlannerPoint *point)
{
  const LidFigures *figures = &assessment->figures;

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      point->loses += finding->grade == LID_GRADE_LOSES;
      point->unsure += finding->grade == LID_GRADE_UNSURE;
    }
  point->usable = figures->usable_mib;
  point->rated = figures->running != LID_RATE_UNKNOWN;
  point->speed = point->rated ? figures->whole_mbs
                              : lid_ratio_mul (figures->even_share,
                                               lid_ratio (figures->channels_of_fitted, 1));
  (void)o;
}

static gboolean
is_wanted (const Oracle *o, const LidAssessment *assessment, const PlannerPoint *point)
{
  const LidWish *wish = &o->c->wish;
  const LidFigures *figures = &assessment->figures;
  const LidBoard *board = o->c->question.board;
  guint empty = 0;

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->grade == LID_GRADE_STOPS || (wish->sure && finding->grade == LID_GRADE_UNSURE)
          || (wish->listed_only && strncmp (finding->rule->id, "capacity-", 9) == 0))
        return FALSE;
    }
  for (guint i = 0; i < board->n_slots; i++)
    empty += o->now[i] < 0 && settings (o->c)->processors[board->slots[i].socket].fitted;
  if (!figures->starts || !figures->usable_known || empty < wish->free_slots
      || figures->usable_mib < o->least)
    return FALSE;
  if (settings (o->c)->mode != LID_MODE_PLAIN && figures->mode.effect != LID_EFFECT_TAKEN)
    return FALSE;
  if (wish->what == LID_WISH_SPEND && point->cost > wish->amount)
    return FALSE;
  return wish->least_rate == LID_RATE_UNKNOWN
         || (figures->running != LID_RATE_UNKNOWN && figures->running >= wish->least_rate);
}

/* Whether sockets with these two in one place are filled alike: by facts (settled reading 11), so
 * that modules without a part number are alike where they tell the same. */
static gboolean
stand_alike (const Oracle *o, int a, int b)
{
  const LidModule *x, *y;

  if (a == b || a < 0 || b < 0)
    return a == b;
  x = o->kinds->pdata[a];
  y = o->kinds->pdata[b];
  if (x->part != NULL || y->part != NULL)
    return FALSE;
  for (guint f = 0; f < LID_N_FACTS; f++)
    if ((x->basis[f] == LID_BASIS_NONE) != (y->basis[f] == LID_BASIS_NONE)
        || (x->basis[f] != LID_BASIS_NONE && x->value[f] != y->value[f]))
      return FALSE;
  return TRUE;
}

static gboolean
is_alike (const Oracle *o)
{
  const LidBoard *board = o->c->question.board;
  guint first = 0, per_socket = board->n_slots / board->n_sockets;

  while (first < board->n_sockets && !settings (o->c)->processors[first].fitted)
    first++;
  for (guint s = first; s < board->n_sockets; s++)
    for (guint i = 0; i < per_socket; i++)
      if (settings (o->c)->processors[s].fitted
          && !stand_alike (o, o->now[s * per_socket + i], o->now[first * per_socket + i]))
        return FALSE;
  return TRUE;
}

static void
judge (Oracle *o)
{
  PlannerPoint point = { 0 };
  g_autoptr (LidPopulation) population = NULL;
  g_autoptr (LidAssessment) assessment = NULL;

  if ((o->alike && !is_alike (o)) || !count (o, &point))
    return;
  population = build (o);
  o->judged++;
  assessment
      = lid_assessment_new (&(LidQuestion){ o->c->question.board, population, o->c->as_found });
  read_point (o, assessment, &point);
  if (is_wanted (o, assessment, &point))
    g_array_append_val (o->points, point);
}

/* What is persistent stays where it is, and there is no more of it (product.md 9). */
static gboolean
may_be (const Oracle *o, guint slot, int kind)
{
  const LidModule *there = o->c->as_found->slots[slot].module;

  if (there != NULL && there->persistent)
    return kind == o->found[slot];
  return kind < 0 || !((const LidModule *)o->kinds->pdata[kind])->persistent;
}

static void
fill (Oracle *o, guint slot)
{
  if (slot == o->c->question.board->n_slots)
    {
      judge (o);
      return;
    }
  for (int kind = -1; kind < (int)o->kinds->len; kind++)
    if (may_be (o, slot, kind))
      {
        o->now[slot] = kind;
        fill (o, slot + 1);
      }
}

/* Whether @a is at least as good as @b in everything; only those of one sort of speed compare. */
static gboolean
covers (LidWishWhat what, const PlannerPoint *a, const PlannerPoint *b)
{
  if (a->rated != b->rated || a->hands > b->hands || lid_ratio_compare (a->speed, b->speed) < 0)
    return FALSE;
  if (what == LID_WISH_CAPACITY)
    return a->cost <= b->cost;
  return what == LID_WISH_REARRANGE || a->usable >= b->usable;
}

static gboolean
ties_before (const PlannerPoint *a, const PlannerPoint *b)
{
  if (a->cost != b->cost)
    return a->cost < b->cost;
  if (a->loses != b->loses)
    return a->loses < b->loses;
  if (a->unsure != b->unsure)
    return a->unsure < b->unsure;
  return a->staying > b->staying;
}

/* As found is an option of a rearrangement whatever the rules say. */
static void
add_as_found (Oracle *o)
{
  PlannerPoint point = { 0 };
  g_autoptr (LidAssessment) assessment = NULL;

  memcpy (o->now, o->found, o->c->question.board->n_slots * sizeof (int));
  count (o, &point);
  assessment
      = lid_assessment_new (&(LidQuestion){ o->c->question.board, o->c->as_found, o->c->as_found });
  read_point (o, assessment, &point);
  g_array_append_val (o->points, point);
}

static GArray *
front_of (const Oracle *o)
{
  LidWishWhat what = o->c->wish.what;
  GArray *front = g_array_new (FALSE, FALSE, sizeof (PlannerPoint));

  for (guint i = 0; i < o->points->len; i++)
    {
      const PlannerPoint *point = &g_array_index (o->points, PlannerPoint, i);
      gboolean beaten = FALSE;

      for (guint k = 0; k < o->points->len && !beaten; k++)
        {
          const PlannerPoint *other = &g_array_index (o->points, PlannerPoint, k);

          beaten = covers (what, other, point)
                   && (!covers (what, point, other) || ties_before (other, point)
                       || (!ties_before (point, other) && k < i));
        }
      if (!beaten)
        g_array_append_val (front, *point);
    }
  return front;
}

/**
 * planner_oracle_alike_matters:
 *
 * Returns: whether the wish asks for sockets that are filled alike
 */
gboolean
planner_oracle_alike_matters (const PlannerCase *c)
{
  guint n = 0;

  for (guint s = 0; s < c->question.board->n_sockets; s++)
    n += settings (c)->processors[s].fitted;
  return n > 1 && !c->wish.sockets_free && c->wish.what != LID_WISH_REARRANGE;
}

/**
 * planner_oracle_front:
 * @alike: only populations whose fitted sockets hold the same slot by slot
 * @n_judged: (out): how many populations the checker was asked about
 *
 * Returns: (element-type PlannerPoint) (transfer full): the front
 */
GArray *
planner_oracle_front (const PlannerCase *c, gboolean alike, guint64 *n_judged)
{
  guint n = c->question.board->n_slots;
  g_autoptr (GPtrArray) kinds = g_ptr_array_new ();
  g_autofree int *found = g_new (int, n + 1), *now = g_new (int, n + 1);
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (PlannerPoint));
  g_autoptr (LidAssessment) assessment
      = lid_assessment_new (&(LidQuestion){ c->question.board, c->as_found, c->as_found });
  Oracle o = { c, alike, kinds, found, now, 0, points, 0 };
  GArray *front;

  for (guint i = 0; i < n; i++)
    found[i]
        = c->as_found->slots[i].module != NULL ? kind_of (&o, c->as_found->slots[i].module) : -1;
  for (guint i = 0; i < c->tray->len; i++)
    kind_of (&o, c->tray->pdata[i]);
  for (guint i = 0; i < c->goods->len; i++)
    kind_of (&o, g_array_index (c->goods, LidGood, i).module);
  if (c->wish.what == LID_WISH_CAPACITY)
    o.least = c->wish.amount;
  if (c->wish.what == LID_WISH_REARRANGE)
    {
      o.least = assessment->figures.usable_mib;
      add_as_found (&o);
    }
  if (c->wish.what != LID_WISH_REARRANGE || assessment->figures.usable_known
      || !assessment->figures.starts)
    fill (&o, 0);
  front = front_of (&o);
  *n_judged = o.judged;
  return front;
}

char *
planner_point_to_text (const PlannerPoint *point)
{
  return g_strdup_printf ("usable %" G_GINT64_FORMAT " MiB, cost %" G_GINT64_FORMAT
                          ", hands %u, %s %.3f, loses %u, unsure %u, staying %u",
                          point->usable, point->cost, point->hands,
                          point->rated ? "whole" : "share", lid_ratio_to_double (point->speed),
                          point->loses, point->unsure, point->staying);
}
