/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "remarks.h"

#include "inventory/inventory.h"

#include <glib/gi18n.h>

/**
 * lid_remarks_json:
 * @remarks: (nullable): LidRemark
 *
 * The key "remarks" of product.md 11.
 */
void
lid_remarks_json (LidJsonWriter *writer, const GPtrArray *remarks)
{
  lid_json_write_open (writer, "remarks", '[');
  for (guint i = 0; remarks != NULL && i < remarks->len; i++)
    {
      const LidRemark *remark = remarks->pdata[i];

      lid_json_write_open (writer, NULL, '{');
      lid_json_write_text (writer, "place", remark->place);
      lid_json_write_text (writer, "what", remark->what);
      lid_json_write_text (writer, "remedy", remark->remedy);
      lid_json_write_close (writer, '}');
    }
  lid_json_write_close (writer, ']');
}

/**
 * lid_remarks_text:
 * @remarks: (nullable): LidRemark; none: nothing is printed
 */
void
lid_remarks_text (GString *out, const GPtrArray *remarks)
{
  if (remarks != NULL && remarks->len > 0)
    g_string_append_printf (out, "\n%s\n", _ ("Remarks"));
  for (guint i = 0; remarks != NULL && i < remarks->len; i++)
    {
      const LidRemark *remark = remarks->pdata[i];

      g_string_append_printf (out, "  %s: %s", remark->place, remark->what);
      if (remark->remedy != NULL)
        g_string_append_printf (out, " %s", remark->remedy);
      g_string_append_c (out, '\n');
    }
}
