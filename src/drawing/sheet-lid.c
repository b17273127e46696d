/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-words.h"

#include "base/units.h"
#include "population/additions.h"

#include <glib/gi18n-lib.h>

/* The page that stays inside the lid. A new block is one function and one line in
 * lid_sheet_lid_fill(). */

/* What may not be mixed, where the board tells it; the kinds are physics and stand always. */
static const char *const mixes[LID_N_MIXES] = {
  [LID_MIX_KINDS] = N_ ("kinds"),
  [LID_MIX_ECC] = N_ ("ECC"),
  [LID_MIX_WIDTHS] = N_ ("chip widths (x4, x8)"),
  [LID_MIX_STACKS] = N_ ("stacking (3DS and plain)"),
  [LID_MIX_DENSITIES] = N_ ("die densities"),
  [LID_MIX_CAPACITIES] = N_ ("capacities"),
  [LID_MIX_RANKS] = N_ ("ranks"),
  [LID_MIX_CHECK_BITS] = N_ ("DDR5 check-bit widths"),
  [LID_MIX_RATES] = N_ ("rated rates"),
};

static const char *const scopes[] = {
  [LID_SCOPE_MACHINE] = N_ ("in the machine"),
  [LID_SCOPE_SOCKET] = N_ ("at one processor"),
  [LID_SCOPE_CHANNEL] = N_ ("on one channel"),
  [LID_SCOPE_MODULE] = N_ ("on one module"),
};

static char *
say_why (const LidFigures *figures)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < figures->n_limits; i++)
    if (figures->limits[i].binding)
      g_string_append_printf (out, "%s%s", out->len > 0 ? "; " : "",
                              lid_sheet_words_limit (figures->limits[i].what));
  return g_string_free (out, FALSE);
}

static void
put_runs (LidFlow *flow, const LidSheetSource *source)
{
  const LidFigures *figures = source->assessment != NULL ? &source->assessment->figures : NULL;
  g_autofree char *firmware = lid_sheet_words_firmware (source);
  g_autofree char *mode = lid_sheet_words_mode (source);

  lid_sheet_flow_head (flow, _ ("How it runs"));
  lid_sheet_flow_pair (flow, _ ("Firmware"), firmware);
  lid_sheet_flow_pair (flow, _ ("Memory mode"), mode);
  if (figures != NULL && figures->starts && figures->running != LID_RATE_UNKNOWN)
    {
      g_autofree char *why = say_why (figures);
      g_autofree char *rate
          = why[0] != 0 ? g_strdup_printf (_ ("%u MT/s: %s"), lid_rate_mts (figures->running), why)
                        : g_strdup_printf (_ ("%u MT/s"), lid_rate_mts (figures->running));

      lid_sheet_flow_pair (flow, _ ("Running rate"), rate);
    }
  else
    lid_sheet_flow_pair (flow, _ ("Running rate"), _ ("not told"));
  if (figures != NULL && figures->starts && figures->channels_told)
    {
      g_autofree char *use
          = g_strdup_printf (_ ("%u of %u"), figures->channels_in_use, figures->channels_of_fitted);
      lid_sheet_flow_pair (flow, _ ("Channels in use"), use);
    }
}

static void
put_modules (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, _ ("Modules in it"));
  lid_sheet_words_modules (flow, source);
}

static guint
count_empty (const LidSheetSource *source)
{
  const LidBoard *board = source->job->board;
  guint n = 0;

  for (guint i = 0; i < board->n_slots; i++)
    n += source->population->slots[i].module == NULL && board->slots[i].soldered == NULL;
  return n;
}

static void
put_next (LidFlow *flow, const LidSheetSource *source)
{
  const LidSheet *sheet = flow->sheet;
  guint empty = count_empty (source), next = 0;
  GString *names;
  g_autofree char *text = NULL;

  lid_sheet_flow_head (flow, _ ("Fill next"));
  if (empty == 0)
    {
      lid_sheet_flow_text (flow, _ ("No empty slot: more memory means larger modules."));
      return;
    }
  if (source->job->board->n_order == 0)
    {
      lid_sheet_flow_text (flow, _ ("Order of fitting not told: see the print on the board and the "
                                    "machine maker's service guide."));
      return;
    }
  names = g_string_new (NULL);
  for (guint number = 1; number <= 8; number++)
    for (guint i = 0; i < sheet->n_slots; i++)
      if (sheet->looks[i].ring == number)
        {
          g_string_append_printf (names, "%s%s", next++ > 0 ? ", " : "", sheet->looks[i].name);
          break;
        }
  if (next < empty)
    text = g_strdup_printf (_ ("%s, then as the rings say"), names->str);
  else
    text = g_strdup (names->str);
  g_string_free (names, TRUE);
  lid_sheet_flow_text (flow, text);
}

