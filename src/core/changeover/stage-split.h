/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/ratio.h"
#include "changeover/stages.h"
#include "job/changes.h"

/* Private: what stage-split.c (one way, and how good it is) and stage-search.c (which ways are
 * tried) share. */
#define LID_STAGE_EXACT 8u /* slots in question up to which every way is tried */
#define LID_STAGE_MOST_TRIES 4000u

typedef enum
{
  LID_STAGE_LEFT,
  LID_STAGE_DONE,
  LID_STAGE_EMPTIED,
  LID_STAGE_N_OPTIONS
} LidStageOption;

/* How good a way is. */
typedef struct
{
  gboolean legal;
  gint64 usable;
  LidRatio whole;
  guint hands; /* over both visits */
  guint loses; /* findings of that grade, tonight */
  guint later; /* hands of the second visit */
} LidStageValue;

typedef struct
{
  const LidBoard *board;
  const LidPopulation *from, *to;
  GHashTable *missing;
  LidChanges *changes;
  guint n; /* slots in question */
  guint *slots;
  guint *order; /* of them, as the board has them fitted; the others last */
  guint8 *best; /* LidStageOption of each */
  LidStageValue value;
  LidPopulation *population; /* of the best way */
  guint tries;
} LidStageSplit;

gboolean lid_stage_split_asks (const LidSlotChange *change);
gboolean lid_stage_split_try (LidStageSplit *split, const guint8 *options);
void lid_stage_search (LidStageSplit *split);
