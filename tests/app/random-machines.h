/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

/* The machines random hands work on, one after the other, again and again. */
const char *random_machines_get (guint i);
GFile *random_machines_copy (const char *machine);
