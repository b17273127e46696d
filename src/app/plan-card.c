/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/plan-card.h"

#include "app/picture-view.h"
#include "drawing/figures-line.h"

#include <glib/gi18n.h>

#define PICTURE_WIDTH 300
#define PICTURE_HEIGHT 200

struct _LidPlanCard
{
  GtkWidget parent_instance;

  GtkWidget *content;
  char *name;
  int option;
};

G_DEFINE_FINAL_TYPE (LidPlanCard, lid_plan_card, GTK_TYPE_WIDGET)

static guint taken_signal;

static GtkWidget *
add_line (LidPlanCard *self, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 40);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_box_append (GTK_BOX (self->content), label);
  return label;
}

static void
take (GtkButton *button, LidPlanCard *self)
{
  g_signal_emit (self, taken_signal, 0);
}

static void
add_button (LidPlanCard *self, const char *name)
{
  GtkWidget *button = gtk_button_new_with_label (_ ("Take This Plan"));

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_widget_set_valign (button, GTK_ALIGN_END);
  gtk_widget_set_vexpand (button, TRUE);
  gtk_widget_add_css_class (button, "link-text");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  name, -1);
  g_signal_connect (button, "clicked", G_CALLBACK (take), self);
  gtk_box_append (GTK_BOX (self->content), button);
}

/* What the picture shows is in the lines below it. */
static GtkWidget *
add_picture (LidPlanCard *self, const LidPlanShown *shown)
{
  GtkWidget *picture = lid_picture_view_new ();

  lid_picture_view_show (LID_PICTURE_VIEW (picture), shown->board, shown->population,
                         shown->before);
  gtk_widget_set_size_request (picture, PICTURE_WIDTH, PICTURE_HEIGHT);
  gtk_box_append (GTK_BOX (self->content), picture);
  return picture;
}

/**
 * lid_plan_card_new:
 * @shown: one option
 *
 * Returns: (transfer full): a card
 */
GtkWidget *
lid_plan_card_new (const LidPlanShown *shown)
{
  LidPlanCard *self = g_object_new (LID_TYPE_PLAN_CARD, NULL);
  GtkWidget *picture = add_picture (self, shown);
  g_autoptr (LidFiguresLine) line
      = lid_figures_line_new (lid_picture_view_get_assessment (LID_PICTURE_VIEW (picture)));
  g_autofree char *figures = lid_figures_line_to_text (line);
  g_autofree char *name = NULL, *more = NULL;

  self->option = shown->option;
  if (*shown->picks != 0)
    add_line (self, shown->picks, "heading");
  add_line (self, figures, "plan-figures");
  add_line (self, shown->cost, NULL);
  add_line (self, shown->hands, NULL);
  if (shown->why != NULL)
    add_line (self, shown->why, "soft");
  name
      = *shown->picks != 0 ? g_strdup_printf ("%s: %s", shown->picks, figures) : g_strdup (figures);
  more = g_strdup_printf ("%s. %s. %s", shown->cost, shown->hands,
                          shown->why != NULL ? shown->why : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, more, -1);
  self->name = g_steal_pointer (&name);
  if (self->option != -1)
    add_button (self, self->name);
  return GTK_WIDGET (self);
}

/**
 * lid_plan_card_get_option:
 *
 * Returns: which of the plan's options it shows; -1: one found on the way, not to be taken yet
 */
int
lid_plan_card_get_option (LidPlanCard *self)
{
  return self->option;
}

/**
 * lid_plan_card_get_name:
 *
 * Returns: what it is called where it is not seen: for the cell it stands in
 */
const char *
lid_plan_card_get_name (LidPlanCard *self)
{
  return self->name;
}

static void
lid_plan_card_finalize (GObject *object)
{
  g_free (LID_PLAN_CARD (object)->name);
  G_OBJECT_CLASS (lid_plan_card_parent_class)->finalize (object);
}

static void
lid_plan_card_dispose (GObject *object)
{
  g_clear_pointer (&LID_PLAN_CARD (object)->content, gtk_widget_unparent);
  G_OBJECT_CLASS (lid_plan_card_parent_class)->dispose (object);
}

static void
lid_plan_card_class_init (LidPlanCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_plan_card_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_plan_card_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "plancard");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  taken_signal = g_signal_new ("taken", LID_TYPE_PLAN_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void
lid_plan_card_init (LidPlanCard *self)
{
  self->content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_set_parent (self->content, GTK_WIDGET (self));
}
