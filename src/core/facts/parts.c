/* SPDX-License-Identifier: GPL-3.0-or-later */
/* parts.c — the parts memory.
 *
 *   {"format": 1, "parts": [{"part": "TP-64R-48",
 *     "facts": {"chip_width": {"value": 4, "basis": "label"}}}]}
 *
 * Learnt is what a person or the module itself told: bases told, label, SPD. What an inventory
 * reports is read anew each time, and what is remembered is not learnt again from itself. A fact
 * of heavier or equal basis replaces the one held. Members this version does not know stay in the
 * file at every level; a file it cannot read is reported and never written to. */
#include "facts/parts-private.h"

#include "base/error.h"
#include "base/json-parse.h"
#include "base/json-text.h"
#include "base/save.h"
#include "facts/module-json.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

static void
entry_free (gpointer data)
{
  LidPartsEntry *entry = data;

  g_free (entry->part);
  g_clear_pointer (&entry->members, json_object_unref);
  g_clear_pointer (&entry->facts, json_object_unref);
  g_free (entry);
}

static LidPartsEntry *
add_entry (LidParts *parts, const char *part)
{
  LidPartsEntry *entry = g_new0 (LidPartsEntry, 1);

  entry->part = g_strdup (part);
  g_ptr_array_add (parts->entries, entry);
  g_hash_table_insert (parts->index, entry->part, entry);
  return entry;
}

static gboolean
read_facts (LidPartsEntry *entry, const LidJsonAt *facts, GError **error)
{
  LidGeneration generation = LID_GENERATION_UNKNOWN;

  /* The generation comes first in LidFact: the rate snaps to its steps. */
  for (guint i = 0; i < LID_N_FACTS; i++)
    {
      LidJsonAt at = lid_json_member (facts, lid_fact_to_text (i));
      LidJsonAt value = lid_json_member (&at, "value"), basis = lid_json_member (&at, "basis");
      const char *word;

      if (lid_json_is_null (&at))
        continue;
      if (!lid_json_need_object (&at, error)
          || !lid_module_json_get_fact (&value, i, generation, &entry->value[i], error)
          || !lid_json_get_text (&basis, &word, error))
        return FALSE;
      if (lid_basis_from_text (word) == LID_BASIS_NONE)
        return lid_json_fail (&basis, error, "“%.40s” is no basis this format knows", word);
      entry->basis[i] = (guint8)lid_basis_from_text (word);
      if (i == LID_FACT_GENERATION)
        generation = (LidGeneration)entry->value[i];
    }
  return TRUE;
}

static gboolean
read_entry (LidParts *parts, const LidJsonAt *at, GError **error)
{
  static const char *const known[] = { "part", "facts", NULL };
  LidJsonAt part = lid_json_member (at, "part"), facts = lid_json_member (at, "facts");
  const char *name;
  LidPartsEntry *entry;

  if (!lid_json_need_object (at, error) || !lid_json_get_text (&part, &name, error)
      || !lid_json_need_object (&facts, error))
    return FALSE;
  if (*name == 0 || g_hash_table_contains (parts->index, name))
    return lid_json_fail (&part, error,
                          *name == 0 ? "must not be empty" : "“%.60s” stands there twice", name);
  entry = add_entry (parts, name);
  entry->members = lid_json_others (json_node_get_object (at->node), known);
  entry->facts = lid_parts_loosen (json_node_get_object (facts.node));
  return read_facts (entry, &facts, error);
}

static gboolean
read_document (LidParts *parts, JsonNode *root, GError **error)
{
  static const char *const known[] = { "format", "parts", NULL };
  LidJsonAt at = lid_json_root (root);
  LidJsonAt format = lid_json_member (&at, "format"), list = lid_json_member (&at, "parts");
  gint64 number;
  guint length;

  if (!lid_json_need_object (&at, error)
      || !lid_json_get_int (&format, 1, G_MAXINT32, &number, error)
      || !lid_json_get_length (&list, LID_PARTS_MAX, &length, error))
    return FALSE;
  parts->read_only = number > LID_PARTS_FORMAT;
  parts->members = lid_json_others (json_node_get_object (root), known);
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&list, i);

      /* A later version may know facts and words this one does not. */
      if (!read_entry (parts, &element, parts->read_only ? NULL : error) && !parts->read_only)
        return FALSE;
    }
  return TRUE;
}

