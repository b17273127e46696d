/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "board/board-derive.h"
#include "board/board-file.h"
#include "locators/locators.h"
#include "locators/teach.h"
#include "support.h"

#include <string.h>

/* Slots are added in the order given, which is on purpose not the order of their numbers. */
static LidInventory *
make (guint processors, const char *const *names)
{
  LidInventory *inventory = lid_inventory_new ("x", "smbios");

  for (guint i = 0; i < processors; i++)
    lid_inventory_add_processor (inventory, "CPU", TRUE);
  for (guint i = 0; names[i] != NULL; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      device->locator = g_strdup (names[i]);
      device->handle = (gint32)(0x1100 + i);
    }
  lid_locators_place (inventory);
  return inventory;
}

/* "A1 1/1.2": slot, socket/channel.position; "-" where not told. */
static char *
print_places (const LidInventory *inventory)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      const LidPlace *place = &device->place;

      g_string_append_printf (out, "%s%s %d/%s.%d", i > 0 ? ", " : "", device->locator,
                              place->socket, place->channel != NULL ? place->channel : "-",
                              place->position);
      g_assert_true ((place->told_by == LID_TOLD_TAUGHT) == (place->channel != NULL));
    }
  return g_string_free (out, FALSE);
}

static GPtrArray *
teach (LidInventory *inventory, const char *text)
{
  g_autoptr (GError) error = NULL;
  LidTeachPattern pattern;
  GPtrArray *order = NULL;

  g_assert_true (lid_teach_parse (text, &pattern, &error));
  g_assert_true (lid_teach_apply (inventory, &pattern, &order, &error));
  g_assert_no_error (error);
  return order;
}

typedef struct
{
  const char *pattern;
  guint processors;
  const char *names[17];
  const char *places;
} Lesson;

/* Expected places by the drawings at the head of teach.c. */
static const Lesson lessons[] = {
  { "by-channel:2",
    1,
    { "DIMM 8", "DIMM 7", "DIMM 6", "DIMM 5", "DIMM 4", "DIMM 3", "DIMM 2", "DIMM 1" },
    "DIMM 8 1/4.2, DIMM 7 1/4.1, DIMM 6 1/3.2, DIMM 5 1/3.1, DIMM 4 1/2.2, DIMM 3 1/2.1, "
    "DIMM 2 1/1.2, DIMM 1 1/1.1" },
  { "by-channel:3",
    2,
    { "PROC 2 DIMM 1", "PROC 2 DIMM 2", "PROC 2 DIMM 3", "PROC 1 DIMM 2", "PROC 1 DIMM 1",
      "PROC 1 DIMM 3" },
    "PROC 2 DIMM 1 2/1.1, PROC 2 DIMM 2 2/1.2, PROC 2 DIMM 3 2/1.3, PROC 1 DIMM 2 1/1.2, "
    "PROC 1 DIMM 1 1/1.1, PROC 1 DIMM 3 1/1.3" },
  { "first-slots-first:4",
    1,
    { "DIMM10", "DIMM9", "DIMM8", "DIMM7", "DIMM6", "DIMM5", "DIMM4", "DIMM3" },
    "DIMM10 1/4.2, DIMM9 1/3.2, DIMM8 1/2.2, DIMM7 1/1.2, DIMM6 1/4.1, DIMM5 1/3.1, DIMM4 1/2.1, "
    "DIMM3 1/1.1" },
  { "mirrored:4",
    1,
    { "DIMM 1", "DIMM 2", "DIMM 3", "DIMM 4", "DIMM 5", "DIMM 6", "DIMM 7", "DIMM 8" },
    "DIMM 1 1/1.1, DIMM 2 1/1.2, DIMM 3 1/2.1, DIMM 4 1/2.2, DIMM 5 1/4.2, DIMM 6 1/4.1, "
    "DIMM 7 1/3.2, DIMM 8 1/3.1" },
  { "letter-socket",
    2,
    { "DIMM_A1", "DIMM_A5", "DIMM_B1", "DIMM_B5" },
    "DIMM_A1 1/-.0, DIMM_A5 1/-.0, DIMM_B1 2/-.0, DIMM_B5 2/-.0" },
  { "letter-socket:2",
    2,
    { "A1", "A3", "A2", "A4", "B4", "B3", "B2", "B1" },
    "A1 1/1.1, A3 1/1.2, A2 1/2.1, A4 1/2.2, B4 2/2.2, B3 2/1.2, B2 2/2.1, B1 2/1.1" },
  /* Socket not told for any slot: the whole board counts as one. */
  { "by-channel:2",
    2,
    { "DIMM 1", "DIMM 3", "DIMM 2", "DIMM 4" },
    "DIMM 1 0/1.1, DIMM 3 0/2.1, DIMM 2 0/1.2, DIMM 4 0/2.2" },
  /* What is taught replaces what the names stated. */
  { "letter-socket",
    1,
    { "DIMM_A1", "DIMM_A2", "DIMM_B1", "DIMM_B2" },
    "DIMM_A1 1/-.0, DIMM_A2 1/-.0, DIMM_B1 2/-.0, DIMM_B2 2/-.0" },
};

