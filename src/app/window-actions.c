/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-actions.c — one table of what the window does; keys, menu and shortcuts come from it. */
#include "app/window-actions.h"

#include "app/window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#define RECENT "win.open-recent"

static void
undo (LidWindow *self)
{
  lid_job_model_undo (self->model);
}

static void
redo (LidWindow *self)
{
  lid_job_model_redo (self->model);
}

static void
plan_from_found (LidWindow *self)
{
  g_autoptr (GError) error = NULL;

  lid_window_edit (self, lid_edits_plan_from_found (lid_job_model_get_edits (self->model), &error),
                   &error);
}

static void
left_from_planned (LidWindow *self)
{
  g_autoptr (GError) error = NULL;

  if (lid_window_edit (self,
                       lid_edits_left_from_planned (lid_job_model_get_edits (self->model), &error),
                       &error))
    lid_window_ask_to_give_back (self);
}

static void
close_bar (LidWindow *self)
{
  lid_window_say (self, NULL);
}

static void
show_facts (LidWindow *self)
{
  gtk_menu_button_popup (GTK_MENU_BUTTON (self->facts_button));
}

static const LidActionRow rows[] = {
  { "win.open", N_ ("Open…"), "<Control>o", LID_PART_JOB, TRUE, FALSE, lid_window_choose_job },
  { RECENT, N_ ("Recent Jobs"), NULL, LID_PART_JOB, TRUE, FALSE, NULL },
  { "win.paste-report", N_ ("Paste a Report"), "<Control><Shift>v", LID_PART_JOB, TRUE, FALSE,
    lid_window_paste },
  { "win.save", N_ ("Save"), "<Control>s", LID_PART_JOB, TRUE, TRUE, lid_window_save },
  { "win.save-as", N_ ("Save As…"), "<Control><Shift>s", LID_PART_JOB, TRUE, TRUE,
    lid_window_save_as },
  { "win.facts", N_ ("Facts of This Job"), "<Control>i", LID_PART_JOB, TRUE, TRUE, show_facts },
  { "window.close", N_ ("Close the Window"), "<Control>w", LID_PART_JOB, FALSE, FALSE, NULL },
  { "app.quit", N_ ("Close All Windows"), "<Control>q", LID_PART_JOB, FALSE, FALSE, NULL },
  { "win.undo", N_ ("Undo"), "<Control>z", LID_PART_EDIT, TRUE, TRUE, undo },
  { "win.redo", N_ ("Redo"), "<Control><Shift>z", LID_PART_EDIT, TRUE, TRUE, redo },
  { "win.plan-from-found", N_ ("Plan Anew from As Found"), NULL, LID_PART_EDIT, TRUE, TRUE,
    plan_from_found },
  { "win.plan", N_ ("Work Out a Plan"), "<Control>l", LID_PART_EDIT, TRUE, TRUE, lid_window_plan },
  { "win.choose-shelf", N_ ("Choose a Stock File…"), NULL, LID_PART_EDIT, TRUE, TRUE,
    lid_window_choose_shelf },
  { "win.stages", N_ ("Tonight and Later"), "<Control>d", LID_PART_EDIT, TRUE, TRUE,
    lid_window_stages },
  { "win.teach", N_ ("Teach the Channels"), "<Control>t", LID_PART_EDIT, TRUE, TRUE,
    lid_window_teach },
  { "win.left-from-planned", N_ ("As Left Is as Planned"), NULL, LID_PART_EDIT, TRUE, TRUE,
    left_from_planned },
  { "win.of::as-found", N_ ("Show As Found"), "<Alt>1", LID_PART_LOOK, FALSE, TRUE, NULL },
  { "win.of::planned", N_ ("Show Planned"), "<Alt>2", LID_PART_LOOK, FALSE, TRUE, NULL },
  { "win.of::as-left", N_ ("Show As Left"), "<Alt>3", LID_PART_LOOK, FALSE, TRUE, NULL },
  { "win.lid-off", N_ ("Lid Off, or By Channel"), "<Alt>4", LID_PART_LOOK, TRUE, TRUE,
    lid_window_switch_view },
  { "win.zoom-in", N_ ("Larger"), "<Control>plus", LID_PART_LOOK, TRUE, TRUE, lid_window_zoom_in },
  { "win.zoom-out", N_ ("Smaller"), "<Control>minus", LID_PART_LOOK, TRUE, TRUE,
    lid_window_zoom_out },
  { "win.zoom-hand", N_ ("As Large as Hands Need"), "<Control>1", LID_PART_LOOK, TRUE, TRUE,
    lid_window_zoom_hand },
  { "win.zoom-fit", N_ ("All of the Board"), "<Control>0", LID_PART_LOOK, TRUE, TRUE,
    lid_window_zoom_fit },
  { "win.before-after", N_ ("Before and After"), "<Alt>5", LID_PART_LOOK, TRUE, TRUE,
    lid_window_toggle_before_after },
  { "win.preview", N_ ("Preview the Sheets"), "<Alt>p", LID_PART_SHEETS, TRUE, TRUE,
    lid_window_preview },
  { "win.print-bench", N_ ("Print the Bench Sheet…"), "<Control>p", LID_PART_SHEETS, TRUE, TRUE,
    lid_window_print_bench },
  { "win.print-lid", N_ ("Print the Lid Sheet…"), "<Control><Shift>p", LID_PART_SHEETS, TRUE, TRUE,
    lid_window_print_lid },
  { "win.print-balance", N_ ("Print the Balance Page…"), "<Control>b", LID_PART_SHEETS, TRUE, TRUE,
    lid_window_print_balance },
  { "win.export-bench", N_ ("Export the Bench Sheet…"), "<Control>e", LID_PART_SHEETS, TRUE, TRUE,
    lid_window_export_bench },
  { "win.export-lid", N_ ("Export the Lid Sheet…"), "<Control><Shift>e", LID_PART_SHEETS, TRUE,
    TRUE, lid_window_export_lid },
  { "win.export-balance", N_ ("Export the Balance Page…"), "<Control><Shift>b", LID_PART_SHEETS,
    TRUE, TRUE, lid_window_export_balance },
  { "win.next-part", N_ ("To the Next Part of the Window"), "F6", LID_PART_MOVE, FALSE, FALSE,
    lid_window_help_next_part },
  { "win.previous-part", N_ ("To the Part Before"), "<Shift>F6", LID_PART_MOVE, FALSE, FALSE,
    lid_window_help_previous_part },
  { "win.help", N_ ("What This Means"), "F1", LID_PART_HELP, FALSE, FALSE, lid_window_help_show },
  { "win.words", N_ ("Words and Rules"), NULL, LID_PART_HELP, TRUE, FALSE, lid_window_help_words },
  { "win.shortcuts", N_ ("Keyboard Shortcuts"), "<Control>question", LID_PART_HELP, TRUE, FALSE,
    lid_window_help_shortcuts },
  { "win.about-board", N_ ("About This Board"), NULL, LID_PART_HELP, TRUE, TRUE,
    lid_window_about_board },
  { "win.open-example", N_ ("Open the Example"), NULL, LID_PART_HELP, TRUE, FALSE,
    lid_window_open_example },
  { "win.about", N_ ("About Lidleaf"), NULL, LID_PART_HELP, TRUE, FALSE, lid_window_help_about },
};

