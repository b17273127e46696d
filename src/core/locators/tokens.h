/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* Words, letters and numbers of one name string. "P1-DIMMA1" is PROCESSOR-like letter P, number 1,
 * DIMM, letter A, number 1; what they mean is the business of marks.c. */
typedef enum
{
  LID_TOKEN_NUMBER,
  LID_TOKEN_LETTER,     /* one letter that stands alone or behind a word it is glued to */
  LID_TOKEN_WORD,       /* a word not in the table */
  LID_TOKEN_ASIDE,      /* a word that says nothing here: ONBOARD, MEMORY */
  LID_TOKEN_PROCESSOR,  /* CPU, PROC */
  LID_TOKEN_SOCKET,     /* a processor's, or a module's behind DIMM */
  LID_TOKEN_NODE,       /* processor or controller: counting tells */
  LID_TOKEN_CONTROLLER, /* MC, IMC, UMC */
  LID_TOKEN_BOARD,      /* a memory board */
  LID_TOKEN_CHANNEL,
  LID_TOKEN_DIMM,       /* also SLOT */
  LID_TOKEN_GENERATION, /* DDR; the number behind it is no slot */
  LID_TOKEN_BANK,
} LidTokenKind;

typedef struct
{
  guint8 kind;   /* LidTokenKind */
  guint8 glued;  /* nothing stands between it and the token before */
  guint8 digits; /* of a number, leading zeros counted */
  char before;   /* the last separator before it, 0 when glued or first */
  gint16 value;  /* of a number; of a letter: 0 for A */
} LidToken;

#define LID_TOKENS_MOST 24u
#define LID_TOKENS_TOO_MANY G_MAXUINT

guint lid_tokens_split (const char *text, LidToken tokens[LID_TOKENS_MOST]);
