/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/application.h"
#include "app/sheet-preview.h"
#include "app/sheet-print.h"
#include "app/steady-label.h"
#include "app/window-private.h"
#include "app/window-shortcuts.h"

#include "job/job-file.h"

#include <glib/gstdio.h>
#include <string.h>

static GtkApplication *application;

static LidWindow *
open_example (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "example.lidleaf", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  LidWindow *window = lid_window_new (application);

  gtk_window_present (GTK_WINDOW (window));
  g_assert_true (lid_window_open (window, file));
  return window;
}

static gboolean
enabled (LidWindow *window, const char *name)
{
  return g_action_group_get_action_enabled (G_ACTION_GROUP (window), name);
}

static void
act (LidWindow *window, const char *name)
{
  g_assert_true (enabled (window, name));
  g_action_group_activate_action (G_ACTION_GROUP (window), name, NULL);
}

static void
close_window (LidWindow *window)
{
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
no_job (void)
{
  LidWindow *window = lid_window_new (application);

  gtk_window_present (GTK_WINDOW (window));
  g_assert_null (lid_window_get_model (window));
  g_assert_true (enabled (window, "open"));
  g_assert_false (enabled (window, "save"));
  g_assert_false (enabled (window, "print-bench"));
  close_window (window);
}

static void
opened (void)
{
  LidWindow *window = open_example ();
  int header, least;

  g_assert_true (g_str_has_prefix (lid_window_get_figures (window), "64 GB, fitted"));
  g_assert_nonnull (strstr (lid_window_get_figures (window), "; 61.4 GB/s, "));
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==,
                   "Estuary tide gauge, node 2 – Lidleaf");
  g_action_group_change_action_state (G_ACTION_GROUP (window), "of",
                                      g_variant_new_string ("as-found"));
  g_assert_cmpint (lid_job_model_get_of (lid_window_get_model (window)), ==, LID_AS_FOUND);
  g_assert_false (g_str_has_prefix (lid_window_get_figures (window), "64 GB"));
  /* what the header can hide holds the window open at no width */
  gtk_widget_measure (gtk_window_get_titlebar (GTK_WINDOW (window)), GTK_ORIENTATION_HORIZONTAL, -1,
                      &header, NULL, NULL, NULL);
  gtk_widget_measure (GTK_WIDGET (window), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL,
                      NULL);
  g_assert_true (gtk_widget_get_visible (window->links));
  g_assert_cmpint (least, <, header);
  close_window (window);
}

static GtkWidget *
find_type (GtkWidget *widget, const char *type)
{
  GtkWidget *found = g_str_equal (G_OBJECT_TYPE_NAME (widget), type) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_type (child, type);
  return found;
}

/* As found stands beside the plan, quiet, and the figures say what they were. */
static void
before_after (void)
{
  LidWindow *window = open_example ();
  GtkWidget *found = find_type (GTK_WIDGET (window), "LidFoundView");

  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  g_assert_nonnull (found);
  g_assert_false (gtk_widget_get_mapped (found));
  g_assert_null (strstr (lid_window_get_figures (window), "was"));
  act (window, "before-after");
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  g_assert_true (gtk_widget_get_mapped (found));
  g_assert_nonnull (strstr (lid_window_get_figures (window), "was 48 GB; "));
  g_assert_nonnull (strstr (lid_window_get_figures (window), "was 2133 MT/s"));
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (found), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "The machine as found");
  /* Beside itself there is nothing to compare. */
  g_action_group_change_action_state (G_ACTION_GROUP (window), "of",
                                      g_variant_new_string ("as-found"));
  g_assert_false (gtk_widget_get_visible (gtk_widget_get_parent (found)));
  g_assert_null (strstr (lid_window_get_figures (window), "was"));
  g_action_group_change_action_state (G_ACTION_GROUP (window), "of",
                                      g_variant_new_string ("planned"));
  act (window, "before-after");
  g_assert_false (gtk_widget_get_visible (gtk_widget_get_parent (found)));
  close_window (window);
}

static LidSheetPreview *
find_preview (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GObject) window = g_list_model_get_item (windows, i);

      if (LID_IS_SHEET_PREVIEW (window))
        return LID_SHEET_PREVIEW (window);
    }
  return NULL;
}

/* The three sheets, each on both papers, drawn by what prints them; gone with its window. */
static void
previewed (void)
{
  LidWindow *window = open_example ();
  LidSheetPreview *preview;

  act (window, "preview");
  preview = find_preview ();
  g_assert_nonnull (preview);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (preview));
  for (guint i = 0; i < 4 * LID_N_SHEETS; i++)
    {
      LidSheetOptions options
          = { (LidSheetFor)(i / 4), i & 1 ? LID_PAPER_LETTER : LID_PAPER_A4, (i & 2) != 0, FALSE };

      lid_sheet_preview_choose (preview, &options);
      gtk_test_widget_wait_for_draw (GTK_WIDGET (preview));
      g_assert_cmpuint (lid_sheet_preview_n_pages (preview), >=, 1);
    }
  close_window (window);
  g_assert_null (find_preview ());
}

