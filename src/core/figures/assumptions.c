/* SPDX-License-Identifier: GPL-3.0-or-later */
/* assumptions.c: what the expected bandwidth rests on, said where the figure is shown. Sources:
 * product.md 6, "Expected bandwidth"; shared/facts/population.md 4.6 (constants) and 4.7 (what must
 * be printed near any figure). */
#include "figures/assumptions.h"

#include "figures/regions.h"

#include <glib/gi18n-lib.h>

static const struct
{
  const char *id;
  gint64 num, den;
  const char *text;
  const char *source;
} constants[LID_N_CONSTANTS] = {
  [LID_CONSTANT_EFFICIENCY]
  = { "efficiency", LID_BOARD_EFFICIENCY, 10000,
      N_ ("A streaming read reaches %s of the peak; processors with few cores stop lower."),
      "from memory: 0.75 to 0.9 is usual" },
  [LID_CONSTANT_BYTES] = { "bytes-per-transfer", 8, 1,
                           N_ ("A channel carries %s bytes a transfer; check bits carry none."),
                           "JEDEC JESD79-4, JESD79-5" },
  [LID_CONSTANT_MODULES_PER_CHANNEL]
  = { "modules-per-channel", 1, 1,
      N_ ("A second module on a channel counts × %s beyond its rate; measured, a few per cent."),
      "Denneman, Memory Deep Dive; size from memory" },
  [LID_CONSTANT_MIRRORED_READS]
  = { "mirrored-reads", 1, 1,
      N_ ("Mirrored counts reads only, × %s; writes go to both sides and reach about half."),
      "a maker's guide" },
  [LID_CONSTANT_PAIRED]
  = { "paired", 1, 2, N_ ("Paired: two channels work as one, × %s."), "a maker's guide" },
};

/**
 * lid_assumptions_constant:
 * @constant: one of the model's constants
 *
 * Returns: its value, exactly
 */
LidRatio
lid_assumptions_constant (LidConstant constant)
{
  g_return_val_if_fail ((guint)constant < LID_N_CONSTANTS, LID_RATIO_UNKNOWN);
  return lid_ratio (constants[constant].num, constants[constant].den);
}

static void
free_one (gpointer data)
{
  LidAssumption *one = data;

  g_free (one->text);
  g_free (one);
}

static LidAssumption *
add (GPtrArray *list, const char *id, gboolean caveat, char *text, const char *source)
{
  LidAssumption *one = g_new0 (LidAssumption, 1);

  *one = (LidAssumption){ id, caveat, LID_RATIO_UNKNOWN, text, source };
  g_ptr_array_add (list, one);
  return one;
}

/* @value: the board's own where it has one */
static void
add_constant (GPtrArray *list, LidConstant constant, LidRatio value, const char *source)
{
  g_autofree char *digits = g_strdup_printf ("%.4g", lid_ratio_to_double (value));
  LidAssumption *one = add (list, constants[constant].id, FALSE,
                            g_strdup_printf (_ (constants[constant].text), digits),
                            source != NULL ? source : constants[constant].source);

  one->value = value;
}

static void
add_fixed (GPtrArray *list, LidConstant constant)
{
  add_constant (list, constant, lid_assumptions_constant (constant), NULL);
}

static char *
ways_words (guint32 ways)
{
  GString *out = g_string_new (NULL);

  for (guint n = 1; n < 32; n++)
    if ((ways >> n & 1) == 1)
      g_string_append_printf (out, "%s%u", out->len > 0 ? ", " : "", n);
  return g_string_free (out, FALSE);
}

/* Where a processor or a NUMA split brings more ways, its source is the one that tells. */
static const char *
ways_source (const LidBoard *board, guint32 ways)
{
  for (guint i = 0; i < board->n_ways_also; i++)
    if ((board->ways_also[i].ways & ~ways) == 0 && (board->ways_also[i].ways & ~board->ways) != 0)
      return board->ways_also[i].source;
  return board->ways_source != NULL ? board->ways_source : "the board's definition";
}

