/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

/* A set of slots (or channels) as bits: lives on the stack, so rules allocate nothing until they
 * have something to say. */
#define LID_SLOT_SET_WORDS (LID_BOARD_MAX_SLOTS / 64u)

typedef struct
{
  guint64 word[LID_SLOT_SET_WORDS];
} LidSlotSet;

static inline void
lid_slot_set_add (LidSlotSet *set, guint slot)
{
  set->word[slot / 64] |= G_GUINT64_CONSTANT (1) << (slot % 64);
}

static inline void
lid_slot_set_drop (LidSlotSet *set, guint slot)
{
  set->word[slot / 64] &= ~(G_GUINT64_CONSTANT (1) << (slot % 64));
}

static inline gboolean
lid_slot_set_has (const LidSlotSet *set, guint slot)
{
  return (set->word[slot / 64] >> (slot % 64)) & 1;
}

static inline guint
lid_slot_set_count (const LidSlotSet *set)
{
  guint n = 0;

  for (guint i = 0; i < LID_SLOT_SET_WORDS; i++)
    n += (guint)__builtin_popcountll (set->word[i]);
  return n;
}

static inline gboolean
lid_slot_set_is_empty (const LidSlotSet *set)
{
  guint64 all = 0;

  for (guint i = 0; i < LID_SLOT_SET_WORDS; i++)
    all |= set->word[i];
  return all == 0;
}

static inline void
lid_slot_set_merge (LidSlotSet *set, const LidSlotSet *other)
{
  for (guint i = 0; i < LID_SLOT_SET_WORDS; i++)
    set->word[i] |= other->word[i];
}

/* The first member at or after @from, LID_NOWHERE when there is none. */
static inline int
lid_slot_set_next (const LidSlotSet *set, guint from)
{
  for (guint i = from / 64; i < LID_SLOT_SET_WORDS; i++)
    {
      guint64 rest = set->word[i];

      if (i == from / 64)
        rest &= ~G_GUINT64_CONSTANT (0) << (from % 64);
      if (rest != 0)
        return (int)(i * 64 + (guint)__builtin_ctzll (rest));
    }
  return LID_NOWHERE;
}

#define LID_SLOT_SET_EACH(set, slot)                                                               \
  for (int slot = lid_slot_set_next (set, 0); slot != LID_NOWHERE;                                 \
       slot = lid_slot_set_next (set, (guint)slot + 1))
