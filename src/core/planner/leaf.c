/* SPDX-License-Identifier: GPL-3.0-or-later */
/* leaf.c: where the search asks the checker: about whole populations, and about
 * the part that is decided. Paragraphs 5 to 7 of search.c. */
#include "planner/search.h"

#define ASK_STEPS 40u /* one judgement costs about so many steps of the search */
#define MOST_KEPT 100000u
#define MOST_ASKS 400u /* arrangements of one population */

/* What was asked once is not asked again: passes and targets overlap, and what
 * is refused would come back in each. */
static GBytes *
name_population (const LidPlanSearch *search, const guint *chosen)
{
  return g_bytes_new (chosen, search->columns->columns->len * sizeof (guint));
}

static LidPlanVerdict
ask_anew (LidPlanSearch *search, const guint *chosen)
{
  LidPlanEntry entry;
  LidPlanVerdict verdict;

  for (guint i = 0; i < search->columns->columns->len; i++)
    {
      const LidPlanColumn *column = lid_plan_columns_at (search->columns, i);

      lid_plan_fillings_put (
          column, lid_plan_fillings_at (search->fillings, column->group, chosen[i]), search->kinds);
    }
  lid_plan_search_goes_on (search, ASK_STEPS);
  verdict = lid_plan_judge_ask (search->judge, search->kinds, &entry);
  if (verdict == LID_PLAN_LEGAL && lid_plan_front_add (search->front, &entry)
      && search->seek == NULL && search->found != NULL)
    search->found (search, search->front->entries->pdata[search->front->entries->len - 1]);
  return verdict;
}

static LidPlanVerdict
ask (LidPlanSearch *search, const guint *chosen)
{
  g_autoptr (GBytes) name = name_population (search, chosen);
  gpointer known;
  LidPlanVerdict verdict;

  if (g_hash_table_lookup_extended (search->asked, name, NULL, &known)
      && (search->seek == NULL || GPOINTER_TO_INT (known) != LID_PLAN_LEGAL))
    return (LidPlanVerdict)GPOINTER_TO_INT (known);
  verdict = ask_anew (search, chosen);
  if (g_hash_table_size (search->asked) < MOST_KEPT)
    g_hash_table_insert (search->asked, g_steal_pointer (&name), GINT_TO_POINTER (verdict));
  return verdict;
}

/**
 * lid_plan_leaf_ask:
 * @search: with a filling chosen for each column
 *
 * Asks the checker about just that population, and keeps it where nothing stops it.
 */
void
lid_plan_leaf_ask (LidPlanSearch *search)
{
  ask (search, search->chosen);
}

typedef struct
{
  LidPlanSearch *search;
  guint *chosen;
  guint asks;   /* left */
  gboolean all; /* every arrangement, not only up to the first that is taken */
} Arrange;

static gboolean arrange (Arrange *a, guint column);

/* The filling at @column in each order of its modules; whether to stop. */
static gboolean
arrange_twins (Arrange *a, guint column)
{
  const GArray *fillings
      = a->search->fillings->of_group[lid_plan_columns_at (a->search->columns, column)->group];
  guint value = a->chosen[column];
  gboolean stop = arrange (a, column + 1);

  for (guint f = 0; f < fillings->len && !stop; f++)
    if (f != value && g_array_index (fillings, LidPlanFilling, f).twin == value)
      {
        a->chosen[column] = f;
        stop = arrange (a, column + 1);
      }
  a->chosen[column] = value;
  return stop;
}

