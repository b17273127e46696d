/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/wrapped.h"

struct _LidWrapped
{
  GtkWidget parent_instance;

  GtkWidget *child; /* owned */
};

enum
{
  PROP_CHILD = 1,
  N_PROPERTIES
};

static GParamSpec *properties[N_PROPERTIES];

G_DEFINE_FINAL_TYPE (LidWrapped, lid_wrapped, GTK_TYPE_WIDGET)

static GtkSizeRequestMode
lid_wrapped_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* Without a baseline: a row of GtkBox adds what is above the words' to what is below its buttons',
 * though it lays neither by its baseline; and, asked without a width, it does not, and complains.
 */
static void
lid_wrapped_measure (GtkWidget *widget,
                     GtkOrientation orientation,
                     int for_size,
                     int *minimum,
                     int *natural,
                     int *minimum_baseline,
                     int *natural_baseline)
{
  LidWrapped *self = LID_WRAPPED (widget);

  if (self->child != NULL && gtk_widget_should_layout (self->child))
    gtk_widget_measure (self->child, orientation,
                        orientation == GTK_ORIENTATION_VERTICAL ? for_size : -1, minimum, natural,
                        NULL, NULL);
}

static void
lid_wrapped_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  LidWrapped *self = LID_WRAPPED (widget);

  if (self->child != NULL && gtk_widget_should_layout (self->child))
    gtk_widget_allocate (self->child, width, height, baseline, NULL);
}

static void
lid_wrapped_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  LidWrapped *self = LID_WRAPPED (object);

  if (id != PROP_CHILD)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  g_clear_pointer (&self->child, gtk_widget_unparent);
  self->child = g_value_get_object (value);
  if (self->child != NULL)
    gtk_widget_set_parent (self->child, GTK_WIDGET (self));
}

static void
lid_wrapped_dispose (GObject *object)
{
  g_clear_pointer (&LID_WRAPPED (object)->child, gtk_widget_unparent);
  G_OBJECT_CLASS (lid_wrapped_parent_class)->dispose (object);
}

static void
lid_wrapped_class_init (LidWrappedClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->set_property = lid_wrapped_set_property;
  object_class->dispose = lid_wrapped_dispose;
  widget_class->get_request_mode = lid_wrapped_get_request_mode;
  widget_class->measure = lid_wrapped_measure;
  widget_class->size_allocate = lid_wrapped_size_allocate;
  properties[PROP_CHILD] = g_param_spec_object ("child", NULL, NULL, GTK_TYPE_WIDGET,
                                                G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GENERIC);
}

static void
lid_wrapped_init (LidWrapped *self)
{
}

/**
 * lid_wrapped_new:
 * @child: what it holds
 */
GtkWidget *
lid_wrapped_new (GtkWidget *child)
{
  return g_object_new (LID_TYPE_WRAPPED, "child", child, NULL);
}
