/* SPDX-License-Identifier: GPL-3.0-or-later */
/* proof-short.c — which modules a missing sum of memory can be, where nobody read slot by slot.
 * The table of symptoms is shared/facts/population.md 7.2 (common practice, no source). */
#include "prove/proof.h"

#include "base/text.h"
#include "base/units.h"
#include "prove/proof-private.h"

#include <glib/gi18n-lib.h>

#define MOST_ALIKE 4 /* of one size that may be missing at once and still be told by the sum */

static gint64
capacity_at (const LidProof *proof, guint slot)
{
  const LidModule *module = proof->planned->slots[slot].module;

  return module != NULL && !module->persistent ? lid_module_capacity (module) : 0;
}

static gint64
smallest (const LidProof *proof)
{
  gint64 least = 0;

  for (guint i = 0; i < proof->board->n_slots; i++)
    {
      gint64 mib = capacity_at (proof, i);

      if (mib > 0 && (least == 0 || mib < least))
        least = mib;
    }
  return least;
}

/**
 * lid_proof_is_total_as_planned:
 *
 * The plan's total is all that is fitted, or what the memory mode leaves of it; setup screens say
 * the one or the other. A little may be kept by firmware and graphics: less than half of the
 * smallest module (from memory). A total that nobody read says nothing.
 */
gboolean
lid_proof_is_total_as_planned (const LidProof *proof)
{
  gint64 seen = proof->seen_mib;

  if (seen < 0 || seen == proof->fitted_mib || seen == proof->planned_mib)
    return TRUE;
  return seen < proof->fitted_mib && proof->fitted_mib - seen < smallest (proof) / 2;
}

/* The slots of one size, marked. */
static guint
mark_size (const LidProof *proof, gint64 mib, guint8 *slots)
{
  guint n = 0;

  for (guint i = 0; i < proof->board->n_slots; i++)
    {
      slots[i] = capacity_at (proof, i) == mib;
      n += slots[i];
    }
  return n;
}

static gint64
next_size (const LidProof *proof, gint64 below)
{
  gint64 next = 0;

  for (guint i = 0; i < proof->board->n_slots; i++)
    if (capacity_at (proof, i) < below)
      next = MAX (next, capacity_at (proof, i));
  return next;
}

/* The fewest modules of one size that make up what is missing. */
static gboolean
say_modules (LidProof *proof, gint64 missing)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);

  for (gint64 mib = next_size (proof, G_MAXINT64); mib > 0; mib = next_size (proof, mib))
    {
      guint n = mark_size (proof, mib, slots), short_of = (guint)MIN (missing / mib, G_MAXUINT);
      g_autofree char *size = NULL, *names = NULL;

      if (missing % mib != 0 || short_of > MIN (n, MOST_ALIKE))
        continue;
      size = lid_units_capacity (mib);
      names = lid_proof_names (proof->board, slots);
      lid_proof_say (proof,
                     g_dngettext (GETTEXT_PACKAGE,
                                  "The total is short by exactly %u module of %s: any of %s. Look "
                                  "at the list of slots in the setup, also for one that is "
                                  "disabled.",
                                  "The total is short by exactly %u modules of %s: any of %s. Look "
                                  "at the list of slots in the setup, also for those that are "
                                  "disabled.",
                                  short_of),
                     short_of, size, names);
      return TRUE;
    }
  return FALSE;
}

/* One module is half or a quarter of what is planned: the wrong bin. */
static gboolean
say_smaller (LidProof *proof, gint64 missing)
{
  g_autofree guint8 *slots = g_new0 (guint8, proof->board->n_slots + 1);

  for (gint64 mib = next_size (proof, G_MAXINT64); mib > 0; mib = next_size (proof, mib))
    for (gint64 part = mib / 2; part >= mib / 4 && part > 0; part /= 2)
      if (mib - part == missing)
        {
          g_autofree char *size = lid_units_capacity (part), *whole = lid_units_capacity (mib);
          g_autofree char *names = NULL;

          mark_size (proof, mib, slots);
          names = lid_proof_names (proof->board, slots);
          lid_proof_say (proof,
                         _ ("One module of %s where one of %s is planned makes up exactly what is "
                            "missing: any of %s. Look at the sizes in the list of slots in the "
                            "setup."),
                         size, whole, names);
          return TRUE;
        }
  return FALSE;
}

