/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "checks/words.h"

#include <glib/gi18n-lib.h>

/* Registered and unbuffered DDR4 share one key, so the wrong kind goes in, and then the machine
 * does not start: shared/facts/standards.md 4. Those of DDR5 do not: rule-wrong-form.c. */
static void
check_kind (LidCheck *check)
{
  guint32 taken = check->board->kinds, wrong = 0;
  g_autofree char *names = NULL, *takes = NULL, *found = NULL;
  LidSlotSet slots = { { 0 } };

  if (taken == 0 || (check->survey->kinds & ~taken) == 0)
    return;
  for (guint i = 0; i < check->n_dram; i++)
    {
      guint slot = check->dram[i];
      LidKind kind = lid_module_kind (lid_check_module (check, slot));

      if (!lid_check_fits (check, slot))
        continue;
      if (kind == LID_KIND_UNKNOWN)
        lid_check_miss (check, LID_FACT_KIND, slot);
      else if (!(taken & (1u << kind)))
        {
          lid_slot_set_add (&slots, slot);
          wrong |= 1u << kind;
        }
    }
  if (wrong == 0)
    return;
  names = lid_names_slots (check, &slots);
  takes = lid_words_kinds (taken);
  found = lid_words_kinds (wrong);
  lid_remedy_take_out (
      check,
      lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_MACHINE, &slots,
                     g_strdup_printf (_ ("What is in %s is %s: the board takes %s only and by the "
                                         "rules does not start with anything else."),
                                      names, found, takes)),
      &slots);
}

const LidRule lid_rule_wrong_kind = {
  .id = "wrong-kind",
  .title = N_ ("kind that the board does not take"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .cures = LID_CURE_EXCHANGE,
  .why = N_ ("Registered, load-reduced and unbuffered modules are driven in different ways. Some "
             "share one notch, so that the wrong kind goes in; then the machine stays dark."),
  .clears = N_ ("Take these modules out, or exchange them for a kind that the board takes."),
  .facts = LID_FACT_BIT (LID_FACT_KIND),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_kind,
};
