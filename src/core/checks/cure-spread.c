/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The modules in the machine, dealt out again: the largest first, each to the channel that holds
 * least so far; or, by order, into the slots the board's order of fitting names first; or, sorted,
 * each class onto channels (processors) of its own. Whoever is in the right place by its kind stays
 * there. */
#include "checks/cure.h"

#define MOST_CLASSES 16u

typedef struct
{
  const LidCheck *check;
  guint32 sockets;  /* bits: between these modules may move; all ones: channels of no socket too */
  guint first, end; /* channels that are dealt to */
  guint *from;      /* slots of the modules, the largest first */
  gint64 *size;     /* of each: ranks, then MiB */
  guint *to;        /* where each is to go: some module of its class */
  guint n;
  guint8 *class_at; /* per slot: 1 + class of the module in it; 0: none that may move */
  guint n_classes;
  int *next;   /* per channel: its slot next in line; LID_NOWHERE: full, or not dealt to */
  gint64 *mib; /* per channel */
  gint64 socket_mib[1 + LID_BOARD_MAX_SOCKETS]; /* at 1 + socket; at 0: not told */
  gint64 *controller_mib;                       /* by controller_of() */
  guint n_controllers;                          /* of a processor, not told among them */
} Deal;

static gboolean
takes_part (const Deal *deal, int socket)
{
  return socket == LID_NOWHERE ? deal->sockets == G_MAXUINT32 : (deal->sockets >> socket & 1) == 1;
}

/* Whether something sits there that does not move. */
gboolean
lid_cure_is_held (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);

  return check->board->slots[slot].soldered != NULL || (module != NULL && module->persistent);
}

/* The more ranks the larger, and among equals the more MiB. */
static gint64
size_of (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);
  gboolean told;

  return ((gint64)lid_board_count_ranks (check->board, module, &told) << 40)
         + lid_module_capacity (module);
}

static gboolean
classify (Deal *deal, guint slot, guint *firsts)
{
  const LidModule *module = lid_check_module (deal->check, slot);

  for (guint i = 0; i < deal->n_classes; i++)
    if (lid_cure_same (lid_check_module (deal->check, firsts[i]), module))
      {
        deal->class_at[slot] = (guint8)(i + 1);
        return TRUE;
      }
  if (deal->n_classes == MOST_CLASSES)
    return FALSE;
  firsts[deal->n_classes++] = slot;
  deal->class_at[slot] = (guint8)deal->n_classes;
  return TRUE;
}

/* FALSE: they cannot be dealt out: too many kinds, or one that is not seen where it is. */
static gboolean
collect (Deal *deal)
{
  const LidCheck *check = deal->check;
  guint firsts[MOST_CLASSES];

  for (guint i = 0; i < check->n_dram; i++)
    {
      guint slot = check->dram[i], at = deal->n;
      gint64 size;

      if (!takes_part (deal, check->board->slots[slot].socket))
        continue;
      if (check->population->slots[slot].state == LID_SLOT_NOT_SEEN
          || !classify (deal, slot, firsts))
        return FALSE;
      size = size_of (check, slot);
      for (; at > 0 && size > deal->size[at - 1]; at--)
        {
          deal->from[at] = deal->from[at - 1];
          deal->size[at] = deal->size[at - 1];
        }
      deal->from[at] = slot;
      deal->size[at] = size;
      deal->n++;
    }
  return TRUE;
}

/* How much lies on the controller of a channel. */
static gint64 *
controller_of (const Deal *deal, const LidBoardChannel *channel)
{
  guint socket = (guint)(1 + channel->socket);

  return &deal->controller_mib[socket * deal->n_controllers + (guint)channel->controller];
}

static void
add_to_channel (Deal *deal, guint channel, gint64 mib)
{
  const LidBoardChannel *here = &deal->check->board->channels[channel];

  deal->mib[channel] += mib;
  deal->socket_mib[1 + here->socket] += mib;
  *controller_of (deal, here) += mib;
}

/* The slot of a channel after one of its slots, or its first where that is LID_NOWHERE. */
static int
slot_after (const LidCheck *check, guint channel, int slot)
{
  const LidBoardChannel *here = &check->board->channels[channel];
  gboolean passed = slot == LID_NOWHERE;

  for (guint i = 0; i < here->n_slots; i++)
    {
      if (passed && !lid_cure_is_held (check, here->slots[i]))
        return (int)here->slots[i];
      passed = passed || (int)here->slots[i] == slot;
    }
  return LID_NOWHERE;
}

