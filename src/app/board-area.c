/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/board-area-private.h"

#include "app/slot-words.h"

#include <glib/gi18n.h>

G_DEFINE_FINAL_TYPE (LidBoardArea, lid_board_area, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_LID_OFF,
  N_PROPERTIES
};

static GParamSpec *properties[N_PROPERTIES];

LidHands *
lid_board_area_get_hands (LidBoardArea *self)
{
  return self->hands;
}

GtkWidget *
lid_board_area_get_slot (LidBoardArea *self, guint slot)
{
  return slot < self->slots->len ? self->slots->pdata[slot] : NULL;
}

const LidPopulation *
lid_board_area_get_population (LidBoardArea *self)
{
  LidJobModel *model = lid_hands_get_model (self->hands);
  LidEdits *edits = lid_job_model_get_edits (model);
  LidOf of = lid_job_model_get_of (model);
  const LidPopulation *population = lid_edits_population (edits, of);

  /* What is not there yet begins as a copy of what comes before it, and looks like it. */
  if (population == NULL && of == LID_AS_LEFT)
    population = lid_edits_population (edits, LID_PLANNED);
  if (population == NULL)
    population = lid_edits_population (edits, LID_AS_FOUND);
  if (population == NULL)
    {
      if (self->nothing == NULL)
        self->nothing = lid_population_new (lid_edits_job (edits)->board);
      population = self->nothing;
    }
  return population;
}

const LidChanges *
lid_board_area_get_changes (LidBoardArea *self)
{
  return self->changes;
}

gboolean
lid_board_area_is_next (LidBoardArea *self, guint slot)
{
  return self->next == (int)slot;
}

static void
remake_changes (LidBoardArea *self)
{
  const LidJob *job = lid_edits_job (lid_job_model_get_edits (lid_hands_get_model (self->hands)));
  const LidPopulation *now = lid_board_area_get_population (self);

  g_clear_pointer (&self->changes, lid_changes_free);
  if (job->as_found != NULL && job->as_found != now)
    self->changes = lid_changes_new (job->board, job->as_found, now);
}

/* A widget for each slot of the board the job is on. */
static void
lay_slots (LidBoardArea *self, LidBoard *board)
{
  for (guint i = 0; i < self->slots->len; i++)
    gtk_widget_unparent (self->slots->pdata[i]);
  g_ptr_array_set_size (self->slots, 0);
  self->last = NULL;
  self->board = lid_board_ref (board);
  for (guint i = 0; i < board->n_slots; i++)
    {
      GtkWidget *slot = lid_slot_button_new (self, i);

      gtk_widget_insert_before (slot, GTK_WIDGET (self),
                                self->notes->len > 0 ? self->notes->pdata[0] : self->more);
      g_ptr_array_add (self->slots, slot);
    }
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "board.lid-off", board->placed);
  lid_board_area_set_lid_off (self, self->lid_off && board->placed);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

/* The same machine on another board: taught, or teaching undone. The keyboard stays on its slot. */
static void
follow_board (LidBoardArea *self)
{
  LidBoard *board
      = lid_edits_job (lid_job_model_get_edits (lid_hands_get_model (self->hands)))->board;
  LidBoard *old = self->board;
  GtkWidget *focus = gtk_widget_get_focus_child (GTK_WIDGET (self));
  int slot = LID_NOWHERE;

  if (board == old)
    return;
  if (LID_IS_SLOT_BUTTON (focus))
    slot = lid_board_find_slot (board,
                                old->slots[lid_slot_button_get_slot (LID_SLOT_BUTTON (focus))].id);
  g_clear_pointer (&self->nothing, lid_population_free);
  lay_slots (self, board);
  lid_board_unref (old);
  if (slot != LID_NOWHERE)
    gtk_widget_grab_focus (lid_board_area_get_slot (self, (guint)slot));
}

static void
refresh_slots (LidBoardArea *self)
{
  g_autofree guint *findings = lid_slot_words_hash_findings (
      lid_job_model_get_assessment (lid_hands_get_model (self->hands)), self->slots->len);

  for (guint i = 0; i < self->slots->len; i++)
    lid_slot_button_refresh (self->slots->pdata[i], findings[i]);
}

/* Everything that depends on the job, in the frame of the edit. */
static void
refresh (LidBoardArea *self)
{
  LidBoardGeometry *before;
  int next = self->next;

  lid_board_area_end_motion (self);
  before = g_steal_pointer (&self->geometry);
  if (self->pointed != LID_NOWHERE)
    g_clear_pointer (&before, lid_board_geometry_free); /* its slots show it, and it is gone */
  g_clear_pointer (&self->changes, lid_changes_free);
  follow_board (self);
  self->next = lid_hands_get_next (self->hands);
  remake_changes (self);
  refresh_slots (self);
  lid_board_area_place_notes (self);
  lid_board_area_repaint (self, before, next);
}

static void
hand_changed (LidBoardArea *self)
{
  int old = self->next;

  self->next = lid_hands_get_next (self->hands);
  lid_board_area_repaint_slot (self, old);
  lid_board_area_repaint_slot (self, self->next);
}

/* Named with empty hands: whoever typed the name wants to be there. */
static void
looked_at (LidHands *hands, guint slot, LidBoardArea *self)
{
  GtkWidget *widget = lid_board_area_get_slot (self, slot);

  if (widget != NULL)
    gtk_widget_grab_focus (widget);
}

