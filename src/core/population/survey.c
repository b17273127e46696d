/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "population/survey.h"

static void
survey_channel (LidSurvey *survey, guint index, guint **pool)
{
  const LidBoardChannel *channel = &survey->board->channels[index];
  LidSurveyChannel *out = &survey->channels[index];

  out->fitted = *pool;
  out->ranks_known = TRUE;
  for (guint i = 0; i < channel->n_slots; i++)
    {
      guint slot = channel->slots[i];
      const LidModule *module = survey->population->slots[slot].module;
      gboolean known = TRUE;
      guint ranks;

      out->n_slots += survey->board->slots[slot].soldered == NULL;
      if (module == NULL)
        continue;
      out->fitted[out->n_fitted++] = slot;
      out->kinds |= 1u << lid_module_kind (module);
      ranks = lid_board_count_ranks (survey->board, module, &known);
      out->ranks_known = out->ranks_known && known;
      out->sum_ranks += ranks;
      out->most_ranks = MAX (out->most_ranks, ranks);
    }
  *pool += out->n_fitted;
}

/**
 * lid_survey_new:
 * @board: borrowed, must outlive the survey
 * @population: borrowed likewise; of that board
 *
 * Returns: (transfer full): the population by channel and socket
 */
LidSurvey *
lid_survey_new (const LidBoard *board, const LidPopulation *population)
{
  LidSurvey *survey = g_new0 (LidSurvey, 1);
  guint *pool;

  g_return_val_if_fail (population->n_slots == board->n_slots, survey);
  survey->board = board;
  survey->population = population;
  survey->fitted = g_new (guint, board->n_slots);
  survey->fitted_of_socket = g_new0 (guint, board->n_sockets);
  survey->pool = pool = g_new (guint, board->n_slots);
  survey->channels = g_new0 (LidSurveyChannel, board->n_channels);
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;

      if (module == NULL)
        continue;
      survey->fitted[survey->n_fitted++] = i;
      survey->kinds |= 1u << lid_module_kind (module);
      survey->generations |= 1u << lid_module_generation (module);
      if (board->slots[i].socket != LID_NOWHERE)
        survey->fitted_of_socket[board->slots[i].socket]++;
    }
  for (guint i = 0; i < board->n_channels; i++)
    survey_channel (survey, i, &pool);
  return survey;
}

void
lid_survey_free (LidSurvey *survey)
{
  if (survey == NULL)
    return;
  g_free (survey->channels);
  g_free (survey->pool);
  g_free (survey->fitted_of_socket);
  g_free (survey->fitted);
  g_free (survey);
}

/**
 * lid_survey_socket_fitted:
 * @slot: a slot
 *
 * Returns: whether the processor the slot hangs on is fitted; TRUE when the board does not tell
 * which one that is
 */
gboolean
lid_survey_socket_fitted (const LidSurvey *survey, guint slot)
{
  int socket = survey->board->slots[slot].socket;

  return socket == LID_NOWHERE || survey->population->processors[socket].fitted;
}
