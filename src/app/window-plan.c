/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-plan.c — a plan worked out: the shelf that is planned with, and the plan that is taken. */
#include "app/bench-view.h"
#include "app/window-private.h"

#include "planner/plan-shelf.h"

#include <glib/gi18n.h>

static LidPlanView *
get_view (LidWindow *self)
{
  GtkWidget *bench = gtk_widget_get_first_child (self->board_place);

  return bench != NULL ? lid_bench_view_get_plan_view (LID_BENCH_VIEW (bench)) : NULL;
}

static void
keep_shelf (LidWindow *self, GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);

  if (self->settings != NULL)
    g_settings_set_string (self->settings, "shelf", uri);
}

static void ask_for_decimal (LidWindow *self, GFile *file);

static void
shelf_read (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (LidWindow) self = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (LidShelf) shelf = lid_shelf_read_finish (result, &error);
  LidPlanView *view = get_view (self);
  g_autofree char *words = NULL;

  if (view == NULL || self->model == NULL)
    return;
  if (shelf == NULL)
    {
      lid_window_say (self, error->message);
      return;
    }
  keep_shelf (self, lid_shelf_get_file (shelf));
  lid_plan_view_set_shelf (view, shelf);
  words = lid_shelf_describe (shelf);
  /* an offer that stands there is still one to take */
  if (lid_shelf_has_news (shelf))
    lid_window_say (self, words);
  else if (!gtk_widget_get_visible (self->bar_button))
    lid_window_say (self, NULL);
  if (lid_shelf_get_stock (shelf)->n_ambiguous > 0)
    ask_for_decimal (self, lid_shelf_get_file (shelf));
}

static void
read_shelf (LidWindow *self, GFile *file, char decimal)
{
  g_autofree char *job = lid_plan_shelf_job (lid_job_model_get_job (self->model));

  lid_shelf_read_async (file, decimal, job, NULL, shelf_read, g_object_ref (self));
}

static void
read_again (LidWindow *self, char decimal)
{
  LidShelf *shelf = lid_plan_view_get_shelf (get_view (self));

  if (shelf != NULL)
    read_shelf (self, lid_shelf_get_file (shelf), decimal);
}

static void
leave_out (LidWindow *self)
{
}

static void
decimal_comma (LidWindow *self)
{
  read_again (self, ',');
}

static void
decimal_point (LidWindow *self)
{
  read_again (self, '.');
}

/* Asked once a file, never guessed: a price a thousand times too small would be bought. */
static void
ask_for_decimal (LidWindow *self, GFile *file)
{
  static const LidAnswer answers[] = {
    { N_ ("Leave Those Rows Out"), leave_out },
    { N_ ("The Point"), decimal_point },
    { N_ ("The Comma"), decimal_comma },
  };
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *question = g_strdup_printf (_ ("What is the decimal mark in %s?"), name);

  lid_window_ask (
      self, question,
      _ ("Some of its prices, such as 1,234, can be read in two ways, and the file does "
         "not say which is meant."),
      answers, G_N_ELEMENTS (answers));
}

static void
chosen (GtkNativeDialog *dialog, int response, LidWindow *self)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT && file != NULL && self->model != NULL)
    {
      lid_window_keep_folder (self, file);
      read_shelf (self, file, 0);
    }
  g_clear_object (&self->chooser);
}

void
lid_window_choose_shelf (LidWindow *self)
{
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (_ ("Choose a Stock File"), GTK_WINDOW (self),
                                     GTK_FILE_CHOOSER_ACTION_OPEN, _ ("Open"), _ ("Cancel"));

  g_set_object (&self->chooser, GTK_NATIVE_DIALOG (chooser));
  g_object_unref (chooser);
  lid_window_add_filter (GTK_FILE_CHOOSER (chooser), _ ("Stock files"), "*.csv");
  lid_window_add_filter (GTK_FILE_CHOOSER (chooser), _ ("All files"), "*");
  lid_window_start_in_folder (self, GTK_FILE_CHOOSER (chooser));
  g_signal_connect_object (chooser, "response", G_CALLBACK (chosen), self, 0);
  gtk_native_dialog_show (self->chooser);
}

/**
 * lid_window_use_shelf:
 * @file: a stock file
 *
 * Plans with it from now on, and the next time too.
 */
void
lid_window_use_shelf (LidWindow *self, GFile *file)
{
  read_shelf (self, file, 0);
}

/* The shelf of last time, if it is still there. */
static void
remember_shelf (LidWindow *self)
{
  g_autofree char *uri
      = self->settings != NULL ? g_settings_get_string (self->settings, "shelf") : NULL;
  g_autoptr (GFile) file = uri != NULL && *uri != 0 ? g_file_new_for_uri (uri) : NULL;

  if (lid_plan_view_get_shelf (get_view (self)) == NULL && file != NULL
      && g_file_query_exists (file, NULL))
    read_shelf (self, file, 0);
}

