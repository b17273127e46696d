/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/facts-settings-private.h"

#include "app/facts-words.h"
#include "base/units-read.h"
#include "base/units.h"

#include <glib/gi18n.h>

G_DEFINE_FINAL_TYPE (LidFactsSettings, lid_facts_settings, GTK_TYPE_WIDGET)

static const LidBoard *
board_of (LidFactsSettings *self)
{
  return lid_job_model_get_job (self->model)->board;
}

/* A refusal is said beside the field. */
static void
done (LidFactsSettings *self, LidFactsRow *row, gboolean ok, GError *const *error)
{
  lid_facts_row_say (row, ok ? NULL : (*error)->message);
  if (ok)
    lid_job_model_edited (self->model);
}

static char *
text_of (LidFactsRow *row)
{
  return g_strstrip (
      g_strdup (gtk_editable_get_text (GTK_EDITABLE (lid_facts_settings_build_entry (row)))));
}

static void
set_firmware (LidFactsSettings *self)
{
  LidFactsRow *row = &self->rows[LID_SETTING_FIRMWARE];
  g_autofree char *level = text_of (row);
  g_autoptr (GError) error = NULL;

  if (self->showing || !lid_facts_row_changed (row, lid_facts_settings_build_entry (row)))
    return;
  done (self, row,
        lid_edits_set_firmware (lid_job_model_get_edits (self->model),
                                lid_job_model_get_of (self->model), level, &error),
        &error);
}

static void
set_mode (LidFactsSettings *self, LidFactsRow *row, LidMode mode, guint spare, gint64 mirrored)
{
  g_autoptr (GError) error = NULL;

  done (self, row,
        lid_edits_set_mode (lid_job_model_get_edits (self->model),
                            lid_job_model_get_of (self->model), mode, spare, mirrored, &error),
        &error);
}

static void
set_mirrored (LidFactsSettings *self)
{
  LidFactsRow *row = &self->rows[LID_SETTING_MIRRORED];
  g_autofree char *text = text_of (row);
  g_autoptr (GError) error = NULL;
  gint64 mib = 0;

  if (self->showing || !lid_facts_row_changed (row, lid_facts_settings_build_entry (row)))
    return;
  if (*text != 0 && !lid_units_read_capacity (text, &mib, &error))
    lid_facts_row_say (row, error->message);
  else
    set_mode (self, row, LID_MODE_PARTLY_MIRRORED, 0, mib);
}

static void
set_setup (LidFactsSettings *self, LidFactsRow *row, LidRate rate, guint mv)
{
  g_autoptr (GError) error = NULL;

  done (self, row,
        lid_edits_set_setup (lid_job_model_get_edits (self->model),
                             lid_job_model_get_of (self->model), rate, mv, &error),
        &error);
}

static void
set_rate (LidFactsSettings *self)
{
  const LidPopulation *now = lid_job_model_get_population (self->model);
  LidFactsRow *row = &self->rows[LID_SETTING_RATE];
  g_autofree char *text = text_of (row);
  g_autoptr (GError) error = NULL;
  LidRate rate = LID_RATE_UNKNOWN;

  if (self->showing || !lid_facts_row_changed (row, lid_facts_settings_build_entry (row)))
    return;
  if (*text != 0 && g_strcmp0 (text, _ ("automatic")) != 0
      && !lid_units_read_rate (text, lid_facts_settings_build_generation (board_of (self)), &rate,
                               &error))
    lid_facts_row_say (row, error->message);
  else
    set_setup (self, row, rate, now != NULL ? now->setup_mv : 0);
}

static void
chose (LidFactsSettings *self, LidSetting which, gint64 value)
{
  const LidPopulation *now = lid_job_model_get_population (self->model);
  LidFactsRow *row = &self->rows[which];
  g_autoptr (GError) error = NULL;

  if (which == LID_SETTING_MODE)
    set_mode (self, row, (LidMode)value, value == LID_MODE_SPARED ? 1 : 0, 0);
  else if (which == LID_SETTING_SPARE)
    set_mode (self, row, LID_MODE_SPARED, (guint)value, 0);
  else if (which == LID_SETTING_VOLTAGE)
    set_setup (self, row, now != NULL ? now->setup_limit : LID_RATE_UNKNOWN, (guint)value);
  else
    done (self, row,
          lid_edits_set_numa_split (lid_job_model_get_edits (self->model),
                                    lid_job_model_get_of (self->model), (guint)value, &error),
          &error);
}

