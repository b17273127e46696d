/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random boards, jobs, shelves and wishes, all invented; the same seed makes the same one. */
#include "planner-case.h"

#include "facts/label.h"

#include <string.h>

typedef struct
{
  guint sockets, controllers, n_slots;
  const char *slots;
} Layout;

static const Layout layouts[] = {
  { 1, 1, 4, "[2, 2]" },
  { 1, 1, 6, "[2, 1, 1, 2]" },
  { 1, 1, 4, "[2, 1, 1]" },
  { 2, 1, 4, "[1, 1]" },
  { 2, 1, 6, "[2, 1]" },
  { 1, 1, 6, "[3, 3]" },
  { 1, 2, 4, "[1, 1, 1, 1]" },
  { 2, 1, 6, "[1, 1, 1]" },
  { 1, 2, 8, "[2, 2, 2, 2]" },
  { 2, 1, 8, "[2, 2]" },
  { 3, 1, 3, "[1]" },
  { 1, 1, 3, "[1, 1, 1]" },
  { 1, 2, 6, "[1, 1, 1, 1, 1, 1]" },
};

static const char *const labels[] = {
  "16GB 1Rx4 PC4-2666V-RC2-12",  "16GB 2Rx8 PC4-2400T-RE1-11",  "32GB 2Rx4 PC4-2933Y-RB2-12",
  "8GB 1Rx8 PC4-2133P-RD0-10",   "64GB 4DRx4 PC4-2666V-LD2-12", "16GB 2Rx8 PC4-2666V-EE1-12",
  "32GB 2Rx8 PC4-3200AA-RE2-12", "16GB 1Rx8 PC4-3200AA-RD1-12",
};

static const char *const ddr3_labels[] = {
  "8GB 2Rx4 PC3-10600R-09-11-E2-D2",
  "8GB 1Rx4 PC3L-12800R-11-12-C2-D3",
  "16GB 2Rx4 PC3L-12800R-11-12-E2-D3",
  "4GB 1Rx8 PC3-12800R-11-11-D0-D0",
};

static gboolean
one_in (GRand *rand, gint32 n)
{
  return g_rand_int_range (rand, 0, n) == 0;
}

static const char *
any_of (GRand *rand, const char *const *texts, gsize n)
{
  return texts[g_rand_int_range (rand, 0, (gint32)n)];
}

static void
add_rates (GRand *rand, GString *out, gboolean ddr3)
{
  static const char *const tables[] = {
    "{\"filled\": 1, \"mts\": 2666, \"source\": \"i\"}, {\"filled\": 2, \"mts\": 2400, "
    "\"source\": \"i\"}, {\"filled\": 3, \"mts\": 1866, \"source\": \"i\"}",
    "{\"filled\": 1, \"mts\": 2933, \"source\": \"i\"}, {\"filled\": 2, \"ranks\": [1, 1], "
    "\"mts\": 2933, \"source\": \"i\"}, {\"filled\": 2, \"mts\": 2133, \"source\": \"i\"}",
    "{\"ranks\": [1, 2], \"mts\": 2400, \"source\": \"i\"}, {\"ranks\": [4, 8], \"mts\": 2133, "
    "\"source\": \"i\"}",
  };

  if (ddr3)
    g_string_append (
        out, ", \"rates\": [{\"filled\": 1, \"voltage_mv\": 1350, \"mts\": 1333, \"source\": "
             "\"i\"}, {\"filled\": 1, \"voltage_mv\": 1500, \"mts\": 1600, \"source\": \"i\"}, "
             "{\"filled\": 2, \"voltage_mv\": 1500, \"mts\": 1333, \"source\": \"i\"}]");
  else if (!one_in (rand, 5))
    g_string_append_printf (out, ", \"rates\": [%s]", any_of (rand, tables, G_N_ELEMENTS (tables)));
}

