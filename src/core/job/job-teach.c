/* SPDX-License-Identifier: GPL-3.0-or-later */
/* job-teach.c — a job whose channels are not told, and the technician who knows them.
 * The inventory is long gone when a job is taught: what teaching needs of it (names, banks,
 * processors) is kept by the derived board as spellings. The fingerprint stays the derived board's
 * own, as it was taken from the whole inventory. */
#include "job/job-teach.h"

#include "base/error.h"
#include "board/board-file.h"
#include "board/board-teach.h"
#include "job/job-board.h"
#include "locators/locators.h"
#include "locators/marks.h"
#include "locators/teach.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const LidSpelling *
spelling_of (const LidBoard *board, guint slot)
{
  for (guint i = 0; i < board->n_spellings; i++)
    if (board->spellings[i].slot == slot)
      return &board->spellings[i];
  return NULL;
}

static void
set_text (char **field, const char *text)
{
  g_free (*field);
  *field = g_strdup (text != NULL ? text : "");
}

/* The list as it was read, as far as teaching looks at it. */
static LidInventory *
inventory_of (const LidJob *job)
{
  const LidBoard *board = job->board;
  LidInventory *inventory
      = lid_inventory_new (job->title, board->n_spellings > 0 ? board->spellings[0].format : NULL);

  for (guint i = 0; i < board->n_sockets; i++)
    lid_inventory_add_processor (inventory, board->sockets[i].name,
                                 job->as_found == NULL || job->as_found->processors[i].fitted);
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidBoardSlot *slot = &board->slots[i];
      const LidSpelling *spelling = spelling_of (board, i);
      LidDevice *device = lid_inventory_add_device (inventory);

      set_text (&device->locator, spelling != NULL ? spelling->locator : slot->name);
      set_text (&device->bank, spelling != NULL ? spelling->bank : NULL);
      if (slot->soldered != NULL)
        {
          device->state = LID_SLOT_SOLDERED;
          device->module = lid_module_copy (slot->soldered);
        }
    }
  lid_locators_place (inventory);
  for (guint i = 0; i < board->n_slots; i++)
    set_text (&((LidDevice *)inventory->devices->pdata[i])->slot, board->slots[i].id);
  return inventory;
}

/* The board is known again by what the whole inventory told of the machine. */
static void
keep_fingerprint (LidBoard *taught, const LidBoard *derived)
{
  if (derived->n_fingerprints == 0 || taught->n_fingerprints == 0)
    return;
  lid_module_set_text (&taught->fingerprints->product, derived->fingerprints->product);
  lid_module_set_text (&taught->fingerprints->board, derived->fingerprints->board);
  lid_module_set_text (&taught->fingerprints->names, derived->fingerprints->names);
  taught->fingerprints->n_slots = derived->fingerprints->n_slots;
  taught->fingerprints->n_arrays = derived->fingerprints->n_arrays;
  lid_module_set_text (&taught->name, derived->name);
  lid_module_set_text (&taught->id, derived->id);
  g_clear_pointer (&taught->json, json_node_unref);
  g_clear_pointer (&taught->hash, g_free);
  taught->json = lid_board_file_to_node (taught);
  taught->hash = lid_board_file_hash (taught->json);
}

/* Channels and order are taught one after the other: what the first told, the second keeps. */
static void
keep_channels (LidInventory *inventory, const LidBoard *board)
{
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidBoardSlot *slot = &board->slots[i];
      LidPlace *place = &((LidDevice *)inventory->devices->pdata[i])->place;

      if (slot->channel == LID_NOWHERE)
        continue;
      place->socket = slot->socket + 1;
      place->controller = board->channels[slot->channel].controller;
      place->position = (int)slot->position;
      g_free (place->channel);
      place->channel = g_strdup (board->channels[slot->channel].name);
      place->told_by = LID_TOLD_TAUGHT;
    }
}

