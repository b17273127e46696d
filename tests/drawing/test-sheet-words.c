/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the sheets say, and which population they say it of. */
#include "drawing/sheet-layout.h"
#include "fake-measure.h"
#include "scenes.h"

static gboolean
says (const LidSheet *sheet, const char *text)
{
  for (guint p = 0; p < sheet->pages->len; p++)
    {
      const LidPage *page = sheet->pages->pdata[p];

      for (guint i = 0; i < page->items->len; i++)
        {
          const char *there = g_array_index (page->items, LidItem, i).text;

          if (there != NULL && strstr (there, text) != NULL)
            return TRUE;
        }
    }
  return FALSE;
}

/* The cautions stand where the hands are: product.md 12. */
static void
test_cautions (void)
{
  static const char *const bench[] = { "Shut down",
                                       "Every supply cord out",
                                       "power button to drain",
                                       "standby lamp",
                                       "bare skin",
                                       "bare chassis metal",
                                       "hot",
                                       "sharp edges",
                                       "by the edges",
                                       "latches",
                                       "Notch over key",
                                       "never force",
                                       "click by themselves",
                                       "tops level",
                                       "Blanks",
                                       "baffle",
                                       "15 minutes",
                                       "service guide and local rules come first",
                                       "backup read back",
                                       "then cords in",
                                       "bagged and tagged",
                                       "recovery key",
                                       "Photograph",
                                       "MHz",
                                       "MB",
                                       "Fitted by",
                                       "Memory test passed",
                                       "Checked by",
                                       "Powered on at" };
  static const char *const lid[] = { "planned, not yet proved",
                                     "vents, fans, labels or the intrusion switch",
                                     "Tape all four",
                                     "Do not mix",
                                     "May be added",
                                     "Fill next",
                                     "Largest",
                                     "Harbour Lane Repairs" };
  g_autoptr (LidJob) job = scenes_job (scenes_find ("tern"));
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_PLANNED);
  LidSheetOptions options = { LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE };
  g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, assessment, &options, &fake);

  for (guint i = 0; i < G_N_ELEMENTS (bench); i++)
    if (!says (sheet, bench[i]))
      g_error ("the bench sheet does not say “%s”", bench[i]);
  g_clear_pointer (&sheet, lid_sheet_free);
  options.what = LID_SHEET_LID;
  sheet = lid_sheet_layout_new (job, assessment, &options, &fake);
  for (guint i = 0; i < G_N_ELEMENTS (lid); i++)
    if (!says (sheet, lid[i]))
      g_error ("the lid sheet does not say “%s”", lid[i]);
}

/* Whoever opens the lid next reads what goes with what is in it, not all the board takes: a
 * load-reduced module beside registered ones stops the machine (shared/facts/population.md 1.1). */
static void
test_may (void)
{
  LidSheetOptions options = { LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE };

  for (guint fitted = 0; fitted < 2; fitted++)
    {
      g_autoptr (LidJob) job = scenes_job (scenes_find ("tern"));
      g_autoptr (LidSheet) sheet = NULL;

      for (guint i = 0; fitted == 0 && i < job->board->n_slots; i++)
        {
          lid_population_take (job->as_found, i);
          lid_population_take ((LidPopulation *)lid_job_get_population (job, LID_PLANNED), i);
        }
      for (guint i = 0; i < job->board->n_slots; i++)
        job->board->slots[i].max_height = fitted == 0 ? 3000 : i == 3 ? 1875 : 3150;
      for (guint i = 0; i < job->board->n_limits; i++)
        if (job->board->limits[i].what == LID_LIMIT_MODULE)
          {
            job->board->limits[i].kinds = 1u << LID_KIND_LOAD_REDUCED;
            job->board->limits[i].basis = LID_LISTED;
          }
      g_free (job->board->mixes[LID_MIX_CAPACITIES].source);
      job->board->mixes[LID_MIX_CAPACITIES] = (LidMixRule){
        TRUE, FALSE, LID_SCOPE_MACHINE, fitted + 1, LID_GRADE_STOPS, LID_STOPS_MACHINE, NULL
      };
      sheet = lid_sheet_layout_new (job, NULL, &options, &fake);
      g_assert_cmpint (says (sheet, "DDR4 registered, with ECC"), ==, fitted);
      g_assert_cmpint (says (sheet, "registered or load-reduced"), ==, !fitted);
      g_assert_cmpint (says (sheet, "no taller than 18.75 mm"), ==, fitted);
      g_assert_cmpint (says (sheet, "no taller"), ==, fitted);
      g_assert_cmpint (says (sheet, "A module, listed"), ==, !fitted);
      g_assert_cmpint (says (sheet, "Nor more than 2 different capacities in the"), ==, fitted);
      g_assert_cmpint (says (sheet, "Nor different capacities"), ==, !fitted);
    }
}

