/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "changeover/changeover.h"

/* The lists that go with a change-over, as tables of texts: for CSV and for paper. */
typedef enum
{
  LID_LIST_PICK, /* what to fetch, by bin */
  LID_LIST_PULL, /* what comes out, by place on the mat */
  LID_LIST_TAGS, /* one a bag: modules that leave the machine */
  LID_N_LISTS
} LidListKind;

/* Where pulled modules go. */
typedef enum
{
  LID_TO_OWNER,
  LID_TO_STOCK,
} LidPulledTo;

#define LID_LIST_MOST 10u

typedef struct
{
  LidListKind kind;
  guint n_columns;
  const char *names[LID_LIST_MOST]; /* English words, as in CSV */
  const char *heads[LID_LIST_MOST]; /* N_(): for people */
  GPtrArray *rows;                  /* char **, n_columns texts, never NULL, NULL-terminated */
} LidChangeoverList;

/* Columns of the tags, which paper sets as cards. */
enum
{
  LID_TAG_JOB,
  LID_TAG_MACHINE,
  LID_TAG_OWNER,
  LID_TAG_ASSET,
  LID_TAG_MODULE,
  LID_TAG_PART,
  LID_TAG_SERIAL,
  LID_TAG_SLOT,
  LID_TAG_TO,
  LID_TAG_DATA, /* "holds data" or empty */
};

LidChangeoverList *lid_changeover_list_new (const LidChangeover *changeover,
                                            const LidJob *job,
                                            LidListKind kind,
                                            LidPulledTo to);
void lid_changeover_list_free (LidChangeoverList *list);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidChangeoverList, lid_changeover_list_free)
char *lid_changeover_list_to_csv (const LidChangeoverList *list);
const char *lid_changeover_list_title (LidListKind kind);
