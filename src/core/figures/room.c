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
 * scope, so that the room never goes beyond what the checker calls listed or bench-proven. Where
 * the fitted modules are beyond it already there is no such room: nothing is told.
 *
 * Nor is a promise what a rule then stops: where no further capacity may be mixed in, more of what
 * is fitted is added; modules that stay stopped whatever is added count for nothing, though they
 * load their channels and stand in the way of the limits. */
#include "figures/room.h"

#include "figures/rate-table.h"

/* What a module to be added is. */
typedef struct
{
  LidKind kind; /* LID_KIND_UNKNOWN: any */
  guint ranks;  /* as the board counts; 0: not told */
  gint64 mib;   /* the largest */
} Added;

/* The capacity reachable by one basis, while it is worked out. */
typedef struct
{
  const LidSurvey *survey;
  const guint8 *stopped; /* nullable: LidRoomStop, by slot */
  LidLimitBasis basis;
  Added added;
  gint64 out;      /* MiB that stay unusable */
  gboolean beyond; /* what is fitted is more than the limits of that basis */
} Reach;

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

/* The limit of one scope that the room must keep; 0: none told. */
static gint64
most_of (const Reach *reach, LidLimitWhat what, LidKind kind)
{
  const LidBoard *board = reach->survey->board;
  gint64 limit = limit_of (board, what, LID_LISTED, kind);

  if (reach->basis == LID_BENCH_PROVEN)
    limit = MAX (limit, limit_of (board, what, LID_BENCH_PROVEN, kind));
  return limit;
}

/* Whether what is fitted is beyond @limit already; 0: there is none. */
static void
hold_against (Reach *reach, gint64 limit, gint64 fitted)
{
  reach->beyond = reach->beyond || (limit != 0 && fitted > limit);
}

