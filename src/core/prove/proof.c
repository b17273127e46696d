/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof.c — a machine that was read after power-on, slot by slot against the plan. */
#include "prove/proof.h"

#include "base/units.h"
#include "checks/assessment.h"
#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
free_slot (gpointer data)
{
  LidProofSlot *slot = data;

  g_free (slot->name);
  g_free (slot->text);
  g_clear_pointer (&slot->planned, lid_module_unref);
  g_clear_pointer (&slot->seen, lid_module_unref);
  g_free (slot);
}

void
lid_proof_free (LidProof *proof)
{
  if (proof == NULL)
    return;
  lid_board_unref (proof->board);
  lid_population_free (proof->planned);
  lid_population_free (proof->seen);
  g_free (proof->firmware);
  g_free (proof->untold);
  g_free (proof->seen_in);
  g_free (proof->expected_of);
  g_clear_pointer (&proof->remarks, g_ptr_array_unref);
  g_ptr_array_unref (proof->notes);
  g_ptr_array_unref (proof->slots);
  g_ptr_array_unref (proof->advice);
  g_free (proof);
}

/* What the plan is to run at, machine and sockets, and how much of it is to be seen. */
static void
expect (LidProof *proof, const LidJob *job)
{
  g_autoptr (LidAssessment) assessment
      = lid_assessment_new_plain (&(LidQuestion){ job->board, proof->planned, job->as_found });
  const LidFigures *figures = &assessment->figures;

  proof->fitted_mib = figures->fitted_mib;
  proof->planned_mib = -1;
  proof->expected = figures->starts ? figures->running : LID_RATE_UNKNOWN;
  if (figures->starts && figures->capacity_known && figures->usable_known)
    proof->planned_mib = figures->usable_mib;
  for (guint s = 0; s < job->board->n_sockets; s++)
    proof->expected_of[s] = figures->starts ? figures->sockets[s].running : LID_RATE_UNKNOWN;
}

/**
 * lid_proof_begin:
 *
 * Returns: (transfer full): a proof in which nothing is seen yet
 */
LidProof *
lid_proof_begin (const LidJob *job, const LidPopulation *planned)
{
  LidProof *proof = g_new0 (LidProof, 1);

  proof->board = lid_board_ref (job->board);
  proof->planned = lid_population_copy (planned);
  proof->seen_mib = -1;
  proof->runs = LID_RATE_UNKNOWN;
  proof->expected_of = g_new0 (LidRate, job->board->n_sockets + 1);
  proof->seen_in = g_new (int, job->board->n_slots + 1);
  for (guint i = 0; i < job->board->n_slots; i++)
    proof->seen_in[i] = LID_NOWHERE;
  proof->notes = g_ptr_array_new_with_free_func (g_free);
  proof->slots = g_ptr_array_new_with_free_func (free_slot);
  proof->advice = g_ptr_array_new_with_free_func (g_free);
  expect (proof, job);
  return proof;
}

/**
 * lid_proof_add_slot:
 * @slot: of the board, or LID_NOWHERE
 *
 * Returns: (transfer none): the next of the list, with what is planned there
 */
LidProofSlot *
lid_proof_add_slot (LidProof *proof, int slot)
{
  LidProofSlot *one = g_new0 (LidProofSlot, 1);

  one->slot = slot;
  one->runs = LID_RATE_UNKNOWN;
  if (slot != LID_NOWHERE && proof->planned->slots[slot].module != NULL)
    one->planned = lid_module_ref (proof->planned->slots[slot].module);
  g_ptr_array_add (proof->slots, one);
  return one;
}

/**
 * lid_proof_expected_at:
 *
 * Returns: the rate the module in @slot is to run at by plan; LID_RATE_UNKNOWN: not known
 */
LidRate
lid_proof_expected_at (const LidProof *proof, guint slot)
{
  int socket = proof->board->slots[slot].socket;

  return socket != LID_NOWHERE ? proof->expected_of[socket] : proof->expected;
}

/**
 * lid_proof_is_slow:
 *
 * Returns: whether the machine is known to run slower than planned
 */
gboolean
lid_proof_is_slow (const LidProof *proof)
{
  return proof->runs != LID_RATE_UNKNOWN && proof->expected != LID_RATE_UNKNOWN
         && proof->runs < proof->expected;
}

/* A module the machine knows of and does not use is not seen, whatever size it tells. */
static gboolean
is_seen (const LidProofSlot *slot)
{
  return slot->seen != NULL && slot->state != LID_SLOT_NOT_SEEN;
}

