/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-balance-fit.h"

#include <glib/gi18n-lib.h>

/* Two leaves beside each other, what each carries under them, the words below (upright) or beside
 * (sideways). Always one page: what there is too much of is counted, not listed. */
#define SIDE_GAP 10.0
#define MOST_FINDINGS 3u

static const LidType title_type = { 12, TRUE };
static const LidType lead_type = { 11.5, TRUE };
static const LidType label_type = { 8.5, FALSE };
static const LidType value_type = { 10.5, TRUE };

typedef struct
{
  double words_x, words_y, words_width; /* area of the words */
  double sides_width;                   /* of both leaves together */
  guint columns;
  double pt;
  double words; /* height */
  guint most;   /* findings of a side */
  LidBalanceFit fit;
  double quality;
} Trial;

static guint
n_sides (const LidBalance *balance)
{
  return (balance->found.population != NULL) + (balance->planned.population != NULL);
}

static double
side_width (const LidBalance *balance, double width)
{
  return n_sides (balance) == 2 ? (width - SIDE_GAP) / 2 : width;
}

static double
figures_height (void)
{
  return lid_sheet_balance_figures_n () * lid_measure_line (value_type) + 2;
}

static double
fixed_height (void)
{
  return lid_measure_line (title_type) + 2 + figures_height () + 2;
}

/* A label and what it is; the value is never cut while there is room. */
static void
put_pair (LidLayout *layout,
          LidPage *page,
          LidBox area,
          LidType small,
          const char *label,
          LidType type,
          char *value)
{
  double width = MIN (lid_measure_width (&layout->measure, type, value) + 1, area.width * 0.75);
  double lower = (type.pt - small.pt) * 0.28;

  lid_sheet_line (page, (LidBox){ area.x, area.y + lower, area.width - width - 2, area.height },
                  small, LID_ALIGN_LEFT, label);
  lid_sheet_line (page, (LidBox){ area.x + area.width - width, area.y, width, area.height }, type,
                  LID_ALIGN_RIGHT, lid_sheet_keep (layout->sheet, value));
}

static void
put_side (LidLayout *layout,
          LidPage *page,
          const LidBalanceSide *side,
          const LidBalanceFit *fit,
          const char *title,
          LidBox area)
{
  area.height = lid_measure_line (title_type);
  put_pair (layout, page, area, title_type, title, title_type,
            lid_sheet_balance_figures_total (side));
  area.y += area.height + 2;
  if (fit->across > 0)
    lid_sheet_balance_leaf_put (side, fit, page, area);
  area.y += fit->height + 2;
  /* A value far from its label belongs to nobody. */
  area.width = MIN (area.width, 105);
  lid_sheet_rule (page, area.x, area.y, area.width, lid_theme_print ()->thin);
  area.y += 2;
  area.height = lid_measure_line (value_type);
  for (guint i = 0; i < lid_sheet_balance_figures_n (); i++, area.y += area.height)
    put_pair (layout, page, area, label_type, lid_sheet_balance_figures_label (i), value_type,
              lid_sheet_balance_figures_value (side, i));
}

static void
put_sides (
    LidLayout *layout, const LidBalance *balance, LidPage *page, const Trial *trial, double y)
{
  double width = side_width (balance, trial->sides_width);
  LidBox area = { layout->sheet->margin, y, width, 0 };

  if (balance->found.population != NULL)
    {
      put_side (layout, page, &balance->found, &trial->fit, _ ("As found"), area);
      area.x += width + SIDE_GAP;
    }
  if (n_sides (balance) == 2)
    lid_sheet_add (page, LID_ITEM_RULE,
                   (LidBox){ area.x - SIDE_GAP / 2, y, 0, fixed_height () + trial->fit.height })
        ->weight
        = lid_theme_print ()->thin;
  if (balance->planned.population != NULL)
    put_side (layout, page, &balance->planned, &trial->fit, _ ("Planned"), area);
}

