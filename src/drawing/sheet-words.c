/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-words.h"

#include "base/units.h"
#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_FINDINGS 4u

static const char *const limits[LID_N_CAPS] = {
  [LID_CAP_MODULE] = N_ ("the slowest module is rated so"),
  [LID_CAP_TABLE] = N_ ("the board's table for modules and ranks on a channel"),
  [LID_CAP_PROCESSOR] = N_ ("the processor goes no higher"),
  [LID_CAP_BOARD] = N_ ("the board goes no higher"),
  [LID_CAP_FIRMWARE] = N_ ("this firmware goes no higher"),
  [LID_CAP_SETUP] = N_ ("setup limits it"),
  [LID_CAP_INVENTORY] = N_ ("the machine reports it"),
};

/**
 * lid_sheet_words_mode:
 *
 * Returns: (transfer full): the memory mode and what it leaves: "mirrored: 96 GB can be used"
 */
char *
lid_sheet_words_mode (const LidSheetSource *source)
{
  const LidFigures *figures = source->assessment != NULL ? &source->assessment->figures : NULL;
  g_autofree char *mode = lid_mode_words_new (source->population);
  g_autofree char *usable = NULL;

  if (figures == NULL || !figures->starts || figures->mode.effect == LID_EFFECT_PLAIN)
    return g_steal_pointer (&mode);
  if (figures->mode.effect == LID_EFFECT_REFUSED)
    return g_strdup_printf (_ ("%s: refused, starts plain and unprotected"), mode);
  if (!figures->usable_known)
    return g_strdup_printf (_ ("%s: what can be used is not known"), mode);
  usable = lid_units_capacity (figures->usable_mib);
  return g_strdup_printf (_ ("%s: %s can be used"), mode, usable);
}

const char *
lid_sheet_words_limit (LidCap cap)
{
  return _ (limits[cap]);
}

static char *
say_stage (const LidSheetSource *source)
{
  const LidStage *stage = source->job->stages->pdata[source->stage - 1];

  if (stage->name == NULL)
    return g_strdup_printf (_ ("memory after stage %u of %u"), source->stage,
                            source->job->stages->len);
  return g_strdup_printf (_ ("memory after stage %u of %u, %s"), source->stage,
                          source->job->stages->len, stage->name);
}

/* A setup screen may have shown less than sits there. */
static char *
say_as_left (const LidSheetSource *source)
{
  gint64 shown = source->job->eye_mib, fitted = 0;
  g_autofree char *words = NULL;

  for (guint i = 0; i < source->population->n_slots; i++)
    if (source->population->slots[i].module != NULL
        && !source->population->slots[i].module->persistent)
      fitted += lid_module_capacity (source->population->slots[i].module);
  if (!source->job->is_read_by_eye || shown == 0 || shown == fitted)
    return g_strdup (_ ("memory as left"));
  words = lid_units_capacity (shown);
  return g_strdup_printf (_ ("memory as left; the setup screen showed %s"), words);
}

static char *
say_of (const LidSheet *sheet, const LidSheetSource *source)
{
  if (sheet->options.what == LID_SHEET_BALANCE && source->of == LID_PLANNED
      && source->job->as_found != NULL)
    return g_strdup (_ ("memory as found, beside it as planned"));
  if (source->of == LID_PLANNED && source->stage == 0)
    return g_strdup (_ ("memory as planned"));
  if (source->of == LID_PLANNED)
    return say_stage (source);
  if (source->of == LID_AS_LEFT)
    return say_as_left (source);
  return g_strdup (source->job->stages->len == 0 ? _ ("memory as found, nothing planned")
                                                 : _ ("memory as found"));
}

static const char *
say_stamp (const LidSheet *sheet, const LidSheetSource *source)
{
  if (sheet->options.what != LID_SHEET_LID)
    return source->of == LID_PLANNED ? NULL : _ ("nothing planned");
  if (source->of == LID_PLANNED)
    return _ ("planned, not yet proved");
  if (source->of == LID_AS_FOUND)
    return _ ("as found, not proved");
  if (!source->job->proved)
    return _ ("as left, not proved");
  return source->job->is_read_by_eye ? _ ("as left, read by eye") : NULL;
}

static void
append (GString *out, const char *format, const char *text)
{
  if (text == NULL || text[0] == 0)
    return;
  if (out->len > 0)
    g_string_append (out, "  ·  ");
  g_string_append_printf (out, format, text);
}

static char *
say_right (const LidSheetSource *source)
{
  const LidAssessment *assessment = source->assessment;
  g_autofree char *count = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%u module", "%u modules", source->n_modules),
      source->n_modules);

  if (assessment != NULL && !assessment->figures.starts)
    return g_strdup_printf (_ ("%s; does not start like this"), count);
  if (assessment == NULL || assessment->figures.running == LID_RATE_UNKNOWN)
    return g_steal_pointer (&count);
  return g_strdup_printf (_ ("%s, runs at %u MT/s"), count,
                          lid_rate_mts (assessment->figures.running));
}

/**
 * lid_sheet_words_title:
 *
 * Returns: (transfer none): what a sheet is called
 */
const char *
lid_sheet_words_title (LidSheetFor what)
{
  static const char *const titles[LID_N_SHEETS] = { [LID_SHEET_BENCH] = N_ ("Bench sheet"),
                                                    [LID_SHEET_LID] = N_ ("Lid sheet"),
                                                    [LID_SHEET_BALANCE] = N_ ("Balance page") };

  return _ (titles[what]);
}

