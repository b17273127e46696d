/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An example in words: what is fitted, and what to do about it. */
#include "help/example-private.h"

#include "base/text.h"
#include "base/units.h"
#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>

#define MOST_NAMES 24u

static char *
hands_words (const LidExample *example, const LidExampleChange *change)
{
  const char *slot = lid_board_name_slot (example->board, change->slot);
  const char *to = lid_board_name_slot (example->board, change->to);
  g_autofree char *module
      = change->module != NULL ? lid_example_module_words (example, change->module) : (char *)NULL;

  switch (change->kind)
    {
    case LID_CHANGE_TAKE:
      return g_strdup_printf (_ ("Take the module out of %s."), slot);
    case LID_CHANGE_MOVE:
      return g_strdup_printf (_ ("Move the module from %s to %s."), slot, to);
    case LID_CHANGE_SWAP:
      return g_strdup_printf (_ ("Let the modules in %s and %s change places."), slot, to);
    case LID_CHANGE_FIT:
      return g_strdup_printf (_ ("Fit one more module into %s: %s."), slot, module);
    case LID_CHANGE_EXCHANGE:
      return g_strdup_printf (_ ("Exchange the module in %s for this one: %s."), slot, module);
    case LID_CHANGE_SEAT:
      return g_strdup_printf (_ ("Seat the module in %s again, so that it is seen."), slot);
    case LID_CHANGE_TELL:
      return g_strdup_printf (_ ("Read on the module in %s and tell: %s."), slot,
                              lid_fact_to_words (change->fact));
    case LID_CHANGE_PROCESSOR:
    case LID_CHANGE_MODEL:
    case LID_CHANGE_FIRMWARE:
    case LID_CHANGE_MODE:
    case LID_CHANGE_NUMA:
    case LID_CHANGE_SPARE:
    case LID_CHANGE_MIRRORED:
    case LID_N_CHANGES:
    default:
      g_return_val_if_reached (NULL);
    }
}

/**
 * lid_example_change_words:
 * @example: an example
 * @change: index of one of its changes
 *
 * Returns: (transfer full): what to do, one sentence
 */
char *
lid_example_change_words (const LidExample *example, guint change)
{
  const LidExampleChange *here = example->changes->pdata[change];
  g_autofree char *words = NULL;

  switch (here->kind)
    {
    case LID_CHANGE_PROCESSOR:
      return g_strdup_printf (_ ("Fit processor %s."),
                              example->board->sockets[here->number - 1].name);
    case LID_CHANGE_MODEL:
      return g_strdup_printf (_ ("Read the model of the processor and tell it: %s."),
                              example->board->processors[here->number].name);
    case LID_CHANGE_FIRMWARE:
      return g_strdup_printf (_ ("Bring the firmware to level %s."), here->word);
    case LID_CHANGE_MODE:
      words = lid_mode_words_name ((LidMode)here->number);
      return g_strdup_printf (_ ("Set the memory mode to %s."), words);
    case LID_CHANGE_NUMA:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Leave each processor %u node.",
                                           "Cut each processor into %u nodes.",
                                           (gulong)here->number),
                              (guint)here->number);
    case LID_CHANGE_SPARE:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Spare %u rank of each channel.",
                                           "Spare %u ranks of each channel.", (gulong)here->number),
                              (guint)here->number);
    case LID_CHANGE_MIRRORED:
      words = lid_units_capacity (here->number);
      return g_strdup_printf (_ ("Mirror %s."), words);
    case LID_CHANGE_TAKE:
    case LID_CHANGE_MOVE:
    case LID_CHANGE_SWAP:
    case LID_CHANGE_FIT:
    case LID_CHANGE_EXCHANGE:
    case LID_CHANGE_SEAT:
    case LID_CHANGE_TELL:
    case LID_N_CHANGES:
    default:
      return hands_words (example, here);
    }
}

/* "2 × 32 GB 2Rx4 registered 2666 (A1 and B1)", in the order of the slots. */
static char *
modules_words (const LidExample *example)
{
  const LidPopulation *population = example->population;
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < population->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;
      const char *names[MOST_NAMES];
      g_autofree char *what = NULL, *where = NULL;
      guint n = 0;
      gboolean told = FALSE;

      for (guint k = 0; module != NULL && k < i; k++)
        told = told || population->slots[k].module == module;
      if (module == NULL || told)
        continue;
      for (guint k = i; k < population->n_slots; k++)
        if (population->slots[k].module == module && n < MOST_NAMES)
          names[n++] = lid_board_name_slot (example->board, k);
      what = lid_example_module_words (example, module);
      where = lid_text_join (names, n, MOST_NAMES);
      g_ptr_array_add (words, g_strdup_printf (_ ("%u × %s (%s)"), n, what, where));
    }
  return words->len > 0 ? lid_text_join ((const char *const *)words->pdata, words->len, words->len)
                        : g_strdup (_ ("nothing"));
}

/**
 * lid_example_words:
 * @example: an example
 *
 * Returns: (transfer full): its machine in a few sentences
 */
char *
lid_example_words (const LidExample *example)
{
  const LidBoard *board = example->board;
  const LidPopulation *population = example->population;
  g_autofree char *modules = modules_words (example);
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, _ ("Processors: %u; channels: %u; slots: %u. Fitted: %s."),
                          board->n_sockets, board->n_channels, board->n_slots, modules);
  for (guint i = 0; i < board->n_sockets; i++)
    if (!population->processors[i].fitted)
      g_string_append_printf (out, _ (" Processor %s is not fitted."), board->sockets[i].name);
  for (guint i = 0; i < board->n_slots; i++)
    if (population->slots[i].state == LID_SLOT_NOT_SEEN)
      g_string_append_printf (out, _ (" The machine does not see what is in %s."),
                              lid_board_name_slot (board, i));
  if (population->firmware != NULL)
    g_string_append_printf (out, _ (" Firmware: %s."), population->firmware);
  if (population->mode != LID_MODE_PLAIN)
    {
      g_autofree char *mode = lid_mode_words_new (population);

      g_string_append_printf (out, _ (" Memory mode: %s."), mode);
    }
  if (population->numa_split > 1)
    g_string_append_printf (out, _ (" Nodes of a processor: %u."), population->numa_split);
  return g_string_free (out, FALSE);
}
