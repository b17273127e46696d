/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>
#include <stdlib.h>
#include <time.h>

/* Frames of a window, each with something to do, timed from the frame clock's before-paint to its
 * after-paint: layout, drawing and handing over to the screen are in it, and what is done in it.
 * Medians of the wall and of processor time; the first frames are not counted. */
#define FRAMES_SKIPPED 8

typedef void (*FramesDo) (gpointer data, guint frame);

typedef struct
{
  const char *name;
  FramesDo act;
  gpointer data;
  guint n, seen;
  gint64 wall_start;
  double cpu_start;
  double *wall, *cpu;
} Frames;

static inline double
frames_cpu_ms (void)
{
  struct timespec t;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static inline void
frames_before (GdkFrameClock *clock, Frames *frames)
{
  frames->wall_start = g_get_monotonic_time ();
  frames->cpu_start = frames_cpu_ms ();
}

static inline void
frames_after (GdkFrameClock *clock, Frames *frames)
{
  guint at = frames->seen - FRAMES_SKIPPED;

  if (frames->seen++ < FRAMES_SKIPPED || at >= frames->n)
    return;
  frames->wall[at] = (double)(g_get_monotonic_time () - frames->wall_start) / 1e3;
  frames->cpu[at] = frames_cpu_ms () - frames->cpu_start;
}

static inline gboolean
frames_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  Frames *frames = data;

  frames->act (frames->data, frames->seen);
  return G_SOURCE_CONTINUE;
}

static inline int
frames_compare (gconstpointer a, gconstpointer b)
{
  double d = *(const double *)a - *(const double *)b;

  return d < 0 ? -1 : d > 0;
}

/* Prints "NAME wall cpu", milliseconds, medians of @n. */
static inline void
frames_run (GtkWidget *window, const char *name, guint n, FramesDo act, gpointer data)
{
  Frames frames = { .name = name, .act = act, .data = data, .n = n };
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  guint tick;

  frames.wall = g_new0 (double, n);
  frames.cpu = g_new0 (double, n);
  g_signal_connect (clock, "before-paint", G_CALLBACK (frames_before), &frames);
  g_signal_connect (clock, "after-paint", G_CALLBACK (frames_after), &frames);
  tick = gtk_widget_add_tick_callback (window, frames_tick, &frames, NULL);
  while (frames.seen < n + FRAMES_SKIPPED)
    g_main_context_iteration (NULL, TRUE);
  gtk_widget_remove_tick_callback (window, tick);
  g_signal_handlers_disconnect_by_data (clock, &frames);
  qsort (frames.wall, n, sizeof *frames.wall, frames_compare);
  qsort (frames.cpu, n, sizeof *frames.cpu, frames_compare);
  g_print ("%s %.3f %.3f %dx%d %s\n", name, frames.wall[n / 2], frames.cpu[n / 2],
           gtk_widget_get_width (window), gtk_widget_get_height (window),
           G_OBJECT_TYPE_NAME (gtk_native_get_renderer (GTK_NATIVE (window))));
  g_free (frames.wall);
  g_free (frames.cpu);
}

/* Lets the window settle: a few frames with nothing to do. */
static inline void
frames_settle (GtkWidget *window)
{
  for (gint64 end = g_get_monotonic_time () + G_USEC_PER_SEC / 2; g_get_monotonic_time () < end;)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
}
