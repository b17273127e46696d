/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks-case.h"

#include "base/json-parse.h"
#include "checks/assessment-private.h"
#include "checks/rules.h"
#include "support.h"

#include <string.h>

/**
 * checks_case_load:
 * @path: a file of tests/cases/checks
 *
 * Returns: (transfer full): its JSON
 */
JsonNode *
checks_case_load (const char *path)
{
  g_autoptr (GError) error = NULL;
  gsize size = 0;
  g_autofree char *text = support_read_file (path, &size);
  JsonNode *node = lid_json_parse (text, size, &error);

  g_assert_no_error (error);
  return node;
}

static int
compare_paths (const void *a, const void *b)
{
  return g_strcmp0 (*(char *const *)a, *(char *const *)b);
}

/**
 * checks_case_paths:
 * @folder: a folder
 *
 * Returns: (transfer full) (element-type utf8): every *.json there, sorted
 */
GPtrArray *
checks_case_paths (const char *folder)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".json"))
      g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (paths, compare_paths);
  return paths;
}

/**
 * checks_case_files:
 *
 * Returns: (transfer full) (element-type utf8): every case file, sorted
 */
GPtrArray *
checks_case_files (void)
{
  g_autofree char *folder
      = g_build_filename (g_getenv ("LID_SOURCE"), "tests", "cases", "checks", NULL);

  return checks_case_paths (folder);
}

/**
 * checks_case_new:
 * @file: board and modules
 * @one: the case
 *
 * Returns: (transfer full): the population to judge
 */
ChecksCase *
checks_case_new (JsonObject *file, JsonObject *one)
{
  ChecksCase *c = g_new0 (ChecksCase, 1);

  c->figures = figures_case_new (file, one);
  c->population = c->figures->population;
  c->as_found = c->figures->as_found;
  c->figures->board->derived = json_object_get_boolean_member_with_default (file, "derived", FALSE);
  return c;
}

void
checks_case_free (ChecksCase *c)
{
  figures_case_free (c->figures);
  g_free (c);
}

LidAssessment *
checks_case_assess (const ChecksCase *c, const LidRule *without)
{
  const LidQuestion question = { c->figures->board, c->population, c->as_found };

  return lid_assessment_new_without (&question, without);
}

/**
 * checks_case_slots:
 *
 * Returns: (transfer full): ids, blanks between them, as cases write them
 */
char *
checks_case_slots (const LidBoard *board, const guint *slots, guint n_slots)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < n_slots; i++)
    g_string_append_printf (out, "%s%s", i > 0 ? " " : "", board->slots[slots[i]].id);
  return g_string_free (out, FALSE);
}

/**
 * checks_case_lines:
 *
 * Returns: (transfer full): the strings of the array @member of a case, one a line
 */
char *
checks_case_lines (JsonObject *one, const char *member)
{
  GString *out = g_string_new (NULL);
  JsonArray *lines = json_object_get_array_member (one, member);

  for (guint i = 0; i < json_array_get_length (lines); i++)
    g_string_append_printf (out, "%s\n", json_array_get_string_element (lines, i));
  return g_string_free (out, FALSE);
}

/**
 * checks_case_asked:
 *
 * Returns: (transfer full): "capacity_mib of 1-A1: capacity-machine idle-channels", a line for each
 * fact that is asked for: of which slots, and by which rules
 */
char *
checks_case_asked (const ChecksCase *c, const LidAssessment *assessment)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];
      g_autofree char *slots
          = checks_case_slots (c->figures->board, finding->slots, finding->n_slots);

      if (finding->fact == LID_NOWHERE)
        continue;
      g_string_append_printf (out, "%s of %s:", lid_fact_to_text (finding->fact), slots);
      for (guint k = 0; lid_rules[k] != NULL; k++)
        if (finding->asked_by[k / 64] >> (k % 64) & 1)
          g_string_append_printf (out, " %s", lid_rules[k]->id);
      g_string_append_c (out, '\n');
    }
  return g_string_free (out, FALSE);
}

static const LidRule *
rule_of_file (const char *path)
{
  g_autofree char *id = g_path_get_basename (path);
  const LidRule *rule;

  id[strlen (id) - strlen (".json")] = 0;
  for (rule = lid_rules_find (id); rule == NULL && strchr (id, '-') != NULL;
       rule = lid_rules_find (id))
    *strrchr (id, '-') = 0;
  if (rule == NULL)
    g_test_fail_printf ("%s: there is no such rule", path);
  return rule;
}

/**
 * checks_case_each:
 * @visit: called for every case of every file, with the rule the file is about
 */
void
checks_case_each (void (*visit) (JsonObject *file, JsonObject *one, const LidRule *rule))
{
  g_autoptr (GPtrArray) paths = checks_case_files ();

  g_assert_cmpuint (paths->len, >, 0);
  for (guint i = 0; i < paths->len; i++)
    {
      g_autoptr (JsonNode) node = checks_case_load (paths->pdata[i]);
      JsonObject *file = json_node_get_object (node);
      JsonArray *cases = json_object_get_array_member (file, "cases");

      for (guint k = 0; k < json_array_get_length (cases); k++)
        visit (file, json_array_get_object_element (cases, k), rule_of_file (paths->pdata[i]));
    }
}

/**
 * checks_case_expect_machine:
 * @assessment: of the case
 * @one: the case: whether the machine starts, how fast it runs and what it has room for, where it
 * says so
 */
void
checks_case_expect_machine (const LidAssessment *assessment, JsonObject *one)
{
  if (json_object_has_member (one, "starts"))
    g_assert_cmpint (assessment->figures.starts, ==,
                     json_object_get_boolean_member (one, "starts"));
  if (json_object_has_member (one, "running_mts"))
    g_assert_cmpint (assessment->figures.running / 3, ==,
                     json_object_get_int_member (one, "running_mts"));
  if (json_object_has_member (one, "room_mib"))
    g_assert_cmpint (assessment->room.listed_mib, ==, json_object_get_int_member (one, "room_mib"));
}
