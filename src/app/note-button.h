/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/slot-button.h"

/* A finding beside the board: the drawing shows it, this can be focused, clicked and read aloud. */
#define LID_TYPE_NOTE_BUTTON (lid_note_button_get_type ())
G_DECLARE_FINAL_TYPE (LidNoteButton, lid_note_button, LID, NOTE_BUTTON, GtkWidget)

GtkWidget *lid_note_button_new (LidBoardArea *area);
void lid_note_button_show (LidNoteButton *self, guint finding);
void lid_note_button_show_nothing (LidNoteButton *self);
void lid_note_button_tell_remedy (LidNoteButton *self);
const LidFinding *lid_note_button_get_finding (LidNoteButton *self);
