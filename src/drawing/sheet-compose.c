/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-compose.h"

#include "drawing/sheet-leaf.h"
#include "drawing/sheet-lists.h"

/* A page has a head, a body and a foot; the body holds the machine, its key
 * and the words in columns. Everything on one page where that stays legible: upright the words
 * under the machine, sideways beside it. Else the machine has pages of its own and the words
 * follow. What is left over becomes larger slots first, then lines to write on.
 *
 * A new figure on a sheet is one block in sheet-bench.c or sheet-lid.c; nothing here changes. */
#define SLOTS_A_PAGE 48u /* half page 24: product.md 10 */
#define LEAST_NOTES 24.0 /* less room than this stays white */
#define LEAST_WORDS 55.0 /* less room than this is no beginning */

/* One way to share a page between machine and words. */
typedef struct
{
  gboolean beside;
  double share; /* of the width for the machine, beside */
  guint columns;
} Plan;

static const Plan upright[] = { { FALSE, 1, 2 }, { FALSE, 1, 3 } };
static const Plan sideways[] = { { TRUE, 0.62, 1 }, { TRUE, 0.5, 1 },  { TRUE, 0.5, 2 },
                                 { TRUE, 0.42, 2 }, { TRUE, 0.36, 2 }, { FALSE, 1, 3 } };

static double
key_room (LidLayout *layout, double width)
{
  double key = lid_sheet_frame_key (layout->sheet, NULL, &layout->measure, layout->machine,
                                    layout->source, (LidBox){ 0, 0, width, 0 });

  return key > 0 ? key + 3.5 : 0;
}

static LidPage *
add_page (LidLayout *layout, double *top)
{
  LidPage *page = lid_sheet_add_page (layout->sheet);

  *top = lid_sheet_frame_head (layout->sheet, page, &layout->measure, &layout->head);
  return page;
}

/* Machine and key at (@x, @y); returns where they end. */
static double
put_machine (LidLayout *layout, LidPage *page, const LidPart *part, const LidFit *fit, LidBox area)
{
  double y = area.y;

  lid_sheet_leaf_put (layout->machine, part, fit, page, area.x, y, area.width);
  y += fit->height + 2.5;
  y += lid_sheet_frame_key (layout->sheet, page, &layout->measure, layout->machine, layout->source,
                            (LidBox){ area.x, y, area.width, 0 });
  return y;
}

static void
put_notes (LidLayout *layout, LidPage *page, LidBox area)
{
  if (area.height >= LEAST_NOTES)
    lid_sheet_frame_notes (layout->sheet, page, area);
}

/* One way to set a page, tried out. */
typedef struct
{
  const Plan *plan;
  LidWords least; /* to be told of each module */
  double pt;      /* size of the words */
  double words;   /* their height */
  LidFit fit;
  double quality;
} Trial;

static double
words_width (const LidLayout *layout, const Plan *plan)
{
  return plan->beside ? layout->width * (1 - plan->share) - 5 : layout->width;
}

static double
machine_width (const LidLayout *layout, const Plan *plan)
{
  return plan->beside ? layout->width * plan->share - 5 : layout->width;
}

static gboolean
try_plan (LidLayout *layout, const LidPart *part, double top, Trial *trial)
{
  const Plan *plan = trial->plan;
  gboolean half = layout->sheet->options.half;
  double words = words_width (layout, plan), machine = machine_width (layout, plan);
  double room = layout->bottom - lid_sheet_frame_sign_height (layout->sheet) - top;
  double left = room - key_room (layout, machine) - (plan->beside ? 0 : 5);

  if (words / plan->columns < (half ? 42 : plan->beside ? 62 : 54))
    return FALSE;
  trial->words
      = lid_sheet_flow_height (layout->flow, 0, words, plan->columns, plan->beside ? room : left);
  if (trial->words > (plan->beside ? room : left))
    return FALSE;
  if (!plan->beside)
    left -= trial->words;
  if (!lid_sheet_fit_find (layout->machine, part, &layout->measure, machine, left, &trial->fit)
      || trial->fit.shape.words < trial->least)
    return FALSE;
  /* A point of type in the words is worth about one step of the drawing's. */
  trial->quality = trial->fit.quality + 0.7 * trial->pt;
  if (!plan->beside && plan->columns > 2 && !layout->sheet->options.sideways)
    trial->quality -= 1.5;
  return TRUE;
}

