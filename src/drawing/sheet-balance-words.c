/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-balance.h"

#include "base/units.h"
#include "help/glossary.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* What the page for the owner says. No word of the trade without its explanation, no figure of a
 * model without saying that it is one; what a model must say of itself:
 * shared/facts/population.md 4.7, in our own words. A new block is one function and one line in
 * lid_sheet_balance_words_fill(). */
#define MOST_KINDS 5u

static gboolean
is_of (const LidSlotChange *change, LidChangeKind kind)
{
  if (kind == LID_CHANGE_EMPTY)
    return change->mat > 0 && change->to == LID_NOWHERE;
  return change->kind == kind;
}

/* An owner orders by size and part number; ranks and widths are for the bench. */
static char *
say_module (const LidModule *module)
{
  g_autofree char *size = NULL;

  if (module->part == NULL || !lid_module_knows (module, LID_FACT_CAPACITY))
    return lid_module_describe (module);
  size = lid_units_capacity (lid_module_capacity (module));
  return g_strdup_printf (_ ("%s, part %s"), size, module->part);
}

/* Modules that read alike as one line: "2 × 16 GB, part HM-16G". */
static void
put_kinds (LidFlow *flow, const LidChanges *changes, LidChangeKind kind, const char *label)
{
  g_autoptr (GHashTable) counts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) order = g_ptr_array_new ();

  for (guint i = 0; i < changes->n_slots; i++)
    if (is_of (&changes->slots[i], kind))
      {
        const LidSlotChange *change = &changes->slots[i];
        char *words = say_module (kind == LID_CHANGE_EMPTY ? change->before : change->after);
        guint n = GPOINTER_TO_UINT (g_hash_table_lookup (counts, words));

        if (n == 0)
          g_ptr_array_add (order, words);
        /* A key that is there already stays, and this one is freed. */
        g_hash_table_insert (counts, words, GUINT_TO_POINTER (n + 1));
      }
  for (guint i = 0; i < MIN (order->len, MOST_KINDS); i++)
    {
      g_autofree char *text = g_strdup_printf (
          _ ("%u × %s"), GPOINTER_TO_UINT (g_hash_table_lookup (counts, order->pdata[i])),
          (const char *)order->pdata[i]);

      lid_sheet_flow_pair (flow, i == 0 ? label : "", text);
    }
  if (order->len > MOST_KINDS)
    lid_sheet_flow_pair (flow, "", _ ("and more: see the bench sheet"));
}

static void
put_work (LidFlow *flow, const LidBalance *balance, guint most)
{
  const LidChanges *changes = balance->changes;

  if (balance->found.population == NULL || balance->planned.population == NULL)
    return;
  lid_sheet_flow_head (flow, _ ("What is done"));
  put_kinds (flow, changes, LID_CHANGE_NEW, _ ("New"));
  put_kinds (flow, changes, LID_CHANGE_MOVED, _ ("Moved"));
  put_kinds (flow, changes, LID_CHANGE_EMPTY, _ ("Taken out, yours"));
  if (changes->n_new == 0 && changes->hands > 0)
    lid_sheet_flow_pair (flow, _ ("Bought"), _ ("nothing"));
  else if (changes->hands == 0)
    lid_sheet_flow_text (flow, _ ("Every module stays where it is."));
}

static void
put_side (
    LidFlow *flow, const LidBalanceSide *side, guint most, const char *head, const char *nothing)
{
  const GPtrArray *findings;
  guint shown = 0, more = 0, unsure = 0;

  if (side->assessment == NULL)
    return;
  findings = side->assessment->findings;
  lid_sheet_flow_head (flow, head);
  for (guint i = 0; i < findings->len; i++)
    {
      const LidFinding *finding = findings->pdata[i];

      if (finding->grade == LID_GRADE_UNSURE)
        unsure++;
      else if (finding->grade >= LID_GRADE_LOSES && shown < most)
        {
          lid_sheet_flow_grade (flow, finding->grade, finding->text);
          shown++;
        }
      else
        more += finding->grade >= LID_GRADE_LOSES;
    }
  if (more > 0)
    lid_sheet_flow_text (
        flow, lid_sheet_keep (
                  flow->sheet,
                  g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                                "%u finding not shown here: ask the shop.",
                                                "%u finding not shown here: ask the shop.", more),
                                   more)));
  if (unsure > 0)
    lid_sheet_flow_grade (
        flow, LID_GRADE_UNSURE,
        lid_sheet_keep (
            flow->sheet,
            g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u fact of a module is not known yet.",
                                          "%u facts of modules are not known yet.", unsure),
                             unsure)));
  if (shown + more + unsure == 0)
    lid_sheet_flow_text (flow, nothing);
}

