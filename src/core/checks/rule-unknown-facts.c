/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"
#include "checks/names.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* What other rules missed: one `unsure` per fact and part number, never one per slot, saying what
 * it decides and where it is printed (product.md 3). */
static char *
say_what_it_decides (const LidCheck *check, LidFact fact)
{
  const char *titles[LID_MOST_RULES];
  guint n = 0;

  for (guint i = 0; lid_rules[i] != NULL; i++)
    if ((check->asked_by[fact][i / 64] >> (i % 64)) & 1)
      titles[n++] = _ (lid_rules[i]->title);
  return lid_text_join (titles, n, 4);
}

static void
speak (LidCheck *check, LidFact fact, const char *part, const LidSlotSet *slots)
{
  g_autofree char *names = lid_names_slots (check, slots);
  g_autofree char *decides = say_what_it_decides (check, fact);
  const char *words = lid_fact_to_words (fact), *where = lid_fact_where_printed (fact);

  LidFinding *finding;

  finding = lid_check_add (
      check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, slots,
      part != NULL ? g_strdup_printf (
          _ ("Not told of part %s in %s: %s. It decides: %s. Where to read it: %s."), part, names,
          words, decides, where)
                   : g_strdup_printf (
                       _ ("Not told of what is in %s: %s. It decides: %s. Where to read it: %s."),
                       names, words, decides, where));
  finding->fact = (int)fact;
  memcpy (finding->asked_by, check->asked_by[fact], sizeof finding->asked_by);
  finding->decides = g_steal_pointer (&decides);
}

static void
check_fact (LidCheck *check, LidFact fact)
{
  LidSlotSet rest = check->asked[fact];

  for (int first = lid_slot_set_next (&rest, 0); first != LID_NOWHERE;
       first = lid_slot_set_next (&rest, (guint)first + 1))
    {
      const char *part = lid_check_module (check, (guint)first)->part;
      LidSlotSet group = { { 0 } };

      for (int slot = first; slot != LID_NOWHERE; slot = lid_slot_set_next (&rest, (guint)slot + 1))
        if (g_strcmp0 (part, lid_check_module (check, (guint)slot)->part) == 0)
          {
            lid_slot_set_add (&group, (guint)slot);
            lid_slot_set_drop (&rest, (guint)slot);
          }
      speak (check, fact, part, &group);
    }
}

static void
check_facts (LidCheck *check)
{
  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    if (!lid_slot_set_is_empty (&check->asked[fact]))
      check_fact (check, fact);
}

const LidRule lid_rule_unknown_facts = {
  .id = "unknown-facts",
  .title = N_ ("facts that are not told"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_UNSURE),
  .no_moves = N_ ("Moving modules tells nobody a fact: it is read and told."),
  .why = N_ ("A rule needs a fact that nobody told. Nothing is guessed: there is one finding for "
             "each fact and part number, with what the fact decides and where it is printed."),
  .clears = N_ ("Read the fact from the label and tell it; it is remembered for every module of "
                "that part number."),
  .basis = "inventory",
  .source = LID_COMMON_PRACTICE,
  .check = check_facts,
};
