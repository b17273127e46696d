/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "trace/suspects.h"

/* From trials to what is at fault, or to the next start that tells most: product.md 9, "Trace". */
typedef struct
{
  LidSuspect one;
  gboolean two;     /* both are at fault */
  LidSuspect other; /* where @two */
} LidExplanation;

/* Rising in what it costs and risks. */
typedef enum
{
  LID_NEXT_RESEAT,
  LID_NEXT_SWAP,     /* two modules change places */
  LID_NEXT_MOVE,     /* one goes to an empty slot */
  LID_NEXT_REPLACE,  /* one taken out before, which nobody suspects, in place of a suspect */
  LID_NEXT_BACK,     /* all as at the first start with the fault */
  LID_NEXT_TAKE_OUT, /* only some of the modules stay in */
  LID_NEXT_EASE,     /* rate a step lower, or defaults in the setup */
  LID_NEXT_PROCESSORS,
  LID_N_NEXTS
} LidNextKind;

const char *lid_next_to_text (LidNextKind kind);

typedef struct
{
  LidNextKind kind;
  LidTrial *trial;  /* the machine as it is then; its outcome is open */
  int a, b;         /* slots of a swap or sockets; where, and where the other was at first */
  gboolean by_hand; /* hands go in for it */
  guint worst;      /* explanations left at most */
  guint modules;    /* likewise, of those that blame one module: what halving goes by */
  char *text;       /* one sentence */
} LidNextTrial;

typedef struct
{
  guint n_trials;        /* noted of this search */
  GArray *explanations;  /* LidExplanation, the likeliest first */
  GPtrArray *texts;      /* char *: one sentence each */
  LidNextTrial *next;    /* NULL: nothing that is allowed tells more */
  char *answer;          /* NULL: not known yet, or nothing was noted */
  gboolean untold;       /* some start showed it where nobody could tell the slot */
  gboolean doubtful;     /* only something common is left, though slots were told: a wrong note? */
  gboolean contradicted; /* no one thing and no two explain what was noted */
} LidTrace;

LidTrace *lid_trace_new (const LidJob *job);
void lid_trace_free (LidTrace *trace);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidTrace, lid_trace_free)
