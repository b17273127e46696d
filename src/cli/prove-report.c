/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "prove-report.h"

#include "json-line.h"
#include "remarks.h"

#include "base/units.h"
#include "board/slot-names.h"

#include <glib/gi18n.h>

static void
write_module (LidJsonWriter *writer, const char *name, const LidModule *module)
{
  g_autofree char *words = module != NULL ? lid_module_describe (module) : NULL;

  lid_json_write_text (writer, name, words);
}

static void
write_rate (LidJsonWriter *writer, const char *name, LidRate rate)
{
  lid_json_write_int_or_null (writer, name, lid_rate_mts (rate), rate != LID_RATE_UNKNOWN);
}

static void
write_slot (LidJsonWriter *writer, const LidProof *proof, const LidProofSlot *slot)
{
  lid_json_write_open (writer, NULL, '{');
  lid_json_write_text (writer, "slot",
                       slot->slot != LID_NOWHERE ? proof->board->slots[slot->slot].id : NULL);
  lid_json_write_text (writer, "name", slot->name);
  lid_json_write_text (writer, "verdict", lid_verdict_to_text (slot->verdict));
  write_module (writer, "planned", slot->planned);
  write_module (writer, "seen", slot->seen);
  write_rate (writer, "running_mts", slot->runs);
  lid_json_write_text (writer, "text", slot->text);
  lid_json_write_close (writer, '}');
}

/**
 * lid_prove_report_json:
 *
 * The contract of product.md 11, with more keys: per slot running_mts and text; beside them
 * planned_mib, fitted_mib, seen_mib, expected_mts, running_mts; untold: why what was told is not
 * enough to say that nothing differs, and then "matches" is false; notes: what to read before the
 * verdicts; remarks: those of read. "slots" is empty where nobody can tell slot by slot.
 */
void
lid_prove_report_json (GString *out, const char *source, const LidProof *proof)
{
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, source, NULL);
  lid_json_write_bool (&writer, "matches", proof->matches);
  lid_json_write_open (&writer, "slots", '[');
  for (guint i = 0; i < proof->slots->len; i++)
    write_slot (&writer, proof, proof->slots->pdata[i]);
  lid_json_write_close (&writer, ']');
  lid_json_write_open (&writer, "advice", '[');
  for (guint i = 0; i < proof->advice->len; i++)
    lid_json_write_text (&writer, NULL, proof->advice->pdata[i]);
  lid_json_write_close (&writer, ']');
  lid_json_write_text (&writer, "untold", proof->untold);
  lid_json_write_open (&writer, "notes", '[');
  for (guint i = 0; i < proof->notes->len; i++)
    lid_json_write_text (&writer, NULL, proof->notes->pdata[i]);
  lid_json_write_close (&writer, ']');
  lid_remarks_json (&writer, proof->remarks);
  lid_json_write_int_or_null (&writer, "planned_mib", proof->planned_mib, proof->planned_mib >= 0);
  lid_json_write_int (&writer, "fitted_mib", proof->fitted_mib);
  lid_json_write_int_or_null (&writer, "seen_mib", proof->seen_mib, proof->seen_mib >= 0);
  write_rate (&writer, "expected_mts", proof->expected);
  write_rate (&writer, "running_mts", proof->runs);
  lid_json_line_close (&writer);
}

static const char *
name_of (const LidProof *proof, const LidProofSlot *slot)
{
  if (slot->slot != LID_NOWHERE)
    return lid_board_name_slot (proof->board, (guint)slot->slot);
  return slot->name != NULL ? slot->name : _ ("a slot without a name");
}

