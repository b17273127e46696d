/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "read-report.h"

#include "columns.h"
#include "json-line.h"
#include "remarks.h"

#include "base/json-write.h"
#include "base/units.h"
#include "board/slot-names.h"

#include <glib/gi18n.h>

static void
write_fact (LidJsonWriter *writer, const char *name, const LidModule *module, LidFact fact)
{
  gboolean known = module != NULL && lid_module_knows (module, fact);
  gint32 value = known ? module->value[fact] : 0;

  if (known && fact == LID_FACT_RATED)
    value = (gint32)lid_rate_mts ((LidRate)value);
  lid_json_write_int_or_null (writer, name, value, known);
}

static void
write_place (LidJsonWriter *writer, const LidPlace *place)
{
  lid_json_write_int_or_null (writer, "socket", place->socket, place->socket > 0);
  lid_json_write_int_or_null (writer, "controller", place->controller, place->controller > 0);
  lid_json_write_text (writer, "channel", place->channel);
  lid_json_write_int_or_null (writer, "position", place->position, place->position > 0);
  lid_json_write_text (writer, "told_by", lid_told_by_to_text (place->told_by));
}

static void
write_device (LidJsonWriter *writer, const LidDevice *device)
{
  const LidModule *module = device->module;

  lid_json_write_open (writer, NULL, '{');
  lid_json_write_text (writer, "slot", device->slot);
  lid_json_write_text (writer, "name", device->locator);
  lid_json_write_text (writer, "bank", device->bank);
  lid_json_write_int_or_null (writer, "handle", device->handle, device->handle != LID_HANDLE_NONE);
  write_place (writer, &device->place);
  lid_json_write_text (writer, "state", lid_slot_state_to_text (device->state));
  lid_json_write_int_or_null (writer, "capacity_mib", device->capacity_mib,
                              device->capacity_mib >= 0);
  lid_json_write_text (writer, "generation",
                       module ? lid_generation_to_text (lid_module_generation (module)) : NULL);
  lid_json_write_text (writer, "kind", module ? lid_kind_to_text (lid_module_kind (module)) : NULL);
  /* A value that no rule trusts still stays as written (product.md 11). */
  if (module != NULL && lid_module_knows (module, LID_FACT_RATED))
    write_fact (writer, "rated_mts", module, LID_FACT_RATED);
  else
    lid_json_write_int_or_null (writer, "rated_mts", device->rated_raw, device->rated_raw > 0);
  lid_json_write_int_or_null (writer, "rated_raw", device->rated_raw, device->rated_raw > 0);
  lid_json_write_int_or_null (writer, "configured_mts", device->configured_mts,
                              device->configured_mts > 0);
  write_fact (writer, "ranks", module, LID_FACT_RANKS);
  write_fact (writer, "chip_width", module, LID_FACT_CHIP_WIDTH);
  lid_json_write_text (writer, "part", module ? module->part : NULL);
  lid_json_write_text (writer, "serial", module ? module->serial : NULL);
  lid_json_write_text (writer, "maker", module ? module->maker : NULL);
  lid_json_write_close (writer, '}');
}

static void
write_board (LidJsonWriter *writer, const LidMatch *match)
{
  const LidBoard *board = match->offered != NULL ? match->offered : match->board;

  lid_json_write_open (writer, "board", '{');
  lid_json_write_text (writer, "id", board->id);
  lid_json_write_text (writer, "match", lid_match_kind_to_text (match->kind));
  lid_json_write_open (writer, "differences", '[');
  for (guint i = 0; match->differences != NULL && i < match->differences->len; i++)
    lid_json_write_text (writer, NULL, match->differences->pdata[i]);
  lid_json_write_close (writer, ']');
  lid_json_write_close (writer, '}');
}

/**
 * lid_read_report_json:
 * @out: gets one line of JSON: product.md 11, "read"
 */
void
lid_read_report_json (GString *out, const LidInventory *inventory, const LidMatch *match)
{
  LidJsonWriter writer;

  lid_json_line_open (&writer, out, inventory->source, NULL);
  lid_json_write_text (&writer, "reader", inventory->format);
  lid_json_write_int (&writer, "total_mib", lid_inventory_total_mib (inventory));
  write_board (&writer, match);
  lid_json_write_open (&writer, "slots", '[');
  for (guint i = 0; i < inventory->devices->len; i++)
    write_device (&writer, inventory->devices->pdata[i]);
  lid_json_write_close (&writer, ']');
  lid_remarks_json (&writer, inventory->remarks);
  lid_json_line_close (&writer);
}

