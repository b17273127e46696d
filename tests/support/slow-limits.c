/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits of the running rate, said one by one by every module, channel, processor and setting,
 * and only then compared: product.md 6, "Running rate", settled readings 1, 5 and 6. */
#include "slow-rates.h"

typedef struct
{
  guint group; /* what runs at one rate */
  LidCap what;
  LidRate rate;
  gboolean open; /* not told: it may be anything from @rate on; 0: from nothing on */
} Word;

typedef struct
{
  const LidBoard *board;
  const LidPopulation *population;
  gboolean evidence;
  guint n_groups;
  gboolean runs[LID_BOARD_MAX_SOCKETS + 1]; /* some module of the group does */
  GArray *words;
  LidFigures *out;
} Talk;

static guint
group_of (const Talk *talk, int socket)
{
  return talk->n_groups == 1 ? 0 : socket == LID_NOWHERE ? talk->n_groups - 1 : (guint)socket;
}

static void
say (Talk *talk, int socket, LidCap what, LidRate rate, gboolean open)
{
  Word word = { group_of (talk, socket), what, rate, open };

  g_array_append_val (talk->words, word);
}

/* Every ceiling a choice may fall on; LID_RATE_UNKNOWN: it may fall on none. */
static void
say_choice (Talk *talk, int socket, LidCap what, const GArray *ceilings)
{
  LidRate least = G_MAXUINT32, most = 0;

  for (guint i = 0; i < ceilings->len; i++)
    {
      most = MAX (most, g_array_index (ceilings, LidRate, i));
      if (g_array_index (ceilings, LidRate, i) != LID_RATE_UNKNOWN)
        least = MIN (least, g_array_index (ceilings, LidRate, i));
    }
  if (most == 0)
    return;
  for (guint i = 0; i < ceilings->len; i++)
    if (g_array_index (ceilings, LidRate, i) != most)
      {
        say (talk, socket, what, least, TRUE);
        return;
      }
  say (talk, socket, what, most, FALSE);
}

static gboolean
is_there (const Talk *talk, guint slot)
{
  int socket = talk->board->slots[slot].socket;

  return talk->population->slots[slot].module != NULL
         && (socket == LID_NOWHERE || talk->population->processors[socket].fitted);
}

/* A channel without a row does not work, unless the machine was seen to run with it. */
static gboolean
runs (const Talk *talk, guint slot)
{
  int channel = talk->board->slots[slot].channel;

  if (!is_there (talk, slot))
    return FALSE;
  return channel == LID_NOWHERE || talk->out->rates[channel].row != LID_ROW_MISSING
         || (talk->evidence && talk->population->slots[slot].state != LID_SLOT_NOT_SEEN
             && lid_module_capacity (talk->population->slots[slot].module) > 0);
}

static void
hear_modules (Talk *talk)
{
  for (guint i = 0; i < talk->board->n_slots; i++)
    {
      const LidModule *module = talk->population->slots[i].module;
      int channel = talk->board->slots[i].channel, socket = talk->board->slots[i].socket;
      LidRate rated;

      if (!is_there (talk, i))
        continue;
      rated = lid_module_rated (module);
      if (channel != LID_NOWHERE && rated != LID_RATE_UNKNOWN)
        {
          int *slowest = &talk->out->rates[channel].slowest;

          if (*slowest == LID_NOWHERE
              || lid_module_rated (talk->population->slots[*slowest].module) > rated)
            *slowest = (int)i;
        }
      if (!runs (talk, i))
        continue;
      talk->runs[group_of (talk, socket)] = TRUE;
      say (talk, socket, LID_CAP_MODULE, rated, rated == LID_RATE_UNKNOWN);
      if (channel == LID_NOWHERE && talk->board->n_rates > 0)
        say (talk, socket, LID_CAP_TABLE, 0, TRUE);
    }
}

