/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Room to grow against trying it: every number of modules on every channel is really put in, and
 * the rate and the ranks of that population are looked at. Limits: tests/cases/figures/room.json.
 */
#include "figures-case.h"
#include "figures/room.h"
#include "figures/running-rate.h"

#define LARGEST 65536

/* Adds @n of the largest module to the free slots of a channel; how many found place. */
static guint
add (LidPopulation *population, const LidBoardChannel *channel, guint n, LidModule *module)
{
  guint done = 0;

  for (guint i = 0; i < channel->n_slots && done < n; i++)
    if (population->slots[channel->slots[i]].module == NULL)
      {
        lid_population_put (population, channel->slots[i], module);
        done++;
      }
  return done;
}

/* Whether what sits on a channel is more than the board's rank limits allow. */
static gboolean
is_over (const LidSurvey *survey, guint channel)
{
  for (guint i = 0; i < survey->board->n_rank_limits; i++)
    {
      const LidRankLimit *limit = &survey->board->rank_limits[i];
      guint modules = 0, ranks = 0;

      for (guint k = 0; k < survey->channels[channel].n_fitted; k++)
        {
          const LidModule *module = lid_survey_module (survey, survey->channels[channel].fitted[k]);
          guint own = (guint)module->value[LID_FACT_LOGICAL_RANKS];

          if ((limit->kinds != 0 && (limit->kinds >> module->value[LID_FACT_KIND] & 1) == 0)
              || own < limit->least_module_ranks)
            continue;
          modules++;
          ranks += own;
        }
      if ((limit->most_modules != 0 && modules > limit->most_modules)
          || (limit->most_ranks != 0 && ranks > limit->most_ranks))
        return TRUE;
    }
  return FALSE;
}

static gint64
try_one (const FiguresCase *c, guint a, guint b, LidModule *module)
{
  g_autoptr (LidPopulation) population = lid_population_copy (c->population);
  g_autoptr (LidSurvey) survey = NULL;
  LidFigures figures;
  gint64 mib = 0;

  if (add (population, &c->board->channels[0], a, module) != a
      || add (population, &c->board->channels[1], b, module) != b)
    return 0;
  survey = lid_survey_new (c->board, population);
  lid_figures_init (&figures, c->board);
  lid_running_rate_compute (survey, NULL, &figures);
  lid_figures_compute (survey, NULL, &figures);
  mib = figures.capacity_mib;
  for (guint i = 0; i < 2; i++)
    if (is_over (survey, i) || figures.rates[i].row == LID_ROW_MISSING)
      mib = 0;
  lid_figures_clear (&figures);
  return mib;
}

static char *
random_limits (GRand *rand)
{
  static const char *const kinds[]
      = { "", "\"kinds\": [\"registered\"], ", "\"kinds\": [\"load-reduced\"], ",
          "\"kinds\": [\"registered\", \"load-reduced\"], " };
  GString *out = g_string_new (NULL);

  for (gint32 i = g_rand_int_range (rand, 0, 3); i > 0; i--)
    {
      g_string_append_printf (out, "%s{%s\"source\": \"invented\"", out->len > 0 ? ", " : "",
                              kinds[g_rand_int_range (rand, 0, G_N_ELEMENTS (kinds))]);
      if (g_rand_boolean (rand))
        g_string_append_printf (out, ", \"least_module_ranks\": %d", g_rand_int_range (rand, 1, 5));
      if (g_rand_boolean (rand))
        g_string_append_printf (out, ", \"most_modules\": %d", g_rand_int_range (rand, 1, 4));
      else
        g_string_append_printf (out, ", \"most_ranks\": %d", g_rand_int_range (rand, 1, 9));
      g_string_append (out, "}");
    }
  return g_string_free (out, FALSE);
}

