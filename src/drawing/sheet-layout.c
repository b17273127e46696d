/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-layout.h"

#include "drawing/sheet-frame.h"
#include "drawing/sheet-leaf.h"

#include <glib/gi18n-lib.h>

/* From a job to pages. A page has a head, a body and a foot; the body holds the machine, its key
 * and the words in columns. Everything on one page where that stays legible: upright the words
 * under the machine, sideways beside it. Else the machine has pages of its own and the words
 * follow. What is left over becomes larger slots first, then lines to write on.
 *
 * A new figure on a sheet is one block in sheet-bench.c or sheet-lid.c; nothing here changes. */
#define SLOTS_A_PAGE 48u /* half page 24: product.md 10 */
#define LEAST_NOTES 24.0 /* less room than this stays white */

typedef struct
{
  LidSheet *sheet;
  LidMeasure measure;
  const LidSheetSource *source;
  LidSheetHead head;
  LidMachine *machine;
  LidFlow *flow;
  double width;  /* of the body */
  double bottom; /* of the body, mm from the top */
} Layout;

/* One way to share a page between machine and words. */
typedef struct
{
  gboolean beside;
  double share; /* of the width for the machine, beside */
  guint columns;
} Plan;

static const Plan upright[] = { { FALSE, 1, 2 } };
static const Plan sideways[] = { { TRUE, 0.62, 1 }, { TRUE, 0.5, 1 },  { TRUE, 0.5, 2 },
                                 { TRUE, 0.42, 2 }, { TRUE, 0.36, 2 }, { FALSE, 1, 3 } };

static double
key_room (Layout *layout, double width)
{
  double key = lid_sheet_frame_key (layout->sheet, NULL, &layout->measure, layout->machine,
                                    layout->source, (LidBox){ 0, 0, width, 0 });

  return key > 0 ? key + 3.5 : 0;
}

static LidPage *
add_page (Layout *layout, double *top)
{
  LidPage *page = lid_sheet_add_page (layout->sheet);

  *top = lid_sheet_frame_head (layout->sheet, page, &layout->measure, &layout->head);
  return page;
}

/* Machine and key at (@x, @y); returns where they end. */
static double
put_machine (Layout *layout, LidPage *page, const LidPart *part, const LidFit *fit, LidBox area)
{
  double y = area.y;

  lid_sheet_leaf_put (layout->machine, part, fit, page, area.x, y, area.width);
  y += fit->height + 2.5;
  y += lid_sheet_frame_key (layout->sheet, page, &layout->measure, layout->machine, layout->source,
                            (LidBox){ area.x, y, area.width, 0 });
  return y;
}

static void
put_notes (Layout *layout, LidPage *page, LidBox area)
{
  if (area.height >= LEAST_NOTES)
    lid_sheet_frame_notes (layout->sheet, page, area);
}

static gboolean
good_enough (const LidFit *fit, const LidPart *part, gboolean last_chance)
{
  return fit->shape.words >= LID_WORDS_MEDIUM || last_chance;
}

static gboolean
put_under (Layout *layout, const LidPart *part, const Plan *plan, double top)
{
  double sign = lid_sheet_frame_sign_height (layout->sheet);
  double room = layout->bottom - sign - top - key_room (layout, layout->width) - 5;
  double words = lid_sheet_flow_height (layout->flow, 0, layout->width, plan->columns, room);
  double x = layout->sheet->margin, y;
  LidPage *page = layout->sheet->pages->pdata[0];
  LidFit fit;

  if (words > room
      || !lid_sheet_fit_find (layout->machine, part, &layout->measure, layout->width, room - words,
                              &fit)
      || !good_enough (&fit, part, layout->sheet->options.half))
    return FALSE;
  y = put_machine (layout, page, part, &fit, (LidBox){ x, top, layout->width, 0 }) + 5;
  lid_sheet_flow_set (layout->flow, 0, page, (LidBox){ x, y, layout->width, 0 }, plan->columns,
                      words);
  y += words + 3;
  put_notes (layout, page, (LidBox){ x, y, layout->width, layout->bottom - sign - y });
  lid_sheet_frame_sign (layout->sheet, page, layout->bottom);
  return TRUE;
}

static gboolean
put_beside (Layout *layout, const LidPart *part, const Plan *plan, double top)
{
  double sign = lid_sheet_frame_sign_height (layout->sheet), x = layout->sheet->margin;
  double left = layout->width * plan->share - 5, right = layout->width * (1 - plan->share) - 5;
  double height = layout->bottom - sign - top;
  double room = height - key_room (layout, left);
  double words, y;
  LidPage *page = layout->sheet->pages->pdata[0];
  LidFit fit;

  if (right / plan->columns < (layout->sheet->options.half ? 42 : 62))
    return FALSE;
  words = lid_sheet_flow_height (layout->flow, 0, right, plan->columns, height);
  if (words > height
      || !lid_sheet_fit_find (layout->machine, part, &layout->measure, left, room, &fit)
      || !good_enough (&fit, part, FALSE))
    return FALSE;
  y = put_machine (layout, page, part, &fit, (LidBox){ x, top, left, 0 }) + 6;
  put_notes (layout, page, (LidBox){ x, y, left, top + height - y });
  lid_sheet_flow_set (layout->flow, 0, page, (LidBox){ x + left + 10, top, right, 0 },
                      plan->columns, words);
  y = top + words + 4;
  if (height - words >= 60)
    put_notes (layout, page, (LidBox){ x + left + 10, y, right, top + height - y });
  lid_sheet_frame_sign (layout->sheet, page, layout->bottom);
  return TRUE;
}

