/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/learnt.h"

typedef struct
{
  LidPartsNote *before;
  LidModule *module; /* as it became */
  gboolean stands;
} Answer;

struct _LidLearnt
{
  LidParts *parts;    /* borrowed, nullable: the memory could not be read */
  GPtrArray *answers; /* Answer, oldest first */
};

static void
answer_free (gpointer data)
{
  Answer *answer = data;

  lid_parts_note_free (answer->before);
  lid_module_unref (answer->module);
  g_free (answer);
}

/**
 * lid_learnt_new:
 * @parts: (nullable): the user's parts memory, which must live as long
 *
 * Returns: (transfer full): no answer yet
 */
LidLearnt *
lid_learnt_new (LidParts *parts)
{
  LidLearnt *learnt = g_new0 (LidLearnt, 1);

  learnt->parts = parts;
  learnt->answers = g_ptr_array_new_with_free_func (answer_free);
  return learnt;
}

void
lid_learnt_free (LidLearnt *learnt)
{
  if (learnt == NULL)
    return;
  g_ptr_array_unref (learnt->answers);
  g_free (learnt);
}

/**
 * lid_learnt_add:
 * @module: as it became by the answer
 * @error: what lid_parts_save() says
 *
 * Returns: whether it is remembered; always, where there is nothing to remember it by
 */
gboolean
lid_learnt_add (LidLearnt *learnt, const LidModule *module, GError **error)
{
  Answer *answer;

  if (learnt->parts == NULL || module->part == NULL)
    return TRUE;
  answer = g_new0 (Answer, 1);
  answer->before = lid_parts_note (learnt->parts, module->part);
  answer->module = lid_module_copy (module);
  answer->stands = TRUE;
  g_ptr_array_add (learnt->answers, answer);
  lid_parts_learn (learnt->parts, module);
  return lid_parts_save (learnt->parts, error);
}

/* Whether some module of the part still is what the answer made of it. */
static gboolean
still_stands (const Answer *answer, const LidJob *job)
{
  for (guint i = 0; i < job->modules->len; i++)
    {
      const LidModule *module = job->modules->pdata[i];
      gboolean same = g_strcmp0 (module->part, answer->module->part) == 0;

      for (guint fact = 0; fact < LID_N_FACTS && same; fact++)
        same = answer->module->basis[fact] < LID_BASIS_TOLD
               || (module->basis[fact] >= LID_BASIS_TOLD
                   && module->value[fact] == answer->module->value[fact]);
      if (same)
        return TRUE;
    }
  return FALSE;
}

/**
 * lid_learnt_follow:
 * @job: as it stands after an edit, an undo or a redo
 * @error: what lid_parts_save() says
 *
 * Returns: whether the memory holds what the answers that stand tell
 */
gboolean
lid_learnt_follow (LidLearnt *learnt, const LidJob *job, GError **error)
{
  gboolean changed = FALSE;

  for (guint i = 0; i < learnt->answers->len; i++)
    {
      Answer *answer = learnt->answers->pdata[i];
      gboolean stands = still_stands (answer, job);

      changed |= stands != answer->stands;
      answer->stands = stands;
    }
  if (!changed)
    return TRUE;
  /* Back to before the first of them, then what stands once more. */
  for (guint i = learnt->answers->len; i > 0; i--)
    lid_parts_put_back (learnt->parts, ((Answer *)learnt->answers->pdata[i - 1])->before);
  for (guint i = 0; i < learnt->answers->len; i++)
    {
      const Answer *answer = learnt->answers->pdata[i];

      if (answer->stands)
        lid_parts_learn (learnt->parts, answer->module);
    }
  return lid_parts_save (learnt->parts, error);
}
