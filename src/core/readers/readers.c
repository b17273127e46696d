/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "readers/readers.h"

#include "base/error.h"
#include "readers/read-smbios.h"
#include "readers/smbios-table.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <sys/stat.h>
#include <unistd.h>

/* The kernel's names: Documentation/ABI/testing/sysfs-firmware-dmi-tables. */
#define KERNEL_ENTRY "smbios_entry_point"
#define KERNEL_TABLE "DMI"

/* One line a reader. */
static const LidReader *const readers[] = {
  &lid_reader_smbios,
  &lid_reader_report,
};

/**
 * lid_readers_all:
 * @n_readers: (out): how many
 *
 * Returns: (transfer none): every reader there is
 */
const LidReader *const *
lid_readers_all (gsize *n_readers)
{
  *n_readers = G_N_ELEMENTS (readers);
  return readers;
}

static const LidReader *
surest (LidBytes bytes)
{
  const LidReader *best = NULL;
  int most = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (readers); i++)
    {
      int sure = readers[i]->sniff (bytes);
      if (sure > most)
        {
          most = sure;
          best = readers[i];
        }
    }
  return best;
}

static gboolean
is_json (LidBytes bytes)
{
  gsize at = 0;

  while (at < bytes.size && g_ascii_isspace (bytes.data[at]))
    at++;
  return at < bytes.size && bytes.data[at] == '{';
}

static gboolean
fail_unknown (LidBytes bytes, GError **error)
{
  g_set_error (
      error, LID_ERROR, LID_ERROR_BAD_FORMAT,
      bytes.size == 0 ? _ ("the file is empty; give an SMBIOS table or its text report")
      : is_json (bytes)
          ? _ (
              "it begins as JSON does, and is neither a job of this program, which names itself in "
              "the member “lidleaf”, nor a memory resource of Redfish; look whether it is whole")
          : _ ("the first bytes are neither an SMBIOS table nor its text report; give one of "
               "these, or the folder with the kernel's two files"));
  return FALSE;
}

static gboolean
read_bytes (LidBytes bytes, LidInventory *inventory, GError **error)
{
  const LidReader *reader;

  if (bytes.size > LID_READERS_MAX_BYTES)
    {
      g_set_error (
          error, LID_ERROR, LID_ERROR_TOO_LARGE,
          _ ("more than %u MB; no inventory is that large, give the table or report alone"),
          LID_READERS_MAX_BYTES / 1024 / 1024);
      return FALSE;
    }
  reader = surest (bytes);
  if (reader == NULL)
    return fail_unknown (bytes, error);
  inventory->format = reader->id;
  return reader->read (bytes, inventory, error);
}

static LidInventory *
finish (LidInventory *inventory, gboolean ok, GError **error)
{
  if (ok)
    return inventory;
  g_prefix_error (error, "%s: ", inventory->source);
  lid_inventory_free (inventory);
  return NULL;
}

/**
 * lid_readers_read_bytes:
 * @bytes: one input of any format; borrowed
 * @source: its name for people
 * @error: return location
 *
 * Finds out what it was given and reads as far as it goes; what could not be read is in the
 * remarks.
 *
 * Returns: (transfer full) (nullable): what was found; NULL when nothing could be read, with an
 * error that names the source
 */
LidInventory *
lid_readers_read_bytes (LidBytes bytes, const char *source, GError **error)
{
  LidInventory *inventory = lid_inventory_new (source, NULL);

  return finish (inventory, read_bytes (bytes, inventory, error), error);
}

/* Everything a descriptor gives, one byte more than allowed at the most. Pipes and the kernel's own
 * files do not know their size, so it is only a hint. */
static GByteArray *
drain (int fd, GError **error)
{
  struct stat about;
  gsize hint = 65536;
  g_autoptr (GByteArray) all = NULL;

  if (fstat (fd, &about) == 0 && about.st_size > 0
      && (guint64)about.st_size <= LID_READERS_MAX_BYTES)
    hint = (gsize)about.st_size + 1;
  all = g_byte_array_sized_new ((guint)hint);
  while (all->len <= LID_READERS_MAX_BYTES)
    {
      guint before = all->len;
      gssize n;

      g_byte_array_set_size (all, before + (guint)hint);
      n = read (fd, all->data + before, hint);
      g_byte_array_set_size (all, before + (guint)MAX (n, 0));
      if (n == 0)
        return g_steal_pointer (&all);
      if (n < 0 && errno != EINTR)
        {
          g_set_error (error, G_FILE_ERROR, (gint)g_file_error_from_errno (errno),
                       _ ("cannot be read: %s"), g_strerror (errno));
          return NULL;
        }
      hint = MAX (hint, 65536);
    }
  return g_steal_pointer (&all);
}