/* Sizes of the words: read at arm's length where the page allows, never under 8 pt. */
static const double *
word_sizes (const LidSheet *sheet)
{
  static const double lid[] = { 11.5, 10.5, 9.5, 8.8, 8.2, 0 };
  static const double bench[] = { 10, 9.5, 8.8, 8.2, 0 };
  static const double half[] = { 9.5, 8.8, 8, 0 };

  if (sheet->options.half)
    return half;
  return sheet->options.what == LID_SHEET_LID ? lid : bench;
}

static gboolean
find_plan (LidLayout *layout, const LidPart *part, double top, LidWords least, Trial *best)
{
  gboolean wide = layout->sheet->options.sideways, found = FALSE;
  const Plan *plans = wide ? sideways : upright;
  gsize n = wide ? G_N_ELEMENTS (sideways) : G_N_ELEMENTS (upright);

  for (const double *pt = word_sizes (layout->sheet); *pt > 0; pt++)
    {
      lid_sheet_flow_set_size (layout->flow, *pt);
      for (gsize i = 0; i < n; i++)
        {
          Trial trial = { .plan = &plans[i], .pt = *pt, .least = least };

          if (try_plan (layout, part, top, &trial) && (!found || trial.quality > best->quality))
            {
              *best = trial;
              found = TRUE;
            }
        }
    }
  return found;
}

static gboolean
put_one_page (LidLayout *layout, const LidPart *part, double top)
{
  double sign = lid_sheet_frame_sign_height (layout->sheet), x = layout->sheet->margin, y;
  double floor = layout->bottom - sign, width;
  LidPage *page = layout->sheet->pages->pdata[0];
  LidBox area = { x, top, 0, 0 };
  Trial best;

  /* The words list each kind of module whole, so a lid sheet may tell the size alone in the
   * slots before it takes a second page. */
  if (!find_plan (layout, part, top, LID_WORDS_MEDIUM, &best)
      && (layout->sheet->options.what == LID_SHEET_BENCH
          || !find_plan (layout, part, top, LID_WORDS_SHORT, &best)))
    return FALSE;
  lid_sheet_flow_set_size (layout->flow, best.pt);
  area.width = machine_width (layout, best.plan);
  width = words_width (layout, best.plan);
  y = put_machine (layout, page, part, &best.fit, area) + 5;
  if (best.plan->beside)
    {
      put_notes (layout, page, (LidBox){ x, y + 1, area.width, floor - y - 1 });
      x += area.width + 10;
      y = top;
    }
  lid_sheet_flow_set (layout->flow, 0, page, (LidBox){ x, y, width, 0 }, best.plan->columns,
                      best.words);
  y += best.words + 4;
  if (!best.plan->beside || floor - y >= 2 * LEAST_NOTES)
    put_notes (layout, page, (LidBox){ x, y, width, floor - y });
  lid_sheet_frame_sign (layout->sheet, page, layout->bottom);
  return TRUE;
}

/* How many pages the words take from @y on; G_MAXUINT if a row is higher than a page. */
static guint
count_pages (LidLayout *layout, double y, double top)
{
  guint columns = layout->sheet->options.sideways ? 3 : 2, from = 0, pages = 1;
  double sign = lid_sheet_frame_sign_height (layout->sheet);

  for (;; pages++, y = top)
    {
      double room = layout->bottom - y;
      guint before = from;

      if (lid_sheet_flow_height (layout->flow, from, layout->width, columns, room - sign)
          <= room - sign)
        return pages;
      if (room >= LEAST_WORDS)
        from = lid_sheet_flow_set (layout->flow, from, NULL, (LidBox){ 0, 0, layout->width, 0 },
                                   columns, room);
      if (pages > 1 && from == before)
        return G_MAXUINT;
    }
}

/* The largest words that take no page more than the smallest. */
static void
choose_size (LidLayout *layout, double y)
{
  const double *sizes = word_sizes (layout->sheet);
  double top = layout->sheet->margin + 12;
  guint least = G_MAXUINT;
  guint n = 0;

  while (sizes[n] > 0)
    n++;
  for (guint i = n; i > 0; i--)
    {
      lid_sheet_flow_set_size (layout->flow, sizes[i - 1]);
      least = MIN (least, count_pages (layout, y, top));
    }
  for (guint i = 0; i < n; i++)
    {
      lid_sheet_flow_set_size (layout->flow, sizes[i]);
      if (count_pages (layout, y, top) <= least)
        return;
    }
}

