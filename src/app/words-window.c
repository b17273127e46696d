/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/words-window.h"

#include "checks/rules.h"
#include "help/catalogue.h"

#include <glib/gi18n.h>
#include <string.h>

#define TEXT "lid-words-text"

static void
add_label (GtkWidget *box, const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (box), label);
}

static void
add_row (GtkListBox *list, const LidExplanation *explanation, const char *group)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  char *text = lid_explain_to_text (explanation), *folded = g_utf8_casefold (text, -1);

  add_label (box, explanation->title, "help-title");
  for (guint i = 0; i < explanation->parts->len; i++)
    {
      const LidExplainPart *part = &g_array_index (explanation->parts, LidExplainPart, i);

      if (part->heading != NULL)
        add_label (box, part->heading, "help-heading");
      add_label (box, part->text, NULL);
    }
  gtk_widget_set_tooltip_text (row, group);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  g_object_set_data_full (G_OBJECT (row), TEXT, folded, g_free);
  gtk_list_box_append (list, row);
  g_free (text);
}

static gboolean
matches (GtkListBoxRow *row, gpointer search)
{
  g_autofree char *wanted = g_utf8_casefold (gtk_editable_get_text (GTK_EDITABLE (search)), -1);

  return strstr (g_object_get_data (G_OBJECT (row), TEXT), g_strstrip (wanted)) != NULL;
}

static void
fill (GtkListBox *list)
{
  const LidWord *words;
  guint n;

  words = lid_glossary_all (&n);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (LidExplanation) explanation = lid_explain_word (&words[i]);

      add_row (list, explanation, lid_glossary_group (words[i].group));
    }
  for (guint i = 0; lid_rules[i] != NULL; i++)
    {
      g_autoptr (LidExplanation) explanation = lid_catalogue_rule (lid_rules[i]);

      add_row (list, explanation, _ ("Rule of the checker"));
    }
}

/* The page a figure's own help has no room for. */
static void
fill_pages (GtkListBox *list)
{
  g_autoptr (LidExplanation) explanation = lid_explain_bandwidth ();

  add_row (list, explanation, _ ("How figures are made"));
}

/* What the bench sheet says to the hands, by moment. */
static void
fill_cautions (GtkListBox *list)
{
  const LidCaution *cautions;
  guint n;

  cautions = lid_cautions_all (&n);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (LidExplanation) explanation = lid_explain_caution (&cautions[i]);

      add_row (list, explanation, _ ("Caution of the bench sheet"));
    }
}

static gboolean
close_on_escape (GtkWidget *window, GVariant *args, gpointer data)
{
  gtk_window_close (GTK_WINDOW (window));
  return TRUE;
}

/**
 * lid_words_window_new:
 *
 * Returns: (transfer none): a window, to be presented
 */
GtkWidget *
lid_words_window_new (void)
{
  GtkWidget *window = gtk_window_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *search = gtk_search_entry_new (), *list = gtk_list_box_new ();
  GtkWidget *scrolled = gtk_scrolled_window_new (), *nothing = gtk_label_new (NULL);
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_window_set_title (GTK_WINDOW (window), _ ("Words and Rules"));
  gtk_window_set_titlebar (GTK_WINDOW (window), gtk_header_bar_new ());
  gtk_window_set_default_size (GTK_WINDOW (window), 560, 620);
  gtk_widget_add_css_class (window, "words");
  gtk_label_set_text (GTK_LABEL (nothing), _ ("No word, no rule and no caution says that."));
  gtk_list_box_set_placeholder (GTK_LIST_BOX (list), nothing);
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_list_box_set_filter_func (GTK_LIST_BOX (list), matches, search, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (search), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Look for a word"), -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Words and Rules"), -1);
  fill (GTK_LIST_BOX (list));
  fill_pages (GTK_LIST_BOX (list));
  fill_cautions (GTK_LIST_BOX (list));
  g_signal_connect_swapped (search, "search-changed", G_CALLBACK (gtk_list_box_invalidate_filter),
                            list);
  g_signal_connect_swapped (search, "stop-search", G_CALLBACK (gtk_window_close), window);
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                        gtk_callback_action_new (close_on_escape, NULL, NULL)));
  gtk_widget_add_controller (window, keys);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), list);
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_box_append (GTK_BOX (box), search);
  gtk_box_append (GTK_BOX (box), scrolled);
  gtk_window_set_child (GTK_WINDOW (window), box);
  return window;
}
