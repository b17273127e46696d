/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-tables-rates.c: the rate table with all its axes, and how many ranks and modules a channel
 * takes. */
#include "help/board-tables-private.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>

static char *
say_range (guint least, guint most)
{
  if (most == 0)
    return g_strdup (_ ("any"));
  if (least >= most)
    return g_strdup_printf ("%u", most);
  return g_strdup_printf (_ ("%u to %u"), MAX (least, 1), most);
}

static char *
say_kinds (const LidRateRow *row)
{
  g_autofree char *kinds = lid_board_tables_kinds (row->kinds);
  GString *text = g_string_new (NULL);

  for (guint i = 1; i < LID_N_GENERATIONS; i++)
    if (row->generations & (1u << i))
      g_string_append_printf (text, "%s ", lid_generation_to_text ((LidGeneration)i));
  g_string_append (text, kinds);
  return g_string_free (text, FALSE);
}

static void
add_row (LidBoardTable *table, const LidBoard *board, const LidRateRow *row)
{
  lid_board_tables_row (
      table, say_kinds (row), say_range (row->least_ranks, row->most_ranks),
      say_range (row->least_filled, row->most_filled), say_range (row->slots, row->slots),
      row->voltage_mv != 0
          ? g_strdup_printf ("%u.%02u V", row->voltage_mv / 1000, row->voltage_mv % 1000 / 10)
          : g_strdup (_ ("any")),
      g_strdup (row->processor != LID_NOWHERE ? board->processors[row->processor].id : _ ("any")),
      lid_units_rate (row->rate), lid_board_tables_source (row->source), NULL);
}

static void
add_rates (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table;
  g_autofree char *ceiling = lid_board_tables_most (board->rate_ceiling);

  if (board->n_rates == 0)
    return;
  table = lid_board_tables_add (
      tables, _ ("What runs on a channel"),
      g_strdup_printf (
          _ ("The first row that holds counts; what has no row does not work. Ranks are those of "
             "the module with the most. %s The board's own ceiling: %s."),
          board->rate_per_socket ? _ ("Each processor runs at a rate of its own.")
                                 : _ ("The whole machine runs at its slowest channel's rate."),
          ceiling));
  lid_board_tables_heads (table, _ ("Kind"), _ ("Ranks"), _ ("Modules"), _ ("Of slots"),
                          _ ("Voltage"), _ ("Processor"), _ ("Runs at"), _ ("Source"), NULL);
  for (guint i = 0; i < board->n_rates; i++)
    add_row (table, board, &board->rates[i]);
}

static char *
say_counting (const LidBoard *board)
{
  if (board->load_reduced_ranks > 0)
    return g_strdup_printf (
        board->rank_count == LID_COUNT_LABEL
            ? _ ("This board counts ranks as the label prints them; a load-reduced module as %u.")
            : _ ("This board counts logical ranks, stacked dies each by itself; a load-reduced "
                 "module as %u."),
        board->load_reduced_ranks);
  return g_strdup (board->rank_count == LID_COUNT_LABEL
                       ? _ ("This board counts ranks as the label prints them.")
                       : _ ("This board counts logical ranks, stacked dies each by itself."));
}

static void
add_ranks (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table
      = lid_board_tables_add (tables, _ ("Ranks and modules on a channel"), say_counting (board));

  lid_board_tables_heads (table, _ ("Modules"), _ ("With ranks"), _ ("Ranks at most"),
                          _ ("Modules at most"), _ ("Source"), NULL);
  for (guint i = 0; i < board->n_rank_limits; i++)
    {
      const LidRankLimit *limit = &board->rank_limits[i];

      lid_board_tables_row (
          table, lid_board_tables_kinds (limit->kinds),
          limit->least_module_ranks > 0
              ? g_strdup_printf (_ ("%u or more"), limit->least_module_ranks)
              : g_strdup (_ ("any")),
          limit->most_ranks > 0 ? g_strdup_printf ("%u", limit->most_ranks) : g_strdup ("–"),
          limit->most_modules > 0 ? g_strdup_printf ("%u", limit->most_modules) : g_strdup ("–"),
          lid_board_tables_source (limit->source), NULL);
    }
}

void
lid_board_tables_rates (GPtrArray *tables, const LidBoard *board)
{
  add_rates (tables, board);
  add_ranks (tables, board);
}
