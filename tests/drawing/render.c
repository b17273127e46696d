/* SPDX-License-Identifier: GPL-3.0-or-later */
/* render OUT-FOLDER [SCENE…]: every scene as PDF on every paper, to look at. */
#include "drawing/export.h"
#include "drawing/sheet-layout.h"
#include "scenes.h"

static void
render (const Scene *scene, const char *folder)
{
  g_autoptr (LidJob) job = scenes_job (scene);
  g_autoptr (LidDrawText) text = lid_draw_text_new (lid_theme_print ());
  LidMeasure measure = lid_draw_text_measure (text);

  static const char *const names[LID_N_SHEETS] = { "bench", "lid", "balance" };

  for (guint o = 0; o < 8 * LID_N_SHEETS; o++)
    {
      LidSheetOptions options = { (LidSheetFor)(o / 8), o & 1 ? LID_PAPER_LETTER : LID_PAPER_A4,
                                  (o & 2) != 0, (o & 4) != 0 };
      g_autoptr (LidAssessment) assessment
          = scenes_assess (job, lid_sheet_layout_shows (job, options.what));
      g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, assessment, &options, &measure);
      g_autofree char *path = g_strdup_printf ("%s/%s-%s-%s%s%s.pdf", folder, scene->name,
                                               names[o / 8], o & 1 ? "letter" : "a4",
                                               o & 2 ? "-sideways" : "", o & 4 ? "-half" : "");
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) files
          = lid_export_files (lid_export_find (path, NULL), text, sheet, path, &error);

      g_assert_no_error (error);
      g_print ("%s %u\n", path, sheet->pages->len);
    }
}

int
main (int argc, char **argv)
{
  for (guint i = 0; i < n_scenes; i++)
    if (argc < 3 || g_strv_contains ((const char *const *)argv + 2, scenes[i].name))
      render (&scenes[i], argv[1]);
  return 0;
}