static double
key_height (LidLayout *layout, double width)
{
  return lid_sheet_frame_key (layout->sheet, NULL, &layout->measure, layout->machine,
                              layout->source, (LidBox){ 0, 0, width, 0 })
         + 5;
}

static gboolean
try_one (LidLayout *layout, const LidBalance *balance, double top, Trial *trial)
{
  gboolean beside = trial->words_width < layout->width;
  double room = layout->bottom - top;
  double left = room - fixed_height () - key_height (layout, trial->sides_width);

  trial->words = lid_sheet_flow_height (layout->flow, 0, trial->words_width, trial->columns,
                                        beside ? room : left);
  if (trial->words > (beside ? room : left))
    return FALSE;
  if (!lid_sheet_balance_fit_find (balance, &layout->measure,
                                   side_width (balance, trial->sides_width),
                                   beside ? left : left - trial->words, &trial->fit))
    return FALSE;
  /* The drawing explains more than the words do. */
  trial->quality = trial->fit.quality + 0.4 * trial->pt - (!beside && trial->columns > 2 ? 1 : 0);
  return TRUE;
}

/* Upright the words are below, over the whole width; sideways beside, in a third or half of it. */
static gboolean
find_trial (LidLayout *layout, const LidBalance *balance, double top, guint most, Trial *best)
{
  static const double shares[] = { 0.68, 0.62, 0.55, 0.48 };
  gboolean sideways = layout->sheet->options.sideways, found = FALSE;

  for (double pt = 11; pt >= 8; pt -= 0.5)
    for (guint i = 0; i < (sideways ? 2 * G_N_ELEMENTS (shares) : 2); i++)
      {
        Trial trial = { .pt = pt,
                        .most = most,
                        .columns = 2 + i,
                        .words_x = layout->sheet->margin,
                        .words_width = layout->width,
                        .sides_width = layout->width };

        if (sideways)
          {
            trial.columns = 1 + i % 2;
            trial.sides_width = layout->width * shares[i / 2];
            trial.words_x += trial.sides_width + SIDE_GAP;
            trial.words_width -= trial.sides_width + SIDE_GAP;
          }
        if (lid_sheet_flow_column (trial.words_width, trial.columns) < 52)
          continue;
        lid_sheet_flow_set_size (layout->flow, pt);
        if (try_one (layout, balance, top, &trial) && (!found || trial.quality > best->quality))
          {
            *best = trial;
            found = TRUE;
          }
      }
  return found;
}

static void
fill (LidLayout *layout, const LidBalance *balance, guint most)
{
  g_array_set_size (layout->flow->rows, 0);
  lid_sheet_balance_words_fill (layout->flow, balance, most);
}

static void
put_page (LidLayout *layout, const LidBalance *balance, LidPage *page, double top, Trial *trial)
{
  double y = top + fixed_height () + trial->fit.height + 2;

  put_sides (layout, balance, page, trial, top);
  layout->machine->plain = trial->fit.words == 0;
  y += lid_sheet_frame_key (layout->sheet, page, &layout->measure, layout->machine, layout->source,
                            (LidBox){ layout->sheet->margin, y, trial->sides_width, 0 })
       + 4;
  lid_sheet_flow_set_size (layout->flow, trial->pt);
  lid_sheet_flow_set (layout->flow, 0, page,
                      (LidBox){ trial->words_x, trial->words_width < layout->width ? top : y,
                                trial->words_width, 0 },
                      trial->columns, trial->words);
}

static double
put_lead (LidLayout *layout, const LidBalance *balance, LidPage *page, double y)
{
  const char *lead = lid_sheet_keep (layout->sheet, lid_sheet_balance_figures_lead (balance));
  double height;

  if (lead[0] == 0)
    return y;
  height = lid_measure_height (&layout->measure, lead_type, lead, layout->width);
  lid_sheet_text (page, (LidBox){ layout->sheet->margin, y, layout->width, height }, lead_type,
                  LID_ALIGN_LEFT, lead);
  return y + height + 4;
}

