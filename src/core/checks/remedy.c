/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/remedy.h"

#include "base/text.h"
#include "checks/names.h"

#include <glib/gi18n-lib.h>

#define MOST_MOVES 8u

/**
 * lid_remedy_say:
 * @check: at work
 * @finding: a finding without a remedy
 * @text: (transfer full): what to do, one sentence; dropped where nobody asks for remedies
 */
void
lid_remedy_say (const LidCheck *check, LidFinding *finding, char *text)
{
  g_assert (finding->remedy == NULL);
  if (check->plain)
    {
      g_free (text);
      return;
    }
  finding->remedy = g_new0 (LidRemedy, 1);
  finding->remedy->text = text;
  finding->remedy->moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
}

/**
 * lid_remedy_move:
 * @check: whose population
 * @finding: a finding whose remedy has its words
 * @from: the slot whose module moves
 * @to: where it goes, LID_NOWHERE: onto the tray
 *
 * Does nothing where nobody asks for remedies.
 */
void
lid_remedy_move (const LidCheck *check, LidFinding *finding, int from, int to)
{
  LidMove move = { check->population->slots[from].module, from, to };

  if (check->plain)
    return;
  lid_module_ref (move.module);
  g_array_append_val (finding->remedy->moves, move);
}

/**
 * lid_remedy_take_out:
 * @check: whose population
 * @finding: a finding without a remedy
 * @slots: the slots to empty
 *
 * The plainest remedy: leave those modules out.
 */
void
lid_remedy_take_out (const LidCheck *check, LidFinding *finding, const LidSlotSet *slots)
{
  g_autofree char *names = NULL;

  if (check->plain)
    return;
  names = lid_names_slots (check, slots);
  lid_remedy_say (check, finding, g_strdup_printf (_ ("Leave %s empty."), names));
  finding->remedy->leaving = TRUE;
  LID_SLOT_SET_EACH (slots, slot)
    if (check->population->slots[slot].module != NULL)
      lid_remedy_move (check, finding, slot, LID_NOWHERE);
}

static char *
say_one (const LidCheck *check, const LidMove *move)
{
  const char *from
      = move->from != LID_NOWHERE ? lid_board_name_slot (check->board, (guint)move->from) : NULL;
  const char *to
      = move->to != LID_NOWHERE ? lid_board_name_slot (check->board, (guint)move->to) : NULL;

  if (from == NULL)
    return g_strdup_printf (_ ("Fit one from the tray into %s."), to);
  if (to == NULL)
    return g_strdup_printf (_ ("Leave %s empty."), from);
  return g_strdup_printf (_ ("Move the module from %s to %s."), from, to);
}

/* Out and in, out and in: the same slots hold others afterwards. */
static gboolean
is_exchange (const GArray *moves)
{
  const LidMove *move = &g_array_index (moves, LidMove, 0);

  if (moves->len % 2 != 0)
    return FALSE;
  for (guint i = 0; i < moves->len; i += 2)
    if (move[i].to != LID_NOWHERE || move[i + 1].from != LID_NOWHERE
        || move[i].from != move[i + 1].to)
      return FALSE;
  return TRUE;
}

static char *
say_exchange (const LidCheck *check, const GArray *moves)
{
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL;

  for (guint i = 0; i < moves->len; i += 2)
    lid_slot_set_add (&slots, (guint)g_array_index (moves, LidMove, i).from);
  names = lid_names_slots (check, &slots);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "Exchange the module in %s for one from the tray.",
                   "Exchange the modules in %s for others from the tray.", moves->len / 2),
      names);
}

static gboolean
is_leaving (const GArray *moves)
{
  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, LidMove, i).to != LID_NOWHERE)
      return FALSE;
  return TRUE;
}

static char *
say_leaving (const LidCheck *check, const GArray *moves)
{
  LidSlotSet slots = { { 0 } };
  g_autofree char *names = NULL;

  for (guint i = 0; i < moves->len; i++)
    lid_slot_set_add (&slots, (guint)g_array_index (moves, LidMove, i).from);
  names = lid_names_slots (check, &slots);
  return g_strdup_printf (_ ("Leave %s empty."), names);
}