/* The page of the board, with the job's own board on it. */
static void
about_board (void)
{
  LidWindow *window = open_example ();
  LidSheetPreview *preview;

  act (window, "about-board");
  preview = find_preview ();
  g_assert_nonnull (preview);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (preview));
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (preview)), ==, "Tern W4");
  g_assert_cmpuint (lid_sheet_preview_n_pages (preview), >=, 3);
  close_window (window);
  g_assert_null (find_preview ());
}

/* pdfinfo (poppler-utils) is the outside eye: the pages stay upright and of the paper's size though
 * the dialog turned it. ISO 216: A4 is 210 mm by 297 mm, 595 by 842 points. */
static void
board_printed (void)
{
  LidWindow *window = open_example ();
  const LidJob *job = lid_job_model_get_job (lid_window_get_model (window));
  g_autofree char *path = g_build_filename (g_get_user_runtime_dir (), "board.pdf", NULL);
  g_autoptr (GtkPrintOperation) operation
      = lid_sheet_print_new_board (job->board, LID_PAPER_A4, "Board page of Tern W4");
  const char *argv[] = { "pdfinfo", "-l", "99", path, NULL };
  g_autofree char *told = NULL;
  g_autoptr (GError) error = NULL;

  gtk_page_setup_set_orientation (gtk_print_operation_get_default_page_setup (operation),
                                  GTK_PAGE_ORIENTATION_LANDSCAPE);
  gtk_print_operation_set_export_filename (operation, path);
  g_assert_cmpint (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT,
                                            GTK_WINDOW (window), &error),
                   ==, GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_no_error (error);
  if (g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL,
                    NULL, NULL, &told, NULL, NULL, NULL))
    {
      g_assert_nonnull (strstr (told, "Board page of Tern W4"));
      g_assert_true (g_regex_match_simple ("Page +3 size: +59[45][.0-9]* x 84[12]", told, 0, 0));
      g_assert_null (strstr (told, " x 59"));
    }
  g_unlink (path);
  close_window (window);
}

/* What the print dialog's own button asks for: no other program is needed. */
static void
previewed_by_dialog (void)
{
  LidWindow *window = open_example ();
  LidSheetOptions options = { LID_SHEET_BALANCE, LID_PAPER_A4, TRUE, FALSE };
  GtkPrintOperation *operation = lid_sheet_print_new (
      lid_job_model_get_job (lid_window_get_model (window)), 0, &options, "balance");
  g_autoptr (GError) error = NULL;

  gtk_print_operation_set_allow_async (operation, TRUE);
  gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PREVIEW, GTK_WINDOW (window),
                           &error);
  g_assert_no_error (error);
  for (guint i = 0; i < 200 && find_preview () == NULL; i++)
    g_main_context_iteration (NULL, i < 100);
  g_assert_nonnull (find_preview ());
  gtk_test_widget_wait_for_draw (GTK_WIDGET (find_preview ()));
  gtk_window_destroy (GTK_WINDOW (find_preview ()));
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_true (gtk_print_operation_is_finished (operation));
  g_object_unref (operation);
  close_window (window);
}

static void
bad_file (void)
{
  LidWindow *window = lid_window_new (application);
  g_autoptr (GFile) file = g_file_new_for_path ("/nowhere/at/all.lidleaf");

  g_assert_false (lid_window_open (window, file));
  g_assert_null (lid_window_get_model (window));
  g_assert_nonnull (strstr (lid_window_get_sentence (window), "/nowhere/at/all.lidleaf"));
  close_window (window);
}

static void
edited_and_saved (void)
{
  LidWindow *window = open_example ();
  LidJobModel *model = lid_window_get_model (window);
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "lidleaf-test-XXXXXX", NULL);
  g_autoptr (GFile) file = NULL;
  g_autoptr (LidJob) job = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (enabled (window, "undo"));
  g_assert_true (
      lid_edits_set_text (lid_job_model_get_edits (model), LID_EDITS_TITLE, "Pier 3", &error));
  lid_job_model_edited (model);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "Pier 3, not saved – Lidleaf");
  g_assert_true (enabled (window, "undo"));
  act (window, "undo");
  g_assert_false (lid_job_model_get_unsaved (model));
  g_assert_true (enabled (window, "redo"));
  act (window, "redo");
  g_assert_nonnull (g_mkdtemp (path));
  file = g_file_new_build_filename (path, "pier.lidleaf", NULL);
  g_assert_true (lid_window_save_to (window, file));
  g_assert_false (lid_job_model_get_unsaved (model));
  job = lid_job_file_load (g_file_peek_path (file), &error);
  g_assert_no_error (error);
  g_assert_cmpstr (job->title, ==, "Pier 3");
  g_unlink (g_file_peek_path (file));
  g_rmdir (path);
  close_window (window);
}

