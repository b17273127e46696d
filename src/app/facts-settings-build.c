/* SPDX-License-Identifier: GPL-3.0-or-later */
/* facts-settings-build.c — the rows, from the board: choices it offers, and "not told". */
#include "app/facts-settings-private.h"

#include "app/facts-words.h"
#include "app/window-actions.h"
#include "base/units.h"

#include <glib/gi18n.h>

/**
 * lid_facts_settings_build_entry:
 *
 * Returns: (transfer none): the entry of a row that has one, in a combo box or alone
 */
GtkWidget *
lid_facts_settings_build_entry (const LidFactsRow *row)
{
  return GTK_IS_COMBO_BOX (row->field) ? gtk_combo_box_get_child (GTK_COMBO_BOX (row->field))
                                       : row->field;
}

/**
 * lid_facts_settings_build_generation:
 *
 * Returns: the one generation the board takes; LID_GENERATION_UNKNOWN where it takes several or
 *   does not tell
 */
LidGeneration
lid_facts_settings_build_generation (const LidBoard *board)
{
  for (guint g = 1; g < LID_N_GENERATIONS; g++)
    if (board->generations == 1u << g)
      return (LidGeneration)g;
  return LID_GENERATION_UNKNOWN;
}

static void
add_drop (LidFactsSettings *self,
          LidSetting which,
          int at,
          const char *words,
          const GArray *values,
          char *(*name) (gint64))
{
  Choice *choice = &self->choices[which];
  GtkWidget *drop;

  choice->words = gtk_string_list_new (NULL);
  choice->values = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint i = 0; i < values->len; i++)
    {
      gint64 value = g_array_index (values, gint64, i);
      g_autofree char *text = name (value);

      gtk_string_list_append (choice->words, text);
      g_array_append_val (choice->values, value);
    }
  drop = gtk_drop_down_new (G_LIST_MODEL (g_object_ref (choice->words)), NULL);
  lid_facts_row_add (&self->rows[which], GTK_GRID (self->grid), at, words, drop);
}

static void
add_entry (LidFactsSettings *self, LidSetting which, int at, const char *words, GtkWidget *field)
{
  LidFactsRow *row = &self->rows[which];

  lid_facts_row_add (row, GTK_GRID (self->grid), at, words, field);
  gtk_accessible_update_property (GTK_ACCESSIBLE (lid_facts_settings_build_entry (row)),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  if (GTK_IS_COMBO_BOX (field)) /* the button beside its entry */
    lid_window_actions_name (gtk_widget_get_last_child (gtk_widget_get_first_child (field)), words);
}

static void
add_processors (LidFactsSettings *self, const LidBoard *board, int *at)
{
  self->n_processors = board->n_sockets;
  for (guint socket = 0; socket < board->n_sockets; socket++)
    {
      g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);
      g_autofree char *words = g_strdup_printf (_ ("Processor %s"), board->sockets[socket].name);
      GtkWidget *drop;

      gtk_string_list_append (list, _ ("not fitted"));
      gtk_string_list_append (list, _ ("fitted, model not told"));
      for (guint i = 0; i < board->n_processors; i++)
        gtk_string_list_append (list, board->processors[i].name);
      drop = gtk_drop_down_new (G_LIST_MODEL (g_object_ref (list)), NULL);
      lid_facts_row_add (&self->processors[socket], GTK_GRID (self->grid), (*at)++, words, drop);
    }
}

static GtkWidget *
new_combo (const char *placeholder)
{
  GtkWidget *combo = gtk_combo_box_text_new_with_entry ();
  GtkWidget *entry = gtk_combo_box_get_child (GTK_COMBO_BOX (combo));

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), placeholder);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 14);
  return combo;
}

static void
add_texts (LidFactsSettings *self, const LidBoard *board, int at)
{
  GtkWidget *levels = new_combo (_ ("not told")), *rates = new_combo (NULL);
  GtkWidget *size = gtk_entry_new ();
  gsize n = 0;
  const LidRate *steps = lid_rate_steps (lid_facts_settings_build_generation (board), &n);

  for (guint i = 0; i < board->n_firmware; i++)
    gtk_combo_box_text_append_text (GTK_COMBO_BOX_TEXT (levels), board->firmware[i].level);
  gtk_combo_box_text_append_text (GTK_COMBO_BOX_TEXT (rates), _ ("automatic"));
  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *rate = lid_units_rate (steps[i]);

      gtk_combo_box_text_append_text (GTK_COMBO_BOX_TEXT (rates), rate);
    }
  gtk_entry_set_placeholder_text (GTK_ENTRY (size), _ ("not told"));
  add_entry (self, LID_SETTING_FIRMWARE, at, _ ("Firmware level"), levels);
  add_entry (self, LID_SETTING_MIRRORED, at + 2, _ ("Mirrored size"), size);
  add_entry (self, LID_SETTING_RATE, at + 5, _ ("Rate set in setup"), rates);
}

static void
add_choices (LidFactsSettings *self, const LidBoard *board, int at)
{
  g_autoptr (GArray) modes = g_array_new (FALSE, TRUE, sizeof (gint64));
  g_autoptr (GArray) ranks = g_array_new (FALSE, TRUE, sizeof (gint64));
  g_autoptr (GArray) nodes = g_array_new (FALSE, TRUE, sizeof (gint64));
  g_autoptr (GArray) volts = g_array_new (FALSE, TRUE, sizeof (gint64));
  const LidBoardMode *spared = lid_board_find_mode (board, LID_MODE_SPARED);
  gint64 value = LID_MODE_PLAIN, most = spared != NULL ? MAX (spared->most_spare_ranks, 1) : 1;

  g_array_append_val (modes, value);
  for (guint i = 0; i < board->n_modes; i++)
    g_array_append_vals (modes, &(gint64){ board->modes[i].mode }, 1);
  for (value = 1; value <= most; value++)
    g_array_append_val (ranks, value);
  g_array_append_vals (nodes, &(gint64){ 0 }, 1);
  for (guint i = 0; i < board->n_numa; i++)
    if (board->numa[i] > 1)
      g_array_append_vals (nodes, &(gint64){ board->numa[i] }, 1);
  g_array_append_vals (volts, &(gint64){ 0 }, 1);
  for (value = 1000; value <= 2500 && (board->voltages & (board->voltages - 1)) != 0; value += 50)
    if (board->voltages & lid_voltage_from_mv ((guint)value))
      g_array_append_val (volts, value);
  add_drop (self, LID_SETTING_MODE, at + 1, _ ("Memory mode"), modes, lid_facts_words_mode);
  add_drop (self, LID_SETTING_SPARE, at + 3, _ ("Spared on each channel"), ranks,
            lid_facts_words_ranks);
  add_drop (self, LID_SETTING_NUMA, at + 4, _ ("Each processor is cut into"), nodes,
            lid_facts_words_nodes);
  add_drop (self, LID_SETTING_VOLTAGE, at + 6, _ ("Voltage set in setup"), volts,
            lid_facts_words_voltage);
}

/**
 * lid_facts_settings_build:
 * @board: whose choices are offered
 *
 * Adds the rows in the order of the screen, which is the order of Tab.
 */
void
lid_facts_settings_build (LidFactsSettings *self, const LidBoard *board)
{
  int at = 1;

  add_processors (self, board, &at);
  add_texts (self, board, at);
  add_choices (self, board, at);
}
