/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* Documents of our own, and what the programs do with each once it is taken. */
typedef enum
{
  LID_DOCUMENT_JOB,
  LID_DOCUMENT_BOARD,
  LID_DOCUMENT_PARTS,
  LID_DOCUMENT_LABEL,
} LidDocument;

gboolean lid_document_survive (LidDocument kind, const char *text, gsize size);
char *lid_document_sample_parts (void);
const char *const *lid_document_sample_labels (void);
