/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "board/board-match.h"
#include "job/asks.h"
#include "job/learnt.h"
#include "locators/locators.h"
#include "support.h"

#include <glib/gstdio.h>
#include <string.h>

/* Two channels; parts P1 in A1 and B1, P2 in A2, and a module without a number in B2. Of P1 the
 * inventory told no ranks and no kind. */
static LidJob *
make_job (void)
{
  static const char *const names[] = { "DIMM_A1", "DIMM_A2", "DIMM_B1", "DIMM_B2" };
  static const char *const parts[] = { "P1", "P2", "P1", NULL };
  g_autoptr (LidInventory) inventory = lid_inventory_new ("gauge", "smbios");
  g_autoptr (LidMatch) match = NULL;

  lid_inventory_add_processor (inventory, "CPU", TRUE);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      device->locator = g_strdup (names[i]);
      g_free (device->bank);
      device->bank = g_strdup_printf ("P0_Node0_Channel%u_Dimm%u", i / 2, i % 2);
      device->handle = (gint32)(0x1100 + i);
      device->state = LID_SLOT_FILLED;
      device->capacity_mib = 16384;
      device->module = lid_module_new ();
      lid_module_set (device->module, LID_FACT_CAPACITY, 16384, LID_BASIS_INVENTORY);
      lid_module_set (device->module, LID_FACT_GENERATION, LID_GENERATION_DDR4,
                      LID_BASIS_INVENTORY);
      if (i == 1 || i == 3)
        lid_module_set (device->module, LID_FACT_KIND, LID_KIND_REGISTERED, LID_BASIS_INVENTORY);
      lid_module_set_text (&device->module->part, parts[i]);
    }
  lid_locators_place (inventory);
  match = lid_match_inventory (inventory, NULL, NULL);
  return lid_job_from_inventory (inventory, match);
}

static GPtrArray *
asks_of (const LidJob *job)
{
  LidQuestion question = { job->board, job->as_found, job->as_found };
  g_autoptr (LidAssessment) assessment = lid_assessment_new (&question);

  return lid_asks_list (assessment, job->as_found);
}

static const LidAsk *
ask_for (const GPtrArray *asks, const char *part)
{
  for (guint i = 0; i < asks->len; i++)
    if (g_strcmp0 (((LidAsk *)asks->pdata[i])->part, part) == 0)
      return asks->pdata[i];
  return NULL;
}

/* Once for a part, whatever it misses and wherever it sits; a label answers all of it. */
static void
test_asks (void)
{
  g_autoptr (LidEdits) edits = lid_edits_new (make_job ());
  g_autoptr (GPtrArray) asks = asks_of (lid_edits_job (edits)), after = NULL;
  const LidAsk *first = ask_for (asks, "P1");
  g_autoptr (GError) error = NULL;
  g_autofree char *slots = NULL, *facts = NULL;
  guint n = 0;

  g_assert_nonnull (first);
  for (guint i = 0; i < asks->len; i++)
    n += g_strcmp0 (((LidAsk *)asks->pdata[i])->part, "P1") == 0;
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpuint (first->slots->len, ==, 2);
  g_assert_true (first->facts & (1u << LID_FACT_KIND));
  slots = lid_asks_slots (first, lid_edits_job (edits)->board);
  facts = lid_asks_facts (first);
  g_assert_nonnull (strstr (slots, "DIMM_A1"));
  g_assert_nonnull (strstr (slots, "DIMM_B1"));
  g_assert_nonnull (strstr (facts, lid_fact_to_words (LID_FACT_KIND)));
  g_assert_true (lid_edits_tell_label (edits, first->module, "16GB 2Rx8 PC4-2400T-RE1-11", &error));
  g_assert_no_error (error);
  after = asks_of (lid_edits_job (edits));
  g_assert_null (ask_for (after, "P1"));
}

