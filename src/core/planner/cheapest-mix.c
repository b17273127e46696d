/* SPDX-License-Identifier: GPL-3.0-or-later */
/* cheapest-mix.c: the modules that cost least for at least so much capacity, wherever they go.
 *
 * Only sums are asked about here: capacity, number and money. Modules of one size are alike in all
 * three, so those of all kinds of a size stand in one row, the cheapest first; what has to be used
 * again leads it. Beyond that the next one of a size never costs less than the one before, so that
 * n of a size cost at the least what the first n of its row do, and a MiB of what is still missing
 * costs no less than with the next module of some size. Size after size, the largest first, every
 * number that this does not rule out is tried. The answer is exact, or there is none: too many
 * sizes for so many steps. */
#include "planner/cheapest.h"

#define MOST_SIZES 12u
#define MOST_STEPS 20000u

typedef struct
{
  gint64 price;
  guint kind;
  gboolean forced; /* it has to be used */
} Item;

typedef struct
{
  gint64 mib;    /* of a unit */
  GArray *items; /* Item: forced ones, then the cheapest first */
  guint least;   /* so many are forced */
  gint64 *sums;  /* what the first 0, 1, 2, … cost */
} Size;

typedef struct
{
  const LidPlanMixQuestion *question;
  Size sizes[MOST_SIZES]; /* the largest first */
  guint n_sizes;
  guint now[MOST_SIZES], best[MOST_SIZES];
  gint64 best_cost;
  guint steps;
} Mix;

static int
compare_items (gconstpointer a, gconstpointer b)
{
  const Item *x = a, *y = b;

  if (x->forced != y->forced)
    return x->forced ? -1 : 1;
  if (x->price != y->price)
    return x->price < y->price ? -1 : 1;
  return (x->kind > y->kind) - (x->kind < y->kind);
}

static Size *
find_size (Mix *mix, gint64 mib)
{
  guint at = 0;

  while (at < mix->n_sizes && mix->sizes[at].mib > mib)
    at++;
  if (at < mix->n_sizes && mix->sizes[at].mib == mib)
    return &mix->sizes[at];
  if (mix->n_sizes == MOST_SIZES)
    return NULL;
  for (guint i = mix->n_sizes++; i > at; i--)
    mix->sizes[i] = mix->sizes[i - 1];
  mix->sizes[at]
      = (Size){ .mib = mib, .items = g_array_new (FALSE, FALSE, sizeof (Item)), .sums = NULL };
  return &mix->sizes[at];
}

/* The units of one kind, each at its price; FALSE where there are too many sizes. */
static gboolean
add_kind (Mix *mix, guint index)
{
  const LidPlanMixQuestion *q = mix->question;
  const LidPlanKind *kind = lid_candidates_kind (q->candidates, index);
  guint forced = q->all_used ? (kind->found + q->unit - 1) / q->unit : 0;
  guint most = MIN (kind->supply / q->unit, q->places);
  gint64 mib = lid_module_capacity (kind->module) * q->unit, before = 0;
  Size *size;

  if (q->barred[index] || most == 0 || mib <= 0)
    return forced == 0;
  size = find_size (mix, mib);
  if (size == NULL || forced > most)
    return FALSE;
  size->least += forced;
  for (guint n = 1; n <= most; n++)
    {
      gint64 cost = lid_candidates_cost (kind, n * q->unit);
      Item item = { .price = cost < LID_COST_UNKNOWN ? cost - before : LID_COST_UNKNOWN,
                    .kind = index,
                    .forced = n <= forced };

      g_array_append_val (size->items, item);
      before = cost;
    }
  return TRUE;
}

static void
sum_up (Size *size)
{
  g_array_sort (size->items, compare_items);
  size->sums = g_new0 (gint64, size->items->len + 1);
  for (guint i = 0; i < size->items->len; i++)
    size->sums[i + 1] = MIN (size->sums[i] + g_array_index (size->items, Item, i).price,
                             (gint64)LID_COST_UNKNOWN);
}

/* Of the sizes from @from on: what the forced ones of them cost, how many and how large they are.
 */
