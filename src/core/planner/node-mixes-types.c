/* SPDX-License-Identifier: GPL-3.0-or-later */
/* node-mixes-types.c: modules by class, what a class costs, and the ways to fill a channel with
 * classes. */
#include "planner/node-mixes.h"

typedef struct
{
  gint64 price;
  guint kind;
} Offer;

static int
compare_offers (gconstpointer a, gconstpointer b)
{
  const Offer *x = a, *y = b;

  if (x->price != y->price)
    return x->price < y->price ? -1 : 1;
  return (x->kind > y->kind) - (x->kind < y->kind);
}

/* The class of a kind, a new one where it is the first of it; FALSE: there are too many, or its
 * size is not told. */
static gboolean
set_class (const LidPlanSearch *search, LidPlanNodeMixes *mixes, guint kind, guint8 *class_of_size)
{
  gboolean found = lid_candidates_kind (search->judge->candidates, kind)->found > 0;
  guint size = search->bounds.size_of[kind];

  mixes->class_of[kind] = found ? LID_PLAN_CLASSES : class_of_size[size];
  if (mixes->class_of[kind] < LID_PLAN_CLASSES)
    return TRUE;
  if (mixes->n_classes == LID_PLAN_CLASSES)
    return FALSE;
  mixes->class_of[kind] = (guint8)mixes->n_classes;
  if (lid_module_capacity (lid_candidates_kind (search->judge->candidates, kind)->module) <= 0)
    return FALSE;
  mixes->class_kind[mixes->n_classes] = found ? kind : G_MAXUINT;
  mixes->class_mib[mixes->n_classes]
      = (guint)(lid_module_capacity (lid_candidates_kind (search->judge->candidates, kind)->module)
                * search->floor.unit / search->bounds.unit_mib);
  if (!found)
    mixes->strange |= G_GUINT64_CONSTANT (0xff) << (8 * mixes->n_classes);
  if (!found)
    class_of_size[size] = (guint8)mixes->n_classes;
  mixes->n_classes++;
  return TRUE;
}

/* Which kinds some filling of the pass holds. */
static void
mark_kinds (const LidPlanSearch *search, gboolean *used)
{
  for (guint g = 0; g < search->fillings->n_groups; g++)
    for (guint s = 0; search->bounds.steps[g] != NULL && s < search->bounds.steps[g]->len; s++)
      {
        const GArray *members = g_array_index (search->bounds.steps[g], LidPlanStep, s).members;

        for (guint i = 0; i < members->len; i++)
          {
            const LidPlanFilling *filling
                = lid_plan_fillings_at (search->fillings, g, g_array_index (members, guint, i));

            for (guint k = 0; k < LID_PLAN_DEPTH; k++)
              if (filling->kinds[k] != LID_NOWHERE)
                used[filling->kinds[k]] = TRUE;
          }
      }
}

static gboolean
make_classes (const LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  guint n_kinds = search->judge->candidates->kinds->len;
  g_autofree gboolean *used = g_new0 (gboolean, n_kinds + 1);
  guint8 class_of_size[LID_PLAN_SIZES];

  for (guint s = 0; s < LID_PLAN_SIZES; s++)
    class_of_size[s] = LID_PLAN_CLASSES;
  mixes->n_classes = 0;
  mixes->strange = 0;
  mark_kinds (search, used);
  for (guint k = 0; k < n_kinds; k++)
    {
      mixes->class_of[k] = LID_PLAN_CLASSES;
      if (used[k] && !set_class (search, mixes, k, class_of_size))
        return FALSE;
    }
  return TRUE;
}

/* What modules of a class cost, the cheapest first, as many as there are places. */
static void
price_class (const LidPlanSearch *search, LidPlanNodeMixes *mixes, guint class)
{
  g_autoptr (GArray) offers = g_array_new (FALSE, FALSE, sizeof (Offer));
  guint unit = search->floor.unit;
  gint64 sum = 0;

  for (guint k = 0; k < search->judge->candidates->kinds->len; k++)
    {
      const LidPlanKind *kind = lid_candidates_kind (search->judge->candidates, k);

      for (guint n = 1;
           mixes->class_of[k] == class && n <= MIN (kind->supply / unit, LID_PLAN_MIX_UNITS); n++)
        {
          gint64 cost = lid_candidates_cost (kind, n * unit);
          Offer offer = { LID_COST_UNKNOWN, k };

          if (cost < LID_COST_UNKNOWN)
            offer.price = cost - lid_candidates_cost (kind, (n - 1) * unit);
          g_array_append_val (offers, offer);
        }
    }
  g_array_sort (offers, compare_offers);
  g_array_set_size (mixes->order[class], 0);
  g_array_set_size (mixes->cost[class], 0);
  g_array_append_val (mixes->cost[class], sum);
  for (guint i = 0; i < MIN (offers->len, LID_PLAN_MIX_UNITS); i++)
    {
      sum = MIN (sum + g_array_index (offers, Offer, i).price, LID_COST_UNKNOWN);
      g_array_append_val (mixes->order[class], g_array_index (offers, Offer, i).kind);
      g_array_append_val (mixes->cost[class], sum);
    }
}

