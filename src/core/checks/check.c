/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/check.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
summarize_module (LidCheck *check, const LidModule *module, gint32 *seen, guint32 *known)
{
  for (guint f = 0; f < LID_N_FACTS; f++)
    if (!module->basis[f])
      check->missing |= 1u << f;
    else if (!(*known & (1u << f)))
      {
        *known |= 1u << f;
        seen[f] = module->value[f];
      }
    else if (seen[f] != module->value[f])
      check->varying |= 1u << f;
}

/* Which facts vary or are missing among DRAM modules; equal to the one before cost a comparison. */
static void
summarize (LidCheck *check)
{
  gint32 seen[LID_N_FACTS] = { 0 };
  guint32 known = 0;
  const LidModule *first = NULL, *before = NULL;

  check->all_same = TRUE;
  for (guint i = 0; i < check->n_dram; i++)
    {
      const LidModule *module = lid_check_module (check, check->dram[i]);

      if (first == NULL)
        first = module;
      else if (check->all_same && !lid_check_is_alike (first, module))
        check->all_same = FALSE;
      if (before == NULL || memcmp (before->value, module->value, sizeof module->value)
          || memcmp (before->basis, module->basis, sizeof module->basis))
        summarize_module (check, module, seen, &known);
      before = module;
    }
}

/**
 * lid_check_see:
 * @check: the context
 * @population: borrowed; of the board
 * @survey: borrowed; of @population
 *
 * What the rules see from here on; what was found stays.
 */
void
lid_check_see (LidCheck *check, const LidPopulation *population, const LidSurvey *survey)
{
  check->population = population;
  check->survey = survey;
  check->n_live = check->n_dram = 0;
  check->missing = check->varying = 0;
  for (guint i = 0; i < check->board->n_slots; i++)
    {
      const LidModule *module = population->slots[i].module;

      if (module == NULL || !lid_survey_socket_fitted (survey, i))
        continue;
      check->live[check->n_live++] = i;
      if (check->board->slots[i].soldered == NULL && !module->persistent)
        check->dram[check->n_dram++] = i;
    }
  summarize (check);
}

/**
 * lid_check_init:
 * @check: a context to set up
 * @question: borrowed
 * @survey: borrowed; of the question's population
 */
void
lid_check_init (LidCheck *check, const LidQuestion *question, const LidSurvey *survey)
{
  const LidBoard *board = question->board;
  guint n = board->n_slots;

  memset (check, 0, sizeof *check);
  check->board = board;
  check->as_found = question->as_found;
  check->evidence = lid_population_is_evidence (question->population, question->as_found);
  check->findings = g_ptr_array_new_with_free_func ((GDestroyNotify)lid_finding_free);
  check->unusable = g_new0 (guint8, n);
  check->live = g_new (guint, n);
  check->dram = g_new (guint, n);
  check->place = g_new (guint32, n);
  for (guint i = 0; i < n; i++)
    check->place[i] = board->slots[i].soldered != NULL ? i : n + board->n_order + i;
  for (guint i = board->n_order; i-- > 0;)
    check->place[board->order[i]] = n + i;
  for (guint kind = 1; kind < LID_N_KINDS; kind++)
    if (board->kinds & (1u << kind))
      check->forms |= 1u << lid_kind_form (kind);
  if (board->form != LID_FORM_UNKNOWN)
    check->forms |= 1u << board->form;
  lid_check_see (check, question->population, survey);
}

/**
 * lid_check_clear:
 * @check: a context; its findings and the unusable mask are freed unless they were taken
 */
void
lid_check_clear (LidCheck *check)
{
  g_clear_pointer (&check->findings, g_ptr_array_unref);
  g_clear_pointer (&check->unusable, g_free);
  g_clear_pointer (&check->live, g_free);
  g_clear_pointer (&check->dram, g_free);
  g_clear_pointer (&check->place, g_free);
}

static LidFinding *
append (LidCheck *check, LidGrade grade, LidStops stops, const LidSlotSet *slots, char *text)
{
  LidFinding *finding = g_new0 (LidFinding, 1);
  guint n = slots != NULL ? lid_slot_set_count (slots) : 0;

  if (grade == LID_GRADE_STOPS && check->may_stop != NULL
      && (check->may_stop[check->rule_index / 64] >> check->rule_index % 64 & 1) == 0)
    check->refused = TRUE;
  finding->rule = check->rule;
  finding->fact = LID_NOWHERE;
  finding->grade = grade;
  finding->stops = stops;
  finding->text = text;
  finding->basis = check->rule->basis;
  finding->source = check->rule->source;
  finding->slots = g_new (guint, n);
  if (n > 0)
    LID_SLOT_SET_EACH (slots, slot)
      finding->slots[finding->n_slots++] = (guint)slot;
  g_ptr_array_add (check->findings, finding);
  return finding;
}

