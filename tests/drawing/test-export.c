/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What leaves the program, read back by programs that are not ours: pdftotext, pdffonts, pdfinfo
 * (poppler-utils), and cairo's own PNG reader. */
#include "drawing/export.h"
#include "drawing/sheet-layout.h"
#include "scenes.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char *folder;
  LidJob *job;
  LidAssessment *assessment;
  LidDrawText *text;
  LidSheet *sheet;
} Fixture;

static void
set_up (Fixture *f, const char *scene, LidSheetOptions options)
{
  LidMeasure measure;

  f->folder = g_dir_make_tmp ("lidleaf-export-XXXXXX", NULL);
  f->job = scenes_job (scenes_find (scene));
  f->assessment = scenes_assess (f->job, LID_PLANNED);
  f->text = lid_draw_text_new (lid_theme_print ());
  measure = lid_draw_text_measure (f->text);
  f->sheet = lid_sheet_layout_new (f->job, f->assessment, &options, &measure);
}

static void
tear_down (Fixture *f)
{
  GDir *folder = g_dir_open (f->folder, 0, NULL);

  for (const char *name; (name = g_dir_read_name (folder)) != NULL;)
    {
      g_autofree char *path = g_build_filename (f->folder, name, NULL);
      g_unlink (path);
    }
  g_dir_close (folder);
  g_rmdir (f->folder);
  g_free (f->folder);
  lid_sheet_free (f->sheet);
  lid_draw_text_free (f->text);
  lid_assessment_free (f->assessment);
  lid_job_free (f->job);
}

static GPtrArray *
write_sheet (Fixture *f, const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (f->folder, name, NULL);
  const LidExport *format = lid_export_find (path, &error);
  GPtrArray *files;

  g_assert_no_error (error);
  files = lid_export_files (format, f->text, f->sheet, path, &error);
  g_assert_no_error (error);
  return files;
}

static char *
ask (const char *program, const char *option, const char *path)
{
  g_autoptr (GError) error = NULL;
  const char *argv[] = { program, option, path, NULL, NULL };
  char *out = NULL;
  int status;

  if (strcmp (program, "pdftotext") == 0)
    argv[3] = "-";
  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return out;
}

static gboolean
have_poppler (void)
{
  g_autofree char *path = g_find_program_in_path ("pdftotext");

  if (path == NULL)
    g_test_skip ("no pdftotext (poppler-utils)");
  return path != NULL;
}

static void
test_pdf_text (void)
{
  Fixture f;
  g_autoptr (GPtrArray) files = NULL;
  g_autofree char *text = NULL;

  if (!have_poppler ())
    return;
  set_up (&f, "fortyeight", (LidSheetOptions){ LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE });
  files = write_sheet (&f, "sheet.pdf");
  g_assert_cmpuint (files->len, ==, 1);
  text = ask ("pdftotext", "-layout", files->pdata[0]);
  for (guint i = 0; i < f.job->board->n_slots; i++)
    g_assert_nonnull (strstr (text, f.job->board->slots[i].name));
  g_assert_nonnull (strstr (text, "896 GB = 917504 MB")); /* 896 × 1024 */
  g_assert_nonnull (strstr (text, "Estuary tide gauge, node 2"));
  g_assert_nonnull (strstr (text, "processor 2"));
  tear_down (&f);
}

static void
test_pdf_fonts (void)
{
  Fixture f;
  g_autoptr (GPtrArray) files = NULL;
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  guint fonts = 0;

  if (!have_poppler ())
    return;
  set_up (&f, "tern", (LidSheetOptions){ LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE });
  files = write_sheet (&f, "sheet.pdf");
  /* Two lines of head, then a line a font: name, type, encoding, emb, sub, uni, object. */
  text = ask ("pdffonts", files->pdata[0], NULL);
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 2; lines[i] != NULL && lines[i][0] != 0; i++, fonts++)
    g_assert_nonnull (strstr (lines[i], "yes yes yes"));
  g_assert_cmpuint (fonts, >=, 2); /* regular and bold */
  tear_down (&f);
}