static char *
say_moves (const LidCheck *check, const GArray *moves)
{
  const LidMove *first = &g_array_index (moves, LidMove, 0);
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *list = NULL;

  if (moves->len == 1)
    return say_one (check, first);
  if (moves->len == 2 && first[0].from == first[1].to && first[0].to == first[1].from
      && first[0].from != LID_NOWHERE && first[0].to != LID_NOWHERE)
    return g_strdup_printf (_ ("Let the modules in %s and %s change places."),
                            lid_board_name_slot (check->board, (guint)first[0].from),
                            lid_board_name_slot (check->board, (guint)first[0].to));
  if (is_leaving (moves))
    return say_leaving (check, moves);
  if (is_exchange (moves))
    return say_exchange (check, moves);
  for (guint i = 0; i < moves->len; i++)
    g_ptr_array_add (words,
                     g_strdup_printf ("%s → %s",
                                      first[i].from != LID_NOWHERE
                                          ? lid_board_name_slot (check->board, (guint)first[i].from)
                                          : _ ("tray"),
                                      first[i].to != LID_NOWHERE
                                          ? lid_board_name_slot (check->board, (guint)first[i].to)
                                          : _ ("tray")));
  list = lid_text_join ((const char *const *)words->pdata, words->len, MOST_MOVES);
  return g_strdup_printf (_ ("Move modules: %s."), list);
}

/**
 * lid_remedy_new_moves:
 * @check: whose population
 * @moves: at least one LidMove; their modules are referenced
 *
 * Returns: (transfer full): a remedy of those moves, said in words
 */
LidRemedy *
lid_remedy_new_moves (const LidCheck *check, const GArray *moves)
{
  LidRemedy *remedy = g_new0 (LidRemedy, 1);

  remedy->text = say_moves (check, moves);
  remedy->moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  g_array_append_vals (remedy->moves, moves->data, moves->len);
  for (guint i = 0; i < moves->len; i++)
    lid_module_ref (g_array_index (moves, LidMove, i).module);
  return remedy;
}

/**
 * lid_remedy_new_setting:
 * @text: what to set, one sentence
 *
 * Returns: (transfer full): a remedy without moves
 */
LidRemedy *
lid_remedy_new_setting (const char *text)
{
  LidRemedy *remedy = g_new0 (LidRemedy, 1);

  remedy->text = g_strdup (text);
  remedy->moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  remedy->by_setting = TRUE;
  return remedy;
}

/**
 * lid_remedy_reword:
 * @remedy: one whose words do not do
 * @text: what to do, in other words, marked for translation
 */
void
lid_remedy_reword (LidRemedy *remedy, const char *text)
{
  g_free (remedy->text);
  remedy->text = g_strdup (_ (text));
}

/**
 * lid_remedy_drop_moves:
 * @remedy: one whose moves do not do
 *
 * Its words stay: somebody who knows more may still follow them.
 */
void
lid_remedy_drop_moves (LidRemedy *remedy)
{
  for (guint i = 0; i < remedy->moves->len; i++)
    lid_module_unref (g_array_index (remedy->moves, LidMove, i).module);
  g_array_set_size (remedy->moves, 0);
}

/**
 * lid_remedy_apply:
 * @remedy: a remedy with moves
 * @population: the population its finding was about
 *
 * Returns: (transfer full): the population after the moves; all pulls come before all fits, so
 * that modules may change places
 */
LidPopulation *
lid_remedy_apply (const LidRemedy *remedy, const LidPopulation *population)
{
  LidPopulation *after = lid_population_copy (population);

  for (guint i = 0; i < remedy->moves->len; i++)
    {
      const LidMove *move = &g_array_index (remedy->moves, LidMove, i);

      if (move->from != LID_NOWHERE)
        lid_population_take (after, (guint)move->from);
    }
  for (guint i = 0; i < remedy->moves->len; i++)
    {
      const LidMove *move = &g_array_index (remedy->moves, LidMove, i);

      if (move->to != LID_NOWHERE)
        lid_population_put (after, (guint)move->to, move->module);
    }
  return after;
}

/**
 * lid_remedy_free:
 * @remedy: (nullable): a remedy
 */
void
lid_remedy_free (LidRemedy *remedy)
{
  if (remedy == NULL)
    return;
  for (guint i = 0; i < remedy->moves->len; i++)
    lid_module_unref (g_array_index (remedy->moves, LidMove, i).module);
  g_array_unref (remedy->moves);
  g_free (remedy->text);
  g_free (remedy);
}
