/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-file-private.h"

/**
 * lid_board_new:
 *
 * Returns: (transfer full): an empty board, silent on everything, efficiency at its default
 */
LidBoard *
lid_board_new (void)
{
  LidBoard *board = g_new0 (LidBoard, 1);

  board->ref_count = 1;
  board->efficiency = LID_BOARD_EFFICIENCY;
  board->order_grade = LID_GRADE_LOSES;
  board->lone_grade = LID_GRADE_STOPS;
  board->lone_stops = LID_STOPS_MACHINE;
  board->larger_first_grade = LID_GRADE_LOSES;
  board->equal_sockets_grade = LID_GRADE_LOSES;
  board->own_modules = 1;
  return board;
}

LidBoard *
lid_board_ref (LidBoard *board)
{
  g_return_val_if_fail (board != NULL, NULL);
  g_atomic_int_inc (&board->ref_count);
  return board;
}

static void
free_layout (LidBoard *board)
{
  for (guint i = 0; i < board->n_sockets; i++)
    g_free (board->sockets[i].name);
  for (guint i = 0; i < board->n_channels; i++)
    {
      g_free (board->channels[i].name);
      g_free (board->channels[i].slots);
    }
  for (guint i = 0; i < board->n_slots; i++)
    {
      g_free (board->slots[i].id);
      g_free (board->slots[i].name);
      g_free (board->slots[i].label);
      g_free (board->slots[i].latch);
      g_free (board->slots[i].latch_hue);
      lid_module_unref (board->slots[i].soldered);
    }
  g_free (board->sockets);
  g_free (board->channels);
  g_free (board->slots);
}

static void
free_rules (LidBoard *board)
{
  for (guint i = 0; i < board->n_processors; i++)
    {
      g_free (board->processors[i].id);
      g_free (board->processors[i].name);
      g_free (board->processors[i].source);
    }
  for (guint i = 0; i < board->n_rates; i++)
    g_free (board->rates[i].source);
  for (guint i = 0; i < board->n_rank_limits; i++)
    g_free (board->rank_limits[i].source);
  for (guint i = 0; i < board->n_exclusions; i++)
    g_free (board->exclusions[i].source);
  for (guint i = 0; i < LID_N_MIXES; i++)
    g_free (board->mixes[i].source);
  for (guint i = 0; i < board->n_limits; i++)
    {
      g_free (board->limits[i].source);
      g_free (board->limits[i].who);
      g_free (board->limits[i].when);
      g_free (board->limits[i].firmware);
    }
  for (guint i = 0; i < board->n_firmware; i++)
    {
      g_free (board->firmware[i].level);
      g_free (board->firmware[i].source);
      g_clear_pointer (&board->firmware[i].gifts, g_array_unref);
    }
  for (guint i = 0; i < board->n_modes; i++)
    {
      g_free (board->modes[i].pairs);
      g_free (board->modes[i].source);
      g_clear_pointer (&board->modes[i].definition, json_node_unref);
    }
  g_free (board->processors);
  g_free (board->rates);
  g_free (board->rank_limits);
  g_free (board->exclusions);
  g_free (board->limits);
  g_free (board->firmware);
  g_free (board->modes);
  g_free (board->order);
  g_free (board->lone);
  g_free (board->numa);
  g_free (board->numa_equal_source);
  g_free (board->numa_source);
  g_free (board->own_modules_source);
  g_free (board->order_source);
  g_free (board->lone_source);
  g_free (board->larger_first_source);
  g_free (board->efficiency_source);
  g_free (board->sizes);
  g_free (board->sizes_source);
  g_free (board->ways_source);
  g_free (board->matched_source);
  for (guint i = 0; i < board->n_ways_also; i++)
    g_free (board->ways_also[i].source);
  g_free (board->ways_also);
  lid_board_airflow_free (board);
}

static void
free_names (LidBoard *board)
{
  for (guint i = 0; i < board->n_fingerprints; i++)
    {
      g_free (board->fingerprints[i].product);
      g_free (board->fingerprints[i].board);
      g_free (board->fingerprints[i].names);
    }
  for (guint i = 0; i < board->n_spellings; i++)
    {
      g_free (board->spellings[i].format);
      g_free (board->spellings[i].locator);
      g_free (board->spellings[i].bank);
    }
  g_free (board->fingerprints);
  g_free (board->spellings);
  g_free (board->id);
  g_free (board->name);
  g_free (board->about);
  g_free (board->source);
  g_free (board->hash);
  g_clear_pointer (&board->json, json_node_unref);
}

/**
 * lid_board_unref:
 * @board: (nullable): gives back one reference; half-built boards are fine
 */
void
lid_board_unref (LidBoard *board)
{
  if (board == NULL || !g_atomic_int_dec_and_test (&board->ref_count))
    return;
  free_layout (board);
  free_rules (board);
  free_names (board);
  g_free (board);
}

/**
 * lid_board_find_slot:
 * @id_or_name: a slot's id, or what people call it, or its name where that is unique
 *
 * Returns: the slot's index, LID_NOWHERE when there is none or the name is not unique
 */
int
lid_board_find_slot (const LidBoard *board, const char *id_or_name)
{
  int found = LID_NOWHERE;

  for (guint i = 0; i < board->n_slots; i++)
    if (g_strcmp0 (board->slots[i].id, id_or_name) == 0)
      return (int)i;
  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].label != NULL && g_strcmp0 (board->slots[i].label, id_or_name) == 0)
      return (int)i;
  for (guint i = 0; i < board->n_slots; i++)
    if (g_strcmp0 (board->slots[i].name, id_or_name) == 0)
      {
        if (found != LID_NOWHERE)
          return LID_NOWHERE;
        found = (int)i;
      }
  return found;
}