/* A straight line nowhere above the cost of a class: it touches it where the cheapest mix of the
 * target at hand is (lean.c). */
static void
draw_line (const LidPlanSearch *search, LidPlanNodeMixes *mixes, guint class)
{
  const gint64 *cost = (const gint64 *)mixes->cost[class]->data;
  guint n = mixes->cost[class]->len, at = 0;
  gint64 least = 0;

  for (guint k = 0; search->lean && k < search->judge->candidates->kinds->len; k++)
    at += mixes->class_of[k] == class ? search->lean_count[k] : 0;
  at = MIN (at, n - 1);
  while (at > 0 && (at + 1 == n || cost[at + 1] >= LID_COST_UNKNOWN))
    at--;
  mixes->price[class] = at + 1 < n && cost[at + 1] < LID_COST_UNKNOWN ? cost[at + 1] - cost[at] : 0;
  for (guint i = 0; i < n; i++)
    least = MIN (least, cost[i] - mixes->price[class] * (gint64)i);
  mixes->constant += least;
}

static guint64
mix_of (const LidPlanNodeMixes *mixes, const LidPlanFilling *filling)
{
  guint64 mix = 0;

  for (guint k = 0; k < LID_PLAN_DEPTH; k++)
    if (filling->kinds[k] != LID_NOWHERE)
      mix += (guint64)1 << (8 * mixes->class_of[filling->kinds[k]]);
  return mix;
}

static LidPlanMixType *
find_type (GArray *types, guint64 mix, guint size, guint mib, guint hands)
{
  LidPlanMixType type = { .mix = mix, .size = size, .mib = mib, .hands = hands };

  for (guint i = 0; i < types->len; i++)
    {
      LidPlanMixType *other = &g_array_index (types, LidPlanMixType, i);

      if (other->mix == mix && other->size == size)
        return other;
    }
  type.fillings = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (types, type);
  return &g_array_index (types, LidPlanMixType, types->len - 1);
}

static void
clear_type (gpointer data)
{
  g_array_unref (((LidPlanMixType *)data)->fillings);
}

static guint
size_index (const LidPlanSearch *search, gint64 size)
{
  guint i = 0;

  while (g_array_index (search->times.sizes, gint64, i) != size)
    i++;
  return i;
}

static GArray *
types_of (const LidPlanSearch *search, const LidPlanNodeMixes *mixes, guint group)
{
  GArray *types = g_array_new (FALSE, FALSE, sizeof (LidPlanMixType));

  g_array_set_clear_func (types, clear_type);
  for (guint s = 0; s < search->bounds.steps[group]->len; s++)
    {
      const LidPlanStep *step = &g_array_index (search->bounds.steps[group], LidPlanStep, s);

      for (guint i = 0; i < step->members->len; i++)
        {
          guint f = g_array_index (step->members, guint, i);
          const LidPlanFilling *filling = lid_plan_fillings_at (search->fillings, group, f);
          LidPlanMixType *type
              = find_type (types, mix_of (mixes, filling), size_index (search, step->channel_mib),
                           step->mib, filling->hands);

          if (filling->hands < type->hands)
            g_array_set_size (type->fillings, 0);
          type->hands = MIN (type->hands, filling->hands);
          if (filling->hands == type->hands)
            g_array_append_val (type->fillings, f);
        }
    }
  return types;
}

/**
 * lid_plan_node_mixes_sort:
 * @search: in a pass whose bounds are filled, at a target
 * @mixes: (inout): gets the classes, prices and types of the pass
 *
 * Returns: whether there are few enough classes, all of a size that is told
 */
gboolean
lid_plan_node_mixes_sort (const LidPlanSearch *search, LidPlanNodeMixes *mixes)
{
  if (!make_classes (search, mixes))
    return FALSE;
  mixes->constant = 0;
  for (guint c = 0; c < mixes->n_classes; c++)
    {
      price_class (search, mixes, c);
      draw_line (search, mixes, c);
    }
  for (guint g = 0; g < search->fillings->n_groups; g++)
    mixes->types[g] = search->bounds.steps[g] != NULL ? types_of (search, mixes, g) : NULL;
  return TRUE;
}
