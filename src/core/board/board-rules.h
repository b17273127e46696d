/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* What a board's definition says of rules: how bad, of what, and what may not be mixed. Part of
 * board.h. */

typedef enum
{
  LID_GRADE_NOTE,
  LID_GRADE_UNSURE,
  LID_GRADE_LOSES,
  LID_GRADE_STOPS
} LidGrade;
typedef enum
{
  LID_STOPS_NOTHING,
  LID_STOPS_SLOTS,
  LID_STOPS_MACHINE
} LidStops;
typedef enum
{
  LID_SCOPE_MACHINE,
  LID_SCOPE_SOCKET,
  LID_SCOPE_CHANNEL,
  LID_SCOPE_MODULE
} LidScope;

/* How many ranks, or how many modules, a channel takes. */
typedef struct
{
  guint32 kinds;            /* 0: any */
  guint least_module_ranks; /* the row speaks only of modules with at least so many label ranks */
  guint most_ranks;         /* on the channel, as this board counts; 0: no limit here */
  guint most_modules;       /* on the channel, of those the row speaks of; 0: no limit here */
  char *source;
} LidRankLimit;

/* How the board counts the ranks of a module. */
typedef enum
{
  LID_COUNT_LOGICAL,
  LID_COUNT_LABEL
} LidRankCount;

/* What may not be mixed. Physics has its own rules in code; these are the maker's. */
typedef enum
{
  LID_MIX_KINDS,
  LID_MIX_ECC,
  LID_MIX_WIDTHS,
  LID_MIX_STACKS,
  LID_MIX_DENSITIES,
  LID_MIX_CAPACITIES,
  LID_MIX_RANKS,
  LID_MIX_CHECK_BITS,
  LID_MIX_RATES,
  LID_N_MIXES
} LidMix;

#define LID_MIX_MOST_CLASSES 64u /* what a definition may say */

typedef struct
{
  gboolean told;      /* the board speaks of this mix; else the rule's own default holds */
  gboolean allowed;   /* told and free to mix: the rule keeps silent */
  LidScope scope;     /* within what only most_classes different ones may sit */
  guint most_classes; /* 1 to LID_MIX_MOST_CLASSES */
  LidGrade grade;
  LidStops stops;
  char *source;
} LidMixRule;
