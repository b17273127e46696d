/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program in a language that nobody speaks (pseudo.py: every text in marks and a third longer),
 * at 1024x700: every window, menu and popover is walked. A text without the marks was never offered
 * to a translator; a label that is cut off says less in other languages than in this one. */
#include "app/bench-view.h"
#include "app/note-button.h"
#include "app/tooltip.h"
#include "desk.h"
#include "jobs.h"
#include "said.h"

#include <glib/gi18n.h>
#include <locale.h>

#define WIDTH 1024
#define HEIGHT 700

static guint n_texts;
static GHashTable *complaints; /* char *: each told once */

static void complain (const char *format, ...) G_GNUC_PRINTF (1, 2);

static void
complain (const char *format, ...)
{
  g_autofree char *complaint = NULL;
  va_list list;

  va_start (list, format);
  complaint = g_strdup_vprintf (format, list);
  va_end (list);
  if (!g_hash_table_contains (complaints, complaint))
    g_test_message ("%s", complaint);
  g_hash_table_add (complaints, g_steal_pointer (&complaint));
}

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

/* What GTK itself says in its own windows is GTK's to translate. */
static gboolean
is_of_gtk (GtkWidget *widget)
{
  static const char *const types[] = { "GtkWindowControls", "GtkShortcutLabel", "GtkAboutDialog",
                                       "GtkEmojiChooser",   "GtkTextHandle",    "GtkMagnifier" };

  for (GtkWidget *at = widget; at != NULL; at = gtk_widget_get_parent (at))
    for (guint i = 0; i < G_N_ELEMENTS (types); i++)
      if (g_str_equal (G_OBJECT_TYPE_NAME (at), types[i]))
        return TRUE;
  /* The header of the window of shortcuts: its search and the name of its one section. */
  return gtk_widget_get_ancestor (widget, GTK_TYPE_SHORTCUTS_WINDOW) != NULL
         && gtk_widget_get_ancestor (widget, GTK_TYPE_SHORTCUTS_SHORTCUT) == NULL
         && gtk_widget_get_ancestor (widget, GTK_TYPE_SHORTCUTS_GROUP) == NULL;
}

static void
check_text (GtkWidget *widget, const char *what, const char *text)
{
  static const char *const gtks[] = { "(None)", "Search…", "Clear entry" };
  g_autofree char *left = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (gtks); i++)
    if (g_strcmp0 (text, gtks[i]) == 0)
      return;
  left = text != NULL ? said_left (text) : NULL;
  n_texts += text != NULL && *text != 0;
  if (left != NULL)
    complain ("“%s” in the %s of a %s was not offered to a translator: “%s”", left, what,
              G_OBJECT_TYPE_NAME (widget), text);
}

/* The name of the machine and its owner may be as long as they like: shortened, and told in full by
 * the popover they open. */
static gboolean
may_shorten (GtkWidget *label)
{
  return gtk_widget_has_css_class (label, "job-title") || gtk_widget_has_css_class (label, "soft")
         || gtk_label_get_ellipsize (GTK_LABEL (label)) == PANGO_ELLIPSIZE_MIDDLE;
}

static void
check_room (GtkWidget *label)
{
  PangoLayout *layout = gtk_label_get_layout (GTK_LABEL (label));
  int width, height;

  if (!gtk_widget_get_mapped (label) || may_shorten (label))
    return;
  pango_layout_get_pixel_size (layout, &width, &height);
  if (pango_layout_is_ellipsized (layout) || width > gtk_widget_get_width (label) + 1
      || height > gtk_widget_get_height (label) + 1)
    complain ("cut off: “%s”: %d × %d in %d × %d%s", gtk_label_get_text (GTK_LABEL (label)), width,
              height, gtk_widget_get_width (label), gtk_widget_get_height (label),
              pango_layout_is_ellipsized (layout) ? ", shortened" : "");
}

/* With GTK's test backend a value is told by what it is not. */
static void
check_accessible (GtkWidget *widget, GtkAccessibleProperty property, const char *what)
{
  g_autofree char *value
      = gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), property)
            ? gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget), property, "\001")
            : NULL;

  if (value != NULL && !GTK_IS_EDITABLE (widget))
    check_text (widget, what, value);
}

