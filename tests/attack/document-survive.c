/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "document-survive.h"

#include "base/error.h"
#include "board/board-file.h"
#include "changeover/changeover-lists.h"
#include "changeover/stage-parts.h"
#include "changeover/stages.h"
#include "checks/assessment.h"
#include "drawing/board-geometry.h"
#include "drawing/sheet-layout.h"
#include "facts/label.h"
#include "facts/parts.h"
#include "fake-measure.h"
#include "job/job-file.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST_MESSAGE 1000u /* bytes: a sentence, whatever stood in the file */

/* Ends the process: something was not survived. */
void
lid_document_fail (const char *what, const char *text)
{
  g_printerr ("attack-documents: %s: %.2000s\n", what, text != NULL ? text : "");
  abort ();
}

/* An error has to be one sentence. */
void
lid_document_check_error (const GError *error)
{
  if (error == NULL)
    lid_document_fail ("refused and no error", NULL);
  if (*error->message == 0 || !g_utf8_validate (error->message, -1, NULL)
      || strpbrk (error->message, "\n\r\t") != NULL || strlen (error->message) > MOST_MESSAGE)
    lid_document_fail ("the error is no sentence", error->message);
}

static void
check_text (const char *text)
{
  if (text == NULL || !g_utf8_validate (text, -1, NULL))
    lid_document_fail ("a text is missing or not UTF-8", text);
}

/* Judged, and its findings are sentences about slots the board has. */
static LidAssessment *
assess (const LidBoard *board, const LidPopulation *population, const LidPopulation *as_found)
{
  LidQuestion question = { board, population, as_found };
  LidAssessment *assessment = lid_assessment_new (&question);

  for (guint i = 0; i < assessment->findings->len; i++)
    check_text (((const LidFinding *)assessment->findings->pdata[i])->text);
  return assessment;
}

static void
draw_board (const LidBoard *board,
            const LidPopulation *population,
            const LidAssessment *assessment,
            const LidPopulation *before)
{
  for (guint lid_off = 0; lid_off < 2; lid_off++)
    {
      LidBoardView view = { lid_off != 0, 900, 600, 0, 1 };
      g_autoptr (LidBoardGeometry) geometry
          = lid_board_geometry_new (board, population, assessment, before, &view, &fake);

      lid_board_geometry_hit (geometry, 450, 300);
    }
}

static void
lay_out (const LidJob *job)
{
  for (guint i = 0; i < 4; i++)
    {
      LidSheetOptions options = { .what = i % 2 ? LID_SHEET_LID : LID_SHEET_BENCH,
                                  .paper = LID_PAPER_A4,
                                  .sideways = i == 2,
                                  .half = i == 3 };
      const LidPopulation *shown
          = lid_job_get_population (job, lid_sheet_layout_shows (job, options.what));
      g_autoptr (LidAssessment) assessment = NULL;
      g_autoptr (LidSheet) sheet = NULL;

      if (shown == NULL)
        continue;
      assessment = assess (job->board, shown, job->as_found);
      sheet = lid_sheet_layout_new (job, assessment, &options, &fake);
      if (sheet->pages->len == 0)
        lid_document_fail ("a sheet without a page", NULL);
    }
}

/* The way from one population to every other, told and listed. */
static void
change_over (const LidJob *job)
{
  const LidPopulation *to = lid_job_get_population (job, LID_PLANNED);
  g_autoptr (LidChangeover) changeover = NULL;

  if (to == NULL)
    return;
  changeover = lid_changeover_new (job->board, job->as_found, to, NULL);
  for (guint i = 0; i < changeover->steps->len; i++)
    check_text (((LidChangeoverStep *)changeover->steps->pdata[i])->text);
  for (LidListKind kind = 0; kind < LID_N_LISTS; kind++)
    {
      g_autoptr (LidChangeoverList) list
          = lid_changeover_list_new (changeover, job, kind, LID_TO_OWNER);
      g_autofree char *csv = lid_changeover_list_to_csv (list);

      check_text (csv);
    }
  /* Tonight and later; of a small machine, because many ways are tried. */
  if (job->board->n_slots <= 8 && job->as_found != NULL)
    {
      g_autoptr (GPtrArray) parts = lid_stage_parts_new (job);
      g_autoptr (GHashTable) missing = lid_stage_parts_missing (parts);
      g_autoptr (GError) error = NULL;
      LidPopulation *tonight = lid_stage_split (job->board, job->as_found, to, missing, &error);

      if (tonight == NULL)
        lid_document_check_error (error);
      lid_population_free (tonight);
    }
}

