/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/facts-popover.h"

#include <glib/gi18n.h>

struct _LidFactsPopover
{
  GtkPopover parent_instance;

  LidJobModel *model; /* nullable */
  GtkGrid *grid;
  GtkLabel *complaint;
  GtkWidget *texts[LID_EDITS_N_TEXTS];
  GtkWidget *firmware;
  GtkWidget *mode;       /* nullable: the board offers none */
  GPtrArray *processors; /* GtkDropDown by socket, borrowed */
  gboolean showing;      /* the job writes the fields, not the user */
  int row;
};

G_DEFINE_FINAL_TYPE (LidFactsPopover, lid_facts_popover, GTK_TYPE_POPOVER)

static const char *const text_words[LID_EDITS_N_TEXTS] = {
  [LID_EDITS_TITLE] = N_ ("Machine"),      [LID_EDITS_OWNER] = N_ ("Owner"),
  [LID_EDITS_ASSET] = N_ ("Asset number"), [LID_EDITS_NUMBER] = N_ ("Job number"),
  [LID_EDITS_SHOP] = N_ ("Shop"),          [LID_EDITS_TECHNICIAN] = N_ ("Technician"),
  [LID_EDITS_NOTES] = N_ ("Notes"),
};

static const char *
mode_words (LidMode mode)
{
  switch (mode)
    {
    case LID_MODE_MIRRORED:
      return _ ("mirrored");
    case LID_MODE_PARTLY_MIRRORED:
      return _ ("partly mirrored");
    case LID_MODE_SPARED:
      return _ ("spared");
    case LID_MODE_PAIRED:
      return _ ("paired");
    case LID_MODE_PLAIN:
    case LID_N_MODES:
    default:
      return _ ("plain");
    }
}

static LidMode
mode_of (const LidBoard *board, guint i)
{
  gboolean found;

  return lid_mode_from_text (board->modes[i].id, &found);
}

static void
add_row (LidFactsPopover *self, const char *words, GtkWidget *field)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (field, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_grid_attach (self->grid, label, 0, self->row, 1, 1);
  gtk_grid_attach (self->grid, field, 1, self->row++, 1, 1);
}

/* A refusal is said here, where the eye is. */
static void
done (LidFactsPopover *self, gboolean ok, const GError *error)
{
  gtk_label_set_text (self->complaint, ok ? "" : error->message);
  gtk_widget_set_visible (GTK_WIDGET (self->complaint), !ok);
  if (ok)
    lid_job_model_edited (self->model);
}

static void
text_typed (GtkEditable *editable, LidFactsPopover *self)
{
  g_autoptr (GError) error = NULL;
  guint which = 0;
  gboolean ok;

  if (self->showing || self->model == NULL)
    return;
  while (which < LID_EDITS_N_TEXTS && self->texts[which] != GTK_WIDGET (editable))
    which++;
  ok = lid_edits_set_text (lid_job_model_get_edits (self->model), (LidEditsText)which,
                           gtk_editable_get_text (editable), &error);
  done (self, ok, error);
}

static void
set_firmware (LidFactsPopover *self)
{
  const LidPopulation *population = lid_job_model_get_population (self->model);
  const char *level = gtk_editable_get_text (GTK_EDITABLE (self->firmware));
  g_autoptr (GError) error = NULL;
  gboolean ok;

  if (population != NULL
      && g_strcmp0 (population->firmware != NULL ? population->firmware : "", level) == 0)
    return;
  ok = lid_edits_set_firmware (lid_job_model_get_edits (self->model),
                               lid_job_model_get_of (self->model), level, &error);
  done (self, ok, error);
}

static void
mode_chosen (GtkDropDown *drop, GParamSpec *pspec, LidFactsPopover *self)
{
  const LidPopulation *now = lid_job_model_get_population (self->model);
  const LidBoard *board = lid_job_model_get_job (self->model)->board;
  guint chosen = gtk_drop_down_get_selected (drop);
  LidMode mode = LID_MODE_PLAIN;
  g_autoptr (GError) error = NULL;
  gboolean ok;

  if (self->showing || chosen > board->n_modes)
    return;
  if (chosen > 0)
    mode = mode_of (board, chosen - 1);
  if (now != NULL && now->mode == mode)
    return;
  ok = lid_edits_set_mode (lid_job_model_get_edits (self->model),
                           lid_job_model_get_of (self->model), mode,
                           mode == LID_MODE_SPARED ? 1 : 0, 0, &error);
  done (self, ok, error);
}

/* Rows of the list: not fitted, model not told, then the board's models. */
static void
processor_chosen (GtkDropDown *drop, GParamSpec *pspec, LidFactsPopover *self)
{
  guint chosen = gtk_drop_down_get_selected (drop), socket = 0;
  g_autoptr (GError) error = NULL;
  gboolean ok;

  if (self->showing || chosen == GTK_INVALID_LIST_POSITION
      || !g_ptr_array_find (self->processors, drop, &socket))
    return;
  ok = lid_edits_set_processor (lid_job_model_get_edits (self->model),
                                lid_job_model_get_of (self->model), socket, chosen > 0,
                                chosen > 1 ? (int)chosen - 2 : LID_NOWHERE, &error);
  done (self, ok, error);
}