/* A board made from an inventory knows what goes in by generation and form, and of the kind only
 * what is in it. */
static void
test_kind_not_told (void)
{
  LidSheetOptions options = { LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE };
  g_autoptr (LidJob) job = scenes_job (scenes_find ("tern"));
  g_autoptr (LidSheet) sheet = NULL;

  job->board->kinds = 0;
  job->board->needs_ecc = FALSE;
  job->board->form = LID_FORM_DIMM;
  sheet = lid_sheet_layout_new (job, NULL, &options, &fake);
  g_assert_true (says (sheet, "DDR4 DIMM"));
  g_assert_true (
      says (sheet, "Which kind is not told for this board. What is in it now: registered."));
}

/* product.md 11: which population a sheet shows, and what it is stamped. */
/* Before a module that holds data is pulled the owner signs, and nobody is asked to sign for
 * others. */
static void
test_release (void)
{
  LidSheetOptions options = { LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE };

  for (guint holds_data = 0; holds_data < 2; holds_data++)
    {
      g_autoptr (LidJob) job = scenes_job (scenes_find ("tern"));
      g_autoptr (LidSheet) sheet = NULL;

      for (guint i = 0; i < job->board->n_slots; i++)
        if (job->as_found->slots[i].module != NULL)
          job->as_found->slots[i].module->persistent = (guint8)holds_data;
      sheet = lid_sheet_layout_new (job, NULL, &options, &fake);
      g_assert_cmpint (says (sheet, "Owner's release"), ==, holds_data);
      g_assert_cmpint (says (sheet, "only with the owner's written release"), ==, holds_data);
      g_assert_cmpint (says (sheet, "what holds data copied"), ==, holds_data);
      g_assert_cmpint (says (sheet, "until no lamp on the module is lit"), ==, holds_data);
      g_assert_true (says (sheet, "Power"));
    }
}

static void
test_stamps (void)
{
  g_autoptr (LidJob) job = scenes_job (scenes_find ("four"));
  LidSheetOptions bench = { LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE };
  LidSheetOptions lid = { LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE };
  g_autoptr (LidSheet) sheet = NULL;

  g_assert_cmpint (lid_sheet_layout_shows (job, LID_SHEET_BENCH), ==, LID_PLANNED);
  g_assert_cmpint (lid_sheet_layout_shows (job, LID_SHEET_LID), ==, LID_PLANNED);
  g_ptr_array_set_size (job->stages, 0);
  g_assert_cmpint (lid_sheet_layout_shows (job, LID_SHEET_LID), ==, LID_AS_FOUND);
  sheet = lid_sheet_layout_new (job, NULL, &bench, &fake);
  g_assert_true (says (sheet, "nothing planned"));
  g_clear_pointer (&sheet, lid_sheet_free);
  sheet = lid_sheet_layout_new (job, NULL, &lid, &fake);
  g_assert_true (says (sheet, "as found, not proved"));
  g_clear_pointer (&sheet, lid_sheet_free);
  job->as_left = lid_population_copy (job->as_found);
  job->proved = TRUE;
  g_assert_cmpint (lid_sheet_layout_shows (job, LID_SHEET_LID), ==, LID_AS_LEFT);
  g_assert_cmpint (lid_sheet_layout_shows (job, LID_SHEET_BENCH), ==, LID_AS_FOUND);
  sheet = lid_sheet_layout_new (job, NULL, &lid, &fake);
  g_assert_false (says (sheet, "not proved"));
}

