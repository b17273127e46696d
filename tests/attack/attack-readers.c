/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "locators/locators.h"
#include "readers/readers.h"
#include "support.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* attack-readers.c: every input cut at a byte, or with that byte set to 00, FF or xor 1, must give
 * a message or a correct reading, never a crash or a hang. In one process, so that the address
 * sanitizer watches every read; each variant lives in a block of exactly its size.
 *
 *   attack-readers binaries|reports|families-1|families-2
 *                                       the slice for every build: see plan_*()
 *   attack-readers --every-byte FILE...   all places of the files named, for tests/long
 *
 * What is held against a cut input beyond not crashing: no device it tells may differ from the one
 * the whole input tells, save where a remark says that something was cut. */

#define SEED 20240u
#define PLACES 200u
#define MOST_BYTES 13000u
#define HANG_SECONDS 20u

/* Of a family's report: every byte; watched by the address sanitizer, which is ten times slower, a
 * seeded slice. All of them under it: tests/long/attack-readers.sh. */
#ifdef __SANITIZE_ADDRESS__
#define FAMILY_PLACES 2000u
#else
#define FAMILY_PLACES 0u
#endif

typedef struct
{
  const char *file;
  gboolean binary;
  LidBytes whole;
  LidInventory *reading; /* of the whole; NULL when it is refused */
  guint64 n_reads;
} Attack;

static char now[256];

static void
on_alarm (int number)
{
  static const char text[] = "attack-readers: hangs at ";

  (void)!write (STDERR_FILENO, text, sizeof text - 1);
  (void)!write (STDERR_FILENO, now, strlen (now));
  (void)!write (STDERR_FILENO, "\n", 1);
  abort ();
}

static G_GNUC_NORETURN void
fail (const char *what)
{
  g_printerr ("attack-readers: %s: %s\n", now, what);
  abort ();
}

static void
check_text (const char *text)
{
  if (text == NULL || !g_utf8_validate (text, -1, NULL) || strchr (text, '\n') != NULL)
    fail ("a text is missing, not UTF-8 or more than a line");
}

static void
check_inventory (const LidInventory *inventory)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];

      check_text (device->locator);
      check_text (device->bank);
      check_text (device->slot);
      if (device->capacity_mib < -1
          || (device->module == NULL) != (device->state == LID_SLOT_EMPTY))
        fail ("a device contradicts itself");
    }
  for (guint i = 0; i < inventory->remarks->len; i++)
    {
      const LidRemark *remark = inventory->remarks->pdata[i];
      check_text (remark->place);
      check_text (remark->what);
    }
  if (inventory->devices->len == 0 && inventory->remarks->len == 0)
    fail ("no device and no remark");
}

static LidInventory *
read_copy (Attack *attack, const guint8 *data, gsize size)
{
  g_autofree guint8 *copy = g_memdup2 (data, size);
  g_autoptr (GError) error = NULL;
  LidInventory *inventory = lid_readers_read_bytes ((LidBytes){ copy, size }, "attack", &error);

  attack->n_reads++;
  if (inventory == NULL)
    {
      if (error == NULL)
        fail ("nothing read and no error");
      check_text (error->message);
      return NULL;
    }
  lid_locators_place (inventory);
  check_inventory (inventory);
  return inventory;
}

static const LidDevice *
find_device (const LidInventory *inventory, gint32 handle)
{
  for (guint i = 0; handle != LID_HANDLE_NONE && i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      if (device->handle == handle)
        return device;
    }
  return NULL;
}

static gboolean
differs (guint told, guint whole)
{
  return told != 0 && told != whole;
}

/* Whether the cut reading says something that the whole one does not. */
static gboolean
says_more (const LidInventory *cut, const LidInventory *whole)
{
  for (guint i = 0; i < cut->remarks->len; i++)
    {
      const LidRemark *remark = cut->remarks->pdata[i];
      gboolean known = FALSE;

      for (guint k = 0; k < whole->remarks->len && !known; k++)
        known = strcmp (((const LidRemark *)whole->remarks->pdata[k])->what, remark->what) == 0;
      if (!known)
        return TRUE;
    }
  return FALSE;
}

static void
check_cut (const Attack *attack, const LidInventory *cut)
{
  if (attack->reading == NULL || cut == NULL || says_more (cut, attack->reading))
    return;
  if (attack->binary && cut->devices->len < attack->reading->devices->len)
    fail ("devices are lost without a remark");
  for (guint i = 0; i < cut->devices->len; i++)
    {
      const LidDevice *device = cut->devices->pdata[i];
      const LidDevice *whole = find_device (attack->reading, device->handle);

      if (whole == NULL)
        continue;
      if ((*device->locator != 0 && strcmp (device->locator, whole->locator) != 0)
          || (device->capacity_mib != -1 && device->capacity_mib != whole->capacity_mib)
          || differs (device->rated_raw, whole->rated_raw)
          || differs (device->configured_mts, whole->configured_mts))
        fail ("a cut device tells something else than the whole one, without a remark");
    }
}

static void
attack_place (Attack *attack, gsize at)
{
  g_autofree guint8 *changed = g_memdup2 (attack->whole.data, attack->whole.size);
  const guint8 was = changed[at];
  const guint8 values[] = { 0x00, 0xff, was ^ 1 };

  g_snprintf (now, sizeof now, "%s, cut at byte %" G_GSIZE_FORMAT, attack->file, at);
  alarm (HANG_SECONDS);
  {
    g_autoptr (LidInventory) cut = read_copy (attack, attack->whole.data, at);
    check_cut (attack, cut);
  }
  for (guint i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_autoptr (LidInventory) inventory = NULL;

      g_snprintf (now, sizeof now, "%s, byte %" G_GSIZE_FORMAT " set to %02X", attack->file, at,
                  values[i]);
      changed[at] = values[i];
      inventory = read_copy (attack, changed, attack->whole.size);
    }
  alarm (0);
}

