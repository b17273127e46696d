/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/teach-clicks.h"

#include <glib/gi18n.h>

struct _LidTeachClicks
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *content;
  GtkWidget *board;
  GtkWidget *channel;
  GtkWidget *processor_box;
  GtkWidget *processor;
  /* owned */
  LidTeachGroups *groups;
  LidBoard *shown; /* nullable */
  /* which channel the next click is for */
  int socket; /* from 1; 0: not told */
  char *letter;
  guint size;       /* of a channel, once one was closed; 0: not yet */
  gboolean showing; /* we write the fields, not the user */
};

G_DEFINE_FINAL_TYPE (LidTeachClicks, lid_teach_clicks, GTK_TYPE_WIDGET)

static guint changed_signal;

/* The processor the names state of a slot; else the one chosen. */
static int
socket_of (LidTeachClicks *self, guint slot)
{
  if (self->shown->slots[slot].socket != LID_NOWHERE)
    return self->shown->slots[slot].socket + 1;
  return self->shown->n_sockets > 1
             ? (int)gtk_drop_down_get_selected (GTK_DROP_DOWN (self->processor)) + 1
             : 0;
}

static void
show (LidTeachClicks *self)
{
  self->showing = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->channel), self->letter);
  self->showing = FALSE;
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "clicks.next-channel",
                                 lid_teach_groups_count (self->groups, self->socket, self->letter)
                                     > 0);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "clicks.start-again",
                                 lid_teach_groups_size (self->groups) > 0);
  lid_teach_board_show (LID_TEACH_BOARD (self->board), self->groups, self->socket, self->letter);
}

static void
turn_to (LidTeachClicks *self, int socket, char *letter)
{
  self->socket = socket;
  g_free (self->letter);
  self->letter = letter;
}

static void
next_channel (LidTeachClicks *self)
{
  turn_to (self, self->socket, lid_teach_groups_next_channel (self->groups, self->socket));
}

static void
told (LidTeachClicks *self)
{
  show (self);
  g_signal_emit (self, changed_signal, 0);
}

/* A click takes the slot onto the channel, or off the one it is on. */
static void
picked (LidTeachBoard *board, guint slot, const char *channel, LidTeachClicks *self)
{
  const char *id = self->shown->slots[slot].id;
  int socket = socket_of (self, slot);
  gboolean off
      = channel != NULL ? *channel == 0 : lid_teach_groups_find (self->groups, id, NULL) != NULL;

  if (off)
    {
      if (lid_teach_groups_take (self->groups, id))
        told (self);
      return;
    }
  if (channel != NULL)
    turn_to (self, socket, g_strdup (channel));
  else if (socket != self->socket)
    turn_to (self, socket, lid_teach_groups_next_channel (self->groups, socket));
  lid_teach_groups_put (self->groups, id, socket, self->letter);
  if (channel == NULL && self->size > 0
      && lid_teach_groups_count (self->groups, socket, self->letter) >= self->size)
    next_channel (self);
  told (self);
}

static void
channel_typed (GtkEditable *editable, LidTeachClicks *self)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (editable)));

  if (self->showing || *text == 0)
    return;
  turn_to (self, self->socket, g_steal_pointer (&text));
  lid_teach_board_show (LID_TEACH_BOARD (self->board), self->groups, self->socket, self->letter);
}

static void
processor_chosen (LidTeachClicks *self)
{
  int socket = (int)gtk_drop_down_get_selected (GTK_DROP_DOWN (self->processor)) + 1;

  if (self->showing || self->shown == NULL)
    return;
  turn_to (self, socket, lid_teach_groups_next_channel (self->groups, socket));
  show (self);
}

static void
close_channel (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTeachClicks *self = LID_TEACH_CLICKS (widget);

  if (self->size == 0)
    self->size = lid_teach_groups_count (self->groups, self->socket, self->letter);
  next_channel (self);
  show (self);
}

static void
start_again (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidTeachClicks *self = LID_TEACH_CLICKS (widget);

  g_clear_pointer (&self->groups, lid_teach_groups_free);
  self->groups = lid_teach_groups_new ();
  self->size = 0;
  next_channel (self);
  told (self);
}

static void
offer_processors (LidTeachClicks *self)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);

  for (guint i = 0; i < self->shown->n_sockets; i++)
    {
      g_autofree char *words = g_strdup_printf (_ ("processor %s"), self->shown->sockets[i].name);

      gtk_string_list_append (list, words);
    }
  self->showing = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->processor), G_LIST_MODEL (list));
  self->showing = FALSE;
  gtk_widget_set_visible (self->processor_box,
                          self->shown->n_sockets > 1 && !self->shown->sockets_told);
}

