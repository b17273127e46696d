/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"
#include "board/fingerprint.h"
#include "inventory/inventory.h"

/* From an inventory to the board of its machine: product.md 3, "Boards, known and derived". */
typedef enum
{
  LID_MATCH_EXACT,
  LID_MATCH_OFFERED,
  LID_MATCH_DERIVED
} LidMatchKind;

typedef struct
{
  LidMatchKind kind;
  gboolean given;         /* somebody said which board; offered: it is used, and differs */
  LidBoard *board;        /* the board in use: exact or given: that one; else a derived one */
  LidBoard *offered;      /* a weaker match, nullable */
  GPtrArray *differences; /* (element-type utf8): what stands against the offered or given one */
  int *slot_of_device;    /* per device of the inventory: slot of board, LID_NOWHERE: none */
} LidMatch;

void lid_match_free (LidMatch *match);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidMatch, lid_match_free)
const char *lid_match_kind_to_text (LidMatchKind kind);
LidMatch *lid_match_inventory (LidInventory *inventory, const LidBoard *given, GError **error);
