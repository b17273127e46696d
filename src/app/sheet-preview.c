/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/sheet-preview.h"

#include "app/sheet-print.h"
#include "app/window-actions.h"
#include "drawing/board-page.h"
#include "drawing/draw-sheet.h"
#include "drawing/sheet-words.h"

#include <glib/gi18n.h>

#define PX_PER_MM 3.2 /* large enough to read the small print */

struct _LidSheetPreview
{
  GtkWindow parent_instance;

  LidJobModel *model;  /* nullable: then @job is borrowed and does not change */
  GSettings *settings; /* nullable */
  const LidJob *job;
  guint stage;     /* of that job, from 1; 0: the whole plan */
  LidBoard *board; /* nullable: then its page is shown, and no job */
  LidSheetOptions options;
  LidDrawText *text;
  LidSheet *sheet;
  GtkWidget *pages;
  /* only where one may choose */
  GtkWidget *what, *paper, *sideways;
};

G_DEFINE_FINAL_TYPE (LidSheetPreview, lid_sheet_preview, GTK_TYPE_WINDOW)

static void
draw_page (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  LidSheetPreview *self = data;
  guint page = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (area), "page"));

  if (self->sheet == NULL || page >= self->sheet->pages->len)
    return;
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, width / self->sheet->width, height / self->sheet->height);
  lid_draw_sheet_page (cr, self->text, self->sheet, page);
}

/* A page in its words, for who cannot see it. */
static char *
read_page (const LidPage *page)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < page->items->len; i++)
    {
      const LidItem *item = &g_array_index (page->items, LidItem, i);

      if (item->text != NULL)
        g_string_append_printf (out, "%s\n", item->text);
    }
  return g_string_free (out, FALSE);
}

static void
add_page (LidSheetPreview *self, guint page)
{
  GtkWidget *area = gtk_drawing_area_new ();
  g_autofree char *name = g_strdup_printf (_ ("page %u of %u"), page + 1, self->sheet->pages->len);
  g_autofree char *text = read_page (self->sheet->pages->pdata[page]);

  g_object_set_data (G_OBJECT (area), "page", GUINT_TO_POINTER (page));
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area),
                                      (int)(self->sheet->width * PX_PER_MM));
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area),
                                       (int)(self->sheet->height * PX_PER_MM));
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_page, self, NULL);
  gtk_widget_set_halign (area, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (area, "page");
  lid_window_actions_name (area, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text,
                                  -1);
  gtk_box_append (GTK_BOX (self->pages), area);
}

static void
lay_out (LidSheetPreview *self)
{
  const LidJob *job = self->model != NULL ? lid_job_model_get_job (self->model) : self->job;
  LidMeasure measure = lid_draw_text_measure (self->text);

  g_clear_pointer (&self->sheet, lid_sheet_free);
  if (self->board != NULL)
    {
      self->sheet = lid_board_page_new (self->board, self->options.paper, &measure);
      gtk_window_set_title (GTK_WINDOW (self), self->sheet->title);
      return;
    }
  self->sheet = lid_sheet_print_layout (job, self->stage, &self->options, self->text);
  gtk_window_set_title (GTK_WINDOW (self), lid_sheet_words_title (self->options.what));
}

static void
show_pages (LidSheetPreview *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->pages)) != NULL)
    gtk_box_remove (GTK_BOX (self->pages), child);
  lay_out (self);
  for (guint i = 0; i < self->sheet->pages->len; i++)
    add_page (self, i);
}

/**
 * lid_sheet_preview_choose:
 * @options: which sheet, on which paper; remembered as the paper of the next one
 */
void
lid_sheet_preview_choose (LidSheetPreview *self, const LidSheetOptions *options)
{
  self->options = *options;
  if (self->settings != NULL)
    {
      g_settings_set_string (self->settings, "paper",
                             options->paper == LID_PAPER_LETTER ? "letter" : "a4");
      g_settings_set_boolean (self->settings, "sideways", options->sideways);
    }
  show_pages (self);
}

guint
lid_sheet_preview_n_pages (LidSheetPreview *self)
{
  return self->sheet->pages->len;
}

