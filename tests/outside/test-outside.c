/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks against something outside the project: one file of cases for each source, given as the
 * argument. tests/outside/README says how a file is written. */
#include "base/json-parse.h"
#include "outside.h"
#include "support.h"

#include <string.h>

typedef struct
{
  JsonNode *node; /* of the file */
  JsonObject *group;
  JsonObject *one;
} Case;

/* How far a check can be trusted, weakest last; the page lists them in this order. */
static const char *const strengths[]
    = { "published", "arithmetic", "common practice", "from memory", NULL };

static void
test_case (gconstpointer data)
{
  const Case *test = data;
  JsonObject *one = test->one;

  g_test_message ("%s", json_object_get_string_member (one, "case"));
  g_assert_cmpuint (strlen (json_object_get_string_member (one, "source")), >, 3);
  g_assert_true (g_strv_contains (strengths, json_object_get_string_member (one, "strength")));
  if (json_object_has_member (one, "label"))
    outside_label (one);
  else if (json_object_has_member (one, "rate"))
    outside_rate (one);
  else if (json_object_has_member (one, "type17"))
    outside_smbios (one);
  else if (json_object_has_member (one, "power"))
    outside_power (one);
  else if (json_object_has_member (one, "caution"))
    outside_caution (one);
  else if (json_object_has_member (one, "ways_of"))
    outside_ways (one);
  else
    outside_population (test->group, one);
}

static void
free_case (gpointer data)
{
  Case *test = data;

  json_node_unref (test->node);
  g_free (test);
}

static void
add_group (JsonNode *node, JsonObject *group, const char *name, guint *n)
{
  JsonArray *cases = json_object_get_array_member (group, "cases");

  for (guint i = 0; i < json_array_get_length (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/outside/%s/%03u", name, ++*n);
      Case *test = g_new0 (Case, 1);

      test->node = json_node_ref (node);
      test->group = group;
      test->one = json_array_get_object_element (cases, i);
      g_test_add_data_func_full (path, test, test_case, free_case);
    }
}

int
main (int argc, char **argv)
{
  g_autofree char *text = NULL, *name = NULL;
  g_autoptr (JsonNode) node = NULL;
  g_autoptr (GError) error = NULL;
  JsonArray *groups;
  gsize size;
  guint n = 0;

  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);
  text = support_read_file (argv[1], &size);
  node = lid_json_parse (text, size, &error);
  g_assert_no_error (error);
  name = g_path_get_basename (argv[1]);
  groups = json_object_get_array_member (json_node_get_object (node), "groups");
  for (guint i = 0; i < json_array_get_length (groups); i++)
    add_group (node, json_array_get_object_element (groups, i), name, &n);
  return g_test_run ();
}
