/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* The common part of the mixing rules: count classes within a channel, a processor or the machine,
 * blame all but the largest (product.md 6, settled reading 3), speak. What makes a class is each
 * rule's own. Source of the matrix: shared/facts/population.md 1.1. */
typedef enum
{
  LID_MIX_TOLD,
  LID_MIX_NOT_TOLD, /* the module does not tell its class */
  LID_MIX_OUTSIDE   /* the rule does not look at such a module */
} LidMixAnswer;

typedef struct
{
  LidMix mix;
  guint32 facts; /* bits of the facts the class hangs on: nothing varies, nothing to see */
  LidFact ask;   /* the one to ask for when the class is not told */
  LidFact (*ask_for) (const LidModule *module); /* nullable: where it is not always the same one */
  gboolean always;                              /* speaks where the board is silent: physics */
  const char *says;                             /* N_(): "… %s", where the classes go */
  LidMixAnswer (*class_of) (const LidModule *module, gint64 *class);
  char *(*name) (gint64 class);
} LidMixCheck;

void lid_mix_check (LidCheck *check, const LidMixCheck *what);
