/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* The values of a JSON text by their places in it, found without any of the code under attack, and
 * the text with one of them made wrong. */
typedef struct
{
  gsize start, end; /* of the value */
  gsize key;        /* of the member's name with its quotes; G_MAXSIZE: an element, or the root */
} JsonAttackValue;

GArray *json_attack_values (const char *text, gsize size);
guint json_attack_n_kinds (void);
GString *json_attack_apply (const char *text, gsize size, const JsonAttackValue *value, guint kind);
const char *json_attack_name (guint kind);
