/* SPDX-License-Identifier: GPL-3.0-or-later */
/* suspects.c — what may be at fault, and whether it agrees with what was seen.
 *
 * The inference is shared/facts/population.md 7.3 (S31 in its source, else common practice): a
 * fault that goes along with a module is the module's, one that stays with the slot is the slot's
 * or lies behind it, one that moves with the processor is the processor's, one that seating cures
 * was the contact, one that needs both the module and its slot is margin. */
#include "trace/suspects.h"

#include <string.h>

/**
 * lid_suspect_to_text:
 *
 * Returns: the word in JSON
 */
const char *
lid_suspect_to_text (LidSuspectKind kind)
{
  static const char *const words[LID_N_SUSPECTS]
      = { "seating", "module", "slot", "margin", "channel", "processor", "common", "common" };

  g_return_val_if_fail ((guint)kind < LID_N_SUSPECTS, NULL);
  return words[kind];
}

static const LidTrial *
first (const LidTraceCase *about)
{
  return about->trials->pdata[about->first];
}

static const char *
module_in (const LidTrial *trial, guint slot)
{
  const LidModule *module = trial->population->slots[slot].module;

  return module != NULL ? module->id : NULL;
}

/**
 * lid_suspects_case:
 * @about: (out): the trials, and which of them showed the fault first since the last search ended
 *
 * Returns: whether any did
 */
gboolean
lid_suspects_case (const LidBoard *board, GPtrArray *trials, LidTraceCase *about)
{
  *about = (LidTraceCase){ board, trials, 0, 0 };
  for (guint i = 0; i < trials->len; i++)
    if (((const LidTrial *)trials->pdata[i])->ended)
      about->from = i + 1;
  for (guint i = about->from; i < trials->len; i++)
    if (((const LidTrial *)trials->pdata[i])->outcome == LID_OUTCOME_FAULT)
      {
        about->first = i;
        return TRUE;
      }
  return FALSE;
}

static void
add (GArray *list, LidSuspect suspect)
{
  for (guint i = 0; i < list->len; i++)
    {
      const LidSuspect *one = &g_array_index (list, LidSuspect, i);

      if (one->kind == suspect.kind && one->slot == suspect.slot && one->channel == suspect.channel
          && one->processor == suspect.processor && g_strcmp0 (one->module, suspect.module) == 0)
        return;
    }
  g_array_append_val (list, suspect);
}

/* What a fault reported in @slot can be; what hangs on the place and the contact is told of the
 * first start alone. */
static void
add_of_slot (const LidTraceCase *about, GArray *list, const LidTrial *trial, guint slot)
{
  const LidBoardSlot *place = &about->board->slots[slot];
  const char *module = module_in (trial, slot);
  const LidSuspect none = { LID_SUSPECT_COMMON, LID_NOWHERE, LID_NOWHERE, LID_NOWHERE, NULL };
  LidSuspect one = none;

  if (trial == first (about) && module != NULL)
    {
      one.slot = (int)slot;
      one.module = module;
      one.kind = LID_SUSPECT_SEATING;
      add (list, one);
      one.kind = LID_SUSPECT_PAIRING;
      add (list, one);
    }
  one = none;
  one.kind = LID_SUSPECT_MODULE;
  one.module = module;
  if (module != NULL)
    add (list, one);
  one = none;
  one.kind = LID_SUSPECT_SLOT;
  one.slot = (int)slot;
  add (list, one);
  one = none;
  one.kind = LID_SUSPECT_CHANNEL;
  one.channel = place->channel;
  if (place->channel != LID_NOWHERE && about->board->channels[place->channel].n_slots > 1)
    add (list, one);
  one = none;
  one.kind = LID_SUSPECT_PROCESSOR;
  one.processor
      = place->socket != LID_NOWHERE ? (int)trial->processor_of[place->socket] : LID_NOWHERE;
  if (one.processor != LID_NOWHERE)
    add (list, one);
}

static int
compare (const void *left, const void *right)
{
  const LidSuspect *a = left, *b = right;

  return a->kind != b->kind ? (int)a->kind - (int)b->kind : 0;
}

