/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "population/population.h"

typedef struct
{
  LidBoard *board;
  LidPopulation *population, *other;
  const LidPopulation *as_found; /* nullable: one of those */
} RandomMachine;

RandomMachine random_machine_draw (GRand *rand);
void random_machine_clear (RandomMachine *machine);

/* Below @n; one time in @n. */
guint random_pick (GRand *rand, guint n);
gboolean random_rarely (GRand *rand, guint n);
