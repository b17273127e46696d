/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"
#include "job/job.h"

/* Invented machines for the tests of the drawing, from one slot to 192. */
typedef struct
{
  const char *name;
  const char *board;              /* file in platforms/, NULL: made here */
  guint sockets, channels, slots; /* per socket, per channel; made boards only */
  const char *naming;             /* printf of socket letter or number, see scenes.c */
  gboolean told;                  /* channels and sockets are told */
  gboolean derived;
} Scene;

extern const Scene scenes[];
extern const guint n_scenes;

LidJob *scenes_job (const Scene *scene);
LidAssessment *scenes_assess (const LidJob *job, LidOf of);
const Scene *scenes_find (const char *name);
Scene scenes_plain (guint n_slots);
