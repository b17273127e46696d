/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/generation.h"

static const char *const names[LID_N_GENERATIONS] = {
  [LID_GENERATION_DDR] = "DDR",
  [LID_GENERATION_DDR2] = "DDR2",
  [LID_GENERATION_DDR2_FB] = "DDR2 FB-DIMM",
  [LID_GENERATION_DDR3] = "DDR3",
  [LID_GENERATION_DDR4] = "DDR4",
  [LID_GENERATION_DDR5] = "DDR5",
  [LID_GENERATION_LPDDR] = "LPDDR",
  [LID_GENERATION_LPDDR2] = "LPDDR2",
  [LID_GENERATION_LPDDR3] = "LPDDR3",
  [LID_GENERATION_LPDDR4] = "LPDDR4",
  [LID_GENERATION_LPDDR5] = "LPDDR5",
  [LID_GENERATION_HBM] = "HBM",
  [LID_GENERATION_HBM2] = "HBM2",
  [LID_GENERATION_HBM3] = "HBM3",
};

/**
 * lid_generation_to_text:
 * @generation: a generation
 *
 * Returns: (nullable): the name as the standard prints it, or NULL when not told
 */
const char *
lid_generation_to_text (LidGeneration generation)
{
  g_return_val_if_fail ((guint)generation < LID_N_GENERATIONS, NULL);
  return names[generation];
}

/**
 * lid_generation_from_text:
 * @text: (nullable): a name as the standard prints it
 *
 * Returns: the generation, or LID_GENERATION_UNKNOWN when the text names none
 */
LidGeneration
lid_generation_from_text (const char *text)
{
  if (text == NULL)
    return LID_GENERATION_UNKNOWN;
  for (guint i = 1; i < LID_N_GENERATIONS; i++)
    if (g_ascii_strcasecmp (text, names[i]) == 0)
      return i;
  return LID_GENERATION_UNKNOWN;
}

/**
 * lid_generation_is_low_power:
 * @generation: a generation
 *
 * Returns: whether it is one of the LPDDR types, which are soldered, never fitted in a slot
 */
gboolean
lid_generation_is_low_power (LidGeneration generation)
{
  return generation >= LID_GENERATION_LPDDR && generation <= LID_GENERATION_LPDDR5;
}