static FiguresCase *
random_case (GRand *rand)
{
  static const char *const slots[] = { "1-A1", "1-A2", "1-A3", "1-B1", "1-B2", "1-B3" };
  guint ranks = 1u << g_rand_int_range (rand, 0, 3);
  const char *kind = g_rand_boolean (rand) ? "registered" : "load-reduced";
  g_autofree char *limits = random_limits (rand);
  g_autoptr (GString) put = g_string_new ("1-A1");

  for (guint i = 1; i < G_N_ELEMENTS (slots); i++)
    if (g_rand_int_range (rand, 0, 3) == 0)
      g_string_append_printf (put, " %s", slots[i]);
  return figures_case_parse (
      "{\"layout\": {\"slots\": [3, 3]}, \"board\": {\"takes\": {\"kinds\": [\"%s\"]}, "
      "\"rates\": [{\"filled\": [1, %d], \"mts\": 2933, \"source\": \"invented\"}, {\"ranks\": [1, "
      "%d], "
      "\"mts\": 2666, \"source\": \"invented\"}], \"ranks\": {\"limits\": [%s]}, "
      "\"limits\": [{\"what\": \"module\", \"mib\": %d, \"basis\": "
      "\"listed\", \"source\": \"invented\"}]}, \"modules\": {\"m\": {\"kind\": \"%s\", "
      "\"capacity_mib\": 8192, \"logical_ranks\": %u, \"rated_mts\": 2933}}, \"put\": {\"m\": "
      "\"%s\"}}",
      kind, g_rand_int_range (rand, 1, 4), g_rand_int_range (rand, 1, 4), limits, LARGEST, kind,
      ranks, put->str);
}

static void
test_against_trying (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (299792);
  guint checked = 0;

  for (guint round = 0; round < 2000; round++)
    {
      g_autoptr (FiguresCase) c = random_case (rand);
      g_autoptr (LidModule) module = lid_module_copy (c->population->slots[0].module);
      gint64 most = 0;

      /* What is fitted breaks a rule already: nothing to grow from. */
      if (try_one (c, 0, 0, module) == 0)
        continue;
      lid_module_set (module, LID_FACT_CAPACITY, LARGEST, LID_BASIS_TOLD);
      for (guint a = 0; a <= 3; a++)
        for (guint b = 0; b <= 3; b++)
          most = MAX (most, try_one (c, a, b, module));
      checked++;
      g_assert_cmpint (c->room.listed_mib, ==, most);
      g_assert_cmpint (c->room.proven_mib, ==, 0);
      g_assert_cmpuint (c->room.empty_slots, ==, 6 - lid_population_n_modules (c->population));
    }
  g_assert_cmpuint (checked, >, 500);
}

/* A bench that saw less than the list takes is held against the list; where capacities may not mix
 * and the one in use is more than the bench saw, it adds nothing, and what waits for company stays
 * out. */
static void
test_proven_is_less (void)
{
  static const guint8 stopped[]
      = { LID_ROOM_COUNTS, LID_ROOM_NOT_YET, LID_ROOM_COUNTS, LID_ROOM_COUNTS };
  g_autoptr (FiguresCase) c = figures_case_parse (
      "{\"layout\": {\"slots\": [2, 2]}, \"board\": {\"takes\": {\"kinds\": [\"registered\"]}, "
      "\"mixing\": [{\"mix\": \"capacities\", \"scope\": \"machine\", \"grade\": \"stops\", "
      "\"source\": \"invented\"}], \"limits\": [{\"what\": \"module\", \"mib\": 65536, "
      "\"basis\": \"listed\", \"source\": \"invented\"}, {\"what\": \"module\", \"mib\": 32768, "
      "\"basis\": \"bench-proven\", \"who\": \"bench 2\", \"when\": \"2026-03-02\", "
      "\"firmware\": \"1.0\"}]}, \"modules\": {\"m\": {\"kind\": \"registered\", "
      "\"capacity_mib\": 65536, \"logical_ranks\": 2, \"rated_mts\": 2933}}, "
      "\"put\": {\"m\": \"1-A2\"}}");
  LidRoom room = lid_room_compute (c->survey, stopped);

  g_assert_cmpint (room.listed_mib, ==, 4 * 65536);
  g_assert_cmpint (room.proven_mib, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/room/against-trying", test_against_trying);
  g_test_add_func ("/room/proven-is-less", test_proven_is_less);
  return g_test_run ();
}
