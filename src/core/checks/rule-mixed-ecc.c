/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Some boards take the pair and turn ECC off (from memory): then their definition says so. */
static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  *class = module->value[LID_FACT_ECC];
  return module->basis[LID_FACT_ECC] ? LID_MIX_TOLD : LID_MIX_NOT_TOLD;
}

static char *
name_class (gint64 class)
{
  return g_strdup (class != 0 ? _ ("with ECC") : _ ("without ECC"));
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_ECC,
    .facts = LID_FACT_BIT (LID_FACT_ECC),
    .ask = LID_FACT_ECC,
    .always = TRUE,
    .says = N_ ("Modules with and without ECC are mixed: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_ecc = {
  .id = "mixed-ecc",
  .title = N_ ("ECC mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("With ECC the controller keeps check bits beside the data, and a module without them "
             "has no place for these. Some boards take the pair and turn ECC off for all (from "
             "memory); then the board's definition says so."),
  .clears = N_ ("Keep modules with ECC, or modules without: not both."),
  .facts = LID_FACT_BIT (LID_FACT_ECC),
  .basis = "physics",
  .source = "F. Denneman, Memory Deep Dive series",
  .check = check_mix,
};
