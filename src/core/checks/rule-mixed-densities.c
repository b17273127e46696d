/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Same capacity, same rate, same kind, and still not to be mixed on some boards: the board speaks.
 */
static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  *class = module->value[LID_FACT_DIE];
  return module->basis[LID_FACT_DIE] ? LID_MIX_TOLD : LID_MIX_NOT_TOLD;
}

static char *
name_class (gint64 class)
{
  return g_strdup_printf (_ ("%d Gbit chips"), (int)class);
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_DENSITIES,
    .facts = LID_FACT_BIT (LID_FACT_DIE),
    .ask = LID_FACT_DIE,
    .always = FALSE,
    .says = N_ ("Modules with chips of different density are mixed: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_densities = {
  .id = "mixed-densities",
  .title = N_ ("die densities mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_SETTLE | LID_CURE_SPREAD | LID_CURE_SORT | LID_CURE_EXCHANGE,
  .why = N_ ("Modules of the same capacity, rate and kind can be built of chips of different size. "
             "These are addressed in different ways, and some boards do not drive both. The "
             "board's definition says what holds here."),
  .clears = N_ ("Keep modules whose chips have one size."),
  .facts = LID_FACT_BIT (LID_FACT_DIE),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_mix,
};
