/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/smbios-words.h"

#include "inventory/inventory.h"
#include "readers/listing.h"

#include <string.h>

/* smbios-words.c: the words of the text report back to the codes of the standard they stand for.
 * Words and codes: DMTF DSP0134, 7.17 to 7.20 (shared/facts/smbios_enums.csv), spelt as the report
 * prints them. A word that is not here is code 0, not told. */

typedef struct
{
  const char *word;
  guint8 code;
} Word;

static const Word forms[] = {
  { "DIMM", 0x09 },    { "SODIMM", 0x0d },       { "FB-DIMM", 0x0f }, { "Other", 0x01 },
  { "Unknown", 0x02 }, { "SIMM", 0x03 },         { "SIP", 0x04 },     { "Chip", 0x05 },
  { "DIP", 0x06 },     { "ZIP", 0x07 },          { "TSOP", 0x0a },    { "Proprietary Card", 0x08 },
  { "RIMM", 0x0c },    { "Row Of Chips", 0x0b }, { "SRIMM", 0x0e },   { "Die", 0x10 },
  { "CAMM", 0x11 },    { "CUDIMM", 0x12 },       { "CSODIMM", 0x13 },
};

static const Word types[] = {
  { "DDR4", 0x1a },   { "DDR5", 0x22 },    { "DDR3", 0x18 },
  { "DDR2", 0x13 },   { "DDR", 0x12 },     { "DDR2 FB-DIMM", 0x14 },
  { "Other", 0x01 },  { "Unknown", 0x02 }, { "DRAM", 0x03 },
  { "EDRAM", 0x04 },  { "VRAM", 0x05 },    { "SRAM", 0x06 },
  { "RAM", 0x07 },    { "ROM", 0x08 },     { "Flash", 0x09 },
  { "EEPROM", 0x0a }, { "FEPROM", 0x0b },  { "EPROM", 0x0c },
  { "CDRAM", 0x0d },  { "3DRAM", 0x0e },   { "SDRAM", 0x0f },
  { "SGRAM", 0x10 },  { "RDRAM", 0x11 },   { "FBD2", 0x19 },
  { "LPDDR", 0x1b },  { "LPDDR2", 0x1c },  { "LPDDR3", 0x1d },
  { "LPDDR4", 0x1e }, { "HBM", 0x20 },     { "Logical non-volatile device", 0x1f },
  { "HBM2", 0x21 },   { "LPDDR5", 0x23 },  { "HBM3", 0x24 },
  { "MRDIMM", 0x25 },
};

static const Word technologies[] = {
  { "DRAM", 0x03 },     { "Other", 0x01 },    { "Unknown", 0x02 }, { "NVDIMM-N", 0x04 },
  { "NVDIMM-F", 0x05 }, { "NVDIMM-P", 0x06 }, { "MRDIMM", 0x08 },
};

static const Word uses[] = {
  { "System Memory", 0x03 }, { "Other", 0x01 },        { "Unknown", 0x02 },
  { "Video Memory", 0x04 },  { "Flash Memory", 0x05 }, { "Non-volatile RAM", 0x06 },
  { "Cache Memory", 0x07 },
};

static const Word eccs[] = {
  { "Multi-bit ECC", 0x06 }, { "Single-bit ECC", 0x05 }, { "None", 0x03 }, { "Other", 0x01 },
  { "Unknown", 0x02 },       { "Parity", 0x04 },         { "CRC", 0x07 },
};

static gboolean
is_word (LidBytes text, const char *word)
{
  return strlen (word) == text.size && memcmp (text.data, word, text.size) == 0;
}

static guint8
find (const Word *words, gsize n_words, LidBytes text)
{
  for (gsize i = 0; i < n_words; i++)
    if (is_word (text, words[i].word))
      return words[i].code;
  return 0;
}

guint8
lid_smbios_words_form (LidBytes text)
{
  return find (forms, G_N_ELEMENTS (forms), text);
}

guint8
lid_smbios_words_type (LidBytes text)
{
  return find (types, G_N_ELEMENTS (types), text);
}

/**
 * lid_smbios_words_technology:
 *
 * Code 07h is a maker's product name that ends in "persistent memory".
 *
 * Returns: the code, 0 when not told
 */
guint8
lid_smbios_words_technology (LidBytes text)
{
  static const char end[] = "persistent memory";
  const gsize size = sizeof end - 1;

  if (text.size >= size && memcmp (text.data + text.size - size, end, size) == 0)
    return LID_SMBIOS_TECHNOLOGY_PERSISTENT;
  return find (technologies, G_N_ELEMENTS (technologies), text);
}

guint8
lid_smbios_words_use (LidBytes text)
{
  return find (uses, G_N_ELEMENTS (uses), text);
}

guint8
lid_smbios_words_ecc (LidBytes text)
{
  return find (eccs, G_N_ELEMENTS (eccs), text);
}

/* Splits off the next word; FALSE at the end. */
static gboolean
next_word (LidBytes *text, LidBytes *word)
{
  while (text->size > 0 && *text->data <= ' ')
    {
      text->data++;
      text->size--;
    }
  word->data = text->data;
  word->size = 0;
  while (text->size > 0 && *text->data > ' ')
    {
      text->data++;
      text->size--;
      word->size++;
    }
  return word->size > 0;
}

/**
 * lid_smbios_words_detail:
 * @text: "Synchronous Registered (Buffered)"
 *
 * Returns: the type detail bits that matter: non-volatile, registered, unbuffered, LRDIMM
 */
