/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-match.h"

#include "base/error.h"
#include "base/text.h"
#include "board/board-derive.h"
#include "board/board-list.h"
#include "board/slot-map.h"

#include <glib/gi18n-lib.h>

void
lid_match_free (LidMatch *match)
{
  if (match == NULL)
    return;
  lid_board_unref (match->board);
  lid_board_unref (match->offered);
  g_clear_pointer (&match->differences, g_ptr_array_unref);
  g_free (match->slot_of_device);
  g_free (match);
}

/**
 * lid_match_kind_to_text:
 *
 * Returns: the word in JSON: product.md 11, key "match"
 */
const char *
lid_match_kind_to_text (LidMatchKind kind)
{
  static const char *const words[] = { "exact", "offered", "derived" };

  g_return_val_if_fail ((guint)kind < G_N_ELEMENTS (words), NULL);
  return words[kind];
}

/* What the machine calls itself against what a given board's machines do, where both tell; the
 * slots are compared one by one. */
static GPtrArray *
compare_names (const LidBoard *board, const LidFingerprint *seen)
{
  GPtrArray *best = NULL;

  for (guint i = 0; i < board->n_fingerprints && (best == NULL || best->len > 0); i++)
    {
      LidFingerprint kept = *seen;

      if (seen->product != NULL && board->fingerprints[i].product != NULL)
        kept.product = board->fingerprints[i].product;
      if (seen->board != NULL && board->fingerprints[i].board != NULL)
        kept.board = board->fingerprints[i].board;
      g_clear_pointer (&best, g_ptr_array_unref);
      best = lid_fingerprint_compare (seen, &kept);
    }
  return best != NULL ? best : g_ptr_array_new_with_free_func (g_free);
}

/* Of a board's fingerprints the one that differs least. */
static GPtrArray *
compare_best (const LidBoard *board, const LidFingerprint *seen)
{
  GPtrArray *best = NULL;

  for (guint i = 0; i < board->n_fingerprints; i++)
    {
      GPtrArray *differences = lid_fingerprint_compare (seen, &board->fingerprints[i]);

      if (best == NULL || differences->len < best->len)
        {
          g_clear_pointer (&best, g_ptr_array_unref);
          best = differences;
        }
      else
        g_ptr_array_unref (differences);
    }
  return best;
}

/* Takes the first board that differs in nothing and maps every slot, else keeps the one that
 * differs least as the offer. A board file that broke since it was indexed is passed over. */
static void
consider (LidMatch *match,
          const GPtrArray *entries,
          const LidFingerprint *seen,
          const LidInventory *inventory)
{
  for (guint i = 0; i < entries->len && match->board == NULL; i++)
    {
      g_autoptr (LidBoard) board
          = lid_board_list_load (((LidBoardEntry *)entries->pdata[i])->path, NULL);
      g_autoptr (GPtrArray) differences = board != NULL ? compare_best (board, seen) : NULL;
      guint n_unmapped = 0;

      if (differences == NULL)
        continue;
      if (differences->len == 0)
        {
          g_autofree int *map = lid_slot_map_new (board, inventory, &n_unmapped);

          if (n_unmapped == 0)
            {
              match->kind = LID_MATCH_EXACT;
              match->board = g_steal_pointer (&board);
              match->slot_of_device = g_steal_pointer (&map);
              return;
            }
          g_ptr_array_add (differences,
                           g_strdup_printf (_ ("The board spells out fewer slots than it has: %u "
                                               "of this machine’s are not among them."),
                                            n_unmapped));
        }
      if (match->offered == NULL || differences->len < match->differences->len)
        {
          lid_board_unref (match->offered);
          g_clear_pointer (&match->differences, g_ptr_array_unref);
          match->offered = g_steal_pointer (&board);
          match->differences = g_steal_pointer (&differences);
        }
    }
}