/* The words after the machine: in what is left of its last page, then on pages of their own. */
static void
put_words (LidLayout *layout, LidPage *page, double y)
{
  guint columns = layout->sheet->options.sideways ? 3 : 2, from = 0;
  double x = layout->sheet->margin, sign = lid_sheet_frame_sign_height (layout->sheet);

  choose_size (layout, y);
  for (;;)
    {
      double room = layout->bottom - y;
      double words
          = lid_sheet_flow_height (layout->flow, from, layout->width, columns, room - sign);
      LidBox area = { x, y, layout->width, 0 };

      if (words <= room - sign)
        {
          lid_sheet_flow_set (layout->flow, from, page, area, columns, words);
          y += words + 4;
          put_notes (layout, page, (LidBox){ x, y, layout->width, layout->bottom - sign - y });
          lid_sheet_frame_sign (layout->sheet, page, layout->bottom);
          return;
        }
      if (room >= LEAST_WORDS)
        from = lid_sheet_flow_set (layout->flow, from, page, area, columns, room);
      page = add_page (layout, &y);
    }
}

static void
put_many_pages (LidLayout *layout, GArray *parts, LidPage *page, double top)
{
  double y = top;

  for (guint i = 0; i < parts->len; i++)
    {
      const LidPart *part = &g_array_index (parts, LidPart, i);
      LidFit fit;

      if (i > 0)
        page = add_page (layout, &top);
      lid_sheet_fit_find (layout->machine, part, &layout->measure, layout->width,
                          layout->bottom - top - key_room (layout, layout->width), &fit);
      y = put_machine (layout, page, part, &fit,
                       (LidBox){ layout->sheet->margin, top, layout->width, 0 })
          + 6;
    }
  put_words (layout, page, y);
}

/* Fewer slots a page where names are so long that 48 do not fit. */
static GArray *
split (LidLayout *layout, double top)
{
  double room = layout->bottom - top - key_room (layout, layout->width);

  for (guint most = layout->sheet->options.half ? SLOTS_A_PAGE / 2 : SLOTS_A_PAGE;;
       most -= most / 6 + 1)
    {
      GArray *parts = lid_sheet_machine_split (layout->machine, most);
      gboolean fits = TRUE;
      LidFit fit;

      for (guint i = 0; i < parts->len && fits; i++)
        fits = lid_sheet_fit_find (layout->machine, &g_array_index (parts, LidPart, i),
                                   &layout->measure, layout->width, room, &fit);
      if (fits || most <= 2)
        return parts;
      lid_sheet_machine_parts_free (parts);
    }
}

/* The bench sheet's last page: a tag for each module that leaves the machine. */
static void
put_tags (LidLayout *layout)
{
  const LidSheetSource *source = layout->source;
  g_autoptr (LidChangeoverList) list = NULL;

  if (layout->sheet->options.what != LID_SHEET_BENCH || source->changes->n_leaving == 0)
    return;
  list = lid_changeover_list_new (source->changeover, source->job, LID_LIST_TAGS, LID_TO_OWNER);
  lid_sheet_tags_put (layout->sheet, &layout->measure, list);
}

/**
 * lid_sheet_compose_pages:
 * @layout: machine and words are made, the sheet has no page
 *
 * Makes the pages.
 */
void
lid_sheet_compose_pages (LidLayout *layout)
{
  double top;
  LidPage *page = add_page (layout, &top);
  GArray *parts;

  layout->width = layout->sheet->width - 2 * layout->sheet->margin;
  layout->bottom = layout->sheet->height - layout->sheet->margin
                   - lid_sheet_frame_foot_height (layout->sheet, &layout->measure);
  parts = split (layout, top);
  if (parts->len > 1 || !put_one_page (layout, &g_array_index (parts, LidPart, 0), top))
    put_many_pages (layout, parts, page, top);
  lid_sheet_machine_parts_free (parts);
  put_tags (layout);
  lid_sheet_frame_foot (layout->sheet, &layout->measure, layout->source);
}
