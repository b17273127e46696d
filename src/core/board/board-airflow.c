/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-airflow.c — blanks, baffle, and what modules that draw much need: read and written. */
#include "board/board-file-private.h"

#define MOST_NEEDS 8u
#define MOST_WATTS 100u

static gboolean
read_need (LidAirflowNeed *need, const LidJsonAt *at, GError **error)
{
  static const char *const names[] = { "above_w", "needs", "source", NULL };

  return lid_json_only (at, names, error)
         && lid_board_json_uint (at, "above_w", TRUE, MOST_WATTS, &need->above_w, error)
         && lid_board_json_text (at, "needs", TRUE, &need->needs, error)
         && lid_board_json_text (at, "source", TRUE, &need->source, error);
}

/**
 * lid_board_airflow_read:
 * @board: a board
 * @root: the file's root object
 *
 * Returns: whether "airflow" could be read
 */
gboolean
lid_board_airflow_read (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "blanks", "baffle", "needs", NULL };
  LidJsonAt at = lid_json_member (root, "airflow"), needs = lid_json_member (&at, "needs");
  guint length;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error)
      || !lid_board_json_bool (&at, "blanks", &board->has_blanks, error)
      || !lid_board_json_bool (&at, "baffle", &board->has_baffle, error)
      || !lid_board_json_length (&at, "needs", MOST_NEEDS, &length, error))
    return FALSE;
  board->airflow_needs = g_new0 (LidAirflowNeed, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&needs, i);

      if (!read_need (&board->airflow_needs[board->n_airflow_needs++], &one, error))
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_board_airflow_save:
 * @root: the definition's root object; gets "airflow"
 */
void
lid_board_airflow_save (const LidBoard *board, JsonObject *root)
{
  JsonObject *airflow = json_object_new ();
  JsonArray *needs = json_array_new ();

  if (board->has_blanks)
    json_object_set_boolean_member (airflow, "blanks", TRUE);
  if (board->has_baffle)
    json_object_set_boolean_member (airflow, "baffle", TRUE);
  for (guint i = 0; i < board->n_airflow_needs; i++)
    {
      JsonObject *need = json_object_new ();

      json_object_set_int_member (need, "above_w", board->airflow_needs[i].above_w);
      json_object_set_string_member (need, "needs", board->airflow_needs[i].needs);
      json_object_set_string_member (need, "source", board->airflow_needs[i].source);
      json_array_add_object_element (needs, need);
    }
  if (board->n_airflow_needs > 0)
    json_object_set_array_member (airflow, "needs", json_array_ref (needs));
  json_array_unref (needs);
  lid_board_save_object (root, "airflow", airflow);
}

void
lid_board_airflow_free (LidBoard *board)
{
  for (guint i = 0; i < board->n_airflow_needs; i++)
    {
      g_free (board->airflow_needs[i].needs);
      g_free (board->airflow_needs[i].source);
    }
  g_free (board->airflow_needs);
}
