/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"

/* For tests: an assessment with one rule taken out of the table. */
LidAssessment *lid_assessment_new_without (const LidQuestion *question, const LidRule *without);
