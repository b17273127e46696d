/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenes.h"

#include "board/board-file.h"

/* naming: "A1" channel letter and position; "1-A1" socket in front; "P1-DIMMA1"; "DIMM" running
 * number only; "PROC 1 DIMM 3" socket and running number: the shapes of names real firmware gives
 * (shared/facts/locators.md). */
const Scene scenes[] = {
  { "dunlin", "dunlin-s1", 0, 0, 0, NULL, TRUE, FALSE },
  { "sandpiper", "sandpiper-t1", 0, 0, 0, NULL, TRUE, FALSE },
  { "tern", "tern-w4", 0, 0, 0, NULL, TRUE, FALSE },
  { "plover", "plover-r2", 0, 0, 0, NULL, TRUE, FALSE },
  { "gannet", "gannet-r2", 0, 0, 0, NULL, TRUE, FALSE },
  { "curlew", "curlew-r2", 0, 0, 0, NULL, TRUE, FALSE },
  { "one", NULL, 1, 1, 1, "DIMM", TRUE, TRUE },
  { "two", NULL, 1, 2, 1, "A1", TRUE, TRUE },
  { "four", NULL, 1, 2, 2, "A1", TRUE, FALSE },
  { "six-untold", NULL, 1, 6, 1, "DIMM", FALSE, TRUE },
  { "eighteen", NULL, 2, 3, 3, "P1-DIMMA1", TRUE, TRUE },
  { "twentyfour", NULL, 2, 6, 2, "1-A1", TRUE, FALSE },
  { "thirtytwo-untold", NULL, 2, 16, 1, "PROC", FALSE, TRUE },
  { "fortyeight", NULL, 2, 12, 2, "P1-DIMMA1", TRUE, TRUE },
  { "fortyeight-untold", NULL, 4, 12, 1, "PROC", FALSE, TRUE },
  { "ninetysix", NULL, 4, 8, 3, "1-A1", TRUE, FALSE },
  { "onehundredninetytwo", NULL, 8, 8, 3, "1-A1", TRUE, FALSE },
};
const guint n_scenes = G_N_ELEMENTS (scenes);

const Scene *
scenes_find (const char *name)
{
  for (guint i = 0; i < n_scenes; i++)
    if (g_strcmp0 (scenes[i].name, name) == 0)
      return &scenes[i];
  g_error ("no scene %s", name);
}

/* Any number of slots, in one socket of few and more sockets of many. */
Scene
scenes_plain (guint n_slots)
{
  Scene scene = { "plain", NULL, 1, n_slots, 1, "DIMM", FALSE, TRUE };

  if (n_slots % 24 == 0)
    scene = (Scene){ "plain", NULL, n_slots / 24, 8, 3, "1-A1", TRUE, FALSE };
  else if (n_slots % 8 == 0 && n_slots / 8 <= LID_BOARD_MAX_SOCKETS)
    scene = (Scene){ "plain", NULL, n_slots / 8, 4, 2, "1-A1", TRUE, FALSE };
  else if (n_slots % 2 == 0)
    scene = (Scene){ "plain", NULL, 1, n_slots / 2, 2, "A1", TRUE, TRUE };
  return scene;
}

static char *
name_slot (const Scene *scene, guint socket, guint channel, guint position)
{
  guint running = socket * scene->channels * scene->slots + channel * scene->slots + position + 1;

  if (g_str_equal (scene->naming, "A1"))
    return g_strdup_printf ("%c%u", 'A' + channel % 26, position + 1 + channel / 26 * 10);
  if (g_str_equal (scene->naming, "1-A1"))
    return g_strdup_printf ("%u-%c%u", socket + 1, 'A' + channel % 26, position + 1);
  if (g_str_equal (scene->naming, "P1-DIMMA1"))
    return g_strdup_printf ("P%u-DIMM%c%u", socket + 1, 'A' + channel % 26, position + 1);
  if (g_str_equal (scene->naming, "PROC"))
    return g_strdup_printf ("PROC %u DIMM %u", socket + 1, channel * scene->slots + position + 1);
  return g_strdup_printf ("DIMM%u", running);
}

