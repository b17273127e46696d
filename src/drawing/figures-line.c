/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/figures-line.h"

#include "base/units.h"
#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>

static void
add (LidFiguresLine *line, const char *help, char *large, char *small)
{
  line->words[line->n++] = (LidFigureWords){ .large = large, .small = small, .help = help };
}

/**
 * lid_figures_line_cap:
 * @what: what holds the running rate down
 *
 * Returns: (transfer none): its name in the reader's language
 */
const char *
lid_figures_line_cap (LidCap what)
{
  switch (what)
    {
    case LID_CAP_MODULE:
      return _ ("the modules");
    case LID_CAP_TABLE:
      return _ ("the board’s rate table");
    case LID_CAP_PROCESSOR:
      return _ ("the processor");
    case LID_CAP_BOARD:
      return _ ("the board");
    case LID_CAP_FIRMWARE:
      return _ ("the firmware");
    case LID_CAP_SETUP:
      return _ ("setup");
    case LID_CAP_INVENTORY:
    case LID_N_CAPS:
    default:
      return _ ("as the machine reports");
    }
}

static void
add_capacity (LidFiguresLine *line, const LidFigures *figures)
{
  g_autofree char *fitted = lid_units_capacity (figures->fitted_mib);

  if (!figures->starts)
    add (line, "fitted usable", g_steal_pointer (&fitted), g_strdup (_ ("fitted")));
  else if (!figures->capacity_known)
    add (line, "fitted usable", g_strdup (_ ("not known")),
         g_strdup (_ ("a module’s size is not told")));
  else if (figures->mode.effect == LID_EFFECT_REFUSED)
    add (line, "fitted usable", lid_units_capacity (figures->usable_mib),
         g_strdup (_ ("can be used; the memory mode is refused")));
  else if (!figures->usable_known)
    add (line, "fitted usable", g_steal_pointer (&fitted),
         g_strdup (_ ("fitted; what the mode leaves is not known")));
  else if (figures->mode.effect != LID_EFFECT_PLAIN)
    {
      g_autofree char *mode = lid_mode_words_name (figures->mode.asked);

      add (line, "fitted usable", lid_units_capacity (figures->usable_mib),
           figures->mode.asked == LID_MODE_SPARED
               ? g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                               "can be used, spared by %u rank; %s fitted",
                                               "can be used, spared by %u ranks; %s fitted",
                                               figures->mode.spare_ranks),
                                  figures->mode.spare_ranks, fitted)
               : g_strdup_printf (_ ("can be used, %s; %s fitted"), mode, fitted));
    }
  else if (figures->usable_mib == figures->fitted_mib)
    add (line, "fitted usable", g_steal_pointer (&fitted),
         g_strdup (_ ("fitted, all of it can be used")));
  else
    add (line, "fitted usable", lid_units_capacity (figures->usable_mib),
         g_strdup_printf (_ ("can be used, of %s fitted"), fitted));
}

static void
add_stop (LidFiguresLine *line, const LidAssessment *assessment)
{
  const char *why = _ ("see what stops it");

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (finding->grade == LID_GRADE_STOPS && finding->stops == LID_STOPS_MACHINE)
        {
          why = lid_finding_rule_title (finding);
          break;
        }
    }
  add (line, "stops", g_strdup (_ ("does not start")), g_strdup (why));
}

static void
add_rate (LidFiguresLine *line, const LidFigures *figures)
{
  const LidRateLimit *binding = NULL;

  for (guint i = 0; i < figures->n_limits && binding == NULL; i++)
    if (figures->limits[i].binding)
      binding = &figures->limits[i];
  if (figures->running == LID_RATE_UNKNOWN)
    add (line, "runs-at", g_strdup (_ ("rate not known")), g_strdup (_ ("a rating is not told")));
  else
    add (line, "runs-at", g_strdup_printf (_ ("runs at %u"), lid_rate_mts (figures->running)),
         binding == NULL
             ? g_strdup (_ ("MT/s"))
             : g_strdup_printf (_ ("MT/s; held by %s"), lid_figures_line_cap (binding->what)));
}