/* Reached by the bar's own links alone, and by the buttons of the board's page. */
static const LidActionRow bar_rows[] = {
  { "win.use-offered", NULL, NULL, LID_PART_JOB, FALSE, TRUE, lid_window_use_offered },
  { "win.take-up", NULL, NULL, LID_PART_JOB, FALSE, FALSE, lid_window_take_up },
  { "win.discard", NULL, NULL, LID_PART_JOB, FALSE, FALSE, lid_window_discard },
  { "win.print-board", NULL, NULL, LID_PART_SHEETS, FALSE, TRUE, lid_window_print_board },
  { "win.export-board", NULL, NULL, LID_PART_SHEETS, FALSE, TRUE, lid_window_export_board },
  { "win.close-bar", NULL, NULL, LID_PART_JOB, FALSE, FALSE, close_bar },
};

/**
 * lid_window_actions_all:
 * @n: (out): how many
 *
 * Returns: (transfer none): the table
 */
const LidActionRow *
lid_window_actions_all (guint *n)
{
  *n = G_N_ELEMENTS (rows);
  return rows;
}

/**
 * lid_window_actions_name:
 * @widget: a widget
 * @name: how it is called by a screen reader, whatever GTK would make of its children
 */
void
lid_window_actions_name (GtkWidget *widget, const char *name)
{
  gtk_accessible_reset_relation (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  if (GTK_IS_MENU_BUTTON (widget)
      || GTK_IS_DROP_DOWN (widget)) /* the button inside has the focus */
    lid_window_actions_name (gtk_widget_get_first_child (widget), name);
}

void
lid_window_actions_set_keys (GtkApplication *application)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const char *keys[] = { rows[i].key, NULL };

      gtk_application_set_accels_for_action (application, rows[i].action, keys);
    }
}

