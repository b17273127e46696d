/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

/* What the expected bandwidth rests on: its constants, each with its source or "from memory", and
 * what the model does not know. One table for window, sheets and command line. */
typedef enum
{
  LID_CONSTANT_EFFICIENCY,          /* share of the peak a streaming read reaches, by default */
  LID_CONSTANT_BYTES,               /* of a channel's transfer */
  LID_CONSTANT_MODULES_PER_CHANNEL, /* what a second module or more ranks on a channel count */
  LID_CONSTANT_MIRRORED_READS,      /* B under mirroring, reads only */
  LID_CONSTANT_PAIRED,              /* B in lockstep */
  LID_N_CONSTANTS
} LidConstant;

typedef struct
{
  const char *id;     /* static: "efficiency" */
  gboolean caveat;    /* what the model does not know; else a constant or a choice it rests on */
  LidRatio value;     /* unknown where it is no number */
  char *text;         /* one sentence */
  const char *source; /* static or borrowed from the board */
} LidAssumption;

LidRatio lid_assumptions_constant (LidConstant constant);
GPtrArray *lid_assumptions_all (void);
GPtrArray *lid_assumptions_new (const LidBoard *board, const LidFigures *figures);
