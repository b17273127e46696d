/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/sheet-print.h"

#include "app/sheet-preview.h"
#include "drawing/board-page.h"
#include "drawing/draw-sheet.h"
#include "drawing/sheet-layout.h"

#include <cairo-pdf.h>

typedef struct
{
  const LidJob *job; /* borrowed: the operation is modal to its window; NULL: see board */
  LidBoard *board;   /* owned, nullable: its page is printed, and no job */
  guint stage;       /* of the job, from 1; 0: the whole plan */
  LidSheetOptions options;
  char *title;
  LidDrawText *text;
  LidSheet *sheet; /* nullable until printing begins */
} Printing;

static void
printing_free (gpointer data)
{
  Printing *self = data;

  g_clear_pointer (&self->sheet, lid_sheet_free);
  lid_draw_text_free (self->text);
  lid_board_unref (self->board);
  g_free (self->title);
  g_free (self);
}

/**
 * lid_sheet_print_layout:
 * @job: a job
 * @stage: of its plan, from 1; 0: the whole of it
 * @options: which sheet, on which paper
 * @text: the helper that will draw it too
 *
 * Returns: (transfer full): the sheet
 */
LidSheet *
lid_sheet_print_layout (const LidJob *job,
                        guint stage,
                        const LidSheetOptions *options,
                        LidDrawText *text)
{
  LidQuestion question = { .board = job->board, .as_found = job->as_found };
  g_autoptr (LidAssessment) assessment = NULL;
  LidMeasure measure = lid_draw_text_measure (text);

  question.population
      = stage > 0 ? ((LidStage *)job->stages->pdata[stage - 1])->population
                  : lid_job_get_population (job, lid_sheet_layout_shows (job, options->what));
  if (question.population != NULL)
    assessment = lid_assessment_new (&question);
  return lid_sheet_layout_new_stage (job, stage, assessment, options, &measure);
}

static void
take_setup (Printing *self, GtkPageSetup *setup)
{
  GtkPaperSize *paper = gtk_page_setup_get_paper_size (setup);
  GtkPageOrientation orientation = gtk_page_setup_get_orientation (setup);

  self->options.paper = g_str_equal (gtk_paper_size_get_name (paper), GTK_PAPER_NAME_LETTER)
                            ? LID_PAPER_LETTER
                            : LID_PAPER_A4;
  self->options.sideways = orientation == GTK_PAGE_ORIENTATION_LANDSCAPE
                           || orientation == GTK_PAGE_ORIENTATION_REVERSE_LANDSCAPE;
}

static void
begin (GtkPrintOperation *operation, GtkPrintContext *context, Printing *self)
{
  take_setup (self, gtk_print_context_get_page_setup (context));
  g_clear_pointer (&self->sheet, lid_sheet_free);
  if (self->board != NULL)
    {
      LidMeasure measure = lid_draw_text_measure (self->text);

      self->sheet = lid_board_page_new (self->board, self->options.paper, &measure);
    }
  else
    self->sheet = lid_sheet_print_layout (self->job, self->stage, &self->options, self->text);
  gtk_print_operation_set_n_pages (operation, (int)self->sheet->pages->len);
}

static void
draw (GtkPrintOperation *operation, GtkPrintContext *context, int page, Printing *self)
{
  cairo_t *cr = gtk_print_context_get_cairo_context (context);
  cairo_surface_t *target = cairo_get_target (cr);

  if (page == 0 && cairo_surface_get_type (target) == CAIRO_SURFACE_TYPE_PDF)
    cairo_pdf_surface_set_metadata (target, CAIRO_PDF_METADATA_TITLE, self->title);
  cairo_save (cr);
  cairo_scale (cr, gtk_print_context_get_dpi_x (context) / 25.4,
               gtk_print_context_get_dpi_y (context) / 25.4);
  lid_draw_sheet_page (cr, self->text, self->sheet, (guint)page);
  cairo_restore (cr);
}

