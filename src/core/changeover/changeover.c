/* SPDX-License-Identifier: GPL-3.0-or-later */
/* changeover.c — what hands do, in order, to make one population of the other.
 *
 *  1. firmware, with the old modules in: new modules may need it, and firmware can only be changed
 *     on a machine that runs; start, read, off;
 *  2. all pulls, each to a numbered place of the mat, so that every slot to be filled is free and
 *     nothing is fitted beside something that still has to come out;
 *  3. processors: out once their slots are empty, in before theirs are filled;
 *  4. blanks out of slots to be filled, all fits in the board's order, blanks into emptied slots;
 *  5. start, settings (a mode can demand the new modules), start anew, read.
 *
 * Fewest hands is lid_changes_new()'s work. The order is common practice, no source; all pulls
 * before all fits, and the release for modules that hold data: product.md 9. */
#include "changeover/changeover.h"

#include "base/units.h"
#include "board/board.h"

#include <glib/gi18n-lib.h>

#define AT(moment) (1u << LID_MOMENT_##moment)

/* Moments of a step that is plain; what asks for more says so where it is made. */
static const struct
{
  const char *text;
  guint moments;
} kinds[LID_N_STEP_KINDS] = {
  [LID_STEP_FIRMWARE] = { "firmware", AT (FIRMWARE) },
  [LID_STEP_SETTING] = { "setting", 0 },
  [LID_STEP_PROCESSOR] = { "processor", AT (SAFE) },
  [LID_STEP_PULL] = { "pull", AT (SAFE) | AT (PULL) },
  [LID_STEP_FIT] = { "fit", AT (SAFE) | AT (FIT) },
  [LID_STEP_BLANK] = { "blank", AT (SAFE) },
  [LID_STEP_START] = { "start", 0 },
  [LID_STEP_READ] = { "read", 0 },
};

/**
 * lid_changeover_kind_to_text:
 *
 * Returns: (transfer none): the kind's word in JSON, product.md 9
 */
const char *
lid_changeover_kind_to_text (LidStepKind kind)
{
  g_return_val_if_fail ((guint)kind < LID_N_STEP_KINDS, NULL);
  return kinds[kind].text;
}

static void
step_free (gpointer data)
{
  LidChangeoverStep *step = data;

  g_free (step->text);
  g_free (step);
}

/* Private. Takes @text. */
LidChangeoverStep *
lid_changeover_add (LidChangeover *changeover, LidStepKind kind, char *text)
{
  LidChangeoverStep *step = g_new0 (LidChangeoverStep, 1);

  step->kind = kind;
  step->moments = kinds[kind].moments;
  step->slot = LID_NOWHERE;
  step->socket = LID_NOWHERE;
  step->text = text;
  g_ptr_array_add (changeover->steps, step);
  return step;
}

static const char *
name_of (const LidChangeover *changeover, guint slot)
{
  return lid_board_name_slot (changeover->board, slot);
}

static void
add_firmware (LidChangeover *changeover)
{
  const char *now = changeover->from != NULL ? changeover->from->firmware : NULL;
  const char *then = changeover->to->firmware;

  if (then == NULL || g_strcmp0 (now, then) == 0)
    return;
  lid_changeover_add (
      changeover, LID_STEP_FIRMWARE,
      now != NULL
          ? g_strdup_printf (_ ("Bring the firmware from %s to %s, with the old modules in."), now,
                             then)
          : g_strdup_printf (_ ("Bring the firmware to %s, with the old modules in. Nobody told "
                                "which level is there now: note it."),
                             then));
  lid_changeover_add (changeover, LID_STEP_START,
                      g_strdup (_ ("Start with the old modules in, and let the machine come up.")));
  lid_changeover_add (changeover, LID_STEP_READ,
                      g_strdup_printf (_ ("Read the firmware level: %s. Every old module is still "
                                          "seen? Then shut down."),
                                       then));
}

