/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/changes.h"

#include <string.h>

/* Populations are written as one letter a slot: the same letter is the same part, '.' is empty, a
 * capital holds data. Expected: per slot what becomes of it (. s n, or the number of the slot it
 * comes from), then hands. Order of fitting: common practice, no source; the arithmetic of hands:
 * product.md 8. */
typedef struct
{
  const char *name;
  const char *before;
  const char *after;
  const char *kinds; /* '.', 's', 'n', 'm' */
  guint hands;
  guint pulled;
} Case;

static const Case cases[] = {
  { "nothing changes", "ab..", "ab..", "ss..", 0, 0 },
  { "two more", "a.b.", "aabb", "snsn", 2, 0 },
  { "look-alikes swapped stay", "aabb", "aabb", "ssss", 0, 0 },
  { "an exchange is two hands", "a...", "b...", "n...", 2, 1 },
  { "a move is one hand", "a...", "..a.", "..m.", 1, 1 },
  { "two change places", "ab..", "ba..", "mm..", 2, 2 },
  { "a look-alike moves, the rest leave", "aaa.", "...a", "...m", 3, 3 },
  { "data stays with its module", "AB..", "BA..", "mm..", 2, 2 },
  { "a thing with data is not another like it", "C...", "D...", "n...", 2, 1 },
};

static LidModule *
get_module (GHashTable *modules, char letter, gboolean unique, guint slot)
{
  g_autofree char *id = unique ? g_strdup_printf ("%c%u", letter, slot) : NULL;
  LidModule *module;

  /* One object a letter: capitals are one thing each, small letters a part number */
  module = g_hash_table_lookup (modules, GINT_TO_POINTER ((int)letter));
  if (module != NULL && !unique)
    return module;
  module = lid_module_new ();
  module->part = g_strdup_printf ("PART-%c", g_ascii_isupper (letter) ? 'X' : letter);
  module->persistent = g_ascii_isupper (letter);
  lid_module_set (module, LID_FACT_CAPACITY, 16384, LID_BASIS_LABEL);
  if (!unique)
    g_hash_table_insert (modules, GINT_TO_POINTER ((int)letter), module);
  else
    g_hash_table_insert (modules, module, module);
  return module;
}

/* small letters get a module object of their own in every slot: sameness must come from the part */
static LidPopulation *
populate (const LidBoard *board, GHashTable *modules, const char *letters)
{
  LidPopulation *population = lid_population_new (board);

  for (guint i = 0; i < board->n_slots; i++)
    if (letters[i] != '.')
      lid_population_put (population, i,
                          get_module (modules, letters[i], g_ascii_islower (letters[i]), i));
  return population;
}

static LidBoard *
make_board (guint n_slots)
{
  LidBoard *board = lid_board_new ();

  board->n_slots = n_slots;
  board->slots = g_new0 (LidBoardSlot, n_slots);
  for (guint i = 0; i < n_slots; i++)
    board->slots[i].id = g_strdup_printf ("%u", i + 1);
  return board;
}

static void
set_order (LidBoard *board, const guint *order, guint n)
{
  g_free (board->order);
  board->order = g_memdup2 (order, n * sizeof *order);
  board->n_order = n;
}

static void
check_numbers (const LidChanges *changes)
{
  for (guint i = 0; i < changes->n_fitted; i++)
    g_assert_cmpuint (changes->slots[changes->fitted[i]].fit, ==, i + 1);
  for (guint i = 0; i < changes->n_pulled; i++)
    g_assert_cmpuint (changes->slots[changes->pulled[i]].mat, ==, i + 1);
  for (guint i = 0; i < changes->n_slots; i++)
    if (changes->slots[i].kind == LID_CHANGE_MOVED)
      g_assert_cmpint (changes->slots[changes->slots[i].from].to, ==, (int)i);
}

