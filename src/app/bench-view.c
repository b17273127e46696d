/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/bench-view.h"

#include "app/found-view.h"
#include "app/label-asker.h"
#include "app/left-offer.h"
#include "app/sides-view.h"
#include "app/window-actions.h"

#include "job/job-teach.h"

#include <glib/gi18n.h>

#define PASSING "passing" /* the page that is made for its time alone */

struct _LidBenchView
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *pages;
  GtkWidget *plan_place;
  GtkWidget *board;
  GtkWidget *views;
  GtkWidget *by_channel;
  GtkWidget *lid_off;
  GtkWidget *before_after;
  GtkWidget *found_side;
  GtkWidget *found;
  GtkWidget *board_heading;
  GtkWidget *ask_button;
  GtkWidget *ask_offer;
  GtkWidget *ask_words;
  GtkWidget *teach_button;
  GtkWidget *teach_offer;
  GtkWidget *teach_words;
  GtkWidget *teach_place;
  /* owned by its place; NULL: nobody taught anything yet */
  GtkWidget *teach_view;
  /* owned by its button */
  GtkWidget *asker;
  /* owned */
  LidJobModel *model;
  LidBoard *shown; /* nullable */
  gboolean wants_before_after;
};

enum
{
  PROP_0,
  PROP_BEFORE_AFTER,
  N_PROPERTIES
};

static GParamSpec *properties[N_PROPERTIES];

G_DEFINE_FINAL_TYPE (LidBenchView, lid_bench_view, GTK_TYPE_WIDGET)

static guint taught_signal, planned_signal;

LidBoardArea *
lid_bench_view_get_board (LidBenchView *self)
{
  return LID_BOARD_AREA (self->board);
}

/**
 * lid_bench_view_get_switch:
 *
 * Returns: (transfer none): what switches the view; a window puts it where there is room for it
 */
GtkWidget *
lid_bench_view_get_switch (LidBenchView *self)
{
  return self->views;
}

LidLabelAsker *
lid_bench_view_get_asker (LidBenchView *self)
{
  return LID_LABEL_ASKER (self->asker);
}

static void
taught (LidTeachView *view, LidBenchView *self)
{
  g_signal_emit (self, taught_signal, 0);
}

/* Made when it is wanted: most machines tell their channels. */
LidTeachView *
lid_bench_view_get_teach_view (LidBenchView *self)
{
  if (self->teach_view == NULL)
    {
      self->teach_view = g_object_new (LID_TYPE_TEACH_VIEW, "hexpand", TRUE, "vexpand", TRUE, NULL);
      g_signal_connect (self->teach_view, "taught", G_CALLBACK (taught), self);
      gtk_box_append (GTK_BOX (self->teach_place), self->teach_view);
      lid_teach_view_set_model (LID_TEACH_VIEW (self->teach_view), self->model);
    }
  return LID_TEACH_VIEW (self->teach_view);
}

static void
planned (LidBenchView *self)
{
  g_signal_emit (self, planned_signal, 0);
}

/**
 * lid_bench_view_get_plan_view:
 *
 * Made when it is asked for: a start would make it for nobody.
 *
 * Returns: (transfer none): where plans are worked out
 */
LidPlanView *
lid_bench_view_get_plan_view (LidBenchView *self)
{
  GtkWidget *view = gtk_widget_get_first_child (self->plan_place);

  if (view == NULL)
    {
      view = lid_plan_view_new ();
      gtk_widget_set_vexpand (view, TRUE);
      gtk_box_append (GTK_BOX (self->plan_place), view);
      g_signal_connect_object (view, "taken", G_CALLBACK (planned), self, G_CONNECT_SWAPPED);
      lid_plan_view_set_model (LID_PLAN_VIEW (view), self->model);
    }
  return LID_PLAN_VIEW (view);
}

static void
show_page (LidBenchView *self, const char *page)
{
  GtkWidget *passing = gtk_stack_get_child_by_name (GTK_STACK (self->pages), PASSING);

  gtk_stack_set_visible_child_name (GTK_STACK (self->pages), page);
  gtk_widget_set_visible (self->views, g_str_equal (page, "board"));
  if (passing != NULL && !g_str_equal (page, PASSING))
    gtk_stack_remove (GTK_STACK (self->pages), passing);
}

/**
 * lid_bench_view_show_page:
 * @page: (transfer floating): a page for the job as it stands, which goes when the board is shown
 *   again
 */