static void
test_patterns (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (lessons); i++)
    {
      g_autoptr (LidInventory) inventory = make (lessons[i].processors, lessons[i].names);
      g_autofree char *places = NULL;

      g_assert_null (teach (inventory, lessons[i].pattern));
      places = print_places (inventory);
      g_assert_cmpstr (places, ==, lessons[i].places);
      g_assert_cmpuint (inventory->remarks->len, ==, 0);
    }
}

static void
test_order (void)
{
  const char *const names[] = { "PROC 1 DIMM 1D", "PROC 1 DIMM 2A", "PROC 1 DIMM 3E",
                                "PROC 1 DIMM 4B", "PROC 2 DIMM 1D", "PROC 2 DIMM 2A",
                                "PROC 2 DIMM 3E", "PROC 2 DIMM 4B", NULL };
  const char *const wanted[]
      = { "PROC 1 DIMM 2A", "PROC 2 DIMM 2A", "PROC 1 DIMM 4B", "PROC 2 DIMM 4B",
          "PROC 1 DIMM 1D", "PROC 2 DIMM 1D", "PROC 1 DIMM 3E", "PROC 2 DIMM 3E" };
  g_autoptr (LidInventory) inventory = make (2, names);
  g_autoptr (GPtrArray) order = NULL;
  g_autoptr (LidBoard) board = NULL, again = NULL;
  g_autoptr (JsonNode) node = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_null (teach (inventory, "by-channel:2"));
  order = teach (inventory, "letter-order");
  g_assert_cmpuint (order->len, ==, 8);
  for (guint i = 0; i < 8; i++)
    g_assert_cmpstr (order->pdata[i], ==, wanted[i]);

  /* Both lessons go into the board, and the board into a file. */
  board = lid_board_derive (inventory, order);
  g_assert_true (board->channels_told);
  g_assert_nonnull (strstr (board->source, "taught"));
  g_assert_cmpuint (board->n_channels, ==, 4);
  g_assert_cmpuint (board->n_order, ==, 8);
  g_assert_cmpstr (board->slots[board->order[0]].id, ==, "PROC 1 DIMM 2A");
  node = lid_board_file_to_node (board);
  again = lid_board_file_from_node (node, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (again->order, again->n_order * sizeof (guint), board->order,
                   board->n_order * sizeof (guint));
}

typedef struct
{
  const char *pattern;
  guint processors;
  const char *names[17];
  const char *complaint; /* a part of it */
} Refusal;

static const Refusal refusals[] = {
  { "by-channel:2",
    1,
    { "DIMM1", "DIMM2", "DIMM3", "DIMM4", "DIMM5", "DIMM6", "DIMM7", "DIMM8", "DIMM9" },
    "9 slots, which do not divide by 2" },
  { "first-slots-first:4",
    2,
    { "CPU1_DIMM1", "CPU1_DIMM2", "CPU1_DIMM3", "CPU1_DIMM4", "CPU2_DIMM1", "CPU2_DIMM2" },
    "processor 2 has 2 slots" },
  { "by-channel:2", 2, { "P1_DIMMA1", "P1_DIMMA2", "NO DIMM", "NO DIMM" }, "no names for 2 slots" },
  { "by-channel:2", 2, { "CPU1_DIMM1", "CPU1_DIMM2", "RISER 1", "RISER 2" }, "is not told" },
  { "letter-order", 1, { "DIMM 1A", "DIMM 2" }, "“DIMM 2” has no letter" },
  { "letter-order", 1, { "DIMM 1A", "DIMM 2A" }, "same letter" },
  { "letter-socket:2", 2, { "DIMM 1", "DIMM 2" }, "“DIMM 1” has no letter" },
  { "letter-socket:3", 2, { "A1", "A2", "A3", "B1", "B2" }, "processor 2 has 2 slots" },
  { "by-channel:2", 1, { NULL }, "no slot" },
};

static void
test_refusals (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autoptr (LidInventory) inventory = make (refusals[i].processors, refusals[i].names);
      g_autofree char *before = NULL, *after = NULL;
      g_autoptr (GError) error = NULL;
      LidTeachPattern pattern;
      GPtrArray *order = NULL;

      /* Strings may have told channels: what they told must stay. */
      for (guint k = 0; k < inventory->devices->len; k++)
        ((LidDevice *)inventory->devices->pdata[k])->place.told_by = LID_TOLD_NOT;
      for (guint k = 0; k < inventory->devices->len; k++)
        g_clear_pointer (&((LidDevice *)inventory->devices->pdata[k])->place.channel, g_free);
      before = print_places (inventory);
      g_assert_true (lid_teach_parse (refusals[i].pattern, &pattern, NULL));
      g_assert_false (lid_teach_apply (inventory, &pattern, &order, &error));
      g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, refusals[i].complaint));
      g_assert_null (order);
      after = print_places (inventory);
      g_assert_cmpstr (before, ==, after);
    }
}

