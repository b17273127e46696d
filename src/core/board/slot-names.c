/* SPDX-License-Identifier: GPL-3.0-or-later */
/* slot-names.c — what people call a slot: one name a slot, and no slot called like another.
 * The one place where that is settled: window, sheets and sentences take it from
 * lid_board_name_slot(). Ids stay as they are: they are for documents and --json.
 *
 * A slot is called what is printed on it. Where firmware gives several one name, their ids hold
 * what told them apart (locators/slot-ids.c):
 *   the bank goes on the name in brackets, or stands alone where it spells the name itself:
 *     DIMM 0 (P0 CHANNEL B)     CHANNEL A-DIMM 1
 *   the handle of an array or of the slot, or a place in the list, says nothing to somebody who
 *   stands before the board: such slots are counted, in the order of those numbers:
 *     NO DIMM (no. 2 of 6)
 *   That order is the firmware's and need not be the board's: whoever shows such a name says so
 *   (lid_slot_names_caveat()). */
#include "board/slot-names.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

typedef struct
{
  const char *name; /* as printed; borrowed */
  guint slot;
  guint64 number; /* what its id ends in: handles, or a place in the list */
  gboolean counted;
} Entry;

static const char *
printed (const LidBoardSlot *slot)
{
  return slot->name != NULL && *slot->name != 0 ? slot->name : slot->id;
}

/* What the id says behind @name, within brackets; NULL where it has no such form. */
static char *
told_apart_by (const char *id, const char *name)
{
  gsize length = strlen (name), all = strlen (id);

  if (all < length + 4 || strncmp (id, name, length) != 0 || strncmp (id + length, " (", 2) != 0
      || id[all - 1] != ')')
    return NULL;
  return g_strndup (id + length + 2, all - length - 3);
}

/* Whether the id tells the slot apart by a number of the firmware's alone: "(0x0057)",
 * "(array 0x0024)", " #3". */
static gboolean
is_numbered (const char *id, const char *name, guint64 *number)
{
  g_autofree char *inner = told_apart_by (id, name);
  gsize length = strlen (name);
  char *end = NULL;

  if (inner != NULL && g_str_has_prefix (inner, "0x"))
    *number = g_ascii_strtoull (inner + 2, &end, 16);
  else if (inner != NULL && g_str_has_prefix (inner, "array 0x"))
    *number = g_ascii_strtoull (inner + 8, &end, 16);
  else if (strncmp (id, name, length) == 0 && strncmp (id + length, " #", 2) == 0)
    *number = g_ascii_strtoull (id + length + 2, &end, 10);
  return end != NULL && *end == 0 && end[-1] != 'x' && end[-1] != '#';
}

static int
compare_entries (const void *left, const void *right)
{
  const Entry *a = left, *b = right;
  int order = strcmp (a->name, b->name);

  if (order != 0)
    return order;
  if (a->counted != b->counted)
    return a->counted ? 1 : -1;
  if (a->number != b->number)
    return a->number < b->number ? -1 : 1;
  return a->slot < b->slot ? -1 : 1;
}

/* Slots of one name, those that are counted at the end. */
static void
call_group (LidBoard *board, const Entry *entries, guint n)
{
  guint counted = 0, nth = 0;

  for (guint i = 0; i < n; i++)
    counted += entries[i].counted;
  for (guint i = 0; n > 1 && i < n; i++)
    {
      LidBoardSlot *slot = &board->slots[entries[i].slot];
      g_autofree char *inner = told_apart_by (slot->id, entries[i].name);

      if (entries[i].counted && counted > 1)
        /* Translators: a name that several slots have, and which of them it is */
        slot->label = g_strdup_printf (_ ("%s (no. %u of %u)"), entries[i].name, ++nth, counted);
      else if (inner != NULL && g_str_has_prefix (inner, entries[i].name))
        slot->label = g_steal_pointer (&inner);
      else
        slot->label = g_strdup (slot->id);
    }
}

/* A name made here may be what another slot is called: then ids, of which no two are alike. */
static void
part_namesakes (LidBoard *board)
{
  g_autoptr (GHashTable) calls = g_hash_table_new (g_str_hash, g_str_equal);
  gboolean alike = FALSE;

  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].label != NULL)
      alike = !g_hash_table_add (calls, board->slots[i].label) || alike;
  for (guint i = 0; i < board->n_slots; i++)
    alike = alike
            || (board->slots[i].label == NULL
                && g_hash_table_contains (calls, printed (&board->slots[i])));
  for (guint i = 0; alike && i < board->n_slots; i++)
    if (board->slots[i].label != NULL)
      {
        g_free (board->slots[i].label);
        board->slots[i].label = g_strdup (board->slots[i].id);
      }
}

/**
 * lid_slot_names_give:
 * @board: whose slots have ids and names; gets the label of each slot that is not alone in its name
 */
void
lid_slot_names_give (LidBoard *board)
{
  g_autofree Entry *entries = g_new0 (Entry, (gsize)board->n_slots + 1);

  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidBoardSlot *slot = &board->slots[i];

      entries[i].name = printed (slot);
      entries[i].slot = i;
      entries[i].counted = is_numbered (slot->id, entries[i].name, &entries[i].number);
    }
  qsort (entries, board->n_slots, sizeof *entries, compare_entries);
  for (guint first = 0, end; first < board->n_slots; first = end)
    {
      for (end = first + 1;
           end < board->n_slots && strcmp (entries[end].name, entries[first].name) == 0;)
        end++;
      call_group (board, entries + first, end - first);
    }
  part_namesakes (board);
}

/**
 * lid_slot_names_is_counted:
 * @slot: a slot of @board
 *
 * Returns: whether it is told from its namesakes by a count alone
 */
gboolean
lid_slot_names_is_counted (const LidBoard *board, guint slot)
{
  const LidBoardSlot *called = &board->slots[slot];
  guint64 number = 0;

  return called->label != NULL && strcmp (called->label, called->id) != 0
         && is_numbered (called->id, printed (called), &number);
}

/**
 * lid_slot_names_caveat:
 *
 * Returns: (nullable) (transfer none): a sentence for whoever reads names of @board's slots,
 * where some are told apart by a count alone; else NULL
 */
const char *
lid_slot_names_caveat (const LidBoard *board)
{
  for (guint i = 0; i < board->n_slots; i++)
    if (lid_slot_names_is_counted (board, i))
      return _ (
          "Slots of one name are counted in the firmware's order; on the board they may stand "
          "in another.");
  return NULL;
}