/* @mib, cut off at @limit, 0: there is none; never below @fitted, which is there. */
static gint64
cut_off (Reach *reach, gint64 limit, gint64 fitted, gint64 mib)
{
  hold_against (reach, limit, fitted);
  return limit == 0 ? mib : MAX (fitted, MIN (mib, limit));
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

/* Whether the mixing rules look at what is in the slot. */
static gboolean
is_dram (const LidSurvey *survey, guint slot)
{
  return !lid_survey_module (survey, slot)->persistent
         && survey->board->slots[slot].soldered == NULL && lid_survey_socket_fitted (survey, slot);
}

static LidRoomStop
stop_of (const Reach *reach, guint slot)
{
  return reach->stopped != NULL ? (LidRoomStop)reach->stopped[slot] : LID_ROOM_COUNTS;
}

/* Whether modules in both slots are held together where capacities may not mix. */
static gboolean
is_one_unit (const LidBoard *board, LidScope scope, const LidBoardSlot *a, guint channel)
{
  if (scope == LID_SCOPE_CHANNEL)
    return a->channel == (int)channel;
  return scope != LID_SCOPE_SOCKET || a->socket == board->channels[channel].socket;
}

/* The largest module that may come onto a channel: the largest there is, or, where the board stops
 * further capacities and there are as many as may be, the largest of those in use; 0: none. */
static gint64
size_for (const Reach *reach, guint channel)
{
  const LidSurvey *survey = reach->survey;
  const LidMixRule *mix = &survey->board->mixes[LID_MIX_CAPACITIES];
  gint64 seen[LID_BOARD_MAX_SLOTS], largest = 0;
  guint n = 0;

  if (!mix->told || mix->allowed || mix->grade != LID_GRADE_STOPS)
    return reach->added.mib;
  for (guint i = 0; i < survey->n_fitted; i++)
    {
      guint slot = survey->fitted[i], at = 0;
      gint64 mib = lid_module_capacity (lid_survey_module (survey, slot));

      if (!is_dram (survey, slot)
          || !is_one_unit (survey->board, mix->scope, &survey->board->slots[slot], channel))
        continue;
      while (at < n && seen[at] != mib)
        at++;
      if (at == n)
        seen[n++] = mib;
      if (stop_of (reach, slot) != LID_ROOM_NEVER && mib <= reach->added.mib)
        largest = MAX (largest, mib);
    }
  return n < MAX (mix->most_classes, 1) ? reach->added.mib : largest;
}

/* What is fitted on a channel, and what of it stays out; more than the limits take of one module is
 * beyond them. */
static gint64
fitted_of_channel (Reach *reach, guint channel, guint more)
{
  const LidSurveyChannel *fitted = &reach->survey->channels[channel];
  gint64 mib = 0;

  for (guint i = 0; i < fitted->n_fitted; i++)
    {
      guint slot = fitted->fitted[i];
      const LidModule *module = lid_survey_module (reach->survey, slot);
      LidRoomStop stop = stop_of (reach, slot);

      if (module->persistent)
        continue;
      mib += lid_module_capacity (module);
      if (stop == LID_ROOM_NEVER || (stop == LID_ROOM_NOT_YET && more == 0))
        reach->out += lid_module_capacity (module);
      if (is_dram (reach->survey, slot))
        hold_against (reach, most_of (reach, LID_LIMIT_MODULE, lid_module_kind (module)),
                      lid_module_capacity (module));
    }
  return mib;
}

static gint64
reach_of_socket (Reach *reach, guint socket, gint64 *fitted)
{
  const LidBoard *board = reach->survey->board;
  const LidBoardSocket *place = &board->sockets[socket];
  int model = reach->survey->population->processors[socket].model;
  LidKind kind = reach->added.kind;
  gint64 mib = 0, own = 0;

  for (guint i = 0; i < place->n_channels; i++)
    {
      guint channel = place->first_channel + i;
      gint64 size = size_for (reach, channel);
      guint more = size != 0 ? room_of_channel (reach->survey, channel, &reach->added) : 0;
      gint64 there = fitted_of_channel (reach, channel, more);

      own += there;
      mib += cut_off (reach, most_of (reach, LID_LIMIT_CHANNEL, kind), there, there + more * size);
    }
  mib = cut_off (reach, most_of (reach, LID_LIMIT_SOCKET, kind), own, mib);
  if (model != LID_NOWHERE)
    mib = cut_off (reach, board->processors[model].most_mib, own, mib);
  *fitted += own;
  return mib;
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

/* 0: nothing is told. */
static gint64
reach_by (const LidSurvey *survey, const guint8 *stopped, LidLimitBasis basis, Added added)
{
  const LidBoard *board = survey->board;
  Reach reach = { survey, stopped, basis, added, 0, FALSE };
  gint64 sum = 0, fitted = 0;

  reach.added.mib = limit_of (board, LID_LIMIT_MODULE, basis, added.kind);
  if (reach.added.mib == 0)
    return 0;
  for (guint s = 0; s < board->n_sockets; s++)
    if (survey->population->processors[s].fitted)
      sum += reach_of_socket (&reach, s, &fitted);
  sum = cut_off (&reach, most_of (&reach, LID_LIMIT_MACHINE, added.kind), fitted, sum);
  return reach.beyond ? 0 : sum - reach.out;
}

/**
 * lid_room_compute:
 * @survey: a population
 * @stopped: (nullable): LidRoomStop by slot; NULL: nothing is stopped
 *
 * Returns: empty slots of fitted processors, and the capacity in MiB reachable without pulling
 * anything: with what is listed, and with what is bench-proven; 0 where the board, or a module,
 * does not tell enough, and where what is fitted is beyond it already
 */
LidRoom
lid_room_compute (const LidSurvey *survey, const guint8 *stopped)
{
  const LidBoard *board = survey->board;
  Added added = { .kind = LID_KIND_UNKNOWN };
  LidRoom room = { 0 };

  for (guint i = 0; i < board->n_slots; i++)
    room.empty_slots += board->slots[i].soldered == NULL && lid_survey_module (survey, i) == NULL
                        && lid_survey_socket_fitted (survey, i);
  if (board->channels_told && find_kind (survey, &added))
    {
      room.listed_mib = reach_by (survey, stopped, LID_LISTED, added);
      room.proven_mib = reach_by (survey, stopped, LID_BENCH_PROVEN, added);
    }
  return room;
}
