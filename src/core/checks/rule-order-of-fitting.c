/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/bandwidth.h"
#include "figures/regions.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Slots of one processor, read in the board's order: the filled ones should come first. Each
 * processor is read by itself, because an order that names one processor after the other does not
 * mean that the second must wait until the first is full (equal sockets: P5). What sits behind an
 * empty first slot, or alone, is another rule's cause. */
typedef struct
{
  LidSlotSet late;  /* filled although an earlier one is empty; of the sum alone */
  LidSlotSet early; /* the empty ones that should be filled instead; the same */
  guint n;
  int from[LID_BOARD_MAX_SLOTS], to[LID_BOARD_MAX_SLOTS];
} Disorder;

/* Nothing yet. The lists are long and stay as they are: a check of a full machine is to take
 * microseconds, and clearing them would be a good part of it. */
static void
start (Disorder *disorder)
{
  memset (&disorder->late, 0, sizeof disorder->late);
  memset (&disorder->early, 0, sizeof disorder->early);
  disorder->n = 0;
}

static gboolean
is_movable (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);

  return module != NULL && !module->persistent && check->board->slots[slot].soldered == NULL;
}

static void
read_socket (const LidCheck *check, int socket, Disorder *out)
{
  const LidBoard *board = check->board;
  guint first = 0, last = board->n_order;

  /* From both ends: the last filled slot goes into the first empty one until they meet. */
  for (;;)
    {
      while (first < last
             && (board->slots[board->order[first]].socket != socket
                 || lid_check_module (check, board->order[first]) != NULL))
        first++;
      while (last > first
             && (board->slots[board->order[last - 1]].socket != socket
                 || !is_movable (check, board->order[last - 1])
                 || lid_check_behind_empty (check, board->order[last - 1])))
        last--;
      if (first >= last)
        return;
      out->from[out->n] = (int)board->order[last - 1];
      out->to[out->n++] = (int)board->order[first];
      first++;
      last--;
    }
}

/* What the channels of a processor carry. */
typedef struct
{
  gint64 mib[LID_BOARD_MAX_CHANNELS];
  guint modules[LID_BOARD_MAX_CHANNELS];
} Load;

/* FALSE: a capacity or a place is not told. */
static gboolean
weigh (const LidCheck *check, const LidBoardSocket *place, Load *load)
{
  *load = (Load){ { 0 }, { 0 } };
  for (guint i = 0; i < place->n_channels; i++)
    for (guint k = 0; k < check->survey->channels[place->first_channel + i].n_fitted; k++)
      {
        guint slot = check->survey->channels[place->first_channel + i].fitted[k];
        const LidModule *module = lid_check_module (check, slot);

        if (!is_movable (check, slot) || !lid_module_knows (module, LID_FACT_CAPACITY))
          return FALSE;
        load->mib[i] += lid_module_capacity (module);
        load->modules[i]++;
      }
  return TRUE;
}

static void
carry_out (const LidCheck *check, const LidBoardSocket *place, const Disorder *found, Load *load)
{
  for (guint i = 0; i < found->n; i++)
    {
      gint64 mib = lid_module_capacity (lid_check_module (check, (guint)found->from[i]));
      guint from = (guint)check->board->slots[found->from[i]].channel - place->first_channel;
      guint to = (guint)check->board->slots[found->to[i]].channel - place->first_channel;

      load->mib[from] -= mib;
      load->modules[from]--;
      load->mib[to] += mib;
      load->modules[to]++;
    }
}

/* How long reading all of a node takes, in MiB of one channel. @even: whether it is one region, and
 * the same at every controller; a node without memory is. */
static gint64
steps_of_node (const LidCheck *check, guint first, guint n, const gint64 *mib, gboolean *even)
{
  g_autoptr (GArray) regions = g_array_new (FALSE, FALSE, sizeof (LidRegion));
  LidRegionChannel channels[LID_BOARD_MAX_CHANNELS];
  gint64 of_controller[LID_BOARD_MAX_CHANNELS + 1] = { 0 }, sum = 0;
  int controller = check->board->channels[first].controller;

  for (guint i = 0; i < n; i++)
    {
      channels[i] = (LidRegionChannel){ mib[i], check->board->channels[first + i].controller, i };
      of_controller[channels[i].controller] += mib[i];
    }
  lid_regions_form (lid_regions_rule (check->board, check->population), channels, n, regions);
  *even = regions->len <= 1;
  for (guint i = 0; i < n; i++)
    *even = *even && of_controller[channels[i].controller] == of_controller[controller];
  for (guint i = 0; i < regions->len; i++)
    sum += g_array_index (regions, LidRegion, i).mib / g_array_index (regions, LidRegion, i).ways;
  return sum;
}

/* All nodes of a processor are read at once: the fullest takes longest. @even: all of them are. */
static gint64
steps (const LidCheck *check, guint socket, const Load *load, gboolean *even)
{
  guint nodes = lid_bandwidth_nodes (check->board, check->population->numa_split, socket);
  gint64 most = 0;

  *even = TRUE;
  for (guint node = 0; node < nodes; node++)
    {
      guint n, first = lid_bandwidth_node (check->board, socket, nodes, node, &n);
      gboolean here;

      most = MAX (most,
                  steps_of_node (check, first, n,
                                 &load->mib[first - check->board->sockets[socket].first_channel],
                                 &here));
      *even = *even && here;
    }
  return most;
}

static void
count (const Load *load, guint *in_use, guint *most)
{
  *in_use = *most = 0;
  for (guint i = 0; i < G_N_ELEMENTS (load->modules); i++)
    {
      *in_use += load->modules[i] > 0;
      *most = MAX (*most, load->modules[i]);
    }
}

