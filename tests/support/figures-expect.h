/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures-case.h"

#include <json-glib/json-glib.h>

/* What a case says of its figures, held to what was computed. */
void figures_expect (JsonObject *expect, const FiguresCase *c);
void figures_expect_handbook (JsonObject *one, JsonObject *expect);