static void
printed (void)
{
  LidWindow *window = open_example ();
  const LidJob *job = lid_job_model_get_job (lid_window_get_model (window));
  LidSheetOptions options = { .what = LID_SHEET_BENCH };
  g_autoptr (LidDrawText) text = lid_draw_text_new (lid_theme_print ());
  g_autoptr (LidSheet) sheet = lid_sheet_print_layout (job, 0, &options, text);
  g_autoptr (GtkPrintOperation) operation = lid_sheet_print_new (job, 0, &options, "Bench");
  g_autofree char *path = g_build_filename (g_get_user_runtime_dir (), "bench.pdf", NULL);
  g_autofree char *bytes = NULL;
  g_autoptr (GError) error = NULL;
  int n;

  gtk_print_operation_set_export_filename (operation, path);
  g_assert_cmpint (gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT,
                                            GTK_WINDOW (window), &error),
                   ==, GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_no_error (error);
  g_object_get (operation, "n-pages", &n, NULL);
  g_assert_cmpuint (sheet->pages->len, >, 0);
  g_assert_cmpint (n, ==, (int)sheet->pages->len);
  g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  g_assert_true (g_str_has_prefix (bytes, "%PDF"));
  g_unlink (path);
  close_window (window);
}

/* Every action of the table exists; what has a key stands under it; no key stands twice. */
static void
table (void)
{
  LidWindow *window = open_example ();
  g_autoptr (GHashTable) keys = g_hash_table_new (g_str_hash, g_str_equal);
  GtkWidget *shortcuts = lid_window_shortcuts_new ();
  const LidActionRow *rows;
  guint n;

  rows = lid_window_actions_all (&n);
  for (guint i = 0; i < n; i++)
    {
      g_auto (GStrv) accels = gtk_application_get_accels_for_action (application, rows[i].action);
      g_autoptr (GVariant) target = NULL;
      g_autofree char *name = NULL;

      g_assert_true (g_action_parse_detailed_name (rows[i].action, &name, &target, NULL));
      if (g_str_has_prefix (name, "win."))
        g_assert_true (g_action_group_has_action (G_ACTION_GROUP (window), name + 4));
      g_assert_cmpuint (g_strv_length (accels), ==, rows[i].key != NULL ? 1 : 0);
      if (rows[i].key != NULL)
        g_assert_true (g_hash_table_add (keys, (gpointer)rows[i].key));
      g_assert_true (rows[i].key != NULL || rows[i].in_menu);
    }
  g_assert_true (GTK_IS_SHORTCUTS_WINDOW (shortcuts));
  gtk_window_destroy (GTK_WINDOW (shortcuts));
  close_window (window);
}

/* No line ends inside a unit (common practice, no source), though Unicode's UAX 14, class SY,
 * allows it after a slash. */
static void
unit_is_whole (void)
{
  GtkWidget *label = g_object_ref_sink (lid_steady_label_new (TRUE));
  int least, natural;

  lid_steady_label_set_text (LID_STEADY_LABEL (label), "GB/s");
  gtk_widget_measure (label, GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
  g_assert_cmpint (least, ==, natural);
  lid_steady_label_set_text (LID_STEADY_LABEL (label), "GB s");
  gtk_widget_measure (label, GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
  g_assert_cmpint (least, <, natural);
  g_object_unref (label);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;

  gtk_test_init (&argc, &argv, NULL);
  application = lid_application_new ();
  g_application_set_flags (G_APPLICATION (application), G_APPLICATION_NON_UNIQUE);
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, &error));
  g_test_add_func ("/window/no-job", no_job);
  g_test_add_func ("/window/opened", opened);
  g_test_add_func ("/window/unit-is-whole", unit_is_whole);
  g_test_add_func ("/window/before-after", before_after);
  g_test_add_func ("/window/previewed", previewed);
  g_test_add_func ("/window/about-board", about_board);
  g_test_add_func ("/window/board-printed", board_printed);
  g_test_add_func ("/window/previewed-by-dialog", previewed_by_dialog);
  g_test_add_func ("/window/bad-file", bad_file);
  g_test_add_func ("/window/edited-and-saved", edited_and_saved);
  g_test_add_func ("/window/printed", printed);
  g_test_add_func ("/window/table", table);
  return g_test_run ();
}
