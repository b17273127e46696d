/* SPDX-License-Identifier: GPL-3.0-or-later */
/* board-tables-rules.c: mixing, what keeps others out, the order of fitting and balance. */
#include "help/board-tables-private.h"

#include "checks/finding.h"

#include <glib/gi18n-lib.h>

static const char *const mixes[LID_N_MIXES] = {
  [LID_MIX_KINDS] = N_ ("kinds"),
  [LID_MIX_ECC] = N_ ("ECC and none"),
  [LID_MIX_WIDTHS] = N_ ("chip widths"),
  [LID_MIX_STACKS] = N_ ("stacked and not"),
  [LID_MIX_DENSITIES] = N_ ("die densities"),
  [LID_MIX_CAPACITIES] = N_ ("capacities"),
  [LID_MIX_RANKS] = N_ ("ranks"),
  [LID_MIX_CHECK_BITS] = N_ ("check bits"),
  [LID_MIX_RATES] = N_ ("rates"),
};

static const char *const scopes[] = {
  [LID_SCOPE_MACHINE] = N_ ("the machine"),
  [LID_SCOPE_SOCKET] = N_ ("a processor's slots"),
  [LID_SCOPE_CHANNEL] = N_ ("a channel"),
  [LID_SCOPE_MODULE] = N_ ("a module"),
};

/* "stops the machine", "stops these slots", "loses", … */
static char *
say_grade (LidGrade grade, LidStops stops)
{
  if (grade != LID_GRADE_STOPS)
    return g_strdup (lid_grade_to_words (grade));
  return g_strdup (stops == LID_STOPS_SLOTS ? _ ("stops these slots") : _ ("stops the machine"));
}

static void
add_mixing (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table = lid_board_tables_add (
      tables, _ ("Mixing"),
      g_strdup (_ ("What is not listed is left to the rules of physics and of the standards.")));

  lid_board_tables_heads (table, _ ("Different"), _ ("How many, in what"), _ ("Else"), _ ("Source"),
                          NULL);
  for (guint i = 0; i < LID_N_MIXES; i++)
    {
      const LidMixRule *rule = &board->mixes[i];

      if (!rule->told)
        continue;
      lid_board_tables_row (table, g_strdup (_ (mixes[i])),
                            rule->allowed
                                ? g_strdup (_ ("free to mix"))
                                : g_strdup_printf (_ ("at most %u in %s"), rule->most_classes,
                                                   _ (scopes[rule->scope])),
                            rule->allowed ? g_strdup ("–") : say_grade (rule->grade, rule->stops),
                            lid_board_tables_source (rule->source), NULL);
    }
}

static char *
say_excluder (const LidExclusion *exclusion)
{
  g_autofree char *kinds = lid_board_tables_kinds (exclusion->kinds);
  GString *text = g_string_new (kinds);

  if (exclusion->least_module_ranks > 0)
    g_string_append_printf (text,
                            g_dngettext (GETTEXT_PACKAGE, ", %u rank or more", ", %u ranks or more",
                                         exclusion->least_module_ranks),
                            exclusion->least_module_ranks);
  if (exclusion->position > 0)
    g_string_append_printf (text, _ (", in slot %u of its channel"), exclusion->position);
  return g_string_free (text, FALSE);
}

static char *
say_excluded (const LidExclusion *exclusion)
{
  const char *where = exclusion->scope == LID_SCOPE_CHANNEL
                          ? _ ("on its own channel")
                          : _ ("on the processor's other channels");
  GString *text = g_string_new (where);

  if (exclusion->empty_position > 0)
    g_string_append_printf (text, _ (": slot %u stays empty"), exclusion->empty_position);
  if (exclusion->most_modules > 0)
    g_string_append_printf (text,
                            g_dngettext (GETTEXT_PACKAGE, ": at most %u module",
                                         ": at most %u modules", exclusion->most_modules),
                            exclusion->most_modules);
  return g_string_free (text, FALSE);
}

static void
add_exclusions (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table;

  if (board->n_exclusions == 0)
    return;
  table = lid_board_tables_add (tables, _ ("A module that keeps others out"), NULL);
  lid_board_tables_heads (table, _ ("Module"), _ ("What it keeps out"), _ ("Else"), _ ("Source"),
                          NULL);
  for (guint i = 0; i < board->n_exclusions; i++)
    {
      const LidExclusion *exclusion = &board->exclusions[i];

      lid_board_tables_row (table, say_excluder (exclusion), say_excluded (exclusion),
                            say_grade (LID_GRADE_STOPS, exclusion->stops),
                            lid_board_tables_source (exclusion->source), NULL);
    }
}

