/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-derive.h"
#include "board/board-file.h"
#include "locators/locators.h"
#include "readers/readers.h"
#include "support.h"

#include <string.h>

static LidDevice *
add (LidInventory *inventory, const char *locator, const char *bank)
{
  LidDevice *device = lid_inventory_add_device (inventory);

  g_free (device->locator);
  g_free (device->bank);
  device->locator = g_strdup (locator);
  device->bank = g_strdup (bank);
  device->handle = (gint32)inventory->devices->len;
  return device;
}

/* Everything that hangs on an index: what stands in a job must mean the same when it is read. */
static void
assert_same_board (const LidBoard *a, const LidBoard *b)
{
  g_assert_cmpuint (a->n_sockets, ==, b->n_sockets);
  g_assert_cmpuint (a->n_channels, ==, b->n_channels);
  g_assert_cmpuint (a->n_slots, ==, b->n_slots);
  g_assert_true (a->derived == b->derived && a->channels_told == b->channels_told
                 && a->sockets_told == b->sockets_told && a->placed == b->placed);
  for (guint i = 0; i < a->n_sockets; i++)
    {
      g_assert_cmpstr (a->sockets[i].name, ==, b->sockets[i].name);
      g_assert_cmpuint (a->sockets[i].n_channels, ==, b->sockets[i].n_channels);
      g_assert_cmpuint (a->sockets[i].n_controllers, ==, b->sockets[i].n_controllers);
      if (a->sockets[i].n_channels > 0)
        g_assert_cmpuint (a->sockets[i].first_channel, ==, b->sockets[i].first_channel);
    }
  for (guint i = 0; i < a->n_channels; i++)
    {
      g_assert_cmpstr (a->channels[i].name, ==, b->channels[i].name);
      g_assert_cmpint (a->channels[i].socket, ==, b->channels[i].socket);
      g_assert_cmpint (a->channels[i].controller, ==, b->channels[i].controller);
      g_assert_cmpmem (a->channels[i].slots, a->channels[i].n_slots * sizeof (guint),
                       b->channels[i].slots, b->channels[i].n_slots * sizeof (guint));
    }
  for (guint i = 0; i < a->n_slots; i++)
    {
      g_assert_cmpstr (a->slots[i].id, ==, b->slots[i].id);
      g_assert_cmpstr (a->slots[i].name, ==, b->slots[i].name);
      g_assert_cmpstr (a->slots[i].label, ==, b->slots[i].label);
      g_assert_cmpint (a->slots[i].socket, ==, b->slots[i].socket);
      g_assert_cmpint (a->slots[i].channel, ==, b->slots[i].channel);
      g_assert_cmpuint (a->slots[i].position, ==, b->slots[i].position);
      g_assert_true ((a->slots[i].soldered != NULL) == (b->slots[i].soldered != NULL));
    }
  g_assert_cmpmem (a->order, a->n_order * sizeof (guint), b->order, b->n_order * sizeof (guint));
  g_assert_cmpuint (a->n_fingerprints, ==, b->n_fingerprints);
  for (guint i = 0; i < a->n_fingerprints; i++)
    g_assert_cmpstr (a->fingerprints[i].names, ==, b->fingerprints[i].names);
  g_assert_cmpuint (a->n_spellings, ==, b->n_spellings);
  g_assert_cmpuint (a->generations, ==, b->generations);
  g_assert_cmpint (a->form, ==, b->form);
}

static void
assert_round_trip (const LidBoard *board)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = lid_board_file_to_node (board);
  g_autoptr (LidBoard) again = lid_board_file_from_node (node, &error);

  g_assert_no_error (error);
  assert_same_board (board, again);
}

