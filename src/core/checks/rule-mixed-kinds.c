/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Unbuffered with and without check bits is one kind here: their difference is rule-mixed-ecc.c's,
 * and one cause is one finding. */
static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  LidKind kind = lid_module_kind (module);

  if (kind == LID_KIND_ECC_UNBUFFERED)
    kind = LID_KIND_UNBUFFERED;
  else if (kind == LID_KIND_SO_ECC_UNBUFFERED)
    kind = LID_KIND_SO_UNBUFFERED;
  *class = kind;
  return kind != LID_KIND_UNKNOWN ? LID_MIX_TOLD : LID_MIX_NOT_TOLD;
}

static char *
name_class (gint64 class)
{
  return g_strdup (lid_kind_to_words ((LidKind) class));
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_KINDS,
    .facts = LID_FACT_BIT (LID_FACT_KIND),
    .ask = LID_FACT_KIND,
    .always = TRUE,
    .says = N_ ("Different kinds of module are mixed: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_kinds = {
  .id = "mixed-kinds",
  .title = N_ ("kinds mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("All modules of one machine are driven in one way. Registered, load-reduced and "
             "unbuffered ones ask for different ways, so that a machine starts with one kind only. "
             "A board may say that it maps the others out instead."),
  .clears = N_ ("Keep one kind and take the others out."),
  .facts = LID_FACT_BIT (LID_FACT_KIND),
  .basis = "physics",
  .source = LID_COMMON_PRACTICE,
  .check = check_mix,
};
