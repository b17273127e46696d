/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/job-keeper.h"

#include "job/job-file.h"

#include <glib/gi18n.h>

#define WAIT_MS 400 /* from an edit to its writing; edits meanwhile are written with it */

struct _LidJobKeeper
{
  GObject parent_instance;

  LidJobModel *model;
  char *path; /* nullable: the job's own file */
  guint timer;
  gboolean writing; /* a thread is at it */
  gboolean told;    /* that nothing can be kept */

  /* Held by who touches what stands below: this thread, or the one that writes. */
  GMutex mutex;
  LidRecovery *recovery; /* nullable: nothing was written yet */
  guint turn;            /* what was asked for before it was last raised is not wanted any more */
};

/* What a thread shall write: nothing that anybody else may change. */
typedef struct
{
  guint turn;
  char *path, *title;
  char *text; /* nullable: remove what is there */
} Order;

static guint failed_signal;

G_DEFINE_FINAL_TYPE (LidJobKeeper, lid_job_keeper, G_TYPE_OBJECT)

static void
order_free (gpointer data)
{
  Order *order = data;

  g_free (order->path);
  g_free (order->title);
  g_free (order->text);
  g_free (order);
}

static Order *
order_new (LidJobKeeper *self)
{
  Order *order = g_new0 (Order, 1);

  order->turn = self->turn;
  order->path = g_strdup (self->path);
  order->title = lid_job_model_get_title (self->model);
  if (lid_job_model_get_unsaved (self->model))
    order->text = lid_job_file_to_text (lid_job_model_get_job (self->model));
  return order;
}

/* With the mutex held. */
static gboolean
carry_out (LidJobKeeper *self, const Order *order, GError **error)
{
  if (order->turn != self->turn)
    return TRUE;
  if (order->text == NULL)
    return self->recovery == NULL || lid_recovery_remove (self->recovery, error);
  if (self->recovery == NULL)
    {
      g_autofree char *folder = lid_recovery_default_folder ();

      self->recovery = lid_recovery_new (folder, error);
    }
  return self->recovery != NULL
         && lid_recovery_write (self->recovery, order->path, order->title, order->text, error);
}

static void
tell (LidJobKeeper *self, GError *error)
{
  g_autofree char *sentence = NULL;

  if (self->told)
    return;
  self->told = TRUE;
  sentence = g_strdup_printf (_ ("Unsaved work cannot be kept against a crash, so save often: %s"),
                              error->message);
  g_signal_emit (self, failed_signal, 0, sentence);
}

static void
write_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  LidJobKeeper *self = source;
  GError *error = NULL;
  gboolean ok;

  g_mutex_lock (&self->mutex);
  ok = carry_out (self, data, &error);
  g_mutex_unlock (&self->mutex);
  if (ok)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
written (GObject *source, GAsyncResult *result, gpointer data)
{
  LidJobKeeper *self = LID_JOB_KEEPER (source);
  g_autoptr (GError) error = NULL;

  self->writing = FALSE;
  if (!g_task_propagate_boolean (G_TASK (result), &error))
    tell (self, error);
}

static gboolean
time_is_up (gpointer data)
{
  LidJobKeeper *self = data;
  g_autoptr (GTask) task = NULL;

  if (self->writing)
    return G_SOURCE_CONTINUE; /* a slow disk: the next one takes all that came meanwhile */
  self->timer = 0;
  self->writing = TRUE;
  task = g_task_new (self, NULL, written, NULL);
  g_task_set_task_data (task, order_new (self), order_free);
  g_task_run_in_thread (task, write_in_thread);
  return G_SOURCE_REMOVE;
}

/* Not put off by the next edit: who works without a pause is kept too. */
static void
schedule (LidJobKeeper *self)
{
  if (self->timer == 0)
    self->timer = g_timeout_add_full (G_PRIORITY_LOW, WAIT_MS, time_is_up, self, NULL);
}

static void
lid_job_keeper_dispose (GObject *object)
{
  LidJobKeeper *self = LID_JOB_KEEPER (object);

  lid_job_keeper_close (self);
  g_clear_object (&self->model);
  g_clear_pointer (&self->path, g_free);
  G_OBJECT_CLASS (lid_job_keeper_parent_class)->dispose (object);
}

static void
lid_job_keeper_finalize (GObject *object)
{
  g_mutex_clear (&LID_JOB_KEEPER (object)->mutex);
  G_OBJECT_CLASS (lid_job_keeper_parent_class)->finalize (object);
}

static void
lid_job_keeper_class_init (LidJobKeeperClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = lid_job_keeper_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_job_keeper_finalize;
  failed_signal = g_signal_new ("failed", LID_TYPE_JOB_KEEPER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
lid_job_keeper_init (LidJobKeeper *self)
{
  g_mutex_init (&self->mutex);
}

/**
 * lid_job_keeper_new:
 * @model: the job to keep
 * @recovery: (transfer full) (nullable): the place of a job that was taken up
 *
 * Returns: (transfer full): the keeper
 */
LidJobKeeper *
lid_job_keeper_new (LidJobModel *model, LidRecovery *recovery)
{
  LidJobKeeper *self = g_object_new (LID_TYPE_JOB_KEEPER, NULL);

  self->model = g_object_ref (model);
  self->recovery = recovery;
  g_signal_connect_object (model, "changed", G_CALLBACK (schedule), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (model, "notify::unsaved", G_CALLBACK (schedule), self,
                           G_CONNECT_SWAPPED);
  return self;
}

/**
 * lid_job_keeper_set_path:
 * @path: (nullable): the job's own file
 */
void
lid_job_keeper_set_path (LidJobKeeper *self, const char *path)
{
  g_free (self->path);
  self->path = g_strdup (path);
}

/**
 * lid_job_keeper_write_now:
 *
 * The program is being ended: what is not saved is kept before this returns.
 */
void
lid_job_keeper_write_now (LidJobKeeper *self)
{
  Order *order = order_new (self);
  g_autoptr (GError) error = NULL;

  g_mutex_lock (&self->mutex);
  if (!carry_out (self, order, &error))
    g_message ("%s", error->message);
  g_mutex_unlock (&self->mutex);
  order_free (order);
}

/**
 * lid_job_keeper_forget:
 *
 * The job was saved, or its changes are given up knowingly: nothing of it is left when this
 * returns.
 */
void
lid_job_keeper_forget (LidJobKeeper *self)
{
  g_autoptr (GError) error = NULL;

  g_clear_handle_id (&self->timer, g_source_remove);
  g_mutex_lock (&self->mutex);
  self->turn++;
  if (self->recovery != NULL && !lid_recovery_remove (self->recovery, &error))
    g_message ("%s", error->message);
  g_mutex_unlock (&self->mutex);
}

/**
 * lid_job_keeper_close:
 *
 * Nobody works on the job any more. What of it is not saved and was not given up stays to be
 * offered.
 */
void
lid_job_keeper_close (LidJobKeeper *self)
{
  if (self->model == NULL)
    return;
  if (!lid_job_model_get_unsaved (self->model))
    lid_job_keeper_forget (self);
  g_clear_handle_id (&self->timer, g_source_remove);
  g_signal_handlers_disconnect_by_data (self->model, self);
  g_mutex_lock (&self->mutex);
  self->turn++;
  g_clear_pointer (&self->recovery, lid_recovery_free);
  g_mutex_unlock (&self->mutex);
}
