/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "json-attack.h"

#include <string.h>

#define LONG_TEXT (1024u * 1024u)
#define REPEATS 5000u
#define DEEP 100000u
#define UMLAUTS "äöüÄÖÜéèàçñ¿äöüÄÖÜéèàçñ¿"

/* What a value is replaced by as it stands. */
static const char *const words[] = {
  "0",
  "-1",
  "1",
  "0.5",
  "-0",
  "2147483648",
  "4294967295",
  "-2147483649",
  "9223372036854775807",
  "99999999999999999999999999",
  "1e308",
  "-1e308",
  "1e999",
  "1e-320",
  "NaN",
  "Infinity",
  "-",
  "1.",
  "00012",
  "null",
  "true",
  "false",
  "\"\"",
  "\" \"",
  "\"\\u0000\"",
  "\"\\ud800\"",
  "\"\\n\\t\\u0001\\u0085\"",
  "\"\\u202e%s%n<b>&amp;\"",
  "\"../../etc/passwd\"",
  /* Cut at 40, 60 or 100 bytes this is no UTF-8. */
  "\"x" UMLAUTS UMLAUTS UMLAUTS UMLAUTS UMLAUTS UMLAUTS "\"",
  "\"" UMLAUTS UMLAUTS UMLAUTS UMLAUTS UMLAUTS UMLAUTS "\"",
  "\"32768\"",
  "[]",
  "{}",
  "[[]]",
  "[null]",
  "{\"\":null}",
  "[1,\"a\",{},[],true,null]",
  "{\"id\":1,\"slot\":2,\"basis\":3,\"value\":4}",
};

/* What takes more than a word. */
enum
{
  LONG_STRING = G_N_ELEMENTS (words),
  LONG_NUMBER,
  NEST_IN_BOUNDS,
  NEST_DEEP,
  REPEAT,
  TWICE_OTHER,
  TWICE_SAME,
  TAKE_OUT,
  RENAME,
  N_KINDS
};

static const char *const others[] = {
  "a text of 1 MB",      "a number of 1 MB", "30 brackets", "100000 brackets",       "5000 times",
  "twice, first a word", "twice, alike",     "taken out",   "the member named else",
};

guint
json_attack_n_kinds (void)
{
  return N_KINDS;
}

const char *
json_attack_name (guint kind)
{
  return kind < G_N_ELEMENTS (words) ? words[kind] : others[kind - G_N_ELEMENTS (words)];
}

static gsize
end_of_string (const char *text, gsize size, gsize at)
{
  for (at++; at < size && text[at] != '"'; at++)
    if (text[at] == '\\')
      at++;
  return MIN (at + 1, size);
}

static gsize
end_of_word (const char *text, gsize size, gsize at)
{
  while (at < size && strchr (",]} \n\t\r", text[at]) == NULL)
    at++;
  return at;
}

static gboolean
is_key (const char *text, gsize size, gsize at)
{
  while (at < size && g_ascii_isspace (text[at]))
    at++;
  return at < size && text[at] == ':';
}

/**
 * json_attack_values:
 * @text: a valid JSON text
 * @size: its bytes
 *
 * Returns: (transfer full): JsonAttackValue, the root first
 */
GArray *
json_attack_values (const char *text, gsize size)
{
  GArray *values = g_array_new (FALSE, FALSE, sizeof (JsonAttackValue));
  g_autoptr (GArray) open = g_array_new (FALSE, FALSE, sizeof (guint));
  gsize key = G_MAXSIZE;

  for (gsize at = 0; at < size;)
    {
      JsonAttackValue value = { .start = at, .end = at + 1, .key = key };
      char c = text[at];

      if (g_ascii_isspace (c) || c == ',' || c == ':')
        {
          at++;
          continue;
        }
      if (c == '}' || c == ']')
        {
          guint last = g_array_index (open, guint, open->len - 1);

          g_array_index (values, JsonAttackValue, last).end = ++at;
          g_array_set_size (open, open->len - 1);
          continue;
        }
      if (c == '{' || c == '[')
        g_array_append_val (open, values->len);
      else
        value.end = c == '"' ? end_of_string (text, size, at) : end_of_word (text, size, at);
      at = value.end;
      if (c == '"' && is_key (text, size, at))
        {
          key = value.start;
          continue;
        }
      key = G_MAXSIZE;
      g_array_append_val (values, value);
    }
  return values;
}

