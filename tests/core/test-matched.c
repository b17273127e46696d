/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The narrowest region where controllers match, against a second reckoning on every small machine:
 * each controller is a list of what its channels have left, the fullest first, and a set is so many
 * of each of so many lists. Source of the rule: population.md 4.1, K1 and K6; that the widest set
 * goes first, over most controllers, from those that carry most: product definition. */
#include "figures/matched.h"

#include <stdlib.h>
#include <string.h>

#define MOST 8u /* channels, and controllers */

typedef struct
{
  gint64 left[MOST]; /* the fullest first */
  guint n;
  gboolean taken;
} List;

static int
compare (const void *a, const void *b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? 1 : x > y ? -1 : 0;
}

static gint64
depth (const List *list, guint each)
{
  return each <= list->n ? list->left[each - 1] : 0;
}

/* Marks the @n lists that are deepest at @each, the first of equals; returns the shallowest depth
 * of them, 0: there are not so many. */
static gint64
take (List *lists, guint n_lists, guint n, guint each)
{
  gint64 least = 0;

  for (guint i = 0; i < n_lists; i++)
    lists[i].taken = FALSE;
  for (guint k = 0; k < n; k++)
    {
      List *best = NULL;

      for (guint i = 0; i < n_lists; i++)
        if (!lists[i].taken && depth (&lists[i], each) > (best != NULL ? depth (best, each) : 0))
          best = &lists[i];
      if (best == NULL)
        return 0;
      best->taken = TRUE;
      least = depth (best, each);
    }
  return least;
}

/* Reads the widest set away; returns its ways, 0: nothing is left. */
static guint
read_one (List *lists, guint n_lists, guint32 ways)
{
  for (guint w = MOST; w > 0; w--)
    for (guint each = 1; each <= w && (w == 1 || (ways >> w & 1) != 0); each++)
      {
        gint64 mib = w % each == 0 ? take (lists, n_lists, w / each, each) : 0;

        for (guint i = 0; mib > 0 && i < n_lists; i++)
          {
            for (guint k = 0; k < each && lists[i].taken; k++)
              lists[i].left[k] -= mib;
            qsort (lists[i].left, lists[i].n, sizeof (gint64), compare);
          }
        if (mib > 0)
          return w;
      }
  return 0;
}

static guint
reckon (guint32 ways, const LidRegionChannel *channels, guint n)
{
  int names[MOST];
  List lists[MOST] = { { .n = 0 } };
  guint n_lists = 0, narrowest = G_MAXUINT, read;

  for (guint c = 0; c < n; c++)
    {
      guint at = 0;

      while (at < n_lists && names[at] != channels[c].controller)
        at++;
      n_lists = MAX (n_lists, at + 1);
      names[at] = channels[c].controller;
      lists[at].left[lists[at].n++] = channels[c].mib;
    }
  for (guint i = 0; i < n_lists; i++)
    qsort (lists[i].left, lists[i].n, sizeof (gint64), compare);
  while ((read = read_one (lists, n_lists, ways)) > 0)
    narrowest = MIN (narrowest, read);
  return narrowest;
}

/* Every filling of these channels with 0 to 3 MiB. @controllers: a digit each */
static void
every_filling (gconstpointer data)
{
  const char *controllers = data;
  const guint32 ways[] = { 1u << 1 | 1u << 2 | 1u << 3 | 1u << 4 | 1u << 6, 1u << 2 | 1u << 4,
                           1u << 3 | 1u << 6, 0, G_MAXUINT32 };
  guint n = (guint)strlen (controllers);
  g_autofree LidRegionChannel *channels = g_new (LidRegionChannel, n); /* no more than there are */

  for (guint w = 0; w < G_N_ELEMENTS (ways); w++)
    for (guint filling = 0; filling < 1u << (2 * n); filling++)
      {
        LidRegionRule rule = { LID_REGIONS_WAYS, ways[w], TRUE };

        for (guint c = 0; c < n; c++)
          channels[c] = (LidRegionChannel){ filling >> (2 * c) & 3, controllers[c] - '0', c };
        if (lid_matched_narrowest (rule, channels, n) != reckon (ways[w], channels, n))
          g_error ("ways %x, controllers %s, filling %x: %u, reckoned %u", ways[w], controllers,
                   filling, lid_matched_narrowest (rule, channels, n),
                   reckon (ways[w], channels, n));
      }
}

/* A board may name ways up to 31, and one controller may have more channels than that. */
static void
wide (void)
{
  g_autofree LidRegionChannel *channels = g_new (LidRegionChannel, LID_BOARD_MAX_CHANNELS);
  LidRegionRule rule = { LID_REGIONS_WAYS, G_MAXUINT32, TRUE };

  for (guint c = 0; c < LID_BOARD_MAX_CHANNELS; c++)
    channels[c] = (LidRegionChannel){ 1024, 1, c };
  g_assert_cmpuint (lid_matched_narrowest (rule, channels, LID_BOARD_MAX_CHANNELS), ==,
                    LID_BOARD_MAX_CHANNELS % 31);
  g_assert_cmpuint (lid_matched_narrowest (rule, channels, 40), ==, 9);
  g_assert_cmpuint (lid_matched_narrowest (rule, channels, 31), ==, 31);
}

static void
not_asked (void)
{
  const LidRegionChannel channels[] = { { 1024, 1, 0 }, { 1024, 2, 1 } };
  const LidRegionChannel untold[] = { { 1024, 1, 0 }, { 1024, 0, 1 } };
  const LidRegionRule asks = { LID_REGIONS_WAYS, 1u << 2, TRUE };
  const LidRegionRule other = { LID_REGIONS_EQUAL_GROUPS, 1u << 2, TRUE };
  const LidRegionRule silent = { LID_REGIONS_WAYS, 1u << 2, FALSE };

  g_assert_cmpuint (lid_matched_narrowest (asks, channels, 2), ==, 2);
  g_assert_cmpuint (lid_matched_narrowest (other, channels, 2), ==, G_MAXUINT);
  g_assert_cmpuint (lid_matched_narrowest (silent, channels, 2), ==, G_MAXUINT);
  g_assert_cmpuint (lid_matched_narrowest (asks, untold, 2), ==, G_MAXUINT);
  g_assert_cmpuint (lid_matched_narrowest (asks, channels, 0), ==, G_MAXUINT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/matched/not-asked", not_asked);
  g_test_add_func ("/matched/wide", wide);
  g_test_add_data_func ("/matched/one", "111", every_filling);
  g_test_add_data_func ("/matched/two", "111222", every_filling);
  g_test_add_data_func ("/matched/by-turns", "121212", every_filling);
  g_test_add_data_func ("/matched/uneven", "21111", every_filling);
  g_test_add_data_func ("/matched/three", "332211", every_filling);
  return g_test_run ();
}
