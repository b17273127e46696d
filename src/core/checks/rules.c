/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rules.h"

#include <string.h>

const LidRule *const lid_rules[] = {
  &lid_rule_wrong_generation,
  &lid_rule_mixed_generations,
  &lid_rule_wrong_form,
  &lid_rule_wrong_voltage,
  &lid_rule_too_tall,
  &lid_rule_wrong_kind,
  &lid_rule_no_ecc,
  &lid_rule_mixed_kinds,
  &lid_rule_mixed_ecc,
  &lid_rule_mixed_stacks,
  &lid_rule_mixed_check_bits,
  &lid_rule_mixed_widths,
  &lid_rule_mixed_densities,
  &lid_rule_mixed_capacities,
  &lid_rule_mixed_ranks,
  &lid_rule_mixed_rates,
  &lid_rule_mixed_voltages,
  &lid_rule_raised_voltage,
  &lid_rule_absent_processor,
  &lid_rule_not_seen,
  &lid_rule_firmware_level,
  &lid_rule_lone_module,
  &lid_rule_first_slot,
  &lid_rule_rank_limit,
  &lid_rule_modules_limit,
  &lid_rule_exclusion,
  &lid_rule_missing_rate_row,
  &lid_rule_capacity_module,
  &lid_rule_capacity_channel,
  &lid_rule_capacity_socket,
  &lid_rule_capacity_machine,
  &lid_rule_processor_capacity,
  &lid_rule_order_of_fitting,
  &lid_rule_larger_first,
  &lid_rule_rate_not_known,
  &lid_rule_more_than_found,
  &lid_rule_no_memory,
  &lid_rule_processor_without_memory,
  &lid_rule_unmatched_sockets,
  &lid_rule_idle_channels,
  &lid_rule_uneven_controllers,
  &lid_rule_uneven_channels,
  &lid_rule_split_regions,
  &lid_rule_slowed,
  &lid_rule_mode_not_offered,
  &lid_rule_mode_size,
  &lid_rule_mode_counts,
  &lid_rule_mode_pairs,
  &lid_rule_mode_ranks,
  &lid_rule_mode_unused,
  &lid_rule_memory_mode,
  &lid_rule_numa_split,
  &lid_rule_persistent_among_dram,
  &lid_rule_blanks,
  &lid_rule_baffle,
  &lid_rule_cooling,
  &lid_rule_unknown_facts,
  NULL,
};

G_STATIC_ASSERT (G_N_ELEMENTS (lid_rules) <= LID_MOST_RULES);

/**
 * lid_rules_run:
 * @check: the context
 * @phase: which rules
 * @without: (nullable): a rule to leave out; only tests do
 *
 * Ends where something stops that may not.
 */
void
lid_rules_run (LidCheck *check, LidPhase phase, const LidRule *without)
{
  for (guint i = 0; lid_rules[i] != NULL && !check->refused; i++)
    {
      if (lid_rules[i]->phase != phase || lid_rules[i] == without)
        continue;
      check->rule = lid_rules[i];
      check->rule_index = i;
      lid_rules[i]->check (check);
    }
}

/**
 * lid_rules_find:
 * @id: a rule's id
 *
 * Returns: (nullable): the rule
 */
const LidRule *
lid_rules_find (const char *id)
{
  for (guint i = 0; lid_rules[i] != NULL; i++)
    if (strcmp (lid_rules[i]->id, id) == 0)
      return lid_rules[i];
  return NULL;
}