static void
test_told (void)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "smbios");
  g_autoptr (LidBoard) board = NULL;

  lid_inventory_add_processor (inventory, "CPU0", TRUE);
  lid_inventory_add_processor (inventory, "CPU1", FALSE);
  /* The table lists the slots backwards and the second processor first. */
  for (int s = 1; s >= 0; s--)
    for (int c = 2; c >= 0; c--)
      for (int d = 1; d >= 0; d--)
        {
          g_autofree char *locator = g_strdup_printf ("CPU%d_DIMM_%c%d", s, 'A' + c, d + 1);
          add (inventory, locator, "");
        }
  lid_locators_place (inventory);
  board = lid_board_derive (inventory, NULL);
  g_assert_true (board->derived && board->channels_told && board->sockets_told);
  g_assert_cmpuint (board->n_sockets, ==, 2);
  g_assert_cmpuint (board->n_channels, ==, 6);
  g_assert_cmpuint (board->sockets[1].first_channel, ==, 3);
  g_assert_cmpuint (board->sockets[1].n_channels, ==, 3);
  g_assert_cmpstr (board->slots[0].id, ==, "CPU0_DIMM_A1");
  g_assert_cmpstr (board->slots[11].id, ==, "CPU1_DIMM_C2");
  g_assert_cmpuint (board->slots[11].position, ==, 2);
  g_assert_cmpint (board->slots[11].channel, ==, 5);
  /* Silent on what no inventory knows. */
  g_assert_cmpuint (board->generations | board->kinds | board->voltages | board->ways, ==, 0);
  g_assert_cmpuint (board->n_order + board->n_rates + board->n_limits + board->n_lone, ==, 0);
  g_assert_true (g_str_has_prefix (board->id, "derived-"));
  g_assert_cmpuint (strlen (board->id), ==, strlen ("derived-") + 10);
  g_assert_cmpuint (board->n_fingerprints, ==, 1);
  g_assert_true (strncmp (board->fingerprints[0].names, board->id + strlen ("derived-"), 10) == 0);
  assert_round_trip (board);
}

static void
test_untold (void)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "smbios");
  g_autoptr (LidBoard) board = NULL;

  lid_inventory_add_processor (inventory, "Node 1", TRUE);
  lid_inventory_add_processor (inventory, "Node 2", TRUE);
  for (int i = 12; i > 0; i--)
    {
      g_autofree char *locator = g_strdup_printf ("DIMM %d", i);
      add (inventory, locator, "Not Specified");
    }
  lid_locators_place (inventory);
  board = lid_board_derive (inventory, NULL);
  g_assert_false (board->channels_told || board->sockets_told);
  g_assert_cmpuint (board->n_sockets, ==, 2);
  g_assert_cmpuint (board->n_channels, ==, 0);
  for (guint i = 0; i < 12; i++)
    {
      g_autofree char *id = g_strdup_printf ("DIMM %u", i + 1);

      g_assert_cmpstr (board->slots[i].id, ==, id);
      g_assert_cmpint (board->slots[i].socket, ==, LID_NOWHERE);
      g_assert_cmpint (board->slots[i].channel, ==, LID_NOWHERE);
      g_assert_cmpuint (board->slots[i].position, ==, 0);
    }
  assert_round_trip (board);
}

/* Nothing but a list of slots, as pasted without the processors: still one socket to draw. */
static void
test_no_processors (void)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "report");
  g_autoptr (LidBoard) board = NULL;

  add (inventory, "DIMM 1", "");
  add (inventory, "DIMM 2", "");
  lid_locators_place (inventory);
  board = lid_board_derive (inventory, NULL);
  g_assert_cmpuint (board->n_sockets, ==, 1);
  g_assert_false (board->sockets_told);
  g_assert_cmpstr (board->spellings[1].format, ==, "smbios");
  assert_round_trip (board);
}

static void
test_soldered_and_order (void)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "smbios");
  g_autoptr (GPtrArray) order = g_ptr_array_new ();
  g_autoptr (LidBoard) board = NULL;
  LidDevice *device;

  lid_inventory_add_processor (inventory, "CPU0", TRUE);
  device = add (inventory, "ChannelA-DIMM0", "BANK 0");
  device->state = LID_SLOT_SOLDERED;
  device->module = lid_module_new ();
  lid_module_set (device->module, LID_FACT_CAPACITY, 8192, LID_BASIS_INVENTORY);
  lid_module_set_text (&device->module->serial, "0815");
  add (inventory, "ChannelB-DIMM0", "BANK 2");
  g_ptr_array_add (order, (gpointer) "ChannelB-DIMM0");
  lid_locators_place (inventory);
  board = lid_board_derive (inventory, order);
  g_assert_nonnull (board->slots[0].soldered);
  g_assert_null (board->slots[0].soldered->serial);
  g_assert_cmpint (lid_module_capacity (board->slots[0].soldered), ==, 8192);
  g_assert_null (board->slots[1].soldered);
  g_assert_cmpuint (board->n_order, ==, 1);
  g_assert_cmpuint (board->order[0], ==, 1);
  assert_round_trip (board);
}

