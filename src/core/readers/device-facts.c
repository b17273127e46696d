/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/device-facts.h"

#include "base/text.h"
#include "readers/filler.h"

/* device-facts.c: what one SMBIOS type 17 record says about a slot and its module.
 * SMBIOS never tells the chip width, and half of real firmware leaves out what else it could tell;
 * what is not told, contradicts itself or cannot be stays unknown. Codes, offsets and special
 * values: DMTF DSP0134, 7.18 (shared/facts/smbios_type17.csv, smbios_enums.csv); which of them real
 * machines get wrong, and how often: shared/facts/locators.md, section 4. */

/* Above 32 GiB - 1 MiB the 16-bit size field of tables before SMBIOS 2.7 is simply full. */
#define FULL_SIZE_KIB (32767 * 1024)

static const LidGeneration generations[] = {
  [0x12] = LID_GENERATION_DDR,    [0x13] = LID_GENERATION_DDR2,   [0x14] = LID_GENERATION_DDR2_FB,
  [0x18] = LID_GENERATION_DDR3,   [0x1a] = LID_GENERATION_DDR4,   [0x1b] = LID_GENERATION_LPDDR,
  [0x1c] = LID_GENERATION_LPDDR2, [0x1d] = LID_GENERATION_LPDDR3, [0x1e] = LID_GENERATION_LPDDR4,
  [0x20] = LID_GENERATION_HBM,    [0x21] = LID_GENERATION_HBM2,   [0x22] = LID_GENERATION_DDR5,
  [0x23] = LID_GENERATION_LPDDR5, [0x24] = LID_GENERATION_HBM3,   [0x25] = LID_GENERATION_DDR5,
};

static LidGeneration
generation_of (const LidToldDevice *told)
{
  return told->type < G_N_ELEMENTS (generations) ? generations[told->type] : LID_GENERATION_UNKNOWN;
}

static LidForm
form_of (const LidToldDevice *told)
{
  switch (told->form)
    {
    case 0:
    case 0x01: /* other */
    case 0x02: /* unknown */
      return LID_FORM_UNKNOWN;
    case LID_SMBIOS_FORM_DIMM:
    case LID_SMBIOS_FORM_FB_DIMM:
    case LID_SMBIOS_FORM_CUDIMM:
      return LID_FORM_DIMM;
    case LID_SMBIOS_FORM_SODIMM:
    case LID_SMBIOS_FORM_CSODIMM:
      return LID_FORM_SO_DIMM;
    default:
      return told->form <= LID_SMBIOS_FORM_CSODIMM ? LID_FORM_OTHER : LID_FORM_UNKNOWN;
    }
}

/**
 * lid_device_facts_check_bits:
 * @told: a device
 *
 * Believed only for widths a module of the form can have; 128 over 64, 72 over 72 and numbers that
 * are no widths occur in real tables and say nothing.
 *
 * Returns: check wires of the whole module, -1 when not told
 */
int
lid_device_facts_check_bits (const LidToldDevice *told)
{
  guint total = told->total_width, data = told->data_width;

  if (data == 64 && (total == 64 || total == 72 || total == 80))
    return (int)(total - data);
  if (form_of (told) == LID_FORM_OTHER || lid_generation_is_low_power (generation_of (told)))
    return total == data && (total == 8 || total == 16 || total == 32) ? 0 : -1;
  return -1;
}

/**
 * lid_device_facts_kind:
 * @told: a device
 *
 * The LRDIMM bit outranks the registered bit (both are set on some load-reduced modules). With
 * neither bit, or with both of registered and unbuffered, the kind is not told; unbuffered without
 * believable widths could be with or without ECC and is not told either.
 *
 * Returns: the kind, LID_KIND_UNKNOWN when not told
 */
LidKind
lid_device_facts_kind (const LidToldDevice *told)
{
  LidForm form = form_of (told);
  LidGeneration generation = generation_of (told);
  gboolean so = form == LID_FORM_SO_DIMM;
  int check = lid_device_facts_check_bits (told);
  guint buffered = told->detail & (LID_SMBIOS_DETAIL_REGISTERED | LID_SMBIOS_DETAIL_UNBUFFERED);

  if (form == LID_FORM_OTHER || lid_generation_is_low_power (generation))
    return LID_KIND_UNKNOWN;
  if (told->type == LID_SMBIOS_TYPE_MRDIMM || told->technology == LID_SMBIOS_TECHNOLOGY_MRDIMM)
    return LID_KIND_MULTIPLEXED_RANK;
  if (told->form == LID_SMBIOS_FORM_CUDIMM)
    return LID_KIND_CLOCKED_UNBUFFERED;
  if (told->form == LID_SMBIOS_FORM_CSODIMM)
    return LID_KIND_SO_CLOCKED_UNBUFFERED;
  if (generation == LID_GENERATION_DDR2_FB)
    return LID_KIND_FULLY_BUFFERED;
  /* Fully buffered modules exist as DDR2 only; some firmware writes FB-DIMM for others. */
  if (told->form == LID_SMBIOS_FORM_FB_DIMM)
    return generation == LID_GENERATION_DDR2 || generation == LID_GENERATION_UNKNOWN
               ? LID_KIND_FULLY_BUFFERED
               : LID_KIND_UNKNOWN;
  if (form == LID_FORM_UNKNOWN)
    return LID_KIND_UNKNOWN;
  if ((told->detail & LID_SMBIOS_DETAIL_LRDIMM) && !so)
    return LID_KIND_LOAD_REDUCED;
  if (buffered == LID_SMBIOS_DETAIL_REGISTERED)
    return so ? LID_KIND_SO_REGISTERED : LID_KIND_REGISTERED;
  if (buffered != LID_SMBIOS_DETAIL_UNBUFFERED || check < 0)
    return LID_KIND_UNKNOWN;
  if (check > 0)
    return so ? LID_KIND_SO_ECC_UNBUFFERED : LID_KIND_ECC_UNBUFFERED;
  return so ? LID_KIND_SO_UNBUFFERED : LID_KIND_UNBUFFERED;
}

