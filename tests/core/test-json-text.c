/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/json-parse.h"
#include "base/json-text.h"

#include <string.h>

/* Every text that is taken is written so that it can be taken again, with the same values. */
static void
test_round_trip (void)
{
  static const struct
  {
    const char *in, *out;
  } cases[] = {
    { "[1,2.5,-0.0]", "[1,2.5,-0.0]" },
    { "[1e20]", "[1e+20]" },
    { "[-1e308,1e20]", "[-1e+308,1e+20]" },
    { "[1.5e+20]", "[1.5e+20]" },
    { "[9223372036854775807]", "[9223372036854775807]" },
    { "{\"e\":1e20,\"f\":true}", "{\"e\":1e+20,\"f\":true}" },
    { "{\"1e+20.0\":\"\\\"1e+20.0\"}", "{\"1e+20.0\":\"\\\"1e+20.0\"}" },
    { "[\"2e\",1.0]", "[\"2e\",1.0]" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (JsonNode) root = lid_json_parse (cases[i].in, strlen (cases[i].in), &error);
      g_autoptr (JsonNode) again = NULL;
      g_autofree char *text = NULL;

      g_assert_no_error (error);
      text = lid_json_text (root, FALSE);
      g_assert_cmpstr (text, ==, cases[i].out);
      again = lid_json_parse (text, strlen (text), &error);
      g_assert_no_error (error);
      g_assert_true (json_node_equal (root, again));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json-text/round-trip", test_round_trip);
  return g_test_run ();
}
