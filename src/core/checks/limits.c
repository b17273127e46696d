/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/limits.h"

#include "base/units.h"
#include "checks/names.h"
#include "checks/remedy.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/**
 * lid_limits_speak_of:
 *
 * Returns: whether the board has any limit of that sort
 */
gboolean
lid_limits_speak_of (const LidCheck *check, LidLimitWhat what)
{
  for (guint i = 0; i < check->board->n_limits; i++)
    if (check->board->limits[i].what == what)
      return TRUE;
  return FALSE;
}

/* How the firmware of a bench-proven limit stands to the fitted level. */
static LidVerdict
judge_firmware (const LidCheck *check, const LidLimit *limit)
{
  int needed = lid_board_find_firmware (check->board, limit->firmware);
  int fitted = lid_board_find_firmware (check->board, check->population->firmware);

  if (needed == LID_NOWHERE || fitted == LID_NOWHERE)
    return LID_PROVEN_UNKNOWN;
  return needed <= fitted ? LID_PROVEN : LID_PROVEN_NEWER;
}

/* Of two that were seen to carry as much and stand alike to the fitted firmware, which is named:
 * 1. where the firmware has still to come, or is not told: the one that came with the older level,
 *    which asks least of the technician;
 * 2. the smaller one: the nearest to what is fitted here;
 * 3. the one seen last: its memory is the freshest;
 * 4. the one the definition names first.
 * Common practice, no source. */
static gboolean
is_named_before (const LidBoard *board, LidVerdict verdict, const LidLimit *a, const LidLimit *b)
{
  int by = verdict == LID_PROVEN ? 0
                                 : lid_board_find_firmware (board, a->firmware)
                                       - lid_board_find_firmware (board, b->firmware);

  if (by == 0)
    by = (a->mib > b->mib) - (a->mib < b->mib);
  if (by == 0)
    by = strcmp (b->when, a->when);
  return by < 0;
}

static LidVerdict
judge (const LidCheck *check,
       LidLimitWhat what,
       guint32 kinds,
       gint64 mib,
       const LidLimit **listed,
       const LidLimit **proven)
{
  LidVerdict verdict = LID_BEYOND;
  gboolean any = FALSE;

  *listed = *proven = NULL;
  for (guint i = 0; i < check->board->n_limits; i++)
    {
      const LidLimit *limit = &check->board->limits[i];

      if (limit->what != what || (limit->kinds != 0 && !(limit->kinds & kinds)))
        continue;
      any = TRUE;
      if (limit->basis != LID_BENCH_PROVEN)
        {
          if (*listed == NULL || limit->mib > (*listed)->mib)
            *listed = limit;
        }
      else if (limit->mib >= mib)
        {
          LidVerdict now = judge_firmware (check, limit);

          if (now < verdict
              || (now == verdict && is_named_before (check->board, now, limit, *proven)))
            {
              *proven = limit;
              verdict = now;
            }
        }
    }
  if (!any || (*listed != NULL && mib <= (*listed)->mib)
      || (*listed == NULL && verdict == LID_PROVEN))
    return LID_WITHIN;
  return verdict;
}

/* Asks for the kind where a row speaks of some kinds only and a module does not tell its own. */
static guint32
kinds_of (LidCheck *check, LidLimitWhat what, const guint *slots, guint n_slots)
{
  gboolean matters = FALSE;
  guint32 kinds = 0;

  for (guint i = 0; i < check->board->n_limits; i++)
    matters |= check->board->limits[i].what == what && check->board->limits[i].kinds != 0;
  for (guint i = 0; i < n_slots; i++)
    {
      LidKind kind = lid_module_kind (lid_check_module (check, slots[i]));

      if (kind == LID_KIND_UNKNOWN && matters)
        lid_check_miss (check, LID_FACT_KIND, slots[i]);
      kinds |= kind == LID_KIND_UNKNOWN ? G_MAXUINT32 : 1u << kind;
    }
  return kinds;
}

/**
 * lid_limits_tally:
 * @check: the context
 * @tally: (inout): what the rule met so far
 * @slots: the filled slots of one module, channel, processor or machine; may be reordered
 * @n_slots: how many
 *
 * Judges their sum. The slots counted are the surplus: from the first in the order of fitting that
 * passes the listed limit.
 */
