/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "steps-report.h"

#include "json-line.h"
#include "output.h"

#include "base/json-write.h"
#include "board/slot-names.h"

#include <glib/gi18n.h>
#include <string.h>

static void
write_cautions (LidJsonWriter *writer, const LidChangeover *changeover, guint step)
{
  g_autoptr (GPtrArray) cautions = lid_changeover_cautions (changeover, step);

  lid_json_write_open (writer, "cautions", '[');
  for (guint i = 0; i < cautions->len; i++)
    lid_json_write_text (writer, NULL, ((const LidCaution *)cautions->pdata[i])->id);
  lid_json_write_close (writer, ']');
}

static void
write_step (LidJsonWriter *writer, const LidChangeover *changeover, guint n)
{
  const LidChangeoverStep *step = changeover->steps->pdata[n];
  g_autofree char *words = step->module != NULL ? lid_module_describe (step->module) : NULL;

  lid_json_write_open (writer, NULL, '{');
  lid_json_write_int (writer, "n", n + 1);
  lid_json_write_text (writer, "kind", lid_changeover_kind_to_text (step->kind));
  lid_json_write_text (writer, "slot",
                       step->slot != LID_NOWHERE ? changeover->board->slots[step->slot].id : NULL);
  lid_json_write_text (writer, "module", step->module != NULL ? step->module->id : NULL);
  lid_json_write_int_or_null (writer, "mat", step->mat, step->mat > 0);
  lid_json_write_text (writer, "text", step->text);
  lid_json_write_text (writer, "what", words);
  lid_json_write_int_or_null (writer, "fit", step->fit, step->fit > 0);
  lid_json_write_text (writer, "processor",
                       step->socket != LID_NOWHERE ? changeover->board->sockets[step->socket].name
                                                   : NULL);
  lid_json_write_bool (writer, "release", step->release);
  write_cautions (writer, changeover, n);
  lid_json_write_close (writer, '}');
}

/**
 * lid_steps_report_json:
 *
 * The contract of product.md 11, with more keys: in a step what, fit, processor, release, cautions;
 * beside them hands, stops, and the cautions due when all is done.
 */
void
lid_steps_report_json (GString *out,
                       const char *source,
                       const LidChangeover *changeover,
                       const LidAssessment *assessment)
{
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_open (&writer, "steps", '[');
  for (guint i = 0; i < changeover->steps->len; i++)
    write_step (&writer, changeover, i);
  lid_json_write_close (&writer, ']');
  lid_json_write_int (&writer, "hands", changeover->changes->hands);
  lid_json_write_bool (&writer, "stops", lid_assessment_worst (assessment) == LID_GRADE_STOPS);
  write_cautions (&writer, changeover, changeover->steps->len);
  lid_json_line_close (&writer);
}

static void
put_cautions (GString *out, const LidChangeover *changeover, guint step)
{
  g_autoptr (GPtrArray) cautions = lid_changeover_cautions (changeover, step);
  int moment = -1;

  for (guint i = 0; i < cautions->len; i++)
    {
      const LidCaution *caution = cautions->pdata[i];

      if ((int)caution->moment != moment)
        g_string_append_printf (out, "\n  %s\n", lid_cautions_moment (caution->moment));
      moment = (int)caution->moment;
      g_string_append_printf (out, "    %s %s\n", caution->gate ? "[ ]" : " • ", _ (caution->text));
    }
  if (cautions->len > 0)
    g_string_append_c (out, '\n');
}

/**
 * lid_steps_report_text:
 * @assessment: of the population to arrive at
 *
 * Steps for a person, cautions before the step they belong to. What stops is said first.
 */
void
lid_steps_report_text (GString *out,
                       const char *source,
                       const LidChangeover *changeover,
                       const LidAssessment *assessment)
{
  guint hands = changeover->changes->hands;

  if (changeover->steps->len == 0)
    {
      g_string_append_printf (out, _ ("%s: nothing has to be done\n"), source);
      return;
    }
  g_string_append_printf (out,
                          g_dngettext (GETTEXT_PACKAGE, "%s: %u module is touched\n",
                                       "%s: %u modules are touched\n", hands),
                          source, hands);
  if (lid_assessment_worst (assessment) == LID_GRADE_STOPS)
    g_string_append (out, _ ("Stop: what is planned does not work as it stands; see the check.\n"));
  g_string_append (out, _ ("The machine maker's service guide and local rules come first.\n"));
  if (lid_slot_names_caveat (changeover->board) != NULL)
    g_string_append_printf (out, "%s\n", lid_slot_names_caveat (changeover->board));
  for (guint i = 0; i < changeover->steps->len; i++)
    {
      put_cautions (out, changeover, i);
      g_string_append_printf (out, "%3u. %s\n", i + 1,
                              ((LidChangeoverStep *)changeover->steps->pdata[i])->text);
    }
  put_cautions (out, changeover, changeover->steps->len);
}

/**
 * lid_steps_report_files:
 *
 * Says where a list was written.
 */
void
lid_steps_report_files (const char *source,
                        const LidChangeoverList *list,
                        const GPtrArray *files,
                        gboolean json)
{
  g_autoptr (GString) out = g_string_new (NULL);
  LidJsonWriter writer;

  if (!json)
    {
      for (guint i = 0; i < files->len; i++)
        lid_output_line (_ ("%s written"), (const char *)files->pdata[i]);
      return;
    }
  lid_json_line_open (&writer, out, source, NULL);
  lid_json_line_file (&writer, "file", files->pdata[0]);
  lid_json_write_int (&writer, "rows", list->rows->len);
  lid_json_write_open (&writer, "files", '[');
  for (guint i = 0; i < files->len; i++)
    lid_json_line_file (&writer, NULL, files->pdata[i]);
  lid_json_write_close (&writer, ']');
  lid_json_line_close (&writer);
  lid_output (out->str, (gssize)out->len);
}
