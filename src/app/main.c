/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/app-config.h"
#include "app/application.h"
#include "app/places.h"

#include <glib/gi18n.h>
#include <locale.h>

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) application = NULL;
  g_autofree char *locale = lid_places_find ("share/locale", "po", NULL);

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, locale != NULL ? locale : LID_LOCALEDIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  application = lid_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
