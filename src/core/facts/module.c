/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/module.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>

LidModule *
lid_module_new (void)
{
  LidModule *module = g_new0 (LidModule, 1);

  module->ref_count = 1;
  return module;
}

/**
 * lid_module_copy:
 * @module: a module
 *
 * Returns: (transfer full): an unshared copy, id included
 */
LidModule *
lid_module_copy (const LidModule *module)
{
  LidModule *copy = g_memdup2 (module, sizeof *module);

  copy->ref_count = 1;
  copy->id = g_strdup (module->id);
  copy->label = g_strdup (module->label);
  copy->part = g_strdup (module->part);
  copy->serial = g_strdup (module->serial);
  copy->maker = g_strdup (module->maker);
  copy->bin = g_strdup (module->bin);
  return copy;
}

LidModule *
lid_module_ref (LidModule *module)
{
  g_return_val_if_fail (module != NULL, NULL);
  g_atomic_int_inc (&module->ref_count);
  return module;
}

/**
 * lid_module_unref:
 * @module: (nullable): gives back one reference
 */
void
lid_module_unref (LidModule *module)
{
  if (module == NULL || !g_atomic_int_dec_and_test (&module->ref_count))
    return;
  g_free (module->id);
  g_free (module->label);
  g_free (module->part);
  g_free (module->serial);
  g_free (module->maker);
  g_free (module->bin);
  g_free (module);
}

/**
 * lid_module_set:
 * @module: an unshared module
 * @fact: which fact
 * @value: its value, in the unit LidFact names
 * @basis: where it comes from; LID_BASIS_NONE forgets the fact
 */
void
lid_module_set (LidModule *module, LidFact fact, gint32 value, LidBasis basis)
{
  g_return_if_fail ((guint)fact < LID_N_FACTS);
  module->value[fact] = basis == LID_BASIS_NONE ? 0 : value;
  module->basis[fact] = (guint8)basis;
}

/**
 * lid_module_set_text:
 * @field: one of a module's texts
 * @text: (nullable): the new text; empty counts as not told
 */
void
lid_module_set_text (char **field, const char *text)
{
  char *copy = text != NULL && *text != 0 ? g_strdup (text) : NULL;

  g_free (*field);
  *field = copy;
}

gboolean
lid_module_knows (const LidModule *module, LidFact fact)
{
  g_return_val_if_fail ((guint)fact < LID_N_FACTS, FALSE);
  return module->basis[fact] != LID_BASIS_NONE;
}

gint32
lid_module_get (const LidModule *module, LidFact fact, gint32 if_unknown)
{
  g_return_val_if_fail ((guint)fact < LID_N_FACTS, if_unknown);
  return module->basis[fact] != LID_BASIS_NONE ? module->value[fact] : if_unknown;
}

/**
 * lid_module_missing_facts:
 *
 * Returns: a set of bits, 1 << LidFact, of the rule-relevant facts it does not tell
 */
guint32
lid_module_missing_facts (const LidModule *module)
{
  guint32 missing = 0;

  for (guint i = 0; i < LID_N_FACTS; i++)
    if (module->basis[i] == LID_BASIS_NONE && lid_fact_is_rule_relevant (i))
      missing |= 1u << i;
  return missing;
}

/**
 * lid_module_same:
 *
 * Two modules are the same only by equal part number, or with all rule-relevant facts known and
 * equal (product.md 3). Makers reuse no part number, but readers of different ages print different
 * facts of it, so equal part numbers suffice; two makers' numbers for equal facts are the same too.
 *
 * Returns: whether they may stand for each other
 */
gboolean
lid_module_same (const LidModule *a, const LidModule *b)
{
  if (a == b)
    return TRUE;
  if (a->persistent != b->persistent)
    return FALSE;
  if (a->part != NULL && g_strcmp0 (a->part, b->part) == 0)
    return TRUE;
  for (guint i = 0; i < LID_N_FACTS; i++)
    if (lid_fact_is_rule_relevant (i)
        && (!a->basis[i] || !b->basis[i] || a->value[i] != b->value[i]))
      return FALSE;
  return TRUE;
}

/**
 * lid_module_describe:
 * @module: a module
 *
 * Returns: (transfer full): what it is in a few words, only what is known:
 * "32 GB 2Rx4 registered 3200"
 */
char *
lid_module_describe (const LidModule *module)
{
  GString *out = g_string_new (NULL);
  gint32 ranks = lid_module_get (module, LID_FACT_RANKS, 0);
  gint32 logical = lid_module_get (module, LID_FACT_LOGICAL_RANKS, 0);
  gint32 width = lid_module_get (module, LID_FACT_CHIP_WIDTH, 0);

  if (lid_module_knows (module, LID_FACT_CAPACITY))
    {
      g_autofree char *size = lid_units_capacity (lid_module_capacity (module));
      g_string_append (out, size);
    }
  else
    g_string_append (out, _ ("size not told"));
  if (ranks > 0)
    {
      g_string_append_printf (out, " %d", ranks);
      if (lid_module_get (module, LID_FACT_STACK, LID_STACK_NONE) == LID_STACK_3DS
          && logical > ranks)
        g_string_append_printf (out, "S%d", logical / ranks);
      else if (lid_module_get (module, LID_FACT_STACK, LID_STACK_NONE) == LID_STACK_DUAL)
        g_string_append_c (out, 'D');
      g_string_append_c (out, 'R');
      if (width > 0)
        g_string_append_printf (out, "x%d", width);
    }
  if (module->persistent)
    g_string_append_printf (out, " %s", _ ("persistent"));
  else if (lid_module_kind (module) != LID_KIND_UNKNOWN)
    g_string_append_printf (out, " %s", lid_kind_to_words (lid_module_kind (module)));
  if (lid_module_rated (module) != LID_RATE_UNKNOWN)
    g_string_append_printf (out, " %u", lid_rate_mts (lid_module_rated (module)));
  return g_string_free (out, FALSE);
}
