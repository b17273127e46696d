/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* The option --stage N of the commands that show one stage of a job. */
#define LID_STAGE_OPTION_ENTRY(target)                                                             \
  {                                                                                                \
    "stage", 0, 0, G_OPTION_ARG_INT, (target),                                                     \
        N_ ("Which stage of a job in stages, from 1, counted from the one before it"), N_ ("N")    \
  }

gboolean lid_stage_option_find (
    const LidJob *job, int stage, const LidPopulation **from, const LidPopulation **to, char **why);