static gboolean
is_cut (const LidCheck *check)
{
  return check->population->numa_split > 1
         && lid_bandwidth_splits (check->board, check->population->numa_split);
}

/* The mode works with pairs of channels, and those come first: the order is that of plain mode. */
static gboolean
is_paired (const LidCheck *check)
{
  const LidBoardMode *mode = lid_board_find_mode (check->board, check->population->mode);

  return mode != NULL && mode->n_pairs > 0;
}

/* Two modules on each of some channels can be as even as one more channel for some of them: eight
 * on six channels as 2 2 0 2 2 0 are one region, as 2 1 1 2 1 1 two, and read no faster
 * (shared/facts/archetypes.md, "Classing a count"; population.md 4.3). The order is then a matter
 * of taste: it is said, and costs nothing. Only where that is sure. Of a processor cut into nodes
 * the order knows nothing: channels of a node that hold the same are what it is cut for (4.5), and
 * an order that takes it apart gains nothing either. */
static gboolean
costs_nothing (const LidCheck *check, int socket, const Disorder *found)
{
  gint64 now, then;
  Load load;
  guint in_use, most, in_use_then, most_then;
  gboolean even, even_then;

  if (check->board->order_grade == LID_GRADE_LOSES && is_paired (check))
    return TRUE;
  if (socket == LID_NOWHERE || check->board->order_grade != LID_GRADE_LOSES
      || !check->board->channels_told || check->population->mode != LID_MODE_PLAIN
      || !weigh (check, &check->board->sockets[socket], &load))
    return FALSE;
  now = steps (check, (guint)socket, &load, &even);
  count (&load, &in_use, &most);
  carry_out (check, &check->board->sockets[socket], found, &load);
  count (&load, &in_use_then, &most_then);
  then = steps (check, (guint)socket, &load, &even_then);
  return even && then >= now && most_then >= most
         && (in_use_then > in_use || (is_cut (check) && !even_then));
}

/* @even: it costs nothing */
static char *
say (const LidCheck *check, gboolean even, const char *late, const char *early)
{
  const char *words
      = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order names "
           "earlier.");

  if (even && is_paired (check))
    words = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order "
               "names earlier. The memory mode works with pairs of channels, and they come before "
               "the order: keep each pair alike.");
  else if (even && is_cut (check))
    words = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order "
               "names earlier. In each node the channels in use hold the same, and in that order "
               "they would be read no faster.");
  else if (even)
    words = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order "
               "names earlier. All channels in use hold the same, and in that order they would be "
               "read no faster.");
  return g_strdup_printf (words, late, early);
}

static void
speak (LidCheck *check, const Disorder *found, gboolean even)
{
  const LidBoard *board = check->board;
  g_autofree char *late = lid_names_slots (check, &found->late),
                  *early = lid_names_slots (check, &found->early);
  LidFinding *finding = lid_check_add (check, even ? LID_GRADE_NOTE : board->order_grade,
                                       even ? LID_STOPS_NOTHING : LID_STOPS_MACHINE, &found->late,
                                       say (check, even, late, early));

  finding->source = board->order_source != NULL ? board->order_source
                    : board->source != NULL     ? board->source
                                                : LID_COMMON_PRACTICE;
  if (even)
    return;
  lid_remedy_say (check, finding, g_strdup_printf (_ ("Move %s to %s."), late, early));
  for (guint i = 0; i < found->n; i++)
    lid_remedy_move (check, finding, found->from[i], found->to[i]);
}

static void
add (Disorder *sum, const Disorder *one)
{
  for (guint i = 0; i < one->n; i++)
    {
      lid_slot_set_add (&sum->late, (guint)one->from[i]);
      lid_slot_set_add (&sum->early, (guint)one->to[i]);
      sum->from[sum->n] = one->from[i];
      sum->to[sum->n++] = one->to[i];
    }
}

static void
check_order (LidCheck *check)
{
  const LidBoard *board = check->board;
  Disorder costs, even, here;

  /* One alone is rule-lone-module.c's, where the board says where it belongs. */
  if (board->n_lone > 0 && check->n_live == 1)
    return;
  start (&costs);
  start (&even);
  for (int s = LID_NOWHERE; s < (int)board->n_sockets; s++)
    if (s == LID_NOWHERE || check->population->processors[s].fitted)
      {
        start (&here);
        read_socket (check, s, &here);
        if (here.n > 0)
          add (costs_nothing (check, s, &here) ? &even : &costs, &here);
      }
  if (costs.n > 0)
    speak (check, &costs, FALSE);
  if (even.n > 0)
    speak (check, &even, TRUE);
}

const LidRule lid_rule_order_of_fitting = {
  .id = "order-of-fitting",
  .title = N_ ("order of fitting"),
  .scope = LID_SCOPE_MACHINE, /* a lone module is left to another rule */
  .lasting = FALSE,
  .phase = LID_PHASE_FITTED,
  .grades = LID_GRADE_BIT (LID_GRADE_LOSES) | LID_GRADE_BIT (LID_GRADE_NOTE),
  .board_decides = TRUE,
  .cures = LID_CURE_SPREAD,
  .why
  = N_ ("The board's definition names the order in which slots are filled. It keeps channels "
        "and processors as even as they can be with any number of modules. Where another "
        "filling is as even and reads no slower, it is only noted, and so it is where a memory "
        "mode works with pairs of channels: those come first."),
  .clears = N_ ("Move the modules to the slots that the order names earlier."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_order,
};
