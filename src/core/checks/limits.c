/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/limits.h"

#include "base/units.h"
#include "board/board-words.h"
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

/* The largest limit of that basis among those that speak of one of @kinds; NULL: there is none. */
static const LidLimit *
find_largest (const LidBoard *board, LidLimitWhat what, LidLimitBasis basis, guint32 kinds)
{
  const LidLimit *largest = NULL;

  for (guint i = 0; i < board->n_limits; i++)
    {
      const LidLimit *limit = &board->limits[i];

      if (limit->what == what && limit->basis == basis
          && (limit->kinds == 0 || (limit->kinds & kinds) != 0)
          && (largest == NULL || limit->mib > largest->mib))
        largest = limit;
    }
  return largest;
}

/* What was seen to carry @mib, the best of it; @proven stays NULL where nothing was. */
static LidVerdict
judge_proven (
    const LidCheck *check, LidLimitWhat what, guint32 kinds, gint64 mib, const LidLimit **proven)
{
  LidVerdict verdict = LID_BEYOND;

  *proven = NULL;
  for (guint i = 0; i < check->board->n_limits; i++)
    {
      const LidLimit *limit = &check->board->limits[i];
      LidVerdict now;

      if (limit->what != what || limit->basis != LID_BENCH_PROVEN || limit->mib < mib
          || (limit->kinds != 0 && !(limit->kinds & kinds)))
        continue;
      now = judge_firmware (check, limit);
      if (now < verdict || (now == verdict && is_named_before (check->board, now, limit, *proven)))
        {
          *proven = limit;
          verdict = now;
        }
    }
  return verdict;
}

static LidVerdict
judge (const LidCheck *check,
       LidLimitWhat what,
       guint32 kinds,
       gint64 mib,
       const LidLimit **listed,
       const LidLimit **other)
{
  const LidLimit *assumed = find_largest (check->board, what, LID_ASSUMED, kinds);
  const LidLimit *proven = find_largest (check->board, what, LID_BENCH_PROVEN, kinds);
  LidVerdict verdict = judge_proven (check, what, kinds, mib, other);

  *listed = find_largest (check->board, what, LID_LISTED, kinds);
  if (*listed == NULL)
    {
      *listed = assumed;
      assumed = NULL;
    }
  if (*listed == NULL)
    return proven == NULL || verdict == LID_PROVEN ? LID_WITHIN : verdict;
  if (mib <= (*listed)->mib)
    return LID_WITHIN;
  if (verdict == LID_BEYOND && assumed != NULL && mib <= assumed->mib)
    {
      *other = assumed;
      return LID_SUPPOSED;
    }
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
  const LidLimit *listed, *other;
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
  verdict = judge (check, tally->what, kinds, mib, &listed, &other);
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
      tally->met[verdict].other = other;
    }
}

/* What the sum is more than; whole sentences, one after the other. */
static char *
say_beyond (const LidLimitTally *tally, LidVerdict verdict)
{
  const LidLimit *listed = tally->met[verdict].listed;
  g_autofree char *most = lid_units_capacity (tally->met[verdict].most_mib);
  g_autofree char *subject = g_strdup_printf (_ (tally->subject), most);
  g_autofree char *list
      = listed != NULL ? lid_units_capacity (listed->mib) : g_strdup (_ ("nothing"));

  if (listed != NULL && listed->basis == LID_ASSUMED)
    return g_strdup_printf (_ ("%s is more than is assumed of the board (%s); its documents list "
                               "nothing."),
                            subject, list);
  return g_strdup_printf (_ ("%s is more than the board's documents list (%s)."), subject, list);
}

static char *
say_who (LidCheck *check, const LidLimitTally *tally, LidVerdict verdict, const char *names)
{
  const LidLimit *other = tally->met[verdict].other;
  g_autofree char *size = other != NULL ? lid_units_capacity (other->mib) : NULL;

  switch (verdict)
    {
    case LID_PROVEN:
      return g_strdup_printf (_ ("Seen to work on %s with firmware %s by %s."), other->when,
                              other->firmware, other->who);
    case LID_PROVEN_UNKNOWN:
      return g_strdup_printf (
          _ ("It was seen to work with firmware %s, and the fitted level is not "
             "told: setup shows it on its first page."),
          other->firmware);
    case LID_PROVEN_NEWER:
      return g_strdup_printf (
          _ ("It was seen to work from firmware %s on, and %s is fitted. By the "
             "rules not seen: %s."),
          other->firmware, check->population->firmware, names);
    case LID_SUPPOSED:
      return g_strdup_printf (_ ("Up to %s is only assumed: nobody is known to have seen it work."),
                              size);
    case LID_BEYOND:
    case LID_WITHIN:
    case LID_N_VERDICTS:
    default:
      return g_strdup (_ ("Nobody is known to have seen it work."));
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
    [LID_PROVEN] = LID_GRADE_NOTE,        [LID_PROVEN_UNKNOWN] = LID_GRADE_UNSURE,
    [LID_PROVEN_NEWER] = LID_GRADE_STOPS, [LID_SUPPOSED] = LID_GRADE_UNSURE,
    [LID_BEYOND] = LID_GRADE_UNSURE,
  };

  for (LidVerdict verdict = LID_PROVEN; verdict < LID_N_VERDICTS; verdict++)
    {
      const LidSlotSet *slots = &tally->met[verdict].slots;
      const LidLimit *limit = tally->met[verdict].other;
      g_autofree char *names = NULL, *beyond = NULL, *who = NULL;
      LidFinding *finding;

      if (lid_slot_set_is_empty (slots))
        continue;
      if (limit == NULL)
        limit = tally->met[verdict].listed;
      names = lid_names_slots (check, slots);
      beyond = say_beyond (tally, verdict);
      who = say_who (check, tally, verdict, names);
      finding = lid_check_add (check, grades[verdict], LID_STOPS_SLOTS, slots,
                               g_strjoin (" ", beyond, who, NULL));
      finding->basis = limit != NULL ? lid_board_words_bases[limit->basis] : "listed";
      if (limit != NULL && limit->source != NULL)
        finding->source = limit->source;
      if (verdict == LID_PROVEN_NEWER)
        lid_remedy_say (
            check, finding,
            g_strdup_printf (_ ("Update the firmware to %s first, with the old modules still in."),
                             tally->met[verdict].other->firmware));
    }
}