static void
append_many (GString *out, char c, gsize n)
{
  gsize before = out->len;

  g_string_set_size (out, before + n);
  memset (out->str + before, c, n);
}

static void
append_nest (GString *out, guint n)
{
  append_many (out, '[', n);
  append_many (out, ']', n);
}

/* The elements of an array again and again; any other value as an array of itself. */
static void
append_repeated (GString *out, const char *text, gsize size)
{
  gboolean array = *text == '[';
  const char *from = array ? text + 1 : text;
  gsize n = array ? size - 2 : size;
  guint repeats = (guint)MIN (REPEATS, 4 * LONG_TEXT / (n + 1));

  g_string_append_c (out, '[');
  for (guint i = 0; i < repeats; i++)
    {
      if (i > 0)
        g_string_append_c (out, ',');
      g_string_append_len (out, from, (gssize)n);
    }
  g_string_append_c (out, ']');
}

/* The member's name and colon, up to the value. */
static void
append_key (GString *out, const char *text, const JsonAttackValue *value)
{
  if (value->key != G_MAXSIZE)
    g_string_append_len (out, text + value->key, (gssize)(value->start - value->key));
}

static void
append_wrong (GString *out, const char *text, const JsonAttackValue *value, guint kind)
{
  gsize n = value->end - value->start;

  switch (kind)
    {
    case LONG_STRING:
      g_string_append_c (out, '"');
      append_many (out, 'x', LONG_TEXT);
      g_string_append_c (out, '"');
      break;
    case LONG_NUMBER:
      append_many (out, '9', LONG_TEXT);
      break;
    case NEST_IN_BOUNDS:
      append_nest (out, 30);
      break;
    case NEST_DEEP:
      append_nest (out, DEEP);
      break;
    case REPEAT:
      append_repeated (out, text + value->start, n);
      break;
    case TWICE_OTHER:
      g_string_append (out, "true,");
      append_key (out, text, value);
      g_string_append_len (out, text + value->start, (gssize)n);
      break;
    case TWICE_SAME:
      g_string_append_len (out, text + value->start, (gssize)n);
      g_string_append_c (out, ',');
      append_key (out, text, value);
      g_string_append_len (out, text + value->start, (gssize)n);
      break;
    default:
      g_string_append (out, words[kind]);
      break;
    }
}

/* Out with the member or element and the comma before it, or behind it. */
static void
take_out (GString *out, const char *text, gsize size, const JsonAttackValue *value)
{
  gsize from = value->key != G_MAXSIZE ? value->key : value->start, to = value->end;

  while (from > 0 && g_ascii_isspace (text[from - 1]))
    from--;
  if (from > 0 && text[from - 1] == ',')
    from--;
  else
    while (to < size && (g_ascii_isspace (text[to]) || text[to] == ','))
      if (text[to++] == ',')
        break;
  g_string_append_len (out, text, (gssize)from);
  g_string_append_len (out, text + to, (gssize)(size - to));
}

/**
 * json_attack_apply:
 * @text: a valid JSON text
 * @size: its bytes
 * @value: one of its values
 * @kind: what to do to it, below json_attack_n_kinds()
 *
 * Returns: (transfer full): the text with that value made wrong; it need not be JSON any more
 */
GString *
json_attack_apply (const char *text, gsize size, const JsonAttackValue *value, guint kind)
{
  GString *out = g_string_sized_new (size + 64);

  if (kind == TAKE_OUT)
    {
      take_out (out, text, size, value);
      return out;
    }
  if (kind == RENAME && value->key != G_MAXSIZE)
    {
      g_string_append_len (out, text, (gssize)value->key);
      g_string_append (out, "\"x\\n" UMLAUTS UMLAUTS UMLAUTS UMLAUTS "\":");
      g_string_append_len (out, text + value->start, (gssize)(size - value->start));
      return out;
    }
  g_string_append_len (out, text, (gssize)value->start);
  if (kind != RENAME)
    append_wrong (out, text, value, kind);
  g_string_append_len (out, text + value->end, (gssize)(size - value->end));
  return out;
}
