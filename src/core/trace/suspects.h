/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/slot-set.h"
#include "job/job.h"

/* What may be at fault, and what each would have shown at every start. */
typedef enum
{
  LID_SUSPECT_SEATING,   /* of a module in its slot at the first start with the fault */
  LID_SUSPECT_MODULE,    /* goes along with the module */
  LID_SUSPECT_SLOT,      /* stays with the slot */
  LID_SUSPECT_PAIRING,   /* that module in that slot at that rate: margin */
  LID_SUSPECT_CHANNEL,   /* stays with the channel */
  LID_SUSPECT_PROCESSOR, /* goes along with the processor */
  LID_SUSPECT_COMMON,    /* rate, voltage, heat: anywhere, until the setup is eased */
  LID_SUSPECT_MACHINE,   /* firmware, power, the board itself: anywhere, eased or not */
  LID_N_SUSPECTS
} LidSuspectKind;

typedef struct
{
  LidSuspectKind kind;
  int slot;           /* seating, slot, pairing; LID_NOWHERE elsewhere */
  int channel;        /* channel */
  int processor;      /* by the socket it was in at first */
  const char *module; /* id, borrowed from the job; module and pairing */
} LidSuspect;

typedef enum
{
  LID_SHOWS_NOTHING,
  LID_SHOWS_FAULT,
  LID_SHOWS_EITHER
} LidShows;

/* The first start with the fault, by which seating, pairing and places are meant. */
typedef struct
{
  const LidBoard *board;
  GPtrArray *trials; /* LidTrial, borrowed */
  guint from;        /* into trials: where this search begins */
  guint first;       /* likewise: the first with the fault */
} LidTraceCase;

const char *lid_suspect_to_text (LidSuspectKind kind);
gboolean lid_suspects_case (const LidBoard *board, GPtrArray *trials, LidTraceCase *about);
GArray *lid_suspects_list (const LidTraceCase *about);
LidShows lid_suspects_shows (const LidTraceCase *about,
                             const LidSuspect *suspect,
                             const LidTrial *trial,
                             LidSlotSet *where);
gboolean lid_suspects_agree (const LidTraceCase *about,
                             const LidSuspect *one,
                             const LidSuspect *other,
                             const LidTrial *trial);