/* Distinct arrangements of the columns from @column on, each group by itself; whether to stop. */
static gboolean
arrange (Arrange *a, guint column)
{
  guint n = a->search->columns->columns->len, end = column, group;

  if (column == n)
    {
      if (a->asks == 0 || a->search->budget == 0)
        return TRUE;
      a->asks--;
      return ask (a->search, a->chosen) == LID_PLAN_LEGAL && !a->all;
    }
  group = lid_plan_columns_at (a->search->columns, column)->group;
  while (end < n && lid_plan_columns_at (a->search->columns, end)->group == group)
    end++;
  for (guint i = column; i < end; i++)
    {
      guint value = a->chosen[i], k = column;
      gboolean stop;

      while (k < i && a->chosen[k] != value)
        k++;
      if (k < i)
        continue;
      a->chosen[i] = a->chosen[column];
      a->chosen[column] = value;
      stop = arrange_twins (a, column);
      a->chosen[column] = a->chosen[i];
      a->chosen[i] = value;
      if (stop)
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_twins (const LidPlanSearch *search, guint column)
{
  const GArray *fillings
      = search->fillings->of_group[lid_plan_columns_at (search->columns, column)->group];

  for (guint f = 0; f < fillings->len; f++)
    if (f != search->chosen[column]
        && g_array_index (fillings, LidPlanFilling, f).twin == search->chosen[column])
      return TRUE;
  return FALSE;
}

static gboolean
can_be_arranged (const LidPlanSearch *search)
{
  for (guint i = 0; i < search->columns->columns->len; i++)
    if (has_twins (search, i)
        || (i > 0
            && lid_plan_columns_at (search->columns, i)->group
                   == lid_plan_columns_at (search->columns, i - 1)->group
            && search->chosen[i] != search->chosen[i - 1]))
      return TRUE;
  return FALSE;
}

/**
 * lid_plan_leaf_try:
 * @search: every column is decided
 *
 * Asks the checker, and keeps the population where nothing stops it. Where a
 * finding speaks against it, its other arrangements are asked too; of a tie,
 * all are.
 */
void
lid_plan_leaf_try (LidPlanSearch *search)
{
  guint n = search->columns->columns->len;
  g_autofree guint *chosen = NULL;
  Arrange a = { .search = search, .all = search->seek != NULL };
  LidPlanVerdict verdict;

  if (search->seek != NULL && search->asks == 0)
    {
      search->ties_open = TRUE;
      return;
    }
  if (lid_plan_rated_fillings (search))
    return;
  verdict = ask (search, search->chosen);
  if (search->seek != NULL)
    search->asks--;
  if (verdict == LID_PLAN_SHORT || verdict == LID_PLAN_NEVER || !can_be_arranged (search)
      || (verdict == LID_PLAN_LEGAL && !a.all))
    return;
  chosen = g_memdup2 (search->chosen, (n + 1) * sizeof (guint));
  a.chosen = chosen;
  a.asks = a.all ? search->asks : MOST_ASKS;
  if (arrange (&a, 0) && a.asks == 0 && !a.all)
    search->gave_up = TRUE;
  if (!a.all)
    return;
  search->asks = a.asks;
  search->ties_open = search->ties_open || a.asks == 0;
}

/* The sets of fillings so far as a text; each once. */
static char *
name_set (const LidPlanSearch *search, guint column, guint *n_members)
{
  GString *name = g_string_new (NULL);

  *n_members = 0;
  for (guint i = 0; i <= column; i++)
    {
      guint group = lid_plan_columns_at (search->columns, i)->group;

      if (lid_plan_fillings_at (search->fillings, group, search->chosen[i])->n_modules == 0
          || (i > 0 && lid_plan_columns_at (search->columns, i - 1)->group == group
              && search->chosen[i - 1] == search->chosen[i]))
        continue;
      g_string_append_printf (name, "%u.%u ", group, search->chosen[i]);
      (*n_members)++;
    }
  return g_string_free (name, FALSE);
}

/* Whether a lasting rule stops what stands in @kinds. */
static gboolean
ask_part (LidPlanSearch *search, const int *kinds)
{
  g_autoptr (LidAssessment) assessment = NULL;

  lid_plan_search_goes_on (search, ASK_STEPS);
  assessment = lid_plan_judge_part (search->judge, kinds);
  for (guint i = 0; i < assessment->findings->len; i++)
    if (lid_plan_judge_is_lasting (assessment->findings->pdata[i]))
      return TRUE;
  return FALSE;
}

static int *
no_kinds (const LidPlanSearch *search)
{
  int *kinds = g_new (int, search->judge->candidates->n_slots + 1);

  for (guint i = 0; i < search->judge->candidates->n_slots; i++)
    kinds[i] = LID_NOWHERE;
  return kinds;
}

static gboolean
ask_set (LidPlanSearch *search, guint column)
{
  g_autofree int *kinds = no_kinds (search);

  for (guint i = 0; i <= column; i++)
    {
      const LidPlanColumn *here = lid_plan_columns_at (search->columns, i);

      if (i > 0 && lid_plan_columns_at (search->columns, i - 1)->group == here->group
          && search->chosen[i - 1] == search->chosen[i])
        continue;
      lid_plan_fillings_put (
          here, lid_plan_fillings_at (search->fillings, here->group, search->chosen[i]), kinds);
    }
  return ask_part (search, kinds);
}

/* The same of two fillings; under the name that name_set() would give them. */
static gboolean
is_pair_stopped (LidPlanSearch *search, guint a, guint of_a, guint b, guint of_b)
{
  const LidPlanColumn *x = lid_plan_columns_at (search->columns, a);
  const LidPlanColumn *y = lid_plan_columns_at (search->columns, b);
  const LidPlanFilling *in_a = lid_plan_fillings_at (search->fillings, x->group, of_a);
  const LidPlanFilling *in_b = lid_plan_fillings_at (search->fillings, y->group, of_b);
  g_autofree char *name = g_strdup_printf ("%u.%u %u.%u ", x->group, of_a, y->group, of_b);
  g_autofree int *kinds = NULL;
  gpointer known;

  if (in_a->n_modules == 0 || in_b->n_modules == 0)
    return FALSE;
  if (g_hash_table_lookup_extended (search->never, name, NULL, &known))
    return GPOINTER_TO_INT (known);
  kinds = no_kinds (search);
  lid_plan_fillings_put (x, in_a, kinds);
  lid_plan_fillings_put (y, in_b, kinds);
  known = GINT_TO_POINTER (ask_part (search, kinds));
  g_hash_table_insert (search->never, g_steal_pointer (&name), known);
  return GPOINTER_TO_INT (known);
}

/* The kinds that are used so far, bits; 0 where there are too many kinds. */
static gint64
mix_of (const LidPlanSearch *search)
{
  guint n_kinds = search->judge->candidates->kinds->len;
  guint64 mix = 0;

  for (guint k = 0; k < n_kinds && n_kinds <= 64; k++)
    mix |= (guint64)(search->used[k] > 0) << k;
  return (gint64)mix;
}

/* Fillings of the same kinds once stood together: mostly these do too, and asking is what the
 * search spends most on. Not to prune is never wrong. */
static gboolean
is_known_mix (const LidPlanSearch *search)
{
  gint64 mix = mix_of (search);

  return mix != 0 && g_hash_table_contains (search->mixes, &mix);
}

static void
note_mix (LidPlanSearch *search)
{
  gint64 mix = mix_of (search);

  if (mix != 0)
    g_hash_table_add (search->mixes, g_memdup2 (&mix, sizeof mix));
}

/**
 * lid_plan_leaf_is_stopped:
 * @search: the columns up to @column are decided
 *
 * Returns: whether a lasting rule stops the fillings chosen so far, each taken
 * once, and with them every population that goes on from here
 */
gboolean
lid_plan_leaf_is_stopped (LidPlanSearch *search, guint column)
{
  guint n_members;
  g_autofree char *name = NULL;
  gpointer known;

  if (column == 0
      || (lid_plan_columns_at (search->columns, column - 1)->group
              == lid_plan_columns_at (search->columns, column)->group
          && search->chosen[column - 1] == search->chosen[column]))
    return FALSE;
  name = name_set (search, column, &n_members);
  if (n_members < 2)
    return FALSE;
  if (!g_hash_table_lookup_extended (search->never, name, NULL, &known))
    {
      if (is_known_mix (search))
        return FALSE;
      known = GINT_TO_POINTER (ask_set (search, column));
      if (!GPOINTER_TO_INT (known))
        note_mix (search);
      g_hash_table_insert (search->never, g_steal_pointer (&name), known);
    }
  return GPOINTER_TO_INT (known);
}

/* Whether the checker lets some filling of one column's step stand beside some
 * of another's. */
static gboolean
some_go_together (LidPlanSearch *search, guint a, guint b)
{
  const LidPlanColumn *x = lid_plan_columns_at (search->columns, a);
  const LidPlanColumn *y = lid_plan_columns_at (search->columns, b);
  const GArray *of_x
      = g_array_index (search->bounds.steps[x->group], LidPlanStep, search->picked[a]).members;
  const GArray *of_y
      = g_array_index (search->bounds.steps[y->group], LidPlanStep, search->picked[b]).members;

  for (guint i = 0; i < of_x->len; i++)
    for (guint k = 0; k < of_y->len; k++)
      if (!is_pair_stopped (search, a, g_array_index (of_x, guint, i), b,
                            g_array_index (of_y, guint, k)))
        return TRUE;
  return FALSE;
}

/**
 * lid_plan_leaf_are_apart:
 * @search: steps are picked for both columns
 * @a: a column
 * @b: a later one
 *
 * Returns: whether a lasting rule stops every filling of one's step beside
 * every one of the other's
 */
gboolean
lid_plan_leaf_are_apart (LidPlanSearch *search, guint a, guint b)
{
  gint64 key = ((gint64)lid_plan_columns_at (search->columns, a)->group << 48)
               | ((gint64)lid_plan_columns_at (search->columns, b)->group << 32)
               | ((gint64)search->picked[a] << 16) | search->picked[b];
  gpointer known;

  if (lid_plan_columns_at (search->columns, a)->group
          == lid_plan_columns_at (search->columns, b)->group
      && search->picked[a] == search->picked[b])
    return FALSE;
  if (!g_hash_table_lookup_extended (search->apart, &key, NULL, &known))
    {
      known = GINT_TO_POINTER (!some_go_together (search, a, b));
      g_hash_table_insert (search->apart, g_memdup2 (&key, sizeof key), known);
    }
  return GPOINTER_TO_INT (known);
}
