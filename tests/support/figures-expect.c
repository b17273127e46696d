/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "figures-expect.h"

#include "support.h"

#include <string.h>

/* A ratio as written: 7, "7", "7/3"; null: not known. */
static void
check_ratio (JsonObject *expect, const char *name, LidRatio seen)
{
  JsonNode *node;
  const char *slash;
  LidRatio wanted;

  if (!json_object_has_member (expect, name))
    return;
  node = json_object_get_member (expect, name);
  g_test_message ("%s %" G_GINT64_FORMAT "/%" G_GINT64_FORMAT, name, seen.num, seen.den);
  if (JSON_NODE_HOLDS_NULL (node))
    {
      g_assert_false (lid_ratio_is_known (seen));
      return;
    }
  if (json_node_get_value_type (node) == G_TYPE_INT64)
    wanted = lid_ratio (json_node_get_int (node), 1);
  else
    {
      const char *text = json_node_get_string (node);

      slash = strchr (text, '/');
      wanted = lid_ratio (g_ascii_strtoll (text, NULL, 10),
                          slash == NULL ? 1 : g_ascii_strtoll (slash + 1, NULL, 10));
    }
  g_assert_true (lid_ratio_is_known (seen));
  g_assert_cmpint (lid_ratio_compare (seen, wanted), ==, 0);
}

static void
check_number (JsonObject *expect, const char *name, gint64 seen, gboolean known)
{
  if (!json_object_has_member (expect, name))
    return;
  g_test_message ("%s %" G_GINT64_FORMAT "%s", name, seen, known ? "" : " (not known)");
  g_assert_cmpint (known, !=, json_object_get_null_member (expect, name));
  if (known)
    g_assert_cmpint (seen, ==, json_object_get_int_member (expect, name));
}

/* "limits": all of them, with their values; "binding": those that hold the rate down. */
static void
check_limits (JsonObject *expect, const LidFigures *figures)
{
  JsonObject *limits = json_object_has_member (expect, "limits")
                           ? json_object_get_object_member (expect, "limits")
                           : NULL;
  g_autoptr (GString) binding = g_string_new (NULL);
  g_autoptr (GString) wanted = g_string_new (NULL);

  for (guint i = 0; i < figures->n_limits; i++)
    {
      const LidRateLimit *limit = &figures->limits[i];
      const char *what = lid_cap_to_text (limit->what);

      g_test_message ("limit %s %u%s", what, lid_rate_mts (limit->rate),
                      limit->binding ? " binds" : "");
      if (limit->binding)
        g_string_append_printf (binding, "%s ", what);
      if (limits != NULL)
        {
          g_assert_true (json_object_has_member (limits, what));
          check_number (limits, what, lid_rate_mts (limit->rate), limit->rate != LID_RATE_UNKNOWN);
        }
    }
  if (limits != NULL)
    g_assert_cmpuint (json_object_get_size (limits), ==, figures->n_limits);
  if (!json_object_has_member (expect, "binding"))
    return;
  for (guint i = 0; i < json_array_get_length (json_object_get_array_member (expect, "binding"));
       i++)
    g_string_append_printf (
        wanted, "%s ",
        json_array_get_string_element (json_object_get_array_member (expect, "binding"), i));
  g_assert_cmpstr (binding->str, ==, wanted->str);
}

static void
check_rows (JsonObject *expect, const FiguresCase *c)
{
  static const char *const states[] = { "silent", "found", "unsure", "missing" };
  JsonObject *rows;
  g_autoptr (GList) members = NULL;

  if (!json_object_has_member (expect, "rows"))
    return;
  rows = json_object_get_object_member (expect, "rows");
  members = json_object_get_members (rows);
  for (GList *l = members; l != NULL; l = l->next)
    g_assert_cmpstr (states[c->figures.rates[figures_case_channel (c, l->data)].row], ==,
                     json_object_get_string_member (rows, l->data));
}

/* [["4@2", "1@1"], []]: MiB at ways, socket by socket. */
static void
check_regions (JsonObject *expect, const FiguresCase *c)
{
  JsonArray *sockets;

  if (!json_object_has_member (expect, "regions"))
    return;
  sockets = json_object_get_array_member (expect, "regions");
  g_assert_cmpuint (json_array_get_length (sockets), ==, c->figures.n_sockets);
  for (guint s = 0; s < c->figures.n_sockets; s++)
    {
      const LidSocketFigures *socket = &c->figures.sockets[s];
      JsonArray *regions = json_array_get_array_element (sockets, s);

      g_assert_cmpuint (json_array_get_length (regions), ==, socket->n_regions);
      for (guint i = 0; i < socket->n_regions; i++)
        {
          const LidRegion *region
              = &g_array_index (c->figures.regions, LidRegion, socket->first_region + i);
          g_autofree char *text
              = g_strdup_printf ("%" G_GINT64_FORMAT "@%u", region->mib, region->ways);

          g_assert_cmpstr (text, ==, json_array_get_string_element (regions, i));
        }
    }
}