/* A derived board is an honest list: no stem, no vein, and it says where its names come from. */
static void
test_untold (void)
{
  g_autoptr (LidJob) job = scenes_job (scenes_find ("thirtytwo-untold"));
  LidSheetOptions options = { LID_SHEET_LID, LID_PAPER_A4, FALSE, FALSE };
  g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, NULL, &options, &fake);

  g_assert_true (says (sheet, "as the firmware reports them"));
  g_assert_true (says (sheet, "channel not told"));
  for (guint p = 0; p < sheet->pages->len; p++)
    {
      const LidPage *page = sheet->pages->pdata[p];

      for (guint i = 0; i < page->items->len; i++)
        {
          LidItemKind kind = g_array_index (page->items, LidItem, i).kind;
          g_assert_true (kind != LID_ITEM_STEM && kind != LID_ITEM_VEIN);
        }
    }
}

/* Lid off: left and right on the page are left and right on the board, and the page says so. */
static void
test_placed (void)
{
  g_autoptr (LidJob) job = scenes_job (scenes_find ("plover"));
  LidSheetOptions options = { LID_SHEET_BENCH, LID_PAPER_A4, TRUE, FALSE };
  g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, NULL, &options, &fake);
  const LidPage *page = sheet->pages->pdata[0];
  guint pairs = 0;

  g_assert_true (says (sheet, "lid off"));
  for (guint i = 0; i < page->items->len; i++)
    for (guint k = 0; k < page->items->len; k++)
      {
        const LidItem *a = &g_array_index (page->items, LidItem, i);
        const LidItem *b = &g_array_index (page->items, LidItem, k);

        if (i == k || a->kind != LID_ITEM_SLOT || b->kind != LID_ITEM_SLOT)
          continue;
        g_assert_cmpint (a->box.x < b->box.x, ==,
                         job->board->slots[a->look->slot].x < job->board->slots[b->look->slot].x);
        pairs++;
      }
  g_assert_cmpuint (pairs, ==, 24 * 23);
}

/* What is read from a step away has its names level. */
static void
test_lid_is_level (void)
{
  g_autoptr (LidJob) job = scenes_job (scenes_find ("plover"));
  LidSheetOptions options = { LID_SHEET_LID, LID_PAPER_A4, TRUE, FALSE };
  g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, NULL, &options, &fake);

  g_assert_false (says (sheet, "lid off"));
}

/* Under a memory mode both sheets say what it leaves; a mode that is refused is said to be. */
static void
test_mode (void)
{
  static const LidSheetFor both[] = { LID_SHEET_BENCH, LID_SHEET_LID };

  for (guint i = 0; i < G_N_ELEMENTS (both); i++)
    for (guint taken = 0; taken < 2; taken++)
      {
        g_autoptr (LidJob) job = scenes_job (scenes_find ("plover"));
        LidSheetOptions options = { both[i], LID_PAPER_A4, FALSE, FALSE };
        LidOf of = lid_sheet_layout_shows (job, both[i]);
        LidPopulation *population = (LidPopulation *)lid_job_get_population (job, of);
        g_autoptr (LidAssessment) assessment = NULL;
        g_autoptr (LidSheet) sheet = NULL;

        population->mode = LID_MODE_SPARED;
        population->spare_ranks = taken ? 1 : 3;
        assessment = scenes_assess (job, of);
        sheet = lid_sheet_layout_new (job, assessment, &options, &fake);
        g_assert_true (says (sheet, taken ? "spared by 1 rank: " : "spared by 3 ranks: refused"));
        g_assert_cmpint (says (sheet, "all that is fitted"), ==,
                         taken && both[i] == LID_SHEET_BENCH);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet-words/cautions", test_cautions);
  g_test_add_func ("/sheet-words/may", test_may);
  g_test_add_func ("/sheet-words/release", test_release);
  g_test_add_func ("/sheet-words/stamps", test_stamps);
  g_test_add_func ("/sheet-words/untold", test_untold);
  g_test_add_func ("/sheet-words/placed", test_placed);
  g_test_add_func ("/sheet-words/mode", test_mode);
  g_test_add_func ("/sheet-words/lid-is-level", test_lid_is_level);
  g_test_add_func ("/sheet-words/kind-not-told", test_kind_not_told);
  return g_test_run ();
}
