/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/leaf-card.h"

#include "app/picture-view.h"

#define PICTURE_WIDTH 300
#define LINE_CHARS 40 /* a card is no wider for a long sentence */

typedef struct
{
  GtkWidget *content;
  char *name;
} LidLeafCardPrivate;

G_DEFINE_TYPE_WITH_PRIVATE (LidLeafCard, lid_leaf_card, GTK_TYPE_WIDGET)

static LidLeafCardPrivate *
private_of (LidLeafCard *self)
{
  return lid_leaf_card_get_instance_private (self);
}

/**
 * lid_leaf_card_add_widget:
 *
 * Below what the card holds already.
 */
void
lid_leaf_card_add_widget (LidLeafCard *self, GtkWidget *widget)
{
  gtk_box_append (GTK_BOX (private_of (self)->content), widget);
}

/**
 * lid_leaf_card_add_picture:
 * @population: drawn by channel
 * @before: (nullable): what changed since is marked
 * @height: pixels, at the least
 *
 * What the picture shows is to be said in the lines below it.
 *
 * Returns: (transfer none): what is to be said of it
 */
const LidAssessment *
lid_leaf_card_add_picture (LidLeafCard *self,
                           LidBoard *board,
                           const LidPopulation *population,
                           const LidPopulation *before,
                           int height)
{
  GtkWidget *picture = lid_picture_view_new ();

  lid_picture_view_show (LID_PICTURE_VIEW (picture), board, population, before);
  gtk_widget_set_size_request (picture, PICTURE_WIDTH, height);
  lid_leaf_card_add_widget (self, picture);
  return lid_picture_view_get_assessment (LID_PICTURE_VIEW (picture));
}

/**
 * lid_leaf_card_add_line:
 * @css_class: (nullable): how it looks
 */
void
lid_leaf_card_add_line (LidLeafCard *self, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), LINE_CHARS);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  lid_leaf_card_add_widget (self, label);
}

/**
 * lid_leaf_card_add_button:
 * @box: (nullable): where it stands; NULL: below the lines
 * @words: what a click does
 *
 * Call lid_leaf_card_describe() before: a screen reader is told of which card it is.
 *
 * Returns: (transfer none): the button
 */
GtkWidget *
lid_leaf_card_add_button (LidLeafCard *self, GtkWidget *box, const char *words)
{
  LidLeafCardPrivate *card = private_of (self);
  GtkWidget *button = gtk_button_new_with_label (words);

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_widget_add_css_class (button, "link-text");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  card->name, -1);
  gtk_box_append (GTK_BOX (box != NULL ? box : card->content), button);
  return button;
}

/**
 * lid_leaf_card_describe:
 * @name: what it is called where it is not seen
 * @description: what else it says
 */
void
lid_leaf_card_describe (LidLeafCard *self, const char *name, const char *description)
{
  LidLeafCardPrivate *card = private_of (self);

  g_free (card->name);
  card->name = g_strdup (name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description, -1);
}

/**
 * lid_leaf_card_get_name:
 *
 * Returns: what it is called where it is not seen: for the cell it stands in
 */
const char *
lid_leaf_card_get_name (LidLeafCard *self)
{
  return private_of (self)->name;
}

static void
lid_leaf_card_dispose (GObject *object)
{
  g_clear_pointer (&private_of (LID_LEAF_CARD (object))->content, gtk_widget_unparent);
  G_OBJECT_CLASS (lid_leaf_card_parent_class)->dispose (object);
}

static void
lid_leaf_card_finalize (GObject *object)
{
  g_free (private_of (LID_LEAF_CARD (object))->name);
  G_OBJECT_CLASS (lid_leaf_card_parent_class)->finalize (object);
}

static void
lid_leaf_card_class_init (LidLeafCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_leaf_card_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_leaf_card_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "leafcard");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
lid_leaf_card_init (LidLeafCard *self)
{
  LidLeafCardPrivate *card = private_of (self);

  card->content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  gtk_widget_set_parent (card->content, GTK_WIDGET (self));
}
