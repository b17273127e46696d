/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/finding.h"

#include "checks/remedies.h"
#include "checks/remedy.h"
#include "checks/rule.h"

#include <glib/gi18n-lib.h>

static const struct
{
  const char *text;
  const char *words;
} grades[] = {
  [LID_GRADE_NOTE] = { "note", N_ ("note") },
  [LID_GRADE_UNSURE] = { "unsure", N_ ("unsure") },
  [LID_GRADE_LOSES] = { "loses", N_ ("loses") },
  [LID_GRADE_STOPS] = { "stops", N_ ("stops") },
};

/**
 * lid_finding_free:
 * @finding: (nullable): a finding with its text, slots and remedy
 */
void
lid_finding_free (LidFinding *finding)
{
  if (finding == NULL)
    return;
  lid_remedy_free (finding->remedy);
  g_free (finding->slots);
  g_free (finding->text);
  g_free (finding->decides);
  g_free (finding);
}

/**
 * lid_finding_remedy:
 * @finding: a finding of an assessment that still stands
 *
 * The first of an assessment that is asked works all of them out: tens of microseconds for a large
 * machine. For one thread at a time.
 *
 * Returns: (transfer none) (nullable): what to do about it
 */
const LidRemedy *
lid_finding_remedy (const LidFinding *finding)
{
  if (finding->remedies != NULL)
    lid_remedies_work_out (finding->remedies);
  return finding->remedy;
}

/**
 * lid_finding_rule_id:
 *
 * Returns: the id of the rule that speaks, as in JSON
 */
const char *
lid_finding_rule_id (const LidFinding *finding)
{
  return finding->rule->id;
}

/**
 * lid_finding_rule_title:
 *
 * Returns: the rule's few words in the reader's language
 */
const char *
lid_finding_rule_title (const LidFinding *finding)
{
  return _ (finding->rule->title);
}

/**
 * lid_grade_to_text:
 *
 * Returns: the grade's word in JSON
 */
const char *
lid_grade_to_text (LidGrade grade)
{
  g_return_val_if_fail ((guint)grade < G_N_ELEMENTS (grades), NULL);
  return grades[grade].text;
}

/**
 * lid_grade_to_words:
 *
 * Returns: the grade in the reader's language
 */
const char *
lid_grade_to_words (LidGrade grade)
{
  g_return_val_if_fail ((guint)grade < G_N_ELEMENTS (grades), NULL);
  return _ (grades[grade].words);
}

/**
 * lid_stops_to_text:
 *
 * Returns: (nullable): "machine" or "slots"; NULL where nothing is stopped
 */
const char *
lid_stops_to_text (LidStops stops)
{
  switch (stops)
    {
    case LID_STOPS_MACHINE:
      return "machine";
    case LID_STOPS_SLOTS:
      return "slots";
    case LID_STOPS_NOTHING:
    default:
      return NULL;
    }
}
