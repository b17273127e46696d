/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "facts/module.h"

#include <gio/gio.h>

/* What a reader found in one input, before any judgement: strings as the firmware wrote them (made
 * valid UTF-8 and trimmed), numbers as told, unknown as unknown. Readers fill it; locators/ adds
 * the places; board/ matches or derives a board from it; job/ makes a job of it. */

#define LID_HANDLE_NONE (-1)
#define LID_INVENTORY_MAX_DEVICES 4096u

/* State of a slot as told: product.md 11, key "state". */
typedef enum
{
  LID_SLOT_EMPTY,
  LID_SLOT_FILLED,
  LID_SLOT_NOT_SEEN, /* a module is there and the machine does not use it */
  LID_SLOT_SOLDERED,
  LID_SLOT_PERSISTENT,
  LID_N_SLOT_STATES
} LidSlotState;

const char *lid_slot_state_to_text (LidSlotState state);
LidSlotState lid_slot_state_from_text (const char *text, gboolean *found);
static inline gboolean
lid_slot_state_holds_module (LidSlotState state)
{
  return state != LID_SLOT_EMPTY;
}

/* Who says which channel a slot is on: product.md 11, key "told_by". */
typedef enum
{
  LID_TOLD_NOT,
  LID_TOLD_STRINGS,
  LID_TOLD_TAUGHT,
  LID_TOLD_BOARD,
  LID_TOLD_ONLY_ONE, /* the machine has only one slot, so there is nothing to tell */
} LidToldBy;

const char *lid_told_by_to_text (LidToldBy told_by);

/* Where a slot is. 0 or NULL: not known. */
typedef struct
{
  int socket;     /* from 1 */
  int controller; /* from 1, inside the socket */
  char *channel;  /* as the machine or the board names it; unique within (socket, controller) */
  int position;   /* from 1, inside the channel; 1 is the slot to fill first only if a board says so
                   */
  LidToldBy told_by;
} LidPlace;

/* One slot as told. */
typedef struct
{
  gint32 handle; /* SMBIOS handle, LID_HANDLE_NONE elsewhere */
  gint32 array;  /* handle of the array it belongs to */
  char *slot;    /* unique in the machine; set by locators/ */
  char *locator; /* never NULL, maybe empty */
  char *bank;    /* never NULL, maybe empty */
  LidSlotState state;
  gint64 capacity_mib;  /* -1: a module of unknown size; 0 when empty */
  guint rated_raw;      /* MT/s as written, 0 when not told */
  guint configured_mts; /* MT/s as written, 0 when not told */
  guint configured_mv;
  LidModule *module; /* NULL when empty */
  LidForm form;      /* of what is in it or, when empty, of what goes in; as told */
  LidPlace place;
} LidDevice;

typedef struct
{
  gint32 handle;
  gboolean system_memory; /* Use is not told or "System Memory" */
  LidBasis ecc_basis;
  gboolean ecc;         /* the array corrects errors */
  gint64 max_mib;       /* 0: not told */
  guint n_devices_told; /* 0: not told */
} LidArray;

typedef struct
{
  char *name; /* socket designation */
  gboolean fitted;
} LidProcessor;

typedef struct
{
  guint64 first_kib;
  guint64 last_kib; /* included */
  gint32 array;
} LidMappedRange;

/* A thing that could not be read or is odd: product.md 11, key "remarks". */
typedef struct
{
  char *place;  /* "handle 0x1104", "line 312", "byte 512" */
  char *what;   /* one sentence */
  char *remedy; /* nullable */
} LidRemark;

typedef struct
{
  char *source;       /* the file's name, "-" for standard input */
  const char *format; /* id of the reader */
  char *product;      /* SMBIOS type 1 and 2, for the fingerprint only; nullable */
  char *product_version;
  char *board_product;
  char *board_version;
  char *firmware; /* version, nullable */
  char *firmware_date;
  GPtrArray *devices;    /* LidDevice, flash and ROM left out, each handle once, as listed */
  GArray *arrays;        /* LidArray, system memory or not */
  GPtrArray *processors; /* LidProcessor */
  GArray *ranges;        /* LidMappedRange, type 19 */
  GPtrArray *remarks;    /* LidRemark */
} LidInventory;

LidInventory *lid_inventory_new (const char *source, const char *format);
void lid_inventory_free (LidInventory *inventory);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidInventory, lid_inventory_free)

LidDevice *lid_inventory_add_device (LidInventory *inventory);
void lid_inventory_add_processor (LidInventory *inventory, const char *name, gboolean fitted);
void lid_inventory_remark (LidInventory *inventory,
                           const char *place,
                           const char *remedy,
                           const char *what_format,
                           ...) G_GNUC_PRINTF (4, 5);
guint lid_inventory_n_fitted_processors (const LidInventory *inventory);
gint64 lid_inventory_total_mib (const LidInventory *inventory);
guint lid_inventory_n_filled (const LidInventory *inventory);
gboolean lid_inventory_rate_is_plausible (guint mts);