/* Whole sentences for each way a pull can go: no pieces glued in another language's order. */
static char *
say_pull (const LidChangeover *changeover, const LidSlotChange *change, const char *slot)
{
  g_autofree char *what = lid_module_describe (change->before);
  gboolean data = change->before->persistent;

  if (change->to == LID_NOWHERE && data)
    return g_strdup_printf (_ ("%s holds data: pull it only with the owner's written release. Pull "
                               "%s to place %u on the mat; it leaves the machine: bag and tag it."),
                            slot, what, change->mat);
  if (change->to == LID_NOWHERE)
    return g_strdup_printf (
        _ ("Pull %s: %s, to place %u on the mat; it leaves the machine: bag and "
           "tag it."),
        slot, what, change->mat);
  if (data)
    return g_strdup_printf (_ ("%s holds data: pull it only with the owner's written release. Pull "
                               "%s to place %u on the mat; it goes to slot %s."),
                            slot, what, change->mat, name_of (changeover, (guint)change->to));
  return g_strdup_printf (_ ("Pull %s: %s, to place %u on the mat; it goes to slot %s."), slot,
                          what, change->mat, name_of (changeover, (guint)change->to));
}

static void
add_pulls (LidChangeover *changeover)
{
  for (guint i = 0; i < changeover->changes->n_pulled; i++)
    {
      guint slot = changeover->changes->pulled[i];
      const LidSlotChange *change = &changeover->changes->slots[slot];
      LidChangeoverStep *step = lid_changeover_add (
          changeover, LID_STEP_PULL, say_pull (changeover, change, name_of (changeover, slot)));

      step->slot = (int)slot;
      step->module = change->before;
      step->mat = change->mat;
      step->release = change->before->persistent;
      if (step->release)
        step->moments |= AT (DATA);
    }
}

/* Slots that change between empty and filled; soldered memory has neither slot nor blank. */
static void
add_blanks (LidChangeover *changeover, gboolean out)
{
  for (guint i = 0; changeover->board->has_blanks && i < changeover->changes->n_slots; i++)
    {
      const LidSlotChange *change = &changeover->changes->slots[i];
      const char *slot = name_of (changeover, i);

      if ((change->before == NULL) == (change->after == NULL) || (change->after != NULL) != out)
        continue;
      lid_changeover_add (changeover, LID_STEP_BLANK,
                          out ? g_strdup_printf (_ ("Take the blank out of slot %s."), slot)
                              : g_strdup_printf (_ ("Put a blank into slot %s."), slot))
          ->slot
          = (int)i;
    }
}

static char *
say_fit (const LidChangeover *changeover, const LidSlotChange *change, guint mat, const char *slot)
{
  g_autofree char *what = lid_module_describe (change->after);

  if (mat > 0)
    return g_strdup_printf (_ ("Fit %s from place %u on the mat: %s."), slot, mat, what);
  if (change->after->bin != NULL)
    return g_strdup_printf (_ ("Fit %s from bin %s: %s."), slot, change->after->bin, what);
  return g_strdup_printf (_ ("Fit %s with a new module: %s."), slot, what);
}

static void
add_fits (LidChangeover *changeover)
{
  for (guint i = 0; i < changeover->changes->n_fitted; i++)
    {
      guint slot = changeover->changes->fitted[i];
      const LidSlotChange *change = &changeover->changes->slots[slot];
      guint mat = change->from != LID_NOWHERE ? changeover->changes->slots[change->from].mat : 0;
      LidChangeoverStep *step = lid_changeover_add (
          changeover, LID_STEP_FIT, say_fit (changeover, change, mat, name_of (changeover, slot)));

      step->slot = (int)slot;
      step->module = change->after;
      step->mat = mat;
      step->fit = change->fit;
    }
}

/* What to hold the machine against: its total and rate where they are known. */
static char *
say_read (const LidFigures *expected)
{
  g_autofree char *total = NULL;

  if (expected == NULL || !expected->starts || !expected->usable_known)
    return g_strdup (_ ("Read total, speed and every slot, and hold them against the sheet."));
  total = lid_units_capacity (expected->usable_mib);
  if (expected->running == LID_RATE_UNKNOWN)
    return g_strdup_printf (
        _ ("Read total and every slot, and hold them against the sheet: %s; note "
           "the speed."),
        total);
  return g_strdup_printf (
      _ ("Read total, speed and every slot, and hold them against the sheet: %s "
         "at %u MT/s."),
      total, lid_rate_mts (expected->running));
}

