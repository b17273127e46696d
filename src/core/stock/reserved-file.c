/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/reserved.h"

#include "base/json-read.h"
#include "base/json-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

void
lid_reservation_free (LidReservation *reservation)
{
  if (reservation == NULL)
    return;
  g_free (reservation->job);
  g_free (reservation->part);
  g_free (reservation->label);
  g_free (reservation->bin);
  g_free (reservation->when);
  g_free (reservation);
}

/**
 * lid_reservation_new:
 * @row: a row of the stock
 * @count: how many of it, at least 1
 *
 * Returns: (transfer full): a reservation of them for no job yet
 */
LidReservation *
lid_reservation_new (const LidStockRow *row, guint count)
{
  LidReservation *reservation = g_new0 (LidReservation, 1);

  reservation->part = g_strdup (row->part);
  reservation->label = g_strdup (row->label);
  reservation->bin = g_strdup (row->bin);
  reservation->count = count;
  return reservation;
}

void
lid_reserved_free (LidReserved *reserved)
{
  if (reserved == NULL)
    return;
  g_ptr_array_unref (reserved->entries);
  g_free (reserved);
}

static gboolean
read_text (const LidJsonAt *entry, const char *name, char **text, GError **error)
{
  LidJsonAt at = lid_json_member (entry, name);
  const char *value;

  if (lid_json_is_null (&at))
    return TRUE;
  if (!lid_json_get_text (&at, &value, error))
    return FALSE;
  *text = g_strdup (value);
  return TRUE;
}

static LidReservation *
read_entry (const LidJsonAt *at, GError **error)
{
  g_autoptr (LidReservation) entry = g_new0 (LidReservation, 1);
  LidJsonAt count = lid_json_member (at, "count"), job = lid_json_member (at, "job"),
            part = lid_json_member (at, "part");
  gint64 n;

  if (!lid_json_need_object (at, error) || !read_text (at, "job", &entry->job, error)
      || !read_text (at, "part", &entry->part, error)
      || !read_text (at, "label", &entry->label, error)
      || !read_text (at, "bin", &entry->bin, error) || !read_text (at, "when", &entry->when, error)
      || !lid_json_get_int (&count, 1, LID_STOCK_MAX_QUANTITY, &n, error))
    return NULL;
  if (entry->job == NULL)
    {
      lid_json_fail (&job, error, "is missing");
      return NULL;
    }
  if (entry->part == NULL && entry->label == NULL)
    {
      lid_json_fail (&part, error, "is missing, and there is no label either");
      return NULL;
    }
  entry->count = (guint)n;
  return g_steal_pointer (&entry);
}

/**
 * lid_reserved_parse:
 * @text: a file of reservations; empty: there are none
 * @size: its bytes
 * @error: one sentence with the place
 *
 * Of a later version's file what is understood counts.
 *
 * Returns: (transfer full) (nullable): the reservations
 */
LidReserved *
lid_reserved_parse (const char *text, gsize size, GError **error)
{
  g_autoptr (LidReserved) reserved = g_new0 (LidReserved, 1);
  g_autoptr (JsonNode) root = NULL;
  LidJsonAt at, format, list;
  gint64 number;
  guint length;

  reserved->entries = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_reservation_free);
  if (size == 0)
    return g_steal_pointer (&reserved);
  root = lid_json_parse (text, size, error);
  if (root == NULL)
    return NULL;
  at = lid_json_root (root);
  format = lid_json_member (&at, "format");
  list = lid_json_member (&at, "reserved");
  if (!lid_json_need_object (&at, error)
      || !lid_json_get_int (&format, 1, G_MAXINT32, &number, error)
      || !lid_json_get_length (&list, LID_RESERVED_MAX, &length, error))
    return NULL;
  reserved->newer = number > LID_RESERVED_FORMAT;
  for (guint i = 0; i < length; i++)
    {
      LidJsonAt element = lid_json_element (&list, i);
      LidReservation *entry = read_entry (&element, reserved->newer ? NULL : error);

      if (entry != NULL)
        g_ptr_array_add (reserved->entries, entry);
      else if (!reserved->newer)
        return NULL;
    }
  return g_steal_pointer (&reserved);
}

static void
write_text (JsonObject *object, const char *name, const char *text)
{
  if (text != NULL)
    json_object_set_string_member (object, name, text);
  else
    json_object_set_null_member (object, name);
}

/**
 * lid_reserved_to_text:
 *
 * Returns: (transfer full): the file's text
 */
char *
lid_reserved_to_text (const LidReserved *reserved)
{
  g_autoptr (JsonNode) node = json_node_new (JSON_NODE_OBJECT);
  JsonObject *object = json_object_new ();
  JsonArray *list = json_array_new ();

  for (guint i = 0; i < reserved->entries->len; i++)
    {
      const LidReservation *entry = reserved->entries->pdata[i];
      JsonObject *item = json_object_new ();

      write_text (item, "job", entry->job);
      write_text (item, "part", entry->part);
      write_text (item, "label", entry->label);
      write_text (item, "bin", entry->bin);
      json_object_set_int_member (item, "count", entry->count);
      write_text (item, "when", entry->when);
      json_array_add_object_element (list, item);
    }
  json_object_set_int_member (object, "format", LID_RESERVED_FORMAT);
  json_object_set_array_member (object, "reserved", list);
  json_node_take_object (node, object);
  return lid_json_text (node, TRUE);
}
