/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file-rules.c — what the board takes, what may be mixed, the order of fitting, and
 * regions. Modes: board-file-modes.c; rates and ranks: board-file-rates.c; limits and firmware:
 * board-file-limits.c. */
#include "board/board-file-private.h"
#include "board/board-words.h"

#include <math.h>

/* Sizes of modules that the maker's documents list. */
static gboolean
read_sizes (LidBoard *board, const LidJsonAt *takes, GError **error)
{
  static const char *const names[] = { "mib", "source", NULL };
  LidJsonAt at = lid_json_member (takes, "sizes"), list = lid_json_member (&at, "mib");
  guint length;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error) || !lid_board_json_length (&at, "mib", 64, &length, error)
      || !lid_board_json_text (&at, "source", TRUE, &board->sizes_source, error))
    return FALSE;
  if (length == 0)
    return lid_json_fail (&at, error, "needs at least one size in “mib”");
  board->sizes = g_new0 (gint64, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&list, i);

      if (!lid_json_get_int (&one, 1, G_MAXINT32, &board->sizes[board->n_sizes++], error))
        return FALSE;
    }
  return TRUE;
}

/* Where the kinds tell the form it need not be said, and nothing else can be. */
static gboolean
read_form (LidBoard *board, const LidJsonAt *takes, GError **error)
{
  static const char *const words[] = { "dimm", "so-dimm", NULL };
  LidJsonAt at = lid_json_member (takes, "form");
  guint word = 0;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_board_json_word (takes, "form", TRUE, words, &word, error))
    return FALSE;
  board->form = lid_form_from_text (words[word]);
  for (guint kind = 1; kind < LID_N_KINDS; kind++)
    if ((board->kinds & (1u << kind)) != 0 && lid_kind_form (kind) != board->form)
      return lid_json_fail (&at, error, "the board takes “%s”, which is another form",
                            lid_kind_to_text (kind));
  return TRUE;
}

static gboolean
read_takes (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[]
      = { "generations", "kinds",      "form",  "voltages_mv", "max_height_mm",
          "ecc",         "persistent", "sizes", NULL };
  static const char *const ecc_words[] = { "free", "needed", NULL };
  LidJsonAt at = lid_json_member (root, "takes");
  guint ecc = 0;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error)
      || !lid_board_json_generations (&at, "generations", &board->generations, error)
      || !lid_board_json_kinds (&at, "kinds", &board->kinds, error)
      || !read_form (board, &at, error)
      || !lid_board_json_voltages (&at, "voltages_mv", &board->voltages, error)
      || !lid_board_json_mm (&at, "max_height_mm", &board->max_height, error)
      || !lid_board_json_word (&at, "ecc", FALSE, ecc_words, &ecc, error)
      || !lid_board_json_bool (&at, "persistent", &board->persistent_taken, error)
      || !read_sizes (board, &at, error))
    return FALSE;
  board->needs_ecc = ecc == 1;
  return TRUE;
}

/* "grade", and "stops" where the grade is "stops": the machine unless told otherwise. */
static gboolean
read_grade (const LidJsonAt *at, gboolean needed, LidGrade *grade, LidStops *stops, GError **error)
{
  LidJsonAt where = lid_json_member (at, "stops");
  guint word = *grade, what = LID_STOPS_MACHINE;

  if (!lid_board_json_word (at, "grade", needed, lid_board_words_grades, &word, error)
      || !lid_board_json_word (at, "stops", FALSE, lid_board_words_stops, &what, error))
    return FALSE;
  if (lid_json_there (&where) && (word != LID_GRADE_STOPS || what == LID_STOPS_NOTHING))
    return lid_json_fail (&where, error,
                          "goes only with the grade “stops”, and says “slots” or “machine”");
  *grade = word;
  if (stops != NULL)
    *stops = word == LID_GRADE_STOPS ? what : LID_STOPS_NOTHING;
  return TRUE;
}

