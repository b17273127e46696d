/* SPDX-License-Identifier: GPL-3.0-or-later */
/* json-text.c — a tree as JSON text that can be read again.
 *
 * json-glib 1.6 writes a number of 1e20 as "1e+20.0", which is no JSON and which it refuses to read
 * itself: a document that kept such a number of somebody else's could never be opened again. */
#include "base/json-text.h"

#include <string.h>

/* Behind an exponent a fraction is dropped; a string is passed over. In place: it only shrinks. */
static void
mend (char *text)
{
  gboolean in_string = FALSE, in_exponent = FALSE;
  char *to = text;

  for (const char *from = text; *from != 0; from++)
    {
      if (in_string && *from == '\\')
        {
          *to++ = *from++;
          *to++ = *from;
          continue;
        }
      if (*from == '"')
        in_string = !in_string;
      if (in_string || !(g_ascii_isdigit (*from) || strchr ("+-.", *from) != NULL))
        in_exponent = !in_string && *from == 'e' && from > text && g_ascii_isdigit (from[-1]);
      if (in_exponent && strncmp (from, ".0", 2) == 0)
        from++;
      else
        *to++ = *from;
    }
  *to = 0;
}

/**
 * lid_json_text:
 * @node: the root
 * @indented: on many lines, with a newline at its end
 *
 * Returns: (transfer full): the text
 */
char *
lid_json_text (JsonNode *node, gboolean indented)
{
  g_autofree char *text = json_to_string (node, indented);

  mend (text);
  return indented ? g_strconcat (text, "\n", NULL) : g_steal_pointer (&text);
}
