/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/rank-rows.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "checks/words.h"

#include <glib/gi18n-lib.h>

static char *
say (LidCheck *check, const LidRankLimit *row, const LidRankRows *found)
{
  g_autofree char *names = lid_names_slots (check, &found->surplus);
  g_autofree char *channels = lid_names_channels (check, &found->channels);
  g_autofree char *kinds = lid_words_kinds (row->kinds);

  if (row->least_module_ranks > 1)
    return g_strdup_printf (_ ("On %s: up to %u modules of %u ranks or more, and the board "
                               "takes %u of those. By the rules not seen: %s."),
                            channels, found->most, row->least_module_ranks, row->most_modules,
                            names);
  if (row->kinds != 0)
    return g_strdup_printf (_ ("On %s: up to %u modules, and of the kind %s the board takes "
                               "%u. By the rules not seen: %s."),
                            channels, found->most, kinds, row->most_modules, names);
  return g_strdup_printf (
      _ ("On %s: up to %u modules, and the board takes %u. By the rules not seen: %s."), channels,
      found->most, row->most_modules, names);
}

static void
check_modules (LidCheck *check)
{
  for (guint i = 0; i < check->board->n_rank_limits; i++)
    {
      const LidRankLimit *row = &check->board->rank_limits[i];
      LidRankRows found = { 0 };
      LidFinding *finding;

      lid_rank_rows_walk (check, row, FALSE, &found);
      if (lid_slot_set_is_empty (&found.surplus))
        continue;
      finding = lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &found.surplus,
                               say (check, row, &found));
      finding->source = row->source != NULL ? row->source : check->board->source;
      lid_remedy_take_out (check, finding, &found.surplus);
    }
}

const LidRule lid_rule_modules_limit = {
  .id = "modules-limit",
  .title = N_ ("modules of one kind a channel takes"),
  .scope = LID_SCOPE_CHANNEL,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_SETTLE | LID_CURE_SPREAD,
  .why = N_ ("Modules of many ranks load the wires more than others. The board's definition says "
             "how many of them one channel takes; those beyond are not seen."),
  .clears = N_ ("Move the surplus to other channels, or fit modules with fewer ranks."),
  .facts = LID_FACT_BIT (LID_FACT_RANKS) | LID_FACT_BIT (LID_FACT_KIND),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_modules,
};