static void
chosen (LidSheetPreview *self)
{
  LidSheetOptions options
      = { (LidSheetFor)gtk_drop_down_get_selected (GTK_DROP_DOWN (self->what)),
          (LidPaper)gtk_drop_down_get_selected (GTK_DROP_DOWN (self->paper)),
          gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (self->sideways)), FALSE };

  lid_sheet_preview_choose (self, &options);
}

/* The window it belongs to prints and exports; it knows how. */
static void
ask_owner (LidSheetPreview *self, const char *verb)
{
  static const char *const names[LID_N_SHEETS]
      = { [LID_SHEET_BENCH] = "bench", [LID_SHEET_LID] = "lid", [LID_SHEET_BALANCE] = "balance" };
  GtkWindow *owner = gtk_window_get_transient_for (GTK_WINDOW (self));
  g_autofree char *action
      = g_strdup_printf ("%s-%s", verb, self->board != NULL ? "board" : names[self->options.what]);

  if (owner != NULL)
    g_action_group_activate_action (G_ACTION_GROUP (owner), action, NULL);
}

static void
print_clicked (LidSheetPreview *self)
{
  ask_owner (self, "print");
}

static void
export_clicked (LidSheetPreview *self)
{
  ask_owner (self, "export");
}

static GtkWidget *
add_choice (LidSheetPreview *self, GtkWidget *bar, const char *name, const char *const *words)
{
  GtkWidget *choice = gtk_drop_down_new_from_strings (words);

  lid_window_actions_name (choice, name);
  gtk_header_bar_pack_start (GTK_HEADER_BAR (bar), choice);
  return choice;
}

static void
add_button (LidSheetPreview *self, GtkWidget *bar, const char *words, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_with_label (words);

  gtk_widget_add_css_class (button, "link-text");
  g_signal_connect_swapped (button, "clicked", clicked, self);
  gtk_header_bar_pack_end (GTK_HEADER_BAR (bar), button);
}

static void
add_verbs (LidSheetPreview *self, GtkWidget *bar)
{
  add_button (self, bar, _ ("Export…"), G_CALLBACK (export_clicked));
  add_button (self, bar, _ ("Print…"), G_CALLBACK (print_clicked));
}

static void
paper_chosen (LidSheetPreview *self)
{
  LidSheetOptions options
      = { .paper = (LidPaper)gtk_drop_down_get_selected (GTK_DROP_DOWN (self->paper)),
          .sideways = self->options.sideways };

  lid_sheet_preview_choose (self, &options);
}

/* The page of a board lies on either paper, upright. */
static void
add_paper (LidSheetPreview *self)
{
  const char *const papers[] = { _ ("A4"), _ ("Letter"), NULL };
  GtkWidget *bar = gtk_header_bar_new ();

  self->paper = add_choice (self, bar, _ ("Paper"), papers);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->paper), self->options.paper);
  g_signal_connect_swapped (self->paper, "notify::selected", G_CALLBACK (paper_chosen), self);
  add_verbs (self, bar);
  gtk_window_set_titlebar (GTK_WINDOW (self), bar);
}

static void
add_choices (LidSheetPreview *self)
{
  const char *sheets[LID_N_SHEETS + 1] = { NULL };
  const char *const papers[] = { _ ("A4"), _ ("Letter"), NULL };
  GtkWidget *bar = gtk_header_bar_new ();

  for (guint i = 0; i < LID_N_SHEETS; i++)
    sheets[i] = lid_sheet_words_title ((LidSheetFor)i);
  self->what = add_choice (self, bar, _ ("Sheet"), sheets);
  self->paper = add_choice (self, bar, _ ("Paper"), papers);
  self->sideways = gtk_toggle_button_new_with_label (_ ("Sideways"));
  gtk_header_bar_pack_start (GTK_HEADER_BAR (bar), self->sideways);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->what), self->options.what);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->paper), self->options.paper);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->sideways), self->options.sideways);
  g_signal_connect_swapped (self->what, "notify::selected", G_CALLBACK (chosen), self);
  g_signal_connect_swapped (self->paper, "notify::selected", G_CALLBACK (chosen), self);
  g_signal_connect_swapped (self->sideways, "toggled", G_CALLBACK (chosen), self);
  add_verbs (self, bar);
  gtk_header_bar_set_title_widget (GTK_HEADER_BAR (bar), gtk_label_new (NULL));
  gtk_window_set_titlebar (GTK_WINDOW (self), bar);
}

