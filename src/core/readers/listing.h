/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/bytes.h"
#include "inventory/inventory.h"

/* What the table and the text report have in common: both list SMBIOS structures. A reader turns
 * each structure into one of the records below, in the codes of the standard, and the listing makes
 * the inventory of them, so the two readers cannot disagree about what a record means. Strings are
 * borrowed from the input and must live until lid_listing_finish(). */

/* One type 17 as told. 0 is "not told" unless another value is named. */
typedef struct
{
  gint32 handle; /* LID_HANDLE_NONE where the report has lost it */
  gint32 array;
  guint line;        /* of a report; 0 for a table */
  gint64 size_kib;   /* 0: empty; -1: a module of unknown size; -2: no size told at all */
  guint total_width; /* bits, check bits included */
  guint data_width;  /* bits */
  guint speed;       /* MT/s as written */
  guint configured;  /* MT/s as written */
  guint configured_mv;
  guint ranks;
  guint16 detail;     /* type detail bits */
  guint8 form;        /* form factor code */
  guint8 type;        /* memory type code */
  guint8 technology;  /* memory technology code */
  guint8 out_of_spec; /* the program that wrote the report did not know the memory type */
  LidBytes locator;
  LidBytes bank;
  LidBytes maker;
  LidBytes serial;
  LidBytes part;
} LidToldDevice;

/* SMBIOS codes (DMTF DSP0134, 7.18) that readers and facts speak of by name. */
enum
{
  LID_SMBIOS_TYPE_ROM = 0x08,
  LID_SMBIOS_TYPE_FLASH = 0x09,
  LID_SMBIOS_TYPE_EPROM = 0x0c,
  LID_SMBIOS_TYPE_PERSISTENT = 0x1f,
  LID_SMBIOS_TYPE_MRDIMM = 0x25,
  LID_SMBIOS_FORM_CHIP = 0x05,
  LID_SMBIOS_FORM_DIMM = 0x09,
  LID_SMBIOS_FORM_ROW_OF_CHIPS = 0x0b,
  LID_SMBIOS_FORM_SODIMM = 0x0d,
  LID_SMBIOS_FORM_FB_DIMM = 0x0f,
  LID_SMBIOS_FORM_DIE = 0x10,
  LID_SMBIOS_FORM_CUDIMM = 0x12,
  LID_SMBIOS_FORM_CSODIMM = 0x13,
  LID_SMBIOS_TECHNOLOGY_NVDIMM_N = 0x04,
  LID_SMBIOS_TECHNOLOGY_PERSISTENT = 0x07,
  LID_SMBIOS_TECHNOLOGY_MRDIMM = 0x08,
  LID_SMBIOS_DETAIL_NON_VOLATILE = 1 << 12,
  LID_SMBIOS_DETAIL_REGISTERED = 1 << 13,
  LID_SMBIOS_DETAIL_UNBUFFERED = 1 << 14,
  LID_SMBIOS_DETAIL_LRDIMM = 1 << 15,
  LID_SMBIOS_USE_SYSTEM = 0x03,
  LID_SMBIOS_USE_FLASH = 0x05,
  LID_SMBIOS_ECC_NONE = 0x03,
  LID_SMBIOS_ECC_PARITY = 0x04,
  LID_SMBIOS_ECC_SINGLE = 0x05,
  LID_SMBIOS_ECC_MULTI = 0x06,
};

/* One type 16 as told. */
typedef struct
{
  gint32 handle;
  guint8 use; /* code */
  guint8 ecc; /* error correction code */
  gint64 max_kib;
  guint n_devices;
} LidToldArray;

typedef struct
{
  LidInventory *inventory;
  GArray *devices;  /* LidToldDevice, in the order listed */
  GArray *arrays;   /* LidToldArray */
  GHashTable *seen; /* type and handle of every record, to count each once */
  GArray *repeated; /* gint32, handles of devices listed more than once */
  gboolean full;    /* something was left out because there was too much of it */
} LidListing;

void lid_listing_init (LidListing *listing, LidInventory *inventory);
void lid_listing_clear (LidListing *listing);
void lid_listing_device (LidListing *listing, const LidToldDevice *device);
void lid_listing_array (LidListing *listing, const LidToldArray *array);
void lid_listing_processor (LidListing *listing, gint32 handle, LidBytes name, gboolean fitted);
void lid_listing_range (LidListing *listing, gint32 handle, const LidMappedRange *range);
void lid_listing_text (char **field, LidBytes text);
gboolean lid_listing_array_is_flash (const LidListing *listing, gint32 handle);
void lid_listing_finish (LidListing *listing);
