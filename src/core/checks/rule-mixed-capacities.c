/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Two capacities on many boards, one on several later ones: the board speaks. */
static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  *class = module->value[LID_FACT_CAPACITY];
  return module->basis[LID_FACT_CAPACITY] ? LID_MIX_TOLD : LID_MIX_NOT_TOLD;
}

static char *
name_class (gint64 class)
{
  return lid_units_capacity (class);
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_CAPACITIES,
    .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
    .ask = LID_FACT_CAPACITY,
    .always = FALSE,
    .says = N_ ("Modules of different capacity are mixed: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_capacities = {
  .id = "mixed-capacities",
  .title = N_ ("capacities mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("Many boards take two capacities in one machine at most, several later ones a single "
             "one. The board's definition says how many."),
  .clears = N_ ("Keep no more different capacities than the board takes."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_mix,
};
