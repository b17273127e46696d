/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/draw-text.h"

#include <string.h>

/* Pango rounds to whole pixels unless told otherwise, which makes a line 5 % wider in a PDF than on
 * a screen; hence no hinting, no rounded metrics, no rounded glyph places. Figures are tabular
 * throughout: columns of numbers must stand straight. No ligatures, no contextual forms: a face
 * that makes a times sign of the x in "2Rx4" would misquote the label, and shaping is a tenth
 * quicker.
 *
 * Without hinting type grows evenly, so a text is shaped once, at one size, and everything else is
 * arithmetic: its width at any size, and where its lines break in any width. A layout tries many
 * sizes and widths; shaping for each would cost more than all the drawing. */
#define BASE_PT 10.0
#define BASE_MM (BASE_PT * LID_MM_PER_PT)

struct _LidDrawText
{
  PangoFontMap *map;
  PangoContext *context;
  PangoFontDescription *fonts[2]; /* by weight */
  PangoAttrList *attributes;
  GHashTable *shaped; /* Shaped → itself */
};

/* A text at the base size. */
typedef struct
{
  const char *text;
  gboolean bold;
  int width; /* Pango units the middle is cut to, -1: whole */
  /* not part of the key */
  char *owned;
  PangoLayout *layout;
  double line_width, height, baseline; /* mm */
  guint n_words;
  double *word_starts, *word_ends; /* mm, of the text on one line; made when first asked for */
  guint *word_at;                  /* byte where each word begins */
} Shaped;

static guint
shaped_hash (gconstpointer data)
{
  const Shaped *a = data;

  return g_str_hash (a->text) ^ ((guint)a->width * 31u) ^ (a->bold ? 0x5a5a5a5au : 0u);
}

static gboolean
shaped_equal (gconstpointer x, gconstpointer y)
{
  const Shaped *a = x, *b = y;

  return a->width == b->width && a->bold == b->bold && strcmp (a->text, b->text) == 0;
}

static void
shaped_free (gpointer data)
{
  Shaped *shaped = data;

  g_object_unref (shaped->layout);
  g_free (shaped->owned);
  g_free (shaped->word_starts);
  g_free (shaped->word_ends);
  g_free (shaped->word_at);
  g_free (shaped);
}

static PangoFontDescription *
make_font (const LidTheme *theme, PangoWeight weight)
{
  PangoFontDescription *font = pango_font_description_new ();

  pango_font_description_set_family_static (font, theme->family);
  pango_font_description_set_absolute_size (font, BASE_MM * PANGO_SCALE);
  pango_font_description_set_weight (font, weight);
  return font;
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
  self->fonts[0] = make_font (theme, PANGO_WEIGHT_NORMAL);
  self->fonts[1] = make_font (theme, PANGO_WEIGHT_BOLD);
  self->attributes = pango_attr_list_new ();
  pango_attr_list_insert (self->attributes,
                          pango_attr_font_features_new ("tnum=1,calt=0,liga=0,clig=0"));
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
  pango_font_description_free (self->fonts[0]);
  pango_font_description_free (self->fonts[1]);
  g_object_unref (self->context);
  g_object_unref (self->map);
  g_free (self);
}

static void
shape (LidDrawText *self, Shaped *shaped)
{
  PangoRectangle logical;

  shaped->layout = pango_layout_new (self->context);
  pango_layout_set_font_description (shaped->layout, self->fonts[shaped->bold ? 1 : 0]);
  pango_layout_set_attributes (shaped->layout, self->attributes);
  pango_layout_set_width (shaped->layout, shaped->width);
  if (shaped->width >= 0)
    pango_layout_set_ellipsize (shaped->layout, PANGO_ELLIPSIZE_MIDDLE);
  pango_layout_set_text (shaped->layout, shaped->text, -1);
  pango_layout_get_extents (shaped->layout, NULL, &logical);
  shaped->line_width = logical.width / (double)PANGO_SCALE;
  shaped->height = logical.height / (double)PANGO_SCALE;
  shaped->baseline = pango_layout_get_baseline (shaped->layout) / (double)PANGO_SCALE;
}

