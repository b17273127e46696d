/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/parts.h"

#include <json-glib/json-glib.h>

/* What parts.c and parts-note.c share. */
typedef struct
{
  char *part;
  JsonObject *members; /* the entry as read, without "part" and "facts"; nullable */
  JsonObject *facts;   /* fact word -> {"value", "basis", what else was there} */
  gint32 value[LID_N_FACTS];
  guint8 basis[LID_N_FACTS];
} LidPartsEntry;

struct _LidParts
{
  char *path;
  JsonObject *members; /* the document without "format" and "parts"; nullable */
  GPtrArray *entries;  /* LidPartsEntry, in the file's order */
  GHashTable *index;   /* part number -> LidPartsEntry, borrowed */
  gboolean read_only;
  gboolean changed;
};

JsonObject *lid_parts_loosen (JsonObject *object);
