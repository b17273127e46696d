/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "document-survive.h"
#include "job/job-file.h"
#include "job/job-open.h"
#include "json-attack.h"
#include "support.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* attack-documents.c: our own documents cut, with bytes changed, and with every kind of wrong value
 * in every place. What comes of it must be an error of one sentence, or a document that survives
 * what the programs do with one (document-survive.c). In one process, for the sanitizers; a warning
 * of GLib counts as a crash.
 *
 *   attack-documents jobs|boards|parts|labels|stock the slice for every build
 *   attack-documents --all FILE...                 all places and all values, for tests/long
 */

#define SEED 20241u
#define HANG_SECONDS 60u

typedef struct
{
  LidDocument kind;
  const char *name;
  const char *text;
  gsize size;
  GRand *rand;
  guint64 n;
  guint64 n_valid;
} Attack;

static char now[256];

static void
on_alarm (int number)
{
  static const char text[] = "attack-documents: hangs at ";

  (void)!write (STDERR_FILENO, text, sizeof text - 1);
  (void)!write (STDERR_FILENO, now, strlen (now));
  (void)!write (STDERR_FILENO, "\n", 1);
  abort ();
}

static void
on_end (int number)
{
  static const char text[] = "attack-documents: fails at ";

  (void)!write (STDERR_FILENO, text, sizeof text - 1);
  (void)!write (STDERR_FILENO, now, strlen (now));
  (void)!write (STDERR_FILENO, "\n", 1);
  signal (number, SIG_DFL);
  raise (number);
}

/* Each variant in a block of exactly its size, so that the address sanitizer sees every read. */
static void
survive (Attack *attack, const char *text, gsize size)
{
  g_autofree char *copy = g_memdup2 (text, size);

  alarm (HANG_SECONDS);
  attack->n++;
  attack->n_valid += lid_document_survive (attack->kind, copy, size);
  alarm (0);
}

static void
attack_byte (Attack *attack, gsize at)
{
  g_autofree char *changed = g_memdup2 (attack->text, attack->size);
  const char was = changed[at];
  const char values[] = { 0x00, (char)0xff, (char)(was ^ 1) };

  g_snprintf (now, sizeof now, "%s, cut at byte %" G_GSIZE_FORMAT, attack->name, at);
  survive (attack, attack->text, at);
  for (guint i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_snprintf (now, sizeof now, "%s, byte %" G_GSIZE_FORMAT " set to %02X", attack->name, at,
                  (guchar)values[i]);
      changed[at] = values[i];
      survive (attack, changed, attack->size);
    }
}

static void
attack_value (Attack *attack, const JsonAttackValue *value, guint kind)
{
  g_autoptr (GString) wrong = NULL;
  g_autofree char *head = NULL;

  head = g_strndup (attack->text + (value->key != G_MAXSIZE ? value->key : value->start),
                    MIN (attack->size - value->start, 30));
  g_strdelimit (head, "\n", ' ');
  g_snprintf (now, sizeof now, "%s, byte %" G_GSIZE_FORMAT " (%s): %s", attack->name, value->start,
              head, json_attack_name (kind));
  wrong = json_attack_apply (attack->text, attack->size, value, kind);
  survive (attack, wrong->str, wrong->len);
}

/* n_places, n_values 0: all of them. */
static void
attack_text (Attack *attack, guint n_places, guint n_values)
{
  g_autoptr (GArray) values = NULL;

  g_snprintf (now, sizeof now, "%s, whole", attack->name);
  survive (attack, attack->text, attack->size);
  if (attack->n_valid == 0)
    {
      g_printerr ("attack-documents: %s is not taken as it is\n", attack->name);
      abort ();
    }
  for (gsize i = 0; i < (n_places > 0 ? n_places : attack->size); i++)
    attack_byte (
        attack, n_places > 0 ? (gsize)g_rand_int_range (attack->rand, 0, (gint32)attack->size) : i);
  if (attack->kind == LID_DOCUMENT_LABEL || attack->kind == LID_DOCUMENT_STOCK)
    return;
  values = json_attack_values (attack->text, attack->size);
  if (n_values > 0)
    for (guint i = 0; i < n_values; i++)
      {
        guint v = (guint)g_rand_int_range (attack->rand, 0, (gint32)values->len);

        attack_value (attack, &g_array_index (values, JsonAttackValue, v),
                      (guint)g_rand_int_range (attack->rand, 0, (gint32)json_attack_n_kinds ()));
      }
  else
    for (guint v = 0; v < values->len; v++)
      for (guint kind = 0; kind < json_attack_n_kinds (); kind++)
        attack_value (attack, &g_array_index (values, JsonAttackValue, v), kind);
}

