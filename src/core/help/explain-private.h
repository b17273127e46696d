/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "help/explain.h"

/* How the files explain-*.c put an explanation together. */
LidExplanation *lid_explain_start (const char *title);
void lid_explain_add (LidExplanation *explanation, const char *heading, char *text);
