/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Key "power" of check: milliwatts of all modules and of each, ranges to plan with. */
#include "check-report.h"

#include "figures/power.h"

static void
write_range (LidJsonWriter *writer, gint64 low, gint64 high, gboolean known)
{
  lid_json_write_int_or_null (writer, "low_mw", low, known);
  lid_json_write_int_or_null (writer, "high_mw", high, known);
}

static void
write_modules (LidJsonWriter *writer, const LidBoard *board, const LidPopulation *population)
{
  lid_json_write_open (writer, "modules", '[');
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *module = lid_power_drawn_by (board, population, i);
      LidPower power;

      if (module == NULL)
        continue;
      power = lid_power_module (board, module, population->setup_mv);
      lid_json_write_open (writer, NULL, '{');
      lid_json_write_text (writer, "slot", board->slots[i].id);
      write_range (writer, power.low_mw, power.high_mw, power.known);
      lid_json_write_text (writer, "source", power.known ? power.source : NULL);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

/**
 * lid_check_report_power:
 * @writer: gets the member "power"
 * @of: which population; its change since as found is told of the others
 */
void
lid_check_report_power (LidJsonWriter *writer, const LidJob *job, LidOf of)
{
  const LidPopulation *population = lid_job_get_population (job, of);
  LidPowerSum all = lid_power_machine (job->board, population);

  lid_json_write_open (writer, "power", '{');
  write_range (writer, all.low_mw, all.high_mw, all.n > all.n_not_known);
  lid_json_write_int (writer, "not_known", all.n_not_known);
  if (of != LID_AS_FOUND && job->as_found != NULL)
    {
      LidPowerSum change = lid_power_change (job->board, job->as_found, population);

      lid_json_write_open (writer, "added", '{');
      write_range (writer, change.low_mw, change.high_mw, change.n_not_known == 0);
      lid_json_write_close (writer, '}');
    }
  else
    lid_json_write_null (writer, "added");
  write_modules (writer, job->board, population);
  lid_json_write_close (writer, '}');
}
