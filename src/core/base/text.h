/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

#define LID_TEXT_MAX 256

char *lid_text_clean (const char *text, gssize size);
char *lid_text_one_line (const char *text);
char *lid_text_begin (const char *text);
gboolean lid_text_equal_folded (const char *a, const char *b);
int lid_text_compare_naturally (const char *a, const char *b);
char *lid_text_join (const char *const *words, guint n_words, guint n_most);