/* A long report without its later structures is a report too, and costs a quarter. */
static gsize
shorten (const char *data, gsize size, gsize most)
{
  const char *end = size > most ? g_strrstr_len (data, (gssize)most, "\n\n") : NULL;

  return end != NULL ? (gsize)(end - data) + 2 : size;
}

/* n_places 0: every byte. most: bytes of a report, the rest of its structures left off. */
static guint64
attack_file (const char *path, guint n_places, gsize most)
{
  gsize size = 0;
  g_autofree char *data = support_read_file (path, &size);
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  g_autofree char *name = g_path_get_basename (path);
  Attack attack = { .file = name, .whole = { (const guint8 *)data, size } };

  size = attack.whole.size = shorten (data, size, most);
  g_snprintf (now, sizeof now, "%s, whole", name);
  attack.reading = read_copy (&attack, attack.whole.data, size);
  attack.binary = attack.reading != NULL && g_strcmp0 (attack.reading->format, "smbios") == 0;
  if (n_places == 0 || n_places >= size)
    for (gsize at = 0; at < size; at++)
      attack_place (&attack, at);
  else
    for (guint i = 0; i < n_places; i++)
      attack_place (&attack, (gsize)g_rand_int_range (rand, 0, (gint32)size));
  lid_inventory_free (attack.reading);
  return attack.n_reads;
}

static GPtrArray *
list (const char *folder, const char *suffix)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = folder != NULL ? g_dir_open (folder, 0, NULL) : NULL;
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, suffix))
      g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  return paths;
}

static guint64
attack_folder (const char *folder, const char *suffix, guint n_places)
{
  g_autoptr (GPtrArray) paths = list (folder, suffix);
  guint64 n = 0;

  for (guint i = 0; i < paths->len; i++)
    n += attack_file (paths->pdata[i], n_places, G_MAXSIZE);
  return n;
}

/* Every byte of the small binaries, our own and the real ones; the large generated ones at places.
 */
static guint64
plan_binaries (void)
{
  g_autofree char *own = support_data ("smbios");
  g_autofree char *real = support_shared ("data/smbios");
  g_autofree char *generated = support_shared ("data/gen/samples");

  return attack_folder (own, ".bin", 0) + attack_folder (real, ".bin", 0)
         + attack_folder (generated, ".bin", PLACES);
}

static gsize
size_of (const char *path)
{
  gsize size = 0;
  g_autofree char *data = support_read_file (path, &size);

  return size;
}

/* The smallest report of every naming family of the manifest at every byte, the others at places.
 * Half 0 or 1 of the families, so that two processors share the work. */
static guint64
plan_families (guint half)
{
  g_autofree char *manifest = support_shared ("data/manifest.csv");
  g_autofree char *folder = support_shared ("data/machines");
  g_autoptr (GHashTable) smallest = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) rows = manifest != NULL ? support_read_csv (manifest) : NULL;
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);
  guint64 n = 0;

  for (guint i = 1; rows != NULL && i < rows->len; i++)
    {
      const char *family = support_cell (rows, i, "pattern");
      char *path = g_build_filename (folder, support_cell (rows, i, "file"), NULL);
      const char *best = g_hash_table_lookup (smallest, family);

      g_ptr_array_add (paths, path);
      if (best == NULL || size_of (path) < size_of (best))
        g_hash_table_insert (smallest, (gpointer)family, path);
    }
  for (guint i = half; i < paths->len; i += 2)
    {
      const char *family = support_cell (rows, i + 1, "pattern");

      n += attack_file (paths->pdata[i], PLACES, G_MAXSIZE);
      if (g_hash_table_lookup (smallest, family) == paths->pdata[i])
        n += attack_file (paths->pdata[i], FAMILY_PLACES, MOST_BYTES);
    }
  return n;
}

static guint64
plan_reports (void)
{
  static const char *const whole[] = { "report/station.memory-types.txt", "report/odd-values.txt",
                                       "report/filtered.txt", "report/half.txt" };
  g_autofree char *own = support_data ("report");
  guint64 n = attack_folder (own, ".txt", PLACES);

  for (guint i = 0; i < G_N_ELEMENTS (whole); i++)
    {
      g_autofree char *path = support_data (whole[i]);
      n += attack_file (path, 0, G_MAXSIZE);
    }
  return n;
}

int
main (int argc, char **argv)
{
  guint64 n = 0;
  gint64 start = g_get_monotonic_time ();

  signal (SIGALRM, on_alarm);
  if (argc == 2 && strcmp (argv[1], "binaries") == 0)
    n = plan_binaries ();
  else if (argc == 2 && strcmp (argv[1], "reports") == 0)
    n = plan_reports ();
  else if (argc == 2 && g_str_has_prefix (argv[1], "families-"))
    n = plan_families (argv[1][9] == '2');
  else if (argc > 2 && strcmp (argv[1], "--every-byte") == 0)
    for (int i = 2; i < argc; i++)
      n += attack_file (argv[i], 0, G_MAXSIZE);
  else
    {
      g_printerr (
          "usage: attack-readers binaries|reports|families-1|families-2|--every-byte FILE...\n");
      return 2;
    }
  g_print ("%" G_GUINT64_FORMAT " inputs, %.1f s\n", n,
           (double)(g_get_monotonic_time () - start) / 1e6);
  return n > 0 ? 0 : 77; /* 77: skipped, for want of files */
}
