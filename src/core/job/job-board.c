/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job-board.c — the same job on another board: taught, offered, or of a newer definition. */
#include "job/job-board.h"

#include "job/job-file.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Where the slots of one board are on the other. */
typedef struct
{
  const LidBoard *from, *to;
  const int *slot_of; /* nullable: slots of the same id are the same */
} Move;

static int
slot_on (const Move *move, guint slot)
{
  return move->slot_of != NULL ? move->slot_of[slot]
                               : lid_board_find_slot (move->to, move->from->slots[slot].id);
}

/* A processor is the same by its id: a newer definition may list others before it. */
static int
processor_on (const Move *move, int model)
{
  if (model == LID_NOWHERE)
    return LID_NOWHERE;
  for (guint i = 0; i < move->to->n_processors; i++)
    if (strcmp (move->to->processors[i].id, move->from->processors[model].id) == 0)
      return (int)i;
  return LID_NOWHERE;
}

static void
carry_slots (const Move *move, const LidPopulation *old, LidPopulation *fresh)
{
  for (guint i = 0; i < old->n_slots; i++)
    {
      int slot = slot_on (move, i);

      /* A module does not come out of chips that are soldered in, nor go in among them. */
      if (slot == LID_NOWHERE
          || (move->from->slots[i].soldered != NULL) != (move->to->slots[slot].soldered != NULL))
        continue;
      if (old->slots[i].module != NULL)
        lid_population_put (fresh, (guint)slot, old->slots[i].module);
      fresh->slots[slot].state = old->slots[i].state;
      fresh->slots[slot].configured = old->slots[i].configured;
    }
}

/* The same modules in the same slots, on a board that counts its slots in another order. */
static LidPopulation *
carry_over (const Move *move, const LidPopulation *old)
{
  LidPopulation *fresh = lid_population_new (move->to);

  carry_slots (move, old, fresh);
  for (guint i = 0; i < MIN (old->n_sockets, fresh->n_sockets); i++)
    {
      int model = processor_on (move, old->processors[i].model);

      fresh->processors[i].fitted = old->processors[i].fitted;
      if (model != LID_NOWHERE)
        fresh->processors[i].model = model;
    }
  g_free (fresh->firmware);
  fresh->firmware = g_strdup (old->firmware);
  fresh->mode = old->mode;
  fresh->spare_ranks = old->spare_ranks;
  fresh->mirrored_mib = old->mirrored_mib;
  fresh->numa_split = old->numa_split;
  fresh->setup_limit = old->setup_limit;
  fresh->setup_mv = old->setup_mv;
  return fresh;
}

static void
replace (LidPopulation **population, const Move *move)
{
  LidPopulation *fresh;

  if (*population == NULL)
    return;
  fresh = carry_over (move, *population);
  lid_population_free (*population);
  *population = fresh;
}

static void
carry_marks (const Move *move, const guint8 *old, guint8 *fresh)
{
  for (guint i = 0; i < move->from->n_slots; i++)
    {
      int slot = old[i] ? slot_on (move, i) : LID_NOWHERE;

      if (slot != LID_NOWHERE)
        fresh[slot] = TRUE;
    }
}

static LidTrial *
carry_trial (const Move *move, const LidTrial *old)
{
  g_autoptr (LidPopulation) population = carry_over (move, old->population);
  LidTrial *fresh = lid_trial_new (population);

  carry_marks (move, old->reseated, fresh->reseated);
  carry_marks (move, old->at, fresh->at);
  if (old->n_sockets == fresh->n_sockets)
    memcpy (fresh->processor_of, old->processor_of, old->n_sockets * sizeof (guint));
  fresh->eased = old->eased;
  fresh->outcome = old->outcome;
  return fresh;
}

static void
carry_trials (const Move *move, GPtrArray *trials)
{
  for (guint i = 0; i < trials->len; i++)
    {
      LidTrial *old = trials->pdata[i];

      trials->pdata[i] = carry_trial (move, old);
      lid_trial_free (old);
    }
}