static void
test_spellings (void)
{
  static const char *const bad[] = { "",
                                     "by-channel",
                                     "by-channel:",
                                     "by-channel:0",
                                     "by-channel:65",
                                     "by-channel:x",
                                     "mirrored:3",
                                     "letter-order:2",
                                     "letter-socket:",
                                     "first-slots:4",
                                     "by-channel:2 ",
                                     "BY-CHANNEL:2" };
  LidTeachPattern pattern;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (lid_teach_parse (bad[i], &pattern, &error));
      g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
    }
  g_assert_true (lid_teach_parse ("letter-socket", &pattern, NULL));
  g_assert_cmpuint (pattern.count, ==, 0);
  g_assert_true (lid_teach_parse ("mirrored:6", &pattern, NULL));
  g_assert_cmpint (pattern.kind, ==, LID_TEACH_MIRRORED);
  g_assert_cmpuint (pattern.count, ==, 6);
}

/* Names without numbers keep the order of the list, and that is said. */
static void
test_no_numbers (void)
{
  const char *const names[] = { "upper", "upper", "upper", "upper", NULL };
  g_autoptr (LidInventory) inventory = make (1, names);
  g_autofree char *places = NULL;

  teach (inventory, "by-channel:2");
  places = print_places (inventory);
  g_assert_cmpstr (places, ==, "upper 1/1.1, upper 1/1.2, upper 1/2.1, upper 1/2.2");
  g_assert_cmpuint (inventory->remarks->len, ==, 1);
}

/* With C channels, channel = (n-1) mod C and slot = (n-1) div C: label tables of about 40 product
 * names of the letter-is-processor kind. Source: the Linux RAS daemon's label files, as summed up
 * in shared/facts/locators.md, "Channels when only processor and number are told". */
static void
test_against_label_tables (void)
{
  for (guint channels = 3; channels <= 6; channels++)
    {
      g_autofree char *text = g_strdup_printf ("letter-socket:%u", channels);
      g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
      g_autoptr (LidInventory) inventory = NULL;

      for (guint s = 0; s < 2; s++)
        for (guint n = 2 * channels; n > 0; n--)
          g_ptr_array_add (names, g_strdup_printf ("DIMM_%c%u", 'A' + s, n));
      g_ptr_array_add (names, NULL);
      inventory = make (2, (const char *const *)names->pdata);
      teach (inventory, text);
      for (guint i = 0; i < inventory->devices->len; i++)
        {
          const LidDevice *device = inventory->devices->pdata[i];
          guint n = (guint)g_ascii_strtoull (device->locator + strlen ("DIMM_A"), NULL, 10);
          g_autofree char *channel = g_strdup_printf ("%u", (n - 1) % channels + 1);

          g_assert_cmpint (device->place.socket, ==, device->locator[5] - 'A' + 1);
          g_assert_cmpstr (device->place.channel, ==, channel);
          g_assert_cmpint (device->place.position, ==, (n - 1) / channels + 1);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/teach/patterns", test_patterns);
  g_test_add_func ("/teach/order", test_order);
  g_test_add_func ("/teach/refusals", test_refusals);
  g_test_add_func ("/teach/spellings", test_spellings);
  g_test_add_func ("/teach/no-numbers", test_no_numbers);
  g_test_add_func ("/teach/against-label-tables", test_against_label_tables);
  return g_test_run ();
}
