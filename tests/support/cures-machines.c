/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Populations, trays and boards at random, from those of a case. */
#include "cures-oracle.h"

/* A module whose rate nobody told. */
static LidModule *
unrated (const LidModule *module)
{
  LidModule *copy = lid_module_copy (module);

  lid_module_set (copy, LID_FACT_RATED, 0, LID_BASIS_NONE);
  lid_module_set_text (&copy->part, NULL);
  return copy;
}

/* Nine of the first sort of the case, two of each other, and of each some whose rate is not told.
 */
GPtrArray *
cures_machine_tray (const LidPopulation *population)
{
  GPtrArray *tray = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_module_unref);

  for (guint i = 0; i < population->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;
      guint n = 0;

      if (module == NULL)
        continue;
      for (guint k = 0; k < tray->len; k++)
        n += cures_deal_alike (tray->pdata[k], module);
      for (; n < (tray->len == 0 ? 9 : 2); n++)
        g_ptr_array_add (tray, lid_module_copy (module));
      g_ptr_array_add (tray, unrated (module));
    }
  return tray;
}

/* One thing in so many that the cases have too seldom. */
static void
disturb (GRand *dice, LidPopulation *population, guint slot, LidModule *module)
{
  if (g_rand_int_range (dice, 0, 24) == 0)
    module->persistent = TRUE;
  if (g_rand_int_range (dice, 0, 24) == 0)
    lid_module_set (module, LID_FACT_RATED, 0, LID_BASIS_NONE);
  if (g_rand_int_range (dice, 0, 40) == 0)
    {
      lid_module_set (module, LID_FACT_CAPACITY, 0, LID_BASIS_NONE);
      lid_module_set_text (&module->part, NULL);
    }
  lid_population_put (population, slot, module);
  if (g_rand_int_range (dice, 0, 48) == 0)
    population->slots[slot].state = LID_SLOT_NOT_SEEN;
}

/* The same modules, some of them once more, in slots the dice choose. */
LidPopulation *
cures_machine_shuffle (GRand *dice, const LidBoard *board, const LidPopulation *from)
{
  LidPopulation *population = lid_population_copy (from);
  gint32 dense = g_rand_int_range (dice, 1, 4);

  for (guint i = 0; i < board->n_slots; i++)
    {
      LidFitting *here = &population->slots[i];

      g_clear_pointer (&here->module, lid_module_unref);
      here->state = LID_SLOT_EMPTY;
      if (board->slots[i].soldered == NULL)
        continue;
      here->module = lid_module_ref (board->slots[i].soldered);
      here->state = LID_SLOT_SOLDERED;
    }
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *module
          = from->slots[g_rand_int_range (dice, 0, (gint32)board->n_slots)].module;
      g_autoptr (LidModule) copy = module != NULL ? lid_module_copy (module) : NULL;

      if (copy != NULL && board->slots[i].soldered == NULL && g_rand_int_range (dice, 0, 4) < dense)
        disturb (dice, population, i, copy);
    }
  if (board->n_sockets > 1 && g_rand_int_range (dice, 0, 6) == 0)
    population->processors[g_rand_int_range (dice, 0, (gint32)board->n_sockets)].fitted = FALSE;
  return population;
}

/* Another order of fitting, another division of the channels among controllers. */
void
cures_machine_rewire (GRand *dice, LidBoard *board)
{
  for (guint i = board->n_order; i-- > 1;)
    {
      guint with = (guint)g_rand_int_range (dice, 0, (gint32)i + 1), here = board->order[i];

      board->order[i] = board->order[with];
      board->order[with] = here;
    }
  for (guint c = 0; c < board->n_channels; c++)
    if (board->channels[c].controller > 0 && board->channels[c].socket != LID_NOWHERE)
      board->channels[c].controller = g_rand_int_range (
          dice, 1, 1 + (gint32)board->sockets[board->channels[c].socket].n_controllers);
}

/* What sat in some slot is soldered in now and then. */
void
cures_machine_solder (GRand *dice, LidBoard *board, const LidPopulation *from)
{
  guint slot = (guint)g_rand_int_range (dice, 0, (gint32)board->n_slots);

  if (g_rand_int_range (dice, 0, 8) == 0 && from->slots[slot].module != NULL
      && board->slots[slot].soldered == NULL)
    board->slots[slot].soldered = lid_module_copy (from->slots[slot].module);
}
