/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/slot-look.h"

#include "base/units.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Latch colours stand by how light they are; without a hue the order on the board has to do. */
static double
lightness (const char *hue, guint place)
{
  guint rgb = 0;

  if (hue == NULL || hue[0] != '#')
    return 1.0 - place / 1000.0;
  rgb = (guint)g_ascii_strtoull (hue + 1, NULL, 16);
  /* Rec. 709 weights: ITU-R BT.709 */
  return (0.2126 * ((rgb >> 16) & 0xff) + 0.7152 * ((rgb >> 8) & 0xff) + 0.0722 * (rgb & 0xff))
         / 255.0;
}

static void
insert_latch (LidLatchKey *key, const char *word, double light)
{
  guint at = key->n_latches;

  for (guint i = 0; i < key->n_latches; i++)
    if (g_strcmp0 (key->latches[i], word) == 0)
      return;
  while (at > 0 && key->lightness[at - 1] < light)
    {
      key->latches[at] = key->latches[at - 1];
      key->lightness[at] = key->lightness[at - 1];
      at--;
    }
  key->latches[at] = word;
  key->lightness[at] = light;
  key->n_latches++;
}

/**
 * lid_slot_look_latches:
 * @board: its latch colours
 *
 * Returns: (transfer full): the colours' words from light to dark; borrows from @board
 */
LidLatchKey *
lid_slot_look_latches (const LidBoard *board)
{
  LidLatchKey *key = g_new0 (LidLatchKey, 1);

  key->board = board;
  key->latches = g_new0 (const char *, board->n_slots + 1);
  key->lightness = g_new0 (double, board->n_slots + 1);
  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].latch != NULL)
      insert_latch (key, board->slots[i].latch, lightness (board->slots[i].latch_hue, i));
  return key;
}

void
lid_slot_look_latches_free (LidLatchKey *key)
{
  if (key == NULL)
    return;
  g_free (key->latches);
  g_free (key->lightness);
  g_free (key);
}

/**
 * lid_slot_look_words:
 * @module: a module
 * @words: how much of it
 *
 * Returns: (transfer full): the module in words
 */
char *
lid_slot_look_words (const LidModule *module, LidWords words)
{
  g_autoptr (LidModule) less = NULL;

  if (words == LID_WORDS_FULL)
    return lid_module_describe (module);
  less = lid_module_copy (module);
  if (!less->persistent)
    lid_module_set (less, LID_FACT_KIND, 0, LID_BASIS_NONE);
  if (words == LID_WORDS_SHORT)
    {
      lid_module_set (less, LID_FACT_RANKS, 0, LID_BASIS_NONE);
      lid_module_set (less, LID_FACT_RATED, 0, LID_BASIS_NONE);
    }
  return lid_module_describe (less);
}

static const char *
keep (GStringChunk *texts, char *text)
{
  const char *kept = g_string_chunk_insert_const (texts, text);

  g_free (text);
  return kept;
}

static void
set_words (LidSlotLook *look, const char *kept)
{
  for (guint w = 0; w < LID_N_WORDS; w++)
    look->words[w] = kept;
}

/* Words are made of facts alone. */
static gboolean
reads_alike (const LidModule *a, const LidModule *b)
{
  return a == b
         || (a->persistent == b->persistent && memcmp (a->value, b->value, sizeof a->value) == 0
             && memcmp (a->basis, b->basis, sizeof a->basis) == 0);
}

/* Half a word tells less than another, shorter one: of what is long even when it is short. */
static const char *
brief_of (const LidModule *module, GStringChunk *texts)
{
  if (!lid_module_knows (module, LID_FACT_CAPACITY))
    /* Translators: in a slot too narrow for "size not told" */
    return g_string_chunk_insert_const (texts, _ ("filled"));
  return module->persistent ? keep (texts, lid_units_capacity (lid_module_capacity (module)))
                            : NULL;
}

/* Modules that are alike sit in many slots: their words are made once. */
static void
set_module (LidSlotLook *looks, guint i, GStringChunk *texts, const LidPopulation *population)
{
  const LidModule *module = population->slots[i].module;

  for (guint k = i; k > 0; k--)
    if (population->slots[k - 1].module != NULL
        && reads_alike (population->slots[k - 1].module, module))
      {
        memcpy (looks[i].words, looks[k - 1].words, sizeof looks[i].words);
        looks[i].brief = looks[k - 1].brief;
        return;
      }
  for (guint w = 0; w < LID_N_WORDS; w++)
    looks[i].words[w] = keep (texts, lid_slot_look_words (module, w));
  looks[i].brief = brief_of (module, texts);
}

