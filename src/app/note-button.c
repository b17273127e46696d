/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/note-button.h"

#include "app/board-area.h"
#include "app/findings-popover.h"
#include "app/help-popover.h"
#include "checks/assessment.h"

#include <glib/gi18n.h>

struct _LidNoteButton
{
  GtkWidget parent_instance;

  LidBoardArea *area; /* borrowed: the parent */
  guint index;        /* into the findings of the model's assessment */
  gboolean used;      /* it shows one */
};

G_DEFINE_FINAL_TYPE (LidNoteButton, lid_note_button, GTK_TYPE_WIDGET)

/**
 * lid_note_button_get_finding:
 *
 * Returns: (transfer none) (nullable): what the note is about
 */
const LidFinding *
lid_note_button_get_finding (LidNoteButton *self)
{
  LidHands *hands = lid_board_area_get_hands (self->area);
  const LidAssessment *assessment
      = hands != NULL ? lid_job_model_get_assessment (lid_hands_get_model (hands)) : NULL;

  return assessment != NULL && self->index < assessment->findings->len
             ? assessment->findings->pdata[self->index]
             : NULL;
}

static gboolean
can_apply (const LidFinding *finding)
{
  return finding != NULL && lid_finding_remedy (finding) != NULL
         && lid_finding_remedy (finding)->moves->len > 0;
}

/* A fact nobody told is answered by the label of what sits there. */
static gboolean
can_ask (const LidFinding *finding)
{
  return finding != NULL && finding->fact != LID_NOWHERE && finding->n_slots > 0;
}

/**
 * lid_note_button_show:
 * @finding: index of a finding of the model's assessment
 */
void
lid_note_button_show (LidNoteButton *self, guint finding)
{
  const LidFinding *it;
  g_autofree char *name = NULL;

  self->index = finding;
  it = lid_note_button_get_finding (self);
  g_return_if_fail (it != NULL);
  name = g_strdup_printf (_ ("%s: %s"), lid_grade_to_words (it->grade), it->text);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  if (!self->used)
    gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_HIDDEN, FALSE, -1);
  self->used = TRUE;
}

/**
 * lid_note_button_show_nothing:
 *
 * It speaks of nothing until it is shown again: nobody sees it, hears it or comes to it.
 */
void
lid_note_button_show_nothing (LidNoteButton *self)
{
  gtk_widget_set_child_visible (GTK_WIDGET (self), FALSE);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_HIDDEN, TRUE, -1);
  self->index = G_MAXUINT;
  self->used = FALSE;
}

/**
 * lid_note_button_tell_remedy:
 *
 * To a screen reader; drawn is what the margin has room for. Works remedies out.
 */
void
lid_note_button_tell_remedy (LidNoteButton *self)
{
  const LidFinding *it = lid_note_button_get_finding (self);
  const LidRemedy *remedy = it != NULL ? lid_finding_remedy (it) : NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "note.apply", can_apply (it) || can_ask (it));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  remedy != NULL ? remedy->text : "", -1);
}

static void
apply (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidNoteButton *self = LID_NOTE_BUTTON (widget);
  const LidFinding *finding = lid_note_button_get_finding (self);

  if (can_apply (finding))
    lid_hands_apply (lid_board_area_get_hands (self->area), lid_finding_remedy (finding));
  else if (can_ask (finding))
    gtk_widget_activate_action (widget, "bench.ask", "u", finding->slots[0]);
}

static void
go_to (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidNoteButton *self = LID_NOTE_BUTTON (widget);
  const LidFinding *finding = lid_note_button_get_finding (self);
  const LidBoardNote *note
      = finding != NULL ? lid_board_area_find_note (self->area, finding) : NULL;

  if (note != NULL && note->n_findings > 1)
    lid_findings_popover_open (widget, self->area, finding);
  else if (finding != NULL && finding->n_slots > 0)
    gtk_widget_grab_focus (lid_board_area_get_slot (self->area, finding->slots[0]));
}

