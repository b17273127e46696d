/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/label-asker.h"

#include "app/window-actions.h"

#include <glib/gi18n.h>

struct _LidLabelAsker
{
  GtkPopover parent_instance;

  LidJobModel *model; /* nullable */
  GPtrArray *asks;    /* LidAsk, as the rows show them */
  GtkWidget *rows;
  GPtrArray *entries; /* GtkEntry by ask, borrowed */
  GtkLabel *sentence;
};

G_DEFINE_FINAL_TYPE (LidLabelAsker, lid_label_asker, GTK_TYPE_POPOVER)

/* The list asks its rows for their height before it knows their width: words no wider than this
 * take at least the lines they take in the end, and the field under them is seen without scrolling.
 */
#define ROW_CHARS 34

static void
say (LidLabelAsker *self, const char *sentence)
{
  gtk_label_set_text (self->sentence, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (self->sentence), sentence != NULL);
}

static char *
name_of (const LidAsk *ask, const LidBoard *board)
{
  g_autofree char *slots = lid_asks_slots (ask, board);

  if (ask->part != NULL)
    return g_strdup_printf (_ ("Part %s, in %s"), ask->part, slots);
  return g_strdup_printf (_ ("What is in %s"), slots);
}

/* Enter, as a scanner sends it: the label answers for the part, and the next row has the field. */
static void
entered (GtkEntry *entry, LidLabelAsker *self)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));
  g_autofree char *module = NULL, *remark = NULL;
  g_autoptr (GError) error = NULL;
  guint at;

  if (*text == 0 || !g_ptr_array_find (self->entries, entry, &at))
    return;
  module = g_strdup (((LidAsk *)self->asks->pdata[at])->module);
  if (!lid_job_model_tell_label (self->model, module, text, &remark, &error))
    {
      say (self, error->message);
      gtk_editable_select_region (GTK_EDITABLE (entry), 0, -1);
      gtk_widget_error_bell (GTK_WIDGET (entry));
      return;
    }
  say (self, remark);
  if (self->entries->len == 0)
    gtk_popover_popdown (GTK_POPOVER (self));
  else
    gtk_widget_grab_focus (self->entries->pdata[MIN (at, self->entries->len - 1)]);
}

static void
add_row (LidLabelAsker *self, const LidAsk *ask)
{
  g_autofree char *name = name_of (ask, lid_job_model_get_job (self->model)->board);
  g_autofree char *facts = lid_asks_facts (ask);
  g_autofree char *missing = g_strdup_printf (_ ("not told: %s"), facts);
  GtkWidget *head = gtk_label_new (name), *soft = gtk_label_new (missing);
  GtkWidget *entry = gtk_entry_new (), *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_label_set_xalign (GTK_LABEL (head), 0);
  gtk_label_set_xalign (GTK_LABEL (soft), 0);
  gtk_label_set_wrap (GTK_LABEL (head), TRUE);
  gtk_label_set_wrap (GTK_LABEL (soft), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (head), ROW_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (soft), ROW_CHARS);
  gtk_widget_add_css_class (head, "heading");
  gtk_widget_add_css_class (soft, "soft");
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), _ ("type or scan its label"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, missing, -1);
  g_signal_connect (entry, "activate", G_CALLBACK (entered), self);
  gtk_box_append (GTK_BOX (row), head);
  gtk_box_append (GTK_BOX (row), soft);
  gtk_box_append (GTK_BOX (row), entry);
  gtk_box_append (GTK_BOX (self->rows), row);
  g_ptr_array_add (self->entries, entry);
}

static gboolean
same_asks (const GPtrArray *a, const GPtrArray *b)
{
  for (guint i = 0; i < a->len && a->len == b->len; i++)
    {
      const LidAsk *x = a->pdata[i], *y = b->pdata[i];

      if (g_strcmp0 (x->module, y->module) != 0 || x->facts != y->facts
          || x->slots->len != y->slots->len)
        return FALSE;
    }
  return a->len == b->len;
}

/* What is being typed stays where nothing changed. */
static void
show (LidLabelAsker *self)
{
  g_autoptr (GPtrArray) asks = lid_job_model_get_asks (self->model);
  GtkWidget *row;

  if (same_asks (asks, self->asks))
    return;
  while ((row = gtk_widget_get_first_child (self->rows)) != NULL)
    gtk_box_remove (GTK_BOX (self->rows), row);
  g_ptr_array_set_size (self->entries, 0);
  g_ptr_array_unref (self->asks);
  self->asks = g_steal_pointer (&asks);
  for (guint i = 0; i < self->asks->len; i++)
    add_row (self, self->asks->pdata[i]);
}

