/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/rules.h"
#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>

/* What the mode costs and how its figures are to be read: product.md 6, "Usable capacity" and
 * "Expected bandwidth". What is refused the rules mode-… say, each demand by itself. */
static void
say_taken (LidCheck *check)
{
  const LidFigures *figures = check->figures;
  g_autofree char *mode = lid_mode_words_new (check->population);
  g_autofree char *usable = lid_units_capacity (figures->usable_mib);
  g_autofree char *capacity = lid_units_capacity (figures->capacity_mib);
  g_autofree char *costs = NULL;

  if (!figures->usable_known)
    return;
  costs = g_strdup_printf (_ ("Memory mode: %s. Of %s, %s can be used."), mode, capacity, usable);
  switch (figures->mode.asked)
    {
    case LID_MODE_MIRRORED:
      lid_check_add (check, LID_GRADE_NOTE, LID_STOPS_NOTHING, NULL,
                     g_strdup_printf (_ ("%s Bandwidth counts reads, which either side answers; "
                                         "every write goes to both. An error is traced to a pair "
                                         "of channels, not to one module."),
                                      costs));
      return;
    case LID_MODE_PAIRED:
      lid_check_add (check, LID_GRADE_NOTE, LID_STOPS_NOTHING, NULL,
                     g_strdup_printf (_ ("%s Two channels work as one, so the expected bandwidth "
                                         "is half. An error is traced to a pair of channels, not "
                                         "to one module."),
                                      costs));
      return;
    case LID_MODE_PARTLY_MIRRORED:
      lid_check_add (check, LID_GRADE_NOTE, LID_STOPS_NOTHING, NULL,
                     g_strdup_printf (_ ("%s Writes to the mirrored part go to both sides; the "
                                         "operating system must know which part it is."),
                                      costs));
      return;
    case LID_MODE_SPARED:
    case LID_MODE_PLAIN:
    case LID_N_MODES:
    default:
      lid_check_add (check, LID_GRADE_NOTE, LID_STOPS_NOTHING, NULL,
                     g_strdup_printf (_ ("%s A channel sets its largest ranks aside, because a "
                                         "spare must be able to stand in for any of them."),
                                      costs));
      return;
    }
}

static void
say_unsure (LidCheck *check)
{
  guint32 open = check->figures->mode.open;
  g_autofree char *mode = lid_mode_words_new (check->population);

  if ((open >> LID_DEMAND_PAIRS & 1) == 1)
    lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, NULL,
                   g_strdup_printf (_ ("Memory mode: %s. The board does not tell which channels "
                                       "make a pair, so what can be used is not known."),
                                    mode));
  else if (!check->board->channels_told && (open >> LID_DEMAND_RANKS & 1) == 1)
    lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, NULL,
                   g_strdup_printf (_ ("Memory mode: %s. Channels are not told, so what can be "
                                       "used is not known; “boards --teach” teaches them."),
                                    mode));
  else if ((open >> LID_DEMAND_OFFERED & 1) == 1)
    lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, NULL,
                   g_strdup_printf (_ ("Memory mode: %s. The board does not tell which modes it "
                                       "has; the figures are those of the mode."),
                                    mode));
  if ((open >> LID_DEMAND_SIZE & 1) == 1)
    lid_check_add (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, NULL,
                   g_strdup (_ ("How much is mirrored is not told; the figures count nothing as "
                                "mirrored. It stands in setup, as a size or a share.")));
}

static void
check_mode (LidCheck *check)
{
  if (check->figures->mode.effect == LID_EFFECT_TAKEN)
    say_taken (check);
  else if (check->figures->mode.effect == LID_EFFECT_UNSURE)
    say_unsure (check);
}

const LidRule lid_rule_memory_mode = {
  .id = "memory-mode",
  .title = N_ ("what the memory mode costs"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_NOTE) | LID_GRADE_BIT (LID_GRADE_UNSURE),
  .no_moves = N_ ("It is the price of a mode somebody wants."),
  .why = N_ ("Mirrored, spared and paired modes trade capacity or bandwidth for protection. What "
             "can be used is less than what is fitted, and the figures say by how much."),
  .clears = N_ ("Nothing needs doing where the mode is wanted; set it to plain where it is not."),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_mode,
};
