/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board-match.h"
#include "job/trial.h"
#include "population/population.h"

#define LID_JOB_MAX_MODULES 8192u           /* more than any machine and its tray hold */
#define LID_JOB_MAX_TOTAL ((gint64)1 << 40) /* MiB; more than any setup screen shows */
#define LID_JOB_MAX_TEXT (64u * 1024u)      /* bytes of one text a person writes */

/* One machine, one visit: the document. product.md 4. */
typedef enum
{
  LID_AS_FOUND,
  LID_PLANNED,
  LID_AS_LEFT,
  LID_N_OF
} LidOf;

typedef struct
{
  char *name; /* nullable */
  LidPopulation *population;
} LidStage;

/* What was read, changed, proved, when, by whom. */
typedef struct
{
  char *when; /* ISO 8601 with zone */
  char *who;  /* nullable */
  char *what; /* "read", "changed", "proved", … */
  char *text;
} LidHistoryEntry;

typedef struct
{
  char *title; /* the machine as the owner calls it */
  char *owner;
  char *asset;
  char *number; /* the shop's job number */
  char *shop;
  char *technician;
  char *notes;
  LidBoard *board;         /* embedded in the file */
  char *match;             /* "exact", "offered", "derived" */
  GPtrArray *modules;      /* LidModule, each with an id of its own */
  LidPopulation *as_found; /* nullable */
  GPtrArray *stages;       /* LidStage: the planned populations in order; empty: nothing planned */
  LidPopulation *as_left;  /* nullable */
  GPtrArray *trials;       /* LidTrial: starts while a fault was looked for, in order */
  GPtrArray *history;      /* LidHistoryEntry */
  JsonNode
      *original; /* the file as read: members not understood are written back from it; nullable */
  gboolean read_only;      /* written by a newer version */
  gboolean proved;         /* as left was proved, against an inventory or by eye */
  gboolean is_read_by_eye; /* as left is what a setup screen showed */
  gint64 eye_mib;          /* the total it showed; 0: nobody read it */
  char *reserved_in;       /* nullable: the stock file of which modules were put by for the job */
  char *reserved_as;       /* nullable: the name they were put by under */
} LidJob;

LidJob *lid_job_new (LidBoard *board);
LidJob *lid_job_from_inventory (const LidInventory *inventory, const LidMatch *match);
void lid_job_free (LidJob *job);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidJob, lid_job_free)
GPtrArray *lid_job_new_stages (void);
const LidPopulation *lid_job_get_population (const LidJob *job, LidOf of);
void lid_job_set_text (char **field, const char *text);
void lid_job_remember (LidJob *job, const char *what, const char *format, ...) G_GNUC_PRINTF (3, 4);
LidModule *lid_job_find_module (const LidJob *job, const char *id);
LidModule *lid_job_add_module (LidJob *job, LidModule *module);
const char *lid_of_to_text (LidOf of);
LidOf lid_of_from_text (const char *text, gboolean *found);
