/* SPDX-License-Identifier: GPL-3.0-or-later */
/* label-tables.c — what the letters and numbers of a label stand for.
 * Source: facts/module_label.md sections 2 to 5, with the sources of each row there; rows marked
 * "from memory" there are marked here too. */
#include "facts/label-tables.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define DDR3 LID_GENERATION_DDR3
#define DDR4 LID_GENERATION_DDR4
#define DDR5 LID_GENERATION_DDR5

/* ECC of R and L: the letter alone promises 72 wires only for E; registered and load-reduced raw
 * cards are 72 wide in practice, and label_cases.csv reads them so. C, M, and L of DDR5: from
 * memory. */
static const LidLabelType types[] = {
  { DDR3, 'U', LID_KIND_UNBUFFERED, 0, 0, FALSE, N_ ("unbuffered DIMM, no check bits") },
  { DDR3, 'E', LID_KIND_ECC_UNBUFFERED, 1, 8, FALSE, N_ ("unbuffered DIMM, 8 check bits") },
  { DDR3, 'R', LID_KIND_REGISTERED, 1, 8, TRUE, N_ ("registered DIMM, 8 check bits") },
  { DDR3, 'L', LID_KIND_LOAD_REDUCED, 1, 8, TRUE, N_ ("load-reduced DIMM, 8 check bits") },
  { DDR3, 'S', LID_KIND_SO_UNBUFFERED, 0, 0, FALSE, N_ ("unbuffered SO-DIMM, no check bits") },
  { DDR4, 'U', LID_KIND_UNBUFFERED, 0, 0, FALSE, N_ ("unbuffered DIMM, no check bits") },
  { DDR4, 'E', LID_KIND_ECC_UNBUFFERED, 1, 8, FALSE, N_ ("unbuffered DIMM, 8 check bits") },
  { DDR4, 'R', LID_KIND_REGISTERED, 1, 8, TRUE, N_ ("registered DIMM, 8 check bits") },
  { DDR4, 'L', LID_KIND_LOAD_REDUCED, 1, 8, TRUE, N_ ("load-reduced DIMM, 8 check bits") },
  { DDR4, 'S', LID_KIND_SO_UNBUFFERED, 0, 0, FALSE, N_ ("unbuffered SO-DIMM, no check bits") },
  { DDR4, 'T', LID_KIND_SO_ECC_UNBUFFERED, 1, 8, FALSE, N_ ("unbuffered SO-DIMM, 8 check bits") },
  { DDR5, 'U', LID_KIND_UNBUFFERED, 0, 0, FALSE, N_ ("unbuffered DIMM, no check bits") },
  { DDR5, 'E', LID_KIND_ECC_UNBUFFERED, 1, 8, FALSE,
    N_ ("unbuffered DIMM, 4 check bits in each half of the channel (EC4)") },
  { DDR5, 'R', LID_KIND_REGISTERED, 1, 16, TRUE,
    N_ ("registered DIMM, 8 check bits in each half of the channel (EC8)") },
  { DDR5, 'P', LID_KIND_REGISTERED, 1, 8, TRUE,
    N_ ("registered DIMM, 4 check bits in each half of the channel (EC4)") },
  { DDR5, 'L', LID_KIND_LOAD_REDUCED, 1, 16, TRUE,
    N_ ("load-reduced DIMM, 8 check bits in each half of the channel") },
  { DDR5, 'S', LID_KIND_SO_UNBUFFERED, 0, 0, FALSE, N_ ("unbuffered SO-DIMM, no check bits") },
  { DDR5, 'T', LID_KIND_SO_ECC_UNBUFFERED, 1, 8, FALSE,
    N_ ("unbuffered SO-DIMM, 4 check bits in each half of the channel (EC4)") },
  { DDR5, 'V', LID_KIND_SO_CLOCKED_UNBUFFERED, 0, 0, FALSE,
    N_ ("unbuffered SO-DIMM with a clock driver, no check bits") },
  { DDR5, 'C', LID_KIND_CLOCKED_UNBUFFERED, -1, -1, FALSE,
    N_ ("unbuffered DIMM with a clock driver") },
  { DDR5, 'M', LID_KIND_MULTIPLEXED_RANK, -1, -1, TRUE, N_ ("multiplexed-rank DIMM") },
};

