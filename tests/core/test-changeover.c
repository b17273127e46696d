/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-file.h"
#include "changeover/changeover-lists.h"
#include "facts/label.h"

#include <string.h>

/* What tests/cli/steps.py does not walk: settings, processors, texts, and the lists' CSV. Order of
 * the work: product.md 9. */
typedef struct
{
  LidBoard *board;
  LidJob *job;
  LidPopulation *from, *to;
} Fixture;

static LidBoard *
load (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".json", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", file, NULL);
  g_autoptr (GError) error = NULL;
  LidBoard *board = lid_board_file_load (path, &error);

  g_assert_no_error (error);
  return board;
}

static void
set_up (Fixture *f, gconstpointer board)
{
  f->board = load (board);
  f->job = lid_job_new (f->board);
  f->from = lid_population_new (f->board);
  f->to = lid_population_new (f->board);
  for (guint i = 0; i < f->board->n_sockets; i++)
    f->from->processors[i].fitted = f->to->processors[i].fitted = TRUE;
}

static void
tear_down (Fixture *f, gconstpointer board)
{
  lid_population_free (f->from);
  lid_population_free (f->to);
  lid_job_free (f->job);
  lid_board_unref (f->board);
}

static LidModule *
new_module (Fixture *f, const char *part, const char *bin)
{
  LidModule *module;
  LidLabel label;

  g_assert_true (lid_label_parse ("16GB 2Rx4 PC4-2400T-RA1-11", -1, &label, NULL, NULL));
  module = lid_label_facts_to_module (&label);
  lid_module_set_text (&module->part, part);
  lid_module_set_text (&module->bin, bin);
  return lid_job_add_module (f->job, module);
}

/* The kinds of all steps, one letter each: f s p - + b ! ? for firmware, setting, processor, pull,
 * fit, blank, start, read. */
static void
check_kinds (const LidChangeover *changeover, const char *expected)
{
  static const char letters[] = "fsp-+b!?";
  g_autoptr (GString) kinds = g_string_new (NULL);

  for (guint i = 0; i < changeover->steps->len; i++)
    g_string_append_c (kinds, letters[((LidChangeoverStep *)changeover->steps->pdata[i])->kind]);
  g_assert_cmpstr (kinds->str, ==, expected);
}

static const LidChangeoverStep *
step_of (const LidChangeover *changeover, guint n)
{
  g_assert_cmpuint (n, <, changeover->steps->len);
  return changeover->steps->pdata[n];
}

static void
check_says (const LidChangeover *changeover, guint n, const char *words)
{
  if (strstr (step_of (changeover, n)->text, words) == NULL)
    g_error ("step %u, “%s”: no “%s” in it", n + 1, step_of (changeover, n)->text, words);
}

static LidChangeover *
change_over (Fixture *f)
{
  return lid_changeover_new (f->board, f->from, f->to, NULL);
}

static void
test_nothing (Fixture *f, gconstpointer data)
{
  g_autoptr (LidChangeover) changeover = NULL;
  g_autoptr (LidChangeover) untold = NULL;

  lid_population_put (f->to, 0, new_module (f, "TP-1", NULL));
  untold = lid_changeover_new (f->board, NULL, f->to, NULL);
  check_kinds (untold, "");
  lid_population_put (f->from, 0, f->to->slots[0].module);
  changeover = change_over (f);
  check_kinds (changeover, "");
}

/* Firmware alone: the machine runs again before anybody opens it, and nobody has to. */
static void
test_firmware (Fixture *f, gconstpointer data)
{
  g_autoptr (LidChangeover) known = NULL;
  g_autoptr (LidChangeover) unknown = NULL;
  g_autoptr (GPtrArray) cautions = NULL;

  f->to->firmware = g_strdup ("2.2");
  unknown = change_over (f);
  check_kinds (unknown, "f!?");
  check_says (unknown, 0, "note it");
  f->from->firmware = g_strdup ("1.0");
  known = change_over (f);
  check_says (known, 0, "from 1.0 to 2.2");
  check_says (known, 2, "2.2");
  /* Backup first; no word of cords and straps where no hand goes in. */
  cautions = lid_changeover_cautions (known, 0);
  g_assert_cmpstr (((LidCaution *)cautions->pdata[0])->id, ==, "backup");
  for (guint i = 0; i < cautions->len; i++)
    g_assert_cmpint (((LidCaution *)cautions->pdata[i])->moment, !=, LID_MOMENT_SAFE);
}

static void
test_settings (Fixture *f, gconstpointer data)
{
  g_autoptr (LidChangeover) changeover = NULL;

  f->to->mode = LID_MODE_SPARED;
  f->to->spare_ranks = 1;
  f->to->setup_limit = 3 * 2133;
  f->to->setup_mv = 1350;
  f->from->numa_split = 2;
  changeover = change_over (f);
  check_kinds (changeover, "ssss!?");
  check_says (changeover, 0, "spared by 1 rank; it was plain");
  check_says (changeover, 1, "2133 MT/s; it was automatic");
  check_says (changeover, 2, "1.35 V; it was automatic");
  check_says (changeover, 3, "1 node per processor; it was 2");
}

