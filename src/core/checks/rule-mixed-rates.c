/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* All run at the slowest, which the running rate tells; a board may still forbid it. */
static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  *class = module->value[LID_FACT_RATED];
  return module->basis[LID_FACT_RATED] ? LID_MIX_TOLD : LID_MIX_NOT_TOLD;
}

static char *
name_class (gint64 class)
{
  return lid_units_rate ((LidRate) class);
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_RATES,
    .facts = LID_FACT_BIT (LID_FACT_RATED),
    .ask = LID_FACT_RATED,
    .always = FALSE,
    .says = N_ ("Modules of different rated rate are mixed: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_rates = {
  .id = "mixed-rates",
  .title = N_ ("rated rates mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("Mostly modules of different rating simply run at the rate of the slowest. This "
             "board's definition says more than that."),
  .clears = N_ ("Keep modules of one rating where the board asks for it."),
  .facts = LID_FACT_BIT (LID_FACT_RATED),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_mix,
};
