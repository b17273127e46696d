/* SPDX-License-Identifier: GPL-3.0-or-later */
/* channels.c — which channel a slot is on, and the number it has there.
 * Two sources: the word channel with what stands behind it, and the bare pair as letters.c judged
 * it. Where both speak and agree (each letter one channel, each channel one letter), the letter
 * names the channel since it is what people read on the board: P1-DIMMB1 + P0_Node0_Channel1_Dimm0
 * is channel B, not 1. Where they disagree the word wins.
 * Three families state a channel without either: a controller with modules of its own
 * (Controller0-DIMM1), a bank that holds several modules of a named processor (CPU0_Dimm3 +
 * CPU0_Bank1), and three digits (DIMM021: processor, channel, slot).
 * Source: shared/facts/locators.md, families A to G. */
#include "locators/channels.h"

#include "locators/sockets.h"

#define MOST_SOCKETS 16
#define MOST_NAMES 64

/* A channel name as the pair gives it, or none. */
static int
pair_channel (const LidMarks *marks, LidLettersRole role)
{
  switch (role)
    {
    case LID_LETTERS_CHANNEL:
      return marks->letter;
    case LID_LETTERS_CROSSED:
      return marks->number;
    case LID_LETTERS_UNTOLD:
    case LID_LETTERS_SOCKET:
    default:
      return LID_MARK_NONE;
    }
}

static int
pair_slot (const LidMarks *marks, LidLettersRole role)
{
  return role == LID_LETTERS_CROSSED ? marks->letter - LID_MARK_FIRST_LETTER : marks->number;
}

static int
word_channel (const LidMachineSlot *slot)
{
  return slot->locator.channel != LID_MARK_NONE ? slot->locator.channel : slot->bank.channel;
}

static LidLettersRole
role_of (const LidMachineSlot *slot, gboolean bank, const LidLettersRole *roles)
{
  LidLettersClass class = lid_letters_class_of (slot, bank);

  return class == LID_LETTERS_NO_CLASS ? LID_LETTERS_UNTOLD : roles[class];
}

static int
name_index (int name)
{
  int index = lid_mark_is_letter (name) ? name - LID_MARK_FIRST_LETTER : name;

  return index < MOST_NAMES ? index : -1;
}

/* Whether pair and word name the same channels on the whole machine, one to one. */
static gboolean
names_agree (const LidMachine *machine, const LidLettersRole *roles)
{
  int seen[MOST_SOCKETS + 1][MOST_NAMES];

  for (guint s = 0; s <= MOST_SOCKETS; s++)
    for (guint k = 0; k < MOST_NAMES; k++)
      seen[s][k] = -1;
  for (guint i = 0; i < machine->n_slots; i++)
    {
      const LidMachineSlot *slot = &machine->slots[i];
      int pair = pair_channel (&slot->locator, role_of (slot, FALSE, roles));
      int word = word_channel (slot), index, key;

      if (pair == LID_MARK_NONE || word == LID_MARK_NONE)
        continue;
      index = name_index (pair);
      key = slot->controller * 65536 + word;
      if (index < 0 || slot->socket > MOST_SOCKETS
          || (seen[slot->socket][index] >= 0 && seen[slot->socket][index] != key))
        return FALSE;
      seen[slot->socket][index] = key;
    }
  for (guint s = 0; s <= MOST_SOCKETS; s++)
    for (guint k = 0; k < MOST_NAMES; k++)
      for (guint j = 0; seen[s][k] >= 0 && j < k; j++)
        if (seen[s][j] == seen[s][k])
          return FALSE;
  return TRUE;
}

/* The slot's number where the word channel names the channel: in the same string, else in the
 * other. A pair of letter and number lends its number only if its letter is that channel, else it
 * may be a print on the board. */
static int
word_slot (const LidMachineSlot *slot)
{
  gboolean in_bank = slot->locator.channel == LID_MARK_NONE;
  const LidMarks *own = lid_machine_marks (slot, in_bank);
  const LidMarks *other = lid_machine_marks (slot, !in_bank);

  if (own->dimm != LID_MARK_NONE)
    return own->dimm;
  if (other->channel == own->channel && other->dimm != LID_MARK_NONE)
    return other->dimm;
  if (other->shape == LID_SHAPE_NUMBER
      || (other->shape != LID_SHAPE_NONE && other->letter == own->channel))
    return other->number;
  return LID_MARK_NONE;
}

static void
tell (LidMachineSlot *slot, int channel, int number)
{
  slot->channel = (gint16)channel;
  slot->number = (gint16)number;
}

