/* SPDX-License-Identifier: GPL-3.0-or-later */
/* cautions.c: the table of cautions, in the order of the work. Short, because it is read with
 * gloves on; why is one question away. Order of the work: common practice, no source. */
#include "help/cautions.h"

#include "base/text.h"

#include <glib/gi18n-lib.h>

#define PRACTICE N_ ("common practice, no source")
#define ESD "ANSI/ESD S20.20-2021, scope as published by the ANSI web store"
#define TRAINING "a memory maker's FAQ KTM-012711-GEN-20, on DDR5 training time"
#define REFRESH "Energies 19(9) 2150, introduction"
#define REMANENCE                                                                                  \
  "Halderman and others, Lest We Remember: Cold Boot Attacks on Encryption Keys, USENIX "          \
  "Security 2008, from memory"

static const LidCaution cautions[] = {
  { "backup", LID_MOMENT_BEFORE, TRUE, 0, N_ ("Owner: backup read back?"),
    N_ ("Memory work can end with a machine that does not start, or that writes wrong bits before "
        "anybody notices. A backup that was never read back is none."),
    PRACTICE },
  { "recovery-key", LID_MOMENT_BEFORE, TRUE, 0, N_ ("Owner: disk recovery key at hand?"),
    N_ ("A machine that measures its own start sees other memory or other firmware, and may ask "
        "for the recovery key of its disk encryption before it opens its disks."),
    PRACTICE },
  { "data-owner", LID_MOMENT_BEFORE, TRUE, LID_CASE_DATA,
    N_ ("Owner: what holds data copied, and its release signed?"),
    N_ ("With the machine off it is too late to copy it. Persistent modules are set up together: "
        "when one leaves, changes places or gets other neighbours, what they hold may not open "
        "again."),
    PRACTICE },
  { "data-stays", LID_MOMENT_BEFORE, TRUE, LID_CASE_DATA_STAYS,
    N_ ("Owner: what the persistent modules hold copied? They stay where they are."),
    N_ ("Persistent modules are set up together with what is beside them: with other neighbours, "
        "or with newer firmware, what they hold may not open again though nobody touched them."),
    PRACTICE },
  { "record", LID_MOMENT_BEFORE, TRUE, 0, N_ ("Note error counters, firmware, mode."),
    N_ ("Without the state before, nobody can tell afterwards whether a fault is new."), PRACTICE },

  { "firmware-power", LID_MOMENT_FIRMWARE, TRUE, 0,
    N_ ("Do not cut power while firmware is written."),
    N_ ("Firmware written in part does not start. It is written with the old modules in, because "
        "the machine must run for it."),
    PRACTICE },

  { "every-cord", LID_MOMENT_SAFE, TRUE, 0, N_ ("Shut down. Every supply cord out, or the blade."),
    N_ ("With one cord in, standby power is on the board: a module pulled or fitted then is hurt, "
        "and so may you be. A machine with several supplies has several cords; a blade or sled "
        "comes out of its chassis."),
    PRACTICE },
  { "drain", LID_MOMENT_SAFE, TRUE, 0,
    N_ ("Press the power button to drain; wait until the standby lamp is out."),
    N_ ("Capacitors keep the board alive for a while. A lamp on the board that stays lit means "
        "that something still feeds it: find out what before you touch anything."),
    PRACTICE },
  { "two-lift", LID_MOMENT_SAFE, TRUE, 0, N_ ("Two lift it. Sheet metal has sharp edges."),
    N_ ("A server is heavier than it looks, and a rack with two machines drawn out can tip: one at "
        "a time. Cut edges of slots and baffles take skin."),
    PRACTICE },
  { "strap", LID_MOMENT_SAFE, TRUE, 0,
    N_ ("ESD strap on bare skin and bare chassis metal; only then open a bag."),
    N_ ("A discharge you do not feel hurts chips, and often shows weeks later. The strap is tested "
        "at the start of the day: below 35 megohm in all. Strap, chassis and mat are on one "
        "point."),
    ESD },
  { "hot-modules", LID_MOMENT_SAFE, TRUE, 0, N_ ("Modules stay hot: let them cool."),
    N_ ("Modules and heat spreaders burn fingers for minutes after power-off, and who is burnt "
        "drops what is in the hand."),
    PRACTICE },
  { "baffle-off", LID_MOMENT_SAFE, TRUE, LID_CASE_BAFFLE,
    N_ ("Air baffle off; back before power-on."),
    N_ ("The baffle leads air over the modules. It often carries a printed map of the slots: look "
        "at it before it is laid aside."),
    PRACTICE },
  { "photograph", LID_MOMENT_SAFE, TRUE, 0, N_ ("Photograph the slots before a touch."),
    N_ ("It is the one record of what sat where that nobody can have typed wrongly."), PRACTICE },

  { "data-release", LID_MOMENT_DATA, TRUE, 0,
    N_ ("Holds data: pull it only with the owner's written release."),
    N_ ("Persistent and battery-backed modules keep the owner's data when they are pulled. The "
        "release says what becomes of it: put back, handed over, or erased, and by whom. Ordinary "
        "modules forget within minutes of power-off."),
    REMANENCE },
  { "data-lamp", LID_MOMENT_DATA, TRUE, 0,
    N_ ("Holds data: wait until no lamp on the module is lit."),
    N_ ("After power-off a battery-backed module may still be writing its content away; pulled "
        "then, the content is lost. Its battery stays connected until it has finished."),
    PRACTICE },
  { "data-set", LID_MOMENT_DATA, TRUE, 0,
    N_ ("Holds data: mark each with its slot, keep all together."),
    N_ ("Data may be spread over several modules; with one of them gone, or two exchanged, none of "
        "it can be read."),
    PRACTICE },

  { "open-latches", LID_MOMENT_PULL, FALSE, 0,
    N_ ("Open the latches; some slots have one fixed end. Lift straight up by the edges."),
    N_ ("A module pulled against a closed latch breaks the latch or the slot, and a broken slot "
        "is a broken board. Modules that look alike need not be alike: the number on the mat says "
        "which slot each came from."),
    PRACTICE },

  { "notch", LID_MOMENT_FIT, FALSE, 0,
    N_ ("Edges only, never the contacts. Notch over key; never force."),
    N_ ("Skin leaves a film on contacts, and chips carry a discharge. The notch is off centre: a "
        "module the wrong way round, or of another generation, does not go in; forced, it ruins "
        "contacts and slot."),
    PRACTICE },
  { "two-clicks", LID_MOMENT_FIT, FALSE, 0,
    N_ ("Press both ends straight down until both latches click by themselves."),
    N_ ("A latch closed by hand hides a module that is not seated: the commonest fault after an "
        "upgrade. A slot with one fixed end clicks once."),
    PRACTICE },

  { "level", LID_MOMENT_CLOSE, TRUE, 0, N_ ("All tops level, every latch upright?"),
    N_ ("A module half in stands higher at one end. Seeing it takes a minute now and an hour "
        "later."),
    PRACTICE },
  { "nothing-inside", LID_MOMENT_CLOSE, TRUE, 0, N_ ("Nothing left inside; tools counted."),
    N_ ("A screw on a live board is a short circuit."), PRACTICE },
  { "blanks-back", LID_MOMENT_CLOSE, TRUE, LID_CASE_BLANKS, N_ ("Blanks back in empty slots."),
    N_ ("Air takes the easy way, through the gap of an empty slot instead of over the modules."),
    PRACTICE },
  { "baffle-on", LID_MOMENT_CLOSE, TRUE, LID_CASE_BAFFLE,
    N_ ("Baffle and lid on; no cable over modules."),
    N_ ("Without them modules run hot even when nothing is asked of them: chips above 85 °C must "
        "be refreshed more often and make more errors."),
    REFRESH },
  { "lid-on", LID_MOMENT_CLOSE, TRUE, LID_CASE_NO_BAFFLE, N_ ("Lid on; no cable over modules."),
    N_ ("The lid is part of the air's way: chips above 85 °C must be refreshed more often and make "
        "more errors."),
    REFRESH },
  { "strap-off", LID_MOMENT_CLOSE, TRUE, 0, N_ ("Strap off, hands out; then cords in."),
    N_ ("Nobody is tied to a machine that is under power, and fans start without a warning."),
    PRACTICE },

  { "training", LID_MOMENT_START, FALSE, 0,
    N_ ("Memory trains at the first start: a black screen for up to 15 minutes and a restart or "
        "two can be normal. Do not cut power."),
    N_ ("The machine measures every wire to every module, and the more memory, the longer. Cut "
        "off, it begins anew."),
    TRAINING },
  { "still-black", LID_MOMENT_START, FALSE, 0,
    N_ ("Black for longer: cords out, drain, strap on; then press every fitted module home."),
    N_ ("A module that is not fully in is the likeliest cause, before any part is blamed. The "
        "machine was under power: it is made safe again as before."),
    PRACTICE },

  { "count-slots", LID_MOMENT_READ, TRUE, 0,
    N_ ("Count slots, not only the total: a lost channel keeps its speed."),
    N_ ("The speed shown says nothing of how many channels carry it."), PRACTICE },
  { "memory-test", LID_MOMENT_READ, TRUE, 0,
    N_ ("One full pass of a memory test, then error counters at zero?"),
    N_ ("Errors that are corrected do not fail a test; the counters have them. Look at them again "
        "after a day of load."),
    PRACTICE },

  { "bag-and-tag", LID_MOMENT_LEAVE, TRUE, 0, N_ ("Pulled modules bagged and tagged."),
    N_ ("They belong to the owner until somebody says otherwise, and a module without a tag is a "
        "module without a history."),
    PRACTICE },
};

