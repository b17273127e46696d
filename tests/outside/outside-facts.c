/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels, rates and SMBIOS records as the standards write them; cautions with a figure in them. */
#include "base/rate.h"
#include "facts/label.h"
#include "facts/module-json.h"
#include "facts/module-kind.h"
#include "figures/power.h"
#include "help/cautions.h"
#include "outside.h"
#include "readers/readers.h"

#include <string.h>

/* A number of a fact as its word in files: 16384, "registered", "DDR4", true; null: not known. */
static void
check_fact (const LidModule *module, const char *word, JsonNode *wanted)
{
  gboolean found;
  LidFact fact = lid_fact_from_text (word, &found);
  gint32 value = lid_module_get (module, fact, -1);

  g_test_message ("%s", word);
  g_assert_true (found);
  g_assert_cmpint (lid_module_knows (module, fact), ==, !JSON_NODE_HOLDS_NULL (wanted));
  if (JSON_NODE_HOLDS_NULL (wanted))
    return;
  if (fact == LID_FACT_KIND)
    g_assert_cmpstr (lid_kind_to_text ((LidKind)value), ==, json_node_get_string (wanted));
  else if (fact == LID_FACT_GENERATION)
    g_assert_cmpstr (lid_generation_to_text ((LidGeneration)value), ==,
                     json_node_get_string (wanted));
  else if (fact == LID_FACT_ECC)
    g_assert_cmpint (value, ==, json_node_get_boolean (wanted));
  else if (fact == LID_FACT_RATED)
    g_assert_cmpint (lid_rate_mts ((LidRate)value), ==, json_node_get_int (wanted));
  else if (fact == LID_FACT_VOLTAGE)
    g_assert_cmpint (lid_voltage_lowest_mv ((LidVoltages)value), ==, json_node_get_int (wanted));
  else
    g_assert_cmpint (value, ==, json_node_get_int (wanted));
}

static void
check_facts (const LidModule *module, JsonObject *expect)
{
  g_autoptr (GList) words = json_object_get_members (expect);

  for (GList *l = words; l != NULL; l = l->next)
    check_fact (module, l->data, json_object_get_member (expect, l->data));
}

/**
 * outside_label:
 * @one: "label", and the "facts" it tells; "refused": the field at fault instead
 */
void
outside_label (JsonObject *one)
{
  const char *text = json_object_get_string_member (one, "label");
  g_autoptr (LidModule) module = NULL;
  g_autoptr (GError) error = NULL;
  LidLabelFault fault;
  LidLabel label;
  gboolean read = lid_label_parse (text, -1, &label, &fault, &error);

  if (json_object_has_member (one, "refused"))
    {
      g_assert_false (read);
      g_assert_cmpstr (lid_label_field_to_text (fault.field), ==,
                       json_object_get_string_member (one, "refused"));
      return;
    }
  g_assert_no_error (error);
  module = lid_label_facts_to_module (&label);
  check_facts (module, json_object_get_object_member (one, "facts"));
}

/**
 * outside_rate:
 * @one: "rate" as printed, of "generation"; "thirds": what it stands for, in thirds of a MT/s
 */
void
outside_rate (JsonObject *one)
{
  LidGeneration generation
      = lid_generation_from_text (json_object_get_string_member (one, "generation"));
  guint printed = (guint)json_object_get_int_member (one, "rate");
  LidRate rate = lid_rate_snap (generation, printed);

  g_assert_cmpuint (rate, ==, (guint)json_object_get_int_member (one, "thirds"));
  g_assert_cmpint (lid_rate_is_step (generation, rate), ==,
                   json_object_get_boolean_member_with_default (one, "step", TRUE));
  if (lid_rate_is_step (generation, rate))
    g_assert_cmpuint (lid_rate_mts (rate), ==, printed);
}

/* "0C": "ff7f": bytes from that offset on, in the order they lie. */
static void
put_bytes (GByteArray *record, JsonObject *fields)
{
  g_autoptr (GList) offsets = json_object_get_members (fields);

  for (GList *l = offsets; l != NULL; l = l->next)
    {
      guint64 at = g_ascii_strtoull (l->data, NULL, 16);
      const char *hex = json_object_get_string_member (fields, l->data);

      for (; *hex != 0; hex += 2, at++)
        {
          g_assert_cmpuint (at, <, record->len);
          record->data[at]
              = (guint8)(g_ascii_xdigit_value (hex[0]) * 16 + g_ascii_xdigit_value (hex[1]));
        }
    }
}