static gboolean
put_one_page (Layout *layout, const LidPart *part, double top)
{
  gboolean wide = layout->sheet->options.sideways;
  const Plan *plans = wide ? sideways : upright;
  gsize n = wide ? G_N_ELEMENTS (sideways) : G_N_ELEMENTS (upright);

  for (gsize i = 0; i < n; i++)
    if (plans[i].beside ? put_beside (layout, part, &plans[i], top)
                        : put_under (layout, part, &plans[i], top))
      return TRUE;
  return FALSE;
}

/* The words after the machine: in what is left of its last page, then on pages of their own. */
static void
put_words (Layout *layout, LidPage *page, double y)
{
  guint columns = layout->sheet->options.sideways ? 3 : 2, from = 0;
  double x = layout->sheet->margin, sign = lid_sheet_frame_sign_height (layout->sheet);

  for (;;)
    {
      double room = layout->bottom - y;
      double words
          = lid_sheet_flow_height (layout->flow, from, layout->width, columns, room - sign);
      gboolean last = words <= room - sign;

      if (last || room >= 55)
        {
          from = lid_sheet_flow_set (layout->flow, from, page, (LidBox){ x, y, layout->width, 0 },
                                     columns, last ? words : room);
          last = from == layout->flow->rows->len && last;
          y += words + 4;
        }
      if (last)
        {
          put_notes (layout, page, (LidBox){ x, y, layout->width, layout->bottom - sign - y });
          lid_sheet_frame_sign (layout->sheet, page, layout->bottom);
          return;
        }
      page = add_page (layout, &y);
    }
}

static void
put_many_pages (Layout *layout, GArray *parts, LidPage *page, double top)
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
split (Layout *layout, double top)
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

static void
put_all (Layout *layout)
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
  lid_sheet_frame_foot (layout->sheet, &layout->measure, layout->source);
}

/**
 * lid_sheet_layout_shows:
 * @job: a job
 * @what: which sheet
 *
 * Returns: the population that sheet shows: product.md 11, default rules of the command "sheet"
 */
LidOf
lid_sheet_layout_shows (const LidJob *job, LidSheetFor what)
{
  if (what == LID_SHEET_LID && job->as_left != NULL)
    return LID_AS_LEFT;
  return job->stages != NULL && job->stages->len > 0 ? LID_PLANNED : LID_AS_FOUND;
}

static void
count (LidSheetSource *source)
{
  source->total_told = TRUE;
  for (guint i = 0; i < source->population->n_slots; i++)
    {
      const LidModule *module = source->population->slots[i].module;

      if (module == NULL)
        continue;
      source->n_modules++;
      if (!module->persistent)
        source->total_mib += lid_module_capacity (module);
      source->total_told &= lid_module_knows (module, LID_FACT_CAPACITY);
    }
}

static const char *
title_of (const LidJob *job)
{
  if (job->title != NULL && job->title[0] != 0)
    return job->title;
  return job->board->name != NULL ? job->board->name : _ ("Machine without a name");
}

/**
 * lid_sheet_layout_new:
 * @job: with a board, and a population to show
 * @assessment: (nullable): of the population lid_sheet_layout_shows() names; without it the sheet
 *   has neither findings nor rate
 * @options: which sheet, which paper
 * @measure: of type
 *
 * Returns: (transfer full): the pages; they borrow texts from @job, which must live as long
 */
LidSheet *
lid_sheet_layout_new (const LidJob *job,
                      const LidAssessment *assessment,
                      const LidSheetOptions *options,
                      const LidMeasure *measure)
{
  g_auto (LidFlow) flow = { 0 };
  g_autoptr (LidPopulation) none = NULL;
  g_autoptr (LidMachine) machine = NULL;
  LidSheet *sheet = lid_sheet_new (options);
  LidSheetSource source = { .job = job, .assessment = assessment };
  Layout layout = { .sheet = sheet, .measure = *measure, .source = &source, .flow = &flow };

  source.of = lid_sheet_layout_shows (job, options->what);
  source.population = lid_job_get_population (job, source.of);
  if (source.population == NULL)
    source.population = none = lid_population_new (job->board);
  source.changes = lid_changes_new (job->board, job->as_found, source.population);
  count (&source);
  sheet->title = g_strdup (title_of (job));
  sheet->n_slots = job->board->n_slots;
  sheet->looks = g_new0 (LidSlotLook, job->board->n_slots);
  if (options->what == LID_SHEET_BENCH)
    lid_slot_look_bench (sheet->looks, sheet->texts, job->board, source.population, source.changes,
                         assessment);
  else
    lid_slot_look_lid (sheet->looks, sheet->texts, job->board, source.population, assessment);
  machine = lid_sheet_machine_new (sheet, job->board, source.population, assessment);
  layout.machine = machine;
  lid_sheet_words_head (sheet, &source, &layout.head);
  lid_sheet_flow_init (&flow, sheet, measure);
  if (options->what == LID_SHEET_BENCH)
    lid_sheet_bench_fill (&flow, &source);
  else
    lid_sheet_lid_fill (&flow, &source);
  put_all (&layout);
  lid_changes_free (source.changes);
  return sheet;
}
