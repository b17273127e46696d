/* SPDX-License-Identifier: GPL-3.0-or-later */
/* edits-settings.c — the machine around the modules, and the job's texts. */
#include "job/edits-private.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>

#define MOST_SPARE_RANKS 64u
#define MOST_NODES 64u
#define MOST_MV 5000u

static gboolean
refuse (GError **error, LidPopulation *draft, const char *why)
{
  lid_population_free (draft);
  g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL, why);
  return FALSE;
}

/**
 * lid_edits_set_firmware:
 * @edits: a job
 * @of: which population
 * @level: (nullable): the firmware level, one of the board's or any other; empty: not told
 * @error: a job open for reading only
 *
 * Returns: whether it is set
 */
gboolean
lid_edits_set_firmware (LidEdits *edits, LidOf of, const char *level, GError **error)
{
  LidPopulation *draft = lid_edits_draft (edits, of);

  if (level != NULL && !g_utf8_validate (level, -1, NULL))
    return refuse (error, draft, _ ("the firmware level is no text (UTF-8)"));
  lid_job_set_text (&draft->firmware, level);
  return lid_edits_commit_population (edits, of, draft, g_strdup (_ ("firmware level")), error);
}

/**
 * lid_edits_set_processor:
 * @edits: a job
 * @of: which population
 * @socket: a socket of the board
 * @fitted: whether a processor is in it
 * @model: one of the board's processors, LID_NOWHERE: not told
 * @error: LID_ERROR_BAD_CALL, a job open for reading only
 *
 * Modules of an absent processor stay where they are; the checker speaks of them.
 *
 * Returns: whether it is set
 */
gboolean
lid_edits_set_processor (
    LidEdits *edits, LidOf of, guint socket, gboolean fitted, int model, GError **error)
{
  LidPopulation *draft = lid_edits_draft (edits, of);
  const LidBoard *board = edits->job->board;

  if (socket >= board->n_sockets || model < LID_NOWHERE || model >= (int)board->n_processors)
    return refuse (error, draft, _ ("the board has no such socket or no such processor"));
  draft->processors[socket].fitted = fitted;
  draft->processors[socket].model = model;
  return lid_edits_commit_population (
      edits, of, draft, g_strdup_printf (_ ("processor %s"), board->sockets[socket].name), error);
}

/**
 * lid_edits_set_mode:
 * @edits: a job
 * @of: which population
 * @mode: the memory mode
 * @spare_ranks: spared: ranks a channel keeps in reserve, at most 64; else ignored
 * @mirrored_mib: partly mirrored: MiB mirrored; else ignored
 * @error: LID_ERROR_BAD_CALL, a job open for reading only
 *
 * Whether the mode takes effect is the checker's business.
 *
 * Returns: whether it is set
 */
gboolean
lid_edits_set_mode (
    LidEdits *edits, LidOf of, LidMode mode, guint spare_ranks, gint64 mirrored_mib, GError **error)
{
  LidPopulation *draft = lid_edits_draft (edits, of);

  if ((guint)mode >= LID_N_MODES || spare_ranks > MOST_SPARE_RANKS || mirrored_mib < 0
      || mirrored_mib > G_GINT64_CONSTANT (1) << 40)
    return refuse (error, draft, _ ("no machine has such a memory mode"));
  draft->mode = mode;
  draft->spare_ranks = mode == LID_MODE_SPARED ? spare_ranks : 0;
  draft->mirrored_mib = mode == LID_MODE_PARTLY_MIRRORED ? mirrored_mib : 0;
  return lid_edits_commit_population (edits, of, draft, g_strdup (_ ("memory mode")), error);
}

/**
 * lid_edits_set_numa_split:
 * @edits: a job
 * @of: which population
 * @nodes: nodes a socket is cut into, at most 64; 0: not cut
 * @error: LID_ERROR_BAD_CALL, a job open for reading only
 *
 * Returns: whether it is set
 */
