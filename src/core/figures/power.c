/* SPDX-License-Identifier: GPL-3.0-or-later */
/* power.c: watts of modules, to plan with. Source of the table: shared/facts/population.md 5, each
 * row with its own; all are taken ± 50 %, as stated there. A fact that is not told widens the
 * range to all rows that may hold. */
#include "figures/power.h"

#include "facts/module-kind.h"

#define ANY_SIZE G_MAXINT32
#define UP_TO_32_GB 32768
#define KIND(name) (1u << LID_KIND_##name)
#define UNBUFFERED                                                                                 \
  (KIND (UNBUFFERED) | KIND (ECC_UNBUFFERED) | KIND (SO_UNBUFFERED) | KIND (SO_ECC_UNBUFFERED)     \
   | KIND (CLOCKED_UNBUFFERED) | KIND (SO_CLOCKED_UNBUFFERED))
#define REGISTERED (KIND (REGISTERED) | KIND (SO_REGISTERED))

#define BUSY_DDR3 "a maker's guide, not named: 8 GB, two ranks, at 1333 MT/s"
#define BUSY_DDR3_PLAIN "a maker's guide, not named: a register takes about 1 W"
#define BUSY_BUFFER "a maker's guide, not named: data buffers take 4 to 5 W"
#define BUSY_DDR5                                                                                  \
  "Energies 19(9) 2150, introduction (12 to 18 W); a report on multiplexed-rank modules (10 W)"
#define BUSY_RANKS "a report on multiplexed-rank modules"
#define MEMORY "from memory"

typedef enum
{
  FLAT = 0x1,
  STACKED = 0x2,
  EITHER = FLAT | STACKED
} Stack;

static const struct
{
  LidGeneration generation;
  guint32 kinds;
  gint32 above_mib, most_mib; /* a module larger than above_mib and up to most_mib */
  Stack stack;
  guint mv; /* 0: any */
  gint32 least_mw, most_mw;
  const char *source;
} rows[] = {
  { LID_GENERATION_DDR3, REGISTERED, 0, ANY_SIZE, EITHER, 1500, 10000, 10000, BUSY_DDR3 },
  { LID_GENERATION_DDR3, REGISTERED, 0, ANY_SIZE, EITHER, 1350, 8500, 8500, BUSY_DDR3 },
  { LID_GENERATION_DDR3, UNBUFFERED, 0, ANY_SIZE, EITHER, 1500, 9000, 9000, BUSY_DDR3_PLAIN },
  { LID_GENERATION_DDR3, UNBUFFERED, 0, ANY_SIZE, EITHER, 1350, 7500, 7500, BUSY_DDR3_PLAIN },
  { LID_GENERATION_DDR3, KIND (LOAD_REDUCED), 0, ANY_SIZE, EITHER, 1500, 14000, 15000,
    BUSY_BUFFER },
  { LID_GENERATION_DDR3, KIND (LOAD_REDUCED), 0, ANY_SIZE, EITHER, 1350, 12500, 13500,
    BUSY_BUFFER },
  { LID_GENERATION_DDR4, UNBUFFERED, 0, ANY_SIZE, EITHER, 0, 2000, 4000, MEMORY },
  { LID_GENERATION_DDR4, REGISTERED, 0, UP_TO_32_GB, EITHER, 0, 3000, 5000, MEMORY },
  { LID_GENERATION_DDR4, REGISTERED, UP_TO_32_GB, ANY_SIZE, FLAT, 0, 3000, 12000, MEMORY },
  { LID_GENERATION_DDR4, REGISTERED, UP_TO_32_GB, ANY_SIZE, STACKED, 0, 7000, 12000, MEMORY },
  { LID_GENERATION_DDR4, KIND (LOAD_REDUCED), 0, ANY_SIZE, EITHER, 0, 7000, 12000, MEMORY },
  { LID_GENERATION_DDR5, UNBUFFERED, 0, ANY_SIZE, EITHER, 0, 3000, 7000, MEMORY },
  { LID_GENERATION_DDR5, REGISTERED | KIND (LOAD_REDUCED), 0, ANY_SIZE, EITHER, 0, 10000, 18000,
    BUSY_DDR5 },
  { LID_GENERATION_DDR5, KIND (MULTIPLEXED_RANK), 0, ANY_SIZE, EITHER, 0, 20000, 20000,
    BUSY_RANKS },
};

