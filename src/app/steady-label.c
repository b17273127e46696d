/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/steady-label.h"

struct _LidSteadyLabel
{
  GtkWidget parent_instance;

  gboolean wrap; /* else one line, as wide as its words */
  char *text;
  PangoLayout *layout; /* of the context's serial; NULL: to be made */
  guint serial;
};

G_DEFINE_FINAL_TYPE (LidSteadyLabel, lid_steady_label, GTK_TYPE_WIDGET)

/* The words and what is said of them. A line may end after a slash, says Unicode's UAX 14: not
 * here, inside "GB/s". */
static void
set_words (PangoLayout *layout, const char *text)
{
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  for (const char *slash = strchr (text, '/'); slash != NULL; slash = strchr (slash + 1, '/'))
    {
      PangoAttribute *whole = pango_attr_allow_breaks_new (FALSE);
      const char *after = slash[1] != '\0' ? g_utf8_next_char (slash + 1) : slash + 1;

      whole->start_index = (guint)(slash - text);
      whole->end_index = (guint)(after - text);
      pango_attr_list_insert (attributes, whole);
    }
  pango_layout_set_text (layout, text, -1);
  pango_layout_set_attributes (layout, attributes);
}

/* Type and theme change the context under the layout. */
static PangoLayout *
layout_of (LidSteadyLabel *self)
{
  PangoContext *context = gtk_widget_get_pango_context (GTK_WIDGET (self));

  if (self->layout != NULL && self->serial == pango_context_get_serial (context))
    return self->layout;
  g_clear_object (&self->layout);
  self->layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), NULL);
  self->serial = pango_context_get_serial (context);
  set_words (self->layout, self->text);
  if (!self->wrap)
    pango_layout_set_ellipsize (self->layout, PANGO_ELLIPSIZE_END); /* should it not get it */
  return self->layout;
}

/* Room for the words at a width in pixels; -1: on one line. */
static void
need (LidSteadyLabel *self, int at, int *width, int *height)
{
  PangoLayout *layout = layout_of (self);

  pango_layout_set_width (layout, at < 0 ? -1 : at * PANGO_SCALE);
  pango_layout_get_pixel_size (layout, width, height);
}

static GtkSizeRequestMode
lid_steady_label_get_request_mode (GtkWidget *widget)
{
  return LID_STEADY_LABEL (widget)->wrap ? GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH
                                         : GTK_SIZE_REQUEST_CONSTANT_SIZE;
}

static void
lid_steady_label_measure (GtkWidget *widget,
                          GtkOrientation orientation,
                          int for_size,
                          int *minimum,
                          int *natural,
                          int *minimum_baseline,
                          int *natural_baseline)
{
  LidSteadyLabel *self = LID_STEADY_LABEL (widget);
  int width, height;

  if (orientation == GTK_ORIENTATION_VERTICAL)
    {
      need (self, self->wrap ? for_size : -1, &width, &height);
      *minimum = *natural = height;
      return;
    }
  need (self, -1, natural, &height);
  *minimum = *natural;
  if (self->wrap)
    need (self, 0, minimum, &height);
  *minimum = MIN (*minimum, *natural);
}

static void
lid_steady_label_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  LidSteadyLabel *self = LID_STEADY_LABEL (widget);
  int width = gtk_widget_get_width (widget), used, height;
  PangoRectangle words;

  /* On one line that holds, the width makes no difference, but laying it out anew. */
  need (self, self->wrap ? width : -1, &used, &height);
  if (!self->wrap && used > width)
    need (self, width, &used, &height);
  pango_layout_get_pixel_extents (self->layout, NULL, &words);
  /* From the reading side, whatever script the words are in. */
  if (gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
    words.x -= width - words.width;
  gtk_snapshot_render_layout (snapshot, gtk_widget_get_style_context (widget), -words.x, 0,
                              self->layout);
}

static void
lid_steady_label_finalize (GObject *object)
{
  LidSteadyLabel *self = LID_STEADY_LABEL (object);

  g_clear_object (&self->layout);
  g_free (self->text);
  G_OBJECT_CLASS (lid_steady_label_parent_class)->finalize (object);
}

static void
lid_steady_label_class_init (LidSteadyLabelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = lid_steady_label_finalize;
  widget_class->get_request_mode = lid_steady_label_get_request_mode;
  widget_class->measure = lid_steady_label_measure;
  widget_class->snapshot = lid_steady_label_snapshot;
  gtk_widget_class_set_css_name (widget_class, "label");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LABEL);
}

static void
lid_steady_label_init (LidSteadyLabel *self)
{
  self->text = g_strdup ("");
}

/**
 * lid_steady_label_new:
 * @wrap: words go on in the next line; else they keep the room they need
 */
GtkWidget *
lid_steady_label_new (gboolean wrap)
{
  LidSteadyLabel *self = g_object_new (LID_TYPE_STEADY_LABEL, NULL);

  self->wrap = wrap;
  return GTK_WIDGET (self);
}

void
lid_steady_label_set_text (LidSteadyLabel *self, const char *text)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int room = gtk_widget_get_width (widget), width, height;

  if (g_strcmp0 (self->text, text) == 0)
    return;
  g_free (self->text);
  self->text = g_strdup (text);
  set_words (layout_of (self), self->text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, self->text,
                                  -1);
  need (self, self->wrap ? room : -1, &width, &height);
  if (room <= 1 || width > room || height > gtk_widget_get_height (widget))
    gtk_widget_queue_resize (widget);
  else
    gtk_widget_queue_draw (widget);
}

/**
 * lid_steady_label_get_text:
 *
 * Returns: (transfer none): the words
 */
const char *
lid_steady_label_get_text (LidSteadyLabel *self)
{
  return self->text;
}
