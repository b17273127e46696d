/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/listing.h"

#include "base/text.h"
#include "readers/device-facts.h"
#include "readers/filler.h"
#include "readers/listing-remarks.h"

#define MOST_RECORDS LID_INVENTORY_MAX_DEVICES

/**
 * lid_listing_init:
 * @listing: (out): to be filled record by record
 * @inventory: (transfer none): what lid_listing_finish() fills; must outlive the listing
 */
void
lid_listing_init (LidListing *listing, LidInventory *inventory)
{
  listing->inventory = inventory;
  listing->devices = g_array_new (FALSE, TRUE, sizeof (LidToldDevice));
  listing->arrays = g_array_new (FALSE, TRUE, sizeof (LidToldArray));
  listing->seen = g_hash_table_new (NULL, NULL);
  listing->repeated = g_array_new (FALSE, TRUE, sizeof (gint32));
  listing->full = FALSE;
}

void
lid_listing_clear (LidListing *listing)
{
  g_array_unref (listing->devices);
  g_array_unref (listing->arrays);
  g_hash_table_unref (listing->seen);
  g_array_unref (listing->repeated);
}

/* Some reports hold the whole table twice, with the same handles: each handle counts once. A record
 * without handle cannot be told from another and always counts. */
static gboolean
is_new (LidListing *listing, guint type, gint32 handle)
{
  if (handle == LID_HANDLE_NONE)
    return TRUE;
  return g_hash_table_add (listing->seen, GUINT_TO_POINTER ((type + 1) << 16 | (guint)handle));
}

static gboolean
has_room (LidListing *listing, guint n)
{
  if (n < MOST_RECORDS)
    return TRUE;
  listing->full = TRUE;
  return FALSE;
}

void
lid_listing_device (LidListing *listing, const LidToldDevice *device)
{
  if (!is_new (listing, 17, device->handle))
    {
      if (has_room (listing, listing->repeated->len))
        g_array_append_val (listing->repeated, device->handle);
    }
  else if (has_room (listing, listing->devices->len))
    g_array_append_vals (listing->devices, device, 1);
}

void
lid_listing_array (LidListing *listing, const LidToldArray *array)
{
  if (is_new (listing, 16, array->handle) && has_room (listing, listing->arrays->len))
    g_array_append_vals (listing->arrays, array, 1);
}

/**
 * lid_listing_processor:
 * @listing: a listing
 * @handle: of the type 4 structure
 * @name: its socket designation
 * @fitted: whether a processor sits in it
 */
void
lid_listing_processor (LidListing *listing, gint32 handle, LidBytes name, gboolean fitted)
{
  char *text = NULL;

  if (!is_new (listing, 4, handle) || !has_room (listing, listing->inventory->processors->len))
    return;
  lid_listing_text (&text, name);
  lid_inventory_add_processor (listing->inventory, text != NULL ? text : "", fitted);
  g_free (text);
}

void
lid_listing_range (LidListing *listing, gint32 handle, const LidMappedRange *range)
{
  if (range->last_kib >= range->first_kib && is_new (listing, 19, handle)
      && has_room (listing, listing->inventory->ranges->len))
    g_array_append_vals (listing->inventory->ranges, range, 1);
}

/**
 * lid_listing_text:
 * @field: a text of the inventory; the first one told stays
 * @text: as the firmware wrote it; filler counts as not told
 */
void
lid_listing_text (char **field, LidBytes text)
{
  char *clean;

  if (*field != NULL || text.size == 0)
    return;
  clean = lid_text_clean ((const char *)text.data, (gssize)text.size);
  if (lid_filler_is_no_text (clean))
    g_free (clean);
  else
    *field = clean;
}

/**
 * lid_listing_array_is_flash:
 *
 * Returns: whether the array of that handle is said to hold flash, not memory
 */
gboolean
lid_listing_array_is_flash (const LidListing *listing, gint32 handle)
{
  if (handle == LID_HANDLE_NONE)
    return FALSE;
  for (guint i = 0; i < listing->arrays->len; i++)
    {
      const LidToldArray *array = &g_array_index (listing->arrays, LidToldArray, i);
      if (array->handle == handle)
        return array->use == LID_SMBIOS_USE_FLASH;
    }
  return FALSE;
}

static void
keep_array (LidInventory *inventory, const LidToldArray *told)
{
  LidArray array = { .handle = told->handle };

  /* A firmware that does not know writes "Other" or "Unknown": taken as memory. */
  array.system_memory = told->use <= LID_SMBIOS_USE_SYSTEM;
  if (told->ecc >= LID_SMBIOS_ECC_NONE && told->ecc <= LID_SMBIOS_ECC_MULTI)
    {
      array.ecc_basis = LID_BASIS_INVENTORY;
      array.ecc = told->ecc >= LID_SMBIOS_ECC_SINGLE; /* parity finds errors, it corrects none */
    }
  array.max_mib = told->max_kib / 1024;
  array.n_devices_told = told->n_devices;
  g_array_append_val (inventory->arrays, array);
}

/**
 * lid_listing_finish:
 * @listing: all records of one input
 *
 * Fills the inventory: devices with their facts, arrays, and remarks on what is odd.
 * A list without any memory device is an answer too, said in a remark.
 */
void
lid_listing_finish (LidListing *listing)
{
  for (guint i = 0; i < listing->arrays->len; i++)
    keep_array (listing->inventory, &g_array_index (listing->arrays, LidToldArray, i));
  for (guint i = 0; i < listing->devices->len; i++)
    {
      const LidToldDevice *told = &g_array_index (listing->devices, LidToldDevice, i);

      if (!lid_device_facts_is_storage (told) && !lid_listing_array_is_flash (listing, told->array)
          && lid_device_facts_is_told (told))
        lid_device_facts_add (listing->inventory, told);
    }
  lid_listing_remarks (listing);
}
