/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/rank-rows.h"

/* The modules of a channel that the row speaks of, in the order of fitting. Facts it would need
 * and does not find are asked for. */
static guint
collect (LidCheck *check, const LidRankLimit *row, const LidSurveyChannel *channel, guint *slots)
{
  guint n = 0;

  for (guint i = 0; i < channel->n_fitted; i++)
    {
      guint slot = channel->fitted[i];
      const LidModule *module = lid_check_module (check, slot);
      LidKind kind = lid_module_kind (module);

      if (!lid_survey_socket_fitted (check->survey, slot))
        continue;
      if (row->kinds != 0 && kind == LID_KIND_UNKNOWN)
        {
          lid_check_miss (check, LID_FACT_KIND, slot);
          continue;
        }
      if (row->kinds != 0 && !(row->kinds & (1u << kind)))
        continue;
      if (row->least_module_ranks > 1 && !lid_module_knows (module, LID_FACT_RANKS))
        {
          lid_check_miss (check, LID_FACT_RANKS, slot);
          continue;
        }
      if (row->least_module_ranks > 1
          && module->value[LID_FACT_RANKS] < (gint32)row->least_module_ranks)
        continue;
      slots[n++] = slot;
    }
  lid_check_sort_by_place (check, slots, n);
  return n;
}

/**
 * lid_rank_rows_walk:
 * @check: the context
 * @row: a row of the board's rank limits
 * @by_ranks: weigh modules by their ranks as the board counts; else each weighs one
 * @out: zeroed; what is too much
 *
 * Fitted modules count, seen or not: wires do not know findings (settled reading 1).
 */
void
lid_rank_rows_walk (LidCheck *check, const LidRankLimit *row, gboolean by_ranks, LidRankRows *out)
{
  guint limit = by_ranks ? row->most_ranks : row->most_modules;

  for (guint c = 0; limit > 0 && c < check->board->n_channels; c++)
    {
      const LidSurveyChannel *channel = &check->survey->channels[c];
      guint slots[LID_BOARD_MAX_SLOTS];
      guint n, sum = 0;

      if (channel->n_fitted == 0
          || (by_ranks && channel->ranks_known && channel->sum_ranks <= limit)
          || (!by_ranks && channel->n_fitted <= limit))
        continue;
      n = collect (check, row, channel, slots);
      for (guint i = 0; i < n; i++)
        {
          gboolean known = TRUE;

          sum += by_ranks ? lid_board_count_ranks (check->board, lid_check_module (check, slots[i]),
                                                   &known)
                          : 1;
          if (!known)
            lid_check_miss_ranks (check, slots[i]);
          if (sum > limit)
            {
              lid_slot_set_add (&out->surplus, slots[i]);
              lid_slot_set_add (&out->channels, c);
            }
        }
      out->most = MAX (out->most, sum);
    }
}
