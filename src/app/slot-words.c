/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/slot-words.h"

#include "board/slot-names.h"

#include <glib/gi18n.h>
#include <string.h>

/**
 * lid_slot_words_name:
 * @board: a board
 * @slot: index of a slot
 *
 * Told once, and in the order in which a hand looks for it: name, processor, channel, place.
 *
 * Returns: (transfer full): "slot A1, channel A, place 1", no other slot's name on this board
 */
char *
lid_slot_words_name (const LidBoard *board, guint slot)
{
  const LidBoardSlot *s = &board->slots[slot];
  GString *name = g_string_new (NULL);

  g_string_append_printf (name, s->soldered != NULL ? _ ("soldered memory %s") : _ ("slot %s"),
                          lid_board_name_slot (board, slot));
  if (s->socket != LID_NOWHERE && board->n_sockets > 1)
    g_string_append_printf (name, _ (", processor %s"), board->sockets[s->socket].name);
  if (s->channel != LID_NOWHERE)
    g_string_append_printf (name, _ (", channel %s"), board->channels[s->channel].name);
  else
    g_string_append (name, _ (", channel not told"));
  if (s->position > 0)
    g_string_append_printf (name, _ (", place %u"), s->position);
  return g_string_free (name, FALSE);
}

/**
 * lid_slot_words_finding_names:
 * @finding: a finding
 * @slot: index of a slot
 *
 * Returns: whether the finding is about this slot
 */
gboolean
lid_slot_words_finding_names (const LidFinding *finding, guint slot)
{
  for (guint i = 0; i < finding->n_slots; i++)
    if (finding->slots[i] == slot)
      return TRUE;
  return FALSE;
}

/**
 * lid_slot_words_worst:
 * @assessment: what the checker said
 * @slot: index of a slot
 * @any: (out): whether it said anything of this slot
 *
 * Returns: the worst grade among the findings that name the slot
 */
LidGrade
lid_slot_words_worst (const LidAssessment *assessment, guint slot, gboolean *any)
{
  *any = FALSE;
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (!lid_slot_words_finding_names (finding, slot))
        continue;
      *any = TRUE;
      return finding->grade; /* worst first */
    }
  return LID_GRADE_NOTE;
}

static void
append_change (GString *text, const LidBoard *board, const LidSlotChange *change)
{
  if (change->kind == LID_CHANGE_NEW)
    g_string_append (text, _ ("; new here"));
  else if (change->kind == LID_CHANGE_MOVED && change->from != LID_NOWHERE)
    g_string_append_printf (text, _ ("; comes from %s"),
                            lid_board_name_slot (board, (guint)change->from));
  if (change->before != NULL && change->mat > 0 && change->to == LID_NOWHERE)
    g_string_append (text, _ ("; what was found here leaves"));
}

/**
 * lid_slot_words_describe:
 * @board: a board
 * @population: what sits in it
 * @assessment: (nullable): what the checker says
 * @changes: (nullable): against as found
 * @slot: index of a slot
 *
 * Returns: (transfer full): what sits in the slot, what changed, and its findings, in words
 */
char *
lid_slot_words_describe (const LidBoard *board,
                         const LidPopulation *population,
                         const LidAssessment *assessment,
                         const LidChanges *changes,
                         guint slot)
{
  const LidFitting *fitting = &population->slots[slot];
  GString *text = g_string_new (NULL);

  if (fitting->module == NULL)
    g_string_append (text, _ ("empty"));
  else
    {
      g_autofree char *module = lid_module_describe (fitting->module);

      g_string_append (text, module);
      if (fitting->state == LID_SLOT_NOT_SEEN)
        g_string_append (text, _ ("; the machine does not see it"));
    }
  if (changes != NULL)
    append_change (text, board, &changes->slots[slot]);
  if (lid_slot_names_is_counted (board, slot))
    g_string_append (text, _ ("; counted in the firmware's order, which need not be the board's"));
  for (guint i = 0; assessment != NULL && i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (lid_slot_words_finding_names (finding, slot))
        g_string_append_printf (text, "%s %s: %s",
                                text->len > 0 && text->str[text->len - 1] == '.' ? "" : ".",
                                lid_grade_to_words (finding->grade), finding->text);
    }
  return g_string_free (text, FALSE);
}

/**
 * lid_slot_words_hash_findings:
 * @assessment: (nullable): what the checker says
 * @n_slots: of the board
 *
 * Returns: (transfer full): for each slot a number that is another one as soon as other findings
 * name it or say something else
 */
guint *
lid_slot_words_hash_findings (const LidAssessment *assessment, guint n_slots)
{
  guint *hashes = g_new0 (guint, n_slots + 1);

  for (guint f = 0; assessment != NULL && f < assessment->findings->len; f++)
    {
      const LidFinding *finding = assessment->findings->pdata[f];
      guint hash = g_str_hash (finding->text) + (guint)finding->grade + 1;

      for (guint i = 0; i < finding->n_slots; i++)
        if (finding->slots[i] < n_slots)
          hashes[finding->slots[i]] = hashes[finding->slots[i]] * 31u + hash;
    }
  return hashes;
}

/* The only slot whose name ends in this number, for hands on a number pad. */
static int
slot_of_number (const LidBoard *board, const char *text)
{
  int found = LID_NOWHERE;

  if (*text == 0 || strspn (text, "0123456789") != strlen (text))
    return LID_NOWHERE;
  for (guint i = 0; i < board->n_slots; i++)
    {
      const char *name = board->slots[i].name;
      gsize digits = strlen (name);

      while (digits > 0 && g_ascii_isdigit (name[digits - 1]))
        digits--;
      if (g_ascii_strtoull (name + digits, NULL, 10) != g_ascii_strtoull (text, NULL, 10)
          || name[digits] == 0)
        continue;
      if (found != LID_NOWHERE)
        return LID_NOWHERE;
      found = (int)i;
    }
  return found;
}

/**
 * lid_slot_words_find:
 * @board: a board
 * @text: what people call a slot, or its id, as typed, in any case, or only the number its name
 *   ends in
 *
 * Returns: the slot, LID_NOWHERE when none or more than one is meant
 */
int
lid_slot_words_find (const LidBoard *board, const char *text)
{
  g_autofree char *wanted = g_utf8_casefold (text, -1);

  for (guint i = 0; i < board->n_slots; i++)
    {
      g_autofree char *name = g_utf8_casefold (lid_board_name_slot (board, i), -1);
      g_autofree char *id = g_utf8_casefold (board->slots[i].id, -1);

      if (strcmp (name, wanted) == 0 || strcmp (id, wanted) == 0)
        return (int)i;
    }
  return slot_of_number (board, text);
}
