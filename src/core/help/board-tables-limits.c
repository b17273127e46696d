/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-tables-limits.c: limits with their basis, firmware levels, names. */
#include "help/board-tables-private.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>

static char *
say_basis (const LidLimit *limit)
{
  if (limit->basis == LID_BENCH_PROVEN)
    return g_strdup (_ ("bench-proven"));
  return g_strdup (limit->basis == LID_LISTED ? _ ("listed") : _ ("assumed"));
}

static char *
say_seen (const LidLimit *limit)
{
  if (limit->basis != LID_BENCH_PROVEN)
    return lid_board_tables_source (limit->source);
  return g_strdup_printf (_ ("%s on %s with firmware %s"), limit->who, limit->when,
                          limit->firmware);
}

static void
add_limits (GPtrArray *tables, const LidBoard *board)
{
  static const char *const whats[]
      = { N_ ("one module"), N_ ("one channel"), N_ ("one processor"), N_ ("the machine") };
  LidBoardTable *table;

  if (board->n_limits == 0)
    return;
  table = lid_board_tables_add (tables, _ ("How much it takes"), NULL);
  lid_board_tables_heads (table, _ ("What"), _ ("Kind"), _ ("At most"), _ ("Basis"), _ ("Source"),
                          NULL);
  for (guint i = 0; i < board->n_limits; i++)
    {
      const LidLimit *limit = &board->limits[i];

      lid_board_tables_row (table, g_strdup (_ (whats[limit->what])),
                            lid_board_tables_kinds (limit->kinds), lid_units_capacity (limit->mib),
                            say_basis (limit), say_seen (limit), NULL);
    }
}

static char *
say_gift (const LidFirmwareGift *gift)
{
  g_autofree char *size = NULL;

  if (gift->non_binary)
    return g_strdup (_ ("24, 48, 96 GB and the like"));
  if (gift->fact == LID_FACT_STACK)
    return g_strdup (gift->at_least == LID_STACK_3DS ? _ ("3DS modules") : _ ("stacked modules"));
  if (gift->fact == LID_FACT_CAPACITY)
    {
      size = lid_units_capacity (gift->at_least);
      return g_strdup_printf (_ ("modules of %s"), size);
    }
  if (gift->fact == LID_FACT_RATED)
    return g_strdup_printf (_ ("modules rated %u"), lid_rate_mts ((LidRate)gift->at_least));
  if (gift->fact == LID_FACT_DIE)
    return g_strdup_printf (_ ("dies of %d Gbit"), gift->at_least);
  return g_strdup_printf ("%s %d", lid_fact_to_words (gift->fact), gift->at_least);
}

static char *
say_gifts (const LidFirmwareLevel *level)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; level->gifts != NULL && i < level->gifts->len; i++)
    {
      g_autofree char *one = say_gift (&g_array_index (level->gifts, LidFirmwareGift, i));
      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", one);
    }
  if (text->len == 0)
    g_string_append (text, "–");
  return g_string_free (text, FALSE);
}

static void
add_firmware (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table;

  if (board->n_firmware == 0)
    return;
  table = lid_board_tables_add (tables, _ ("Firmware levels, oldest first"), NULL);
  lid_board_tables_heads (table, _ ("Level"), _ ("Sets at most"), _ ("Brings"), _ ("Source"), NULL);
  for (guint i = 0; i < board->n_firmware; i++)
    {
      const LidFirmwareLevel *level = &board->firmware[i];

      lid_board_tables_row (table, g_strdup (level->level), lid_board_tables_most (level->ceiling),
                            say_gifts (level), lid_board_tables_source (level->source), NULL);
    }
}

static const char *
or_dash (const char *text)
{
  return text != NULL ? text : "–";
}

static void
add_names (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table;

  if (board->n_fingerprints == 0 && board->n_spellings == 0)
    return;
  table = lid_board_tables_add (tables, _ ("What its firmware calls the slots"),
                                board->n_fingerprints > 0 ? g_strdup_printf (
                                    _ ("Product “%s”, board “%s”, memory arrays: %u."),
                                    or_dash (board->fingerprints[0].product),
                                    or_dash (board->fingerprints[0].board),
                                    board->fingerprints[0].n_arrays)
                                                          : NULL);
  lid_board_tables_heads (table, _ ("Slot"), _ ("Source"), _ ("Locator"), _ ("Bank"), NULL);
  for (guint i = 0; i < board->n_spellings; i++)
    {
      const LidSpelling *spelling = &board->spellings[i];

      lid_board_tables_row (table, g_strdup (board->slots[spelling->slot].id),
                            g_strdup (spelling->format), g_strdup (or_dash (spelling->locator)),
                            g_strdup (or_dash (spelling->bank)), NULL);
    }
}

void
lid_board_tables_limits (GPtrArray *tables, const LidBoard *board)
{
  add_limits (tables, board);
  add_firmware (tables, board);
  add_names (tables, board);
}
