/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file-soldered.c — memory that is part of the board, written by the fact words of
 * facts/fact.c. */
#include "board/board-file-private.h"
#include "board/board-words.h"

#include <math.h>

static gboolean
read_count (LidModule *module, LidFact fact, gint64 most, const LidJsonAt *at, GError **error)
{
  gint64 value;

  if (!lid_json_get_int (at, 0, most, &value, error))
    return FALSE;
  lid_module_set (module, fact, (gint32)value, LID_BASIS_TOLD);
  return TRUE;
}

static gboolean
read_sets (LidModule *module, const LidJsonAt *up, GError **error)
{
  guint32 voltages = 0;
  gint32 height = 0;
  guint stack = G_MAXUINT;
  LidRate rate = LID_RATE_UNKNOWN;
  guint32 generation
      = lid_module_knows (module, LID_FACT_GENERATION) ? 1u << lid_module_generation (module) : 0;

  if (!lid_board_json_voltages (up, "voltages_mv", &voltages, error)
      || !lid_board_json_mm (up, "height_mm", &height, error)
      || !lid_board_json_word (up, "stack", FALSE, lid_board_words_stacks, &stack, error)
      || !lid_board_json_rate (up, "rated_mts", FALSE, generation, &rate, error))
    return FALSE;
  if (voltages != 0)
    lid_module_set (module, LID_FACT_VOLTAGE, (gint32)voltages, LID_BASIS_TOLD);
  if (height != 0)
    lid_module_set (module, LID_FACT_HEIGHT, height, LID_BASIS_TOLD);
  if (stack != G_MAXUINT)
    lid_module_set (module, LID_FACT_STACK, (gint32)stack, LID_BASIS_TOLD);
  if (rate != LID_RATE_UNKNOWN)
    lid_module_set (module, LID_FACT_RATED, (gint32)rate, LID_BASIS_TOLD);
  return TRUE;
}

static gboolean
read_words (LidModule *module, const LidJsonAt *up, GError **error)
{
  LidJsonAt generation = lid_json_member (up, "generation"), kind = lid_json_member (up, "kind");
  LidJsonAt form = lid_json_member (up, "form"), ecc = lid_json_member (up, "ecc");
  const char *text;
  gboolean yes;

  if (lid_json_there (&generation))
    {
      if (!lid_json_get_text (&generation, &text, error))
        return FALSE;
      if (lid_generation_from_text (text) == LID_GENERATION_UNKNOWN)
        return lid_json_fail (&generation, error, "“%s” is not a generation", text);
      lid_module_set (module, LID_FACT_GENERATION, (gint32)lid_generation_from_text (text),
                      LID_BASIS_TOLD);
    }
  if (lid_json_there (&kind))
    {
      if (!lid_json_get_text (&kind, &text, error))
        return FALSE;
      if (lid_kind_from_text (text) == LID_KIND_UNKNOWN)
        return lid_json_fail (&kind, error, "“%s” is not a kind", text);
      lid_module_set (module, LID_FACT_KIND, (gint32)lid_kind_from_text (text), LID_BASIS_TOLD);
    }
  if (lid_json_there (&form))
    {
      if (!lid_json_get_text (&form, &text, error))
        return FALSE;
      if (lid_form_from_text (text) == LID_FORM_UNKNOWN)
        return lid_json_fail (&form, error, "“%s” is not a form", text);
      lid_module_set (module, LID_FACT_FORM, (gint32)lid_form_from_text (text), LID_BASIS_TOLD);
    }
  if (lid_json_there (&ecc))
    {
      if (!lid_json_get_bool (&ecc, &yes, error))
        return FALSE;
      lid_module_set (module, LID_FACT_ECC, yes, LID_BASIS_TOLD);
    }
  return TRUE;
}

/**
 * lid_board_file_soldered_read:
 * @at: the "soldered" object of a slot
 *
 * Returns: (transfer full) (nullable): what is soldered there, its facts told by the board
 */
LidModule *
lid_board_file_soldered_read (const LidJsonAt *at, GError **error)
{
  static const char *const names[] = { "generation", "kind",        "form",          "capacity_mib",
                                       "ranks",      "stack",       "chip_width",    "rated_mts",
                                       "ecc",        "check_bits",  "die_gbit",      "height_mm",
                                       "part",       "voltages_mv", "logical_ranks", NULL };
  static const struct
  {
    LidFact fact;
    gint64 most;
  } counts[] = { { LID_FACT_CAPACITY, 1 << 30 }, { LID_FACT_RANKS, 64 },
                 { LID_FACT_LOGICAL_RANKS, 64 }, { LID_FACT_CHIP_WIDTH, 64 },
                 { LID_FACT_CHECK_BITS, 64 },    { LID_FACT_DIE, 1024 } };
  g_autoptr (LidModule) module = lid_module_new ();

  if (!lid_json_only (at, names, error) || !read_words (module, at, error)
      || !lid_board_json_text (at, "part", FALSE, &module->part, error)
      || !read_sets (module, at, error))
    return NULL;
  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    {
      LidJsonAt member = lid_json_member (at, lid_fact_to_text (counts[i].fact));

      if (lid_json_there (&member)
          && !read_count (module, counts[i].fact, counts[i].most, &member, error))
        return NULL;
    }
  return g_steal_pointer (&module);
}
