/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/listing-remarks.h"

#include "base/text.h"
#include "base/units.h"
#include "readers/device-facts.h"

#include <glib/gi18n-lib.h>

/* listing-remarks.c: what is odd in a list of memory devices and matters to a person. One remark a
 * kind of oddity, naming all handles, so that a machine with a sloppy firmware does not fill a
 * page. How often each occurs in real machines: shared/facts/locators.md, section 4. */

#define MOST_NAMED 4u

typedef gboolean (*IsOdd) (const LidListing *listing, const LidToldDevice *told);

static gboolean
is_filled (const LidToldDevice *told)
{
  return told->size_kib != 0 && !lid_device_facts_is_storage (told);
}

static gboolean
lacks_size (const LidListing *listing, const LidToldDevice *told)
{
  return is_filled (told) && told->size_kib < 0 && lid_device_facts_is_told (told);
}

static gboolean
is_cut (const LidListing *listing, const LidToldDevice *told)
{
  return told->size_kib == -2 && !lid_device_facts_is_told (told);
}

static gboolean
fills_field (const LidListing *listing, const LidToldDevice *told)
{
  return is_filled (told) && told->size_kib == 32767 * 1024;
}

static gboolean
is_tiny (const LidListing *listing, const LidToldDevice *told)
{
  return is_filled (told) && told->size_kib > 0 && told->size_kib < 1024;
}

static gboolean
has_odd_rate (const LidListing *listing, const LidToldDevice *told)
{
  return is_filled (told)
         && ((told->speed != 0 && !lid_inventory_rate_is_plausible (told->speed))
             || (told->configured != 0 && !lid_inventory_rate_is_plausible (told->configured)));
}

static gboolean
has_odd_ranks (const LidListing *listing, const LidToldDevice *told)
{
  return is_filled (told) && told->ranks != 0
         && !lid_device_facts_ranks_are_plausible (told->ranks);
}

static gboolean
has_odd_widths (const LidListing *listing, const LidToldDevice *told)
{
  return is_filled (told) && told->total_width != 0 && told->data_width != 0
         && lid_device_facts_check_bits (told) < 0;
}

static gboolean
is_out_of_spec (const LidListing *listing, const LidToldDevice *told)
{
  return is_filled (told) && told->out_of_spec;
}

static gboolean
misses_array (const LidListing *listing, const LidToldDevice *told)
{
  if (listing->arrays->len == 0 || told->array == LID_HANDLE_NONE)
    return FALSE;
  for (guint i = 0; i < listing->arrays->len; i++)
    if (g_array_index (listing->arrays, LidToldArray, i).handle == told->array)
      return FALSE;
  return !lid_device_facts_is_storage (told);
}

static const struct
{
  IsOdd is_odd;
  const char *what;
  const char *remedy;
} oddities[] = {
  { is_cut, N_ ("The record breaks off before it tells a size; it is left out."),
    N_ ("Read the machine again, or paste the whole report.") },
  { lacks_size, N_ ("A module is there but its size is not told; it counts with no capacity."),
    N_ ("Read the size off the label and tell it.") },
  { fills_field,
    N_ ("The size is told as 32767 MB: the field is full and the module has 32 GB or more."),
    N_ ("Read the size off the label and tell it.") },
  { is_tiny, N_ ("The size is less than 1 MB and counts as nothing."), NULL },
  { has_odd_rate, N_ ("A rate is told that no memory runs at; it is not reckoned with."),
    N_ ("Read the rate off the label.") },
  { has_odd_ranks, N_ ("A number of ranks is told that no module has; it is not believed."),
    N_ ("Read the ranks off the label, as in 2Rx4.") },
  { has_odd_widths,
    N_ ("The widths told do not go together, so whether there are check bits is not known."),
    N_ ("Read the kind off the label: the letter behind the second hyphen, R in PC4-2666V-RB2; of "
        "DDR3 the one behind the number.") },
  { is_out_of_spec,
    N_ ("The program that wrote the report is older than the table and does not know this type of "
        "memory."),
    N_ ("Write the report with a newer version, or read the binary table.") },
  { misses_array, N_ ("The slot belongs to an array that is not listed."), NULL },
};

