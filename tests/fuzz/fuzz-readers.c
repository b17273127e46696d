/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "locators/locators.h"
#include "readers/readers.h"

/* fuzz-readers.c: any bytes into all readers and on to the places. Built twice: with libFuzzer
 * (see tests/fuzz/meson.build for the line), and with fuzz-main.c as a plain test over tests/data.
 */

int LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (LidInventory) inventory
      = lid_readers_read_bytes ((LidBytes){ data, size }, "fuzz", NULL);
  gsize n = 0;
  const LidReader *const *readers = lid_readers_all (&n);

  if (inventory != NULL)
    lid_locators_place (inventory);
  /* Every reader on every input too, whatever the sniffing says. */
  for (gsize i = 0; i < n; i++)
    {
      g_autoptr (LidInventory) forced = lid_inventory_new ("fuzz", readers[i]->id);
      if (readers[i]->read ((LidBytes){ data, size }, forced, NULL))
        lid_locators_place (forced);
    }
  return 0;
}