static GByteArray *
slurp (const char *path, GError **error)
{
  int fd = open (path, O_RDONLY | O_CLOEXEC);
  GByteArray *all;

  if (fd < 0)
    {
      g_set_error (error, G_FILE_ERROR, (gint)g_file_error_from_errno (errno),
                   _ ("cannot be opened: %s"), g_strerror (errno));
      return NULL;
    }
  all = drain (fd, error);
  close (fd);
  return all;
}

static LidBytes
bytes_of (const GByteArray *all)
{
  return (LidBytes){ all->data, all->len };
}

/* The table of a folder, with its entry point if that is there and can be read. */
static gboolean
read_pair (const char *folder, LidInventory *inventory, GError **error)
{
  g_autofree char *entry_path = g_build_filename (folder, KERNEL_ENTRY, NULL);
  g_autofree char *table_path = g_build_filename (folder, KERNEL_TABLE, NULL);
  g_autoptr (GByteArray) entry = NULL;
  g_autoptr (GByteArray) table = NULL;
  LidBytes entry_bytes;

  if (!g_file_test (table_path, G_FILE_TEST_EXISTS))
    {
      g_set_error (
          error, LID_ERROR, LID_ERROR_NOT_FOUND,
          _ ("the folder holds no file named %s; give the folder with the kernel's two files, "
             "or name the files themselves"),
          KERNEL_TABLE);
      return FALSE;
    }
  inventory->format = lid_reader_smbios.id;
  table = slurp (table_path, error);
  if (table == NULL)
    return FALSE;
  if (table->len > LID_READERS_MAX_BYTES)
    return read_bytes (bytes_of (table), inventory, error);
  if (lid_smbios_table_is_entry (bytes_of (table)))
    return read_bytes (bytes_of (table), inventory, error);
  if (g_file_test (entry_path, G_FILE_TEST_EXISTS))
    {
      entry = slurp (entry_path, error);
      if (entry == NULL)
        return FALSE;
      entry_bytes = bytes_of (entry);
    }
  return lid_reader_smbios_read_pair (entry != NULL ? &entry_bytes : NULL, bytes_of (table),
                                      inventory, error);
}

static gboolean
read_file (const char *path, LidInventory *inventory, GError **error)
{
  gboolean is_standard_input = g_strcmp0 (path, "-") == 0;
  g_autoptr (GByteArray) all
      = is_standard_input ? drain (STDIN_FILENO, error) : slurp (path, error);

  if (all == NULL)
    return FALSE;
  /* An entry point alone, with its table beside it. */
  if (!is_standard_input && all->len <= 0x20 && lid_smbios_table_is_entry (bytes_of (all)))
    {
      g_autofree char *folder = g_path_get_dirname (path);
      g_autofree char *table = g_build_filename (folder, KERNEL_TABLE, NULL);

      if (g_file_test (table, G_FILE_TEST_IS_REGULAR))
        return read_pair (folder, inventory, error);
    }
  return read_bytes (bytes_of (all), inventory, error);
}

/**
 * lid_readers_read_path:
 * @path: a file, a folder with the kernel's two table files, or "-" for standard input
 * @error: return location
 *
 * Returns: (transfer full) (nullable): as lid_readers_read_bytes()
 */
LidInventory *
lid_readers_read_path (const char *path, GError **error)
{
  LidInventory *inventory = lid_inventory_new (path, NULL);
  gboolean ok = g_file_test (path, G_FILE_TEST_IS_DIR) ? read_pair (path, inventory, error)
                                                       : read_file (path, inventory, error);

  return finish (inventory, ok, error);
}

/**
 * lid_readers_load:
 * @path: a file, or "-" for standard input
 * @error: one sentence with the file
 *
 * For callers that have to look first whether it is an inventory at all.
 *
 * Returns: (transfer full) (nullable): what is in it, at most LID_READERS_MAX_BYTES and one byte
 * more, so that the reader can complain of the length
 */
GBytes *
lid_readers_load (const char *path, GError **error)
{
  GByteArray *all = g_strcmp0 (path, "-") == 0 ? drain (STDIN_FILENO, error) : slurp (path, error);

  if (all == NULL)
    {
      g_prefix_error (error, "%s: ", path);
      return NULL;
    }
  return g_byte_array_free_to_bytes (all);
}
