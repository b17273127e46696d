/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-machine.h"

#include <glib/gi18n-lib.h>

static void
add_unit (LidMachine *machine, LidLeaf *leaf, const LidUnit *unit)
{
  g_array_append_val (machine->units, *unit);
  leaf->n_units++;
  leaf->n_slots += unit->n_slots;
}

/* Channels of two controllers may bear one name; then the controller is told too. */
static const char *
channel_label (LidMachine *machine, guint c)
{
  const LidBoardChannel *channel = &machine->board->channels[c];
  gboolean twice = FALSE;

  for (guint i = 0; i < machine->board->n_channels; i++)
    twice = twice
            || (i != c && machine->board->channels[i].socket == channel->socket
                && g_strcmp0 (machine->board->channels[i].name, channel->name) == 0);
  if (twice && channel->controller > 0)
    return lid_sheet_keep (
        machine->sheet, g_strdup_printf (_ ("channel %d %s"), channel->controller, channel->name));
  return lid_sheet_keep (machine->sheet, g_strdup_printf (_ ("channel %s"), channel->name));
}

/* A vein is as thick as what its channel carries: all of its rate, or nothing. Without an
 * assessment a channel with a module in it counts as carrying. */
static double
channel_carries (const LidMachine *machine,
                 guint c,
                 const LidPopulation *population,
                 const LidAssessment *assessment)
{
  const LidBoardChannel *channel = &machine->board->channels[c];

  if (assessment != NULL && assessment->figures.channels != NULL
      && c < assessment->figures.n_channels && assessment->figures.starts)
    return assessment->figures.channels[c].usable_mib > 0 ? 1.0 : 0.0;
  for (guint i = 0; i < channel->n_slots; i++)
    if (population->slots[channel->slots[i]].module != NULL)
      return 1.0;
  return 0.0;
}

static void
add_channel (LidMachine *machine, LidLeaf *leaf, guint c, double carries)
{
  const LidBoardChannel *channel = &machine->board->channels[c];
  LidUnit unit = { .label = channel_label (machine, c), .carries = carries };

  for (guint i = 0; i < channel->n_slots; i++)
    {
      unit.slots[unit.n_slots++] = channel->slots[i];
      if (unit.n_slots == G_N_ELEMENTS (unit.slots) || i + 1 == channel->n_slots)
        {
          add_unit (machine, leaf, &unit);
          unit.n_slots = 0;
        }
    }
}

static const char *
socket_title (LidMachine *machine, int socket)
{
  const char *name = socket == LID_NOWHERE ? NULL : machine->board->sockets[socket].name;

  if (name != NULL && name[0] != 0)
    return lid_sheet_keep (machine->sheet, g_strdup_printf (_ ("processor %s"), name));
  return machine->board->n_sockets > 1 ? _ ("processor not told") : _ ("processor");
}

static void
add_told (LidMachine *machine,
          int socket,
          const LidPopulation *population,
          const LidAssessment *assessment)
{
  LidLeaf leaf = { .title = socket_title (machine, socket), .first_unit = machine->units->len };

  if (socket != LID_NOWHERE && !population->processors[socket].fitted)
    leaf.under = _ ("not fitted");
  for (guint c = 0; c < machine->board->n_channels; c++)
    if (machine->board->channels[c].socket == socket && machine->board->channels[c].n_slots > 0)
      add_channel (machine, &leaf, c, channel_carries (machine, c, population, assessment));
  if (leaf.n_slots > 0)
    g_array_append_val (machine->leaves, leaf);
}

static void
add_untold (LidMachine *machine, int socket)
{
  LidLeaf leaf = { .title = socket_title (machine, socket),
                   .under = _ ("channel not told"),
                   .list = TRUE,
                   .first_unit = machine->units->len };

  for (guint i = 0; i < machine->board->n_slots; i++)
    if (machine->board->slots[i].channel == LID_NOWHERE
        && machine->board->slots[i].socket == socket)
      {
        LidUnit unit = { .n_slots = 1, .slots = { i } };

        add_unit (machine, &leaf, &unit);
      }
  if (leaf.n_slots > 0)
    g_array_append_val (machine->leaves, leaf);
}

static void
note_what_is_shown (LidMachine *machine)
{
  for (guint i = 0; i < machine->sheet->n_slots; i++)
    {
      const LidSlotLook *look = &machine->sheet->looks[i];

      machine->any_ring |= look->ring > 0;
      machine->any_mark |= look->mark != LID_MARK_NONE;
      machine->any_finding |= look->finding != LID_HATCH_NONE;
      machine->any_latch |= look->latch_known;
      machine->any_detail |= look->detail != NULL && look->detail[0] != 0;
    }
}

