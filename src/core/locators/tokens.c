/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tokens.c — cuts a slot's name into words, letters and numbers.
 * Makers write the same thing as "CPU1_DIMM_A1", "CPU1 DIMM A1" and "cpu1-dimma1". So case and
 * separators do not count, digits and letters part by themselves, and a run of letters is cut into
 * known words with at most one letter behind: "CHANNELA" is CHANNEL and A, "DIMMCHB" is DIMM, CH
 * and B. A run that cannot be cut so ("CHASSIS") is one unknown word. What stands in brackets is a
 * remark and left out. Source: the spellings of shared/facts/locators.md, section 2. */
#include "locators/tokens.h"

#include <string.h>

#define MOST_NUMBER 9999
#define MOST_RUN 24u

typedef struct
{
  const char *text;
  guint8 size;
  guint8 kind;
} Keyword;

#define WORD(text, kind)                                                                           \
  {                                                                                                \
    text, sizeof (text) - 1, kind                                                                  \
  }

/* Grouped by first letter, the longer of two that begin alike first. */
static const Keyword keywords[] = {
  WORD ("BANK", LID_TOKEN_BANK),
  WORD ("BOARD", LID_TOKEN_BOARD),
  WORD ("BNK", LID_TOKEN_BANK),
  WORD ("CHANNEL", LID_TOKEN_CHANNEL),
  WORD ("CHAN", LID_TOKEN_CHANNEL),
  WORD ("CHNL", LID_TOKEN_CHANNEL),
  WORD ("CHN", LID_TOKEN_CHANNEL),
  WORD ("CH", LID_TOKEN_CHANNEL),
  WORD ("CONTROLLER", LID_TOKEN_CONTROLLER),
  WORD ("CPU", LID_TOKEN_PROCESSOR),
  WORD ("CTRL", LID_TOKEN_CONTROLLER),
  WORD ("CTLR", LID_TOKEN_CONTROLLER),
  WORD ("DDR", LID_TOKEN_GENERATION),
  WORD ("DIMM", LID_TOKEN_DIMM),
  WORD ("DIM", LID_TOKEN_DIMM),
  WORD ("IMC", LID_TOKEN_CONTROLLER),
  WORD ("LRDIMM", LID_TOKEN_DIMM),
  WORD ("MC", LID_TOKEN_CONTROLLER),
  WORD ("MEMORY", LID_TOKEN_ASIDE),
  WORD ("MEM", LID_TOKEN_ASIDE),
  WORD ("NODE", LID_TOKEN_NODE),
  WORD ("ONBOARD", LID_TOKEN_ASIDE),
  WORD ("PROCESSOR", LID_TOKEN_PROCESSOR),
  WORD ("PROC", LID_TOKEN_PROCESSOR),
  WORD ("RDIMM", LID_TOKEN_DIMM),
  WORD ("SKT", LID_TOKEN_SOCKET),
  WORD ("SLOT", LID_TOKEN_DIMM),
  WORD ("SOCKET", LID_TOKEN_SOCKET),
  WORD ("SODIMM", LID_TOKEN_DIMM),
  WORD ("SO", LID_TOKEN_ASIDE),
  WORD ("UDIMM", LID_TOKEN_DIMM),
  WORD ("UMC", LID_TOKEN_CONTROLLER),
  WORD ("XMM", LID_TOKEN_DIMM),
};

static const Keyword *
keyword_at (const char *run, gsize size)
{
  for (guint i = 0; i < G_N_ELEMENTS (keywords); i++)
    {
      const Keyword *word = &keywords[i];

      if (word->text[0] > run[0])
        return NULL;
      if (word->text[0] == run[0] && word->size <= size
          && memcmp (word->text, run, word->size) == 0)
        return word;
    }
  return NULL;
}

/* Whether what stands behind a keyword can be read on: nothing, a letter, another keyword, or a
 * letter and another keyword ("CHANNELADIMM"). */
static gboolean
reads_on (const char *rest, gsize size)
{
  return size <= 1 || keyword_at (rest, size) != NULL || keyword_at (rest + 1, size - 1) != NULL;
}

typedef struct
{
  LidToken *tokens;
  guint n; /* LID_TOKENS_TOO_MANY once there is no room */
  char before;
  gboolean glued;
} Output;

static void
put (Output *out, LidTokenKind kind, int value, guint digits)
{
  if (out->n >= LID_TOKENS_MOST)
    {
      out->n = LID_TOKENS_TOO_MANY;
      return;
    }
  out->tokens[out->n++] = (LidToken){ .kind = (guint8)kind,
                                      .glued = (guint8)out->glued,
                                      .digits = (guint8)digits,
                                      .before = out->glued ? 0 : out->before,
                                      .value = (gint16)value };
  out->glued = TRUE;
}

static void
put_letters (Output *out, const char *run, gsize size)
{
  gboolean known = FALSE; /* a keyword was cut off the front */

  while (size > 0)
    {
      const Keyword *word = keyword_at (run, size);

      if (word != NULL && reads_on (run + word->size, size - word->size))
        {
          put (out, word->kind, 0, 0);
          run += word->size;
          size -= word->size;
          known = TRUE;
        }
      else if (size == 1 || (known && keyword_at (run + 1, size - 1) != NULL))
        {
          put (out, LID_TOKEN_LETTER, run[0] - 'A', 0);
          run++;
          size--;
        }
      else
        {
          put (out, LID_TOKEN_WORD, 0, 0);
          return;
        }
    }
}

static const char *
take_letters (Output *out, const char *at)
{
  char run[MOST_RUN];
  gsize size = 0;
  gboolean fits = TRUE;

  for (; g_ascii_isalpha (*at) || (guchar)*at >= 0x80; at++)
    {
      fits = fits && size < MOST_RUN && (guchar)*at < 0x80;
      if (fits)
        run[size++] = g_ascii_toupper (*at);
    }
  if (fits)
    put_letters (out, run, size);
  else
    put (out, LID_TOKEN_WORD, 0, 0);
  return at;
}

static const char *
take_number (Output *out, const char *at)
{
  int value = 0;
  guint digits = 0;

  for (; g_ascii_isdigit (*at); at++)
    {
      value = MIN (value * 10 + (*at - '0'), MOST_NUMBER + 1);
      digits = MIN (digits + 1, 255u);
    }
  put (out, value > MOST_NUMBER ? LID_TOKEN_WORD : LID_TOKEN_NUMBER, value, digits);
  return at;
}

/**
 * lid_tokens_split:
 * @text: a locator or bank string
 * @tokens: (out): where to put them
 *
 * Returns: how many tokens, or %LID_TOKENS_TOO_MANY when no slot is called so
 */
guint
lid_tokens_split (const char *text, LidToken tokens[LID_TOKENS_MOST])
{
  Output out = { .tokens = tokens };
  const char *at = text;

  while (*at != 0 && out.n != LID_TOKENS_TOO_MANY)
    {
      if (g_ascii_isdigit (*at))
        at = take_number (&out, at);
      else if (g_ascii_isalpha (*at) || (guchar)*at >= 0x80)
        at = take_letters (&out, at);
      else
        {
          const char *end = *at == '(' ? strchr (at, ')') : NULL;

          out.before = *at;
          out.glued = FALSE;
          at = end != NULL ? end + 1 : at + 1;
        }
    }
  return out.n;
}
