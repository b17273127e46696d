/* SPDX-License-Identifier: GPL-3.0-or-later */
/* columns.c: which channels are decided together, and which may change places.
 *
 * A column is one channel; where the sockets shall be filled alike, it is the
 * channels in the same place of every fitted socket. Nothing is assumed about
 * channels being alike: two columns are of one group only if an explicit test
 * says that exchanging what is in them changes no figure. The figures look at a
 * channel's socket and NUMA node, at the number of its slots and at what is in
 * them; at pairs of channels under a memory mode; and at its number and
 * controller only to choose between channels with the same left, which leaves
 * the same numbers behind whichever is chosen (times.c). What was found in two
 * columns has to be the same too, because hands are counted against it.
 *
 * Rules may still tell such columns apart (the order of fitting does). So a
 * group saves no judgement of the checker: search.c asks it for other
 * arrangements where the first is refused. */
#include "planner/columns.h"

#include "figures/bandwidth.h"

static guint
node_of (const LidPlanQuestion *question, guint channel)
{
  const LidBoard *board = question->board;
  const LidPopulation *settings
      = question->settings != NULL ? question->settings : question->as_found;
  int socket = board->channels[channel].socket;
  guint split = settings != NULL ? settings->numa_split : 0, n, at;

  if (socket == LID_NOWHERE)
    return 0;
  n = board->sockets[socket].n_channels;
  at = channel - board->sockets[socket].first_channel;
  if (split <= 1 || !lid_bandwidth_splits (board, split))
    return (guint)socket * LID_BOARD_MAX_CHANNELS;
  split = MIN (split, MAX (n, 1));
  for (guint node = 0; node < split; node++)
    if (at < (node + 1) * n / split)
      return (guint)socket * LID_BOARD_MAX_CHANNELS + node;
  return (guint)socket * LID_BOARD_MAX_CHANNELS;
}

static gboolean
is_fitted (const LidPlanQuestion *question, guint socket)
{
  const LidPopulation *settings
      = question->settings != NULL ? question->settings : question->as_found;

  return settings == NULL || settings->processors[socket].fitted;
}

static gint64
fixed_mib (const LidPlanQuestion *question, const LidCandidates *candidates, guint channel)
{
  const LidBoardChannel *place = &question->board->channels[channel];
  gint64 mib = 0;

  for (guint i = 0; i < place->n_slots; i++)
    {
      const LidModule *module = question->board->slots[place->slots[i]].soldered;

      if (module != NULL && !module->persistent
          && candidates->fate[place->slots[i]] == LID_SLOT_STAYS)
        mib += lid_module_capacity (module);
    }
  return mib;
}

/* What stays in two slots is the same to every rule and figure, soldered or persistent. */
static gboolean
stays_match (const LidPlanQuestion *question, guint a, guint b)
{
  const LidBoardSlot *p = &question->board->slots[a], *q = &question->board->slots[b];
  const LidFitting *x, *y;

  if (p->soldered != NULL || q->soldered != NULL)
    return p->soldered != NULL && q->soldered != NULL
           && lid_candidates_interchangeable (p->soldered, q->soldered);
  if (question->as_found == NULL)
    return FALSE;
  x = &question->as_found->slots[a];
  y = &question->as_found->slots[b];
  return x->module != NULL && y->module != NULL && x->state == y->state
         && x->configured == y->configured && lid_candidates_interchangeable (x->module, y->module);
}

/* What is there and stays, slot by slot, and what may be planned, are the same
 * in two channels. */
