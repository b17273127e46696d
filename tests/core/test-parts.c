/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "facts/label.h"
#include "facts/parts.h"
#include "support.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char *folder;
  char *path;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  place->folder = g_dir_make_tmp ("lidleaf-parts-XXXXXX", &error);
  g_assert_no_error (error);
  place->path = g_build_filename (place->folder, "deeper", "parts.json", NULL);
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_autofree char *deeper = g_path_get_dirname (place->path);

  g_unlink (place->path);
  g_rmdir (deeper);
  g_assert_cmpint (g_rmdir (place->folder), ==, 0); /* nothing is left lying about */
  g_free (place->folder);
  g_free (place->path);
}

static void
write_file (const Place *place, const char *text)
{
  g_autofree char *deeper = g_path_get_dirname (place->path);

  g_mkdir_with_parents (deeper, 0700);
  g_assert_true (g_file_set_contents (place->path, text, -1, NULL));
}

static LidParts *
load (const Place *place)
{
  g_autoptr (GError) error = NULL;
  LidParts *parts = lid_parts_load (place->path, &error);

  g_assert_no_error (error);
  return parts;
}

static void
save (LidParts *parts)
{
  g_autoptr (GError) error = NULL;

  lid_parts_save (parts, &error);
  g_assert_no_error (error);
}

/* A module as an inventory tells it: no chip width, no kind. */
static LidModule *
reported (const char *part)
{
  LidModule *module = lid_module_new ();

  lid_module_set_text (&module->part, part);
  lid_module_set (module, LID_FACT_CAPACITY, 65536, LID_BASIS_INVENTORY);
  lid_module_set (module, LID_FACT_GENERATION, LID_GENERATION_DDR5, LID_BASIS_INVENTORY);
  lid_module_set (module, LID_FACT_RATED, 3 * 4400, LID_BASIS_INVENTORY);
  return module;
}

static LidModule *
labelled (void)
{
  LidLabel label;

  g_assert_true (lid_label_parse (
      "(L)64GB 2Rx4 PC5-4800B-RA0-1010-XT(S)0A1B2C3D(P)TP-64R-48(M)80CE", -1, &label, NULL, NULL));
  return lid_label_facts_to_module (&label);
}

static void
test_learn_once (Place *place, gconstpointer data)
{
  g_autoptr (LidParts) parts = load (place), again = NULL;
  g_autoptr (LidModule) known = labelled (), found = reported ("TP-64R-48"),
                        other = reported ("TP-64R-56");
  guint32 filled;

  g_assert_cmpuint (lid_parts_get_size (parts), ==, 0);
  g_assert_true (lid_parts_learn (parts, known));
  g_assert_false (lid_parts_learn (parts, known));
  save (parts);
  again = load (place);
  g_assert_cmpuint (lid_parts_get_size (again), ==, 1);
  filled = lid_parts_apply (again, found);
  g_assert_cmpuint (filled & (1u << LID_FACT_CHIP_WIDTH), !=, 0);
  g_assert_cmpuint (filled & (1u << LID_FACT_CAPACITY), ==, 0);
  for (guint i = 0; i < LID_N_FACTS; i++)
    {
      gboolean told = i == LID_FACT_CAPACITY || i == LID_FACT_GENERATION || i == LID_FACT_RATED;

      if (i == LID_FACT_HEIGHT)
        continue;
      g_assert_cmpint (found->basis[i], ==, told ? LID_BASIS_INVENTORY : LID_BASIS_REMEMBERED);
      if (!told)
        g_assert_cmpint (found->value[i], ==, known->value[i]);
    }
  g_assert_cmpuint (lid_module_rated (found), ==, 3 * 4400); /* what is known stays */
  g_assert_cmpuint (lid_parts_apply (again, other), ==, 0);
}

static void
test_what_is_not_learnt (Place *place, gconstpointer data)
{
  g_autoptr (LidParts) parts = load (place);
  g_autoptr (LidModule) inventory = reported ("TP-64R-48"), nameless = labelled ();
  g_autoptr (LidModule) remembered = reported ("TP-64R-48");

  lid_module_set_text (&nameless->part, NULL);
  lid_module_set (remembered, LID_FACT_KIND, LID_KIND_REGISTERED, LID_BASIS_REMEMBERED);
  g_assert_false (lid_parts_learn (parts, inventory));
  g_assert_false (lid_parts_learn (parts, nameless));
  g_assert_false (lid_parts_learn (parts, remembered));
  g_assert_cmpuint (lid_parts_get_size (parts), ==, 0);
  save (parts);
  g_assert_false (g_file_test (place->path, G_FILE_TEST_EXISTS));
}

static void
test_weight (Place *place, gconstpointer data)
{
  g_autoptr (LidParts) parts = load (place);
  g_autoptr (LidModule) told = reported ("TP-1"), label = reported ("TP-1"),
                        out = reported ("TP-1");

  lid_module_set (told, LID_FACT_CHIP_WIDTH, 8, LID_BASIS_TOLD);
  lid_module_set (label, LID_FACT_CHIP_WIDTH, 4, LID_BASIS_LABEL);
  g_assert_true (lid_parts_learn (parts, told));
  g_assert_true (lid_parts_learn (parts, label));
  g_assert_false (lid_parts_learn (parts, told));
  lid_parts_apply (parts, out);
  g_assert_cmpint (lid_module_get (out, LID_FACT_CHIP_WIDTH, 0), ==, 4);
}

