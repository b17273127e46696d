/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file-rates.c — processors, the rate table and how many ranks a channel takes. */
#include "board/board-file-private.h"
#include "board/board-words.h"

#define MOST_ROWS 512u
#define MOST_MIB (G_GINT64_CONSTANT (1) << 40)

/* "mts": one ceiling for every kind, or one for each kind named. */
static gboolean
read_ceilings (LidProcessorModel *model, guint32 generations, const LidJsonAt *up, GError **error)
{
  LidJsonAt at = lid_json_member (up, "mts");
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  if (!lid_json_there (&at))
    return TRUE;
  if (!JSON_NODE_HOLDS_OBJECT (at.node))
    {
      LidRate rate = LID_RATE_UNKNOWN;

      if (!lid_board_json_rate (up, "mts", TRUE, generations, &rate, error))
        return FALSE;
      for (guint i = 0; i < LID_N_KINDS; i++)
        model->rate[i] = rate;
      return TRUE;
    }
  json_object_iter_init (&iter, json_node_get_object (at.node));
  while (json_object_iter_next (&iter, &name, &node))
    {
      LidKind kind = lid_kind_from_text (name);
      LidJsonAt one = lid_json_member (&at, name);

      if (kind == LID_KIND_UNKNOWN)
        return lid_json_fail (&one, error, "is not a kind");
      if (!lid_board_json_rate (&at, name, TRUE, generations, &model->rate[kind], error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_processors (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "id", "name", "mts", "most_mib", "source", NULL };
  LidJsonAt list = lid_json_member (root, "processors");
  guint length;

  if (!lid_board_json_length (root, "processors", 64, &length, error))
    return FALSE;
  board->processors = g_new0 (LidProcessorModel, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt at = lid_json_element (&list, i), id = lid_json_member (&at, "id");
      LidProcessorModel *model = &board->processors[board->n_processors++];

      if (!lid_json_only (&at, names, error)
          || !lid_board_json_text (&at, "id", TRUE, &model->id, error)
          || !lid_board_json_text (&at, "name", TRUE, &model->name, error)
          || !lid_board_json_text (&at, "source", TRUE, &model->source, error)
          || !lid_board_json_int (&at, "most_mib", FALSE, MOST_MIB, &model->most_mib, error)
          || !read_ceilings (model, board->generations, &at, error))
        return FALSE;
      for (guint k = 0; k < i; k++)
        if (g_strcmp0 (board->processors[k].id, model->id) == 0)
          return lid_json_fail (&id, error, "another processor already has the id “%.60s”",
                                model->id);
    }
  return TRUE;
}

/**
 * lid_board_file_processor_read:
 * @board: a board whose processors are read
 * @up: an object that may have a member "processor": the id of one
 * @index: (out): its place among them, LID_NOWHERE where there is no such member
 *
 * Returns: FALSE where the board has no such processor
 */
gboolean
lid_board_file_processor_read (const LidBoard *board,
                               const LidJsonAt *up,
                               int *index,
                               GError **error)
{
  LidJsonAt at = lid_json_member (up, "processor");
  const char *text;

  *index = LID_NOWHERE;
  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_get_text (&at, &text, error))
    return FALSE;
  for (guint i = 0; i < board->n_processors; i++)
    if (g_strcmp0 (board->processors[i].id, text) == 0)
      {
        *index = (int)i;
        return TRUE;
      }
  return lid_json_fail (&at, error, "there is no processor with the id “%.60s”", text);
}

static gboolean
read_voltage (const LidJsonAt *up, guint *mv, GError **error)
{
  LidJsonAt at = lid_json_member (up, "voltage_mv");

  if (!lid_board_json_uint (up, "voltage_mv", FALSE, 10000, mv, error))
    return FALSE;
  if (*mv != 0 && lid_voltage_from_mv (*mv) == 0)
    return lid_json_fail (&at, error, "no DDR generation runs at %u mV", *mv);
  return TRUE;
}

static gboolean
read_row (LidBoard *board, const LidJsonAt *at, GError **error)
{
  static const char *const names[] = { "generations", "kinds",     "ranks", "filled", "slots",
                                       "voltage_mv",  "processor", "mts",   "source", NULL };
  LidRateRow *row = &board->rates[board->n_rates++];
  LidJsonAt filled = lid_json_member (at, "filled");

  if (!lid_json_only (at, names, error)
      || !lid_board_json_generations (at, "generations", &row->generations, error)
      || !lid_board_json_kinds (at, "kinds", &row->kinds, error)
      || !lid_board_json_range (at, "ranks", &row->least_ranks, &row->most_ranks, error)
      || !lid_board_json_range (at, "filled", &row->least_filled, &row->most_filled, error)
      || !lid_board_json_uint (at, "slots", FALSE, 64, &row->slots, error)
      || !read_voltage (at, &row->voltage_mv, error)
      || !lid_board_file_processor_read (board, at, &row->processor, error)
      || !lid_board_json_rate (at, "mts", TRUE,
                               row->generations != 0 ? row->generations : board->generations,
                               &row->rate, error)
      || !lid_board_json_text (at, "source", TRUE, &row->source, error))
    return FALSE;
  if (row->slots != 0 && row->most_filled > row->slots)
    return lid_json_fail (&filled, error, "more modules than the row's %u slots", row->slots);
  if ((row->kinds & ~board->kinds) != 0 && board->kinds != 0)
    return lid_json_fail (at, error, "speaks of a kind the board does not take");
  return TRUE;
}

static gboolean
read_table (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const scopes[] = { "machine", "socket", NULL };
  LidJsonAt list = lid_json_member (root, "rates");
  guint length, scope = 0;

  if (!lid_board_json_length (root, "rates", MOST_ROWS, &length, error)
      || !lid_board_json_word (root, "rate_scope", FALSE, scopes, &scope, error)
      || !lid_board_json_rate (root, "rate_ceiling_mts", FALSE, board->generations,
                               &board->rate_ceiling, error))
    return FALSE;
  board->rate_per_socket = scope == 1;
  if (lid_json_there (&list) && length == 0)
    return lid_json_fail (&list, error, "is empty, so nothing would run; leave it out instead");
  board->rates = g_new0 (LidRateRow, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt at = lid_json_element (&list, i);

      if (!read_row (board, &at, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_rank_limit (LidBoard *board, const LidJsonAt *at, GError **error)
{
  static const char *const names[]
      = { "kinds", "least_module_ranks", "most_ranks", "most_modules", "source", NULL };
  LidRankLimit *limit = &board->rank_limits[board->n_rank_limits++];

  if (!lid_json_only (at, names, error) || !lid_board_json_kinds (at, "kinds", &limit->kinds, error)
      || !lid_board_json_uint (at, "least_module_ranks", FALSE, 64, &limit->least_module_ranks,
                               error)
      || !lid_board_json_uint (at, "most_ranks", FALSE, 256, &limit->most_ranks, error)
      || !lid_board_json_uint (at, "most_modules", FALSE, 64, &limit->most_modules, error)
      || !lid_board_json_text (at, "source", TRUE, &limit->source, error))
    return FALSE;
  if (limit->most_ranks == 0 && limit->most_modules == 0)
    return lid_json_fail (at, error, "limits nothing: most_ranks or most_modules is missing");
  return TRUE;
}

static gboolean
read_ranks (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "count", "load_reduced_as", "limits", NULL };
  LidJsonAt at = lid_json_member (root, "ranks"), list = lid_json_member (&at, "limits");
  guint length, count = LID_COUNT_LOGICAL;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error)
      || !lid_board_json_word (&at, "count", FALSE, lid_board_words_counts, &count, error)
      || !lid_board_json_uint (&at, "load_reduced_as", FALSE, 64, &board->load_reduced_ranks, error)
      || !lid_board_json_length (&at, "limits", 64, &length, error))
    return FALSE;
  board->rank_count = count;
  board->rank_limits = g_new0 (LidRankLimit, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&list, i);

      if (!read_rank_limit (board, &one, error))
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_board_file_rates_read:
 * @board: a board whose layout and rules are read
 * @root: the file's root object
 *
 * Returns: whether processors, rates and ranks could be read
 */
gboolean
lid_board_file_rates_read (LidBoard *board, const LidJsonAt *root, GError **error)
{
  return read_processors (board, root, error) && read_table (board, root, error)
         && read_ranks (board, root, error);
}
