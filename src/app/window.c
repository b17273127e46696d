/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/window.h"

#include "app/recent-jobs.h"
#include "app/settings.h"
#include "app/start-page.h"
#include "app/window-actions.h"
#include "app/window-private.h"
#include "app/wrapped.h"

#include <glib/gi18n.h>
#include <string.h>

G_DEFINE_FINAL_TYPE (LidWindow, lid_window, GTK_TYPE_APPLICATION_WINDOW)

/* Which of the four looks of style.css; the desktop's theme decides. */
static void
show_look (LidWindow *self)
{
  GtkSettings *settings = gtk_widget_get_settings (GTK_WIDGET (self));
  g_autofree char *theme = NULL;
  const char *told = g_getenv ("GTK_THEME");
  gboolean dark = FALSE, contrast;

  g_object_get (settings, "gtk-theme-name", &theme, "gtk-application-prefer-dark-theme", &dark,
                NULL);
  if (told != NULL)
    {
      g_free (theme);
      theme = g_strdup (told);
      dark = FALSE;
    }
  dark = dark || strstr (theme, "dark") != NULL || strstr (theme, "Dark") != NULL
         || strstr (theme, "Inverse") != NULL;
  contrast = g_str_has_prefix (theme, "HighContrast");
  for (guint i = 0; i < G_N_ELEMENTS (lid_window_looks); i++)
    gtk_widget_remove_css_class (GTK_WIDGET (self), lid_window_looks[i]);
  gtk_widget_add_css_class (GTK_WIDGET (self),
                            lid_window_looks[(contrast ? 2 : 0) + (dark ? 1 : 0)]);
}

static char *
describe_job (LidWindow *self)
{
  const LidJob *job = lid_job_model_get_job (self->model);
  GString *text = g_string_new (NULL);
  /* First what must not be cut off where the room is small. */
  const char *state = job->read_only                            ? _ ("for reading only")
                      : lid_job_model_get_unsaved (self->model) ? _ ("not saved")
                                                                : NULL;
  const char *parts[]
      = { state, job->owner, job->asset, job->number, job->title ? job->board->name : NULL };

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i] != NULL)
      g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", parts[i]);
  return g_string_free (text, FALSE);
}

static void
show_title (LidWindow *self)
{
  g_autofree char *title = lid_job_model_get_title (self->model), *under = describe_job (self);
  g_autofree char *whole = NULL, *marked = NULL;
  gboolean unsaved = lid_job_model_get_unsaved (self->model);

  /* Translators: the name of a machine whose job has changes that are not saved. */
  marked = unsaved ? g_strdup_printf (_ ("%s, not saved"), title) : g_strdup (title);
  whole = g_strdup_printf (_ ("%s – Lidleaf"), marked);
  /* GTK tells the screen even what it has been told. */
  if (g_strcmp0 (gtk_window_get_title (GTK_WINDOW (self)), whole) != 0)
    gtk_window_set_title (GTK_WINDOW (self), whole);
  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->subtitle, under);
  gtk_widget_set_visible (GTK_WIDGET (self->subtitle), *under != 0);
  lid_window_actions_name (self->facts_button, marked);
}

static void
show_job (LidWindow *self)
{
  lid_window_follow_board (self);
  show_title (self);
  lid_window_show_figures (self);
  lid_window_actions_refresh (self);
}

/**
 * lid_window_edit:
 * @done: what an edit answered
 * @error: where the edit put why not; by its address, as the edit is an argument of the same call
 *
 * Returns: @done, after everybody heard of the edit, or the user of the reason
 */
gboolean
lid_window_edit (LidWindow *self, gboolean done, GError *const *error)
{
  if (done)
    lid_job_model_edited (self->model);
  else
    lid_window_say (self, (*error)->message);
  return done;
}

/**
 * lid_window_say_offer:
 * @sentence: (nullable): what there is to say, in the bar under the header; NULL: nothing
 * @button: (nullable): the words of the link that takes the offered board
 */
