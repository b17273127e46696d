/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/mode-refusal.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/mode-demands.h"

#include <glib/gi18n-lib.h>

/* A channel that sets k ranks aside needs more than k: shared/facts/population.md 3. */
static void
check_ranks (LidCheck *check)
{
  const LidBoardMode *rule = lid_board_find_mode (check->board, check->population->mode);
  guint least = lid_mode_demands_least_ranks (rule, check->figures->mode.spare_ranks);
  LidSlotSet slots, channels = { { 0 } };
  g_autofree char *names = NULL;
  LidFinding *finding;

  lid_mode_refusal_ask (check, LID_DEMAND_RANKS);
  if (lid_mode_refusal_met (check, LID_DEMAND_RANKS, &slots))
    return;
  LID_SLOT_SET_EACH (&slots, slot)
    lid_slot_set_add (&channels, (guint)check->board->slots[slot].channel);
  names = lid_names_channels (check, &channels);
  finding = lid_mode_refusal_add (
      check, &slots,
      g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "Each channel in use needs %u rank or more, and there are fewer on %s.",
                       "Each channel in use needs %u ranks or more, and there are fewer on %s.",
                       least),
          least, names));
  lid_remedy_say (check, finding,
                  g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                                "Fit a second module there, or one with more "
                                                "ranks, so that each channel in use has %u rank.",
                                                "Fit a second module there, or one with more "
                                                "ranks, so that each channel in use has %u ranks.",
                                                least),
                                   least));
}

const LidRule lid_rule_mode_ranks = {
  .id = "mode-ranks",
  .title = N_ ("ranks a channel needs to spare some"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .facts = LID_FACT_BIT (LID_FACT_RANKS) | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS)
           | LID_FACT_BIT (LID_FACT_KIND),
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why = N_ ("A spare rank stands in for one that fails, so every channel in use needs more ranks "
             "than it sets aside. One channel without is enough to refuse the mode."),
  .clears = N_ ("Fit modules with more ranks or a second module on that channel, or spare fewer."),
  .basis = "physics",
  .source = LID_COMMON_PRACTICE,
  .check = check_ranks,
};