/**
 * lid_parts_default_path:
 *
 * Returns: (transfer full): where the user's parts memory lies
 */
char *
lid_parts_default_path (void)
{
  return g_build_filename (g_get_user_data_dir (), "lidleaf", "parts.json", NULL);
}

/**
 * lid_parts_load:
 * @path: the user's parts file; it need not exist yet
 * @error: names the file and the place in it
 *
 * A file written by a later version is read as far as it goes and never written to.
 *
 * Returns: (transfer full) (nullable): the memory; NULL where the file cannot be read
 */
LidParts *
lid_parts_load (const char *path, GError **error)
{
  g_autoptr (LidParts) parts = g_new0 (LidParts, 1);
  g_autoptr (GError) inner = NULL;
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *text = NULL;
  gsize size;

  parts->path = g_strdup (path);
  parts->entries = g_ptr_array_new_with_free_func (entry_free);
  parts->index = g_hash_table_new (g_str_hash, g_str_equal);
  if (!lid_json_load (path, &text, &size, &inner))
    {
      if (g_error_matches (inner, G_FILE_ERROR, G_FILE_ERROR_NOENT))
        return g_steal_pointer (&parts);
    }
  else if ((root = lid_json_parse (text, size, &inner)) != NULL
           && read_document (parts, root, &inner))
    return g_steal_pointer (&parts);
  g_propagate_prefixed_error (error, g_steal_pointer (&inner),
                              _ ("the parts memory %s cannot be read and is left as it is: "),
                              path);
  return NULL;
}

void
lid_parts_free (LidParts *parts)
{
  if (parts == NULL)
    return;
  g_clear_pointer (&parts->index, g_hash_table_unref);
  g_clear_pointer (&parts->entries, g_ptr_array_unref);
  g_clear_pointer (&parts->members, json_object_unref);
  g_free (parts->path);
  g_free (parts);
}

/**
 * lid_parts_get_size:
 *
 * Returns: how many part numbers are remembered
 */
guint
lid_parts_get_size (const LidParts *parts)
{
  return parts->entries->len;
}

/**
 * lid_parts_is_read_only:
 *
 * Returns: whether a later version wrote the file
 */
gboolean
lid_parts_is_read_only (const LidParts *parts)
{
  return parts->read_only;
}

/* Some makers of modules leave one text in every module's part number. Where size or generation
 * contradict, the number names another module: nothing of it is taken over. */
static gboolean
contradicts (const LidPartsEntry *entry, const LidModule *module)
{
  static const LidFact sure[] = { LID_FACT_GENERATION, LID_FACT_CAPACITY };

  for (guint i = 0; i < G_N_ELEMENTS (sure); i++)
    if (entry->basis[sure[i]] && module->basis[sure[i]]
        && entry->value[sure[i]] != module->value[sure[i]])
      return TRUE;
  return FALSE;
}

/**
 * lid_parts_apply:
 * @parts: the memory
 * @module: an unshared module
 *
 * Fills the facts the module does not know, with the basis "remembered"; known facts stay.
 *
 * Returns: a set of bits, 1 << LidFact, of the facts filled
 */
guint32
lid_parts_apply (const LidParts *parts, LidModule *module)
{
  const LidPartsEntry *entry
      = module->part != NULL ? g_hash_table_lookup (parts->index, module->part) : NULL;
  guint32 filled = 0;

  if (entry == NULL || contradicts (entry, module))
    return 0;
  for (guint i = 0; i < LID_N_FACTS; i++)
    if (entry->basis[i] != LID_BASIS_NONE && !lid_module_knows (module, i))
      {
        lid_module_set (module, i, entry->value[i], LID_BASIS_REMEMBERED);
        filled |= 1u << i;
      }
  return filled;
}