static char *
doubt (char *text)
{
  char *doubted
      = g_strdup_printf (_ ("%s But it runs as found: a fact or the board is wrong."), text);

  g_free (text);
  return doubted;
}

/* Evidence beats rules (product.md 3): what was read from a running machine did start. The modules
 * it shows with a size count; those it does not show stay stopped. */
static LidFinding *
add_doubted (LidCheck *check, const LidSlotSet *slots, char *text)
{
  LidSlotSet shown = { { 0 } }, hidden = { { 0 } };

  LID_SLOT_SET_EACH (slots, slot)
    lid_slot_set_add (lid_population_shows (check->population, (guint)slot) ? &shown : &hidden,
                      (guint)slot);
  if (!lid_slot_set_is_empty (&hidden))
    {
      LidFinding *stops
          = append (check, LID_GRADE_STOPS, LID_STOPS_SLOTS, &hidden, g_strdup (text));

      LID_SLOT_SET_EACH (&hidden, slot)
        check->unusable[slot] = TRUE;
      if (lid_slot_set_is_empty (&shown))
        {
          g_free (text);
          return stops;
        }
    }
  return append (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, &shown, doubt (text));
}

/**
 * lid_check_add:
 * @check: the context
 * @grade: the grade
 * @stops: what a stops finding stops; ignored with other grades
 * @slots: (nullable): the slots it is about
 * @text: (transfer full): one sentence a customer understands, ending in a full stop
 *
 * Adds a finding of the rule at work, and marks what it stops. One per rule and cause, never one
 * per slot.
 *
 * Returns: (transfer none): the finding, for its basis, source and remedy
 */
LidFinding *
lid_check_add (LidCheck *check, LidGrade grade, LidStops stops, const LidSlotSet *slots, char *text)
{
  if (grade != LID_GRADE_STOPS)
    return append (check, grade, LID_STOPS_NOTHING, slots, text);
  if (stops == LID_STOPS_SLOTS && slots != NULL)
    {
      if (check->evidence)
        return add_doubted (check, slots, text);
      LID_SLOT_SET_EACH (slots, slot)
        check->unusable[slot] = TRUE;
      return append (check, grade, stops, slots, text);
    }
  if (check->evidence)
    return append (check, LID_GRADE_UNSURE, LID_STOPS_NOTHING, slots, doubt (text));
  check->stopped = TRUE;
  return append (check, grade, LID_STOPS_MACHINE, slots, text);
}

/**
 * lid_check_sort_by_place:
 * @check: the context
 * @slots: slots, sorted by their place in the order of fitting
 * @n_slots: how many
 */
void
lid_check_sort_by_place (const LidCheck *check, guint *slots, guint n_slots)
{
  for (guint i = 1; i < n_slots; i++)
    for (guint at = i; at > 0 && check->place[slots[at - 1]] > check->place[slots[at]]; at--)
      {
        guint swap = slots[at];

        slots[at] = slots[at - 1];
        slots[at - 1] = swap;
      }
}

/**
 * lid_check_miss:
 * @check: the context
 * @fact: a fact the rule at work needs to decide
 * @slot: the slot whose module does not tell it
 *
 * Never a silent pass: rule-unknown-facts.c makes one `unsure` of it per fact and part number.
 */
void
lid_check_miss (LidCheck *check, LidFact fact, guint slot)
{
  lid_slot_set_add (&check->asked[fact], slot);
  check->asked_by[fact][check->rule_index / 64] |= G_GUINT64_CONSTANT (1)
                                                   << (check->rule_index % 64);
}

/**
 * lid_check_miss_ranks:
 * @slot: a slot with a module
 *
 * Asks for what it does not tell of what the board counts its ranks by.
 */
void
lid_check_miss_ranks (LidCheck *check, guint slot)
{
  static const LidFact facts[] = { LID_FACT_KIND, LID_FACT_RANKS, LID_FACT_LOGICAL_RANKS };
  guint32 missing = lid_board_ranks_missing (check->board, lid_check_module (check, slot));

  for (guint i = 0; i < G_N_ELEMENTS (facts); i++)
    if ((missing & 1u << facts[i]) != 0)
      lid_check_miss (check, facts[i], slot);
}