static void
add_regions (GPtrArray *list, const LidBoard *board, const LidFigures *figures)
{
  LidRegionModel model = board->region_model;
  g_autofree char *ways = ways_words (figures->ways);
  const char *source = ways_source (board, figures->ways);

  if (!board->region_model_told)
    add (list, "regions", FALSE,
         g_strdup (_ ("The board's way of interleaving is not told: layers are taken, all channels "
                      "that have something left going together.")),
         "a maker's guide");
  else if (model == LID_REGIONS_LAYERED)
    add (list, "regions", FALSE,
         g_strdup (_ ("All channels that have something left go together, layer by layer.")),
         source);
  else if (model == LID_REGIONS_WAYS)
    add (list, "regions", FALSE,
         g_strdup_printf (_ ("Channels go together in these numbers: %s."), ways), source);
  else
    add (list, "regions", FALSE,
         g_strdup_printf (_ ("Only channels of equal capacity go together, in these numbers: %s."),
                          ways),
         source);
}

/* When a caveat is said beside a figure; the page about bandwidth has them all. */
typedef enum
{
  ALWAYS,
  WHEN_UNEVEN,
  WHEN_PARTIAL,
  WHEN_UNLIKE,
  WHEN_MATCHED,
  ON_THE_PAGE
} When;

#define MEASURED "published measurements"

/* Source: shared/facts/population.md 4.6 and 4.7. */
static const struct
{
  const char *id;
  When when;
  const char *text;
  const char *source;
} caveats[] = {
  { "firmware", ALWAYS,
    N_ ("No model knows the firmware: the three region models differ on the same modules."),
    "Linux kernel, interleave modes of three families" },
  { "range", WHEN_UNEVEN,
    N_ ("An uneven machine gives a range: a test may land in the fast region or in the slow one."),
    MEASURED },
  { "partial", WHEN_PARTIAL,
    N_ ("With some channels empty and the others alike, measurements follow the number of "
        "channels, often slightly better."),
    MEASURED },
  { "unlike-nodes", WHEN_UNLIKE,
    N_ ("Each processor or node reads what it holds, and here these are unlike. The figure is how "
        "long reading all of it takes; a test that gives every core as much to read can reach "
        "more, or end with the slowest of them and reach less."),
    "product definition of this program; how such tests share out work: common practice, no "
    "source" },
  { "not-performance", ALWAYS,
    N_ ("Memory bandwidth is not the speed of the machine: many programs hardly notice it."),
    "a public comparison of an integer benchmark at a third of the bandwidth" },
  { "few-cores", ON_THE_PAGE,
    N_ ("A processor with few cores or few core dies stops lower whatever the modules: its inner "
        "links fill first, and more modules cannot help."),
    MEASURED },
  { "ranks", ON_THE_PAGE,
    N_ ("At the same rate a second module on a channel, or more ranks, adds a few per cent, a "
        "third "
        "or fourth rank little; more than four begin to cost. The model counts none of it."),
    "Denneman, Memory Deep Dive; sizes from memory" },
  { "old-rates", ON_THE_PAGE,
    N_ ("Bandwidth follows the data rate on recent machines; on at least one old family of three "
        "channels a higher rate brought less than its share."),
    MEASURED },
  { "far-memory", ON_THE_PAGE,
    N_ ("Each node is read by its own cores. Memory read from another processor is slower, and the "
        "model does not count it."),
    "makers' guides, not named" },
  { "writes", ON_THE_PAGE,
    N_ ("Only reading is modelled. Writing and mixed work reach less; under mirroring writes go to "
        "both sides."),
    "common practice, no source" },
  { "controllers", ON_THE_PAGE,
    N_ ("The same number of channels carries more when they hang on several memory controllers "
        "than on one, and some go together only with their counterparts on the other controller. "
        "The model counts channels alone."),
    "a maker's guide, not named (S11); Linux kernel and firmware, rules for interleave sets" },
  { "matched", WHEN_MATCHED,
    N_ ("Where a board's definition says that channels of several controllers go together only as "
        "many of each, the slow end of the range counts that, and nothing else does: what all of "
        "it reaches, the even share and the regions count channels alone, and plans are compared "
        "by those. What the firmware makes of such an uneven machine is not published."),
    "Linux kernel and firmware, rules for interleave sets; what is compared: product definition of "
    "this program" },
  { "sparing", ON_THE_PAGE,
    N_ ("Sparing costs bandwidth too. The model counts none of it, only the capacity."),
    "a maker's guide, not named (S11)" },
  { "channels-told", ON_THE_PAGE,
    N_ ("Where the channels of a machine are not told there is no figure at all: a guess at them "
        "would be a guess at everything."),
    "common practice, no source" },
};