static void
hold (LidPartsEntry *entry, LidFact fact, gint32 value, LidBasis basis)
{
  const char *name = lid_fact_to_text (fact);
  JsonNode *before = json_object_get_member (entry->facts, name);
  JsonObject *object = before != NULL && JSON_NODE_HOLDS_OBJECT (before)
                           ? lid_parts_loosen (json_node_get_object (before))
                           : json_object_new ();

  json_object_set_member (object, "value", lid_module_json_value (fact, value));
  json_object_set_string_member (object, "basis", lid_basis_to_text (basis));
  json_object_set_object_member (entry->facts, name, object);
  entry->value[fact] = value;
  entry->basis[fact] = (guint8)basis;
}

/**
 * lid_parts_learn:
 * @parts: the memory
 * @module: a module with a part number; without one nothing is learnt
 *
 * Returns: whether anything new was learnt; lid_parts_save() writes it
 */
gboolean
lid_parts_learn (LidParts *parts, const LidModule *module)
{
  LidPartsEntry *entry = NULL;
  gboolean news = FALSE;

  if (module->part == NULL || *module->part == 0)
    return FALSE;
  entry = g_hash_table_lookup (parts->index, module->part);
  for (guint i = 0; i < LID_N_FACTS; i++)
    {
      LidBasis basis = module->basis[i];

      if (basis != LID_BASIS_TOLD && basis != LID_BASIS_LABEL && basis != LID_BASIS_SPD)
        continue;
      if (entry == NULL && parts->entries->len >= LID_PARTS_MAX)
        return FALSE;
      if (entry == NULL)
        {
          entry = add_entry (parts, module->part);
          entry->facts = json_object_new ();
        }
      if (entry->basis[i] > basis
          || (entry->basis[i] == basis && entry->value[i] == module->value[i]))
        continue;
      hold (entry, i, module->value[i], basis);
      news = TRUE;
    }
  parts->changed |= news;
  return news;
}

static JsonNode *
to_json (const LidParts *parts)
{
  JsonObject *object
      = parts->members != NULL ? lid_parts_loosen (parts->members) : json_object_new ();
  JsonNode *node = json_node_new (JSON_NODE_OBJECT);
  JsonArray *list = json_array_new ();

  json_object_set_int_member (object, "format", LID_PARTS_FORMAT);
  for (guint i = 0; i < parts->entries->len; i++)
    {
      const LidPartsEntry *entry = parts->entries->pdata[i];
      JsonObject *out
          = entry->members != NULL ? lid_parts_loosen (entry->members) : json_object_new ();

      json_object_set_string_member (out, "part", entry->part);
      json_object_set_object_member (out, "facts", json_object_ref (entry->facts));
      json_array_add_object_element (list, out);
    }
  json_object_set_array_member (object, "parts", list);
  json_node_take_object (node, object);
  return node;
}

/**
 * lid_parts_save:
 * @parts: the memory
 * @error: LID_ERROR_NEWER where a later version wrote the file, else what the file system says
 *
 * Writes beside and renames, and only if something was learnt; makes the folder if need be.
 *
 * Returns: whether the file holds what is remembered
 */
gboolean
lid_parts_save (LidParts *parts, GError **error)
{
  g_autoptr (JsonNode) node = NULL;
  g_autofree char *text = NULL, *folder = NULL;

  if (!parts->changed)
    return TRUE;
  if (parts->read_only)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_NEWER,
                   _ ("the parts memory %s was written by a later version and is left as it is"),
                   parts->path);
      return FALSE;
    }
  node = to_json (parts);
  text = lid_json_text (node, TRUE);
  folder = g_path_get_dirname (parts->path);
  g_mkdir_with_parents (folder, 0700);
  if (!lid_save_bytes (parts->path, text, strlen (text), 0600, error))
    return FALSE;
  parts->changed = FALSE;
  return TRUE;
}
