/* SPDX-License-Identifier: GPL-3.0-or-later */
/* running-rate.c: the rate the machine runs its memory at, and what holds it there.
 *
 * Every channel of a machine (of a socket, where the board says so) runs at one rate: the least of
 * what modules, table, processor, board, firmware and setup allow (product.md 6; shared/facts/
 * population.md 2). It is a matter of wires, so it looks at the *fitted* modules, not seen,
 * persistent and soldered ones too. Left out are slots of an absent processor, which no controller
 * drives, and channels whose table row is missing: those do not work and pull no other down.
 *
 * A limit that exists but is not told is kept apart as "open", together with the least it can
 * possibly be. An open rating or an open table makes the rate unknown (settled reading 5, to the
 * letter). An open processor or firmware level does so only where the least it can be is below
 * everything that is told: else it cannot bind, whichever it is, and is left out.
 *
 * Evidence: the population as found was read from a running machine, so the configured rate its
 * inventory tells is the rate it runs at, whatever a board thinks of it. A derived board knows no
 * limits, so there the inventory's rate limits every other population too (product.md 3). */
#include "figures/running-rate.h"

#include "figures/rate-table.h"

typedef struct
{
  gboolean told, open;
  LidRate least;    /* of the values told */
  LidRate possible; /* least of the values that may hold though not told; 0: anything */
} Cap;

/* Of a value that is not told and may be as low as can be. */
#define ANYTHING 0u
/* One group a socket and one for slots whose socket is not told, or only the first. */
#define MOST_GROUPS (LID_BOARD_MAX_SOCKETS + 1)

/* What runs at one rate: the machine, or one socket. */
typedef struct
{
  guint modules; /* that run */
  Cap caps[LID_N_CAPS];
  LidRate running;
} Group;

typedef struct
{
  const LidSurvey *survey;
  LidFigures *figures;
  gboolean evidence; /* the population is the one found running */
  guint n_groups;
  Group groups[MOST_GROUPS];
  /* Kinds of the modules that run, bits, bit 0: one is not told; by socket, the last: not told. */
  guint32 kinds[MOST_GROUPS];
} Work;

static void
tell (Cap *cap, LidRate rate)
{
  cap->least = cap->told ? MIN (cap->least, rate) : rate;
  cap->told = TRUE;
}

static void
leave_open (Cap *cap, LidRate possible)
{
  cap->possible = cap->open ? MIN (cap->possible, possible) : possible;
  cap->open = TRUE;
}

/* A ceiling that is one of several, each LID_RATE_UNKNOWN where there is none. */
typedef struct
{
  LidRate least;
  gboolean some, none, differ;
} Choice;

static void
choose (Choice *choice, LidRate ceiling)
{
  if (ceiling == LID_RATE_UNKNOWN)
    {
      choice->none = TRUE;
      return;
    }
  choice->differ = choice->differ || (choice->some && choice->least != ceiling);
  choice->least = choice->some ? MIN (choice->least, ceiling) : ceiling;
  choice->some = TRUE;
}

static void
settle (Cap *cap, const Choice *choice)
{
  if (!choice->some)
    return;
  if (choice->none || choice->differ)
    leave_open (cap, choice->least);
  else
    tell (cap, choice->least);
}

static Group *
group_of (Work *work, int socket)
{
  if (work->n_groups == 1)
    return &work->groups[0];
  return &work->groups[socket == LID_NOWHERE ? (int)work->n_groups - 1 : socket];
}

static void
look_up_channels (Work *work)
{
  const LidSurvey *survey = work->survey;
  const LidBoard *board = survey->board;
  guint32 voltages = lid_rate_table_voltages (survey);

  for (guint i = 0; i < board->n_channels; i++)
    {
      int socket = board->channels[i].socket;
      LidChannelRate *rate = &work->figures->rates[i];

      lid_rate_table_look_up (survey, i, survey->channels[i].n_fitted, voltages, rate);
      if (socket != LID_NOWHERE && !survey->population->processors[socket].fitted)
        rate->row = LID_ROW_SILENT;
      if (rate->row == LID_ROW_FOUND)
        tell (&group_of (work, socket)->caps[LID_CAP_TABLE], rate->table);
      else if (rate->row == LID_ROW_UNSURE)
        leave_open (&group_of (work, socket)->caps[LID_CAP_TABLE], ANYTHING);
    }
}

