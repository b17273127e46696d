/* SPDX-License-Identifier: GPL-3.0-or-later */
/* room.c: what may still be added.
 *
 * The largest capacity reachable with the largest module the board takes, of the kind fitted,
 * within rank limits and rate rows, in plain mode, nothing pulled (product.md 6, settled reading
 * 10). Listed and bench-proven stand apart, because nobody here can promise what a maker does not
 * list.
 *
 * A limit tells a module's capacity, not its ranks; those of the fitted modules are taken for it.
 * Where they are not told, or nothing is fitted, rank limits cannot speak. Of several limits that
 * speak of the kind the largest counts, as in the checker: later papers list more.
 * Limits of channel, socket, processor and machine cut the sum off: a smaller module then does.
 * What is bench-proven lifts a listed limit of the same scope only where it was proven for that
 * scope, so that the room never goes beyond what the checker calls listed or bench-proven. */
#include "figures/room.h"

#include "figures/rate-table.h"

/* What a module to be added is. */
typedef struct
{
  LidKind kind; /* LID_KIND_UNKNOWN: any */
  guint ranks;  /* as the board counts; 0: not told */
  gint64 mib;
} Added;

/* The limit of one scope and basis; 0: none told. */
static gint64
limit_of (const LidBoard *board, LidLimitWhat what, LidLimitBasis basis, LidKind kind)
{
  gint64 most = 0;

  for (guint i = 0; i < board->n_limits; i++)
    {
      const LidLimit *limit = &board->limits[i];

      if (limit->what == what && limit->basis == basis
          && (limit->kinds == 0 || kind == LID_KIND_UNKNOWN || (limit->kinds & 1u << kind) != 0))
        most = MAX (most, limit->mib);
    }
  return most;
}

/* @mib, cut off at the limit of a scope; never below @fitted, which is there. */
static gint64
cut_off (const LidBoard *board,
         LidLimitWhat what,
         LidLimitBasis basis,
         LidKind kind,
         gint64 fitted,
         gint64 mib)
{
  gint64 limit = limit_of (board, what, LID_LISTED, kind);

  if (basis == LID_BENCH_PROVEN)
    limit = MAX (limit, limit_of (board, what, LID_BENCH_PROVEN, kind));
  return limit != 0 ? MAX (fitted, MIN (mib, limit)) : mib;
}

/* Whether a row of the rank limits speaks of a module of that kind and so many ranks; where either
 * is not told, it may, and a limit that may hold is not broken. */
static gboolean
speaks_of (const LidRankLimit *limit, LidKind kind, guint ranks)
{
  return (limit->kinds == 0 || (limit->kinds & 1u << kind) != 0)
         && ranks >= limit->least_module_ranks;
}

static gboolean
ranks_allow (const LidSurvey *survey, guint channel, guint more, const Added *added)
{
  const LidBoard *board = survey->board;
  const LidSurveyChannel *there = &survey->channels[channel];

  for (guint i = 0; i < board->n_rank_limits; i++)
    {
      const LidRankLimit *limit = &board->rank_limits[i];
      guint modules = more, ranks = more * added->ranks;

      if (!speaks_of (limit, added->kind, added->ranks))
        continue;
      for (guint k = 0; k < there->n_fitted; k++)
        {
          const LidModule *module = lid_survey_module (survey, there->fitted[k]);
          gboolean known;
          guint count = lid_board_count_ranks (board, module, &known);

          if (!speaks_of (limit, lid_module_kind (module), count))
            continue;
          modules++;
          ranks += count;
        }
      if ((limit->most_modules > 0 && modules > limit->most_modules)
          || (limit->most_ranks > 0 && ranks > limit->most_ranks))
        return FALSE;
    }
  return TRUE;
}

static gboolean
row_allows (const LidSurvey *survey, guint channel, guint more, const Added *added)
{
  LidChannelRate rate;

  lid_rate_table_look_up_more (survey, channel, more, added->ranks, 1u << added->kind, &rate);
  return rate.row != LID_ROW_MISSING;
}