/**
 * lid_label_asker_set_model:
 * @model: (nullable): the job whose modules are asked about
 */
void
lid_label_asker_set_model (LidLabelAsker *self, LidJobModel *model)
{
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, show, self);
  g_set_object (&self->model, model);
  say (self, NULL);
  if (model == NULL)
    return;
  g_signal_connect_object (model, "changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  show (self);
}

/**
 * lid_label_asker_get_words:
 *
 * Returns: (transfer full) (nullable): what is not told, in a line; NULL: nothing is asked
 */
char *
lid_label_asker_get_words (LidLabelAsker *self)
{
  const LidAsk *ask = self->asks->len > 0 ? self->asks->pdata[0] : NULL;
  g_autofree char *facts = ask != NULL ? lid_asks_facts (ask) : NULL, *name = NULL;

  if (ask == NULL)
    return NULL;
  if (self->asks->len > 1)
    return g_strdup_printf (g_dngettext (NULL, "Facts of %u part are not told.",
                                         "Facts of %u parts are not told.", self->asks->len),
                            self->asks->len);
  name = ask->part != NULL ? g_strdup (ask->part)
                           : lid_asks_slots (ask, lid_job_model_get_job (self->model)->board);
  return g_strdup_printf (_ ("Not told of %s: %s."), name, facts);
}

/**
 * lid_label_asker_turn_to:
 * @slot: a slot
 *
 * The row of what sits there has the keyboard.
 */
void
lid_label_asker_turn_to (LidLabelAsker *self, guint slot)
{
  for (guint i = 0; i < self->asks->len; i++)
    {
      const LidAsk *ask = self->asks->pdata[i];

      for (guint k = 0; k < ask->slots->len; k++)
        if (g_array_index (ask->slots, guint, k) == slot)
          {
            gtk_widget_grab_focus (self->entries->pdata[i]);
            return;
          }
    }
}

GtkWidget *
lid_label_asker_get_entry (LidLabelAsker *self, guint ask)
{
  return ask < self->entries->len ? self->entries->pdata[ask] : NULL;
}

static void
lid_label_asker_dispose (GObject *object)
{
  lid_label_asker_set_model (LID_LABEL_ASKER (object), NULL);
  G_OBJECT_CLASS (lid_label_asker_parent_class)->dispose (object);
}

static void
lid_label_asker_finalize (GObject *object)
{
  LidLabelAsker *self = LID_LABEL_ASKER (object);

  g_ptr_array_unref (self->asks);
  g_ptr_array_unref (self->entries);
  G_OBJECT_CLASS (lid_label_asker_parent_class)->finalize (object);
}

static void
lid_label_asker_class_init (LidLabelAskerClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = lid_label_asker_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_label_asker_finalize;
}

static void
lid_label_asker_init (LidLabelAsker *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *scrolled = gtk_scrolled_window_new ();
  GtkWidget *head = gtk_label_new (_ ("The label on the module tells what the report does not. "
                                      "Once for each part; it is remembered."));

  self->asks = g_ptr_array_new ();
  self->entries = g_ptr_array_new ();
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->sentence = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (GTK_LABEL (head), TRUE);
  gtk_label_set_xalign (GTK_LABEL (head), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (head), 44);
  gtk_label_set_wrap (self->sentence, TRUE);
  gtk_label_set_xalign (self->sentence, 0);
  gtk_label_set_max_width_chars (self->sentence, 44);
  gtk_widget_add_css_class (GTK_WIDGET (self->sentence), "sentence");
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->rows);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), 360);
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), scrolled);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->sentence));
  gtk_widget_add_css_class (box, "facts-grid");
  gtk_widget_set_size_request (box, 360, -1);
  say (self, NULL);
  gtk_popover_set_child (GTK_POPOVER (self), box);
  lid_window_actions_name (GTK_WIDGET (self), _ ("Labels of the modules"));
}

GtkWidget *
lid_label_asker_new (void)
{
  return g_object_new (LID_TYPE_LABEL_ASKER, NULL);
}
