/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>
#include <stdlib.h>
#include <time.h>

/* What a start costs, told after the first frame that counts: milliseconds on the wall since the
 * caller started the process (LID_BENCH_STARTED, monotonic microseconds), milliseconds of processor
 * time, size and renderer. A second later, when what was put off is done too: the most memory held
 * (KiB). Then the process ends. */
static inline long
first_frame_peak_kib (void)
{
  g_autofree char *status = NULL;
  const char *line;

  g_file_get_contents ("/proc/self/status", &status, NULL, NULL);
  line = status != NULL ? strstr (status, "VmHWM:") : NULL;
  return line != NULL ? atol (line + strlen ("VmHWM:")) : 0;
}

static inline gboolean
first_frame_end (gpointer data)
{
  g_print ("settled: %ld\n", first_frame_peak_kib ());
  exit (0);
}

static inline void
first_frame_tell (GtkWidget *window)
{
  const char *started = g_getenv ("LID_BENCH_STARTED");
  gint64 now = g_get_monotonic_time (), since = started != NULL ? atoll (started) : now;
  struct timespec cpu;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &cpu);
  g_print ("first frame: %.2f %.2f %dx%d %s\n", (double)(now - since) / 1e3,
           (double)cpu.tv_sec * 1e3 + (double)cpu.tv_nsec / 1e6, gtk_widget_get_width (window),
           gtk_widget_get_height (window),
           G_OBJECT_TYPE_NAME (gtk_native_get_renderer (GTK_NATIVE (window))));
  g_timeout_add (1000, first_frame_end, NULL);
}
