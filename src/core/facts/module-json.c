/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/module-json.h"

#include <math.h>
#include <string.h>

/* Bounds are physical absurdity, not today's largest module: a file of a later year must load. */
static const struct
{
  gint64 least, most;
} bounds[LID_N_FACTS] = {
  [LID_FACT_CAPACITY] = { 1, 64 << 20 },
  [LID_FACT_RANKS] = { 1, 64 },
  [LID_FACT_LOGICAL_RANKS] = { 1, 256 },
  [LID_FACT_CHIP_WIDTH] = { 1, 64 },
  [LID_FACT_RATED] = { 1, LID_RATE_MAX_MTS },
  [LID_FACT_CHECK_BITS] = { 0, 64 },
  [LID_FACT_DIE] = { 1, 4096 },
};

static const char *const stacks[] = { "none", "dual", "3ds" };

static gboolean
get_word (const LidJsonAt *at, LidFact fact, gint32 *value, GError **error)
{
  const char *text;

  if (!lid_json_get_text (at, &text, error))
    return FALSE;
  *value = -1;
  if (fact == LID_FACT_STACK)
    {
      for (guint i = 0; i < G_N_ELEMENTS (stacks); i++)
        if (strcmp (text, stacks[i]) == 0)
          *value = (gint32)i;
    }
  else if (fact == LID_FACT_GENERATION)
    *value = lid_generation_from_text (text) != 0 ? (gint32)lid_generation_from_text (text) : -1;
  else if (fact == LID_FACT_KIND)
    *value = lid_kind_from_text (text) != 0 ? (gint32)lid_kind_from_text (text) : -1;
  else
    *value = lid_form_from_text (text) != 0 ? (gint32)lid_form_from_text (text) : -1;
  if (*value < 0)
    return lid_json_fail (at, error, "“%.40s” is no %s this format knows", text,
                          lid_fact_to_text (fact));
  return TRUE;
}

static gboolean
get_voltages (const LidJsonAt *at, gint32 *value, GError **error)
{
  guint length;

  if (!lid_json_get_length (at, 8, &length, error))
    return FALSE;
  *value = 0;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (at, i);
      gint64 mv;

      if (!lid_json_get_int (&element, 1, 5000, &mv, error))
        return FALSE;
      if (lid_voltage_from_mv ((guint)mv) == 0)
        return lid_json_fail (&element, error, "is no voltage of a DDR generation, in millivolts");
      *value |= (gint32)lid_voltage_from_mv ((guint)mv);
    }
  return length > 0 || lid_json_fail (at, error, "must name at least one voltage");
}

/**
 * lid_module_json_get_fact:
 * @at: the value's place
 * @fact: which fact
 * @generation: whose rate steps a rated rate snaps to, LID_GENERATION_UNKNOWN for any
 * @value: (out): the value in the fact's unit
 * @error: names the place and what is taken
 *
 * Returns: whether a value of that fact stands there
 */
gboolean
lid_module_json_get_fact (
    const LidJsonAt *at, LidFact fact, LidGeneration generation, gint32 *value, GError **error)
{
  gboolean flag;
  double number;
  gint64 whole;

  switch (fact)
    {
    case LID_FACT_GENERATION:
    case LID_FACT_KIND:
    case LID_FACT_FORM:
    case LID_FACT_STACK:
      return get_word (at, fact, value, error);
    case LID_FACT_VOLTAGE:
      return get_voltages (at, value, error);
    case LID_FACT_ECC:
      if (!lid_json_get_bool (at, &flag, error))
        return FALSE;
      *value = flag;
      return TRUE;
    case LID_FACT_HEIGHT:
      if (!lid_json_get_double (at, 1, 1000, &number, error))
        return FALSE;
      *value = (gint32)floor (number * 100 + 0.5);
      return TRUE;
    case LID_FACT_CAPACITY:
    case LID_FACT_RANKS:
    case LID_FACT_LOGICAL_RANKS:
    case LID_FACT_CHIP_WIDTH:
    case LID_FACT_RATED:
    case LID_FACT_CHECK_BITS:
    case LID_FACT_DIE:
    case LID_N_FACTS:
    default:
      if (!lid_json_get_int (at, bounds[fact].least, bounds[fact].most, &whole, error))
        return FALSE;
      *value = fact == LID_FACT_RATED ? (gint32)lid_rate_snap (generation, (guint)whole)
                                      : (gint32)whole;
      return TRUE;
    }
}

static JsonNode *
voltages_node (gint32 value)
{
  static const guint rising[] = { 1100, 1200, 1250, 1350, 1500, 1800, 2500 };
  JsonNode *node = json_node_new (JSON_NODE_ARRAY);
  JsonArray *array = json_array_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rising); i++)
    if ((guint)value & lid_voltage_from_mv (rising[i]))
      json_array_add_int_element (array, rising[i]);
  json_node_take_array (node, array);
  return node;
}

/**
 * lid_module_json_value:
 * @fact: which fact
 * @value: its value in the fact's unit
 *
 * Returns: (transfer full): the value as files have it
 */
