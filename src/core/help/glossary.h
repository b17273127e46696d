/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* The words of the program and what they mean: product.md sections 2 and 6, in short. One table
 * for the window, the command line and the handbook. */
typedef enum
{
  LID_WORDS_FIGURES,
  LID_WORDS_FINDINGS,
  LID_WORDS_JOB,
  LID_WORDS_BOARD,
  LID_WORDS_MODULE,
  LID_WORDS_MODES,
  LID_N_WORD_GROUPS
} LidWordGroup;

typedef struct
{
  const char *id;   /* what is asked for: "even-share" */
  const char *word; /* N_(): as it stands on the screen: "even share" */
  const char *text; /* N_(): one to three sentences */
  LidWordGroup group;
} LidWord;

const LidWord *lid_glossary_all (guint *n);
const LidWord *lid_glossary_find (const char *word);
const char *lid_glossary_group (LidWordGroup group);
