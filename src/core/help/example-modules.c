/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The modules of an example in words. Two that read the same can differ in what their rule is
 * about: whoever checks the page has to see that. */
#include "help/example-private.h"

#include "base/text.h"
#include "checks/rules.h"
#include "checks/words.h"

#include <glib/gi18n-lib.h>

/* What a module in a few words leaves out. */
static const LidFact left_out[] = {
  LID_FACT_GENERATION, LID_FACT_CHECK_BITS, LID_FACT_DIE, LID_FACT_VOLTAGE, LID_FACT_HEIGHT,
};

/* Whether @other is told, and another value than @module's. */
static gboolean
differs (const LidModule *module, const LidModule *other, LidFact fact)
{
  return other != NULL && lid_module_knows (other, fact)
         && other->value[fact] != module->value[fact];
}

/* Whether the rule asks for the fact and some module of the example has another value of it. */
static gboolean
tells_apart (const LidExample *example, const LidModule *module, LidFact fact)
{
  gboolean apart = FALSE;

  if (!(example->rule->facts & LID_FACT_BIT (fact)) || !lid_module_knows (module, fact))
    return FALSE;
  for (guint i = 0; i < example->population->n_slots; i++)
    apart = apart || differs (module, example->population->slots[i].module, fact);
  for (guint i = 0; example->changes != NULL && i < example->changes->len; i++)
    apart
        = apart || differs (module, ((LidExampleChange *)example->changes->pdata[i])->module, fact);
  return apart;
}

static char *
say (const LidModule *module, LidFact fact)
{
  int value = module->value[fact];

  if (fact == LID_FACT_GENERATION)
    return g_strdup (lid_generation_to_text ((LidGeneration)value));
  if (fact == LID_FACT_CHECK_BITS)
    return g_strdup_printf (_ ("%d check wires"), value);
  if (fact == LID_FACT_DIE)
    return g_strdup_printf (_ ("%d Gbit chips"), value);
  if (fact == LID_FACT_VOLTAGE)
    return lid_words_voltages ((guint32)value);
  return g_strdup_printf (_ ("%d.%02d mm tall"), value / 100, value % 100);
}

/**
 * lid_example_module_words:
 * @example: an example
 * @module: one of its modules
 *
 * Returns: (transfer full): what it is in a few words, with what of it the rule turns on where a
 * module of the example differs in that: "8 GB 2Rx4 registered 1600, 1.5 V"
 */
char *
lid_example_module_words (const LidExample *example, const LidModule *module)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (words, lid_module_describe (module));
  for (guint i = 0; i < G_N_ELEMENTS (left_out); i++)
    if (tells_apart (example, module, left_out[i]))
      g_ptr_array_add (words, say (module, left_out[i]));
  g_ptr_array_add (words, NULL);
  return g_strjoinv (", ", (char **)words->pdata);
}
