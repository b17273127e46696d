/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "inventory/inventory.h"

/* The numbering patterns a technician may teach: product.md 11 (boards --teach). What each means:
 * teach.c. */
typedef enum
{
  LID_TEACH_BY_CHANNEL,        /* by-channel:N         N neighbours share a channel */
  LID_TEACH_FIRST_SLOTS_FIRST, /* first-slots-first:C  all first slots, then all second */
  LID_TEACH_MIRRORED,          /* mirrored:C           the second side counts backwards */
  LID_TEACH_LETTER_ORDER,      /* letter-order         the letter is the order of fitting */
  LID_TEACH_LETTER_SOCKET,     /* letter-socket[:C]    the letter is the socket */
  LID_TEACH_CHANNELS,          /* channels:A1+A2,…     slots told one by one */
} LidTeachKind;

typedef struct
{
  LidTeachKind kind;
  guint count;        /* N or C; 0 where the pattern has none */
  const char *groups; /* nullable, borrowed from the text: behind "channels:" */
} LidTeachPattern;

gboolean lid_teach_parse (const char *text, LidTeachPattern *pattern, GError **error);
gboolean lid_teach_apply (LidInventory *inventory,
                          const LidTeachPattern *pattern,
                          GPtrArray **order,
                          GError **error);
