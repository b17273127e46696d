/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* DDR5 registered modules are sold with 8 and with 16 check wires; a machine runs one of the two.
 * Modules without ECC are rule-mixed-ecc.c's. */
static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  if (lid_module_generation (module) != LID_GENERATION_DDR5
      || (lid_module_knows (module, LID_FACT_ECC) && module->value[LID_FACT_ECC] == 0))
    return LID_MIX_OUTSIDE;
  *class = module->value[LID_FACT_CHECK_BITS];
  return module->basis[LID_FACT_CHECK_BITS] ? LID_MIX_TOLD : LID_MIX_NOT_TOLD;
}

static char *
name_class (gint64 class)
{
  return g_strdup_printf (_ ("%d check wires"), (int)class);
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_CHECK_BITS,
    .facts = LID_FACT_BIT (LID_FACT_CHECK_BITS),
    .ask = LID_FACT_CHECK_BITS,
    .always = TRUE,
    .says = N_ ("DDR5 modules with different numbers of check wires are mixed: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_check_bits = {
  .id = "mixed-check-bits",
  .title = N_ ("check-bit widths mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("DDR5 modules with ECC are sold with 8 and with 16 check wires. The controllers are "
             "set to one of the two for all modules."),
  .clears = N_ ("Keep modules with one number of check wires."),
  .facts = LID_FACT_BIT (LID_FACT_CHECK_BITS),
  .basis = "physics",
  .source = LID_FROM_MEMORY,
  .check = check_mix,
};
