/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Models of one family differ in what they address. Where the model is not told, the least of the
 * board's models counts: unsure either way (settled reading 7). */
static gint64
most_of (const LidCheck *check, guint socket, const LidProcessorModel **by)
{
  int model = check->population->processors[socket].model;
  gint64 least = 0;

  for (guint i = 0; i < check->board->n_processors; i++)
    {
      const LidProcessorModel *here = &check->board->processors[i];

      if ((model != LID_NOWHERE && model != (int)i) || here->most_mib == 0)
        continue;
      if (least == 0 || here->most_mib < least)
        {
          least = here->most_mib;
          *by = here;
        }
    }
  return least;
}

static void
check_socket (LidCheck *check, guint socket)
{
  const LidProcessorModel *by = NULL;
  gint64 most = most_of (check, socket, &by), mib = 0;
  g_autofree char *sum = NULL, *limit = NULL;
  LidSlotSet slots = { { 0 } };
  gboolean told = check->population->processors[socket].model != LID_NOWHERE;

  if (most == 0 || !check->population->processors[socket].fitted)
    return;
  for (guint i = 0; i < check->n_live; i++)
    {
      guint slot = check->live[i];

      if (check->board->slots[slot].socket != (int)socket || !lid_check_counts (check, slot))
        continue;
      if (!lid_module_knows (lid_check_module (check, slot), LID_FACT_CAPACITY))
        lid_check_miss (check, LID_FACT_CAPACITY, slot);
      mib += lid_module_capacity (lid_check_module (check, slot));
      lid_slot_set_add (&slots, slot);
    }
  if (mib <= most)
    return;
  sum = lid_units_capacity (mib);
  limit = lid_units_capacity (most);
  lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, &slots,
                 told ? g_strdup_printf (_ ("Processor %s has %s; its model addresses %s. What is "
                                            "above may not be seen."),
                                         check->board->sockets[socket].name, sum, limit)
                      : g_strdup_printf (_ ("Processor %s has %s; its model is not told, and the "
                                            "smallest this board takes addresses %s. Setup shows "
                                            "the model."),
                                         check->board->sockets[socket].name, sum, limit))
      ->source
      = by->source != NULL ? by->source : check->board->source;
}

static void
check_processors (LidCheck *check)
{
  for (guint i = 0; i < check->board->n_sockets; i++)
    check_socket (check, i);
}

const LidRule lid_rule_processor_capacity = {
  .id = "processor-capacity",
  .title = N_ ("capacity a processor addresses"),
  .scope = LID_SCOPE_SOCKET,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_UNSURE),
  .cures = LID_CURE_SPREAD,
  .why = N_ ("Processors of one family differ in how much memory they address. What is above that "
             "may not be seen."),
  .clears = N_ ("Fit less at this processor, or a processor that addresses more. Where its model "
                "is not told, enter it in the facts of the job."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_processors,
};
