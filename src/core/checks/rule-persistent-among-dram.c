/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Persistent modules hold somebody's data and are no DRAM: never a plain pull (product.md 9). */
static void
check_persistent (LidCheck *check)
{
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL;

  if (check->n_live == check->n_dram)
    return;
  for (guint i = 0; i < check->n_live; i++)
    if (lid_check_module (check, check->live[i])->persistent)
      lid_slot_set_add (&slots, check->live[i]);
  if (lid_slot_set_is_empty (&slots))
    return;
  names = lid_names_slots (check, &slots);
  if (check->board->persistent_taken || check->board->derived)
    lid_check_add (
        check, LID_GRADE_NOTE, LID_STOPS_NOTHING, &slots,
        g_strdup_printf (_ ("Persistent memory among the DRAM in %s: it keeps data, is not counted "
                            "as capacity, and leaves only with the owner's written release."),
                         names));
  else
    lid_check_add (
        check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, &slots,
        g_strdup_printf (
            _ ("Persistent memory in %s, and the board's definition does not say that it takes "
               "any; the board's documents tell. It keeps data: the owner decides about it."),
            names));
}

const LidRule lid_rule_persistent_among_dram = {
  .id = "persistent-among-dram",
  .title = N_ ("persistent modules among DRAM"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_UNSURE) | LID_GRADE_BIT (LID_GRADE_NOTE),
  .no_moves = N_ ("Persistent modules hold somebody’s data: only their owner releases them."),
  .why = N_ ("Persistent modules keep data while the machine is off, and are not counted as main "
             "memory. Pulled without the owner's release, that data is lost."),
  .clears
  = N_ ("It stays for as long as they are fitted; they leave only with the owner's written "
        "release. Where the board's definition does not speak of them, its documents tell."),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_persistent,
};
