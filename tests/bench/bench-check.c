/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a check of a full machine takes: 192 slots, 8 sockets of 12 channels of 2, findings and
 * figures included. Aim: a median of at most 100 microseconds in a release build. */
#include "checks/assessment.h"
#include "figures-case.h"

#include <stdlib.h>

#define ROUNDS 2001

static const char machine[]
    = "{\"layout\": {\"sockets\": 8, \"controllers\": 12, \"slots\": "
      "[2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2]},"
      " \"board\": {\"takes\": {\"generations\": [\"DDR5\"], \"kinds\": [\"registered\"],"
      " \"voltages_mv\": [1100], \"ecc\": \"needed\"},"
      " \"rates\": [{\"filled\": 1, \"mts\": 4800, \"source\": \"invented\"},"
      " {\"filled\": 2, \"mts\": 4400, \"source\": \"invented\"}],"
      " \"ranks\": {\"limits\": [{\"most_ranks\": 8, \"source\": \"invented\"}]},"
      " \"mixing\": [{\"mix\": \"widths\", \"scope\": \"channel\", \"grade\": \"stops\","
      " \"stops\": \"slots\", \"source\": \"invented\"}],"
      " \"limits\": [{\"what\": \"module\", \"mib\": 65536, \"basis\": \"listed\","
      " \"source\": \"invented\"}], \"own_memory\": \"required\"},"
      " \"modules\": {\"A\": \"64GB 2Rx4 PC5-4800B-RA0-1010-XT\","
      " \"B\": \"32GB 2Rx8 PC5-4800B-RE0-1010-XT\","
      " \"C\": {\"part\": \"TRN-9\", \"generation\": \"DDR5\", \"kind\": \"registered\","
      " \"capacity_mib\": 32768}}, %s}";

static int
compare (const void *a, const void *b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? -1 : x > y;
}

/* Every slot gets a module object of its own, as from an inventory with serial numbers. */
static void
unshare (LidPopulation *population)
{
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module != NULL)
      {
        g_autoptr (LidModule) copy = lid_module_copy (population->slots[i].module);

        lid_population_put (population, i, copy);
      }
}

/* Remedies are worked out when the first is asked for. Returns the median in ns. */
static gint64
measure_one (const char *name, const char *put, gboolean remedies)
{
  g_autoptr (FiguresCase) c = figures_case_parse (machine, put);
  LidQuestion question = { c->board, c->population, NULL };
  static gint64 times[ROUNDS];
  guint n_findings = 0;

  unshare (c->population);
  for (guint i = 0; i < ROUNDS; i++)
    {
      struct timespec before, after;
      LidAssessment *assessment;

      clock_gettime (CLOCK_MONOTONIC, &before);
      assessment = lid_assessment_new (&question);
      n_findings = assessment->findings->len;
      if (remedies && n_findings > 0)
        lid_finding_remedy (assessment->findings->pdata[0]);
      lid_assessment_free (assessment);
      clock_gettime (CLOCK_MONOTONIC, &after);
      times[i] = (after.tv_sec - before.tv_sec) * 1000000000 + (after.tv_nsec - before.tv_nsec);
    }
  qsort (times, ROUNDS, sizeof *times, compare);
  g_print ("check 192 slots, %s%s: median %.1f us, %u findings\n", name,
           remedies ? ", with remedies" : "", (double)times[ROUNDS / 2] / 1000, n_findings);
  return times[ROUNDS / 2];
}

static void
measure (const char *name, const char *put)
{
  gint64 plain = measure_one (name, put, FALSE), with = measure_one (name, put, TRUE);

  g_print ("check 192 slots, %s: remedies cost %.1f checks\n", name,
           (double)(with - plain) / (double)plain);
}

int
main (void)
{
  measure ("all alike", "\"put\": {\"A\": \"*\"}");
  measure ("two parts", "\"put\": {\"B\": \"1-A1 1-A2 3-B1 3-B2 8-L2\", \"A\": \"*\"}");
  measure ("facts not told", "\"put\": {\"C\": \"1-A1 1-A2 3-B1 3-B2 8-L2\", \"A\": \"*\"}");
  measure ("96 of 192, wrong way",
           "\"put\": {\"A\": \"1-A2 1-B2 1-C2 1-D2 2-A1 2-B1 2-C1 2-D1 3-A1 3-A2 3-B1 3-B2\"}");
  return 0;
}