guint16
lid_smbios_words_detail (LidBytes text)
{
  guint detail = 0;
  LidBytes word;

  while (next_word (&text, &word))
    if (is_word (word, "Registered"))
      detail |= LID_SMBIOS_DETAIL_REGISTERED;
    else if (is_word (word, "Unbuffered"))
      detail |= LID_SMBIOS_DETAIL_UNBUFFERED;
    else if (is_word (word, "LRDIMM"))
      detail |= LID_SMBIOS_DETAIL_LRDIMM;
    else if (is_word (word, "Non-Volatile"))
      detail |= LID_SMBIOS_DETAIL_NON_VOLATILE;
  return (guint16)detail;
}

static gboolean
take_number (LidBytes *text, guint64 *number)
{
  gsize n = 0;

  *number = 0;
  while (n < text->size && n < 18 && g_ascii_isdigit (text->data[n]))
    *number = *number * 10 + (guint64)(text->data[n++] - '0');
  text->data += n;
  text->size -= n;
  return n > 0 && (text->size == 0 || !g_ascii_isdigit (*text->data));
}

/**
 * lid_smbios_words_size_kib:
 * @text: "16384 MB", "16 GB", "4096 kB", "No Module Installed"
 *
 * Returns: KiB; 0 for an empty slot, -1 where it is unknown or cannot be read
 */
gint64
lid_smbios_words_size_kib (LidBytes text)
{
  static const struct
  {
    const char *unit;
    guint shift;
  } units[] = { { "MB", 10 },  { "GB", 20 },  { "kB", 0 },  { "KB", 0 },  { "TB", 30 },
                { "MiB", 10 }, { "GiB", 20 }, { "KiB", 0 }, { "TiB", 30 } };
  guint64 number = 0;
  LidBytes unit;

  if (text.size >= 2 && memcmp (text.data, "No", 2) == 0)
    {
      if (is_word (text, "No Module Installed") || is_word (text, "Not Installed"))
        return 0;
      return -1;
    }
  if (!take_number (&text, &number) || !next_word (&text, &unit))
    return -1;
  /* "0 TB" is what size 7FFFh with an extended size of 0 is printed as: a module, size not told. */
  if (number == 0 && is_word (unit, "TB"))
    return -1;
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (is_word (unit, units[i].unit))
      return number <= (G_MAXINT32 * G_GUINT64_CONSTANT (1024) >> units[i].shift)
                 ? (gint64)(number << units[i].shift)
                 : -1;
  return -1;
}

/**
 * lid_smbios_words_number:
 * @text: a number and its unit, as "2666 MT/s" or "72 bits"
 * @unit_a: (nullable): the unit it must have; NULL when it has none
 * @unit_b: (nullable): another that means the same
 *
 * A number without its unit is a line that was cut: not told.
 *
 * Returns: the number, 0 when not told
 */
guint
lid_smbios_words_number (LidBytes text, const char *unit_a, const char *unit_b)
{
  guint64 number = 0;
  LidBytes unit;

  if (!take_number (&text, &number) || number > G_MAXINT32)
    return 0;
  if (!next_word (&text, &unit))
    return unit_a == NULL ? (guint)number : 0;
  if (unit_a != NULL && (is_word (unit, unit_a) || (unit_b != NULL && is_word (unit, unit_b))))
    return (guint)number;
  return 0;
}

/**
 * lid_smbios_words_millivolts:
 * @text: "1.35 V"
 *
 * Returns: millivolts, 0 when not told
 */
guint
lid_smbios_words_millivolts (LidBytes text)
{
  guint64 volts = 0, part = 0;
  LidBytes unit;

  if (!take_number (&text, &volts) || volts > 100)
    return 0;
  if (text.size > 0 && *text.data == '.')
    {
      guint scale = 1000;

      text.data++;
      text.size--;
      while (text.size > 0 && g_ascii_isdigit (*text.data))
        {
          scale /= 10;
          part += scale * (guint64)(*text.data - '0');
          text.data++;
          text.size--;
        }
    }
  return next_word (&text, &unit) && is_word (unit, "V") ? (guint)(volts * 1000 + part) : 0;
}

/**
 * lid_smbios_words_address:
 * @text: "0x007FFFFFFFF", in bytes. A "k" behind it is a slip of some versions of the tool, which
 * print bytes all the same (shared/facts/standards.md, section 6)
 * @told: (out): whether it could be read
 *
 * Returns: the address
 */
guint64
lid_smbios_words_address (LidBytes text, gboolean *told)
{
  guint64 address = 0;
  gsize n = 2;

  *told = FALSE;
  if (text.size < 3 || memcmp (text.data, "0x", 2) != 0)
    return 0;
  while (n < text.size && g_ascii_isxdigit (text.data[n]))
    address = address << 4 | (guint64)g_ascii_xdigit_value ((char)text.data[n++]);
  *told = n > 2 && n <= 18;
  return address;
}

/**
 * lid_smbios_words_handle:
 * @text: "0x1104", with or without something behind it
 *
 * Returns: the handle, LID_HANDLE_NONE when not told
 */
gint32
lid_smbios_words_handle (LidBytes text)
{
  gint32 handle = 0;
  gsize n = 2;

  if (text.size < 6 || memcmp (text.data, "0x", 2) != 0)
    return LID_HANDLE_NONE;
  while (n < text.size && n < 6 && g_ascii_isxdigit (text.data[n]))
    handle = handle << 4 | g_ascii_xdigit_value ((char)text.data[n++]);
  return n == 6 ? handle : LID_HANDLE_NONE;
}