static void
open_channels (Deal *deal)
{
  const LidBoard *board = deal->check->board;

  for (guint c = deal->first; c < deal->end; c++)
    {
      const LidBoardChannel *here = &board->channels[c];

      deal->next[c] = lid_survey_socket_fitted (deal->check->survey, here->slots[0])
                          ? slot_after (deal->check, c, LID_NOWHERE)
                          : LID_NOWHERE;
      for (guint i = 0; i < here->n_slots; i++)
        if (board->slots[here->slots[i]].soldered != NULL)
          add_to_channel (deal, c, lid_module_capacity (board->slots[here->slots[i]].soldered));
    }
}

/* Least on the channel, then at its processor, then on its controller, then first in the order. */
static gboolean
comes_first (const Deal *deal, guint a, guint b)
{
  const LidBoardChannel *x = &deal->check->board->channels[a];
  const LidBoardChannel *y = &deal->check->board->channels[b];
  gint64 by = deal->mib[a] - deal->mib[b];

  if (by == 0)
    by = deal->socket_mib[1 + x->socket] - deal->socket_mib[1 + y->socket];
  if (by == 0)
    by = *controller_of (deal, x) - *controller_of (deal, y);
  if (by == 0)
    by = (gint64)deal->check->place[deal->next[a]] - deal->check->place[deal->next[b]];
  return by < 0;
}

/* There is room for all: each comes from a slot that is dealt to. */
static void
deal_by_load (Deal *deal)
{
  open_channels (deal);
  for (guint i = 0; i < deal->n; i++)
    {
      int best = LID_NOWHERE;

      for (guint c = deal->first; c < deal->end; c++)
        if (deal->next[c] != LID_NOWHERE
            && (best == LID_NOWHERE || comes_first (deal, c, (guint)best)))
          best = (int)c;
      g_assert (best != LID_NOWHERE);
      deal->to[i] = (guint)deal->next[best];
      deal->next[best] = slot_after (deal->check, (guint)best, deal->next[best]);
      add_to_channel (deal, (guint)best,
                      lid_module_capacity (lid_check_module (deal->check, deal->from[i])));
    }
}

/* Where classes keep apart: a channel, or its processor. */
static guint
unit_of (const Deal *deal, LidCureDeal how, guint channel)
{
  return how == LID_CURE_SORTED_SOCKETS ? (guint)(1 + deal->check->board->channels[channel].socket)
                                        : channel;
}

/* How many units each class is given: as few as hold it; then those that are left, one by one to
 * the class that sits the closest, as long as it thins out.
 * @units: (out): by class
 *
 * Returns: whether there are enough */
static gboolean
share_out (const Deal *deal, LidCureDeal how, guint *units)
{
  guint room[LID_BOARD_MAX_CHANNELS + 1] = { 0 }, n_of[MOST_CLASSES + 1] = { 0 };
  guint open = 0, most = 0;

  for (guint c = deal->first; c < deal->end; c++)
    {
      guint *here = &room[unit_of (deal, how, c)];

      open += deal->next[c] != LID_NOWHERE && *here == 0;
      for (int at = deal->next[c]; at != LID_NOWHERE; at = slot_after (deal->check, c, at))
        *here += 1;
      most = MAX (most, *here);
    }
  for (guint i = 0; i < deal->n; i++)
    n_of[deal->class_at[deal->from[i]]]++;
  for (guint k = 1; k <= deal->n_classes; k++)
    {
      units[k] = (n_of[k] + most - 1) / most;
      if (units[k] > open)
        return FALSE;
      open -= units[k];
    }
  for (; open > 0; open--)
    {
      guint closest = 0, worst = 1;

      for (guint k = 1; k <= deal->n_classes; k++)
        if ((n_of[k] + units[k] - 1) / units[k] > worst)
          {
            closest = k;
            worst = (n_of[k] + units[k] - 1) / units[k];
          }
      units[closest]++; /* nobody's where no class thins out */
    }
  return TRUE;
}

/* A module opens another unit as long as its class has one to open; then it goes to one of those.
 */
static gboolean
deal_sorted (Deal *deal, LidCureDeal how)
{
  guint units[MOST_CLASSES + 1] = { 0 };
  guint8 owner[LID_BOARD_MAX_CHANNELS + 1] = { 0 };

  open_channels (deal);
  if (deal->n_classes < 2 || !share_out (deal, how, units))
    return FALSE;
  for (guint i = 0; i < deal->n; i++)
    {
      guint8 class = deal->class_at[deal->from[i]];
      guint8 wanted = units[class] > 0 ? 0 : class;
      int best = LID_NOWHERE;

      for (guint c = deal->first; c < deal->end; c++)
        if (deal->next[c] != LID_NOWHERE && owner[unit_of (deal, how, c)] == wanted
            && (best == LID_NOWHERE || comes_first (deal, c, (guint)best)))
          best = (int)c;
      if (best == LID_NOWHERE)
        return FALSE;
      units[class] -= wanted == 0;
      owner[unit_of (deal, how, (guint)best)] = class;
      deal->to[i] = (guint)deal->next[best];
      deal->next[best] = slot_after (deal->check, (guint)best, deal->next[best]);
      add_to_channel (deal, (guint)best,
                      lid_module_capacity (lid_check_module (deal->check, deal->from[i])));
    }
  return TRUE;
}