static GPtrArray *
keep_order (const LidBoard *board)
{
  GPtrArray *order = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < board->n_order; i++)
    g_ptr_array_add (order, g_strdup (board->slots[board->order[i]].id));
  return order;
}

static LidBoard *
teach_board (const LidJob *job, const char *pattern, GError **error)
{
  g_autoptr (LidInventory) inventory = NULL;
  g_autoptr (GPtrArray) order = NULL;
  LidTeachPattern parsed;
  LidBoard *taught;

  if (!lid_teach_parse (pattern, &parsed, error))
    return NULL;
  inventory = inventory_of (job);
  if (!lid_teach_apply (inventory, &parsed, &order, error))
    return NULL;
  if (parsed.kind == LID_TEACH_LETTER_ORDER)
    keep_channels (inventory, job->board);
  else
    order = keep_order (job->board);
  taught = lid_board_teach (inventory, order, pattern, NULL);
  keep_fingerprint (taught, job->board);
  return taught;
}

/**
 * lid_job_teach:
 * @job: a job on a derived board
 * @pattern: a numbering pattern as lid_teach_parse() takes it
 * @error: LID_ERROR_BAD_CALL when the pattern does not fit these slots
 *
 * The job itself stays as it is: the result is a copy to look at, and to take.
 *
 * Returns: (transfer full) (nullable): the same job on the board as taught
 */
LidJob *
lid_job_teach (const LidJob *job, const char *pattern, GError **error)
{
  g_autoptr (LidJob) taught = NULL;
  g_autoptr (LidBoard) board = NULL;

  if (!job->board->derived)
    {
      g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
                   _ ("the board %s is defined already; only derived boards are taught"),
                   job->board->name);
      return NULL;
    }
  board = teach_board (job, pattern, error);
  if (board == NULL)
    return NULL;
  taught = lid_job_board_move (job, board, NULL, error);
  if (taught == NULL)
    return NULL;
  lid_job_remember (taught, "changed", _ ("channels taught: %s"), pattern);
  return g_steal_pointer (&taught);
}

static void
offer (GPtrArray *offers, const LidJob *job, const char *word, guint count)
{
  char *pattern = count > 0 ? g_strdup_printf ("%s:%u", word, count) : g_strdup (word);
  g_autoptr (LidBoard) board = teach_board (job, pattern, NULL);

  for (guint i = 0; i < offers->len; i++)
    if (strcmp (offers->pdata[i], pattern) == 0)
      g_clear_pointer (&board, lid_board_unref);
  if (board != NULL
      && (board->channels_told || board->n_order > 0 || strchr (pattern, ':') == NULL))
    g_ptr_array_add (offers, pattern);
  else
    g_free (pattern);
}

/* Slots of the processor with the most; of the whole board where processors are not told. */
static guint
slots_of_a_processor (const LidBoard *board)
{
  guint most = 0;

  for (guint s = 0; s < board->n_sockets; s++)
    {
      guint n = 0;

      for (guint i = 0; i < board->n_slots; i++)
        n += board->slots[i].socket == (int)s && board->slots[i].soldered == NULL;
      most = MAX (most, n);
    }
  return board->sockets_told ? most : board->n_slots;
}

/* What the letters in the names can mean: as many as processors, each on as many slots, they may be
 * the processors; none twice on a processor, they may be the order of fitting. */
typedef struct
{
  gboolean processors, order;
  guint on_each; /* slots of a letter */
} Letters;