static void
hear_channels (Talk *talk)
{
  guint32 voltages = slow_rates_voltages (talk->board, talk->population);

  for (guint c = 0; c < talk->board->n_channels; c++)
    {
      int socket = talk->board->channels[c].socket;
      SlowChannel asked = { .filled = slow_rates_fitted (talk->board, talk->population, c),
                            .voltages = voltages };
      LidChannelRate rate = slow_rates_channel (talk->board, talk->population, c, &asked);

      if (socket != LID_NOWHERE && !talk->population->processors[socket].fitted)
        rate.row = LID_ROW_SILENT;
      talk->out->rates[c] = rate;
      if (rate.row == LID_ROW_FOUND || rate.row == LID_ROW_UNSURE)
        say (talk, socket, LID_CAP_TABLE, rate.table, rate.row == LID_ROW_UNSURE);
    }
}

/* What a processor may allow modules of @kind: of every model it may be, for every kind they may
 * be. */
static void
hear_processor (Talk *talk, guint socket, LidKind kind)
{
  g_autoptr (GArray) ceilings = g_array_new (FALSE, FALSE, sizeof (LidRate));
  int model = talk->population->processors[socket].model;

  for (guint m = 0; m < talk->board->n_processors; m++)
    for (guint k = 1; k < LID_N_KINDS; k++)
      {
        const LidRate *rates = talk->board->processors[m].rate;
        gboolean may = kind != LID_KIND_UNKNOWN
                           ? k == kind
                           : talk->board->kinds == 0 || (talk->board->kinds >> k & 1) == 1;

        if (may && (model == LID_NOWHERE || model == (int)m))
          g_array_append_val (ceilings, *(rates[k] != 0 ? &rates[k] : &rates[0]));
      }
  say_choice (talk, (int)socket, LID_CAP_PROCESSOR, ceilings);
}

static void
hear_processors (Talk *talk)
{
  for (guint s = 0; s < talk->board->n_sockets; s++)
    for (guint i = 0; i < talk->board->n_slots; i++)
      {
        int socket = talk->board->slots[i].socket;

        if (talk->population->processors[s].fitted && runs (talk, i)
            && (socket == LID_NOWHERE || socket == (int)s))
          hear_processor (talk, s, lid_module_kind (talk->population->slots[i].module));
      }
}

static void
hear_settings (Talk *talk, const LidPopulation *as_found)
{
  for (guint g = 0; g < talk->n_groups; g++)
    {
      g_autoptr (GArray) ceilings = g_array_new (FALSE, FALSE, sizeof (LidRate));
      int socket = g + 1 == talk->n_groups ? LID_NOWHERE : (int)g;
      gboolean known = FALSE;

      for (guint i = 0; i < talk->board->n_firmware; i++)
        known
            = known || g_strcmp0 (talk->board->firmware[i].level, talk->population->firmware) == 0;
      for (guint i = 0; i < talk->board->n_firmware; i++)
        if (!known || g_strcmp0 (talk->board->firmware[i].level, talk->population->firmware) == 0)
          g_array_append_val (ceilings, talk->board->firmware[i].ceiling);
      say_choice (talk, socket, LID_CAP_FIRMWARE, ceilings);
      if (talk->board->rate_ceiling != LID_RATE_UNKNOWN)
        say (talk, socket, LID_CAP_BOARD, talk->board->rate_ceiling, FALSE);
      if (talk->population->setup_limit != LID_RATE_UNKNOWN)
        say (talk, socket, LID_CAP_SETUP, talk->population->setup_limit, FALSE);
    }
  for (guint i = 0; as_found != NULL && i < as_found->n_slots; i++)
    if ((talk->evidence || talk->board->derived) && as_found->slots[i].module != NULL
        && as_found->slots[i].configured != LID_RATE_UNKNOWN)
      say (talk, talk->board->slots[i].socket, LID_CAP_INVENTORY, as_found->slots[i].configured,
           FALSE);
}