/* Start and settings behind the work of the hands; nothing where there was none. */
static void
add_end (LidChangeover *changeover, guint n_before, const LidFigures *expected)
{
  gboolean touched = changeover->steps->len > n_before;
  guint before;

  if (touched)
    lid_changeover_add (changeover, LID_STEP_START, g_strdup (_ ("Close up, cords in, start.")))
        ->moments
        = AT (CLOSE) | AT (START);
  before = changeover->steps->len;
  lid_changeover_add_settings (changeover);
  if (changeover->steps->len > before)
    lid_changeover_add (
        changeover, LID_STEP_START,
        g_strdup (_ ("Save the settings and start anew. Memory may train once more.")));
  if (changeover->steps->len > n_before)
    lid_changeover_add (changeover, LID_STEP_READ, say_read (expected))->moments = AT (READ);
}

/**
 * lid_changeover_new:
 * @board: whose slots; must outlive the change-over
 * @from: (nullable): the population to start from, as found or a stage before; NULL: not told, so
 *   that no module's place changes
 * @to: the population to arrive at
 * @expected: (nullable): its figures, for what to read at the end
 *
 * Returns: (transfer full): the steps; none at all where nothing has to be done
 */
LidChangeover *
lid_changeover_new (const LidBoard *board,
                    const LidPopulation *from,
                    const LidPopulation *to,
                    const LidFigures *expected)
{
  LidChangeover *changeover = g_new0 (LidChangeover, 1);
  guint n_firmware;

  changeover->board = board;
  changeover->from = from;
  changeover->to = to;
  changeover->changes = lid_changes_new (board, from, to);
  changeover->steps = g_ptr_array_new_with_free_func (step_free);
  add_firmware (changeover);
  n_firmware = changeover->steps->len;
  add_pulls (changeover);
  lid_changeover_add_processors (changeover);
  add_blanks (changeover, TRUE);
  add_fits (changeover);
  add_blanks (changeover, FALSE);
  add_end (changeover, n_firmware, expected);
  if (changeover->steps->len > 0)
    ((LidChangeoverStep *)changeover->steps->pdata[0])->moments |= AT (BEFORE);
  return changeover;
}

/**
 * lid_changeover_cautions:
 * @changeover: the steps
 * @step: one of them; their number: what is due when all is done
 *
 * Returns: (transfer container) (element-type LidCaution): what is to be said before that step and
 *   was not said before, in the order of the work
 */
GPtrArray *
lid_changeover_cautions (const LidChangeover *changeover, guint step)
{
  guint n, cases = lid_cautions_cases (changeover->board, changeover->to), due = 0, said = 0;
  const LidCaution *cautions = lid_cautions_all (&n);
  GPtrArray *out = g_ptr_array_new ();

  if (lid_changes_pull_data (changeover->changes))
    cases |= LID_CASE_DATA;
  for (guint i = 0; i < MIN (step, changeover->steps->len); i++)
    said |= ((LidChangeoverStep *)changeover->steps->pdata[i])->moments;
  if (step < changeover->steps->len)
    due = ((LidChangeoverStep *)changeover->steps->pdata[step])->moments & ~said;
  else if (changeover->changes->n_leaving > 0)
    due = AT (LEAVE);
  for (guint i = 0; i < n; i++)
    if ((due & 1u << cautions[i].moment) != 0 && lid_cautions_holds (&cautions[i], cases))
      g_ptr_array_add (out, (gpointer)&cautions[i]);
  return out;
}

void
lid_changeover_free (LidChangeover *changeover)
{
  if (changeover == NULL)
    return;
  g_ptr_array_unref (changeover->steps);
  lid_changes_free (changeover->changes);
  g_free (changeover);
}
