/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/plan-runner.h"

#include "job/job-file.h"
#include "planner/plan-words.h"

#include <string.h>

#define MOST_ON_THE_WAY 6u /* options shown while the planner still looks for better ones */

/* What one run works on: a copy of the job, since the window's own is edited meanwhile. The thread
 * has it for itself until it is done; boards and modules are read-only and counted atomically. */
typedef struct
{
  LidPlanRunner *runner; /* owned reference; touched by the window's thread alone */
  GCancellable *cancellable;
  char *text;      /* the job, saved */
  LidShelf *shelf; /* nullable */
  LidWish wish;
  LidJob *job;
  LidPlanAsk *ask;
  LidPlan *plan;
} Work;

/* Something the thread has to tell. */
typedef struct
{
  LidPlanRunner *runner; /* owned reference */
  GCancellable *cancellable;
  double progress;
  LidPlanShown *shown; /* nullable */
} News;

struct _LidPlanRunner
{
  GObject parent_instance;

  GCancellable *cancellable; /* of the run that is waited for; nullable: none */
  double progress;
  GPtrArray *shown; /* LidPlanShown */
  Work *work;       /* nullable: done, and not stopped */
  char *complaint;  /* nullable */
};

G_DEFINE_FINAL_TYPE (LidPlanRunner, lid_plan_runner, G_TYPE_OBJECT)

static guint changed_signal;

static void
work_free (Work *work)
{
  g_clear_pointer (&work->plan, lid_plan_free);
  g_clear_pointer (&work->ask, lid_plan_ask_free);
  g_clear_pointer (&work->job, lid_job_free);
  g_clear_object (&work->shelf);
  g_clear_object (&work->cancellable);
  g_clear_object (&work->runner);
  g_free (work->text);
  g_free (work);
}

static void
shown_free (gpointer data)
{
  LidPlanShown *shown = data;

  if (shown == NULL)
    return;
  lid_population_free (shown->population);
  g_clear_pointer (&shown->before, lid_population_free);
  lid_board_unref (shown->board);
  g_free (shown->picks);
  g_free (shown->cost);
  g_free (shown->hands);
  g_free (shown->why);
  g_free (shown);
}

static LidPlanShown *
show (const LidPlanAsk *ask, const LidPlanOption *option, int index)
{
  LidPlanShown *shown = g_new0 (LidPlanShown, 1);

  shown->board = lid_board_ref ((LidBoard *)ask->question.board);
  shown->population = lid_population_copy (option->population);
  if (ask->question.as_found != NULL)
    shown->before = lid_population_copy (ask->question.as_found);
  shown->picks = index != LID_NOWHERE ? lid_plan_words_picks (option->picks) : g_strdup ("");
  shown->cost = lid_plan_words_cost (option, ask->currency);
  shown->hands = lid_plan_words_hands (option);
  shown->why = g_strdup (option->why);
  shown->option = index;
  return shown;
}

static void
news_free (News *news)
{
  shown_free (news->shown);
  g_object_unref (news->cancellable);
  g_object_unref (news->runner);
  g_free (news);
}

/* On the window's thread. News of a run that is over are nobody's. */
static gboolean
hear (gpointer data)
{
  News *news = data;
  LidPlanRunner *self = news->runner;

  if (self->cancellable != news->cancellable)
    return G_SOURCE_REMOVE;
  self->progress = MAX (self->progress, news->progress);
  if (news->shown != NULL && self->shown->len < MOST_ON_THE_WAY)
    g_ptr_array_add (self->shown, g_steal_pointer (&news->shown));
  g_signal_emit (self, changed_signal, 0);
  return G_SOURCE_REMOVE;
}

static void
tell (Work *work, double progress, LidPlanShown *shown)
{
  News *news = g_new0 (News, 1);

  news->runner = g_object_ref (work->runner);
  news->cancellable = g_object_ref (work->cancellable);
  news->progress = progress;
  news->shown = shown;
  g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, hear, news, (GDestroyNotify)news_free);
}

static void
on_progress (double share, gpointer data)
{
  tell (data, share, NULL);
}

static void
on_option (const LidPlanOption *option, gpointer data)
{
  Work *work = data;

  tell (work, 0, show (work->ask, option, LID_NOWHERE));
}

static void
run (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Work *work = data;
  LidPlanWatch watch = { cancellable, on_progress, on_option, work };
  GError *error = NULL;

  work->job = lid_job_file_parse (work->text, strlen (work->text), &error);
  if (work->job != NULL)
    {
      work->ask = lid_plan_ask_new (work->job,
                                    work->shelf != NULL ? lid_shelf_get_stock (work->shelf) : NULL);
      work->plan = lid_plan_new (&work->ask->question, &work->wish, &watch, &error);
    }
  if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_boolean (task, TRUE);
}