static gboolean
slots_match (const LidPlanQuestion *question, const LidCandidates *candidates, guint a, guint b)
{
  const LidBoard *board = question->board;
  const LidBoardChannel *x = &board->channels[a], *y = &board->channels[b];

  if (x->n_slots != y->n_slots)
    return FALSE;
  for (guint i = 0; i < x->n_slots; i++)
    {
      const LidBoardSlot *p = &board->slots[x->slots[i]], *q = &board->slots[y->slots[i]];
      LidSlotFate fate = candidates->fate[x->slots[i]];

      if (fate != candidates->fate[y->slots[i]] || p->position != q->position
          || p->max_height != q->max_height)
        return FALSE;
      if (fate == LID_SLOT_STAYS && !stays_match (question, x->slots[i], y->slots[i]))
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_plan_columns_sockets_match:
 * @question: a board and what is fitted
 * @candidates: the fate of its slots
 *
 * Returns: whether all fitted sockets have the same channels with the same
 * slots, so that they can be filled alike slot by slot
 */
gboolean
lid_plan_columns_sockets_match (const LidPlanQuestion *question, const LidCandidates *candidates)
{
  const LidBoard *board = question->board;
  int first = LID_NOWHERE;

  for (guint i = 0; i < board->n_channels; i++)
    if (board->channels[i].socket == LID_NOWHERE)
      return FALSE;
  for (guint s = 0; s < board->n_sockets; s++)
    {
      if (!is_fitted (question, s))
        continue;
      if (first == LID_NOWHERE)
        first = (int)s;
      if (board->sockets[s].n_channels != board->sockets[first].n_channels)
        return FALSE;
      for (guint i = 0; i < board->sockets[s].n_channels; i++)
        if (!slots_match (question, candidates, board->sockets[first].first_channel + i,
                          board->sockets[s].first_channel + i))
          return FALSE;
    }
  return TRUE;
}

static void
add_column (const LidPlanQuestion *question,
            const LidCandidates *candidates,
            const GArray *channels,
            LidPlanColumns *out)
{
  const LidBoard *board = question->board;
  LidPlanColumn column = { .n_channels = channels->len, .place = G_MAXUINT32 };
  g_autoptr (GArray) slots = g_array_new (FALSE, FALSE, sizeof (guint));

  out->n_channels = channels->len;
  for (guint k = 0; k < channels->len; k++)
    {
      guint channel = g_array_index (channels, guint, k);
      gint64 mib = fixed_mib (question, candidates, channel);

      column.soldered = mib;
      out->soldered += mib;
      for (guint i = 0; i < board->channels[channel].n_slots; i++)
        {
          guint slot = board->channels[channel].slots[i];

          if (candidates->fate[slot] != LID_SLOT_FREE)
            continue;
          g_array_append_val (slots, slot);
          if (k == 0)
            column.place = MIN (column.place, lid_board_order_of (board, slot));
        }
    }
  if (slots->len == 0)
    {
      guint node = node_of (question, g_array_index (channels, guint, 0));

      out->most_fixed = MAX (out->most_fixed, column.soldered);
      if (column.soldered > 0)
        g_array_append_val (out->nodes, node);
      return;
    }
  column.n_slots = slots->len / channels->len;
  column.node = node_of (question, g_array_index (channels, guint, 0));
  column.channels = g_memdup2 (channels->data, channels->len * sizeof (guint));
  column.slots = g_memdup2 (slots->data, slots->len * sizeof (guint));
  out->n_free += slots->len;
  g_array_append_val (out->columns, column);
}

static void
make_columns (const LidPlanQuestion *question, const LidCandidates *candidates, LidPlanColumns *out)
{
  const LidBoard *board = question->board;

  for (guint c = 0; c < board->n_channels; c++)
    {
      g_autoptr (GArray) channels = g_array_new (FALSE, FALSE, sizeof (guint));
      int socket = board->channels[c].socket;
      gboolean first = TRUE;

      if (socket != LID_NOWHERE && !is_fitted (question, (guint)socket))
        continue;
      g_array_append_val (channels, c);
      for (guint s = 0; out->alike && s < board->n_sockets; s++)
        {
          guint other = board->sockets[s].first_channel + c
                        - (socket != LID_NOWHERE ? board->sockets[socket].first_channel : 0);

          if ((int)s == socket || !is_fitted (question, s))
            continue;
          first = first && (int)s > socket;
          g_array_append_val (channels, other);
        }
      if (first)
        add_column (question, candidates, channels, out);
    }
}

/* A memory mode that pairs channels tells them apart. */
static gboolean
in_pairs (const LidBoard *board, const LidPopulation *settings)
{
  const LidBoardMode *rule = settings != NULL ? lid_board_find_mode (board, settings->mode) : NULL;

  return rule != NULL && rule->n_pairs > 0;
}

static gboolean
may_change_places (const LidPlanQuestion *question,
                   const LidCandidates *candidates,
                   const LidPlanColumn *a,
                   const LidPlanColumn *b)
{
  const LidBoard *board = question->board;
  const LidPopulation *found = question->as_found;
  const LidPopulation *settings = question->settings != NULL ? question->settings : found;

  if (in_pairs (board, settings))
    return FALSE;
  if (a->n_channels != b->n_channels || a->n_slots != b->n_slots || a->node != b->node)
    return FALSE;
  for (guint k = 0; k < a->n_channels; k++)
    {
      guint x = a->channels[k], y = b->channels[k];

      if (board->channels[x].socket != board->channels[y].socket
          || node_of (question, x) != node_of (question, y)
          || !slots_match (question, candidates, x, y))
        return FALSE;
    }
  for (guint i = 0; i < a->n_channels * a->n_slots; i++)
    if (candidates->found_kind[a->slots[i]] != candidates->found_kind[b->slots[i]]
        || (found != NULL && found->slots[a->slots[i]].state != found->slots[b->slots[i]].state))
      return FALSE;
  return TRUE;
}

static int
compare_columns (gconstpointer a, gconstpointer b)
{
  const LidPlanColumn *x = a, *y = b;

  if (x->group != y->group)
    return x->group < y->group ? -1 : 1;
  if (x->place != y->place)
    return x->place > y->place ? -1 : 1;
  return x->channels[0] > y->channels[0] ? -1 : x->channels[0] < y->channels[0];
}

static void
column_clear (gpointer data)
{
  LidPlanColumn *column = data;

  g_free (column->channels);
  g_free (column->slots);
}

/**
 * lid_plan_columns_new:
 * @question: a board whose channels are told
 * @candidates: the fate of its slots
 * @alike: fill the fitted sockets alike; only where
 * lid_plan_columns_sockets_match()
 *
 * Returns: (transfer full): the columns with a free slot, by group
 */
LidPlanColumns *
lid_plan_columns_new (const LidPlanQuestion *question,
                      const LidCandidates *candidates,
                      gboolean alike)
{
  LidPlanColumns *out = g_new0 (LidPlanColumns, 1);

  out->alike = alike;
  out->columns = g_array_new (FALSE, FALSE, sizeof (LidPlanColumn));
  g_array_set_clear_func (out->columns, column_clear);
  out->nodes = g_array_new (FALSE, FALSE, sizeof (guint));
  make_columns (question, candidates, out);
  for (guint i = 0; i < out->columns->len; i++)
    {
      LidPlanColumn *column = &g_array_index (out->columns, LidPlanColumn, i);
      guint k = 0;

      while (k < i
             && !may_change_places (question, candidates, lid_plan_columns_at (out, k), column))
        k++;
      column->group = k < i ? lid_plan_columns_at (out, k)->group : out->n_groups++;
    }
  g_array_sort (out->columns, compare_columns);
  return out;
}

void
lid_plan_columns_free (LidPlanColumns *columns)
{
  if (columns == NULL)
    return;
  g_array_unref (columns->columns);
  g_array_unref (columns->nodes);
  g_free (columns);
}
