/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help beside what it is about: figures, notes, slots, words. */
#include "app/application.h"
#include "app/figures-bar.h"
#include "app/help-popover.h"
#include "app/help.h"
#include "app/note-button.h"
#include "app/window-shortcuts.h"
#include "app/window.h"
#include "app/words-window.h"
#include "desk.h"

#include <string.h>

static GtkApplication *application;

static GtkWidget *
find (GtkWidget *widget, GType type)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (widget, type))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find (child, type);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static GtkWidget *
labelled (GtkWidget *widget, const char *label)
{
  if (GTK_IS_BUTTON (widget) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = labelled (child, label);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static LidWindow *
open_example (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "example.lidleaf", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  LidWindow *window = lid_window_new (application);

  gtk_window_present (GTK_WINDOW (window));
  g_assert_true (lid_window_open (window, file));
  desk_settle ();
  return window;
}

static void
says (GtkWidget *popover, const char *what)
{
  const char *text = lid_help_popover_get_text (LID_HELP_POPOVER (popover));

  if (text == NULL || strstr (text, what) == NULL)
    g_test_fail_printf ("the help does not say “%s”: %s", what, text);
}

/* Every figure has its words, and they are in the glossary; the bandwidth tells its assumptions. */
static void
figures (void)
{
  static const char *const expected[]
      = { "slots of fitted processors", "the least of the modules' ratings", "80 % of the peak",
          "It is 100 % only if memory is even" };
  LidWindow *window = open_example ();
  LidFiguresBar *bar = LID_FIGURES_BAR (find (GTK_WIDGET (window), LID_TYPE_FIGURES_BAR));

  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      GtkWidget *button = lid_figures_bar_get_figure (bar, i);

      g_assert_true (gtk_widget_get_visible (button));
      g_assert_true (lid_help_show (gtk_widget_get_first_child (button)));
      desk_settle ();
      says (GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (button))), expected[i]);
      gtk_menu_button_popdown (GTK_MENU_BUTTON (button));
      desk_settle ();
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A figure that is missing for one population only: its words do not come back with it. */
static void
figure_gone (void)
{
  LidWindow *window = open_example ();
  LidFiguresBar *bar = LID_FIGURES_BAR (find (GTK_WIDGET (window), LID_TYPE_FIGURES_BAR));
  GtkWidget *button = lid_figures_bar_get_figure (bar, 0);
  GtkWidget *popover;

  g_assert_true (lid_help_show (gtk_widget_get_first_child (button)));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  popover = GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (button)));
  g_assert_true (gtk_widget_get_mapped (popover));
  gtk_widget_set_visible (button, FALSE);
  gtk_widget_set_visible (button, TRUE);
  g_assert_false (gtk_widget_get_visible (popover));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* As a word of the screen in the queue when the help is closed. */
static gboolean
screen_speaks (gpointer note)
{
  g_assert_null (find (note, LID_TYPE_HELP_POPOVER));
  return G_SOURCE_REMOVE;
}

/* A note tells the reason of its rule, where it is known from, and goes away without a trace, at
 * once: see lid_popover_place_leave. */
static void
note (void)
{
  Desk desk;
  GtkWidget *note, *popover;
  const LidFinding *finding;
  g_autofree char *said = NULL;

  desk_lay (&desk, desk_example ());
  note = find (GTK_WIDGET (desk.board), LID_TYPE_NOTE_BUTTON);
  finding = lid_note_button_get_finding (LID_NOTE_BUTTON (note));
  g_assert_true (lid_help_show (note));
  desk_settle ();
  popover = find (note, LID_TYPE_HELP_POPOVER);
  while (!gtk_widget_get_visible (popover)) /* its note comes into view first */
    g_main_context_iteration (NULL, TRUE);
  /* GTK stops in the middle of a frame until the screen has made room for it. */
  gtk_test_widget_wait_for_draw (desk.window);
  g_assert_nonnull (finding);
  says (popover, "The rule itself: common practice, no source.");
  g_idle_add_full (G_PRIORITY_DEFAULT, screen_speaks, note, NULL);
  gtk_popover_popdown (GTK_POPOVER (popover));
  desk_settle ();
  g_assert_null (find (note, LID_TYPE_HELP_POPOVER));
  desk_clear (&desk);
}

/* A slot tells of the worst that names it; one without a finding says what a slot is. */
static void
slot (void)
{
  Desk desk;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) none = g_ptr_array_new (), plain = lid_help_of_slot (none, 0);
  GtkWidget *button;

  g_assert_cmpuint (plain->len, ==, 3);
  desk_lay (&desk, desk_example ());
  g_assert_true (lid_edits_take (lid_job_model_get_edits (desk.model), LID_PLANNED, 0, &error));
  lid_job_model_edited (desk.model);
  desk_settle ();
  button = lid_board_area_get_slot (desk.board, 0);
  g_assert_true (lid_help_show (button));
  desk_settle ();
  says (find (button, LID_TYPE_HELP_POPOVER), "Each channel carries its part of the bandwidth.");
  desk_clear (&desk); /* with the help still shown */
}

