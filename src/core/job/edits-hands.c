/* SPDX-License-Identifier: GPL-3.0-or-later */
/* edits-hands.c — what hands do: one module at a time, a remedy's moves, whole populations. */
#include "job/edits-private.h"

#include "base/error.h"
#include "checks/remedy.h"

#include <glib/gi18n-lib.h>

/**
 * lid_edits_check_slot:
 * @slot: a slot's index, out of the window or a script
 * @error: LID_ERROR_NOT_FOUND where the board has no such slot, LID_ERROR_BAD_CALL where memory is
 * soldered there
 *
 * Returns: whether hands can do anything at that slot
 */
gboolean
lid_edits_check_slot (const LidEdits *edits, guint slot, GError **error)
{
  const LidBoard *board = edits->job->board;

  if (slot >= board->n_slots)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_NOT_FOUND,
                   _ ("the board has %u slots, there is no slot number %u"), board->n_slots,
                   slot + 1);
      return FALSE;
    }
  if (lid_edits_is_fixed (board, lid_job_get_population (edits->job, LID_AS_FOUND), slot))
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("the memory at %s is soldered to the board; it stays where it is"),
                   lid_board_name_slot (board, slot));
      return FALSE;
    }
  return TRUE;
}

/**
 * lid_edits_is_fixed:
 * @population: (nullable): a population of the board
 *
 * Returns: whether the slot is no slot but memory soldered to the board
 */
gboolean
lid_edits_is_fixed (const LidBoard *board, const LidPopulation *population, guint slot)
{
  return board->slots[slot].soldered != NULL
         || (population != NULL && population->slots[slot].state == LID_SLOT_SOLDERED);
}

/**
 * lid_edits_slot_of:
 *
 * Returns: the slot the module sits in, LID_NOWHERE when in none
 */
int
lid_edits_slot_of (const LidPopulation *population, const LidModule *module)
{
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module == module)
      return (int)i;
  return LID_NOWHERE;
}

/**
 * lid_edits_fill:
 * @edits: a job
 * @of: which population
 * @slot: where to
 * @module: the id of one of the job's modules; one that sits in another slot comes from there
 * @error: no such slot or module, soldered memory, a job open for reading only
 *
 * What sat in the slot goes onto the tray. Whether the module does anything there is the checker's
 * business.
 *
 * Returns: whether the module sits there now
 */
gboolean
lid_edits_fill (LidEdits *edits, LidOf of, guint slot, const char *module, GError **error)
{
  LidModule *found = lid_edits_find (edits, module, error);
  const LidBoard *board = edits->job->board;
  LidPopulation *draft;
  int from;

  if (found == NULL || !lid_edits_check_slot (edits, slot, error))
    return FALSE;
  /* Memory that was read as soldered goes nowhere, even where a plan shows the board's own. */
  from = edits->job->as_found != NULL ? lid_edits_slot_of (edits->job->as_found, found)
                                      : LID_NOWHERE;
  if (from != LID_NOWHERE && !lid_edits_check_slot (edits, (guint)from, error))
    return FALSE;
  draft = lid_edits_draft (edits, of);
  from = lid_edits_slot_of (draft, found);
  if (from == (int)slot)
    {
      lid_population_free (draft);
      return TRUE;
    }
  if (from != LID_NOWHERE && !lid_edits_check_slot (edits, (guint)from, error))
    {
      lid_population_free (draft);
      return FALSE;
    }
  if (from != LID_NOWHERE)
    lid_population_take (draft, (guint)from);
  lid_population_put (draft, slot, found);
  return lid_edits_commit_population (
      edits, of, draft, g_strdup_printf (_ ("fill %s"), lid_board_name_slot (board, slot)), error);
}

/**
 * lid_edits_take:
 * @edits: a job
 * @of: which population
 * @slot: the slot to empty; its module goes onto the tray
 * @error: no such slot, soldered memory, a job open for reading only
 *
 * Returns: whether the slot is empty now
 */
gboolean
lid_edits_take (LidEdits *edits, LidOf of, guint slot, GError **error)
{
  LidPopulation *draft;

  if (!lid_edits_check_slot (edits, slot, error))
    return FALSE;
  draft = lid_edits_draft (edits, of);
  if (draft->slots[slot].module == NULL)
    {
      lid_population_free (draft);
      return TRUE;
    }
  lid_population_take (draft, slot);
  return lid_edits_commit_population (
      edits, of, draft,
      g_strdup_printf (_ ("empty %s"), lid_board_name_slot (edits->job->board, slot)), error);
}

/**
 * lid_edits_move:
 * @edits: a job
 * @of: which population
 * @from: a filled slot
 * @to: where its module goes; a module there changes places with it
 * @error: no such slot, soldered memory, an empty slot to move from, a job open for reading only
 *
 * Returns: whether the module sits there now
 */
