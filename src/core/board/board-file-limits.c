/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file-limits.c — limits with their basis, firmware levels, and by what names a machine of
 * this board is known. */
#include "board/board-file-private.h"
#include "board/board-names.h"
#include "board/board-words.h"

#include <string.h>

#define MOST_MIB (G_GINT64_CONSTANT (1) << 40)

static gboolean
is_date (const char *text)
{
  g_autoptr (GDate) date = g_date_new ();
  guint year = 0, month = 0, day = 0;

  if (strlen (text) != 10 || text[4] != '-' || text[7] != '-')
    return FALSE;
  for (guint i = 0; i < 10; i++)
    if (i != 4 && i != 7 && !g_ascii_isdigit (text[i]))
      return FALSE;
  year = (guint)g_ascii_strtoull (text, NULL, 10);
  month = (guint)g_ascii_strtoull (text + 5, NULL, 10);
  day = (guint)g_ascii_strtoull (text + 8, NULL, 10);
  return month >= 1 && month <= 12 && day >= 1 && day <= 31 && year >= 1
         && g_date_valid_dmy ((GDateDay)day, (GDateMonth)month, (GDateYear)year);
}

/* A bench-proven limit that does not say who, when and with which firmware is a rumour. */
static gboolean
check_basis (const LidBoard *board, const LidLimit *limit, const LidJsonAt *at, GError **error)
{
  LidJsonAt firmware = lid_json_member (at, "firmware");
  LidJsonAt when = lid_json_member (at, "when");
  gboolean proven = limit->basis == LID_BENCH_PROVEN;

  if (proven && (limit->who == NULL || limit->when == NULL || limit->firmware == NULL))
    return lid_json_fail (at, error, "a bench-proven limit needs who, when and firmware");
  if (proven && !is_date (limit->when))
    return lid_json_fail (&when, error, "must be a date as 2026-03-31");
  if (proven && board->n_firmware > 0
      && lid_board_find_firmware (board, limit->firmware) == LID_NOWHERE)
    return lid_json_fail (&firmware, error, "the board has no firmware level “%.60s”",
                          limit->firmware);
  if (!proven && (limit->who != NULL || limit->when != NULL || limit->firmware != NULL))
    return lid_json_fail (at, error, "who, when and firmware belong to a bench-proven limit");
  if (!proven && limit->source == NULL)
    return lid_json_fail (at, error, "a limit that is not bench-proven needs its source");
  return TRUE;
}

static gboolean
read_limit (LidBoard *board, const LidJsonAt *at, GError **error)
{
  static const char *const names[]
      = { "what", "kinds", "mib", "basis", "source", "who", "when", "firmware", NULL };
  LidLimit *limit = &board->limits[board->n_limits++];
  guint what = 0, basis = 0;

  if (!lid_json_only (at, names, error)
      || !lid_board_json_word (at, "what", TRUE, lid_board_words_whats, &what, error)
      || !lid_board_json_kinds (at, "kinds", &limit->kinds, error)
      || !lid_board_json_int (at, "mib", TRUE, MOST_MIB, &limit->mib, error)
      || !lid_board_json_word (at, "basis", TRUE, lid_board_words_bases, &basis, error)
      || !lid_board_json_text (at, "source", FALSE, &limit->source, error)
      || !lid_board_json_text (at, "who", FALSE, &limit->who, error)
      || !lid_board_json_text (at, "when", FALSE, &limit->when, error)
      || !lid_board_json_text (at, "firmware", FALSE, &limit->firmware, error))
    return FALSE;
  limit->what = what;
  limit->basis = basis;
  return check_basis (board, limit, at, error);
}

/* The facts a firmware level may bring, and the most each may be. */
static const struct
{
  LidFact fact;
  gint64 most;
} gift_facts[] = { { LID_FACT_CAPACITY, 1 << 30 },
                   { LID_FACT_RANKS, 64 },
                   { LID_FACT_LOGICAL_RANKS, 64 },
                   { LID_FACT_RATED, LID_RATE_MAX_MTS },
                   { LID_FACT_DIE, 1024 } };