static void
done (GObject *source, GAsyncResult *result, gpointer data)
{
  Work *work = g_task_get_task_data (G_TASK (result));
  LidPlanRunner *self = work->runner;
  g_autoptr (GError) error = NULL;
  gboolean ok = g_task_propagate_boolean (G_TASK (result), &error);

  if (self->cancellable != work->cancellable)
    return;
  g_clear_object (&self->cancellable);
  self->progress = 1;
  g_ptr_array_set_size (self->shown, 0);
  if (!ok)
    self->complaint = g_strdup (error->message);
  else
    {
      Work *kept = g_memdup2 (work, sizeof *work);

      memset (work, 0, sizeof *work); /* the task frees an empty shell */
      g_clear_object (&kept->runner);
      self->work = kept;
      for (guint i = 0; i < kept->plan->options->len; i++)
        g_ptr_array_add (self->shown, show (kept->ask, kept->plan->options->pdata[i], (int)i));
    }
  g_signal_emit (self, changed_signal, 0);
}

/**
 * lid_plan_runner_start:
 * @job: the machine
 * @shelf: (nullable): what can be taken from the shelf; nothing reads it until the run ends
 * @wish: what is wished
 *
 * Stops what runs, forgets what was found, and begins anew.
 */
void
lid_plan_runner_start (LidPlanRunner *self, const LidJob *job, LidShelf *shelf, const LidWish *wish)
{
  g_autoptr (GTask) task = NULL;
  Work *work = g_new0 (Work, 1);

  lid_plan_runner_forget (self);
  self->cancellable = g_cancellable_new ();
  work->runner = g_object_ref (self);
  work->cancellable = g_object_ref (self->cancellable);
  work->text = lid_job_file_to_text (job);
  work->shelf = shelf != NULL ? g_object_ref (shelf) : NULL;
  work->wish = *wish;
  task = g_task_new (NULL, self->cancellable, done, NULL);
  /* What was found before the plan was stopped counts: the planner itself says how far it came. */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, work, (GDestroyNotify)work_free);
  g_task_run_in_thread (task, run);
  g_signal_emit (self, changed_signal, 0);
}

/**
 * lid_plan_runner_stop:
 *
 * The planner ends soon, with what it has found so far.
 */
void
lid_plan_runner_stop (LidPlanRunner *self)
{
  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
}

/**
 * lid_plan_runner_forget:
 *
 * Stops what runs, whose answer is heard no more, and drops what was found.
 */
void
lid_plan_runner_forget (LidPlanRunner *self)
{
  lid_plan_runner_stop (self);
  g_clear_object (&self->cancellable);
  g_clear_pointer (&self->work, work_free);
  g_clear_pointer (&self->complaint, g_free);
  g_ptr_array_set_size (self->shown, 0);
  self->progress = 0;
}

gboolean
lid_plan_runner_is_running (LidPlanRunner *self)
{
  return self->cancellable != NULL;
}

/**
 * lid_plan_runner_get_progress:
 *
 * Returns: 0 to 1
 */
double
lid_plan_runner_get_progress (LidPlanRunner *self)
{
  return self->progress;
}

/**
 * lid_plan_runner_get_shown:
 *
 * Returns: (transfer none) (element-type LidPlanShown): the options, in the planner's order; while
 * it runs, some found on the way
 */
const GPtrArray *
lid_plan_runner_get_shown (LidPlanRunner *self)
{
  return self->shown;
}

/**
 * lid_plan_runner_get_plan:
 *
 * Returns: (transfer none) (nullable): the plan, once it is there
 */
const LidPlan *
lid_plan_runner_get_plan (LidPlanRunner *self)
{
  return self->work != NULL ? self->work->plan : NULL;
}

const LidPlanAsk *
lid_plan_runner_get_ask (LidPlanRunner *self)
{
  return self->work != NULL ? self->work->ask : NULL;
}

/**
 * lid_plan_runner_get_complaint:
 *
 * Returns: (transfer none) (nullable): why there is no plan at all, one sentence
 */
const char *
lid_plan_runner_get_complaint (LidPlanRunner *self)
{
  return self->complaint;
}

static void
lid_plan_runner_dispose (GObject *object)
{
  lid_plan_runner_forget (LID_PLAN_RUNNER (object));
  G_OBJECT_CLASS (lid_plan_runner_parent_class)->dispose (object);
}

static void
lid_plan_runner_finalize (GObject *object)
{
  g_ptr_array_unref (LID_PLAN_RUNNER (object)->shown);
  G_OBJECT_CLASS (lid_plan_runner_parent_class)->finalize (object);
}

static void
lid_plan_runner_class_init (LidPlanRunnerClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = lid_plan_runner_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_plan_runner_finalize;
  changed_signal = g_signal_new ("changed", LID_TYPE_PLAN_RUNNER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void
lid_plan_runner_init (LidPlanRunner *self)
{
  self->shown = g_ptr_array_new_with_free_func (shown_free);
}

LidPlanRunner *
lid_plan_runner_new (void)
{
  return g_object_new (LID_TYPE_PLAN_RUNNER, NULL);
}