/**
 * lid_teach_clicks_set_job:
 * @job: (nullable): whose slots are taught; nothing is told of them yet
 */
void
lid_teach_clicks_set_job (LidTeachClicks *self, const LidJob *job)
{
  g_clear_pointer (&self->shown, lid_board_unref);
  g_clear_pointer (&self->groups, lid_teach_groups_free);
  self->groups = lid_teach_groups_new ();
  self->size = 0;
  lid_teach_board_set_job (LID_TEACH_BOARD (self->board), job);
  if (job == NULL)
    return;
  self->shown = lid_board_ref (job->board);
  offer_processors (self);
  turn_to (self, self->shown->n_slots > 0 ? socket_of (self, 0) : 0, g_strdup ("A"));
  show (self);
}

/**
 * lid_teach_clicks_get_pattern:
 *
 * Returns: (transfer full) (nullable): what was clicked as a pattern, whose rest stays open while
 * slots are left; NULL while nothing is told
 */
char *
lid_teach_clicks_get_pattern (LidTeachClicks *self)
{
  g_autofree char *text = NULL;

  if (self->shown == NULL || lid_teach_groups_size (self->groups) == 0)
    return NULL;
  lid_teach_groups_leave_rest (self->groups, lid_teach_clicks_n_open (self) > 0);
  text = lid_teach_groups_to_text (self->groups);
  return g_strconcat ("channels:", text, NULL);
}

/**
 * lid_teach_clicks_n_open:
 *
 * Returns: slots that have no channel yet
 */
guint
lid_teach_clicks_n_open (LidTeachClicks *self)
{
  guint n = 0;

  for (guint i = 0; self->shown != NULL && i < self->shown->n_slots; i++)
    n += self->shown->slots[i].soldered == NULL
         && lid_teach_groups_find (self->groups, self->shown->slots[i].id, NULL) == NULL;
  return n;
}

LidTeachBoard *
lid_teach_clicks_get_board (LidTeachClicks *self)
{
  return LID_TEACH_BOARD (self->board);
}

static gboolean
lid_teach_clicks_grab_focus (GtkWidget *widget)
{
  return gtk_widget_child_focus (LID_TEACH_CLICKS (widget)->board, GTK_DIR_TAB_FORWARD);
}

static void
lid_teach_clicks_dispose (GObject *object)
{
  LidTeachClicks *self = LID_TEACH_CLICKS (object);

  g_clear_pointer (&self->shown, lid_board_unref);
  gtk_widget_dispose_template (GTK_WIDGET (object), LID_TYPE_TEACH_CLICKS);
  G_OBJECT_CLASS (lid_teach_clicks_parent_class)->dispose (object);
}

static void
lid_teach_clicks_finalize (GObject *object)
{
  LidTeachClicks *self = LID_TEACH_CLICKS (object);

  lid_teach_groups_free (self->groups);
  g_free (self->letter);
  G_OBJECT_CLASS (lid_teach_clicks_parent_class)->finalize (object);
}

static void
lid_teach_clicks_class_init (LidTeachClicksClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_teach_clicks_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_teach_clicks_finalize;
  widget_class->grab_focus = lid_teach_clicks_grab_focus;
  g_type_ensure (LID_TYPE_TEACH_BOARD);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/teach-clicks.ui");
  gtk_widget_class_bind_template_child (widget_class, LidTeachClicks, content);
  gtk_widget_class_bind_template_child (widget_class, LidTeachClicks, board);
  gtk_widget_class_bind_template_child (widget_class, LidTeachClicks, channel);
  gtk_widget_class_bind_template_child (widget_class, LidTeachClicks, processor_box);
  gtk_widget_class_bind_template_child (widget_class, LidTeachClicks, processor);
  gtk_widget_class_bind_template_callback (widget_class, picked);
  gtk_widget_class_bind_template_callback (widget_class, channel_typed);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "teachclicks");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_install_action (widget_class, "clicks.next-channel", NULL, close_channel);
  gtk_widget_class_install_action (widget_class, "clicks.start-again", NULL, start_again);
  changed_signal = g_signal_new ("changed", LID_TYPE_TEACH_CLICKS, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void
lid_teach_clicks_init (LidTeachClicks *self)
{
  self->groups = lid_teach_groups_new ();
  self->letter = g_strdup ("A");
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_object (self->processor, "notify::selected", G_CALLBACK (processor_chosen), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
lid_teach_clicks_new (void)
{
  return g_object_new (LID_TYPE_TEACH_CLICKS, NULL);
}
