/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"
#include "trace/trace-private.h"

#include <glib/gi18n-lib.h>

#define MOST_NAMES 8

/**
 * lid_next_to_text:
 *
 * Returns: the word in JSON
 */
const char *
lid_next_to_text (LidNextKind kind)
{
  static const char *const words[LID_N_NEXTS]
      = { "reseat", "swap", "move", "replace", "back", "take-out", "ease", "processors" };

  g_return_val_if_fail ((guint)kind < LID_N_NEXTS, NULL);
  return words[kind];
}

static char *
module_words (const LidJob *job, const char *id)
{
  const LidModule *module = lid_job_find_module (job, id);
  g_autofree char *what = NULL;

  if (module == NULL)
    return g_strdup (id);
  what = lid_module_describe (module);
  if (module->serial != NULL)
    return g_strdup_printf (_ ("%s, serial %s"), what, module->serial);
  return g_strdup_printf (_ ("%s, called %s in the job"), what, id);
}

static const char *
socket_name (const LidJob *job, int socket)
{
  return job->board->sockets[socket].name;
}

static char *
channel_words (const LidJob *job, int channel)
{
  const LidBoardChannel *one = &job->board->channels[channel];

  if (one->socket == LID_NOWHERE)
    return g_strdup_printf (_ ("the channel %s"), one->name);
  return g_strdup_printf (_ ("the channel %s of processor %s"), one->name,
                          socket_name (job, one->socket));
}

/* Whether channel and processor are suspects beside the slot; where the board does not tell them,
 * or the channel has no other slot, nothing tells them from it. */
static gboolean
is_told_apart (const LidJob *job, guint slot)
{
  const LidBoardSlot *place = &job->board->slots[slot];

  return place->socket != LID_NOWHERE && place->channel != LID_NOWHERE
         && job->board->channels[place->channel].n_slots > 1;
}

/**
 * lid_trace_words_suspect:
 *
 * Returns: (transfer full): what is at fault, as a noun
 */
char *
lid_trace_words_suspect (const LidJob *job, const LidSuspect *suspect)
{
  const char *slot = suspect->slot != LID_NOWHERE
                         ? lid_board_name_slot (job->board, (guint)suspect->slot)
                         : NULL;
  g_autofree char *module = suspect->module != NULL ? module_words (job, suspect->module) : NULL;

  switch (suspect->kind)
    {
    case LID_SUSPECT_SEATING:
      return g_strdup_printf (_ ("the contact in slot %s"), slot);
    case LID_SUSPECT_MODULE:
      return g_strdup_printf (_ ("the module (%s)"), module);
    case LID_SUSPECT_SLOT:
      return is_told_apart (job, (guint)suspect->slot)
                 ? g_strdup_printf (_ ("the slot %s"), slot)
                 : g_strdup_printf (_ ("the slot %s or what lies behind it"), slot);
    case LID_SUSPECT_PAIRING:
      return g_strdup_printf (_ ("too little margin of that module in slot %s"), slot);
    case LID_SUSPECT_CHANNEL:
      return channel_words (job, suspect->channel);
    case LID_SUSPECT_PROCESSOR:
      return g_strdup_printf (_ ("the processor that was in socket %s at first, or how it is "
                                 "seated"),
                              socket_name (job, suspect->processor));
    case LID_SUSPECT_COMMON:
      return g_strdup (_ ("something common to all that a lower rate or the setup’s defaults cure: "
                          "rate, voltage or a setting"));
    case LID_SUSPECT_MACHINE:
    case LID_N_SUSPECTS:
    default:
      return g_strdup (
          _ ("something common to all that they do not cure: firmware, power, heat or the board"));
    }
}

/**
 * lid_trace_words_explanation:
 *
 * Returns: (transfer full): one sentence's worth
 */
char *
lid_trace_words_explanation (const LidJob *job, const LidExplanation *explanation)
{
  g_autofree char *one = lid_trace_words_suspect (job, &explanation->one);
  g_autofree char *other
      = explanation->two ? lid_trace_words_suspect (job, &explanation->other) : NULL;

  return other != NULL ? g_strdup_printf (_ ("two at once: %s, and %s"), one, other)
                       : g_steal_pointer (&one);
}

static char *
name_marked (const LidJob *job, const guint8 *marks)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < job->board->n_slots; i++)
    if (marks[i])
      g_ptr_array_add (names, (char *)lid_board_name_slot (job->board, i));
  /* All of them: hands cannot go by "and 40 more". */
  return lid_text_join ((const char *const *)names->pdata, names->len, MAX (names->len, 1));
}

/* The slots that are filled then, but for @but. */
static char *
name_filled (const LidJob *job, const LidTrial *trial, int but)
{
  g_autofree guint8 *in = g_new0 (guint8, job->board->n_slots + 1);

  for (guint i = 0; i < job->board->n_slots; i++)
    in[i] = trial->population->slots[i].module != NULL && (int)i != but
            && trial->population->slots[i].state != LID_SLOT_SOLDERED;
  return name_marked (job, in);
}

