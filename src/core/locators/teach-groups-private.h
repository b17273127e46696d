/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "locators/teach-groups.h"

/* One slot that was told; shared by teach-groups.c and teach-groups-apply.c. */
typedef struct
{
  char *slot;    /* id or name */
  char *channel; /* nullable: to be called in order */
  int socket;    /* from 1; 0: as the names tell */
  guint group;   /* those of one channel have one */
} LidTeachEntry;

struct _LidTeachGroups
{
  GArray *entries; /* LidTeachEntry, in the order told */
  gboolean rest;   /* slots that are not told stay so */
};

static inline LidTeachEntry *
lid_teach_groups_entry (const LidTeachGroups *groups, guint i)
{
  return &g_array_index (groups->entries, LidTeachEntry, i);
}
