/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/names.h"
#include "checks/remedy.h"
#include "checks/rules.h"
#include "figures/bandwidth.h"
#include "figures/matched.h"
#include "figures/regions.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* A multiple of all numbers up to 16: so that many MiB are read so many ways without a remainder.
 */
#define PARTS G_GINT64_CONSTANT (720720)

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
read_socket (LidCheck *check, int socket, Disorder *out)
{
  const LidBoard *board = check->board;
  guint first = 0, last = board->n_order;

  /* From both ends: the last filled slot goes into the first empty one until they meet. */
  for (;;)
    {
      while (first < last
             && (board->slots[board->order[first]].socket != socket
                 || lid_check_module (check, board->order[first]) != NULL
                 || lid_exclusion_keeps_empty (check, board->order[first])))
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

/* What reading a processor comes to. */
typedef struct
{
  gint64 steps;      /* how long all of it takes, in MiB of one channel */
  gint64 slowest;    /* and if all of it were read as its slowest region, PARTS of that */
  gint64 least;      /* MiB of the node with least, */
  gint64 most;       /* and with most */
  gboolean is_one;   /* each node is one region, or without memory */
  gboolean alike;    /* and its controllers carry the same */
  gboolean lopsided; /* a controller has two channels in use more than another of its node */
} Reading;

/* Of channels that hold so much; adds to what is there. */
static void
weigh_controllers (const LidRegionChannel *channels, guint n, Reading *out)
{
  gint64 mib[LID_BOARD_MAX_CHANNELS + 1] = { 0 };
  guint in_use[LID_BOARD_MAX_CHANNELS + 1] = { 0 }, least = G_MAXUINT, most = 0;

  for (guint i = 0; i < n; i++)
    {
      mib[channels[i].controller] += channels[i].mib;
      in_use[channels[i].controller] += channels[i].mib > 0;
    }
  for (guint i = 0; i < n; i++)
    {
      out->alike = out->alike && mib[channels[i].controller] == mib[channels[0].controller];
      least = MIN (least, in_use[channels[i].controller]);
      most = MAX (most, in_use[channels[i].controller]);
    }
  out->lopsided = out->lopsided || most > least + 1;
}

/* All nodes of a processor are read at once: the fullest takes longest. */
static void
read_node (const LidCheck *check, guint first, guint n, const gint64 *mib, Reading *out)
{
  g_autoptr (GArray) regions = g_array_new (FALSE, FALSE, sizeof (LidRegion));
  const LidRegionRule rule = lid_regions_rule (check->board, check->population);
  LidRegionChannel channels[LID_BOARD_MAX_CHANNELS];
  gint64 sum = 0, steps = 0;
  guint ways;

  for (guint i = 0; i < n; i++)
    {
      channels[i] = (LidRegionChannel){ mib[i], check->board->channels[first + i].controller, i };
      sum += mib[i];
    }
  weigh_controllers (channels, n, out);
  lid_regions_form (rule, channels, n, regions);
  ways = lid_matched_narrowest (rule, channels, n);
  for (guint i = 0; i < regions->len; i++)
    {
      const LidRegion *region = &g_array_index (regions, LidRegion, i);

      steps += region->mib / region->ways;
      ways = MIN (ways, region->ways);
    }
  out->steps = MAX (out->steps, steps);
  out->slowest = MAX (out->slowest, sum * PARTS / ways);
  out->least = MIN (out->least, sum);
  out->most = MAX (out->most, sum);
  out->is_one = out->is_one && regions->len <= 1;
}

static Reading
read_processor (const LidCheck *check, guint socket, const Load *load)
{
  guint nodes = lid_bandwidth_nodes (check->board, check->population->numa_split, socket);
  Reading out = { 0, 0, G_MAXINT64, 0, TRUE, TRUE, FALSE };

  for (guint node = 0; node < nodes; node++)
    {
      guint n, first = lid_bandwidth_node (check->board, socket, nodes, node, &n);

      read_node (check, first, n, &load->mib[first - check->board->sockets[socket].first_channel],
                 &out);
    }
  return out;
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

/* What is out of order costs. */
typedef enum
{
  COSTS,
  NO_FASTER,     /* a matter of taste: in the order it would be read no faster */
  SLOWER_IN_PART /* nor that, and the slowest part would be slower */
} Price;

/* Whether the order evens out nodes of which one has more than another, and each is still read as
 * one; or controllers of which one has two channels in use more than another, whatever the board's
 * numbers say of such. */
static gboolean
would_even_out (const Reading *now, const Reading *then)
{
  return (now->lopsided && then->alike)
         || (then->is_one && now->most > now->least && then->most == then->least);
}

/* What the order would spoil, where it makes nothing faster. */
static gboolean
would_spoil (const LidCheck *check, const Reading *now, const Reading *then)
{
  if (then->slowest != now->slowest)
    return then->slowest > now->slowest;
  return then->most - then->least > now->most - now->least
         || (is_cut (check) && now->is_one && now->alike && !(then->is_one && then->alike));
}

/* Two modules on each of some channels can be as even as one more channel for some of them: eight
 * on six channels as 2 2 0 2 2 0 are one region, as 2 1 1 2 1 1 two, and read no faster
 * (shared/facts/archetypes.md, "Classing a count"; population.md 4.3). The order is then a matter
 * of taste: it is said, and costs nothing. Only where that is sure. So it is where the order would
 * gain nothing and make the slowest part slower: three on one controller are read together, on two
 * they are two and one (4.1, K6). Of a processor cut into nodes the order knows nothing: channels
 * of a node that hold the same, and nodes that do, are what it is cut for (4.5). */
static Price
price_of (const LidCheck *check, int socket, const Disorder *found)
{
  Reading now, then;
  Load load;
  guint in_use, most, in_use_then, most_then;

  if (check->board->order_grade == LID_GRADE_LOSES && is_paired (check))
    return NO_FASTER;
  if (socket == LID_NOWHERE || check->board->order_grade != LID_GRADE_LOSES
      || !check->board->channels_told || check->population->mode != LID_MODE_PLAIN
      || !weigh (check, &check->board->sockets[socket], &load))
    return COSTS;
  now = read_processor (check, (guint)socket, &load);
  count (&load, &in_use, &most);
  carry_out (check, &check->board->sockets[socket], found, &load);
  then = read_processor (check, (guint)socket, &load);
  count (&load, &in_use_then, &most_then);
  if (then.steps < now.steps || most_then < most || would_even_out (&now, &then)
      || !((now.is_one && in_use_then > in_use) || would_spoil (check, &now, &then)))
    return COSTS;
  return now.is_one ? NO_FASTER : SLOWER_IN_PART;
}

static char *
say (const LidCheck *check, Price price, const char *late, const char *early)
{
  const char *words
      = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order names "
           "earlier.");

  if (price != COSTS && is_paired (check))
    words = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order "
               "names earlier. The memory mode works with pairs of channels, and they come before "
               "the order: keep each pair alike.");
  else if (price == SLOWER_IN_PART)
    words = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order "
               "names earlier. In that order reading all of the memory would be no faster, and its "
               "slowest part slower.");
  else if (price == NO_FASTER && is_cut (check))
    words = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order "
               "names earlier. In each node the channels in use hold the same, and in that order "
               "they would be read no faster.");
  else if (price == NO_FASTER)
    words = _ ("Out of the board's order of fitting: filled %s, still empty %s, which the order "
               "names earlier. All channels in use hold the same, and in that order they would be "
               "read no faster.");
  return g_strdup_printf (words, late, early);
}

