/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/plan-view.h"

#include "app/plan-card.h"
#include "app/window-actions.h"
#include "app/wrapped.h"

#include <glib/gi18n.h>
#include <math.h>

#define PAUSE_MS 250 /* after the last change of the wish: nobody wants a plan for every digit */

struct _LidPlanView
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *content;
  GtkWidget *wish;
  GtkLabel *sentence;
  GtkWidget *stop_button;
  GtkWidget *next_button; /* where no plan is found: the wider wish that may find one */
  GtkFlowBox *cards;
  /* owned */
  LidJobModel *model; /* nullable */
  LidShelf *shelf;    /* nullable */
  LidPlanRunner *runner;
  guint pause;   /* source; 0: none */
  guint n_cards; /* shown of the run that is going on */
  int taken;
};

G_DEFINE_FINAL_TYPE (LidPlanView, lid_plan_view, GTK_TYPE_WIDGET)

static guint taken_signal;

/**
 * lid_plan_view_say:
 * @sentence: what there is to say of the plans or of the wish
 */
void
lid_plan_view_say (LidPlanView *self, const char *sentence)
{
  gtk_label_set_label (self->sentence, sentence);
  gtk_widget_set_visible (gtk_widget_get_parent (GTK_WIDGET (self->sentence)), *sentence != 0);
}

static void
clear_cards (LidPlanView *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->cards))) != NULL)
    gtk_flow_box_remove (self->cards, child);
  self->n_cards = 0;
}

/* The generation a rate is a step of: the board's, where it takes one alone. */
static LidGeneration
generation_of (const LidBoard *board)
{
  for (int g = LID_GENERATION_UNKNOWN + 1; g < LID_N_GENERATIONS; g++)
    if (board->generations == 1u << g)
      return (LidGeneration)g;
  return LID_GENERATION_UNKNOWN;
}

static void
begin (LidPlanView *self)
{
  const LidStock *stock = self->shelf != NULL && !lid_plan_runner_is_running (self->runner)
                              ? lid_shelf_get_stock (self->shelf)
                              : NULL;
  const LidJob *job = lid_job_model_get_job (self->model);
  g_autofree char *complaint = NULL;
  LidWish wish;

  clear_cards (self);
  if (lid_wish_line_get_wish (LID_WISH_LINE (self->wish), stock, generation_of (job->board), &wish,
                              &complaint))
    {
      lid_plan_runner_start (self->runner, job, self->shelf, &wish);
      return;
    }
  lid_plan_runner_forget (self->runner);
  lid_plan_view_say (self, complaint);
}

static gboolean
pause_over (gpointer data)
{
  LidPlanView *self = data;

  self->pause = 0;
  if (self->model != NULL)
    begin (self);
  return G_SOURCE_REMOVE;
}

/* A wish, a shelf or a job that changed: what is shown would answer another question. Nobody looks
 * at it while the page is not shown. */
static void
wish_changed (LidPlanView *self)
{
  g_clear_handle_id (&self->pause, g_source_remove);
  lid_plan_runner_forget (self->runner);
  clear_cards (self);
  gtk_widget_set_visible (self->stop_button, FALSE);
  gtk_widget_set_visible (self->next_button, FALSE);
  lid_plan_view_say (self, "");
  if (self->model != NULL && gtk_widget_get_mapped (GTK_WIDGET (self)))
    self->pause = g_timeout_add (PAUSE_MS, pause_over, self);
}

static void
card_taken (LidPlanCard *card, LidPlanView *self)
{
  lid_plan_view_take (self, (guint)lid_plan_card_get_option (card));
}

/**
 * lid_plan_view_take:
 * @option: which of the plan's options
 *
 * As the button of its card does.
 */
void
lid_plan_view_take (LidPlanView *self, guint option)
{
  self->taken = (int)option;
  g_signal_emit (self, taken_signal, 0);
}

