/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The checker asks for each fact of each part by itself, which programs want and people do not:
 * here the facts of one part share a line, and where a fact is printed is said once. */
#include "check-report.h"
#include "columns.h"

#include <glib/gi18n.h>
#include <string.h>

#define MOST_SLOTS 12u

/**
 * lid_check_report_head:
 * @finding: whose grade and slots
 *
 * The line over a finding: "unsure: A1, A2".
 */
void
lid_check_report_head (GString *out, const LidBoard *board, const LidFinding *finding)
{
  g_string_append (out, lid_grade_to_words (finding->grade));
  if (finding->stops == LID_STOPS_MACHINE)
    g_string_append (out, _ (" the machine"));
  for (guint i = 0; i < finding->n_slots && i < MOST_SLOTS; i++)
    g_string_append_printf (out, "%s%s", i == 0 ? ": " : ", ", board->slots[finding->slots[i]].id);
  if (finding->n_slots > MOST_SLOTS)
    g_string_append_printf (out, _ (" and %u more"), finding->n_slots - MOST_SLOTS);
  g_string_append_c (out, '\n');
}

static gboolean
same_slots (const LidFinding *a, const LidFinding *b)
{
  return a->fact != LID_NOWHERE && b->fact != LID_NOWHERE && a->n_slots == b->n_slots
         && memcmp (a->slots, b->slots, a->n_slots * sizeof *a->slots) == 0;
}

static gboolean
is_told_before (const GPtrArray *findings, guint at)
{
  for (guint i = 0; i < at; i++)
    if (same_slots (findings->pdata[i], findings->pdata[at]))
      return TRUE;
  return FALSE;
}

static void
add_part (GString *out,
          const LidBoard *board,
          const LidPopulation *population,
          const GPtrArray *findings,
          guint at)
{
  const LidFinding *first = findings->pdata[at];
  const LidModule *module = population->slots[first->slots[0]].module;
  g_autoptr (GString) facts = g_string_new (NULL);

  for (guint i = at; i < findings->len; i++)
    {
      const LidFinding *finding = findings->pdata[i];

      if (same_slots (first, finding))
        g_string_append_printf (facts, "%s%s", facts->len > 0 ? ", " : "",
                                lid_fact_to_words ((LidFact)finding->fact));
    }
  lid_check_report_head (out, board, first);
  if (module != NULL && module->part != NULL)
    g_string_append_printf (out, _ ("    Not told of part %s: %s.\n"), module->part, facts->str);
  else
    g_string_append_printf (out, _ ("    Not told: %s.\n"), facts->str);
}

/* One row a fact: what it decides, and where it is printed. */
static void
add_places (GString *out, const GPtrArray *findings)
{
  LidColumns columns = { 0 };
  gboolean told[LID_N_FACTS] = { FALSE };

  lid_columns_start (&columns, 3);
  for (guint i = 0; i < findings->len; i++)
    {
      const LidFinding *finding = findings->pdata[i];

      if (finding->fact == LID_NOWHERE || told[finding->fact])
        continue;
      told[finding->fact] = TRUE;
      lid_columns_add (&columns, lid_fact_to_words ((LidFact)finding->fact));
      lid_columns_add (&columns, finding->decides);
      lid_columns_add (&columns, lid_fact_where_printed ((LidFact)finding->fact));
    }
  g_string_append (out, _ ("    Each fact, what it decides, where to read it:\n"));
  lid_columns_finish (&columns, out, "      ");
}

/**
 * lid_check_report_facts:
 * @population: the one that was assessed
 * @assessment: what was found; only the findings that ask for a fact are told here
 *
 * All the facts that are not told, part by part.
 */
void
lid_check_report_facts (GString *out,
                        const LidBoard *board,
                        const LidPopulation *population,
                        const LidAssessment *assessment)
{
  const GPtrArray *findings = assessment->findings;

  for (guint i = 0; i < findings->len; i++)
    if (((const LidFinding *)findings->pdata[i])->fact != LID_NOWHERE
        && !is_told_before (findings, i))
      add_part (out, board, population, findings, i);
  add_places (out, findings);
}