static LidMatch *
match_known_or_derive (LidInventory *inventory)
{
  g_autoptr (LidFingerprint) seen = lid_fingerprint_of (inventory);
  g_autoptr (GPtrArray) entries = lid_board_list_find_names (seen->names);
  LidMatch *match = g_new0 (LidMatch, 1);

  consider (match, entries, seen, inventory);
  if (match->board == NULL && match->offered == NULL && inventory->devices->len > 0)
    {
      g_autofree char *locators = lid_fingerprint_locators (inventory);
      g_autoptr (GPtrArray) weaker = lid_board_list_find_locators (locators);

      consider (match, weaker, seen, inventory);
    }
  if (match->board != NULL)
    {
      g_clear_pointer (&match->offered, lid_board_unref);
      g_clear_pointer (&match->differences, g_ptr_array_unref);
      lid_slot_map_place (match->board, inventory, match->slot_of_device);
    }
  else
    {
      match->kind = match->offered != NULL ? LID_MATCH_OFFERED : LID_MATCH_DERIVED;
      match->board = lid_board_derive (inventory, NULL);
      match->slot_of_device = lid_slot_map_derived (match->board, inventory);
    }
  return match;
}

/* What a list and a board given for it do not have in common. */
static void
tell_unmapped (LidMatch *match, const LidInventory *inventory)
{
  const LidBoard *board = match->board;
  g_autofree guint8 *taken = g_new0 (guint8, board->n_slots + 1);
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];

      if (match->slot_of_device[i] != LID_NOWHERE)
        taken[match->slot_of_device[i]] = TRUE;
      else
        g_ptr_array_add (match->differences,
                         g_strdup_printf (_ ("The board has no slot that is reported as “%s”, bank "
                                             "“%s”; its module is left out."),
                                          device->locator, device->bank));
    }
  for (guint i = 0; i < board->n_slots; i++)
    if (!taken[i])
      g_ptr_array_add (names, board->slots[i].id);
  if (names->len > 0)
    {
      g_autofree char *list = lid_text_join ((const char *const *)names->pdata, names->len, 8);

      g_ptr_array_add (
          match->differences,
          g_strdup_printf (_ ("What was read does not name these slots of the board: %s."), list));
    }
}

static LidMatch *
match_given (LidInventory *inventory, const LidBoard *given, GError **error)
{
  g_autoptr (LidMatch) match = g_new0 (LidMatch, 1);
  g_autoptr (LidFingerprint) seen = lid_fingerprint_of (inventory);
  guint n_unmapped;

  match->board = lid_board_ref ((LidBoard *)given);
  match->given = TRUE;
  match->differences = compare_names (given, seen);
  match->slot_of_device = lid_slot_map_new (given, inventory, &n_unmapped);
  if (n_unmapped > 0 && n_unmapped == inventory->devices->len)
    {
      const LidDevice *first = inventory->devices->pdata[0];

      g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
                   _ ("board “%s” knows none of the slots read, such as “%s”; read without it, or "
                      "add their spelling to the board"),
                   given->id, first->locator);
      return NULL;
    }
  tell_unmapped (match, inventory);
  match->kind = match->differences->len == 0 ? LID_MATCH_EXACT : LID_MATCH_OFFERED;
  lid_slot_map_place (given, inventory, match->slot_of_device);
  return g_steal_pointer (&match);
}

/**
 * lid_match_inventory:
 * @inventory: what was read, after lid_locators_place(); an exact or given board sets its slots'
 *   ids and places
 * @given: (nullable): the board to use whatever the fingerprint says
 * @error: a given board that knows none of the slots
 *
 * Returns: (transfer full) (nullable): the board in use and how it was found
 */
LidMatch *
lid_match_inventory (LidInventory *inventory, const LidBoard *given, GError **error)
{
  LidMatch *match
      = given != NULL ? match_given (inventory, given, error) : match_known_or_derive (inventory);

  if (match != NULL && match->differences == NULL)
    match->differences = g_ptr_array_new_with_free_func (g_free);
  return match;
}
