/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-tables-modes.c: how memory is spread over channels, NUMA splits, memory modes. */
#include "help/board-tables-private.h"

#include "base/units.h"
#include "figures/bandwidth.h"
#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>

static char *
say_model (const LidBoard *board)
{
  if (!board->region_model_told)
    return g_strdup (_ ("not told; layered is assumed"));
  switch (board->region_model)
    {
    case LID_REGIONS_LAYERED:
      return g_strdup (_ ("layered: every channel with something left takes part"));
    case LID_REGIONS_EQUAL_GROUPS:
      return g_strdup (_ ("equal groups: only channels of equal capacity go together"));
    case LID_REGIONS_WAYS:
    default:
      return g_strdup (_ ("ways: only some numbers of channels go together"));
    }
}

static char *
say_ways (guint32 ways)
{
  GString *text = g_string_new (NULL);

  for (guint i = 1; i < 32; i++)
    if (ways & (1u << i))
      g_string_append_printf (text, "%s%u", text->len > 0 ? ", " : "", i);
  if (text->len == 0)
    g_string_append (text, _ ("not told"));
  return g_string_free (text, FALSE);
}

static char *
say_numa (const LidBoard *board)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < board->n_numa; i++)
    g_string_append_printf (text, "%s%u", i > 0 ? ", " : "", board->numa[i]);
  if (text->len == 0)
    g_string_append (text, _ ("not told"));
  if (board->numa_source != NULL)
    g_string_append_printf (text, " (%s)", board->numa_source);
  return g_string_free (text, FALSE);
}

static void
add_numa_equal (LidBoardTable *table, const LidBoard *board)
{
  GString *text = g_string_new (NULL);

  for (guint i = 1; i <= 16; i++)
    if (board->numa_equal & (1u << i))
      g_string_append_printf (text, "%s%u", text->len > 0 ? ", " : "", i);
  if (text->len > 0)
    lid_board_tables_row (table, g_strdup (_ ("Nodes whose channels all hold the same")),
                          g_strdup_printf (_ ("where a processor is cut into %s [%s]"), text->str,
                                           board->numa_equal_source),
                          NULL);
  g_string_free (text, TRUE);
}

/* "A+B, C+D": the channels of each node of a processor; those of the first hold for each. */
static char *
say_nodes (const LidBoard *board, guint nodes)
{
  GString *text = g_string_new (NULL);

  for (guint node = 0; node < nodes; node++)
    {
      guint n, first = lid_bandwidth_node (board, 0, nodes, node, &n);

      for (guint c = first; c < first + n; c++)
        g_string_append_printf (text, "%s%s",
                                c > first  ? "+"
                                : node > 0 ? ", "
                                           : "",
                                board->channels[c].name);
    }
  return g_string_free (text, FALSE);
}

static void
add_nodes (LidBoardTable *table, const LidBoard *board)
{
  for (guint i = 0; i < board->n_numa && board->n_sockets > 0; i++)
    if (board->numa[i] > 1 && board->numa[i] <= board->sockets[0].n_channels)
      {
        g_autofree char *channels = say_nodes (board, board->numa[i]);

        lid_board_tables_row (table, g_strdup_printf (_ ("Channels of %u nodes"), board->numa[i]),
                              g_steal_pointer (&channels), NULL);
      }
}

/**
 * lid_board_tables_ways_also:
 *
 * Returns: (transfer full): what a processor or a NUMA split adds to the ways of a board, in words
 */
char *
lid_board_tables_ways_also (const LidBoard *board, const LidWaysAlso *also)
{
  g_autofree char *ways = say_ways (also->ways);
  const char *processor
      = also->processor != LID_NOWHERE ? board->processors[also->processor].name : NULL;

  if (processor == NULL)
    return also->nodes > 1
               ? g_strdup_printf (_ ("%s too, where a processor is cut into %u nodes"), ways,
                                  also->nodes)
               : g_strdup_printf (_ ("%s too, where a processor is not cut into nodes"), ways);
  if (also->nodes > 1)
    return g_strdup_printf (
        _ ("%s too, where every processor fitted is “%s” and cut into %u nodes"), ways, processor,
        also->nodes);
  return also->nodes == 1 ? g_strdup_printf (
             _ ("%s too, where every processor fitted is “%s” and not cut into nodes"), ways,
             processor)
                          : g_strdup_printf (_ ("%s too, where every processor fitted is “%s”"),
                                             ways, processor);
}

static void
add_ways_also (LidBoardTable *table, const LidBoard *board)
{
  for (guint i = 0; i < board->n_ways_also; i++)
    {
      g_autofree char *text = lid_board_tables_ways_also (board, &board->ways_also[i]);

      lid_board_tables_row (table, g_strdup (_ ("Ways")),
                            g_strdup_printf ("%s [%s]", text, board->ways_also[i].source), NULL);
    }
}