/* A screen that shows GB, told as MB. */
static gboolean
say_unit (LidProof *proof)
{
  g_autofree char *told = NULL, *meant = NULL;

  if (proof->seen_mib == 0 || proof->seen_mib * 1024 > 2 * proof->fitted_mib
      || proof->seen_mib >= smallest (proof))
    return FALSE;
  told = lid_units_capacity_mb (proof->seen_mib);
  meant = lid_units_capacity (proof->seen_mib * 1024);
  lid_proof_say (proof,
                 _ ("A total of %s was told: if the screen shows %s, say GB behind the number."),
                 told, meant);
  return TRUE;
}

static gboolean
say_sockets (LidProof *proof, gint64 missing)
{
  guint before = proof->advice->len;

  for (guint s = 0; s < proof->board->n_sockets; s++)
    {
      gint64 mib = 0;

      for (guint i = 0; i < proof->board->n_slots; i++)
        if (proof->board->slots[i].socket == (int)s)
          mib += capacity_at (proof, i);
      if (mib == missing && mib < proof->fitted_mib)
        lid_proof_say (proof,
                       _ ("The memory of processor %s makes up exactly what is missing: is the "
                          "processor fitted, and is its memory enabled in the setup?"),
                       proof->board->sockets[s].name);
    }
  return proof->advice->len > before;
}

static gboolean
say_channels (LidProof *proof, gint64 missing)
{
  guint before = proof->advice->len;

  for (guint c = 0; c < proof->board->n_channels; c++)
    {
      const LidBoardChannel *channel = &proof->board->channels[c];
      gint64 mib = 0;
      guint n = 0;

      for (guint k = 0; k < channel->n_slots; k++)
        {
          mib += capacity_at (proof, channel->slots[k]);
          n += capacity_at (proof, channel->slots[k]) > 0;
        }
      if (mib == missing && n > 1)
        lid_proof_say (proof,
                       _ ("The %u modules of processor %s, channel %s make up exactly what is "
                          "missing: if all of them are gone, look at how the processor is seated "
                          "before any module."),
                       n, proof->board->sockets[channel->socket].name, channel->name);
    }
  return proof->advice->len > before;
}

/**
 * lid_proof_say_short:
 * @proof: by eye, its total other than planned
 *
 * What a total can mean that nobody read slot by slot; every reading that fits exactly is said.
 */
void
lid_proof_say_short (LidProof *proof)
{
  gint64 missing = proof->fitted_mib - proof->seen_mib;
  g_autofree char *seen = lid_units_capacity_mb (proof->seen_mib);
  g_autofree char *planned = lid_units_capacity_mb (proof->fitted_mib);
  gboolean is_told;

  if (say_unit (proof))
    return;
  if (missing < 0)
    {
      lid_proof_say (proof,
                     _ ("The total of %s is more than the planned %s: a module is larger than "
                        "planned, or one sits in a slot that the plan leaves empty."),
                     seen, planned);
      return;
    }
  is_told = proof->fitted_mib == 2 * proof->seen_mib;
  if (is_told)
    lid_proof_say (proof, "%s",
                   _ ("The total is half of what is planned: look first whether the setup mirrors "
                      "memory."));
  is_told |= say_sockets (proof, missing);
  is_told |= say_modules (proof, missing);
  is_told |= say_smaller (proof, missing);
  is_told |= say_channels (proof, missing);
  if (!is_told)
    lid_proof_say (proof,
                   _ ("The total is %s where %s is planned, and no few modules of one size make up "
                      "the difference: read it slot by slot, and look whether ranks are kept as "
                      "spares in the setup."),
                   seen, planned);
  else
    {
      lid_proof_say_hands (proof);
      lid_proof_say (proof, "%s",
                     _ ("Seat once more what the list of slots then shows as missing, until both "
                        "latches close by themselves."));
    }
}