/* The bandwidth a DDR3 label prints (MB/s, cut off), and the names shops give the later ones. */
static const struct
{
  LidGeneration generation;
  LidRate rate;
  const char *name;
} bandwidths[] = {
  { DDR3, 2400, "6400" },   { DDR3, 3200, "8500" },   { DDR3, 4000, "10600" },
  { DDR3, 4800, "12800" },  { DDR3, 5600, "14900" },  { DDR3, 6400, "17000" },
  { DDR4, 4800, "12800" },  { DDR4, 5600, "14900" },  { DDR4, 6400, "17000" },
  { DDR4, 7200, "19200" },  { DDR4, 8000, "21300" },  { DDR4, 8800, "23400" },
  { DDR4, 9600, "25600" },  { DDR5, 12000, "32000" }, { DDR5, 13200, "35200" },
  { DDR5, 14400, "38400" }, { DDR5, 15600, "41600" }, { DDR5, 16800, "44800" },
  { DDR5, 18000, "48000" }, { DDR5, 19200, "51200" }, { DDR5, 20400, "54400" },
  { DDR5, 21600, "57600" },
};

/* Only these pairs of rate and grade exist: data_rates.csv (JESD79-4 bins). */
static const struct
{
  LidRate rate;
  const char *grades;
} grades4[] = {
  { 4800, "J, K, L" },    { 5600, "L, M, N" },     { 6400, "N, P, R" },   { 7200, "P, R, T, U" },
  { 8000, "T, U, V, W" }, { 8800, "V, W, Y, AA" }, { 9600, "W, AA, AC" },
};

/* Grade A has no timing in data_rates.csv but stands in the grammar. */
static const char grades5[] = "A, AN, B, BN, C";

/* The letter of DDR4 follows tRCD in clocks: facts/standards.md section 2. */
static const struct
{
  const char *grade;
  guint clocks;
} clocks4[] = {
  { "J", 10 }, { "K", 11 }, { "L", 12 }, { "M", 13 }, { "N", 14 }, { "P", 15 },  { "R", 16 },
  { "T", 17 }, { "U", 18 }, { "V", 19 }, { "W", 20 }, { "Y", 21 }, { "AA", 22 }, { "AC", 24 },
};

/* Dies there are, in Gbit: the density codes of the SPD, facts/spd_fields.csv. */
static const guint dies3[] = { 1, 2, 4, 8, 0 };
static const guint dies4[] = { 4, 8, 12, 16, 24, 32, 0 };
static const guint dies5[] = { 8, 16, 24, 32, 48, 64, 0 };

/* JESD402-1B codes, in the order of SPD byte 233. Ranges are given where a source gave one. */
static const struct
{
  const char *code;
  const char *words;
} temperatures[] = {
  { "XT", N_ ("extended temperature, 0 to 95 °C") },
  { "NT", N_ ("normal temperature, 0 to 85 °C") },
  { "A1T", N_ ("automotive temperature range 1") },
  { "A2T", N_ ("automotive temperature range 2") },
  { "A3T", N_ ("automotive temperature range 3") },
  { "IT", N_ ("industrial temperature range") },
  { "ST", N_ ("temperature range ST") },
  { "ET", N_ ("temperature range ET") },
  { "RT", N_ ("temperature range RT") },
};

/**
 * lid_label_tables_type:
 *
 * Returns: (transfer none) (nullable): what the type letter says, NULL where there is none such
 */
const LidLabelType *
lid_label_tables_type (LidGeneration generation, char letter)
{
  for (guint i = 0; i < G_N_ELEMENTS (types); i++)
    if (types[i].generation == generation && types[i].letter == letter)
      return &types[i];
  return NULL;
}

