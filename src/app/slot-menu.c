/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/slot-menu.h"

#include "app/slot-words.h"

#include <glib/gi18n.h>

/**
 * lid_slot_menu_remedy:
 * @assessment: (nullable): what the checker says
 * @slot: a slot
 * @which: counted from 0 over the findings that name the slot
 *
 * Returns: (nullable): the remedy, if there are so many that can be carried out by hand
 */
const LidRemedy *
lid_slot_menu_remedy (const LidAssessment *assessment, guint slot, guint which)
{
  for (guint i = 0; assessment != NULL && i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];

      if (lid_finding_remedy (finding) == NULL || lid_finding_remedy (finding)->moves->len == 0
          || !lid_slot_words_finding_names (finding, slot))
        continue;
      if (which-- == 0)
        return lid_finding_remedy (finding);
    }
  return NULL;
}

/**
 * lid_slot_menu_new:
 * @assessment: (nullable): what the checker says
 * @slot: a slot
 *
 * Returns: (transfer full): the menu, remedies first
 */
GMenuModel *
lid_slot_menu_new (const LidAssessment *assessment, guint slot)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) remedies = g_menu_new (), hands = g_menu_new ();
  const LidRemedy *remedy;

  for (guint i = 0; (remedy = lid_slot_menu_remedy (assessment, slot, i)) != NULL; i++)
    {
      g_autoptr (GMenuItem) item = g_menu_item_new (remedy->text, NULL);

      g_menu_item_set_action_and_target (item, "slot.apply-remedy", "u", i);
      g_menu_append_item (remedies, item);
    }
  g_menu_append (hands, _ ("_Fill With What Is in Hand"), "slot.fill");
  g_menu_append (hands, _ ("Fill the _Channel"), "slot.fill-channel");
  g_menu_append (hands, _ ("Fill Every Slot _Alike"), "slot.fill-alike");
  g_menu_append (hands, _ ("_Empty"), "slot.empty");
  if (g_menu_model_get_n_items (G_MENU_MODEL (remedies)) > 0)
    g_menu_append_section (menu, _ ("What the checker proposes"), G_MENU_MODEL (remedies));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (hands));
  return G_MENU_MODEL (menu);
}