static gboolean
deal_by_order (Deal *deal)
{
  const LidBoard *board = deal->check->board;
  guint n = 0;

  for (guint i = 0; i < board->n_order && n < deal->n; i++)
    if (takes_part (deal, board->slots[board->order[i]].socket)
        && !lid_cure_is_held (deal->check, board->order[i])
        && lid_survey_socket_fitted (deal->check->survey, board->order[i]))
      deal->to[n++] = board->order[i];
  return n == deal->n;
}

/* Who sits right by its class stays; the others are moved, each to a place of its class. */
static void
write_moves (Deal *deal, GArray *moves)
{
  g_autofree gboolean *done = g_new0 (gboolean, deal->n);
  g_autofree guint8 *class_at = g_memdup2 (deal->class_at, deal->check->board->n_slots);

  for (guint i = 0; i < deal->n; i++)
    if (class_at[deal->to[i]] == deal->class_at[deal->from[i]])
      {
        done[i] = TRUE;
        class_at[deal->to[i]] = 0;
      }
  for (guint i = 0; i < deal->n; i++)
    if (!done[i])
      {
        LidMove move = { .to = (int)deal->to[i] };
        guint k = 0;

        while (class_at[deal->from[k]] != deal->class_at[deal->from[i]])
          k++;
        move.from = (int)deal->from[k];
        move.module = deal->check->population->slots[move.from].module;
        g_array_append_val (moves, move);
        class_at[move.from] = 0;
      }
}

/* Channels of one processor are neighbours. */
static void
find_channels (Deal *deal, int socket)
{
  const LidBoard *board = deal->check->board;

  deal->sockets = socket == LID_NOWHERE ? G_MAXUINT32 : 1u << socket;
  deal->first = socket == LID_NOWHERE ? 0 : board->sockets[socket].first_channel;
  deal->end
      = socket == LID_NOWHERE ? board->n_channels : deal->first + board->sockets[socket].n_channels;
  deal->n_controllers = 1;
  for (guint c = deal->first; c < deal->end; c++)
    deal->n_controllers = MAX (deal->n_controllers, 1 + (guint)board->channels[c].controller);
}

/* @socket: whose modules; LID_NOWHERE: all. No moves where they cannot be dealt out. */
static void
deal_out (const LidCheck *check, int socket, LidCureDeal how, GArray *moves)
{
  guint n = check->board->n_slots;
  g_autofree guint *slots = g_new (guint, 2 * n);
  g_autofree gint64 *size = g_new (gint64, n);
  g_autofree guint8 *class_at = g_new0 (guint8, n);
  g_autofree int *next = g_new (int, check->board->n_channels);
  g_autofree gint64 *mib = g_new0 (gint64, check->board->n_channels);
  g_autofree gint64 *controller_mib = NULL;
  Deal deal = { .check = check,
                .from = slots,
                .size = size,
                .to = slots + n,
                .class_at = class_at,
                .next = next,
                .mib = mib };

  find_channels (&deal, socket);
  deal.controller_mib = controller_mib
      = g_new0 (gint64, (1 + check->board->n_sockets) * deal.n_controllers);
  if (!collect (&deal) || (how == LID_CURE_BY_ORDER && !deal_by_order (&deal))
      || (how >= LID_CURE_SORTED && !deal_sorted (&deal, how)))
    return;
  if (how == LID_CURE_BY_LOAD)
    deal_by_load (&deal);
  write_moves (&deal, moves);
}

/**
 * lid_cure_spread:
 * @check: whose population
 * @each_socket: modules stay at their processor; one whose modules cannot be dealt out is left as
 * it is, for what is wrong there is no reason to leave the others uneven
 * @how: by what channels hold, into the first slots of the board's order, or class by class
 *
 * Returns: (transfer full): moves to try; none where they sit so already or cannot be dealt out
 */
GArray *
lid_cure_spread (const LidCheck *check, gboolean each_socket, LidCureDeal how)
{
  GArray *moves = g_array_new (FALSE, FALSE, sizeof (LidMove));

  if (!check->board->channels_told)
    return moves;
  if (!each_socket)
    deal_out (check, LID_NOWHERE, how, moves);
  for (int s = 0; each_socket && s < (int)check->board->n_sockets; s++)
    deal_out (check, s, how, moves);
  return moves;
}