/**
 * lid_suspects_list:
 *
 * Returns: (transfer full): LidSuspect, the likeliest kind first (population.md 7.1): all that any
 * start with the fault points at; where nobody could tell the slot, all that is filled
 */
GArray *
lid_suspects_list (const LidTraceCase *about)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (LidSuspect));

  for (guint t = about->first; t < about->trials->len; t++)
    {
      const LidTrial *trial = about->trials->pdata[t];
      gboolean told = lid_trial_is_told_where (trial);

      if (trial->outcome != LID_OUTCOME_FAULT || (!told && trial != first (about)))
        continue;
      for (guint i = 0; i < about->board->n_slots; i++)
        if (told ? trial->at[i] : module_in (trial, i) != NULL)
          add_of_slot (about, list, trial, i);
    }
  g_array_sort (list, compare);
  return list;
}

/* Whether the module is still in the contact it had at the first start with the fault. */
static gboolean
is_untouched (const LidTraceCase *about, const LidSuspect *suspect, const LidTrial *until)
{
  for (guint t = about->first; t < about->trials->len; t++)
    {
      const LidTrial *trial = about->trials->pdata[t];

      if (g_strcmp0 (module_in (trial, (guint)suspect->slot), suspect->module) != 0
          || (t > about->first && trial->reseated[suspect->slot]))
        return FALSE;
      if (trial == until)
        return TRUE;
    }
  /* A start that is only thought of. */
  return g_strcmp0 (module_in (until, (guint)suspect->slot), suspect->module) == 0
         && !until->reseated[suspect->slot];
}

static LidShows
shows_at (LidSlotSet *where, guint slot, gboolean does)
{
  if (!does)
    return LID_SHOWS_NOTHING;
  lid_slot_set_add (where, slot);
  return LID_SHOWS_FAULT;
}

static LidShows
shows_module (const LidSuspect *suspect, const LidTrial *trial, LidSlotSet *where)
{
  for (guint i = 0; i < trial->population->n_slots; i++)
    if (g_strcmp0 (module_in (trial, i), suspect->module) == 0)
      return shows_at (where, i, TRUE);
  return LID_SHOWS_NOTHING;
}

static gboolean
is_in_group (const LidTraceCase *about,
             const LidSuspect *suspect,
             const LidTrial *trial,
             guint slot)
{
  const LidBoardSlot *place = &about->board->slots[slot];

  if (suspect->kind == LID_SUSPECT_CHANNEL)
    return place->channel == suspect->channel;
  if (suspect->kind == LID_SUSPECT_PROCESSOR)
    return place->socket != LID_NOWHERE
           && (int)trial->processor_of[place->socket] == suspect->processor;
  return TRUE;
}

static gboolean
is_common (const LidSuspect *suspect)
{
  return suspect->kind == LID_SUSPECT_COMMON || suspect->kind == LID_SUSPECT_MACHINE;
}

/* Wires and pins do not move with a module: as long as the slots that showed it first are filled
 * and the processor has not moved, it shows there. Elsewhere on the channel or the processor it
 * may. */
static LidShows
shows_group (const LidTraceCase *about,
             const LidSuspect *suspect,
             const LidTrial *trial,
             LidSlotSet *where)
{
  const LidTrial *began = first (about);
  gboolean told = lid_trial_is_told_where (began), again = FALSE, any = FALSE;
  LidSlotSet same = { { 0 } }, filled = { { 0 } };

  for (guint i = 0; i < about->board->n_slots; i++)
    {
      if (module_in (trial, i) == NULL || !is_in_group (about, suspect, trial, i))
        continue;
      any = TRUE;
      lid_slot_set_add (&filled, i);
      if (told && began->at[i] && is_in_group (about, suspect, began, i))
        {
          again = TRUE;
          lid_slot_set_add (&same, i);
        }
    }
  if (!any)
    return LID_SHOWS_NOTHING;
  *where = again && !is_common (suspect) ? same : filled;
  if (suspect->kind == LID_SUSPECT_PROCESSOR && told && !again)
    for (guint s = 0; s < trial->n_sockets; s++)
      if ((int)trial->processor_of[s] == suspect->processor
          && began->processor_of[s] != trial->processor_of[s])
        return LID_SHOWS_FAULT; /* it went along to another socket */
  return again || !told || is_common (suspect) ? LID_SHOWS_FAULT : LID_SHOWS_EITHER;
}

