/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-balance.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>

/* The figures of the page for the owner, and what their difference means, in whole sentences. A new
 * row is one function and one line in figures_table. */
static const LidFigures *
figures_of (const LidBalanceSide *side)
{
  return side->assessment != NULL ? &side->assessment->figures : NULL;
}

static gboolean
knows_whole (const LidFigures *figures)
{
  return figures != NULL && figures->starts && figures->channels_told
         && lid_ratio_is_known (figures->whole_mbs);
}

static gboolean
is_even (const LidFigures *figures)
{
  return lid_ratio_compare (figures->worst_mbs, figures->best_mbs) == 0;
}

/**
 * lid_sheet_balance_figures_modelled:
 * @even: (out): whether one figure tells all
 *
 * Returns: whether @side shows a bandwidth at all
 */
gboolean
lid_sheet_balance_figures_modelled (const LidBalanceSide *side, gboolean *even)
{
  const LidFigures *figures = figures_of (side);

  *even = !knows_whole (figures) || is_even (figures);
  return knows_whole (figures);
}

static int
percent (LidRatio share)
{
  return (int)lid_ratio_round (lid_ratio_mul (share, lid_ratio (100, 1)));
}

static void
add (GString *out, char *sentence)
{
  g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "", sentence);
  g_free (sentence);
}

static guint
count_moved (const LidChanges *changes)
{
  guint n = 0;

  for (guint i = 0; i < changes->n_slots; i++)
    n += changes->slots[i].kind == LID_CHANGE_MOVED;
  return n;
}

static void
say_hands (GString *out, const LidChanges *changes)
{
  guint moved = count_moved (changes);

  if (changes->n_new == 0 && changes->n_leaving == 0 && moved > 0)
    {
      add (out, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Move %u module, buy nothing.",
                                              "Move %u modules, buy nothing.", moved),
                                 moved));
      return;
    }
  if (changes->n_new > 0)
    add (out, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Fit %u new module.",
                                            "Fit %u new modules.", changes->n_new),
                               changes->n_new));
  if (moved > 0)
    add (out, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Move %u to another slot.",
                                            "Move %u to other slots.", moved),
                               moved));
  if (changes->n_leaving > 0)
    add (out, g_strdup_printf (
                  g_dngettext (GETTEXT_PACKAGE, "Take %u out.", "Take %u out.", changes->n_leaving),
                  changes->n_leaving));
  if (changes->n_new + moved + changes->n_leaving == 0)
    add (out, g_strdup (_ ("No module changes its place.")));
}

/* Twice and more as "2.5 times", less as a share: what people say. */
static char *
say_difference (const LidFigures *before, const LidFigures *after)
{
  LidRatio times = lid_ratio_div (after->whole_mbs, before->whole_mbs);
  int hundredths = percent (times);

  if (hundredths >= 150)
    return g_strdup_printf (
        _ ("By a model, memory bandwidth becomes %d.%d times what it was as found."),
        (hundredths + 5) / 100, (hundredths + 5) / 10 % 10);
  if (hundredths > 102)
    return g_strdup_printf (_ ("By a model, memory bandwidth rises by %d %%."), hundredths - 100);
  if (hundredths < 98)
    return g_strdup_printf (_ ("By a model, memory bandwidth falls by %d %%."), 100 - hundredths);
  return g_strdup (_ ("By a model, memory bandwidth stays what it was."));
}

static char *
say_share (const LidFigures *figures)
{
  int share = percent (figures->even_share);

  if (share >= 100)
    return g_strdup (_ ("All channels carry alike."));
  return g_strdup_printf (
      _ ("Of what all channels could carry, %d %% is left when all of the memory is read once."),
      share);
}

static void
say_effect (GString *out, const LidFigures *before, const LidFigures *after)
{
  if (after != NULL && !after->starts)
    add (out, g_strdup (_ ("By the rules known here the machine does not start like this.")));
  else if (after != NULL && !after->channels_told)
    add (out, g_strdup (_ ("How the slots share the channels is not told, so nothing is said of "
                           "bandwidth.")));
  else if (before != NULL && knows_whole (before) && knows_whole (after))
    add (out, say_difference (before, after));
  else if (after != NULL && lid_ratio_is_known (after->even_share))
    add (out, say_share (after));
}

/**
 * lid_sheet_balance_figures_lead:
 *
 * Returns: (transfer full): what is done and what comes of it, in a few short sentences
 */
