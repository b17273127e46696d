/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/label.h"

static void
put (LidModule *module, LidFact fact, gint32 value, LidBasis basis)
{
  if (module->basis[fact] <= basis)
    lid_module_set (module, fact, value, basis);
}

/**
 * lid_label_facts_apply:
 * @label: a label that was read
 * @module: an unshared module
 *
 * Gives the module what the label tells. A fact of heavier basis (SPD) stays. The basis is the
 * label; of a short form, which somebody typed, it is "told". A figure the label does not print
 * (check bits of some kinds, the stack behind a retail 8R) stays as it was.
 */
void
lid_label_facts_apply (const LidLabel *label, LidModule *module)
{
  LidBasis basis = label->form == LID_LABEL_SHORT_FORM ? LID_BASIS_TOLD : LID_BASIS_LABEL;
  /* Shops write a 3DS module's logical ranks as 8R, and no DDR4 or DDR5 card has 8 package ranks:
   * there the print says nothing about the stack. */
  gboolean retail_8r = label->ranks == 8 && label->stack == LID_STACK_NONE
                       && label->generation != LID_GENERATION_DDR3;

  put (module, LID_FACT_CAPACITY, (gint32)label->capacity_mib, basis);
  if (label->generation != LID_GENERATION_UNKNOWN)
    put (module, LID_FACT_GENERATION, (gint32)label->generation, basis);
  if (label->ranks > 0)
    {
      put (module, LID_FACT_RANKS, (gint32)label->ranks, basis);
      put (module, LID_FACT_LOGICAL_RANKS, (gint32)label->logical_ranks, basis);
      if (!retail_8r)
        put (module, LID_FACT_STACK, (gint32)label->stack, basis);
    }
  if (label->chip_width > 0)
    put (module, LID_FACT_CHIP_WIDTH, (gint32)label->chip_width, basis);
  if (label->rated != LID_RATE_UNKNOWN)
    put (module, LID_FACT_RATED, (gint32)label->rated, basis);
  if (label->kind != LID_KIND_UNKNOWN)
    put (module, LID_FACT_KIND, (gint32)label->kind, basis);
  if (label->outline != LID_FORM_UNKNOWN)
    put (module, LID_FACT_FORM, (gint32)label->outline, basis);
  if (label->ecc >= 0)
    put (module, LID_FACT_ECC, label->ecc, basis);
  if (label->check_bits >= 0)
    put (module, LID_FACT_CHECK_BITS, label->check_bits, basis);
  if (label->voltages != 0)
    put (module, LID_FACT_VOLTAGE, (gint32)label->voltages, basis);
  if (label->die_gbit > 0)
    put (module, LID_FACT_DIE, (gint32)label->die_gbit, basis);
}

/**
 * lid_label_facts_to_module:
 * @label: a label that was read
 *
 * Returns: (transfer full): one module with the label's facts, its text in normal form, and the
 * serial, part number and maker of a QR code
 */
LidModule *
lid_label_facts_to_module (const LidLabel *label)
{
  LidModule *module = lid_module_new ();

  lid_label_facts_apply (label, module);
  if (label->form != LID_LABEL_SHORT_FORM)
    module->label = lid_label_print (label);
  lid_module_set_text (&module->serial, label->serial);
  lid_module_set_text (&module->part, label->part);
  lid_module_set_text (&module->maker, label->maker);
  return module;
}