static const char *
say_own (LidOwnMemory own)
{
  switch (own)
    {
    case LID_OWN_MEMORY_REQUIRED:
      return _ ("every processor fitted needs memory of its own");
    case LID_OWN_MEMORY_PENALTY:
      return _ ("a processor without memory of its own works, slowly");
    case LID_OWN_MEMORY_SILENT:
    default:
      return _ ("the board does not say");
    }
}

static gboolean
first_slots_first (const LidBoard *board)
{
  for (guint i = 1; i < board->n_order; i++)
    if (board->slots[board->order[i]].position < board->slots[board->order[i - 1]].position)
      return FALSE;
  return board->n_order > 0 && board->slots[board->order[board->n_order - 1]].position > 1;
}

/* Processor and controller of a slot as one number; controllers are told from 1. */
static int
controller_of (const LidBoard *board, guint at)
{
  int channel = board->slots[board->order[at]].channel;

  return channel == LID_NOWHERE
             ? LID_NOWHERE
             : board->channels[channel].socket * 1000 + board->channels[channel].controller;
}

/* Whether every controller has had its first slot before one gets a second. */
static gboolean
controllers_take_turns (const LidBoard *board)
{
  g_autoptr (GHashTable) all = g_hash_table_new (NULL, NULL);
  g_autoptr (GHashTable) served = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < board->n_order; i++)
    g_hash_table_add (all, GINT_TO_POINTER (controller_of (board, i)));
  for (guint i = 0; i < board->n_order && i < g_hash_table_size (all); i++)
    g_hash_table_add (served, GINT_TO_POINTER (controller_of (board, i)));
  return g_hash_table_size (served) == g_hash_table_size (all) && g_hash_table_size (all) > 1;
}

/* What is to be seen in a board's order, with who else says so: shared/facts/population.md 1, P1
 * and P3 to P5. */
static char *
say_order (const LidBoard *board)
{
  GString *text = g_string_new (NULL);

  if (first_slots_first (board))
    g_string_append (text, _ ("First slots come before second ones, as makers' published guides "
                              "ask (S01, S05, S06, S15)."));
  if (controllers_take_turns (board))
    g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "",
                            _ ("Processors and their controllers take turns (S10, S11)."));
  return g_string_free (text, text->len == 0);
}

static void
add_order (GPtrArray *tables, const LidBoard *board)
{
  LidBoardTable *table = lid_board_tables_add (tables, _ ("Order of fitting"), say_order (board));

  if (board->n_order > 0)
    lid_board_tables_row (table, g_strdup (_ ("Order")),
                          lid_board_tables_slots (board, board->order, board->n_order), NULL);
  if (board->order_source != NULL)
    lid_board_tables_row (table, g_strdup (_ ("Source of the order")),
                          g_strdup (board->order_source), NULL);
  lid_board_tables_row (table, g_strdup (_ ("Another order")),
                        say_grade (board->order_grade, LID_STOPS_NOTHING), NULL);
  if (board->n_lone > 0)
    {
      g_autofree char *slots = lid_board_tables_slots (board, board->lone, board->n_lone);
      g_autofree char *grade = say_grade (board->lone_grade, board->lone_stops);

      lid_board_tables_row (table, g_strdup (_ ("One module alone")),
                            g_strdup_printf (_ ("goes into %s; elsewhere: %s"), slots, grade),
                            NULL);
      if (board->lone_source != NULL)
        lid_board_tables_row (table, g_strdup (_ ("Source of that place")),
                              g_strdup (board->lone_source), NULL);
    }
  if (board->larger_first_told)
    {
      g_autofree char *grade = say_grade (board->larger_first_grade, LID_STOPS_MACHINE);

      lid_board_tables_row (
          table, g_strdup (_ ("Within a channel")),
          g_strdup_printf (_ ("more ranks first, then larger first; otherwise: %s"), grade), NULL);
      if (board->larger_first_source != NULL)
        lid_board_tables_row (table, g_strdup (_ ("Source of that")),
                              g_strdup (board->larger_first_source), NULL);
    }
  if (board->n_sockets > 1)
    lid_board_tables_row (table, g_strdup (_ ("Processors")),
                          g_strdup (say_own (board->own_memory)), NULL);
  if (board->own_modules > 1)
    lid_board_tables_row (
        table, g_strdup (_ ("Modules at a processor")),
        g_strdup_printf (_ ("%u at least (%s)"), board->own_modules, board->own_modules_source),
        NULL);
  if (board->equal_sockets_told)
    {
      g_autofree char *grade = say_grade (board->equal_sockets_grade, LID_STOPS_MACHINE);

      lid_board_tables_row (table, g_strdup (_ ("Processors alike")),
                            g_strdup_printf (_ ("the same memory on each; otherwise: %s"), grade),
                            NULL);
    }
}

void
lid_board_tables_rules (GPtrArray *tables, const LidBoard *board)
{
  add_order (tables, board);
  add_mixing (tables, board);
  add_exclusions (tables, board);
}