char *
lid_sheet_balance_figures_lead (const LidBalance *balance)
{
  GString *out = g_string_new (NULL);
  gboolean both = balance->found.population != NULL && balance->planned.population != NULL;

  if (both)
    {
      say_hands (out, balance->changes);
      say_effect (out, figures_of (&balance->found), figures_of (&balance->planned));
    }
  else
    say_effect (
        out, NULL,
        figures_of (balance->planned.population != NULL ? &balance->planned : &balance->found));
  return g_string_free (out, FALSE);
}

static gint64
fitted_mib (const LidBalanceSide *side)
{
  return side->assessment != NULL ? side->assessment->figures.fitted_mib : 0;
}

/**
 * lid_sheet_balance_figures_total:
 *
 * Returns: (transfer full): the capacity of a side: what can be used, and of how much
 */
char *
lid_sheet_balance_figures_total (const LidBalanceSide *side)
{
  const LidFigures *figures = figures_of (side);
  g_autofree char *fitted = lid_units_capacity (fitted_mib (side)), *usable = NULL;

  if (figures != NULL && figures->starts && !figures->capacity_known)
    return g_strdup_printf (_ ("%s or more"), fitted);
  if (figures == NULL || !figures->starts || figures->usable_mib == figures->fitted_mib)
    return g_steal_pointer (&fitted);
  usable = lid_units_capacity (figures->usable_mib);
  return g_strdup_printf (_ ("%s of %s"), usable, fitted);
}

/**
 * lid_sheet_balance_figures_right:
 *
 * Returns: (transfer full): what stands under the large total
 */
char *
lid_sheet_balance_figures_right (const LidBalance *balance)
{
  g_autofree char *was = NULL;

  if (balance->found.population == NULL || balance->planned.population == NULL)
    return g_strdup (_ ("of memory"));
  if (fitted_mib (&balance->found) == fitted_mib (&balance->planned))
    return g_strdup (_ ("of memory, as before"));
  was = lid_units_capacity (fitted_mib (&balance->found));
  return g_strdup_printf (_ ("of memory, %s as found"), was);
}

static char *
say_rate (const LidFigures *figures)
{
  if (!figures->starts)
    return g_strdup (_ ("does not start"));
  return figures->running == LID_RATE_UNKNOWN ? g_strdup (_ ("not known"))
                                              : lid_units_rate (figures->running);
}

static char *
say_channels (const LidFigures *figures)
{
  if (!figures->starts)
    return g_strdup ("–");
  if (!figures->channels_told)
    return g_strdup (_ ("not told"));
  return g_strdup_printf (_ ("%u of %u"), figures->channels_in_use, figures->channels_of_fitted);
}

static char *
say_even (const LidFigures *figures)
{
  if (!figures->starts)
    return g_strdup ("–");
  if (!lid_ratio_is_known (figures->even_share))
    return g_strdup (_ ("not known"));
  return g_strdup_printf (_ ("%d %%"), percent (figures->even_share));
}

static char *
say_bandwidth (const LidFigures *figures)
{
  if (!figures->starts)
    return g_strdup ("–");
  return knows_whole (figures) ? lid_units_bandwidth (lid_ratio_round (figures->whole_mbs))
                               : g_strdup (_ ("not known"));
}

/* An uneven population is a range, not a number: product.md 6. */
static char *
say_places (const LidFigures *figures)
{
  if (!figures->starts || !knows_whole (figures))
    return g_strdup ("–");
  if (is_even (figures))
    return g_strdup (_ ("all alike"));
  return lid_units_bandwidth_range (lid_ratio_round (figures->worst_mbs),
                                    lid_ratio_round (figures->best_mbs));
}

/* The rows under each side, in the owner's order. */
static const struct
{
  const char *label;
  char *(*say) (const LidFigures *figures);
} figures_table[] = {
  { N_ ("Each channel runs at"), say_rate },
  { N_ ("Channels in use"), say_channels },
  { N_ ("Even share"), say_even },
  { N_ ("Bandwidth, a model"), say_bandwidth },
  { N_ ("its slow and fast places"), say_places },
};

guint
lid_sheet_balance_figures_n (void)
{
  return G_N_ELEMENTS (figures_table);
}

const char *
lid_sheet_balance_figures_label (guint figure)
{
  return _ (figures_table[figure].label);
}

/**
 * lid_sheet_balance_figures_value:
 *
 * Returns: (transfer full): the value of a row; never empty
 */
char *
lid_sheet_balance_figures_value (const LidBalanceSide *side, guint figure)
{
  const LidFigures *figures = figures_of (side);

  return figures != NULL ? figures_table[figure].say (figures) : g_strdup (_ ("not known"));
}