static void
set_place (LidSlotLook *look, const LidBoard *board, const LidLatchKey *key)
{
  const LidBoardSlot *slot = &board->slots[look->slot];

  look->name = lid_board_name_slot (board, look->slot);
  if (slot->channel != LID_NOWHERE)
    look->channel = board->channels[slot->channel].name;
  for (guint l = 0; slot->latch != NULL && l < key->n_latches; l++)
    if (g_strcmp0 (slot->latch, key->latches[l]) == 0)
      {
        look->latch = lid_theme_latch (l, key->n_latches);
        look->latch_known = TRUE;
      }
}

static void
set_findings (LidSlotLook *looks, guint n_slots, const LidAssessment *assessment)
{
  int *worst = g_new (int, n_slots);

  for (guint i = 0; i < n_slots; i++)
    worst[i] = LID_NOWHERE;
  for (guint f = 0; assessment != NULL && f < assessment->findings->len; f++)
    {
      const LidFinding *finding = assessment->findings->pdata[f];

      /* What concerns the whole machine would hatch every slot and tell nothing; so do notes. */
      if (finding->grade == LID_GRADE_NOTE && finding->n_slots > 4)
        continue;
      for (guint s = 0; finding->n_slots * 2 <= n_slots + 2 && s < finding->n_slots; s++)
        if (finding->slots[s] < n_slots)
          worst[finding->slots[s]] = MAX (worst[finding->slots[s]], (int)finding->grade);
    }
  for (guint i = 0; i < n_slots; i++)
    {
      looks[i].grade = worst[i];
      if (worst[i] >= (int)LID_GRADE_LOSES)
        looks[i].finding = lid_theme_hatch ((LidGrade)worst[i]);
    }
  g_free (worst);
}

/* State beyond empty and filled, the same on both sheets. */
static void
set_state (LidSlotLook *look, GStringChunk *texts, const LidFitting *fitting)
{
  switch (fitting->state)
    {
    case LID_SLOT_SOLDERED:
      look->mark = LID_MARK_SOLDERED;
      look->detail = g_string_chunk_insert_const (texts, _ ("soldered, stays"));
      break;
    case LID_SLOT_NOT_SEEN:
      look->mark = LID_MARK_NOT_SEEN;
      look->detail = g_string_chunk_insert_const (texts, _ ("in the slot, not seen"));
      break;
    case LID_SLOT_PERSISTENT:
      look->persistent = TRUE;
      look->detail = g_string_chunk_insert_const (texts, _ ("persistent: holds data"));
      break;
    case LID_SLOT_EMPTY:
    case LID_SLOT_FILLED:
    case LID_N_SLOT_STATES:
    default:
      break;
    }
}

static void
set_change (LidSlotLook *look,
            GStringChunk *texts,
            const LidBoard *board,
            const LidChanges *changes)
{
  const LidSlotChange *change = &changes->slots[look->slot];
  const char *detail = _ ("stays");

  if (change->kind == LID_CHANGE_EMPTY && change->mat > 0)
    {
      look->mark = LID_MARK_LEAVES;
      detail = keep (texts, g_strdup_printf (_ ("pull to mat %u, stays empty"), change->mat));
      set_words (look, g_string_chunk_insert_const (texts, _ ("empty")));
    }
  else if (change->kind == LID_CHANGE_EMPTY)
    detail = "";
  else if (change->kind == LID_CHANGE_MOVED)
    {
      look->mark = LID_MARK_MOVED;
      detail = keep (texts, g_strdup_printf (_ ("from slot %s, mat %u"),
                                             lid_board_name_slot (board, (guint)change->from),
                                             changes->slots[change->from].mat));
    }
  else if (change->kind == LID_CHANGE_NEW)
    {
      look->mark = LID_MARK_NEW;
      detail = change->after->bin != NULL
                   ? keep (texts, g_strdup_printf (_ ("new, bin %s"), change->after->bin))
                   : _ ("new");
    }
  if (change->mat > 0 && change->kind != LID_CHANGE_EMPTY)
    detail = keep (texts, g_strdup_printf (_ ("%s; first pull to mat %u"), detail, change->mat));
  if (look->detail == NULL)
    look->detail = g_string_chunk_insert_const (texts, detail);
  look->ring = change->fit;
  look->heavy = change->fit > 0;
}

