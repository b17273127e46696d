/* SPDX-License-Identifier: GPL-3.0-or-later */
/* random-actions SECONDS [SEED]: hands that know nothing, in the real window, on several machines
 * of 2 to 192 slots: every action of the table, everything that can be pressed, chosen, typed into,
 * dropped. Dialogs are cancelled. No critical message (they are fatal), every job can be written
 * and read again, and undoing everything gives the job back byte for byte. Says its seed: the same
 * one does the same again, as far as the clock allows. */
#include "app/application.h"
#include "app/bench-view.h"
#include "app/module-tray.h"
#include "app/note-button.h"
#include "app/tray-item.h"
#include "app/window-actions.h"
#include "job/job-file.h"
#include "random-machines.h"
#include "random-trace.h"

#include <stdlib.h>
#include <string.h>

#define ACTIONS_A_JOB 300

typedef struct
{
  GRand *random;
  GtkApplication *application;
  LidWindow *window;
  LidJobModel *model; /* owned: the one whose beginning is known */
  char *before;       /* its job when it was first seen */
  guint n, jobs;      /* actions and jobs so far */
} Hands;

static const char *const typed[] = { "16GB 2Rx4 PC4-2400T-RB1-11",
                                     "3x 32GB 2Rx4 PC4-2933Y-RB2-12",
                                     "(L)16GB 2Rx4 PC4-2400T-RA1-11(S)7(P)HM-1",
                                     "no label",
                                     "",
                                     "A1",
                                     "1",
                                     "32g 2rx4 3200 registered",
                                     "999999x 16GB 2Rx4 PC4-2400T-RB1-11" };
static const char *const slot_actions[]
    = { "slot.fill", "slot.fill",         "slot.empty",      "slot.fill-next",
        "slot.menu", "slot.fill-channel", "slot.fill-alike", "slot.apply-first-remedy" };
static const char *const tray_actions[]
    = { "tray.pick-up", "tray.fill-next", "tray.drop",
        "tray.menu",    "tray.fill-all",  "tray.fill-first-slots" };
static const char *const board_actions[]
    = { "board.zoom-in", "board.zoom-out", "board.zoom-fit", "board.lid-off",
        "bench.teach",   "bench.back",     "teach.use" };

#define ANY(random, list) list[g_rand_int_range (random, 0, G_N_ELEMENTS (list))]

/* Any widget of that type that can be seen now. */
static GtkWidget *
any_of (Hands *hands, GType type)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new ();
  g_autoptr (GPtrArray) open = g_ptr_array_new ();

  g_ptr_array_add (open, hands->window);
  for (guint i = 0; i < open->len; i++)
    for (GtkWidget *child = gtk_widget_get_first_child (open->pdata[i]); child != NULL;
         child = gtk_widget_get_next_sibling (child))
      {
        g_ptr_array_add (open, child);
        if (g_type_is_a (G_OBJECT_TYPE (child), type) && gtk_widget_get_mapped (child)
            && gtk_widget_is_sensitive (child))
          g_ptr_array_add (found, child);
      }
  return found->len > 0 ? found->pdata[g_rand_int_range (hands->random, 0, (int)found->len)] : NULL;
}

/* The window there is: it may have closed itself. */
static LidWindow *
our_window (void)
{
  GListModel *all = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GObject) window = g_list_model_get_item (all, i);

      if (LID_IS_WINDOW (window))
        return LID_WINDOW (window);
    }
  return NULL;
}

/* Whatever asks is answered with no; the print dialog waits in a main loop of its own. */
static gboolean
cancel_dialogs (gpointer data)
{
  GListModel *all = gtk_window_get_toplevels ();

  for (guint i = g_list_model_get_n_items (all); i-- > 0;)
    {
      g_autoptr (GObject) window = g_list_model_get_item (all, i);

      if (GTK_IS_DIALOG (window))
        gtk_dialog_response (GTK_DIALOG (window), GTK_RESPONSE_CANCEL);
      else if (window != NULL && !LID_IS_WINDOW (window))
        gtk_window_close (GTK_WINDOW (window));
    }
  return G_SOURCE_CONTINUE;
}

static void
settle (guint most)
{
  for (guint i = 0; i < most && g_main_context_iteration (NULL, FALSE); i++)
    ;
}

static void
act (GtkWidget *widget, const char *action)
{
  if (widget == NULL)
    return;
  random_trace_note ("%s of a %s", action, G_OBJECT_TYPE_NAME (widget));
  g_object_ref (widget);
  gtk_widget_activate_action (widget, action, NULL);
  settle (20);
  g_object_unref (widget);
}

