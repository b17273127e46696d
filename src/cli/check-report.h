/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "json-line.h"

#include "checks/assessment.h"
#include "job/job.h"

/* What "check" says, for programs and for people. */
void lid_check_report_json (
    GString *out, const char *source, const LidJob *job, LidOf of, const LidAssessment *assessment);
void lid_check_report_power (LidJsonWriter *writer, const LidJob *job, LidOf of);
void lid_check_report_head (GString *out, const LidBoard *board, const LidFinding *finding);
void lid_check_report_facts (GString *out,
                             const LidBoard *board,
                             const LidPopulation *population,
                             const LidAssessment *assessment);
void lid_check_report_text (
    GString *out, const char *source, const LidJob *job, LidOf of, const LidAssessment *assessment);
