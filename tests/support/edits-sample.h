/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/edits.h"

/* The workstation of the charts: one socket, A1 and B1 filled alike, six slots empty. */
LidJob *edits_sample_job (void);
/* A gauge of eight slots whose names tell a number and no channel, every other one filled. */
LidJob *edits_sample_untold (void);
LidEdits *edits_sample_tern (void);
LidBoard *edits_sample_board (const char *id);
const char *edits_sample_id (const LidEdits *edits, LidOf of, guint slot);
