/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/ratio.h"
#include "checks/finding.h"

/* The one call everything above uses: a population in; findings and figures out. Definitions:
 * product.md 6 and 7. */

typedef enum
{
  LID_CAP_MODULE,
  LID_CAP_TABLE,
  LID_CAP_PROCESSOR,
  LID_CAP_BOARD,
  LID_CAP_FIRMWARE,
  LID_CAP_SETUP,
  LID_CAP_INVENTORY,
  LID_N_CAPS
} LidCap;

/* One limit of the running rate, the least of its kind. */
typedef struct
{
  LidCap what;
  LidRate rate; /* LID_RATE_UNKNOWN: the limit exists, its value is not told */
  gboolean binding;
} LidRateLimit;

typedef struct
{
  gint64 mib;
  guint ways;
} LidRegion;

typedef struct
{
  gint64 usable_mib;
  guint modules; /* usable ones */
} LidChannelFigures;

typedef struct
{
  LidRate running;               /* LID_RATE_UNKNOWN: null */
  guint first_region, n_regions; /* into LidFigures.regions */
} LidSocketFigures;

typedef struct
{
  gint64 fitted_mib;   /* always a number; persistent left out */
  gboolean starts;     /* FALSE: a finding stops the machine, everything below is null */
  gint64 capacity_mib; /* usable modules, soldered included, persistent left out */
  gint64 usable_mib;   /* under the memory mode */
  LidRate running;
  LidRateLimit limits[LID_N_CAPS];
  guint n_limits;
  gboolean channels_told; /* FALSE: the rest but peak is null */
  LidRatio peak_mbs;      /* unknown when the rate is, or channels are not told */
  LidRatio whole_mbs, best_mbs, worst_mbs;
  LidRatio even_share; /* needs no rate */
  guint channels_in_use;
  guint channels_of_fitted; /* channels of the fitted sockets */
  guint n_sockets;
  LidSocketFigures *sockets;
  guint n_channels;
  LidChannelFigures *channels; /* by board channel index */
  GArray *regions;             /* LidRegion */
} LidFigures;

/* Largest capacity reachable without pulling anything: settled reading 10. */
typedef struct
{
  guint empty_slots; /* of fitted sockets */
  gint64 listed_mib; /* 0: not told */
  gint64 proven_mib; /* 0: not told */
} LidRoom;

typedef struct
{
  const LidBoard *board;
  const LidPopulation *population;
  /* The population read from the running machine, NULL when there is none. Evidence beats rules:
   * when it equals @population, what would stop it is unsure instead. */
  const LidPopulation *as_found;
} LidQuestion;

typedef struct
{
  GPtrArray *findings; /* LidFinding, worst first, then in the order of rules.c */
  guint8 *unusable;    /* per slot: 1 when a finding stops it */
  LidFigures figures;
  LidRoom room;
} LidAssessment;

LidAssessment *lid_assessment_new (const LidQuestion *question);
void lid_assessment_free (LidAssessment *assessment);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidAssessment, lid_assessment_free)
const char *lid_cap_to_text (LidCap cap);
LidGrade lid_assessment_worst (const LidAssessment *assessment);