static void
activated (GSimpleAction *action, GVariant *parameter, LidWindow *self)
{
  const LidActionRow *row = g_object_get_data (G_OBJECT (action), "row");

  row->run (self);
}

static void
install (LidWindow *self, const LidActionRow *row)
{
  g_autoptr (GSimpleAction) action = NULL;

  if (row->run == NULL)
    return;
  action = g_simple_action_new (row->action + strlen ("win."), NULL);
  g_object_set_data (G_OBJECT (action), "row", (gpointer)row);
  g_signal_connect (action, "activate", G_CALLBACK (activated), self);
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (action));
}

static void
show_population (GSimpleAction *action, GVariant *value, LidWindow *self)
{
  gboolean found;
  LidOf of = lid_of_from_text (g_variant_get_string (value, NULL), &found);

  if (found && self->model != NULL)
    {
      lid_job_model_set_of (self->model, of);
      lid_window_leave_page (self);
    }
}

static void
open_recent (GSimpleAction *action, GVariant *uri, LidWindow *self)
{
  lid_window_open_recent (self, g_variant_get_string (uri, NULL));
}

static void
use_shelf (GSimpleAction *action, GVariant *path, LidWindow *self)
{
  g_autoptr (GFile) file = g_file_new_for_path (g_variant_get_string (path, NULL));

  if (self->model != NULL)
    lid_window_use_shelf (self, file);
}

/* Made when it is opened: a menu is some forty widgets. The popover stays the same one: see
 * lid_popover_place_leave. */
static void
make_menu (GtkMenuButton *button, gpointer data)
{
  LidWindow *self = data;
  GtkPopover *popover = gtk_menu_button_get_popover (button);
  LidEdits *edits = self->model != NULL ? lid_job_model_get_edits (self->model) : NULL;
  g_autoptr (GMenuModel) menu
      = lid_window_actions_menu (edits != NULL ? lid_edits_undo_name (edits) : NULL,
                                 edits != NULL ? lid_edits_redo_name (edits) : NULL, self->recent);

  if (popover != NULL)
    gtk_popover_menu_set_menu_model (GTK_POPOVER_MENU (popover), menu);
  else
    gtk_menu_button_set_menu_model (button, menu);
}

void
lid_window_actions_install (LidWindow *self)
{
  g_autoptr (GSimpleAction) of = NULL, recent = NULL, shelf = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    install (self, &rows[i]);
  for (guint i = 0; i < G_N_ELEMENTS (bar_rows); i++)
    install (self, &bar_rows[i]);
  of = g_simple_action_new_stateful ("of", G_VARIANT_TYPE_STRING, g_variant_new_string ("planned"));
  g_signal_connect (of, "change-state", G_CALLBACK (show_population), self);
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (of));
  recent = g_simple_action_new ("open-recent", G_VARIANT_TYPE_STRING);
  g_signal_connect (recent, "activate", G_CALLBACK (open_recent), self);
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (recent));
  shelf = g_simple_action_new ("use-shelf", G_VARIANT_TYPE_STRING);
  g_signal_connect (shelf, "activate", G_CALLBACK (use_shelf), self);
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (shelf));
  lid_window_actions_enable (self, "take-up", FALSE);
  lid_window_actions_enable (self, "discard", FALSE);
  gtk_menu_button_set_create_popup_func (self->menu_button, make_menu, self, NULL);
  lid_window_actions_name (GTK_WIDGET (self->menu_button), _ ("More"));
  lid_window_help_install (self);
  lid_window_actions_refresh (self);
}

