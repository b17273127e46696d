/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/label.h"

/* Private to the label files: a place in a bounded text, and the one way to refuse it. */
typedef struct
{
  const char *text; /* the whole text, NUL-terminated */
  const char *at;   /* next byte to read */
  const char *end;  /* end of the part being read */
  LidLabelFault *fault;
  GError **error; /* nullable */
} LidLabelCursor;

gboolean lid_label_cursor_refuse (LidLabelCursor *cursor,
                                  LidLabelField field,
                                  const char *start,
                                  const char *stop,
                                  const char *taken,
                                  const char *remedy);
gboolean lid_label_cursor_at_end (const LidLabelCursor *cursor);
gboolean lid_label_cursor_take (LidLabelCursor *cursor, char c);
void lid_label_cursor_skip_blanks (LidLabelCursor *cursor);
const char *lid_label_cursor_run_end (const LidLabelCursor *cursor);
guint lid_label_cursor_digits (LidLabelCursor *cursor, guint *value);

/* The files of the decoder, in the order they are called. */
gboolean lid_label_qr_read (LidLabelCursor *cursor, LidLabel *label);
gboolean lid_label_line_read (LidLabelCursor *cursor, LidLabel *label);
gboolean lid_label_line_read_ranks (LidLabelCursor *cursor, LidLabel *label, gboolean width_needed);
gboolean lid_label_line_die (const LidLabel *label, LidGeneration generation, guint *die_gbit);
gboolean lid_label_tail_ddr3 (LidLabelCursor *cursor, LidLabel *label);
gboolean lid_label_tail_ddr4 (LidLabelCursor *cursor, LidLabel *label);
gboolean lid_label_tail_ddr5 (LidLabelCursor *cursor, LidLabel *label);
gboolean lid_label_short_read (LidLabelCursor *cursor, LidLabel *label);

/* The text without hints, for the search of a remedy; TRUE where the grammar takes it. */
gboolean lid_label_parse_plain (
    const char *text, gsize size, LidLabel *label, LidLabelFault *fault, GError **error);
char *lid_label_hint_find (const char *text, gsize size);
char *lid_label_hint_words (const char *text, gsize size);