static const struct
{
  const char *id; /* for --json */
  const char *heading;
} moments[LID_N_MOMENTS] = {
  [LID_MOMENT_BEFORE] = { "before", N_ ("Before you start") },
  [LID_MOMENT_FIRMWARE] = { "firmware", N_ ("While firmware is changed") },
  [LID_MOMENT_SAFE] = { "make-safe", N_ ("Make it safe") },
  [LID_MOMENT_DATA] = { "holds-data", N_ ("Before a module that holds data is pulled") },
  [LID_MOMENT_PULL] = { "pull", N_ ("At every module that is pulled") },
  [LID_MOMENT_FIT] = { "fit", N_ ("At every module that is fitted") },
  [LID_MOMENT_CLOSE] = { "close", N_ ("Before power-on") },
  [LID_MOMENT_START] = { "first-start", N_ ("At the first start") },
  [LID_MOMENT_READ] = { "read", N_ ("When the machine shows its memory") },
  [LID_MOMENT_LEAVE] = { "leave", N_ ("When the machine goes") },
};

/**
 * lid_cautions_all:
 * @n: (out): how many
 *
 * Returns: (transfer none): the cautions, in the order of the work
 */
const LidCaution *
lid_cautions_all (guint *n)
{
  *n = G_N_ELEMENTS (cautions);
  return cautions;
}

