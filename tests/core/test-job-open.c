/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one way in, and the same job on another board (job-board.c). */
#include "board/board-list.h"
#include "job/edits.h"
#include "job/job-board.h"
#include "job/job-file.h"
#include "job/job-open.h"
#include "support.h"

#include <string.h>

static char *
data_path (const char *name)
{
  return g_build_filename (g_getenv ("LID_SOURCE"), "tests", "data", "machines", name, NULL);
}

/* The report of a Tern W4, with the product name changed: the slots agree, the machine does not. */
static char *
report (const char *product)
{
  g_autofree char *path = data_path ("tern-w4.txt");
  g_autofree char *text = NULL;
  g_autoptr (GString) edited = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  edited = g_string_new (text);
  if (product != NULL)
    g_assert_cmpuint (g_string_replace (edited, "Product Name: Tern W4", product, 0), >, 0);
  return g_strdup (edited->str);
}

static void
paste (const char *text, LidOpened *opened)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (lid_job_open_bytes (text, strlen (text), "Pasted", NULL, NULL, opened, &error));
  g_assert_no_error (error);
}

/* A paste is the same machine as the file it was copied from. */
static void
test_bytes_as_file (void)
{
  g_autofree char *path = data_path ("tern-w4.txt"), *text = report (NULL);
  g_auto (LidOpened) file = { NULL, NULL, NULL }, bytes = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;

  g_assert_true (lid_job_open (path, NULL, NULL, &file, &error));
  g_assert_no_error (error);
  paste (text, &bytes);
  g_assert_cmpstr (bytes.job->title, ==, "Pasted");
  g_assert_cmpint (bytes.match->kind, ==, LID_MATCH_EXACT);
  g_assert_cmpstr (bytes.job->board->id, ==, file.job->board->id);
  for (guint i = 0; i < bytes.job->as_found->n_slots; i++)
    {
      const LidModule *a = bytes.job->as_found->slots[i].module,
                      *b = file.job->as_found->slots[i].module;

      g_assert_true ((a == NULL) == (b == NULL));
      if (a != NULL)
        g_assert_true (lid_module_same (a, b));
    }
}

static void
test_bytes_refused (void)
{
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (GError) error = NULL;

  g_assert_false (lid_job_open_bytes ("no report", 9, "Pasted", NULL, NULL, &opened, &error));
  g_assert_true (g_str_has_prefix (error->message, "Pasted"));
  g_assert_null (opened.job);
  g_clear_error (&error);
  g_assert_false (
      lid_job_open_bytes ("{\"lidleaf\": 1}", 14, "Pasted", NULL, NULL, &opened, &error));
  g_assert_true (g_str_has_prefix (error->message, "Pasted: "));
}

/* An offered board is taken with all that was done on the job meanwhile, and given back by undo. */
static void
test_offered (void)
{
  g_autofree char *text = report ("Product Name: Dabchick W9"), *before = NULL, *after = NULL;
  g_auto (LidOpened) opened = { NULL, NULL, NULL };
  g_autoptr (LidEdits) edits = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *module = NULL;
  const LidJob *job;
  LidJob *moved;
  int planned = LID_NOWHERE, found = LID_NOWHERE;

  paste (text, &opened);
  g_assert_cmpstr (opened.match->offered->id, ==, "tern-w4");
  g_assert_cmpuint (opened.match->differences->len, >, 0);
  edits = lid_edits_new (g_steal_pointer (&opened.job));
  job = lid_edits_job (edits);
  g_assert_true (job->board->derived);
  g_assert_true (lid_edits_set_text (edits, LID_EDITS_OWNER, "Tide service", &error));
  for (guint i = 0; i < job->as_found->n_slots; i++)
    if (job->as_found->slots[i].module == NULL
        && strcmp (job->board->slots[i].name, "DIMM_D1") == 0)
      planned = (int)i;
  g_assert_cmpint (planned, !=, LID_NOWHERE);
  g_assert_true (
      lid_edits_add_from_text (edits, "16GB 2Rx4 PC4-2400T-RB1-11", NULL, &module, &error));
  g_assert_true (lid_edits_fill (edits, LID_PLANNED, (guint)planned, module, &error));
  before = lid_job_file_to_text (job);

  moved = lid_job_open_offered (job, &opened, &error);
  g_assert_no_error (error);
  g_assert_true (lid_edits_become (edits, moved, "board", &error));
  job = lid_edits_job (edits);
  g_assert_cmpstr (job->board->id, ==, "tern-w4");
  g_assert_cmpstr (job->match, ==, "offered");
  g_assert_cmpstr (job->owner, ==, "Tide service");
  found = lid_board_find_slot (job->board, "D1");
  g_assert_cmpstr (lid_job_get_population (job, LID_PLANNED)->slots[found].module->id, ==, module);
  g_assert_null (job->as_found->slots[found].module);
  found = lid_board_find_slot (job->board, "A1");
  g_assert_nonnull (job->as_found->slots[found].module);
  g_assert_true (lid_edits_undo (edits));
  after = lid_job_file_to_text (lid_edits_job (edits));
  g_assert_cmpstr (after, ==, before);
}

/* A board of its own to change, as the example has it. */
static LidBoard *
tern (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "example.lidleaf", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) job = lid_job_file_load (path, &error);
  LidBoard *board = lid_board_ref (job->board);

  g_assert_no_error (error);
  return board;
}

static void
test_moved_board (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "resources", "example.lidleaf", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) job = lid_job_file_load (path, &error), moved = NULL, lost = NULL;
  g_autoptr (LidBoard) board = tern ();
  g_autoptr (GPtrArray) members = g_ptr_array_new ();
  g_autofree char *same = lid_job_file_to_text (job), *again = NULL, *said = NULL;
  char *id, *name;
  int a1;

  moved = lid_job_board_move (job, board, NULL, &error);
  g_assert_no_error (error);
  again = lid_job_file_to_text (moved);
  g_assert_cmpstr (again, ==, same);

  /* A1 is called otherwise: what sat there sits nowhere, and that is said. */
  a1 = lid_board_find_slot (board, "A1");
  g_assert_nonnull (job->as_found->slots[a1].module);
  id = board->slots[a1].id;
  name = board->slots[a1].name;
  board->slots[a1].id = board->slots[a1].name = (char *)"Q1";
  lost = lid_job_board_move (job, board, NULL, &error);
  g_ptr_array_add (members, (gpointer) "rates");
  g_ptr_array_add (members, (gpointer) "limits");
  said = lid_job_board_differences (job, board, members);
  board->slots[a1].id = id;
  board->slots[a1].name = name;
  g_assert_null (lost->as_found->slots[a1].module);
  g_assert_cmpuint (lost->modules->len, ==, job->modules->len);
  g_assert_cmpstr (said, ==, "rates, limits of capacity, no slot A1");
}

int
main (int argc, char **argv)
{
  g_autofree char *platforms = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);

  g_test_init (&argc, &argv, NULL);
  lid_board_list_set_folders (platforms, "/nonexistent");
  g_test_add_func ("/job-open/bytes-as-file", test_bytes_as_file);
  g_test_add_func ("/job-open/bytes-refused", test_bytes_refused);
  g_test_add_func ("/job-open/offered", test_offered);
  g_test_add_func ("/job-open/moved-board", test_moved_board);
  return g_test_run ();
}