/**
 * lid_board_name_slot:
 * @slot: a slot
 *
 * Returns: (transfer none): the name people find on the board, made unlike the others where slots
 * are printed alike (slot-names.c); its id where nothing is printed
 */
const char *
lid_board_name_slot (const LidBoard *board, guint slot)
{
  const LidBoardSlot *called = &board->slots[slot];

  if (called->label != NULL)
    return called->label;
  return called->name != NULL && *called->name != 0 ? called->name : called->id;
}

/**
 * lid_board_find_firmware:
 * @level: (nullable): a firmware level
 *
 * Returns: its place in the order of levels, LID_NOWHERE when not told or not listed
 */
int
lid_board_find_firmware (const LidBoard *board, const char *level)
{
  for (guint i = 0; level != NULL && i < board->n_firmware; i++)
    if (g_strcmp0 (board->firmware[i].level, level) == 0)
      return (int)i;
  return LID_NOWHERE;
}

/* Only 3DS makes more logical ranks than the label prints, and only modules with a register are
 * stacked so (from memory). */
static gboolean
is_never_stacked (const LidModule *module)
{
  LidKind kind = lid_module_kind (module);

  return kind == LID_KIND_UNBUFFERED || kind == LID_KIND_ECC_UNBUFFERED
         || kind == LID_KIND_SO_UNBUFFERED || kind == LID_KIND_SO_ECC_UNBUFFERED
         || (lid_module_knows (module, LID_FACT_STACK)
             && module->value[LID_FACT_STACK] != LID_STACK_3DS);
}

/* The fact this board counts a module's ranks by. */
static LidFact
counted_by (const LidBoard *board, const LidModule *module)
{
  LidFact fact = board->rank_count == LID_COUNT_LABEL ? LID_FACT_RANKS : LID_FACT_LOGICAL_RANKS;

  return !lid_module_knows (module, fact) && is_never_stacked (module) ? LID_FACT_RANKS : fact;
}

/**
 * lid_board_ranks_missing:
 * @board: who counts
 * @module: a module
 *
 * Where a load-reduced module counts as a fixed number, a module whose kind is not told may be one:
 * then its count hangs on its kind too, unless both numbers are the same.
 *
 * Returns: bits 1 << LidFact: what it does not tell of what its ranks are counted by; 0: they are
 * known
 */
guint32
lid_board_ranks_missing (const LidBoard *board, const LidModule *module)
{
  const guint32 load_reduced = 1u << LID_KIND_LOAD_REDUCED;
  LidKind kind = lid_module_kind (module);
  LidFact fact = counted_by (board, module);
  gboolean told = lid_module_knows (module, fact);
  guint32 missing = 0;

  if (board->load_reduced_ranks > 0 && kind == LID_KIND_LOAD_REDUCED)
    return 0;
  if (!told)
    missing
        |= 1u << (board->rank_count == LID_COUNT_LABEL ? LID_FACT_RANKS : LID_FACT_LOGICAL_RANKS);
  if (board->load_reduced_ranks > 0 && kind == LID_KIND_UNKNOWN
      && (board->kinds == 0 || (board->kinds & load_reduced) != 0)
      && !(told && (guint)module->value[fact] == board->load_reduced_ranks))
    missing |= 1u << LID_FACT_KIND;
  return missing;
}

/**
 * lid_board_count_ranks:
 * @board: who counts
 * @module: a module
 * @known: (out): whether the module tells enough: lid_board_ranks_missing()
 *
 * A load-reduced module hides its ranks behind buffers; some boards count it as a fixed number
 * (source: shared/facts/population.md 1.2). Otherwise logical ranks, by default, or label ranks.
 *
 * Returns: ranks as this board counts them; 0 where they are not known
 */
guint
lid_board_count_ranks (const LidBoard *board, const LidModule *module, gboolean *known)
{
  *known = lid_board_ranks_missing (board, module) == 0;
  if (!*known)
    return 0;
  if (board->load_reduced_ranks > 0 && lid_module_kind (module) == LID_KIND_LOAD_REDUCED)
    return board->load_reduced_ranks;
  return (guint)module->value[counted_by (board, module)];
}

/**
 * lid_board_order_of:
 * @slot: a slot
 *
 * Returns: its place in the order of fitting from 0; slots the order does not name come last, in
 * the order of the definition
 */
guint
lid_board_order_of (const LidBoard *board, guint slot)
{
  for (guint i = 0; i < board->n_order; i++)
    if (board->order[i] == slot)
      return i;
  return board->n_order + slot;
}

/**
 * lid_board_find_mode:
 * @mode: a mode besides plain
 *
 * Returns: (nullable) (transfer none): what the board demands for it; NULL where it does not offer
 * it, or does not say which modes it has (modes_told)
 */
const LidBoardMode *
lid_board_find_mode (const LidBoard *board, LidMode mode)
{
  for (guint i = 0; i < board->n_modes; i++)
    if (board->modes[i].mode == mode)
      return &board->modes[i];
  return NULL;
}

/**
 * lid_board_clearance:
 *
 * Returns: how tall a module in @slot may be, in hundredths of a mm: the slot's own word goes
 * before the board's; 0: not told
 */
gint32
lid_board_clearance (const LidBoard *board, guint slot)
{
  return board->slots[slot].max_height > 0 ? board->slots[slot].max_height : board->max_height;
}
