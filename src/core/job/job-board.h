/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* The same job on another board. */
LidJob *lid_job_board_move (const LidJob *job, LidBoard *board, const int *slot_of, GError **error);
char *lid_job_board_differences (const LidJob *job, const LidBoard *newer, GPtrArray *members);