static gboolean
read_gift (const LidBoard *board, LidFirmwareLevel *level, const LidJsonAt *at, GError **error)
{
  static const char *const names[] = { "fact", "at_least", "non_binary", NULL };
  LidJsonAt fact_at = lid_json_member (at, "fact"), least_at = lid_json_member (at, "at_least");
  LidJsonAt binary_at = lid_json_member (at, "non_binary");
  LidFirmwareGift gift = { .fact = LID_FACT_CAPACITY };
  const char *text;
  guint stack = 0;
  gint64 value;

  if (!lid_json_only (at, names, error)
      || !lid_board_json_bool (at, "non_binary", &gift.non_binary, error))
    return FALSE;
  if (lid_json_there (&binary_at) && !gift.non_binary)
    return lid_json_fail (&binary_at, error, "is true, or left out");
  if (gift.non_binary && (lid_json_there (&fact_at) || lid_json_there (&least_at)))
    return lid_json_fail (at, error, "either non_binary, or a fact and at_least");
  if (!gift.non_binary)
    {
      guint i = 0;

      if (!lid_json_get_text (&fact_at, &text, error))
        return FALSE;
      while (i < G_N_ELEMENTS (gift_facts)
             && strcmp (lid_fact_to_text (gift_facts[i].fact), text) != 0)
        i++;
      if (i < G_N_ELEMENTS (gift_facts))
        {
          if (!lid_json_get_int (&least_at, 1, gift_facts[i].most, &value, error))
            return FALSE;
          gift.fact = gift_facts[i].fact;
          gift.at_least = gift.fact == LID_FACT_RATED
                              ? (gint32)lid_board_json_snap (board->generations, (guint)value)
                              : (gint32)value;
        }
      else if (strcmp (text, lid_fact_to_text (LID_FACT_STACK)) == 0)
        {
          if (!lid_board_json_word (at, "at_least", TRUE, lid_board_words_stacks, &stack, error))
            return FALSE;
          if (stack == LID_STACK_NONE)
            return lid_json_fail (&least_at, error, "“none” is what every firmware knows");
          gift.fact = LID_FACT_STACK;
          gift.at_least = (gint32)stack;
        }
      else
        return lid_json_fail (&fact_at, error, "firmware cannot bring “%.60s”", text);
    }
  g_array_append_val (level->gifts, gift);
  return TRUE;
}

static gboolean
read_level (LidBoard *board, const LidJsonAt *at, GError **error)
{
  static const char *const names[] = { "level", "ceiling_mts", "brings", "source", NULL };
  LidJsonAt brings = lid_json_member (at, "brings"), name = lid_json_member (at, "level");
  LidFirmwareLevel *level = &board->firmware[board->n_firmware++];
  guint length;

  level->gifts = g_array_new (FALSE, TRUE, sizeof (LidFirmwareGift));
  if (!lid_json_only (at, names, error)
      || !lid_board_json_text (at, "level", TRUE, &level->level, error)
      || !lid_board_json_rate (at, "ceiling_mts", FALSE, board->generations, &level->ceiling, error)
      || !lid_board_json_text (at, "source", TRUE, &level->source, error)
      || !lid_board_json_length (at, "brings", 32, &length, error))
    return FALSE;
  for (guint i = 0; i + 1 < board->n_firmware; i++)
    if (g_strcmp0 (board->firmware[i].level, level->level) == 0)
      return lid_json_fail (&name, error, "firmware level “%.60s” stands here twice", level->level);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&brings, i);

      if (!read_gift (board, level, &one, error))
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_board_file_limits_read:
 * @board: a board whose layout and rules are read
 * @root: the file's root object
 *
 * Returns: whether limits and firmware levels could be read
 */
