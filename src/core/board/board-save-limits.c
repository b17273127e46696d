/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-save-limits.c — processors, rates, ranks, limits, firmware and names of a board as JSON. */
#include "board/board-file-private.h"
#include "board/board-words.h"
#include "facts/module-json.h"

static void
set_text (JsonObject *object, const char *name, const char *text)
{
  if (text != NULL && *text != 0)
    json_object_set_string_member (object, name, text);
}

static void
set_number (JsonObject *object, const char *name, gint64 value)
{
  if (value > 0)
    json_object_set_int_member (object, name, value);
}

static void
set_source (JsonObject *object, const char *source)
{
  json_object_set_string_member (object, "source", source != NULL ? source : "not told");
}

/* Puts the list there unless it is empty. */
static void
set_array (JsonObject *root, const char *name, JsonArray *array)
{
  if (json_array_get_length (array) > 0)
    json_object_set_array_member (root, name, array);
  else
    json_array_unref (array);
}

static void
set_range (JsonObject *object, const char *name, guint least, guint most)
{
  JsonArray *array;

  if (most == 0)
    return;
  if (least == most)
    {
      json_object_set_int_member (object, name, most);
      return;
    }
  array = json_array_new ();
  json_array_add_int_element (array, MAX (least, 1));
  json_array_add_int_element (array, most);
  json_object_set_array_member (object, name, array);
}

static void
write_ceilings (const LidProcessorModel *model, JsonObject *object)
{
  JsonObject *by_kind = json_object_new ();
  gboolean same = TRUE;

  for (guint i = 1; i < LID_N_KINDS; i++)
    {
      same = same && model->rate[i] == model->rate[0];
      if (model->rate[i] != LID_RATE_UNKNOWN)
        json_object_set_int_member (by_kind, lid_kind_to_text (i), lid_rate_mts (model->rate[i]));
    }
  if (same)
    {
      json_object_unref (by_kind);
      set_number (object, "mts", lid_rate_mts (model->rate[0]));
    }
  else
    lid_board_save_object (object, "mts", by_kind);
}

static void
write_processors (const LidBoard *board, JsonObject *root)
{
  JsonArray *array = json_array_new ();

  for (guint i = 0; i < board->n_processors; i++)
    {
      const LidProcessorModel *model = &board->processors[i];
      JsonObject *object = json_object_new ();

      json_object_set_string_member (object, "id", model->id);
      json_object_set_string_member (object, "name", model->name);
      write_ceilings (model, object);
      set_number (object, "most_mib", model->most_mib);
      set_source (object, model->source);
      json_array_add_object_element (array, object);
    }
  set_array (root, "processors", array);
}

static void
write_rates (const LidBoard *board, JsonObject *root)
{
  JsonArray *array = json_array_new ();

  for (guint i = 0; i < board->n_rates; i++)
    {
      const LidRateRow *row = &board->rates[i];
      JsonObject *object = json_object_new ();

      lid_board_save_set (object, "generations", row->generations, lid_board_save_generation);
      lid_board_save_set (object, "kinds", row->kinds, lid_board_save_kind);
      set_range (object, "ranks", row->least_ranks, row->most_ranks);
      set_range (object, "filled", row->least_filled, row->most_filled);
      set_number (object, "slots", row->slots);
      set_number (object, "voltage_mv", row->voltage_mv);
      if (row->processor != LID_NOWHERE)
        set_text (object, "processor", board->processors[row->processor].id);
      set_number (object, "mts", lid_rate_mts (row->rate));
      set_source (object, row->source);
      json_array_add_object_element (array, object);
    }
  set_array (root, "rates", array);
  set_number (root, "rate_ceiling_mts", lid_rate_mts (board->rate_ceiling));
  if (board->rate_per_socket)
    json_object_set_string_member (root, "rate_scope", "socket");
}

