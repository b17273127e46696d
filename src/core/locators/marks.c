/* SPDX-License-Identifier: GPL-3.0-or-later */
/* marks.c — what one string states, word by word.
 * A number belongs to the word before it: "P0_Node1_Channel2_Dimm0" states processor 0, node 1,
 * channel 2, module 0. What is left is a bare pair ("A1", "1A", "3"), kept with its spelling since
 * spelling is evidence: DIMM1_A and DIMM-1A mean different things in the field. Nothing is judged
 * here; a string with unknown parts keeps only what its known words state.
 * Source of the spellings: shared/facts/locators.md, section 2. */
#include "locators/marks.h"

#include "locators/tokens.h"

#include <string.h>

#define LETTER_C 2
#define LETTER_D 3
#define LETTER_P ('P' - 'A')

typedef struct
{
  const LidToken *tokens;
  guint n;
  gboolean is_bank;
  gboolean dimm_word; /* DIMM or DDR4 was seen */
  gboolean alien;     /* a part was seen that makes a bare pair untrustworthy */
  gboolean words;     /* unknown words */
  LidMarks *marks;
} Reading;

static gboolean
is (const Reading *r, guint i, LidTokenKind kind)
{
  return i < r->n && r->tokens[i].kind == kind;
}

static gboolean
is_glued (const Reading *r, guint i, LidTokenKind kind)
{
  return is (r, i, kind) && r->tokens[i].glued;
}

/* The first statement counts: what follows a full name is a remark of the maker. */
static void
set (gint16 *field, int value)
{
  if (*field == LID_MARK_NONE)
    *field = (gint16)value;
}

static gboolean
has_pair (const Reading *r)
{
  return r->marks->shape != LID_SHAPE_NONE;
}

static void
take_pair (Reading *r, LidShape shape, guint number, guint letter)
{
  LidMarks *m = r->marks;
  guint first = MIN (number, letter);

  if (has_pair (r))
    return;
  m->shape = (guint8)shape;
  m->dimm_word = r->dimm_word;
  m->word_split = r->dimm_word && !r->tokens[first].glued;
  m->hyphen = m->word_split && r->tokens[first].before == '-';
  m->number = r->tokens[number].value;
  m->digits = r->tokens[number].digits;
  if (shape == LID_SHAPE_NUMBER)
    return;
  m->letter = lid_mark_letter (r->tokens[letter].value);
  m->pair_split = !r->tokens[MAX (number, letter)].glued;
}

/* "1A", "1_A"; not "1 P0", where the letter belongs to the number behind it. */
static gboolean
is_number_letter (const Reading *r, guint i)
{
  return is (r, i, LID_TOKEN_NUMBER) && is (r, i + 1, LID_TOKEN_LETTER)
         && !is_glued (r, i + 2, LID_TOKEN_NUMBER);
}

/* "P0_DIMM3": one of several letters that boards put before a running number (A1_DIMM3, H0_DIMM3),
 * not known to be a processor. Source: locators.md, G9. */
static gboolean
is_prefix_of_number (const Reading *r, guint i)
{
  return is (r, i + 2, LID_TOKEN_DIMM) && is (r, i + 3, LID_TOKEN_NUMBER) && i + 4 == r->n;
}

/* P1 is a processor where anything else of the slot's name is stated too; "DIMM_P1" alone is
 * channel P, as is a bare "P1". */
static gboolean
is_processor_letter (const Reading *r, guint i)
{
  if (!is (r, i, LID_TOKEN_LETTER) || r->tokens[i].value != LETTER_P
      || !is_glued (r, i + 1, LID_TOKEN_NUMBER) || r->marks->processor != LID_MARK_NONE)
    return FALSE;
  if ((i > 0 && r->tokens[i].glued && !is (r, i - 1, LID_TOKEN_DIMM)) || is_prefix_of_number (r, i))
    return FALSE;
  return i + 2 < r->n || has_pair (r) || r->marks->channel != LID_MARK_NONE
         || (r->is_bank && !r->dimm_word);
}

/* "C2D0": channel 2, module 0, as written behind CPU0_. */
static gboolean
is_channel_module (const Reading *r, guint i)
{
  return is (r, i, LID_TOKEN_LETTER) && r->tokens[i].value == LETTER_C
         && is_glued (r, i + 1, LID_TOKEN_NUMBER) && is (r, i + 2, LID_TOKEN_LETTER)
         && r->tokens[i + 2].value == LETTER_D && is_glued (r, i + 3, LID_TOKEN_NUMBER);
}