static void
test_cases (void)
{
  static const char marks[] = ".snm";

  for (guint c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autoptr (LidBoard) board = make_board ((guint)strlen (cases[c].before));
      g_autoptr (GHashTable) modules
          = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)lid_module_unref);
      g_autoptr (LidPopulation) before = populate (board, modules, cases[c].before);
      g_autoptr (LidPopulation) after = populate (board, modules, cases[c].after);
      g_autoptr (LidChanges) changes = lid_changes_new (board, before, after);
      g_autoptr (GString) kinds = g_string_new (NULL);

      for (guint i = 0; i < board->n_slots; i++)
        g_string_append_c (kinds, marks[changes->slots[i].kind]);
      g_test_message ("%s", cases[c].name);
      g_assert_cmpstr (kinds->str, ==, cases[c].kinds);
      g_assert_cmpuint (changes->hands, ==, cases[c].hands);
      g_assert_cmpuint (changes->n_pulled, ==, cases[c].pulled);
      check_numbers (changes);
    }
}

/* A new one comes to where one like it sat, and that one is planned for elsewhere: it stays, and
 * the new one is what is fetched for elsewhere. */
static void
test_fetched (void)
{
  g_autoptr (LidBoard) board = make_board (3);
  g_autoptr (GHashTable) modules
      = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)lid_module_unref);
  g_autoptr (LidPopulation) before = populate (board, modules, "a..");
  g_autoptr (LidPopulation) after = populate (board, modules, "a..");
  g_autoptr (LidChanges) changes = NULL;
  LidModule *old = before->slots[0].module, *fresh = after->slots[0].module;

  lid_population_put (after, 2, old);
  changes = lid_changes_new (board, before, after);
  g_assert_cmpint (changes->slots[0].kind, ==, LID_CHANGE_STAYS);
  g_assert_cmpint (changes->slots[2].kind, ==, LID_CHANGE_NEW);
  g_assert_true (changes->slots[2].after == fresh);
  g_assert_true (changes->slots[0].after == old);
  g_assert_cmpuint (changes->hands, ==, 1);
}

/* Only look-alikes change names, and one that is to be fetched already keeps its own. */
static void
test_fetched_among_others (void)
{
  g_autoptr (LidBoard) board = make_board (4);
  g_autoptr (GHashTable) modules
      = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)lid_module_unref);
  g_autoptr (LidPopulation) before = populate (board, modules, ".ba.");
  g_autoptr (LidPopulation) after = populate (board, modules, "aba.");
  g_autoptr (LidChanges) changes = NULL;
  LidModule *old = before->slots[2].module, *far = after->slots[0].module,
            *fresh = after->slots[2].module;

  lid_population_put (after, 3, old);
  changes = lid_changes_new (board, before, after);
  g_assert_cmpint (changes->slots[1].kind, ==, LID_CHANGE_STAYS);
  g_assert_cmpint (changes->slots[2].kind, ==, LID_CHANGE_STAYS);
  g_assert_true (changes->slots[0].after == far);
  g_assert_true (changes->slots[1].after == after->slots[1].module);
  g_assert_true (changes->slots[2].after == old);
  g_assert_true (changes->slots[3].after == fresh);
  g_assert_cmpuint (changes->hands, ==, 2);
}

static void
test_order (void)
{
  static const guint order[] = { 2, 0, 3 };
  g_autoptr (LidBoard) board = make_board (4);
  g_autoptr (GHashTable) modules
      = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)lid_module_unref);
  g_autoptr (LidPopulation) before = populate (board, modules, "....");
  g_autoptr (LidPopulation) after = populate (board, modules, "aaaa");
  g_autoptr (LidChanges) changes = NULL;

  set_order (board, order, G_N_ELEMENTS (order));
  changes = lid_changes_new (board, before, after);
  g_assert_cmpuint (changes->slots[2].fit, ==, 1);
  g_assert_cmpuint (changes->slots[0].fit, ==, 2);
  g_assert_cmpuint (changes->slots[3].fit, ==, 3);
  g_assert_cmpuint (changes->slots[1].fit, ==, 4);
}

/* Fewest hands, counted another way: per part, what is in the same slot twice stays; of the rest as
 * many as are on both sides move; everything else leaves or is new. */
