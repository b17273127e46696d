/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-area-notes.c — widgets over the notes in the margin, and what they point at. */
#include "app/board-area-private.h"

#include "app/findings-popover.h"
#include "app/more-button.h"
#include "app/note-button.h"
#include "app/slot-words.h"
#include "app/window-actions.h"

/**
 * lid_board_area_find_note:
 * @finding: (nullable): a finding, or %NULL for the line that counts what finds no room
 *
 * Returns: (transfer none) (nullable): its note as it is drawn
 */
const LidBoardNote *
lid_board_area_find_note (LidBoardArea *self, const LidFinding *finding)
{
  const LidBoardGeometry *geometry = lid_board_area_get_geometry (self);

  for (guint i = 0; i < geometry->notes->len; i++)
    if (lid_board_geometry_note (geometry, i)->finding == finding)
      return lid_board_geometry_note (geometry, i);
  return NULL;
}

static void
allocate_note (GtkWidget *button, const LidBoardNote *note)
{
  gtk_widget_set_child_visible (button, note != NULL);
  if (note != NULL)
    lid_board_area_allocate_child (button, note->box);
}

void
lid_board_area_allocate_notes (LidBoardArea *self)
{
  for (guint i = 0; i < self->notes->len; i++)
    {
      LidNoteButton *button = self->notes->pdata[i];
      const LidFinding *finding = lid_note_button_get_finding (button);

      allocate_note (GTK_WIDGET (button),
                     finding != NULL ? lid_board_area_find_note (self, finding) : NULL);
    }
  if (self->more == NULL)
    return;
  allocate_note (self->more, lid_board_area_find_note (self, NULL));
  if (lid_board_area_find_note (self, NULL) != NULL)
    lid_window_actions_name (self->more, lid_board_area_find_note (self, NULL)->title);
}

static gboolean
tell_remedies (gpointer data)
{
  LidBoardArea *self = data;

  self->telling = 0;
  for (guint i = 0; i < self->notes->len; i++)
    lid_note_button_tell_remedy (self->notes->pdata[i]);
  return G_SOURCE_REMOVE;
}

/* After the frame: what finds no room in the margin need not be known to draw it. */
static void
tell_remedies_later (LidBoardArea *self)
{
  if (self->telling == 0)
    self->telling = g_idle_add (tell_remedies, self);
}

/* The last goes first, so that they come back in the order they stand in. */
static void
drop_notes (LidBoardArea *self, guint n)
{
  while (self->notes->len > n)
    {
      gpointer note = g_ptr_array_steal_index (self->notes, self->notes->len - 1);

      lid_findings_popover_close (note);
      lid_note_button_show_nothing (note);
      g_ptr_array_add (self->spare_notes, note);
    }
}

static void
add_note (LidBoardArea *self)
{
  GtkWidget *note;

  if (self->spare_notes->len > 0)
    note = g_ptr_array_steal_index (self->spare_notes, self->spare_notes->len - 1);
  else
    {
      note = lid_note_button_new (self);
      gtk_widget_insert_before (note, GTK_WIDGET (self), self->more);
    }
  g_ptr_array_add (self->notes, note);
}

/* One widget a finding, folded ones too: a screen reader hears them all. */
void
lid_board_area_place_notes (LidBoardArea *self)
{
  const LidAssessment *assessment
      = lid_job_model_get_assessment (lid_hands_get_model (self->hands));
  guint n = assessment != NULL ? assessment->findings->len : 0;

  self->pointed = LID_NOWHERE;
  drop_notes (self, n);
  if (self->more == NULL)
    {
      self->more = lid_more_button_new (self);
      gtk_widget_set_parent (self->more, GTK_WIDGET (self));
    }
  lid_findings_popover_close (self->more);
  while (self->notes->len < n)
    add_note (self);
  for (guint i = 0; i < n; i++)
    {
      lid_findings_popover_close (self->notes->pdata[i]);
      lid_note_button_show (self->notes->pdata[i], i);
    }
  tell_remedies_later (self);
}

static const LidFinding *
pointed_finding (LidBoardArea *self)
{
  return self->pointed != LID_NOWHERE && (guint)self->pointed < self->notes->len
             ? lid_note_button_get_finding (self->notes->pdata[self->pointed])
             : NULL;
}

static void
draw_pointed (LidBoardArea *self)
{
  const LidFinding *finding = pointed_finding (self);

  for (guint i = 0; finding != NULL && i < finding->n_slots; i++)
    lid_board_area_repaint_slot (self, (int)finding->slots[i]);
}

/**
 * lid_board_area_point_at:
 * @note: the note under the pointer or the keyboard, LID_NOWHERE: none
 *
 * Its slots show, also where no line leads to them.
 */
void
lid_board_area_point_at (LidBoardArea *self, int note)
{
  if (self->pointed == note)
    return;
  draw_pointed (self);
  self->pointed = note;
  draw_pointed (self);
}

gboolean
lid_board_area_is_pointed_at (LidBoardArea *self, guint slot)
{
  const LidFinding *finding = pointed_finding (self);

  return finding != NULL && lid_slot_words_finding_names (finding, slot);
}