static void
why (GtkWidget *widget, const char *action, GVariant *parameter)
{
  const LidFinding *finding = lid_note_button_get_finding (LID_NOTE_BUTTON (widget));
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_explain_free);

  if (finding == NULL)
    return;
  g_ptr_array_add (all, lid_explain_finding (finding));
  lid_help_popover_show (widget, all);
}

/* The title says why, the link carries the remedy out; the rest of the note leads to its slot. */
static void
clicked (GtkGestureClick *gesture, int n, double x, double y, GtkWidget *widget)
{
  LidNoteButton *self = LID_NOTE_BUTTON (widget);
  double at_x, at_y;
  LidHit hit;

  if (!gtk_widget_contains (widget, x, y)
      || !gtk_widget_translate_coordinates (widget, GTK_WIDGET (self->area), x, y, &at_x, &at_y))
    return;
  hit = lid_board_geometry_hit (lid_board_area_get_geometry (self->area), at_x, at_y);
  gtk_widget_grab_focus (widget);
  gtk_widget_activate_action (widget,
                              hit.kind == LID_HIT_REMEDY ? "note.apply"
                              : hit.kind == LID_HIT_WHY  ? "note.why"
                                                         : "note.go-to",
                              NULL);
}

static void
moved (GtkEventControllerMotion *motion, double x, double y, LidNoteButton *self)
{
  double at_x, at_y;
  gboolean link = FALSE;

  if (gtk_widget_translate_coordinates (GTK_WIDGET (self), GTK_WIDGET (self->area), x, y, &at_x,
                                        &at_y))
    {
      LidHit hit = lid_board_geometry_hit (lid_board_area_get_geometry (self->area), at_x, at_y);

      link = hit.kind == LID_HIT_REMEDY || hit.kind == LID_HIT_WHY;
    }
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), link ? "pointer" : NULL);
}

/* The pointer or the keyboard is on the note: its slots show. */
static void
point (LidNoteButton *self)
{
  lid_board_area_point_at (self->area, (int)self->index);
}

static void
point_away (LidNoteButton *self)
{
  lid_board_area_point_at (self->area, LID_NOWHERE);
}

static void
lid_note_button_dispose (GObject *object)
{
  lid_findings_popover_close (GTK_WIDGET (object));
  G_OBJECT_CLASS (lid_note_button_parent_class)->dispose (object);
}

static void
lid_note_button_class_init (LidNoteButtonClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_note_button_dispose;
  gtk_widget_class_set_css_name (widget_class, "note");
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LINK);
  gtk_widget_class_install_action (widget_class, "note.apply", NULL, apply);
  gtk_widget_class_install_action (widget_class, "note.go-to", NULL, go_to);
  gtk_widget_class_install_action (widget_class, "note.why", NULL, why);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, 0, "note.apply", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, 0, "note.apply", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_space, 0, "note.go-to", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_question, GDK_SHIFT_MASK, "note.why",
                                       NULL);
}

static void
lid_note_button_init (LidNoteButton *self)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *keyboard = gtk_event_controller_focus_new ();

  g_signal_connect (click, "released", G_CALLBACK (clicked), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  g_signal_connect (motion, "motion", G_CALLBACK (moved), self);
  g_signal_connect_swapped (motion, "enter", G_CALLBACK (point), self);
  g_signal_connect_swapped (motion, "leave", G_CALLBACK (point_away), self);
  gtk_widget_add_controller (GTK_WIDGET (self), motion);
  g_signal_connect_swapped (keyboard, "enter", G_CALLBACK (point), self);
  g_signal_connect_swapped (keyboard, "leave", G_CALLBACK (point_away), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keyboard);
}

/**
 * lid_note_button_new:
 * @area: the board it lies beside, which becomes its parent
 */
GtkWidget *
lid_note_button_new (LidBoardArea *area)
{
  LidNoteButton *self = g_object_new (LID_TYPE_NOTE_BUTTON, NULL);

  self->area = area;
  return GTK_WIDGET (self);
}