static void
put_totals (GString *out, const LidProof *proof)
{
  g_autofree char *planned = lid_units_capacity (proof->fitted_mib);
  g_autofree char *seen = proof->seen_mib >= 0 ? lid_units_capacity (proof->seen_mib) : NULL;
  g_autofree char *expected = lid_units_rate (proof->expected);
  g_autofree char *runs = lid_units_rate (proof->runs);

  if (seen != NULL)
    g_string_append_printf (out, _ ("  Memory  %s planned, %s seen\n"), planned, seen);
  else
    g_string_append_printf (out, _ ("  Memory  %s planned, nobody read how much is seen\n"),
                            planned);
  if (proof->expected == LID_RATE_UNKNOWN && proof->runs != LID_RATE_UNKNOWN)
    g_string_append_printf (out, _ ("  Runs at %s; what to expect is not known\n"), runs);
  else if (proof->expected != LID_RATE_UNKNOWN && proof->runs != LID_RATE_UNKNOWN)
    g_string_append_printf (out, _ ("  Runs at %s, %s expected\n"), runs, expected);
  else if (proof->expected != LID_RATE_UNKNOWN)
    g_string_append_printf (out, _ ("  Runs at a rate nobody told, %s expected\n"), expected);
}

/* What a person read by eye is never the whole machine. */
static const char *
headline (const LidProof *proof)
{
  if (proof->differs)
    return _ ("%s: other than planned\n");
  if (!proof->matches)
    return _ ("%s: not proved\n");
  return proof->seen != NULL ? _ ("%s: as planned\n") : _ ("%s: as planned, as far as was read\n");
}

/* By eye nobody read what sits in a slot: one line for all of them. */
static gboolean
is_counted (const LidProof *proof, const LidProofSlot *slot)
{
  return slot->verdict == LID_VERDICT_AS_PLANNED
         || (proof->seen == NULL && slot->verdict == LID_VERDICT_AS_PLANNED_AS_FAR_AS_TOLD);
}

static void
put_count (GString *out, guint n, const char *format)
{
  if (n > 0)
    g_string_append_printf (out, format, n);
}

static void
put_slots (GString *out, const LidProof *proof)
{
  guint as_planned = 0, as_told = 0;

  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      if (!is_counted (proof, slot))
        g_string_append_printf (out, "  %s  %s: %s\n", name_of (proof, slot),
                                lid_verdict_to_words (slot->verdict), slot->text);
      else if (slot->verdict == LID_VERDICT_AS_PLANNED)
        as_planned++;
      else
        as_told++;
    }
  put_count (out, as_told,
             g_dngettext (GETTEXT_PACKAGE, "  %u slot is as planned, as far as was read\n",
                          "  %u slots are as planned, as far as was read\n", as_told));
  put_count (out, as_planned,
             g_dngettext (GETTEXT_PACKAGE, "  %u slot is as planned\n",
                          "  %u slots are as planned\n", as_planned));
  if (proof->slots->len == 0)
    g_string_append_printf (out, "  %s\n", _ ("slot by slot nothing was read"));
}

/**
 * lid_prove_report_text:
 *
 * For a person: what speaks against its being this machine; what differs, slot by slot; what is as
 * planned after it; then what to try, and what was odd in the inventory.
 */
void
lid_prove_report_text (GString *out, const char *source, const LidProof *proof)
{
  g_string_append_printf (out, headline (proof), source);
  if (proof->untold != NULL)
    g_string_append_printf (out, "  %s\n", proof->untold);
  for (guint i = 0; i < proof->notes->len; i++)
    g_string_append_printf (out, "  %s\n", (const char *)proof->notes->pdata[i]);
  put_totals (out, proof);
  if (lid_slot_names_caveat (proof->board) != NULL)
    g_string_append_printf (out, "%s\n", lid_slot_names_caveat (proof->board));
  put_slots (out, proof);
  if (proof->advice->len > 0)
    g_string_append_printf (out, "\n%s\n", _ ("What to try, the cheapest first:"));
  for (guint i = 0; i < proof->advice->len; i++)
    g_string_append_printf (out, "%3u. %s\n", i + 1, (const char *)proof->advice->pdata[i]);
  lid_remarks_text (out, proof->remarks);
}
