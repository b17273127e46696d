/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "drawing/theme.h"
#include "job/changes.h"

/* What a slot says and shows, whoever draws it: the sheets, later the board on the screen. */
typedef enum
{
  LID_MARK_NONE,
  LID_MARK_NEW,    /* plus */
  LID_MARK_MOVED,  /* arrow */
  LID_MARK_LEAVES, /* minus */
  LID_MARK_SOLDERED,
  LID_MARK_NOT_SEEN,
} LidMark;

/* How much of a module is told, from little to all. */
typedef enum
{
  LID_WORDS_SHORT,  /* 32 GB */
  LID_WORDS_MEDIUM, /* 32 GB 2Rx4 3200 */
  LID_WORDS_FULL,   /* 32 GB 2Rx4 registered 3200 */
  LID_N_WORDS
} LidWords;

typedef struct
{
  guint slot;
  const char *name;
  const char *words[LID_N_WORDS];
  const char *brief;   /* where even the short words have no room; nullable: they always have */
  const char *detail;  /* the second line, nullable */
  const char *channel; /* for drawings that do not group by channel, nullable */
  guint ring;          /* number in the ring, 0: none */
  LidMark mark;
  gboolean empty;       /* broken outline */
  gboolean heavy;       /* heavy outline: the hand does something here */
  LidHatch latch;       /* shading of the latches */
  gboolean latch_known; /* else no latches are drawn */
  LidHatch finding;     /* pattern of the worst finding, LID_HATCH_NONE: none */
  int grade;            /* LidGrade of the worst finding, LID_NOWHERE: none */
  const char *hue;      /* of the latches, "#rrggbb", nullable; borrowed from the board */
  gboolean persistent;
} LidSlotLook;

/* Where things lie inside a slot; one for all slots of a drawing, so that columns stand straight.
 * Lengths in mm from the slot's own box. */
typedef struct
{
  LidType name_type, words_type, detail_type;
  LidWords words;
  guint lines;  /* 1: name and words; 2: name, words over detail; 3: name over words (and detail) */
  double latch; /* width of a latch at each end */
  double name;  /* width kept for the name */
  double trailer; /* width kept at the right for ring, mark and pattern */
} LidSlotShape;

typedef struct
{
  const LidBoard *board;
  guint n_latches;
  const char **latches; /* words, light to dark; borrowed from the board */
  double *lightness;
} LidLatchKey;

LidLatchKey *lid_slot_look_latches (const LidBoard *board);
void lid_slot_look_latches_free (LidLatchKey *key);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidLatchKey, lid_slot_look_latches_free)

void lid_slot_look_bench (LidSlotLook *looks,
                          GStringChunk *texts,
                          const LidBoard *board,
                          const LidPopulation *population,
                          const LidChanges *changes,
                          const LidAssessment *assessment);
void lid_slot_look_lid (LidSlotLook *looks,
                        GStringChunk *texts,
                        const LidBoard *board,
                        const LidPopulation *population,
                        const LidAssessment *assessment);
void lid_slot_look_board (LidSlotLook *looks,
                          GStringChunk *texts,
                          const LidBoard *board,
                          const LidPopulation *population,
                          const LidPopulation *before,
                          const LidAssessment *assessment);
char *lid_slot_look_words (const LidModule *module, LidWords words);