/**
 * lid_listing_remarks_place:
 * @handles: handles of SMBIOS structures
 * @n_handles: how many, at least one
 *
 * Returns: (transfer full): "handle 0x1104" or "handles 0x1104, 0x1105 and 6 more"
 */
char *
lid_listing_remarks_place (const gint32 *handles, guint n_handles)
{
  guint n = MIN (n_handles, MOST_NAMED);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *joined = NULL;

  for (guint i = 0; i < n_handles; i++)
    g_ptr_array_add (names, i < n ? g_strdup_printf ("0x%04X", (guint)handles[i]) : NULL);
  joined = lid_text_join ((const char *const *)names->pdata, n_handles, MOST_NAMED);
  return g_strdup_printf (ngettext ("handle %s", "handles %s", n_handles), joined);
}

static void
remark_devices (LidListing *listing, guint oddity, GArray *handles)
{
  guint line = 0;
  g_autofree char *place = NULL;

  g_array_set_size (handles, 0);
  for (guint i = 0; i < listing->devices->len; i++)
    {
      const LidToldDevice *told = &g_array_index (listing->devices, LidToldDevice, i);

      if (!oddities[oddity].is_odd (listing, told)
          || lid_listing_array_is_flash (listing, told->array))
        continue;
      if (told->handle != LID_HANDLE_NONE)
        g_array_append_val (handles, told->handle);
      else if (line == 0)
        line = told->line;
    }
  if (handles->len > 0)
    place = lid_listing_remarks_place ((const gint32 *)handles->data, handles->len);
  else if (line > 0)
    place = g_strdup_printf (_ ("line %u"), line);
  if (place != NULL)
    lid_inventory_remark (listing->inventory, place,
                          oddities[oddity].remedy != NULL ? _ (oddities[oddity].remedy) : NULL,
                          "%s", _ (oddities[oddity].what));
}

/* Devices of an array as listed, flash left out, and what they hold. */
static guint
count_array (const LidListing *listing, gint32 handle, gint64 *kib)
{
  guint n = 0;

  *kib = 0;
  for (guint i = 0; i < listing->devices->len; i++)
    {
      const LidToldDevice *told = &g_array_index (listing->devices, LidToldDevice, i);
      if (told->array != handle)
        continue;
      n++;
      if (told->size_kib > 0)
        *kib += told->size_kib;
    }
  return n;
}

static void
remark_array (LidListing *listing, const LidToldArray *array)
{
  gint64 kib = 0;
  guint n = count_array (listing, array->handle, &kib);
  g_autofree char *place = NULL;

  if (array->use > LID_SMBIOS_USE_SYSTEM || array->handle == LID_HANDLE_NONE)
    return;
  place = lid_listing_remarks_place (&array->handle, 1);
  if (array->n_devices != 0 && array->n_devices != n)
    lid_inventory_remark (listing->inventory, place,
                          n < array->n_devices ? _ ("Compare with the slots on the board.") : NULL,
                          _ ("The array is said to have %u slots; %u are listed."),
                          array->n_devices, n);
  if (array->max_kib > 0 && kib > array->max_kib)
    {
      g_autofree char *holds = lid_units_capacity (kib / 1024);
      g_autofree char *takes = lid_units_capacity (array->max_kib / 1024);
      lid_inventory_remark (
          listing->inventory, place, NULL,
          _ ("The array holds %s, more than the %s it is said to take; the limit is not believed."),
          holds, takes);
    }
}

static gboolean
is_near (guint64 a, guint64 b)
{
  guint64 apart = a > b ? a - b : b - a;

  return apart <= b / 100 * 3 + 1024;
}

static gint
compare_ranges (gconstpointer a, gconstpointer b)
{
  const LidMappedRange *left = a, *right = b;

  return left->first_kib < right->first_kib ? -1 : left->first_kib > right->first_kib;
}

/* Type 19 should map what the modules hold. Both the plain sum and the union are tried: arrays that
 * are interleaved list the same range each. Less than fitted is worth a look; more is only the
 * holes below 4 GB that some firmware counts. */
