/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every arrangement of what is in the machine, where they are few. Slots go in the board's order of
 * fitting, sorts of modules in the order of their first slots, and an empty slot counts as the last
 * sort: so what fills the first slots is made first. */
#include "checks/cure.h"

/* Arrangements by slots of the machine: each is judged, and that takes as long as it has slots.
 * Enough for any machine of six slots, 720 × 6. A prime: no machine is just at it. */
#define MOST_WORK 8191u
#define MOST_SORTS 7u /* of six slots; more of them have more arrangements than that */

typedef struct
{
  const LidCheck *check;
  guint *places; /* slots whose modules may go and that may take others */
  guint8 *was;   /* per place: the sort in it; MOST_SORTS: none */
  guint8 *is;    /* the same in the arrangement at hand */
  guint n;
  const LidModule *first[MOST_SORTS]; /* of each sort */
  guint n_sorts;
  guint count[MOST_SORTS + 1]; /* per sort: places with it; in an arrangement: still to be given */
  GPtrArray *found;            /* GArray of LidMove */
} Arranging;

/* Whether what is there may be another module, or none: nothing that holds data is moved, nor what
 * is not seen, and nothing goes to a processor that is not there or comes from it. */
gboolean
lid_cure_may_change (const LidCheck *check, guint slot)
{
  return !lid_cure_is_held (check, slot)
         && check->population->slots[slot].state != LID_SLOT_NOT_SEEN
         && lid_survey_socket_fitted (check->survey, slot);
}

static guint8
sort_of (Arranging *all, const LidModule *module)
{
  guint sort = 0;

  if (module == NULL)
    return MOST_SORTS;
  while (sort < all->n_sorts && !lid_cure_same (all->first[sort], module))
    sort++;
  if (sort == all->n_sorts)
    all->first[all->n_sorts++] = module;
  return (guint8)sort;
}

/* FALSE: there are too many arrangements. With each place that is added there are as many times
 * more as there are places, divided by how many hold the same. */
static gboolean
list_places (Arranging *all)
{
  const LidCheck *check = all->check;
  guint64 arrangements = 1;

  for (guint i = 0; i < check->board->n_slots; i++)
    {
      if (!lid_cure_may_change (check, i))
        continue;
      all->places[all->n++] = i;
      arrangements
          = arrangements * all->n / ++all->count[sort_of (all, lid_check_module (check, i))];
      if (arrangements * check->board->n_slots > MOST_WORK)
        return FALSE;
    }
  lid_check_sort_by_place (check, all->places, all->n);
  for (guint i = 0; i < all->n; i++)
    all->was[i] = sort_of (all, lid_check_module (check, all->places[i]));
  return TRUE;
}

static gboolean
gets_another (const Arranging *all, guint to)
{
  return all->is[to] != all->was[to] && all->is[to] != MOST_SORTS;
}

/* From where a place is filled: the first of its sort that has to go, on its channel where @near;
 * then that is gone. LID_NOWHERE: there is none. */
static int
find_source (const Arranging *all, guint to, gboolean near, gboolean *gone)
{
  const LidBoardSlot *slots = all->check->board->slots;

  for (guint from = 0; from < all->n; from++)
    if (!gone[from] && all->was[from] == all->is[to] && all->is[from] != all->was[from]
        && (!near || slots[all->places[from]].channel == slots[all->places[to]].channel))
      {
        gone[from] = TRUE;
        return (int)all->places[from];
      }
  return LID_NOWHERE;
}

/* Who lies where one of its sort shall lie stays. Each place that gets another takes it from its
 * own channel where it can: so hands have a shorter way, and the words are understood. */
static void
add_moves (Arranging *all)
{
  GArray *moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  g_autofree gboolean *gone = g_new0 (gboolean, all->n);
  g_autofree int *from = g_new (int, all->n);

  for (guint to = 0; to < all->n; to++)
    from[to] = gets_another (all, to) ? find_source (all, to, TRUE, gone) : LID_NOWHERE;
  for (guint to = 0; to < all->n; to++)
    if (gets_another (all, to))
      {
        LidMove move = { .from = from[to], .to = (int)all->places[to] };

        if (move.from == LID_NOWHERE)
          move.from = find_source (all, to, FALSE, gone);
        move.module = all->check->population->slots[move.from].module;
        g_array_append_val (moves, move);
      }
  g_ptr_array_add (all->found, moves);
}

static void
arrange (Arranging *all, guint place)
{
  if (place == all->n)
    {
      add_moves (all);
      return;
    }
  for (guint8 sort = 0; sort <= MOST_SORTS; sort++)
    if (all->count[sort] > 0)
      {
        all->count[sort]--;
        all->is[place] = sort;
        arrange (all, place + 1);
        all->count[sort]++;
      }
}

/**
 * lid_cure_arrangements:
 * @check: whose population
 *
 * Returns: (transfer full) (nullable) (element-type GArray): moves to every arrangement of the
 *   modules that may go, the one they are in (no moves) among them; NULL where channels are not
 *   told, or where they are more than anybody waits for
 */
GPtrArray *
lid_cure_arrangements (const LidCheck *check)
{
  guint n = check->board->n_slots;
  g_autofree guint *places = g_new (guint, n);
  g_autofree guint8 *sorts = g_new (guint8, 2 * n);
  Arranging all = { .check = check, .places = places, .was = sorts, .is = sorts + n };

  if (!check->board->channels_told || !list_places (&all))
    return NULL;
  all.found = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  arrange (&all, 0);
  return all.found;
}
