/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/changes.h"

#include <string.h>

/* Modules that can stay where they are stay: exchanging "i to elsewhere, another to i" for "i
 * stays" never costs a touch more, so some answer with fewest touches keeps them all. Of the rest
 * as many as possible move, which is the largest matching between slots to empty and slots to fill:
 * the very module first, then what is the same, then augmenting paths, because "the same" is not
 * transitive (by part number, or by facts) and taking the first that fits can rob another slot of
 * its only one. What is then still open before leaves the machine, what is open after is new. */

static gboolean
is_same_thing (const LidModule *a, const LidModule *b)
{
  return a == b || (a->id != NULL && g_strcmp0 (a->id, b->id) == 0);
}

static gboolean
may_stand_for (const LidModule *a, const LidModule *b)
{
  if (is_same_thing (a, b))
    return TRUE;
  if (a->persistent || b->persistent)
    return FALSE;
  return lid_module_same (a, b);
}

static gboolean
is_open_before (const LidSlotChange *slot)
{
  return slot->before != NULL && slot->kind != LID_CHANGE_STAYS && slot->to == LID_NOWHERE;
}

/* Few are: a pass that looked at every slot for every slot would be the longest part of an edit. */
static GArray *
find_open (const LidChanges *changes)
{
  GArray *open = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < changes->n_slots; i++)
    if (is_open_before (&changes->slots[i]))
      g_array_append_val (open, i);
  return open;
}

static void
find_stays (LidChanges *changes)
{
  for (guint i = 0; i < changes->n_slots; i++)
    {
      LidSlotChange *slot = &changes->slots[i];

      if (slot->before != NULL && slot->after != NULL && may_stand_for (slot->before, slot->after))
        slot->kind = LID_CHANGE_STAYS;
      else if (slot->after != NULL)
        slot->kind = LID_CHANGE_NEW;
    }
}

/* What one of two modules may stand for, the other may too, but for being the very thing. */
static gboolean
reads_alike (const LidModule *a, const LidModule *b)
{
  return a->persistent == b->persistent && g_strcmp0 (a->part, b->part) == 0
         && memcmp (a->value, b->value, sizeof a->value) == 0
         && memcmp (a->basis, b->basis, sizeof a->basis) == 0;
}

/* Finds @slot a module, if need be by finding another one for the slot that had it. */
static gboolean
augment (LidChanges *changes, guint slot, gboolean *seen)
{
  for (guint k = 0; k < changes->n_slots; k++)
    {
      LidSlotChange *source = &changes->slots[k];

      if (k == slot || seen[k] || source->before == NULL || source->kind == LID_CHANGE_STAYS
          || !may_stand_for (source->before, changes->slots[slot].after))
        continue;
      seen[k] = TRUE;
      if (source->to != LID_NOWHERE && !augment (changes, (guint)source->to, seen))
        continue;
      source->to = (int)slot;
      changes->slots[slot].from = (int)k;
      changes->slots[slot].kind = LID_CHANGE_MOVED;
      return TRUE;
    }
  return FALSE;
}

/* What a failed search has seen leads nowhere until something is found. */
static void
find_more_moves (LidChanges *changes)
{
  g_autofree gboolean *seen = g_new0 (gboolean, changes->n_slots + 1);
  const LidModule *failed = NULL; /* modules alike come in dozens */

  for (guint i = 0; i < changes->n_slots; i++)
    {
      const LidModule *after = changes->slots[i].after;

      if (changes->slots[i].kind != LID_CHANGE_NEW
          || (failed != NULL && reads_alike (after, failed)))
        continue;
      failed = augment (changes, i, seen) ? NULL : after;
      if (failed == NULL)
        memset (seen, 0, changes->n_slots * sizeof *seen);
    }
}

/* The slot that still needs its own module back is never robbed of it by a look-alike: the passes
 * take the thing itself before anything that may stand for it. */
static void
find_moves (LidChanges *changes, gboolean (*match) (const LidModule *a, const LidModule *b))
{
  g_autoptr (GArray) open = find_open (changes);
  const LidModule *failed = NULL; /* the last that nothing pulled can be */

  for (guint i = 0; i < changes->n_slots && open->len > 0; i++)
    {
      LidSlotChange *slot = &changes->slots[i];

      /* Modules alike come in dozens; nothing is pulled meanwhile that could be one. */
      if (slot->kind != LID_CHANGE_NEW
          || (match == may_stand_for && failed != NULL && reads_alike (slot->after, failed)))
        continue;
      for (guint at = 0; slot->kind == LID_CHANGE_NEW && at < open->len; at++)
        {
          guint k = g_array_index (open, guint, at);

          if (k == i || !match (changes->slots[k].before, slot->after))
            continue;
          slot->kind = LID_CHANGE_MOVED;
          slot->from = (int)k;
          changes->slots[k].to = (int)i;
          g_array_remove_index (open, at); /* the slots' order stays */
        }
      if (slot->kind == LID_CHANGE_NEW)
        failed = slot->after;
    }
}