const char *
lid_label_tables_type_letters (LidGeneration generation)
{
  return generation == DDR3   ? "U, E, R, L, S"
         : generation == DDR4 ? "U, E, R, L, S, T"
                              : "U, E, R, P, L, S, T, V, C, M";
}

/**
 * lid_label_tables_bandwidth_rate:
 * @digits: a module bandwidth as DDR3 labels print it
 * @length: its bytes
 *
 * Returns: the rate it stands for, or LID_RATE_UNKNOWN
 */
LidRate
lid_label_tables_bandwidth_rate (const char *digits, gsize length)
{
  for (guint i = 0; i < G_N_ELEMENTS (bandwidths) && bandwidths[i].generation == DDR3; i++)
    if (strlen (bandwidths[i].name) == length && strncmp (bandwidths[i].name, digits, length) == 0)
      return bandwidths[i].rate;
  return LID_RATE_UNKNOWN;
}

/**
 * lid_label_tables_bandwidth_name:
 *
 * Returns: (nullable): the module bandwidth in the trade's name of that rate, "21300"
 */
const char *
lid_label_tables_bandwidth_name (LidGeneration generation, LidRate rate)
{
  for (guint i = 0; i < G_N_ELEMENTS (bandwidths); i++)
    if (bandwidths[i].generation == generation && bandwidths[i].rate == rate)
      return bandwidths[i].name;
  return NULL;
}

/**
 * lid_label_tables_grades:
 *
 * Returns: the grades there are at a rate, ", " between them; "" for a rate without any
 */
const char *
lid_label_tables_grades (LidGeneration generation, LidRate rate)
{
  if (generation == DDR5)
    return lid_rate_is_step (DDR5, rate) ? grades5 : "";
  for (guint i = 0; generation == DDR4 && i < G_N_ELEMENTS (grades4); i++)
    if (grades4[i].rate == rate)
      return grades4[i].grades;
  return "";
}

gboolean
lid_label_tables_has_grade (LidGeneration generation, LidRate rate, const char *grade)
{
  gsize length = strlen (grade);

  for (const char *at = lid_label_tables_grades (generation, rate); *at != 0;)
    {
      gsize n = strcspn (at, ",");

      if (n == length && strncmp (at, grade, n) == 0)
        return TRUE;
      at += n;
      at += strspn (at, ", ");
    }
  return FALSE;
}

/**
 * lid_label_tables_grade_clocks:
 * @grade: a grade of DDR4
 *
 * Returns: tRCD in clocks, 0 where there is no such grade
 */
guint
lid_label_tables_grade_clocks (const char *grade)
{
  for (guint i = 0; i < G_N_ELEMENTS (clocks4); i++)
    if (strcmp (clocks4[i].grade, grade) == 0)
      return clocks4[i].clocks;
  return 0;
}

gboolean
lid_label_tables_has_die (LidGeneration generation, guint gbit)
{
  const guint *dies = generation == DDR3   ? dies3
                      : generation == DDR4 ? dies4
                      : generation == DDR5 ? dies5
                                           : NULL;

  for (; dies != NULL && *dies != 0; dies++)
    if (*dies == gbit)
      return TRUE;
  return FALSE;
}

/* I, O, Q, S, X and Z name no card; they look too much like figures. */
gboolean
lid_label_tables_is_card_letter (char c)
{
  return c != 0 && strchr ("ABCDEFGHJKLMNPRTUVWY", c) != NULL;
}

/**
 * lid_label_tables_temperature:
 *
 * Returns: (nullable): what the code says, untranslated; NULL where there is none such
 */
const char *
lid_label_tables_temperature (const char *code)
{
  for (guint i = 0; i < G_N_ELEMENTS (temperatures); i++)
    if (strcmp (temperatures[i].code, code) == 0)
      return temperatures[i].words;
  return NULL;
}