/**
 * lid_suspects_shows:
 * @suspect: taken to be at fault, alone
 * @trial: one of the trials, or one that is only thought of
 * @where: (out): where the fault is reported, where it is
 *
 * Returns: what that start shows then
 */
LidShows
lid_suspects_shows (const LidTraceCase *about,
                    const LidSuspect *suspect,
                    const LidTrial *trial,
                    LidSlotSet *where)
{
  memset (where, 0, sizeof *where);
  switch (suspect->kind)
    {
    case LID_SUSPECT_SEATING:
      return shows_at (where, (guint)suspect->slot, is_untouched (about, suspect, trial));
    case LID_SUSPECT_MODULE:
      return shows_module (suspect, trial, where);
    case LID_SUSPECT_SLOT:
      return shows_at (where, (guint)suspect->slot,
                       module_in (trial, (guint)suspect->slot) != NULL);
    case LID_SUSPECT_PAIRING:
      return shows_at (where, (guint)suspect->slot,
                       !trial->eased
                           && g_strcmp0 (module_in (trial, (guint)suspect->slot), suspect->module)
                                  == 0);
    case LID_SUSPECT_COMMON:
      return trial->eased ? LID_SHOWS_NOTHING : shows_group (about, suspect, trial, where);
    case LID_SUSPECT_CHANNEL:
    case LID_SUSPECT_PROCESSOR:
    case LID_SUSPECT_MACHINE:
    case LID_N_SUSPECTS:
    default:
      return shows_group (about, suspect, trial, where);
    }
}

static gboolean
meets (const LidSlotSet *where, const guint8 *at, guint n_slots)
{
  for (guint i = 0; i < n_slots; i++)
    if (at[i] && lid_slot_set_has (where, i))
      return TRUE;
  return FALSE;
}

static gboolean
covers (const LidSlotSet *where, const guint8 *at, guint n_slots)
{
  for (guint i = 0; i < n_slots; i++)
    if (at[i] && !lid_slot_set_has (where, i))
      return FALSE;
  return TRUE;
}

/**
 * lid_suspects_agree:
 * @one: at fault
 * @other: (nullable): at fault too
 * @trial: one of the trials
 *
 * In a mode that goes by pairs an error is told of the pair, so both are named (population.md 3,
 * trap 5).
 *
 * Returns: whether what was seen can be their doing, and only theirs
 */
gboolean
lid_suspects_agree (const LidTraceCase *about,
                    const LidSuspect *one,
                    const LidSuspect *other,
                    const LidTrial *trial)
{
  guint n = about->board->n_slots;
  LidSlotSet where, where_too = { { 0 } };
  LidShows shows, shows_too = LID_SHOWS_NOTHING;
  gboolean by_pairs
      = trial->population->mode == LID_MODE_MIRRORED || trial->population->mode == LID_MODE_PAIRED;

  if (trial->outcome == LID_OUTCOME_INCONCLUSIVE)
    return TRUE;
  shows = lid_suspects_shows (about, one, trial, &where);
  if (other != NULL)
    shows_too = lid_suspects_shows (about, other, trial, &where_too);
  if (trial->outcome == LID_OUTCOME_CLEAN)
    return shows != LID_SHOWS_FAULT && shows_too != LID_SHOWS_FAULT;
  if (shows == LID_SHOWS_NOTHING && shows_too == LID_SHOWS_NOTHING)
    return FALSE;
  if (!lid_trial_is_told_where (trial))
    return TRUE;
  if ((shows == LID_SHOWS_FAULT && !meets (&where, trial->at, n))
      || (shows_too == LID_SHOWS_FAULT && !meets (&where_too, trial->at, n)))
    return FALSE;
  lid_slot_set_merge (&where, &where_too);
  return by_pairs || covers (&where, trial->at, n);
}