static void
went_to (LidHands *hands, guint slot, LidBoardArea *self)
{
  GtkWidget *widget = lid_board_area_get_slot (self, slot);
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (widget == NULL)
    return;
  /* Whoever fills from the label field or the tray goes on there; the board remembers the place. */
  if (focus == NULL || gtk_widget_is_ancestor (focus, GTK_WIDGET (self)))
    gtk_widget_grab_focus (widget);
  self->last = widget;
}

static void
remove_children (LidBoardArea *self)
{
  GtkWidget *child;

  lid_board_area_end_motion (self);
  self->last = NULL;
  self->more = NULL;
  self->pointed = LID_NOWHERE;
  g_ptr_array_set_size (self->slots, 0);
  g_ptr_array_set_size (self->notes, 0);
  g_ptr_array_set_size (self->spare_notes, 0);
  g_clear_handle_id (&self->telling, g_source_remove);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
}

static void
forget_hands (LidBoardArea *self)
{
  if (self->hands == NULL)
    return;
  g_signal_handlers_disconnect_by_data (self->hands, self);
  g_signal_handlers_disconnect_by_data (lid_hands_get_model (self->hands), self);
  remove_children (self);
  g_clear_pointer (&self->geometry, lid_board_geometry_free);
  g_clear_pointer (&self->changes, lid_changes_free);
  g_clear_pointer (&self->nothing, lid_population_free);
  g_clear_pointer (&self->board, lid_board_unref);
  g_clear_object (&self->hands);
}

/**
 * lid_board_area_set_hands:
 * @hands: (nullable): the hands of another job, whose board is shown from now on
 */
void
lid_board_area_set_hands (LidBoardArea *self, LidHands *hands)
{
  if (self->hands == hands)
    return;
  forget_hands (self);
  self->next = LID_NOWHERE;
  if (hands == NULL)
    return;
  self->hands = g_object_ref (hands);
  lay_slots (self, lid_edits_job (lid_job_model_get_edits (lid_hands_get_model (hands)))->board);
  g_signal_connect_object (lid_hands_get_model (hands), "changed", G_CALLBACK (refresh), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (hands, "changed", G_CALLBACK (hand_changed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (hands, "went-to", G_CALLBACK (went_to), self, 0);
  g_signal_connect_object (hands, "looked-at", G_CALLBACK (looked_at), self, 0);
  refresh (self);
}

/**
 * lid_board_area_set_lid_off:
 * @lid_off: show where the slots lie on the board; without places known it stays by channel
 */
void
lid_board_area_set_lid_off (LidBoardArea *self, gboolean lid_off)
{
  if (self->lid_off == lid_off)
    return;
  lid_board_area_begin_motion (self);
  self->lid_off = lid_off;
  lid_board_area_reshape (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_LID_OFF]);
}

gboolean
lid_board_area_get_lid_off (LidBoardArea *self)
{
  return self->lid_off;
}

static void
lid_board_area_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_LID_OFF)
    g_value_set_boolean (value, LID_BOARD_AREA (object)->lid_off);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
lid_board_area_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_LID_OFF)
    lid_board_area_set_lid_off (LID_BOARD_AREA (object), g_value_get_boolean (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
lid_board_area_dispose (GObject *object)
{
  LidBoardArea *self = LID_BOARD_AREA (object);

  forget_hands (self);
  remove_children (self);
  G_OBJECT_CLASS (lid_board_area_parent_class)->dispose (object);
}

static void
lid_board_area_finalize (GObject *object)
{
  LidBoardArea *self = LID_BOARD_AREA (object);

  g_ptr_array_unref (self->slots);
  g_ptr_array_unref (self->notes);
  g_ptr_array_unref (self->spare_notes);
  lid_board_ground_free (self->ground);
  lid_draw_text_free (self->text);
  G_OBJECT_CLASS (lid_board_area_parent_class)->finalize (object);
}

static void
lid_board_area_class_init (LidBoardAreaClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = lid_board_area_get_property;
  object_class->set_property = lid_board_area_set_property;
  object_class->dispose = lid_board_area_dispose;
  object_class->finalize = lid_board_area_finalize;
  lid_board_area_class_init_snapshot (widget_class);
  lid_board_area_class_init_shape (widget_class);
  lid_board_area_class_init_zoom (widget_class);
  lid_board_area_class_init_focus (widget_class);
  properties[PROP_LID_OFF]
      = g_param_spec_boolean ("lid-off", NULL, NULL, FALSE,
                              G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  gtk_widget_class_install_property_action (widget_class, "board.lid-off", "lid-off");
  gtk_widget_class_set_css_name (widget_class, "board");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
lid_board_area_init (LidBoardArea *self)
{
  self->slots = g_ptr_array_new ();
  self->notes = g_ptr_array_new ();
  self->spare_notes = g_ptr_array_new ();
  self->ground = lid_board_ground_new ();
  self->next = self->pointed = LID_NOWHERE;
  gtk_widget_set_direction (GTK_WIDGET (self), GTK_TEXT_DIR_LTR); /* hardware does not mirror */
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Board"),
                                  -1);
  lid_board_area_init_shape (self);
  lid_board_area_init_zoom (self);
  lid_board_area_init_focus (self);
}

GtkWidget *
lid_board_area_new (void)
{
  return g_object_new (LID_TYPE_BOARD_AREA, NULL);
}