void
lid_bench_view_show_page (LidBenchView *self, GtkWidget *page)
{
  show_page (self, "board");
  gtk_stack_add_named (GTK_STACK (self->pages), page, PASSING);
  show_page (self, PASSING);
  gtk_widget_grab_focus (page);
}

/* Beside as found there is something to compare only where something else is looked at. */
static void
show_sides (LidBenchView *self)
{
  const LidJob *job = self->model != NULL ? lid_job_model_get_job (self->model) : NULL;
  LidOf of = self->model != NULL ? lid_job_model_get_of (self->model) : LID_AS_FOUND;
  gboolean found = job != NULL && job->as_found != NULL;
  gboolean both = found && of != LID_AS_FOUND && self->wants_before_after;

  gtk_widget_set_visible (self->before_after, found);
  gtk_widget_set_visible (self->found_side, both);
  gtk_widget_set_visible (self->board_heading, both);
  gtk_label_set_label (GTK_LABEL (self->board_heading),
                       of == LID_AS_LEFT ? _ ("As left") : _ ("Planned"));
}

static void
show_asks (LidBenchView *self)
{
  g_autofree char *words = lid_label_asker_get_words (LID_LABEL_ASKER (self->asker));

  gtk_widget_set_visible (self->ask_offer, words != NULL);
  gtk_label_set_label (GTK_LABEL (self->ask_words), words != NULL ? words : "");
}

/* Another board: of another job, or taught, or with teaching undone. */
static void
follow_model (LidBenchView *self)
{
  LidBoard *board = self->model != NULL ? lid_job_model_get_job (self->model)->board : NULL;
  g_autofree char *why = NULL, *refusal = NULL;
  gboolean teachable;

  show_sides (self);
  show_asks (self);
  lid_left_offer_show (gtk_widget_get_parent (self->ask_offer), self->model);
  if (board != NULL && self->shown == board)
    return;
  g_clear_pointer (&self->shown, lid_board_unref);
  self->shown = board != NULL ? lid_board_ref (board) : NULL;
  refusal = board != NULL ? lid_job_teach_refusal (lid_job_model_get_job (self->model)) : NULL;
  teachable = board != NULL && refusal == NULL;
  if (self->teach_view != NULL)
    lid_teach_view_set_model (LID_TEACH_VIEW (self->teach_view), self->model);
  /* Why channels are not told, and where they cannot be taught either, why not. */
  why = refusal == NULL
            ? g_strdup (_ ("The names of the slots do not tell the channels."))
            : g_strdup_printf (_ ("The names of the slots do not tell the channels: %s."), refusal);
  gtk_widget_set_visible (self->by_channel, board != NULL && board->placed);
  gtk_widget_set_visible (self->lid_off, board != NULL && board->placed);
  gtk_widget_set_visible (self->teach_offer, board != NULL && !board->channels_told);
  gtk_widget_set_visible (self->teach_button, teachable);
  gtk_label_set_label (GTK_LABEL (self->teach_words), why);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "bench.teach", teachable);
  show_page (self, "board");
}

/**
 * lid_bench_view_set_hands:
 * @hands: (nullable): the hands of another job
 */
void
lid_bench_view_set_hands (LidBenchView *self, LidHands *hands)
{
  LidJobModel *model = hands != NULL ? lid_hands_get_model (hands) : NULL;

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_func (self->model, follow_model, self);
  g_set_object (&self->model, model);
  lid_label_asker_set_model (LID_LABEL_ASKER (self->asker), model);
  lid_board_area_set_hands (LID_BOARD_AREA (self->board), hands);
  lid_found_view_set_model (LID_FOUND_VIEW (self->found), model);
  if (gtk_widget_get_first_child (self->plan_place) != NULL)
    lid_plan_view_set_model (lid_bench_view_get_plan_view (self), model);
  follow_model (self);
  if (model != NULL)
    g_signal_connect_object (model, "changed", G_CALLBACK (follow_model), self, G_CONNECT_SWAPPED);
}

/**
 * lid_bench_view_set_before_after:
 * @before_after: whether as found stands beside what the hands are on
 */
void
lid_bench_view_set_before_after (LidBenchView *self, gboolean before_after)
{
  if (self->wants_before_after == before_after)
    return;
  self->wants_before_after = before_after;
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (self->before_after), before_after);
  show_sides (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_BEFORE_AFTER]);
}

gboolean
lid_bench_view_get_before_after (LidBenchView *self)
{
  return self->wants_before_after;
}

