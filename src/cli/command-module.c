/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "columns.h"
#include "command.h"
#include "commands.h"
#include "json-line.h"
#include "output.h"
#include "own-data.h"

#include "base/json-write.h"
#include "base/text.h"
#include "facts/label.h"

#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>

static void
write_number (LidJsonWriter *writer, const char *name, guint value)
{
  lid_json_write_int_or_null (writer, name, value, value > 0);
}

static void
write_text (LidJsonWriter *writer, const char *name, const char *text)
{
  lid_json_write_text (writer, name, text != NULL && *text != 0 ? text : NULL);
}

static void
write_voltages (LidJsonWriter *writer, LidVoltages voltages)
{
  if (voltages == 0)
    {
      lid_json_write_null (writer, "voltages_mv");
      return;
    }
  lid_json_write_open (writer, "voltages_mv", '[');
  for (; voltages != 0; voltages &= ~lid_voltage_from_mv (lid_voltage_lowest_mv (voltages)))
    lid_json_write_int (writer, NULL, lid_voltage_lowest_mv (voltages));
  lid_json_write_close (writer, ']');
}

/* The keys of product.md 11; maker and field are more. @label is zeroed where it was refused, which
 * reads as null everywhere. */
static void
write_json (
    GString *out, const char *source, const LidLabel *label, const char *reason, const char *field)
{
  g_autofree char *printed = reason == NULL ? lid_label_print (label) : NULL;
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, reason);
  lid_json_write_text (&writer, "field", field);
  lid_json_write_text (&writer, "label", printed);
  lid_json_write_text (&writer, "form",
                       reason == NULL ? lid_label_form_to_text (label->form) : NULL);
  write_number (&writer, "quantity", label->quantity);
  lid_json_write_text (&writer, "generation", lid_generation_to_text (label->generation));
  write_number (&writer, "capacity_mib", label->capacity_mib);
  write_number (&writer, "ranks", label->ranks);
  write_number (&writer, "logical_ranks", label->logical_ranks);
  write_number (&writer, "chip_width", label->chip_width);
  write_number (&writer, "rated_mts", lid_rate_mts (label->rated));
  lid_json_write_text (&writer, "kind", lid_kind_to_text (label->kind));
  if (reason != NULL || label->ecc < 0)
    lid_json_write_null (&writer, "ecc");
  else
    lid_json_write_bool (&writer, "ecc", label->ecc > 0);
  write_voltages (&writer, label->voltages);
  lid_json_write_null (&writer, "height_mm"); /* no label tells it */
  write_number (&writer, "die_gbit", label->die_gbit);
  write_text (&writer, "part", label->part);
  write_text (&writer, "serial", label->serial);
  write_text (&writer, "maker", label->maker);
  lid_json_line_close (&writer);
}

static void
write_people (GString *out, const LidLabel *label)
{
  g_autofree char *printed = lid_label_print (label);
  g_autoptr (GPtrArray) parts = lid_label_explain (label);
  LidColumns columns;

  g_string_append (out, printed);
  if (label->form == LID_LABEL_SHORT_FORM)
    g_string_append_printf (out, "  %s", _ ("(short form: what is not said is not known)"));
  g_string_append_c (out, '\n');
  lid_columns_start (&columns, 3);
  for (guint i = 0; i < parts->len; i++)
    {
      const LidLabelPart *part = parts->pdata[i];

      lid_columns_add (&columns, part->text);
      lid_columns_add (&columns, lid_label_field_to_words (part->field));
      lid_columns_add (&columns, part->meaning);
    }
  lid_columns_finish (&columns, out, "  ");
}

static char *remember_part;

static const GOptionEntry entries[] = {
  { "remember", 0, 0, G_OPTION_ARG_STRING, &remember_part,
    N_ ("Remember what the label says of this part number"), N_ ("PART") },
  G_OPTION_ENTRY_NULL,
};

