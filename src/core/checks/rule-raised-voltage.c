/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "checks/words.h"
#include "figures/rate-table.h"

#include <glib/gi18n-lib.h>

/* The channels without a row at the voltage that is passed over, and what is on them. */
typedef struct
{
  LidSlotSet slots, channels;
  guint most_filled;
  const char *source; /* of the row that holds for the first of them as it runs */
} Found;

static gboolean
has_row (const LidCheck *check, guint channel, guint filled, guint32 volt)
{
  LidChannelRate rate;

  lid_rate_table_look_up (check->survey, channel, filled, volt, &rate);
  return rate.row != LID_ROW_MISSING;
}

/* Those that have a row only at the voltage taken: what has none there either raised nothing. */
static void
find_channels (const LidCheck *check, guint32 volt, Found *found)
{
  for (guint c = 0; c < check->board->n_channels; c++)
    {
      const LidSurveyChannel *here = &check->survey->channels[c];
      const LidChannelRate *runs = &check->figures->rates[c];

      if (runs->row == LID_ROW_SILENT || runs->row == LID_ROW_MISSING
          || has_row (check, c, here->n_fitted, volt))
        continue;
      lid_slot_set_add (&found->channels, c);
      for (guint i = 0; i < here->n_fitted; i++)
        lid_slot_set_add (&found->slots, here->fitted[i]);
      found->most_filled = MAX (found->most_filled, here->n_fitted);
      if (found->source == NULL)
        found->source = check->board->rates[runs->row_index].source;
    }
}

static gboolean
have_rows (const LidCheck *check, const Found *found, guint32 volt, guint most)
{
  LID_SLOT_SET_EACH (&found->channels, c)
    if (!has_row (check, (guint)c, MIN (most, check->survey->channels[c].n_fitted), volt))
      return FALSE;
  return TRUE;
}

/* So many modules on each of these channels, or fewer where they have fewer, have a row at @volt;
 * 0: no number has. An empty channel needs none. */
static guint
count_that_do (const LidCheck *check, const Found *found, guint32 volt)
{
  guint n = found->most_filled;

  while (!have_rows (check, found, volt, n))
    n--;
  return n;
}

static void
speak (LidCheck *check, guint32 volt, guint32 instead)
{
  g_autofree char *could = lid_words_voltages (volt), *runs = lid_words_voltages (instead);
  g_autofree char *where = NULL;
  Found found = { 0 };
  LidFinding *finding;
  guint fewer;

  find_channels (check, volt, &found);
  where = lid_names_channels (check, &found.channels);
  finding = lid_check_add (
      check, LID_GRADE_NOTE, LID_STOPS_NOTHING, &found.slots,
      g_strdup_printf (_ ("All modules can run at %s, but at that voltage the board's rate table "
                          "has no row for the modules of %s (%u on the channel): the machine runs "
                          "all of them at %s."),
                       could, where, found.most_filled, runs));
  if (found.source != NULL)
    finding->source = found.source;
  fewer = count_that_do (check, &found, volt);
  if (fewer > 0)
    lid_remedy_say (check, finding,
                    g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                                  "It runs so, only warmer. With %u module on the "
                                                  "channel the table has a row at %s.",
                                                  "It runs so, only warmer. With %u modules on the "
                                                  "channel the table has a row at %s.",
                                                  fewer),
                                     fewer, could));
}

/* On automatic the machine takes the lowest voltage that all modules can run at and for which the
 * table has rows (figures/rate-table.c); what it passes over, nobody would see. Where a module does
 * not tell what it can run at, whether anything is passed over is not known either. */
static void
check_raised (LidCheck *check)
{
  guint32 instead, volt;
  gboolean told;

  volt = lid_rate_table_passed_over (check->survey, &instead, &told);
  if (volt == 0)
    return;
  if (told)
    {
      speak (check, volt, instead);
      return;
    }
  for (guint i = 0; i < check->n_live; i++)
    if (!lid_module_knows (lid_check_module (check, check->live[i]), LID_FACT_VOLTAGE))
      lid_check_miss (check, LID_FACT_VOLTAGE, check->live[i]);
}

const LidRule lid_rule_raised_voltage = {
  .id = "raised-voltage",
  .title = N_ ("voltage raised for a row of the rate table"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_NOTE),
  .no_moves
  = N_ ("It runs so, only warmer; whether fewer modules on a channel are worth it is the owner's "
        "word."),
  .why = N_ ("All modules get one voltage, and the board's rate table lists how many modules a "
             "channel takes at each. Left to itself, setup takes the lowest voltage at which "
             "everything fitted has a row, so one full channel takes all modules up."),
  .clears = N_ ("Nothing needs doing. With fewer modules on the channels named, or ones of fewer "
                "ranks, the machine runs at the lower voltage and cooler."),
  .facts = LID_FACT_BIT (LID_FACT_VOLTAGE),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_raised,
};