static void
add_cards (LidPlanView *self)
{
  const GPtrArray *shown = lid_plan_runner_get_shown (self->runner);

  for (; self->n_cards < shown->len; self->n_cards++)
    {
      GtkWidget *card = lid_plan_card_new (shown->pdata[self->n_cards]);

      g_signal_connect_object (card, "taken", G_CALLBACK (card_taken), self, 0);
      gtk_flow_box_insert (self->cards, card, -1);
      gtk_widget_set_focusable (gtk_widget_get_parent (card), FALSE);
      lid_window_actions_name (gtk_widget_get_parent (card),
                               lid_leaf_card_get_name (LID_LEAF_CARD (card)));
    }
}

/* What is to be said once the planner is done. */
static char *
words_of_plan (LidPlanView *self, const LidPlan *plan)
{
  GString *out = g_string_new (plan->reason != NULL ? plan->reason : "");

  if (plan->uneven && plan->options->len > 0)
    g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "",
                            _ ("No plan fills the processors alike; these do not."));
  if (!plan->proved)
    g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "",
                            _ ("The search was ended early: there may be better plans."));
  if (out->len == 0 && plan->options->len == 1
      && ((const LidPlanOption *)plan->options->pdata[0])->hands == 0)
    g_string_append (out, _ ("Nothing is to be gained: it stays as found."));
  else if (out->len == 0)
    g_string_append_printf (out,
                            g_dngettext (NULL, "%u plan to choose from; nothing beats it.",
                                         "%u plans to choose from; nothing beats them.",
                                         plan->options->len),
                            plan->options->len);
  return g_string_free (out, FALSE);
}

/* Nothing found is no dead end: more to take from, or the hands may go further. */
static void
offer_next (LidPlanView *self, const LidPlan *plan)
{
  gboolean none = plan != NULL && plan->options->len == 0;
  gboolean pulls = lid_wish_line_get_reach (LID_WISH_LINE (self->wish)) == LID_HANDS_PULL;
  const char *words
      = self->shelf == NULL ? _ ("Choose a Stock File…") : _ ("Let Modules Be Pulled");

  gtk_widget_set_visible (self->next_button, none && (self->shelf == NULL || !pulls));
  gtk_button_set_label (GTK_BUTTON (self->next_button), words);
}

static void
go_next (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidPlanView *self = LID_PLAN_VIEW (widget);

  if (self->shelf == NULL)
    gtk_widget_activate_action (widget, "win.choose-shelf", NULL);
  else
    lid_wish_line_set_reach (LID_WISH_LINE (self->wish), LID_HANDS_PULL);
}

static void
run_changed (LidPlanView *self)
{
  const LidPlan *plan = lid_plan_runner_get_plan (self->runner);
  const char *complaint = lid_plan_runner_get_complaint (self->runner);
  gboolean running = lid_plan_runner_is_running (self->runner);
  g_autofree char *words = NULL;

  if (self->model == NULL)
    return;
  gtk_widget_set_visible (self->stop_button, running);
  offer_next (self, running ? NULL : plan);
  if (running)
    words = g_strdup_printf (_ ("Looking for plans: %d %%"),
                             (int)floor (lid_plan_runner_get_progress (self->runner) * 100));
  else if (plan != NULL)
    words = words_of_plan (self, plan);
  else
    words = g_strdup (complaint != NULL ? complaint : "");
  if (plan != NULL || complaint != NULL)
    clear_cards (self);
  add_cards (self);
  lid_plan_view_say (self, words);
}

/* Who wishes for more memory mostly wants about twice what is there: plans for that are shown at
 * once, until something else is written. */
static void
propose (LidPlanView *self)
{
  const LidAssessment *found = lid_job_model_get_found (self->model);
  g_autofree char *twice = NULL;

  /* as a number of GB, which the field reads whatever the language */
  if (found != NULL && found->figures.usable_known && found->figures.usable_mib >= 1024)
    twice = g_strdup_printf ("%" G_GINT64_FORMAT " GB", 2 * found->figures.usable_mib / 1024);
  lid_wish_line_set_proposal (LID_WISH_LINE (self->wish), twice);
}

/**
 * lid_plan_view_set_model:
 * @model: (nullable): the job that is planned for
 */