static void
test_contradiction (Place *place, gconstpointer data)
{
  g_autoptr (LidParts) parts = load (place);
  g_autoptr (LidModule) known = labelled (), found = reported ("TP-64R-48");

  lid_parts_learn (parts, known);
  lid_module_set (found, LID_FACT_CAPACITY, 32768, LID_BASIS_INVENTORY);
  g_assert_cmpuint (lid_parts_apply (parts, found), ==, 0);
  g_assert_false (lid_module_knows (found, LID_FACT_KIND));
}

static void
test_unknown_members (Place *place, gconstpointer data)
{
  g_autoptr (LidParts) parts = NULL;
  g_autoptr (LidModule) module = labelled ();
  g_autofree char *text = NULL;

  write_file (place, "{\"format\": 1, \"shop\": {\"a\": [1, 2]}, \"parts\": [{\"part\": "
                     "\"TP-64R-48\", \"note\": \"cold spot\", \"facts\": {\"colour\": {\"value\": "
                     "\"green\"}, \"chip_width\": {\"value\": 8, \"basis\": \"told\", \"when\": "
                     "\"2031-04-02\"}}}]}");
  parts = load (place);
  g_assert_true (lid_parts_learn (parts, module));
  save (parts);
  text = support_read_file (place->path, NULL);
  g_assert_nonnull (strstr (text, "\"shop\""));
  g_assert_nonnull (strstr (text, "cold spot"));
  g_assert_nonnull (strstr (text, "green"));
  g_assert_nonnull (strstr (text, "2031-04-02"));
  g_assert_null (strstr (text, "0A1B2C3D")); /* serials stay in jobs */
  g_clear_pointer (&parts, lid_parts_free);
  parts = load (place);
  g_assert_cmpuint (lid_parts_get_size (parts), ==, 1);
}

static const struct
{
  const char *text;
  const char *complaint;
} corrupt[] = {
  { "", "ends too early" },
  { "{\"format\": 1, \"parts\": [", "ends too early" },
  { "[]", "must be an object" },
  { "{\"parts\": []}", "format: is missing" },
  { "{\"format\": 1}", "parts: is missing" },
  { "{\"format\": 1, \"parts\": [{\"part\": \"A\"}]}", "parts[0].facts: is missing" },
  { "{\"format\": 1, \"parts\": [{\"part\": \"A\", \"facts\": {\"ranks\": {\"value\": -1, "
    "\"basis\": "
    "\"told\"}}}]}",
    "parts[0].facts.ranks.value" },
  { "{\"format\": 1, \"parts\": [{\"part\": \"A\", \"facts\": {\"ranks\": {\"value\": 1, "
    "\"basis\": "
    "\"guess\"}}}]}",
    "parts[0].facts.ranks.basis" },
  { "{\"format\": 1, \"parts\": [{\"part\": \"A\", \"facts\": {}}, {\"part\": \"A\", \"facts\": "
    "{}}]}",
    "parts[1].part" },
};

static void
test_corrupt (Place *place, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (corrupt); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *after = NULL;

      write_file (place, corrupt[i].text);
      g_assert_null (lid_parts_load (place->path, &error));
      g_assert_nonnull (strstr (error->message, place->path));
      if (strstr (error->message, corrupt[i].complaint) == NULL)
        g_error ("%s: no “%s” in it", error->message, corrupt[i].complaint);
      after = support_read_file (place->path, NULL);
      g_assert_cmpstr (after, ==, corrupt[i].text);
    }
}

static void
test_newer (Place *place, gconstpointer data)
{
  static const char text[] = "{\"format\": 2, \"parts\": [{\"part\": \"B\", \"facts\": 7}, "
                             "{\"part\": \"TP-9\", \"facts\": "
                             "{\"chip_width\": {\"value\": 4, \"basis\": \"label\"}}}]}";
  g_autoptr (LidParts) parts = NULL;
  g_autoptr (LidModule) module = labelled (), found = reported ("TP-9");
  g_autoptr (GError) error = NULL;
  g_autofree char *after = NULL;

  write_file (place, text);
  parts = load (place);
  g_assert_true (lid_parts_is_read_only (parts));
  g_assert_cmpuint (lid_parts_apply (parts, found), ==, 1u << LID_FACT_CHIP_WIDTH);
  lid_parts_learn (parts, module);
  g_assert_false (lid_parts_save (parts, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_NEWER);
  after = support_read_file (place->path, NULL);
  g_assert_cmpstr (after, ==, text);
}

/* A folder in the file's place: the save fails, says so, and the memory still holds the news. */
static void
test_save_fails (Place *place, gconstpointer data)
{
  g_autoptr (LidParts) parts = load (place);
  g_autoptr (LidModule) module = labelled ();
  g_autoptr (GError) error = NULL;

  lid_parts_learn (parts, module);
  g_assert_cmpint (g_mkdir_with_parents (place->path, 0700), ==, 0);
  g_assert_false (lid_parts_save (parts, &error));
  g_assert_nonnull (error);
  g_assert_cmpint (g_rmdir (place->path), ==, 0);
  save (parts);
  g_assert_true (g_file_test (place->path, G_FILE_TEST_IS_REGULAR));
}

#define ADD(name, test) g_test_add ("/parts/" name, Place, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("learn-once", test_learn_once);
  ADD ("what-is-not-learnt", test_what_is_not_learnt);
  ADD ("weight", test_weight);
  ADD ("contradiction", test_contradiction);
  ADD ("unknown-members", test_unknown_members);
  ADD ("corrupt", test_corrupt);
  ADD ("newer", test_newer);
  ADD ("save-fails", test_save_fails);
  return g_test_run ();
}
