/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/figures-bar.h"

#include "app/figures-layout.h"
#include "app/help-popover.h"
#include "app/help.h"
#include "app/steady-label.h"
#include "app/tooltip.h"
#include "app/window-actions.h"
#include "app/wrapped.h"
#include "drawing/figures-line.h"

#include <glib/gi18n.h>

typedef struct
{
  GtkWidget *button;
  LidSteadyLabel *large;
  LidSteadyLabel *small;
  LidSteadyLabel *was;
} Figure;

struct _LidFiguresBar
{
  GtkWidget parent_instance;

  Figure figures[LID_FIGURES_LINE_MOST];
  guint n;
  LidBoard *board; /* whose model is explained */
  LidFiguresLine *line;
  char *text;
  LidFiguresBarMore more; /* nullable */
  gpointer more_data;
  GtkWidget *end; /* nullable */
};

G_DEFINE_FINAL_TYPE (LidFiguresBar, lid_figures_bar, GTK_TYPE_WIDGET)

/* Filled when it is asked for: figures change with every hand. The same one each time: the pointer
 * may still be held to be in the one before, which must not go then (lid_popover_place_leave). */
static void
explain (GtkMenuButton *button, gpointer data)
{
  LidFiguresBar *self = data;
  GtkWidget *popover = GTK_WIDGET (gtk_menu_button_get_popover (button));
  g_autoptr (GPtrArray) all = NULL;

  if (popover == NULL)
    {
      popover = lid_help_popover_new ();
      gtk_menu_button_set_popover (button, popover);
    }
  for (guint i = 0; i < self->n; i++)
    if (self->figures[i].button == GTK_WIDGET (button))
      {
        all = lid_help_of_words (self->line->words[i].help);
        if (self->line->words[i].model)
          g_ptr_array_add (all, lid_explain_model (self->board));
        if (self->more != NULL)
          {
            LidExplanation *more = self->more (i, self->more_data);

            if (more != NULL)
              g_ptr_array_add (all, more);
          }
        lid_help_popover_fill (LID_HELP_POPOVER (popover), all);
      }
}

static LidSteadyLabel *
add_label (GtkWidget *box, const char *style, gboolean wrap)
{
  GtkWidget *label = lid_steady_label_new (wrap);

  gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (box), wrap ? lid_wrapped_new (label) : label);
  return LID_STEADY_LABEL (label);
}

static void
add_figure (LidFiguresBar *self, Figure *figure)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  figure->large = add_label (box, "figure-large", FALSE);
  figure->small = add_label (box, "soft", TRUE);
  figure->was = add_label (box, "figure-was", FALSE);
  figure->button = gtk_menu_button_new ();
  gtk_menu_button_set_child (GTK_MENU_BUTTON (figure->button), box);
  /* The button would put it into its middle. */
  for (GtkWidget *in = box; in != figure->button; in = gtk_widget_get_parent (in))
    gtk_widget_set_halign (in, GTK_ALIGN_FILL);
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (figure->button), explain, self, NULL);
  lid_tooltip_set (figure->button, _ ("What this means (F1)"));
  gtk_widget_add_css_class (figure->button, "figure");
  gtk_widget_set_parent (figure->button, GTK_WIDGET (self));
}

/**
 * lid_figures_bar_set_more:
 * @more: asked when a figure is explained
 * @data: its last argument, which outlives the bar's clicks
 */
void
lid_figures_bar_set_more (LidFiguresBar *self, LidFiguresBarMore more, gpointer data)
{
  self->more = more;
  self->more_data = data;
}

/**
 * lid_figures_bar_show:
 * @assessment: of the population shown
 * @before: (nullable): of as found, to say what the figures were
 * @board: the job's
 */
void
lid_figures_bar_show (LidFiguresBar *self,
                      const LidAssessment *assessment,
                      const LidAssessment *before,
                      const LidBoard *board)
{
  LidFiguresLine *line = lid_figures_line_new (assessment);
  GString *text = g_string_new (NULL);

  if (before != NULL)
    lid_figures_line_compare (line, before);
  g_clear_pointer (&self->line, lid_figures_line_free);
  self->line = line;
  if (self->board != board)
    {
      g_clear_pointer (&self->board, lid_board_unref);
      self->board = lid_board_ref ((LidBoard *)board);
    }
  self->n = line->n;
  for (guint i = 0; i < LID_FIGURES_LINE_MOST; i++)
    {
      Figure *figure = &self->figures[i];
      g_autofree char *name = NULL;

      gtk_widget_set_visible (figure->button, i < line->n);
      if (i >= line->n)
        continue;
      name = g_strdup_printf ("%s, %s%s%s", line->words[i].large, line->words[i].small,
                              line->words[i].was != NULL ? ", " : "",
                              line->words[i].was != NULL ? line->words[i].was : "");
      lid_steady_label_set_text (figure->large, line->words[i].large);
      lid_steady_label_set_text (figure->small, line->words[i].small);
      lid_steady_label_set_text (figure->was, line->words[i].was != NULL ? line->words[i].was : "");
      gtk_widget_set_visible (GTK_WIDGET (figure->was), line->words[i].was != NULL);
      lid_window_actions_name (figure->button, name);
      lid_help_set_words (figure->button, line->words[i].help);
      g_string_append_printf (text, "%s%s", i > 0 ? "; " : "", name);
    }
  g_free (self->text);
  self->text = g_string_free (text, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  self->text, -1);
}

/**
 * lid_figures_bar_get_text:
 *
 * Returns: (transfer none) (nullable): the line as it is read aloud
 */
const char *
lid_figures_bar_get_text (LidFiguresBar *self)
{
  return self->text;
}

/**
 * lid_figures_bar_get_figure:
 * @which: less than LID_FIGURES_LINE_MOST
 *
 * Returns: (transfer none): the button of that figure
 */
GtkWidget *
lid_figures_bar_get_figure (LidFiguresBar *self, guint which)
{
  g_return_val_if_fail (which < LID_FIGURES_LINE_MOST, NULL);
  return self->figures[which].button;
}

/**
 * lid_figures_bar_set_end:
 * @end: stands at the end of the line; taken from the box it is in
 */
void
lid_figures_bar_set_end (LidFiguresBar *self, GtkWidget *end)
{
  GtkWidget *old = gtk_widget_get_parent (end);

  g_object_ref (end);
  if (GTK_IS_BOX (old))
    gtk_box_remove (GTK_BOX (old), end);
  g_clear_pointer (&self->end, gtk_widget_unparent);
  self->end = end;
  gtk_widget_set_parent (end, GTK_WIDGET (self));
  lid_figures_layout_set_end (
      LID_FIGURES_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))), end);
  g_object_unref (end);
}

static void
lid_figures_bar_dispose (GObject *object)
{
  LidFiguresBar *self = LID_FIGURES_BAR (object);

  for (guint i = 0; i < LID_FIGURES_LINE_MOST; i++)
    g_clear_pointer (&self->figures[i].button, gtk_widget_unparent);
  g_clear_pointer (&self->end, gtk_widget_unparent);
  g_clear_pointer (&self->line, lid_figures_line_free);
  g_clear_pointer (&self->board, lid_board_unref);
  g_clear_pointer (&self->text, g_free);
  G_OBJECT_CLASS (lid_figures_bar_parent_class)->dispose (object);
}

static void
lid_figures_bar_class_init (LidFiguresBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_figures_bar_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, LID_TYPE_FIGURES_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "figures");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
lid_figures_bar_init (LidFiguresBar *self)
{
  for (guint i = 0; i < LID_FIGURES_LINE_MOST; i++)
    add_figure (self, &self->figures[i]);
}
