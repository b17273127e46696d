/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/draw-text.h"

#include <string.h>

/* Pango rounds to whole pixels unless told otherwise, which makes a line 5 % wider in a PDF than on
 * a screen; hence no hinting, no rounded metrics, no rounded glyph places. Figures are tabular
 * throughout: columns of numbers must stand straight. */
struct _LidDrawText
{
  PangoFontMap *map;
  PangoContext *context;
  PangoFontDescription *font;
  PangoAttrList *attributes;
  GHashTable *shaped; /* Shaped → itself */
};

typedef struct
{
  const char *text;
  LidType type;
  int width; /* Pango units, -1: one line */
  gboolean ellipsize;
  /* not part of the key */
  char *owned;
  PangoLayout *layout;
  double line_width, height, baseline;
} Shaped;

static guint
shaped_hash (gconstpointer data)
{
  const Shaped *a = data;

  return g_str_hash (a->text) ^ (guint)(a->type.pt * 64) ^ ((guint)a->width * 31u)
         ^ (a->type.bold ? 0x5a5a5a5au : 0u);
}

static gboolean
shaped_equal (gconstpointer x, gconstpointer y)
{
  const Shaped *a = x, *b = y;

  return a->width == b->width && a->type.pt == b->type.pt && a->type.bold == b->type.bold
         && a->ellipsize == b->ellipsize && strcmp (a->text, b->text) == 0;
}

static void
shaped_free (gpointer data)
{
  Shaped *shaped = data;

  g_object_unref (shaped->layout);
  g_free (shaped->owned);
  g_free (shaped);
}

/**
 * lid_draw_text_new:
 * @theme: its family of type
 *
 * Returns: (transfer full): the helper
 */
LidDrawText *
lid_draw_text_new (const LidTheme *theme)
{
  LidDrawText *self = g_new0 (LidDrawText, 1);
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  self->map = g_object_ref (pango_cairo_font_map_get_default ());
  self->context = pango_font_map_create_context (self->map);
  pango_cairo_context_set_font_options (self->context, options);
  pango_context_set_round_glyph_positions (self->context, FALSE);
  cairo_font_options_destroy (options);
  self->font = pango_font_description_new ();
  pango_font_description_set_family_static (self->font, theme->family);
  self->attributes = pango_attr_list_new ();
  pango_attr_list_insert (self->attributes, pango_attr_font_features_new ("tnum=1"));
  self->shaped = g_hash_table_new_full (shaped_hash, shaped_equal, NULL, shaped_free);
  return self;
}

void
lid_draw_text_free (LidDrawText *self)
{
  if (self == NULL)
    return;
  g_hash_table_unref (self->shaped);
  pango_attr_list_unref (self->attributes);
  pango_font_description_free (self->font);
  g_object_unref (self->context);
  g_object_unref (self->map);
  g_free (self);
}

static void
shape (LidDrawText *self, Shaped *shaped)
{
  PangoRectangle logical;

  pango_font_description_set_absolute_size (self->font,
                                            shaped->type.pt * LID_MM_PER_PT * PANGO_SCALE);
  pango_font_description_set_weight (self->font,
                                     shaped->type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  shaped->layout = pango_layout_new (self->context);
  pango_layout_set_font_description (shaped->layout, self->font);
  pango_layout_set_attributes (shaped->layout, self->attributes);
  pango_layout_set_width (shaped->layout, shaped->width);
  pango_layout_set_wrap (shaped->layout, PANGO_WRAP_WORD_CHAR);
  if (shaped->ellipsize)
    pango_layout_set_ellipsize (shaped->layout, PANGO_ELLIPSIZE_MIDDLE);
  pango_layout_set_text (shaped->layout, shaped->text, -1);
  pango_layout_get_extents (shaped->layout, NULL, &logical);
  shaped->line_width = logical.width / (double)PANGO_SCALE;
  shaped->height = logical.height / (double)PANGO_SCALE;
  shaped->baseline = pango_layout_get_baseline (shaped->layout) / (double)PANGO_SCALE;
}

static Shaped *
find (LidDrawText *self, LidType type, const char *text, double width, gboolean ellipsize)
{
  /* Half a hundredth more than asked, so that a width which was measured holds its own text. */
  int units = width < 0 ? -1 : (int)((width + 0.005) * PANGO_SCALE);
  Shaped key = { .text = text, .type = type, .width = units, .ellipsize = ellipsize };
  Shaped *shaped = g_hash_table_lookup (self->shaped, &key);

  if (shaped != NULL)
    return shaped;
  shaped = g_memdup2 (&key, sizeof key);
  shaped->owned = g_strdup (text);
  shaped->text = shaped->owned;
  shape (self, shaped);
  g_hash_table_add (self->shaped, shaped);
  return shaped;
}

double
lid_draw_text_width (LidDrawText *self, LidType type, const char *text)
{
  return find (self, type, text, -1, FALSE)->line_width;
}

double
lid_draw_text_height (LidDrawText *self, LidType type, const char *text, double width)
{
  return find (self, type, text, width, FALSE)->height;
}

static double
measure_width (gpointer data, LidType type, const char *text)
{
  return lid_draw_text_width (data, type, text);
}

static double
measure_height (gpointer data, LidType type, const char *text, double width)
{
  return lid_draw_text_height (data, type, text, width);
}

/**
 * lid_draw_text_measure:
 *
 * Returns: the measure a layout asks; valid as long as @self
 */
LidMeasure
lid_draw_text_measure (LidDrawText *self)
{
  return (LidMeasure){ measure_width, measure_height, self };
}

/**
 * lid_draw_text_line:
 * @x: left edge, mm
 * @baseline: mm from the top
 * @type: size and weight
 * @text: one line, drawn whole
 */
void
lid_draw_text_line (
    LidDrawText *self, cairo_t *cr, double x, double baseline, LidType type, const char *text)
{
  Shaped *shaped = find (self, type, text, -1, FALSE);

  cairo_move_to (cr, x, baseline - shaped->baseline);
  pango_cairo_show_layout (cr, shaped->layout);
}

static double
aligned (LidBox box, double width, LidAlign align)
{
  if (align == LID_ALIGN_RIGHT)
    return box.x + box.width - width;
  return align == LID_ALIGN_CENTRE ? box.x + (box.width - width) / 2 : box.x;
}

/**
 * lid_draw_text_box:
 * @box: where; lines are broken at its width and start at its top
 * @align: for a text of one line
 */
void
lid_draw_text_box (
    LidDrawText *self, cairo_t *cr, LidBox box, LidType type, LidAlign align, const char *text)
{
  Shaped *shaped = find (self, type, text, -1, FALSE);

  if (shaped->line_width > box.width + 0.01)
    shaped = find (self, type, text, box.width, FALSE);
  cairo_move_to (cr, aligned (box, shaped->line_width, align), box.y);
  pango_cairo_show_layout (cr, shaped->layout);
}

/**
 * lid_draw_text_fit:
 * @box: where; only its x and width count
 * @baseline: mm from the top
 *
 * Draws one line; what does not fit loses its middle, because the ends of names tell most.
 */
void
lid_draw_text_fit (LidDrawText *self,
                   cairo_t *cr,
                   LidBox box,
                   double baseline,
                   LidType type,
                   LidAlign align,
                   const char *text)
{
  Shaped *shaped = find (self, type, text, -1, FALSE);

  if (shaped->line_width > box.width + 0.01)
    shaped = find (self, type, text, box.width, TRUE);
  cairo_move_to (cr, aligned (box, shaped->line_width, align), baseline - shaped->baseline);
  pango_cairo_show_layout (cr, shaped->layout);
}
