/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"
#include "stock/stock.h"

/* What a plan brings into the machine, by part, and how many of each are not there: the answer to
 * the one question a plan in two visits asks. */
typedef struct
{
  char *part;         /* nullable */
  char *words;        /* what it is, in the reader's language */
  GPtrArray *modules; /* LidModule, borrowed from the job: those that can be fitted first first */
  guint missing;      /* how many are not there: the last of them; at most modules->len */
} LidStagePart;

GPtrArray *lid_stage_parts_new (const LidJob *job);
void lid_stage_parts_use_stock (GPtrArray *parts, const LidStock *stock);
GHashTable *lid_stage_parts_missing (const GPtrArray *parts);
