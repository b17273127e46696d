/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-json.h"

#include <math.h>

/* Whether the member is to be read at all; sets *@done to what the caller shall return if not. */
static gboolean
wanted (const LidJsonAt *at, gboolean needed, gboolean *done, GError **error)
{
  *done = TRUE;
  if (lid_json_there (at))
    return TRUE;
  if (needed)
    *done = lid_json_fail (at, error, "is missing");
  return FALSE;
}

/**
 * lid_board_json_text:
 * @up: an object
 * @name: a member
 * @needed: whether it must be there
 * @out: (inout) (transfer full): a text, never empty, without control characters
 *
 * Returns: whether all is well
 */
gboolean
lid_board_json_text (
    const LidJsonAt *up, const char *name, gboolean needed, char **out, GError **error)
{
  LidJsonAt at = lid_json_member (up, name);
  const char *text;
  gboolean done;

  if (!wanted (&at, needed, &done, error))
    return done;
  if (!lid_json_get_text (&at, &text, error))
    return FALSE;
  if (*text == 0)
    return lid_json_fail (&at, error, "is empty; leave it out instead");
  if (g_utf8_strlen (text, -1) > LID_BOARD_JSON_MAX_TEXT)
    return lid_json_fail (&at, error, "is longer than %u characters", LID_BOARD_JSON_MAX_TEXT);
  for (const char *p = text; *p != 0; p++)
    if ((guchar)*p < 0x20)
      return lid_json_fail (&at, error, "holds a control character");
  g_free (*out);
  *out = g_strdup (text);
  return TRUE;
}

/* From 1 to @most. */
gboolean
lid_board_json_int (const LidJsonAt *up,
                    const char *name,
                    gboolean needed,
                    gint64 most,
                    gint64 *out,
                    GError **error)
{
  LidJsonAt at = lid_json_member (up, name);
  gboolean done;

  if (!wanted (&at, needed, &done, error))
    return done;
  return lid_json_get_int (&at, 1, most, out, error);
}

gboolean
lid_board_json_uint (
    const LidJsonAt *up, const char *name, gboolean needed, guint most, guint *out, GError **error)
{
  gint64 value = *out;

  if (!lid_board_json_int (up, name, needed, most, &value, error))
    return FALSE;
  *out = (guint)value;
  return TRUE;
}

gboolean
lid_board_json_bool (const LidJsonAt *up, const char *name, gboolean *out, GError **error)
{
  LidJsonAt at = lid_json_member (up, name);

  return !lid_json_there (&at) || lid_json_get_bool (&at, out, error);
}

/**
 * lid_board_json_mm:
 * @hundredths: (inout): millimetres as hundredths
 */
gboolean
lid_board_json_mm (const LidJsonAt *up, const char *name, gint32 *hundredths, GError **error)
{
  LidJsonAt at = lid_json_member (up, name);
  double mm;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_get_double (&at, 1, 1000, &mm, error))
    return FALSE;
  *hundredths = (gint32)lround (mm * 100);
  return TRUE;
}

static gboolean
unknown_word (const LidJsonAt *at, const char *text, const char *words, GError **error)
{
  return lid_json_fail (at, error, "“%.60s” is not a word this place has; it takes %s", text,
                        words);
}

/**
 * lid_board_json_word:
 * @words: the words taken, NULL-terminated
 * @out: (inout): the word's index
 */
gboolean
lid_board_json_word (const LidJsonAt *up,
                     const char *name,
                     gboolean needed,
                     const char *const *words,
                     guint *out,
                     GError **error)
{
  LidJsonAt at = lid_json_member (up, name);
  g_autofree char *all = NULL;
  const char *text;
  gboolean done;

  if (!wanted (&at, needed, &done, error))
    return done;
  if (!lid_json_get_text (&at, &text, error))
    return FALSE;
  for (guint i = 0; words[i] != NULL; i++)
    if (g_strcmp0 (words[i], text) == 0)
      {
        *out = i;
        return TRUE;
      }
  all = g_strjoinv (", ", (char **)words);
  return unknown_word (&at, text, all, error);
}

/* A list of words, each once, as bits. */
static gboolean
read_set (const LidJsonAt *up,
          const char *name,
          const char *what,
          guint (*look_up) (const LidJsonAt *at, GError **error),
          guint32 *bits,
          GError **error)
{
  LidJsonAt at = lid_json_member (up, name);
  guint length;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_get_length (&at, 32, &length, error))
    return FALSE;
  if (length == 0)
    return lid_json_fail (&at, error, "names no %s; leave it out for “any”", what);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&at, i);
      guint bit = look_up (&one, error);

      if (bit == 0)
        return FALSE;
      if (*bits & bit)
        return lid_json_fail (&one, error, "stands here twice");
      *bits |= bit;
    }
  return TRUE;
}

static guint
look_up_kind (const LidJsonAt *at, GError **error)
{
  const char *text;
  LidKind kind;

  if (!lid_json_get_text (at, &text, error))
    return 0;
  kind = lid_kind_from_text (text);
  if (kind == LID_KIND_UNKNOWN)
    {
      unknown_word (at, text, "a kind: unbuffered, ecc-unbuffered, registered, load-reduced, …",
                    error);
      return 0;
    }
  return 1u << kind;
}

gboolean
lid_board_json_kinds (const LidJsonAt *up, const char *name, guint32 *bits, GError **error)
{
  return read_set (up, name, "kind", look_up_kind, bits, error);
}

