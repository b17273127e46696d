/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/words.h"

#include "base/text.h"
#include "facts/fact.h"

#include <glib/gi18n-lib.h>

/**
 * lid_words_generations:
 * @generations: bits, 1 << LidGeneration
 *
 * Returns: (transfer full): "DDR3 and DDR4"
 */
char *
lid_words_generations (guint32 generations)
{
  const char *words[LID_N_GENERATIONS];
  guint n = 0;

  for (guint i = 1; i < LID_N_GENERATIONS; i++)
    if (generations & (1u << i))
      words[n++] = lid_generation_to_text (i);
  return lid_text_join (words, n, LID_N_GENERATIONS);
}

/**
 * lid_words_kinds:
 * @kinds: bits, 1 << LidKind
 *
 * Returns: (transfer full): "registered and load-reduced"
 */
char *
lid_words_kinds (guint32 kinds)
{
  const char *words[LID_N_KINDS];
  guint n = 0;

  for (guint i = 1; i < LID_N_KINDS; i++)
    if (kinds & (1u << i))
      words[n++] = lid_kind_to_words (i);
  return lid_text_join (words, n, LID_N_KINDS);
}

/**
 * lid_words_voltages:
 * @voltages: LidVoltages
 *
 * Returns: (transfer full): "1.35 V and 1.5 V", highest last
 */
char *
lid_words_voltages (guint32 voltages)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  for (guint mv = 1100; mv <= 2500; mv += 50)
    if (voltages & lid_voltage_from_mv (mv))
      g_ptr_array_add (words, g_strdup_printf (mv % 100 == 0 ? "%u.%u V" : "%u.%02u V", mv / 1000,
                                               mv % 1000 / (mv % 100 == 0 ? 100 : 10)));
  return lid_text_join ((const char *const *)words->pdata, words->len, 8);
}
