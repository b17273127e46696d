/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/label-cursor.h"

/* Private to the short form: what its words say, and what has been said so far. */
typedef enum
{
  SAYS_REGISTERED = 1 << 0,
  SAYS_LOAD_REDUCED = 1 << 1,
  SAYS_UNBUFFERED = 1 << 2,
  SAYS_CLOCKED = 1 << 3,
  SAYS_MULTIPLEXED = 1 << 4,
  SAYS_FULLY_BUFFERED = 1 << 5,
  SAYS_SO = 1 << 6,
  SAYS_DIMM = 1 << 7,
  SAYS_ECC = 1 << 8,
  SAYS_NO_ECC = 1 << 9,
} LidLabelSays;

/* What has been said so far. */
typedef struct
{
  LidLabelCursor *cursor;
  LidLabel *label;
  const char *start; /* the word being read */
  const char *stop;
  guint says;
  guint mts; /* 0: no rate said */
  const char *rate_start;
  const char *rate_stop;
} LidLabelShort;

gboolean lid_label_settle (LidLabelShort *said, const char *begin);
