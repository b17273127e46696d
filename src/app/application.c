/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/application.h"

#include "app/app-config.h"
#include "app/window-actions.h"
#include "app/window.h"

#include <glib/gi18n.h>

struct _LidApplication
{
  GtkApplication parent_instance;
};

G_DEFINE_FINAL_TYPE (LidApplication, lid_application, GTK_TYPE_APPLICATION)

static LidWindow *
new_window (GtkApplication *application)
{
  LidWindow *window = lid_window_new (application);

  gtk_window_present (GTK_WINDOW (window));
  return window;
}

static void
lid_application_activate (GApplication *application)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (active != NULL)
    gtk_window_present (active);
  else
    new_window (GTK_APPLICATION (application));
}

static void
lid_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  for (int i = 0; i < n_files; i++)
    {
      GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));
      LidWindow *window
          = LID_IS_WINDOW (active) && lid_window_get_model (LID_WINDOW (active)) == NULL
                ? LID_WINDOW (active)
                : new_window (GTK_APPLICATION (application));

      lid_window_open (window, files[i]);
    }
}

static void
load_style (void)
{
  g_autoptr (GtkCssProvider) css = gtk_css_provider_new ();

  gtk_css_provider_load_from_resource (css, "/org/lidleaf/Lidleaf/style.css");
  gtk_style_context_add_provider_for_display (gdk_display_get_default (), GTK_STYLE_PROVIDER (css),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

static void
lid_application_startup (GApplication *application)
{
  G_APPLICATION_CLASS (lid_application_parent_class)->startup (application);
  load_style ();
  lid_window_actions_set_keys (GTK_APPLICATION (application));
  gtk_window_set_default_icon_name (LID_APP_ID);
}

static void
lid_application_class_init (LidApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  application_class->activate = lid_application_activate;
  application_class->open = lid_application_open;
  application_class->startup = lid_application_startup;
}

static void
lid_application_init (LidApplication *self)
{
}

/**
 * lid_application_new:
 *
 * Returns: (transfer full): the program
 */
GtkApplication *
lid_application_new (void)
{
  return g_object_new (LID_TYPE_APPLICATION, "application-id", LID_APP_ID, "resource-base-path",
                       "/org/lidleaf/Lidleaf", "flags", G_APPLICATION_HANDLES_OPEN, NULL);
}
