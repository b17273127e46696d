/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/rank-rows.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Each rank needs a select wire of its own, and a channel has so many:
 * shared/facts/population.md 1.2. */
static void
check_row (LidCheck *check, const LidRankLimit *row)
{
  LidRankRows found = { 0 };
  g_autofree char *names = NULL, *channels = NULL;
  LidFinding *finding;

  lid_rank_rows_walk (check, row, TRUE, &found);
  if (lid_slot_set_is_empty (&found.surplus))
    return;
  names = lid_names_slots (check, &found.surplus);
  channels = lid_names_channels (check, &found.channels);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &found.surplus,
      g_strdup_printf (_ ("More ranks than a channel takes on %s: up to %u, and the board "
                          "takes %u. By the rules not seen: %s."),
                       channels, found.most, row->most_ranks, names));
  finding->source = row->source != NULL ? row->source : check->board->source;
  lid_remedy_take_out (check, finding, &found.surplus);
}

static void
check_ranks (LidCheck *check)
{
  for (guint i = 0; i < check->board->n_rank_limits; i++)
    check_row (check, &check->board->rank_limits[i]);
}

const LidRule lid_rule_rank_limit = {
  .id = "rank-limit",
  .title = N_ ("ranks a channel takes"),
  .scope = LID_SCOPE_CHANNEL,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .cures = LID_CURE_SETTLE | LID_CURE_SPREAD,
  .why = N_ ("Each rank of chips is called by a select wire of its own, and a channel has only so "
             "many. What goes beyond is not seen."),
  .clears = N_ ("Take modules off the channel, or fit ones with fewer ranks."),
  .facts = LID_FACT_BIT (LID_FACT_RANKS) | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS)
           | LID_FACT_BIT (LID_FACT_KIND),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_ranks,
};
