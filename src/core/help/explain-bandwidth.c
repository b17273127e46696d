/* SPDX-License-Identifier: GPL-3.0-or-later */
/* explain-bandwidth.c: the one page about expected bandwidth: what it is made of, which constants
 * stand in it, and where it is known to be off. Definitions: product.md 6; caveats:
 * shared/facts/population.md 4.7. */
#include "figures/assumptions.h"
#include "figures/regions.h"
#include "help/explain-private.h"

#include <glib/gi18n-lib.h>

/* The example of population.md 4.7: six channels that hold 2 1 1 2 1 1. */
static const LidRegionChannel example[]
    = { { 2, 0, 0 }, { 1, 0, 1 }, { 1, 0, 2 }, { 2, 0, 3 }, { 1, 0, 4 }, { 1, 0, 5 } };

/* What share of all six channels @model carries, in per cent: S ÷ Σ size ÷ ways, of six. */
static int
share_of_example (LidRegionModel model)
{
  const LidRegionRule rule
      = { model, model == LID_REGIONS_LAYERED ? 0 : 1u << 1 | 1u << 2 | 1u << 3 | 1u << 4 | 1u << 6,
          FALSE };
  g_autoptr (GArray) regions = g_array_new (FALSE, FALSE, sizeof (LidRegion));
  double sum = 0, steps = 0;

  lid_regions_form (rule, example, G_N_ELEMENTS (example), regions);
  for (guint i = 0; i < regions->len; i++)
    {
      const LidRegion *region = &g_array_index (regions, LidRegion, i);

      sum += (double)region->mib;
      steps += (double)region->mib / region->ways;
    }
  return (int)(sum / steps / G_N_ELEMENTS (example) * 100 + 0.5);
}

static void
add_models (LidExplanation *explanation)
{
  lid_explain_add (
      explanation, _ ("How memory falls into regions"),
      g_strdup_printf (
          _ ("A board's definition names one of three models. Layered: all channels with something "
             "left go together, layer by layer. Ways: the same, but only some numbers of channels "
             "can go together; a newer processor, or a split into nodes, can bring others. Equal "
             "groups: only channels that hold the same, none is split. Six "
             "channels that hold 2 1 1 2 1 1 carry %d %%, %d %% and %d %% of what six full ones "
             "would."),
          share_of_example (LID_REGIONS_LAYERED), share_of_example (LID_REGIONS_WAYS),
          share_of_example (LID_REGIONS_EQUAL_GROUPS)));
}

static void
add_list (LidExplanation *explanation, const GPtrArray *list, gboolean caveats, const char *heading)
{
  for (guint i = 0; i < list->len; i++)
    {
      const LidAssumption *one = list->pdata[i];

      if (one->caveat != caveats)
        continue;
      lid_explain_add (explanation, heading,
                       g_strdup_printf (_ ("%s Source: %s."), one->text, one->source));
      heading = NULL;
    }
}

/**
 * lid_explain_bandwidth:
 *
 * Returns: (transfer full): what the expected bandwidth of every machine rests on
 */
LidExplanation *
lid_explain_bandwidth (void)
{
  LidExplanation *explanation = lid_explain_start (_ ("Expected bandwidth, a model"));
  g_autoptr (GPtrArray) list = lid_assumptions_all ();

  lid_explain_add (
      explanation, _ ("What it is"),
      g_strdup (
          _ ("How fast all memory could be read once, or the best and the worst part of it. A "
             "region's bandwidth is ways × rate × 8 bytes × efficiency; all of it takes the "
             "sum of size ÷ bandwidth over the regions. Processors, and the nodes setup cuts "
             "them into, read at the same time, each its own memory: the slowest ends it. It "
             "is reckoned, never measured.")));
  add_models (explanation);
  add_list (explanation, list, FALSE, _ ("Its constants"));
  add_list (explanation, list, TRUE, _ ("Where it is known to be off"));
  return explanation;
}