static char *
say_missing (const LidProofSlot *slot)
{
  g_autofree char *words = lid_module_describe (slot->planned);

  if (slot->seen != NULL)
    return g_strdup_printf (_ ("%s is planned; the machine reports a module here and does not use "
                               "it."),
                            words);
  if (!slot->listed)
    return g_strdup_printf (_ ("%s is planned; the machine does not list this slot."), words);
  return g_strdup_printf (_ ("%s is planned; the machine reports the slot as empty."), words);
}

static char *
say_other (const LidProofSlot *slot, LidFact fact)
{
  g_autofree char *planned = lid_module_describe (slot->planned);
  g_autofree char *seen = lid_module_describe (slot->seen);

  if (fact == LID_N_FACTS)
    return g_strdup_printf (_ ("planned is %s, seen is %s; one of them keeps data without power."),
                            planned, seen);
  if (slot->planned->part != NULL && slot->seen->part != NULL)
    return g_strdup_printf (_ ("planned is %s (%s), seen is %s (%s); they differ in this: %s."),
                            planned, slot->planned->part, seen, slot->seen->part,
                            lid_fact_to_words (fact));
  return g_strdup_printf (_ ("planned is %s, seen is %s; they differ in this: %s."), planned, seen,
                          lid_fact_to_words (fact));
}

static char *
say_as_planned (const LidProofSlot *slot)
{
  g_autofree char *seen = lid_module_describe (slot->seen);

  if (slot->verdict == LID_VERDICT_OTHER_NAME)
    return g_strdup_printf (_ ("%s, as planned; the machine calls the slot “%s”, the board has no "
                               "such name, and the place it tells is this slot’s."),
                            seen, slot->name);
  if (slot->verdict == LID_VERDICT_AS_PLANNED)
    return g_strdup_printf (_ ("%s, as planned."), seen);
  if (!lid_module_knows (slot->seen, LID_FACT_CAPACITY))
    return g_strdup_printf (_ ("%s; the machine does not tell how large it is."), seen);
  if (slot->seen->part != NULL && slot->planned->part != NULL)
    return g_strdup_printf (_ ("%s; part number %s where %s is planned, and nothing told speaks "
                               "against it."),
                            seen, slot->seen->part, slot->planned->part);
  return g_strdup_printf (_ ("%s; nothing told speaks against the plan, the label tells the rest."),
                          seen);
}

static void
judge_rate (const LidProof *proof, LidProofSlot *slot)
{
  LidRate expected = lid_proof_expected_at (proof, (guint)slot->slot);
  g_autofree char *runs = NULL, *wanted = NULL;

  if (slot->runs == LID_RATE_UNKNOWN || expected == LID_RATE_UNKNOWN || slot->runs >= expected)
    return;
  runs = lid_units_rate (slot->runs);
  wanted = lid_units_rate (expected);
  slot->verdict = LID_VERDICT_SLOWER;
  g_free (slot->text);
  slot->text = g_strdup_printf (_ ("runs at %s where %s is expected."), runs, wanted);
}

/* Which slot it is was told by the place alone: where it differs too, that may be the reason. */
static void
say_by_place (LidProofSlot *slot)
{
  g_autofree char *text = slot->text;

  slot->text
      = g_strdup_printf (_ ("%s The machine calls the slot “%s”; only the place in that name "
                            "tells that it is this one."),
                         text, slot->name);
}

static void
judge (const LidProof *proof, LidProofSlot *slot)
{
  LidFact fact;

  if (slot->planned == NULL)
    {
      g_autofree char *words = is_seen (slot) ? lid_module_describe (slot->seen) : NULL;

      slot->verdict = slot->seen != NULL ? LID_VERDICT_NOT_PLANNED : LID_VERDICT_AS_PLANNED;
      if (words != NULL)
        slot->text = g_strdup_printf (_ ("%s is seen; the plan leaves the slot empty."), words);
      else
        slot->text = g_strdup (slot->seen == NULL
                                   ? _ ("empty, as planned.")
                                   : _ ("a module that the machine does not use; the plan leaves "
                                        "the slot empty."));
      return;
    }
  if (!is_seen (slot))
    {
      slot->verdict = LID_VERDICT_MISSING;
      slot->text = say_missing (slot);
      return;
    }
  slot->verdict = lid_verdict_of (slot->planned, slot->seen, &fact);
  if (lid_verdict_is_difference (slot->verdict))
    {
      slot->text = say_other (slot, fact);
      return;
    }
  if (slot->by_place)
    slot->verdict = LID_VERDICT_OTHER_NAME;
  slot->text = say_as_planned (slot);
  judge_rate (proof, slot);
}