static void
append_word (GString *out, const char *word, const char *between)
{
  if (out->len > 0)
    g_string_append (out, between);
  g_string_append (out, word);
}

static char *
say_kinds (const LidSheetSource *source)
{
  const LidBoard *board = source->job->board;
  guint32 go = lid_additions_kinds (board, source->population);
  gint32 room = lid_additions_least_room (board);
  g_autoptr (GString) kinds = g_string_new (NULL);
  GString *out = g_string_new (NULL);

  for (guint i = 1; i < LID_N_GENERATIONS; i++)
    if (board->generations & (1u << i))
      append_word (out, lid_generation_to_text (i), _ (" or "));
  for (guint i = 1; i < LID_N_KINDS; i++)
    if (go & (1u << i))
      append_word (kinds, lid_kind_to_words (i), _ (" or "));
  if (kinds->len > 0)
    append_word (out, kinds->str, " ");
  else if (board->form != LID_FORM_UNKNOWN)
    append_word (out, lid_form_to_words (board->form), " ");
  if (board->needs_ecc && out->len > 0)
    append_word (out, _ ("with ECC"), ", ");
  if (room > 0 && out->len > 0)
    {
      g_autofree char *height
          = g_strdup_printf (_ ("no taller than %d.%02d mm"), room / 100, room % 100);

      append_word (out, height, ", ");
    }
  return g_string_free (out, FALSE);
}

static const char *
word_of_fitted (const LidSheetSource *source)
{
  for (guint i = 0; i < source->population->n_slots; i++)
    {
      const LidModule *module = source->population->slots[i].module;

      if (module != NULL && lid_module_kind (module) != LID_KIND_UNKNOWN)
        return lid_kind_to_words (lid_module_kind (module));
    }
  return NULL;
}

static void
put_may (LidFlow *flow, const LidSheetSource *source)
{
  g_autofree char *kinds = say_kinds (source), *now = NULL;
  const char *fitted = word_of_fitted (source);

  lid_sheet_flow_head (flow, _ ("May be added"));
  if (kinds[0] != 0)
    lid_sheet_flow_text (flow, kinds);
  /* A board made from an inventory tells generation and form, and not which kinds go in. */
  if (kinds[0] != 0 && source->job->board->kinds == 0 && fitted != NULL)
    now = g_strdup_printf (_ ("Which kind is not told for this board. What is in it now: %s."),
                           fitted);
  else if (kinds[0] == 0 && fitted != NULL)
    now = g_strdup_printf (_ ("Not told for this board. What is in it now: %s."), fitted);
  else if (kinds[0] == 0)
    now = g_strdup (_ ("Not told for this board: see the label of a module in it."));
  if (now != NULL)
    lid_sheet_flow_text (flow, now);
}

/* What only @most different ones of may meet within @scope. */
static void
put_mixes (LidFlow *flow, const LidBoard *board, LidScope scope, guint most)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *text = NULL;

  for (guint i = 0; i < LID_N_MIXES; i++)
    if (i != LID_MIX_KINDS && i != LID_MIX_ECC && board->mixes[i].told && !board->mixes[i].allowed
        && board->mixes[i].scope == scope && board->mixes[i].most_classes == most
        && board->mixes[i].grade >= LID_GRADE_LOSES)
      append_word (out, _ (mixes[i]), ", ");
  if (out->len == 0)
    return;
  if (most == 1)
    /* Translators: what must not be mixed, then where: "Nor different ranks on one channel." */
    text = g_strdup_printf (_ ("Nor different %s %s."), out->str, _ (scopes[scope]));
  else
    /* Translators: "Nor more than 2 different capacities in the machine." */
    text = g_strdup_printf (_ ("Nor more than %u different %s %s."), most, out->str,
                            _ (scopes[scope]));
  lid_sheet_flow_text (flow, text);
}

static void
put_not (LidFlow *flow, const LidSheetSource *source)
{
  const LidBoard *board = source->job->board;

  lid_sheet_flow_head (flow, _ ("Do not mix"));
  lid_sheet_flow_text (flow, _ ("Registered, load-reduced and unbuffered; ECC and no ECC; "
                                "generations of DDR."));
  for (guint scope = LID_SCOPE_MACHINE; scope <= LID_SCOPE_CHANNEL; scope++)
    for (guint most = 1; most <= LID_MIX_MOST_CLASSES; most++)
      put_mixes (flow, board, (LidScope)scope, most);
}

