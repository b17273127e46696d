/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/help-popover.h"

#include "app/popover-place.h"
#include "app/window-actions.h"

#include <glib/gi18n.h>

#define WIDTH_CHARS 46
#define MOST_HEIGHT 420

/* The words themselves: one thing that takes the focus, so that a screen reader reads them all. */
#define LID_TYPE_HELP_TEXT (lid_help_text_get_type ())
G_DECLARE_FINAL_TYPE (LidHelpText, lid_help_text, LID, HELP_TEXT, GtkWidget)

struct _LidHelpText
{
  GtkWidget parent_instance;
};

struct _LidHelpPopover
{
  GtkPopover parent_instance;

  GtkWidget *words;
  char *text;
};

G_DEFINE_FINAL_TYPE (LidHelpText, lid_help_text, GTK_TYPE_WIDGET)
G_DEFINE_FINAL_TYPE (LidHelpPopover, lid_help_popover, GTK_TYPE_POPOVER)

static void
clear (GtkWidget *words)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (words)) != NULL)
    gtk_widget_unparent (child);
}

static void
lid_help_text_dispose (GObject *object)
{
  clear (GTK_WIDGET (object));
  G_OBJECT_CLASS (lid_help_text_parent_class)->dispose (object);
}

static void
lid_help_text_class_init (LidHelpTextClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_help_text_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "helptext");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
lid_help_text_init (LidHelpText *self)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (GTK_BOX_LAYOUT (layout), 3);
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
}

static void
add_label (LidHelpPopover *self, const char *text, const char *style, int above)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  /* The text alone gives the width: in larger type as many letters are wider, and the text would
   * have room at its foot for the lines it takes without that. */
  if (style == NULL)
    gtk_label_set_width_chars (GTK_LABEL (label), WIDTH_CHARS);
  else
    gtk_widget_add_css_class (label, style);
  gtk_label_set_max_width_chars (GTK_LABEL (label),
                                 style == NULL ? WIDTH_CHARS : WIDTH_CHARS * 3 / 4);
  gtk_widget_set_margin_top (label, above);
  gtk_widget_set_parent (label, self->words);
}

/**
 * lid_help_popover_fill:
 * @explanations: LidExplanation, in the order of their importance
 */
void
lid_help_popover_fill (LidHelpPopover *self, const GPtrArray *explanations)
{
  GString *all = g_string_new (NULL);

  clear (self->words);
  for (guint i = 0; i < explanations->len; i++)
    {
      const LidExplanation *it = explanations->pdata[i];
      g_autofree char *text = lid_explain_to_text (it);

      add_label (self, it->title, "help-title", i > 0 ? 14 : 0);
      for (guint k = 0; k < it->parts->len; k++)
        {
          const LidExplainPart *part = &g_array_index (it->parts, LidExplainPart, k);

          if (part->heading != NULL)
            add_label (self, part->heading, "help-heading", 6);
          add_label (self, part->text, NULL, 0);
        }
      g_string_append (all, text);
    }
  g_free (self->text);
  self->text = g_string_free (all, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->words), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  self->text, -1);
}

/**
 * lid_help_popover_get_text:
 *
 * Returns: (transfer none) (nullable): all it says
 */
const char *
lid_help_popover_get_text (LidHelpPopover *self)
{
  return self->text;
}

static void
owner_goes (GtkWidget *popover)
{
  if (gtk_widget_get_parent (popover) != NULL)
    gtk_widget_unparent (popover);
}

/**
 * lid_help_popover_show:
 * @at: (transfer none): the widget that was asked; it has a layout manager
 * @explanations: what to say
 *
 * Returns: (transfer none): the popover, which goes when it is closed or when @at goes
 */
LidHelpPopover *
lid_help_popover_show (GtkWidget *at, const GPtrArray *explanations)
{
  GtkWidget *popover = lid_help_popover_new ();

  lid_help_popover_fill (LID_HELP_POPOVER (popover), explanations);
  gtk_widget_set_parent (popover, at);
  g_signal_connect (popover, "closed", G_CALLBACK (lid_popover_place_leave), NULL);
  g_signal_connect_object (at, "destroy", G_CALLBACK (owner_goes), popover, G_CONNECT_SWAPPED);
  lid_popover_place_show (GTK_POPOVER (popover));
  return LID_HELP_POPOVER (popover);
}

static void
lid_help_popover_finalize (GObject *object)
{
  g_free (LID_HELP_POPOVER (object)->text);
  G_OBJECT_CLASS (lid_help_popover_parent_class)->finalize (object);
}

static void
lid_help_popover_class_init (LidHelpPopoverClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = lid_help_popover_finalize;
}

static void
lid_help_popover_init (LidHelpPopover *self)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  self->words = g_object_new (LID_TYPE_HELP_TEXT, NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->words);
  gtk_popover_set_child (GTK_POPOVER (self), scrolled);
  lid_window_actions_name (GTK_WIDGET (self), _ ("What This Means"));
  gtk_widget_add_css_class (GTK_WIDGET (self), "help");
}

GtkWidget *
lid_help_popover_new (void)
{
  return g_object_new (LID_TYPE_HELP_POPOVER, NULL);
}
