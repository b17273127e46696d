/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/findings-popover.h"

#include "app/popover-place.h"
#include "app/window-actions.h"

#include <glib/gi18n.h>

#define WIDTH 380
#define MOST_HEIGHT 420
#define OWNED "lid-findings" /* the popover of its owner */
#define INDEX "lid-finding"  /* of a row: into the findings, from 1 */

/* Looked up anew when it is used: an edit may have come between. */
static const LidFinding *
finding_of (LidBoardArea *area, gpointer row)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (row), INDEX));
  const LidAssessment *assessment
      = lid_job_model_get_assessment (lid_hands_get_model (lid_board_area_get_hands (area)));

  return index > 0 && assessment != NULL && index <= assessment->findings->len
             ? assessment->findings->pdata[index - 1]
             : NULL;
}

static GtkWidget *
new_text (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), 34);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 48);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

static void
apply (GtkButton *button, LidBoardArea *area)
{
  GtkWidget *row = gtk_widget_get_ancestor (GTK_WIDGET (button), GTK_TYPE_LIST_BOX_ROW);
  GtkWidget *popover = gtk_widget_get_ancestor (row, GTK_TYPE_POPOVER);
  const LidFinding *finding = finding_of (area, row);

  /* The edit closes the list too; what it works with must not be freed under it. */
  g_object_ref (area);
  gtk_popover_popdown (GTK_POPOVER (popover));
  if (finding != NULL && lid_finding_remedy (finding) != NULL)
    lid_hands_apply (lid_board_area_get_hands (area), lid_finding_remedy (finding));
  g_object_unref (area);
}

static void
go_to_slot (GtkListBox *list, GtkListBoxRow *row, LidBoardArea *area)
{
  const LidFinding *finding = finding_of (area, row);

  gtk_popover_popdown (GTK_POPOVER (gtk_widget_get_ancestor (GTK_WIDGET (list), GTK_TYPE_POPOVER)));
  if (finding != NULL && finding->n_slots > 0)
    gtk_widget_grab_focus (lid_board_area_get_slot (area, finding->slots[0]));
}

static GtkWidget *
new_row (LidBoardArea *area, const LidFinding *finding, guint index)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  const char *rule = finding->rule != NULL ? lid_finding_rule_title (finding) : NULL;
  const char *grade = lid_grade_to_words (finding->grade);
  g_autofree char *title
      = rule != NULL ? g_strdup_printf (_ ("%s: %s"), grade, rule) : g_strdup (grade);
  g_autofree char *name = g_strdup_printf (_ ("%s: %s"), grade, finding->text);

  gtk_box_append (GTK_BOX (box), new_text (title, "sentence"));
  gtk_box_append (GTK_BOX (box), new_text (finding->text, NULL));
  if (lid_finding_remedy (finding) != NULL && lid_finding_remedy (finding)->moves->len > 0)
    {
      GtkWidget *button = gtk_button_new ();

      gtk_button_set_child (GTK_BUTTON (button),
                            new_text (lid_finding_remedy (finding)->text, NULL));
      gtk_widget_add_css_class (button, "link-text");
      gtk_widget_set_halign (button, GTK_ALIGN_START);
      lid_window_actions_name (button, lid_finding_remedy (finding)->text);
      g_signal_connect (button, "clicked", G_CALLBACK (apply), area);
      gtk_box_append (GTK_BOX (box), button);
    }
  g_object_set_data (G_OBJECT (row), INDEX, GUINT_TO_POINTER (index + 1));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  lid_window_actions_name (row, name);
  return row;
}

static gboolean
is_alike (const LidFinding *a, const LidFinding *b)
{
  return a == b || (a->rule != NULL && a->rule == b->rule && a->grade == b->grade);
}

/* With @folded, what its note stands for; else what no note stands for. */
static gboolean
belongs (LidBoardArea *area, const LidFinding *finding, const LidFinding *folded)
{
  const GArray *notes = lid_board_area_get_geometry (area)->notes;

  if (folded != NULL)
    return is_alike (finding, folded);
  for (guint i = 0; i < notes->len; i++)
    {
      const LidBoardNote *note = &g_array_index (notes, LidBoardNote, i);

      if (note->finding == finding
          || (note->finding != NULL && note->n_findings > 1 && is_alike (finding, note->finding)))
        return FALSE;
    }
  return TRUE;
}

static GtkWidget *
new_list (LidBoardArea *area, const LidFinding *folded)
{
  GtkWidget *list = gtk_list_box_new ();
  const LidAssessment *assessment
      = lid_job_model_get_assessment (lid_hands_get_model (lid_board_area_get_hands (area)));

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "findings");
  lid_window_actions_name (list, _ ("Findings"));
  for (guint i = 0; assessment != NULL && i < assessment->findings->len; i++)
    if (belongs (area, assessment->findings->pdata[i], folded))
      gtk_list_box_append (GTK_LIST_BOX (list), new_row (area, assessment->findings->pdata[i], i));
  g_signal_connect (list, "row-activated", G_CALLBACK (go_to_slot), area);
  return list;
}

/**
 * lid_findings_popover_close:
 * @owner: a widget that may own a list of findings; calls this before it goes
 */
void
lid_findings_popover_close (GtkWidget *owner)
{
  g_autoptr (GtkWidget) popover = g_object_steal_data (G_OBJECT (owner), OWNED);

  if (popover != NULL && gtk_widget_get_parent (popover) == owner)
    gtk_widget_unparent (popover);
}

/**
 * lid_findings_popover_open:
 * @owner: has a layout manager, and the note the list belongs to
 * @folded: (nullable): whose likes are listed; else what no note stands for
 */
void
lid_findings_popover_open (GtkWidget *owner, LidBoardArea *area, const LidFinding *folded)
{
  GtkWidget *popover = gtk_popover_new (), *scrolled = gtk_scrolled_window_new ();

  lid_findings_popover_close (owner);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), MOST_HEIGHT);
  gtk_widget_set_size_request (scrolled, WIDTH, -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), new_list (area, folded));
  gtk_popover_set_child (GTK_POPOVER (popover), scrolled);
  gtk_popover_set_position (GTK_POPOVER (popover), GTK_POS_TOP);
  gtk_accessible_update_property (GTK_ACCESSIBLE (popover), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Findings"), -1);
  gtk_widget_set_parent (popover, owner);
  g_object_set_data_full (G_OBJECT (owner), OWNED, g_object_ref (popover), g_object_unref);
  g_signal_connect (popover, "closed", G_CALLBACK (lid_popover_place_leave), NULL);
  lid_popover_place_show (GTK_POPOVER (popover));
}
