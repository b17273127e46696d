/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-tables-layout.c: channels and slots, what the board takes, its processors; and, last, what
 * its firmware calls the slots. */
#include "help/board-tables-private.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>

static char *
say_slot (const LidBoardSlot *slot)
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

static char *
say_slots (const LidBoard *board, const LidBoardChannel *channel)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < channel->n_slots; i++)
    {
      g_autofree char *one = say_slot (&board->slots[channel->slots[i]]);
      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", one);
    }
  return g_string_free (text, FALSE);
}

static char *
number_or_not (int number)
{
  return number > 0 ? g_strdup_printf ("%d", number) : g_strdup (_ ("not told"));
}

/* Slots whose channel is not told, by socket. */
static void
add_loose (LidBoardTable *table, const LidBoard *board, int socket)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].channel == LID_NOWHERE && board->slots[i].socket == socket)
      {
        g_autofree char *one = say_slot (&board->slots[i]);
        g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", one);
      }
  if (text->len > 0)
    lid_board_tables_row (
        table, g_strdup (socket != LID_NOWHERE ? board->sockets[socket].name : _ ("not told")),
        g_strdup (_ ("not told")), g_strdup (_ ("not told")), g_string_free (text, FALSE), NULL);
  else
    g_string_free (text, TRUE);
}

static void
add_channels (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table = lid_board_tables_add (
      tables, _ ("Channels and slots"),
      g_strdup_printf (board->derived ? _ ("Sockets: %u, channels: %u, slots: %u. Which slot of a "
                                           "channel is filled first is not told.")
                                      : _ ("Sockets: %u, channels: %u, slots: %u. In each row the "
                                           "slot to fill first stands first."),
                       board->n_sockets, board->n_channels, board->n_slots));

  lid_board_tables_heads (table, _ ("Processor"), _ ("Controller"), _ ("Channel"), _ ("Slots"),
                          NULL);
  for (guint i = 0; i < board->n_channels; i++)
    {
      const LidBoardChannel *channel = &board->channels[i];
      const char *socket
          = channel->socket != LID_NOWHERE ? board->sockets[channel->socket].name : _ ("not told");

      lid_board_tables_row (table, g_strdup (socket), number_or_not (channel->controller),
                            g_strdup (channel->name), say_slots (board, channel), NULL);
    }
  for (int socket = LID_NOWHERE; socket < (int)board->n_sockets; socket++)
    add_loose (table, board, socket);
}

static char *
say_generations (const LidBoard *board)
{
  GString *text = g_string_new (NULL);

  for (guint i = 1; i < LID_N_GENERATIONS; i++)
    if (board->generations & (1u << i))
      g_string_append_printf (text, "%s%s", text->len > 0 ? _ (" or ") : "",
                              lid_generation_to_text ((LidGeneration)i));
  return g_string_free (text, FALSE);
}

static char *
say_voltages (const LidBoard *board)
{
  static const guint mv[] = { 1100, 1200, 1250, 1350, 1500, 1800, 2500 };
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (mv); i++)
    if (board->voltages & lid_voltage_from_mv (mv[i]))
      g_string_append_printf (text, "%s%u.%02u V", text->len > 0 ? _ (" or ") : "", mv[i] / 1000,
                              mv[i] % 1000 / 10);
  return g_string_free (text, FALSE);
}

static void
add_sizes (LidBoardTable *table, const LidBoard *board)
{
  g_autofree char *sizes = NULL;

  if (board->n_sizes == 0)
    return;
  sizes = lid_units_capacities (board->sizes, board->n_sizes);
  lid_board_tables_row (table, g_strdup (_ ("Sizes listed")),
                        g_strdup_printf ("%s [%s]", sizes, board->sizes_source), NULL);
}

/* Under one lid as a rule; where slots differ, each height once with its slots. */
static void
add_heights (LidBoardTable *table, const LidBoard *board)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < board->n_slots; i++)
    {
      gint32 height = lid_board_clearance (board, i);
      g_autoptr (GString) slots = g_string_new (NULL);
      guint n = 0;

      if (height <= 0 || board->slots[i].soldered != NULL
          || !g_hash_table_add (seen, GINT_TO_POINTER (height)))
        continue;
      for (guint k = 0; k < board->n_slots; k++)
        if (board->slots[k].soldered == NULL && lid_board_clearance (board, k) == height)
          g_string_append_printf (slots, "%s%s", n++ > 0 ? ", " : "", board->slots[k].id);
        else if (board->slots[k].soldered == NULL)
          g_hash_table_add (seen, GINT_TO_POINTER (-1)); /* they differ */
      lid_board_tables_row (
          table, g_strdup (_ ("Height")),
          g_hash_table_contains (seen, GINT_TO_POINTER (-1))
              ? g_strdup_printf (_ ("modules up to %d.%02d mm in %s"), height / 100, height % 100,
                                 slots->str)
              : g_strdup_printf (_ ("modules up to %d.%02d mm"), height / 100, height % 100),
          NULL);
    }
}

