/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/label.h"

/* What a type letter says in its generation. */
typedef struct
{
  LidGeneration generation;
  char letter;
  LidKind kind;
  gint ecc;          /* 1, 0, -1 not told */
  gint check_bits;   /* of the whole module, -1 not told */
  gboolean buffered; /* can carry 3DS stacks */
  const char *words; /* N_() */
} LidLabelType;

const LidLabelType *lid_label_tables_type (LidGeneration generation, char letter);
const char *lid_label_tables_type_letters (LidGeneration generation);
LidRate lid_label_tables_bandwidth_rate (const char *digits, gsize length);
const char *lid_label_tables_bandwidth_name (LidGeneration generation, LidRate rate);
gboolean lid_label_tables_has_grade (LidGeneration generation, LidRate rate, const char *grade);
const char *lid_label_tables_grades (LidGeneration generation, LidRate rate);
guint lid_label_tables_grade_clocks (const char *grade);
gboolean lid_label_tables_has_die (LidGeneration generation, guint gbit);
gboolean lid_label_tables_is_card_letter (char c);
const char *lid_label_tables_temperature (const char *code);