/**
 * lid_window_plan:
 *
 * Shows what the machine could become.
 */
void
lid_window_plan (LidWindow *self)
{
  remember_shelf (self);
  gtk_widget_activate_action (gtk_widget_get_first_child (self->board_place), "bench.plan", NULL);
}

/* The modules the plan takes from the shelf are put by for this job. A shelf that cannot be written
 * does not undo the plan: it is said. */
static void
reserve (LidWindow *self, LidShelf *shelf, GPtrArray *wanted)
{
  LidEdits *edits = lid_job_model_get_edits (self->model);
  g_autofree char *path = g_file_get_path (lid_shelf_get_file (shelf)), *sentence = NULL;
  g_autoptr (GError) error = NULL;
  guint n = 0;

  for (guint i = 0; i < wanted->len; i++)
    n += ((LidReservation *)wanted->pdata[i])->count;
  if (!lid_plan_shelf_reserve (edits, path, lid_shelf_get_options (shelf), wanted, &error))
    {
      lid_window_say (self, error->message);
      return;
    }
  lid_job_model_edited (self->model);
  if (n == 0)
    return;
  sentence = g_strdup_printf (g_dngettext (NULL, "%u module of the shelf is put by for this job.",
                                           "%u modules of the shelf are put by for this job.", n),
                              n);
  lid_window_say (self, sentence);
}

/**
 * lid_window_take_plan:
 *
 * The option chosen becomes what is planned, as an edit like any other.
 */
void
lid_window_take_plan (LidWindow *self)
{
  LidPlanView *view = get_view (self);
  LidPlanRunner *runner = lid_plan_view_get_runner (view);
  const LidPlan *plan = lid_plan_runner_get_plan (runner);
  const LidPlanAsk *ask = lid_plan_runner_get_ask (runner);
  LidShelf *shelf = lid_plan_view_get_shelf (view);
  int taken = lid_plan_view_get_taken (view);
  g_autoptr (GPtrArray) wanted = NULL;
  g_autoptr (GError) error = NULL;
  gboolean done;

  if (plan == NULL || taken < 0 || (guint)taken >= plan->options->len)
    return;
  lid_window_say (self, NULL);
  wanted = lid_plan_shelf_wanted (ask, plan->options->pdata[taken]);
  /* After it the plans are forgotten: they answered for the machine as it was planned before. */
  done = lid_plan_take (lid_job_model_get_edits (self->model), plan->options->pdata[taken], &error);
  if (!lid_window_edit (self, done, &error))
    return;
  lid_job_model_set_of (self->model, LID_PLANNED);
  /* A plan that takes nothing gives back what the one before had put by. */
  if (shelf != NULL
      && (wanted->len > 0 || lid_job_model_get_job (self->model)->reserved_in != NULL))
    reserve (self, shelf, wanted);
  gtk_widget_activate_action (gtk_widget_get_first_child (self->board_place), "bench.back", NULL);
}

static void
keep_put_by (LidWindow *self)
{
}

static void
give_back (LidWindow *self)
{
  LidEdits *edits = lid_job_model_get_edits (self->model);
  g_autofree char *path = g_strdup (lid_edits_job (edits)->reserved_in), *sentence = NULL;
  g_autoptr (GError) error = NULL;
  guint n;

  if (!lid_plan_shelf_release (edits, &n, &error))
    {
      lid_window_say (self, error->message);
      return;
    }
  lid_job_model_edited (self->model);
  sentence
      = g_strdup_printf (g_dngettext (NULL, "%u module of %s is no longer put by for this job.",
                                      "%u modules of %s are no longer put by for this job.", n),
                         n, path);
  lid_window_say (self, sentence);
}

/**
 * lid_window_ask_to_give_back:
 *
 * After as left was written: what the job had put by sits in the machine now. Nothing is asked of a
 * job that has nothing put by.
 */
void
lid_window_ask_to_give_back (LidWindow *self)
{
  static const LidAnswer answers[] = {
    { N_ ("Keep Them Put By"), keep_put_by },
    { N_ ("Give Them Back"), give_back },
  };
  const LidJob *job = lid_job_model_get_job (self->model);
  g_autofree char *question = NULL, *detail = NULL;
  g_autoptr (GError) error = NULL;
  guint n;

  if (!lid_plan_shelf_held (job, &n, &error))
    lid_window_say (self, error->message);
  if (error != NULL || n == 0)
    return;
  question = g_strdup_printf (g_dngettext (NULL, "Is %u module still to be put by for this job?",
                                           "Are %u modules still to be put by for this job?", n),
                              n);
  detail = g_strdup_printf (
      _ ("They are put by as job %s on the shelf %s. If they sit in the machine now, take them off "
         "the count in that file and give them back here, or they are missing twice. Until the "
         "count is lowered, keep them put by, or another job plans with them."),
      job->reserved_as, job->reserved_in);
  lid_window_ask (self, question, detail, answers, G_N_ELEMENTS (answers));
}