static guint32
generations_of (const LidBoard *board, const LidModule *module)
{
  LidGeneration generation = lid_module_generation (module);

  if (generation != LID_GENERATION_UNKNOWN)
    return 1u << generation;
  return board->generations != 0 ? board->generations : G_MAXUINT32;
}

static guint32
kinds_of (const LidBoard *board, const LidModule *module)
{
  LidKind kind = lid_module_kind (module);

  if (kind != LID_KIND_UNKNOWN)
    return 1u << kind;
  return board->kinds != 0 ? board->kinds : G_MAXUINT32;
}

static guint
stacks_of (const LidModule *module)
{
  if (lid_module_knows (module, LID_FACT_STACK))
    return module->value[LID_FACT_STACK] == LID_STACK_3DS ? STACKED : FLAT;
  if (lid_module_knows (module, LID_FACT_LOGICAL_RANKS)
      && lid_module_knows (module, LID_FACT_RANKS))
    return module->value[LID_FACT_LOGICAL_RANKS] > module->value[LID_FACT_RANKS] ? STACKED : FLAT;
  return EITHER;
}

static gboolean
size_holds (const LidModule *module, guint row)
{
  gint64 mib = lid_module_capacity (module);

  return mib == 0 || (mib > rows[row].above_mib && mib <= rows[row].most_mib);
}

/* DDR3 runs at the lower voltage where setup says so, or where nothing forbids it: not told. */
static gboolean
voltage_holds (const LidModule *module, guint row, guint setup_mv)
{
  guint32 can = (guint32)lid_module_get (module, LID_FACT_VOLTAGE, (gint32)G_MAXUINT32);

  if (rows[row].mv == 0)
    return TRUE;
  if ((can & lid_voltage_from_mv (1350)) == 0)
    return rows[row].mv == 1500;
  return setup_mv == 0 || rows[row].mv == setup_mv;
}

static void
take_row (LidPower *power, guint row)
{
  gint32 low = rows[row].least_mw / 2, high = rows[row].most_mw * 3 / 2;
  gint32 plan = (rows[row].least_mw + rows[row].most_mw) / 2;

  power->low_mw = power->known ? MIN (power->low_mw, low) : low;
  power->high_mw = power->known ? MAX (power->high_mw, high) : high;
  power->most_mw = power->known ? MAX (power->most_mw, plan) : plan;
  power->plan_mw = power->known ? MIN (power->plan_mw, plan) : plan;
  power->source = power->known && power->source != rows[row].source ? MEMORY : rows[row].source;
  power->known = TRUE;
}

/* DDR3 at 1600 takes 15 % more than at 1333 (a maker's guide, not named). */
static void
add_rate (LidPower *power, const LidModule *module)
{
  guint mts = lid_rate_mts (lid_module_rated (module));
  gboolean told = lid_module_knows (module, LID_FACT_RATED);

  if (told && mts >= 1600)
    {
      power->low_mw = power->low_mw * 115 / 100;
      power->plan_mw = power->plan_mw * 115 / 100;
    }
  if (told && mts < 1600)
    return;
  power->high_mw = power->high_mw * 115 / 100;
  power->most_mw = power->most_mw * 115 / 100;
}

static guint32
facts_not_told (const LidModule *module)
{
  static const LidFact facts[] = { LID_FACT_GENERATION, LID_FACT_KIND, LID_FACT_CAPACITY };
  guint32 missing = 0;

  for (guint i = 0; i < G_N_ELEMENTS (facts); i++)
    if (!lid_module_knows (module, facts[i]))
      missing |= 1u << facts[i];
  if (stacks_of (module) == EITHER && lid_module_kind (module) == LID_KIND_REGISTERED)
    missing |= 1u << LID_FACT_STACK;
  return missing;
}

