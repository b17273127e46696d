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
  LID_DOCUMENT_STOCK,
  LID_DOCUMENT_RESERVED,
} LidDocument;

gboolean lid_document_survive (LidDocument kind, const char *text, gsize size);
char *lid_document_sample_parts (void);
const char *const *lid_document_sample_labels (void);
G_NORETURN void lid_document_fail (const char *what, const char *text);
void lid_document_check_error (const GError *error);

/* stock-survive.c */
extern const char lid_stock_sample[], lid_reserved_sample[];
gboolean lid_stock_survive (const char *text, gsize size);
gboolean lid_reserved_survive (const char *text, gsize size);