gboolean
lid_board_file_limits_read (LidBoard *board, const LidJsonAt *root, GError **error)
{
  LidJsonAt limits = lid_json_member (root, "limits");
  LidJsonAt firmware = lid_json_member (root, "firmware");
  guint n_limits, n_firmware;

  if (!lid_board_json_length (root, "limits", 128, &n_limits, error)
      || !lid_board_json_length (root, "firmware", 128, &n_firmware, error))
    return FALSE;
  board->limits = g_new0 (LidLimit, n_limits);
  board->firmware = g_new0 (LidFirmwareLevel, n_firmware);
  for (guint i = 0; i < n_firmware; i++)
    {
      LidJsonAt at = lid_json_element (&firmware, i);

      if (!read_level (board, &at, error))
        return FALSE;
    }
  for (guint i = 0; i < n_limits; i++)
    {
      LidJsonAt at = lid_json_element (&limits, i);

      if (!read_limit (board, &at, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_spellings (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "format", "slot", "locator", "bank", NULL };
  LidJsonAt list = lid_json_member (root, "spellings");
  guint length;

  if (!lid_board_json_length (root, "spellings", 4 * LID_BOARD_MAX_SLOTS, &length, error))
    return FALSE;
  board->spellings = g_new0 (LidSpelling, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt at = lid_json_element (&list, i), slot = lid_json_member (&at, "slot");
      LidSpelling *spelling = &board->spellings[board->n_spellings++];

      if (!lid_json_only (&at, names, error)
          || !lid_board_json_text (&at, "format", TRUE, &spelling->format, error)
          || !lid_board_json_slot (&slot, board, &spelling->slot, error)
          || !lid_board_json_text (&at, "locator", FALSE, &spelling->locator, error)
          || !lid_board_json_text (&at, "bank", FALSE, &spelling->bank, error))
        return FALSE;
      if (spelling->locator == NULL && spelling->bank == NULL)
        return lid_json_fail (&at, error, "spells nothing: locator and bank are missing");
    }
  return TRUE;
}

static gboolean
read_hash (const LidBoard *board, LidFingerprint *print, const LidJsonAt *at, GError **error)
{
  LidJsonAt names = lid_json_member (at, "names");

  if (!lid_board_json_text (at, "names", FALSE, &print->names, error))
    return FALSE;
  if (print->names == NULL)
    {
      print->names = lid_board_names_of_spellings (board, TRUE);
      if (print->names == NULL)
        return lid_json_fail (&names, error,
                              "is missing, and the smbios spellings do not name every slot once");
    }
  if (strlen (print->names) != 64 || strspn (print->names, "0123456789abcdef") != 64)
    return lid_json_fail (&names, error, "must be a SHA-256 of 64 small hex digits");
  return TRUE;
}

/**
 * lid_board_file_names_read:
 * @board: a board whose layout is read
 * @root: the file's root object
 *
 * Returns: whether spellings and fingerprints could be read
 */
gboolean
lid_board_file_names_read (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "product", "board", "slots", "arrays", "names", NULL };
  LidJsonAt list = lid_json_member (root, "fingerprints");
  guint length;

  if (!read_spellings (board, root, error)
      || !lid_board_json_length (root, "fingerprints", 256, &length, error))
    return FALSE;
  board->fingerprints = g_new0 (LidFingerprint, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt at = lid_json_element (&list, i);
      LidJsonAt arrays = lid_json_member (&at, "arrays");
      LidFingerprint *print = &board->fingerprints[board->n_fingerprints++];
      gint64 n_arrays = 0;

      print->n_slots = board->n_slots;
      if (!lid_json_only (&at, names, error)
          || !lid_board_json_text (&at, "product", FALSE, &print->product, error)
          || !lid_board_json_text (&at, "board", FALSE, &print->board, error)
          || !lid_board_json_uint (&at, "slots", FALSE, LID_BOARD_MAX_SLOTS, &print->n_slots, error)
          || !lid_json_get_int (&arrays, 0, LID_BOARD_MAX_SLOTS, &n_arrays, error)
          || !read_hash (board, print, &at, error))
        return FALSE;
      print->n_arrays = (guint)n_arrays;
    }
  return TRUE;
}