/**
 * lid_sheet_words_head:
 * @head: (out): the texts of the first page's head, kept by @sheet
 */
void
lid_sheet_words_head (LidSheet *sheet, const LidSheetSource *source, LidSheetHead *head)
{
  const LidJob *job = source->job;
  GString *who = g_string_new (NULL);
  char *total = lid_units_capacity (source->total_mib);
  g_autofree char *of = say_of (sheet, source);

  append (who, "%s", job->owner);
  append (who, _ ("asset %s"), job->asset);
  append (who, _ ("job %s"), job->number);
  if (who->len == 0 && job->board->name != NULL)
    append (who, "%s", job->board->name);
  if (!source->total_told)
    {
      char *more = g_strdup_printf (_ ("%s or more"), total);

      g_free (total);
      total = more;
    }
  head->total = lid_sheet_keep (sheet, total);
  head->right = lid_sheet_keep (sheet, say_right (source));
  head->left = lid_sheet_keep (
      sheet, g_strdup_printf ("%s  ·  %s", lid_sheet_words_title (sheet->options.what), of));
  head->who = lid_sheet_keep (sheet, g_string_free (who, FALSE));
  head->stamp = say_stamp (sheet, source);
}

/* For a list it is enough that two modules read the same. */
static gboolean
reads_alike (const LidModule *module, const char *words, const LidModule *other)
{
  g_autofree char *others = NULL;

  if (other == module || lid_module_same (module, other))
    return TRUE;
  if (g_strcmp0 (module->part, other->part) != 0)
    return FALSE;
  others = lid_module_describe (other);
  return g_strcmp0 (words, others) == 0;
}

/**
 * lid_sheet_words_modules:
 *
 * A list of what sits in the machine, each kind once with its number and part.
 */
void
lid_sheet_words_modules (LidFlow *flow, const LidSheetSource *source)
{
  const LidPopulation *population = source->population;
  g_autofree gboolean *told = g_new0 (gboolean, population->n_slots);

  for (guint i = 0; i < population->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;
      g_autofree char *count = NULL;
      g_autofree char *words = NULL;
      guint n = 0;

      if (module == NULL || told[i])
        continue;
      words = lid_module_describe (module);
      for (guint k = i; k < population->n_slots; k++)
        if (population->slots[k].module != NULL && !told[k]
            && reads_alike (module, words, population->slots[k].module))
          {
            told[k] = TRUE;
            n++;
          }
      count = module->part != NULL
                  ? g_strdup_printf (_ ("%u × %s, part %s"), n, words, module->part)
                  : g_strdup_printf (_ ("%u × %s"), n, words);
      lid_sheet_flow_text (flow, count);
    }
}

/**
 * lid_sheet_words_findings:
 * @least: grades below are left out
 * @most: grades above are left out
 *
 * Findings as short lines, the worst first; facts that are not told are counted, not listed: each
 * has its line on the screen, and a page is for the hands.
 */
void
lid_sheet_words_findings (LidFlow *flow,
                          const LidSheetSource *source,
                          LidGrade least,
                          LidGrade most)
{
  const LidAssessment *assessment = source->assessment;
  guint unsure = 0, shown = 0, more = 0;
  g_autofree char *text = NULL;

  for (guint i = 0; assessment != NULL && i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->grade < least || finding->grade > most)
        continue;
      if (finding->grade == LID_GRADE_UNSURE)
        unsure++;
      else if (shown++ < MOST_FINDINGS)
        lid_sheet_flow_grade (flow, finding->grade, finding->text);
      else
        more++;
    }
  if (more > 0)
    {
      g_autofree char *rest
          = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "and %u more: see the check",
                                          "and %u more: see the check", more),
                             more);
      lid_sheet_flow_text (flow, rest);
    }
  if (unsure == 0)
    return;
  text = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u question is open: see the check",
                                       "%u questions are open: see the check", unsure),
                          unsure);
  lid_sheet_flow_grade (flow, LID_GRADE_UNSURE, text);
}

/**
 * lid_sheet_words_filled:
 * @most: names to tell at most; more are counted
 *
 * Returns: (transfer full): the filled slots by name
 */
char *
lid_sheet_words_filled (const LidSheetSource *source, guint most)
{
  const LidBoard *board = source->job->board;
  GString *out = g_string_new (NULL);
  guint n = 0;

  for (guint i = 0; i < board->n_slots; i++)
    if (source->population->slots[i].module != NULL)
      {
        if (n < most)
          g_string_append_printf (out, "%s%s", n > 0 ? ", " : "", lid_board_name_slot (board, i));
        n++;
      }
  if (n == board->n_slots)
    g_string_printf (out, _ ("all %u"), n);
  else if (n > most)
    g_string_printf (out, _ ("%u of %u, as drawn"), n, board->n_slots);
  else if (n == 0)
    g_string_append (out, _ ("none"));
  return g_string_free (out, FALSE);
}

char *
lid_sheet_words_firmware (const LidSheetSource *source)
{
  const char *firmware = source->population->firmware;

  return g_strdup (firmware != NULL ? firmware : _ ("not told"));
}

/**
 * lid_sheet_words_date:
 *
 * Returns: (transfer full) (nullable): the day the job last changed; NULL when its history is empty
 */
char *
lid_sheet_words_date (const LidJob *job)
{
  const LidHistoryEntry *last;

  if (job->history == NULL || job->history->len == 0)
    return NULL;
  last = job->history->pdata[job->history->len - 1];
  if (last->when == NULL || strlen (last->when) < 10)
    return NULL;
  return g_strndup (last->when, 10);
}