static void
check_sockets_mts (JsonObject *expect, const LidFigures *figures)
{
  JsonArray *sockets;

  if (!json_object_has_member (expect, "sockets_mts"))
    return;
  sockets = json_object_get_array_member (expect, "sockets_mts");
  g_assert_cmpuint (json_array_get_length (sockets), ==, figures->n_sockets);
  for (guint s = 0; s < figures->n_sockets; s++)
    if (json_array_get_null_element (sockets, s))
      g_assert_cmpuint (figures->sockets[s].running, ==, LID_RATE_UNKNOWN);
    else
      g_assert_cmpint (lid_rate_mts (figures->sockets[s].running), ==,
                       json_array_get_int_element (sockets, s));
}

/* Whether the memory mode takes effect, and which demands are not met. */
static void
check_mode (JsonObject *expect, const LidModeFigures *mode)
{
  static const char *const effects[] = { "plain", "taken", "refused", "unsure" };
  static const char *const demands[LID_N_DEMANDS] = { "offered",
                                                      "setting",
                                                      "spare",
                                                      "size",
                                                      "step",
                                                      "pairs",
                                                      "alike",
                                                      "modules-of-socket",
                                                      "modules-of-channel",
                                                      "ranks" };
  const char *effect = json_object_get_string_member_with_default (expect, "effect", NULL);
  const char *unmet = json_object_get_string_member_with_default (expect, "unmet", NULL);
  g_autoptr (GString) found = g_string_new (NULL);

  if (effect != NULL)
    g_assert_cmpstr (effects[mode->effect], ==, effect);
  for (guint i = 0; i < LID_N_DEMANDS; i++)
    if ((mode->unmet >> i & 1) == 1)
      g_string_append_printf (found, "%s%s", found->len > 0 ? " " : "", demands[i]);
  if (unmet != NULL || (effect != NULL && mode->effect == LID_EFFECT_REFUSED))
    g_assert_cmpstr (found->str, ==, unmet);
}

/* "48 GB usable of 96": what stands first is usable, what stands after "of" is all of it. */
static void
check_usable (const char *expected, JsonObject *expect)
{
  const char *of = strstr (expected, " of ");

  g_assert_cmpint (g_ascii_strtoll (expected, NULL, 10) * 1024, ==,
                   json_object_get_int_member (expect, "usable_mib"));
  if (of != NULL)
    g_assert_cmpint (g_ascii_strtoll (of + 4, NULL, 10) * 1024, ==,
                     json_object_get_int_member (expect, "capacity_mib"));
}

/**
 * figures_expect_handbook:
 * @one: a case
 * @expect: what it expects
 *
 * Fails where the number or the words a case expects do not stand in the row of
 * tests/data/handbook/handbook_checks.csv it names.
 */
void
figures_expect_handbook (JsonObject *one, JsonObject *expect)
{
  const char *id = json_object_get_string_member_with_default (one, "handbook", NULL);
  g_autofree char *path = support_data ("handbook/handbook_checks.csv");
  g_autoptr (GPtrArray) rows = support_read_csv (path);
  const char *words = json_object_get_string_member_with_default (one, "handbook_says", NULL);
  g_autofree char *number = NULL;

  for (guint i = 1; id != NULL && i < rows->len; i++)
    {
      const char *expected = support_cell (rows, i, "expected");

      if (strcmp (support_cell (rows, i, "id"), id) != 0)
        continue;
      g_test_message ("%s: %s", id, support_cell (rows, i, "source"));
      if (words == NULL && json_object_has_member (expect, "usable_mib"))
        {
          check_usable (expected, expect);
          return;
        }
      if (words == NULL)
        number = g_strdup_printf ("%d", (int)json_object_get_int_member (expect, "running_mts"));
      g_assert_nonnull (strstr (expected, words != NULL ? words : number));
      return;
    }
  g_assert_null (id);
}

/**
 * figures_expect:
 * @expect: what a case expects: tests/cases/figures/README
 * @c: the case, computed
 */
void
figures_expect (JsonObject *expect, const FiguresCase *c)
{
  const LidFigures *figures = &c->figures;
  gboolean starts = figures->starts, told = starts && figures->channels_told;

  check_number (expect, "running_mts", lid_rate_mts (figures->running),
                figures->running != LID_RATE_UNKNOWN);
  check_limits (expect, figures);
  check_rows (expect, c);
  check_sockets_mts (expect, figures);
  check_number (expect, "fitted_mib", figures->fitted_mib, TRUE);
  check_number (expect, "capacity_mib", figures->capacity_mib, figures->capacity_known);
  check_number (expect, "usable_mib", figures->usable_mib, figures->usable_known);
  check_mode (expect, &figures->mode);
  check_ratio (expect, "peak_mbs", figures->peak_mbs);
  check_ratio (expect, "whole_mbs", figures->whole_mbs);
  check_ratio (expect, "best_mbs", figures->best_mbs);
  check_ratio (expect, "worst_mbs", figures->worst_mbs);
  check_ratio (expect, "even_share", figures->even_share);
  check_number (expect, "channels_in_use", figures->channels_in_use, told);
  check_number (expect, "channels", figures->channels_of_fitted, told);
  check_regions (expect, c);
  check_number (expect, "empty_slots", c->room.empty_slots, TRUE);
  check_number (expect, "listed_mib", c->room.listed_mib, c->room.listed_mib > 0);
  check_number (expect, "proven_mib", c->room.proven_mib, c->room.proven_mib > 0);
}