static void
add_regions (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table = lid_board_tables_add (tables, _ ("How memory is spread"), NULL);

  lid_board_tables_row (table, g_strdup (_ ("Model")), say_model (board), NULL);
  lid_board_tables_row (table, g_strdup (_ ("Ways")), say_ways (board->ways), NULL);
  if (board->ways_source != NULL)
    lid_board_tables_row (table, g_strdup (_ ("Source of the ways")),
                          lid_board_tables_source (board->ways_source), NULL);
  if (board->matched_source != NULL)
    lid_board_tables_row (table, g_strdup (_ ("Several controllers")),
                          g_strdup_printf (_ ("only as many channels of each go together (%s)"),
                                           board->matched_source),
                          NULL);
  add_ways_also (table, board);
  lid_board_tables_row (table, g_strdup (_ ("NUMA nodes of a processor")), say_numa (board), NULL);
  add_nodes (table, board);
  add_numa_equal (table, board);
  lid_board_tables_row (
      table, g_strdup (_ ("Efficiency")),
      g_strdup_printf ("%u.%02u (%s)", board->efficiency / 10000, board->efficiency % 10000 / 100,
                       board->efficiency_source != NULL ? board->efficiency_source
                                                        : _ ("the program's own, from memory")),
      NULL);
}

static void
append (GString *text, char *words)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", words);
  g_free (words);
}

/* Pairs by their channels' names: those of the first processor hold for each. */
static void
append_pairs (GString *text, const LidBoard *board, const LidBoardMode *mode)
{
  GString *pairs = g_string_new (NULL);

  for (guint i = 0; i < mode->n_pairs; i++)
    if (board->channels[mode->pairs[i].a].socket == board->channels[mode->pairs[0].a].socket)
      g_string_append_printf (pairs, "%s%s+%s", pairs->len > 0 ? ", " : "",
                              board->channels[mode->pairs[i].a].name,
                              board->channels[mode->pairs[i].b].name);
  if (pairs->len > 0)
    append (text, g_strdup_printf (_ ("pairs of channels %s"), pairs->str));
  g_string_free (pairs, TRUE);
}

static void
append_counts (GString *text, const LidBoardMode *mode)
{
  GString *counts = g_string_new (NULL);

  for (guint i = 1; i < 64; i++)
    if (mode->modules_of_socket & (G_GUINT64_CONSTANT (1) << i))
      g_string_append_printf (counts, "%s%u", counts->len > 0 ? _ (" or ") : "", i);
  if (counts->len > 0)
    append (text, g_strdup_printf (_ ("%s modules on each processor"), counts->str));
  g_string_free (counts, TRUE);
  if (mode->least_modules_of_channel > 0)
    append (text, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                                "at least %u module on each channel in use",
                                                "at least %u modules on each channel in use",
                                                mode->least_modules_of_channel),
                                   mode->least_modules_of_channel));
  if (mode->most_spare_ranks > 0)
    append (text, g_strdup_printf (
                      g_dngettext (GETTEXT_PACKAGE, "at most %u rank of a channel spared",
                                   "at most %u ranks of a channel spared", mode->most_spare_ranks),
                      mode->most_spare_ranks));
  if (mode->least_ranks_of_channel > 0)
    append (text, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                                "at least %u rank on each channel in use",
                                                "at least %u ranks on each channel in use",
                                                mode->least_ranks_of_channel),
                                   mode->least_ranks_of_channel));
}

static char *
say_demands (const LidBoard *board, const LidBoardMode *mode)
{
  static const char *const alike[] = {
    [LID_ALIKE_NOT_TOLD] = NULL,
    [LID_ALIKE_CAPACITY] = N_ ("slot by slot the same capacity"),
    [LID_ALIKE_ORGANISATION] = N_ ("slot by slot the same size, kind, ranks and chip width"),
    [LID_ALIKE_PART] = N_ ("slot by slot the same part"),
  };
  GString *text = g_string_new (NULL);

  append_pairs (text, board, mode);
  if (alike[mode->alike] != NULL)
    append (text, g_strdup (_ (alike[mode->alike])));
  append_counts (text, mode);
  if (mode->step_mib > 0)
    {
      g_autofree char *step = lid_units_capacity (mode->step_mib);
      append (text, g_strdup_printf (_ ("size in steps of %s"), step));
    }
  for (guint i = 0; i < LID_N_MODES; i++)
    if (mode->not_with & (1u << i))
      {
        g_autofree char *other = i == 0 ? g_strdup (_ ("a NUMA split")) : lid_mode_words_name (i);
        append (text, g_strdup_printf (_ ("not together with %s"), other));
      }
  if (text->len == 0)
    g_string_append (text, _ ("none told"));
  return g_string_free (text, FALSE);
}

static void
add_modes (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table = lid_board_tables_add (
      tables, _ ("Memory modes besides plain"),
      g_strdup (!board->modes_told    ? _ ("Not told which this board has.")
                : board->n_modes == 0 ? _ ("This board has none.")
                                      : _ ("Where a demand is not met the machine starts "
                                           "unprotected.")));

  lid_board_tables_heads (table, _ ("Mode"), _ ("Demands"), _ ("Source"), NULL);
  for (guint i = 0; i < board->n_modes; i++)
    lid_board_tables_row (table, lid_mode_words_name (board->modes[i].mode),
                          say_demands (board, &board->modes[i]),
                          lid_board_tables_source (board->modes[i].source), NULL);
}

void
lid_board_tables_modes (GPtrArray *tables, const LidBoard *board)
{
  add_regions (tables, board);
  add_modes (tables, board);
}
