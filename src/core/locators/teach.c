/* SPDX-License-Identifier: GPL-3.0-or-later */
/* teach.c — what the technician knows and the names do not state.
 * A pattern works on the slots of one processor in the order of the numbers in their names, never
 * in the order of the table: in 6 machines of 10 the two differ (shared/facts/locators.md 4). Only
 * slots whose names have no numbers to tell them apart keep the table's order, and that is said.
 * With eight slots 1 to 8 (channel above, place in the channel below):
 *
 *   by-channel:2          1 1 2 2 3 3 4 4     neighbours share a channel
 *                         1 2 1 2 1 2 1 2
 *   first-slots-first:4   1 2 3 4 1 2 3 4     all first slots, then all second
 *                         1 1 1 1 2 2 2 2
 *   mirrored:4            1 1 2 2 4 4 3 3     two sides of a processor; the second one counts
 *                         1 2 1 2 2 1 2 1     backwards, as it is the mirror image of the first
 *   letter-order          1G 2D 3A 4H …       fit A first, then B; on several processors all A,
 *                                             then all B. Channels stay as they are
 *   letter-socket         A1 A2 … B1 B2 …     A is processor 1, B is 2. Channels are not told
 *   letter-socket:4       A1 A2 … A8          the same, and first-slots-first:4 on each
 *   channels:A1+A2,…      slot by slot: teach-groups.c
 *
 * Invariant: a pattern is applied whole or not at all. Soldered memory has no slot and keeps its
 * place. Patterns are proposals for a person to confirm, "never a fact" (locators.md 2, "Channels
 * when only processor and number are told"). */
#include "locators/teach.h"

#include "base/error.h"
#include "base/text.h"
#include "locators/marks.h"
#include "locators/teach-groups.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>

/* One slot while a pattern is tried. */
typedef struct
{
  LidDevice *device;
  guint index;  /* in the list */
  int letter;   /* from 0; -1: none */
  int socket;   /* from 1; 0: not told */
  guint nth;    /* among the slots of its socket, from 0 */
  guint n;      /* slots of its socket */
  int channel;  /* from 1; 0: not told */
  int position; /* from 1; 0: not told */
} Pupil;

static int
compare_names (const Pupil *a, const Pupil *b)
{
  int order = lid_text_compare_naturally (a->device->locator, b->device->locator);

  return order != 0 ? order : lid_text_compare_naturally (a->device->bank, b->device->bank);
}

static int
compare_pupils (const void *left, const void *right)
{
  const Pupil *a = left, *b = right;
  int order;

  if (a->socket != b->socket)
    return a->socket < b->socket ? -1 : 1;
  order = compare_names (a, b);
  return order != 0 ? order : (a->index > b->index) - (a->index < b->index);
}

static int
compare_letters (const void *left, const void *right)
{
  const Pupil *a = left, *b = right;

  if (a->letter != b->letter)
    return a->letter < b->letter ? -1 : 1;
  return compare_pupils (left, right);
}

static gboolean
refuse_lost (guint n_lost, GError **error)
{
  if (n_lost == 0)
    return TRUE;
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
               g_dngettext (GETTEXT_PACKAGE,
                            "the firmware gives no name for %u slot, so its number is not known; "
                            "teach from a list read with that slot filled",
                            "the firmware gives no names for %u slots, so their numbers are not "
                            "known; teach from a list read with these slots filled",
                            n_lost),
               n_lost);
  return FALSE;
}

static gboolean
list_pupils (LidInventory *inventory, Pupil *pupils, guint *n_pupils, GError **error)
{
  guint n = 0, n_lost = 0;

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      LidDevice *device = inventory->devices->pdata[i];
      LidMarks marks;

      if (device->state == LID_SLOT_SOLDERED)
        continue;
      lid_marks_read (device->locator, FALSE, &marks);
      n_lost += marks.lost;
      pupils[n++]
          = (Pupil){ .device = device,
                     .index = i,
                     .letter
                     = marks.letter == LID_MARK_NONE ? -1 : marks.letter - LID_MARK_FIRST_LETTER,
                     .socket = device->place.socket };
    }
  *n_pupils = n;
  if (n > 0)
    return refuse_lost (n_lost, error);
  g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL, _ ("there is no slot to teach"));
  return FALSE;
}

static gboolean
need_letters (const Pupil *pupils, guint n, GError **error)
{
  for (guint i = 0; i < n; i++)
    if (pupils[i].letter < 0)
      {
        g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                     _ ("the name “%s” has no letter beside its number; this pattern needs one"),
                     pupils[i].device->locator);
        return FALSE;
      }
  return TRUE;
}

/* The letters that occur become 1, 2, 3 … */
static void
letters_to_sockets (Pupil *pupils, guint n)
{
  guint32 seen = 0;

  for (guint i = 0; i < n; i++)
    seen |= 1u << pupils[i].letter;
  for (guint i = 0; i < n; i++)
    {
      pupils[i].socket = 1;
      for (int letter = 0; letter < pupils[i].letter; letter++)
        pupils[i].socket += (seen >> letter) & 1;
    }
}

/* Sorts by socket and number and counts each socket's slots. Sockets are told for all slots or for
 * none; then the whole board counts as one. */
