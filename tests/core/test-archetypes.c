/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every archetype of tests/data/archetypes (a copy of ../shared/facts/archetypes.csv, which names
 * the published documents) has its boards in platforms/, and each is held to its row: layout,
 * kinds, ranks, ways, sizes, modes, and what runs at each number of modules on a channel. */
#include "board/board-file.h"
#include "facts/module-kind.h"
#include "figures/running-rate.h"
#include "support.h"

#include <stdlib.h>
#include <string.h>

static GPtrArray *archetypes, *boards, *rates;

static GPtrArray *
read_data (const char *name)
{
  g_autofree char *relative = g_build_filename ("archetypes", name, NULL);
  g_autofree char *path = support_data (relative);

  return support_read_csv (path);
}

static LidBoard *
load (const char *id)
{
  g_autofree char *file = g_strconcat (id, ".json", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", file, NULL);
  g_autoptr (GError) error = NULL;
  LidBoard *board = lid_board_file_load (path, &error);

  g_assert_no_error (error);
  return board;
}

static guint
row_of (const char *archetype)
{
  for (guint i = 1; i < archetypes->len; i++)
    if (strcmp (support_cell (archetypes, i, "id"), archetype) == 0)
      return i;
  g_error ("there is no archetype %s", archetype);
}

static guint
number (guint row, const char *column)
{
  return (guint)atoi (support_cell (archetypes, row, column));
}

/* "2" or "2|1|1|2|1|1": what channel @k of a socket has. */
static guint
slots_told (guint row, guint k, guint n_channels)
{
  g_auto (GStrv) parts = g_strsplit (support_cell (archetypes, row, "slots_per_channel"), "|", -1);
  guint n = g_strv_length (parts);

  g_assert_true (n == 1 || n == n_channels);
  return (guint)atoi (parts[n == 1 ? 0 : k]);
}

static void
check_layout (const LidBoard *board, guint row, guint n_sockets)
{
  guint n_channels = number (row, "channels_per_socket");

  g_assert_cmpuint (board->n_sockets, ==, n_sockets);
  g_assert_cmpuint (board->n_slots, ==,
                    number (row, "slots_total") * n_sockets / number (row, "sockets"));
  for (guint s = 0; s < n_sockets; s++)
    {
      const LidBoardSocket *socket = &board->sockets[s];

      g_assert_cmpuint (socket->n_channels, ==, n_channels);
      g_assert_cmpuint (socket->n_controllers, ==, number (row, "controllers_per_socket"));
      for (guint k = 0; k < n_channels; k++)
        g_assert_cmpuint (board->channels[socket->first_channel + k].n_slots, ==,
                          slots_told (row, k, n_channels));
    }
}

/* The archetype's words for kinds and ours. */
static guint32
kinds_told (guint row)
{
  g_auto (GStrv) parts = g_strsplit (support_cell (archetypes, row, "module_types"), ", ", -1);
  guint32 kinds = 0;

  for (guint i = 0; parts[i] != NULL; i++)
    if (g_str_has_prefix (parts[i], "UDIMM-ECC"))
      kinds |= 1u << LID_KIND_ECC_UNBUFFERED;
    else if (strcmp (parts[i], "SODIMM-ECC") == 0)
      kinds |= 1u << LID_KIND_SO_ECC_UNBUFFERED;
    else if (strcmp (parts[i], "SODIMM") == 0)
      kinds |= 1u << LID_KIND_SO_UNBUFFERED;
    else if (g_str_has_prefix (parts[i], "LRDIMM"))
      kinds |= 1u << LID_KIND_LOAD_REDUCED;
    else if (g_str_has_prefix (parts[i], "RDIMM") || strcmp (parts[i], "3DS RDIMM") == 0)
      kinds |= 1u << LID_KIND_REGISTERED;
    else
      g_assert_true (strcmp (parts[i], "10x4") == 0 || strcmp (parts[i], "9x4") == 0
                     || g_str_has_suffix (parts[i], "x8)") || g_str_has_suffix (parts[i], "10x4)"));
  return kinds;
}

static void
check_takes (const LidBoard *board, guint row)
{
  const char *generation = support_cell (archetypes, row, "generation");
  guint most = 0;

  g_assert_cmpuint (board->kinds, ==, kinds_told (row));
  for (guint i = 0; i < 32; i++)
    if (board->generations & (1u << i))
      g_assert_nonnull (strstr (generation, lid_generation_to_text ((LidGeneration)i)));
  for (guint i = 0; i < board->n_rank_limits; i++)
    most = MAX (most, board->rank_limits[i].most_ranks);
  g_assert_cmpuint (most, ==, number (row, "max_logical_ranks_per_channel"));
}

static void
check_ways (const LidBoard *board, guint row)
{
  g_auto (GStrv) parts = g_strsplit (support_cell (archetypes, row, "allowed_ways"), ",", -1);
  const char *own = support_cell (archetypes, row, "cpu_needs_own_memory");
  guint32 ways = 0;

  for (guint i = 0; parts[i] != NULL; i++)
    ways |= 1u << atoi (parts[i]);
  g_assert_cmpint (board->region_model, ==, LID_REGIONS_WAYS);
  g_assert_cmpuint (board->ways, ==, ways);
  g_assert_cmpint (board->own_memory, ==,
                   strcmp (own, "n/a") == 0 ? LID_OWN_MEMORY_SILENT : LID_OWN_MEMORY_REQUIRED);
  g_assert_cmpuint (board->own_modules, ==, strstr (own, "two modules at least") != NULL ? 2 : 1);
}

static void
check_modes (const LidBoard *board, guint row)
{
  const char *told = support_cell (archetypes, row, "modes");
  gboolean split = strstr (told, "NUMA split 1/2/4") != NULL;

  g_assert_true (board->modes_told);
  if (strcmp (told, "none") == 0 || split)
    g_assert_cmpuint (board->n_modes, ==, 0);
  if (split)
    {
      g_assert_cmpuint (board->n_numa, ==, 3);
      g_assert_cmpuint (board->numa[0] * 100 + board->numa[1] * 10 + board->numa[2], ==, 124);
    }
  g_assert_true ((strstr (told, "mirror") != NULL && !split)
                 == (lid_board_find_mode (board, LID_MODE_MIRRORED) != NULL));
  g_assert_true (strstr (told, "sparing") == NULL
                 || lid_board_find_mode (board, LID_MODE_SPARED) != NULL);
  g_assert_true (strstr (told, "paired") == NULL
                 || lid_board_find_mode (board, LID_MODE_PAIRED) != NULL);
}

/* One hue for each position in a channel, the same on every channel; none where none is told. */
static void
check_latches (const LidBoard *board, guint row)
{
  gboolean none = strcmp (support_cell (archetypes, row, "slot_colours"), "none") == 0;

  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidBoardSlot *slot = &board->slots[i];

      g_assert_true (none == (slot->latch == NULL) && none == (slot->latch_hue == NULL));
      for (guint k = 0; k < i && !none; k++)
        g_assert_true ((slot->position == board->slots[k].position)
                       == (strcmp (slot->latch_hue, board->slots[k].latch_hue) == 0));
    }
}

