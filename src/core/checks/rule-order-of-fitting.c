/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Slots of one processor, read in the board's order: the filled ones should come first. Each
 * processor is read by itself, because an order that names one processor after the other does not
 * mean that the second must wait until the first is full (equal sockets: P5). What sits behind an
 * empty first slot, or alone, is another rule's cause. */
typedef struct
{
  LidSlotSet late;  /* filled although an earlier one is empty */
  LidSlotSet early; /* the empty ones that should be filled instead */
  guint n;
  int from[LID_BOARD_MAX_SLOTS], to[LID_BOARD_MAX_SLOTS];
} Disorder;

static gboolean
is_movable (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);

  return module != NULL && !module->persistent && check->board->slots[slot].soldered == NULL;
}

static void
read_socket (const LidCheck *check, int socket, Disorder *out)
{
  const LidBoard *board = check->board;
  guint first = 0, last = board->n_order;

  /* From both ends: the last filled slot goes into the first empty one until they meet. */
  for (;;)
    {
      while (first < last
             && (board->slots[board->order[first]].socket != socket
                 || lid_check_module (check, board->order[first]) != NULL))
        first++;
      while (last > first
             && (board->slots[board->order[last - 1]].socket != socket
                 || !is_movable (check, board->order[last - 1])
                 || lid_check_behind_empty (check, board->order[last - 1])))
        last--;
      if (first >= last)
        return;
      lid_slot_set_add (&out->early, board->order[first]);
      lid_slot_set_add (&out->late, board->order[last - 1]);
      out->from[out->n] = (int)board->order[last - 1];
      out->to[out->n++] = (int)board->order[first];
      first++;
      last--;
    }
}

static void
check_order (LidCheck *check)
{
  const LidBoard *board = check->board;
  Disorder found;
  g_autofree char *late = NULL, *early = NULL;
  LidFinding *finding;

  if (board->n_order == 0 || check->n_dram == 0
      || (board->n_lone > 0 && check->n_dram == 1 && check->n_live == 1))
    return;
  found.late = found.early = (LidSlotSet){ { 0 } };
  found.n = 0;
  for (int s = LID_NOWHERE; s < (int)board->n_sockets; s++)
    if (s == LID_NOWHERE || check->population->processors[s].fitted)
      read_socket (check, s, &found);
  if (found.n == 0)
    return;
  late = lid_names_slots (check, &found.late);
  early = lid_names_slots (check, &found.early);
  finding = lid_check_add (check, board->order_grade, LID_STOPS_MACHINE, &found.late,
                           g_strdup_printf (_ ("Out of the board's order of fitting: filled %s, "
                                               "still empty %s, which the order names earlier."),
                                            late, early));
  finding->source = board->order_source != NULL ? board->order_source
                    : board->source != NULL     ? board->source
                                                : LID_COMMON_PRACTICE;
  lid_remedy_say (check, finding, g_strdup_printf (_ ("Move %s to %s."), late, early));
  for (guint i = 0; i < found.n; i++)
    lid_remedy_move (check, finding, found.from[i], found.to[i]);
}

const LidRule lid_rule_order_of_fitting = {
  .id = "order-of-fitting",
  .title = N_ ("order of fitting"),
  .scope = LID_SCOPE_MACHINE, /* a lone module is left to another rule */
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .board_decides = TRUE,
  .cures = LID_CURE_SPREAD,
  .why = N_ ("The board's definition names the order in which slots are filled. It keeps channels "
             "and processors as even as they can be with any number of modules."),
  .clears = N_ ("Move the modules to the slots that the order names earlier."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_order,
};
