/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/limits.h"
#include "checks/names.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* A size that somebody saw working. */
static gboolean
is_proven (const LidBoard *board, const LidModule *module)
{
  for (guint i = 0; i < board->n_limits; i++)
    if (board->limits[i].what == LID_LIMIT_MODULE && board->limits[i].basis == LID_BENCH_PROVEN
        && board->limits[i].mib == lid_module_capacity (module))
      return TRUE;
  return FALSE;
}

/* 24, 48, 96 GB and the like, where a firmware level brings them: the rule of the firmware speaks
 * of the level. */
static gboolean
is_brought (const LidBoard *board, gint64 mib)
{
  for (guint i = 0; i < board->n_firmware; i++)
    for (guint k = 0; board->firmware[i].gifts != NULL && k < board->firmware[i].gifts->len; k++)
      if (g_array_index (board->firmware[i].gifts, LidFirmwareGift, k).non_binary)
        return (mib & (mib - 1)) != 0;
  return FALSE;
}

/* Within the largest, and still none of those the documents list: the maker tried others. */
static gboolean
is_odd (const LidBoard *board, const LidModule *module)
{
  gint64 mib = lid_module_capacity (module);
  gboolean is_within = FALSE;

  for (guint i = 0; i < board->n_sizes; i++)
    {
      if (board->sizes[i] == mib)
        return FALSE;
      is_within = is_within || board->sizes[i] > mib;
    }
  return is_within && !is_proven (board, module) && !is_brought (board, mib);
}

static void
check_sizes (LidCheck *check)
{
  const LidBoard *board = check->board;
  LidSlotSet odd = { { 0 } };
  g_autofree char *sizes = NULL, *names = NULL;
  LidFinding *finding;

  for (guint i = 0; i < check->n_dram && board->n_sizes > 0; i++)
    {
      guint slot = check->dram[i];

      if (!lid_module_knows (lid_check_module (check, slot), LID_FACT_CAPACITY))
        lid_check_miss (check, LID_FACT_CAPACITY, slot);
      else if (board->slots[slot].soldered == NULL
               && is_odd (board, lid_check_module (check, slot)))
        lid_slot_set_add (&odd, slot);
    }
  if (lid_slot_set_is_empty (&odd))
    return;
  names = lid_names_slots (check, &odd);
  sizes = lid_units_capacities (board->sizes, board->n_sizes);
  finding = lid_check_add (
      check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, &odd,
      g_strdup_printf (_ ("What is in %s is of a size that the board's documents do not list (they "
                          "list %s), and nobody is known to have seen it work."),
                       names, sizes));
  finding->basis = "listed";
  finding->source = board->sizes_source;
}

static void
check_largest (LidCheck *check)
{
  LidLimitTally tally = { .what = LID_LIMIT_MODULE, .subject = N_ ("A module of %s") };

  if (!lid_limits_speak_of (check, tally.what))
    return;
  for (guint i = 0; i < check->n_dram; i++)
    {
      guint slot = check->dram[i];

      lid_limits_tally (check, &tally, &slot, 1);
    }
  lid_limits_report (check, &tally);
}

static void
check_capacity (LidCheck *check)
{
  check_largest (check);
  check_sizes (check);
}

const LidRule lid_rule_capacity_module = {
  .id = "capacity-module",
  .title = N_ ("capacity of one module"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS) | LID_GRADE_BIT (LID_GRADE_UNSURE)
            | LID_GRADE_BIT (LID_GRADE_NOTE),
  .stops = LID_STOPS_SLOTS,
  .no_moves = N_ ("Newer firmware or smaller modules clear it; which of them, a person decides."),
  .why
  = N_ ("The board's documents list the largest module known when they were written. Larger ones "
        "that came later often work after an update of the firmware, and so may sizes in between "
        "that they do not name. What somebody saw working counts with who, when and the firmware "
        "level, and is kept apart from what is listed."),
  .clears = N_ ("Fit modules within the listed size, or bring the firmware to the level with which "
                "larger ones were seen to work."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_KIND),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_capacity,
};
