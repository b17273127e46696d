/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace-remedy.c — what to do once the culprit is known. */
#include "trace/trace-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The module may sit elsewhere by now than where it was when the fault showed first. */
static char *
remedy_of_module (const LidJob *job, const char *id)
{
  const LidTrial *last = job->trials->pdata[job->trials->len - 1];

  for (guint i = 0; i < last->population->n_slots; i++)
    {
      const LidModule *module = last->population->slots[i].module;
      const char *name = lid_board_name_slot (job->board, i), *slot = job->board->slots[i].id;
      g_autofree char *typed
          = strpbrk (slot, " ()&;'\"") != NULL ? g_shell_quote (slot) : g_strdup (slot);

      if (module != NULL && g_strcmp0 (module->id, id) == 0)
        return g_strdup_printf (_ ("It sits in %s now: put another in its place, note that start "
                                   "with --replaced %s, then prove the machine once more."),
                                name, typed);
    }
  return g_strdup (
      _ ("It is out of the machine: keep it out, put the others where they belong, then "
         "prove the machine once more."));
}

/**
 * lid_trace_words_remedy:
 * @suspect: the culprit
 *
 * Returns: (transfer full): a sentence for what comes next
 */
char *
lid_trace_words_remedy (const LidJob *job, const LidSuspect *suspect)
{
  switch (suspect->kind)
    {
    case LID_SUSPECT_MODULE:
      return remedy_of_module (job, suspect->module);
    case LID_SUSPECT_SEATING:
      return g_strdup (
          _ ("Seating cured it: put all back, prove the machine once more, and watch it "
             "for as long as the fault usually takes."));
    case LID_SUSPECT_SLOT:
    case LID_SUSPECT_CHANNEL:
      return g_strdup (_ ("Look into the slots with a lamp and clean them; if that does not help, "
                          "plan without what lies behind it or have the board mended, then prove "
                          "the machine once more."));
    case LID_SUSPECT_PAIRING:
      return g_strdup (_ ("Keep that module out of that slot, or run a rate step lower, then prove "
                          "the machine once more."));
    case LID_SUSPECT_PROCESSOR:
      return g_strdup (_ ("Look at its seat and the pins of the socket, by the machine maker’s "
                          "service guide; seat or replace it, then prove the machine once more."));
    case LID_SUSPECT_COMMON:
      return g_strdup (
          _ ("Keep the rate or the setting that helped, or look for newer firmware, then "
             "prove the machine once more."));
    case LID_SUSPECT_MACHINE:
    case LID_N_SUSPECTS:
    default:
      return g_strdup (
          _ ("Look at firmware, power supplies, fans and the board before any module is "
             "bought."));
    }
}
