/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "population/population.h"

/* A population laid out by channel and socket, once, for every rule and figure to look at. It
 * borrows the board and the population. "Fitted" is every module in a slot of a fitted processor's
 * channel, not-seen, persistent and soldered ones too (product.md 6, settled reading 1); which of
 * them are usable the checker decides. */
typedef struct
{
  guint n_slots;    /* real slots, soldered memory not counted */
  guint n_fitted;   /* modules on the channel, soldered ones counted */
  guint *fitted;    /* slot indices of those, in the order of position */
  guint most_ranks; /* of one module, as the board counts; meaningless unless ranks_known */
  guint sum_ranks;  /* of all modules, as the board counts; a lower bound unless ranks_known */
  gboolean ranks_known;
  guint32 kinds; /* bits 1 << LidKind over the fitted modules; bit 0: one is not told */
} LidSurveyChannel;

typedef struct
{
  const LidBoard *board;
  const LidPopulation *population;
  guint n_fitted; /* modules in the machine */
  guint *fitted;  /* slot indices, rising */
  guint32 kinds;  /* over the machine, as above */
  guint32 generations;
  LidSurveyChannel *channels; /* by board channel index */
  guint *fitted_of_socket;    /* modules per socket; slots whose socket is not told count nowhere */
  guint *pool;                /* the modules by channel: what channels[].fitted point into */
} LidSurvey;

LidSurvey *lid_survey_new (const LidBoard *board, const LidPopulation *population);
void lid_survey_free (LidSurvey *survey);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidSurvey, lid_survey_free)

/* The module in a slot, NULL when empty. */
static inline const LidModule *
lid_survey_module (const LidSurvey *survey, guint slot)
{
  return survey->population->slots[slot].module;
}

gboolean lid_survey_socket_fitted (const LidSurvey *survey, guint slot);
