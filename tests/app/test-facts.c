/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The facts of a job: each edit is one step with a name; bad input is answered beside its field and
 * stays there. */
#include "app/facts-popover.h"
#include "desk.h"

#include <string.h>

typedef struct
{
  GtkWidget *window, *button, *popover;
  LidJobModel *model;
  LidFactsPopover *facts;
  LidFactsSettings *settings;
} Form;

static void
lay (Form *form, LidJob *job)
{
  form->model = lid_job_model_new (job, NULL);
  form->window = g_object_ref_sink (gtk_window_new ());
  form->button = gtk_menu_button_new ();
  form->popover = lid_facts_popover_new ();
  form->facts = LID_FACTS_POPOVER (form->popover);
  lid_facts_popover_set_model (form->facts, form->model);
  form->settings = lid_facts_popover_get_settings (form->facts);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (form->button), form->popover);
  gtk_window_set_child (GTK_WINDOW (form->window), form->button);
  gtk_window_present (GTK_WINDOW (form->window));
  gtk_test_widget_wait_for_draw (form->window);
  gtk_menu_button_popup (GTK_MENU_BUTTON (form->button));
  desk_settle ();
}

static void
clear (Form *form)
{
  /* GTK 4.8.3 keeps a popover for ever that is open when its window goes. */
  gtk_menu_button_popdown (GTK_MENU_BUTTON (form->button));
  desk_settle ();
  gtk_window_destroy (GTK_WINDOW (form->window));
  desk_settle ();
  g_assert_finalize_object (form->window);
  g_assert_finalize_object (form->model);
}

static LidEdits *
edits (Form *form)
{
  return lid_job_model_get_edits (form->model);
}

static const LidPopulation *
now (Form *form)
{
  return lid_job_model_get_population (form->model);
}

static void
type (GtkWidget *field, const char *text)
{
  GtkWidget *entry
      = GTK_IS_COMBO_BOX (field) ? gtk_combo_box_get_child (GTK_COMBO_BOX (field)) : field;

  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
}

static void
texts (void)
{
  static const char *const names[]
      = { "name of the machine", "owner", "asset number", "job number", "shop", "technician" };
  Form form;

  lay (&form, desk_example ());
  for (guint i = 0; i < LID_EDITS_NOTES; i++)
    {
      GtkWidget *field = lid_facts_popover_get_field (form.facts, (LidEditsText)i);

      gtk_editable_set_text (GTK_EDITABLE (field), "P");
      gtk_editable_set_text (GTK_EDITABLE (field), "Pier 3");
      g_assert_cmpstr (lid_edits_get_text (edits (&form), (LidEditsText)i), ==, "Pier 3");
      g_assert_cmpstr (lid_edits_undo_name (edits (&form)), ==, names[i]);
      g_assert_true (lid_edits_undo (edits (&form)));
      lid_job_model_edited (form.model);
      g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field)), !=, "P");
      g_assert_false (lid_edits_can_undo (edits (&form))); /* one step, however many keys */
    }
  clear (&form);
}

/* Several lines, kept as typed; Tab leaves. */
static void
notes (void)
{
  Form form;
  GtkWidget *view;
  GtkTextBuffer *buffer;
  GtkTextIter start, end;
  g_autofree char *shown = NULL;

  lay (&form, desk_example ());
  view = lid_facts_popover_get_field (form.facts, LID_EDITS_NOTES);
  buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (view));
  gtk_text_buffer_set_text (buffer, "Lid sticks.\nScrew 4 is missing.", -1);
  g_assert_cmpstr (lid_edits_get_text (edits (&form), LID_EDITS_NOTES), ==,
                   "Lid sticks.\nScrew 4 is missing.");
  g_assert_false (gtk_text_view_get_accepts_tab (GTK_TEXT_VIEW (view)));
  lid_job_model_undo (form.model);
  gtk_text_buffer_get_bounds (buffer, &start, &end);
  shown = gtk_text_buffer_get_text (buffer, &start, &end, TRUE);
  g_assert_null (strstr (shown, "Screw 4"));
  clear (&form);
}

/* Only the notes can be too long: a GTK entry takes 65,535 bytes. */
static void
too_long (void)
{
  Form form;
  GtkWidget *view;
  GtkTextBuffer *buffer;
  g_autofree char *text = g_strnfill (LID_JOB_MAX_TEXT + 1, 'x');

  lay (&form, desk_example ());
  view = lid_facts_popover_get_field (form.facts, LID_EDITS_NOTES);
  buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (view));
  gtk_text_buffer_set_text (buffer, text, -1); /* takes the old text out first */
  g_assert_true (gtk_widget_has_css_class (view, "error"));
  g_assert_null (lid_edits_get_text (edits (&form), LID_EDITS_NOTES));
  lid_job_model_edited (form.model); /* another edit does not take the text away */
  g_assert_cmpint (gtk_text_buffer_get_char_count (buffer), ==, LID_JOB_MAX_TEXT + 1);
  gtk_text_buffer_set_text (buffer, "Short.", -1);
  g_assert_false (gtk_widget_has_css_class (view, "error"));
  g_assert_cmpstr (lid_edits_get_text (edits (&form), LID_EDITS_NOTES), ==, "Short.");
  clear (&form);
}

static void
choose (GtkWidget *drop, const char *words)
{
  GListModel *list = gtk_drop_down_get_model (GTK_DROP_DOWN (drop));

  for (guint i = 0; i < g_list_model_get_n_items (list); i++)
    if (strcmp (gtk_string_list_get_string (GTK_STRING_LIST (list), i), words) == 0)
      {
        gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), i);
        return;
      }
  g_test_fail_printf ("“%s” is no choice", words);
}