/* Whether a module hangs on a channel that does not work. A running machine that shows a module
 * with a size belies a missing row: it runs there, at no more than its rating, and the rate at
 * which the channel ran is in no row. */
static gboolean
is_switched_off (const Work *work, const LidChannelRate *channel, guint slot)
{
  return channel != NULL && channel->row == LID_ROW_MISSING
         && !(work->evidence && lid_population_shows (work->survey->population, slot));
}

static void
rate_module (Work *work, guint slot)
{
  const LidModule *module = lid_survey_module (work->survey, slot);
  const LidBoardSlot *place = &work->survey->board->slots[slot];
  LidRate rated = lid_module_rated (module);
  LidChannelRate *channel = NULL;
  Group *group;

  if (!lid_survey_socket_fitted (work->survey, slot))
    return;
  if (place->channel != LID_NOWHERE)
    channel = &work->figures->rates[place->channel];
  if (channel != NULL && rated != LID_RATE_UNKNOWN
      && (channel->slowest == LID_NOWHERE
          || rated < lid_module_rated (lid_survey_module (work->survey, (guint)channel->slowest))))
    channel->slowest = (int)slot;
  if (is_switched_off (work, channel, slot))
    return;
  group = group_of (work, place->socket);
  group->modules++;
  work->kinds[place->socket == LID_NOWHERE ? LID_BOARD_MAX_SOCKETS : (guint)place->socket]
      |= 1u << lid_module_kind (module);
  if (rated != LID_RATE_UNKNOWN)
    tell (&group->caps[LID_CAP_MODULE], rated);
  else
    leave_open (&group->caps[LID_CAP_MODULE], ANYTHING);
  if (channel == NULL && work->survey->board->n_rates > 0)
    leave_open (&group->caps[LID_CAP_TABLE], ANYTHING);
}

/* Ceilings of one processor model for one kind; a kind that is not told is one the board takes. */
static void
choose_by_kind (const LidBoard *board, guint model, guint kind, Choice *choice)
{
  const LidRate *rates = board->processors[model].rate;

  for (guint k = 1; k < LID_N_KINDS; k++)
    {
      if (kind != LID_KIND_UNKNOWN && k != kind)
        continue;
      if (kind == LID_KIND_UNKNOWN && board->kinds != 0 && (board->kinds & 1u << k) == 0)
        continue;
      choose (choice, rates[k] != LID_RATE_UNKNOWN ? rates[k] : rates[LID_KIND_UNKNOWN]);
    }
}

/* A processor that drives no module holds none down; a module of no known socket may be driven by
 * any. */
static void
cap_by_processor (Work *work, guint socket, Group *group)
{
  const LidBoard *board = work->survey->board;
  const LidFittedProcessor *processor = &work->survey->population->processors[socket];
  guint32 kinds = work->kinds[socket] | work->kinds[LID_BOARD_MAX_SOCKETS];

  if (!processor->fitted)
    return;
  for (guint kind = 0; kind < LID_N_KINDS; kind++)
    {
      Choice choice = { 0 };

      if ((kinds & 1u << kind) == 0)
        continue;
      for (guint m = 0; m < board->n_processors; m++)
        if (processor->model == LID_NOWHERE || processor->model == (int)m)
          choose_by_kind (board, m, kind, &choice);
      settle (&group->caps[LID_CAP_PROCESSOR], &choice);
    }
}

/* Limits of the whole machine, the same for every group. */
static void
cap_machine (Work *work, Group *group)
{
  const LidBoard *board = work->survey->board;
  const LidPopulation *population = work->survey->population;
  int level = lid_board_find_firmware (board, population->firmware);
  Choice firmware = { 0 };

  for (guint i = 0; i < board->n_firmware; i++)
    if (level == LID_NOWHERE || level == (int)i)
      choose (&firmware, board->firmware[i].ceiling);
  settle (&group->caps[LID_CAP_FIRMWARE], &firmware);
  if (board->rate_ceiling != LID_RATE_UNKNOWN)
    tell (&group->caps[LID_CAP_BOARD], board->rate_ceiling);
  if (population->setup_limit != LID_RATE_UNKNOWN)
    tell (&group->caps[LID_CAP_SETUP], population->setup_limit);
}

