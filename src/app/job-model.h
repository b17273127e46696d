/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "facts/parts.h"
#include "job/asks.h"
#include "job/edits.h"

#include <glib-object.h>

/* The job a window shows, with what the checker says of the population it looks at. Widgets read
 * from here and make their edits on lid_job_model_get_edits(); after one they call
 * lid_job_model_edited(), and everybody hears "changed". Properties, each notified when it changes:
 * "of", "title", "unsaved", "undo-name", "redo-name". */
#define LID_TYPE_JOB_MODEL (lid_job_model_get_type ())
G_DECLARE_FINAL_TYPE (LidJobModel, lid_job_model, LID, JOB_MODEL, GObject)

LidJobModel *lid_job_model_new (LidJob *job, LidParts *parts);
LidEdits *lid_job_model_get_edits (LidJobModel *self);
const LidJob *lid_job_model_get_job (LidJobModel *self);
const LidParts *lid_job_model_get_parts (LidJobModel *self);
const LidPopulation *lid_job_model_get_population (LidJobModel *self);
const LidAssessment *lid_job_model_get_assessment (LidJobModel *self);
const LidAssessment *lid_job_model_get_found (LidJobModel *self);
LidOf lid_job_model_get_of (LidJobModel *self);
void lid_job_model_set_of (LidJobModel *self, LidOf of);
gboolean lid_job_model_get_unsaved (LidJobModel *self);
char *lid_job_model_get_title (LidJobModel *self);
GPtrArray *lid_job_model_get_asks (LidJobModel *self);
gboolean lid_job_model_tell_label (
    LidJobModel *self, const char *module, const char *text, char **remark, GError **error);
void lid_job_model_edited (LidJobModel *self);
void lid_job_model_undo (LidJobModel *self);
void lid_job_model_redo (LidJobModel *self);
void lid_job_model_saved (LidJobModel *self);