static char *
where_text (const LidPlace *place)
{
  GString *out = g_string_new (NULL);

  if (place->socket > 0)
    g_string_append_printf (out, _ ("processor %d"), place->socket);
  else if (place->channel != NULL)
    g_string_append (out, _ ("processor not told"));
  else
    g_string_append (out, _ ("place not told"));
  if (place->socket <= 0 && place->channel == NULL)
    return g_string_free (out, FALSE);
  if (place->channel != NULL)
    g_string_append_printf (out, _ (", channel %s"), place->channel);
  else
    g_string_append (out, _ (", channel not told"));
  if (place->position > 0)
    g_string_append_printf (out, _ (", place %d"), place->position);
  return g_string_free (out, FALSE);
}

static char *
holds_text (const LidDevice *device)
{
  g_autofree char *words = NULL;
  GString *out;

  if (device->module == NULL)
    return g_strdup (_ ("empty"));
  words = lid_module_describe (device->module);
  out = g_string_new (words);
  if (device->state == LID_SLOT_SOLDERED)
    g_string_append (out, _ (", soldered"));
  if (device->state == LID_SLOT_NOT_SEEN)
    g_string_append (out, _ (", not seen"));
  if (device->configured_mts > 0)
    g_string_append_printf (out, _ (", runs at %u"), device->configured_mts);
  return g_string_free (out, FALSE);
}

static char *
board_text (const LidMatch *match)
{
  if (match->given)
    return g_strdup_printf (_ ("board: %s (%s), as you said"), match->board->name,
                            match->board->id);
  switch (match->kind)
    {
    case LID_MATCH_EXACT:
      return g_strdup_printf (_ ("board: %s (%s), recognised by its fingerprint"),
                              match->board->name, match->board->id);
    case LID_MATCH_OFFERED:
      return g_strdup_printf (_ ("board: not known; %s (--board %s) comes close"),
                              match->offered->name, match->offered->id);
    case LID_MATCH_DERIVED:
    default:
      return g_strdup (_ ("board: not known; laid out from the slots' names"));
    }
}

/* What all other reports call the slot; a device that has no slot on the board keeps its own name.
 */
static const char *
name_of (const LidMatch *match, const LidDevice *device)
{
  int slot = match->board != NULL ? lid_board_find_slot (match->board, device->slot) : LID_NOWHERE;

  return slot != LID_NOWHERE ? lid_board_name_slot (match->board, (guint)slot) : device->slot;
}

/**
 * lid_read_report_text:
 * @out: gets what a person reads, one line a slot
 */
void
lid_read_report_text (GString *out, const LidInventory *inventory, const LidMatch *match)
{
  g_autofree char *total = lid_units_capacity (lid_inventory_total_mib (inventory));
  g_autofree char *board = board_text (match);
  LidColumns columns = { 0 };

  g_string_append_printf (out, _ ("%s: %s in %u of %u slots\n"), inventory->source, total,
                          lid_inventory_n_filled (inventory), inventory->devices->len);
  g_string_append_printf (out, "%s\n", board);
  for (guint i = 0; match->differences != NULL && i < match->differences->len; i++)
    g_string_append_printf (out, "  %s\n", (const char *)match->differences->pdata[i]);
  if (match->board != NULL && lid_slot_names_caveat (match->board) != NULL)
    g_string_append_printf (out, "%s\n", lid_slot_names_caveat (match->board));
  if (inventory->devices->len > 0)
    g_string_append_c (out, '\n');
  lid_columns_start (&columns, 4);
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      g_autofree char *where = where_text (&device->place), *holds = holds_text (device);

      lid_columns_add (&columns, name_of (match, device));
      lid_columns_add (&columns, where);
      lid_columns_add (&columns, holds);
      lid_columns_add (&columns, device->module != NULL ? device->module->part : NULL);
    }
  lid_columns_finish (&columns, out, "  ");
  lid_remarks_text (out, inventory->remarks);
}