JsonNode *
lid_module_json_value (LidFact fact, gint32 value)
{
  JsonNode *node;

  if (fact == LID_FACT_VOLTAGE)
    return voltages_node (value);
  node = json_node_alloc ();
  if (fact == LID_FACT_GENERATION)
    json_node_init_string (node, lid_generation_to_text ((LidGeneration)value));
  else if (fact == LID_FACT_KIND)
    json_node_init_string (node, lid_kind_to_text ((LidKind)value));
  else if (fact == LID_FACT_FORM)
    json_node_init_string (node, lid_form_to_text ((LidForm)value));
  else if (fact == LID_FACT_STACK)
    json_node_init_string (node, stacks[CLAMP (value, 0, 2)]);
  else if (fact == LID_FACT_ECC)
    json_node_init_boolean (node, value != 0);
  else if (fact == LID_FACT_HEIGHT)
    json_node_init_double (node, value / 100.0);
  else if (fact == LID_FACT_RATED)
    json_node_init_int (node, lid_rate_mts ((LidRate)value));
  else
    json_node_init_int (node, value);
  return node;
}

static gboolean
read_facts (LidModule *module, const LidJsonAt *facts, GError **error)
{
  gint32 value;

  if (!lid_json_there (facts))
    return TRUE;
  if (!lid_json_need_object (facts, error))
    return FALSE;
  for (guint i = 0; i < LID_N_FACTS; i++)
    {
      LidJsonAt entry = lid_json_member (facts, lid_fact_to_text (i));
      LidJsonAt at = lid_json_member (&entry, "value"),
                basis_at = lid_json_member (&entry, "basis");
      const char *word;

      if (lid_json_is_null (&entry))
        continue;
      if (!lid_module_json_get_fact (&at, i, lid_module_generation (module), &value, error)
          || !lid_json_get_text (&basis_at, &word, error))
        return FALSE;
      if (lid_basis_from_text (word) == LID_BASIS_NONE)
        return lid_json_fail (&basis_at, error, "“%.40s” is no basis this format knows", word);
      lid_module_set (module, i, value, lid_basis_from_text (word));
    }
  return TRUE;
}

/**
 * lid_module_json_read:
 * @at: an object with id, part, serial, maker, label, bin, persistent and facts
 * @error: names the place
 *
 * Members it does not know are left alone, so that a later version's file still loads.
 *
 * Returns: (transfer full) (nullable): the module
 */
LidModule *
lid_module_json_read (const LidJsonAt *at, GError **error)
{
  g_autoptr (LidModule) module = lid_module_new ();
  const struct
  {
    const char *name;
    char **field;
  } texts[]
      = { { "id", &module->id },       { "part", &module->part },   { "serial", &module->serial },
          { "maker", &module->maker }, { "label", &module->label }, { "bin", &module->bin } };
  LidJsonAt facts = lid_json_member (at, "facts"), persistent = lid_json_member (at, "persistent");
  gboolean flag = FALSE;

  if (!lid_json_need_object (at, error))
    return NULL;
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      LidJsonAt member = lid_json_member (at, texts[i].name);
      const char *text;

      if (lid_json_is_null (&member))
        continue;
      if (!lid_json_get_text (&member, &text, error))
        return NULL;
      lid_module_set_text (texts[i].field, text);
    }
  if (!lid_json_is_null (&persistent) && !lid_json_get_bool (&persistent, &flag, error))
    return NULL;
  module->persistent = flag != FALSE;
  if (!read_facts (module, &facts, error))
    return NULL;
  return g_steal_pointer (&module);
}

/**
 * lid_module_json_write:
 * @module: a module
 *
 * Returns: (transfer full): the object lid_module_json_read() reads; unknown facts are left out
 */
JsonNode *
lid_module_json_write (const LidModule *module)
{
  JsonObject *object = json_object_new (), *facts = json_object_new ();
  const struct
  {
    const char *name;
    const char *text;
  } texts[]
      = { { "id", module->id },       { "part", module->part },   { "serial", module->serial },
          { "maker", module->maker }, { "label", module->label }, { "bin", module->bin } };
  JsonNode *node = json_node_new (JSON_NODE_OBJECT);

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (texts[i].text != NULL)
      json_object_set_string_member (object, texts[i].name, texts[i].text);
    else
      json_object_set_null_member (object, texts[i].name);
  json_object_set_boolean_member (object, "persistent", module->persistent != 0);
  for (guint i = 0; i < LID_N_FACTS; i++)
    if (lid_module_knows (module, i))
      {
        JsonObject *entry = json_object_new ();

        json_object_set_member (entry, "value", lid_module_json_value (i, module->value[i]));
        json_object_set_string_member (entry, "basis", lid_basis_to_text (module->basis[i]));
        json_object_set_object_member (facts, lid_fact_to_text (i), entry);
      }
  json_object_set_object_member (object, "facts", facts);
  json_node_take_object (node, object);
  return node;
}
