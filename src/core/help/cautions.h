/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "population/population.h"

/* What is said to the hands, and when: one table for bench sheet, change-over and command line.
 * The machine maker's service guide and local rules come before all of it. */
typedef enum
{
  LID_MOMENT_BEFORE,   /* the machine still runs */
  LID_MOMENT_FIRMWARE, /* while firmware is changed, the old modules in */
  LID_MOMENT_SAFE,     /* from shut down to the first touch */
  LID_MOMENT_DATA,     /* before a module that holds data is pulled */
  LID_MOMENT_PULL,     /* at every module pulled */
  LID_MOMENT_FIT,      /* at every module fitted */
  LID_MOMENT_CLOSE,    /* before power-on */
  LID_MOMENT_START,    /* at the first start */
  LID_MOMENT_READ,     /* when the machine shows what it has */
  LID_MOMENT_LEAVE,    /* when the machine goes */
  LID_N_MOMENTS
} LidMoment;

/* What a machine or a plan has, so that nothing is said of what is not there. */
typedef enum
{
  LID_CASE_BAFFLE = 1 << 0,    /* the board has an air baffle, or nobody says it has none */
  LID_CASE_NO_BAFFLE = 1 << 1, /* it is known to have none */
  LID_CASE_BLANKS = 1 << 2,    /* empty slots take blanks, or nobody says they take none */
  LID_CASE_DATA = 1 << 3,      /* a module that holds data is pulled */
  LID_CASE_DATA_STAYS = 1 << 4 /* one stays in, and what is beside it may change */
} LidCase;

typedef struct
{
  const char *id; /* what is asked for: "every-cord" */
  LidMoment moment;
  gboolean gate;      /* ticked once before going on; else said of every module */
  guint needs;        /* LidCase bits: said only where all of them hold; 0: always */
  const char *text;   /* N_(): as it stands on the sheet, imperative */
  const char *why;    /* N_(): what happens otherwise */
  const char *source; /* a title, or N_("common practice, no source") */
} LidCaution;

const LidCaution *lid_cautions_all (guint *n);
const LidCaution *lid_cautions_find (const char *id);
guint lid_cautions_cases (const LidBoard *board, const LidPopulation *after);
gboolean lid_cautions_holds (const LidCaution *caution, guint cases);
const char *lid_cautions_moment (LidMoment moment);
const char *lid_cautions_moment_to_text (LidMoment moment);