static void
cap_by_inventory (Work *work, const LidPopulation *as_found)
{
  const LidBoard *board = work->survey->board;

  for (guint i = 0; i < board->n_slots; i++)
    if (as_found->slots[i].module != NULL && as_found->slots[i].configured != LID_RATE_UNKNOWN)
      tell (&group_of (work, board->slots[i].socket)->caps[LID_CAP_INVENTORY],
            as_found->slots[i].configured);
}

static void
resolve (Group *group, gboolean evidence)
{
  Cap least = { 0 };

  for (guint i = 0; i < LID_N_CAPS; i++)
    if (group->caps[i].told)
      tell (&least, group->caps[i].least);
  for (guint i = 0; i < LID_N_CAPS; i++)
    {
      Cap *cap = &group->caps[i];

      if (cap->open && least.told && cap->possible >= least.least)
        cap->open = FALSE;
      least.open = least.open || cap->open;
    }
  group->running = least.open ? LID_RATE_UNKNOWN : least.least;
  if (evidence && group->caps[LID_CAP_INVENTORY].told)
    group->running = group->caps[LID_CAP_INVENTORY].least;
}

/* One entry per kind of limit, the least of it (settled reading 6). */
static void
list_limits (Work *work)
{
  LidFigures *figures = work->figures;

  for (guint what = 0; what < LID_N_CAPS; what++)
    {
      Cap least = { 0 };

      for (guint g = 0; g < work->n_groups; g++)
        {
          const Cap *cap = &work->groups[g].caps[what];

          if (work->groups[g].modules == 0)
            continue;
          least.open = least.open || cap->open;
          if (cap->told)
            tell (&least, cap->least);
        }
      if (!least.told && !least.open)
        continue;
      figures->limits[figures->n_limits++] = (LidRateLimit){
        .what = what,
        .rate = least.open ? LID_RATE_UNKNOWN : least.least,
        .binding
        = !least.open && figures->running != LID_RATE_UNKNOWN && least.least == figures->running,
      };
    }
}

static void
list_running (Work *work)
{
  const LidSurvey *survey = work->survey;
  LidFigures *figures = work->figures;
  Cap least = { 0 };

  /* One that is not known is the least there is, and makes the machine's not known. */
  for (guint g = 0; g < work->n_groups; g++)
    if (work->groups[g].modules > 0)
      tell (&least, work->groups[g].running);
  figures->running = least.least;
  for (guint s = 0; s < survey->board->n_sockets; s++)
    if (survey->population->processors[s].fitted && survey->fitted_of_socket[s] > 0
        && group_of (work, (int)s)->modules > 0)
      figures->sockets[s].running = group_of (work, (int)s)->running;
}

/**
 * lid_running_rate_compute:
 * @survey: the population
 * @as_found: (nullable): what the running machine told, of the same board; NULL: there is none
 * @figures: (inout): `running`, `limits`, `rates` and each socket's `running` are set
 *
 * The running rate of the fitted modules, all its limits with the binding ones marked, and what the
 * table says of each channel. Rates are exact, in thirds of a MT/s. Source: product.md 6, settled
 * readings 1, 5 and 6.
 */
void
lid_running_rate_compute (const LidSurvey *survey,
                          const LidPopulation *as_found,
                          LidFigures *figures)
{
  const LidBoard *board = survey->board;
  Work work = { .survey = survey, .figures = figures };
  gboolean evidence = lid_population_is_evidence (survey->population, as_found);

  work.evidence = evidence;
  work.n_groups = board->rate_per_socket ? board->n_sockets + 1 : 1;
  figures->n_limits = 0;
  look_up_channels (&work);
  for (guint i = 0; i < survey->n_fitted; i++)
    rate_module (&work, survey->fitted[i]);
  for (guint s = 0; s < board->n_sockets; s++)
    cap_by_processor (&work, s, group_of (&work, (int)s));
  if (as_found != NULL && (evidence || board->derived))
    cap_by_inventory (&work, as_found);
  for (guint g = 0; g < work.n_groups; g++)
    {
      cap_machine (&work, &work.groups[g]);
      resolve (&work.groups[g], evidence);
    }
  list_running (&work);
  list_limits (&work);
}