/* Whether some firmware level of the board brings sizes that are no power of two. */
static gboolean
brings_non_binary (const LidBoard *board)
{
  for (guint i = 0; i < board->n_firmware; i++)
    for (guint k = 0; board->firmware[i].gifts != NULL && k < board->firmware[i].gifts->len; k++)
      if (g_array_index (board->firmware[i].gifts, LidFirmwareGift, k).non_binary)
        return TRUE;
  return FALSE;
}

static void
check_sizes (const LidBoard *board, guint row)
{
  g_auto (GStrv) parts
      = g_strsplit (support_cell (archetypes, row, "module_capacities_GB"), ",", -1);
  gint64 most = 0, told = 0;

  for (guint i = 0; parts[i] != NULL; i++)
    {
      gint64 gb = atoi (parts[i]);

      told = MAX (told, gb * 1024);
      g_assert_true ((gb & (gb - 1)) == 0 || brings_non_binary (board));
    }
  for (guint i = 0; i < board->n_limits; i++)
    if (board->limits[i].what == LID_LIMIT_MODULE)
      most = MAX (most, board->limits[i].mib);
  g_assert_cmpint (most, ==, told);
  g_assert_cmpuint (board->n_sizes, ==, g_strv_length (parts));
  for (guint i = 0; i < board->n_sizes; i++)
    g_assert_cmpint (board->sizes[i], ==, (gint64)atoi (parts[i]) * 1024);
}

static void
test_rows (void)
{
  g_autofree guint *n = g_new0 (guint, archetypes->len);

  g_assert_cmpuint (archetypes->len, ==, 21);
  for (guint i = 1; i < boards->len; i++)
    {
      const char *id = support_cell (boards, i, "board");
      guint row = row_of (support_cell (boards, i, "archetype"));
      guint sockets = (guint)atoi (support_cell (boards, i, "sockets"));
      g_autoptr (LidBoard) board = load (id);

      g_test_message ("%s", id);
      n[row]++;
      check_layout (board, row, sockets > 0 ? sockets : number (row, "sockets"));
      check_takes (board, row);
      check_ways (board, row);
      check_modes (board, row);
      check_latches (board, row);
      check_sizes (board, row);
    }
  for (guint i = 1; i < archetypes->len; i++)
    g_assert_cmpuint (n[i], >, 0);
}

static LidModule *
make_module (const LidBoard *board, guint row)
{
  LidModule *module = lid_module_new ();
  guint generation = 0;
  guint mv = (guint)atoi (support_cell (rates, row, "voltage"));
  guint32 volts = lid_voltage_from_mv (mv) | (mv == 1350 ? lid_voltage_from_mv (1500) : 0);

  while ((board->generations & (1u << generation)) == 0)
    generation++;
  lid_module_set (module, LID_FACT_GENERATION, (gint32)generation, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_KIND,
                  (gint32)lid_kind_from_text (support_cell (rates, row, "kind")), LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_RANKS, atoi (support_cell (rates, row, "ranks")),
                  LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_LOGICAL_RANKS, atoi (support_cell (rates, row, "logical")),
                  LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_VOLTAGE, (gint32)volts, LID_BASIS_TOLD);
  /* Rated so fast that the module is never what slows the machine. */
  lid_module_set (module, LID_FACT_RATED, (gint32)lid_rate_snap (LID_GENERATION_UNKNOWN, 8000),
                  LID_BASIS_TOLD);
  return module;
}