static guint
look_up_generation (const LidJsonAt *at, GError **error)
{
  const char *text;
  LidGeneration generation;

  if (!lid_json_get_text (at, &text, error))
    return 0;
  generation = lid_generation_from_text (text);
  if (generation == LID_GENERATION_UNKNOWN
      || g_strcmp0 (text, lid_generation_to_text (generation)) != 0)
    {
      unknown_word (at, text, "a generation: DDR3, DDR4, DDR5, LPDDR5, …", error);
      return 0;
    }
  return 1u << generation;
}

gboolean
lid_board_json_generations (const LidJsonAt *up, const char *name, guint32 *bits, GError **error)
{
  return read_set (up, name, "generation", look_up_generation, bits, error);
}

static guint
look_up_voltage (const LidJsonAt *at, GError **error)
{
  gint64 mv;
  guint bit;

  if (!lid_json_get_int (at, 1, 10000, &mv, error))
    return 0;
  bit = lid_voltage_from_mv ((guint)mv);
  if (bit == 0)
    lid_json_fail (at, error, "no DDR generation runs at %d mV", (int)mv);
  return bit;
}

gboolean
lid_board_json_voltages (const LidJsonAt *up, const char *name, guint32 *bits, GError **error)
{
  return read_set (up, name, "voltage", look_up_voltage, bits, error);
}

/**
 * lid_board_json_range:
 * @least: (inout): and @most: (inout): set from one number or from [least, most]
 */
gboolean
lid_board_json_range (
    const LidJsonAt *up, const char *name, guint *least, guint *most, GError **error)
{
  LidJsonAt at = lid_json_member (up, name);
  gint64 low, high;
  guint length;

  if (!lid_json_there (&at))
    return TRUE;
  if (JSON_NODE_HOLDS_ARRAY (at.node))
    {
      LidJsonAt first = lid_json_element (&at, 0);
      LidJsonAt second = lid_json_element (&at, 1);

      if (!lid_json_get_length (&at, 2, &length, error)
          || !lid_json_get_int (&first, 1, 64, &low, error)
          || !lid_json_get_int (&second, 1, 64, &high, error))
        return FALSE;
      if (low > high)
        return lid_json_fail (&at, error, "must be written [least, most]");
    }
  else
    {
      if (!lid_json_get_int (&at, 1, 64, &low, error))
        return FALSE;
      high = low;
    }
  *least = (guint)low;
  *most = (guint)high;
  return TRUE;
}

/* The one generation of a set, LID_GENERATION_UNKNOWN when there are several. */
static LidGeneration
only_generation (guint32 bits)
{
  if (bits == 0 || (bits & (bits - 1)) != 0)
    return LID_GENERATION_UNKNOWN;
  return (LidGeneration)g_bit_nth_lsf (bits, -1);
}

/**
 * lid_board_json_snap:
 * @generations: bits of generations; of one alone, its steps count, else those of all
 *
 * Returns: the rate that is written as @mts
 */
LidRate
lid_board_json_snap (guint32 generations, guint mts)
{
  return lid_rate_snap (only_generation (generations), mts);
}

/**
 * lid_board_json_rate:
 * @generations: whose steps a value close to one is taken for (product.md 6, settled reading 5)
 * @out: (inout): the rate
 */
gboolean
lid_board_json_rate (const LidJsonAt *up,
                     const char *name,
                     gboolean needed,
                     guint32 generations,
                     LidRate *out,
                     GError **error)
{
  guint mts = 0;
  LidJsonAt at = lid_json_member (up, name);

  if (!lid_board_json_uint (up, name, needed, LID_RATE_MAX_MTS, &mts, error))
    return FALSE;
  if (lid_json_there (&at))
    *out = lid_board_json_snap (generations, mts);
  return TRUE;
}

/**
 * lid_board_json_length:
 * @length: (out): entries of a list, 0 when it is not there
 */
gboolean
lid_board_json_length (
    const LidJsonAt *up, const char *name, guint most, guint *length, GError **error)
{
  LidJsonAt at = lid_json_member (up, name);

  *length = 0;
  return !lid_json_there (&at) || lid_json_get_length (&at, most, length, error);
}

/**
 * lid_board_json_slot:
 * @at: a text, the id of a slot
 * @slot: (out): its index
 */
gboolean
lid_board_json_slot (const LidJsonAt *at, const LidBoard *board, guint *slot, GError **error)
{
  const char *text;

  if (!lid_json_get_text (at, &text, error))
    return FALSE;
  for (guint i = 0; i < board->n_slots; i++)
    if (g_strcmp0 (board->slots[i].id, text) == 0)
      {
        *slot = i;
        return TRUE;
      }
  return lid_json_fail (at, error, "there is no slot with the id “%.60s”", text);
}

/**
 * lid_board_json_slots:
 * @slots: (out) (transfer full): slots named by their ids, each once
 */
gboolean
lid_board_json_slots (const LidJsonAt *up,
                      const char *name,
                      const LidBoard *board,
                      guint **slots,
                      guint *n_slots,
                      GError **error)
{
  LidJsonAt at = lid_json_member (up, name);
  g_autofree guint *found = NULL;
  guint length;

  if (!lid_json_get_length (&at, board->n_slots, &length, error))
    return FALSE;
  if (length == 0)
    return lid_json_fail (&at, error, "names no slot");
  found = g_new (guint, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&at, i);

      if (!lid_board_json_slot (&one, board, &found[i], error))
        return FALSE;
      if (board->slots[found[i]].soldered != NULL)
        return lid_json_fail (&one, error, "is soldered memory, not a slot to fill");
      for (guint k = 0; k < i; k++)
        if (found[k] == found[i])
          return lid_json_fail (&one, error, "slot “%.60s” stands here twice",
                                board->slots[found[i]].id);
    }
  g_free (*slots);
  *slots = g_steal_pointer (&found);
  *n_slots = length;
  return TRUE;
}
