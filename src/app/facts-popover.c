/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/facts-popover.h"

#include "app/facts-row.h"
#include "app/window-actions.h"

#include <glib/gi18n.h>

#define MOST_HEIGHT 620

struct _LidFactsPopover
{
  GtkPopover parent_instance;

  LidJobModel *model; /* nullable */
  GtkWidget *columns;
  LidFactsRow texts[LID_EDITS_N_TEXTS];
  GtkWidget *settings; /* nullable: no model yet */
  GtkWidget *read_only;
  gboolean showing; /* the job writes the fields, not the user */
};

G_DEFINE_FINAL_TYPE (LidFactsPopover, lid_facts_popover, GTK_TYPE_POPOVER)

static const char *const text_words[LID_EDITS_N_TEXTS] = {
  [LID_EDITS_TITLE] = N_ ("Machine"),      [LID_EDITS_OWNER] = N_ ("Owner"),
  [LID_EDITS_ASSET] = N_ ("Asset number"), [LID_EDITS_NUMBER] = N_ ("Job number"),
  [LID_EDITS_SHOP] = N_ ("Shop"),          [LID_EDITS_TECHNICIAN] = N_ ("Technician"),
  [LID_EDITS_NOTES] = N_ ("Notes"),
};

static void
write_text (LidFactsPopover *self, LidEditsText which, const char *text)
{
  g_autoptr (GError) error = NULL;
  gboolean ok;

  if (self->showing || self->model == NULL)
    return;
  ok = lid_edits_set_text (lid_job_model_get_edits (self->model), which, text, &error);
  lid_facts_row_say (&self->texts[which], ok ? NULL : error->message);
  if (ok)
    lid_job_model_edited (self->model);
}

static void
text_typed (GtkEditable *editable, LidFactsPopover *self)
{
  for (guint i = 0; i < LID_EDITS_N_TEXTS; i++)
    if (self->texts[i].field == GTK_WIDGET (editable))
      write_text (self, (LidEditsText)i, gtk_editable_get_text (editable));
}

static char *
text_of (GtkTextBuffer *buffer)
{
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, TRUE);
}

static void
notes_typed (GtkTextBuffer *buffer, LidFactsPopover *self)
{
  g_autofree char *text = text_of (buffer);

  write_text (self, LID_EDITS_NOTES, text);
}

static GtkTextBuffer *
notes_of (LidFactsPopover *self)
{
  return gtk_text_view_get_buffer (GTK_TEXT_VIEW (self->texts[LID_EDITS_NOTES].field));
}

static void
show_notes (LidFactsPopover *self, const char *text)
{
  GtkTextBuffer *buffer = notes_of (self);
  g_autofree char *shown = text_of (buffer);

  if (!lid_facts_row_complains (&self->texts[LID_EDITS_NOTES]) && g_strcmp0 (shown, text) != 0)
    gtk_text_buffer_set_text (buffer, text, -1);
}

static void
show (LidFactsPopover *self)
{
  LidEdits *edits = lid_job_model_get_edits (self->model);
  gboolean read_only = lid_edits_job (edits)->read_only;

  self->showing = TRUE;
  for (guint i = 0; i < LID_EDITS_N_TEXTS; i++)
    {
      const char *text = lid_edits_get_text (edits, (LidEditsText)i);

      text = text != NULL ? text : "";
      if (i == LID_EDITS_NOTES)
        show_notes (self, text);
      else
        lid_facts_row_set_text (&self->texts[i], self->texts[i].field, text);
    }
  lid_facts_settings_show (LID_FACTS_SETTINGS (self->settings));
  gtk_widget_set_sensitive (self->columns, !read_only);
  gtk_widget_set_visible (self->read_only, read_only);
  self->showing = FALSE;
}

/**
 * lid_facts_popover_set_model:
 * @model: the job to edit; once in the life of a popover
 */