static void
add_rules (GRand *rand, GString *out, const Layout *layout)
{
  static const char *const mixes[] = {
    "{\"mix\": \"capacities\", \"scope\": \"machine\", \"most\": 2, \"grade\": \"stops\", "
    "\"source\": \"i\"}",
    "{\"mix\": \"widths\", \"allowed\": true, \"source\": \"i\"}, {\"mix\": \"densities\", "
    "\"allowed\": true, \"source\": \"i\"}",
    "{\"mix\": \"ranks\", \"scope\": \"channel\", \"most\": 1, \"grade\": \"stops\", \"stops\": "
    "\"slots\", \"source\": \"i\"}",
    "{\"mix\": \"rates\", \"scope\": \"socket\", \"most\": 1, \"grade\": \"loses\", \"source\": "
    "\"i\"}, {\"mix\": \"kinds\", \"scope\": \"machine\", \"most\": 2, \"grade\": \"loses\", "
    "\"source\": \"i\"}",
  };
  static const char *const models[] = {
    "{\"model\": \"layered\"}",
    "{\"model\": \"ways\", \"ways\": [1, 2, 4]}",
    "{\"model\": \"ways\", \"ways\": [1, 2, 3, 6]}",
    "{\"model\": \"equal-groups\", \"ways\": [1, 2, 3]}",
    "{\"model\": \"ways\", \"ways\": [1, 2], \"also\": [{\"nodes\": 1, \"ways\": [3, 4], "
    "\"source\": \"i\"}, {\"nodes\": 2, \"ways\": [3], \"source\": \"i\"}]}",
  };
  static const char *const grades[] = { "stops", "loses", "note" };

  if (!one_in (rand, 3))
    g_string_append_printf (out, ", \"mixing\": [%s]", any_of (rand, mixes, G_N_ELEMENTS (mixes)));
  if (!one_in (rand, 4))
    g_string_append_printf (out, ", \"interleave\": %s",
                            any_of (rand, models, G_N_ELEMENTS (models)));
  if (one_in (rand, 3))
    g_string_append_printf (out, ", \"lone\": {\"slots\": [\"1-A1\"], \"grade\": \"%s\"}",
                            any_of (rand, grades, 2));
  if (one_in (rand, 3))
    g_string_append_printf (out, ", \"larger_first\": {\"grade\": \"%s\"}",
                            any_of (rand, grades, 3));
  if (layout->sockets > 1 && one_in (rand, 2))
    g_string_append_printf (out, ", \"own_memory\": \"%s\"",
                            one_in (rand, 2) ? "required" : "penalty");
  if (layout->sockets > 1 && one_in (rand, 3))
    g_string_append_printf (out, ", \"equal_sockets\": {\"grade\": \"%s\"}",
                            any_of (rand, grades, 3));
  if (layout->sockets > 1 && one_in (rand, 4))
    g_string_append (out, ", \"rate_scope\": \"socket\"");
  if (one_in (rand, 4))
    g_string_append (out, ", \"ranks\": {\"limits\": [{\"most_ranks\": 4, \"source\": \"i\"}]}");
  if (one_in (rand, 6))
    g_string_append (out, ", \"exclusions\": [{\"kinds\": [\"load-reduced\", \"registered\"], "
                          "\"least_module_ranks\": 2, \"scope\": \"socket\", \"most_modules\": 1, "
                          "\"stops\": \"slots\", \"source\": \"i\"}]");
}

static void
add_rest (GRand *rand, GString *out, const Layout *layout)
{
  if (one_in (rand, 2))
    g_string_append (out, ", \"limits\": [{\"what\": \"module\", \"mib\": 32768, \"basis\": "
                          "\"listed\", \"source\": \"i\"}, {\"what\": \"machine\", \"mib\": "
                          "131072, \"basis\": \"listed\", \"source\": \"i\"}, {\"what\": "
                          "\"machine\", \"mib\": 163840, \"basis\": \"bench-proven\", \"who\": "
                          "\"i\", \"when\": \"2025-01-01\", \"firmware\": \"2.0\"}]");
  if (one_in (rand, 2))
    g_string_append (out, ", \"firmware\": [{\"level\": \"1.0\", \"source\": \"i\"}, {\"level\": "
                          "\"2.0\", \"source\": \"i\", \"brings\": [{\"fact\": \"die_gbit\", "
                          "\"at_least\": 16}]}]");
  if (one_in (rand, 3))
    g_string_append (out, ", \"processors\": [{\"id\": \"s\", \"name\": \"s\", \"mts\": 2133, "
                          "\"most_mib\": 65536, \"source\": \"i\"}, {\"id\": \"l\", \"name\": "
                          "\"l\", \"mts\": 2933, \"source\": \"i\"}]");
  if (strstr (layout->slots, ",") != NULL)
    g_string_append_printf (out,
                            ", \"modes\": [{\"id\": \"mirrored\", \"pairs\": [[\"A\", \"B\"]]%s, "
                            "\"source\": \"i\"}, {\"id\": \"spared\", \"source\": \"i\"}, "
                            "{\"id\": \"partly-mirrored\", \"step_mib\": 4096, \"source\": "
                            "\"i\"}, {\"id\": \"paired\", \"pairs\": [[\"A\", \"B\"]], "
                            "\"source\": \"i\"}]",
                            one_in (rand, 2) ? ", \"alike\": \"organisation\"" : "");
}

