/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-sheets.c — what goes out: sheets to a printer and to files. */
#include "app/sheet-preview.h"
#include "app/sheet-print.h"
#include "app/window-private.h"

#include "drawing/board-page.h"
#include "drawing/export.h"

#include <glib/gi18n.h>

#define BOARD_PAGE LID_N_SHEETS /* no sheet of a job: the page of its board */

/* What goes out. */
typedef struct
{
  LidSheetFor what;
  guint stage; /* 0: of the window's job; else a stage of @job, from 1 */
  LidJob *job; /* owned, nullable */
} Paper;

static void
paper_free (gpointer data)
{
  Paper *paper = data;

  g_clear_pointer (&paper->job, lid_job_free);
  g_free (paper);
}

static const LidJob *
job_of (LidWindow *self, const Paper *paper)
{
  return paper->job != NULL ? paper->job : lid_job_model_get_job (self->model);
}

static LidSheetOptions
options_of (LidWindow *self, LidSheetFor what)
{
  LidSheetOptions options = { .what = what };
  g_autofree char *paper
      = self->settings != NULL ? g_settings_get_string (self->settings, "paper") : NULL;

  options.paper = g_strcmp0 (paper, "letter") == 0 ? LID_PAPER_LETTER : LID_PAPER_A4;
  options.sideways = self->settings != NULL && g_settings_get_boolean (self->settings, "sideways");
  return options;
}

static const char *
board_name (LidWindow *self)
{
  const LidBoard *board = lid_job_model_get_job (self->model)->board;

  return board->name != NULL ? board->name : board->id;
}

static char *
title_of (LidWindow *self, const Paper *paper)
{
  g_autofree char *title = lid_job_model_get_title (self->model);

  /* Translators: a machine, and one visit of two to it: "Bench sheet of Mill office, tonight" */
  if (paper->stage > 0)
    return g_strdup_printf (_ ("Bench sheet of %s, %s"), title,
                            ((LidStage *)paper->job->stages->pdata[paper->stage - 1])->name);
  switch (paper->what)
    {
    case LID_SHEET_LID:
      return g_strdup_printf (_ ("Lid sheet of %s"), title);
    case LID_SHEET_BALANCE:
      return g_strdup_printf (_ ("Balance page of %s"), title);
    case BOARD_PAGE:
      return g_strdup_printf (_ ("Board page of %s"), board_name (self));
    case LID_SHEET_BENCH:
    default:
      return g_strdup_printf (_ ("Bench sheet of %s"), title);
    }
}

/* The paper chosen this time is the one offered next time. */
static void
keep_paper (LidWindow *self, GtkPrintOperation *operation)
{
  GtkPageSetup *setup = gtk_print_operation_get_default_page_setup (operation);
  GtkPrintSettings *settings = gtk_print_operation_get_print_settings (operation);
  GtkPaperSize *paper = settings != NULL ? gtk_print_settings_get_paper_size (settings) : NULL;
  const char *name
      = gtk_paper_size_get_name (paper != NULL ? paper : gtk_page_setup_get_paper_size (setup));

  if (self->settings != NULL)
    g_settings_set_string (self->settings, "paper",
                           g_str_equal (name, GTK_PAPER_NAME_LETTER) ? "letter" : "a4");
  if (self->settings != NULL && settings != NULL
      && gtk_print_settings_has_key (settings, GTK_PRINT_SETTINGS_ORIENTATION))
    {
      GtkPageOrientation orientation = gtk_print_settings_get_orientation (settings);

      g_settings_set_boolean (self->settings, "sideways",
                              orientation == GTK_PAGE_ORIENTATION_LANDSCAPE
                                  || orientation == GTK_PAGE_ORIENTATION_REVERSE_LANDSCAPE);
    }
  g_clear_pointer (&paper, gtk_paper_size_free);
}

static void
present_preview (LidWindow *self, LidSheetPreview *preview)
{
  gtk_window_set_transient_for (GTK_WINDOW (preview), GTK_WINDOW (self));
  gtk_window_set_destroy_with_parent (GTK_WINDOW (preview), TRUE);
  lid_window_dress (self, GTK_WIDGET (preview));
  gtk_window_present (GTK_WINDOW (preview));
}

/**
 * lid_window_preview:
 *
 * The sheets as they will be printed, in a window of their own, gone with this one.
 */
void
lid_window_preview (LidWindow *self)
{
  present_preview (self, lid_sheet_preview_new_chosen (self->model, self->settings));
}

/**
 * lid_window_about_board:
 *
 * The page of the job's board: picture, tables, sources.
 */
void
lid_window_about_board (LidWindow *self)
{
  LidBoard *board = lid_job_model_get_job (self->model)->board;

  present_preview (self, lid_sheet_preview_new_board (board, self->settings));
}

/* Where it went: a printer says so itself, with paper; a file lies somewhere. */
static void
say_printed (LidWindow *self, GtkPrintOperation *operation)
{
  GtkPrintSettings *settings = gtk_print_operation_get_print_settings (operation);
  const char *uri
      = settings != NULL ? gtk_print_settings_get (settings, GTK_PRINT_SETTINGS_OUTPUT_URI) : NULL;
  g_autoptr (GFile) file = uri != NULL ? g_file_new_for_uri (uri) : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL, *sentence = NULL;

  if (path == NULL)
    return;
  sentence = g_strdup_printf (_ ("Written: %s"), path);
  lid_window_say (self, sentence);
}

