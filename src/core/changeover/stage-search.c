/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "changeover/stage-split.h"

#include <string.h>

static void
try_all (LidStageSplit *split)
{
  guint8 options[LID_STAGE_EXACT];
  guint n = 1;

  for (guint i = 0; i < split->n; i++)
    n *= LID_STAGE_N_OPTIONS;
  for (guint way = 0; way < n; way++)
    {
      guint rest = way;

      for (guint i = 0; i < split->n; i++, rest /= LID_STAGE_N_OPTIONS)
        options[i] = (guint8)(rest % LID_STAGE_N_OPTIONS);
      lid_stage_split_try (split, options);
    }
}

/* A way people would think of: the first @k fits are done, the others are @rest; slots that only
 * lose their module are done or left. Slots that were empty can go first: what is missing then
 * leaves old modules where they are. */
static void
try_start (LidStageSplit *split,
           guint k,
           LidStageOption rest,
           gboolean empty_first,
           LidStageOption leaving)
{
  g_autofree guint8 *options = g_new0 (guint8, split->n);
  guint n_empty = 0;

  for (guint i = 0; i < split->n; i++)
    n_empty += split->from->slots[split->slots[i]].module == NULL;
  for (guint i = 0, empty_seen = 0, filled_seen = 0; i < split->n; i++)
    {
      guint slot = split->order[i];
      gboolean empty = split->from->slots[split->slots[slot]].module == NULL;
      guint place = empty_first ? (empty ? empty_seen++ : n_empty + filled_seen++) : i;

      if (split->to->slots[split->slots[slot]].module == NULL)
        options[slot] = (guint8)leaving;
      else
        options[slot] = (guint8)(place < k ? LID_STAGE_DONE : rest);
    }
  lid_stage_split_try (split, options);
}

static void
try_starts (LidStageSplit *split)
{
  for (guint k = split->n + 1; k > 0; k--)
    for (guint way = 0; way < 8; way++)
      try_start (split, k - 1, way & 1 ? LID_STAGE_EMPTIED : LID_STAGE_LEFT, (way & 2) != 0,
                 way & 4 ? LID_STAGE_LEFT : LID_STAGE_DONE);
}

/* Changes @i, and @j with it where they differ, to every other pair of options. */
static gboolean
try_pair (LidStageSplit *split, guint i, guint j)
{
  g_autofree guint8 *options = g_memdup2 (split->best, split->n);
  guint8 was_i = options[i], was_j = options[j];
  gboolean better = FALSE;

  for (guint8 a = 0; a < LID_STAGE_N_OPTIONS; a++)
    for (guint8 b = 0; b < LID_STAGE_N_OPTIONS; b++)
      {
        options[i] = a;
        options[j] = i == j ? a : b;
        if ((a != was_i || b != was_j) && (i != j || a == b))
          better |= lid_stage_split_try (split, options);
      }
  return better;
}

/* One slot after the other, then two at once, as long as that helps. */
static void
climb (LidStageSplit *split)
{
  gboolean better = TRUE;

  while (better && split->tries < LID_STAGE_MOST_TRIES)
    {
      better = FALSE;
      for (guint i = 0; i < split->n && split->tries < LID_STAGE_MOST_TRIES; i++)
        better |= try_pair (split, i, i);
      for (guint i = 0; i < split->n && !better; i++)
        for (guint j = i + 1; j < split->n && !better && split->tries < LID_STAGE_MOST_TRIES; j++)
          better |= try_pair (split, i, j);
    }
}

/* Private: tries ways until the best is found, or nothing makes it better. */
void
lid_stage_search (LidStageSplit *split)
{
  g_autofree guint8 *nothing = g_new0 (guint8, split->n + 1);

  lid_stage_split_try (split, nothing);
  if (split->n <= LID_STAGE_EXACT)
    {
      try_all (split);
      return;
    }
  try_starts (split);
  climb (split);
}
