/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"

#include <glib/gi18n-lib.h>

/* A module that keeps others out, as the board's definition says: shared/facts/population.md P12, a
 * quad-rank module in the first slot empties the third of its channel; P13, a quad-rank module on
 * one channel and three modules on another of the same processor do not go together. Wires do not
 * know findings: fitted modules count, seen or not (settled reading 1). */

/* Whether a row speaks of the module in @slot; what would decide it and is not told is asked for
 * where @ask. */
static gboolean
speaks_of (LidCheck *check, const LidExclusion *row, guint slot, gboolean ask)
{
  const LidModule *module = lid_check_module (check, slot);
  LidKind kind = lid_module_kind (module);
  gint32 ranks = lid_module_get (module, LID_FACT_RANKS, 0);
  gboolean kind_open = row->kinds != 0 && kind == LID_KIND_UNKNOWN;
  gboolean ranks_open = row->least_module_ranks > 1 && ranks == 0;

  if (row->position != 0 && check->board->slots[slot].position != row->position)
    return FALSE;
  if ((row->kinds != 0 && !kind_open && !(row->kinds & (1u << kind)))
      || (row->least_module_ranks > 1 && !ranks_open && ranks < (gint32)row->least_module_ranks))
    return FALSE;
  if (ask && kind_open)
    lid_check_miss (check, LID_FACT_KIND, slot);
  if (ask && ranks_open)
    lid_check_miss (check, LID_FACT_RANKS, slot);
  return !kind_open && !ranks_open;
}

/* What is kept out of one channel: the slot that must be empty, and what is more than may be. */
static void
keep_out (const LidCheck *check, const LidExclusion *row, guint channel, LidSlotSet *out)
{
  const LidSurveyChannel *there = &check->survey->channels[channel];

  for (guint i = 0; i < there->n_fitted; i++)
    {
      guint slot = there->fitted[i], before = 0;

      for (guint k = 0; k < there->n_fitted; k++)
        before += check->place[there->fitted[k]] < check->place[slot];
      if (check->board->slots[slot].position == row->empty_position
          || (row->most_modules != 0 && before >= row->most_modules))
        lid_slot_set_add (out, slot);
    }
}

/* The channels a module on @channel keeps others out of. */
static void
keep_out_around (const LidCheck *check, const LidExclusion *row, guint channel, LidSlotSet *out)
{
  int socket = check->board->channels[channel].socket;

  if (row->scope == LID_SCOPE_CHANNEL)
    {
      keep_out (check, row, channel, out);
      return;
    }
  for (guint c = 0; socket != LID_NOWHERE && c < check->board->n_channels; c++)
    if (c != channel && check->board->channels[c].socket == socket)
      keep_out (check, row, c, out);
}

static char *
say (const LidExclusion *row, const LidSlotSet *by, const char *by_names, const char *out_names)
{
  guint n = lid_slot_set_count (by);

  if (row->scope == LID_SCOPE_CHANNEL)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE,
                     "The module in %s keeps others out of its channel: by the board's rules "
                     "nothing goes into %s.",
                     "The modules in %s keep others out of their channels: by the board's rules "
                     "nothing goes into %s.",
                     n),
        by_names, out_names);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE,
                   "The module in %s keeps others out of the other channels of its processor: by "
                   "the board's rules nothing goes into %s.",
                   "The modules in %s keep others out of the other channels of their processors: "
                   "by the board's rules nothing goes into %s.",
                   n),
      by_names, out_names);
}

static void
check_row (LidCheck *check, const LidExclusion *row)
{
  LidSlotSet out = { { 0 } }, by = { { 0 } };
  g_autofree char *by_names = NULL, *out_names = NULL;
  LidFinding *finding;

  for (guint i = 0; i < check->n_live; i++)
    {
      guint slot = check->live[i];
      int channel = check->board->slots[slot].channel;
      LidSlotSet around = { { 0 } };

      if (channel == LID_NOWHERE)
        continue;
      keep_out_around (check, row, (guint)channel, &around);
      if (row->empty_position != 0)
        lid_slot_set_drop (&around, slot);
      if (lid_slot_set_is_empty (&around) || !speaks_of (check, row, slot, TRUE))
        continue;
      lid_slot_set_merge (&out, &around);
      lid_slot_set_add (&by, slot);
    }
  if (lid_slot_set_is_empty (&by))
    return;
  by_names = lid_names_slots (check, &by);
  out_names = lid_names_slots (check, &out);
  finding = lid_check_add (check, LID_GRADE_STOPS, row->stops, &out,
                           say (row, &by, by_names, out_names));
  finding->source = row->source;
  lid_remedy_take_out (check, finding, &out);
}

/* Whether a row would keep a module out of @slot, were it fitted beside @by. */
static gboolean
would_keep_out (const LidCheck *check, const LidExclusion *row, guint slot, guint by)
{
  const LidBoardSlot *place = &check->board->slots[slot], *other = &check->board->slots[by];

  if (row->scope == LID_SCOPE_CHANNEL
          ? other->channel != place->channel
          : other->channel == place->channel || other->socket != place->socket)
    return FALSE;
  return place->position == row->empty_position
         || (row->most_modules != 0
             && check->survey->channels[place->channel].n_fitted >= row->most_modules);
}

/**
 * lid_exclusion_keeps_empty:
 * @check: at work
 * @slot: an empty one
 *
 * Returns: whether a module that is fitted surely keeps others out of @slot, so that nobody is to
 * be sent there
 */
gboolean
lid_exclusion_keeps_empty (LidCheck *check, guint slot)
{
  const LidBoard *board = check->board;

  for (guint i = 0; board->slots[slot].channel != LID_NOWHERE && i < board->n_exclusions; i++)
    for (guint k = 0; k < check->n_live; k++)
      if (would_keep_out (check, &board->exclusions[i], slot, check->live[k])
          && speaks_of (check, &board->exclusions[i], check->live[k], FALSE))
        return TRUE;
  return FALSE;
}

static void
check_exclusions (LidCheck *check)
{
  for (guint i = 0; i < check->board->n_exclusions; i++)
    check_row (check, &check->board->exclusions[i]);
}

const LidRule lid_rule_exclusion = {
  .id = "exclusion",
  .title = N_ ("modules that keep others out"),
  .scope = LID_SCOPE_SOCKET,
  .lasting = TRUE,
  .phase = LID_PHASE_FITTED,
  .facts = LID_FACT_BIT (LID_FACT_KIND) | LID_FACT_BIT (LID_FACT_RANKS),
  .grades = LID_GRADE_BIT (LID_GRADE_STOPS),
  .stops = LID_STOPS_SLOTS,
  .board_decides = TRUE,
  .cures = LID_CURE_SETTLE | LID_CURE_SPREAD,
  .why = N_ ("A module with many ranks loads the wires so much that some boards take no module in "
             "a certain slot beside it, or fewer on the other channels of the same processor."),
  .clears = N_ ("Leave the named slots empty, or fit modules with fewer ranks."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_exclusions,
};
