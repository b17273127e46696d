/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "job/job.h"

/* The facts of a job in the words of the screen. */
const char *lid_facts_words_of (LidOf of);
char *lid_facts_words_mode (gint64 mode);
char *lid_facts_words_ranks (gint64 ranks);
char *lid_facts_words_nodes (gint64 nodes);
char *lid_facts_words_voltage (gint64 mv);
char *lid_facts_words_size (gint64 mib);
