/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/help.h"

#include "app/help-popover.h"
#include "app/note-button.h"
#include "app/slot-button.h"
#include "app/slot-words.h"

#define WORDS "lid-help-words"
#define MOST_FINDINGS 3u

/**
 * lid_help_set_words:
 * @widget: a widget
 * @words: (nullable): ids of the glossary with blanks between, what it shows first
 */
void
lid_help_set_words (GtkWidget *widget, const char *words)
{
  g_object_set_data_full (G_OBJECT (widget), WORDS, g_strdup (words), g_free);
}

/**
 * lid_help_of_words:
 * @words: ids of the glossary with blanks between
 *
 * Returns: (transfer full): LidExplanation
 */
GPtrArray *
lid_help_of_words (const char *words)
{
  g_auto (GStrv) ids = g_strsplit (words, " ", -1);
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_explain_free);

  for (guint i = 0; ids[i] != NULL; i++)
    {
      const LidWord *word = lid_glossary_find (ids[i]);

      if (word != NULL)
        g_ptr_array_add (all, lid_explain_word (word));
    }
  return all;
}

/**
 * lid_help_of_slot:
 * @findings: LidFinding, worst first
 *
 * Returns: (transfer full): LidExplanation of the worst findings that name the slot; where there
 *   are none, what a slot is
 */
GPtrArray *
lid_help_of_slot (const GPtrArray *findings, guint slot)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_explain_free);

  for (guint i = 0; i < findings->len && all->len < MOST_FINDINGS; i++)
    if (lid_slot_words_finding_names (findings->pdata[i], slot))
      g_ptr_array_add (all, lid_explain_finding (findings->pdata[i]));
  if (all->len > 0)
    return all;
  g_ptr_array_unref (all);
  return lid_help_of_words ("slot first-slot channel");
}

/**
 * lid_help_show:
 * @focus: (nullable): the widget that has the keyboard
 *
 * Returns: whether there was something to say of it
 */
gboolean
lid_help_show (GtkWidget *focus)
{
  for (GtkWidget *at = focus; at != NULL; at = gtk_widget_get_parent (at))
    {
      const char *words = g_object_get_data (G_OBJECT (at), WORDS);
      g_autoptr (GPtrArray) all = NULL;

      if (LID_IS_NOTE_BUTTON (at))
        return gtk_widget_activate_action (at, "note.why", NULL);
      if (LID_IS_SLOT_BUTTON (at))
        return gtk_widget_activate_action (at, "slot.why", NULL);
      if (GTK_IS_MENU_BUTTON (at) && words != NULL)
        {
          gtk_menu_button_popup (GTK_MENU_BUTTON (at));
          return TRUE;
        }
      if (words == NULL)
        continue;
      all = lid_help_of_words (words);
      lid_help_popover_show (at, all);
      return TRUE;
    }
  return FALSE;
}
