/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/settings.h"

#include "app/app-config.h"
#include "app/places.h"

/**
 * lid_settings_new:
 *
 * The schema beside the program, else the one the desktop knows: an older version may be installed
 * too, and its schema would lack keys.
 *
 * Returns: (transfer full) (nullable): the user's settings; NULL where no schema is found, which
 * costs the window its size and nothing else
 */
GSettings *
lid_settings_new (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchemaSource) own = NULL;
  g_autoptr (GSettingsSchema) schema = NULL;
  g_autofree char *place
      = lid_places_find ("share/glib-2.0/schemas", "resources", "gschemas.compiled");

  if (place != NULL)
    own = g_settings_schema_source_new_from_directory (place, source, TRUE, NULL);
  if (own != NULL)
    schema = g_settings_schema_source_lookup (own, LID_APP_ID, FALSE);
  if (schema == NULL && source != NULL)
    schema = g_settings_schema_source_lookup (source, LID_APP_ID, TRUE);
  return schema != NULL ? g_settings_new_full (schema, NULL, NULL) : NULL;
}