static void
speak (LidCheck *check, const Disorder *found, Price price)
{
  const LidBoard *board = check->board;
  g_autofree char *late = lid_names_slots (check, &found->late),
                  *early = lid_names_slots (check, &found->early);
  LidFinding *finding
      = lid_check_add (check, price != COSTS ? LID_GRADE_NOTE : board->order_grade,
                       LID_STOPS_NOTHING, &found->late, say (check, price, late, early));

  finding->source = board->order_source != NULL ? board->order_source
                    : board->source != NULL     ? board->source
                                                : LID_COMMON_PRACTICE;
  if (price != COSTS)
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
  Disorder by_price[SLOWER_IN_PART + 1], here;

  /* One alone is rule-lone-module.c's, where the board says where it belongs. */
  if (board->n_lone > 0 && check->n_live == 1)
    return;
  for (Price price = COSTS; price <= SLOWER_IN_PART; price++)
    start (&by_price[price]);
  for (int s = LID_NOWHERE; s < (int)board->n_sockets; s++)
    if (s == LID_NOWHERE || check->population->processors[s].fitted)
      {
        start (&here);
        read_socket (check, s, &here);
        if (here.n > 0)
          add (&by_price[price_of (check, s, &here)], &here);
      }
  for (Price price = COSTS; price <= SLOWER_IN_PART; price++)
    if (by_price[price].n > 0)
      speak (check, &by_price[price], price);
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
        "filling is as even and reads no slower, or the order would make nothing faster and the "
        "slowest part slower, it is only noted, and so it is where a memory mode works with pairs "
        "of channels: those come first."),
  .clears = N_ ("Move the modules to the slots that the order names earlier."),
  .basis = "listed",
  .source = LID_COMMON_PRACTICE,
  .check = check_order,
};