static void
lid_sheet_preview_finalize (GObject *object)
{
  LidSheetPreview *self = LID_SHEET_PREVIEW (object);

  g_clear_object (&self->model);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->sheet, lid_sheet_free);
  lid_board_unref (self->board);
  lid_draw_text_free (self->text);
  G_OBJECT_CLASS (lid_sheet_preview_parent_class)->finalize (object);
}

static void
lid_sheet_preview_class_init (LidSheetPreviewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = lid_sheet_preview_finalize;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void
lid_sheet_preview_init (LidSheetPreview *self)
{
  GtkWidget *scrolled = gtk_scrolled_window_new ();

  self->text = lid_draw_text_new (lid_theme_print ());
  self->pages = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  gtk_widget_add_css_class (self->pages, "pages");
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), self->pages);
  gtk_window_set_child (GTK_WINDOW (self), scrolled);
  gtk_window_set_default_size (GTK_WINDOW (self), 800, 760);
}

/**
 * lid_sheet_preview_new:
 * @job: lives as long as the window
 * @stage: of its plan, from 1; 0: the whole of it
 * @options: which sheet, on which paper
 *
 * Returns: (transfer none): a window that shows it, not yet presented
 */
LidSheetPreview *
lid_sheet_preview_new (const LidJob *job, guint stage, const LidSheetOptions *options)
{
  LidSheetPreview *self = g_object_new (LID_TYPE_SHEET_PREVIEW, NULL);

  self->job = job;
  self->stage = stage;
  self->options = *options;
  show_pages (self);
  return self;
}

static void
use_paper (LidSheetPreview *self, GSettings *settings)
{
  g_autofree char *paper = settings != NULL ? g_settings_get_string (settings, "paper") : NULL;

  self->options.paper = g_strcmp0 (paper, "letter") == 0 ? LID_PAPER_LETTER : LID_PAPER_A4;
}

/**
 * lid_sheet_preview_new_board:
 * @board: its page is shown; kept as long as the window
 * @settings: (nullable): remember the paper
 *
 * Returns: (transfer none): a window that shows it, not yet presented
 */
LidSheetPreview *
lid_sheet_preview_new_board (LidBoard *board, GSettings *settings)
{
  LidSheetPreview *self = g_object_new (LID_TYPE_SHEET_PREVIEW, NULL);

  self->board = lid_board_ref (board);
  g_set_object (&self->settings, settings);
  use_paper (self, settings);
  self->options.sideways = settings != NULL && g_settings_get_boolean (settings, "sideways");
  add_paper (self);
  show_pages (self);
  return self;
}

/**
 * lid_sheet_preview_new_printed:
 * @board: its page is shown; kept as long as the window
 * @paper: as the print dialog has it
 *
 * Returns: (transfer none): a window that shows it and no more, not yet presented
 */
LidSheetPreview *
lid_sheet_preview_new_printed (LidBoard *board, LidPaper paper)
{
  LidSheetPreview *self = g_object_new (LID_TYPE_SHEET_PREVIEW, NULL);

  self->board = lid_board_ref (board);
  self->options.paper = paper;
  show_pages (self);
  return self;
}

/**
 * lid_sheet_preview_new_chosen:
 * @model: the job; the pages follow its edits
 * @settings: (nullable): remember the paper
 *
 * Returns: (transfer none): a window in which sheet and paper are chosen
 */
LidSheetPreview *
lid_sheet_preview_new_chosen (LidJobModel *model, GSettings *settings)
{
  LidSheetPreview *self = g_object_new (LID_TYPE_SHEET_PREVIEW, NULL);

  self->model = g_object_ref (model);
  g_set_object (&self->settings, settings);
  use_paper (self, settings);
  self->options.sideways = settings != NULL && g_settings_get_boolean (settings, "sideways");
  g_signal_connect_object (model, "changed", G_CALLBACK (show_pages), self, G_CONNECT_SWAPPED);
  add_choices (self);
  show_pages (self);
  return self;
}