static void
put_findings (LidFlow *flow, const LidBalance *balance, guint most)
{
  if (balance->found.population != NULL)
    put_side (flow, &balance->found, most, _ ("Found in the machine"),
              _ ("Nothing stops it and nothing is lost, by the rules known here."));
  if (balance->planned.population != NULL)
    put_side (flow, &balance->planned, most, _ ("As planned"),
              _ ("Nothing stops it and nothing is lost, by the rules known here."));
}

static gboolean
is_said (const LidFlow *flow, const char *word)
{
  gsize length = strlen (word);

  for (guint i = 0; i < flow->rows->len; i++)
    {
      const LidRow *row = &g_array_index (flow->rows, LidRow, i);
      const char *text = row->kind == LID_ROW_GRADE ? row->text : NULL;

      for (const char *at = text; at != NULL && (at = strstr (at, word)) != NULL; at += length)
        if (at == text || !g_ascii_isalnum (at[-1]))
          return TRUE;
    }
  return FALSE;
}

/* Words of the trade that findings and modules may bring along; each is explained where it is said,
 * in the words of the glossary. */
static void
put_glossary (LidFlow *flow, guint most)
{
  static const char *const ids[] = { "stops", "loses",  "unsure",     "controller", "first-slot",
                                     "order", "rank",   "registered", "unbuffered", "load-reduced",
                                     "3ds",   "rating", "chip-width", "ecc" };

  for (guint i = 0; i < G_N_ELEMENTS (ids) && most > 0; i++)
    {
      const LidWord *word = lid_glossary_find (ids[i]);
      g_autofree char *text = NULL;

      if (!is_said (flow, _ (word->word)))
        continue;
      /* Translators: a word and what it means */
      text = g_strdup_printf (_ ("%s: %s"), _ (word->word), _ (word->text));
      lid_sheet_flow_text (flow, text);
      most--;
    }
}

static void
put_explained (LidFlow *flow, const LidBalance *balance, guint most)
{
  lid_sheet_flow_head (flow, _ ("The words"));
  lid_sheet_flow_text (flow, _ ("module: one stick of memory, plugged into a slot."));
  lid_sheet_flow_text (flow, _ ("channel: the road from a few slots to the processor. It uses all "
                                "its channels at once; one without a module carries nothing and is "
                                "drawn as a thin broken line. Modules on one channel take turns."));
  lid_sheet_flow_text (flow, _ ("MT/s: millions of transfers a second on each channel. GB/s: "
                                "thousand million bytes a second."));
  lid_sheet_flow_text (flow,
                       _ ("even share: all of the memory read once, against what all channels "
                          "would carry meanwhile; 100 % only if it is even."));
  put_glossary (flow, 2 * most);
}

static void
put_caveats (LidFlow *flow, const LidBalance *balance, guint most)
{
  gboolean even, planned_even, model;
  g_autofree char *text
      = g_strdup_printf (_ ("Bandwidth is reckoned, not measured: %u %% of what the wires of the "
                            "channels in use could carry. No model knows the machine's firmware."),
                         (balance->job->board->efficiency + 50) / 100);

  model = lid_sheet_balance_figures_modelled (&balance->found, &even);
  model = lid_sheet_balance_figures_modelled (&balance->planned, &planned_even) || model;
  lid_sheet_flow_head (flow, _ ("How sure this is"));
  if (model)
    lid_sheet_flow_text (flow, text);
  if (!even || !planned_even)
    lid_sheet_flow_text (flow, _ ("Uneven memory has slower and faster places; what a program gets "
                                  "lies between the two."));
  if (model)
    lid_sheet_flow_text (flow, _ ("Memory bandwidth is not how fast the machine works: programs "
                                  "that seldom wait for memory gain little."));
  if (model && balance->job->board->derived)
    lid_sheet_flow_text (flow, _ ("Which slot is on which channel is told by the firmware's names "
                                  "alone; nobody has confirmed it on the board."));
  if (!balance->job->board->channels_told)
    lid_sheet_flow_text (flow,
                         _ ("The channels of this board are not told. They can be taught from "
                            "the print on the board or the machine's papers."));
}

/**
 * lid_sheet_balance_words_fill:
 * @most: findings of each side; the rest is counted
 *
 * Fills @flow with the blocks of the page.
 */
void
lid_sheet_balance_words_fill (LidFlow *flow, const LidBalance *balance, guint most)
{
  static void (*const blocks[]) (LidFlow * flow, const LidBalance *balance, guint most)
      = { put_work, put_findings, put_explained, put_caveats };

  for (guint i = 0; i < G_N_ELEMENTS (blocks); i++)
    blocks[i](flow, balance, most);
  lid_sheet_flow_end (flow);
}