static gboolean
number_pupils (Pupil *pupils, guint n, guint *n_alike, GError **error)
{
  qsort (pupils, n, sizeof *pupils, compare_pupils);
  *n_alike = 0;
  if (pupils[0].socket == 0 && pupils[n - 1].socket != 0)
    {
      g_set_error (
          error, LID_ERROR, LID_ERROR_BAD_CALL,
          _ ("the processor of “%s” is not told, that of others is; a pattern needs it for "
             "every slot or for none"),
          pupils[0].device->slot);
      return FALSE;
    }
  for (guint first = 0, end; first < n; first = end)
    {
      for (end = first; end < n && pupils[end].socket == pupils[first].socket; end++)
        *n_alike += end > first && compare_names (&pupils[end], &pupils[end - 1]) == 0;
      for (guint i = first; i < end; i++)
        {
          pupils[i].nth = i - first;
          pupils[i].n = end - first;
        }
    }
  return TRUE;
}

/* Slots in groups of @size; 9 slots by 2 do not go. */
static gboolean
need_multiple (const Pupil *pupils, guint n, guint size, GError **error)
{
  for (guint i = 0; i < n; i++)
    if (pupils[i].n % size != 0)
      {
        if (pupils[i].socket > 0)
          g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                       _ ("processor %d has %u slots, which do not divide by %u"), pupils[i].socket,
                       pupils[i].n, size);
        else
          g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                       _ ("the board has %u slots, which do not divide by %u"), pupils[i].n, size);
        return FALSE;
      }
  return TRUE;
}

static void
place_pupil (Pupil *pupil, const LidTeachPattern *pattern)
{
  guint count = pattern->count, nth = pupil->nth;
  guint on_channel = pupil->n / MAX (count, 1);

  switch (pattern->kind)
    {
    case LID_TEACH_BY_CHANNEL:
      pupil->channel = (int)(nth / count) + 1;
      pupil->position = (int)(nth % count) + 1;
      break;
    case LID_TEACH_FIRST_SLOTS_FIRST:
    case LID_TEACH_LETTER_SOCKET:
      if (count == 0)
        break;
      pupil->channel = (int)(nth % count) + 1;
      pupil->position = (int)(nth / count) + 1;
      break;
    case LID_TEACH_MIRRORED:
      pupil->channel = (int)(nth / on_channel) + 1;
      pupil->position = (int)(nth % on_channel) + 1;
      if (nth >= pupil->n / 2)
        {
          pupil->channel = (int)(count + count / 2 + 1) - pupil->channel;
          pupil->position = (int)on_channel + 1 - pupil->position;
        }
      break;
    case LID_TEACH_LETTER_ORDER:
    case LID_TEACH_CHANNELS:
    default:
      break;
    }
}

static void
write_place (const Pupil *pupil)
{
  LidPlace *place = &pupil->device->place;

  g_free (place->channel);
  *place
      = (LidPlace){ .socket = pupil->socket,
                    .position = pupil->position,
                    .channel = pupil->channel > 0 ? g_strdup_printf ("%d", pupil->channel) : NULL,
                    .told_by = pupil->channel > 0 ? LID_TOLD_TAUGHT : LID_TOLD_NOT };
}

static gboolean
teach_channels (
    LidInventory *inventory, const LidTeachPattern *pattern, Pupil *pupils, guint n, GError **error)
{
  guint n_alike;

  if (pattern->kind == LID_TEACH_LETTER_SOCKET)
    {
      if (!need_letters (pupils, n, error))
        return FALSE;
      letters_to_sockets (pupils, n);
    }
  if (!number_pupils (pupils, n, &n_alike, error)
      || !need_multiple (pupils, n, MAX (pattern->count, 1), error))
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      place_pupil (&pupils[i], pattern);
      write_place (&pupils[i]);
    }
  if (n_alike > 0)
    lid_inventory_remark (inventory, _ ("slot names"),
                          _ ("Compare with the print on the board before fitting."),
                          _ ("Some names have no numbers that tell their slots apart; these were "
                             "counted in the order of the list."));
  return TRUE;
}

static gboolean
teach_order (Pupil *pupils, guint n, GPtrArray **order, GError **error)
{
  if (!need_letters (pupils, n, error))
    return FALSE;
  qsort (pupils, n, sizeof *pupils, compare_letters);
  if (pupils[0].letter == pupils[n - 1].letter && n > 1)
    {
      g_set_error_literal (error, LID_ERROR, LID_ERROR_BAD_CALL,
                           _ ("all names have the same letter, so it tells no order of fitting"));
      return FALSE;
    }
  if (order == NULL)
    return TRUE;
  *order = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (*order, g_strdup (pupils[i].device->slot));
  return TRUE;
}

/**
 * lid_teach_apply:
 * @inventory: whose devices have their places and slot ids from lid_locators_place(); a pattern of
 * channels replaces socket, channel and position, also where the names stated them
 * @pattern: what is taught
 * @order: (out) (optional) (nullable) (transfer full) (element-type utf8): slot ids in the order of
 * fitting where the pattern tells it, else set to NULL
 * @error: LID_ERROR_BAD_CALL where the pattern does not fit this machine; then nothing is changed
 *
 * Channels and order of fitting are taught one after the other by two calls.
 *
 * Returns: whether it fits
 */
gboolean
lid_teach_apply (LidInventory *inventory,
                 const LidTeachPattern *pattern,
                 GPtrArray **order,
                 GError **error)
{
  g_autofree Pupil *pupils = g_new0 (Pupil, inventory->devices->len);
  guint n;

  if (order != NULL)
    *order = NULL;
  if (!list_pupils (inventory, pupils, &n, error))
    return FALSE;
  if (pattern->kind == LID_TEACH_CHANNELS)
    {
      g_autoptr (LidTeachGroups) groups = lid_teach_groups_parse (pattern->groups, error);

      return groups != NULL && lid_teach_groups_apply (groups, inventory, error);
    }
  if (pattern->kind == LID_TEACH_LETTER_ORDER)
    return teach_order (pupils, n, order, error);
  return teach_channels (inventory, pattern, pupils, n, error);
}