static void
look_at (LidProofSlot *slot, const LidDevice *device)
{
  const char *name = *device->locator != 0 ? device->locator : device->bank;

  if (*name != 0)
    slot->name = g_strdup (name);
  slot->state = device->state;
  if (device->module == NULL)
    return;
  slot->seen = lid_module_ref (device->module);
  if (lid_inventory_rate_is_plausible (device->configured_mts))
    slot->runs = lid_rate_snap (lid_module_generation (device->module), device->configured_mts);
}

static gboolean
is_named_twice (const LidInventory *inventory, const LidDevice *device)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *other = inventory->devices->pdata[i];

      if (other != device && strcmp (other->locator, device->locator) == 0
          && strcmp (other->bank, device->bank) == 0)
        return TRUE;
    }
  return FALSE;
}

/* What is in slots the board does not have. */
static void
add_strays (LidProof *proof, const LidInventory *inventory, const int *map)
{
  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidDevice *device = inventory->devices->pdata[i];
      g_autofree char *words = NULL;
      LidProofSlot *slot;

      if (map[i] != LID_NOWHERE || device->module == NULL)
        continue;
      slot = lid_proof_add_slot (proof, LID_NOWHERE);
      look_at (slot, device);
      words = lid_module_describe (slot->seen);
      slot->verdict = LID_VERDICT_NOT_PLANNED;
      slot->text = g_strdup_printf (
          is_named_twice (inventory, device)
              ? _ ("%s is seen; the inventory names two slots so, and nothing tells which is this.")
              : _ ("%s is seen; the board of the job has no slot of this name, and no place tells "
                   "which it is."),
          words);
    }
}

/* The machine as it was read, on the job's board: the way every inventory becomes a population. */
static LidPopulation *
populate (LidBoard *board, const LidInventory *inventory, int *map)
{
  LidMatch match = { .kind = LID_MATCH_EXACT, .board = board, .slot_of_device = map };
  g_autoptr (LidJob) job = lid_job_from_inventory (inventory, &match);

  return g_steal_pointer (&job->as_found);
}

static void
sum_up (LidProof *proof)
{
  proof->seen_mib = 0;
  for (guint i = 0; i < proof->slots->len; i++)
    {
      const LidProofSlot *slot = proof->slots->pdata[i];

      if (!is_seen (slot) || slot->seen->persistent)
        continue;
      proof->seen_mib += lid_module_capacity (slot->seen);
      if (slot->runs != LID_RATE_UNKNOWN
          && (proof->runs == LID_RATE_UNKNOWN || slot->runs < proof->runs))
        proof->runs = slot->runs;
    }
}

/**
 * lid_proof_new:
 * @job: borrowed
 * @planned: the population to hold it against: the plan, or one stage of it
 * @inventory: the machine read after power-on, after lid_locators_place(); whatever board it was
 *   matched with does not matter
 *
 * Returns: (transfer full): a verdict per slot and what to try
 */
LidProof *
lid_proof_new (const LidJob *job, const LidPopulation *planned, LidInventory *inventory)
{
  LidProof *proof = lid_proof_begin (job, planned);
  g_autofree guint8 *by_place = g_new0 (guint8, inventory->devices->len + 1);
  g_autofree int *map = lid_proof_map (job->board, inventory, by_place);
  g_autofree int *device_of = g_new (int, job->board->n_slots + 1);

  for (guint i = 0; i < job->board->n_slots; i++)
    device_of[i] = LID_NOWHERE;
  for (guint i = 0; i < inventory->devices->len; i++)
    if (map[i] != LID_NOWHERE)
      device_of[map[i]] = (int)i;
  for (guint i = 0; inventory->devices->len > 0 && i < job->board->n_slots; i++)
    {
      LidProofSlot *slot = lid_proof_add_slot (proof, (int)i);

      slot->listed = device_of[i] != LID_NOWHERE;
      slot->by_place = slot->listed && by_place[device_of[i]];
      if (slot->listed)
        look_at (slot, inventory->devices->pdata[device_of[i]]);
      judge (proof, slot);
      if (slot->by_place && lid_verdict_is_difference (slot->verdict) && slot->name != NULL)
        say_by_place (slot);
    }
  add_strays (proof, inventory, map);
  proof->seen = populate (proof->board, inventory, map);
  proof->firmware = g_strdup (inventory->firmware);
  proof->remarks = g_ptr_array_ref (inventory->remarks);
  if (inventory->devices->len > 0)
    sum_up (proof);
  lid_proof_look_whose (proof, inventory, map);
  lid_proof_finish (proof);
  return proof;
}