static void
survive_job (const LidJob *job)
{
  g_autofree char *text = NULL, *second = NULL;
  g_autoptr (LidJob) again = NULL;
  g_autoptr (GError) error = NULL;

  for (LidOf of = 0; of < LID_N_OF; of++)
    {
      const LidPopulation *population = lid_job_get_population (job, of);
      g_autoptr (LidAssessment) assessment = NULL;

      if (population == NULL)
        continue;
      assessment = assess (job->board, population, job->as_found);
      draw_board (job->board, population, assessment, job->as_found);
    }
  lay_out (job);
  change_over (job);
  if (job->read_only)
    return;
  text = lid_job_file_to_text (job);
  again = lid_job_file_parse (text, strlen (text), &error);
  if (again == NULL)
    lid_document_fail ("a saved job is refused", error->message);
  second = lid_job_file_to_text (again);
  if (strcmp (text, second) != 0)
    lid_document_fail ("a job saved twice differs", NULL);
}

static gboolean
try_job (const char *text, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) job = lid_job_file_parse (text, size, &error);

  lid_job_file_sniff (text, size);
  if (job == NULL)
    lid_document_check_error (error);
  else
    survive_job (job);
  return job != NULL;
}

static LidModule *
any_module (GRand *rand)
{
  const char *const *labels = lid_document_sample_labels ();
  LidLabel label;

  if (!lid_label_parse (labels[g_rand_int_range (rand, 0, 6)], -1, &label, NULL, NULL))
    lid_document_fail ("a sample label is refused", NULL);
  return lid_label_facts_to_module (&label);
}

/* Three populations: empty, some slots filled, all alike. */
static void
populate (const LidBoard *board, guint seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (LidModule) alike = any_module (rand);

  for (guint fill = 0; fill < 3; fill++)
    {
      g_autoptr (LidPopulation) population = lid_population_new (board);
      g_autoptr (LidAssessment) assessment = NULL;

      for (guint slot = 0; slot < population->n_slots && fill > 0; slot++)
        if (fill == 2 || g_rand_boolean (rand))
          {
            g_autoptr (LidModule) module = fill == 2 ? lid_module_ref (alike) : any_module (rand);
            lid_population_put (population, slot, module);
          }
      for (guint socket = 0; socket < population->n_sockets; socket++)
        population->processors[socket].model
            = g_rand_int_range (rand, -1, (gint32)board->n_processors);
      if (board->n_firmware > 0)
        population->firmware = g_strdup (board->firmware[0].level);
      assessment = assess (board, population, NULL);
      draw_board (board, population, assessment, NULL);
    }
}

static gboolean
try_board (const char *text, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_parse (text, size, &error);
  g_autoptr (LidBoard) again = NULL;
  g_autofree char *saved = NULL, *second = NULL;

  if (board == NULL)
    {
      lid_document_check_error (error);
      return FALSE;
    }
  populate (board, (guint)size);
  saved = lid_board_file_to_text (board);
  again = lid_board_file_parse (saved, strlen (saved), &error);
  if (again == NULL)
    lid_document_fail ("a saved board is refused", error->message);
  second = lid_board_file_to_text (again);
  if (strcmp (saved, second) != 0)
    lid_document_fail ("a board saved twice differs", NULL);
  return TRUE;
}

static char *
place_of_parts (void)
{
  static char *folder;

  if (folder == NULL)
    folder = g_dir_make_tmp ("attack-documents-XXXXXX", NULL);
  return g_build_filename (folder, "parts.json", NULL);
}

