/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/application.h"

#include "app/app-config.h"
#include "app/popover-place.h"
#include "app/window-actions.h"
#include "app/window.h"

#include <glib-unix.h>
#include <glib/gi18n.h>
#include <signal.h>

struct _LidApplication
{
  GtkApplication parent_instance;

  gboolean offered; /* what was left behind */
  gboolean closing; /* all windows, one after the other */
};

G_DEFINE_FINAL_TYPE (LidApplication, lid_application, GTK_TYPE_APPLICATION)

/* What an earlier program left behind is offered once, in the first window. */
static void
offer_left (LidApplication *self)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (self));

  if (self->offered || !LID_IS_WINDOW (active))
    return;
  self->offered = TRUE;
  lid_window_offer_left (LID_WINDOW (active));
}

static void
lid_application_activate (GApplication *application)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (active != NULL)
    gtk_window_present (active);
  else
    gtk_window_present (GTK_WINDOW (lid_window_new (GTK_APPLICATION (application))));
  offer_left (LID_APPLICATION (application));
}

/* A window that says why a file could not be opened goes on saying it: the next file has another.
 * Shown with its job: nobody waits for the layout of a page that is not looked at. */
static void
lid_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));
  LidWindow *window = LID_IS_WINDOW (active) ? LID_WINDOW (active)
                                             : lid_window_new (GTK_APPLICATION (application));

  for (int i = 0; i < n_files; i++)
    {
      gboolean shown = lid_window_open (window, files[i]);

      if (!shown
          || (lid_window_get_model (window) != NULL
              && !gtk_widget_get_visible (GTK_WIDGET (window))))
        gtk_window_present (GTK_WINDOW (window));
      if (!shown && lid_window_get_model (window) == NULL && i + 1 < n_files)
        window = lid_window_new (GTK_APPLICATION (application));
    }
  if (!gtk_widget_get_visible (GTK_WIDGET (window)))
    gtk_window_destroy (GTK_WINDOW (window)); /* its file is shown in another one */
  offer_left (LID_APPLICATION (application));
}

/* Windows close one after the other, each with its question; who answers one with Cancel stays. */
static void
close_next (LidApplication *self)
{
  GList *windows = gtk_application_get_windows (GTK_APPLICATION (self));

  while (windows != NULL && !LID_IS_WINDOW (windows->data))
    windows = windows->next;
  if (!self->closing || windows == NULL)
    return;
  gtk_window_present (windows->data);
  gtk_window_close (windows->data);
}

static void
close_all (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  LidApplication *self = LID_APPLICATION (data);

  self->closing = TRUE;
  close_next (self);
}

static void
stays (LidApplication *self)
{
  self->closing = FALSE;
}

static void
lid_application_window_added (GtkApplication *application, GtkWindow *window)
{
  GTK_APPLICATION_CLASS (lid_application_parent_class)->window_added (application, window);
  if (LID_IS_WINDOW (window))
    g_signal_connect_object (window, "stays", G_CALLBACK (stays), application, G_CONNECT_SWAPPED);
}

static void
lid_application_window_removed (GtkApplication *application, GtkWindow *window)
{
  GTK_APPLICATION_CLASS (lid_application_parent_class)->window_removed (application, window);
  close_next (LID_APPLICATION (application));
}

/* The session ends, or somebody stops the program: nobody can be asked any more. */
static gboolean
ended (gpointer data)
{
  for (GList *item = gtk_application_get_windows (data); item != NULL; item = item->next)
    if (LID_IS_WINDOW (item->data))
      lid_window_keep_now (item->data);
  g_application_quit (data);
  return G_SOURCE_CONTINUE;
}

static void
listen_for_the_end (LidApplication *self)
{
  static const int signals[] = { SIGHUP, SIGINT, SIGTERM };

  for (guint i = 0; i < G_N_ELEMENTS (signals); i++)
    g_unix_signal_add (signals[i], ended, self);
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
  g_autoptr (GSimpleAction) quit = g_simple_action_new ("quit", NULL);

  G_APPLICATION_CLASS (lid_application_parent_class)->startup (application);
  g_signal_connect_object (quit, "activate", G_CALLBACK (close_all), application, 0);
  g_action_map_add_action (G_ACTION_MAP (application), G_ACTION (quit));
  listen_for_the_end (LID_APPLICATION (application));
  load_style ();
  lid_popover_place_install ();
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
  GTK_APPLICATION_CLASS (klass)->window_added = lid_application_window_added;
  GTK_APPLICATION_CLASS (klass)->window_removed = lid_application_window_removed;
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
