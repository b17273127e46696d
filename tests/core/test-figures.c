/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All of the figures on cases told in files, found by scan: tests/cases/figures/README. */
#include "base/json-parse.h"
#include "figures-expect.h"
#include "figures/running-rate.h"
#include "support.h"

#include <string.h>

typedef struct
{
  JsonNode *node; /* of the file */
  JsonObject *file;
  JsonObject *one;
} Case;

/* Figures are computed into the same place again and again: nothing of the population before is
 * left there, nor of one that does not start (settled reading 4). */
static void
check_again (JsonObject *expect, FiguresCase *c)
{
  LidFigures *figures = &c->figures;

  lid_figures_compute (c->survey, c->unusable, figures);
  figures_expect (expect, c);
  lid_figures_stop (c->survey, figures);
  g_assert_cmpint (figures->capacity_mib | figures->usable_mib, ==, 0);
  g_assert_false (figures->capacity_known || figures->usable_known || figures->starts);
  g_assert_cmpuint (figures->running | figures->n_limits | figures->regions->len, ==, 0);
  g_assert_cmpuint (figures->channels_in_use | figures->channels_of_fitted, ==, 0);
  for (guint s = 0; s < figures->n_sockets; s++)
    {
      g_assert_cmpuint (figures->sockets[s].running, ==, LID_RATE_UNKNOWN);
      g_assert_cmpuint (figures->sockets[s].first_region | figures->sockets[s].n_regions, ==, 0);
      g_assert_false (lid_ratio_is_known (figures->sockets[s].peak_mbs));
      g_assert_false (lid_ratio_is_known (figures->sockets[s].whole_mbs));
    }
  for (guint i = 0; i < figures->n_channels; i++)
    {
      g_assert_cmpuint (figures->channels[i].modules, ==, c->survey->channels[i].n_fitted);
      g_assert_cmpint (figures->channels[i].capacity_mib | figures->channels[i].usable_mib, ==, 0);
      g_assert_false (figures->channels[i].in_use || figures->channels[i].capacity_known);
    }
  lid_running_rate_compute (c->survey, c->as_found, figures);
  lid_figures_compute (c->survey, c->unusable, figures);
  figures_expect (expect, c);
}

static void
test_case (gconstpointer data)
{
  const Case *test = data;
  JsonObject *expect = json_object_get_object_member (test->one, "expect");
  g_autoptr (FiguresCase) c = figures_case_new (test->file, test->one);

  g_test_message ("%s", json_object_get_string_member (test->one, "case"));
  g_assert_true (json_object_has_member (test->one, "source"));
  figures_expect (expect, c);
  if (c->figures.starts)
    check_again (expect, c);
}

static void
free_case (gpointer data)
{
  Case *test = data;

  json_node_unref (test->node);
  g_free (test);
}

static void
add_file (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autofree char *text = NULL;
  g_autoptr (JsonNode) node = NULL;
  g_autoptr (GError) error = NULL;
  JsonArray *cases;
  gsize size;

  text = support_read_file (path, &size);
  node = lid_json_parse (text, size, &error);
  g_assert_no_error (error);
  cases = json_object_get_array_member (json_node_get_object (node), "cases");
  for (guint i = 0; i < json_array_get_length (cases); i++)
    {
      g_autofree char *test_path
          = g_strdup_printf ("/figures/%.*s/%02u", (int)strlen (name) - 5, name, i + 1);
      Case *test = g_new0 (Case, 1);

      test->node = json_node_ref (node);
      test->file = json_node_get_object (node);
      test->one = json_array_get_object_element (cases, i);
      g_test_add_data_func_full (test_path, test, test_case, free_case);
    }
}

static gint
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(char *const *)a, *(char *const *)b);
}

int
main (int argc, char **argv)
{
  g_autofree char *folder = NULL;
  g_autoptr (GDir) dir = NULL;
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  g_test_init (&argc, &argv, NULL);
  folder = g_build_filename (g_getenv ("LID_SOURCE"), "tests", "cases", "figures", NULL);
  dir = g_dir_open (folder, 0, NULL);
  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".json"))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, by_name);
  for (guint i = 0; i < names->len; i++)
    add_file (folder, names->pdata[i]);
  return g_test_run ();
}
