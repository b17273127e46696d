/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file-ways.c: in which numbers the channels of a node go together, read and written. A newer
 * processor or a NUMA split can add some: Linux kernel, drivers/ras, interleave modes (K2). */
#include "board/board-file-private.h"
#include "board/board-words.h"

/* Bits 1 << ways. */
static gboolean
read_ways (const LidJsonAt *at, guint32 *bits, GError **error)
{
  LidJsonAt ways = lid_json_member (at, "ways");
  guint length;

  if (!lid_board_json_length (at, "ways", 31, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&ways, i);
      gint64 n;

      if (!lid_json_get_int (&one, 1, 31, &n, error))
        return FALSE;
      if (*bits & (1u << n))
        return lid_json_fail (&one, error, "stands here twice");
      *bits |= 1u << n;
    }
  return TRUE;
}

static gboolean
is_split (const LidBoard *board, guint nodes)
{
  for (guint i = 0; i < board->n_numa; i++)
    if (board->numa[i] == nodes)
      return TRUE;
  return board->n_numa == 0 || nodes <= 1;
}

static gboolean
read_one_also (LidBoard *board, const LidJsonAt *at, LidWaysAlso *also, GError **error)
{
  static const char *const names[] = { "ways", "processor", "nodes", "source", NULL };
  LidJsonAt nodes = lid_json_member (at, "nodes");

  if (!lid_json_only (at, names, error) || !read_ways (at, &also->ways, error)
      || !lid_board_file_processor_read (board, at, &also->processor, error)
      || !lid_board_json_uint (at, "nodes", FALSE, 16, &also->nodes, error)
      || !lid_board_json_text (at, "source", TRUE, &also->source, error))
    return FALSE;
  if (also->ways == 0)
    return lid_json_fail (at, error, "needs the ways it adds");
  if (also->processor == LID_NOWHERE && also->nodes == 0)
    return lid_json_fail (at, error, "needs a processor or nodes: what always holds stands above");
  if (!is_split (board, also->nodes))
    return lid_json_fail (&nodes, error, "must be one of the numbers that “numa” names");
  return TRUE;
}

static gboolean
read_also (LidBoard *board, const LidJsonAt *at, GError **error)
{
  LidJsonAt list = lid_json_member (at, "also");
  guint length;

  if (!lid_board_json_length (at, "also", 16, &length, error))
    return FALSE;
  if (length > 0 && board->ways == 0)
    return lid_json_fail (&list, error, "needs ways to add to");
  board->ways_also = g_new0 (LidWaysAlso, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&list, i);

      if (!read_one_also (board, &one, &board->ways_also[board->n_ways_also++], error))
        return FALSE;
    }
  return TRUE;
}

/* What the kernel's and the firmware's tables of sets say of some: as many channels of each. */
static gboolean
read_matched (LidBoard *board, const LidJsonAt *interleave, GError **error)
{
  static const char *const names[] = { "source", NULL };
  LidJsonAt at = lid_json_member (interleave, "matched");

  if (!lid_json_there (&at))
    return TRUE;
  if (board->region_model != LID_REGIONS_WAYS)
    return lid_json_fail (&at, error, "is only told of the model “ways”");
  return lid_json_only (&at, names, error)
         && lid_board_json_text (&at, "source", TRUE, &board->matched_source, error);
}

/**
 * lid_board_file_ways_read:
 * @board: a board whose processors and NUMA splits are read
 * @root: the file's root object
 *
 * Returns: whether "interleave" could be read: which channels go together
 */
gboolean
lid_board_file_ways_read (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "model", "ways", "also", "matched", "source", NULL };
  LidJsonAt at = lid_json_member (root, "interleave");
  LidJsonAt model_at = lid_json_member (&at, "model"), ways = lid_json_member (&at, "ways");
  guint model = LID_REGIONS_WAYS;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error)
      || !lid_board_json_word (&at, "model", TRUE, lid_board_words_regions, &model, error)
      || !lid_board_json_text (&at, "source", FALSE, &board->ways_source, error)
      || !read_ways (&at, &board->ways, error))
    return FALSE;
  if (board->ways != 0 && (board->ways & (1u << 1)) == 0)
    return lid_json_fail (&ways, error, "must hold 1: a lone channel is always one way");
  if ((model == LID_REGIONS_LAYERED) != (board->ways == 0))
    return lid_json_fail (&model_at, error,
                          board->ways == 0 ? "this model needs the ways the board has"
                                           : "“layered” is for boards whose ways are not known");
  board->region_model_told = TRUE;
  board->region_model = model;
  return read_matched (board, &at, error) && read_also (board, &at, error);
}

static JsonArray *
write_ways (guint32 bits)
{
  JsonArray *ways = json_array_new ();

  for (guint i = 1; i < 32; i++)
    if (bits & (1u << i))
      json_array_add_int_element (ways, i);
  return ways;
}

/**
 * lid_board_file_ways_write:
 * @board: a board that tells its model
 * @interleave: gets the ways, and what is added to them
 */
void
lid_board_file_ways_write (const LidBoard *board, JsonObject *interleave)
{
  JsonArray *list = json_array_new ();

  if (board->ways != 0)
    json_object_set_array_member (interleave, "ways", write_ways (board->ways));
  for (guint i = 0; i < board->n_ways_also; i++)
    {
      const LidWaysAlso *also = &board->ways_also[i];
      JsonObject *one = json_object_new ();

      if (also->processor != LID_NOWHERE)
        json_object_set_string_member (one, "processor", board->processors[also->processor].id);
      if (also->nodes > 0)
        json_object_set_int_member (one, "nodes", also->nodes);
      json_object_set_array_member (one, "ways", write_ways (also->ways));
      json_object_set_string_member (one, "source", also->source);
      json_array_add_object_element (list, one);
    }
  if (board->matched_source != NULL)
    {
      JsonObject *matched = json_object_new ();

      json_object_set_string_member (matched, "source", board->matched_source);
      json_object_set_object_member (interleave, "matched", matched);
    }
  if (board->n_ways_also > 0)
    json_object_set_array_member (interleave, "also", json_array_ref (list));
  json_array_unref (list);
}
