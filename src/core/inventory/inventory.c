/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "inventory/inventory.h"

static const char *const states[LID_N_SLOT_STATES] = {
  [LID_SLOT_EMPTY] = "empty",           [LID_SLOT_FILLED] = "filled",
  [LID_SLOT_NOT_SEEN] = "not-seen",     [LID_SLOT_SOLDERED] = "soldered",
  [LID_SLOT_PERSISTENT] = "persistent",
};

const char *
lid_slot_state_to_text (LidSlotState state)
{
  g_return_val_if_fail ((guint)state < LID_N_SLOT_STATES, NULL);
  return states[state];
}

LidSlotState
lid_slot_state_from_text (const char *text, gboolean *found)
{
  for (guint i = 0; i < LID_N_SLOT_STATES; i++)
    if (g_strcmp0 (text, states[i]) == 0)
      {
        *found = TRUE;
        return i;
      }
  *found = FALSE;
  return LID_SLOT_EMPTY;
}

/**
 * lid_told_by_to_text:
 *
 * Returns: (nullable): the word in JSON; NULL when the channel is not told
 */
const char *
lid_told_by_to_text (LidToldBy told_by)
{
  static const char *const names[] = { NULL, "strings", "taught", "board", "only-one" };

  g_return_val_if_fail ((guint)told_by < G_N_ELEMENTS (names), NULL);
  return names[told_by];
}

static void
device_free (gpointer data)
{
  LidDevice *device = data;

  g_free (device->slot);
  g_free (device->locator);
  g_free (device->bank);
  g_free (device->place.channel);
  lid_module_unref (device->module);
  g_free (device);
}

static void
processor_free (gpointer data)
{
  LidProcessor *processor = data;

  g_free (processor->name);
  g_free (processor);
}

static void
remark_free (gpointer data)
{
  LidRemark *remark = data;

  g_free (remark->place);
  g_free (remark->what);
  g_free (remark->remedy);
  g_free (remark);
}

/**
 * lid_inventory_new:
 * @source: the input's name for people
 * @format: id of the reader; static
 *
 * Returns: (transfer full): an empty inventory
 */
LidInventory *
lid_inventory_new (const char *source, const char *format)
{
  LidInventory *inventory = g_new0 (LidInventory, 1);

  inventory->source = g_strdup (source);
  inventory->format = format;
  inventory->devices = g_ptr_array_new_with_free_func (device_free);
  inventory->arrays = g_array_new (FALSE, TRUE, sizeof (LidArray));
  inventory->processors = g_ptr_array_new_with_free_func (processor_free);
  inventory->ranges = g_array_new (FALSE, TRUE, sizeof (LidMappedRange));
  inventory->remarks = g_ptr_array_new_with_free_func (remark_free);
  return inventory;
}

void
lid_inventory_free (LidInventory *inventory)
{
  if (inventory == NULL)
    return;
  g_free (inventory->source);
  g_free (inventory->product);
  g_free (inventory->product_version);
  g_free (inventory->board_product);
  g_free (inventory->board_version);
  g_free (inventory->firmware);
  g_free (inventory->firmware_date);
  g_ptr_array_unref (inventory->devices);
  g_array_unref (inventory->arrays);
  g_ptr_array_unref (inventory->processors);
  g_array_unref (inventory->ranges);
  g_ptr_array_unref (inventory->remarks);
  g_free (inventory);
}

/**
 * lid_inventory_add_device:
 *
 * Returns: (transfer none): a new empty device, its strings "" and its handles none; NULL when
 * there are already LID_INVENTORY_MAX_DEVICES
 */
LidDevice *
lid_inventory_add_device (LidInventory *inventory)
{
  LidDevice *device;

  if (inventory->devices->len >= LID_INVENTORY_MAX_DEVICES)
    return NULL;
  device = g_new0 (LidDevice, 1);
  device->handle = LID_HANDLE_NONE;
  device->array = LID_HANDLE_NONE;
  device->locator = g_strdup ("");
  device->bank = g_strdup ("");
  g_ptr_array_add (inventory->devices, device);
  return device;
}

void
lid_inventory_add_processor (LidInventory *inventory, const char *name, gboolean fitted)
{
  LidProcessor *processor = g_new0 (LidProcessor, 1);

  processor->name = g_strdup (name);
  processor->fitted = fitted;
  g_ptr_array_add (inventory->processors, processor);
}

/**
 * lid_inventory_remark:
 * @inventory: an inventory
 * @place: where, as a person finds it
 * @remedy: (nullable): what to do about it
 * @what_format: one sentence
 */
void
lid_inventory_remark (
    LidInventory *inventory, const char *place, const char *remedy, const char *what_format, ...)
{
  LidRemark *remark = g_new0 (LidRemark, 1);
  va_list args;

  va_start (args, what_format);
  remark->what = g_strdup_vprintf (what_format, args);
  va_end (args);
  remark->place = g_strdup (place);
  remark->remedy = g_strdup (remedy);
  g_ptr_array_add (inventory->remarks, remark);
}

/**
 * lid_inventory_n_fitted_processors:
 *
 * Returns: processors fitted; 0 when the inventory tells of none at all
 */
guint
lid_inventory_n_fitted_processors (const LidInventory *inventory)
{
  guint n = 0;

  for (guint i = 0; i < inventory->processors->len; i++)
    n += ((LidProcessor *)inventory->processors->pdata[i])->fitted;
  return n;
}

/**
 * lid_inventory_total_mib:
 *
 * Returns: the sum of all devices, persistent and soldered ones included (product.md 11)
 */
gint64
lid_inventory_total_mib (const LidInventory *inventory)
{
  gint64 total = 0;

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      if (device->capacity_mib > 0)
        total += device->capacity_mib;
    }
  return total;
}

guint
lid_inventory_n_filled (const LidInventory *inventory)
{
  guint n = 0;

  for (guint i = 0; i < inventory->devices->len; i++)
    n += lid_slot_state_holds_module (((LidDevice *)inventory->devices->pdata[i])->state);
  return n;
}

/**
 * lid_inventory_rate_is_plausible:
 * @mts: a rate as a machine told it
 *
 * Real tables hold rates such as 2, 6, 33, 49926 and 65535 MT/s. They stay in the inventory as
 * written; who reckons with a rate asks here first. The bounds leave room on both sides of what was
 * ever built (66 MT/s to 12800 MT/s): from memory.
 *
 * Returns: whether memory can run at that rate
 */
gboolean
lid_inventory_rate_is_plausible (guint mts)
{
  return mts >= 66 && mts <= 20000;
}
