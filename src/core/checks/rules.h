/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* The table of rules, in the order of the sheet: what stops first. A new rule is one file
 * rule-x.c, one declaration here and one line in rules.c. */
#define LID_MOST_RULES 128u
#define LID_RULE_WORDS (LID_MOST_RULES / 64u) /* of a set of rules, one bit each */

extern const LidRule *const lid_rules[]; /* NULL-terminated */

extern const LidRule lid_rule_absent_processor;
extern const LidRule lid_rule_baffle;
extern const LidRule lid_rule_cooling;
extern const LidRule lid_rule_blanks;
extern const LidRule lid_rule_capacity_channel;
extern const LidRule lid_rule_capacity_machine;
extern const LidRule lid_rule_capacity_module;
extern const LidRule lid_rule_capacity_socket;
extern const LidRule lid_rule_exclusion;
extern const LidRule lid_rule_firmware_level;
extern const LidRule lid_rule_first_slot;
extern const LidRule lid_rule_idle_channels;
extern const LidRule lid_rule_larger_first;
extern const LidRule lid_rule_lone_module;
extern const LidRule lid_rule_memory_mode;
extern const LidRule lid_rule_missing_rate_row;
extern const LidRule lid_rule_mixed_capacities;
extern const LidRule lid_rule_mixed_check_bits;
extern const LidRule lid_rule_mixed_densities;
extern const LidRule lid_rule_mixed_ecc;
extern const LidRule lid_rule_mixed_generations;
extern const LidRule lid_rule_mixed_kinds;
extern const LidRule lid_rule_mixed_ranks;
extern const LidRule lid_rule_mixed_rates;
extern const LidRule lid_rule_mixed_stacks;
extern const LidRule lid_rule_mixed_voltages;
extern const LidRule lid_rule_mixed_widths;
extern const LidRule lid_rule_mode_counts;
extern const LidRule lid_rule_mode_not_offered;
extern const LidRule lid_rule_mode_pairs;
extern const LidRule lid_rule_mode_ranks;
extern const LidRule lid_rule_mode_size;
extern const LidRule lid_rule_mode_unused;
extern const LidRule lid_rule_modules_limit;
extern const LidRule lid_rule_more_than_found;
extern const LidRule lid_rule_no_ecc;
extern const LidRule lid_rule_no_memory;
extern const LidRule lid_rule_not_seen;
extern const LidRule lid_rule_numa_split;
extern const LidRule lid_rule_order_of_fitting;
extern const LidRule lid_rule_persistent_among_dram;
extern const LidRule lid_rule_processor_capacity;
extern const LidRule lid_rule_processor_without_memory;
extern const LidRule lid_rule_raised_voltage;
extern const LidRule lid_rule_rank_limit;
extern const LidRule lid_rule_rate_not_known;
extern const LidRule lid_rule_slowed;
extern const LidRule lid_rule_split_regions;
extern const LidRule lid_rule_too_tall;
extern const LidRule lid_rule_uneven_channels;
extern const LidRule lid_rule_uneven_controllers;
extern const LidRule lid_rule_unknown_facts;
extern const LidRule lid_rule_unmatched_sockets;
extern const LidRule lid_rule_wrong_form;
extern const LidRule lid_rule_wrong_generation;
extern const LidRule lid_rule_wrong_kind;
extern const LidRule lid_rule_wrong_voltage;

/* What one rule knows and another asks: rule-exclusion.c */
gboolean lid_exclusion_keeps_empty (LidCheck *check, guint slot);

void lid_rules_run (LidCheck *check, LidPhase phase, const LidRule *without);
const LidRule *lid_rules_find (const char *id);