/**
 * lid_power_module:
 * @board: whose kinds and generations stand in for those that are not told
 * @module: a module
 * @setup_mv: voltage setup holds it to, 0: automatic
 *
 * Returns: what it draws when busy
 */
LidPower
lid_power_module (const LidBoard *board, const LidModule *module, guint setup_mv)
{
  guint32 generations = generations_of (board, module), kinds = kinds_of (board, module);
  guint stacks = stacks_of (module);
  LidPower power = { .source = MEMORY };

  for (guint i = 0; i < G_N_ELEMENTS (rows) && !module->persistent; i++)
    if ((generations >> rows[i].generation & 1) != 0 && (kinds & rows[i].kinds) != 0
        && (stacks & rows[i].stack) != 0 && size_holds (module, i)
        && voltage_holds (module, i, setup_mv))
      take_row (&power, i);
  if (power.known && lid_module_generation (module) == LID_GENERATION_DDR3)
    add_rate (&power, module);
  power.missing = facts_not_told (module);
  return power;
}

static void
add (LidPowerSum *sum, const LidPower *power, gboolean less)
{
  sum->n++;
  if (!power->known)
    {
      sum->n_not_known++;
      return;
    }
  sum->low_mw += less ? -power->high_mw : power->low_mw;
  sum->high_mw += less ? -power->low_mw : power->high_mw;
}

/**
 * lid_power_drawn_by:
 *
 * What is soldered is part of the board's own power, and what hangs on no processor has none.
 *
 * Returns: (transfer none) (nullable): the module of @slot that draws power
 */
const LidModule *
lid_power_drawn_by (const LidBoard *board, const LidPopulation *population, guint slot)
{
  int channel = board->slots[slot].channel;
  int socket = channel != LID_NOWHERE ? board->channels[channel].socket : LID_NOWHERE;

  if (board->slots[slot].soldered != NULL)
    return NULL;
  return socket == LID_NOWHERE || population->processors[socket].fitted
             ? population->slots[slot].module
             : NULL;
}

/**
 * lid_power_machine:
 *
 * Returns: what all modules draw together when all are busy; modules that are not seen count, they
 *   have power too
 */
LidPowerSum
lid_power_machine (const LidBoard *board, const LidPopulation *population)
{
  LidPowerSum sum = { 0, 0, 0, 0 };

  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *module = lid_power_drawn_by (board, population, i);
      LidPower power;

      if (module == NULL)
        continue;
      power = lid_power_module (board, module, population->setup_mv);
      add (&sum, &power, FALSE);
    }
  return sum;
}

/* The first module of @population not taken yet that is the same as @module. */
static gboolean
take_same (const LidBoard *board,
           const LidPopulation *population,
           const LidModule *module,
           guint8 *taken)
{
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *other = lid_power_drawn_by (board, population, i);

      if (other != NULL && !taken[i] && (other == module || lid_module_same (other, module)))
        {
          taken[i] = TRUE;
          return TRUE;
        }
    }
  return FALSE;
}

/**
 * lid_power_change:
 *
 * Returns: what is added, negative: taken away, between @before and @after. Modules that stay, or
 *   the same in another slot, cancel: what is not known of them makes no range. A change of voltage
 *   or rate of those is left out.
 */
LidPowerSum
lid_power_change (const LidBoard *board, const LidPopulation *before, const LidPopulation *after)
{
  g_autofree guint8 *stays = g_new0 (guint8, board->n_slots);
  LidPowerSum sum = { 0, 0, 0, 0 };

  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *module = lid_power_drawn_by (board, after, i);
      LidPower power;

      if (module == NULL || take_same (board, before, module, stays))
        continue;
      power = lid_power_module (board, module, after->setup_mv);
      add (&sum, &power, FALSE);
    }
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *module = lid_power_drawn_by (board, before, i);
      LidPower power;

      if (module == NULL || stays[i])
        continue;
      power = lid_power_module (board, module, before->setup_mv);
      add (&sum, &power, TRUE);
    }
  return sum;
}