void
lid_limits_tally (LidCheck *check, LidLimitTally *tally, guint *slots, guint n_slots)
{
  const LidLimit *listed, *proven;
  gint64 mib = 0, sum = 0;
  LidVerdict verdict;
  guint32 kinds;

  for (guint i = 0; i < n_slots; i++)
    {
      const LidModule *module = lid_check_module (check, slots[i]);

      if (!lid_module_knows (module, LID_FACT_CAPACITY))
        lid_check_miss (check, LID_FACT_CAPACITY, slots[i]);
      mib += lid_module_capacity (module);
    }
  kinds = kinds_of (check, tally->what, slots, n_slots);
  verdict = judge (check, tally->what, kinds, mib, &listed, &proven);
  if (verdict == LID_WITHIN)
    return;
  lid_check_sort_by_place (check, slots, n_slots);
  for (guint i = 0; i < n_slots; i++)
    {
      sum += lid_module_capacity (lid_check_module (check, slots[i]));
      if (sum > (listed != NULL ? listed->mib : 0))
        lid_slot_set_add (&tally->met[verdict].slots, slots[i]);
    }
  if (mib > tally->met[verdict].most_mib)
    {
      tally->met[verdict].most_mib = mib;
      tally->met[verdict].listed = listed;
      tally->met[verdict].proven = proven;
    }
}

static char *
say (LidCheck *check, const LidLimitTally *tally, LidVerdict verdict, const char *names)
{
  const LidLimit *listed = tally->met[verdict].listed, *proven = tally->met[verdict].proven;
  g_autofree char *most = lid_units_capacity (tally->met[verdict].most_mib);
  g_autofree char *subject = g_strdup_printf (_ (tally->subject), most);
  g_autofree char *list
      = listed != NULL ? lid_units_capacity (listed->mib) : g_strdup (_ ("nothing"));

  switch (verdict)
    {
    case LID_PROVEN:
      return g_strdup_printf (_ ("%s is more than the board's documents list (%s); %s saw it work "
                                 "on %s with firmware %s."),
                              subject, list, proven->who, proven->when, proven->firmware);
    case LID_PROVEN_UNKNOWN:
      return g_strdup_printf (
          _ ("%s is more than the board's documents list (%s); it was seen to work with firmware "
             "%s, and the fitted level is not told: setup shows it on its first page."),
          subject, list, proven->firmware);
    case LID_PROVEN_NEWER:
      return g_strdup_printf (
          _ ("%s is more than the board's documents list (%s); it was seen to work from firmware "
             "%s on, and %s is fitted. By the rules not seen: %s."),
          subject, list, proven->firmware, check->population->firmware, names);
    case LID_BEYOND:
    case LID_WITHIN:
    case LID_N_VERDICTS:
    default:
      return g_strdup_printf (_ ("%s is more than the board's documents list (%s), and nobody is "
                                 "known to have seen it work."),
                              subject, list);
    }
}

/**
 * lid_limits_report:
 * @check: the context
 * @tally: what was met
 *
 * One finding per verdict.
 */
void
lid_limits_report (LidCheck *check, const LidLimitTally *tally)
{
  static const LidGrade grades[LID_N_VERDICTS] = {
    [LID_PROVEN] = LID_GRADE_NOTE,
    [LID_PROVEN_UNKNOWN] = LID_GRADE_UNSURE,
    [LID_PROVEN_NEWER] = LID_GRADE_STOPS,
    [LID_BEYOND] = LID_GRADE_UNSURE,
  };

  for (LidVerdict verdict = LID_PROVEN; verdict < LID_N_VERDICTS; verdict++)
    {
      const LidSlotSet *slots = &tally->met[verdict].slots;
      const LidLimit *limit = tally->met[verdict].proven;
      g_autofree char *names = NULL;
      LidFinding *finding;

      if (lid_slot_set_is_empty (slots))
        continue;
      names = lid_names_slots (check, slots);
      finding = lid_check_add (check, grades[verdict], LID_STOPS_SLOTS, slots,
                               say (check, tally, verdict, names));
      finding->basis = limit != NULL ? "bench-proven" : "listed";
      if (limit == NULL)
        limit = tally->met[verdict].listed;
      if (limit != NULL && limit->basis == LID_ASSUMED)
        finding->basis = "assumed";
      if (limit != NULL && limit->source != NULL)
        finding->source = limit->source;
      if (verdict == LID_PROVEN_NEWER)
        lid_remedy_say (
            check, finding,
            g_strdup_printf (_ ("Update the firmware to %s first, with the old modules still in."),
                             tally->met[verdict].proven->firmware));
    }
}
