/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* What becomes of every slot between two populations of one board, in the fewest touches: what the
 * bench sheet draws and the change-over walks. Modules that are the same may stand for each other
 * (product.md 6.11); one that holds data never does, it is itself and nothing else. */
typedef enum
{
  LID_CHANGE_EMPTY, /* nothing sits here afterwards */
  LID_CHANGE_STAYS,
  LID_CHANGE_NEW,   /* comes from outside the machine */
  LID_CHANGE_MOVED, /* comes from another slot */
} LidChangeKind;

typedef struct
{
  LidModule *before; /* borrowed, NULL: empty */
  LidModule *after;  /* borrowed, NULL: empty */
  LidChangeKind kind;
  int from; /* moved: the slot it comes from, else LID_NOWHERE */
  int to;   /* where the module before goes: a slot, LID_NOWHERE: out of the machine, or it stays */
  guint mat; /* place on the mat of the module pulled from here, from 1; 0: nothing is pulled */
  guint fit; /* number in the order of fitting, from 1; 0: nothing is fitted */
} LidSlotChange;

typedef struct
{
  guint n_slots;
  LidSlotChange *slots;
  guint n_pulled;
  guint *pulled; /* slots by their place on the mat */
  guint n_fitted;
  guint *fitted; /* slots in the order of fitting */
  guint n_leaving;
  guint n_new;
  guint hands; /* modules whose place differs, each once: product.md 8 */
} LidChanges;

LidChanges *
lid_changes_new (const LidBoard *board, const LidPopulation *before, const LidPopulation *after);
gboolean lid_changes_pull_data (const LidChanges *changes);
void lid_changes_free (LidChanges *changes);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidChanges, lid_changes_free)