static void
set_common (LidSlotLook *looks,
            GStringChunk *texts,
            const LidBoard *board,
            const LidPopulation *population)
{
  g_autoptr (LidLatchKey) key = lid_slot_look_latches (board);
  const char *empty = g_string_chunk_insert_const (texts, _ ("empty"));

  for (guint i = 0; i < board->n_slots; i++)
    {
      looks[i] = (LidSlotLook){ .slot = i, .grade = LID_NOWHERE };
      looks[i].hue = board->slots[i].latch_hue;
      looks[i].empty = population->slots[i].module == NULL;
      set_place (&looks[i], board, key);
      set_state (&looks[i], texts, &population->slots[i]);
      if (looks[i].empty)
        set_words (&looks[i], empty);
      else
        set_module (looks, i, texts, population);
    }
}

/**
 * lid_slot_look_bench:
 * @looks: (out caller-allocates): one for each slot of the board
 * @texts: keeps the texts
 * @board: the machine
 * @population: as it must become
 * @changes: how it gets there
 * @assessment: (nullable): what the checker says of @population
 *
 * The looks of a page to work by. They borrow from @board and @texts.
 */
void
lid_slot_look_bench (LidSlotLook *looks,
                     GStringChunk *texts,
                     const LidBoard *board,
                     const LidPopulation *population,
                     const LidChanges *changes,
                     const LidAssessment *assessment)
{
  set_common (looks, texts, board, population);
  set_findings (looks, board->n_slots, assessment);
  for (guint i = 0; i < board->n_slots; i++)
    set_change (&looks[i], texts, board, changes);
}

/**
 * lid_slot_look_lid:
 *
 * As lid_slot_look_bench(), for the page that stays inside the lid: rings number the slots to fill
 * next, where the board tells an order.
 */
void
lid_slot_look_lid (LidSlotLook *looks,
                   GStringChunk *texts,
                   const LidBoard *board,
                   const LidPopulation *population,
                   const LidAssessment *assessment)
{
  guint next = 0;

  set_common (looks, texts, board, population);
  set_findings (looks, board->n_slots, assessment);
  for (guint i = 0; i < board->n_order; i++)
    if (board->order[i] < board->n_slots && looks[board->order[i]].empty)
      {
        int socket = board->slots[board->order[i]].socket;

        if (socket == LID_NOWHERE || population->processors[socket].fitted)
          looks[board->order[i]].ring = ++next;
      }
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;

      if (looks[i].detail == NULL && module != NULL && module->part != NULL)
        looks[i].detail = g_string_chunk_insert_const (texts, module->part);
    }
}

/**
 * lid_slot_look_board:
 * @before: (nullable): as found; slots that differ from it are marked
 *
 * As lid_slot_look_bench(), for the board on the screen: a slot that was emptied keeps its minus
 * and says so, one that was filled is heavy.
 */
void
lid_slot_look_board (LidSlotLook *looks,
                     GStringChunk *texts,
                     const LidBoard *board,
                     const LidPopulation *population,
                     const LidPopulation *before,
                     const LidAssessment *assessment)
{
  LidChanges *changes
      = before != NULL && before != population ? lid_changes_new (board, before, population) : NULL;

  set_common (looks, texts, board, population);
  set_findings (looks, board->n_slots, assessment);
  for (guint i = 0; changes != NULL && i < board->n_slots; i++)
    {
      const LidSlotChange *change = &changes->slots[i];

      if (looks[i].mark != LID_MARK_NONE)
        continue;
      if (change->kind == LID_CHANGE_EMPTY && change->mat > 0)
        looks[i].mark = LID_MARK_LEAVES;
      else if (change->kind == LID_CHANGE_MOVED)
        looks[i].mark = LID_MARK_MOVED;
      else if (change->kind == LID_CHANGE_NEW)
        looks[i].mark = LID_MARK_NEW;
      looks[i].heavy = looks[i].mark == LID_MARK_NEW || looks[i].mark == LID_MARK_MOVED;
    }
  if (changes != NULL)
    lid_changes_free (changes);
}
