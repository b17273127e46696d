/* SPDX-License-Identifier: GPL-3.0-or-later */
/* left-offer.c — who looks at as left before it is noted sees the plan: that is said, not passed
 * off as what was left, and noted with one click. */
#include "app/left-offer.h"

#include <glib/gi18n.h>

#define OFFER "lid-left-offer"

static GtkWidget *
new_offer (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *words = gtk_label_new (_ ("Not noted yet: what is drawn is the plan."));
  GtkWidget *button = gtk_button_new_with_label (_ ("It Was Left as Planned"));

  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (words), GTK_NATURAL_WRAP_NONE);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "link-text");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.left-from-planned");
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), button);
  return box;
}

/**
 * lid_left_offer_show:
 * @place: the box of the offers, which owns it
 * @model: (nullable): the job looked at
 *
 * Shows or hides it as the job wants it. Made when it is first wanted: a start needs none.
 */
void
lid_left_offer_show (GtkWidget *place, LidJobModel *model)
{
  GtkWidget *offer = g_object_get_data (G_OBJECT (place), OFFER);
  const LidJob *job = model != NULL ? lid_job_model_get_job (model) : NULL;
  gboolean wanted = job != NULL && lid_job_model_get_of (model) == LID_AS_LEFT
                    && job->as_left == NULL && job->stages->len > 0;

  if (wanted && offer == NULL)
    {
      offer = new_offer ();
      gtk_box_append (GTK_BOX (place), offer);
      g_object_set_data (G_OBJECT (place), OFFER, offer);
    }
  if (offer != NULL)
    gtk_widget_set_visible (offer, wanted);
}
