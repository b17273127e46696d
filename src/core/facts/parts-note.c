/* SPDX-License-Identifier: GPL-3.0-or-later */
/* parts-note.c — what was held of one part number, to be put back when learning it is undone. */
#include "facts/parts-private.h"

#include <string.h>

struct _LidPartsNote
{
  char *part;
  JsonObject *facts; /* nullable: the part was not known */
  gint32 value[LID_N_FACTS];
  guint8 basis[LID_N_FACTS];
};

/* What was parsed is immutable: a copy of the object's own level can be changed, the levels below
 * are shared. */
JsonObject *
lid_parts_loosen (JsonObject *object)
{
  JsonObject *copy = json_object_new ();
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  json_object_iter_init (&iter, object);
  while (json_object_iter_next (&iter, &name, &node))
    json_object_set_member (copy, name, json_node_copy (node));
  return copy;
}

/**
 * lid_parts_note:
 * @parts: the memory
 * @part: a part number
 *
 * Returns: (transfer full): what is held of it now, be it nothing
 */
LidPartsNote *
lid_parts_note (const LidParts *parts, const char *part)
{
  const LidPartsEntry *entry = g_hash_table_lookup (parts->index, part);
  LidPartsNote *note = g_new0 (LidPartsNote, 1);

  note->part = g_strdup (part);
  if (entry == NULL)
    return note;
  note->facts = lid_parts_loosen (entry->facts);
  memcpy (note->value, entry->value, sizeof note->value);
  memcpy (note->basis, entry->basis, sizeof note->basis);
  return note;
}

void
lid_parts_note_free (LidPartsNote *note)
{
  if (note == NULL)
    return;
  g_clear_pointer (&note->facts, json_object_unref);
  g_free (note->part);
  g_free (note);
}

/**
 * lid_parts_put_back:
 * @parts: the memory
 * @note: what shall be held of its part number again; lid_parts_save() writes it
 */
void
lid_parts_put_back (LidParts *parts, const LidPartsNote *note)
{
  LidPartsEntry *entry = g_hash_table_lookup (parts->index, note->part);

  if (entry == NULL)
    return;
  parts->changed = TRUE;
  if (note->facts == NULL)
    {
      g_hash_table_remove (parts->index, note->part);
      g_ptr_array_remove (parts->entries, entry);
      return;
    }
  json_object_unref (entry->facts);
  entry->facts = lid_parts_loosen (note->facts);
  memcpy (entry->value, note->value, sizeof note->value);
  memcpy (entry->basis, note->basis, sizeof note->basis);
}
