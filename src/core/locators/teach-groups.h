/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "inventory/inventory.h"

/* Slots told to share a channel, one by one: what a technician clicks together, or writes as
 * "channels:A1+A2,B1+B2". How it is written: teach-groups.c. */
typedef struct _LidTeachGroups LidTeachGroups;

LidTeachGroups *lid_teach_groups_new (void);
LidTeachGroups *lid_teach_groups_parse (const char *text, GError **error);
void lid_teach_groups_free (LidTeachGroups *groups);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidTeachGroups, lid_teach_groups_free)

void
lid_teach_groups_put (LidTeachGroups *groups, const char *slot, int socket, const char *channel);
gboolean lid_teach_groups_take (LidTeachGroups *groups, const char *slot);
guint lid_teach_groups_count (const LidTeachGroups *groups, int socket, const char *channel);
guint lid_teach_groups_size (const LidTeachGroups *groups);
const char *lid_teach_groups_find (const LidTeachGroups *groups, const char *slot, int *socket);
char *lid_teach_groups_next_channel (const LidTeachGroups *groups, int socket);
void lid_teach_groups_leave_rest (LidTeachGroups *groups, gboolean rest);
char *lid_teach_groups_to_text (const LidTeachGroups *groups);
gboolean
lid_teach_groups_apply (const LidTeachGroups *groups, LidInventory *inventory, GError **error);
