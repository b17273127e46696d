/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Boards differ: allowed within a channel, only across channels, or not at all; so only the board
 * speaks. */
static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  *class = module->value[LID_FACT_CHIP_WIDTH];
  return module->basis[LID_FACT_CHIP_WIDTH] ? LID_MIX_TOLD : LID_MIX_NOT_TOLD;
}

static char *
name_class (gint64 class)
{
  return g_strdup_printf ("x%d", (int)class);
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_WIDTHS,
    .facts = LID_FACT_BIT (LID_FACT_CHIP_WIDTH),
    .ask = LID_FACT_CHIP_WIDTH,
    .always = FALSE,
    .says = N_ ("Modules of different chip width are mixed: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_widths = {
  .id = "mixed-widths",
  .title = N_ ("chip widths mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_SETTLE | LID_CURE_SPREAD | LID_CURE_SORT | LID_CURE_EXCHANGE,
  .why = N_ (
      "The chips of a module hand over 4, 8 or 16 bits each. Some boards take both on one channel, "
      "some on different channels only, some not at all; a mode that protects against errors can "
      "forbid it where the plain mode allows it. The board's definition says what holds here."),
  .clears = N_ ("Keep one chip width where the board asks for it: on the channel, at the processor "
                "or in the machine."),
  .facts = LID_FACT_BIT (LID_FACT_CHIP_WIDTH),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_mix,
};
