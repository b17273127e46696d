/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "commands.h"

/* One line a command. */
/* clang-format off */
const LidCommand *const lid_commands[] = {
  &lid_command_module,
  &lid_command_read,
  &lid_command_check, &lid_command_plan,
  &lid_command_sheet,
  &lid_command_steps,
  &lid_command_prove,
  &lid_command_trace,
  &lid_command_stages,
  &lid_command_stock,
  &lid_command_boards,
  &lid_command_explain,
  &lid_command_rules,
  NULL,
};