/**
 * lid_check_is_alike:
 *
 * Returns: whether two modules are one part, so that a fact unknown of both is equal in both
 */
gboolean
lid_check_is_alike (const LidModule *a, const LidModule *b)
{
  return a == b || (a->part != NULL && b->part != NULL && strcmp (a->part, b->part) == 0);
}

/**
 * lid_check_is_usable:
 *
 * Returns: whether @slot holds memory the machine can use: fitted, not stopped, not persistent
 */
gboolean
lid_check_is_usable (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);

  return module != NULL && !check->unusable[slot] && !module->persistent
         && lid_survey_socket_fitted (check->survey, slot);
}

/**
 * lid_check_is_dram:
 *
 * Returns: whether @slot is a real slot of a fitted processor that holds a module of DRAM
 */
gboolean
lid_check_is_dram (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);

  return module != NULL && !module->persistent && check->board->slots[slot].soldered == NULL
         && lid_survey_socket_fitted (check->survey, slot);
}

/**
 * lid_check_counts:
 *
 * Returns: whether @slot holds memory that limits of capacity count: on a fitted processor, not
 * persistent, soldered included
 */
gboolean
lid_check_counts (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);

  return module != NULL && !module->persistent && lid_survey_socket_fitted (check->survey, slot);
}

/* What drives the wires of a DIMM: with a register or without. */
#define UNBUFFERED_KINDS                                                                           \
  (1u << LID_KIND_UNBUFFERED | 1u << LID_KIND_ECC_UNBUFFERED | 1u << LID_KIND_CLOCKED_UNBUFFERED)
#define REGISTERED_KINDS                                                                           \
  (1u << LID_KIND_REGISTERED | 1u << LID_KIND_LOAD_REDUCED | 1u << LID_KIND_MULTIPLEXED_RANK)

/**
 * lid_check_kinds_by_key:
 * @check: a context
 *
 * DDR5 modules with a register have their key elsewhere than those without one, and 12 V instead of
 * 5 V at the contacts; DDR4 modules of both kinds share one key (shared/facts/standards.md 4).
 *
 * Returns: bits 1 << LidKind of the DDR5 kinds that do not go into this board's slots; 0: the board
 * does not say, or takes both
 */
guint32
lid_check_kinds_by_key (const LidCheck *check)
{
  guint32 kinds = check->board->kinds;
  gboolean plain = (kinds & UNBUFFERED_KINDS) != 0, driven = (kinds & REGISTERED_KINDS) != 0;

  if (plain == driven || (check->board->generations & 1u << LID_GENERATION_DDR5) == 0)
    return 0;
  return plain ? REGISTERED_KINDS : UNBUFFERED_KINDS;
}

/**
 * lid_check_fits:
 *
 * Returns: whether the module in @slot goes into it by generation, form and key, as far as told;
 * rules about finer things keep silent where it does not, so that one cause is one finding
 */
gboolean
lid_check_fits (const LidCheck *check, guint slot)
{
  const LidModule *module = lid_check_module (check, slot);
  LidGeneration generation = lid_module_generation (module);
  LidForm form = lid_check_form (module);

  if (check->board->generations != 0 && generation != LID_GENERATION_UNKNOWN
      && !(check->board->generations & (1u << generation)))
    return FALSE;
  if (generation == LID_GENERATION_DDR5
      && (lid_check_kinds_by_key (check) & 1u << lid_module_kind (module)) != 0)
    return FALSE;
  return form == LID_FORM_UNKNOWN || check->forms == 0 || (check->forms & (1u << form));
}

/**
 * lid_check_form:
 *
 * Returns: the module's outline, told or following from its kind
 */
LidForm
lid_check_form (const LidModule *module)
{
  if (lid_module_knows (module, LID_FACT_FORM))
    return (LidForm)module->value[LID_FACT_FORM];
  return lid_kind_form (lid_module_kind (module));
}

/**
 * lid_check_behind_empty:
 *
 * Returns: whether the first slot of @slot's channel is empty and @slot is another one. FALSE
 * where the board does not say which slot is the first.
 */
gboolean
lid_check_behind_empty (const LidCheck *check, guint slot)
{
  const LidBoard *board = check->board;
  int channel = board->slots[slot].channel;
  guint first;

  if (board->derived || channel == LID_NOWHERE)
    return FALSE;
  first = board->channels[channel].slots[0];
  return first != slot && board->slots[first].position > 0
         && lid_check_module (check, first) == NULL;
}