/* Of a derived board nobody said so. */
static char *
say_came (const LidBoard *board, gboolean has)
{
  return g_strdup (has ? _ ("came with it") : board->derived ? _ ("not told") : _ ("none"));
}

static void
add_takes (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table = lid_board_tables_add (tables, _ ("What it takes"), NULL);

  if (board->generations != 0)
    lid_board_tables_row (table, g_strdup (_ ("Generation")), say_generations (board), NULL);
  if (board->kinds != 0)
    lid_board_tables_row (table, g_strdup (_ ("Kind")), lid_board_tables_kinds (board->kinds),
                          NULL);
  if (board->form != LID_FORM_UNKNOWN)
    lid_board_tables_row (table, g_strdup (_ ("Form")), g_strdup (lid_form_to_words (board->form)),
                          NULL);
  if (board->voltages != 0)
    lid_board_tables_row (table, g_strdup (_ ("Voltage")), say_voltages (board), NULL);
  add_sizes (table, board);
  add_heights (table, board);
  lid_board_tables_row (table, g_strdup (_ ("ECC")),
                        g_strdup (board->needs_ecc
                                      ? _ ("needed")
                                      : _ ("not needed; works where all modules have it")),
                        NULL);
  lid_board_tables_row (
      table, g_strdup (_ ("Persistent modules")),
      g_strdup (board->persistent_taken ? _ ("taken") : _ ("not told that it takes any")), NULL);
  lid_board_tables_row (table, g_strdup (_ ("Blanks in empty slots")),
                        say_came (board, board->has_blanks), NULL);
  lid_board_tables_row (table, g_strdup (_ ("Air baffle")), say_came (board, board->has_baffle),
                        NULL);
  for (guint i = 0; i < board->n_airflow_needs; i++)
    lid_board_tables_row (
        table, g_strdup_printf (_ ("Modules above %u W"), board->airflow_needs[i].above_w),
        g_strdup_printf (_ ("need %s (%s)"), board->airflow_needs[i].needs,
                         board->airflow_needs[i].source),
        NULL);
}

/* The ceiling of every kind alike, or kind by kind. */
static char *
say_ceiling (const LidProcessorModel *model)
{
  GString *text = g_string_new (NULL);
  gboolean alike = TRUE;

  for (guint i = 1; i < LID_N_KINDS; i++)
    alike = alike && model->rate[i] == model->rate[0];
  if (alike)
    {
      g_string_free (text, TRUE);
      return lid_board_tables_most (model->rate[0]);
    }
  for (guint i = 1; i < LID_N_KINDS; i++)
    if (model->rate[i] != LID_RATE_UNKNOWN && model->rate[i] != model->rate[0])
      g_string_append_printf (text, "%s%s %u", text->len > 0 ? ", " : "",
                              lid_kind_to_words ((LidKind)i), lid_rate_mts (model->rate[i]));
  return g_string_free (text, FALSE);
}

static void
add_processors (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table;

  if (board->n_processors == 0)
    return;
  table = lid_board_tables_add (tables, _ ("Processors"), NULL);
  lid_board_tables_heads (table, _ ("Model"), _ ("Sets at most"), _ ("Addresses at most"),
                          _ ("Source"), NULL);
  for (guint i = 0; i < board->n_processors; i++)
    {
      const LidProcessorModel *model = &board->processors[i];

      lid_board_tables_row (
          table, g_strdup_printf ("%s: %s", model->id, model->name), say_ceiling (model),
          model->most_mib > 0 ? lid_units_capacity (model->most_mib) : g_strdup (_ ("not told")),
          lid_board_tables_source (model->source), NULL);
    }
}

void
lid_board_tables_layout (GPtrArray *tables, const LidBoard *board)
{
  add_channels (tables, board);
  add_takes (tables, board);
  add_processors (tables, board);
}
