/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "board/board-file.h"
#include "job/job-file.h"
#include "support.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

static LidJob *
sample (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", "tern-w4.json", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_load (path, &error);
  LidStage *stage = g_new0 (LidStage, 1);
  LidModule *module = lid_module_new ();
  LidJob *job;

  g_assert_no_error (error);
  job = lid_job_new (board);
  lid_job_set_text (&job->title, "Estuary gauge, node 2");
  lid_job_set_text (&job->number, "118");
  job->as_found = lid_population_new (board);
  lid_module_set (module, LID_FACT_GENERATION, LID_GENERATION_DDR4, LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_CAPACITY, 16384, LID_BASIS_INVENTORY);
  lid_module_set (module, LID_FACT_RATED, 8000, LID_BASIS_INVENTORY);
  module = lid_job_add_module (job, module);
  lid_population_put (job->as_found, 0, module);
  job->as_found->slots[0].configured = 6400;
  stage->name = g_strdup ("tonight");
  stage->population = lid_population_copy (job->as_found);
  lid_population_take (stage->population, 0);
  lid_population_put (stage->population, 1, module);
  stage->population->setup_limit = 8000;
  stage->population->mode = LID_MODE_MIRRORED;
  stage->population->processors[0].model = LID_NOWHERE;
  g_ptr_array_add (job->stages, stage);
  lid_job_remember (job, "read", "read from %s", "gauge-2.txt");
  return job;
}

static LidJob *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  LidJob *job = lid_job_file_parse (text, strlen (text), &error);

  g_assert_no_error (error);
  return job;
}

static void
test_round_trip (void)
{
  g_autoptr (LidJob) job = sample (), again = NULL;
  g_autofree char *text = lid_job_file_to_text (job), *second = NULL;
  const LidPopulation *planned;

  again = parse (text);
  second = lid_job_file_to_text (again);
  g_assert_cmpstr (text, ==, second);
  planned = lid_job_get_population (again, LID_PLANNED);
  g_assert_cmpstr (again->title, ==, "Estuary gauge, node 2");
  g_assert_null (again->owner);
  g_assert_cmpuint (again->as_found->slots[0].configured, ==, 6400);
  g_assert_null (planned->slots[0].module);
  g_assert_true (planned->slots[1].module == again->modules->pdata[0]);
  g_assert_cmpuint (planned->setup_limit, ==, 8000);
  g_assert_cmpint (planned->mode, ==, LID_MODE_MIRRORED);
  g_assert_cmpstr (again->board->hash, ==, job->board->hash);
  g_assert_null (lid_job_get_population (again, LID_AS_LEFT));
}

/* Members a later version may add, at every level. */
static void
test_unknown_members_survive (void)
{
  static const char *const marks[][2] = {
    { "\"lidleaf\" :", "\"mood\" : \"calm\", \"lidleaf\" :" },
    { "\"basis\" : \"label\"", "\"basis\" : \"label\", \"seen\" : \"12 May\"" },
    { "\"module\" : \"m1\",", "\"module\" : \"m1\", \"dust\" : true," },
    { "\"name\" : \"tonight\",", "\"name\" : \"tonight\", \"van\" : 2," },
    { "\"what\" : \"read\"", "\"what\" : \"read\", \"tool\" : { \"x\" : [ 1, 2 ] }" },
    { "\"part\" : null", "\"part\" : null, \"sticker\" : \"green\"" },
  };
  g_autoptr (LidJob) job = sample (), again = NULL;
  g_autoptr (GString) text = NULL;
  g_autofree char *plain = lid_job_file_to_text (job), *second = NULL;

  text = g_string_new (plain);
  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    g_assert_cmpuint (g_string_replace (text, marks[i][0], marks[i][1], 1), ==, 1);
  again = parse (text->str);
  lid_job_set_text (&again->title, "Estuary gauge, node 3");
  lid_module_set (again->modules->pdata[0], LID_FACT_GENERATION, 0, LID_BASIS_NONE);
  second = lid_job_file_to_text (again);
  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    {
      static const char *const words[]
          = { "\"mood\"", NULL, "\"dust\"", "\"van\"", "\"tool\"", "\"sticker\"" };
      if (words[i] != NULL)
        g_assert_nonnull (strstr (second, words[i]));
    }
  /* A fact that was forgotten stays forgotten. */
  g_assert_null (strstr (second, "\"seen\""));
  g_assert_nonnull (strstr (second, "node 3"));
}

