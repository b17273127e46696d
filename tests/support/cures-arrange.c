/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every arrangement of what is in a machine, in the order that checks/cure-arrange.c promises:
 * slots in the order of fitting, sorts as their first slots come, empty slots last. */
#include "cures-oracle.h"

#define MOST_PLACES 256u

typedef struct
{
  const LidQuestion *question;
  guint at[MOST_PLACES];  /* slots that may change, in the order of fitting */
  guint was[MOST_PLACES]; /* sort of the module in each, from 1; 0: empty */
  guint is[MOST_PLACES];
  guint n;
  GPtrArray *ways;
} Arranging;

static gboolean
stays (const LidQuestion *question, guint slot)
{
  const LidFitting *here = &question->population->slots[slot];
  int socket = question->board->slots[slot].socket;

  return question->board->slots[slot].soldered != NULL || here->state == LID_SLOT_NOT_SEEN
         || (here->module != NULL && here->module->persistent)
         || (socket != LID_NOWHERE && !question->population->processors[socket].fitted);
}

/* Each place that gets another sort takes it from the first place that loses that sort, those of
 * its channel before all others. */
static void
add_way (Arranging *all)
{
  const LidQuestion *q = all->question;
  GArray *moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  guint source[MOST_PLACES] = { 0 }; /* 1 + place */
  gboolean used[MOST_PLACES] = { FALSE };

  for (guint round = 0; round < 2; round++)
    for (guint to = 0; to < all->n; to++)
      for (guint from = 0; all->is[to] != 0 && all->is[to] != all->was[to] && from < all->n; from++)
        if (source[to] == 0 && !used[from] && all->was[from] == all->is[to]
            && all->is[from] != all->was[from]
            && (round == 1
                || q->board->slots[all->at[from]].channel == q->board->slots[all->at[to]].channel))
          {
            used[from] = TRUE;
            source[to] = 1 + from;
          }
  for (guint to = 0; to < all->n; to++)
    if (source[to] != 0)
      {
        guint from = all->at[source[to] - 1];
        LidMove move = { q->population->slots[from].module, (int)from, (int)all->at[to] };

        g_array_append_val (moves, move);
      }
  if (moves->len > 0)
    g_ptr_array_add (all->ways, moves);
  else
    g_array_unref (moves);
}

/* @left: how many of each sort are still to be put, the empty ones first. */
static void
arrange (Arranging *all, guint place, guint *left, guint n_sorts)
{
  if (place == all->n)
    {
      add_way (all);
      return;
    }
  for (guint i = 1; i <= n_sorts + 1; i++)
    {
      guint sort = i % (n_sorts + 1);

      if (left[sort] == 0)
        continue;
      left[sort]--;
      all->is[place] = sort;
      arrange (all, place + 1, left, n_sorts);
      left[sort]++;
    }
}

/* How many there are: all orders, divided by those of what is alike. */
static double
count (guint n, const guint *left, guint n_sorts)
{
  double ways = 1;

  for (guint i = 2; i <= n; i++)
    ways *= i;
  for (guint sort = 0; sort <= n_sorts; sort++)
    for (guint i = 2; i <= left[sort]; i++)
      ways /= i;
  return ways;
}

/* Returns how many sorts there are. */
static guint
list_places (Arranging *all, guint *sort_in)
{
  const LidQuestion *question = all->question;
  guint n_sorts = 0;

  for (guint i = 0; i < question->board->n_slots; i++)
    {
      const LidModule *module = question->population->slots[i].module;

      sort_in[i] = 0;
      for (guint k = 0; module != NULL && !stays (question, i) && sort_in[i] == 0 && k < i; k++)
        if (sort_in[k] != 0 && cures_deal_alike (question->population->slots[k].module, module))
          sort_in[i] = sort_in[k];
      if (module != NULL && !stays (question, i) && sort_in[i] == 0)
        sort_in[i] = ++n_sorts;
    }
  for (guint place = 0; place < question->board->n_slots + question->board->n_order; place++)
    for (guint i = 0; i < question->board->n_slots; i++)
      if (cures_deal_place (question->board, i) == place && !stays (question, i))
        {
          all->was[all->n] = sort_in[i];
          all->at[all->n++] = i;
        }
  return n_sorts;
}

/**
 * cures_arrangements:
 * @most: so many times slots of the board
 *
 * Returns: (transfer full) (nullable) (element-type GArray): moves to each other arrangement; NULL
 * where they are more
 */
GPtrArray *
cures_arrangements (const LidQuestion *question, guint most)
{
  Arranging all = { .question = question };
  guint sort_in[MOST_PLACES], left[MOST_PLACES + 1] = { 0 }, n_sorts;

  if (question->board->n_slots > MOST_PLACES)
    return NULL;
  n_sorts = list_places (&all, sort_in);
  for (guint i = 0; i < all.n; i++)
    left[all.was[i]]++;
  if (count (all.n, left, n_sorts) * question->board->n_slots > most)
    return NULL;
  all.ways = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  arrange (&all, 0, left, n_sorts);
  return all.ways;
}

/* The same where the core tries all of them, and NULL where it does not. */
GPtrArray *
cures_all_tried (const LidQuestion *question)
{
  return question->board->channels_told ? cures_arrangements (question, CURES_ALL_TRIED) : NULL;
}

/* Whether some channel or processor holds a module, afterwards if @moves is told. */
static gboolean
holds (const LidQuestion *q, const GArray *moves, int channel, int socket)
{
  for (guint i = 0; i < q->board->n_slots; i++)
    {
      gboolean here = q->population->slots[i].module != NULL;

      for (guint k = 0; moves != NULL && k < moves->len; k++)
        here = here && g_array_index (moves, LidMove, k).from != (int)i;
      for (guint k = 0; moves != NULL && k < moves->len; k++)
        here = here || g_array_index (moves, LidMove, k).to == (int)i;
      if (here && (channel == LID_NOWHERE || q->board->slots[i].channel == channel)
          && (socket == LID_NOWHERE || q->board->slots[i].socket == socket))
        return TRUE;
    }
  return FALSE;
}

/* Fewer channels, or fewer processors, hold something. */
gboolean
cures_deal_empties (const LidQuestion *q, const GArray *moves)
{
  int channels = 0, sockets = 0;

  for (int c = 0; c < (int)q->board->n_channels; c++)
    channels += holds (q, moves, c, LID_NOWHERE) - holds (q, NULL, c, LID_NOWHERE);
  for (int s = 0; s < (int)q->board->n_sockets; s++)
    sockets += holds (q, moves, LID_NOWHERE, s) - holds (q, NULL, LID_NOWHERE, s);
  return channels < 0 || sockets < 0;
}