gboolean
lid_edits_set_numa_split (LidEdits *edits, LidOf of, guint nodes, GError **error)
{
  LidPopulation *draft = lid_edits_draft (edits, of);

  if (nodes > MOST_NODES)
    return refuse (error, draft, _ ("no machine cuts a socket into so many nodes"));
  draft->numa_split = nodes;
  return lid_edits_commit_population (edits, of, draft, g_strdup (_ ("nodes of a socket")), error);
}

/**
 * lid_edits_set_setup:
 * @edits: a job
 * @of: which population
 * @limit: the rate setup is set to, in thirds of a MT/s; LID_RATE_UNKNOWN: automatic
 * @mv: the voltage setup is set to, in mV; 0: automatic
 * @error: LID_ERROR_BAD_CALL, a job open for reading only
 *
 * Returns: whether it is set
 */
gboolean
lid_edits_set_setup (LidEdits *edits, LidOf of, LidRate limit, guint mv, GError **error)
{
  LidPopulation *draft = lid_edits_draft (edits, of);

  if (lid_rate_mts (limit) > LID_RATE_MAX_MTS || mv > MOST_MV)
    return refuse (error, draft, _ ("no setup offers such a rate or voltage"));
  draft->setup_limit = limit;
  draft->setup_mv = mv;
  return lid_edits_commit_population (edits, of, draft, g_strdup (_ ("settings of setup")), error);
}

static char *
name_of_text (LidEditsText which)
{
  switch (which)
    {
    case LID_EDITS_TITLE:
      return g_strdup (_ ("name of the machine"));
    case LID_EDITS_OWNER:
      return g_strdup (_ ("owner"));
    case LID_EDITS_ASSET:
      return g_strdup (_ ("asset number"));
    case LID_EDITS_NUMBER:
      return g_strdup (_ ("job number"));
    case LID_EDITS_SHOP:
      return g_strdup (_ ("shop"));
    case LID_EDITS_TECHNICIAN:
      return g_strdup (_ ("technician"));
    case LID_EDITS_NOTES:
    case LID_EDITS_N_TEXTS:
    default:
      return g_strdup (_ ("notes"));
    }
}

/**
 * lid_edits_set_text:
 * @edits: a job
 * @which: which of the job's texts
 * @text: (nullable): what it becomes; empty counts as none
 * @error: LID_ERROR_BAD_CALL for what is no UTF-8, LID_ERROR_TOO_LARGE over LID_JOB_MAX_TEXT bytes,
 * a job open for reading only
 *
 * Calls that follow one another on the same text, as keys are typed, are one step.
 *
 * Returns: whether it is set
 */
gboolean
lid_edits_set_text (LidEdits *edits, LidEditsText which, const char *text, GError **error)
{
  char **field = lid_step_text_field (edits->job, which);
  LidStep *step;

  g_return_val_if_fail (field != NULL, FALSE);
  if (text != NULL && *text == 0)
    text = NULL;
  if (g_strcmp0 (*field, text) == 0)
    return TRUE;
  if (text != NULL && strlen (text) > LID_JOB_MAX_TEXT)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_TOO_LARGE,
                   _ ("this text is longer than a job document takes (%u bytes)"),
                   LID_JOB_MAX_TEXT);
      return FALSE;
    }
  if (text != NULL && !g_utf8_validate (text, -1, NULL))
    return refuse (error, NULL, _ ("this is no text (UTF-8)"));
  if (edits->done > 0 && !lid_edits_can_redo (edits) && lid_edits_changed (edits)
      && lid_step_is_text (edits->steps->pdata[edits->done - 1], which))
    {
      lid_job_set_text (field, text);
      return TRUE;
    }
  step = lid_step_new (name_of_text (which));
  lid_step_text (step, which, g_strdup (text));
  return lid_edits_commit (edits, step, error);
}

/**
 * lid_edits_get_text:
 *
 * Returns: (transfer none) (nullable): that text of the job
 */
const char *
lid_edits_get_text (const LidEdits *edits, LidEditsText which)
{
  char **field = lid_step_text_field (edits->job, which);

  return field != NULL ? *field : NULL;
}
