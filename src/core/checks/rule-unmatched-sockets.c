/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/balance.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Facts in which two modules are known to differ. */
static gboolean
differ (const LidModule *a, const LidModule *b)
{
  static const LidFact facts[]
      = { LID_FACT_CAPACITY, LID_FACT_RANKS, LID_FACT_KIND, LID_FACT_CHIP_WIDTH };

  if (a == NULL || b == NULL)
    return a != b;
  if (lid_check_is_alike (a, b))
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (facts); i++)
    if (a->basis[facts[i]] && b->basis[facts[i]] && a->value[facts[i]] != b->value[facts[i]])
      return TRUE;
  return FALSE;
}

static const LidModule *
usable_in (const LidCheck *check, guint slot)
{
  return lid_check_is_usable (check, slot) ? lid_check_module (check, slot) : NULL;
}

/* Slot by slot in the order of the definition; sockets with different numbers of slots are held
 * against each other by their sums only. */
static gboolean
same_slot_by_slot (const LidCheck *check, int a, int b)
{
  guint j = 0, n = check->board->n_slots;

  for (guint i = 0; i < n; i++)
    if (check->board->slots[i].socket == a)
      {
        while (j < n && check->board->slots[j].socket != b)
          j++;
        if (j == n)
          return TRUE;
        if (differ (usable_in (check, i), usable_in (check, j++)))
          return FALSE;
      }
  return TRUE;
}

static void
speak_of_sums (LidCheck *check, int a, int b)
{
  const LidBoard *board = check->board;
  const LidBalanceSum *x = &check->balance->sockets[a], *y = &check->balance->sockets[b];
  g_autofree char *one = lid_units_capacity (x->mib), *other = lid_units_capacity (y->mib);

  lid_check_add (check, board->equal_sockets_told ? board->equal_sockets_grade : LID_GRADE_LOSES,
                 LID_STOPS_MACHINE, NULL,
                 g_strdup_printf (_ ("The processors are not matched: processor %s has %s "
                                     "(modules: %u), processor %s has %s (%u)."),
                                  board->sockets[a].name, one, x->n, board->sockets[b].name, other,
                                  y->n));
}

static void
speak_of_places (LidCheck *check, int a, int b)
{
  const LidBoard *board = check->board;

  lid_check_add (
      check, board->equal_sockets_told ? board->equal_sockets_grade : LID_GRADE_NOTE,
      LID_STOPS_MACHINE, NULL,
      g_strdup_printf (_ ("Processors %s and %s have the same capacity, but not the same "
                          "module in the same slot."),
                       board->sockets[a].name, board->sockets[b].name));
}

/* Spread evenly over processors (P5). Those without memory are another rule's. */
static void
check_sockets (LidCheck *check)
{
  int first = LID_NOWHERE, uneven = LID_NOWHERE, shuffled = LID_NOWHERE;
  gboolean sized = TRUE;

  for (int i = 0; i < (int)check->board->n_sockets && check->board->n_sockets > 1; i++)
    sized = lid_balance_is_sized (check, i) && sized;
  if (!sized)
    return;
  for (int i = 0; i < (int)check->board->n_sockets && uneven == LID_NOWHERE; i++)
    {
      const LidBalanceSum *here = &check->balance->sockets[i];

      if (!check->population->processors[i].fitted || here->n == 0)
        continue;
      if (first == LID_NOWHERE)
        first = i;
      else if (here->mib != check->balance->sockets[first].mib
               || here->n != check->balance->sockets[first].n)
        uneven = i;
      else if (shuffled == LID_NOWHERE && !same_slot_by_slot (check, first, i))
        shuffled = i;
    }
  if (uneven != LID_NOWHERE)
    speak_of_sums (check, first, uneven);
  else if (shuffled != LID_NOWHERE)
    speak_of_places (check, first, shuffled);
}

const LidRule lid_rule_unmatched_sockets = {
  .id = "unmatched-sockets",
  .title = N_ ("unmatched processors"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_USABLE,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES) | LID_GRADE_BIT (LID_GRADE_NOTE),
  .board_decides = TRUE,
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why = N_ ("Work is spread over all processors. One that has less memory than the other fetches "
             "more through it, which takes longer; some boards ask that all be filled alike."),
  .clears = N_ ("Fill the processors alike, slot by slot."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_sockets,
};
