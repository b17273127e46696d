/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* The facts of a module that rules look at. Each is known, with a basis, or unknown: unknown is a
 * value of its own, never 0 read as a number. */
typedef enum
{
  LID_FACT_GENERATION,    /* LidGeneration */
  LID_FACT_KIND,          /* LidKind */
  LID_FACT_FORM,          /* LidForm */
  LID_FACT_CAPACITY,      /* MiB */
  LID_FACT_RANKS,         /* package ranks, as printed on the label */
  LID_FACT_LOGICAL_RANKS, /* package ranks × stack height of 3DS */
  LID_FACT_STACK,         /* LidStack */
  LID_FACT_CHIP_WIDTH,    /* 4, 8, 16, 32 data wires of a chip */
  LID_FACT_RATED,         /* LidRate: thirds of a MT/s */
  LID_FACT_ECC,           /* 0 or 1 */
  LID_FACT_CHECK_BITS,    /* check wires of the whole module: 0, 8, 16 */
  LID_FACT_DIE,           /* Gbit of one die */
  LID_FACT_VOLTAGE,       /* LidVoltages: what it can run at */
  LID_FACT_HEIGHT,        /* hundredths of a millimetre */
  LID_N_FACTS
} LidFact;

/* Where a fact comes from, rising in weight: label and SPD outrank what was merely remembered.
 * LID_BASIS_NONE means the fact is unknown. */
typedef enum
{
  LID_BASIS_NONE,
  LID_BASIS_REMEMBERED,
  LID_BASIS_STOCK,
  LID_BASIS_INVENTORY,
  LID_BASIS_TOLD,
  LID_BASIS_LABEL,
  LID_BASIS_SPD,
  LID_N_BASES
} LidBasis;

typedef enum
{
  LID_STACK_NONE, /* one die a package */
  LID_STACK_DUAL, /* two dies, each a load of its own: label letter D */
  LID_STACK_3DS,  /* dies joined through the silicon, one load: label letter S */
} LidStack;

typedef enum
{
  LID_VOLTAGE_1500 = 1 << 0,
  LID_VOLTAGE_1350 = 1 << 1,
  LID_VOLTAGE_1250 = 1 << 2,
  LID_VOLTAGE_1200 = 1 << 3,
  LID_VOLTAGE_1100 = 1 << 4,
  LID_VOLTAGE_1800 = 1 << 5,
  LID_VOLTAGE_2500 = 1 << 6,
} LidVoltages;

const char *lid_fact_to_text (LidFact fact);
LidFact lid_fact_from_text (const char *text, gboolean *found);
const char *lid_fact_to_words (LidFact fact);
const char *lid_fact_where_printed (LidFact fact);
gboolean lid_fact_is_rule_relevant (LidFact fact);
const char *lid_basis_to_text (LidBasis basis);
LidBasis lid_basis_from_text (const char *text);
guint lid_voltage_lowest_mv (LidVoltages voltages);
guint lid_voltage_from_mv (guint mv);