static void
remark_ranges (LidListing *listing)
{
  guint64 sum = 0, whole = 0, end = 0;
  guint64 fitted = (guint64)lid_inventory_total_mib (listing->inventory) * 1024;
  g_autoptr (GArray) ranges = g_array_new (FALSE, FALSE, sizeof (LidMappedRange));

  for (guint i = 0; i < listing->inventory->ranges->len; i++)
    {
      LidMappedRange range = g_array_index (listing->inventory->ranges, LidMappedRange, i);
      if (lid_listing_array_is_flash (listing, range.array))
        continue;
      sum += range.last_kib - range.first_kib + 1;
      g_array_append_val (ranges, range);
    }
  g_array_sort (ranges, compare_ranges);
  for (guint i = 0; i < ranges->len; i++)
    {
      LidMappedRange range = g_array_index (ranges, LidMappedRange, i);
      guint64 from = MAX (range.first_kib, end);

      if (range.last_kib >= from)
        whole += range.last_kib - from + 1;
      end = MAX (end, range.last_kib + 1);
    }
  if (ranges->len == 0 || fitted == 0 || is_near (sum, fitted) || is_near (whole, fitted))
    return;
  g_autofree char *mapped = lid_units_capacity ((gint64)(sum / 1024));
  g_autofree char *listed = lid_units_capacity ((gint64)(fitted / 1024));
  if (sum < fitted)
    lid_inventory_remark (listing->inventory, _ ("address ranges"),
                          _ ("Compare with the total the setup screen shows."),
                          _ ("%s are mapped of %s fitted: memory may be mirrored, spared or not "
                             "used, or the table is wrong."),
                          mapped, listed);
  else
    lid_inventory_remark (listing->inventory, _ ("address ranges"), NULL,
                          _ ("%s are mapped, more than the %s fitted: the firmware counts holes or "
                             "repeats ranges."),
                          mapped, listed);
}

static void
remark_same_serials (LidListing *listing)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GArray) handles = g_array_new (FALSE, FALSE, sizeof (gint32));

  for (guint i = 0; i < listing->inventory->devices->len; i++)
    {
      const LidDevice *device = listing->inventory->devices->pdata[i];

      if (device->module == NULL || device->module->serial == NULL)
        continue;
      if (!g_hash_table_add (seen,
                             g_strdup_printf ("%s\t%s", device->module->serial,
                                              device->module->part ? device->module->part : ""))
          && device->handle != LID_HANDLE_NONE)
        g_array_append_val (handles, device->handle);
    }
  if (handles->len > 0)
    {
      g_autofree char *place
          = lid_listing_remarks_place ((const gint32 *)handles->data, handles->len);
      lid_inventory_remark (
          listing->inventory, place, _ ("Look whether both slots are filled, and read the labels."),
          _ ("Part and serial number stand in another slot too: one module may be "
             "listed twice. Each is counted."));
    }
}

/**
 * lid_listing_remarks:
 * @listing: a listing whose inventory has its devices and arrays
 *
 * Adds the remarks on what is odd.
 */
void
lid_listing_remarks (LidListing *listing)
{
  g_autoptr (GArray) handles = g_array_new (FALSE, FALSE, sizeof (gint32));

  if (listing->repeated->len > 0)
    {
      g_autofree char *place = lid_listing_remarks_place ((const gint32 *)listing->repeated->data,
                                                          listing->repeated->len);
      lid_inventory_remark (listing->inventory, place, NULL, "%s",
                            _ ("Listed more than once; each handle is counted once."));
    }
  for (guint i = 0; i < G_N_ELEMENTS (oddities); i++)
    remark_devices (listing, i, handles);
  for (guint i = 0; i < listing->arrays->len && listing->devices->len > 0; i++)
    remark_array (listing, &g_array_index (listing->arrays, LidToldArray, i));
  remark_ranges (listing);
  remark_same_serials (listing);
  if (listing->full)
    lid_inventory_remark (listing->inventory, _ ("whole list"), NULL,
                          _ ("More than %u records of a kind; the rest is left out."),
                          LID_INVENTORY_MAX_DEVICES);
  if (listing->inventory->devices->len == 0)
    lid_inventory_remark (
        listing->inventory, _ ("whole list"),
        _ ("Read the machine with rights to see its memory, all structure types."), "%s",
        _ ("No memory device is listed."));
}
