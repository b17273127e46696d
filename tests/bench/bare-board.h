/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <pango/pangocairo.h>

/* What the speed of our drawing is held against: rounded boxes with one or two texts each, no
 * layout, no cache. */
static inline void
bare_slot (cairo_t *cr, double w, double h, const char *title, const char *value, gboolean bad)
{
  double r = MIN (w, h) * 0.12, x2 = w - 1, y2 = h - 1;
  g_autoptr (PangoLayout) layout = NULL;
  g_autoptr (PangoFontDescription) font = NULL;

  cairo_new_sub_path (cr);
  cairo_arc (cr, x2 - r, 1 + r, r, -G_PI_2, 0);
  cairo_arc (cr, x2 - r, y2 - r, r, 0, G_PI_2);
  cairo_arc (cr, 1 + r, y2 - r, r, G_PI_2, G_PI);
  cairo_arc (cr, 1 + r, 1 + r, r, G_PI, 3 * G_PI_2);
  cairo_close_path (cr);
  cairo_set_source_rgba (cr, bad ? 0.85 : 0.4, bad ? 0.2 : 0.6, bad ? 0.2 : 0.8,
                         *value ? 0.45 : 0.12);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_line_width (cr, bad ? 2.0 : 1.0);
  cairo_stroke (cr);
  layout = pango_cairo_create_layout (cr);
  font = pango_font_description_from_string ("Sans");
  pango_font_description_set_absolute_size (font, h * 0.26 * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, title, -1);
  cairo_move_to (cr, w * 0.08, h * 0.08);
  pango_cairo_show_layout (cr, layout);
  if (*value == 0)
    return;
  pango_layout_set_text (layout, value, -1);
  cairo_move_to (cr, w * 0.08, h * 0.52);
  pango_cairo_show_layout (cr, layout);
}

static inline void
bare_scene (cairo_t *cr, double width, double height, int n, int across)
{
  double w = width / across, h = height / ((n + across - 1) / across);

  for (int i = 0; i < n; i++)
    {
      char title[16];

      g_snprintf (title, sizeof title, "%c%d", 'A' + i / across, i % across + 1);
      cairo_save (cr);
      cairo_translate (cr, (i % across) * w + w * 0.05, (i / across) * h + h * 0.05);
      bare_slot (cr, w * 0.9, h * 0.9, title, i % 3 ? "32 G" : "", i % 17 == 0);
      cairo_restore (cr);
    }
}