static void
fill_slot (const Scene *scene, LidBoard *board, guint i)
{
  static const char *const words[] = { "sand", "slate", "moss" };
  static const char *const hues[] = { "#c8a165", "#5b7083", "#7d8f5a" };
  guint per_socket = scene->channels * scene->slots;
  guint socket = i / per_socket, channel = i % per_socket / scene->slots;
  guint position = i % scene->slots;
  LidBoardSlot *slot = &board->slots[i];

  slot->name = name_slot (scene, socket, channel, position);
  slot->id = g_strdup_printf ("%u:%s", i, slot->name);
  slot->socket = scene->told || g_str_equal (scene->naming, "PROC") ? (int)socket : LID_NOWHERE;
  slot->channel = scene->told ? (int)(socket * scene->channels + channel) : LID_NOWHERE;
  slot->position = scene->told ? position + 1 : 0;
  if (!scene->derived)
    {
      slot->latch = g_strdup (words[position % 3]);
      slot->latch_hue = g_strdup (hues[position % 3]);
    }
}

static void
fill_channels (const Scene *scene, LidBoard *board)
{
  board->n_channels = scene->sockets * scene->channels;
  board->channels = g_new0 (LidBoardChannel, board->n_channels);
  for (guint c = 0; c < board->n_channels; c++)
    {
      LidBoardChannel *channel = &board->channels[c];

      channel->name = g_strdup_printf ("%c", 'A' + c % scene->channels % 26);
      channel->socket = (int)(c / scene->channels);
      channel->n_slots = scene->slots;
      channel->slots = g_new0 (guint, scene->slots);
      for (guint s = 0; s < scene->slots; s++)
        channel->slots[s] = c * scene->slots + s;
    }
}

static void
fill_rules (const Scene *scene, LidBoard *board)
{
  guint n = 0;

  board->order = g_new0 (guint, board->n_slots);
  for (guint position = 0; position < scene->slots; position++)
    for (guint channel = 0; channel < scene->channels; channel++)
      for (guint socket = 0; socket < scene->sockets; socket++)
        board->order[n++] = (socket * scene->channels + channel) * scene->slots + position;
  board->n_order = n;
  board->generations = 1u << LID_GENERATION_DDR4;
  board->kinds = (1u << LID_KIND_REGISTERED) | (1u << LID_KIND_LOAD_REDUCED);
  board->has_baffle = TRUE;
  board->ways = 0x15e;
  board->region_model_told = TRUE;
  board->region_model = LID_REGIONS_WAYS;
}

static LidBoard *
make_board (const Scene *scene)
{
  LidBoard *board = lid_board_new ();

  board->id = g_strdup (scene->name);
  board->name = g_strdup ("Field station board");
  board->derived = scene->derived;
  board->channels_told = board->sockets_told = scene->told;
  board->n_sockets = scene->sockets;
  board->sockets = g_new0 (LidBoardSocket, scene->sockets);
  for (guint s = 0; s < scene->sockets; s++)
    {
      board->sockets[s].name = g_strdup_printf ("%u", s + 1);
      board->sockets[s].n_channels = scene->told ? scene->channels : 0;
      board->sockets[s].first_channel = scene->told ? s * scene->channels : 0;
      board->sockets[s].n_controllers = 1;
    }
  board->n_slots = scene->sockets * scene->channels * scene->slots;
  board->slots = g_new0 (LidBoardSlot, board->n_slots);
  for (guint i = 0; i < board->n_slots; i++)
    fill_slot (scene, board, i);
  if (scene->told)
    fill_channels (scene, board);
  if (!scene->derived)
    fill_rules (scene, board);
  return board;
}

