/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each sort of module dealt out on channels, or at processors, of its own: a second writing from
 * the words at the head of checks/cure.c. A unit is a channel or a processor. */
#include "cures-oracle.h"

#define NOBODY (-1)

typedef struct
{
  const LidQuestion *q;
  int socket; /* whose modules; LID_NOWHERE: all */
  gboolean at_processors;
  GArray *slots; /* of the modules, as they are dealt out */
  GArray *sorts; /* of each: which sort it is, from 0 */
} Table;

/* NOBODY: nothing can be dealt there. */
static int
unit_of (const Table *t, guint slot)
{
  const LidBoardSlot *place = &t->q->board->slots[slot];
  const LidModule *module = t->q->population->slots[slot].module;

  if (place->channel == LID_NOWHERE || place->soldered != NULL
      || (module != NULL && module->persistent)
      || (t->socket != LID_NOWHERE && place->socket != t->socket)
      || (place->socket != LID_NOWHERE && !t->q->population->processors[place->socket].fitted))
    return NOBODY;
  return t->at_processors ? place->socket + 1 : place->channel;
}

static const LidModule *
module_of (const Table *t, guint i)
{
  return t->q->population->slots[g_array_index (t->slots, guint, i)].module;
}

/* In the order of the slots of the machine. */
static guint
name_sorts (Table *t)
{
  g_autoptr (GPtrArray) seen = g_ptr_array_new ();

  for (guint i = 0; i < t->slots->len; i++)
    g_array_append_val (t->sorts, i);
  for (guint slot = 0; slot < t->q->board->n_slots; slot++)
    for (guint i = 0; i < t->slots->len; i++)
      {
        guint sort = 0;

        if (g_array_index (t->slots, guint, i) != slot)
          continue;
        while (sort < seen->len && !cures_deal_alike (seen->pdata[sort], module_of (t, i)))
          sort++;
        if (sort == seen->len)
          g_ptr_array_add (seen, (gpointer)module_of (t, i));
        g_array_index (t->sorts, guint, i) = sort;
      }
  return seen->len;
}

static guint
ceiling (guint a, guint b)
{
  return a / b + (a % b != 0);
}

/* The sort that comes first among those sitting closest is given one more, while any sits closer
 * than one by one. FALSE: too few units. */
static gboolean
share (const Table *t, guint n_sorts, guint *units)
{
  g_autoptr (GHashTable) rooms = g_hash_table_new (NULL, NULL);
  g_autofree guint *many = g_new0 (guint, n_sorts);
  guint most = 0, given = 0;

  for (guint i = 0; i < t->q->board->n_slots; i++)
    if (unit_of (t, i) != NOBODY)
      {
        gpointer unit = GINT_TO_POINTER (unit_of (t, i));
        guint room = GPOINTER_TO_UINT (g_hash_table_lookup (rooms, unit)) + 1;

        g_hash_table_insert (rooms, unit, GUINT_TO_POINTER (room));
        most = MAX (most, room);
      }
  for (guint i = 0; i < t->sorts->len; i++)
    many[g_array_index (t->sorts, guint, i)]++;
  for (guint k = 0; k < n_sorts; k++)
    given += units[k] = ceiling (many[k], most);
  if (given > g_hash_table_size (rooms))
    return FALSE;
  for (; given < g_hash_table_size (rooms); given++)
    {
      guint closest = 0;

      for (guint k = 1; k < n_sorts; k++)
        if (ceiling (many[k], units[k]) > ceiling (many[closest], units[closest]))
          closest = k;
      if (ceiling (many[closest], units[closest]) == 1)
        break;
      units[closest]++;
    }
  return TRUE;
}

static gboolean
place_all (const Table *t, guint *units, GArray *dealt)
{
  guint n = t->q->board->n_slots;
  g_autoptr (GHashTable) owners = g_hash_table_new (NULL, NULL); /* unit to sort + 1 */
  g_autofree gboolean *barred = g_new (gboolean, n);

  for (guint i = 0; i < t->slots->len; i++)
    {
      guint sort = g_array_index (t->sorts, guint, i);
      guint whose = units[sort] > 0 ? 0 : sort + 1;
      LidMove move = { (LidModule *)module_of (t, i), LID_NOWHERE, LID_NOWHERE };

      for (guint k = 0; k < n; k++)
        barred[k]
            = unit_of (t, k) == NOBODY
              || GPOINTER_TO_UINT (g_hash_table_lookup (owners, GINT_TO_POINTER (unit_of (t, k))))
                     != whose;
      move.to = cures_deal_least (t->q, dealt, t->socket, barred);
      if (move.to == LID_NOWHERE)
        return FALSE;
      if (whose == 0)
        units[sort]--;
      g_hash_table_insert (owners, GINT_TO_POINTER (unit_of (t, (guint)move.to)),
                           GUINT_TO_POINTER (sort + 1));
      g_array_append_val (dealt, move);
    }
  return TRUE;
}

GArray *
cures_sorts_spread (const LidQuestion *q, gboolean each_socket, gboolean at_processors)
{
  g_autoptr (GArray) moves = g_array_new (FALSE, FALSE, sizeof (LidMove));

  if (!q->board->channels_told)
    return NULL;
  for (int s = each_socket ? 0 : LID_NOWHERE; s < (each_socket ? (int)q->board->n_sockets : 0); s++)
    {
      g_autoptr (GArray) slots = g_array_new (FALSE, FALSE, sizeof (guint));
      g_autoptr (GArray) sorts = g_array_new (FALSE, FALSE, sizeof (guint));
      g_autoptr (GArray) dealt = g_array_new (FALSE, FALSE, sizeof (LidMove));
      Table table = { q, s, at_processors, slots, sorts };
      g_autofree guint *units = NULL;
      guint n;

      if (!cures_deal_modules (q, s, slots))
        continue;
      n = name_sorts (&table);
      units = g_new0 (guint, n + 1);
      if (n > 1 && share (&table, n, units) && place_all (&table, units, dealt))
        cures_deal_moves (q, slots, dealt, moves);
    }
  return moves->len > 0 ? g_steal_pointer (&moves) : NULL;
}
