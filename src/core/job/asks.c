/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/asks.h"

#include "base/text.h"

#define MOST_WORDS 6

static void
ask_free (gpointer data)
{
  LidAsk *ask = data;

  g_array_unref (ask->slots);
  g_free (ask->module);
  g_free (ask->part);
  g_free (ask);
}

/* The ask of that module's part; made when there is none yet. */
static LidAsk *
ask_of (GPtrArray *asks, const LidModule *module)
{
  LidAsk *ask;

  for (guint i = 0; i < asks->len; i++)
    {
      ask = asks->pdata[i];
      if (module->part != NULL ? g_strcmp0 (ask->part, module->part) == 0
                               : g_strcmp0 (ask->module, module->id) == 0)
        return ask;
    }
  ask = g_new0 (LidAsk, 1);
  ask->module = g_strdup (module->id);
  ask->part = g_strdup (module->part);
  ask->slots = g_array_new (FALSE, FALSE, sizeof (guint));
  g_ptr_array_add (asks, ask);
  return ask;
}

static void
add_slot (LidAsk *ask, guint slot)
{
  for (guint i = 0; i < ask->slots->len; i++)
    if (g_array_index (ask->slots, guint, i) == slot)
      return;
  g_array_append_val (ask->slots, slot);
}

/**
 * lid_asks_list:
 * @assessment: what the checker says
 * @population: of this population
 *
 * Soldered memory has no label to read, and no id: it is not asked about.
 *
 * Returns: (transfer full) (element-type LidAsk): one for each part number, in the order of slots
 */
GPtrArray *
lid_asks_list (const LidAssessment *assessment, const LidPopulation *population)
{
  GPtrArray *asks = g_ptr_array_new_with_free_func (ask_free);

  for (guint f = 0; f < assessment->findings->len; f++)
    {
      const LidFinding *finding = assessment->findings->pdata[f];

      for (guint i = 0; finding->fact != LID_NOWHERE && i < finding->n_slots; i++)
        {
          const LidModule *module = population->slots[finding->slots[i]].module;
          LidAsk *ask;

          if (module == NULL || module->id == NULL)
            continue;
          ask = ask_of (asks, module);
          ask->facts |= 1u << finding->fact;
          add_slot (ask, finding->slots[i]);
        }
    }
  return asks;
}

/**
 * lid_asks_facts:
 *
 * Returns: (transfer full): what is not told, in words: "ranks, kind"
 */
char *
lid_asks_facts (const LidAsk *ask)
{
  const char *words[LID_N_FACTS];
  guint n = 0;

  for (guint fact = 0; fact < LID_N_FACTS; fact++)
    if (ask->facts & (1u << fact))
      words[n++] = lid_fact_to_words ((LidFact)fact);
  return lid_text_join (words, n, MOST_WORDS);
}

/**
 * lid_asks_slots:
 *
 * Returns: (transfer full): where they sit, in words: "A1, A2"
 */
char *
lid_asks_slots (const LidAsk *ask, const LidBoard *board)
{
  g_autofree const char **words = g_new (const char *, ask->slots->len + 1);

  for (guint i = 0; i < ask->slots->len; i++)
    words[i] = lid_board_name_slot (board, g_array_index (ask->slots, guint, i));
  return lid_text_join (words, ask->slots->len, MOST_WORDS);
}