static char *
say_limit (const LidLimit *limit)
{
  g_autofree char *size = lid_units_capacity (limit->mib);

  if (limit->basis != LID_BENCH_PROVEN)
    return g_strdup (size);
  return g_strdup_printf (_ ("%s (%s, %s, firmware %s)"), size, limit->who, limit->when,
                          limit->firmware);
}

/* The largest of the limits that speak of what goes into this machine. */
static void
put_limits_of (LidFlow *flow,
               const LidSheetSource *source,
               LidLimitBasis basis,
               LidLimitWhat what,
               const char *label)
{
  const LidBoard *board = source->job->board;
  guint32 kinds = lid_additions_kinds (board, source->population);
  const LidLimit *most = NULL;
  g_autofree char *text = NULL;

  for (guint i = 0; i < board->n_limits; i++)
    if (board->limits[i].basis == basis && board->limits[i].what == what
        && (board->limits[i].kinds == 0 || kinds == 0 || (board->limits[i].kinds & kinds) != 0)
        && (most == NULL || board->limits[i].mib > most->mib))
      most = &board->limits[i];
  if (most == NULL)
    return;
  text = say_limit (most);
  lid_sheet_flow_pair (flow, label, text);
}

static void
put_largest (LidFlow *flow, const LidSheetSource *source)
{
  const LidAssessment *assessment = source->assessment;
  guint before;

  lid_sheet_flow_head (flow, _ ("Largest"));
  before = flow->rows->len;
  put_limits_of (flow, source, LID_LISTED, LID_LIMIT_MODULE, _ ("A module, listed"));
  put_limits_of (flow, source, LID_BENCH_PROVEN, LID_LIMIT_MODULE, _ ("A module, bench-proven"));
  put_limits_of (flow, source, LID_LISTED, LID_LIMIT_MACHINE, _ ("In all, listed"));
  put_limits_of (flow, source, LID_BENCH_PROVEN, LID_LIMIT_MACHINE, _ ("In all, bench-proven"));
  if (assessment != NULL && assessment->room.listed_mib > 0)
    {
      g_autofree char *text = lid_units_capacity (assessment->room.listed_mib);
      lid_sheet_flow_pair (flow, _ ("Pulling nothing, listed"), text);
    }
  if (assessment != NULL && assessment->room.proven_mib > 0)
    {
      g_autofree char *text = lid_units_capacity (assessment->room.proven_mib);
      lid_sheet_flow_pair (flow, _ ("Pulling nothing, proven"), text);
    }
  if (flow->rows->len == before)
    lid_sheet_flow_text (flow, _ ("Not told for this board."));
}

static void
put_findings (LidFlow *flow, const LidSheetSource *source)
{
  lid_sheet_flow_head (flow, _ ("Know before you change it"));
  lid_sheet_words_findings (flow, source, LID_GRADE_UNSURE, LID_GRADE_STOPS);
}

static void
put_who (LidFlow *flow, const LidSheetSource *source)
{
  const LidJob *job = source->job;
  g_autofree char *date = lid_sheet_words_date (job);

  lid_sheet_flow_head (flow, _ ("Written by"));
  if (job->shop != NULL)
    lid_sheet_flow_pair (flow, _ ("Shop"), job->shop);
  if (job->number != NULL)
    lid_sheet_flow_pair (flow, _ ("Job"), job->number);
  if (job->technician != NULL)
    lid_sheet_flow_pair (flow, _ ("Technician"), job->technician);
  else
    lid_sheet_flow_fill (flow, _ ("Technician"));
  if (date != NULL)
    lid_sheet_flow_pair (flow, _ ("Date"), date);
  else
    lid_sheet_flow_fill (flow, _ ("Date"));
}

/**
 * lid_sheet_lid_fill:
 *
 * Fills @flow with the blocks of the lid sheet.
 */
void
lid_sheet_lid_fill (LidFlow *flow, const LidSheetSource *source)
{
  static void (*const blocks[]) (LidFlow * flow, const LidSheetSource *source)
      = { put_next, put_may, put_not, put_largest, put_findings, put_runs, put_modules, put_who };

  for (guint i = 0; i < G_N_ELEMENTS (blocks); i++)
    blocks[i](flow, source);
}
