/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "commands.h"

/* clang-format off: one line a command */
const LidCommand *const lid_commands[] = {
  &lid_command_module, &lid_command_read,   &lid_command_check,
  &lid_command_sheet,  &lid_command_boards, NULL,
};
