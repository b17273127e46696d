/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/balance.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* Whether a slot hangs on each processor at all: some boards have processors without slots. */
static guint32
sockets_with_slots (const LidBoard *board)
{
  guint32 sockets = 0;

  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].socket != LID_NOWHERE)
      sockets |= 1u << board->slots[i].socket;
  return sockets;
}

/* Boards that read two modules as one, or hang a buffer on a pair, want more than one (S11). */
static void
check_number (LidCheck *check)
{
  const LidBoard *board = check->board;
  guint32 few = 0;
  g_autofree char *names = NULL;
  LidFinding *finding;

  for (guint i = 0; i < board->n_sockets; i++)
    if (check->population->processors[i].fitted && check->balance->sockets[i].n > 0
        && check->balance->sockets[i].n < board->own_modules)
      few |= 1u << i;
  if (few == 0 || board->own_memory != LID_OWN_MEMORY_REQUIRED)
    return;
  names = lid_names_sockets (check, few);
  finding = lid_check_add (
      check, LID_GRADE_STOPS, LID_STOPS_MACHINE, NULL,
      g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE,
                       "Too few usable modules at processor %s; the board needs at least %u at "
                       "each processor and by the rules does not start.",
                       "Too few usable modules at processors %s; the board needs at least %u at "
                       "each processor and by the rules does not start.",
                       (gulong)__builtin_popcount (few)),
          names, board->own_modules));
  finding->basis = "listed";
  finding->source = board->own_modules_source;
  lid_remedy_say (check, finding,
                  g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                                "Fit more at processor %s, so that it has %u "
                                                "modules.",
                                                "Fit more at processors %s, so that each has %u "
                                                "modules.",
                                                (gulong)__builtin_popcount (few)),
                                   names, board->own_modules));
}

/* P8: three states. Where the board is silent the machine is known to lose: everything that
 * processor reads comes through another one. */
static void
check_memory (LidCheck *check)
{
  const LidBoard *board = check->board;
  guint32 slots = sockets_with_slots (board), without = 0;
  g_autofree char *names = NULL;
  gulong n;

  if (!board->sockets_told || check->balance->n == 0)
    return;
  check_number (check);
  for (guint32 left = slots; left != 0; left &= left - 1)
    {
      guint socket = (guint)__builtin_ctz (left);

      if (check->population->processors[socket].fitted && check->balance->sockets[socket].n == 0)
        without |= 1u << socket;
    }
  if (without == 0)
    return;
  names = lid_names_sockets (check, without);
  n = (gulong)__builtin_popcount (without);
  if (board->own_memory == LID_OWN_MEMORY_REQUIRED)
    lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_MACHINE, NULL,
                   g_strdup_printf (
                       g_dngettext (GETTEXT_PACKAGE,
                                    "No usable memory at processor %s; the board needs at least "
                                    "one module at each processor and by the rules does not start.",
                                    "No usable memory at processors %s; the board needs at least "
                                    "one module at each processor and by the rules does not start.",
                                    n),
                       names))
        ->basis
        = "listed";
  else
    lid_check_add (
        check, LID_GRADE_LOSES, LID_STOPS_NOTHING, NULL,
        g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                      "No memory of its own at processor %s: all it reads comes "
                                      "through another processor, which takes longer.",
                                      "No memory of their own at processors %s: all they read "
                                      "comes through another processor, which takes longer.",
                                      n),
                         names));
}

const LidRule lid_rule_processor_without_memory = {
  .id = "processor-without-memory",
  .title = N_ ("memory at every processor"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_USABLE,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS) | LID_GRADE_BIT (LID_GRADE_LOSES),
  .stops = LID_STOPS_MACHINE,
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why = N_ ("A processor without memory of its own reads everything through another one, which "
             "takes longer, and its channels carry nothing. Some boards do not start so."),
  .clears = N_ ("Fit at least one module at each processor, or as many as the board asks for."),
  .basis = "physics",
  .source = LID_COMMON_PRACTICE,
  .check = check_memory,
};