/* The last way out, where names and texts are longer than any page: the words on a second one. */
static void
put_anyhow (LidLayout *layout, const LidBalance *balance, LidPage *page, double top)
{
  Trial trial = { .sides_width = layout->width };
  double room = layout->bottom - top - fixed_height () - key_height (layout, layout->width);
  LidBox area = { layout->sheet->margin, 0, layout->width, 0 };

  lid_sheet_balance_fit_find (balance, &layout->measure, side_width (balance, layout->width), room,
                              &trial.fit);
  put_sides (layout, balance, page, &trial, top);
  page = lid_sheet_add_page (layout->sheet);
  area.y = lid_sheet_frame_head (layout->sheet, page, &layout->measure, &layout->head);
  lid_sheet_flow_set_size (layout->flow, 8);
  lid_sheet_flow_set (layout->flow, 0, page, area, 2, layout->bottom - area.y);
}

static void
compose (LidLayout *layout, const LidBalance *balance)
{
  LidPage *page = lid_sheet_add_page (layout->sheet);
  double top = lid_sheet_frame_head (layout->sheet, page, &layout->measure, &layout->head);
  guint most = MOST_FINDINGS + 1;
  Trial trial = { 0 };

  layout->width = layout->sheet->width - 2 * layout->sheet->margin;
  layout->bottom = layout->sheet->height - layout->sheet->margin
                   - lid_sheet_frame_foot_height (layout->sheet, &layout->measure);
  top = put_lead (layout, balance, page, top);
  do
    fill (layout, balance, --most);
  while (!find_trial (layout, balance, top, most, &trial) && most > 0);
  if (trial.fit.across > 0)
    put_page (layout, balance, page, top, &trial);
  else
    put_anyhow (layout, balance, page, top);
  lid_sheet_frame_foot (layout->sheet, &layout->measure, layout->source);
}

static void
make_side (LidLayout *layout, LidBalanceSide *side, const LidPopulation *before, LidSlotLook *looks)
{
  const LidJob *job = layout->source->job;

  side->looks = looks;
  lid_slot_look_board (looks, layout->sheet->texts, job->board, side->population, before,
                       side->assessment);
  side->machine
      = lid_sheet_machine_new (layout->sheet, job->board, side->population, side->assessment);
}

/**
 * lid_sheet_balance_compose:
 * @layout: its sheet has no page; @machine is set here
 *
 * Makes the page: as found beside what the source shows, or that alone.
 */
void
lid_sheet_balance_compose (LidLayout *layout)
{
  const LidSheetSource *source = layout->source;
  const LidJob *job = source->job;
  LidBalance balance = { .job = job, .changes = source->changes };
  gboolean both = source->of == LID_PLANNED && job->as_found != NULL;
  LidBalanceSide *shown = source->of == LID_PLANNED ? &balance.planned : &balance.found;
  LidQuestion question = { job->board, job->as_found, job->as_found };
  g_autoptr (LidAssessment) found = both ? lid_assessment_new (&question) : NULL;
  g_autoptr (LidMachine) first = NULL, second = NULL;

  g_free (layout->sheet->looks);
  layout->sheet->looks = g_new0 (LidSlotLook, 2 * job->board->n_slots);
  shown->population = source->population;
  shown->assessment = source->assessment;
  make_side (layout, shown, both ? job->as_found : NULL, layout->sheet->looks);
  first = shown->machine;
  layout->machine = shown->machine;
  if (both)
    {
      balance.found.population = job->as_found;
      balance.found.assessment = found;
      make_side (layout, &balance.found, NULL, layout->sheet->looks + job->board->n_slots);
      second = balance.found.machine;
    }
  layout->head.total = lid_sheet_keep (layout->sheet, lid_sheet_balance_figures_total (shown));
  layout->head.right = lid_sheet_keep (layout->sheet, lid_sheet_balance_figures_right (&balance));
  compose (layout, &balance);
}
