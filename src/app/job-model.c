/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/job-model.h"

#include "job/learnt.h"

#include <glib/gi18n.h>

struct _LidJobModel
{
  GObject parent_instance;

  LidEdits *edits;
  LidParts *parts; /* nullable: the user's parts memory could not be read */
  LidLearnt *learnt;
  LidOf of;
  LidAssessment *assessment;
  /* of as found, made when first asked for and kept while it stays the same */
  LidAssessment *found;
  LidPopulation *found_of;
  LidBoard *found_on;
};

enum
{
  PROP_OF = 1,
  PROP_TITLE,
  PROP_UNSAVED,
  PROP_UNDO_NAME,
  PROP_REDO_NAME,
  N_PROPS
};

static GParamSpec *props[N_PROPS];
static guint changed_signal;

G_DEFINE_FINAL_TYPE (LidJobModel, lid_job_model, G_TYPE_OBJECT)

static void
assess (LidJobModel *self)
{
  const LidJob *job = lid_edits_job (self->edits);
  g_autoptr (GPtrArray) tray = lid_tray_modules (job, self->of);
  g_autoptr (LidPopulation) empty = NULL;
  LidQuestion question = { job->board, lid_job_model_get_population (self), job->as_found };

  if (question.population == NULL)
    question.population = empty = lid_population_new (job->board);
  g_clear_pointer (&self->assessment, lid_assessment_free);
  self->assessment = lid_assessment_new_at_hand (&question, tray);
}

static void
forget_found (LidJobModel *self)
{
  g_clear_pointer (&self->found, lid_assessment_free);
  g_clear_pointer (&self->found_of, lid_population_free);
  g_clear_pointer (&self->found_on, lid_board_unref);
}

/**
 * lid_job_model_get_found:
 *
 * Returns: (transfer none) (nullable): what the checker says of as found, whatever is looked at;
 *   NULL where nothing was found. Good until the next edit.
 */
const LidAssessment *
lid_job_model_get_found (LidJobModel *self)
{
  const LidJob *job = lid_edits_job (self->edits);
  LidQuestion question = { job->board, job->as_found, job->as_found };

  if (job->as_found == NULL)
    return NULL;
  if (self->found != NULL && self->found_on == job->board
      && lid_population_equal (self->found_of, job->as_found))
    return self->found;
  forget_found (self);
  self->found = lid_assessment_new (&question);
  self->found_of = lid_population_copy (job->as_found);
  self->found_on = lid_board_ref (job->board);
  return self->found;
}

static void
lid_job_model_finalize (GObject *object)
{
  LidJobModel *self = LID_JOB_MODEL (object);

  g_clear_pointer (&self->assessment, lid_assessment_free);
  forget_found (self);
  g_clear_pointer (&self->edits, lid_edits_free);
  g_clear_pointer (&self->learnt, lid_learnt_free);
  g_clear_pointer (&self->parts, lid_parts_free);
  G_OBJECT_CLASS (lid_job_model_parent_class)->finalize (object);
}

