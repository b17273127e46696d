/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the moves of a remedy are said, and what carrying them out leaves. The sentences are common
 * practice, no source: what a colleague would call across the bench. */
#include "board/board-file.h"
#include "checks/check.h"
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "checks/words.h"
#include "facts/label.h"

#include <stdlib.h>

#define MOST 8u

static LidBoard *
load_board (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", "garganey-r4.json", NULL);
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
  { "0>1 1>2 2>3 3>4 4>5 5>6 6>7 7>0",
    "Move modules: {0} → {1}, {1} → {2}, {2} → {3}, {3} → {4}, {4} → {5}, {5} → {6}, {6} → {7} and "
    "{7} → {0}." },
  { "0>1 1>2 2>3 3>4 4>5 5>6 6>7 7>0 8>9",
    "Move modules: {0} → {1}, {1} → {2}, {2} → {3}, {3} → {4}, {4} → {5}, {5} → {6}, {6} → {7}, "
    "{7} → {0} and 1 more." },
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

/* Channels of a board of four processors, by number: each processor has eight, A to H. */
static const struct
{
  const char *channels;
  const char *text;
} named[] = {
  { "0", "channel A of processor 1" },
  { "8", "channel A of processor 2" },
  { "24 31", "channels A and H of processor 4" },
  { "0 8", "channels A of processors 1 and 2" },
  { "0 16", "channels A of processors 1 and 3" },
  { "8 16 24", "channels A of processors 2, 3 and 4" },
  { "0 9", "channels A of processor 1, B of processor 2" },
  { "1 8", "channels B of processor 1, A of processor 2" },
  { "0 9 16", "channels A of processors 1 and 3, B of processor 2" },
  { "0 1 8 16 17", "channels A and B of processors 1 and 3, A of processor 2" },
};

static void
test_channels (void)
{
  g_autoptr (LidBoard) board = load_board ();
  const LidCheck check = { .board = board };

  g_assert_cmpuint (board->n_sockets, ==, 4);
  g_assert_cmpuint (board->n_channels, ==, 32);
  for (guint i = 0; i < G_N_ELEMENTS (named); i++)
    {
      g_auto (GStrv) numbers = g_strsplit (named[i].channels, " ", -1);
      LidSlotSet channels = { { 0 } };
      g_autofree char *is = NULL;

      for (guint k = 0; numbers[k] != NULL; k++)
        lid_slot_set_add (&channels, (guint)atoi (numbers[k]));
      is = lid_names_channels (&check, &channels);
      g_assert_cmpstr (is, ==, named[i].text);
    }
}

/* A channel of no processor told has none named, though another of that name has. */
static void
test_channels_not_told (void)
{
  g_autoptr (LidBoard) board = load_board ();
  const LidCheck check = { .board = board };
  LidSlotSet channels = { { 0 } };
  g_autofree char *is = NULL, *many = NULL;

  board->channels[8].socket = LID_NOWHERE;
  lid_slot_set_add (&channels, 0);
  lid_slot_set_add (&channels, 8);
  is = lid_names_channels (&check, &channels);
  g_assert_cmpstr (is, ==, "channels A, A of processor 1");
  for (guint i = 0; i < 10; i++)
    {
      board->channels[i].socket = 0;
      lid_slot_set_add (&channels, i);
    }
  many = lid_names_channels (&check, &channels);
  g_assert_cmpstr (many, ==, "channels A, B, C, D, E, F, G, H and 2 more of processor 1");
}

static void
test_words (void)
{
  g_autofree char *first = lid_words_generations (1u << 1 | 1u << LID_GENERATION_DDR4);
  g_autofree char *first_is
      = g_strdup_printf ("%s and DDR4", lid_generation_to_text ((LidGeneration)1));
  g_autofree char *kinds = lid_words_kinds (1u << 1 | 1u << 2);
  g_autofree char *kinds_are = g_strdup_printf ("%s and %s", lid_kind_to_words ((LidKind)1),
                                                lid_kind_to_words ((LidKind)2));
  g_autofree char *volts
      = lid_words_voltages (lid_voltage_from_mv (2500) | lid_voltage_from_mv (1350));

  g_assert_cmpstr (first, ==, first_is);
  g_assert_cmpstr (kinds, ==, kinds_are);
  g_assert_cmpstr (volts, ==, "1.35 V and 2.5 V");
}

/* A board for DDR3 with two slots on each of its 64 channels, and a module of another generation in
 * @n slots, the second ones first: how many what is offered empties. */
static guint
count_left_empty (const LidBoard *board, guint n)
{
  LidLabel label, stranger;
  LidLabelFault fault;
  g_autoptr (LidPopulation) population = lid_population_new (board);
  g_autoptr (LidAssessment) assessment = NULL;
  guint moves = 0;

  g_assert_true (lid_label_parse ("8GB 2Rx4 PC3-10600R-09-11-E2-D2", -1, &label, &fault, NULL));
  g_assert_true (lid_label_parse ("16GB 1Rx4 PC4-2666V-RC2-12", -1, &stranger, &fault, NULL));
  for (guint i = 0; i < board->n_slots; i++)
    {
      gboolean strange = board->slots[i].position == 2 ? i / 2 < n : i / 2 + 64 < n;
      g_autoptr (LidModule) module = lid_label_facts_to_module (strange ? &stranger : &label);

      lid_population_put (population, i, module);
    }
  assessment = lid_assessment_new (&(LidQuestion){ board, population, NULL });
  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->rule == &lid_rule_wrong_generation && lid_finding_remedy (finding) != NULL)
        moves += lid_finding_remedy (finding)->moves->len;
    }
  return moves;
}

static void
test_most (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", "bittern-r8.json", NULL);
  g_autoptr (LidBoard) board = lid_board_file_load (path, NULL);

  g_assert_cmpuint (count_left_empty (board, 1), ==, 1);
  g_assert_cmpuint (count_left_empty (board, 64), ==, 64);
  g_assert_cmpuint (count_left_empty (board, 65), ==, 0);
}

static void
test_nothing (void)
{
  lid_remedy_free (NULL);
  lid_finding_free (NULL);
  lid_assessment_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/remedy/said", test_said);
  g_test_add_func ("/remedy/names", test_names);
  g_test_add_func ("/remedy/channels", test_channels);
  g_test_add_func ("/remedy/channels-not-told", test_channels_not_told);
  g_test_add_func ("/remedy/words", test_words);
  g_test_add_func ("/remedy/most", test_most);
  g_test_add_func ("/remedy/nothing", test_nothing);
  return g_test_run ();
}
