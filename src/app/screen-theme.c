/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/screen-theme.h"

#include <string.h>

#define USUAL_FONT_PT 11.0

/* A theme by its name: there is no other way to ask GTK 4.8 for the contrast. */
static LidThemeName
theme_name (GtkWidget *widget)
{
  GtkSettings *settings = gtk_widget_get_settings (widget);
  g_autofree char *name = NULL;
  gboolean dark = FALSE, high;
  const char *forced = g_getenv ("GTK_THEME");

  g_object_get (settings, "gtk-theme-name", &name, "gtk-application-prefer-dark-theme", &dark,
                NULL);
  if (forced != NULL)
    {
      g_free (name);
      name = g_strdup (forced);
      dark = g_str_has_suffix (name, ":dark");
    }
  high = name != NULL && g_str_has_prefix (name, "HighContrast");
  dark = dark
         || (name != NULL
             && (g_str_has_suffix (name, "-dark") || g_str_has_suffix (name, "Inverse")));
  if (high)
    return dark ? LID_THEME_HIGH_CONTRAST_DARK : LID_THEME_HIGH_CONTRAST;
  return dark ? LID_THEME_DARK : LID_THEME_LIGHT;
}

/**
 * lid_screen_theme_text_scale:
 *
 * A layout made for Cairo knows nothing of the desktop's type by itself.
 *
 * Returns: the user's type against the usual, 1 to 3
 */
double
lid_screen_theme_text_scale (GtkWidget *widget)
{
  PangoContext *context = gtk_widget_get_pango_context (widget);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double size = pango_font_description_get_size (font) / (double)PANGO_SCALE;
  int dpi = 0;

  g_object_get (gtk_widget_get_settings (widget), "gtk-xft-dpi", &dpi, NULL);
  if (pango_font_description_get_size_is_absolute (font))
    size *= 0.75;
  size = size > 0 ? MAX (size / USUAL_FONT_PT, 1) : 1;
  return CLAMP (size * (dpi > 0 ? dpi / 1024.0 / 96.0 : 1), 1, 3);
}

/* The theme of that name in that type: made once and kept, so that who draws may hold it and tell
 * a change by the pointer alone. */
static const LidTheme *
in_type (LidThemeName name, const char *family)
{
  static GHashTable *made;
  const char *type = g_intern_string (family);
  g_autofree char *key = g_strdup_printf ("%d %s", name, type);
  LidTheme *theme;

  if (made == NULL)
    made = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  theme = g_hash_table_lookup (made, key);
  if (theme == NULL)
    {
      theme = g_memdup2 (lid_theme_screen (name), sizeof *theme);
      theme->family = type;
      g_hash_table_insert (made, g_steal_pointer (&key), theme);
    }
  return theme;
}

/**
 * lid_screen_theme_of:
 *
 * Returns: (transfer none): the ink for what is drawn in @widget, in the desktop's own type; it
 *   stays, and the same desktop gives the same one
 */
const LidTheme *
lid_screen_theme_of (GtkWidget *widget)
{
  PangoContext *context = gtk_widget_get_pango_context (widget);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  const char *family = pango_font_description_get_family (font);

  if (family == NULL)
    return lid_theme_screen (theme_name (widget));
  return in_type (theme_name (widget), family);
}

/**
 * lid_screen_theme_follow:
 * @widget: a widget that draws
 * @changed: called with @widget when the desktop's theme, contrast or type changes
 */
void
lid_screen_theme_follow (GtkWidget *widget, GCallback changed)
{
  static const char *const causes[]
      = { "notify::gtk-theme-name", "notify::gtk-application-prefer-dark-theme",
          "notify::gtk-xft-dpi", "notify::gtk-font-name" };

  for (guint i = 0; i < G_N_ELEMENTS (causes); i++)
    g_signal_connect_object (gtk_widget_get_settings (widget), causes[i], changed, widget,
                             G_CONNECT_SWAPPED);
}