static gboolean
try_parts (const char *text, gsize size)
{
  g_autofree char *path = place_of_parts (), *folder = g_path_get_dirname (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidParts) parts = NULL, again = NULL;
  g_autoptr (LidModule) module = lid_module_new ();

  if (!g_file_set_contents_full (path, text, (gssize)size, G_FILE_SET_CONTENTS_NONE, 0600, &error))
    lid_document_fail ("cannot write", error->message);
  parts = lid_parts_load (path, &error);
  if (parts == NULL)
    lid_document_check_error (error);
  else
    {
      lid_module_set_text (&module->part, "TP-16R-32");
      lid_parts_apply (parts, module);
      lid_module_set (module, LID_FACT_RANKS, 2, LID_BASIS_TOLD);
      lid_parts_learn (parts, module);
      if (!lid_parts_is_read_only (parts))
        {
          if (!lid_parts_save (parts, &error))
            lid_document_fail ("parts are not saved", error->message);
          again = lid_parts_load (path, &error);
          if (again == NULL)
            lid_document_fail ("saved parts are refused", error->message);
          if (lid_parts_get_size (again) != lid_parts_get_size (parts))
            lid_document_fail ("saved parts are fewer or more", NULL);
        }
    }
  g_unlink (path);
  return parts != NULL;
}

static gboolean
try_label (const char *text, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) parts = NULL;
  g_autoptr (LidModule) module = NULL;
  g_autofree char *printed = NULL, *second = NULL;
  LidLabel label, again;
  LidLabelFault fault;

  if (!lid_label_parse (text, (gssize)size, &label, &fault, &error))
    {
      lid_document_check_error (error);
      if (fault.start > size || fault.length > size - fault.start)
        lid_document_fail ("the fault lies outside the text", error->message);
      return FALSE;
    }
  parts = lid_label_explain (&label);
  module = lid_label_facts_to_module (&label);
  printed = lid_label_print (&label);
  check_text (printed);
  if (!lid_label_parse (printed, -1, &again, NULL, &error))
    lid_document_fail ("a printed label is refused", printed);
  second = lid_label_print (&again);
  if (strcmp (printed, second) != 0)
    lid_document_fail ("a label printed twice differs", printed);
  return TRUE;
}

/**
 * lid_document_survive:
 * @kind: what the text was before it was made wrong
 * @text: the text; need not end with a NUL
 * @size: its bytes
 *
 * Ends the process where something is not survived.
 *
 * Returns: whether it was taken all the same
 */
gboolean
lid_document_survive (LidDocument kind, const char *text, gsize size)
{
  switch (kind)
    {
    case LID_DOCUMENT_JOB:
      return try_job (text, size);
    case LID_DOCUMENT_BOARD:
      return try_board (text, size);
    case LID_DOCUMENT_PARTS:
      return try_parts (text, size);
    case LID_DOCUMENT_STOCK:
      return lid_stock_survive (text, size);
    case LID_DOCUMENT_RESERVED:
      return lid_reserved_survive (text, size);
    case LID_DOCUMENT_LABEL:
    default:
      return try_label (text, size);
    }
}

/* Labels after shared/facts/label_cases.csv; the first six are what random populations are made of.
 */
const char *const *
lid_document_sample_labels (void)
{
  static const char *const labels[] = {
    "16GB 2Rx8 PC4-3200AA-RE2-12",     "32GB 2Rx4 PC4-2933Y-RB2-12",
    "8GB 1Rx8 PC4-2400T-UA2-11",       "64GB 2S2Rx4 PC4-2666V-LD2-11",
    "16GB 2Rx8 PC3L-12800E-11-11-E3",  "16GB 1Rx8 PC5-4800B-RD0-1010-XT",
    "16x 32GB 2Rx4 PC4-3200AA-RB2-12", "(L)16GB 2Rx8 PC4-3200AA-RE2-12(S)S101(P)TP-16R-32(M)Field",
    "8x 32g 2rx4 3200 registered",     NULL
  };

  return labels;
}

/**
 * lid_document_sample_parts:
 *
 * Returns: (transfer full): a parts memory with a few parts, as it is saved
 */
char *
lid_document_sample_parts (void)
{
  g_autofree char *path = place_of_parts ();
  g_autoptr (GError) error = NULL;
  g_autoptr (LidParts) parts = lid_parts_load (path, &error);
  char *text = NULL;

  g_assert_no_error (error);
  for (guint i = 0; i < 6; i++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (i);
      g_autoptr (LidModule) module = any_module (rand);
      g_autofree char *part = g_strdup_printf ("TP-16R-%u", 30 + i);

      lid_module_set_text (&module->part, part);
      lid_parts_learn (parts, module);
    }
  if (!lid_parts_save (parts, &error) || !g_file_get_contents (path, &text, NULL, &error))
    lid_document_fail ("no parts to attack", error->message);
  g_unlink (path);
  return text;
}