static void
chosen (GtkDropDown *drop, GParamSpec *pspec, LidFactsSettings *self)
{
  guint at = gtk_drop_down_get_selected (drop);

  if (self->showing)
    return;
  for (guint i = 0; i < LID_N_SETTINGS; i++)
    if (self->rows[i].field == GTK_WIDGET (drop) && at < self->choices[i].values->len)
      {
        chose (self, (LidSetting)i, g_array_index (self->choices[i].values, gint64, at));
        return;
      }
}

static void
combo_chosen (GtkComboBox *combo, LidFactsSettings *self)
{
  if (self->showing || gtk_combo_box_get_active (combo) < 0)
    return;
  if (self->rows[LID_SETTING_FIRMWARE].field == GTK_WIDGET (combo))
    set_firmware (self);
  else
    set_rate (self);
}

/* Rows of the list: not fitted, model not told, then the board's models. */
static void
processor_chosen (GtkDropDown *drop, GParamSpec *pspec, LidFactsSettings *self)
{
  guint at = gtk_drop_down_get_selected (drop);
  g_autoptr (GError) error = NULL;

  if (self->showing || at == GTK_INVALID_LIST_POSITION)
    return;
  for (guint i = 0; i < self->n_processors; i++)
    if (self->processors[i].field == GTK_WIDGET (drop))
      done (self, &self->processors[i],
            lid_edits_set_processor (lid_job_model_get_edits (self->model),
                                     lid_job_model_get_of (self->model), i, at > 0,
                                     at > 1 ? (int)at - 2 : LID_NOWHERE, &error),
            &error);
}

static void
show_choice (LidFactsSettings *self, LidSetting which, gint64 value, char *(*name) (gint64))
{
  Choice *choice = &self->choices[which];
  guint at = 0;

  while (at < choice->values->len && g_array_index (choice->values, gint64, at) != value)
    at++;
  if (at == choice->values->len)
    {
      /* The job holds what the board does not offer. */
      g_autofree char *words = name (value);

      gtk_string_list_append (choice->words, words);
      g_array_append_val (choice->values, value);
    }
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->rows[which].field), at);
}

/**
 * lid_facts_settings_show:
 *
 * Shows what the job holds of the population that is looked at.
 */
void
lid_facts_settings_show (LidFactsSettings *self)
{
  const LidPopulation *now = lid_job_model_get_population (self->model);
  g_autofree char *mirrored = now != NULL ? lid_facts_words_size (now->mirrored_mib) : NULL;
  g_autofree char *rate = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self), now != NULL);
  if (now == NULL)
    return;
  self->showing = TRUE;
  gtk_label_set_text (self->heading, lid_facts_words_of (lid_job_model_get_of (self->model)));
  for (guint i = 0; i < self->n_processors && i < now->n_sockets; i++)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->processors[i].field),
                                now->processors[i].fitted ? (guint)(now->processors[i].model + 2)
                                                          : 0);
  rate = now->setup_limit == LID_RATE_UNKNOWN ? g_strdup (_ ("automatic"))
                                              : lid_units_rate (now->setup_limit);
  lid_facts_row_set_text (&self->rows[LID_SETTING_FIRMWARE],
                          lid_facts_settings_build_entry (&self->rows[LID_SETTING_FIRMWARE]),
                          now->firmware != NULL ? now->firmware : "");
  lid_facts_row_set_text (&self->rows[LID_SETTING_MIRRORED], self->rows[LID_SETTING_MIRRORED].field,
                          mirrored);
  lid_facts_row_set_text (&self->rows[LID_SETTING_RATE],
                          lid_facts_settings_build_entry (&self->rows[LID_SETTING_RATE]), rate);
  show_choice (self, LID_SETTING_MODE, now->mode, lid_facts_words_mode);
  show_choice (self, LID_SETTING_SPARE, MAX (now->spare_ranks, 1), lid_facts_words_ranks);
  show_choice (self, LID_SETTING_NUMA, now->numa_split > 1 ? now->numa_split : 0,
               lid_facts_words_nodes);
  show_choice (self, LID_SETTING_VOLTAGE, now->setup_mv, lid_facts_words_voltage);
  lid_facts_row_set_visible (&self->rows[LID_SETTING_MIRRORED],
                             now->mode == LID_MODE_PARTLY_MIRRORED);
  lid_facts_row_set_visible (&self->rows[LID_SETTING_SPARE], now->mode == LID_MODE_SPARED);
  /* One choice is none. */
  for (guint i = LID_SETTING_NUMA; i <= LID_SETTING_VOLTAGE; i++)
    if (i != LID_SETTING_RATE)
      lid_facts_row_set_visible (&self->rows[i], self->choices[i].values->len > 1);
  self->showing = FALSE;
}