static void
forced_from (const Mix *mix, guint from, gint64 *cost, guint *n, gint64 *mib)
{
  *cost = *mib = 0;
  *n = 0;
  for (guint s = from; s < mix->n_sizes; s++)
    {
      *cost += mix->sizes[s].sums[mix->sizes[s].least];
      *n += mix->sizes[s].least;
      *mib += mix->sizes[s].mib * mix->sizes[s].least;
    }
}

/* So many MiB at the price of a unit of so many, rounded down; LID_COST_UNKNOWN or more where that
 * is too much to be told. */
static gint64
price_of (gint64 missing, gint64 price, gint64 mib)
{
  gint64 units = missing / mib;
  gboolean small = price < (gint64)1 << 40 && mib < (gint64)1 << 22;

  if (price > 0 && units > LID_COST_UNKNOWN / price)
    return LID_COST_UNKNOWN;
  return units * price + (small ? missing % mib * price / mib : 0);
}

/* What the sizes from @from on cost at the least if they have to be @missing MiB in @places;
 * LID_COST_UNKNOWN or more where they cannot be. */
static gint64
least_from (const Mix *mix, guint from, gint64 missing, guint places)
{
  gint64 forced, mib, least = G_MAXINT64;
  guint n;

  forced_from (mix, from, &forced, &n, &mib);
  if (n > places)
    return LID_COST_UNKNOWN;
  missing -= mib;
  if (missing <= 0)
    return forced;
  if (from == mix->n_sizes || (missing - 1) / mix->sizes[from].mib >= (gint64)(places - n))
    return LID_COST_UNKNOWN;
  for (guint s = from; s < mix->n_sizes; s++)
    {
      const Size *size = &mix->sizes[s];
      gint64 price;

      if (size->least == size->items->len)
        continue;
      price = g_array_index (size->items, Item, size->least).price;
      least = MIN (least, price_of (missing, price, size->mib));
    }
  return least < LID_COST_UNKNOWN ? forced + least : LID_COST_UNKNOWN;
}

static void
try_from (Mix *mix, guint at, gint64 missing, guint places, gint64 cost)
{
  const Size *size = &mix->sizes[at];

  if (at == mix->n_sizes)
    {
      if (missing > 0 || cost >= mix->best_cost)
        return;
      mix->best_cost = cost;
      for (guint s = 0; s < at; s++)
        mix->best[s] = mix->now[s];
      return;
    }
  for (guint n = size->least; n <= size->items->len && n <= places; n++)
    {
      gint64 here = cost + size->sums[n], rest = missing - size->mib * n;

      mix->steps++;
      if (here >= mix->best_cost || mix->steps > MOST_STEPS)
        return;
      mix->now[at] = n;
      if (here + least_from (mix, at + 1, rest, places - n) < mix->best_cost)
        try_from (mix, at + 1, rest, places - n, here);
      if (rest <= 0) /* more of it cost more, and nothing is missing */
        return;
    }
}

static void
clear (Mix *mix)
{
  for (guint s = 0; s < mix->n_sizes; s++)
    {
      g_array_unref (mix->sizes[s].items);
      g_free (mix->sizes[s].sums);
    }
}

/**
 * lid_plan_cheapest_mix:
 * @question: what is asked for
 * @cost: (out): no modules that are enough and have room cost less, in minor units
 * @counts: (out) (array): per kind, how many units of it cost just that
 *
 * Returns: whether there are any, each with a price, and it was found out
 */
gboolean
lid_plan_cheapest_mix (const LidPlanMixQuestion *question, gint64 *cost, guint *counts)
{
  Mix mix = { .question = question, .best_cost = LID_COST_UNKNOWN };
  guint n_kinds = question->candidates->kinds->len;
  gboolean taken = TRUE;

  for (guint k = 0; k < n_kinds && taken; k++)
    taken = add_kind (&mix, k);
  for (guint s = 0; s < mix.n_sizes; s++)
    sum_up (&mix.sizes[s]);
  if (taken)
    try_from (&mix, 0, question->least_mib, question->places, 0);
  for (guint k = 0; k < n_kinds; k++)
    counts[k] = 0;
  for (guint s = 0; s < mix.n_sizes; s++)
    for (guint i = 0; i < mix.best[s]; i++)
      counts[g_array_index (mix.sizes[s].items, Item, i).kind]++;
  *cost = mix.best_cost;
  clear (&mix);
  return taken && mix.best_cost < LID_COST_UNKNOWN && mix.steps <= MOST_STEPS;
}
