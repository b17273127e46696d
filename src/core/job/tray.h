/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* The tray: the modules of a job that sit in no slot of one population, modules that are alike
 * together. product.md 2. */
typedef enum
{
  LID_TRAY_PULLED, /* sits in a slot as found */
  LID_TRAY_STOCK,  /* at hand: from a bin of the shelf, or its serial number is known */
  LID_TRAY_TO_BUY,
} LidTrayOrigin;

typedef struct
{
  LidModule *module; /* borrowed: the first of them, the one to fill next */
  GPtrArray *all;    /* LidModule, borrowed, in the order of the job */
  guint count;       /* how many, at least 1 */
  LidTrayOrigin origin;
} LidTrayGroup;

GPtrArray *lid_tray_list (const LidJob *job, LidOf of);
GPtrArray *lid_tray_modules (const LidJob *job, LidOf of);
LidTrayOrigin lid_tray_origin (const LidJob *job, const LidModule *module);
gboolean lid_tray_alike (const LidModule *a, const LidModule *b);
const char *lid_tray_origin_to_words (LidTrayOrigin origin);
