/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/json-read.h"

#include <string.h>

static const struct
{
  const char *text;
  const char *complaint; /* NULL: taken */
} cases[] = {
  { "{}", NULL },
  { " [1, 2.5, \"a\\\"}b\", true, null] \n", NULL },
  { "", "ends too early" },
  { "{\"a\":1} {}", "something follows" },
  { "{'a':1}", "does not have" },
  { "{\"a\":[1}", "closes what was not open" },
  { "{\"a\":", "ends too early" },
  { "\"a\"", "must begin with" },
  { "{\"a\":\"x", "not closed" },
  { "{\"a\":\"x\ny\"}", "control character" },
  { "{\"a\":\"\xff\"}", "UTF-8" },
  { "{\"a\" 1}", "not JSON" },
  { "{\"a\":9223372036854775807}", NULL },
  { "{\"a\":9223372036854775808}", "too large to be kept" }, /* json-glib: another number */
  { "{\"a\":-1e999}", "too large to be kept" },
  { "{\"a\":\"\\ud800\"}", "not JSON" }, /* json-glib's message is no UTF-8 there */
};

static void
test_texts (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (JsonNode) root = lid_json_parse (cases[i].text, strlen (cases[i].text), &error);

      if (cases[i].complaint == NULL)
        {
          g_assert_no_error (error);
          g_assert_nonnull (root);
        }
      else
        {
          g_assert_null (root);
          g_assert_nonnull (strstr (error->message, cases[i].complaint));
          g_assert_true (g_utf8_validate (error->message, -1, NULL));
          g_assert_null (strchr (error->message, '\n'));
        }
    }
}

/* json-glib alone ends the process here. */
static void
test_deep_nesting (void)
{
  g_autofree char *text = g_strnfill (200000, '[');
  g_autoptr (GError) error = NULL;

  g_assert_null (lid_json_parse (text, 200000, &error));
  g_assert_nonnull (strstr (error->message, "too deep"));
}

static void
test_path (void)
{
  static const char json[] = "{\"sockets\":[{\"name\":7}]}";
  g_autoptr (JsonNode) root = lid_json_parse (json, strlen (json), NULL);
  g_autoptr (GError) error = NULL;
  LidJsonAt at = lid_json_root (root);
  LidJsonAt sockets = lid_json_member (&at, "sockets");
  LidJsonAt first = lid_json_element (&sockets, 0);
  LidJsonAt name = lid_json_member (&first, "name");
  const char *text;

  g_assert_false (lid_json_get_text (&name, &text, &error));
  g_assert_cmpstr (error->message, ==, "sockets[0].name: must be a text in quotes");
}

/* What is quoted from a file makes neither two lines of a complaint nor half a letter. */
static void
test_one_line (void)
{
  static const char json[] = "{\"a\\nb\":1}";
  g_autoptr (JsonNode) root = lid_json_parse (json, strlen (json), NULL);
  g_autoptr (GError) error = NULL;
  LidJsonAt at = lid_json_root (root);
  LidJsonAt member = lid_json_member (&at, "a\nb");

  g_assert_false (lid_json_fail (&member, &error, "“%.2s” is no word", "x\xc3\xa4"));
  g_assert_cmpstr (error->message, ==, "a b: “x\xef\xbf\xbd” is no word");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json-read/texts", test_texts);
  g_test_add_func ("/json-read/deep-nesting", test_deep_nesting);
  g_test_add_func ("/json-read/path", test_path);
  g_test_add_func ("/json-read/one-line", test_one_line);
  return g_test_run ();
}
