/* SPDX-License-Identifier: GPL-3.0-or-later */
/* letters.c — what the letter in "DIMM_A1" and the digit in "1A" mean on this machine.
 * The same string means different things on different boards, so all slots spelt alike are judged
 * together: by what stands beside the pair, and by how far letters and numbers run.
 *   DIMM_A1 … DIMM_B12, bank silent, 2 processors   A and B are processors
 *   DIMM_A1 … DIMM_D2,  bank NODE 1                 A to D are channels
 *   P1_DIMM1A … P1_DIMM4B                           1 to 4 are channels, A and B slots
 *   DIMM-1A … DIMM-3H                               A to H are channels
 *   PROC 1 DIMM 1D, 2A, 3E, 4B                      each number once, letters scattered: the letter
 *                                                   is the order of fitting; channel not told
 * A channel has at most three slots (four where the processor is named beside it), so numbers that
 * run further are no slots of one channel. Where two readings stay, nothing is claimed.
 * Source: shared/facts/locators.md, "Same string, different meaning". */
#include "locators/letters.h"

#include "locators/sockets.h"

#include <string.h>

#define MOST_ON_CHANNEL 3
#define MOST_ON_NAMED_CHANNEL 4
#define MOST_SOCKETS 16
#define MOST_NUMBERS 64

/* What is seen of one class. */
typedef struct
{
  guint n;
  guint32 letters; /* bit 0: A */
  int least, most; /* number */
  guint prefixed;  /* a processor, node or controller in the same string */
  guint boards;    /* a memory board in the same string */
  guint worded;    /* the processor is named by a word */
  guint word_split, hyphens, pair_split;
  /* What the bank says beside a pair of the locator. */
  guint bank_silent, bank_lost, bank_channel, bank_processor, bank_node, bank_repeats, bank_counts,
      bank_equals;
  guint32 letters_of_socket[MOST_SOCKETS + 1];
} Sight;

static guint
count_bits (guint64 bits)
{
  guint n = 0;

  for (; bits != 0; bits &= bits - 1)
    n++;
  return n;
}

static guint32
letter_bit (int letter)
{
  return 1u << (letter - LID_MARK_FIRST_LETTER);
}

/**
 * lid_letters_class_of:
 * @bank: whether the bank's pair is asked for
 *
 * Returns: the class of the pair, %LID_LETTERS_NO_CLASS when the string has none with a letter
 */
LidLettersClass
lid_letters_class_of (const LidMachineSlot *slot, gboolean bank)
{
  const LidMarks *marks = lid_machine_marks (slot, bank);

  if (marks->shape == LID_SHAPE_NUMBER_LETTER)
    return bank ? LID_LETTERS_BANK_1A : LID_LETTERS_1A;
  if (marks->shape != LID_SHAPE_LETTER_NUMBER)
    return LID_LETTERS_NO_CLASS;
  if (bank)
    return LID_LETTERS_BANK_A1;
  return marks->dimm_word ? LID_LETTERS_DIMM_A1 : LID_LETTERS_BARE_A1;
}

static gboolean
bank_repeats (const LidMarks *locator, const LidMarks *bank)
{
  if (bank->shape == LID_SHAPE_LETTER_NUMBER)
    return bank->letter == locator->letter && bank->number == locator->number;
  return bank->bank_letter == locator->letter
         && (bank->bank_number == LID_MARK_NONE || bank->bank_number == locator->number);
}

static void
see_bank (Sight *sight, const LidMarks *locator, const LidMarks *bank)
{
  sight->bank_lost += bank->lost;
  sight->bank_silent += bank->silent && !bank->lost;
  sight->bank_channel += bank->channel != LID_MARK_NONE;
  sight->bank_processor += bank->processor != LID_MARK_NONE;
  sight->bank_node += bank->node != LID_MARK_NONE;
  sight->bank_repeats += bank_repeats (locator, bank);
  sight->bank_counts += bank->bank != LID_MARK_NONE;
  sight->bank_equals += bank->bank != LID_MARK_NONE && bank->bank == locator->number;
}

static void
see (Sight *sight, const LidMachineSlot *slot, gboolean bank)
{
  const LidMarks *marks = lid_machine_marks (slot, bank);

  sight->least = sight->n == 0 ? marks->number : MIN (sight->least, marks->number);
  sight->most = MAX (sight->most, marks->number);
  sight->n++;
  sight->letters |= letter_bit (marks->letter);
  sight->letters_of_socket[CLAMP (slot->socket, 0, MOST_SOCKETS)] |= letter_bit (marks->letter);
  sight->prefixed += marks->processor != LID_MARK_NONE || marks->node != LID_MARK_NONE
                     || marks->controller != LID_MARK_NONE;
  sight->boards += marks->board != LID_MARK_NONE;
  sight->word_split += marks->word_split;
  sight->hyphens += marks->hyphen;
  sight->worded += marks->processor_word;
  sight->pair_split += marks->pair_split;
  if (!bank)
    see_bank (sight, marks, &slot->bank);
}

