/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file-modes.c — memory modes with their demands, and modules that keep others out. What a
 * board does not say stays 0 or empty, and a board silent on a demand demands nothing (product.md
 * 6, settled reading 8). */
#include "board/board-file-private.h"
#include "board/board-words.h"

#include <string.h>

#define MOST_PAIRS 64u
#define MOST_COUNTS 63

static int
find_channel (const LidBoard *board, guint socket, const char *name)
{
  const LidBoardSocket *place = &board->sockets[socket];

  for (guint i = 0; i < place->n_channels; i++)
    if (g_strcmp0 (board->channels[place->first_channel + i].name, name) == 0)
      return (int)(place->first_channel + i);
  return LID_NOWHERE;
}

static gboolean
is_paired (const LidBoardMode *mode, guint channel)
{
  for (guint i = 0; i < mode->n_pairs; i++)
    if (mode->pairs[i].a == channel || mode->pairs[i].b == channel)
      return TRUE;
  return FALSE;
}

/* Two names of channels: the pair there is in every socket that has both. */
static gboolean
read_pair (const LidBoard *board, LidBoardMode *mode, const LidJsonAt *at, GError **error)
{
  LidJsonAt first = lid_json_element (at, 0), second = lid_json_element (at, 1);
  const char *names[2];
  gboolean found = FALSE;
  guint length;

  if (!lid_json_get_length (at, 2, &length, error))
    return FALSE;
  if (length != 2)
    return lid_json_fail (at, error, "must name two channels");
  if (!lid_json_get_text (&first, &names[0], error)
      || !lid_json_get_text (&second, &names[1], error))
    return FALSE;
  for (guint s = 0; s < board->n_sockets; s++)
    {
      int a = find_channel (board, s, names[0]), b = find_channel (board, s, names[1]);

      if (a == LID_NOWHERE || b == LID_NOWHERE)
        continue;
      if (a == b || is_paired (mode, (guint)a) || is_paired (mode, (guint)b))
        return lid_json_fail (at, error, "pairs a channel that is paired already");
      mode->pairs[mode->n_pairs++] = (LidChannelPair){ (guint)a, (guint)b };
      found = TRUE;
    }
  return found
         || lid_json_fail (at, error, "no processor has both channels, “%.40s” and “%.40s”",
                           names[0], names[1]);
}

static gboolean
read_pairs (const LidBoard *board, LidBoardMode *mode, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "pairs");
  guint length;

  if (!lid_board_json_length (at, "pairs", MOST_PAIRS, &length, error))
    return FALSE;
  mode->pairs = g_new (LidChannelPair, board->n_channels / 2);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&list, i);

      if (!read_pair (board, mode, &one, error))
        return FALSE;
    }
  mode->pairs = g_renew (LidChannelPair, mode->pairs, mode->n_pairs);
  return TRUE;
}

static gboolean
read_counts (LidBoardMode *mode, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "modules_per_socket");
  guint length;

  if (!lid_board_json_length (at, "modules_per_socket", MOST_COUNTS, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&list, i);
      gint64 n;

      if (!lid_json_get_int (&one, 1, MOST_COUNTS, &n, error))
        return FALSE;
      mode->modules_of_socket |= G_GUINT64_CONSTANT (1) << n;
    }
  return TRUE;
}

static gboolean
read_not_with (LidBoardMode *mode, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "not_with");
  guint length;

  if (!lid_board_json_length (at, "not_with", LID_N_MODES, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&list, i);
      const char *text;
      guint word = 0;

      if (!lid_json_get_text (&one, &text, error))
        return FALSE;
      while (lid_board_words_not_with[word] != NULL
             && strcmp (lid_board_words_not_with[word], text) != 0)
        word++;
      if (lid_board_words_not_with[word] == NULL)
        return lid_json_fail (&one, error, "“%.40s” is neither a memory mode nor “numa-split”",
                              text);
      mode->not_with |= 1u << word;
    }
  return TRUE;
}

/* The members a mode may have: what makes no sense with it is a slip. */
static gboolean
check_members (LidMode mode, const LidJsonAt *at, GError **error)
{
  static const char *const spared[] = { "id",
                                        "most_ranks",
                                        "least_ranks_of_channel",
                                        "least_modules_of_channel",
                                        "modules_per_socket",
                                        "not_with",
                                        "source",
                                        NULL };
  static const char *const in_pairs[]
      = { "id",       "pairs",  "alike", "least_modules_of_channel", "modules_per_socket",
          "not_with", "source", NULL };
  static const char *const partly[] = {
    "id",     "pairs",    "alike", "least_modules_of_channel", "modules_per_socket", "not_with",
    "source", "step_mib", NULL
  };

  return lid_json_only (at,
                        mode == LID_MODE_SPARED            ? spared
                        : mode == LID_MODE_PARTLY_MIRRORED ? partly
                                                           : in_pairs,
                        error);
}

static gboolean
read_mode (const LidBoard *board, LidBoardMode *mode, const LidJsonAt *at, GError **error)
{
  LidJsonAt alike_at = lid_json_member (at, "alike");
  guint alike = 0;

  if (!check_members (mode->mode, at, error) || !read_pairs (board, mode, at, error)
      || !lid_board_json_word (at, "alike", FALSE, lid_board_words_alike, &alike, error)
      || !lid_board_json_uint (at, "least_modules_of_channel", FALSE, 16,
                               &mode->least_modules_of_channel, error)
      || !lid_board_json_uint (at, "most_ranks", FALSE, 64, &mode->most_spare_ranks, error)
      || !lid_board_json_uint (at, "least_ranks_of_channel", FALSE, 64,
                               &mode->least_ranks_of_channel, error)
      || !lid_board_json_int (at, "step_mib", FALSE, G_GINT64_CONSTANT (1) << 40, &mode->step_mib,
                              error)
      || !read_counts (mode, at, error) || !read_not_with (mode, at, error)
      || !lid_board_json_text (at, "source", FALSE, &mode->source, error))
    return FALSE;
  if (lid_json_there (&alike_at))
    mode->alike = LID_ALIKE_CAPACITY + alike;
  return TRUE;
}

