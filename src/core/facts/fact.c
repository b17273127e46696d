/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/fact.h"

#include <glib/gi18n-lib.h>

/* One row a fact: the word in files, the words for people, and where a person finds it out. A fact
 * is rule-relevant if some rule or figure may turn on it: two modules without a part number are
 * the same only if all of these are known and equal (product.md 3). */
static const struct
{
  const char *text;
  const char *words;
  const char *where;
  gboolean relevant;
} facts[LID_N_FACTS] = {
  [LID_FACT_GENERATION]
  = { "generation", N_ ("generation"), N_ ("on the label: PC3, PC4 or PC5"), TRUE },
  /* Right behind the rate of a DDR4 or DDR5 label stands the letter of the speed grade. */
  [LID_FACT_KIND] = { "kind", N_ ("kind"),
                      N_ ("on the label: the letter behind the second hyphen, R in "
                          "PC4-2666V-RB2; of DDR3 the one behind the number, R in PC3-10600R"),
                      TRUE },
  [LID_FACT_FORM] = { "form", N_ ("form"), N_ ("by eye: a DIMM is 133 mm long"), TRUE },
  [LID_FACT_CAPACITY]
  = { "capacity_mib", N_ ("capacity"), N_ ("on the label: the first field"), TRUE },
  [LID_FACT_RANKS]
  = { "ranks", N_ ("ranks"), N_ ("on the label: the number before R, as in 2Rx4"), TRUE },
  [LID_FACT_LOGICAL_RANKS] = { "logical_ranks", N_ ("logical ranks"),
                               N_ ("on the label: the numbers before R, as in 2S4Rx4"), TRUE },
  [LID_FACT_STACK]
  = { "stack", N_ ("stacked dies"), N_ ("on the label: a D or S before R, as in 2S4Rx4"), TRUE },
  [LID_FACT_CHIP_WIDTH]
  = { "chip_width", N_ ("chip width"), N_ ("on the label: the number after Rx, as in 2Rx4"), TRUE },
  [LID_FACT_RATED] = { "rated_mts", N_ ("rated rate"),
                       N_ ("on the label: the number behind the first hyphen, 2666 in PC4-2666V; "
                           "of DDR3 it is MB/s: PC3-12800 is 1600 MT/s"),
                       TRUE },
  [LID_FACT_ECC] = { "ecc", N_ ("ECC"),
                     N_ ("on the label: the letter of the kind, R in PC4-2666V-RB2: E, R, L, P and "
                         "T have check bits, U and S none"),
                     TRUE },
  [LID_FACT_CHECK_BITS] = { "check_bits", N_ ("check bits"),
                            N_ ("on a DDR5 label: the letter of the kind, R in PC5-4800B-RA0: R "
                                "has 16 check wires, P, E and T have 8"),
                            TRUE },
  [LID_FACT_DIE] = { "die_gbit", N_ ("die density"),
                     N_ ("reckoned from the label: capacity, ranks and chip width"), TRUE },
  [LID_FACT_VOLTAGE]
  = { "voltages_mv", N_ ("voltage"), N_ ("on a DDR3 label: PC3L runs at 1.35 V too"), TRUE },
  [LID_FACT_HEIGHT] = { "height_mm", N_ ("height"), N_ ("by ruler, from the contacts up"), FALSE },
};

static const char *const bases[LID_N_BASES] = {
  [LID_BASIS_REMEMBERED] = "remembered", [LID_BASIS_STOCK] = "stock",
  [LID_BASIS_INVENTORY] = "inventory",   [LID_BASIS_TOLD] = "told",
  [LID_BASIS_LABEL] = "label",           [LID_BASIS_SPD] = "SPD",
};

static const guint millivolts[] = { 1500, 1350, 1250, 1200, 1100, 1800, 2500 };

/**
 * lid_fact_to_text:
 *
 * Returns: the fact's word in files and JSON
 */
const char *
lid_fact_to_text (LidFact fact)
{
  g_return_val_if_fail ((guint)fact < LID_N_FACTS, NULL);
  return facts[fact].text;
}

LidFact
lid_fact_from_text (const char *text, gboolean *found)
{
  for (guint i = 0; i < LID_N_FACTS; i++)
    if (g_strcmp0 (text, facts[i].text) == 0)
      {
        *found = TRUE;
        return i;
      }
  *found = FALSE;
  return LID_FACT_GENERATION;
}

/**
 * lid_fact_to_words:
 *
 * Returns: the fact in the reader's language
 */
const char *
lid_fact_to_words (LidFact fact)
{
  g_return_val_if_fail ((guint)fact < LID_N_FACTS, NULL);
  return _ (facts[fact].words);
}

/**
 * lid_fact_where_printed:
 *
 * Returns: where a person reads it, for the finding that says it is missing
 */
const char *
lid_fact_where_printed (LidFact fact)
{
  g_return_val_if_fail ((guint)fact < LID_N_FACTS, NULL);
  return _ (facts[fact].where);
}

gboolean
lid_fact_is_rule_relevant (LidFact fact)
{
  g_return_val_if_fail ((guint)fact < LID_N_FACTS, FALSE);
  return facts[fact].relevant;
}

/**
 * lid_basis_to_text:
 *
 * Returns: (nullable): the basis' word in files; NULL for an unknown fact
 */
const char *
lid_basis_to_text (LidBasis basis)
{
  g_return_val_if_fail ((guint)basis < LID_N_BASES, NULL);
  return bases[basis];
}

LidBasis
lid_basis_from_text (const char *text)
{
  for (guint i = 1; i < LID_N_BASES; i++)
    if (g_strcmp0 (text, bases[i]) == 0)
      return i;
  return LID_BASIS_NONE;
}

/**
 * lid_voltage_lowest_mv:
 * @voltages: a set
 *
 * Returns: the lowest of the set in millivolts, 0 for the empty set
 */
guint
lid_voltage_lowest_mv (LidVoltages voltages)
{
  guint lowest = 0;

  for (guint i = 0; i < G_N_ELEMENTS (millivolts); i++)
    if ((voltages & (1u << i)) && (lowest == 0 || millivolts[i] < lowest))
      lowest = millivolts[i];
  return lowest;
}

/**
 * lid_voltage_from_mv:
 * @mv: millivolts
 *
 * Returns: the LidVoltages bit, 0 for a value no DDR generation has
 */
guint
lid_voltage_from_mv (guint mv)
{
  for (guint i = 0; i < G_N_ELEMENTS (millivolts); i++)
    if (millivolts[i] == mv)
      return 1u << i;
  return 0;
}