static char *
words_take_out (const LidJob *job, const LidTrial *trial)
{
  g_autofree char *names = name_filled (job, trial, LID_NOWHERE);

  return g_strdup_printf (_ ("Start with the modules of these slots alone, each in its place as at "
                             "first: %s."),
                          names);
}

static char *
words_replace (const LidJob *job, const LidNextTrial *next)
{
  g_autofree char *names = name_filled (job, next->trial, next->a);
  const char *where = lid_board_name_slot (job->board, (guint)next->a);
  const char *from = lid_board_name_slot (job->board, (guint)next->b);

  if (*names == 0)
    return g_strdup_printf (
        _ ("Start with one module alone: in %s the one that was in %s at first."), where, from);
  return g_strdup_printf (
      _ ("Start with the modules of these slots, each in its place: %s; and in %s "
         "the one that was in %s at first."),
      names, where, from);
}

/**
 * lid_trace_words_next:
 *
 * Returns: (transfer full): one sentence for the hands
 */
char *
lid_trace_words_next (const LidJob *job, const LidNextTrial *next)
{
  g_autofree char *names = NULL;

  switch (next->kind)
    {
    case LID_NEXT_RESEAT:
      names = name_marked (job, next->trial->reseated);
      return g_strdup_printf (
          _ ("Take out what is in %s and seat it again in the same place, until "
             "both latches close by themselves; look at contacts and slot."),
          names);
    case LID_NEXT_SWAP:
      return g_strdup_printf (_ ("Let the modules in %s and %s change places."),
                              lid_board_name_slot (job->board, (guint)next->a),
                              lid_board_name_slot (job->board, (guint)next->b));
    case LID_NEXT_MOVE:
      return g_strdup_printf (_ ("Move the module in %s to the empty slot %s."),
                              lid_board_name_slot (job->board, (guint)next->a),
                              lid_board_name_slot (job->board, (guint)next->b));
    case LID_NEXT_REPLACE:
      return words_replace (job, next);
    case LID_NEXT_BACK:
      return g_strdup (_ ("Put every module back where it was when the fault showed first."));
    case LID_NEXT_TAKE_OUT:
      return words_take_out (job, next->trial);
    case LID_NEXT_EASE:
      if (!next->by_hand)
        return g_strdup (_ ("Set the memory rate a step lower in the setup, or load its defaults; "
                            "every module stays where it is."));
      return g_strdup (_ ("Every module where it was at first, set the memory rate a step lower in "
                          "the setup, or load its defaults."));
    case LID_NEXT_PROCESSORS:
    case LID_N_NEXTS:
    default:
      return g_strdup_printf (_ ("Let the processors in sockets %s and %s change places; mind the "
                                 "pins, and the machine maker's guide for paste and screws."),
                              socket_name (job, next->a), socket_name (job, next->b));
    }
}

/* Slot, channel, processor: no module, and what is done about one is done about all. */
static gboolean
is_behind_slot (const GArray *explanations)
{
  for (guint i = 0; i < explanations->len; i++)
    {
      const LidExplanation *one = &g_array_index (explanations, LidExplanation, i);

      if (one->two
          || (one->one.kind != LID_SUSPECT_SLOT && one->one.kind != LID_SUSPECT_CHANNEL
              && one->one.kind != LID_SUSPECT_PROCESSOR))
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_trace_words_answer:
 * @explanations: LidExplanation that nothing allowed tells apart any more
 * @doubtful: a note may be wrong
 *
 * Returns: (transfer full): what it is, and of one thing what to do about it
 */
char *
lid_trace_words_answer (const LidJob *job, const GArray *explanations, gboolean doubtful)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *all = NULL, *remedy = NULL;

  for (guint i = 0; i < explanations->len; i++)
    g_ptr_array_add (
        words, lid_trace_words_explanation (job, &g_array_index (explanations, LidExplanation, i)));
  if (words->len == 1 && doubtful)
    return g_strdup_printf (_ ("It is %s; or a start was noted wrongly."),
                            (const char *)words->pdata[0]);
  if (words->len == 1 && g_array_index (explanations, LidExplanation, 0).two)
    return g_strdup_printf (_ ("It is %s."), (const char *)words->pdata[0]);
  if (words->len == 1)
    {
      remedy = lid_trace_words_remedy (job, &g_array_index (explanations, LidExplanation, 0).one);

      return g_strdup_printf (_ ("It is %s. %s"), (const char *)words->pdata[0], remedy);
    }
  all = lid_text_join ((const char *const *)words->pdata, words->len, MOST_NAMES);
  if (!is_behind_slot (explanations))
    return g_strdup_printf (_ ("None of the starts this program thinks of is sure to tell these "
                               "apart; it is one of them: %s."),
                            all);
  remedy = lid_trace_words_remedy (job, &g_array_index (explanations, LidExplanation, 0).one);
  return g_strdup_printf (
      _ ("None of the starts this program thinks of is sure to tell these apart; "
         "it is one of them: %s. %s"),
      all, remedy);
}
