/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/**
 * lid_text_clean:
 * @text: (nullable): foreign bytes, of any encoding; NULL only with @size 0
 * @size: how many, or -1 up to the NUL
 *
 * Makes text that can be shown and stored: Latin-1 read as such where it is not UTF-8, control
 * characters and no-break blanks become blanks, both ends trimmed, at most LID_TEXT_MAX characters.
 *
 * Returns: (transfer full): valid UTF-8, maybe empty
 */
char *
lid_text_clean (const char *text, gssize size)
{
  gsize n = size < 0 ? strlen (text) : (gsize)size, start = 0;
  gboolean utf8;
  GString *out;

  if (n == 0)
    return g_strdup ("");
  if (memchr (text, 0, n) != NULL)
    n = strlen (text);
  while (start < n && (guchar)text[start] <= ' ')
    start++;
  while (n > start && (guchar)text[n - 1] <= ' ')
    n--;
  utf8 = g_utf8_validate (text + start, (gssize)(n - start), NULL);
  out = g_string_sized_new (n - start + 1);
  for (gsize i = start, count = 0; i < n && count < LID_TEXT_MAX; count++)
    {
      gunichar c = utf8 ? g_utf8_get_char (text + i) : (guchar)text[i];

      i += utf8 ? (gsize)g_utf8_skip[(guchar)text[i]] : 1;
      if (c < 0x20 || (c >= 0x7f && c <= 0xa0))
        c = ' ';
      if (c == ' ' && out->len == 0)
        continue;
      if (c < 0x80)
        g_string_append_c (out, (char)c);
      else
        g_string_append_unichar (out, c);
    }
  while (out->len > 0 && out->str[out->len - 1] == ' ')
    g_string_truncate (out, out->len - 1);
  return g_string_free (out, FALSE);
}

/**
 * lid_text_one_line:
 * @text: a sentence that quotes foreign text, maybe cut through a letter
 *
 * Returns: (transfer full): the same as valid UTF-8, with blanks for control characters
 */
char *
lid_text_one_line (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *out = g_string_sized_new (strlen (valid));

  for (const char *p = valid; *p != 0; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);
      g_string_append_unichar (out, g_unichar_iscntrl (c) ? ' ' : c);
    }
  return g_string_free (out, FALSE);
}

/**
 * lid_text_begin:
 * @text: valid UTF-8, written as in the middle of a sentence
 *
 * Returns: (transfer full): the same with its first letter as a sentence begins
 */
char *
lid_text_begin (const char *text)
{
  char first[8] = { 0 };

  if (*text == 0)
    return g_strdup ("");
  g_unichar_to_utf8 (g_unichar_totitle (g_utf8_get_char (text)), first);
  return g_strconcat (first, g_utf8_next_char (text), NULL);
}

/**
 * lid_text_equal_folded:
 *
 * Returns: whether two texts (nullable) are the same but for ASCII case and runs of blanks
 */
gboolean
lid_text_equal_folded (const char *a, const char *b)
{
  if (a == NULL || b == NULL)
    return a == b;
  for (;;)
    {
      gboolean gap = FALSE;

      while (*a == ' ' && (a[1] == ' ' || a[1] == 0))
        a++;
      while (*b == ' ' && (b[1] == ' ' || b[1] == 0))
        b++;
      gap = (*a == 0) || (*b == 0);
      if (gap)
        return *a == *b;
      if (g_ascii_tolower (*a) != g_ascii_tolower (*b))
        return FALSE;
      a++;
      b++;
    }
}

/* Both at a number: their order by value, of any length; both are moved behind it. */
static int
compare_numbers (const char **a, const char **b)
{
  gsize m, n;
  int order;

  while (**a == '0')
    (*a)++;
  while (**b == '0')
    (*b)++;
  m = strspn (*a, "0123456789");
  n = strspn (*b, "0123456789");
  order = m != n ? (m < n ? -1 : 1) : strncmp (*a, *b, n);
  *a += m;
  *b += n;
  return order;
}

/**
 * lid_text_compare_naturally:
 *
 * Orders names as people count them: numbers by value ("A2" before "A10"), ASCII case and the
 * length of a run of blanks do not count.
 *
 * Returns: less than, equal to or greater than 0
 */
int
lid_text_compare_naturally (const char *a, const char *b)
{
  while (*a != 0 && *b != 0)
    {
      int order;

      while (*a == ' ' && a[1] == ' ')
        a++;
      while (*b == ' ' && b[1] == ' ')
        b++;
      if (g_ascii_isdigit (*a) && g_ascii_isdigit (*b))
        {
          order = compare_numbers (&a, &b);
          if (order != 0)
            return order;
          continue;
        }
      order = (guchar)g_ascii_tolower (*a) - (guchar)g_ascii_tolower (*b);
      if (order != 0)
        return order;
      a++;
      b++;
    }
  return (*a != 0) - (*b != 0);
}

/**
 * lid_text_join:
 * @words: the words
 * @n_words: how many
 * @n_most: at most so many are named, the rest counted
 *
 * Returns: (transfer full): "A1, A2 and 6 more"
 */
char *
lid_text_join (const char *const *words, guint n_words, guint n_most)
{
  GString *out = g_string_new (NULL);
  guint n = n_words > n_most ? n_most : n_words;

  for (guint i = 0; i < n; i++)
    {
      if (i > 0)
        g_string_append (out, i + 1 == n_words ? _ (" and ") : ", ");
      g_string_append (out, words[i]);
    }
  if (n_words > n)
    g_string_append_printf (out, _ (" and %u more"), n_words - n);
  return g_string_free (out, FALSE);
}