static gboolean
remembers (const char *path, const char *part)
{
  g_autoptr (LidParts) parts = lid_parts_load (path, NULL);
  g_autoptr (LidModule) module = lid_module_new ();

  lid_module_set_text (&module->part, part);
  return lid_parts_apply (parts, module) != 0;
}

static gint32
ranks_remembered (const char *path)
{
  g_autoptr (LidParts) parts = lid_parts_load (path, NULL);
  g_autoptr (LidModule) module = lid_module_new ();

  lid_module_set_text (&module->part, "P1");
  lid_parts_apply (parts, module);
  return lid_module_get (module, LID_FACT_RANKS, 0);
}

static void
answer (LidEdits *edits, LidLearnt *learnt, const char *label)
{
  const LidJob *job = lid_edits_job (edits);
  g_autofree char *id = g_strdup (job->as_found->slots[0].module->id);
  g_autoptr (GError) error = NULL;

  g_assert_true (lid_edits_tell_label (edits, id, label, &error));
  g_assert_true (lid_learnt_add (learnt, lid_job_find_module (job, id), &error));
  g_assert_true (lid_learnt_follow (learnt, job, &error));
  g_assert_no_error (error);
}

static void
follow (LidEdits *edits, LidLearnt *learnt)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (lid_learnt_follow (learnt, lid_edits_job (edits), &error));
  g_assert_no_error (error);
}

/* The file of parts follows undo and redo; what was held before the first answer comes back. */
static void
test_learnt (void)
{
  g_autofree char *folder = g_dir_make_tmp ("asks-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "parts.json", NULL);
  g_autoptr (LidParts) parts = lid_parts_load (path, NULL);
  g_autoptr (LidEdits) edits = lid_edits_new (make_job ());
  g_autoptr (LidLearnt) learnt = lid_learnt_new (parts);

  answer (edits, learnt, "16GB 2Rx8 PC4-2400T-RE1-11");
  g_assert_cmpint (ranks_remembered (path), ==, 2);
  lid_edits_undo (edits);
  follow (edits, learnt);
  g_assert_false (remembers (path, "P1"));
  lid_edits_redo (edits);
  follow (edits, learnt);
  g_assert_cmpint (ranks_remembered (path), ==, 2);
  /* A slip put right: the second answer counts, and undone, the first again. */
  answer (edits, learnt, "16GB 1Rx4 PC4-2400T-RC1-11");
  g_assert_cmpint (ranks_remembered (path), ==, 1);
  lid_edits_undo (edits);
  follow (edits, learnt);
  g_assert_cmpint (ranks_remembered (path), ==, 2);
  lid_edits_undo (edits);
  follow (edits, learnt);
  g_assert_false (remembers (path, "P1"));
  g_unlink (path);
  g_rmdir (folder);
}

/* What was remembered before this job is there again after an undo. */
static void
test_held_before (void)
{
  g_autofree char *folder = g_dir_make_tmp ("asks-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "parts.json", NULL);
  g_autoptr (LidParts) parts = lid_parts_load (path, NULL);
  g_autoptr (LidEdits) edits = lid_edits_new (make_job ());
  g_autoptr (LidModule) old = lid_module_new ();
  g_autoptr (LidLearnt) learnt = NULL;

  lid_module_set_text (&old->part, "P1");
  lid_module_set (old, LID_FACT_RANKS, 4, LID_BASIS_LABEL);
  lid_parts_learn (parts, old);
  learnt = lid_learnt_new (parts);
  answer (edits, learnt, "16GB 2Rx8 PC4-2400T-RE1-11");
  g_assert_cmpint (ranks_remembered (path), ==, 2);
  lid_edits_undo (edits);
  follow (edits, learnt);
  g_assert_cmpint (ranks_remembered (path), ==, 4);
  g_unlink (path);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/asks/asks", test_asks);
  g_test_add_func ("/asks/learnt", test_learnt);
  g_test_add_func ("/asks/held-before", test_held_before);
  return g_test_run ();
}
