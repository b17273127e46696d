/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/facts-words.h"

#include "help/glossary.h"

#include <glib/gi18n.h>

const char *
lid_facts_words_of (LidOf of)
{
  switch (of)
    {
    case LID_AS_FOUND:
      return _ ("As found");
    case LID_AS_LEFT:
      return _ ("As left");
    case LID_PLANNED:
    case LID_N_OF:
    default:
      return _ ("Planned");
    }
}

char *
lid_facts_words_mode (gint64 mode)
{
  const LidWord *word = lid_glossary_find (lid_mode_to_text ((LidMode)mode));

  g_return_val_if_fail (word != NULL, g_strdup (""));
  return g_strdup (g_dgettext (GETTEXT_PACKAGE, word->word));
}

char *
lid_facts_words_ranks (gint64 ranks)
{
  return g_strdup_printf (ngettext ("%u rank", "%u ranks", (gulong)ranks), (guint)ranks);
}

char *
lid_facts_words_nodes (gint64 nodes)
{
  if (nodes < 2)
    return g_strdup (_ ("not cut"));
  return g_strdup_printf (ngettext ("%u node", "%u nodes", (gulong)nodes), (guint)nodes);
}

char *
lid_facts_words_voltage (gint64 mv)
{
  if (mv == 0)
    return g_strdup (_ ("automatic"));
  return g_strdup_printf ("%u.%02u V", (guint)mv / 1000, (guint)mv % 1000 / 10);
}

/**
 * lid_facts_words_size:
 * @mib: a capacity in MiB
 *
 * Returns: (transfer full): exactly that size, as it can be typed; empty for 0
 */
char *
lid_facts_words_size (gint64 mib)
{
  if (mib == 0)
    return g_strdup ("");
  return mib % 1024 == 0 ? g_strdup_printf ("%" G_GINT64_FORMAT " GB", mib / 1024)
                         : g_strdup_printf ("%" G_GINT64_FORMAT " MB", mib);
}
