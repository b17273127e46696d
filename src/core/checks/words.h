/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/rate.h"
#include "facts/module-kind.h"

/* Sets as words, for the sentences of rules. */
char *lid_words_generations (guint32 generations);
char *lid_words_kinds (guint32 kinds);
char *lid_words_voltages (guint32 voltages);