/**
 * lid_device_facts_is_storage:
 *
 * Returns: whether it is flash or ROM, which firmware lists as a memory device too
 */
gboolean
lid_device_facts_is_storage (const LidToldDevice *told)
{
  return told->type >= LID_SMBIOS_TYPE_ROM && told->type <= LID_SMBIOS_TYPE_EPROM;
}

/**
 * lid_device_facts_is_told:
 *
 * Returns: whether enough is told to call it a slot: a size, or what only a module has
 */
gboolean
lid_device_facts_is_told (const LidToldDevice *told)
{
  g_autofree char *part = NULL;

  if (told->size_kib != -2)
    return TRUE;
  part = lid_text_clean ((const char *)told->part.data, (gssize)told->part.size);
  return told->speed > 0 || !lid_filler_is_filler (part);
}

static gboolean
is_persistent (const LidToldDevice *told)
{
  return told->type == LID_SMBIOS_TYPE_PERSISTENT
         || (told->technology >= LID_SMBIOS_TECHNOLOGY_NVDIMM_N
             && told->technology <= LID_SMBIOS_TECHNOLOGY_PERSISTENT)
         || (told->detail & LID_SMBIOS_DETAIL_NON_VOLATILE);
}

static gboolean
is_soldered (const LidToldDevice *told)
{
  return told->form == LID_SMBIOS_FORM_CHIP || told->form == LID_SMBIOS_FORM_ROW_OF_CHIPS
         || told->form == LID_SMBIOS_FORM_DIE || lid_generation_is_low_power (generation_of (told));
}

static void
set_name (char **field, LidBytes text)
{
  char *clean = lid_text_clean ((const char *)text.data, (gssize)text.size);

  if (lid_filler_is_filler (clean))
    g_free (clean);
  else
    *field = clean;
}

static void
set_facts (LidModule *module, const LidToldDevice *told)
{
  LidGeneration generation = generation_of (told);
  LidKind kind = lid_device_facts_kind (told);
  int check = lid_device_facts_check_bits (told);
  gint64 mib = told->size_kib / 1024;

  if (generation != LID_GENERATION_UNKNOWN)
    lid_module_set (module, LID_FACT_GENERATION, (gint32)generation, LID_BASIS_INVENTORY);
  if (kind != LID_KIND_UNKNOWN)
    lid_module_set (module, LID_FACT_KIND, (gint32)kind, LID_BASIS_INVENTORY);
  if (form_of (told) != LID_FORM_UNKNOWN)
    lid_module_set (module, LID_FACT_FORM, (gint32)form_of (told), LID_BASIS_INVENTORY);
  if (mib > 0 && mib <= G_MAXINT32 && told->size_kib != FULL_SIZE_KIB)
    lid_module_set (module, LID_FACT_CAPACITY, (gint32)mib, LID_BASIS_INVENTORY);
  if (lid_device_facts_ranks_are_plausible (told->ranks))
    lid_module_set (module, LID_FACT_RANKS, (gint32)told->ranks, LID_BASIS_INVENTORY);
  if (lid_inventory_rate_is_plausible (told->speed))
    lid_module_set (module, LID_FACT_RATED, (gint32)lid_rate_snap (generation, told->speed),
                    LID_BASIS_INVENTORY);
  if (check >= 0)
    {
      lid_module_set (module, LID_FACT_ECC, check > 0, LID_BASIS_INVENTORY);
      lid_module_set (module, LID_FACT_CHECK_BITS, check, LID_BASIS_INVENTORY);
    }
}

/**
 * lid_device_facts_ranks_are_plausible:
 *
 * Returns: whether a module can have so many ranks; 7 and 14 occur in real tables
 */
gboolean
lid_device_facts_ranks_are_plausible (guint ranks)
{
  return ranks == 1 || ranks == 2 || ranks == 4 || ranks == 8;
}

/**
 * lid_device_facts_add:
 * @inventory: where to
 * @told: one memory device, not flash or ROM
 *
 * Returns: (transfer none) (nullable): the new device; NULL when the inventory is full
 */
LidDevice *
lid_device_facts_add (LidInventory *inventory, const LidToldDevice *told)
{
  LidDevice *device = lid_inventory_add_device (inventory);

  if (device == NULL)
    return NULL;
  device->handle = told->handle;
  device->array = told->array;
  g_free (device->locator);
  device->locator = lid_text_clean ((const char *)told->locator.data, (gssize)told->locator.size);
  g_free (device->bank);
  device->bank = lid_text_clean ((const char *)told->bank.data, (gssize)told->bank.size);
  if (lid_filler_is_no_text (device->locator))
    *device->locator = 0;
  if (lid_filler_is_no_text (device->bank))
    *device->bank = 0;
  device->form = form_of (told);
  if (told->size_kib == 0)
    return device;
  device->capacity_mib = told->size_kib < 0 ? -1 : told->size_kib / 1024;
  device->rated_raw = told->speed;
  device->configured_mts = told->configured;
  device->configured_mv = told->configured_mv;
  device->module = lid_module_new ();
  device->module->persistent = is_persistent (told);
  device->state = device->module->persistent ? LID_SLOT_PERSISTENT
                  : is_soldered (told)       ? LID_SLOT_SOLDERED
                                             : LID_SLOT_FILLED;
  set_facts (device->module, told);
  set_name (&device->module->part, told->part);
  set_name (&device->module->serial, told->serial);
  set_name (&device->module->maker, told->maker);
  return device;
}