/* One record of type 17 of @length, with two strings, and the end of the table. */
static GByteArray *
make_table (JsonObject *fields, guint length)
{
  static const guint8 strings[] = "A1\0BANK 0\0", end[] = { 127, 4, 1, 0, 0, 0 };
  GByteArray *table = g_byte_array_new ();

  g_byte_array_set_size (table, length);
  memset (table->data, 0, length);
  table->data[0] = 17;
  table->data[1] = (guint8)length;
  table->data[0x10] = 1;
  table->data[0x11] = 2;
  put_bytes (table, fields);
  g_byte_array_append (table, strings, sizeof strings);
  g_byte_array_append (table, end, sizeof end);
  return table;
}

/**
 * outside_smbios:
 * @one: "type17": offset → bytes; "length" of the record; "state", "capacity_mib", "rated_raw",
 *   "configured_mts" and "facts" expected of it
 */
void
outside_smbios (JsonObject *one)
{
  guint length = (guint)json_object_get_int_member_with_default (one, "length", 0x5c);
  g_autoptr (GByteArray) table = make_table (json_object_get_object_member (one, "type17"), length);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidInventory) inventory
      = lid_readers_read_bytes ((LidBytes){ table->data, table->len }, "-", &error);
  const LidDevice *device;

  g_assert_no_error (error);
  g_assert_cmpuint (inventory->devices->len, ==, 1);
  device = inventory->devices->pdata[0];
  if (json_object_has_member (one, "state"))
    g_assert_cmpstr (lid_slot_state_to_text (device->state), ==,
                     json_object_get_string_member (one, "state"));
  if (json_object_has_member (one, "capacity_mib"))
    g_assert_cmpint (device->capacity_mib, ==, json_object_get_int_member (one, "capacity_mib"));
  if (json_object_has_member (one, "rated_raw"))
    g_assert_cmpint (device->rated_raw, ==, json_object_get_int_member (one, "rated_raw"));
  if (json_object_has_member (one, "configured_mts"))
    g_assert_cmpint (device->configured_mts, ==,
                     json_object_get_int_member (one, "configured_mts"));
  if (json_object_has_member (one, "facts"))
    check_facts (device->module, json_object_get_object_member (one, "facts"));
}

/**
 * outside_power:
 * @one: "power": a label; "setup_mv"; "watts": what was published, which must be the middle of our
 *   range where "middle" is true and must lie in it else
 */
void
outside_power (JsonObject *one)
{
  g_autoptr (LidBoard) board = lid_board_new ();
  g_autoptr (LidModule) module = NULL;
  g_autoptr (GError) error = NULL;
  gint32 mw = (gint32)(json_object_get_double_member (one, "watts") * 1000 + 0.5);
  LidPower power;
  LidLabel label;

  lid_label_parse (json_object_get_string_member (one, "power"), -1, &label, NULL, &error);
  g_assert_no_error (error);
  module = lid_label_facts_to_module (&label);
  power = lid_power_module (board, module,
                            (guint)json_object_get_int_member_with_default (one, "setup_mv", 0));
  g_assert_true (power.known);
  if (json_object_get_boolean_member_with_default (one, "middle", FALSE))
    {
      g_assert_cmpint (power.plan_mw, ==, mw);
      g_assert_cmpint (power.low_mw, ==, mw / 2);
      g_assert_cmpint (power.high_mw, ==, mw * 3 / 2);
    }
  g_assert_cmpint (power.low_mw, <=, mw);
  g_assert_cmpint (power.high_mw, >=, mw);
}

/**
 * outside_caution:
 * @one: "caution": its id; "says": the figure that must stand in its text or its why
 */
void
outside_caution (JsonObject *one)
{
  const LidCaution *caution = lid_cautions_find (json_object_get_string_member (one, "caution"));
  const char *says = json_object_get_string_member (one, "says");

  g_assert_nonnull (caution);
  g_assert_true (strstr (caution->text, says) != NULL || strstr (caution->why, says) != NULL);
}
