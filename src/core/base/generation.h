/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* A memory generation as the standards name it. LID_GENERATION_UNKNOWN stands for SMBIOS "Other",
 * "Unknown", "DRAM", "SDRAM" and values out of the table: not told. */
typedef enum
{
  LID_GENERATION_UNKNOWN,
  LID_GENERATION_DDR,
  LID_GENERATION_DDR2,
  LID_GENERATION_DDR2_FB,
  LID_GENERATION_DDR3,
  LID_GENERATION_DDR4,
  LID_GENERATION_DDR5,
  LID_GENERATION_LPDDR,
  LID_GENERATION_LPDDR2,
  LID_GENERATION_LPDDR3,
  LID_GENERATION_LPDDR4,
  LID_GENERATION_LPDDR5,
  LID_GENERATION_HBM,
  LID_GENERATION_HBM2,
  LID_GENERATION_HBM3,
  LID_N_GENERATIONS
} LidGeneration;

const char *lid_generation_to_text (LidGeneration generation);
LidGeneration lid_generation_from_text (const char *text);
gboolean lid_generation_is_low_power (LidGeneration generation);