static void
by_word_or_pair (LidMachine *machine, const LidLettersRole *roles)
{
  gboolean agree = names_agree (machine, roles);

  for (guint i = 0; i < machine->n_slots; i++)
    {
      LidMachineSlot *slot = &machine->slots[i];
      LidLettersRole role = role_of (slot, FALSE, roles), bank_role = role_of (slot, TRUE, roles);
      int pair = pair_channel (&slot->locator, role);
      int bank_pair = pair_channel (&slot->bank, bank_role);
      int word = word_channel (slot);

      if (pair != LID_MARK_NONE && (word == LID_MARK_NONE || agree))
        tell (slot, pair, pair_slot (&slot->locator, role));
      else if (word != LID_MARK_NONE)
        tell (slot, word, word_slot (slot));
      else if (bank_pair != LID_MARK_NONE && slot->locator.shape != LID_SHAPE_LETTER_NUMBER
               && slot->locator.shape != LID_SHAPE_NUMBER_LETTER)
        tell (slot, bank_pair, pair_slot (&slot->bank, bank_role));
    }
}

/* "Controller0-DIMM1": a controller with nothing under it but modules is a channel. */
static void
by_controller (LidMachine *machine)
{
  for (guint i = 0; i < machine->n_slots; i++)
    {
      LidMachineSlot *slot = &machine->slots[i];

      if (slot->channel == LID_MARK_NONE && slot->locator.controller != LID_MARK_NONE
          && slot->locator.shape == LID_SHAPE_NUMBER)
        tell (slot, slot->locator.controller, slot->locator.number);
    }
}

static gboolean
has_bank_of_processor (const LidMachineSlot *slot)
{
  return slot->channel == LID_MARK_NONE && slot->locator.shape == LID_SHAPE_NUMBER
         && slot->locator.processor != LID_MARK_NONE && slot->bank.processor != LID_MARK_NONE
         && slot->bank.bank != LID_MARK_NONE;
}

/* CPU0_Dimm0, CPU0_Dimm1 + CPU0_Bank0, CPU0_Dimm2 + CPU0_Bank1: the bank is a channel where there
 * are several and they hold several modules; one bank for all, or one each, states nothing. */
static void
by_bank (LidMachine *machine)
{
  LidSocketParts banks = { .n = 0 }, sockets = { .n = 0 };
  guint n = 0;

  for (guint i = 0; i < machine->n_slots; i++)
    if (has_bank_of_processor (&machine->slots[i]))
      {
        n++;
        if (!lid_sockets_add_part (&banks, machine->slots[i].bank.bank)
            || !lid_sockets_add_part (&sockets, machine->slots[i].socket))
          return;
      }
  if (banks.n < 2 || n <= banks.n * sockets.n)
    return;
  for (guint i = 0; i < machine->n_slots; i++)
    if (has_bank_of_processor (&machine->slots[i]))
      tell (&machine->slots[i], machine->slots[i].bank.bank, machine->slots[i].locator.number);
}

/* DIMM000 … DIMM131: believed only if every slot is called so and the first digit counts the
 * processors; "DIMM100" may be the hundredth. */
static void
by_three_digits (LidMachine *machine)
{
  LidSocketParts firsts = { .n = 0 };
  gboolean zero = FALSE;

  for (guint i = 0; i < machine->n_slots; i++)
    {
      const LidMachineSlot *slot = &machine->slots[i];

      if (slot->channel != LID_MARK_NONE || slot->locator.shape != LID_SHAPE_NUMBER
          || slot->locator.digits != 3 || slot->locator.processor != LID_MARK_NONE)
        return;
      zero = zero || slot->locator.number < 100;
      lid_sockets_add_part (&firsts, slot->locator.number / 100);
    }
  if (!zero || firsts.n != machine->n_processors)
    return;
  for (guint i = 0; i < machine->n_slots; i++)
    {
      LidMachineSlot *slot = &machine->slots[i];

      slot->socket = (gint16)(1 + lid_sockets_part_index (&firsts, slot->locator.number / 100));
      tell (slot, slot->locator.number / 10 % 10, slot->locator.number % 10);
    }
}

/**
 * lid_channels_find:
 * @machine: whose slots get a channel and a number where the strings state them
 * @roles: from lid_letters_judge()
 */
void
lid_channels_find (LidMachine *machine, const LidLettersRole roles[LID_LETTERS_N_CLASSES])
{
  by_word_or_pair (machine, roles);
  by_controller (machine);
  by_bank (machine);
  by_three_digits (machine);
}
