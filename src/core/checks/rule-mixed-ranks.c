/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Most boards take different ranks in the right order (rule-larger-first.c); some take none. */
static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  *class = module->value[LID_FACT_RANKS];
  return module->basis[LID_FACT_RANKS] ? LID_MIX_TOLD : LID_MIX_NOT_TOLD;
}

static char *
name_class (gint64 class)
{
  return g_strdup_printf (_ ("rank count %d"), (int)class);
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_RANKS,
    .facts = LID_FACT_BIT (LID_FACT_RANKS),
    .ask = LID_FACT_RANKS,
    .always = FALSE,
    .says = N_ ("Modules of different rank count are mixed: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_ranks = {
  .id = "mixed-ranks",
  .title = N_ ("ranks mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_SETTLE | LID_CURE_SPREAD | LID_CURE_SORT | LID_CURE_EXCHANGE,
  .why = N_ ("Most boards take modules of different rank count as long as the one with more ranks "
             "comes first; some take none. The board's definition says what holds here."),
  .clears = N_ ("Keep modules of one rank count where the board asks for it."),
  .facts = LID_FACT_BIT (LID_FACT_RANKS),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_mix,
};