static void
show (LidFactsPopover *self)
{
  LidEdits *edits = lid_job_model_get_edits (self->model);
  const LidPopulation *population = lid_job_model_get_population (self->model);
  const LidBoard *board = lid_edits_job (edits)->board;

  self->showing = TRUE;
  for (guint i = 0; i < LID_EDITS_N_TEXTS; i++)
    {
      const char *text = lid_edits_get_text (edits, (LidEditsText)i);

      text = text != NULL ? text : "";
      if (g_strcmp0 (text, gtk_editable_get_text (GTK_EDITABLE (self->texts[i]))) != 0)
        gtk_editable_set_text (GTK_EDITABLE (self->texts[i]), text);
    }
  if (population != NULL && !gtk_widget_has_focus (self->firmware))
    gtk_editable_set_text (GTK_EDITABLE (self->firmware),
                           population->firmware != NULL ? population->firmware : "");
  for (guint i = 0; population != NULL && i < self->processors->len; i++)
    gtk_drop_down_set_selected (
        self->processors->pdata[i],
        population->processors[i].fitted ? (guint)(population->processors[i].model + 2) : 0);
  for (guint i = 0; population != NULL && self->mode != NULL && i <= board->n_modes; i++)
    if ((i == 0 && population->mode == LID_MODE_PLAIN)
        || (i > 0 && mode_of (board, i - 1) == population->mode))
      gtk_drop_down_set_selected (GTK_DROP_DOWN (self->mode), i);
  gtk_widget_set_sensitive (GTK_WIDGET (self->grid), !lid_edits_job (edits)->read_only);
  self->showing = FALSE;
}

static void
add_processors (LidFactsPopover *self, const LidBoard *board)
{
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
      g_ptr_array_add (self->processors, drop);
      add_row (self, words, drop);
      self->showing = TRUE;
      g_signal_connect (drop, "notify::selected", G_CALLBACK (processor_chosen), self);
      self->showing = FALSE;
    }
}

static void
add_mode (LidFactsPopover *self, const LidBoard *board)
{
  g_autoptr (GtkStringList) list = gtk_string_list_new (NULL);

  if (board->n_modes == 0)
    return;
  gtk_string_list_append (list, mode_words (LID_MODE_PLAIN));
  for (guint i = 0; i < board->n_modes; i++)
    gtk_string_list_append (list, mode_words (mode_of (board, i)));
  self->mode = gtk_drop_down_new (G_LIST_MODEL (g_object_ref (list)), NULL);
  add_row (self, _ ("Memory mode"), self->mode);
  g_signal_connect (self->mode, "notify::selected", G_CALLBACK (mode_chosen), self);
}

/**
 * lid_facts_popover_set_model:
 * @model: the job to edit; once in the life of a popover
 */
void
lid_facts_popover_set_model (LidFactsPopover *self, LidJobModel *model)
{
  const LidBoard *board = lid_job_model_get_job (model)->board;

  g_return_if_fail (self->model == NULL);
  self->model = g_object_ref (model);
  add_processors (self, board);
  add_mode (self, board);
  g_signal_connect_object (model, "changed", G_CALLBACK (show), self, G_CONNECT_SWAPPED);
  show (self);
}

/**
 * lid_facts_popover_get_field:
 *
 * Returns: (transfer none): the entry of that text
 */
GtkWidget *
lid_facts_popover_get_field (LidFactsPopover *self, LidEditsText which)
{
  return self->texts[which];
}

static void
lid_facts_popover_dispose (GObject *object)
{
  LidFactsPopover *self = LID_FACTS_POPOVER (object);

  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  G_OBJECT_CLASS (lid_facts_popover_parent_class)->dispose (object);
  g_clear_pointer (&self->processors, g_ptr_array_unref);
  g_clear_object (&self->model);
}

static void
lid_facts_popover_class_init (LidFactsPopoverClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = lid_facts_popover_dispose;
}

static void
lid_facts_popover_init (LidFactsPopover *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  self->processors = g_ptr_array_new ();
  self->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_row_spacing (self->grid, 6);
  gtk_grid_set_column_spacing (self->grid, 12);
  for (guint i = 0; i < LID_EDITS_N_TEXTS; i++)
    {
      self->texts[i] = gtk_entry_new ();
      gtk_editable_set_width_chars (GTK_EDITABLE (self->texts[i]), 28);
      add_row (self, _ (text_words[i]), self->texts[i]);
      g_signal_connect (self->texts[i], "changed", G_CALLBACK (text_typed), self);
    }
  self->firmware = gtk_entry_new ();
  add_row (self, _ ("Firmware level"), self->firmware);
  g_signal_connect_swapped (self->firmware, "activate", G_CALLBACK (set_firmware), self);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (set_firmware), self);
  gtk_widget_add_controller (self->firmware, focus);
  self->complaint = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (self->complaint, TRUE);
  gtk_label_set_xalign (self->complaint, 0);
  gtk_widget_set_visible (GTK_WIDGET (self->complaint), FALSE);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->grid));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->complaint));
  gtk_widget_add_css_class (box, "facts-grid");
  gtk_popover_set_child (GTK_POPOVER (self), box);
}

GtkWidget *
lid_facts_popover_new (void)
{
  return g_object_new (LID_TYPE_FACTS_POPOVER, NULL);
}