void
lid_window_say_offer (LidWindow *self, const char *sentence, const char *button)
{
  gtk_widget_set_visible (self->bar, sentence != NULL);
  gtk_label_set_text (self->bar_label, sentence != NULL ? sentence : "");
  gtk_widget_set_visible (self->bar_button, button != NULL);
  if (button != NULL)
    gtk_button_set_label (GTK_BUTTON (self->bar_button), button);
}

void
lid_window_say (LidWindow *self, const char *sentence)
{
  lid_window_say_offer (self, sentence, NULL);
}

static void
forget_job (LidWindow *self)
{
  if (self->keeper != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->keeper, self);
      lid_job_keeper_close (self->keeper);
    }
  g_clear_object (&self->keeper);
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  g_clear_object (&self->model);
}

/* The desktop's list of recent files changed, by us or by another program. */
static void
show_recent (LidWindow *self)
{
  g_clear_object (&self->recent);
  self->recent = lid_recent_jobs_menu ();
  lid_window_actions_refresh (self);
}

/**
 * lid_window_take_job:
 * @job: (transfer full): the job to show
 * @parts: (transfer full) (nullable): the user's parts memory
 * @recovery: (transfer full) (nullable): where the job is kept already
 */
void
lid_window_take_job (LidWindow *self, LidJob *job, LidParts *parts, LidRecovery *recovery)
{
  forget_job (self);
  self->model = lid_job_model_new (job, parts);
  self->keeper = lid_job_keeper_new (self->model, recovery);
  lid_job_keeper_set_path (self->keeper, self->file != NULL ? g_file_peek_path (self->file) : NULL);
  g_signal_connect_object (self->keeper, "failed", G_CALLBACK (lid_window_say), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->model, "changed", G_CALLBACK (show_job), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->model, "notify::unsaved", G_CALLBACK (show_title), self,
                           G_CONNECT_SWAPPED);
  g_clear_pointer (&self->shown, lid_board_unref);
  g_ptr_array_set_size (self->taught, 0);
  gtk_widget_set_visible (self->facts_button, TRUE);
  gtk_widget_set_visible (self->populations, TRUE);
  gtk_stack_set_visible_child_name (self->pages, "job");
  lid_window_show_board (self);
  show_job (self);
}

static gboolean
lid_window_close_request (GtkWindow *window)
{
  LidWindow *self = LID_WINDOW (window);
  int width, height;

  if (self->settings != NULL)
    {
      gtk_window_get_default_size (window, &width, &height);
      g_settings_set_int (self->settings, "window-width", MAX (width, 360));
      g_settings_set_int (self->settings, "window-height", MAX (height, 300));
      g_settings_set_boolean (self->settings, "window-maximized", gtk_window_is_maximized (window));
    }
  if (lid_window_ask_to_close (self))
    return GDK_EVENT_STOP;
  return GTK_WINDOW_CLASS (lid_window_parent_class)->close_request (window);
}

static void
lid_window_dispose (GObject *object)
{
  LidWindow *self = LID_WINDOW (object);

  forget_job (self);
  gtk_widget_dispose_template (GTK_WIDGET (object), LID_TYPE_WINDOW);
  g_clear_object (&self->file);
  g_clear_object (&self->replaced);
  g_clear_object (&self->recent);
  g_clear_object (&self->settings);
  lid_job_opened_clear (&self->opened);
  g_clear_pointer (&self->newer, lid_board_unref);
  g_clear_pointer (&self->left, g_ptr_array_unref);
  g_clear_pointer (&self->stamp, g_free);
  g_clear_object (&self->chooser);
  g_clear_pointer (&self->shown, lid_board_unref);
  g_clear_pointer (&self->taught, g_ptr_array_unref);
  G_OBJECT_CLASS (lid_window_parent_class)->dispose (object);
}

static void
lid_window_measure (GtkWidget *widget,
                    GtkOrientation orientation,
                    int for_size,
                    int *minimum,
                    int *natural,
                    int *minimum_baseline,
                    int *natural_baseline)
{
  GTK_WIDGET_CLASS (lid_window_parent_class)
      ->measure (widget, orientation, for_size, minimum, natural, minimum_baseline,
                 natural_baseline);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = lid_window_header_less (LID_WINDOW (widget), *minimum);
}

