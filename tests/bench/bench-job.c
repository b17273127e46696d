/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bench-job SCENE FILE: saves the job of a scene (tests/drawing/scenes.c), for the benches that
 * open one. */
#include "job/job-file.h"
#include "scenes.h"

int
main (int argc, char **argv)
{
  g_autoptr (LidJob) job = NULL;
  g_autoptr (GError) error = NULL;

  if (argc != 3)
    g_error ("bench-job SCENE FILE");
  job = scenes_job (scenes_find (argv[1]));
  if (!lid_job_file_save (job, argv[2], &error))
    g_error ("%s", error->message);
  return 0;
}