static FiguresCase *
make_machine (GRand *rand, const Layout *layout, gboolean ddr3, GString *about)
{
  g_autoptr (GString) board = g_string_new (NULL);

  g_string_append_printf (
      board,
      "{\"layout\": {\"sockets\": %u, \"controllers\": %u, \"slots\": %s}, \"board\": {\"takes\": "
      "{\"generations\": [\"%s\"], \"kinds\": [\"registered\", \"load-reduced\"], \"voltages_mv\": "
      "[%s]}",
      layout->sockets, layout->controllers, layout->slots, ddr3 ? "DDR3" : "DDR4",
      ddr3 ? "1350, 1500" : "1200");
  add_rates (rand, board, ddr3);
  add_rules (rand, board, layout);
  add_rest (rand, board, layout);
  g_string_append (board, "}, \"modules\": {}}");
  g_string_append (about, board->str);
  return figures_case_parse ("%s", board->str);
}

static LidModule *
make_module (GRand *rand, gboolean ddr3, guint index)
{
  LidLabel label;
  LidLabelFault fault;
  LidModule *module;
  const char *text = ddr3 ? any_of (rand, ddr3_labels, G_N_ELEMENTS (ddr3_labels))
                          : any_of (rand, labels, G_N_ELEMENTS (labels));
  static const LidFact forgotten[] = { LID_FACT_RATED,      LID_FACT_RANKS, LID_FACT_KIND,
                                       LID_FACT_CHIP_WIDTH, LID_FACT_DIE,   LID_FACT_VOLTAGE };

  g_assert_true (lid_label_parse (text, -1, &label, &fault, NULL));
  module = lid_label_facts_to_module (&label);
  for (guint f = 0; f < LID_N_FACTS; f++)
    if (module->basis[f] == LID_BASIS_NONE && f != LID_FACT_HEIGHT)
      lid_module_set (module, f,
                      f == LID_FACT_VOLTAGE ? (gint32)(ddr3 ? LID_VOLTAGE_1500 : LID_VOLTAGE_1200)
                                            : 0,
                      LID_BASIS_TOLD);
  if (one_in (rand, 5))
    {
      LidFact fact = forgotten[g_rand_int_range (rand, 0, G_N_ELEMENTS (forgotten))];

      lid_module_set (module, fact, 0, LID_BASIS_NONE);
      if (fact == LID_FACT_RANKS)
        lid_module_set (module, LID_FACT_LOGICAL_RANKS, 0, LID_BASIS_NONE);
    }
  module->part = g_strdup_printf ("TRN-%u", index);
  return module;
}

static LidPopulation *
find_some (GRand *rand, const PlannerCase *c)
{
  const LidBoard *board = c->machine->board;
  LidPopulation *found = lid_population_new (board);
  gint32 density = g_rand_int_range (rand, 0, 4);
  /* Without a part number each module is itself; so few slots that all can still be tried. */
  gboolean nameless = board->n_slots <= 4 && one_in (rand, 2);

  for (guint i = 0; i < board->n_slots; i++)
    if (g_rand_int_range (rand, 0, 4) < density)
      {
        LidModule *like = c->pool->pdata[one_in (rand, 4) ? c->pool->len - 1 : 0];
        g_autoptr (LidModule) module = lid_module_copy (like);

        if (nameless)
          lid_module_set_text (&module->part, NULL);
        lid_population_put (found, i, module);
        if (one_in (rand, 12))
          found->slots[i].state = LID_SLOT_NOT_SEEN;
      }
  return found;
}

static void
set_up (GRand *rand, PlannerCase *c, const Layout *layout)
{
  LidPopulation *found = c->as_found;
  const LidBoard *board = c->machine->board;

  if (board->n_firmware > 0 && one_in (rand, 2))
    found->firmware = g_strdup (one_in (rand, 2) ? "1.0" : "2.0");
  for (guint s = 0; s < board->n_sockets; s++)
    {
      if (board->n_processors > 0 && one_in (rand, 2))
        found->processors[s].model = g_rand_int_range (rand, 0, 2);
      if (s > 0 && one_in (rand, 8))
        found->processors[s].fitted = FALSE;
    }
  if (board->n_modes > 0 && one_in (rand, 4))
    {
      found->mode = (LidMode)g_rand_int_range (rand, 1, LID_N_MODES);
      found->spare_ranks = found->mode == LID_MODE_SPARED ? 1 : 0;
      found->mirrored_mib = found->mode == LID_MODE_PARTLY_MIRRORED ? 8192 : 0;
    }
  if (strlen (layout->slots) > 8 && one_in (rand, 8))
    found->numa_split = 2;
  c->settings = one_in (rand, 4) ? lid_population_copy (found) : NULL;
  if (c->settings != NULL && c->settings->mode == LID_MODE_PLAIN && one_in (rand, 2))
    c->settings->setup_limit = 2133 * 3;
}

