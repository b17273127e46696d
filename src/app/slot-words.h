/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "job/changes.h"

/* A slot in words, for a reader of the screen and for tooltips: what the drawing shows, said. */
char *lid_slot_words_name (const LidBoard *board, guint slot);
char *lid_slot_words_describe (const LidBoard *board,
                               const LidPopulation *population,
                               const LidAssessment *assessment,
                               const LidChanges *changes,
                               guint slot);
guint *lid_slot_words_hash_findings (const LidAssessment *assessment, guint n_slots);
int lid_slot_words_find (const LidBoard *board, const char *text);
gboolean lid_slot_words_finding_names (const LidFinding *finding, guint slot);
LidGrade lid_slot_words_worst (const LidAssessment *assessment, guint slot, gboolean *any);