/* Help and menus are read for a while, then closed; some stay open under what comes next. */
static void
close_popovers (Hands *hands)
{
  GtkWidget *popover = any_of (hands, GTK_TYPE_POPOVER);

  if (popover == NULL)
    return;
  random_trace_note ("a %s closes", G_OBJECT_TYPE_NAME (popover));
  gtk_popover_popdown (GTK_POPOVER (popover));
}

static void
drop_something (Hands *hands)
{
  GtkWidget *target = any_of (hands, LID_TYPE_SLOT_BUTTON);
  GtkWidget *what
      = any_of (hands, g_rand_boolean (hands->random) ? LID_TYPE_SLOT_BUTTON : LID_TYPE_TRAY_ITEM);
  g_auto (GValue) value = G_VALUE_INIT;

  if (target == NULL || what == NULL)
    return;
  random_trace_note ("a %s is dropped on a slot", G_OBJECT_TYPE_NAME (what));
  g_value_init (&value, G_OBJECT_TYPE (what));
  g_value_set_object (&value, what);
  lid_slot_button_drop (LID_SLOT_BUTTON (target), &value);
}

static void
type_something (Hands *hands)
{
  GtkWidget *field = any_of (hands, GTK_TYPE_EDITABLE);
  GtkWidget *tray = any_of (hands, LID_TYPE_MODULE_TRAY);

  const char *words = ANY (hands->random, typed);

  if (g_rand_boolean (hands->random) && tray != NULL)
    {
      random_trace_note ("the tray is told: %s", words);
      lid_module_tray_enter (LID_MODULE_TRAY (tray), words);
    }
  else if (field != NULL)
    {
      random_trace_note ("a %s is told: %s", G_OBJECT_TYPE_NAME (field), words);
      gtk_editable_set_text (GTK_EDITABLE (field), words);
      gtk_widget_activate (field);
    }
}

static void
choose_something (Hands *hands)
{
  GtkWidget *drop = any_of (hands, GTK_TYPE_DROP_DOWN);
  GtkWidget *row = any_of (hands, GTK_TYPE_LIST_BOX_ROW);

  if (drop != NULL)
    {
      guint n = g_list_model_get_n_items (gtk_drop_down_get_model (GTK_DROP_DOWN (drop)));

      random_trace_note ("a choice of %u", n);
      gtk_drop_down_set_selected (GTK_DROP_DOWN (drop),
                                  (guint)g_rand_int_range (hands->random, 0, (int)MAX (n, 1)));
    }
  else if (row != NULL)
    {
      random_trace_note ("a %s", G_OBJECT_TYPE_NAME (row));
      gtk_list_box_select_row (GTK_LIST_BOX (gtk_widget_get_parent (row)), GTK_LIST_BOX_ROW (row));
    }
}

/* Printing, choosers, About and the like cost a second each: seldom. */
static void
act_on_window (Hands *hands)
{
  const LidActionRow *rows;
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;
  guint n, i;

  rows = lid_window_actions_all (&n);
  i = (guint)g_rand_int_range (hands->random, 0, (int)n);
  if (rows[i].run != NULL && strstr (rows[i].words, "…") != NULL
      && g_rand_int_range (hands->random, 0, 8) > 0)
    return;
  g_assert_true (g_action_parse_detailed_name (rows[i].action, &name, &target, NULL));
  if (g_str_equal (name, "win.open-recent"))
    return; /* stands for a whole list */
  random_trace_note ("%s", rows[i].action);
  gtk_widget_activate_action_variant (GTK_WIDGET (hands->window), name, target);
  settle (20);
}

/* As with a mouse: after a key GTK waits a quarter of a second before a button does what it is for,
 * and hands as fast as these have taken the button out of sight by then. */
static void
press_something (Hands *hands)
{
  GtkWidget *button = any_of (hands, GTK_TYPE_BUTTON);

  if (button == NULL || GTK_IS_LINK_BUTTON (button) || g_rand_int_range (hands->random, 0, 4) != 0)
    return;
  random_trace_note ("a %s in a %s", G_OBJECT_TYPE_NAME (button),
                     G_OBJECT_TYPE_NAME (gtk_widget_get_parent (button)));
  g_signal_emit_by_name (button, "clicked");
}

