/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board-report.h"

#include "columns.h"
#include "json-line.h"

#include "base/json-text.h"
#include "base/json-write.h"
#include "base/text.h"
#include "base/units.h"
#include "board/board-file.h"
#include "checks/finding.h"

#include <glib/gi18n.h>

static void
add_head (GString *out, const char *text)
{
  g_string_append_printf (out, "\n%s\n", text);
}

static void add_line (GString *out, const char *format, ...) G_GNUC_PRINTF (2, 3);

static void
add_line (GString *out, const char *format, ...)
{
  va_list args;

  g_string_append (out, "  ");
  va_start (args, format);
  g_string_append_vprintf (out, format, args);
  va_end (args);
  g_string_append_c (out, '\n');
}

/* "registered, load-reduced"; "any" when the set is empty. */
static char *
kinds_words (guint32 kinds)
{
  GString *text = g_string_new (NULL);

  for (guint i = 1; i < LID_N_KINDS; i++)
    if (kinds & (1u << i))
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", lid_kind_to_words (i));
  if (text->len == 0)
    g_string_append (text, _ ("any kind"));
  return g_string_free (text, FALSE);
}

static char *
slot_words (const LidBoardSlot *slot)
{
  GString *text = g_string_new (slot->id);

  if (g_strcmp0 (slot->id, slot->name) != 0)
    g_string_append_printf (text, " “%s”", slot->name);
  if (slot->soldered != NULL)
    {
      g_autofree char *what = lid_module_describe (slot->soldered);
      g_string_append_printf (text, _ (" (soldered: %s)"), what);
    }
  else if (slot->latch != NULL)
    g_string_append_printf (text, _ (" (%s latches)"), slot->latch);
  return g_string_free (text, FALSE);
}

static void
add_slots (LidColumns *columns, const LidBoard *board, const guint *slots, guint n_slots)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *all = NULL;

  for (guint i = 0; i < n_slots; i++)
    g_ptr_array_add (words, slot_words (&board->slots[slots[i]]));
  g_ptr_array_add (words, NULL);
  all = g_strjoinv (", ", (char **)words->pdata);
  lid_columns_add (columns, all);
}

/* Slots of @socket that no channel is told for. */
static void
add_loose (LidColumns *columns, const LidBoard *board, int socket, const char *name)
{
  g_autofree guint *slots = g_new (guint, board->n_slots + 1);
  guint n = 0;

  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].socket == socket && board->slots[i].channel == LID_NOWHERE)
      slots[n++] = i;
  if (n == 0)
    return;
  lid_columns_add (columns, name);
  lid_columns_add (columns, NULL);
  lid_columns_add (columns, _ ("channel not told"));
  add_slots (columns, board, slots, n);
}

/**
 * lid_board_report_layout:
 * @out: gets a table: socket, controller, channel, slots with the first to fill first
 */
void
lid_board_report_layout (GString *out, const LidBoard *board)
{
  LidColumns columns;

  lid_columns_start (&columns, 4);
  for (int socket = LID_NOWHERE; socket < (int)board->n_sockets; socket++)
    {
      g_autofree char *name = socket == LID_NOWHERE
                                  ? g_strdup (_ ("socket not told"))
                                  : g_strdup_printf (_ ("socket %s"), board->sockets[socket].name);

      for (guint i = 0; i < board->n_channels; i++)
        {
          const LidBoardChannel *channel = &board->channels[i];
          g_autofree char *controller = NULL, *channel_name = NULL;

          if (channel->socket != socket)
            continue;
          controller = channel->controller > 0
                           ? g_strdup_printf (_ ("controller %d"), channel->controller)
                           : NULL;
          channel_name = g_strdup_printf (_ ("channel %s"), channel->name);
          lid_columns_add (&columns, name);
          lid_columns_add (&columns, controller);
          lid_columns_add (&columns, channel_name);
          add_slots (&columns, board, channel->slots, channel->n_slots);
        }
      add_loose (&columns, board, socket, name);
    }
  lid_columns_finish (&columns, out, "  ");
}

static void
add_ids (GString *out, const LidBoard *board, const guint *slots, guint n_slots)
{
  g_autofree const char **ids = g_new (const char *, n_slots + 1);
  g_autofree char *text = NULL;

  for (guint i = 0; i < n_slots; i++)
    ids[i] = board->slots[slots[i]].id;
  ids[n_slots] = NULL;
  text = g_strjoinv (", ", (char **)ids);
  add_line (out, "%s", text);
}