/**
 * lid_cautions_find:
 * @id: in any case
 *
 * Returns: (transfer none) (nullable): the caution
 */
const LidCaution *
lid_cautions_find (const char *id)
{
  for (guint i = 0; i < G_N_ELEMENTS (cautions); i++)
    if (lid_text_equal_folded (cautions[i].id, id))
      return &cautions[i];
  return NULL;
}

static gboolean
has_persistent (const LidPopulation *population)
{
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module != NULL && population->slots[i].module->persistent)
      return TRUE;
  return FALSE;
}

static gboolean
has_empty_slot (const LidPopulation *population)
{
  for (guint i = 0; i < population->n_slots; i++)
    if (population->slots[i].module == NULL)
      return TRUE;
  return FALSE;
}

/**
 * lid_cautions_cases:
 * @board: the machine's
 * @after: what it holds when the lid goes on
 *
 * Returns: LidCase bits; whoever knows what is pulled adds LID_CASE_DATA. Of a derived board nobody
 * said whether it has a baffle or blanks: what may be there is said; of blanks only where a slot is
 * left for one.
 */
guint
lid_cautions_cases (const LidBoard *board, const LidPopulation *after)
{
  guint cases = board->has_baffle || board->derived ? LID_CASE_BAFFLE : LID_CASE_NO_BAFFLE;

  if ((board->has_blanks || board->derived) && has_empty_slot (after))
    cases |= LID_CASE_BLANKS;
  if (has_persistent (after))
    cases |= LID_CASE_DATA_STAYS;
  return cases;
}

/**
 * lid_cautions_holds:
 * @cases: LidCase bits of the machine at hand
 *
 * Returns: whether @caution is to be said of that machine
 */
gboolean
lid_cautions_holds (const LidCaution *caution, guint cases)
{
  return (caution->needs & ~cases) == 0;
}

/**
 * lid_cautions_moment:
 *
 * Returns: (transfer none): the heading of that moment, in the reader's language
 */
const char *
lid_cautions_moment (LidMoment moment)
{
  g_return_val_if_fail ((guint)moment < LID_N_MOMENTS, NULL);
  return _ (moments[moment].heading);
}

/**
 * lid_cautions_moment_to_text:
 *
 * Returns: (transfer none): "make-safe", the same in every language
 */
const char *
lid_cautions_moment_to_text (LidMoment moment)
{
  g_return_val_if_fail ((guint)moment < LID_N_MOMENTS, NULL);
  return moments[moment].id;
}
