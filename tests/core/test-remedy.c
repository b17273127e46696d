/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the moves of a remedy are said, and what carrying them out leaves. The sentences are common
 * practice, no source: what a colleague would call across the bench. */
#include "board/board-file.h"
#include "checks/check.h"
#include "checks/names.h"
#include "checks/remedy.h"

#define MOST 8u

static LidBoard *
load_board (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", "tern-w4.json", NULL);
  g_autoptr (GError) error = NULL;
  LidBoard *board = lid_board_file_load (path, &error);

  g_assert_no_error (error);
  return board;
}

/* Pairs "from>to" of slots by number, "-" is the tray, and what is said of them: {2} is the name of
 * slot 2. */
static const struct
{
  const char *moves;
  const char *text;
} said[] = {
  { "->2", "Fit one from the tray into {2}." },
  { "2>-", "Leave {2} empty." },
  { "2>3", "Move the module from {2} to {3}." },
  { "2>3 3>2", "Let the modules in {2} and {3} change places." },
  { "2>3 3>4", "Move modules: {2} → {3} and {3} → {4}." },
  { "2>3 4>2", "Move modules: {2} → {3} and {4} → {2}." },
  { "2>- 3>-", "Leave {2} and {3} empty." },
  { "3>- 2>- 1>-", "Leave {1}, {2} and {3} empty." },
  { "2>- ->2", "Exchange the module in {2} for one from the tray." },
  { "2>- ->2 3>- ->3", "Exchange the modules in {2} and {3} for others from the tray." },
  { "2>- ->2 3>-", "Move modules: {2} → tray, tray → {2} and {3} → tray." },
  { "2>- ->3", "Move modules: {2} → tray and tray → {3}." },
  { "->2 2>-", "Move modules: tray → {2} and {2} → tray." },
  { "->2 ->3", "Move modules: tray → {2} and tray → {3}." },
  { "2>- ->2 3>- ->4", "Move modules: {2} → tray, tray → {2}, {3} → tray and tray → {4}." },
  { "2>- ->2 3>4 5>3", "Move modules: {2} → tray, tray → {2}, {3} → {4} and {5} → {3}." },
  { "2>- ->2 3>4 ->3", "Move modules: {2} → tray, tray → {2}, {3} → {4} and tray → {3}." },
  { "2>- 3>2", "Move modules: {2} → tray and {3} → {2}." },
  { "1>2 2>3 3>4 4>5 5>1", "Move modules: {1} → {2}, {2} → {3}, {3} → {4}, {4} → {5} and 1 more." },
};

/* Slot numbers in braces become names. */
static char *
with_names (const LidBoard *board, const char *text)
{
  GString *out = g_string_new (NULL);

  for (const char *c = text; *c != 0; c++)
    if (*c == '{')
      {
        g_string_append (out, lid_board_name_slot (board, (guint)(c[1] - '0')));
        c += 2;
      }
    else
      g_string_append_c (out, *c);
  return g_string_free (out, FALSE);
}

static GArray *
read_moves (const char *text, LidModule *const *modules)
{
  GArray *moves = g_array_new (FALSE, FALSE, sizeof (LidMove));
  g_auto (GStrv) words = g_strsplit (text, " ", -1);

  for (guint i = 0; words[i] != NULL; i++)
    {
      LidMove move = { NULL, LID_NOWHERE, LID_NOWHERE };

      if (words[i][0] != '-')
        move.from = words[i][0] - '0';
      if (words[i][2] != '-')
        move.to = words[i][2] - '0';
      move.module = modules[move.from == LID_NOWHERE ? MOST : (guint)move.from];
      g_array_append_val (moves, move);
    }
  return moves;
}

/* The last of @modules is what is on the tray. */
static void
fill (LidModule **modules, LidPopulation *population)
{
  for (guint i = 0; i <= MOST; i++)
    modules[i] = lid_module_new ();
  for (guint i = 0; i < MOST; i++)
    lid_population_put (population, i, modules[i]);
}

/* Where each module lies after the moves is where its move sends it, or where it was. */
static void
check_places (const GArray *moves, const LidPopulation *after, LidModule *const *modules)
{
  for (guint i = 0; i < MOST; i++)
    {
      const LidModule *expected = modules[i];

      for (guint k = 0; k < moves->len; k++)
        if (g_array_index (moves, LidMove, k).from == (int)i)
          expected = NULL;
      for (guint k = 0; k < moves->len; k++)
        if (g_array_index (moves, LidMove, k).to == (int)i)
          expected = g_array_index (moves, LidMove, k).module;
      g_assert_true (after->slots[i].module == expected);
    }
}

static void
test_said (void)
{
  g_autoptr (LidBoard) board = load_board ();
  const LidCheck check = { .board = board };

  for (guint i = 0; i < G_N_ELEMENTS (said); i++)
    {
      g_autoptr (LidPopulation) before = lid_population_new (board), after = NULL;
      LidModule *modules[MOST + 1];
      g_autoptr (GArray) moves = NULL;
      g_autofree char *text = with_names (board, said[i].text);
      LidRemedy *remedy;

      fill (modules, before);
      moves = read_moves (said[i].moves, modules);
      remedy = lid_remedy_new_moves (&check, moves);
      g_assert_cmpstr (remedy->text, ==, text);
      g_assert_cmpuint (remedy->moves->len, ==, moves->len);
      after = lid_remedy_apply (remedy, before);
      check_places (moves, after, modules);
      lid_remedy_drop_moves (remedy);
      g_assert_cmpuint (remedy->moves->len, ==, 0);
      g_assert_cmpstr (remedy->text, ==, text);
      lid_remedy_free (remedy);
      lid_remedy_free (lid_remedy_new_moves (&check, moves));
      g_clear_pointer (&before, lid_population_free);
      g_clear_pointer (&after, lid_population_free);
      for (guint k = 0; k <= MOST; k++)
        {
          g_assert_cmpint (modules[k]->ref_count, ==, 1);
          lid_module_unref (modules[k]);
        }
    }
}

/* The first so many names are written out, six slots. */
static void
test_names (void)
{
  g_autoptr (LidBoard) board = load_board ();
  const LidCheck check = { .board = board };
  static const char *const names[] = { "{0}",
                                       "{0} and {1}",
                                       "{0}, {1} and {2}",
                                       "{0}, {1}, {2} and {3}",
                                       "{0}, {1}, {2}, {3} and {4}",
                                       "{0}, {1}, {2}, {3}, {4} and {5}",
                                       "{0}, {1}, {2}, {3}, {4}, {5} and 1 more",
                                       "{0}, {1}, {2}, {3}, {4}, {5} and 2 more" };
  LidSlotSet slots = { { 0 } };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *expected = with_names (board, names[i]), *is = NULL;

      lid_slot_set_add (&slots, i);
      is = lid_names_slots (&check, &slots);
      g_assert_cmpstr (is, ==, expected);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/remedy/said", test_said);
  g_test_add_func ("/remedy/names", test_names);
  return g_test_run ();
}