/**
 * lid_sheet_machine_new:
 * @sheet: its looks are made
 * @board: the machine
 * @population: which processors are fitted, what sits where
 * @assessment: (nullable): what channels carry
 *
 * Returns: (transfer full): every slot of the board once, in leaves
 */
LidMachine *
lid_sheet_machine_new (LidSheet *sheet,
                       const LidBoard *board,
                       const LidPopulation *population,
                       const LidAssessment *assessment)
{
  LidMachine *machine = g_new0 (LidMachine, 1);

  machine->sheet = sheet;
  machine->board = board;
  machine->units = g_array_sized_new (FALSE, FALSE, sizeof (LidUnit), board->n_channels + 8);
  machine->leaves = g_array_new (FALSE, FALSE, sizeof (LidLeaf));
  for (int socket = 0; socket < (int)board->n_sockets; socket++)
    {
      add_told (machine, socket, population, assessment);
      add_untold (machine, socket);
    }
  add_told (machine, LID_NOWHERE, population, assessment);
  add_untold (machine, LID_NOWHERE);
  note_what_is_shown (machine);
  return machine;
}

void
lid_sheet_machine_free (LidMachine *machine)
{
  if (machine == NULL)
    return;
  g_array_unref (machine->units);
  g_array_unref (machine->leaves);
  g_free (machine);
}

/* A leaf with more slots than a page takes is cut between channels, into parts as equal as the
 * channels allow. */
static void
cut_leaf (const LidMachine *machine, const LidLeaf *leaf, guint most_slots, GArray *pieces)
{
  guint n = (leaf->n_slots + most_slots - 1) / most_slots;
  guint share = (leaf->n_slots + n - 1) / n;
  LidLeaf piece = *leaf;

  piece.n_units = 0;
  piece.n_slots = 0;
  for (guint u = 0; u < leaf->n_units; u++)
    {
      guint more = lid_sheet_machine_unit (machine, leaf->first_unit + u)->n_slots;

      if (piece.n_slots > 0 && piece.n_slots + more > share)
        {
          g_array_append_val (pieces, piece);
          piece.first_unit += piece.n_units;
          piece.n_units = 0;
          piece.n_slots = 0;
        }
      piece.n_units++;
      piece.n_slots += more;
    }
  g_array_append_val (pieces, piece);
}

static GArray *
pack (const GArray *pieces, guint most_slots)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (LidPart));
  LidPart part = { NULL, 0, 0 };

  for (guint i = 0; i < pieces->len; i++)
    {
      const LidLeaf *piece = &g_array_index (pieces, LidLeaf, i);

      if (part.n_leaves > 0 && part.n_slots + piece->n_slots > most_slots)
        {
          g_array_append_val (parts, part);
          part = (LidPart){ NULL, 0, 0 };
        }
      part.leaves = g_renew (LidLeaf, part.leaves, part.n_leaves + 1);
      part.leaves[part.n_leaves++] = *piece;
      part.n_slots += piece->n_slots;
    }
  g_array_append_val (parts, part);
  return parts;
}

void
lid_sheet_machine_parts_free (GArray *parts)
{
  for (guint i = 0; i < parts->len; i++)
    g_free (g_array_index (parts, LidPart, i).leaves);
  g_array_unref (parts);
}

/**
 * lid_sheet_machine_split:
 * @most_slots: on a page
 *
 * As few pages as that takes, as even as leaves and channels allow.
 *
 * Returns: (transfer full) (element-type LidPart): free with lid_sheet_machine_parts_free()
 */
GArray *
lid_sheet_machine_split (const LidMachine *machine, guint most_slots)
{
  GArray *pieces = g_array_new (FALSE, FALSE, sizeof (LidLeaf));
  GArray *parts, *even;
  guint total = 0;

  for (guint i = 0; i < machine->leaves->len; i++)
    {
      const LidLeaf *leaf = &g_array_index (machine->leaves, LidLeaf, i);

      total += leaf->n_slots;
      cut_leaf (machine, leaf, most_slots, pieces);
    }
  parts = pack (pieces, most_slots);
  for (guint limit = (total + parts->len - 1) / parts->len; limit < most_slots; limit++)
    {
      even = pack (pieces, limit);
      if (even->len == parts->len)
        {
          lid_sheet_machine_parts_free (parts);
          parts = even;
          break;
        }
      lid_sheet_machine_parts_free (even);
    }
  g_array_unref (pieces);
  return parts;
}