gboolean
lid_edits_move (LidEdits *edits, LidOf of, guint from, guint to, GError **error)
{
  g_autoptr (LidModule) module = NULL, other = NULL;
  const LidBoard *board = edits->job->board;
  LidPopulation *draft;
  const char *format;

  if (!lid_edits_check_slot (edits, from, error) || !lid_edits_check_slot (edits, to, error))
    return FALSE;
  draft = lid_edits_draft (edits, of);
  if (draft->slots[from].module == NULL || from == to)
    {
      gboolean filled = draft->slots[from].module != NULL;

      lid_population_free (draft);
      if (!filled)
        g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL, _ ("%s is empty, nothing can move"),
                     lid_board_name_slot (board, from));
      return filled;
    }
  module = lid_module_ref (draft->slots[from].module);
  if (draft->slots[to].module != NULL)
    other = lid_module_ref (draft->slots[to].module);
  lid_population_take (draft, from);
  lid_population_put (draft, to, module);
  if (other != NULL)
    lid_population_put (draft, from, other);
  /* Translators: two slots. The first: a module changes its slot. The second: two change places. */
  format = other == NULL ? _ ("move %s to %s") : _ ("exchange %s and %s");
  return lid_edits_commit_population (
      edits, of, draft,
      g_strdup_printf (format, lid_board_name_slot (board, from), lid_board_name_slot (board, to)),
      error);
}

/* A remedy was worked out for one population. It is held to it move by move, because another one
 * may stand by the time somebody clicks. */
static gboolean
remedy_fits (const LidEdits *edits, const LidPopulation *draft, const LidRemedy *remedy)
{
  for (guint i = 0; i < remedy->moves->len; i++)
    {
      const LidMove *move = &g_array_index (remedy->moves, LidMove, i);

      if (move->from != LID_NOWHERE
          && ((guint)move->from >= draft->n_slots || draft->slots[move->from].module != move->module
              || !lid_edits_check_slot (edits, (guint)move->from, NULL)))
        return FALSE;
      if (move->to != LID_NOWHERE && !lid_edits_check_slot (edits, (guint)move->to, NULL))
        return FALSE;
      if (!g_ptr_array_find (edits->job->modules, move->module, NULL))
        return FALSE;
    }
  return TRUE;
}

static gboolean
seated_once (const LidPopulation *population)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module != NULL
        && !g_hash_table_add (seen, population->slots[i].module))
      return FALSE;
  return TRUE;
}

/* "Move B2 to A1." is a sentence; a step's name stands in a menu. */
static char *
name_of_remedy (const LidRemedy *remedy)
{
  char *name = g_strdup (remedy->text);

  if (g_str_has_suffix (name, "."))
    name[strlen (name) - 1] = 0;
  return name;
}

/**
 * lid_edits_apply_remedy:
 * @edits: a job
 * @of: the population the finding was about
 * @remedy: its remedy
 * @error: LID_ERROR_BAD_CALL for a remedy without moves or of another state of the population; a
 * job open for reading only
 *
 * Returns: whether all its moves were made, as one step
 */
gboolean
lid_edits_apply_remedy (LidEdits *edits, LidOf of, const LidRemedy *remedy, GError **error)
{
  g_autoptr (LidPopulation) draft = lid_edits_draft (edits, of), after = NULL;

  if (remedy->moves->len == 0)
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("this remedy moves no module; it has to be done by hand"));
      return FALSE;
    }
  if (remedy_fits (edits, draft, remedy))
    after = lid_remedy_apply (remedy, draft);
  if (after == NULL || !seated_once (after))
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("the modules have been moved since this remedy was worked out; look "
                              "at the findings again"));
      return FALSE;
    }
  return lid_edits_commit_population (edits, of, g_steal_pointer (&after), name_of_remedy (remedy),
                                      error);
}

/**
 * lid_edits_plan_from_found:
 * @edits: a job
 * @error: LID_ERROR_BAD_CALL when nothing was found yet; a job open for reading only
 *
 * Returns: whether the plan is as found now
 */
gboolean
lid_edits_plan_from_found (LidEdits *edits, GError **error)
{
  LidStep *step;

  if (edits->job->as_found == NULL)
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("nothing was read of this machine yet, so there is nothing as found "
                              "to plan from"));
      return FALSE;
    }
  step = lid_step_new (g_strdup (_ ("plan from as found")));
  lid_step_plan (step, edits->job, lid_population_copy (edits->job->as_found));
  return lid_edits_commit (edits, step, error);
}

/**
 * lid_edits_left_from_planned:
 * @edits: a job
 * @error: LID_ERROR_BAD_CALL when nothing is planned; a job open for reading only
 *
 * Returns: whether as left is as planned now, not yet proved
 */
gboolean
lid_edits_left_from_planned (LidEdits *edits, GError **error)
{
  const LidPopulation *planned = lid_job_get_population (edits->job, LID_PLANNED);

  if (planned == NULL)
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("nothing is planned yet, so nothing can have been left as planned"));
      return FALSE;
    }
  return lid_edits_commit_population (edits, LID_AS_LEFT, lid_population_copy (planned),
                                      g_strdup (_ ("as left from planned")), error);
}

/**
 * lid_edits_empty_all:
 * @edits: a job
 * @of: which population
 * @error: a job open for reading only
 *
 * Returns: whether every slot is empty now; soldered memory stays
 */
gboolean
lid_edits_empty_all (LidEdits *edits, LidOf of, GError **error)
{
  LidPopulation *draft = lid_edits_draft (edits, of);

  for (guint i = 0; i < draft->n_slots; i++)
    if (draft->slots[i].module != NULL && lid_edits_check_slot (edits, i, NULL))
      lid_population_take (draft, i);
  return lid_edits_commit_population (edits, of, draft, g_strdup (_ ("empty every slot")), error);
}