static void
processor (void)
{
  Form form;
  GtkWidget *drop;
  const LidBoard *board;

  lay (&form, desk_example ());
  board = lid_edits_job (edits (&form))->board;
  drop = lid_facts_settings_get_processor (form.settings, 0);
  choose (drop, board->processors[0].name);
  g_assert_cmpint (now (&form)->processors[0].model, ==, 0);
  choose (drop, "fitted, model not told");
  g_assert_true (now (&form)->processors[0].fitted);
  g_assert_cmpint (now (&form)->processors[0].model, ==, LID_NOWHERE);
  choose (drop, "not fitted");
  g_assert_false (now (&form)->processors[0].fitted);
  g_assert_cmpstr (lid_edits_undo_name (edits (&form)), ==, "processor 1");
  lid_job_model_undo (form.model);
  lid_job_model_undo (form.model);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (drop)), ==, 2);
  clear (&form);
}

static void
firmware (void)
{
  Form form;
  GtkWidget *field;

  lay (&form, desk_example ());
  field = lid_facts_settings_get_field (form.settings, LID_SETTING_FIRMWARE);
  type (field, " 3.1 ");
  g_assert_cmpstr (now (&form)->firmware, ==, "3.1");
  g_assert_cmpstr (lid_edits_undo_name (edits (&form)), ==, "firmware level");
  type (field, "");
  g_assert_null (now (&form)->firmware);
  gtk_combo_box_set_active (GTK_COMBO_BOX (field), 0); /* from the board's list */
  g_assert_cmpstr (now (&form)->firmware, ==,
                   lid_edits_job (edits (&form))->board->firmware[0].level);
  clear (&form);
}

/* A board with every mode, so that each of their sizes can be told. */
static void
modes (void)
{
  LidJob *job = desk_example ();
  Form form;
  GtkWidget *mode, *size;
  LidPopulation *plan = ((LidStage *)job->stages->pdata[0])->population;

  plan->mode = LID_MODE_PARTLY_MIRRORED; /* whatever the board offers, the job holds it */
  lay (&form, job);
  mode = lid_facts_settings_get_field (form.settings, LID_SETTING_MODE);
  size = lid_facts_settings_get_field (form.settings, LID_SETTING_MIRRORED);
  g_assert_true (gtk_widget_get_mapped (size));
  type (size, "16 gigs");
  g_assert_nonnull (
      strstr (lid_facts_settings_get_complaint (form.settings, LID_SETTING_MIRRORED), "16 gigs"));
  g_assert_cmpint (now (&form)->mirrored_mib, ==, 0);
  lid_job_model_edited (form.model);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (size)), ==, "16 gigs");
  type (size, "16");
  g_assert_null (lid_facts_settings_get_complaint (form.settings, LID_SETTING_MIRRORED));
  g_assert_cmpint (now (&form)->mirrored_mib, ==, 16384);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (size)), ==, "16 GB");
  choose (mode, "plain");
  g_assert_cmpint (now (&form)->mode, ==, LID_MODE_PLAIN);
  g_assert_cmpstr (lid_edits_undo_name (edits (&form)), ==, "memory mode");
  g_assert_false (gtk_widget_get_mapped (size));
  clear (&form);
}

static void
setup (void)
{
  Form form;
  GtkWidget *rate;

  lay (&form, desk_example ());
  rate = lid_facts_settings_get_field (form.settings, LID_SETTING_RATE);
  type (rate, "fast");
  g_assert_nonnull (lid_facts_settings_get_complaint (form.settings, LID_SETTING_RATE));
  type (rate, "1866");
  g_assert_null (lid_facts_settings_get_complaint (form.settings, LID_SETTING_RATE));
  g_assert_cmpuint (lid_rate_mts (now (&form)->setup_limit), ==, 1866);
  g_assert_cmpuint (lid_rate_mts (lid_job_model_get_assessment (form.model)->figures.running), ==,
                    1866);
  type (rate, "automatic");
  g_assert_cmpuint (now (&form)->setup_limit, ==, LID_RATE_UNKNOWN);
  g_assert_cmpstr (lid_edits_undo_name (edits (&form)), ==, "settings of setup");
  clear (&form);
}

/* What is looked at is what is edited, and says so. */
static void
of (void)
{
  Form form;
  GtkWidget *field;

  lay (&form, desk_example ());
  lid_job_model_set_of (form.model, LID_AS_FOUND);
  field = lid_facts_settings_get_field (form.settings, LID_SETTING_FIRMWARE);
  type (field, "0.9");
  g_assert_cmpstr (lid_edits_population (edits (&form), LID_AS_FOUND)->firmware, ==, "0.9");
  g_assert_cmpstr (lid_edits_population (edits (&form), LID_PLANNED)->firmware, !=, "0.9");
  clear (&form);
}

static void
read_only (void)
{
  LidJob *job = desk_example ();
  Form form;

  job->read_only = TRUE;
  lay (&form, job);
  g_assert_false (
      gtk_widget_is_sensitive (lid_facts_popover_get_field (form.facts, LID_EDITS_OWNER)));
  clear (&form);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/facts/texts", texts);
  g_test_add_func ("/facts/notes", notes);
  g_test_add_func ("/facts/too-long", too_long);
  g_test_add_func ("/facts/processor", processor);
  g_test_add_func ("/facts/firmware", firmware);
  g_test_add_func ("/facts/modes", modes);
  g_test_add_func ("/facts/setup", setup);
  g_test_add_func ("/facts/of", of);
  g_test_add_func ("/facts/read-only", read_only);
  return g_test_run ();
}