static LidBoard *
load_board (const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_strconcat (name, ".json", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", file, NULL);
  LidBoard *board = lid_board_file_load (path, &error);

  g_assert_no_error (error);
  return board;
}

static LidModule *
make_module (const LidBoard *board, const char *id, gint32 gib, gint32 mts)
{
  static const LidKind rising[]
      = { LID_KIND_REGISTERED, LID_KIND_ECC_UNBUFFERED, LID_KIND_SO_ECC_UNBUFFERED,
          LID_KIND_SO_UNBUFFERED, LID_KIND_UNBUFFERED };
  LidModule *module = lid_module_new ();
  LidGeneration generation = LID_GENERATION_DDR4;
  LidKind kind = LID_KIND_REGISTERED;

  for (guint k = G_N_ELEMENTS (rising); k > 0; k--)
    if (board->kinds & (1u << rising[k - 1]))
      kind = rising[k - 1];
  for (guint g = 1; g < LID_N_GENERATIONS; g++)
    if (board->generations & (1u << g))
      generation = g;
  if (generation == LID_GENERATION_DDR5)
    mts = mts * 3 / 2;
  module->id = g_strdup (id);
  module->part = g_strdup_printf ("TW-%d-%c", gib, *id);
  lid_module_set (module, LID_FACT_GENERATION, generation, LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_KIND, kind, LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_FORM, lid_kind_form (kind), LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_CAPACITY, gib * 1024, LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_RANKS, 2, LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_LOGICAL_RANKS, 2, LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_CHIP_WIDTH, kind == LID_KIND_REGISTERED ? 4 : 8,
                  LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_STACK, LID_STACK_NONE, LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_RATED, (gint32)lid_rate_snap (generation, (guint)mts),
                  LID_BASIS_LABEL);
  lid_module_set (module, LID_FACT_ECC, TRUE, LID_BASIS_LABEL);
  return module;
}

static void
put (LidJob *job, LidPopulation *population, guint slot, const char *prefix, gint32 gib, gint32 mts)
{
  g_autofree char *id = g_strdup_printf ("%s%u", prefix, slot);
  LidModule *module = make_module (job->board, id, gib, mts);

  if (population->slots[slot].state == LID_SLOT_EMPTY)
    {
      lid_population_put (population, slot, module);
      lid_job_add_module (job, module);
    }
  else
    lid_module_unref (module);
}

/* As found: small modules in every other channel. Planned: those pulled or kept, larger ones in the
 * first slots; the last channel stays idle, so that there is something to see. */
static void
populate (LidJob *job, gboolean plan)
{
  const LidBoard *board = job->board;
  guint n = board->n_slots;
  LidStage *stage;

  job->as_found = lid_population_new (board);
  for (guint i = 0; i < n; i++)
    if (i % 4 == 0 || (n < 4 && i == 0))
      put (job, job->as_found, i, "old", 16, 2666);
  job->as_found->firmware = g_strdup ("2.1");
  if (!plan)
    return;
  stage = g_new0 (LidStage, 1);
  stage->population = lid_population_copy (job->as_found);
  for (guint i = 0; i < n; i++)
    {
      if (i % 8 == 0 && n > 4 && board->slots[i].soldered == NULL)
        lid_population_take (stage->population, i);
      if (i + (n > 4 ? 2 : 0) < n && (board->slots[i].position <= 1 || i % 3 == 0))
        put (job, stage->population, i, "new", 32, 2933);
    }
  g_free (stage->population->firmware);
  stage->population->firmware
      = g_strdup (board->n_firmware > 0 ? board->firmware[board->n_firmware - 1].level : "2.4");
  g_ptr_array_add (job->stages, stage);
}

/**
 * scenes_job:
 *
 * Returns: (transfer full): a job of the scene: found as it is, and a plan
 */
LidJob *
scenes_job (const Scene *scene)
{
  g_autoptr (LidBoard) board
      = scene->board != NULL ? load_board (scene->board) : make_board (scene);
  LidJob *job = lid_job_new (board);

  lid_job_set_text (&job->title, "Estuary tide gauge, node 2");
  lid_job_set_text (&job->owner, "Weather and tide service");
  lid_job_set_text (&job->asset, "0417");
  lid_job_set_text (&job->number, "118");
  lid_job_set_text (&job->shop, "Harbour Lane Repairs");
  populate (job, TRUE);
  return job;
}

LidAssessment *
scenes_assess (const LidJob *job, LidOf of)
{
  LidQuestion question = { job->board, lid_job_get_population (job, of), job->as_found };

  return lid_assessment_new (&question);
}