/* The least told and whether something is open of @group's words on @what; LID_N_CAPS: on all. */
static LidRate
least_of (const Talk *talk, guint group, LidCap what, gboolean *open)
{
  LidRate least = LID_RATE_UNKNOWN, told = LID_RATE_UNKNOWN;

  for (guint i = 0; i < talk->words->len; i++)
    {
      const Word *word = &g_array_index (talk->words, Word, i);

      if (word->group != group || word->open)
        continue;
      told = told == LID_RATE_UNKNOWN ? word->rate : MIN (told, word->rate);
      if (word->what == what || what == LID_N_CAPS)
        least = least == LID_RATE_UNKNOWN ? word->rate : MIN (least, word->rate);
    }
  /* What cannot be below everything that is told binds nothing. */
  for (guint i = 0; i < talk->words->len; i++)
    {
      const Word *word = &g_array_index (talk->words, Word, i);

      if (word->group == group && word->open && (word->what == what || what == LID_N_CAPS)
          && (told == LID_RATE_UNKNOWN || word->rate < told))
        *open = TRUE;
    }
  return least;
}

static LidRate
running_of (const Talk *talk, guint group)
{
  gboolean open = FALSE, none = FALSE;
  LidRate least = least_of (talk, group, LID_N_CAPS, &open);
  LidRate found = least_of (talk, group, LID_CAP_INVENTORY, &none);

  return talk->evidence && found != LID_RATE_UNKNOWN ? found : open ? LID_RATE_UNKNOWN : least;
}

static void
conclude (Talk *talk)
{
  LidFigures *out = talk->out;
  gboolean open = FALSE;

  for (guint g = 0; g < talk->n_groups; g++)
    {
      LidRate rate = running_of (talk, g);

      if (!talk->runs[g])
        continue;
      open = open || rate == LID_RATE_UNKNOWN;
      out->running = out->running == LID_RATE_UNKNOWN ? rate : MIN (out->running, rate);
      for (guint s = 0; s < talk->board->n_sockets; s++)
        for (guint i = 0; i < talk->board->n_slots; i++)
          if (group_of (talk, (int)s) == g && talk->board->slots[i].socket == (int)s
              && is_there (talk, i))
            out->sockets[s].running = rate;
    }
  out->running = open ? LID_RATE_UNKNOWN : out->running;
  for (LidCap what = 0; what < LID_N_CAPS; what++)
    {
      LidRateLimit limit = { what, LID_RATE_UNKNOWN, FALSE };
      gboolean not_told = FALSE;

      for (guint g = 0; g < talk->n_groups; g++)
        {
          LidRate least = talk->runs[g] ? least_of (talk, g, what, &not_told) : LID_RATE_UNKNOWN;

          if (least != LID_RATE_UNKNOWN)
            limit.rate = limit.rate == LID_RATE_UNKNOWN ? least : MIN (limit.rate, least);
        }
      if (limit.rate == LID_RATE_UNKNOWN && !not_told)
        continue;
      limit.rate = not_told ? LID_RATE_UNKNOWN : limit.rate;
      limit.binding = limit.rate != LID_RATE_UNKNOWN && limit.rate == out->running;
      out->limits[out->n_limits++] = limit;
    }
}

/**
 * slow_limits_compute:
 * @as_found: (nullable): what the running machine told
 * @evidence: whether @population is what was found
 * @out: (inout): of lid_figures_init(); gets rates, running, the sockets' running and limits
 */
void
slow_limits_compute (const LidBoard *board,
                     const LidPopulation *population,
                     const LidPopulation *as_found,
                     gboolean evidence,
                     LidFigures *out)
{
  g_autoptr (GArray) words = g_array_new (FALSE, FALSE, sizeof (Word));
  Talk talk = { .board = board,
                .population = population,
                .evidence = evidence,
                .n_groups = board->rate_per_socket ? board->n_sockets + 1 : 1,
                .words = words,
                .out = out };

  hear_channels (&talk);
  hear_modules (&talk);
  hear_processors (&talk);
  hear_settings (&talk, as_found);
  conclude (&talk);
}
