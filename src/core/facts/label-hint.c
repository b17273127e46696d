/* SPDX-License-Identifier: GPL-3.0-or-later */
/* label-hint.c — which label a refused text may have been.
 *
 * Scanners and hasty eyes take B for 8, O for 0, A for 4. Where the grammar refused, each
 * look-alike inside the refused bytes is swapped and the text is read again; a swap counts only if
 * reading then gets further. So at most MAX_SWAPS slips are found, in at most a few dozen readings,
 * whatever the text is. The find is only ever shown: nothing is mended in silence, and where two
 * different labels come out, none is shown. */
#include "facts/label-cursor.h"

#include <string.h>

#define MAX_SWAPS 3
#define MAX_SPAN 16

static const char pairs[][2] = {
  { 'B', '8' }, { '8', 'B' }, { 'O', '0' }, { 'Q', '0' }, { 'D', '0' }, { 'I', '1' },
  { 'l', '1' }, { '|', '1' }, { 'S', '5' }, { '5', 'S' }, { 'Z', '2' }, { 'G', '6' },
  { '6', 'G' }, { 'A', '4' }, { '4', 'A' }, { '0', 'D' },
};

typedef struct
{
  char text[LID_LABEL_MAX_BYTES + 1];
  gsize size;
  char *found;    /* the one label that came out */
  gboolean twice; /* more than one did */
} Search;

static gboolean
is_further (LidLabelFault next, LidLabelFault before)
{
  return next.start > before.start || (next.start == before.start && next.length > before.length);
}

static void
search_from (Search *search, LidLabelFault fault, guint swaps)
{
  /* One byte more: figures are refused up to the first letter, which may be the slip. */
  gsize stop = MIN (fault.start + MIN (fault.length + 1, MAX_SPAN), search->size);

  for (gsize i = fault.start; i < stop; i++)
    for (guint p = 0; p < G_N_ELEMENTS (pairs) && !search->twice; p++)
      {
        char before = search->text[i];
        LidLabelFault next = { 0 };
        LidLabel label;

        if (before != pairs[p][0])
          continue;
        search->text[i] = pairs[p][1];
        if (lid_label_parse_plain (search->text, search->size, &label, &next, NULL))
          {
            g_autofree char *printed = lid_label_print (&label);

            if (search->found == NULL)
              search->found = g_steal_pointer (&printed);
            else
              search->twice = strcmp (search->found, printed) != 0;
          }
        else if (swaps > 1 && is_further (next, fault))
          search_from (search, next, swaps - 1);
        search->text[i] = before;
      }
}

/* Whole-text slips: dashes of print for hyphens, small letters for capitals. */
static void
straighten (Search *search, const char *text, gsize size)
{
  gsize n = 0;

  for (gsize i = 0; i < size; i++)
    if (size - i >= 3 && (guchar)text[i] == 0xe2 && (guchar)text[i + 1] == 0x80
        && (guchar)text[i + 2] >= 0x90 && (guchar)text[i + 2] <= 0x95)
      {
        search->text[n++] = '-';
        i += 2;
      }
    else
      search->text[n++] = g_ascii_toupper (text[i]);
  search->text[n] = 0;
  search->size = n;
}

/**
 * lid_label_hint_find:
 * @text: a refused text, NUL-terminated, at most LID_LABEL_MAX_BYTES
 * @size: its bytes
 *
 * Returns: (transfer full) (nullable): the label it may have been, in normal form
 */
char *
lid_label_hint_find (const char *text, gsize size)
{
  Search search = { .size = size };
  LidLabelFault fault = { 0 };
  LidLabel label;

  if (memchr (text, 0, size) != NULL)
    return NULL;
  memcpy (search.text, text, size + 1);
  if (lid_label_parse_plain (search.text, search.size, &label, &fault, NULL))
    return NULL;
  search_from (&search, fault, MAX_SWAPS);
  if (search.found == NULL)
    {
      straighten (&search, text, size);
      if (lid_label_parse_plain (search.text, search.size, &label, &fault, NULL))
        return lid_label_print (&label);
      search_from (&search, fault, MAX_SWAPS);
    }
  if (search.twice)
    g_clear_pointer (&search.found, g_free);
  return search.found;
}

/**
 * lid_label_hint_words:
 * @text: a refused text, NUL-terminated, at most LID_LABEL_MAX_BYTES
 * @size: its bytes
 *
 * A hyphen makes a text a label, so "32g so-dimm" is refused as one.
 *
 * Returns: (transfer full) (nullable): the short form it is without its hyphens
 */
char *
lid_label_hint_words (const char *text, gsize size)
{
  char copy[LID_LABEL_MAX_BYTES + 1];
  LidLabelFault fault;
  LidLabel label;

  if (memchr (text, 0, size) != NULL || memchr (text, '-', size) == NULL)
    return NULL;
  memcpy (copy, text, size + 1);
  for (gsize i = 0; i < size; i++)
    if (copy[i] == '-')
      copy[i] = ' ';
  return lid_label_parse_plain (copy, size, &label, &fault, NULL) ? lid_label_print (&label) : NULL;
}
