/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"
#include "help/cautions.h"
#include "job/changes.h"

/* The ordered steps from one population of a board to another: product.md 9. */
typedef enum
{
  LID_STEP_FIRMWARE,
  LID_STEP_SETTING,
  LID_STEP_PROCESSOR,
  LID_STEP_PULL,
  LID_STEP_FIT,
  LID_STEP_BLANK,
  LID_STEP_START,
  LID_STEP_READ,
  LID_N_STEP_KINDS
} LidStepKind;

typedef struct
{
  LidStepKind kind;
  guint moments;     /* bits 1 << LidMoment: whose cautions are due with it */
  int slot;          /* LID_NOWHERE: none */
  int socket;        /* of a processor step, else LID_NOWHERE */
  LidModule *module; /* borrowed from the populations; nullable */
  guint mat;         /* place on the mat: of a pull, where it goes; of a fit, where it comes from;
                        0: none */
  guint fit;         /* number in the order of fitting; 0: none */
  gboolean release;  /* the owner's written release is demanded first */
  char *text;        /* one or two sentences in the reader's language */
} LidChangeoverStep;

typedef struct
{
  const LidBoard *board;     /* borrowed */
  const LidPopulation *from; /* borrowed, nullable: not told */
  const LidPopulation *to;   /* borrowed */
  LidChanges *changes;
  GPtrArray *steps; /* LidChangeoverStep, in the order of the work */
} LidChangeover;

LidChangeover *lid_changeover_new (const LidBoard *board,
                                   const LidPopulation *from,
                                   const LidPopulation *to,
                                   const LidFigures *expected);
void lid_changeover_free (LidChangeover *changeover);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidChangeover, lid_changeover_free)
GPtrArray *lid_changeover_cautions (const LidChangeover *changeover, guint step);
const char *lid_changeover_kind_to_text (LidStepKind kind);

/* changeover-settings.c, private */
LidChangeoverStep *lid_changeover_add (LidChangeover *changeover, LidStepKind kind, char *text);
void lid_changeover_add_settings (LidChangeover *changeover);
void lid_changeover_add_processors (LidChangeover *changeover);
