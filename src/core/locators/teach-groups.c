/* SPDX-License-Identifier: GPL-3.0-or-later */
/* teach-groups.c — slots told to share a channel, where no numbering pattern fits.
 *
 *   A1+A2,B1+B2           two channels of two slots; they are called A and B, on each processor
 *                         anew
 *   1=A1+A2,2=B1+B2       called 1 and 2
 *   A@2=DIMM 5+DIMM 6     on processor 2, where the names do not tell it
 *   A1+A2,...             the rest is not told yet
 *
 * A slot is written by its id or its name, capitals and blanks as one likes; a backslash takes the
 * meaning off "+ , = @" and itself. The first slot written of a channel is its place 1. */
#include "locators/teach-groups-private.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

#define REST "..."
#define MOST_SOCKETS 64

static void
entry_clear (gpointer data)
{
  LidTeachEntry *entry = data;

  g_free (entry->slot);
  g_free (entry->channel);
}

/**
 * lid_teach_groups_new:
 *
 * Returns: (transfer full): nothing told yet
 */
LidTeachGroups *
lid_teach_groups_new (void)
{
  LidTeachGroups *groups = g_new0 (LidTeachGroups, 1);

  groups->entries = g_array_new (FALSE, FALSE, sizeof (LidTeachEntry));
  g_array_set_clear_func (groups->entries, entry_clear);
  return groups;
}

void
lid_teach_groups_free (LidTeachGroups *groups)
{
  if (groups == NULL)
    return;
  g_array_unref (groups->entries);
  g_free (groups);
}

static gboolean
is_of (const LidTeachEntry *entry, int socket, const char *channel)
{
  return entry->socket == socket && g_strcmp0 (entry->channel, channel) == 0;
}

/**
 * lid_teach_groups_take:
 * @slot: a slot as it was put
 *
 * Returns: whether it was told; now it is not
 */
gboolean
lid_teach_groups_take (LidTeachGroups *groups, const char *slot)
{
  for (guint i = 0; i < groups->entries->len; i++)
    if (strcmp (lid_teach_groups_entry (groups, i)->slot, slot) == 0)
      {
        g_array_remove_index (groups->entries, i);
        return TRUE;
      }
  return FALSE;
}

/**
 * lid_teach_groups_put:
 * @slot: id of a slot; it leaves the channel it was put on before
 * @socket: from 1; 0: as the names tell
 * @channel: what the channel is called; the slot becomes its last
 */
void
lid_teach_groups_put (LidTeachGroups *groups, const char *slot, int socket, const char *channel)
{
  LidTeachEntry entry = { g_strdup (slot), g_strdup (channel), socket, 0 };

  lid_teach_groups_take (groups, slot);
  for (guint i = 0; i < groups->entries->len; i++)
    {
      const LidTeachEntry *other = lid_teach_groups_entry (groups, i);

      entry.group = MAX (entry.group, other->group + 1);
      if (is_of (other, socket, channel))
        {
          entry.group = other->group;
          break;
        }
    }
  g_array_append_val (groups->entries, entry);
}

/**
 * lid_teach_groups_count:
 *
 * Returns: slots told of that channel so far
 */
guint
lid_teach_groups_count (const LidTeachGroups *groups, int socket, const char *channel)
{
  guint n = 0;

  for (guint i = 0; i < groups->entries->len; i++)
    n += is_of (lid_teach_groups_entry (groups, i), socket, channel);
  return n;
}

guint
lid_teach_groups_size (const LidTeachGroups *groups)
{
  return groups->entries->len;
}

/**
 * lid_teach_groups_find:
 * @slot: a slot as it was put
 * @socket: (out) (optional): its processor, 0: as the names tell
 *
 * Returns: (transfer none) (nullable): the channel it was put on
 */
const char *
lid_teach_groups_find (const LidTeachGroups *groups, const char *slot, int *socket)
{
  for (guint i = 0; i < groups->entries->len; i++)
    if (strcmp (lid_teach_groups_entry (groups, i)->slot, slot) == 0)
      {
        if (socket != NULL)
          *socket = lid_teach_groups_entry (groups, i)->socket;
        return lid_teach_groups_entry (groups, i)->channel;
      }
  return NULL;
}

/* A, B … Z, AA, AB … */
static char *
letters (guint n)
{
  return n < 26 ? g_strdup_printf ("%c", 'A' + (int)n)
                : g_strdup_printf ("%c%c", 'A' + (int)(n / 26 - 1) % 26, 'A' + (int)(n % 26));
}

/**
 * lid_teach_groups_next_channel:
 * @socket: from 1; 0: as the names tell
 *
 * Returns: (transfer full): the first letter no channel of that processor has
 */
char *
lid_teach_groups_next_channel (const LidTeachGroups *groups, int socket)
{
  for (guint n = 0;; n++)
    {
      char *name = letters (n);

      if (lid_teach_groups_count (groups, socket, name) == 0)
        return name;
      g_free (name);
    }
}