static Shaped *
find (LidDrawText *self, gboolean bold, const char *text, int width)
{
  Shaped key = { .text = text, .bold = bold, .width = width };
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

static double
scale_of (LidType type)
{
  return type.pt / BASE_PT;
}

static double
place_of (const Shaped *shaped, guint at)
{
  PangoRectangle cursor;

  pango_layout_index_to_pos (shaped->layout, (int)at, &cursor);
  return cursor.x / (double)PANGO_SCALE;
}

/* Where the words of a text stand on its one line: breaking it elsewhere needs no more. */
static void
find_words (Shaped *shaped)
{
  guint most = 1, n = 0;

  for (const char *p = shaped->text; *p != 0; p++)
    most += *p == ' ';
  shaped->word_starts = g_new (double, most);
  shaped->word_ends = g_new (double, most);
  shaped->word_at = g_new (guint, most);
  for (const char *p = shaped->text; *p != 0;)
    {
      gsize length = strcspn (p, " ");
      guint at = (guint)(p - shaped->text);

      if (length > 0)
        {
          shaped->word_at[n] = at;
          shaped->word_starts[n] = place_of (shaped, at);
          shaped->word_ends[n++]
              = p[length] == 0 ? shaped->line_width : place_of (shaped, at + (guint)length);
        }
      p += length + (p[length] == ' ');
    }
  shaped->n_words = n;
}

/* Counts the lines of @shaped in @width, at the base size; @breaks, where given, gets for each line
 * but the first the byte it begins with. A word wider than the line has it for itself. */
static guint
break_lines (Shaped *shaped, double width, GArray *breaks)
{
  guint lines = 1;
  double start;

  if (shaped->word_at == NULL)
    find_words (shaped);
  if (shaped->n_words == 0)
    return 1;
  start = shaped->word_starts[0];
  for (guint w = 1; w < shaped->n_words; w++)
    if (shaped->word_ends[w] - start > width + 0.02)
      {
        lines++;
        start = shaped->word_starts[w];
        if (breaks != NULL)
          g_array_append_val (breaks, shaped->word_at[w]);
      }
  return lines;
}

double
lid_draw_text_width (LidDrawText *self, LidType type, const char *text)
{
  return find (self, type.bold, text, -1)->line_width * scale_of (type);
}

double
lid_draw_text_height (LidDrawText *self, LidType type, const char *text, double width)
{
  Shaped *shaped = find (self, type.bold, text, -1);

  return shaped->height * scale_of (type) * break_lines (shaped, width / scale_of (type), NULL);
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

static void
show (cairo_t *cr, const Shaped *shaped, double x, double baseline, LidType type)
{
  double scale = scale_of (type);

  cairo_save (cr);
  cairo_translate (cr, x, baseline);
  cairo_scale (cr, scale, scale);
  cairo_move_to (cr, 0, 0);
  pango_cairo_show_layout_line (cr, pango_layout_get_line_readonly (shaped->layout, 0));
  cairo_restore (cr);
}

static double
aligned (LidBox box, double width, LidAlign align)
{
  if (align == LID_ALIGN_RIGHT)
    return box.x + box.width - width;
  return align == LID_ALIGN_CENTRE ? box.x + (box.width - width) / 2 : box.x;
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
  Shaped *shaped = find (self, type.bold, text, -1);
  double scale = scale_of (type);

  if (shaped->line_width * scale > box.width + 0.05)
    shaped = find (self, type.bold, text, (int)(MAX (box.width, 0) / scale * PANGO_SCALE));
  show (cr, shaped, aligned (box, shaped->line_width * scale, align), baseline, type);
}

/**
 * lid_draw_text_box:
 * @box: where; lines are broken at its width and start at its top
 * @align: of each line
 */
void
lid_draw_text_box (
    LidDrawText *self, cairo_t *cr, LidBox box, LidType type, LidAlign align, const char *text)
{
  Shaped *whole = find (self, type.bold, text, -1);
  g_autoptr (GArray) breaks = g_array_new (FALSE, FALSE, sizeof (guint));
  double scale = scale_of (type), baseline = box.y + whole->baseline * scale;
  guint start = 0;

  break_lines (whole, box.width / scale, breaks);
  for (guint i = 0; i <= breaks->len; i++)
    {
      guint end = i < breaks->len ? g_array_index (breaks, guint, i) : (guint)strlen (text);
      g_autofree char *line = g_strndup (text + start, end - start);

      g_strchomp (line);
      /* By itself a line may be a hair wider than as a part of the whole (kerning at its ends):
       * only a word that is too long for any line is shortened. */
      if (strchr (line, ' ') != NULL)
        {
          Shaped *words = find (self, type.bold, line, -1);

          show (cr, words, aligned (box, words->line_width * scale, align), baseline, type);
        }
      else
        lid_draw_text_fit (self, cr, box, baseline, type, align, line);
      baseline += whole->height * scale;
      start = end;
    }
}