static void
add_order (GString *out, const LidBoard *board)
{
  if (board->n_order > 0)
    {
      add_head (out, _ ("Order of fitting"));
      add_ids (out, board, board->order, board->n_order);
    }
  if (board->n_lone > 0)
    {
      add_head (out, _ ("A lone module goes into"));
      add_ids (out, board, board->lone, board->n_lone);
    }
}

static void
add_span (GString *row, guint least, guint most, const char *one, const char *several)
{
  if (most == 0)
    return;
  g_string_append (row, ", ");
  if (least == most)
    g_string_append_printf (row, one, most);
  else
    g_string_append_printf (row, several, least, most);
}

static void
add_rates (GString *out, const LidBoard *board)
{
  if (board->n_rates > 0)
    add_head (out, _ ("Rates (what has no row does not work)"));
  for (guint i = 0; i < board->n_rates; i++)
    {
      const LidRateRow *row = &board->rates[i];
      g_autoptr (GString) text = g_string_new (NULL);
      g_autofree char *kinds = kinds_words (row->kinds);
      g_autofree char *rate = lid_units_rate (row->rate);

      g_string_append (text, kinds);
      add_span (text, row->least_ranks, row->most_ranks, _ ("rank %u"), _ ("ranks %u to %u"));
      add_span (text, row->least_filled, row->most_filled, _ ("%u on the channel"),
                _ ("%u to %u on the channel"));
      if (row->processor != LID_NOWHERE)
        g_string_append_printf (text, ", %s", board->processors[row->processor].name);
      if (row->voltage_mv != 0)
        g_string_append_printf (text, ", %u.%02u V", row->voltage_mv / 1000,
                                row->voltage_mv % 1000 / 10);
      add_line (out, "%-9s  %s [%s]", rate, text->str, row->source);
    }
}

static void
add_mixing (GString *out, const LidBoard *board)
{
  static const char *const mixes[LID_N_MIXES]
      = { N_ ("kinds"),           N_ ("ECC and none"),  N_ ("chip widths"),
          N_ ("stacked and not"), N_ ("die densities"), N_ ("capacities"),
          N_ ("ranks"),           N_ ("check bits"),    N_ ("rates") };
  static const char *const scopes[]
      = { N_ ("the machine"), N_ ("a socket"), N_ ("a channel"), N_ ("a module") };
  gboolean any = FALSE;

  for (guint i = 0; i < LID_N_MIXES; i++)
    {
      const LidMixRule *rule = &board->mixes[i];

      if (!rule->told)
        continue;
      if (!any)
        add_head (out, _ ("Mixing"));
      any = TRUE;
      if (rule->allowed)
        add_line (out, _ ("%s: free [%s]"), _ (mixes[i]), rule->source);
      else
        add_line (out, _ ("%s: at most %u in %s, else %s [%s]"), _ (mixes[i]), rule->most_classes,
                  _ (scopes[rule->scope]), lid_grade_to_words (rule->grade), rule->source);
    }
}

static void
add_limits (GString *out, const LidBoard *board)
{
  static const char *const whats[]
      = { N_ ("one module"), N_ ("one channel"), N_ ("one socket"), N_ ("the machine") };

  if (board->n_limits > 0)
    add_head (out, _ ("Limits"));
  for (guint i = 0; i < board->n_limits; i++)
    {
      const LidLimit *limit = &board->limits[i];
      g_autofree char *size = lid_units_capacity (limit->mib);
      g_autofree char *kinds = kinds_words (limit->kinds);

      if (limit->basis == LID_BENCH_PROVEN)
        add_line (out, _ ("%s, %s: %s, bench-proven by %s on %s with firmware %s"),
                  _ (whats[limit->what]), kinds, size, limit->who, limit->when, limit->firmware);
      else if (limit->basis == LID_LISTED)
        add_line (out, _ ("%s, %s: %s, listed [%s]"), _ (whats[limit->what]), kinds, size,
                  limit->source);
      else
        add_line (out, _ ("%s, %s: %s, assumed [%s]"), _ (whats[limit->what]), kinds, size,
                  limit->source);
    }
}