void
lid_plan_view_set_model (LidPlanView *self, LidJobModel *model)
{
  const LidJob *job = model != NULL ? lid_job_model_get_job (model) : NULL;

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, wish_changed, self);
  g_set_object (&self->model, model);
  if (model != NULL)
    {
      propose (self);
      lid_wish_line_set_what (LID_WISH_LINE (self->wish),
                              job->as_found != NULL ? LID_WISH_REARRANGE : LID_WISH_CAPACITY);
      g_signal_connect_object (model, "changed", G_CALLBACK (wish_changed), self,
                               G_CONNECT_SWAPPED);
    }
  wish_changed (self);
}

/**
 * lid_plan_view_set_shelf:
 * @shelf: (nullable): what modules may be taken from besides the machine and the tray
 */
void
lid_plan_view_set_shelf (LidPlanView *self, LidShelf *shelf)
{
  g_autofree char *name = shelf != NULL ? g_file_get_basename (lid_shelf_get_file (shelf)) : NULL;

  g_set_object (&self->shelf, shelf);
  lid_wish_line_set_shelf (LID_WISH_LINE (self->wish), name);
  wish_changed (self);
}

LidShelf *
lid_plan_view_get_shelf (LidPlanView *self)
{
  return self->shelf;
}

LidWishLine *
lid_plan_view_get_wish (LidPlanView *self)
{
  return LID_WISH_LINE (self->wish);
}

LidPlanRunner *
lid_plan_view_get_runner (LidPlanView *self)
{
  return self->runner;
}

/**
 * lid_plan_view_get_taken:
 *
 * Returns: which of the plan's options was taken last
 */
int
lid_plan_view_get_taken (LidPlanView *self)
{
  return self->taken;
}

static void
stop (GtkWidget *widget, const char *action, GVariant *parameter)
{
  lid_plan_runner_stop (LID_PLAN_VIEW (widget)->runner);
}

static gboolean
lid_plan_view_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (LID_PLAN_VIEW (widget)->wish);
}

static void
lid_plan_view_map (GtkWidget *widget)
{
  LidPlanView *self = LID_PLAN_VIEW (widget);

  GTK_WIDGET_CLASS (lid_plan_view_parent_class)->map (widget);
  if (lid_plan_runner_get_plan (self->runner) == NULL)
    wish_changed (self);
}

static void
lid_plan_view_dispose (GObject *object)
{
  LidPlanView *self = LID_PLAN_VIEW (object);

  g_clear_handle_id (&self->pause, g_source_remove);
  if (self->runner != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->runner, self);
      lid_plan_runner_forget (self->runner);
    }
  g_clear_object (&self->runner);
  g_clear_object (&self->shelf);
  g_clear_object (&self->model);
  gtk_widget_dispose_template (GTK_WIDGET (object), LID_TYPE_PLAN_VIEW);
  G_OBJECT_CLASS (lid_plan_view_parent_class)->dispose (object);
}

static void
lid_plan_view_class_init (LidPlanViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_plan_view_dispose;
  widget_class->map = lid_plan_view_map;
  widget_class->grab_focus = lid_plan_view_grab_focus;
  g_type_ensure (LID_TYPE_WISH_LINE);
  g_type_ensure (LID_TYPE_WRAPPED);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/plan-view.ui");
  gtk_widget_class_bind_template_child (widget_class, LidPlanView, content);
  gtk_widget_class_bind_template_child (widget_class, LidPlanView, wish);
  gtk_widget_class_bind_template_child (widget_class, LidPlanView, sentence);
  gtk_widget_class_bind_template_child (widget_class, LidPlanView, stop_button);
  gtk_widget_class_bind_template_child (widget_class, LidPlanView, next_button);
  gtk_widget_class_bind_template_child (widget_class, LidPlanView, cards);
  gtk_widget_class_bind_template_callback (widget_class, wish_changed);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "plan");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_install_action (widget_class, "plan.stop", NULL, stop);
  gtk_widget_class_install_action (widget_class, "plan.next", NULL, go_next);
  taken_signal = g_signal_new ("taken", LID_TYPE_PLAN_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

static void
lid_plan_view_init (LidPlanView *self)
{
  self->runner = lid_plan_runner_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_object (self->runner, "changed", G_CALLBACK (run_changed), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
lid_plan_view_new (void)
{
  return g_object_new (LID_TYPE_PLAN_VIEW, NULL);
}
