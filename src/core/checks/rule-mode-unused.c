/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>

/* Channels in no pair are unused (settled reading 8): on a controller of three channels the third
 * is better left empty (shared/facts/population.md 3). */
static void
check_unused (LidCheck *check)
{
  const LidFigures *figures = check->figures;
  LidSlotSet channels = { { 0 } }, slots = { { 0 } };
  gint64 mib = 0;
  g_autofree char *names = NULL, *size = NULL, *mode = NULL;
  LidFinding *finding;

  if (figures->mode.effect != LID_EFFECT_TAKEN)
    return;
  for (guint c = 0; c < figures->n_channels; c++)
    if (figures->channels[c].modules > 0 && !figures->channels[c].in_use)
      {
        lid_slot_set_add (&channels, c);
        mib += figures->channels[c].capacity_mib;
      }
  if (lid_slot_set_is_empty (&channels))
    return;
  for (guint i = 0; i < check->board->n_slots; i++)
    if (lid_check_is_usable (check, i) && check->board->slots[i].soldered == NULL
        && lid_slot_set_has (&channels, (guint)check->board->slots[i].channel))
      lid_slot_set_add (&slots, i);
  names = lid_names_channels (check, &channels);
  size = lid_units_capacity (mib);
  mode = lid_mode_words_new (check->population);
  finding
      = lid_check_add (check, LID_GRADE_LOSES, LID_STOPS_NOTHING, &slots,
                       g_strdup_printf (_ ("With the memory mode %s, %s on %s carries nothing."),
                                        mode, size, names));
  lid_remedy_take_out (check, finding, &slots);
}

const LidRule lid_rule_mode_unused = {
  .id = "mode-unused",
  .title = N_ ("channels the memory mode does not use"),
  .scope = LID_SCOPE_MACHINE,
  .lasting = FALSE,
  .phase = LID_PHASE_FIGURES,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES),
  .cures = LID_CURE_SPREAD | LID_CURE_FIT,
  .why = N_ ("Mirrored and paired modes work with two channels at a time. A channel without a "
             "partner, or whose partner is empty, is not used."),
  .clears = N_ ("Move these modules to channels that make a pair, or take them out."),
  .basis = "common practice",
  .source = LID_COMMON_PRACTICE,
  .check = check_unused,
};