static void
check_widget (GtkWidget *widget)
{
  g_autofree char *placeholder = NULL;

  if (is_of_gtk (widget))
    return;
  if (GTK_IS_LABEL (widget) && gtk_widget_get_ancestor (widget, GTK_TYPE_EDITABLE) == NULL)
    {
      check_text (widget, "label", gtk_label_get_text (GTK_LABEL (widget)));
      check_room (widget);
    }
  if (GTK_IS_TEXT (widget))
    {
      g_object_get (widget, "placeholder-text", &placeholder, NULL);
      check_text (widget, "placeholder", placeholder);
    }
  check_text (widget, "tooltip", gtk_widget_get_tooltip_text (widget));
  check_accessible (widget, GTK_ACCESSIBLE_PROPERTY_LABEL, "accessible name");
  check_accessible (widget, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, "accessible description");
}

static void
check_all (GtkWidget *widget)
{
  check_widget (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    check_all (child);
}

/* Of every window there is; each is as large as was asked for, or it does not fit the screen. */
static void
check_windows (void)
{
  GListModel *all = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (all, i);

      if (!gtk_widget_get_mapped (window))
        continue;
      if (!GTK_IS_ABOUT_DIALOG (window))
        check_text (window, "title", gtk_window_get_title (GTK_WINDOW (window)));
      check_all (window);
      if (LID_IS_WINDOW (window) && gtk_widget_get_width (window) > WIDTH)
        complain ("the window is %d wide: too much for a screen of %d",
                  gtk_widget_get_width (window), WIDTH);
    }
}

static void
draw (LidWindow *window)
{
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  desk_settle ();
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
}

static LidWindow *
new_window (void)
{
  LidWindow *window = lid_window_new (jobs_application);

  gtk_window_set_default_size (GTK_WINDOW (window), WIDTH, HEIGHT);
  gtk_window_present (GTK_WINDOW (window));
  draw (window);
  return window;
}

static LidWindow *
open_text (const char *name, const char *text)
{
  g_autoptr (GFile) file = g_file_new_build_filename (jobs_folder, name, NULL);
  LidWindow *window = new_window ();

  g_assert_true (g_file_set_contents (g_file_peek_path (file), text, -1, NULL));
  g_assert_true (lid_window_open (window, file));
  said_allow_job (lid_job_model_get_job (lid_window_get_model (window)));
  said_allow (jobs_folder);
  draw (window);
  return window;
}

static LidWindow *
open_job (const char *source)
{
  g_autofree char *text = jobs_text_of (source, NULL, NULL), *name = g_path_get_basename (source);

  return open_text (name, text);
}

static void
close_all (void)
{
  GListModel *all = gtk_window_get_toplevels ();

  for (guint i = g_list_model_get_n_items (all); i-- > 0;)
    {
      g_autoptr (GtkWindow) other = g_list_model_get_item (all, i);

      if (other != NULL)
        gtk_window_destroy (other);
    }
  desk_settle ();
}

/* What each action of the window shows; those that print or choose a file belong to GTK. */
static void
show_each (LidWindow *window, const char *const *actions)
{
  for (; *actions != NULL; actions++)
    {
      g_test_message ("%s", *actions);
      gtk_widget_activate_action (GTK_WIDGET (window), *actions, NULL);
      draw (window);
      check_windows ();
    }
}

static void
pop_up (LidWindow *window, GtkWidget *button)
{
  g_assert_nonnull (button);
  gtk_menu_button_popup (GTK_MENU_BUTTON (button));
  draw (window);
  check_windows ();
  gtk_menu_button_popdown (GTK_MENU_BUTTON (button));
  draw (window);
}

static void
pop_up_all (LidWindow *window, GtkWidget *widget)
{
  GtkWidget *next;

  if (GTK_IS_MENU_BUTTON (widget) && gtk_widget_get_mapped (widget))
    {
      pop_up (window, widget);
      return;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = next)
    {
      next = gtk_widget_get_next_sibling (child);
      pop_up_all (window, child);
    }
}

