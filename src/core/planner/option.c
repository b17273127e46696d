/* SPDX-License-Identifier: GPL-3.0-or-later */
/* option.c: kinds become modules again: which one goes where, what is bought,
 * what is pulled.
 *
 * Of a kind, what stays stays; then what was found goes to new slots, then what
 * lies on the tray, then what is bought, the cheapest first. Which of several
 * alike modules goes to which slot makes no difference to any rule; it is by
 * the order of slots, so that the same plan is the same. */
#include "planner/option.h"

/* What is left of one kind to be put into slots. */
typedef struct
{
  guint next_slot, next_tray, next_good, of_good;
} Supply;

typedef struct
{
  const LidPlanJudge *judge;
  const LidPlanEntry *entry;
  LidPlanOption *option;
  Supply *supply; /* per kind */
} Maker;

static void
clear_module (gpointer data)
{
  lid_module_unref (((LidPlanModule *)data)->module);
}

static gboolean
stays (const Maker *maker, guint slot)
{
  return maker->entry->kinds[slot] != LID_NOWHERE
         && maker->entry->kinds[slot] == maker->judge->candidates->found_kind[slot];
}

static LidPlanModule
buy_one (Maker *maker, const LidPlanKind *kind, Supply *supply)
{
  const LidGood *goods = maker->judge->question->goods;
  LidPlanModule out = { .from_slot = LID_NOWHERE };
  guint good;

  while (supply->of_good == goods[g_array_index (kind->goods, guint, supply->next_good)].count)
    {
      supply->next_good++;
      supply->of_good = 0;
    }
  good = g_array_index (kind->goods, guint, supply->next_good);
  supply->of_good++;
  out.good = (int)good;
  out.module = lid_module_copy (goods[good].module);
  lid_module_set_text (&out.module->id, NULL);
  lid_module_set_text (&out.module->serial, NULL);
  lid_module_set_text (&out.module->part, goods[good].part);
  lid_module_set_text (&out.module->label, goods[good].label);
  lid_module_set_text (&out.module->bin, goods[good].bin);
  return out;
}

/* The next module of a kind that does not stay where it is. */
static LidPlanModule
take_one (Maker *maker, guint index)
{
  const LidCandidates *candidates = maker->judge->candidates;
  const LidPlanKind *kind = lid_candidates_kind (candidates, index);
  Supply *supply = &maker->supply[index];

  for (; supply->next_slot < candidates->n_slots; supply->next_slot++)
    if (candidates->found_kind[supply->next_slot] == (int)index
        && !stays (maker, supply->next_slot))
      {
        LidModule *module = maker->judge->question->as_found->slots[supply->next_slot].module;

        return (LidPlanModule){ .module = lid_module_ref (module),
                                .from_slot = (int)supply->next_slot++,
                                .good = LID_NOWHERE };
      }
  if (supply->next_tray < kind->tray->len)
    return (LidPlanModule){ .module = lid_module_ref (kind->tray->pdata[supply->next_tray++]),
                            .from_slot = LID_NOWHERE,
                            .good = LID_NOWHERE };
  return buy_one (maker, kind, supply);
}

static void
put (Maker *maker, guint slot)
{
  const LidPopulation *found = maker->judge->question->as_found;
  LidPopulation *population = maker->option->population;
  LidPlanModule module;

  if (stays (maker, slot))
    {
      module = (LidPlanModule){ .module = lid_module_ref (found->slots[slot].module),
                                .from_slot = (int)slot,
                                .good = LID_NOWHERE };
      lid_population_put (population, slot, module.module);
      population->slots[slot].state = found->slots[slot].state;
      population->slots[slot].configured = found->slots[slot].configured;
    }
  else
    {
      module = take_one (maker, (guint)maker->entry->kinds[slot]);
      lid_population_put (population, slot, module.module);
    }
  module.to_slot = (int)slot;
  g_array_append_val (maker->option->modules, module);
}

/* Persistent and other modules that stay are part of the list too. */
static void
list_fixed (Maker *maker, guint slot)
{
  LidPlanModule module = { .from_slot = (int)slot, .to_slot = (int)slot, .good = LID_NOWHERE };

  if (maker->judge->question->board->slots[slot].soldered != NULL)
    return;
  module.module = lid_module_ref (maker->judge->base->slots[slot].module);
  g_array_append_val (maker->option->modules, module);
}

