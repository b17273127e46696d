/* SPDX-License-Identifier: GPL-3.0-or-later */
/* candidates.c: what there is to plan with, alike modules together.
 *
 * Two modules are one kind here only if no rule and no figure can tell them
 * apart: the same facts known, with equal values, and, where a rule-relevant
 * fact is not told, the same part number too. For the checker asks after an
 * unknown fact once per part, and takes two modules that tell nothing for alike
 * only by their part (product.md 3, "the same"). So 100,000 rows of a shelf
 * become as many kinds as there are different facts, each with its rows in the
 * order of price, and nothing is lost: of modules that cannot be told apart the
 * cheaper one is always taken first.
 *
 * Modules at hand that have no part number, with facts that are not told but the same facts told,
 * are one kind as well: none of them is alike to another, so that exchanging any two of them
 * changes nothing but whose name stands where, and every one is itself in a population (judge.c).
 *
 * Persistent modules hold somebody's data and never move by a plan; soldered
 * memory cannot. */
#include "planner/candidates.h"

#include <string.h>

#define MOST_SEEN 256u

static guint32
known_facts (const LidModule *module)
{
  guint32 known = 0;

  for (guint f = 0; f < LID_N_FACTS; f++)
    if (module->basis[f] != LID_BASIS_NONE)
      known |= 1u << f;
  return known;
}

/* The same facts told, with equal values. */
static gboolean
same_facts (const LidModule *a, const LidModule *b)
{
  guint32 known = known_facts (a);

  if (a->persistent != b->persistent || known != known_facts (b))
    return FALSE;
  for (guint f = 0; f < LID_N_FACTS; f++)
    if ((known >> f & 1) == 1 && a->value[f] != b->value[f])
      return FALSE;
  return TRUE;
}

/* Each of them is itself; see the top of the file. */
static gboolean
is_nameless (const LidModule *module)
{
  return module->part == NULL && lid_module_missing_facts (module) != 0;
}

/**
 * lid_candidates_interchangeable:
 *
 * Returns: whether no rule and no figure can tell @a from @b; see the top of
 * the file
 */
gboolean
lid_candidates_interchangeable (const LidModule *a, const LidModule *b)
{
  if (a == b)
    return TRUE;
  if (!same_facts (a, b))
    return FALSE;
  return lid_module_missing_facts (a) == 0
         || (a->part != NULL && g_strcmp0 (a->part, b->part) == 0);
}

static guint
hash_module (gconstpointer key)
{
  const LidModule *module = key;
  guint hash = known_facts (module);

  for (guint f = 0; f < LID_N_FACTS; f++)
    hash = hash * 31 + (module->basis[f] != LID_BASIS_NONE ? (guint)module->value[f] : 0);
  return hash;
}

static gboolean
equal_module (gconstpointer a, gconstpointer b)
{
  return lid_candidates_interchangeable (a, b);
}

static gboolean
equal_nameless (gconstpointer a, gconstpointer b)
{
  return same_facts (a, b);
}

static void
kind_free (gpointer data)
{
  LidPlanKind *kind = data;

  g_array_unref (kind->goods);
  g_array_unref (kind->cost);
  g_ptr_array_unref (kind->tray);
  g_free (kind);
}

typedef struct
{
  const LidModule *module;
  LidPlanKind *kind; /* NULL: not planned with */
} Seen;

typedef struct
{
  LidCandidates *out;
  GHashTable *by_facts; /* LidModule to index + 1 */
  GHashTable *nameless; /* likewise, of those at hand that are not alike */
  Seen seen[MOST_SEEN]; /* modules of rows, each at the place its address tells */
} Gather;

static LidPlanKind *
find_kind (Gather *gather, LidModule *module, gboolean at_hand, int *index)
{
  GHashTable *table = at_hand && is_nameless (module) ? gather->nameless : gather->by_facts;
  guint at = GPOINTER_TO_UINT (g_hash_table_lookup (table, module));
  LidPlanKind *kind;

  if (at > 0)
    {
      *index = (int)at - 1;
      return gather->out->kinds->pdata[at - 1];
    }
  kind = g_new0 (LidPlanKind, 1);
  kind->module = module;
  kind->goods = g_array_new (FALSE, FALSE, sizeof (guint));
  kind->cost = g_array_new (FALSE, FALSE, sizeof (gint64));
  kind->tray = g_ptr_array_new ();
  kind->least_price = LID_COST_UNKNOWN;
  kind->rows_limit = G_MAXUINT64;
  *index = (int)gather->out->kinds->len;
  g_ptr_array_add (gather->out->kinds, kind);
  kind->nameless = table == gather->nameless;
  g_hash_table_insert (table, module, GINT_TO_POINTER (*index + 1));
  return kind;
}

