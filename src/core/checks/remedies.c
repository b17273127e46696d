/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/remedies.h"

struct _LidRemedies
{
  /* copies: the job goes on while the assessment stands */
  LidBoard *board;
  LidPopulation *population;
  LidPopulation *as_found; /* nullable */
  GPtrArray *at_hand;      /* nullable; LidModule */
  const GPtrArray *findings;
  gboolean worked_out;
};

/**
 * lid_remedies_new:
 * @question: what was asked; copied
 * @at_hand: (nullable) (element-type LidModule): what lies on the tray; referenced
 * @findings: borrowed from the assessment, which owns the result: LidFinding, sorted
 *
 * Returns: (transfer full): what is needed to work remedies out later
 */
LidRemedies *
lid_remedies_new (const LidQuestion *question, const GPtrArray *at_hand, const GPtrArray *findings)
{
  LidRemedies *remedies = g_new0 (LidRemedies, 1);

  remedies->board = lid_board_ref ((LidBoard *)question->board);
  remedies->population = lid_population_copy (question->population);
  if (question->as_found != NULL)
    remedies->as_found = lid_population_copy (question->as_found);
  if (at_hand != NULL)
    remedies->at_hand = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);
  for (guint i = 0; at_hand != NULL && i < at_hand->len; i++)
    g_ptr_array_add (remedies->at_hand, lid_module_ref (at_hand->pdata[i]));
  remedies->findings = findings;
  return remedies;
}

void
lid_remedies_free (LidRemedies *remedies)
{
  if (remedies == NULL)
    return;
  lid_board_unref (remedies->board);
  lid_population_free (remedies->population);
  g_clear_pointer (&remedies->as_found, lid_population_free);
  g_clear_pointer (&remedies->at_hand, g_ptr_array_unref);
  g_free (remedies);
}

/**
 * lid_remedies_work_out:
 *
 * Judges once more, with remedies this time, and gives each finding its own: one question has the
 * same findings in the same order whenever it is asked.
 */
void
lid_remedies_work_out (LidRemedies *remedies)
{
  const LidQuestion question = { remedies->board, remedies->population, remedies->as_found };
  g_autoptr (LidAssessment) again = NULL;

  if (remedies->worked_out)
    return;
  remedies->worked_out = TRUE;
  again = lid_assessment_new_how (
      &question, (LidAssessmentHow){ .at_hand = remedies->at_hand, .remedies = LID_REMEDIES_NOW });
  g_return_if_fail (again->findings->len == remedies->findings->len);
  for (guint i = 0; i < again->findings->len; i++)
    {
      LidFinding *from = again->findings->pdata[i], *to = remedies->findings->pdata[i];

      to->remedy = g_steal_pointer (&from->remedy);
    }
}
