/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"
#include "checks/mode-refusal.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>

/* The modes the board has, in words; NULL where it has none. */
static char *
modes_of (const LidBoard *board)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < board->n_modes; i++)
    g_ptr_array_add (words, lid_mode_words_name (board->modes[i].mode));
  return words->len > 0 ? lid_text_join ((const char *const *)words->pdata, words->len, LID_N_MODES)
                        : NULL;
}

static void
check_offered (LidCheck *check)
{
  LidSlotSet slots;
  g_autofree char *others = modes_of (check->board);
  LidFinding *finding;

  if (lid_mode_refusal_met (check, LID_DEMAND_OFFERED, &slots))
    return;
  finding = lid_mode_refusal_add (
      check, NULL,
      others == NULL
          ? g_strdup (_ ("By its definition this board has no memory mode besides plain."))
          : g_strdup_printf (_ ("By its definition this board has these memory modes: %s."),
                             others));
  lid_remedy_say (check, finding,
                  g_strdup (_ ("Set the memory mode to plain, or to one the board has.")));
}

static void
check_spare (LidCheck *check)
{
  const LidBoardMode *rule = lid_board_find_mode (check->board, check->population->mode);
  LidSlotSet slots;
  LidFinding *finding;

  if (lid_mode_refusal_met (check, LID_DEMAND_SPARE, &slots))
    return;
  finding = lid_mode_refusal_add (
      check, NULL,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                    "The board sets aside at most %u rank of a channel.",
                                    "The board sets aside at most %u ranks of a channel.",
                                    rule->most_spare_ranks),
                       rule->most_spare_ranks));
  lid_remedy_say (
      check, finding,
      g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Ask for %u spare rank at most.",
                                    "Ask for %u spare ranks at most.", rule->most_spare_ranks),
                       rule->most_spare_ranks));
}

static void
check_setting (LidCheck *check)
{
  LidSlotSet slots;
  LidFinding *finding;

  if (lid_mode_refusal_met (check, LID_DEMAND_SETTING, &slots))
    return;
  finding = lid_mode_refusal_add (
      check, NULL, g_strdup (_ ("Setup does not offer it together with a NUMA split.")));
  lid_remedy_say (check, finding, g_strdup (_ ("Leave each processor one node.")));
}

static void
check_what_is_offered (LidCheck *check)
{
  check_offered (check);
  check_spare (check);
  check_setting (check);
}

const LidRule lid_rule_mode_not_offered = {
  .id = "mode-not-offered",
  .title = N_ ("memory modes the board has"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .no_moves = N_ ("It is a setting, and settings are changed in setup."),
  .why = N_ ("Which memory modes there are, how many ranks can be spared and what excludes what "
             "differs between boards. Asked for one it has not, the firmware stays in plain mode."),
  .clears = N_ ("Choose a mode the board has, or plain."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_what_is_offered,
};