static void
before_after_toggled (GtkToggleButton *button, LidBenchView *self)
{
  lid_bench_view_set_before_after (self, gtk_toggle_button_get_active (button));
}

static void
lid_off_toggled (GtkToggleButton *button, LidBenchView *self)
{
  lid_board_area_set_lid_off (LID_BOARD_AREA (self->board), gtk_toggle_button_get_active (button));
}

/* The view may also be changed by the board's own action. */
static void
follow_board (LidBenchView *self)
{
  gboolean off = lid_board_area_get_lid_off (LID_BOARD_AREA (self->board));

  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (off ? self->lid_off : self->by_channel), TRUE);
  lid_found_view_set_lid_off (LID_FOUND_VIEW (self->found), off);
}

static void
teach (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidBenchView *self = LID_BENCH_VIEW (widget);

  show_page (self, "teach");
  gtk_widget_child_focus (GTK_WIDGET (lid_bench_view_get_teach_view (self)), GTK_DIR_TAB_FORWARD);
}

static void
plan (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidBenchView *self = LID_BENCH_VIEW (widget);
  LidPlanView *view = lid_bench_view_get_plan_view (self);

  show_page (self, "plan");
  gtk_widget_grab_focus (GTK_WIDGET (view));
}

static void
back (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidBenchView *self = LID_BENCH_VIEW (widget);

  show_page (self, "board");
  gtk_widget_grab_focus (self->board);
}

/* From a note in the margin: with the slot it speaks of. */
static void
ask (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidBenchView *self = LID_BENCH_VIEW (widget);

  gtk_menu_button_popup (GTK_MENU_BUTTON (self->ask_button));
  lid_label_asker_turn_to (LID_LABEL_ASKER (self->asker), g_variant_get_uint32 (parameter));
}

static void
lid_bench_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_BEFORE_AFTER)
    g_value_set_boolean (value, LID_BENCH_VIEW (object)->wants_before_after);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
lid_bench_view_dispose (GObject *object)
{
  LidBenchView *self = LID_BENCH_VIEW (object);

  g_clear_object (&self->model);
  g_clear_pointer (&self->shown, lid_board_unref);
  gtk_widget_dispose_template (GTK_WIDGET (object), LID_TYPE_BENCH_VIEW);
  G_OBJECT_CLASS (lid_bench_view_parent_class)->dispose (object);
}

static void
lid_bench_view_class_init (LidBenchViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_bench_view_dispose;
  G_OBJECT_CLASS (klass)->get_property = lid_bench_view_get_property;
  properties[PROP_BEFORE_AFTER] = g_param_spec_boolean ("before-after", NULL, NULL, FALSE,
                                                        G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPERTIES, properties);
  g_type_ensure (LID_TYPE_FOUND_VIEW);
  g_type_ensure (LID_TYPE_SIDES_VIEW);
  g_type_ensure (LID_TYPE_BOARD_AREA);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/bench-view.ui");
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, pages);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, plan_place);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, board);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, views);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, by_channel);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, lid_off);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, before_after);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, found_side);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, found);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, board_heading);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, ask_button);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, ask_offer);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, ask_words);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, teach_button);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, teach_offer);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, teach_words);
  gtk_widget_class_bind_template_child (widget_class, LidBenchView, teach_place);
  gtk_widget_class_bind_template_callback (widget_class, lid_off_toggled);
  gtk_widget_class_bind_template_callback (widget_class, before_after_toggled);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "bench");
  gtk_widget_class_install_action (widget_class, "bench.teach", NULL, teach);
  gtk_widget_class_install_action (widget_class, "bench.plan", NULL, plan);
  gtk_widget_class_install_action (widget_class, "bench.back", NULL, back);
  gtk_widget_class_install_action (widget_class, "bench.ask", "u", ask);
  taught_signal = g_signal_new ("taught", LID_TYPE_BENCH_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 0);
  planned_signal = g_signal_new ("planned", LID_TYPE_BENCH_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void
lid_bench_view_init (LidBenchView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->asker = lid_label_asker_new ();
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->ask_button), self->asker);
  lid_window_actions_name (self->ask_button, _ ("Type the label"));
  g_signal_connect_object (self->board, "notify::lid-off", G_CALLBACK (follow_board), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
lid_bench_view_new (void)
{
  return g_object_new (LID_TYPE_BENCH_VIEW, NULL);
}