static guint
take_numbered (Reading *r, guint i, gint16 *field)
{
  if (is (r, i + 1, LID_TOKEN_NUMBER))
    {
      set (field, r->tokens[i + 1].value);
      return i + 2;
    }
  return i + 1;
}

/* A letter behind the word processor ("CPU_A0") may name a processor or a channel: left alone. */
static guint
take_processor (Reading *r, guint i)
{
  if (!is (r, i + 1, LID_TOKEN_LETTER) || is_processor_letter (r, i + 1)
      || is_channel_module (r, i + 1))
    {
      r->marks->processor_word = TRUE;
      return take_numbered (r, i, &r->marks->processor);
    }
  r->alien = TRUE;
  return i + 2;
}

static guint
take_channel (Reading *r, guint i)
{
  LidMarks *m = r->marks;

  if (is (r, i + 1, LID_TOKEN_NUMBER))
    return take_numbered (r, i, &m->channel);
  if (!is (r, i + 1, LID_TOKEN_LETTER))
    return i + 1;
  if (m->channel == LID_MARK_NONE)
    {
      m->channel = lid_mark_letter (r->tokens[i + 1].value);
      if (is (r, i + 2, LID_TOKEN_NUMBER))
        m->dimm = r->tokens[i + 2].value;
    }
  return is (r, i + 2, LID_TOKEN_NUMBER) ? i + 3 : i + 2;
}

static guint
take_bank (Reading *r, guint i)
{
  LidMarks *m = r->marks;

  if (is (r, i + 1, LID_TOKEN_NUMBER))
    return take_numbered (r, i, &m->bank) + (guint)is (r, i + 2, LID_TOKEN_NUMBER);
  if (!is (r, i + 1, LID_TOKEN_LETTER))
    return i + 1;
  set (&m->bank_letter, lid_mark_letter (r->tokens[i + 1].value));
  if (!is (r, i + 2, LID_TOKEN_NUMBER))
    return i + 2;
  set (&m->bank_number, r->tokens[i + 2].value);
  return i + 3;
}

/* Behind DIMM: "1A", "1", "A1", "A_1". A pair seen before it ("A1_DIMM0") was only a prefix of
 * unknown meaning and gives way. */
static guint
take_dimm (Reading *r, guint i)
{
  LidMarks *m = r->marks;

  r->dimm_word = TRUE;
  if (is (r, i + 1, LID_TOKEN_NUMBER))
    {
      if (m->channel != LID_MARK_NONE && m->dimm == LID_MARK_NONE)
        m->dimm = r->tokens[i + 1].value;
      if (has_pair (r) && m->shape == LID_SHAPE_LETTER_NUMBER && !m->dimm_word)
        m->shape = LID_SHAPE_NONE;
      if (is_number_letter (r, i + 1))
        {
          take_pair (r, LID_SHAPE_NUMBER_LETTER, i + 1, i + 2);
          return i + 3;
        }
      take_pair (r, LID_SHAPE_NUMBER, i + 1, i + 1);
      return i + 2;
    }
  if (is (r, i + 1, LID_TOKEN_LETTER) && is (r, i + 2, LID_TOKEN_NUMBER)
      && !is_processor_letter (r, i + 1) && !is_channel_module (r, i + 1))
    {
      take_pair (r, LID_SHAPE_LETTER_NUMBER, i + 2, i + 1);
      return i + 3;
    }
  return i + 1;
}

static guint
take_letter (Reading *r, guint i)
{
  if (is_processor_letter (r, i))
    {
      r->marks->processor = r->tokens[i + 1].value;
      return i + 2;
    }
  if (is_channel_module (r, i))
    {
      set (&r->marks->channel, r->tokens[i + 1].value);
      set (&r->marks->dimm, r->tokens[i + 3].value);
      return i + 4;
    }
  /* "CH1_D0" */
  if (r->marks->channel != LID_MARK_NONE && r->tokens[i].value == LETTER_D
      && is_glued (r, i + 1, LID_TOKEN_NUMBER))
    {
      set (&r->marks->dimm, r->tokens[i + 1].value);
      return i + 2;
    }
  if (!is (r, i + 1, LID_TOKEN_NUMBER) || (!r->tokens[i + 1].glued && r->n > i + 2))
    {
      r->alien = TRUE;
      return i + 1;
    }
  /* J6H1: what is printed on the board beside the slot, no place. */
  if (is_glued (r, i + 2, LID_TOKEN_LETTER))
    r->alien = TRUE;
  take_pair (r, LID_SHAPE_LETTER_NUMBER, i + 1, i);
  return i + 2;
}