/* Names lost: what is left of a channel starts at its second slot, so its places are not told. */
static void
test_gaps (void)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "smbios");
  g_autoptr (LidBoard) board = NULL;

  lid_inventory_add_processor (inventory, "CPU0", TRUE);
  lid_inventory_add_processor (inventory, "CPU1", TRUE);
  add (inventory, "P1_DIMMA1", "");
  add (inventory, "P1_DIMMB2", "");
  add (inventory, "NO DIMM", "NO DIMM");
  add (inventory, "NO DIMM", "NO DIMM");
  lid_locators_place (inventory);
  board = lid_board_derive (inventory, NULL);
  g_assert_cmpuint (board->n_sockets, ==, 2);
  g_assert_cmpuint (board->n_channels, ==, 2);
  g_assert_cmpuint (board->slots[board->channels[0].slots[0]].position, ==, 1);
  g_assert_cmpuint (board->slots[board->channels[1].slots[0]].position, ==, 0);
  g_assert_false (board->channels_told || board->sockets_told);
  assert_round_trip (board);
}

static void
test_none (void)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "smbios");
  g_autoptr (LidBoard) board = NULL;

  lid_locators_place (inventory);
  board = lid_board_derive (inventory, NULL);
  g_assert_cmpuint (board->n_slots, ==, 0);
  g_assert_false (board->channels_told);
  g_assert_cmpuint (board->n_sockets, ==, 1);
}

/* 166 real machines, 1 to 192 slots: each derived board is taken back by the strict loader and has
 * every slot once. Source: shared/data/manifest.csv. */
static void
test_real_machines (void)
{
  g_autofree char *folder = support_shared ("data/machines");
  g_autoptr (GDir) dir = NULL;
  const char *name;
  guint n = 0;

  if (folder == NULL)
    {
      g_test_skip ("no shared data");
      return;
    }
  dir = g_dir_open (folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (LidInventory) inventory = lid_readers_read_path (path, NULL);
      g_autoptr (LidBoard) board = NULL;

      lid_locators_place (inventory);
      board = lid_board_derive (inventory, NULL);
      g_assert_cmpuint (board->n_slots, ==, inventory->devices->len);
      for (guint i = 0; i < inventory->devices->len; i++)
        {
          const LidDevice *device = inventory->devices->pdata[i];
          int slot = lid_board_find_slot (board, device->slot);

          g_assert_cmpint (slot, !=, LID_NOWHERE);
          /* A slot without a name may be untold; with one processor it is on the board all the
           * same. */
          g_assert_true ((board->slots[slot].socket == LID_NOWHERE)
                         == (device->place.socket == 0 && inventory->processors->len != 1));
          g_assert_true ((board->slots[slot].channel == LID_NOWHERE)
                         == (device->place.channel == NULL));
        }
      g_assert_true (board->channels_told == lid_locators_channels_told (inventory));
      assert_round_trip (board);
      n++;
    }
  g_assert_cmpuint (n, >, 100);
}

static guint32
generations_of (LidGeneration a, LidGeneration b)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "smbios");
  g_autoptr (LidBoard) board = NULL;
  const LidGeneration both[] = { a, b };

  for (guint i = 0; i < G_N_ELEMENTS (both); i++)
    {
      LidDevice *device = add (inventory, i == 0 ? "A1" : "B1", "");

      device->state = LID_SLOT_FILLED;
      device->module = lid_module_new ();
      if (both[i] != 0)
        lid_module_set (device->module, LID_FACT_GENERATION, (gint32)both[i], LID_BASIS_INVENTORY);
    }
  lid_locators_place (inventory);
  board = lid_board_derive (inventory, NULL);
  return board->generations;
}

/* A key takes one generation (from memory: the notch of each stands elsewhere), so what sits in the
 * machine tells it; where that is not told, or not of one, nothing is guessed. */
static void
test_generation (void)
{
  g_assert_cmpuint (generations_of (LID_GENERATION_DDR3, LID_GENERATION_DDR3), ==,
                    1u << LID_GENERATION_DDR3);
  g_assert_cmpuint (generations_of (LID_GENERATION_DDR3, LID_GENERATION_DDR4), ==, 0);
  g_assert_cmpuint (generations_of (LID_GENERATION_DDR3, 0), ==, 0);
  g_assert_cmpuint (generations_of (0, 0), ==, 0);
}