static gboolean
warns (const LidChangeover *changeover, guint step, const char *id)
{
  g_autoptr (GPtrArray) cautions = lid_changeover_cautions (changeover, step);

  return g_ptr_array_find (cautions, lid_cautions_find (id), NULL);
}

/* Hands first, then settings: a mode can demand the new modules. */
static void
test_order (Fixture *f, gconstpointer data)
{
  g_autoptr (LidChangeover) changeover = NULL;
  LidModule *old = new_module (f, "TP-1", NULL), *data_holder = new_module (f, "TP-2", NULL);

  data_holder->persistent = TRUE;
  lid_population_put (f->from, 0, old);
  lid_population_put (f->from, 1, data_holder);
  lid_population_put (f->to, 2, data_holder);
  f->to->mode = LID_MODE_MIRRORED;
  f->to->firmware = g_strdup ("2.2");
  changeover = change_over (f);
  check_kinds (changeover, "f!?--b+bb!s!?");
  check_says (changeover, 3, "it leaves the machine");
  g_assert_false (step_of (changeover, 3)->release);
  g_assert_true (step_of (changeover, 4)->release);
  check_says (changeover, 4, "only with the owner's written release");
  g_assert_cmpuint (step_of (changeover, 6)->mat, ==, 2);
  g_assert_true (step_of (changeover, 6)->module == data_holder);
  /* Asked while the machine still runs, before anything else; not where no such module is pulled.
   */
  g_assert_true (warns (changeover, 0, "data-owner"));
  g_assert_false (warns (changeover, 4, "data-owner"));
  data_holder->persistent = FALSE;
  g_assert_false (warns (changeover, 0, "data-owner"));
}

/* Out, exchanged, in; between pulls and fits. A model nobody told is no exchange. */
static void
test_processors (Fixture *f, gconstpointer data)
{
  g_autoptr (LidChangeover) more = NULL;
  g_autoptr (LidChangeover) fewer = NULL;

  g_assert_cmpuint (f->board->n_sockets, ==, 2);
  g_assert_cmpuint (f->board->n_processors, >, 1);
  lid_population_put (f->from, 0, new_module (f, "TP-1", NULL));
  lid_population_put (f->to, 1, new_module (f, "TP-2", "A1"));
  f->from->processors[0].model = 0;
  f->to->processors[0].model = 1;
  f->from->processors[1].fitted = FALSE;
  more = change_over (f);
  g_assert_cmpint (step_of (more, 0)->kind, ==, LID_STEP_PULL);
  g_assert_cmpint (step_of (more, 1)->socket, ==, 0);
  check_says (more, 1, "Exchange processor");
  g_assert_cmpint (step_of (more, 2)->socket, ==, 1);
  check_says (more, 2, "before its modules");
  f->from->processors[0].model = LID_NOWHERE;
  f->from->processors[1].fitted = TRUE;
  f->to->processors[1].fitted = FALSE;
  fewer = change_over (f);
  check_says (fewer, 1, "now that its slots are empty");
  g_assert_cmpint (step_of (fewer, 2)->kind, !=, LID_STEP_PROCESSOR);
}

/* RFC 4180, section 2, points 5 to 7; and no cell a spreadsheet would take for a formula. */
static void
test_csv (Fixture *f, gconstpointer data)
{
  g_autoptr (LidChangeover) changeover = NULL;
  g_autoptr (LidChangeoverList) pick = NULL;
  g_autoptr (LidChangeoverList) tags = NULL;
  g_autofree char *picked = NULL;
  g_autofree char *tagged = NULL;
  LidModule *old = new_module (f, "TP, \"1\"", NULL);

  lid_module_set_text (&old->serial, "=1+1");
  f->job->owner = g_strdup ("Tide\nservice");
  lid_population_put (f->from, 0, old);
  lid_population_put (f->to, 0, new_module (f, "TP-2", "A10"));
  lid_population_put (f->to, 1, new_module (f, "TP-2", "A2"));
  lid_population_put (f->to, 2, new_module (f, "TP-2", "A10"));
  old->value[LID_FACT_RANKS] = 1;
  changeover = change_over (f);
  pick = lid_changeover_list_new (changeover, f->job, LID_LIST_PICK, LID_TO_OWNER);
  picked = lid_changeover_list_to_csv (pick);
  g_assert_true (g_str_has_prefix (picked, "bin,quantity,module,part,label,slots\r\nA2,1,"));
  g_assert_nonnull (strstr (picked, "\r\nA10,2,"));
  tags = lid_changeover_list_new (changeover, f->job, LID_LIST_TAGS, LID_TO_STOCK);
  tagged = lid_changeover_list_to_csv (tags);
  g_assert_nonnull (strstr (tagged, ",\"TP, \"\"1\"\"\",\"'=1+1\","));
  g_assert_nonnull (strstr (tagged, ",\"Tide\nservice\","));
  g_assert_nonnull (strstr (tagged, ",stock,"));
}

#define ADD(name, board, test)                                                                     \
  g_test_add ("/changeover/" name, Fixture, board, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("nothing", "tern-w4", test_nothing);
  ADD ("firmware", "tern-w4", test_firmware);
  ADD ("settings", "tern-w4", test_settings);
  ADD ("order", "tern-w4", test_order);
  ADD ("processors", "curlew-r2", test_processors);
  ADD ("csv", "tern-w4", test_csv);
  return g_test_run ();
}
