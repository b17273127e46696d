/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "inventory/inventory.h"
#include "locators/marks.h"

/* What the stages of locators/ know of one slot: marks.c fills the first two, sockets.c, letters.c,
 * channels.c and positions.c the rest, in this order. */
typedef struct
{
  LidMarks locator;
  LidMarks bank;
  gint16 socket;     /* from 1; 0: not told */
  gint16 controller; /* from 1 in its socket; 0: not told */
  gint16 channel;    /* a number as written or lid_mark_letter(); LID_MARK_NONE: not told */
  gint16 number;     /* of the slot, as written; LID_MARK_NONE: not told */
  gint16 position;   /* from 1; 0: not told */
  gint16 array;      /* order of its array among those of the slots, from 0 */
} LidMachineSlot;

typedef struct
{
  guint n_slots;
  LidMachineSlot *slots;
  guint n_processors;    /* listed, fitted or not; 0: not told */
  guint n_arrays;        /* that slots point to */
  gboolean nodes_unsure; /* nodes and processors do not divide: controllers only keep apart */
  gboolean lost;         /* some slots have lost their names: seen numbers may have gaps */
} LidMachine;

/* The most different numbers of one sort that are still believed to count something. */
#define LID_MACHINE_MOST_PARTS 64u

/* Which of the two strings a reading is taken from. */
static inline const LidMarks *
lid_machine_marks (const LidMachineSlot *slot, gboolean bank)
{
  return bank ? &slot->bank : &slot->locator;
}
