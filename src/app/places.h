/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

char *lid_places_find (const char *installed, const char *built, const char *file);