static void
lid_job_model_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  LidJobModel *self = LID_JOB_MODEL (object);

  switch (id)
    {
    case PROP_OF:
      g_value_set_uint (value, self->of);
      break;
    case PROP_TITLE:
      g_value_take_string (value, lid_job_model_get_title (self));
      break;
    case PROP_UNSAVED:
      g_value_set_boolean (value, lid_job_model_get_unsaved (self));
      break;
    case PROP_UNDO_NAME:
      g_value_set_string (value, lid_edits_undo_name (self->edits));
      break;
    case PROP_REDO_NAME:
      g_value_set_string (value, lid_edits_redo_name (self->edits));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
lid_job_model_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_OF)
    lid_job_model_set_of (LID_JOB_MODEL (object), (LidOf)g_value_get_uint (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
lid_job_model_class_init (LidJobModelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags shown = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  object_class->finalize = lid_job_model_finalize;
  object_class->get_property = lid_job_model_get_property;
  object_class->set_property = lid_job_model_set_property;
  props[PROP_OF]
      = g_param_spec_uint ("of", NULL, NULL, 0, LID_N_OF - 1, LID_PLANNED,
                           G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  props[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, shown);
  props[PROP_UNSAVED] = g_param_spec_boolean ("unsaved", NULL, NULL, FALSE, shown);
  props[PROP_UNDO_NAME] = g_param_spec_string ("undo-name", NULL, NULL, NULL, shown);
  props[PROP_REDO_NAME] = g_param_spec_string ("redo-name", NULL, NULL, NULL, shown);
  g_object_class_install_properties (object_class, N_PROPS, props);
  changed_signal = g_signal_new ("changed", LID_TYPE_JOB_MODEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void
lid_job_model_init (LidJobModel *self)
{
}

/**
 * lid_job_model_new:
 * @job: (transfer full): the job
 * @parts: (transfer full) (nullable): the user's parts memory
 *
 * Looks at as left where that is all there is, at as found where nothing is planned, else at the
 * plan.
 *
 * Returns: (transfer full): the model
 */
LidJobModel *
lid_job_model_new (LidJob *job, LidParts *parts)
{
  LidJobModel *self = g_object_new (LID_TYPE_JOB_MODEL, NULL);

  self->edits = lid_edits_new (job);
  self->parts = parts;
  self->learnt = lid_learnt_new (parts);
  self->of = LID_PLANNED;
  if (lid_job_get_population (job, LID_PLANNED) == NULL && job->as_found != NULL)
    self->of = LID_AS_FOUND;
  assess (self);
  return self;
}

/**
 * lid_job_model_get_edits:
 *
 * Returns: (transfer none): where edits are made; call lid_job_model_edited() after each
 */
LidEdits *
lid_job_model_get_edits (LidJobModel *self)
{
  return self->edits;
}

/**
 * lid_job_model_get_job:
 *
 * Returns: (transfer none): the job as it stands, good until the next edit
 */
const LidJob *
lid_job_model_get_job (LidJobModel *self)
{
  return lid_edits_job (self->edits);
}

/**
 * lid_job_model_get_parts:
 *
 * Returns: (transfer none) (nullable): the user's parts memory
 */
const LidParts *
lid_job_model_get_parts (LidJobModel *self)
{
  return self->parts;
}

/**
 * lid_job_model_get_population:
 *
 * Returns: (transfer none) (nullable): the population looked at, good until the next edit; where it
 * has not begun yet, what it will begin as
 */
const LidPopulation *
lid_job_model_get_population (LidJobModel *self)
{
  for (int of = self->of; of >= LID_AS_FOUND; of--)
    if (lid_edits_population (self->edits, (LidOf)of) != NULL)
      return lid_edits_population (self->edits, (LidOf)of);
  return NULL;
}

/**
 * lid_job_model_get_assessment:
 *
 * Returns: (transfer none): of the population looked at, good until "changed"
 */
const LidAssessment *
lid_job_model_get_assessment (LidJobModel *self)
{
  return self->assessment;
}

LidOf
lid_job_model_get_of (LidJobModel *self)
{
  return self->of;
}

/**
 * lid_job_model_set_of:
 * @of: which population to look at
 */
void
lid_job_model_set_of (LidJobModel *self, LidOf of)
{
  if (of == self->of)
    return;
  self->of = of;
  assess (self);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_OF]);
  g_signal_emit (self, changed_signal, 0);
}

gboolean
lid_job_model_get_unsaved (LidJobModel *self)
{
  return lid_edits_changed (self->edits);
}

/**
 * lid_job_model_get_title:
 *
 * Returns: (transfer full): the machine as the owner calls it, else the board's name
 */
char *
lid_job_model_get_title (LidJobModel *self)
{
  const LidJob *job = lid_edits_job (self->edits);

  if (job->title != NULL)
    return g_strdup (job->title);
  return g_strdup (job->board->name != NULL ? job->board->name : _ ("A machine without a name"));
}

static void
notify_all (LidJobModel *self)
{
  g_object_freeze_notify (G_OBJECT (self));
  for (guint i = PROP_TITLE; i < N_PROPS; i++)
    g_object_notify_by_pspec (G_OBJECT (self), props[i]);
  g_object_thaw_notify (G_OBJECT (self));
}

/**
 * lid_job_model_get_asks:
 *
 * Returns: (transfer full) (element-type LidAsk): facts that rules need and nobody told, by part
 */
GPtrArray *
lid_job_model_get_asks (LidJobModel *self)
{
  const LidPopulation *population = lid_job_model_get_population (self);

  return population != NULL ? lid_asks_list (self->assessment, population) : g_ptr_array_new ();
}

/**
 * lid_job_model_tell_label:
 * @module: id of a module
 * @text: what its label prints
 * @remark: (out) (transfer full) (nullable): why it cannot be remembered for the next machine
 * @error: what lid_edits_tell_label() says
 *
 * Every module of the part is known by it, in this job and, until it is undone, in the user's parts
 * memory. Everybody hears of it.
 *
 * Returns: whether the label was taken
 */
gboolean
lid_job_model_tell_label (
    LidJobModel *self, const char *module, const char *text, char **remark, GError **error)
{
  g_autoptr (GError) inner = NULL;

  *remark = NULL;
  if (!lid_edits_tell_label (self->edits, module, text, error))
    return FALSE;
  if (!lid_learnt_add (self->learnt, lid_job_find_module (lid_edits_job (self->edits), module),
                       &inner))
    *remark = g_strdup (inner->message);
  lid_job_model_edited (self);
  return TRUE;
}

/**
 * lid_job_model_edited:
 *
 * An edit was made: checks again and tells everybody.
 */
void
lid_job_model_edited (LidJobModel *self)
{
  g_autoptr (GError) error = NULL;

  if (!lid_learnt_follow (self->learnt, lid_edits_job (self->edits), &error))
    g_message ("%s", error->message);
  assess (self);
  notify_all (self);
  g_signal_emit (self, changed_signal, 0);
}

void
lid_job_model_undo (LidJobModel *self)
{
  if (lid_edits_undo (self->edits))
    lid_job_model_edited (self);
}

void
lid_job_model_redo (LidJobModel *self)
{
  if (lid_edits_redo (self->edits))
    lid_job_model_edited (self);
}

/**
 * lid_job_model_saved:
 *
 * What stands now is on disk.
 */
void
lid_job_model_saved (LidJobModel *self)
{
  lid_edits_mark_saved (self->edits);
  notify_all (self);
}
