/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

#include <gio/gio.h>

/* A plan split into tonight and later on a thread of its own: thousands of ways may be tried. */
void lid_stages_split_async (const LidJob *job,
                             const guint *missing,
                             guint n_parts,
                             GAsyncReadyCallback done,
                             gpointer data);
LidJob *lid_stages_split_finish (GAsyncResult *result, GError **error);
