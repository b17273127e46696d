/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board.h"

/* The hash of what a machine calls its slots: SHA-256 over the sorted lines "locator|bank", each
 * ended by a newline. Runs of blanks count as one, "Not Specified" (as text reports print a string
 * that is not there) as nothing. Without banks it is the hash of the locators alone. */

void lid_board_names_add (GPtrArray *lines, const char *locator, const char *bank);
char *lid_board_names_hash (GPtrArray *lines);
char *lid_board_names_of_spellings (const LidBoard *board, gboolean with_banks);