/* Laid out upright, whichever way the dialog turns the paper. */
static void
keep_upright (GtkPrintOperation *operation,
              GtkPrintContext *context,
              int page,
              GtkPageSetup *setup,
              Printing *self)
{
  gtk_page_setup_set_orientation (setup, GTK_PAGE_ORIENTATION_PORTRAIT);
}

static void
preview_closed (GtkPrintOperationPreview *preview)
{
  gtk_print_operation_preview_end_preview (preview);
}

/* GTK's own preview starts another program, which may not be there. */
static gboolean
preview_asked (GtkPrintOperation *operation,
               GtkPrintOperationPreview *preview,
               GtkPrintContext *context,
               GtkWindow *parent,
               Printing *self)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  LidSheetPreview *window;

  /* GTK wants one to begin with, though our window draws by itself. */
  gtk_print_context_set_cairo_context (context, cr, 72, 72);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  take_setup (self, gtk_print_context_get_page_setup (context));
  window = self->board != NULL ? lid_sheet_preview_new_printed (self->board, self->options.paper)
                               : lid_sheet_preview_new (self->job, self->stage, &self->options);
  if (parent != NULL)
    gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  g_signal_connect_object (window, "destroy", G_CALLBACK (preview_closed), preview,
                           G_CONNECT_SWAPPED);
  gtk_window_present (GTK_WINDOW (window));
  return TRUE;
}

/* @self is taken: an operation that asks it. */
static GtkPrintOperation *
operation_of (Printing *self)
{
  const LidSheetOptions *options = &self->options;
  GtkPrintOperation *operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = gtk_page_setup_new ();
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();
  g_autofree char *name = g_strdelimit (g_strdup (self->title), "/", '-');
  GtkPaperSize *paper = gtk_paper_size_new (
      options->paper == LID_PAPER_LETTER ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);

  self->text = lid_draw_text_new (lid_theme_print ());
  gtk_page_setup_set_paper_size_and_default_margins (setup, paper);
  gtk_page_setup_set_orientation (setup, options->sideways ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                           : GTK_PAGE_ORIENTATION_PORTRAIT);
  gtk_paper_size_free (paper);
  gtk_print_operation_set_default_page_setup (operation, setup);
  /* of a file: without a name of its own one sheet is written over the other */
  gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_BASENAME, name);
  gtk_print_operation_set_print_settings (operation, settings);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_NONE);
  gtk_print_operation_set_job_name (operation, self->title);
  g_signal_connect (operation, "begin-print", G_CALLBACK (begin), self);
  g_signal_connect (operation, "draw-page", G_CALLBACK (draw), self);
  g_signal_connect (operation, "preview", G_CALLBACK (preview_asked), self);
  g_object_set_data_full (G_OBJECT (operation), "printing", self, printing_free);
  return operation;
}

/**
 * lid_sheet_print_new:
 * @job: a job, which must live as long as the operation
 * @stage: of its plan, from 1; 0: the whole of it
 * @options: which sheet, on which paper to begin with
 * @title: the job's name in the printer's queue, and of a PDF
 *
 * Returns: (transfer full): an operation, ready to run
 */
GtkPrintOperation *
lid_sheet_print_new (const LidJob *job,
                     guint stage,
                     const LidSheetOptions *options,
                     const char *title)
{
  Printing *self = g_new0 (Printing, 1);

  self->job = job;
  self->stage = stage;
  self->options = *options;
  self->title = g_strdup (title);
  return operation_of (self);
}

/**
 * lid_sheet_print_new_board:
 * @board: its page is printed
 * @paper: to begin with
 * @title: the page's name in the printer's queue, and of a PDF
 *
 * Returns: (transfer full): an operation, ready to run
 */
GtkPrintOperation *
lid_sheet_print_new_board (LidBoard *board, LidPaper paper, const char *title)
{
  Printing *self = g_new0 (Printing, 1);
  GtkPrintOperation *operation;

  self->board = lid_board_ref (board);
  self->options.paper = paper;
  self->title = g_strdup (title);
  operation = operation_of (self);
  g_signal_connect (operation, "request-page-setup", G_CALLBACK (keep_upright), self);
  return operation;
}