static LidPopulation *
populate (const LidBoard *board, guint row, guint per_channel)
{
  LidPopulation *population = lid_population_new (board);
  g_autoptr (LidModule) module = make_module (board, row);
  const char *processor = support_cell (rates, row, "processor");
  int model = LID_NOWHERE;

  for (guint i = 0; i < board->n_processors; i++)
    if (strcmp (board->processors[i].id, processor) == 0)
      model = (int)i;
  g_assert_cmpint (model, !=, LID_NOWHERE);
  for (guint i = 0; i < board->n_sockets; i++)
    population->processors[i].model = model;
  for (guint i = 0; i < board->n_slots; i++)
    if (board->slots[i].position <= per_channel)
      lid_population_put (population, i, module);
  population->firmware = g_strdup (board->firmware[board->n_firmware - 1].level);
  population->setup_mv = (guint)atoi (support_cell (rates, row, "voltage"));
  return population;
}

static void
check_rate (const LidBoard *board, guint row, guint per_channel, const char *told)
{
  g_autoptr (LidPopulation) population = populate (board, row, per_channel);
  g_autoptr (LidSurvey) survey = lid_survey_new (board, population);
  LidFigures figures;

  g_test_message ("%s row %u: %u on a channel: %s", board->id, row, per_channel, told);
  lid_figures_init (&figures, board);
  lid_running_rate_compute (survey, NULL, &figures);
  for (guint i = 0; i < board->n_channels; i++)
    g_assert_true ((figures.rates[i].row == LID_ROW_MISSING) == (strcmp (told, "-") == 0));
  if (strcmp (told, "-") != 0)
    g_assert_cmpuint (lid_rate_mts (figures.running), ==, (guint)atoi (told));
  lid_figures_clear (&figures);
}

/* The piece of prose a row was read from stands in the archetype of its board. */
static void
check_says (guint row)
{
  const char *says = support_cell (rates, row, "says"), *id = support_cell (rates, row, "board");
  gboolean found = FALSE;

  for (guint i = 1; i < boards->len; i++)
    if (strcmp (support_cell (boards, i, "board"), id) == 0)
      {
        guint of = row_of (support_cell (boards, i, "archetype"));

        found = found || strstr (support_cell (archetypes, of, "rate_table"), says) != NULL
                || strstr (support_cell (archetypes, of, "note"), says) != NULL;
      }
  if (!found && strcmp (says, "from memory") != 0)
    g_error ("%s: its archetype does not say “%s”", id, says);
}

static void
test_rates (void)
{
  static const char *const counts[] = { "one", "two", "three" };

  for (guint i = 1; i < rates->len; i++)
    {
      g_autoptr (LidBoard) board = load (support_cell (rates, i, "board"));

      check_says (i);
      for (guint n = 0; n < G_N_ELEMENTS (counts); n++)
        if (*support_cell (rates, i, counts[n]) != 0)
          check_rate (board, i, n + 1, support_cell (rates, i, counts[n]));
    }
}

/* No board of an archetype is without a row of rates. */
static void
test_every_board_has_rates (void)
{
  for (guint i = 1; i < boards->len; i++)
    {
      guint n = 0;

      for (guint k = 1; k < rates->len; k++)
        n += strcmp (support_cell (rates, k, "board"), support_cell (boards, i, "board")) == 0;
      if (n == 0)
        g_error ("%s: no row in rates.csv", support_cell (boards, i, "board"));
    }
}

static void
test_copy (void)
{
  g_autofree char *shared = support_shared ("facts/archetypes.csv");
  g_autofree char *copy = support_data ("archetypes/archetypes.csv");
  g_autofree char *ours = NULL, *theirs = NULL;

  if (shared == NULL)
    {
      g_test_skip ("no shared folder beside the checkout");
      return;
    }
  ours = support_read_file (copy, NULL);
  theirs = support_read_file (shared, NULL);
  g_assert_cmpstr (ours, ==, theirs);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  archetypes = read_data ("archetypes.csv");
  boards = read_data ("boards.csv");
  rates = read_data ("rates.csv");
  g_test_add_func ("/archetypes/rows", test_rows);
  g_test_add_func ("/archetypes/rates", test_rates);
  g_test_add_func ("/archetypes/every-board-has-rates", test_every_board_has_rates);
  g_test_add_func ("/archetypes/copy", test_copy);
  status = g_test_run ();
  g_ptr_array_unref (archetypes);
  g_ptr_array_unref (boards);
  g_ptr_array_unref (rates);
  return status;
}