static void
gather_found (Gather *gather, const LidPlanQuestion *question)
{
  const LidBoard *board = question->board;
  const LidPopulation *found = question->as_found;
  const LidPopulation *settings = question->settings != NULL ? question->settings : found;

  for (guint i = 0; i < board->n_slots; i++)
    {
      LidModule *module = found != NULL ? found->slots[i].module : NULL;
      int socket = board->slots[i].socket;
      LidPlanKind *kind;

      gather->out->found_kind[i] = LID_NOWHERE;
      gather->out->fate[i]
          = board->slots[i].soldered != NULL || (module != NULL && module->persistent)
                ? LID_SLOT_STAYS
            : board->slots[i].channel == LID_NOWHERE
                    || (settings != NULL && socket != LID_NOWHERE
                        && !settings->processors[socket].fitted)
                ? LID_SLOT_CLEAR
                : LID_SLOT_FREE;
      if (module == NULL || board->slots[i].soldered != NULL || module->persistent)
        continue;
      kind = find_kind (gather, module, TRUE, &gather->out->found_kind[i]);
      kind->found++;
      kind->owned++;
      kind->supply++;
    }
}

static void
gather_tray (Gather *gather, const LidPlanQuestion *question)
{
  int index;

  for (guint i = 0; i < question->n_tray; i++)
    if (!question->tray[i]->persistent)
      {
        LidPlanKind *kind = find_kind (gather, question->tray[i], TRUE, &index);

        kind->owned++;
        kind->supply++;
        g_ptr_array_add (kind->tray, question->tray[i]);
      }
}

static void
price_kind (LidPlanKind *kind, const LidPlanQuestion *question)
{
  gint64 sum = 0;

  g_array_append_val (kind->cost, sum);
  for (guint i = 0; i < kind->goods->len; i++)
    {
      const LidGood *good = &question->goods[g_array_index (kind->goods, guint, i)];

      if (i == 0 && good->price_minor >= 0)
        kind->least_price = good->price_minor;
      for (guint k = 0; k < good->count && kind->cost->len <= question->board->n_slots; k++)
        {
          sum = good->price_minor < 0 ? LID_COST_UNKNOWN
                                      : MIN (sum + good->price_minor, LID_COST_UNKNOWN);
          g_array_append_val (kind->cost, sum);
        }
    }
  kind->supply = kind->owned + kind->cost->len - 1;
}

/* The kind of a row's module; NULL where its kind of module is not planned with. Most shelves have
 * many rows of few modules: of a module seen before it is known. */
static LidPlanKind *
kind_of_row (Gather *gather, LidModule *module)
{
  Seen *seen = &gather->seen[(GPOINTER_TO_SIZE (module) / sizeof (gpointer)) % MOST_SEEN];
  int index;

  if (seen->module != module)
    *seen = (Seen){ module, module->persistent ? NULL : find_kind (gather, module, FALSE, &index) };
  return seen->kind;
}

/* Kinds of goods keep an order of their own facts' place in the list; price
 * decides nothing here.
 */
static void
gather_goods (Gather *gather, const LidPlanQuestion *question, const LidWish *wish)
{
  for (guint i = 0; i < question->n_goods && wish->what != LID_WISH_REARRANGE; i++)
    {
      const LidGood *good = &question->goods[i];
      LidPlanKind *kind = good->count > 0 ? kind_of_row (gather, good->module) : NULL;

      if (kind != NULL && (guint64)good->price_minor <= kind->rows_limit)
        lid_plan_rows_add (kind, question, i);
    }
  for (guint i = 0; i < gather->out->kinds->len; i++)
    {
      lid_plan_rows_settle (gather->out->kinds->pdata[i], question);
      price_kind (gather->out->kinds->pdata[i], question);
    }
}

/**
 * lid_candidates_new:
 * @question: board, what is found, what is at hand
 * @wish: a rearrangement buys nothing, so goods are left out
 *
 * Returns: (transfer full): the kinds of modules to plan with, and the slots to
 * plan
 */
LidCandidates *
lid_candidates_new (const LidPlanQuestion *question, const LidWish *wish)
{
  LidCandidates *out = g_new0 (LidCandidates, 1);
  g_autoptr (GHashTable) by_facts = g_hash_table_new (hash_module, equal_module);
  g_autoptr (GHashTable) nameless = g_hash_table_new (hash_module, equal_nameless);
  Gather gather = { .out = out, .by_facts = by_facts, .nameless = nameless };

  out->n_slots = question->board->n_slots;
  out->kinds = g_ptr_array_new_with_free_func (kind_free);
  out->found_kind = g_new (int, out->n_slots + 1);
  out->fate = g_new0 (guint8, out->n_slots + 1);
  gather_found (&gather, question);
  gather_tray (&gather, question);
  gather_goods (&gather, question, wish);
  return out;
}

void
lid_candidates_free (LidCandidates *candidates)
{
  if (candidates == NULL)
    return;
  g_ptr_array_unref (candidates->kinds);
  g_free (candidates->found_kind);
  g_free (candidates->fate);
  g_free (candidates);
}

/**
 * lid_candidates_cost:
 * @kind: a kind
 * @used: how many of it a plan uses, at most its supply
 *
 * Returns: what has to be paid, in minor units; LID_COST_UNKNOWN where one of
 * them has no price
 */
gint64
lid_candidates_cost (const LidPlanKind *kind, guint used)
{
  if (used <= kind->owned)
    return 0;
  g_return_val_if_fail (used - kind->owned < kind->cost->len, LID_COST_UNKNOWN);
  return g_array_index (kind->cost, gint64, used - kind->owned);
}