static void
test_fewest (void)
{
  GRand *random = g_rand_new_with_seed (7);

  for (guint round = 0; round < 2000; round++)
    {
      guint n = (guint)g_rand_int_range (random, 1, 12);
      g_autoptr (LidBoard) board = make_board (n);
      g_autoptr (GHashTable) modules
          = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)lid_module_unref);
      char texts[2][12];
      guint hands = 0;
      g_autoptr (LidPopulation) before = NULL;
      g_autoptr (LidPopulation) after = NULL;
      g_autoptr (LidChanges) changes = NULL;

      for (guint t = 0; t < 2; t++)
        for (guint i = 0; i < n; i++)
          texts[t][i] = ".abc"[g_rand_int_range (random, 0, 4)];
      for (const char *part = "abc"; *part != 0; part++)
        {
          guint out = 0, in = 0;

          for (guint i = 0; i < n; i++)
            {
              out += texts[0][i] == *part && texts[1][i] != *part;
              in += texts[1][i] == *part && texts[0][i] != *part;
            }
          hands += MAX (out, in);
        }
      before = populate (board, modules, texts[0]);
      after = populate (board, modules, texts[1]);
      changes = lid_changes_new (board, before, after);
      g_assert_cmpuint (changes->hands, ==, hands);
      check_numbers (changes);
    }
  g_rand_free (random);
}

/* A module by its code: part number (0: none) and facts (0: not all told); what product.md 3 calls
 * the same is written out again here. */
typedef struct
{
  guint part, facts;
} Code;

static gboolean
codes_same (Code a, Code b)
{
  return (a.part > 0 && a.part == b.part) || (a.facts > 0 && a.facts == b.facts);
}

static LidModule *
code_module (Code code)
{
  LidModule *module = lid_module_new ();

  module->part = code.part > 0 ? g_strdup_printf ("PART-%u", code.part) : NULL;
  for (guint i = 0; i < LID_N_FACTS && code.facts > 0; i++)
    lid_module_set (module, i, (gint32)code.facts, LID_BASIS_LABEL);
  return module;
}

/* The most touches that can be saved by giving the modules before their places after, every way
 * tried: two by a module that stays, one by one that moves. */
static guint
best_saving (
    const Code *before, const Code *after, const gboolean *in, guint n, guint at, guint used)
{
  guint best;

  if (at == n)
    return 0;
  best = best_saving (before, after, in, n, at + 1, used);
  for (guint k = 0; k < n && in[at]; k++)
    if (in[n + k] && !(used & 1u << k) && codes_same (before[at], after[k]))
      best = MAX (best,
                  (k == at ? 2 : 1) + best_saving (before, after, in, n, at + 1, used | 1u << k));
  return best;
}

/* Every way tried, where being the same is not transitive. */
static void
test_every_way (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (11);

  for (guint round = 0; round < 3000; round++)
    {
      guint n = (guint)g_rand_int_range (random, 1, 7), total = 0;
      g_autoptr (LidBoard) board = make_board (n);
      g_autoptr (LidPopulation) before = lid_population_new (board);
      g_autoptr (LidPopulation) after = lid_population_new (board);
      g_autoptr (LidChanges) changes = NULL;
      Code codes[12];
      gboolean in[12];

      for (guint i = 0; i < 2 * n; i++)
        {
          g_autoptr (LidModule) module = NULL;

          codes[i] = (Code){ (guint)g_rand_int_range (random, 0, 3),
                             (guint)g_rand_int_range (random, 0, 3) };
          in[i] = g_rand_int_range (random, 0, 4) > 0;
          total += in[i];
          module = code_module (codes[i]);
          if (in[i])
            lid_population_put (i < n ? before : after, i % n, module);
        }
      changes = lid_changes_new (board, before, after);
      g_assert_cmpuint (changes->hands, ==, total - best_saving (codes, codes + n, in, n, 0, 0));
      check_numbers (changes);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/changes/cases", test_cases);
  g_test_add_func ("/changes/fetched", test_fetched);
  g_test_add_func ("/changes/fetched-among-others", test_fetched_among_others);
  g_test_add_func ("/changes/order", test_order);
  g_test_add_func ("/changes/fewest", test_fewest);
  g_test_add_func ("/changes/every-way", test_every_way);
  return g_test_run ();
}