static void
print_paper (LidWindow *self, const Paper *paper)
{
  LidSheetOptions options = options_of (self, paper->what);
  g_autofree char *title = title_of (self, paper);
  const LidJob *job = job_of (self, paper);
  g_autoptr (GtkPrintOperation) operation
      = paper->what == BOARD_PAGE ? lid_sheet_print_new_board (job->board, options.paper, title)
                                  : lid_sheet_print_new (job, paper->stage, &options, title);
  g_autoptr (GError) error = NULL;
  GtkPrintOperationResult result;

  result = gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG,
                                    GTK_WINDOW (self), &error);
  if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
    lid_window_say (self, error->message);
  else if (result == GTK_PRINT_OPERATION_RESULT_APPLY)
    {
      keep_paper (self, operation);
      say_printed (self, operation);
    }
}

static void
print (LidWindow *self, LidSheetFor what)
{
  print_paper (self, &(Paper){ .what = what });
}

/**
 * lid_window_print_stage:
 * @job: (transfer full): in stages
 * @stage: one of them, from 1, whose bench sheet is printed
 */
void
lid_window_print_stage (LidWindow *self, LidJob *job, guint stage)
{
  Paper paper = { LID_SHEET_BENCH, stage, job };

  print_paper (self, &paper);
  lid_job_free (job);
}

void
lid_window_print_bench (LidWindow *self)
{
  print (self, LID_SHEET_BENCH);
}

void
lid_window_print_lid (LidWindow *self)
{
  print (self, LID_SHEET_LID);
}

void
lid_window_print_balance (LidWindow *self)
{
  print (self, LID_SHEET_BALANCE);
}

void
lid_window_print_board (LidWindow *self)
{
  print (self, BOARD_PAGE);
}

static LidSheet *
lay_out (LidWindow *self, const Paper *paper, const LidSheetOptions *options, LidDrawText *text)
{
  const LidJob *job = job_of (self, paper);
  LidMeasure measure = lid_draw_text_measure (text);

  if (options->what == BOARD_PAGE)
    return lid_board_page_new (job->board, options->paper, &measure);
  return lid_sheet_print_layout (job, paper->stage, options, text);
}

static void
export_to (LidWindow *self, const Paper *paper, const char *path)
{
  LidSheetOptions options = options_of (self, paper->what);
  g_autoptr (GError) error = NULL;
  const LidExport *format = lid_export_find (path, &error);
  g_autoptr (LidDrawText) text = NULL;
  g_autoptr (LidSheet) sheet = NULL;
  g_autoptr (GPtrArray) files = NULL;
  g_autoptr (GFile) written = NULL;
  g_autofree char *sentence = NULL;

  if (format != NULL)
    {
      text = lid_draw_text_new (lid_theme_print ());
      sheet = lay_out (self, paper, &options, text);
      files = lid_export_files (format, text, sheet, path, &error);
    }
  if (files == NULL)
    {
      lid_window_say (self, error->message);
      return;
    }
  written = g_file_new_for_path (path);
  lid_window_keep_folder (self, written);
  sentence = files->len == 1
                 ? g_strdup_printf (_ ("Written: %s"), (const char *)files->pdata[0])
                 : g_strdup_printf (_ ("Written: %s to %s"), (const char *)files->pdata[0],
                                    (const char *)files->pdata[files->len - 1]);
  lid_window_say (self, sentence);
}

static void
chosen (GtkNativeDialog *dialog, int response, LidWindow *self)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  const Paper *paper = g_object_get_data (G_OBJECT (dialog), "paper");

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    export_to (self, paper, path);
  g_clear_object (&self->chooser);
}

/* @paper is taken. */
static void
choose_for (LidWindow *self, Paper *paper)
{
  g_autofree char *title = title_of (self, paper);
  g_autofree char *name = NULL;
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (_ ("Export as PDF, SVG or PNG"), GTK_WINDOW (self),
                                     GTK_FILE_CHOOSER_ACTION_SAVE, _ ("Export"), _ ("Cancel"));
  const LidExport *formats;
  gsize n;

  g_set_object (&self->chooser, GTK_NATIVE_DIALOG (chooser));
  g_object_unref (chooser);
  formats = lid_export_all (&n);
  for (gsize i = 0; i < n; i++)
    {
      g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
      g_autofree char *pattern = g_strconcat ("*", formats[i].suffix, NULL);

      gtk_file_filter_set_name (filter, _ (formats[i].title));
      gtk_file_filter_add_pattern (filter, pattern);
      gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
    }
  lid_window_start_in_folder (self, GTK_FILE_CHOOSER (chooser));
  name = g_strconcat (g_strdelimit (title, "/", '-'), formats[0].suffix, NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  g_object_set_data_full (G_OBJECT (chooser), "paper", paper, paper_free);
  g_signal_connect_object (chooser, "response", G_CALLBACK (chosen), self, 0);
  gtk_native_dialog_show (self->chooser);
}

static void
choose (LidWindow *self, LidSheetFor what)
{
  Paper *paper = g_new0 (Paper, 1);

  paper->what = what;
  choose_for (self, paper);
}

/**
 * lid_window_export_stage:
 * @job: (transfer full): in stages
 * @stage: one of them, from 1, whose bench sheet is exported
 */
void
lid_window_export_stage (LidWindow *self, LidJob *job, guint stage)
{
  Paper *paper = g_new0 (Paper, 1);

  *paper = (Paper){ LID_SHEET_BENCH, stage, job };
  choose_for (self, paper);
}

void
lid_window_export_bench (LidWindow *self)
{
  choose (self, LID_SHEET_BENCH);
}

void
lid_window_export_lid (LidWindow *self)
{
  choose (self, LID_SHEET_LID);
}

void
lid_window_export_balance (LidWindow *self)
{
  choose (self, LID_SHEET_BALANCE);
}

void
lid_window_export_board (LidWindow *self)
{
  choose (self, BOARD_PAGE);
}
