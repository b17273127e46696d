/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mix.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Stacked (3DS) modules are asked for by chip-id wires that others lack, and differ among each
 * other by height and capacity: shared/facts/population.md 1.1. Only modules with a register are
 * stacked so, and none before DDR3 (from memory). */
#define PLAIN 0

/* What is not told of a stack and makes its class; LID_N_FACTS: all is told. */
static LidFact
ask_for (const LidModule *module)
{
  static const LidFact facts[]
      = { LID_FACT_STACK, LID_FACT_RANKS, LID_FACT_LOGICAL_RANKS, LID_FACT_CAPACITY };

  for (guint i = 0; i < G_N_ELEMENTS (facts); i++)
    if (!lid_module_knows (module, facts[i]))
      return facts[i];
  return LID_N_FACTS;
}

static LidMixAnswer
class_of (const LidModule *module, gint64 *class)
{
  LidGeneration generation = lid_module_generation (module);
  gint64 height;

  *class = PLAIN;
  if (generation >= LID_GENERATION_DDR && generation < LID_GENERATION_DDR3)
    return LID_MIX_TOLD;
  switch ((int)lid_module_kind (module))
    {
    case LID_KIND_UNBUFFERED:
    case LID_KIND_ECC_UNBUFFERED:
    case LID_KIND_SO_UNBUFFERED:
    case LID_KIND_SO_ECC_UNBUFFERED:
      return LID_MIX_TOLD;
    default:
      break;
    }
  if (lid_module_knows (module, LID_FACT_STACK) && module->value[LID_FACT_STACK] != LID_STACK_3DS)
    return LID_MIX_TOLD;
  if (ask_for (module) != LID_N_FACTS)
    return LID_MIX_NOT_TOLD;
  height = module->value[LID_FACT_LOGICAL_RANKS] / MAX (module->value[LID_FACT_RANKS], 1);
  *class = ((height + 1) << 40) | lid_module_capacity (module);
  return LID_MIX_TOLD;
}

static char *
name_class (gint64 class)
{
  if (class == PLAIN)
    return g_strdup (_ ("not stacked"));
  return g_strdup_printf (_ ("3DS %d high of %d GB"), (int)(class >> 40) - 1,
                          (int)((class & ((G_GINT64_CONSTANT (1) << 40) - 1)) / 1024));
}

static void
check_mix (LidCheck *check)
{
  static const LidMixCheck what = {
    .mix = LID_MIX_STACKS,
    .facts = LID_FACT_BIT (LID_FACT_STACK) | LID_FACT_BIT (LID_FACT_RANKS)
             | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS) | LID_FACT_BIT (LID_FACT_CAPACITY),
    .ask_for = ask_for,
    .always = TRUE,
    .says = N_ ("Stacked modules are mixed with others: %s."),
    .class_of = class_of,
    .name = name_class,
  };

  lid_mix_check (check, &what);
}

const LidRule lid_rule_mixed_stacks = {
  .id = "mixed-stacks",
  .title = N_ ("3DS mixed"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_EXCHANGE,
  .why
  = N_ ("Stacked (3DS) modules are addressed through wires that others do not have, and stacks of "
        "another height or size are addressed in another way. A machine takes one of them."),
  .clears = N_ ("Keep stacked modules of one height and size, or none at all."),
  .facts = LID_FACT_BIT (LID_FACT_STACK) | LID_FACT_BIT (LID_FACT_RANKS)
           | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS) | LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "physics",
  .source = LID_COMMON_PRACTICE,
  .check = check_mix,
};