static void
start (void)
{
  LidWindow *window;
  g_autoptr (LidJob) job = desk_example ();

  said_allow_job (job);
  window = new_window ();
  check_windows ();
  pop_up_all (window, GTK_WIDGET (window));
  close_all ();
}

static void
example (void)
{
  static const char *const views[]
      = { "win.of::as-left",  "win.of::as-found", "win.before-after", "win.of::planned",
          "win.before-after", "win.lid-off",      "win.lid-off",      NULL };
  static const char *const windows[]
      = { "win.plan", "win.words", "win.shortcuts", "win.preview", "win.about", NULL };
  LidWindow *window = open_job ("resources/example.lidleaf");

  check_windows ();
  pop_up_all (window, GTK_WIDGET (window));
  show_each (window, views);
  show_each (window, windows);
  close_all ();
}

/* An edit, its name, the tray, a slot's menu, help, and the question before it is lost. */
static void
hands (void)
{
  LidWindow *window = open_job ("resources/example.lidleaf");
  GtkWidget *slot = find (GTK_WIDGET (window), LID_TYPE_SLOT_BUTTON), *tray;

  gtk_widget_activate_action (slot, "slot.empty", NULL);
  draw (window);
  check_windows ();
  for (guint k = 0; k < 2; k++)
    {
      gtk_widget_activate_action (slot, k == 0 ? "slot.menu" : "slot.why", NULL);
      for (guint i = 0; i < 4; i++)
        draw (window); /* its place is looked for first */
      check_windows ();
    }
  tray = find (GTK_WIDGET (window), LID_TYPE_MODULE_TRAY);
  lid_module_tray_enter (LID_MODULE_TRAY (tray), "no label");
  draw (window);
  check_windows ();
  gtk_window_close (GTK_WINDOW (window));
  draw (window);
  check_windows ();
  g_assert_nonnull (jobs_question_of (window));
  close_all ();
}

static void
check_intake (LidWindow *window)
{
  static const char *const taught[] = { "win.teach", NULL };

  check_windows ();
  pop_up_all (window, GTK_WIDGET (window));
  show_each (window, taught);
  close_all ();
}

static void
report (gconstpointer source)
{
  check_intake (open_job (source));
}

/* A machine whose slot names are numbers alone: to be taught. */
static void
untold (void)
{
  g_autoptr (GString) text = g_string_new ("# dmidecode 3.4\n\n");

  for (guint i = 1; i <= 8; i++)
    g_string_append_printf (text,
                            "Handle 0x11%02X, DMI type 17, 40 bytes\nMemory Device\n\tLocator: "
                            "DIMM %u\n\tBank Locator: Not Specified\n\tSize: 16 GB\n\n",
                            i, i);
  check_intake (open_text ("untold.txt", text->str));
}

static void
counted (void)
{
  g_test_message ("%u texts were looked at", n_texts);
  g_assert_cmpuint (n_texts, >, 1000);
  g_assert_cmpuint (g_hash_table_size (complaints), ==, 0);
}

static void
add (void)
{
  g_test_add_func ("/pseudo/start", start);
  g_test_add_func ("/pseudo/example", example);
  g_test_add_func ("/pseudo/hands", hands);
  g_test_add_data_func ("/pseudo/report", "tests/data/machines/dunlin-s1.txt", report);
  g_test_add_data_func ("/pseudo/whole", "tests/data/report/station.whole.txt", report);
  g_test_add_func ("/pseudo/untold", untold);
  g_test_add_func ("/pseudo/counted", counted);
}

int
main (int argc, char **argv)
{
  g_autofree char *folder = g_build_filename (g_getenv ("LID_BUILD"), "tests/app/pseudo", NULL);
  int status;

  g_setenv ("LANGUAGE", "xx", TRUE);
  setlocale (LC_ALL, "C.UTF-8"); /* GTK's tests change to another one where that is there */
  bindtextdomain (GETTEXT_PACKAGE, folder);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_assert_cmpstr (_ ("Planned"), !=, "Planned");
  complaints = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  status = jobs_run (&argc, &argv, add);
  said_clear ();
  g_hash_table_unref (complaints);
  return status;
}