void
lid_facts_popover_set_model (LidFactsPopover *self, LidJobModel *model)
{
  g_return_if_fail (self->model == NULL);
  self->model = g_object_ref (model);
  self->settings = lid_facts_settings_new (model);
  gtk_box_append (GTK_BOX (self->columns), self->settings);
  g_signal_connect_object (model, "changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  show (self);
}

/**
 * lid_facts_popover_get_field:
 *
 * Returns: (transfer none): the entry of that text; of the notes a text view
 */
GtkWidget *
lid_facts_popover_get_field (LidFactsPopover *self, LidEditsText which)
{
  return self->texts[which].field;
}

/**
 * lid_facts_popover_get_settings:
 *
 * Returns: (transfer none) (nullable): the machine around the modules
 */
LidFactsSettings *
lid_facts_popover_get_settings (LidFactsPopover *self)
{
  return self->settings != NULL ? LID_FACTS_SETTINGS (self->settings) : NULL;
}

static void
lid_facts_popover_dispose (GObject *object)
{
  LidFactsPopover *self = LID_FACTS_POPOVER (object);

  self->showing = TRUE;
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  G_OBJECT_CLASS (lid_facts_popover_parent_class)->dispose (object);
  g_clear_object (&self->model);
}

static void
lid_facts_popover_class_init (LidFactsPopoverClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = lid_facts_popover_dispose;
}

/* Several lines; Tab goes on to the next field, as in every other. */
static void
add_notes (LidFactsPopover *self, GtkGrid *grid)
{
  GtkWidget *view = gtk_text_view_new (), *scrolled = gtk_scrolled_window_new ();
  LidFactsRow *row = &self->texts[LID_EDITS_NOTES];

  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view), FALSE);
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_top_margin (GTK_TEXT_VIEW (view), 6);
  gtk_text_view_set_bottom_margin (GTK_TEXT_VIEW (view), 6);
  gtk_text_view_set_left_margin (GTK_TEXT_VIEW (view), 8);
  gtk_text_view_set_right_margin (GTK_TEXT_VIEW (view), 8);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scrolled), 96);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), view);
  lid_facts_row_add (row, grid, LID_EDITS_NOTES, _ (text_words[LID_EDITS_NOTES]), scrolled);
  row->field = view;
  gtk_widget_set_valign (row->label, GTK_ALIGN_START); /* beside the first line */
  gtk_widget_set_margin_top (row->label, 8);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (text_words[LID_EDITS_NOTES]), -1);
  g_signal_connect (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view)), "changed",
                    G_CALLBACK (notes_typed), self);
}

static GtkWidget *
new_texts (LidFactsPopover *self)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  for (guint i = 0; i < LID_EDITS_NOTES; i++)
    {
      GtkWidget *entry = gtk_entry_new ();

      gtk_editable_set_width_chars (GTK_EDITABLE (entry), 26);
      g_object_set (entry, "truncate-multiline", TRUE, NULL);
      lid_facts_row_add (&self->texts[i], GTK_GRID (grid), (int)i, _ (text_words[i]), entry);
      g_signal_connect (entry, "changed", G_CALLBACK (text_typed), self);
    }
  add_notes (self, GTK_GRID (grid));
  return grid;
}

static void
lid_facts_popover_init (LidFactsPopover *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  self->columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 28);
  self->read_only
      = gtk_label_new (_ ("This job was written by a newer version: it can be read, not changed."));
  gtk_label_set_xalign (GTK_LABEL (self->read_only), 0);
  gtk_widget_set_visible (self->read_only, FALSE);
  gtk_box_append (GTK_BOX (self->columns), new_texts (self));
  gtk_box_append (GTK_BOX (box), self->read_only);
  gtk_box_append (GTK_BOX (box), self->columns);
  gtk_widget_add_css_class (box, "facts-grid");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), box);
  gtk_popover_set_child (GTK_POPOVER (self), scrolled);
  lid_window_actions_name (GTK_WIDGET (self), _ ("Facts of This Job"));
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_START);
}

GtkWidget *
lid_facts_popover_new (void)
{
  return g_object_new (LID_TYPE_FACTS_POPOVER, NULL);
}