static guint64
attack_document (
    LidDocument kind, const char *name, const char *text, guint n_places, guint n_values)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED ^ g_str_hash (name));
  Attack attack = { kind, name, text, strlen (text), rand, 0, 0 };

  attack_text (&attack, n_places, n_values);
  g_print ("%s: %" G_GUINT64_FORMAT " inputs, %" G_GUINT64_FORMAT " taken\n", name, attack.n,
           attack.n_valid);
  return attack.n;
}

/* The job that reading a machine gives, or the job a file holds. */
static char *
text_of_job (const char *path)
{
  g_auto (LidOpened) opened = { 0 };
  g_autoptr (GError) error = NULL;

  lid_job_open (path, NULL, NULL, &opened, &error);
  g_assert_no_error (error);
  return lid_job_file_to_text (opened.job);
}

static int
compare_paths (gconstpointer a, gconstpointer b, gpointer data)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

static GPtrArray *
list (const char *folder, const char *const *suffixes)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    for (guint i = 0; suffixes[i] != NULL; i++)
      if (g_str_has_suffix (name, suffixes[i]))
        g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  g_ptr_array_sort_with_data (paths, compare_paths, NULL);
  return paths;
}

static guint64
attack_file (const char *path, guint n_places, guint n_values)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *text = NULL;

  if (!g_str_has_suffix (path, ".json"))
    {
      text = text_of_job (path);
      return attack_document (LID_DOCUMENT_JOB, name, text, n_places, n_values);
    }
  text = support_read_file (path, NULL);
  return attack_document (LID_DOCUMENT_BOARD, name, text, n_places, n_values);
}

static guint64
plan_jobs (void)
{
  static const char *const suffixes[] = { ".bin", ".txt", NULL };
  g_autofree char *example
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "example.lidleaf", NULL);
  g_autofree char *folder = support_data ("machines");
  g_autoptr (GPtrArray) paths = list (folder, suffixes);
  guint64 n = attack_file (example, 60, 300);

  for (guint i = 0; i < paths->len; i++)
    n += attack_file (paths->pdata[i], 30, 150);
  return n;
}

static guint64
plan_boards (void)
{
  static const char *const suffixes[] = { ".json", NULL };
  g_autofree char *folder = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);
  g_autoptr (GPtrArray) paths = list (folder, suffixes);
  guint64 n = 0;

  for (guint i = 0; i < paths->len; i++)
    n += attack_file (paths->pdata[i], 20, 150);
  return n;
}

static guint64
plan_parts (guint n_places, guint n_values)
{
  g_autofree char *text = lid_document_sample_parts ();

  return attack_document (LID_DOCUMENT_PARTS, "parts", text, n_places, n_values);
}

static guint64
plan_labels (guint n_places)
{
  guint64 n = 0;
  const char *const *labels = lid_document_sample_labels ();

  for (guint i = 0; labels[i] != NULL; i++)
    n += attack_document (LID_DOCUMENT_LABEL, labels[i], labels[i], n_places, 0);
  return n;
}

static guint64
plan_stock (void)
{
  return attack_document (LID_DOCUMENT_STOCK, "stock", lid_stock_sample, 0, 0)
         + attack_document (LID_DOCUMENT_RESERVED, "reserved", lid_reserved_sample, 0, 0);
}

int
main (int argc, char **argv)
{
  guint64 n = 0;
  gint64 start = g_get_monotonic_time ();
  const char *plan = argc > 1 ? argv[1] : "";

  signal (SIGALRM, on_alarm);
  signal (SIGABRT, on_end);
  signal (SIGTRAP, on_end);
#ifndef __SANITIZE_ADDRESS__ /* which says more of it */
  signal (SIGSEGV, on_end);
#endif
  g_log_set_always_fatal (G_LOG_LEVEL_CRITICAL | G_LOG_LEVEL_WARNING | G_LOG_FATAL_MASK);
  if (argc == 2 && strcmp (plan, "jobs") == 0)
    n = plan_jobs ();
  else if (argc == 2 && strcmp (plan, "boards") == 0)
    n = plan_boards ();
  else if (argc == 2 && strcmp (plan, "parts") == 0)
    n = plan_parts (150, 400);
  else if (argc == 2 && strcmp (plan, "labels") == 0)
    n = plan_labels (0);
  else if (argc == 2 && strcmp (plan, "stock") == 0)
    n = plan_stock ();
  else if (argc > 2 && strcmp (plan, "--all") == 0)
    for (int i = 2; i < argc; i++)
      n += strcmp (argv[i], "parts") == 0 ? plan_parts (0, 0) : attack_file (argv[i], 0, 0);
  else
    {
      g_printerr ("usage: attack-documents jobs|boards|parts|labels|stock|--all FILE|parts...\n");
      return 2;
    }
  g_print ("%" G_GUINT64_FORMAT " inputs, %.1f s\n", n,
           (double)(g_get_monotonic_time () - start) / 1e6);
  return n > 0 ? 0 : 1;
}
