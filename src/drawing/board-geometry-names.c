/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/board-geometry-private.h"

#include <string.h>

/* A slot's name, shorter by what all its neighbours share: under "processor 1" the P1 need not
 * stand in every bar, under "A" not the A. From far a bar with a whole word tells more than one
 * with the ends of a long name. */

static gboolean
is_letter (char c)
{
  return g_ascii_isalpha (c) || (c & 0x80) != 0;
}

/* Bytes of @name that may be dropped, of the @n all have in common: a number stays whole, and so
 * does a word, but for the letter of a channel at its end. */
static gsize
droppable (const char *name, gsize n)
{
  gsize run = n;

  const char *bracket = memchr (name, '(', n);

  if (bracket != NULL)
    n = run = (gsize)(bracket - name); /* what is in brackets keeps both */
  if (name[n] == 0)
    n = 0;
  if (n > 0 && g_ascii_isdigit (name[n]))
    while (n > 0 && g_ascii_isdigit (name[n - 1]))
      n--;
  if (n > 0 && is_letter (name[n]) && is_letter (name[n - 1]))
    {
      for (run = n; is_letter (name[run]);)
        run++;
      if (run - n > 1)
        while (n > 0 && is_letter (name[n - 1]))
          n--;
    }
  return n;
}

static gsize
common (const char *a, const char *b, gsize most)
{
  gsize n = 0;

  while (n < most && a[n] != 0 && a[n] == b[n])
    n++;
  return n;
}

/* What all of @slots begin with, as far as it may be dropped from each. */
static gsize
shared (const char *const *names, const guint *slots, guint n_slots)
{
  gsize n = strlen (names[slots[0]]), least;

  for (guint i = 1; i < n_slots; i++)
    n = common (names[slots[0]], names[slots[i]], n);
  least = n;
  for (guint i = 0; i < n_slots; i++)
    least = MIN (least, droppable (names[slots[i]], n));
  return least;
}

static void
drop (const char **names, const char *const *from, const guint *slots, guint n_slots)
{
  gsize n = n_slots > 1 ? shared (from, slots, n_slots) : 0;

  for (guint i = 0; i < n_slots; i++)
    names[slots[i]] = from[slots[i]] + n;
}

static void
drop_all (LidBoardPlan *plan)
{
  for (guint b = 0; b < plan->branches->len; b++)
    {
      const LidBranch *branch = lid_board_plan_branch (plan, b);
      g_autoptr (GArray) slots = g_array_new (FALSE, FALSE, sizeof (guint));

      for (guint t = branch->first_twig; t < branch->first_twig + branch->n_twigs; t++)
        g_array_append_vals (slots, lid_board_plan_twig (plan, t)->slots,
                             lid_board_plan_twig (plan, t)->n_slots);
      drop (plan->names[1], plan->names[0], (const guint *)slots->data, slots->len);
    }
  for (guint t = 0; t < plan->twigs->len; t++)
    drop (plan->names[2], plan->names[1], lid_board_plan_twig (plan, t)->slots,
          lid_board_plan_twig (plan, t)->n_slots);
}

/**
 * lid_board_names_find:
 * @plan: its branches and twigs are found; without any, names stay whole
 *
 * Each slot's name whole, without what its processor's slots share, and without what its channel's
 * share; and how wide each kind of name gets.
 */
void
lid_board_names_find (LidBoardPlan *plan)
{
  for (guint level = 0; level < LID_BOARD_N_NAMES; level++)
    for (guint i = 0; i < plan->board->n_slots; i++)
      plan->names[level][i] = plan->g->looks[i].name;
  drop_all (plan);
  if (plan->like != NULL)
    {
      memcpy (plan->name_em, lid_board_geometry_kept (plan->like)->name_em, sizeof plan->name_em);
      return;
    }
  for (guint level = 0; level < LID_BOARD_N_NAMES; level++)
    {
      plan->name_em[level] = 0;
      for (guint i = 0; i < plan->board->n_slots; i++)
        plan->name_em[level] = MAX (
            plan->name_em[level],
            lid_measure_width (plan->measure, lid_theme_px (16, TRUE), plan->names[level][i]) / 16);
    }
}