static void
list_pulled (Maker *maker)
{
  const LidCandidates *candidates = maker->judge->candidates;

  for (guint i = 0; i < candidates->n_slots; i++)
    {
      int kind = candidates->found_kind[i];
      LidPlanModule module = { .from_slot = (int)i, .to_slot = LID_NOWHERE, .good = LID_NOWHERE };

      if (kind == LID_NOWHERE || stays (maker, i) || i < maker->supply[kind].next_slot)
        continue;
      module.module = lid_module_ref (maker->judge->question->as_found->slots[i].module);
      g_array_append_val (maker->option->modules, module);
    }
}

static int
compare_buys (gconstpointer a, gconstpointer b)
{
  guint x = ((const LidPlanBuy *)a)->good, y = ((const LidPlanBuy *)b)->good;

  return (x > y) - (x < y);
}

static void
list_buys (Maker *maker)
{
  GArray *buys = maker->option->buys;
  guint n = 0;

  for (guint i = 0; i < maker->option->modules->len; i++)
    {
      int good = g_array_index (maker->option->modules, LidPlanModule, i).good;
      LidPlanBuy buy = { (guint)good, 1 };

      if (good != LID_NOWHERE)
        g_array_append_val (buys, buy);
    }
  g_array_sort (buys, compare_buys);
  for (guint i = 0; i < buys->len; i++)
    {
      const LidPlanBuy *buy = &g_array_index (buys, LidPlanBuy, i);

      if (n > 0 && g_array_index (buys, LidPlanBuy, n - 1).good == buy->good)
        g_array_index (buys, LidPlanBuy, n - 1).count++;
      else
        g_array_index (buys, LidPlanBuy, n++) = *buy;
    }
  g_array_set_size (buys, n);
}

/**
 * lid_plan_option_new:
 * @judge: what judged it
 * @entry: a population of the front
 *
 * Returns: (transfer full): the option, with every module it uses, buys and
 * pulls
 */
LidPlanOption *
lid_plan_option_new (const LidPlanJudge *judge, const LidPlanEntry *entry)
{
  LidPlanOption *option = g_new0 (LidPlanOption, 1);
  g_autofree Supply *supply = g_new0 (Supply, judge->candidates->kinds->len + 1);
  Maker maker = { judge, entry, option, supply };
  gboolean as_found = (entry->picks & LID_PICK_AS_FOUND) != 0;

  option->population = lid_population_copy (as_found ? judge->question->as_found : judge->base);
  option->modules = g_array_new (FALSE, FALSE, sizeof (LidPlanModule));
  g_array_set_clear_func (option->modules, clear_module);
  option->buys = g_array_new (FALSE, FALSE, sizeof (LidPlanBuy));
  for (guint i = 0; i < judge->candidates->n_slots; i++)
    if (entry->kinds[i] != LID_NOWHERE)
      put (&maker, i);
    else if (judge->base->slots[i].module != NULL)
      list_fixed (&maker, i);
  list_pulled (&maker);
  list_buys (&maker);
  option->capacity_mib = entry->capacity_mib;
  option->usable_mib = entry->vector.usable_mib;
  option->whole_mbs = entry->whole_mbs;
  option->speed = entry->vector.speed;
  option->rated = entry->vector.rated;
  option->running = entry->running;
  option->cost_minor
      = entry->vector.cost < LID_COST_UNKNOWN ? entry->vector.cost : LID_PLAN_NO_PRICE;
  option->hands = entry->vector.hands;
  option->loses = entry->loses;
  option->unsure = entry->unsure;
  option->staying = entry->staying;
  option->bins = entry->bins;
  option->empty_slots = entry->empty_slots;
  option->picks = entry->picks;
  return option;
}

void
lid_plan_option_free (LidPlanOption *option)
{
  if (option == NULL)
    return;
  lid_population_free (option->population);
  g_array_unref (option->modules);
  g_array_unref (option->buys);
  g_free (option->why);
  g_free (option);
}
