/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bench-frames JOB [N [WIDTH HEIGHT]]: the whole window with a large job. "edit": a module is taken
 * out and put back by turns, with everything that follows: check, figures, notes, tray, undo, words
 * for a screen reader, and the frame painted; the remedies of notes that find no room on the screen
 * are worked out for a screen reader after the frame, which is not counted. "all": every widget of
 * the board drawn again. "anew": the same with the geometry made anew, as after a change of size.
 * "lid" and "sides": an edit with the lid off where places are told, and with as found beside it.
 */
#include "app/application.h"
#include "app/bench-view.h"
#include "app/board-area-private.h"
#include "app/window.h"
#include "frames.h"

typedef struct
{
  LidBenchView *view;
  LidBoardArea *board;
  LidHands *hands;
  guint slot;
  LidModule *module;
  gboolean out;
} Bench;

static GtkWidget *
find_board (GtkWidget *widget)
{
  GtkWidget *found = NULL;

  if (LID_IS_BOARD_AREA (widget))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_board (child);
  return found;
}

static void
edit (gpointer data, guint frame)
{
  Bench *bench = data;
  gboolean done = bench->out ? lid_hands_fill_with (bench->hands, bench->slot, bench->module)
                             : lid_hands_empty (bench->hands, bench->slot);

  g_assert_true (done);
  bench->out = !bench->out;
}

static void
redraw (GtkWidget *widget)
{
  gtk_widget_queue_draw (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    redraw (child);
}

static void
redraw_all (gpointer data, guint frame)
{
  lid_board_area_repaint_all (((Bench *)data)->board);
  redraw (GTK_WIDGET (((Bench *)data)->board));
}

static void
redraw_anew (gpointer data, guint frame)
{
  lid_board_area_reshape (((Bench *)data)->board);
}

static Bench
make_bench (GtkWidget *window)
{
  Bench bench = { .board = LID_BOARD_AREA (find_board (window)) };
  const LidPopulation *population;

  bench.view
      = LID_BENCH_VIEW (gtk_widget_get_ancestor (GTK_WIDGET (bench.board), LID_TYPE_BENCH_VIEW));
  bench.hands = lid_board_area_get_hands (bench.board);
  population = lid_board_area_get_population (bench.board);
  for (bench.slot = population->n_slots / 2; population->slots[bench.slot].module == NULL;)
    bench.slot++;
  bench.module = lid_module_ref (population->slots[bench.slot].module);
  return bench;
}

static void
open_job (GApplication *application, GFile **files, int n, const char *hint, const int *numbers)
{
  GtkWidget *window = GTK_WIDGET (lid_window_new (GTK_APPLICATION (application)));
  guint times = (guint)numbers[0];
  Bench bench;

  gtk_window_set_default_size (GTK_WINDOW (window), numbers[1], numbers[2]);
  gtk_window_present (GTK_WINDOW (window));
  g_assert_true (lid_window_open (LID_WINDOW (window), files[0]));
  bench = make_bench (window);
  frames_settle (window);
  frames_run (window, "edit", times, edit, &bench);
  frames_run (window, "all", times, redraw_all, &bench);
  frames_run (window, "anew", times, redraw_anew, &bench);
  lid_board_area_set_lid_off (bench.board, TRUE);
  frames_settle (window);
  if (lid_board_area_get_lid_off (bench.board))
    frames_run (window, "lid", times, edit, &bench);
  lid_board_area_set_lid_off (bench.board, FALSE);
  lid_bench_view_set_before_after (bench.view, TRUE);
  frames_settle (window);
  frames_run (window, "sides", times, edit, &bench);
  exit (0);
}

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) application = lid_application_new ();
  int numbers[] = { argc > 2 ? atoi (argv[2]) : 100, argc > 4 ? atoi (argv[3]) : 1280,
                    argc > 4 ? atoi (argv[4]) : 820 };

  G_APPLICATION_GET_CLASS (application)->open = NULL;
  g_signal_connect (application, "open", G_CALLBACK (open_job), numbers);
  return g_application_run (G_APPLICATION (application), MIN (argc, 2), argv);
}
