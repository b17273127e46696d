/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"
#include "checks/mode-refusal.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* "6 or 12": the counts a mode takes. */
static char *
counts_words (guint64 counts)
{
  GString *out = g_string_new (NULL);

  for (guint n = 1; n < 64; n++)
    if ((counts >> n & 1) == 1)
      g_string_append_printf (out, "%s%u", out->len > 0 ? _ (" or ") : "", n);
  return g_string_free (out, FALSE);
}

/* What is too much on one processor: from the last in the order of fitting down to the next count
 * that is taken. FALSE: there is none. */
static gboolean
find_surplus (const LidCheck *check, const LidSlotSet *slots, int socket, LidSlotSet *surplus)
{
  const LidBoardMode *rule = lid_board_find_mode (check->board, check->population->mode);
  guint there[LID_BOARD_MAX_SLOTS] = { 0 }, n = 0, keep;

  LID_SLOT_SET_EACH (slots, slot)
    if (check->board->slots[slot].socket == socket)
      there[n++] = (guint)slot;
  lid_check_sort_by_place (check, there, n);
  for (keep = MIN (n - 1, 63); keep > 0 && (rule->modules_of_socket >> keep & 1) == 0;)
    keep--;
  for (guint i = keep; i < n; i++)
    if (check->board->slots[there[i]].soldered != NULL)
      return FALSE;
    else
      lid_slot_set_add (surplus, there[i]);
  return keep > 0;
}

static void
check_of_socket (LidCheck *check)
{
  const LidBoardMode *rule = lid_board_find_mode (check->board, check->population->mode);
  LidSlotSet slots, with_others = { { 0 } }, surplus = { { 0 } };
  g_autofree char *counts = NULL, *names = NULL;
  guint32 sockets = 0;
  gboolean can = TRUE;
  LidFinding *finding;

  if (lid_mode_refusal_met (check, LID_DEMAND_MODULES_OF_SOCKET, &slots))
    return;
  LID_SLOT_SET_EACH (&slots, slot)
    {
      sockets |= 1u << check->board->slots[slot].socket;
      lid_slot_set_add (&with_others, (guint)check->board->slots[slot].socket);
    }
  LID_SLOT_SET_EACH (&with_others, socket)
    can = find_surplus (check, &slots, socket, &surplus) && can;
  counts = counts_words (rule->modules_of_socket);
  names = lid_names_sockets (check, sockets);
  finding = lid_mode_refusal_add (
      check, &slots,
      g_strdup_printf (
          g_dngettext (
              GETTEXT_PACKAGE,
              "The mode takes %s modules on a processor, and processor %s has another number.",
              "The mode takes %s modules on a processor, and processors %s have other numbers.",
              (gulong)__builtin_popcount (sockets)),
          counts, names));
  if (can)
    lid_remedy_take_out (check, finding, &surplus);
  else
    lid_remedy_say (check, finding,
                    g_strdup_printf (_ ("Fit %s modules on each processor."), counts));
}

static void
check_of_channel (LidCheck *check)
{
  const LidBoardMode *rule = lid_board_find_mode (check->board, check->population->mode);
  LidSlotSet slots, channels = { { 0 } };
  g_autofree char *names = NULL;
  LidFinding *finding;

  if (lid_mode_refusal_met (check, LID_DEMAND_MODULES_OF_CHANNEL, &slots))
    return;
  LID_SLOT_SET_EACH (&slots, slot)
    lid_slot_set_add (&channels, (guint)check->board->slots[slot].channel);
  names = lid_names_channels (check, &channels);
  finding = lid_mode_refusal_add (
      check, &slots,
      g_strdup_printf (
          g_dngettext (
              GETTEXT_PACKAGE,
              "The mode takes at least %u module on each channel in use; fewer are on %s.",
              "The mode takes at least %u modules on each channel in use; fewer are on %s.",
              rule->least_modules_of_channel),
          rule->least_modules_of_channel, names));
  lid_remedy_say (
      check, finding,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Fit %u module on each channel in use.",
                                    "Fit %u modules on each channel in use.",
                                    rule->least_modules_of_channel),
                       rule->least_modules_of_channel));
}

static void
check_counts (LidCheck *check)
{
  check_of_socket (check);
  check_of_channel (check);
}

const LidRule lid_rule_mode_counts = {
  .id = "mode-counts",
  .title = N_ ("how many modules the memory mode takes"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .refuses_mode = TRUE,
  .why = N_ ("Some boards offer a memory mode only with certain numbers of modules: six or twelve "
             "on a processor, two on a channel. With others the firmware stays in plain mode."),
  .clears = N_ ("Fit or take out modules until the number is one the board takes."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_counts,
};