/* Each processor has one letter of its own: then the letter repeats the processor. */
static gboolean
letter_repeats_socket (const Sight *sight)
{
  guint n = 0;

  for (guint i = 0; i <= MOST_SOCKETS; i++)
    {
      if (count_bits (sight->letters_of_socket[i]) > 1)
        return FALSE;
      n += sight->letters_of_socket[i] != 0;
    }
  return n > 1 && count_bits (sight->letters) == n;
}

/* Letters run from A without a gap, as processors would. */
static gboolean
letters_count (const Sight *sight)
{
  return (sight->letters & (sight->letters + 1)) == 0;
}

/* Nothing but letter and number is said. Letters no more than processors name processors; more
 * letters than processors with few numbers name channels; more letters with many numbers name
 * memory boards, if they divide among the processors. Source: locators.md, E1, E2 and "Channels
 * when only processor and number are told". */
static LidLettersRole
judge_silent (const LidMachine *machine, const Sight *sight, gboolean dimm_word)
{
  guint letters = count_bits (sight->letters), processors = machine->n_processors;
  gboolean few = sight->most <= MOST_ON_CHANNEL && sight->most - sight->least < MOST_ON_CHANNEL;

  if (processors == 0)
    return !few && letters_count (sight) ? LID_LETTERS_SOCKET : LID_LETTERS_UNTOLD;
  if (letters <= processors)
    return letters_count (sight) ? LID_LETTERS_SOCKET : LID_LETTERS_UNTOLD;
  if (few)
    return dimm_word ? LID_LETTERS_CHANNEL : LID_LETTERS_UNTOLD;
  return letters % processors == 0 && letters_count (sight) ? LID_LETTERS_SOCKET
                                                            : LID_LETTERS_UNTOLD;
}

static LidLettersRole
judge_letter_number (const LidMachine *machine, const Sight *sight, gboolean dimm_word)
{
  int span = sight->most - sight->least + 1;
  gboolean several = count_bits (sight->letters) > 1;
  gboolean few = sight->most <= MOST_ON_CHANNEL && span <= MOST_ON_CHANNEL;

  if (sight->bank_channel > 0)
    return LID_LETTERS_CHANNEL; /* channels.c checks that the two agree */
  if (sight->prefixed > 0)
    return span <= MOST_ON_NAMED_CHANNEL ? LID_LETTERS_CHANNEL : LID_LETTERS_UNTOLD;
  if (sight->bank_processor > 0)
    return few && (dimm_word || several) && !(letter_repeats_socket (sight) && span > 1)
               ? LID_LETTERS_CHANNEL
               : LID_LETTERS_UNTOLD;
  if (sight->bank_silent > 0)
    return judge_silent (machine, sight, dimm_word);
  if (dimm_word || (several && (sight->bank_node > 0 || sight->bank_repeats > 0)))
    return few && sight->bank_lost < sight->n ? LID_LETTERS_CHANNEL : LID_LETTERS_UNTOLD;
  return LID_LETTERS_UNTOLD;
}

/* How numbers and letters of "1A" fill a grid. */
typedef struct
{
  guint numbers, letters;  /* the most of one processor */
  gboolean number_repeats; /* some number comes with two letters */
  gboolean banks_differ;   /* every slot has a bank number of its own */
} Grid;

static Grid
see_grid (const LidMachine *machine, const Sight *sight, LidLettersClass class)
{
  gboolean bank = class == LID_LETTERS_BANK_1A;
  guint32 seen[MOST_SOCKETS + 1][MOST_NUMBERS] = { { 0 } };
  LidSocketParts banks = { .n = 0 };
  Grid grid = { 0 };

  for (guint i = 0; i < machine->n_slots; i++)
    {
      const LidMachineSlot *slot = &machine->slots[i];
      const LidMarks *marks = lid_machine_marks (slot, bank);

      if (lid_letters_class_of (slot, bank) != class)
        continue;
      seen[CLAMP (slot->socket, 0, MOST_SOCKETS)][CLAMP (marks->number, 0, MOST_NUMBERS - 1)]
          |= letter_bit (marks->letter);
      if (slot->bank.bank != LID_MARK_NONE)
        lid_sockets_add_part (&banks, slot->bank.bank);
    }
  for (guint s = 0; s <= MOST_SOCKETS; s++)
    {
      guint numbers = 0;
      guint32 letters = 0;

      for (guint k = 0; k < MOST_NUMBERS; k++)
        {
          numbers += seen[s][k] != 0;
          letters |= seen[s][k];
          grid.number_repeats = grid.number_repeats || count_bits (seen[s][k]) > 1;
        }
      grid.numbers = MAX (grid.numbers, numbers);
      grid.letters = MAX (grid.letters, count_bits (letters));
    }
  grid.banks_differ = sight->bank_counts == sight->n && banks.n == sight->n;
  return grid;
}

