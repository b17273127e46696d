/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/draw-text.h"
#include "drawing/sheet.h"

/* The table of formats a sheet can leave in. A new one is one function and one line in export.c. */
typedef struct
{
  const char *suffix; /* ".pdf" */
  const char *title;  /* N_(): for people */
  gboolean pages;     /* one file holds all pages */
  /* Writes all pages (@pages) or the one numbered @page from 0, as bytes. */
  gboolean (*write) (
      GByteArray *bytes, LidDrawText *text, const LidSheet *sheet, guint page, GError **error);
} LidExport;

const LidExport *lid_export_all (gsize *n);
const LidExport *lid_export_find (const char *path, GError **error);
GBytes *lid_export_bytes (
    const LidExport *format, LidDrawText *text, const LidSheet *sheet, guint page, GError **error);
GPtrArray *lid_export_files (const LidExport *format,
                             LidDrawText *text,
                             const LidSheet *sheet,
                             const char *path,
                             GError **error);