static void
write_word (GString *text, const char *word)
{
  for (const char *p = word; *p != 0; p++)
    {
      if (strchr ("\\+,=@", *p) != NULL)
        g_string_append_c (text, '\\');
      g_string_append_c (text, *p);
    }
}

/**
 * lid_teach_groups_leave_rest:
 * @rest: slots that are not told stay so; else each must be told
 */
void
lid_teach_groups_leave_rest (LidTeachGroups *groups, gboolean rest)
{
  groups->rest = rest;
}

/**
 * lid_teach_groups_to_text:
 *
 * Returns: (transfer full): as lid_teach_groups_parse() takes it
 */
char *
lid_teach_groups_to_text (const LidTeachGroups *groups)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < groups->entries->len; i++)
    {
      const LidTeachEntry *first = lid_teach_groups_entry (groups, i);
      gboolean told = FALSE;

      for (guint k = 0; k < i && !told; k++)
        told = lid_teach_groups_entry (groups, k)->group == first->group;
      if (told)
        continue;
      if (first->channel != NULL)
        {
          write_word (text, first->channel);
          if (first->socket > 0)
            g_string_append_printf (text, "@%d", first->socket);
          g_string_append_c (text, '=');
        }
      for (guint k = i; k < groups->entries->len; k++)
        if (lid_teach_groups_entry (groups, k)->group == first->group)
          {
            write_word (text, lid_teach_groups_entry (groups, k)->slot);
            g_string_append_c (text, '+');
          }
      text->str[text->len - 1] = ',';
    }
  if (groups->rest)
    g_string_append (text, REST);
  else if (text->len > 0)
    g_string_truncate (text, text->len - 1);
  return g_string_free (text, FALSE);
}

/* Up to the next of @ends that has its meaning. */
static char *
read_word (const char **at, const char *ends)
{
  g_autoptr (GString) word = g_string_new (NULL);

  while (**at != 0 && strchr (ends, **at) == NULL)
    {
      *at += **at == '\\' && (*at)[1] != 0;
      g_string_append_c (word, *(*at)++);
    }
  return g_strdup (g_strstrip (word->str));
}

static gboolean
refuse (GError **error, const char *text, const char *why)
{
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL, _ ("“%.200s”: %s"), text, why);
  return FALSE;
}

/* "A@2=": what the channel is called and where it is. */
static gboolean
read_head (const char **at, char **channel, int *socket, const char *text, GError **error)
{
  const char *p = *at;
  g_autofree char *name = read_word (&p, "@=+,");
  g_autofree char *number = NULL;
  guint64 value = 0;

  *channel = NULL;
  *socket = 0;
  if (*p != '@' && *p != '=')
    return TRUE;
  if (*p == '@')
    {
      p++;
      number = read_word (&p, "@=+,");
      if (*p != '=' || !g_ascii_string_to_unsigned (number, 10, 1, MOST_SOCKETS, &value, NULL))
        return refuse (error, text, _ ("behind “@” stands a processor's number, then “=”"));
    }
  if (*name == 0)
    return refuse (error, text, _ ("a channel has no name before “=” or “@”"));
  *socket = (int)value;
  *channel = g_steal_pointer (&name);
  *at = p + 1;
  return TRUE;
}

static gboolean
read_group (LidTeachGroups *groups, guint group, const char **at, const char *text, GError **error)
{
  g_autofree char *channel = NULL;
  int socket;

  if (!read_head (at, &channel, &socket, text, error))
    return FALSE;
  for (guint i = 0; channel != NULL && i < groups->entries->len; i++)
    if (is_of (lid_teach_groups_entry (groups, i), socket, channel))
      return refuse (error, text, _ ("two channels have one name"));
  do
    {
      LidTeachEntry entry = { .socket = socket, .group = group };

      *at += **at == '+';
      entry.slot = read_word (at, "+,");
      if (*entry.slot == 0)
        {
          g_free (entry.slot);
          return refuse (error, text,
                         _ ("a slot's name is missing; slots stand between “+”, "
                            "channels between “,”"));
        }
      entry.channel = g_strdup (channel);
      g_array_append_val (groups->entries, entry);
    }
  while (**at == '+');
  return TRUE;
}

/**
 * lid_teach_groups_parse:
 * @text: "A1+A2,B1+B2"
 * @error: LID_ERROR_BAD_CALL
 *
 * Whether there are such slots is found by lid_teach_groups_apply().
 *
 * Returns: (transfer full) (nullable): what it tells
 */
LidTeachGroups *
lid_teach_groups_parse (const char *text, GError **error)
{
  g_autoptr (LidTeachGroups) groups = lid_teach_groups_new ();
  const char *at = text;

  for (guint group = 0;; group++)
    {
      if (g_str_equal (at, REST) && group > 0)
        {
          groups->rest = TRUE;
          break;
        }
      if (!read_group (groups, group, &at, text, error))
        return NULL;
      if (*at == 0)
        break;
      at++;
    }
  return g_steal_pointer (&groups);
}