static gboolean
is_new_to (const LidModule *module, GHashTable *machine)
{
  return module != NULL && !g_hash_table_contains (machine, module);
}

/* Where a module that came stands for one of the machine's, and that one was planned for a slot
 * that is filled from outside, the two change names: what has to be fetched is what is not there
 * yet. */
static void
name_fetched (LidChanges *changes)
{
  g_autoptr (GHashTable) machine = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < changes->n_slots; i++)
    if (changes->slots[i].before != NULL)
      g_hash_table_add (machine, changes->slots[i].before);
  for (guint i = 0; i < changes->n_slots; i++)
    {
      LidSlotChange *slot = &changes->slots[i];

      if (slot->kind != LID_CHANGE_NEW)
        continue;
      for (guint k = 0; k < changes->n_slots && !is_new_to (slot->after, machine); k++)
        {
          LidSlotChange *other = &changes->slots[k];
          LidModule *after = other->after;

          if (other->kind == LID_CHANGE_NEW || !is_new_to (after, machine)
              || !may_stand_for (after, slot->after))
            continue;
          other->after = slot->after;
          slot->after = after;
        }
    }
}

static void
number_pulls (LidChanges *changes)
{
  for (guint i = 0; i < changes->n_slots; i++)
    {
      LidSlotChange *slot = &changes->slots[i];

      if (slot->before == NULL || slot->kind == LID_CHANGE_STAYS)
        continue;
      changes->pulled[changes->n_pulled++] = i;
      slot->mat = changes->n_pulled;
      changes->n_leaving += slot->to == LID_NOWHERE;
    }
}

static void
number_fit (LidChanges *changes, guint i)
{
  LidSlotChange *slot = &changes->slots[i];

  if ((slot->kind != LID_CHANGE_NEW && slot->kind != LID_CHANGE_MOVED) || slot->fit > 0)
    return;
  changes->fitted[changes->n_fitted++] = i;
  slot->fit = changes->n_fitted;
  changes->n_new += slot->kind == LID_CHANGE_NEW;
}

static void
number_fits (LidChanges *changes, const LidBoard *board)
{
  for (guint i = 0; i < board->n_order; i++)
    if (board->order[i] < changes->n_slots)
      number_fit (changes, board->order[i]);
  for (guint i = 0; i < changes->n_slots; i++)
    number_fit (changes, i);
}

/**
 * lid_changes_new:
 * @board: whose slots
 * @before: (nullable): the population to start from; NULL: nothing is known, so nothing changes
 * @after: the population to arrive at
 *
 * All pulls are numbered in the order of the slots, all fits in the board's order of fitting; slots
 * the order does not name come last, in their own order.
 *
 * Returns: (transfer full): the changes; they borrow the modules of both populations
 */
LidChanges *
lid_changes_new (const LidBoard *board, const LidPopulation *before, const LidPopulation *after)
{
  LidChanges *changes = g_new0 (LidChanges, 1);

  g_return_val_if_fail (after != NULL, changes);
  if (before == NULL || before->n_slots != after->n_slots)
    before = after;
  changes->n_slots = after->n_slots;
  changes->slots = g_new0 (LidSlotChange, after->n_slots);
  changes->pulled = g_new0 (guint, after->n_slots);
  changes->fitted = g_new0 (guint, after->n_slots);
  for (guint i = 0; i < after->n_slots; i++)
    {
      changes->slots[i].before = before->slots[i].module;
      changes->slots[i].after = after->slots[i].module;
      changes->slots[i].from = LID_NOWHERE;
      changes->slots[i].to = LID_NOWHERE;
    }
  find_stays (changes);
  find_moves (changes, is_same_thing);
  find_moves (changes, may_stand_for);
  find_more_moves (changes);
  name_fetched (changes);
  number_pulls (changes);
  number_fits (changes, board);
  changes->hands = changes->n_fitted + changes->n_leaving;
  return changes;
}

void
lid_changes_free (LidChanges *changes)
{
  if (changes == NULL)
    return;
  g_free (changes->slots);
  g_free (changes->pulled);
  g_free (changes->fitted);
  g_free (changes);
}

/**
 * lid_changes_pull_data:
 *
 * Returns: whether a module that holds data leaves its slot, be it for another one
 */
gboolean
lid_changes_pull_data (const LidChanges *changes)
{
  for (guint i = 0; i < changes->n_pulled; i++)
    if (changes->slots[changes->pulled[i]].before->persistent)
      return TRUE;
  return FALSE;
}