static void
write_ranks (const LidBoard *board, JsonObject *root)
{
  JsonObject *ranks = json_object_new ();
  JsonArray *array = json_array_new ();

  if (board->rank_count != LID_COUNT_LOGICAL)
    set_text (ranks, "count", lid_board_words_counts[board->rank_count]);
  set_number (ranks, "load_reduced_as", board->load_reduced_ranks);
  for (guint i = 0; i < board->n_rank_limits; i++)
    {
      const LidRankLimit *limit = &board->rank_limits[i];
      JsonObject *object = json_object_new ();

      lid_board_save_set (object, "kinds", limit->kinds, lid_board_save_kind);
      set_number (object, "least_module_ranks", limit->least_module_ranks);
      set_number (object, "most_ranks", limit->most_ranks);
      set_number (object, "most_modules", limit->most_modules);
      set_source (object, limit->source);
      json_array_add_object_element (array, object);
    }
  set_array (ranks, "limits", array);
  lid_board_save_object (root, "ranks", ranks);
}

static void
write_limits (const LidBoard *board, JsonObject *root)
{
  JsonArray *array = json_array_new ();

  for (guint i = 0; i < board->n_limits; i++)
    {
      const LidLimit *limit = &board->limits[i];
      JsonObject *object = json_object_new ();

      set_text (object, "what", lid_board_words_whats[limit->what]);
      lid_board_save_set (object, "kinds", limit->kinds, lid_board_save_kind);
      set_number (object, "mib", limit->mib);
      set_text (object, "basis", lid_board_words_bases[limit->basis]);
      set_text (object, "source", limit->source);
      set_text (object, "who", limit->who);
      set_text (object, "when", limit->when);
      set_text (object, "firmware", limit->firmware);
      json_array_add_object_element (array, object);
    }
  set_array (root, "limits", array);
}

static JsonObject *
write_gift (const LidFirmwareGift *gift)
{
  JsonObject *object = json_object_new ();

  if (gift->non_binary)
    json_object_set_boolean_member (object, "non_binary", TRUE);
  else
    {
      json_object_set_string_member (object, "fact", lid_fact_to_text (gift->fact));
      json_object_set_member (object, "at_least",
                              lid_module_json_value (gift->fact, gift->at_least));
    }
  return object;
}

static void
write_firmware (const LidBoard *board, JsonObject *root)
{
  JsonArray *array = json_array_new ();

  for (guint i = 0; i < board->n_firmware; i++)
    {
      const LidFirmwareLevel *level = &board->firmware[i];
      JsonObject *object = json_object_new ();
      JsonArray *brings = json_array_new ();

      json_object_set_string_member (object, "level", level->level);
      set_number (object, "ceiling_mts", lid_rate_mts (level->ceiling));
      for (guint k = 0; level->gifts != NULL && k < level->gifts->len; k++)
        json_array_add_object_element (
            brings, write_gift (&g_array_index (level->gifts, LidFirmwareGift, k)));
      set_array (object, "brings", brings);
      set_source (object, level->source);
      json_array_add_object_element (array, object);
    }
  set_array (root, "firmware", array);
}

static void
write_names (const LidBoard *board, JsonObject *root)
{
  JsonArray *prints = json_array_new (), *spellings = json_array_new ();

  for (guint i = 0; i < board->n_fingerprints; i++)
    {
      const LidFingerprint *print = &board->fingerprints[i];
      JsonObject *object = json_object_new ();

      set_text (object, "product", print->product);
      set_text (object, "board", print->board);
      set_number (object, "slots", print->n_slots);
      json_object_set_int_member (object, "arrays", print->n_arrays);
      set_text (object, "names", print->names);
      json_array_add_object_element (prints, object);
    }
  set_array (root, "fingerprints", prints);
  for (guint i = 0; i < board->n_spellings; i++)
    {
      const LidSpelling *spelling = &board->spellings[i];
      JsonObject *object;

      if ((spelling->locator == NULL || *spelling->locator == 0)
          && (spelling->bank == NULL || *spelling->bank == 0))
        continue; /* a firmware that has lost the names of its slots */
      object = json_object_new ();
      json_object_set_string_member (object, "format", spelling->format);
      json_object_set_string_member (object, "slot", board->slots[spelling->slot].id);
      set_text (object, "locator", spelling->locator);
      set_text (object, "bank", spelling->bank);
      json_array_add_object_element (spellings, object);
    }
  set_array (root, "spellings", spellings);
}

/**
 * lid_board_save_limits:
 * @board: a board
 * @root: the definition's root object; gets figures, limits and names
 */
void
lid_board_save_limits (const LidBoard *board, JsonObject *root)
{
  write_processors (board, root);
  write_rates (board, root);
  write_ranks (board, root);
  write_limits (board, root);
  write_firmware (board, root);
  write_names (board, root);
}