static void
add_processors (GString *out, const LidBoard *board)
{
  if (board->n_processors > 0)
    add_head (out, _ ("Processors"));
  for (guint i = 0; i < board->n_processors; i++)
    {
      const LidProcessorModel *model = &board->processors[i];
      LidRate most = LID_RATE_UNKNOWN;
      g_autofree char *rate = NULL, *size = lid_units_capacity (model->most_mib);

      for (guint k = 0; k < LID_N_KINDS; k++)
        most = MAX (most, model->rate[k]);
      rate = most != LID_RATE_UNKNOWN ? lid_units_rate (most) : g_strdup (_ ("rate not told"));
      add_line (out, "%s: %s, %s [%s]", model->name, rate,
                model->most_mib > 0 ? size : _ ("capacity not told"), model->source);
    }
}

static void
add_firmware (GString *out, const LidBoard *board)
{
  if (board->n_firmware > 0)
    add_head (out, _ ("Firmware levels, oldest first"));
  for (guint i = 0; i < board->n_firmware; i++)
    {
      const LidFirmwareLevel *level = &board->firmware[i];
      g_autofree char *rate = level->ceiling != LID_RATE_UNKNOWN ? lid_units_rate (level->ceiling)
                                                                 : g_strdup (_ ("rate not told"));
      g_autoptr (GString) brings = g_string_new (NULL);

      for (guint k = 0; k < level->gifts->len; k++)
        {
          const LidFirmwareGift *gift = &g_array_index (level->gifts, LidFirmwareGift, k);

          g_string_append_printf (brings, "%s%s", k == 0 ? _ (", brings ") : ", ",
                                  gift->non_binary ? _ ("24, 48, 96 GB and the like")
                                                   : lid_fact_to_words (gift->fact));
          if (!gift->non_binary && gift->fact == LID_FACT_CAPACITY)
            {
              g_autofree char *size = lid_units_capacity (gift->at_least);
              g_string_append_printf (brings, " %s", size);
            }
          else if (!gift->non_binary && gift->fact == LID_FACT_RATED)
            g_string_append_printf (brings, " %u", lid_rate_mts ((LidRate)gift->at_least));
          else if (!gift->non_binary && gift->fact != LID_FACT_STACK)
            g_string_append_printf (brings, " %d", gift->at_least);
        }
      add_line (out, "%s: %s%s [%s]", level->level, rate, brings->str, level->source);
    }
}

/**
 * lid_board_report_text:
 * @out: gets the board in people's words
 */
void
lid_board_report_text (GString *out, const LidBoard *board)
{
  g_autofree char *kinds = kinds_words (board->kinds);

  g_string_append_printf (out, _ ("%s (%s, version %u)\n"), board->name, board->id, board->version);
  if (board->about != NULL)
    g_string_append_printf (out, "%s\n", board->about);
  g_string_append_printf (out, _ ("Source: %s\n"), board->source);
  if (board->derived)
    g_string_append (out, _ ("Derived from one machine: it tells no rates, limits or places.\n"));
  add_head (out,
            board->derived ? _ ("Slots") : _ ("Slots, the first to fill of each channel first"));
  lid_board_report_layout (out, board);
  if (board->kinds != 0)
    {
      add_head (out, _ ("Takes"));
      add_line (out, "%s", kinds);
    }
  add_order (out, board);
  add_rates (out, board);
  add_mixing (out, board);
  add_limits (out, board);
  add_processors (out, board);
  add_firmware (out, board);
}

/**
 * lid_board_report_json:
 * @out: gets one line, without its end
 * @source: the board's file
 * @reason: (nullable): why it could not be read; then @board is NULL
 * @whole: the definition too
 */
void
lid_board_report_json (
    GString *out, const char *source, const char *reason, const LidBoard *board, gboolean whole)
{
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, reason);
  lid_json_write_text (&writer, "id", board != NULL ? board->id : NULL);
  lid_json_write_text (&writer, "name", board != NULL ? board->name : NULL);
  lid_json_write_int_or_null (&writer, "sockets", board != NULL ? board->n_sockets : 0,
                              board != NULL && board->sockets_told);
  lid_json_write_int_or_null (&writer, "channels", board != NULL ? board->n_channels : 0,
                              board != NULL && board->channels_told);
  lid_json_write_int_or_null (&writer, "slots", board != NULL ? board->n_slots : 0, board != NULL);
  lid_json_write_int_or_null (&writer, "version", board != NULL ? board->version : 0,
                              board != NULL);
  lid_json_write_text (&writer, "hash", board != NULL ? board->hash : NULL);
  if (board != NULL && whole)
    {
      g_autoptr (JsonNode) node = lid_board_file_to_node (board);
      g_autofree char *text = lid_json_text (node, FALSE);

      lid_json_write_raw (&writer, "definition", text);
    }
  lid_json_write_close (&writer, '}');
}
