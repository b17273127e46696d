/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

static gboolean
may_sit_alone (const LidBoard *board, guint slot)
{
  for (guint i = 0; i < board->n_lone; i++)
    if (board->lone[i] == slot)
      return TRUE;
  return FALSE;
}

/* A place for it on a fitted processor. */
static int
find_place (const LidCheck *check)
{
  for (guint i = 0; i < check->board->n_lone; i++)
    if (lid_check_module (check, check->board->lone[i]) == NULL
        && lid_survey_socket_fitted (check->survey, check->board->lone[i]))
      return (int)check->board->lone[i];
  return LID_NOWHERE;
}

static void
check_lone (LidCheck *check)
{
  LidSlotSet slots = { { 0 } }, wanted = { { 0 } };
  g_autofree char *name = NULL, *places = NULL;
  LidFinding *finding;
  int to;

  if (check->board->n_lone == 0 || check->n_dram != 1 || check->n_live != 1
      || may_sit_alone (check->board, check->dram[0]))
    return;
  lid_slot_set_add (&slots, check->dram[0]);
  for (guint i = 0; i < check->board->n_lone; i++)
    if (lid_survey_socket_fitted (check->survey, check->board->lone[i]))
      lid_slot_set_add (&wanted, check->board->lone[i]);
  if (lid_slot_set_is_empty (&wanted))
    lid_slot_set_add (&wanted, check->board->lone[0]);
  name = lid_names_slots (check, &slots);
  places = lid_names_slots (check, &wanted);
  finding = lid_check_add (
      check, check->board->lone_grade, check->board->lone_stops, &slots,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "One module alone belongs in %s on this board; it sits in %s.",
                                    "One module alone belongs in one of %s on this board; it sits "
                                    "in %s.",
                                    lid_slot_set_count (&wanted)),
                       places, name));
  finding->source = check->board->lone_source != NULL ? check->board->lone_source
                    : check->board->source != NULL    ? check->board->source
                                                      : LID_COMMON_PRACTICE;
  to = find_place (check);
  if (to == LID_NOWHERE)
    return;
  lid_remedy_say (
      check, finding,
      g_strdup_printf (_ ("Move it to %s."), lid_board_name_slot (check->board, (guint)to)));
  lid_remedy_move (check, finding, (int)check->dram[0], to);
}

const LidRule lid_rule_lone_module = {
  .id = "lone-module",
  .title = N_ ("one module in the right place"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_MACHINE,
  .board_decides = TRUE,
  .cures = LID_CURE_FIT,
  .why = N_ ("The board's definition names the slots for a single module. Many machines look for "
             "it there and nowhere else; the number of that slot is often not 1."),
  .clears = N_ ("Move the module to the slot that is named, or fit more modules."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_lone,
};