static void
test_newer_opens_for_reading_only (void)
{
  g_autoptr (LidJob) job = sample (), again = NULL;
  g_autoptr (GString) text = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *plain = lid_job_file_to_text (job);
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.lidleaf", NULL);

  text = g_string_new (plain);
  g_string_replace (text, "\"lidleaf\" : 1", "\"lidleaf\" : 2", 1);
  g_string_replace (text, "\"takes\" : {", "\"takes\" : { \"taste\" : \"salty\",", 1);
  again = parse (text->str);
  g_assert_true (again->read_only);
  g_assert_false (lid_job_file_save (again, path, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_NEWER);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  g_rmdir (folder);
}

static void
test_save (void)
{
  g_autoptr (LidJob) job = sample (), again = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.lidleaf", NULL);
  g_autofree char *link = g_build_filename (folder, "link.lidleaf", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "none", "a.lidleaf", NULL);

  g_assert_true (lid_job_file_save (job, path, &error));
  g_assert_cmpint (symlink ("a.lidleaf", link), ==, 0);
  lid_job_set_text (&job->title, "through the link");
  g_assert_true (lid_job_file_save (job, link, &error));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  again = lid_job_file_load (path, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (again->title, ==, "through the link");
  g_assert_false (lid_job_file_save (job, nowhere, &error));
  g_assert_nonnull (strstr (error->message, "none"));
  g_unlink (link);
  g_unlink (path);
  g_rmdir (folder);
}

static const struct
{
  const char *from, *to, *complaint;
} broken[] = {
  { "\"lidleaf\" : 1", "\"lidleaf\" : \"one\"", "this is no job of ours" },
  { "\"module\" : \"m1\"", "\"module\" : \"m7\"",
    "as_found.slots[0].module: the job has no module" },
  { "\"slot\" : \"A1\",\n        \"module\" : \"m1\"", "\"slot\" : \"Z9\"",
    "as_found.slots[0].slot: the board has no slot" },
  { "\"state\" : \"filled\"", "\"state\" : \"full\"", "“full” is no state" },
  { "\"state\" : \"filled\"", "\"state\" : \"persistent\"",
    "as_found.slots[0].state: the slot is “persistent”, its module “m1” is not: make" },
  { "\"mode\" : \"plain\"", "\"mode\" : \"odd\"", "as_found.mode: “odd”" },
  { "\"title\" : \"Estuary gauge, node 2\"", "\"title\" : 7", "title: must be a text" },
  { "\"id\" : \"m1\"", "\"id\" : null", "modules[0].id" },
  { "\"proved\" : false", "\"proved\" : 0", "proved: must be true or false" },
};

static void
test_complaints (void)
{
  g_autoptr (LidJob) job = sample ();
  g_autofree char *plain = lid_job_file_to_text (job);

  for (guint i = 0; i < G_N_ELEMENTS (broken); i++)
    {
      g_autoptr (GString) text = g_string_new (plain);
      g_autoptr (GError) error = NULL;

      g_assert_cmpuint (g_string_replace (text, broken[i].from, broken[i].to, 1), ==, 1);
      g_assert_null (lid_job_file_parse (text->str, text->len, &error));
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, broken[i].complaint));
    }
}

/* “filled” says that something sits there: what it is, the module says. */
static void
test_persistent (void)
{
  g_autoptr (LidJob) job = sample (), again = NULL;
  g_autofree char *plain = lid_job_file_to_text (job);
  g_autoptr (GString) text = g_string_new (plain);

  g_string_replace (text, "\"persistent\" : false", "\"persistent\" : true", 1);
  again = parse (text->str);
  g_assert_cmpint (again->as_found->slots[0].state, ==, LID_SLOT_PERSISTENT);
  g_assert_cmpint (lid_job_get_population (again, LID_PLANNED)->slots[1].state, ==,
                   LID_SLOT_PERSISTENT);
}

/* Cut anywhere: a complaint, never half a job. */
static void
test_cut (void)
{
  g_autoptr (LidJob) job = sample ();
  g_autofree char *text = lid_job_file_to_text (job);
  gsize size = strlen (text);

  for (gsize cut = 0; cut + 2 < size; cut += cut < 200 || cut + 200 > size ? 1 : 97)
    {
      g_autofree char *part = g_memdup2 (text, cut + 1);
      g_autoptr (GError) error = NULL;

      g_assert_null (lid_job_file_parse (part, cut, &error));
      g_assert_nonnull (error);
    }
}

static void
test_sniff (void)
{
  g_autoptr (LidJob) job = sample ();
  g_autofree char *text = lid_job_file_to_text (job);

  g_assert_true (lid_job_file_sniff (text, strlen (text)));
  g_assert_false (lid_job_file_sniff ("{\"format\":1}", 12));
  g_assert_false (lid_job_file_sniff ("# a report", 10));
  g_assert_false (lid_job_file_sniff ("", 0));
  g_assert_false (lid_job_file_sniff (NULL, 0));
}

/* Independent check: what is written is what the published schema describes (python3-jsonschema).
 */
static void
test_schema (void)
{
  static const char script[] = "import json,sys,jsonschema;"
                               "jsonschema.validate(json.load(open(sys.argv[2])),"
                               "json.load(open(sys.argv[1])))";
  g_autoptr (LidJob) job = sample ();
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("lidleaf-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.lidleaf", NULL);
  g_autofree char *schema
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "job.schema.json", NULL);
  const char *argv[] = { "/usr/bin/python3", "-c", script, schema, path, NULL };
  const char *probe[] = { "/usr/bin/python3", "-c", "import jsonschema", NULL };
  int status = 1;

  if (!g_spawn_sync (NULL, (char **)probe, NULL, G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL, NULL, NULL,
                     &status, NULL)
      || status != 0)
    {
      g_test_skip ("python3-jsonschema is not installed");
      g_rmdir (folder);
      return;
    }
  g_assert_true (lid_job_file_save (job, path, &error));
  g_assert_true (
      g_spawn_sync (NULL, (char **)argv, NULL, 0, NULL, NULL, NULL, NULL, &status, &error));
  g_unlink (path);
  g_rmdir (folder);
  g_assert_cmpint (status, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job-file/round-trip", test_round_trip);
  g_test_add_func ("/job-file/unknown-members", test_unknown_members_survive);
  g_test_add_func ("/job-file/newer", test_newer_opens_for_reading_only);
  g_test_add_func ("/job-file/save", test_save);
  g_test_add_func ("/job-file/complaints", test_complaints);
  g_test_add_func ("/job-file/persistent", test_persistent);
  g_test_add_func ("/job-file/cut", test_cut);
  g_test_add_func ("/job-file/sniff", test_sniff);
  g_test_add_func ("/job-file/schema", test_schema);
  return g_test_run ();
}
