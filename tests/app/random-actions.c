/* SPDX-License-Identifier: GPL-3.0-or-later */
/* random-actions SECONDS [SEED]: hands that know nothing, on several machines. No critical message
 * (they are fatal), every job can be written and read again, and undoing everything gives the job
 * back byte for byte. Says its seed: the same one does the same again. */
#include "app/note-button.h"
#include "app/tray-item.h"
#include "desk.h"
#include "job/job-file.h"
#include "job/job-open.h"

#include <stdlib.h>
#include <string.h>

#define ACTIONS_A_JOB 400

static const char *const machines[]
    = { "resources/example.lidleaf",         "tests/data/machines/plover-r2.bin",
        "tests/data/machines/curlew-r2.bin", "tests/data/machines/gannet-r2.bin",
        "tests/data/machines/dunlin-s1.txt", "tests/data/report/station.whole.txt" };
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
    = { "board.zoom-in", "board.zoom-out", "board.zoom-fit", "board.lid-off" };

#define ANY(random, list) list[g_rand_int_range (random, 0, G_N_ELEMENTS (list))]

static GtkWidget *
any_child (GRand *random, GtkWidget *parent, GType type)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new ();
  g_autoptr (GPtrArray) open = g_ptr_array_new ();

  g_ptr_array_add (open, parent);
  for (guint i = 0; i < open->len; i++)
    for (GtkWidget *child = gtk_widget_get_first_child (open->pdata[i]); child != NULL;
         child = gtk_widget_get_next_sibling (child))
      {
        g_ptr_array_add (open, child);
        if (g_type_is_a (G_OBJECT_TYPE (child), type))
          g_ptr_array_add (found, child);
      }
  return found->len > 0 ? found->pdata[g_rand_int_range (random, 0, (int)found->len)] : NULL;
}

/* A menu takes mouse and keys until it is closed: so these hands close it too. */
static void
close_menu (GtkWidget *of)
{
  for (GtkWidget *child = of != NULL ? gtk_widget_get_first_child (of) : NULL; child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child))
      gtk_popover_popdown (GTK_POPOVER (child));
}

static void
act (GtkWidget *widget, const char *action)
{
  if (widget == NULL)
    return;
  g_object_ref (widget);
  gtk_widget_activate_action (widget, action, NULL);
  for (guint i = 0; i < 20 && g_main_context_iteration (NULL, FALSE); i++)
    ;
  close_menu (widget);
  g_object_unref (widget);
}

static void
drop_something (Desk *desk, GRand *random)
{
  GtkWidget *target = any_child (random, GTK_WIDGET (desk->board), LID_TYPE_SLOT_BUTTON);
  GtkWidget *what = g_rand_boolean (random)
                        ? any_child (random, GTK_WIDGET (desk->board), LID_TYPE_SLOT_BUTTON)
                        : any_child (random, GTK_WIDGET (desk->tray), LID_TYPE_TRAY_ITEM);
  g_auto (GValue) value = G_VALUE_INIT;

  if (target == NULL || what == NULL)
    return;
  g_value_init (&value, G_OBJECT_TYPE (what));
  g_value_set_object (&value, what);
  lid_slot_button_drop (LID_SLOT_BUTTON (target), &value);
}

static void
do_something (Desk *desk, GRand *random)
{
  switch (g_rand_int_range (random, 0, 12))
    {
    case 0:
      lid_job_model_undo (desk->model);
      break;
    case 1:
      lid_job_model_redo (desk->model);
      break;
    case 2:
      lid_job_model_set_of (desk->model, (LidOf)g_rand_int_range (random, 0, LID_N_OF));
      break;
    case 3:
      lid_module_tray_enter (desk->tray, ANY (random, typed));
      break;
    case 4:
      drop_something (desk, random);
      break;
    case 5:
      act (GTK_WIDGET (desk->board), ANY (random, board_actions));
      break;
    case 6:
      act (any_child (random, GTK_WIDGET (desk->board), LID_TYPE_NOTE_BUTTON),
           g_rand_boolean (random) ? "note.apply" : "note.go-to");
      break;
    case 7:
      g_signal_emit_by_name (desk->window, "move-focus",
                             (GtkDirectionType)g_rand_int_range (random, 0, GTK_DIR_RIGHT + 1));
      break;
    case 8:
      act (any_child (random, GTK_WIDGET (desk->tray), LID_TYPE_TRAY_ITEM),
           ANY (random, tray_actions));
      break;
    default:
      act (any_child (random, GTK_WIDGET (desk->board), LID_TYPE_SLOT_BUTTON),
           ANY (random, slot_actions));
    }
  for (guint i = 0; i < 50 && g_main_context_iteration (NULL, FALSE); i++)
    ;
}

static char *
text_of (Desk *desk)
{
  return lid_job_file_to_text (lid_job_model_get_job (desk->model));
}

static void
check_round_trip (Desk *desk)
{
  g_autofree char *text = text_of (desk), *again = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) job = lid_job_file_parse (text, strlen (text), &error);

  g_assert_no_error (error);
  again = lid_job_file_to_text (job);
  g_assert_cmpstr (again, ==, text);
}

static guint
work_on (const char *machine, GRand *random, gint64 until)
{
  g_autofree char *path = g_build_filename (g_getenv ("LID_SOURCE"), machine, NULL);
  g_auto (LidOpened) opened = { 0 };
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  guint n = 0;
  Desk desk;

  lid_job_open (path, NULL, NULL, &opened, &error); /* judged by its error */
  g_assert_no_error (error);
  desk_lay (&desk, g_steal_pointer (&opened.job));
  before = text_of (&desk);
  for (; n < ACTIONS_A_JOB && g_get_monotonic_time () < until; n++)
    do_something (&desk, random);
  check_round_trip (&desk);
  while (lid_edits_can_undo (lid_job_model_get_edits (desk.model)))
    lid_job_model_undo (desk.model);
  after = text_of (&desk);
  g_assert_cmpstr (after, ==, before);
  desk_clear (&desk);
  return n;
}

int
main (int argc, char **argv)
{
  int seconds = argc > 1 ? atoi (argv[1]) : 10;
  guint32 seed = argc > 2 ? (guint32)strtoul (argv[2], NULL, 10) : 1;
  gint64 until = g_get_monotonic_time () + (gint64)seconds * G_USEC_PER_SEC;
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  guint n = 0, jobs = 0;

  gtk_init ();
  /* GTK warns of a menu that finds no room beside a tiny slot, and shows it all the same. */
  g_log_set_always_fatal (G_LOG_LEVEL_CRITICAL | G_LOG_LEVEL_ERROR);
  g_print ("# seed %u\n", seed);
  for (; g_get_monotonic_time () < until; jobs++)
    n += work_on (machines[jobs % G_N_ELEMENTS (machines)], random, until);
  g_print ("1..1\nok 1 - %u actions on %u jobs\n", n, jobs);
  return 0;
}
