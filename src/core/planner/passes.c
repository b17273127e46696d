/* SPDX-License-Identifier: GPL-3.0-or-later */
/* passes.c: the rates and the fullest channels that populations can have:
 * paragraph 3 of search.c.
 *
 * A machine runs at the least of its limits, and each limit is one of a module,
 * a row of the table, a processor, the board, the firmware, setup or the
 * inventory (running-rate.c). Without a voltage in the table, what a filling
 * runs at when it is alone is the least of all its own and of the machine's, so
 * those values suffice; otherwise every value that stands anywhere is one more.
 * A value too many costs a pass and nothing else. */
#include "planner/search.h"

static gboolean
is_by_channel (const LidPlanSearch *search)
{
  LidMode mode = search->judge->settings->mode;

  if (search->front->what == LID_WISH_CHEAPEST)
    return FALSE;
  return mode == LID_MODE_PLAIN || mode == LID_MODE_PARTLY_MIRRORED;
}

static int
compare_falling (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x > y ? -1 : x < y;
}

static void
add_value (GArray *values, gint64 value)
{
  for (guint i = 0; i < values->len; i++)
    if (g_array_index (values, gint64, i) == value)
      return;
  g_array_append_val (values, value);
}

/* Limits that no filling by itself may show: those of a table with voltages, of
 * machines of which something is not told. */
static void
add_limits (const LidPlanSearch *search, GArray *rates)
{
  const LidBoard *board = search->judge->question->board;
  const LidPopulation *found = search->judge->question->as_found;

  for (guint i = 0; i < board->n_rates; i++)
    add_value (rates, board->rates[i].rate);
  for (guint i = 0; i < board->n_processors; i++)
    for (guint k = 0; k < LID_N_KINDS; k++)
      add_value (rates, board->processors[i].rate[k]);
  for (guint i = 0; i < board->n_firmware; i++)
    add_value (rates, board->firmware[i].ceiling);
  add_value (rates, board->rate_ceiling);
  add_value (rates, search->judge->settings->setup_limit);
  for (guint i = 0; found != NULL && i < found->n_slots; i++)
    add_value (rates, found->slots[i].configured);
}

/**
 * lid_plan_passes_rates:
 *
 * Returns: (element-type gint64) (transfer full): every rate a population can
 * have, the highest first, without "not known"
 */
GArray *
lid_plan_passes_rates (const LidPlanSearch *search)
{
  const LidBoard *board = search->judge->question->board;
  GArray *rates = g_array_new (FALSE, FALSE, sizeof (gint64));

  if (search->front->what == LID_WISH_CHEAPEST || !search->judge->has_speed)
    return rates;
  for (guint g = 0; g < search->fillings->n_groups; g++)
    for (guint f = 0; f < search->fillings->of_group[g]->len; f++)
      {
        LidRate rate = lid_plan_fillings_at (search->fillings, g, f)->rate;

        if (rate != G_MAXUINT32)
          add_value (rates, rate);
      }
  if (lid_plan_fillings_voltage_matters (board) || search->fillings->unrated)
    add_limits (search, rates);
  g_array_sort (rates, compare_falling);
  while (rates->len > 0 && g_array_index (rates, gint64, rates->len - 1) == LID_RATE_UNKNOWN)
    g_array_set_size (rates, rates->len - 1);
  if (board->rate_per_socket)
    g_array_set_size (rates, MIN (rates->len, 1));
  return rates;
}

/**
 * lid_plan_passes_sizes:
 *
 * Returns: (element-type gint64) (transfer full): every capacity the fullest
 * channel can have, the largest first; 0 alone where a memory mode leaves less
 * on a channel than is in it
 */
GArray *
lid_plan_passes_sizes (const LidPlanSearch *search)
{
  GArray *sizes = g_array_new (FALSE, FALSE, sizeof (gint64));
  gint64 none = 0;

  for (guint g = 0; is_by_channel (search) && g < search->fillings->n_groups; g++)
    for (guint f = 0; f < search->fillings->of_group[g]->len; f++)
      {
        gint64 size = MAX (lid_plan_fillings_at (search->fillings, g, f)->channel_mib,
                           search->columns->most_fixed);

        if (size > 0)
          add_value (sizes, size);
      }
  g_array_sort (sizes, compare_falling);
  if (sizes->len == 0)
    g_array_append_val (sizes, none);
  return sizes;
}
