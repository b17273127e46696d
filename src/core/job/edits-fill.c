/* SPDX-License-Identifier: GPL-3.0-or-later */
/* edits-fill.c — many slots at once, and the slot that comes next.
 *
 * Modules come from the tray as long as alike ones lie there, then new ones are added to the job,
 * which are to buy: the facts are copied, the serial number and the bin are not. */
#include "job/edits-private.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>

static gboolean
can_fill (const LidEdits *edits, const LidPopulation *population, guint slot)
{
  int socket = edits->job->board->slots[slot].socket;

  return population->slots[slot].module == NULL && lid_edits_check_slot (edits, slot, NULL)
         && (socket == LID_NOWHERE || population->processors[socket].fitted);
}

static void
append_if_free (const LidEdits *edits, const LidPopulation *population, guint slot, GArray *out)
{
  for (guint i = 0; i < out->len; i++)
    if (g_array_index (out, guint, i) == slot)
      return;
  if (can_fill (edits, population, slot))
    g_array_append_val (out, slot);
}

/* The empty slots in the order of fitting; those the order does not name, and all of a board
 * without an order, in the board's own. */
static GArray *
free_slots (const LidEdits *edits, const LidPopulation *population)
{
  const LidBoard *board = edits->job->board;
  GArray *out = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < board->n_order; i++)
    append_if_free (edits, population, board->order[i], out);
  for (guint i = 0; i < board->n_slots; i++)
    append_if_free (edits, population, i, out);
  return out;
}

/**
 * lid_edits_next_slot:
 * @edits: a job
 * @of: which population
 *
 * Returns: the slot to fill next in the board's order of fitting, or in the order of the slots
 * where the board has none; filled ones, soldered memory and slots of an absent processor are
 * passed over; LID_NOWHERE when nothing is left
 */
int
lid_edits_next_slot (const LidEdits *edits, LidOf of)
{
  g_autoptr (LidPopulation) draft = lid_edits_draft (edits, of);
  g_autoptr (GArray) slots = free_slots (edits, draft);

  return slots->len > 0 ? (int)g_array_index (slots, guint, 0) : LID_NOWHERE;
}

/* A module for a slot: the alike one that sat there as found, or else the first on the tray. */
static LidModule *
from_tray (GPtrArray *tray, const LidPopulation *as_found, guint slot)
{
  guint at = 0;

  if (tray->len == 0)
    return NULL;
  if (as_found != NULL && as_found->slots[slot].module != NULL
      && !g_ptr_array_find (tray, as_found->slots[slot].module, &at))
    at = 0;
  return g_ptr_array_steal_index (tray, at);
}

static GPtrArray *
alike_on_tray (const LidEdits *edits, const LidPopulation *draft, LidModule *like)
{
  g_autoptr (GHashTable) seated = g_hash_table_new (NULL, NULL);
  const LidPopulation *as_found = edits->job->as_found;
  GPtrArray *tray = g_ptr_array_new ();

  for (guint i = 0; i < draft->n_slots; i++)
    {
      if (draft->slots[i].module != NULL)
        g_hash_table_add (seated, draft->slots[i].module);
      if (as_found != NULL && as_found->slots[i].module != NULL
          && lid_edits_is_fixed (edits->job->board, as_found, i))
        g_hash_table_add (seated, as_found->slots[i].module);
    }
  if (!g_hash_table_contains (seated, like))
    g_ptr_array_add (tray, like);
  for (guint i = 0; i < edits->job->modules->len; i++)
    {
      LidModule *module = edits->job->modules->pdata[i];

      if (module != like && !g_hash_table_contains (seated, module)
          && lid_tray_alike (module, like))
        g_ptr_array_add (tray, module);
    }
  return tray;
}

static LidModule *
one_more (const LidModule *like)
{
  LidModule *module = lid_module_copy (like);

  lid_module_set_text (&module->id, NULL);
  lid_module_set_text (&module->serial, NULL);
  lid_module_set_text (&module->bin, NULL);
  return module;
}

static gboolean
fill_slots (LidEdits *edits,
            LidOf of,
            LidPopulation *draft,
            const GArray *slots,
            LidModule *like,
            char *name,
            GError **error)
{
  g_autoptr (LidPopulation) after = draft;
  g_autoptr (GPtrArray) tray = alike_on_tray (edits, draft, like), modules = NULL;
  g_autoptr (LidStep) step = lid_step_new (name);
  guint lacking = slots->len > tray->len ? slots->len - tray->len : 0;

  if (!lid_edits_room_for (edits, lacking, error))
    return FALSE;
  modules = lid_edits_copy_modules (edits);
  for (guint i = 0; i < slots->len; i++)
    {
      guint slot = g_array_index (slots, guint, i);
      LidModule *module = from_tray (tray, edits->job->as_found, slot);

      if (module == NULL)
        module = lid_edits_add_to (edits, modules, one_more (like));
      lid_population_put (after, slot, module);
    }
  if (lacking > 0)
    lid_step_modules (step, g_steal_pointer (&modules));
  lid_step_population (step, edits->job, of, g_steal_pointer (&after));
  return lid_edits_commit (edits, g_steal_pointer (&step), error);
}

