/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/export.h"

#include "base/error.h"
#include "base/save.h"
#include "drawing/draw-sheet.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#define PT_PER_MM (72.0 / 25.4)
#define DOTS_PER_INCH 150.0 /* of a PNG */

static cairo_status_t
collect (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static gboolean
finish (cairo_t *cr, cairo_surface_t *surface, GError **error)
{
  cairo_status_t status = cairo_status (cr);

  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    return TRUE;
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL, _ ("the page could not be drawn: %s"),
               cairo_status_to_string (status));
  return FALSE;
}

/* The date goes in only where the caller wants it the same every time: a file that differs with
 * every run cannot be compared, and the sheet itself bears the date that counts.
 * SOURCE_DATE_EPOCH: reproducible-builds.org/docs/source-date-epoch */
static void
set_metadata (cairo_surface_t *surface, const LidSheet *sheet)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  gint64 seconds = 0;
  g_autoptr (GDateTime) when = NULL;
  g_autofree char *text = NULL;

  if (epoch != NULL && g_ascii_string_to_signed (epoch, 10, 0, G_MAXINT32 * 64LL, &seconds, NULL))
    when = g_date_time_new_from_unix_utc (seconds);
  else
    when = g_date_time_new_now_local ();
  text = g_date_time_format_iso8601 (when);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, text);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, sheet->title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Lidleaf");
}

static gboolean
write_pdf (GByteArray *bytes, LidDrawText *text, const LidSheet *sheet, guint page, GError **error)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (
      collect, bytes, sheet->width * PT_PER_MM, sheet->height * PT_PER_MM);
  cairo_t *cr = cairo_create (surface);

  set_metadata (surface, sheet);
  cairo_scale (cr, PT_PER_MM, PT_PER_MM);
  for (guint i = 0; i < sheet->pages->len; i++)
    {
      lid_draw_sheet_page (cr, text, sheet, i);
      cairo_show_page (cr);
    }
  return finish (cr, surface, error);
}

static gboolean
write_svg (GByteArray *bytes, LidDrawText *text, const LidSheet *sheet, guint page, GError **error)
{
  cairo_surface_t *surface
      = cairo_svg_surface_create_for_stream (collect, bytes, sheet->width, sheet->height);
  cairo_t *cr;

  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_MM);
  cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  lid_draw_sheet_page (cr, text, sheet, page);
  return finish (cr, surface, error);
}

static gboolean
write_png (GByteArray *bytes, LidDrawText *text, const LidSheet *sheet, guint page, GError **error)
{
  double scale = DOTS_PER_INCH / 25.4;
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_RGB24, (int)(sheet->width * scale + 0.5), (int)(sheet->height * scale + 0.5));
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  lid_draw_sheet_page (cr, text, sheet, page);
  cairo_surface_flush (surface);
  cairo_surface_write_to_png_stream (surface, collect, bytes);
  return finish (cr, surface, error);
}

static const LidExport formats[] = {
  { ".pdf", N_ ("PDF"), TRUE, write_pdf },
  { ".svg", N_ ("SVG drawing"), FALSE, write_svg },
  { ".png", N_ ("PNG picture"), FALSE, write_png },
};

const LidExport *
lid_export_all (gsize *n)
{
  *n = G_N_ELEMENTS (formats);
  return formats;
}

/**
 * lid_export_find:
 * @path: a file's name; "-" is a PDF
 *
 * Returns: (transfer none) (nullable): the format its suffix asks for; NULL with LID_ERROR_BAD_CALL
 */
const LidExport *
lid_export_find (const char *path, GError **error)
{
  if (strcmp (path, "-") == 0)
    return &formats[0];
  for (gsize i = 0; i < G_N_ELEMENTS (formats); i++)
    {
      gsize length = strlen (path), suffix = strlen (formats[i].suffix);

      if (length > suffix && g_ascii_strcasecmp (path + length - suffix, formats[i].suffix) == 0)
        return &formats[i];
    }
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
               _ ("%s: the name must end in .pdf, .svg or .png"), path);
  return NULL;
}

/**
 * lid_export_bytes:
 * @page: which page, for a format that holds one
 *
 * Returns: (transfer full): the file's bytes
 */
GBytes *
lid_export_bytes (
    const LidExport *format, LidDrawText *text, const LidSheet *sheet, guint page, GError **error)
{
  GByteArray *bytes = g_byte_array_new ();

  if (format->write (bytes, text, sheet, page, error))
    return g_byte_array_free_to_bytes (bytes);
  g_byte_array_unref (bytes);
  return NULL;
}

static char *
name_of_page (const LidExport *format, const LidSheet *sheet, const char *path, guint page)
{
  gsize stem = strlen (path) - strlen (format->suffix);

  if (format->pages || sheet->pages->len == 1)
    return g_strdup (path);
  return g_strdup_printf ("%.*s-%u%s", (int)stem, path, page + 1, path + stem);
}

/**
 * lid_export_files:
 * @path: the file; a format of one page a file numbers several: "sheet-1.png", "sheet-2.png"
 *
 * Every file is written beside its place and moved there whole.
 *
 * Returns: (transfer full) (element-type utf8): the files written; NULL with an error that names
 * the file
 */
GPtrArray *
lid_export_files (const LidExport *format,
                  LidDrawText *text,
                  const LidSheet *sheet,
                  const char *path,
                  GError **error)
{
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func (g_free);
  guint n = format->pages ? 1 : sheet->pages->len;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *name = name_of_page (format, sheet, path, i);
      g_autoptr (GBytes) bytes = lid_export_bytes (format, text, sheet, i, error);

      if (bytes == NULL)
        return NULL;
      if (!lid_save_bytes (name, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), 0666,
                           error))
        return NULL;
      g_ptr_array_add (files, g_steal_pointer (&name));
    }
  return g_steal_pointer (&files);
}