/* ISO 216: A4 is 210 × 297 mm; ANSI/ASME Y14.1: Letter is 8.5 × 11 in. In points of 1/72 in. */
static void
test_page_size (void)
{
  static const struct
  {
    LidSheetOptions options;
    double width, height;
  } sizes[] = {
    { { LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE }, 595.276, 841.89 },
    { { LID_SHEET_LID, LID_PAPER_A4, TRUE, FALSE }, 841.89, 595.276 },
    { { LID_SHEET_LID, LID_PAPER_LETTER, FALSE, FALSE }, 612, 792 },
    { { LID_SHEET_LID, LID_PAPER_LETTER, TRUE, FALSE }, 792, 612 },
    { { LID_SHEET_LID, LID_PAPER_A4, FALSE, TRUE }, 419.53, 595.276 },
    { { LID_SHEET_LID, LID_PAPER_LETTER, FALSE, TRUE }, 396, 612 },
  };

  if (!have_poppler ())
    return;
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      Fixture f;
      double width = 0, height = 0;
      g_autoptr (GPtrArray) files = NULL;
      g_autofree char *text = NULL;
      const char *at;

      set_up (&f, "four", sizes[i].options);
      files = write_sheet (&f, "sheet.pdf");
      text = ask ("pdfinfo", "-isodates", files->pdata[0]);
      at = strstr (text, "Page size:");
      g_assert_nonnull (at);
      width = g_ascii_strtod (at + strlen ("Page size:"), (char **)&at);
      height = g_ascii_strtod (strchr (at, 'x') + 1, NULL);
      g_assert_cmpfloat_with_epsilon (width, sizes[i].width, 0.6);
      g_assert_cmpfloat_with_epsilon (height, sizes[i].height, 0.6);
      tear_down (&f);
    }
}

/* reproducible-builds.org: the same date in, the same bytes out. */
static void
test_same_twice (void)
{
  Fixture f;
  const LidExport *pdf = lid_export_find ("x.pdf", NULL);
  g_autoptr (GBytes) one = NULL;
  g_autoptr (GBytes) two = NULL;
  g_autoptr (GBytes) later = NULL;

  set_up (&f, "tern", (LidSheetOptions){ LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE });
  g_setenv ("SOURCE_DATE_EPOCH", "1700000000", TRUE);
  one = lid_export_bytes (pdf, f.text, f.sheet, 0, NULL);
  two = lid_export_bytes (pdf, f.text, f.sheet, 0, NULL);
  g_setenv ("SOURCE_DATE_EPOCH", "1800000000", TRUE);
  later = lid_export_bytes (pdf, f.text, f.sheet, 0, NULL);
  g_unsetenv ("SOURCE_DATE_EPOCH");
  g_assert_true (g_bytes_equal (one, two));
  g_assert_false (g_bytes_equal (one, later));
  tear_down (&f);
}

static void
test_pictures (void)
{
  Fixture f;
  g_autoptr (GPtrArray) png = NULL;
  g_autoptr (GPtrArray) svg = NULL;

  set_up (&f, "ninetysix", (LidSheetOptions){ LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE });
  g_assert_cmpuint (f.sheet->pages->len, >, 1);
  png = write_sheet (&f, "sheet.png");
  svg = write_sheet (&f, "sheet.SVG");
  g_assert_cmpuint (png->len, ==, f.sheet->pages->len);
  g_assert_cmpuint (svg->len, ==, f.sheet->pages->len);
  g_assert_true (g_str_has_suffix (png->pdata[1], "/sheet-2.png"));
  for (guint i = 0; i < png->len; i++)
    {
      cairo_surface_t *surface = cairo_image_surface_create_from_png (png->pdata[i]);
      g_autofree char *text = NULL;

      g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
      /* 210 mm at 150 dots per inch */
      g_assert_cmpint (cairo_image_surface_get_width (surface), ==, 1240);
      g_assert_cmpint (cairo_image_surface_get_height (surface), ==, 1754);
      cairo_surface_destroy (surface);
      g_file_get_contents (svg->pdata[i], &text, NULL, NULL);
      g_assert_nonnull (strstr (text, "width=\"210mm\" height=\"297mm\""));
      g_assert_true (g_str_has_suffix (text, "</svg>\n"));
    }
  tear_down (&f);
}

static void
test_complaints (void)
{
  Fixture f;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;

  g_assert_null (lid_export_find ("sheet.doc", &error));
  g_assert_nonnull (strstr (error->message, "sheet.doc"));
  g_clear_error (&error);
  set_up (&f, "four", (LidSheetOptions){ LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE });
  path = g_build_filename (f.folder, "nowhere", "sheet.pdf", NULL);
  g_assert_null (lid_export_files (lid_export_find (path, NULL), f.text, f.sheet, path, &error));
  g_assert_nonnull (strstr (error->message, "nowhere"));
  tear_down (&f);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/export/pdf-text", test_pdf_text);
  g_test_add_func ("/export/pdf-fonts", test_pdf_fonts);
  g_test_add_func ("/export/page-size", test_page_size);
  g_test_add_func ("/export/same-twice", test_same_twice);
  g_test_add_func ("/export/pictures", test_pictures);
  g_test_add_func ("/export/complaints", test_complaints);
  return g_test_run ();
}
