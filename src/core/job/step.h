/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/edits.h"

/* One step of the stack of edits. It is built, each of its changes naming one place of the job and
 * what shall stand there, and then exchanged with the job whole: the same exchange undoes it, so no
 * change needs an inverse of its own. */
typedef struct _LidStep LidStep;

LidStep *lid_step_new (char *name);
void lid_step_free (LidStep *step);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidStep, lid_step_free)
const char *lid_step_get_name (const LidStep *step);
gboolean lid_step_is_empty (const LidStep *step);
gboolean lid_step_is_text (const LidStep *step, LidEditsText which);
void lid_step_population (LidStep *step, const LidJob *job, LidOf of, LidPopulation *after);
void lid_step_plan (LidStep *step, const LidJob *job, LidPopulation *after);
void lid_step_modules (LidStep *step, GPtrArray *modules);
void lid_step_text (LidStep *step, LidEditsText which, char *text);
void lid_step_job (LidStep *step, LidJob *job);
char **lid_step_text_field (LidJob *job, LidEditsText which);
void lid_step_swap (LidStep *step, LidJob *job);