static void
lid_window_class_init (LidWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (LID_TYPE_FIGURES_BAR);
  G_OBJECT_CLASS (klass)->dispose = lid_window_dispose;
  widget_class->measure = lid_window_measure;
  GTK_WINDOW_CLASS (klass)->close_request = lid_window_close_request;
  g_signal_new ("stays", LID_TYPE_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (LID_TYPE_WRAPPED);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/lidleaf/Lidleaf/ui/window.ui");
  gtk_widget_class_bind_template_child (widget_class, LidWindow, bar);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, bar_button);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, bar_label);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, board_place);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, empty_place);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, facts_button);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, figures);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, left_bar);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, left_label);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, links);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, populations);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, subtitle);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, title);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, tray_place);
  gtk_widget_class_bind_template_child (widget_class, LidWindow, undo_button);
}

/* When it is seen: who opens a job does not wait for it. */
static void
add_start_page (LidWindow *self)
{
  if (gtk_widget_get_first_child (self->empty_place) == NULL)
    gtk_box_append (GTK_BOX (self->empty_place),
                    g_object_new (LID_TYPE_START_PAGE, "hexpand", TRUE, "vexpand", TRUE, NULL));
}

static void
lid_window_init (LidWindow *self)
{
  GtkSettings *settings;
  GtkDropTarget *target;

  gtk_widget_init_template (GTK_WIDGET (self));
  self->taught = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_board_unref);
  gtk_widget_add_css_class (GTK_WIDGET (self), "lid");
  settings = gtk_widget_get_settings (GTK_WIDGET (self));
  g_signal_connect_object (settings, "notify::gtk-theme-name", G_CALLBACK (show_look), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (settings, "notify::gtk-application-prefer-dark-theme",
                           G_CALLBACK (show_look), self, G_CONNECT_SWAPPED);
  show_look (self);
  self->settings = lid_settings_new ();
  if (self->settings != NULL)
    {
      gtk_window_set_default_size (GTK_WINDOW (self),
                                   g_settings_get_int (self->settings, "window-width"),
                                   g_settings_get_int (self->settings, "window-height"));
      if (g_settings_get_boolean (self->settings, "window-maximized"))
        gtk_window_maximize (GTK_WINDOW (self));
    }
  target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);
  g_signal_connect (target, "drop", G_CALLBACK (lid_window_dropped), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
  lid_window_actions_install (self);
  g_signal_connect_object (gtk_recent_manager_get_default (), "changed", G_CALLBACK (show_recent),
                           self, G_CONNECT_SWAPPED);
  show_recent (self);
  g_signal_connect_object (self->empty_place, "map", G_CALLBACK (add_start_page), self,
                           G_CONNECT_SWAPPED);
}

LidWindow *
lid_window_new (GtkApplication *application)
{
  return g_object_new (LID_TYPE_WINDOW, "application", application, NULL);
}

/**
 * lid_window_get_model:
 *
 * Returns: (transfer none) (nullable): the job shown
 */
LidJobModel *
lid_window_get_model (LidWindow *self)
{
  return self->model;
}

/**
 * lid_window_keep_now:
 *
 * The program is being ended from outside: what is not saved is kept, to be offered next time.
 */
void
lid_window_keep_now (LidWindow *self)
{
  if (self->keeper != NULL)
    lid_job_keeper_write_now (self->keeper);
}

/**
 * lid_window_get_figures:
 *
 * Returns: (transfer none) (nullable): the line of figures as it is read aloud
 */
const char *
lid_window_get_figures (LidWindow *self)
{
  return lid_figures_bar_get_text (self->figures);
}

/**
 * lid_window_get_sentence:
 *
 * Returns: (transfer none): what the bar under the header says; empty: nothing
 */
const char *
lid_window_get_sentence (LidWindow *self)
{
  return gtk_label_get_text (self->bar_label);
}
