/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "locators/letters.h"
#include "locators/machine.h"

void lid_channels_find (LidMachine *machine, const LidLettersRole roles[LID_LETTERS_N_CLASSES]);