/* F6 goes round: title, figures, board, notes, tray, and back the other way. */
static void
round_the_window (void)
{
  LidWindow *window = open_example ();
  static const char *const parts[] = { "LidNoteButton",   "GtkText",       "GtkToggleButton",
                                       "GtkToggleButton", "LidSlotButton", "LidNoteButton" };

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_action_group_activate_action (G_ACTION_GROUP (window), "next-part", NULL);
      desk_settle ();
      g_assert_cmpstr (G_OBJECT_TYPE_NAME (gtk_window_get_focus (GTK_WINDOW (window))), ==,
                       parts[i]);
    }
  for (guint i = G_N_ELEMENTS (parts) - 1; i-- > 0;)
    {
      g_action_group_activate_action (G_ACTION_GROUP (window), "previous-part", NULL);
      desk_settle ();
      g_assert_cmpstr (G_OBJECT_TYPE_NAME (gtk_window_get_focus (GTK_WINDOW (window))), ==,
                       parts[i]);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* What has the keyboard says what it is: the buttons of as found, planned and as left, too. */
static void
populations (void)
{
  static const char *const expected[] = { "before any hand", "shall become", "when it went" };
  LidWindow *window = open_example ();
  GtkWidget *button = labelled (GTK_WIDGET (window), "As found");

  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      gtk_widget_grab_focus (button);
      g_action_group_activate_action (G_ACTION_GROUP (window), "help", NULL);
      desk_settle ();
      says (find (button, LID_TYPE_HELP_POPOVER), expected[i]);
      gtk_popover_popdown (GTK_POPOVER (find (button, LID_TYPE_HELP_POPOVER)));
      desk_settle ();
      button = gtk_widget_get_next_sibling (button);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The list of words holds every word and rule, and finds by their texts. */
static void
words (void)
{
  GtkWidget *window = lid_words_window_new (), *search = find (window, GTK_TYPE_SEARCH_ENTRY);
  GtkWidget *list = find (window, GTK_TYPE_LIST_BOX);
  guint n = 0, shown = 0, n_words;

  lid_glossary_all (&n_words);
  gtk_window_present (GTK_WINDOW (window));
  gtk_editable_set_text (GTK_EDITABLE (search), "AIR TAKES the easiest");
  g_signal_emit_by_name (search, "search-changed");
  desk_settle ();
  for (GtkWidget *row = gtk_widget_get_first_child (list); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      n += GTK_IS_LIST_BOX_ROW (row);
      shown += GTK_IS_LIST_BOX_ROW (row) && gtk_widget_get_child_visible (row);
    }
  g_assert_cmpuint (n, >=, n_words + 45);
  g_assert_cmpuint (shown, ==, 1);
  gtk_window_destroy (GTK_WINDOW (window));
}

static gboolean
is_action (const char *key)
{
  const LidActionRow *rows;
  guint n;

  rows = lid_window_actions_all (&n);
  for (guint i = 0; i < n; i++)
    if (g_strcmp0 (rows[i].key, key) == 0)
      return TRUE;
  return FALSE;
}

/* Keys that are no actions: each can be parsed, and says what it does. */
static void
keys (void)
{
  const LidKeyRow *rows;
  guint n;

  rows = lid_window_shortcuts_keys (&n);
  for (guint i = 0; i < n; i++)
    {
      g_auto (GStrv) each = g_strsplit (rows[i].keys, " ", -1);

      g_assert_cmpuint (strlen (rows[i].words), >, 3);
      for (guint k = 0; each[k] != NULL; k++)
        {
          guint key = 0;
          GdkModifierType modifiers;

          if (!gtk_accelerator_parse (each[k], &key, &modifiers) || key == 0)
            g_test_fail_printf ("no key: %s", each[k]);
          if (is_action (each[k]))
            g_test_fail_printf ("told twice: %s", each[k]);
        }
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;

  gtk_test_init (&argc, &argv, NULL);
  application = lid_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, &error));
  g_test_add_func ("/help/figures", figures);
  g_test_add_func ("/help/figure-gone", figure_gone);
  g_test_add_func ("/help/note", note);
  g_test_add_func ("/help/slot", slot);
  g_test_add_func ("/help/round", round_the_window);
  g_test_add_func ("/help/populations", populations);
  g_test_add_func ("/help/words", words);
  g_test_add_func ("/help/keys", keys);
  return g_test_run ();
}