/* Memory of one node, and how long reading it takes, in MiB of one channel. */
typedef struct
{
  gint64 mib, steps;
} Load;

/* Adds up the regions of a node from @at on, which is moved behind them. */
static Load
load_of_node (const LidFigures *figures, guint socket, guint *at)
{
  const LidSocketFigures *here = &figures->sockets[socket];
  const LidRegion *first = &g_array_index (figures->regions, LidRegion, here->first_region + *at);
  Load load = { 0 };

  for (; *at < here->n_regions; (*at)++)
    {
      const LidRegion *region
          = &g_array_index (figures->regions, LidRegion, here->first_region + *at);

      if (region->node != first->node)
        break;
      load.mib += region->mib;
      load.steps += region->mib / region->ways;
    }
  return load;
}

/* Whether a node with memory holds more than another, or is read in other parts. */
static gboolean
is_unlike (const LidFigures *figures)
{
  Load first = { 0 };
  gboolean unlike = FALSE;

  for (guint s = 0; s < figures->n_sockets; s++)
    for (guint at = 0; at < figures->sockets[s].n_regions;)
      {
        Load here = load_of_node (figures, s, &at);

        unlike = unlike || (first.mib != 0 && (here.mib != first.mib || here.steps != first.steps));
        first = here;
      }
  return unlike;
}

static void
add_caveats (GPtrArray *list, const LidBoard *board, const LidFigures *figures)
{
  gboolean uneven = lid_ratio_compare (figures->worst_mbs, figures->best_mbs) != 0;
  gboolean partial = !uneven && figures->channels_in_use < figures->channels_of_fitted;
  gboolean matched = uneven && board->matched_source != NULL;

  for (guint i = 0; i < G_N_ELEMENTS (caveats); i++)
    if (caveats[i].when == ALWAYS || (caveats[i].when == WHEN_UNEVEN && uneven)
        || (caveats[i].when == WHEN_PARTIAL && partial)
        || (caveats[i].when == WHEN_UNLIKE && is_unlike (figures))
        || (caveats[i].when == WHEN_MATCHED && matched))
      add (list, caveats[i].id, TRUE, g_strdup (_ (caveats[i].text)), caveats[i].source);
}

/**
 * lid_assumptions_all:
 *
 * Returns: (transfer full) (element-type LidAssumption): every constant of the model with its
 *   default, then everything it is known not to know
 */
GPtrArray *
lid_assumptions_all (void)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (free_one);

  for (guint i = 0; i < LID_N_CONSTANTS; i++)
    add_fixed (list, (LidConstant)i);
  for (guint i = 0; i < G_N_ELEMENTS (caveats); i++)
    add (list, caveats[i].id, TRUE, g_strdup (_ (caveats[i].text)), caveats[i].source);
  return list;
}

/**
 * lid_assumptions_new:
 * @board: a board
 * @figures: figures of a population of it
 *
 * Returns: (transfer full) (element-type LidAssumption): what these figures rest on, constants
 * first, then what the model does not know; empty where there is no expected bandwidth
 */
GPtrArray *
lid_assumptions_new (const LidBoard *board, const LidFigures *figures)
{
  GPtrArray *list = g_ptr_array_new_with_free_func (free_one);

  if (!lid_ratio_is_known (figures->whole_mbs))
    return list;
  add_constant (list, LID_CONSTANT_EFFICIENCY, lid_ratio (board->efficiency, 10000),
                board->efficiency_source);
  add_fixed (list, LID_CONSTANT_BYTES);
  add_fixed (list, LID_CONSTANT_MODULES_PER_CHANNEL);
  if (figures->mode.effect == LID_EFFECT_TAKEN && figures->mode.asked == LID_MODE_MIRRORED)
    add_fixed (list, LID_CONSTANT_MIRRORED_READS);
  if (figures->mode.effect == LID_EFFECT_TAKEN && figures->mode.asked == LID_MODE_PAIRED)
    add_fixed (list, LID_CONSTANT_PAIRED);
  add_regions (list, board, figures);
  add_caveats (list, board, figures);
  return list;
}