static guint
take_number (Reading *r, guint i)
{
  if (is_number_letter (r, i) && r->tokens[i + 1].glued)
    {
      take_pair (r, LID_SHAPE_NUMBER_LETTER, i, i + 1);
      return i + 2;
    }
  if (r->n == 1 && r->is_bank)
    r->marks->bank = r->tokens[i].value;
  else
    r->alien = TRUE;
  return i + 1;
}

static guint
take (Reading *r, guint i)
{
  switch ((LidTokenKind)r->tokens[i].kind)
    {
    case LID_TOKEN_PROCESSOR:
      return take_processor (r, i);
    case LID_TOKEN_SOCKET: /* "DIMM SOCKET 3" is a slot */
      if (i > 0 && is (r, i - 1, LID_TOKEN_DIMM))
        return take_dimm (r, i);
      return take_processor (r, i);
    case LID_TOKEN_NODE:
      return take_numbered (r, i, &r->marks->node);
    case LID_TOKEN_CONTROLLER:
      return take_numbered (r, i, &r->marks->controller);
    case LID_TOKEN_BOARD:
      return take_numbered (r, i, &r->marks->board);
    case LID_TOKEN_CHANNEL:
      return take_channel (r, i);
    case LID_TOKEN_BANK:
      return take_bank (r, i);
    case LID_TOKEN_DIMM:
      return take_dimm (r, i);
    case LID_TOKEN_GENERATION:
      r->dimm_word = TRUE;
      return i + 1 + (guint)is_glued (r, i + 1, LID_TOKEN_NUMBER);
    case LID_TOKEN_LETTER:
      return take_letter (r, i);
    case LID_TOKEN_NUMBER:
      return take_number (r, i);
    case LID_TOKEN_WORD:
      r->words = TRUE;
      return i + 1;
    case LID_TOKEN_ASIDE:
    default:
      return i + 1;
    }
}

static gboolean
is_one_of (const char *text, const char *const *list, gsize n)
{
  for (gsize i = 0; i < n; i++)
    if (g_ascii_strcasecmp (text, list[i]) == 0)
      return TRUE;
  return FALSE;
}

/* Firmware's ways to say nothing; source: shared/facts/locators.md, sections 1, 2 (N1, N2), 4. */
static gboolean
is_silent (const char *text, LidMarks *marks)
{
  static const char *const silences[] = { "",
                                          "-",
                                          "BAD INDEX",
                                          "<BAD INDEX>",
                                          "None",
                                          "Not Present",
                                          "NULL",
                                          "Not Specified",
                                          "Not Available",
                                          "<OUT OF SPEC>",
                                          "To Be Filled By O.E.M.",
                                          "Unknown",
                                          "Undefined",
                                          "Default string" };
  static const char *const losses[]
      = { "NO DIMM", "NODIMM", "NO_DIMM", "NO-DIMM", "EMPTY", "[EMPTY]" };

  marks->lost = is_one_of (text, losses, G_N_ELEMENTS (losses));
  marks->silent = marks->lost || is_one_of (text, silences, G_N_ELEMENTS (silences));
  return marks->silent;
}

/**
 * lid_marks_read:
 * @text: a locator or bank string, trimmed or not
 * @is_bank: which of the two
 * @marks: (out): what it states
 */
void
lid_marks_read (const char *text, gboolean is_bank, LidMarks *marks)
{
  LidToken tokens[LID_TOKENS_MOST];
  Reading r = { .tokens = tokens, .is_bank = is_bank, .marks = marks };

  memset (marks, 0, sizeof *marks);
  marks->processor = marks->node = marks->controller = marks->board = LID_MARK_NONE;
  marks->channel = marks->dimm = marks->number = marks->letter = LID_MARK_NONE;
  marks->bank = marks->bank_letter = marks->bank_number = LID_MARK_NONE;
  if (is_silent (text, marks))
    return;
  r.n = lid_tokens_split (text, tokens);
  if (r.n == LID_TOKENS_TOO_MANY)
    return;
  for (guint i = 0; i < r.n;)
    i = take (&r, i);
  if (!marks->dimm_word && (r.alien || r.words))
    marks->shape = LID_SHAPE_NONE;
}