static gboolean
read_modes (LidBoard *board, const LidJsonAt *root, GError **error)
{
  LidJsonAt at = lid_json_member (root, "modes");
  guint length, word = 0;

  if (!lid_board_json_length (root, "modes", 16, &length, error))
    return FALSE;
  board->modes_told = lid_json_there (&at);
  board->modes = g_new0 (LidBoardMode, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&at, i), id = lid_json_member (&one, "id");
      LidBoardMode *mode = &board->modes[board->n_modes];

      if (!lid_json_need_object (&one, error)
          || !lid_board_json_word (&one, "id", TRUE, lid_board_words_modes, &word, error))
        return FALSE;
      if (lid_board_find_mode (board, LID_MODE_MIRRORED + word) != NULL)
        return lid_json_fail (&id, error, "stands in this list twice");
      board->n_modes++;
      mode->mode = LID_MODE_MIRRORED + word;
      mode->id = lid_board_words_modes[word];
      mode->definition = json_node_copy (one.node);
      if (!read_mode (board, mode, &one, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_exclusion (LidExclusion *row, const LidJsonAt *at, GError **error)
{
  static const char *const names[] = { "kinds",
                                       "least_module_ranks",
                                       "position",
                                       "scope",
                                       "empty_position",
                                       "most_modules",
                                       "stops",
                                       "source",
                                       NULL };
  LidJsonAt scope_at = lid_json_member (at, "scope"), stops_at = lid_json_member (at, "stops");
  guint scope = LID_SCOPE_CHANNEL, stops = LID_STOPS_SLOTS;

  if (!lid_json_only (at, names, error) || !lid_board_json_kinds (at, "kinds", &row->kinds, error)
      || !lid_board_json_uint (at, "least_module_ranks", FALSE, 64, &row->least_module_ranks, error)
      || !lid_board_json_uint (at, "position", FALSE, 64, &row->position, error)
      || !lid_board_json_word (at, "scope", TRUE, lid_board_words_scopes, &scope, error)
      || !lid_board_json_uint (at, "empty_position", FALSE, 64, &row->empty_position, error)
      || !lid_board_json_uint (at, "most_modules", FALSE, 64, &row->most_modules, error)
      || !lid_board_json_word (at, "stops", FALSE, lid_board_words_stops, &stops, error)
      || !lid_board_json_text (at, "source", TRUE, &row->source, error))
    return FALSE;
  row->scope = scope;
  row->stops = stops;
  if (scope != LID_SCOPE_CHANNEL && scope != LID_SCOPE_SOCKET)
    return lid_json_fail (&scope_at, error,
                          "says “channel” (its own) or “socket” (the other channels there)");
  if (stops == LID_STOPS_NOTHING)
    return lid_json_fail (&stops_at, error, "says “slots” or “machine”");
  if (row->empty_position == 0 && row->most_modules == 0)
    return lid_json_fail (at, error,
                          "keeps nothing out: empty_position or most_modules is missing");
  return TRUE;
}

static gboolean
read_exclusions (LidBoard *board, const LidJsonAt *root, GError **error)
{
  LidJsonAt list = lid_json_member (root, "exclusions");
  guint length;

  if (!lid_board_json_length (root, "exclusions", 32, &length, error))
    return FALSE;
  board->exclusions = g_new0 (LidExclusion, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&list, i);

      if (!read_exclusion (&board->exclusions[board->n_exclusions++], &one, error))
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_board_file_modes_read:
 * @board: a board whose layout and rules are read
 * @root: the file's root object
 *
 * Returns: whether modes and exclusions could be read
 */
gboolean
lid_board_file_modes_read (LidBoard *board, const LidJsonAt *root, GError **error)
{
  return read_modes (board, root, error) && read_exclusions (board, root, error);
}

static void
write_exclusion (const LidExclusion *row, JsonArray *list)
{
  const struct
  {
    const char *name;
    guint value;
  } numbers[] = {
    { "least_module_ranks", row->least_module_ranks },
    { "position", row->position },
    { "empty_position", row->empty_position },
    { "most_modules", row->most_modules },
  };
  JsonObject *object = json_object_new ();

  lid_board_save_set (object, "kinds", row->kinds, lid_board_save_kind);
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    if (numbers[i].value > 0)
      json_object_set_int_member (object, numbers[i].name, numbers[i].value);
  json_object_set_string_member (object, "scope", lid_board_words_scopes[row->scope]);
  json_object_set_string_member (object, "stops", lid_board_words_stops[row->stops]);
  json_object_set_string_member (object, "source", row->source);
  json_array_add_object_element (list, object);
}

/**
 * lid_board_file_modes_write:
 * @board: a board
 * @root: the definition's root object; gets modes and exclusions
 */
void
lid_board_file_modes_write (const LidBoard *board, JsonObject *root)
{
  if (board->modes_told)
    {
      JsonArray *modes = json_array_new ();

      for (guint i = 0; i < board->n_modes; i++)
        json_array_add_element (modes, json_node_copy (board->modes[i].definition));
      json_object_set_array_member (root, "modes", modes);
    }
  if (board->n_exclusions > 0)
    {
      JsonArray *list = json_array_new ();

      for (guint i = 0; i < board->n_exclusions; i++)
        write_exclusion (&board->exclusions[i], list);
      json_object_set_array_member (root, "exclusions", list);
    }
}
