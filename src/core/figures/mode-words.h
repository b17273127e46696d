/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "population/population.h"

char *lid_mode_words_name (LidMode mode);
char *lid_mode_words_new (const LidPopulation *population);
