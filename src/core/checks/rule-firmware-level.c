/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"
#include "base/units.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

#define MOST_GIFTS 8u /* named in one sentence */

static LidFact
fact_of (const LidFirmwareGift *gift)
{
  return gift->non_binary ? LID_FACT_CAPACITY : gift->fact;
}

/* Whether a module, which tells that fact, is of what a level brings. */
static gboolean
is_of (const LidFirmwareGift *gift, const LidModule *module)
{
  gint32 value = module->value[fact_of (gift)];

  return gift->non_binary ? (value & (value - 1)) != 0 : value >= gift->at_least;
}

/* Does a level bring something this module needs? Facts it would turn on are asked for. */
static gboolean
needs (LidCheck *check, const LidFirmwareLevel *level, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);

  for (guint i = 0; level->gifts != NULL && i < level->gifts->len; i++)
    {
      const LidFirmwareGift *gift = &g_array_index (level->gifts, LidFirmwareGift, i);

      if (!lid_module_knows (module, fact_of (gift)))
        lid_check_miss (check, fact_of (gift), slot);
      else if (is_of (gift, module))
        return TRUE;
    }
  return FALSE;
}

static char *
name_gift (const LidFirmwareGift *gift)
{
  g_autofree char *size = lid_units_capacity (gift->at_least);
  g_autofree char *rate = lid_units_rate ((LidRate)gift->at_least);

  if (gift->non_binary)
    return g_strdup (_ ("sizes such as 24, 48 or 96 GB"));
  if (gift->fact == LID_FACT_CAPACITY)
    return g_strdup_printf (_ ("modules of %s or more"), size);
  if (gift->fact == LID_FACT_RATED)
    return g_strdup_printf (_ ("modules rated %s or more"), rate);
  if (gift->fact == LID_FACT_DIE)
    return g_strdup_printf (_ ("chips of %d Gbit or more"), gift->at_least);
  if (gift->fact == LID_FACT_STACK)
    return g_strdup (_ ("modules of stacked chips"));
  if (gift->fact == LID_FACT_LOGICAL_RANKS)
    return g_strdup_printf (_ ("modules of %d logical ranks or more"), gift->at_least);
  return g_strdup_printf (_ ("modules of %d ranks or more"), gift->at_least);
}

/* What of all that the level brings the modules need: the reason why. */
static char *
name_gifts (const LidCheck *check, const LidFirmwareLevel *level, const LidSlotSet *slots)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < level->gifts->len; i++)
    {
      const LidFirmwareGift *gift = &g_array_index (level->gifts, LidFirmwareGift, i);
      gboolean needed = FALSE;

      LID_SLOT_SET_EACH (slots, slot)
        {
          const LidModule *module = lid_check_module (check, (guint)slot);

          needed |= lid_module_knows (module, fact_of (gift)) && is_of (gift, module);
        }
      if (needed)
        g_ptr_array_add (words, name_gift (gift));
    }
  return lid_text_join ((const char *const *)words->pdata, words->len, MOST_GIFTS);
}

static void
speak (LidCheck *check, guint level, const LidSlotSet *slots, gboolean told)
{
  const LidFirmwareLevel *needed = &check->board->firmware[level];
  g_autofree char *names = lid_names_slots (check, slots);
  g_autofree char *brings = name_gifts (check, needed, slots);
  LidFinding *finding;

  if (told)
    finding = lid_check_add (check, LID_GRADE_STOPS, LID_STOPS_SLOTS, slots,
                             g_strdup_printf (_ ("What is in %s needs firmware %s or later, and %s "
                                                 "is fitted: by the rules it is not seen. "
                                                 "That level brings %s."),
                                              names, needed->level, check->population->firmware,
                                              brings));
  else
    finding = lid_check_add (
        check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, slots,
        g_strdup_printf (_ ("What is in %s needs firmware %s or later, and the fitted level is not "
                            "told; setup shows it on its first page. That level brings %s."),
                         names, needed->level, brings));
  finding->source = needed->source != NULL ? needed->source : check->board->source;
  lid_remedy_say (
      check, finding,
      g_strdup_printf (_ ("Update the firmware to %s first, with the old modules still in."),
                       needed->level));
}

/* Latest level first, so that each module is counted once, at the level it really needs. */
static void
check_firmware (LidCheck *check)
{
  int fitted = lid_board_find_firmware (check->board, check->population->firmware);
  LidSlotSet done = { { 0 } };

  for (int level = (int)check->board->n_firmware - 1; level > fitted; level--)
    {
      LidSlotSet slots = { { 0 } };

      for (guint i = 0; i < check->n_dram; i++)
        if (!lid_slot_set_has (&done, check->dram[i])
            && needs (check, &check->board->firmware[level], check->dram[i]))
          lid_slot_set_add (&slots, check->dram[i]);
      lid_slot_set_merge (&done, &slots);
      if (!lid_slot_set_is_empty (&slots))
        speak (check, (guint)level, &slots, fitted != LID_NOWHERE);
    }
}

const LidRule lid_rule_firmware_level = {
  .id = "firmware-level",
  .title = N_ ("firmware a module needs"),
  .scope = LID_SCOPE_MODULE,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS) | LID_GRADE_BIT (LID_GRADE_UNSURE),
  .stops = LID_STOPS_SLOTS,
  .no_moves = N_ ("Firmware is cleared by newer firmware, not by hands: the update comes first."),
  .why = N_ ("Firmware knows the modules that existed when it was made. Denser chips, faster rates "
             "and sizes such as 24, 48 or 96 GB become known with a later level; before it the "
             "module is often not seen."),
  .clears = N_ ("Update the firmware first, with the old modules still in, because the update "
                "needs a machine that starts. Where the level is not told, read it on the first "
                "page of setup and enter it in the facts of the job."),
  .facts = LID_FACT_BIT (LID_FACT_CAPACITY) | LID_FACT_BIT (LID_FACT_DIE)
           | LID_FACT_BIT (LID_FACT_RATED) | LID_FACT_BIT (LID_FACT_RANKS)
           | LID_FACT_BIT (LID_FACT_LOGICAL_RANKS) | LID_FACT_BIT (LID_FACT_STACK),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_firmware,
};