/* How many modules a channel still takes. */
static guint
room_of_channel (const LidSurvey *survey, guint channel, const Added *added)
{
  const LidBoardChannel *place = &survey->board->channels[channel];
  guint more = 0;

  for (guint i = 0; i < place->n_slots; i++)
    more += survey->board->slots[place->slots[i]].soldered == NULL
            && lid_survey_module (survey, place->slots[i]) == NULL;
  while (more != 0
         && (!ranks_allow (survey, channel, more, added)
             || !row_allows (survey, channel, more, added)))
    more--;
  return more;
}

static gint64
fitted_of_channel (const LidSurvey *survey, guint channel)
{
  const LidSurveyChannel *fitted = &survey->channels[channel];
  gint64 mib = 0;

  for (guint i = 0; i < fitted->n_fitted; i++)
    if (!lid_survey_module (survey, fitted->fitted[i])->persistent)
      mib += lid_module_capacity (lid_survey_module (survey, fitted->fitted[i]));
  return mib;
}

static gint64
reach_of_socket (
    const LidSurvey *survey, guint socket, LidLimitBasis basis, const Added *added, gint64 *fitted)
{
  const LidBoard *board = survey->board;
  const LidBoardSocket *place = &board->sockets[socket];
  int model = survey->population->processors[socket].model;
  gint64 reach = 0, own = 0;

  for (guint i = 0; i < place->n_channels; i++)
    {
      guint channel = place->first_channel + i;
      gint64 there = fitted_of_channel (survey, channel);
      gint64 more = room_of_channel (survey, channel, added) * added->mib;

      own += there;
      reach += cut_off (board, LID_LIMIT_CHANNEL, basis, added->kind, there, there + more);
    }
  reach = cut_off (board, LID_LIMIT_SOCKET, basis, added->kind, own, reach);
  if (model != LID_NOWHERE && board->processors[model].most_mib != 0)
    reach = MAX (own, MIN (reach, board->processors[model].most_mib));
  *fitted += own;
  return reach;
}

/* The kind fitted, and the most ranks of a module of it. FALSE: kinds are mixed or a size is not
 * told, so that nothing can be said. */
static gboolean
find_kind (const LidSurvey *survey, Added *added)
{
  gboolean told = TRUE;

  for (guint i = 0; i < survey->n_fitted; i++)
    {
      const LidModule *module = lid_survey_module (survey, survey->fitted[i]);
      LidKind kind = lid_module_kind (module);
      gboolean known;
      guint ranks = lid_board_count_ranks (survey->board, module, &known);

      told = told && known;
      added->ranks = MAX (added->ranks, ranks);
      if (kind != LID_KIND_UNKNOWN && added->kind != LID_KIND_UNKNOWN && kind != added->kind)
        return FALSE;
      if (kind != LID_KIND_UNKNOWN)
        added->kind = kind;
      if (!lid_module_knows (module, LID_FACT_CAPACITY) && !module->persistent)
        return FALSE;
    }
  if (!told)
    added->ranks = 0;
  return TRUE;
}

static gint64
reach (const LidSurvey *survey, LidLimitBasis basis, Added added)
{
  const LidBoard *board = survey->board;
  gint64 sum = 0, fitted = 0;

  added.mib = limit_of (board, LID_LIMIT_MODULE, basis, added.kind);
  if (added.mib == 0)
    return 0;
  for (guint s = 0; s < board->n_sockets; s++)
    if (survey->population->processors[s].fitted)
      sum += reach_of_socket (survey, s, basis, &added, &fitted);
  return cut_off (board, LID_LIMIT_MACHINE, basis, added.kind, fitted, sum);
}

/**
 * lid_room_compute:
 * @survey: a population
 *
 * Returns: empty slots of fitted processors, and the capacity in MiB reachable without pulling
 * anything: with what is listed, and with what is bench-proven; 0 where the board, or a module,
 * does not tell enough
 */
LidRoom
lid_room_compute (const LidSurvey *survey)
{
  const LidBoard *board = survey->board;
  Added added = { .kind = LID_KIND_UNKNOWN };
  LidRoom room = { 0 };

  for (guint i = 0; i < board->n_slots; i++)
    room.empty_slots += board->slots[i].soldered == NULL && lid_survey_module (survey, i) == NULL
                        && lid_survey_socket_fitted (survey, i);
  if (board->channels_told && find_kind (survey, &added))
    {
      room.listed_mib = reach (survey, LID_LISTED, added);
      room.proven_mib = reach (survey, LID_BENCH_PROVEN, added);
    }
  return room;
}