static gboolean
read_mix (LidBoard *board, const LidJsonAt *at, GError **error)
{
  static const char *const names[]
      = { "mix", "allowed", "scope", "most", "grade", "stops", "source", NULL };
  LidJsonAt which = lid_json_member (at, "mix"), allowed = lid_json_member (at, "allowed");
  LidJsonAt scope_at = lid_json_member (at, "scope"), grade_at = lid_json_member (at, "grade");
  guint mix = 0, scope = LID_SCOPE_MACHINE;
  LidMixRule *rule;

  if (!lid_json_only (at, names, error)
      || !lid_board_json_word (at, "mix", TRUE, lid_board_words_mixes, &mix, error))
    return FALSE;
  rule = &board->mixes[mix];
  if (rule->told)
    return lid_json_fail (&which, error, "stands in this list twice");
  rule->told = TRUE;
  rule->most_classes = 1;
  rule->grade = LID_GRADE_STOPS;
  if (!lid_board_json_bool (at, "allowed", &rule->allowed, error)
      || !lid_board_json_text (at, "source", TRUE, &rule->source, error))
    return FALSE;
  if (rule->allowed)
    return (!lid_json_there (&scope_at) && !lid_json_there (&grade_at))
           || lid_json_fail (&allowed, error, "a mix that is allowed has no scope and no grade");
  if (!lid_board_json_word (at, "scope", TRUE, lid_board_words_scopes, &scope, error)
      || !lid_board_json_uint (at, "most", FALSE, LID_MIX_MOST_CLASSES, &rule->most_classes, error)
      || !read_grade (at, TRUE, &rule->grade, &rule->stops, error))
    return FALSE;
  rule->scope = scope;
  if (scope == LID_SCOPE_MODULE)
    return lid_json_fail (&scope_at, error, "one module cannot be mixed with itself");
  return TRUE;
}

static gboolean
read_mixing (LidBoard *board, const LidJsonAt *root, GError **error)
{
  LidJsonAt at = lid_json_member (root, "mixing");
  guint length;

  if (!lid_board_json_length (root, "mixing", LID_N_MIXES, &length, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&at, i);

      if (!read_mix (board, &one, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_order (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const order_names[] = { "slots", "grade", "source", NULL };
  static const char *const lone_names[] = { "slots", "grade", "stops", "source", NULL };
  LidJsonAt order = lid_json_member (root, "order"), lone = lid_json_member (root, "lone");
  LidJsonAt grade = lid_json_member (&order, "grade");

  if (lid_json_there (&order)
      && (!lid_json_only (&order, order_names, error)
          || !lid_board_json_slots (&order, "slots", board, &board->order, &board->n_order, error)
          || !lid_board_json_text (&order, "source", FALSE, &board->order_source, error)
          || !read_grade (&order, FALSE, &board->order_grade, NULL, error)))
    return FALSE;
  if (lid_json_there (&grade) && board->order_grade == LID_GRADE_STOPS)
    return lid_json_fail (&grade, error,
                          "the order of fitting loses or is noted; only the first slot of a "
                          "channel stops what is behind it");
  return !lid_json_there (&lone)
         || (lid_json_only (&lone, lone_names, error)
             && lid_board_json_slots (&lone, "slots", board, &board->lone, &board->n_lone, error)
             && lid_board_json_text (&lone, "source", FALSE, &board->lone_source, error)
             && read_grade (&lone, FALSE, &board->lone_grade, &board->lone_stops, error));
}

/* How many modules every processor needs, where one is not enough. */
static gboolean
read_own_modules (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "least", "source", NULL };
  LidJsonAt at = lid_json_member (root, "own_modules");

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error)
      || !lid_board_json_uint (&at, "least", TRUE, 64, &board->own_modules, error)
      || !lid_board_json_text (&at, "source", TRUE, &board->own_modules_source, error))
    return FALSE;
  if (board->own_memory != LID_OWN_MEMORY_REQUIRED)
    return lid_json_fail (&at, error, "is only told where “own_memory” is “required”");
  return TRUE;
}

static gboolean
read_balance (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "grade", NULL }, *const of_larger[]
                                                        = { "grade", "source", NULL };
  LidJsonAt larger = lid_json_member (root, "larger_first");
  LidJsonAt equal = lid_json_member (root, "equal_sockets");
  guint own = board->own_memory;

  board->larger_first_told = lid_json_there (&larger);
  board->equal_sockets_told = lid_json_there (&equal);
  if (!lid_board_json_word (root, "own_memory", FALSE, lid_board_words_own, &own, error))
    return FALSE;
  board->own_memory = own;
  if (!read_own_modules (board, root, error))
    return FALSE;
  return (!board->larger_first_told
          || (lid_json_only (&larger, of_larger, error)
              && lid_board_json_text (&larger, "source", FALSE, &board->larger_first_source, error)
              && read_grade (&larger, FALSE, &board->larger_first_grade, NULL, error)))
         && (!board->equal_sockets_told
             || (lid_json_only (&equal, names, error)
                 && read_grade (&equal, FALSE, &board->equal_sockets_grade, NULL, error)));
}

