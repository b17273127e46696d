/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-file-soldered.c — memory that is part of the board: facts by the words of facts/fact.c, a
 * part number, and where they come from. */
#include "board/board-file-private.h"
#include "facts/module-json.h"

static const char *const basis_words[] = { "inventory", "told", NULL };

static gboolean
only_known_members (const LidJsonAt *at, GError **error)
{
  const char *names[LID_N_FACTS + 3];

  for (guint i = 0; i < LID_N_FACTS; i++)
    names[i] = lid_fact_to_text (i);
  names[LID_N_FACTS] = "part";
  names[LID_N_FACTS + 1] = "basis";
  names[LID_N_FACTS + 2] = NULL;
  return lid_json_only (at, names, error);
}

/**
 * lid_board_file_soldered_read:
 * @at: the "soldered" object of a slot
 *
 * Returns: (transfer full) (nullable): what is soldered there
 */
LidModule *
lid_board_file_soldered_read (const LidJsonAt *at, GError **error)
{
  g_autoptr (LidModule) module = lid_module_new ();
  guint word = 1;

  if (!only_known_members (at, error)
      || !lid_board_json_text (at, "part", FALSE, &module->part, error)
      || !lid_board_json_word (at, "basis", FALSE, basis_words, &word, error))
    return NULL;
  for (guint i = 0; i < LID_N_FACTS; i++)
    {
      LidJsonAt member = lid_json_member (at, lid_fact_to_text (i));
      gint32 value;

      if (!lid_json_there (&member))
        continue;
      if (!lid_module_json_get_fact (&member, i, lid_module_generation (module), &value, error))
        return NULL;
      lid_module_set (module, i, value, word == 0 ? LID_BASIS_INVENTORY : LID_BASIS_TOLD);
    }
  return g_steal_pointer (&module);
}

/**
 * lid_board_file_soldered_write:
 * @module: soldered memory
 *
 * Returns: (transfer full): the object lid_board_file_soldered_read() reads
 */
JsonObject *
lid_board_file_soldered_write (const LidModule *module)
{
  JsonObject *object = json_object_new ();
  gboolean inventory = FALSE;

  for (guint i = 0; i < LID_N_FACTS; i++)
    if (lid_module_knows (module, i))
      {
        json_object_set_member (object, lid_fact_to_text (i),
                                lid_module_json_value (i, module->value[i]));
        inventory = inventory || module->basis[i] == LID_BASIS_INVENTORY;
      }
  if (module->part != NULL)
    json_object_set_string_member (object, "part", module->part);
  if (inventory)
    json_object_set_string_member (object, "basis", basis_words[0]);
  return object;
}