/* What a label told once need not be asked again wherever the part turns up. */
static gboolean
remember (const LidLabel *label)
{
  g_autoptr (LidModule) module = lid_label_facts_to_module (label);

  lid_module_set_text (&module->part, remember_part);
  return lid_own_parts_learn (module);
}

static gboolean
module_one (const char *text, gsize size, gboolean json, gboolean *first)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GString) out = g_string_new (NULL);
  g_autofree char *source = lid_text_clean (text, (gssize)MIN (size, LID_LABEL_MAX_BYTES));
  LidLabel label;
  LidLabelFault fault;
  gboolean ok = lid_label_parse (text, (gssize)size, &label, &fault, &error);

  if (json)
    write_json (out, source, &label, ok ? NULL : error->message,
                ok ? NULL : lid_label_field_to_text (fault.field));
  else if (!ok)
    lid_complain ("“%s”: %s", source, error->message);
  else
    {
      if (!*first)
        g_string_append_c (out, '\n');
      *first = FALSE;
      write_people (out, &label);
    }
  lid_output (out->str, (gssize)out->len);
  return ok && (remember_part == NULL || remember (&label));
}

/* One line without its end; a line longer than any label is cut, which is enough to refuse it. */
static gboolean
next_line (GString *line)
{
  int c;

  g_string_truncate (line, 0);
  while ((c = getc (stdin)) != EOF && c != '\n')
    if (line->len <= LID_LABEL_MAX_BYTES)
      g_string_append_c (line, (char)c);
  return c != EOF || line->len > 0;
}

static gboolean
module_lines (gboolean json, gboolean *first)
{
  g_autoptr (GString) line = g_string_new (NULL);
  gboolean all = TRUE;
  guint n = 0;

  while (next_line (line))
    {
      const char *text = line->str;

      if (n == 0 && g_str_has_prefix (text, "\xef\xbb\xbf"))
        text += 3;
      if (*text == 0 || strspn (text, " \t\r") == line->len - (gsize)(text - line->str))
        continue;
      n++;
      all &= module_one (text, line->len - (gsize)(text - line->str), json, first);
    }
  if (n > 0)
    return all;
  lid_complain ("%s", _ ("standard input holds no label; one label a line is read"));
  return FALSE;
}

static LidExit
run (int n_arguments, char **arguments, gboolean json)
{
  LidExit status = LID_EXIT_DONE;
  gboolean first = TRUE;

  if (n_arguments == 0)
    {
      lid_complain ("%s", _ ("module needs a label, each in quotes: \"32GB 2Rx4 PC4-3200AA-R\""));
      return LID_EXIT_CALL;
    }
  if (remember_part != NULL && (n_arguments != 1 || *remember_part == 0))
    {
      lid_complain ("%s", _ ("--remember takes one part number and one label"));
      return LID_EXIT_CALL;
    }
  for (int i = 0; i < n_arguments; i++)
    {
      gboolean lines = strcmp (arguments[i], "-") == 0;

      if (lines ? !module_lines (json, &first)
                : !module_one (arguments[i], strlen (arguments[i]), json, &first))
        status = LID_EXIT_UNREAD;
    }
  if (status != LID_EXIT_DONE && n_arguments > 1 && !json)
    for (int i = 0; i < n_arguments; i++)
      if (g_str_has_prefix (arguments[i], "PC"))
        {
          lid_complain ("%s", _ ("put each label in quotes, its blanks belong to it"));
          break;
        }
  return status;
}

const LidCommand lid_command_module = {
  .name = "module",
  .arguments = N_ ("LABEL…"),
  .summary = N_ ("Read the label on a module, field by field"),
  .details = N_ (
      "LABEL is what is printed on the module or held in its QR code, in quotes, with an optional "
      "quantity in front: \"16x 32GB 2Rx4 PC4-3200AA-RB2-12\". Without PC and hyphens it is the "
      "short form: \"32g 2rx4 3200 registered\". A single - reads one label a line from standard "
      "input."),
  .entries = entries,
  .run = run,
};
