/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "command.h"

extern const LidCommand lid_command_boards;
extern const LidCommand lid_command_check;
extern const LidCommand lid_command_explain;
extern const LidCommand lid_command_module;
extern const LidCommand lid_command_plan;
extern const LidCommand lid_command_read;
extern const LidCommand lid_command_rules;
extern const LidCommand lid_command_sheet;
extern const LidCommand lid_command_stages;
extern const LidCommand lid_command_steps;
extern const LidCommand lid_command_prove;
extern const LidCommand lid_command_trace;
extern const LidCommand lid_command_stock;
