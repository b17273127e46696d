/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A board and a population, through the figures and the checker as the program runs them. */
#include "board/board-file.h"
#include "checks-case.h"
#include "checks/rules.h"
#include "figures-expect.h"
#include "figures/regions.h"
#include "outside.h"

#include <string.h>

static char *
found_of (const ChecksCase *c, const LidAssessment *assessment, const char *rule)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < assessment->findings->len; i++)
    {
      const LidFinding *finding = assessment->findings->pdata[i];
      const char *stops = lid_stops_to_text (finding->stops);
      g_autofree char *slots = NULL;

      if (strcmp (finding->rule->id, rule) != 0)
        continue;
      slots = checks_case_slots (c->figures->board, finding->slots, finding->n_slots);
      g_string_append_printf (out, "%s%s%s%s%s\n", lid_grade_to_text (finding->grade),
                              stops != NULL ? " " : "", stops != NULL ? stops : "",
                              *slots != 0 ? ": " : "", slots);
    }
  return g_string_free (out, FALSE);
}

/* {"rank-limit": ["stops slots: 1-A3"], "mixed-kinds": []}: exactly what each rule named finds. */
static void
check_findings (const ChecksCase *c, const LidAssessment *assessment, JsonObject *findings)
{
  g_autoptr (GList) rules = json_object_get_members (findings);

  for (GList *l = rules; l != NULL; l = l->next)
    {
      JsonArray *wanted = json_object_get_array_member (findings, l->data);
      g_autofree char *found = found_of (c, assessment, l->data);
      g_autoptr (GString) text = g_string_new (NULL);

      g_assert_nonnull (lid_rules_find (l->data));
      for (guint i = 0; i < json_array_get_length (wanted); i++)
        g_string_append_printf (text, "%s\n", json_array_get_string_element (wanted, i));
      g_test_message ("%s", (const char *)l->data);
      g_assert_cmpstr (found, ==, text->str);
    }
}

/**
 * outside_population:
 * @group: board and modules
 * @one: "put", …, "expect" of the figures, "findings" of the checker, "starts"
 */
void
outside_population (JsonObject *group, JsonObject *one)
{
  g_autoptr (ChecksCase) c = checks_case_new (group, one);
  g_autoptr (LidAssessment) assessment = checks_case_assess (c, NULL);

  g_assert_true (json_object_has_member (one, "expect")
                 || json_object_has_member (one, "findings"));
  if (json_object_has_member (one, "expect"))
    {
      JsonObject *expect = json_object_get_object_member (one, "expect");

      figures_expect_handbook (one, expect);
      figures_expect (expect, c->figures);
    }
  if (json_object_has_member (one, "findings"))
    check_findings (c, assessment, json_object_get_object_member (one, "findings"));
  if (json_object_has_member (one, "starts"))
    g_assert_cmpint (assessment->figures.starts, ==,
                     json_object_get_boolean_member (one, "starts"));
}

static gboolean
contains (JsonArray *array, guint number)
{
  for (guint i = 0; i < json_array_get_length (array); i++)
    if (json_array_get_int_element (array, i) == number)
      return TRUE;
  return FALSE;
}

/**
 * outside_ways:
 * @one: "ways_of": a board of platforms/; "may": the numbers of channels the source knows
 *
 * A board of ours goes together in no number its source does not know.
 */
void
outside_ways (JsonObject *one)
{
  const char *id = json_object_get_string_member (one, "ways_of");
  g_autofree char *file = g_strconcat (id, ".json", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", file, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_load (path, &error);
  JsonArray *may = json_object_get_array_member (one, "may");
  guint32 ways;

  g_assert_no_error (error);
  ways = lid_regions_rule (board, NULL).ways;
  g_assert_cmpuint (ways, !=, 0);
  for (guint i = 0; i < board->n_ways_also; i++)
    ways |= board->ways_also[i].ways;
  for (guint n = 1; n < 32; n++)
    if ((ways >> n & 1) == 1 && !contains (may, n))
      g_test_fail_printf ("%s goes together in %u, which its source does not know", id, n);
}