static Letters
look_at_letters (const LidBoard *board)
{
  Letters seen = { board->n_sockets > 1 && !board->sockets_told, board->n_slots > 1, 0 };
  guint of_letter[32] = { 0 }, n_letters = 0;

  for (guint i = 0; i < board->n_slots; i++)
    {
      LidMarks marks;

      lid_marks_read (board->slots[i].name, FALSE, &marks);
      if (!lid_mark_is_letter (marks.letter)
          || marks.letter - LID_MARK_FIRST_LETTER >= (int)G_N_ELEMENTS (of_letter))
        return (Letters){ FALSE, FALSE, 0 };
      n_letters += of_letter[marks.letter - LID_MARK_FIRST_LETTER]++ == 0;
      seen.on_each = MAX (seen.on_each, of_letter[marks.letter - LID_MARK_FIRST_LETTER]);
    }
  seen.processors = seen.processors && n_letters == board->n_sockets
                    && seen.on_each * n_letters == board->n_slots;
  seen.order = seen.order && n_letters > 1 && board->n_order == 0
               && seen.on_each <= (board->sockets_told ? board->n_sockets : 1);
  return seen;
}

static void
offer_channels (GPtrArray *offers, const LidJob *job, guint n)
{
  for (guint on_channel = 2; on_channel <= 3; on_channel++)
    {
      if (n == 0 || n % on_channel != 0)
        continue;
      offer (offers, job, "by-channel", on_channel);
      if (n / on_channel > 1)
        offer (offers, job, "first-slots-first", n / on_channel);
      if ((n / on_channel) % 2 == 0)
        offer (offers, job, "mirrored", n / on_channel);
    }
  offer (offers, job, "by-channel", 1);
}

/**
 * lid_job_teach_offers:
 * @job: a job on a derived board
 *
 * Channels of one, two and three slots: no machine has more (common practice, no source).
 *
 * Returns: (transfer full) (element-type utf8): the patterns that fit this machine's slots
 */
GPtrArray *
lid_job_teach_offers (const LidJob *job)
{
  GPtrArray *offers = g_ptr_array_new_with_free_func (g_free);
  Letters letters;

  if (!job->board->derived)
    return offers;
  letters = look_at_letters (job->board);
  for (guint on_channel = 1; letters.processors && on_channel <= 3; on_channel++)
    if (letters.on_each % on_channel == 0)
      offer (offers, job, "letter-socket", letters.on_each / on_channel);
  offer_channels (offers, job, slots_of_a_processor (job->board));
  if (letters.order)
    offer (offers, job, "letter-order", 0);
  return offers;
}

/**
 * lid_job_teach_refusal:
 * @job: a job on a derived board
 *
 * Returns: (transfer full) (nullable): why nothing can be taught about these slots; NULL: it can
 */
char *
lid_job_teach_refusal (const LidJob *job)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidJob) taught = lid_job_teach (job, "by-channel:1", &error);

  return taught == NULL ? g_strdup (error->message) : NULL;
}

/**
 * lid_job_teach_words:
 * @pattern: a numbering pattern
 *
 * Returns: (transfer full): what it says of a board, in a few words
 */
char *
lid_job_teach_words (const char *pattern)
{
  LidTeachPattern parsed;

  if (!lid_teach_parse (pattern, &parsed, NULL))
    return g_strdup (pattern);
  switch (parsed.kind)
    {
    case LID_TEACH_BY_CHANNEL:
      return parsed.count == 1
                 ? g_strdup (_ ("every slot a channel of its own"))
                 : g_strdup_printf (_ ("%u neighbours share a channel"), parsed.count);
    case LID_TEACH_FIRST_SLOTS_FIRST:
      return g_strdup_printf (_ ("all first slots, then all second: %u channels"), parsed.count);
    case LID_TEACH_MIRRORED:
      return g_strdup_printf (_ ("two sides, the second counts backwards: %u channels"),
                              parsed.count);
    case LID_TEACH_LETTER_ORDER:
      return g_strdup (_ ("the letter is the order of fitting"));
    case LID_TEACH_LETTER_SOCKET:
      return parsed.count == 0
                 ? g_strdup (_ ("the letter is the processor"))
                 : g_strdup_printf (_ ("the letter is the processor, %u channels each"),
                                    parsed.count);
    case LID_TEACH_CHANNELS:
      return g_strdup (_ ("the slots of each channel, told one by one"));
    default:
      return g_strdup (pattern);
    }
}