/**
 * lid_job_board_move:
 * @job: a job, which stays as it is
 * @board: the board it shall be on
 * @slot_of: (nullable): for each slot of the job's own board the slot of @board, LID_NOWHERE: it
 * has none; NULL: slots of the same id are the same
 * @error: a job that cannot be copied
 *
 * A module whose slot is not on @board is in none, and lies in the tray.
 *
 * Returns: (transfer full) (nullable): the same job on @board, for lid_edits_become()
 */
LidJob *
lid_job_board_move (const LidJob *job, LidBoard *board, const int *slot_of, GError **error)
{
  g_autofree char *text = lid_job_file_to_text (job);
  LidJob *moved = lid_job_file_parse (text, strlen (text), error);
  Move move = { NULL, board, slot_of };

  if (moved == NULL)
    return NULL;
  move.from = moved->board;
  replace (&moved->as_found, &move);
  replace (&moved->as_left, &move);
  for (guint i = 0; i < moved->stages->len; i++)
    replace (&((LidStage *)moved->stages->pdata[i])->population, &move);
  carry_trials (&move, moved->trials);
  lid_board_unref (moved->board);
  moved->board = lid_board_ref (board);
  /* What was kept of the old definition as not understood is not the new one's. */
  if (moved->original != NULL && JSON_NODE_HOLDS_OBJECT (moved->original))
    json_object_remove_member (json_node_get_object (moved->original), "board");
  return moved;
}

/* Members of a definition in words of the screen; one not named here stands as it is. */
static const char *const words[][2] = {
  { "name", N_ ("its name") },
  { "about", N_ ("its description") },
  { "source", N_ ("its sources") },
  { "size_mm", N_ ("its size") },
  { "sockets", N_ ("sockets, channels and slots") },
  { "takes", N_ ("what modules it takes") },
  { "airflow", N_ ("blanks and baffle") },
  { "processors", N_ ("processors") },
  { "rates", N_ ("rates") },
  { "ranks", N_ ("limits of ranks") },
  { "mixing", N_ ("what may be mixed") },
  { "order", N_ ("order of fitting") },
  { "lone", N_ ("where a lone module sits") },
  { "larger_first", N_ ("whether larger modules come first") },
  { "interleave", N_ ("interleave") },
  { "numa", N_ ("nodes of a socket") },
  { "efficiency", N_ ("efficiency") },
  { "modes", N_ ("memory modes") },
  { "limits", N_ ("limits of capacity") },
  { "firmware", N_ ("firmware levels") },
  { "fingerprints", N_ ("how the machine is known again") },
  { "spellings", N_ ("spellings of the slots") },
};

static const char *
word_of (const char *member)
{
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcmp (words[i][0], member) == 0)
      return _ (words[i][1]);
  return member;
}

/**
 * lid_job_board_differences:
 * @job: a job
 * @newer: a newer definition of its board
 * @members: (element-type utf8): from lid_board_newer_find()
 *
 * Returns: (transfer full): what differs, in words, in one line; with the slots in use that the
 * newer definition does not have
 */
char *
lid_job_board_differences (const LidJob *job, const LidBoard *newer, GPtrArray *members)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < members->len; i++)
    /* Translators: between two things of a list */
    g_string_append_printf (text, "%s%s", i > 0 ? _ (", ") : "", word_of (members->pdata[i]));
  for (guint i = 0; i < job->board->n_slots; i++)
    {
      gboolean used = FALSE;

      for (int of = 0; of < LID_N_OF; of++)
        {
          const LidPopulation *population = lid_job_get_population (job, (LidOf)of);

          used = used || (population != NULL && population->slots[i].module != NULL);
        }
      if (used && lid_board_find_slot (newer, job->board->slots[i].id) == LID_NOWHERE)
        g_string_append_printf (text, _ (", no slot %s"), lid_board_name_slot (job->board, i));
    }
  return g_string_free (text, FALSE);
}