/**
 * lid_window_actions_enable:
 * @name: an action of the window, without "win."
 * @enabled: whether it can be done now
 */
void
lid_window_actions_enable (LidWindow *self, const char *name, gboolean enabled)
{
  g_simple_action_set_enabled (
      G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self), name)), enabled);
}

/* Set once: what is taken away for a moment is drawn again, and so is what stands in it. */
static gboolean
can_run (const char *name, const LidEdits *edits, const LidJob *job)
{
  gboolean write = job != NULL && !job->read_only;
  const struct
  {
    const char *name;
    gboolean can;
  } some[] = {
    { "lid-off", job != NULL && job->board->placed },
    { "save", write },
    { "undo", write && lid_edits_can_undo (edits) },
    { "redo", write && lid_edits_can_redo (edits) },
    { "plan", write },
    { "choose-shelf", write },
    { "stages", write && job->as_found != NULL && job->stages->len > 0 },
    { "teach", write && job->board->derived },
    { "plan-from-found", write && job->as_found != NULL },
    { "left-from-planned", write && job->stages->len > 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (some); i++)
    if (g_str_equal (name, some[i].name))
      return some[i].can;
  return job != NULL;
}

/**
 * lid_window_actions_refresh:
 *
 * What can be done now, and what undo and redo are called.
 */
void
lid_window_actions_refresh (LidWindow *self)
{
  LidEdits *edits = self->model != NULL ? lid_job_model_get_edits (self->model) : NULL;
  const LidJob *job = edits != NULL ? lid_edits_job (edits) : NULL;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i].needs_job && rows[i].run != NULL)
      {
        const char *name = rows[i].action + strlen ("win.");

        lid_window_actions_enable (self, name, can_run (name, edits, job));
      }
  lid_window_actions_enable (self, "of", job != NULL);
  if (self->model != NULL)
    g_simple_action_set_state (
        G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self), "of")),
        g_variant_new_string (lid_of_to_text (lid_job_model_get_of (self->model))));
  lid_window_help_refresh (self, edits != NULL ? lid_edits_undo_name (edits) : NULL,
                           edits != NULL ? lid_edits_redo_name (edits) : NULL);
}

/**
 * lid_window_actions_menu:
 * @undo: (nullable): what would be undone
 * @redo: (nullable): what would be done again
 * @recent: (nullable): the recent jobs, a menu of its own
 *
 * Returns: (transfer full): the menu of the table, a section for each part
 */
GMenuModel *
lid_window_actions_menu (const char *undo_name, const char *redo_name, GMenuModel *recent)
{
  GMenu *menu = g_menu_new ();

  for (int part = 0; part < LID_N_PARTS; part++)
    {
      g_autoptr (GMenu) section = g_menu_new ();

      for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
        {
          g_autofree char *words = g_strdup (_ (rows[i].words));
          const char *name = rows[i].run == undo   ? undo_name
                             : rows[i].run == redo ? redo_name
                                                   : NULL;

          if ((int)rows[i].part != part || !rows[i].in_menu)
            continue;
          if (name != NULL)
            {
              g_free (words);
              /* Translators: the second is what is undone or done again, "fill A1". */
              words = g_strdup_printf (_ ("%s: %s"), _ (rows[i].words), name);
            }
          if (strcmp (rows[i].action, RECENT) != 0)
            g_menu_append (section, words, rows[i].action);
          else if (recent != NULL)
            g_menu_append_submenu (section, words, recent);
        }
      if (g_menu_model_get_n_items (G_MENU_MODEL (section)) > 0)
        g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
    }
  return G_MENU_MODEL (menu);
}