static void
stock_up (GRand *rand, PlannerCase *c)
{
  c->tray = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);
  c->goods = g_array_new (FALSE, TRUE, sizeof (LidGood));
  for (guint i = 0; i < c->pool->len; i++)
    {
      for (gint32 n = one_in (rand, 4) ? g_rand_int_range (rand, 1, 3) : 0; n > 0; n--)
        g_ptr_array_add (c->tray, lid_module_copy (c->pool->pdata[i]));
      for (gint32 rows = g_rand_int_range (rand, one_in (rand, 2), 3); rows > 0; rows--)
        {
          LidGood good = { .module = c->pool->pdata[i],
                           .part = ((LidModule *)c->pool->pdata[i])->part,
                           .bin = one_in (rand, 2) ? "K-1" : "M-2",
                           .count = (guint)g_rand_int_range (rand, 1, 7),
                           .price_minor = one_in (rand, 12) ? LID_PLAN_NO_PRICE
                                                            : g_rand_int_range (rand, 10, 60) };

          g_array_append_val (c->goods, good);
        }
    }
}

static void
wish_for (GRand *rand, PlannerCase *c)
{
  LidWish *wish = &c->wish;

  wish->what = (LidWishWhat)g_rand_int_range (rand, 0, 3);
  wish->hands = (LidReach)g_rand_int_range (rand, wish->what == LID_WISH_REARRANGE ? 1 : 0, 3);
  wish->amount = wish->what == LID_WISH_SPEND ? g_rand_int_range (rand, 20, 300)
                                              : 8192 * (gint64)g_rand_int_range (rand, 1, 12);
  wish->free_slots = one_in (rand, 5) ? 1 : 0;
  wish->least_rate = one_in (rand, 6) ? 2400 * 3 : LID_RATE_UNKNOWN;
  wish->listed_only = one_in (rand, 5);
  wish->sure = one_in (rand, 5);
  wish->sockets_free = one_in (rand, 2);
}

static guint64
power (guint64 base, guint n)
{
  guint64 out = 1;

  while (n-- > 0)
    out = MIN (out * base, G_MAXUINT32);
  return out;
}

/**
 * planner_case_random:
 * @seed: which one
 * @most_fillings: kinds are dropped until there are no more ways to fill the slots
 */
PlannerCase *
planner_case_random (guint32 seed, guint most_fillings)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  const Layout *layout = &layouts[g_rand_int_range (rand, 0, G_N_ELEMENTS (layouts))];
  PlannerCase *c = g_new0 (PlannerCase, 1);
  gboolean ddr3 = one_in (rand, 8);
  GString *about = g_string_new (NULL);
  guint n_kinds = (guint)g_rand_int_range (rand, 2, 5);

  while (n_kinds > 1 && power (n_kinds + 1, layout->n_slots * 1) > most_fillings)
    n_kinds--;
  c->machine = make_machine (rand, layout, ddr3, about);
  c->pool = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);
  for (guint i = 0; i < n_kinds; i++)
    g_ptr_array_add (c->pool, make_module (rand, ddr3, i));
  c->as_found = find_some (rand, c);
  set_up (rand, c, layout);
  stock_up (rand, c);
  wish_for (rand, c);
  c->question = (LidPlanQuestion){ .board = c->machine->board,
                                   .as_found = c->as_found,
                                   .settings = c->settings,
                                   .tray = (LidModule *const *)c->tray->pdata,
                                   .n_tray = c->tray->len,
                                   .goods = (const LidGood *)c->goods->data,
                                   .n_goods = c->goods->len };
  g_string_append_printf (about, " seed %u, %u kinds, wish %d of %" G_GINT64_FORMAT ", hands %d",
                          seed, n_kinds, c->wish.what, c->wish.amount, c->wish.hands);
  c->about = g_string_free (about, FALSE);
  return c;
}

void
planner_case_free (PlannerCase *c)
{
  if (c == NULL)
    return;
  lid_population_free (c->as_found);
  lid_population_free (c->settings);
  figures_case_free (c->machine);
  g_ptr_array_unref (c->pool);
  g_ptr_array_unref (c->tray);
  g_array_unref (c->goods);
  g_free (c->about);
  g_free (c);
}