static LidForm
form_of (LidForm filled, LidForm second, LidSlotState state)
{
  g_autoptr (LidInventory) inventory = lid_inventory_new ("x", "smbios");
  g_autoptr (LidBoard) board = NULL;
  LidDevice *device = add (inventory, "A1", "");

  device->state = LID_SLOT_FILLED;
  device->form = filled;
  device->module = lid_module_new ();
  device = add (inventory, "B1", "");
  device->state = state;
  device->form = second;
  device->module = state != LID_SLOT_EMPTY ? lid_module_new () : NULL;
  lid_locators_place (inventory);
  board = lid_board_derive (inventory, NULL);
  assert_round_trip (board);
  return board->form;
}

/* A slot takes what sits in it, and nothing of the other length (SMBIOS DSP0134 7.18.1 names the
 * forms; lengths from memory). */
static void
test_form (void)
{
  g_assert_cmpint (form_of (LID_FORM_SO_DIMM, LID_FORM_SO_DIMM, LID_SLOT_FILLED), ==,
                   LID_FORM_SO_DIMM);
  g_assert_cmpint (form_of (LID_FORM_DIMM, LID_FORM_DIMM, LID_SLOT_EMPTY), ==, LID_FORM_DIMM);
  g_assert_cmpint (form_of (LID_FORM_DIMM, LID_FORM_UNKNOWN, LID_SLOT_EMPTY), ==, LID_FORM_DIMM);
  g_assert_cmpint (form_of (LID_FORM_SO_DIMM, LID_FORM_OTHER, LID_SLOT_SOLDERED), ==,
                   LID_FORM_SO_DIMM);
  /* Nothing is guessed. */
  g_assert_cmpint (form_of (LID_FORM_DIMM, LID_FORM_UNKNOWN, LID_SLOT_FILLED), ==, 0);
  g_assert_cmpint (form_of (LID_FORM_DIMM, LID_FORM_SO_DIMM, LID_SLOT_EMPTY), ==, 0);
  g_assert_cmpint (form_of (LID_FORM_DIMM, LID_FORM_SO_DIMM, LID_SLOT_FILLED), ==, 0);
  g_assert_cmpint (form_of (LID_FORM_OTHER, LID_FORM_OTHER, LID_SLOT_FILLED), ==, 0);
  g_assert_cmpint (form_of (LID_FORM_UNKNOWN, LID_FORM_UNKNOWN, LID_SLOT_EMPTY), ==, 0);
}

/* The nine real machines beside the checkout whose slots hold SO-DIMMs (their tables say "SODIMM"),
 * and one whose table contradicts itself. Source: shared/data/manifest.csv. */
static void
test_real_forms (void)
{
  static const struct
  {
    const char *path;
    LidForm form;
  } rows[]
      = { { "machines/m0001.txt", LID_FORM_SO_DIMM }, { "machines/m0004.txt", LID_FORM_SO_DIMM },
          { "machines/m0005.txt", LID_FORM_SO_DIMM }, { "machines/m0006.txt", LID_FORM_SO_DIMM },
          { "machines/m0008.txt", LID_FORM_SO_DIMM }, { "machines/m0012.txt", LID_FORM_SO_DIMM },
          { "smbios/b09.txt", LID_FORM_SO_DIMM },     { "smbios/b12.txt", LID_FORM_SO_DIMM },
          { "smbios/b15.txt", LID_FORM_SO_DIMM },     { "machines/m0002.txt", LID_FORM_UNKNOWN },
          { "machines/m0040.txt", LID_FORM_DIMM } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *name = g_build_filename ("data", rows[i].path, NULL);
      g_autofree char *path = support_shared (name);
      g_autoptr (LidInventory) inventory = NULL;
      g_autoptr (LidBoard) board = NULL;

      if (path == NULL)
        {
          g_test_skip ("no shared data");
          return;
        }
      inventory = lid_readers_read_path (path, NULL);
      lid_locators_place (inventory);
      board = lid_board_derive (inventory, NULL);
      g_test_message ("%s", rows[i].path);
      g_assert_cmpint (board->form, ==, rows[i].form);
      assert_round_trip (board);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/board-derive/told", test_told);
  g_test_add_func ("/board-derive/untold", test_untold);
  g_test_add_func ("/board-derive/no-processors", test_no_processors);
  g_test_add_func ("/board-derive/soldered-and-order", test_soldered_and_order);
  g_test_add_func ("/board-derive/gaps", test_gaps);
  g_test_add_func ("/board-derive/none", test_none);
  g_test_add_func ("/board-derive/generation", test_generation);
  g_test_add_func ("/board-derive/form", test_form);
  g_test_add_func ("/board-derive/real-forms", test_real_forms);
  g_test_add_func ("/board-derive/real-machines", test_real_machines);
  return g_test_run ();
}