static void
connect_entry (LidFactsSettings *self, LidSetting which, void (*set) (LidFactsSettings *self))
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkWidget *entry = lid_facts_settings_build_entry (&self->rows[which]);

  g_signal_connect_swapped (entry, "activate", G_CALLBACK (set), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (set), self);
  gtk_widget_add_controller (entry, focus);
  if (GTK_IS_COMBO_BOX (self->rows[which].field))
    g_signal_connect (self->rows[which].field, "changed", G_CALLBACK (combo_chosen), self);
}

/**
 * lid_facts_settings_new:
 * @model: the job; its board stays what it is for the life of the widget
 */
GtkWidget *
lid_facts_settings_new (LidJobModel *model)
{
  LidFactsSettings *self = g_object_new (LID_TYPE_FACTS_SETTINGS, NULL);
  const LidBoard *board = lid_job_model_get_job (model)->board;

  self->model = g_object_ref (model);
  self->showing = TRUE;
  lid_facts_settings_build (self, board);
  for (guint i = 0; i < LID_N_SETTINGS; i++)
    if (self->choices[i].words != NULL)
      g_signal_connect (self->rows[i].field, "notify::selected", G_CALLBACK (chosen), self);
  for (guint i = 0; i < self->n_processors; i++)
    g_signal_connect (self->processors[i].field, "notify::selected", G_CALLBACK (processor_chosen),
                      self);
  connect_entry (self, LID_SETTING_FIRMWARE, set_firmware);
  connect_entry (self, LID_SETTING_MIRRORED, set_mirrored);
  connect_entry (self, LID_SETTING_RATE, set_rate);
  self->showing = FALSE;
  lid_facts_settings_show (self);
  return GTK_WIDGET (self);
}

GtkWidget *
lid_facts_settings_get_field (LidFactsSettings *self, LidSetting which)
{
  return self->rows[which].field;
}

GtkWidget *
lid_facts_settings_get_processor (LidFactsSettings *self, guint socket)
{
  return self->processors[socket].field;
}

/**
 * lid_facts_settings_get_complaint:
 *
 * Returns: (transfer none) (nullable): what is said beside that field
 */
const char *
lid_facts_settings_get_complaint (LidFactsSettings *self, LidSetting which)
{
  return lid_facts_row_complains (&self->rows[which])
             ? gtk_label_get_text (GTK_LABEL (self->rows[which].complaint))
             : NULL;
}

static void
lid_facts_settings_dispose (GObject *object)
{
  LidFactsSettings *self = LID_FACTS_SETTINGS (object);

  self->showing = TRUE; /* a field that goes says nothing more */
  g_clear_pointer (&self->grid, gtk_widget_unparent);
  for (guint i = 0; i < LID_N_SETTINGS; i++)
    {
      g_clear_object (&self->choices[i].words);
      g_clear_pointer (&self->choices[i].values, g_array_unref);
    }
  g_clear_object (&self->model);
  G_OBJECT_CLASS (lid_facts_settings_parent_class)->dispose (object);
}

static void
lid_facts_settings_class_init (LidFactsSettingsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = lid_facts_settings_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
lid_facts_settings_init (LidFactsSettings *self)
{
  GtkWidget *heading = gtk_label_new (NULL);

  self->grid = gtk_grid_new ();
  self->heading = GTK_LABEL (heading);
  gtk_label_set_xalign (self->heading, 0);
  gtk_widget_add_css_class (heading, "heading");
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), 6);
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), 12);
  gtk_grid_attach (GTK_GRID (self->grid), heading, 0, 0, 2, 1);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
}