static gboolean
refuse_nothing_free (GError **error, const char *why)
{
  g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL, why);
  return FALSE;
}

/* The first real slot of a channel; its first position may be soldered memory. */
static int
first_slot (const LidEdits *edits, const LidBoardChannel *channel)
{
  for (guint i = 0; i < channel->n_slots; i++)
    if (lid_edits_check_slot (edits, channel->slots[i], NULL))
      return (int)channel->slots[i];
  return LID_NOWHERE;
}

/**
 * lid_edits_fill_first_slots:
 * @edits: a job
 * @of: which population
 * @module: the id of a module; all slots get one like it
 * @error: LID_ERROR_BAD_CALL where the board's channels are not told or no first slot is empty;
 * LID_ERROR_TOO_LARGE; no such module; a job open for reading only
 *
 * Fills the empty first slot of every channel of the fitted processors, as one step.
 *
 * Returns: whether they are filled
 */
gboolean
lid_edits_fill_first_slots (LidEdits *edits, LidOf of, const char *module, GError **error)
{
  LidModule *like = lid_edits_find (edits, module, error);
  const LidBoard *board = edits->job->board;
  g_autoptr (LidPopulation) draft = NULL;
  g_autoptr (GArray) slots = g_array_new (FALSE, FALSE, sizeof (guint));

  if (like == NULL)
    return FALSE;
  if (board->n_channels == 0)
    return refuse_nothing_free (error, _ ("the channels of this machine are not told; teach them "
                                          "first"));
  draft = lid_edits_draft (edits, of);
  for (guint i = 0; i < board->n_channels; i++)
    {
      int slot = first_slot (edits, &board->channels[i]);

      if (slot != LID_NOWHERE)
        append_if_free (edits, draft, (guint)slot, slots);
    }
  if (slots->len == 0)
    return refuse_nothing_free (error, _ ("every first slot is filled already"));
  return fill_slots (edits, of, g_steal_pointer (&draft), slots, like,
                     g_strdup (_ ("fill all first slots")), error);
}

/**
 * lid_edits_fill_channel:
 * @edits: a job
 * @of: which population
 * @channel: a channel of the board
 * @module: the id of a module; all slots get one like it
 * @error: LID_ERROR_NOT_FOUND, LID_ERROR_BAD_CALL where no slot of the channel is empty;
 * LID_ERROR_TOO_LARGE; no such module; a job open for reading only
 *
 * Returns: whether every slot of the channel is filled
 */
gboolean
lid_edits_fill_channel (
    LidEdits *edits, LidOf of, guint channel, const char *module, GError **error)
{
  LidModule *like = lid_edits_find (edits, module, error);
  const LidBoard *board = edits->job->board;
  g_autoptr (LidPopulation) draft = NULL;
  g_autoptr (GArray) slots = g_array_new (FALSE, FALSE, sizeof (guint));

  if (like == NULL)
    return FALSE;
  if (channel >= board->n_channels)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
                   _ ("the board has %u channels, there is no channel number %u"),
                   board->n_channels, channel + 1);
      return FALSE;
    }
  draft = lid_edits_draft (edits, of);
  for (guint i = 0; i < board->channels[channel].n_slots; i++)
    append_if_free (edits, draft, board->channels[channel].slots[i], slots);
  if (slots->len == 0)
    return refuse_nothing_free (error, _ ("no slot of this channel can take a module: they are "
                                          "filled, or the processor is absent"));
  return fill_slots (edits, of, g_steal_pointer (&draft), slots, like,
                     g_strdup_printf (_ ("fill channel %s"), board->channels[channel].name), error);
}

/**
 * lid_edits_fill_alike:
 * @edits: a job
 * @of: which population
 * @module: the id of a module; every empty slot gets one like it
 * @error: LID_ERROR_BAD_CALL where no slot is empty; LID_ERROR_TOO_LARGE; no such module; a job
 * open for reading only
 *
 * Returns: whether every slot is filled, those of absent processors aside
 */
gboolean
lid_edits_fill_alike (LidEdits *edits, LidOf of, const char *module, GError **error)
{
  LidModule *like = lid_edits_find (edits, module, error);
  g_autoptr (LidPopulation) draft = NULL;
  g_autoptr (GArray) slots = NULL;

  if (like == NULL)
    return FALSE;
  draft = lid_edits_draft (edits, of);
  slots = free_slots (edits, draft);
  if (slots->len == 0)
    return refuse_nothing_free (error, _ ("every slot is filled already"));
  return fill_slots (edits, of, g_steal_pointer (&draft), slots, like,
                     g_strdup (_ ("fill everything alike")), error);
}
