/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/fingerprint.h"

#include "base/text.h"
#include "board/board-names.h"

#include <glib/gi18n-lib.h>

/* What firmware writes where a maker told it nothing (seen in shared/data/, common practice). */
static const char *const fillers[] = { "",
                                       "Not Specified",
                                       "To Be Filled By O.E.M.",
                                       "Default string",
                                       "Unknown",
                                       "System Product Name",
                                       "Not Applicable",
                                       "None",
                                       "N/A",
                                       "To be filled by O.E.M.",
                                       "O.E.M.",
                                       "INVALID",
                                       "x.x",
                                       "System Board",
                                       "Type2 - Board Product",
                                       "0123456789" };

static char *
told_text (const char *text)
{
  for (guint i = 0; i < G_N_ELEMENTS (fillers); i++)
    if (text == NULL || lid_text_equal_folded (text, fillers[i]))
      return NULL;
  return g_strdup (text);
}

/**
 * lid_fingerprint_of:
 * @inventory: what was read
 *
 * Fillers a maker left in place of a product count as not told.
 *
 * Returns: (transfer full): what tells machines like this one from others
 */
LidFingerprint *
lid_fingerprint_of (const LidInventory *inventory)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);
  LidFingerprint *print = g_new0 (LidFingerprint, 1);

  print->product = told_text (inventory->product);
  print->board = told_text (inventory->board_product);
  print->n_slots = inventory->devices->len;
  for (guint i = 0; i < inventory->arrays->len; i++)
    print->n_arrays += g_array_index (inventory->arrays, LidArray, i).system_memory;
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];

      lid_board_names_add (lines, device->locator, device->bank);
    }
  print->names = lid_board_names_hash (lines);
  return print;
}

/**
 * lid_fingerprint_locators:
 *
 * Returns: (transfer full): the hash of an inventory's locators alone
 */
char *
lid_fingerprint_locators (const LidInventory *inventory)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < inventory->devices->len; i++)
    lid_board_names_add (lines, ((LidDevice *)inventory->devices->pdata[i])->locator, NULL);
  return lid_board_names_hash (lines);
}

void
lid_fingerprint_free (LidFingerprint *print)
{
  if (print == NULL)
    return;
  g_free (print->product);
  g_free (print->board);
  g_free (print->names);
  g_free (print);
}

static void
compare_text (GPtrArray *out,
              const char *seen,
              const char *kept,
              const char *other,
              const char *not_seen,
              const char *not_kept)
{
  if (lid_text_equal_folded (seen, kept))
    return;
  if (seen == NULL)
    g_ptr_array_add (out, g_strdup_printf (not_seen, kept));
  else if (kept == NULL)
    g_ptr_array_add (out, g_strdup_printf (not_kept, seen));
  else
    g_ptr_array_add (out, g_strdup_printf (other, seen, kept));
}

/**
 * lid_fingerprint_compare:
 * @seen: of the machine read
 * @kept: of a board
 *
 * Returns: (transfer full) (element-type utf8): what differs, a sentence each; empty: the same.
 * What only one of the two tells is a difference too: names alone collide in more than a quarter
 * of real machines (product.md 3).
 */
GPtrArray *
lid_fingerprint_compare (const LidFingerprint *seen, const LidFingerprint *kept)
{
  GPtrArray *out = g_ptr_array_new_with_free_func (g_free);

  compare_text (out, seen->product, kept->product,
                _ ("The machine calls itself “%s”, the board’s machines “%s”."),
                _ ("What was read does not tell the product; the board’s machines are “%s”."),
                _ ("The machine calls itself “%s”; the board was taught without a product name."));
  compare_text (out, seen->board, kept->board,
                _ ("The system board is “%s”, in the board’s machines “%s”."),
                _ ("What was read does not tell the system board; the board’s machines have “%s”."),
                _ ("The system board is “%s”; the board was taught without that name."));
  if (seen->n_slots != kept->n_slots)
    g_ptr_array_add (out, g_strdup_printf (_ ("The machine has %u slots, the board’s machines %u."),
                                           seen->n_slots, kept->n_slots));
  if (seen->n_arrays != kept->n_arrays)
    g_ptr_array_add (
        out, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                           "What was read tells %u memory array, the board’s "
                                           "machines %u.",
                                           "What was read tells %u memory arrays, the board’s "
                                           "machines %u.",
                                           seen->n_arrays),
                              seen->n_arrays, kept->n_arrays));
  if (g_strcmp0 (seen->names, kept->names) != 0)
    g_ptr_array_add (out, g_strdup (_ ("The slots have the same names, their banks have others.")));
  return out;
}