static void
do_something (Hands *hands, int what)
{
  static const char *const edit_actions[] = { "win.undo", "win.redo" };
  GtkWidget *window = GTK_WIDGET (hands->window);
  GRand *random = hands->random;

  switch (what)
    {
    case 0:
      act (window, ANY (random, edit_actions));
      break;
    case 1:
      act_on_window (hands);
      break;
    case 2:
      press_something (hands);
      break;
    case 3:
      type_something (hands);
      break;
    case 4:
      choose_something (hands);
      break;
    case 5:
      drop_something (hands);
      break;
    case 6:
      act (any_of (hands, g_rand_boolean (random) ? LID_TYPE_BOARD_AREA : LID_TYPE_TEACH_VIEW),
           ANY (random, board_actions));
      break;
    case 7:
      act (any_of (hands, LID_TYPE_NOTE_BUTTON),
           g_rand_boolean (random) ? "note.apply" : "note.go-to");
      break;
    case 8:
      random_trace_note ("the focus moves");
      g_signal_emit_by_name (window, "move-focus",
                             (GtkDirectionType)g_rand_int_range (random, 0, GTK_DIR_RIGHT + 1));
      break;
    case 9:
      act (any_of (hands, LID_TYPE_TRAY_ITEM), ANY (random, tray_actions));
      break;
    case 10:
      close_popovers (hands);
      break;
    default:
      act (any_of (hands, LID_TYPE_SLOT_BUTTON), ANY (random, slot_actions));
    }
  settle (50);
}

static char *
text_of (LidJobModel *model)
{
  return lid_job_file_to_text (lid_job_model_get_job (model));
}

static void
check_round_trip (LidJobModel *model)
{
  g_autofree char *text = text_of (model), *again = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) job = lid_job_file_parse (text, strlen (text), &error);

  g_assert_no_error (error);
  again = lid_job_file_to_text (job);
  g_assert_cmpstr (again, ==, text);
}

/* Another job may have taken the window: its beginning is remembered then. */
static void
follow_model (Hands *hands)
{
  LidJobModel *model = lid_window_get_model (hands->window);

  if (model == NULL || !g_set_object (&hands->model, model))
    return;
  g_free (hands->before);
  hands->before = text_of (model);
}

static void
check_job (Hands *hands)
{
  g_autofree char *after = NULL;

  if (hands->model == NULL)
    return;
  check_round_trip (hands->model);
  while (lid_edits_can_undo (lid_job_model_get_edits (hands->model)))
    lid_job_model_undo (hands->model);
  after = text_of (hands->model);
  g_assert_cmpstr (after, ==, hands->before);
}

static void
work_on (Hands *hands, const char *machine, gint64 until)
{
  g_autoptr (GFile) file = random_machines_copy (machine);

  hands->window = lid_window_new (hands->application);
  gtk_window_present (GTK_WINDOW (hands->window));
  g_assert_true (lid_window_open (hands->window, file));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (hands->window));
  for (guint i = 0; i < ACTIONS_A_JOB && g_get_monotonic_time () < until; i++)
    {
      follow_model (hands);
      do_something (hands, g_rand_int_range (hands->random, 0, 16));
      hands->n++;
      hands->window = our_window ();
      if (hands->window == NULL)
        break; /* closed without a change */
      if (hands->n % 50 == 0)
        gtk_test_widget_wait_for_draw (GTK_WIDGET (hands->window));
    }
  check_job (hands);
  while ((hands->window = our_window ()) != NULL)
    gtk_window_destroy (GTK_WINDOW (hands->window));
  g_clear_object (&hands->model);
  settle (G_MAXUINT);
}

/* The leak checker is off in this program alone: after some thousand names GLib drops its table of
 * quarks for a larger one, by design, and the file chooser's libcloudproviders loses a file name.
 * Neither is ours, and without frame pointers no suppression can name them. */
int __lsan_is_turned_off (void);

int
__lsan_is_turned_off (void)
{
  return 1;
}

int
main (int argc, char **argv)
{
  int seconds = argc > 1 ? atoi (argv[1]) : 10;
  guint32 seed = argc > 2 ? (guint32)strtoul (argv[2], NULL, 10) : 1;
  gint64 until = g_get_monotonic_time () + (gint64)seconds * G_USEC_PER_SEC;
  Hands hands = { .random = g_rand_new_with_seed (seed) };

  gtk_init ();
  random_trace_watch ();
  g_print ("# seed %u\n", seed);
  hands.application = lid_application_new ();
  g_application_set_flags (G_APPLICATION (hands.application), G_APPLICATION_NON_UNIQUE);
  g_assert_true (g_application_register (G_APPLICATION (hands.application), NULL, NULL));
  g_timeout_add (50, cancel_dialogs, NULL);
  for (; g_get_monotonic_time () < until; hands.jobs++)
    {
      const char *machine = random_machines_get (hands.jobs);

      g_print ("# job %u: %s, %u actions so far\n", hands.jobs, machine, hands.n);
      work_on (&hands, machine, until);
    }
  g_print ("1..1\nok 1 - %u actions on %u jobs\n", hands.n, hands.jobs);
  random_trace_free ();
  g_free (hands.before);
  g_rand_free (hands.random);
  g_object_unref (hands.application);
  return 0;
}