static LidLettersRole
judge_number_letter (const LidMachine *machine, const Sight *sight, LidLettersClass class)
{
  Grid grid = see_grid (machine, sight, class);
  gboolean letters_fit = grid.letters <= MOST_ON_CHANNEL;
  gboolean numbers_fit = grid.numbers <= MOST_ON_CHANNEL;

  /* Each number once with scattered letters: the order of fitting (E5, H2, E10). */
  if ((!grid.number_repeats && grid.letters > 1) || sight->boards > 0
      || (!letters_fit && !numbers_fit))
    return LID_LETTERS_UNTOLD;
  if (sight->worded > 0) /* "CPU 1 DIMM 1A": what the letter means is not known (E3, E5) */
    return LID_LETTERS_UNTOLD;
  if (sight->prefixed > 0)
    {
      if (!letters_fit)
        return LID_LETTERS_CHANNEL;
      /* One letter only: "P1_DIMM1A" is slot A of channel 1, "PROC 1 DIMM 1A" is not known. */
      return grid.number_repeats || sight->word_split == 0 ? LID_LETTERS_CROSSED
                                                           : LID_LETTERS_UNTOLD;
    }
  if (sight->bank_channel > 0)
    return LID_LETTERS_UNTOLD; /* the bank names the channel itself */
  if (sight->bank_processor > 0 || sight->pair_split > 0)
    return LID_LETTERS_UNTOLD;
  /* The number is the bank, a row across parallel channels: the letter is the channel (B4, older).
   */
  if (sight->bank_equals == sight->n)
    return numbers_fit ? LID_LETTERS_CHANNEL : LID_LETTERS_UNTOLD;
  /* "DIMM-1A" with any bank; "DIMM 1A" only where the bank is not silent: there the letter may be
   * the pair to fit together (H2). */
  if (sight->word_split == sight->n)
    return numbers_fit && grid.number_repeats
                   && (sight->hyphens == sight->n
                       || (sight->bank_silent == 0 && sight->bank_counts == 0))
               ? LID_LETTERS_CHANNEL
               : LID_LETTERS_UNTOLD;
  if (!grid.banks_differ)
    return LID_LETTERS_UNTOLD;
  return letters_fit ? LID_LETTERS_CROSSED : LID_LETTERS_CHANNEL;
}

/* A pair in the bank counts only beside a processor (CPU1_A0), or where the locator is nothing but
 * a print on the board (J2J1 + DIMM 1A). */
static LidLettersRole
judge_class (const LidMachine *machine, const Sight *sight, LidLettersClass class)
{
  switch (class)
    {
    case LID_LETTERS_DIMM_A1:
    case LID_LETTERS_BARE_A1:
      return judge_letter_number (machine, sight, class == LID_LETTERS_DIMM_A1);
    case LID_LETTERS_BANK_A1:
      return sight->prefixed == sight->n && sight->most - sight->least < MOST_ON_NAMED_CHANNEL
                 ? LID_LETTERS_CHANNEL
                 : LID_LETTERS_UNTOLD;
    case LID_LETTERS_1A:
    case LID_LETTERS_BANK_1A:
      return judge_number_letter (machine, sight, class);
    case LID_LETTERS_N_CLASSES:
    default:
      return LID_LETTERS_UNTOLD;
    }
}

static void
letters_to_sockets (LidMachine *machine, LidLettersClass class)
{
  LidSocketParts parts = { .n = 0 };
  g_autofree gint16 *values = g_new (gint16, machine->n_slots);

  for (guint i = 0; i < machine->n_slots; i++)
    {
      const LidMachineSlot *slot = &machine->slots[i];

      values[i] = LID_MARK_NONE;
      if (slot->socket != 0 || lid_letters_class_of (slot, FALSE) != class)
        continue;
      values[i] = slot->locator.letter;
      lid_sockets_add_part (&parts, values[i]);
    }
  if (machine->n_processors > 0)
    {
      lid_sockets_by_count (machine, &parts, values, FALSE);
      return;
    }
  for (guint i = 0; i < machine->n_slots; i++)
    if (values[i] != LID_MARK_NONE)
      machine->slots[i].socket = (gint16)(1 + lid_sockets_part_index (&parts, values[i]));
}

/**
 * lid_letters_judge:
 * @machine: whose sockets are found as far as words tell them; gets more where letters are sockets
 * @roles: (out): what the pairs of each class mean
 */
void
lid_letters_judge (LidMachine *machine, LidLettersRole roles[LID_LETTERS_N_CLASSES])
{
  Sight sights[LID_LETTERS_N_CLASSES];

  memset (sights, 0, sizeof sights);
  for (guint i = 0; i < machine->n_slots; i++)
    for (guint b = 0; b < 2; b++)
      {
        LidLettersClass class = lid_letters_class_of (&machine->slots[i], b == 1);
        if (class != LID_LETTERS_NO_CLASS)
          see (&sights[class], &machine->slots[i], b == 1);
      }
  for (guint c = 0; c < LID_LETTERS_N_CLASSES; c++)
    {
      roles[c] = sights[c].n > 0 ? judge_class (machine, &sights[c], c) : LID_LETTERS_UNTOLD;
      if (roles[c] == LID_LETTERS_SOCKET)
        letters_to_sockets (machine, c);
    }
}
