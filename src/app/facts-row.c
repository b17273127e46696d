/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/facts-row.h"

#include "app/window-actions.h"

#define SHOWN "lid-shown"

/**
 * lid_facts_row_add:
 * @row: gets the widgets
 * @grid: what it becomes part of
 * @at: which row of it
 * @words: what the field holds
 * @field: (transfer floating): the field
 */
void
lid_facts_row_add (LidFactsRow *row, GtkGrid *grid, int at, const char *words, GtkWidget *field)
{
  row->label = gtk_label_new (words);
  row->field = field;
  row->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  row->complaint = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (row->label), 0);
  /* neither by the baseline: a box of a field and an empty line under it has another (GTK 4.8) */
  gtk_widget_set_valign (row->label, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (row->box, GTK_ALIGN_CENTER);
  gtk_label_set_xalign (GTK_LABEL (row->complaint), 0);
  gtk_label_set_wrap (GTK_LABEL (row->complaint), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (row->complaint), 30);
  gtk_widget_add_css_class (row->complaint, "complaint");
  gtk_widget_set_visible (row->complaint, FALSE);
  gtk_widget_set_hexpand (field, TRUE);
  lid_window_actions_name (field, words);
  gtk_box_append (GTK_BOX (row->box), field);
  gtk_box_append (GTK_BOX (row->box), row->complaint);
  gtk_grid_attach (grid, row->label, 0, at, 1, 1);
  gtk_grid_attach (grid, row->box, 1, at, 1, 1);
}

/**
 * lid_facts_row_say:
 * @sentence: (nullable): what is wrong; NULL: nothing
 */
void
lid_facts_row_say (LidFactsRow *row, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (row->complaint), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (row->complaint, sentence != NULL);
  if (sentence != NULL)
    {
      gtk_widget_add_css_class (row->field, "error");
      gtk_accessible_update_property (GTK_ACCESSIBLE (row->field),
                                      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
    }
  else
    {
      gtk_widget_remove_css_class (row->field, "error");
      gtk_accessible_reset_property (GTK_ACCESSIBLE (row->field),
                                     GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);
    }
}

gboolean
lid_facts_row_complains (const LidFactsRow *row)
{
  return gtk_widget_get_visible (row->complaint);
}

void
lid_facts_row_set_visible (LidFactsRow *row, gboolean visible)
{
  gtk_widget_set_visible (row->label, visible);
  gtk_widget_set_visible (row->box, visible);
}

/**
 * lid_facts_row_set_text:
 * @editable: the entry of the row
 * @text: what the job holds
 *
 * Never over what somebody is typing, or was told to mend.
 */
void
lid_facts_row_set_text (LidFactsRow *row, GtkWidget *editable, const char *text)
{
  if (lid_facts_row_complains (row))
    return;
  g_object_set_data_full (G_OBJECT (row->field), SHOWN, g_strdup (text), g_free);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (editable)), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (editable), text);
}

/**
 * lid_facts_row_changed:
 * @editable: the entry of the row
 *
 * Returns: whether it holds something else than the job does, or what was wrong is gone
 */
gboolean
lid_facts_row_changed (const LidFactsRow *row, GtkWidget *editable)
{
  return lid_facts_row_complains (row)
         || g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (editable)),
                       g_object_get_data (G_OBJECT (row->field), SHOWN))
                != 0;
}