/* An even population shows one figure, an uneven one the range: product.md 6. */
static void
add_bandwidth (LidFiguresLine *line, const LidFigures *figures)
{
  g_autofree char *whole = NULL;

  if (!figures->channels_told || !lid_ratio_is_known (figures->whole_mbs))
    {
      add (line, "bandwidth", g_strdup (_ ("bandwidth not known")),
           g_strdup (figures->channels_told ? _ ("a rate, a size or a processor is not told")
                                            : _ ("channels are not told")));
      return;
    }
  whole = lid_units_bandwidth (lid_ratio_round (figures->whole_mbs));
  if (lid_ratio_compare (figures->worst_mbs, figures->best_mbs) == 0)
    add (line, "bandwidth", g_steal_pointer (&whole),
         g_strdup (_ ("reading all of it once; a model")));
  else
    add (line, "range bandwidth region",
         lid_units_bandwidth_range (lid_ratio_round (figures->worst_mbs),
                                    lid_ratio_round (figures->best_mbs)),
         g_strdup_printf (_ ("reading all of it once: %s; a model"), whole));
  line->words[line->n - 1].model = TRUE;
}

static void
add_channels (LidFiguresLine *line, const LidFigures *figures)
{
  if (!figures->channels_told)
    return;
  add (line, "channels-in-use even-share",
       g_strdup_printf (_ ("%u of %u"), figures->channels_in_use, figures->channels_of_fitted),
       lid_ratio_is_known (figures->even_share) ? g_strdup_printf (
           _ ("channels in use, even share %d %%"),
           (int)lid_ratio_round (lid_ratio_mul (figures->even_share, lid_ratio (100, 1))))
                                                : g_strdup (_ ("channels in use")));
}

/**
 * lid_figures_line_new:
 * @assessment: of the population shown
 *
 * Definitions: product.md 6. What is not known says why.
 *
 * Returns: (transfer full): two to four figures, the most asked first
 */
LidFiguresLine *
lid_figures_line_new (const LidAssessment *assessment)
{
  LidFiguresLine *line = g_new0 (LidFiguresLine, 1);
  const LidFigures *figures = &assessment->figures;

  add_capacity (line, figures);
  if (!figures->starts)
    {
      add_stop (line, assessment);
      return line;
    }
  add_rate (line, figures);
  add_bandwidth (line, figures);
  add_channels (line, figures);
  return line;
}

/**
 * lid_figures_line_compare:
 * @line: of what is shown
 * @before: of as found
 *
 * Adds to each figure what it was, where it was another.
 */
void
lid_figures_line_compare (LidFiguresLine *line, const LidAssessment *before)
{
  g_autoptr (LidFiguresLine) was = lid_figures_line_new (before);

  for (guint i = 0; i < MIN (line->n, was->n); i++)
    if (g_strcmp0 (line->words[i].large, was->words[i].large) != 0)
      {
        gboolean rate
            = i == 1 && before->figures.starts && before->figures.running != LID_RATE_UNKNOWN;

        line->words[i].was
            = rate ? g_strdup_printf (_ ("was %u MT/s"), lid_rate_mts (before->figures.running))
                   : g_strdup_printf (_ ("was %s"), was->words[i].large);
      }
}

/**
 * lid_figures_line_to_text:
 *
 * The large words; the count of channels says nothing without its small ones.
 *
 * Returns: (transfer full): "64 GB · runs at 2933 · 94 GB/s · 4 of 4 channels in use, even share
 *   100 %"
 */
char *
lid_figures_line_to_text (const LidFiguresLine *line)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < line->n; i++)
    {
      if (out->len > 0)
        g_string_append (out, " · ");
      g_string_append (out, line->words[i].large);
      if (i == LID_FIGURES_LINE_MOST - 1)
        g_string_append_printf (out, " %s", line->words[i].small);
    }
  return g_string_free (out, FALSE);
}

void
lid_figures_line_free (LidFiguresLine *line)
{
  for (guint i = 0; i < line->n; i++)
    {
      g_free (line->words[i].large);
      g_free (line->words[i].small);
      g_free (line->words[i].was);
    }
  g_free (line);
}
