/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "locators/machine.h"

/* What letter and number of a bare pair mean on this machine. */
typedef enum
{
  LID_LETTERS_UNTOLD,
  LID_LETTERS_CHANNEL, /* letter = channel, number = slot */
  LID_LETTERS_CROSSED, /* number = channel, letter = slot */
  LID_LETTERS_SOCKET,  /* letter = processor, number = slot of it; channel not stated */
} LidLettersRole;

/* Pairs that are judged together, as they are spelt alike. */
typedef enum
{
  LID_LETTERS_DIMM_A1, /* DIMM_A1 */
  LID_LETTERS_BARE_A1, /* A1 */
  LID_LETTERS_1A,      /* DIMM1A, P1-1A */
  LID_LETTERS_BANK_A1, /* locator DIMM_1, bank CPU1_A0 */
  LID_LETTERS_BANK_1A, /* locator J2J1, bank DIMM 1A */
  LID_LETTERS_N_CLASSES,
  LID_LETTERS_NO_CLASS = LID_LETTERS_N_CLASSES
} LidLettersClass;

LidLettersClass lid_letters_class_of (const LidMachineSlot *slot, gboolean bank);
void lid_letters_judge (LidMachine *machine, LidLettersRole roles[LID_LETTERS_N_CLASSES]);