static gboolean
read_numa (LidBoard *board, const LidJsonAt *root, GError **error)
{
  LidJsonAt at = lid_json_member (root, "numa"), of = lid_json_member (root, "numa_source");
  guint length;

  if (!lid_board_json_length (root, "numa", 8, &length, error))
    return FALSE;
  board->numa = g_new0 (guint, length);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&at, i);
      gint64 n;

      if (!lid_json_get_int (&one, 1, 16, &n, error))
        return FALSE;
      for (guint k = 0; k < i; k++)
        if (board->numa[k] == (guint)n)
          return lid_json_fail (&one, error, "stands here twice");
      board->numa[board->n_numa++] = (guint)n;
    }
  if (!lid_board_json_text (root, "numa_source", FALSE, &board->numa_source, error))
    return FALSE;
  return board->numa_source == NULL || board->n_numa > 0
         || lid_json_fail (&of, error, "needs the splits that “numa” lists");
}

/* Splits in which the firmware wants all channels of a node alike: shared/facts/population.md 4.5.
 */
static gboolean
read_numa_equal (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "nodes", "source", NULL };
  LidJsonAt at = lid_json_member (root, "numa_equal"), nodes = lid_json_member (&at, "nodes");
  guint length;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error) || !lid_board_json_length (&at, "nodes", 8, &length, error)
      || !lid_board_json_text (&at, "source", TRUE, &board->numa_equal_source, error))
    return FALSE;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt one = lid_json_element (&nodes, i);
      gboolean offered = FALSE;
      gint64 n;

      if (!lid_json_get_int (&one, 1, 16, &n, error))
        return FALSE;
      for (guint k = 0; k < board->n_numa; k++)
        offered = offered || board->numa[k] == (guint)n;
      if (!offered)
        return lid_json_fail (&one, error, "is not one of the splits that “numa” lists");
      board->numa_equal |= 1u << n;
    }
  return TRUE;
}

static gboolean
read_efficiency (LidBoard *board, const LidJsonAt *root, GError **error)
{
  static const char *const names[] = { "value", "source", NULL };
  LidJsonAt at = lid_json_member (root, "efficiency"), value = lid_json_member (&at, "value");
  double share;

  if (!lid_json_there (&at))
    return TRUE;
  if (!lid_json_only (&at, names, error) || !lid_json_get_double (&value, 0.1, 1, &share, error)
      || !lid_board_json_text (&at, "source", TRUE, &board->efficiency_source, error))
    return FALSE;
  board->efficiency = (guint)lround (share * 10000);
  return TRUE;
}

/**
 * lid_board_file_rules_read:
 * @board: a board whose layout is read
 * @root: the file's root object
 *
 * Returns: whether the rules could be read
 */
gboolean
lid_board_file_rules_read (LidBoard *board, const LidJsonAt *root, GError **error)
{
  return read_takes (board, root, error) && lid_board_airflow_read (board, root, error)
         && read_mixing (board, root, error) && read_order (board, root, error)
         && read_balance (board, root, error) && read_numa (board, root, error)
         && read_numa_equal (board, root, error) && read_efficiency (board, root, error);
}
