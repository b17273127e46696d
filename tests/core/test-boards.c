/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every board of platforms/ owes, found by scan: an order of fitting that fills a first slot
 * everywhere before a second one anywhere and keeps sockets and controllers in step; even
 * populations at every step that nothing stops; places that do not overlap. */
#include "board/board-file.h"
#include "checks/assessment.h"
#include "checks/rules.h"
#include "facts/module-kind.h"
#include "help/board-tables.h"
#include "support.h"

#include <string.h>

typedef void (*Test) (const LidBoard *board);

static void
for_each_board (Test test)
{
  g_autofree char *folder = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".json"))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);
        g_autoptr (GError) error = NULL;
        g_autoptr (LidBoard) board = lid_board_file_load (path, &error);

        g_assert_no_error (error);
        g_test_message ("%s", board->id);
        test (board);
        n++;
      }
  g_assert_cmpuint (n, >=, 29);
}

/* Source: shared/facts/population.md P1 and P3: the first slot of a channel first, and one module
 * on every channel before a second one on any. */
static void
check_first_slots_first (const LidBoard *board)
{
  guint position = 1;

  for (guint i = 0; i < board->n_order; i++)
    {
      const LidBoardSlot *slot = &board->slots[board->order[i]];

      g_assert_cmpuint (slot->position, >=, position);
      position = slot->position;
    }
}

/* How many of the first @n of the order sit on a socket, or on one controller of it. */
static guint
count_on (const LidBoard *board, guint n, int socket, int controller)
{
  guint count = 0;

  for (guint i = 0; i < n; i++)
    {
      const LidBoardSlot *slot = &board->slots[board->order[i]];

      count += slot->socket == socket
               && (controller == 0 || board->channels[slot->channel].controller == controller);
    }
  return count;
}

/* Source: P4 and P5: spread over controllers first, and over sockets. Second slots that only some
 * channels have are left out: there the layout decides. */
static void
check_spread (const LidBoard *board)
{
  for (guint n = 1; n <= board->n_order; n++)
    {
      guint most = 0, least = G_MAXUINT;

      if (board->slots[board->order[n - 1]].position > 1)
        return;
      for (guint s = 0; s < board->n_sockets; s++)
        {
          guint of_socket = count_on (board, n, (int)s, 0);
          guint most_here = 0, least_here = G_MAXUINT;

          most = MAX (most, of_socket);
          least = MIN (least, of_socket);
          for (guint k = 1; k <= board->sockets[s].n_controllers; k++)
            {
              guint of_controller = count_on (board, n, (int)s, (int)k);

              most_here = MAX (most_here, of_controller);
              least_here = MIN (least_here, of_controller);
            }
          g_assert_cmpuint (most_here - least_here, <=, 1);
        }
      g_assert_cmpuint (most - least, <=, 1);
    }
}

/* The plainest module the board takes: registered or its first kind, two ranks, of a size and rate
 * it lists. */
static LidModule *
make_module (const LidBoard *board)
{
  LidModule *module = lid_module_new ();
  guint kind = 1, generation = 1;
  gboolean ecc, so;

  while ((board->kinds & (1u << kind)) == 0)
    kind++;
  if (board->kinds & (1u << LID_KIND_REGISTERED))
    kind = LID_KIND_REGISTERED;
  while ((board->generations & (1u << generation)) == 0)
    generation++;
  ecc = kind != LID_KIND_UNBUFFERED && kind != LID_KIND_SO_UNBUFFERED;
  so = kind == LID_KIND_SO_UNBUFFERED || kind == LID_KIND_SO_ECC_UNBUFFERED;
  lid_module_set (module, LID_FACT_GENERATION, (gint32)generation, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_KIND, (gint32)kind, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_FORM, so ? LID_FORM_SO_DIMM : LID_FORM_DIMM, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_CAPACITY, 8192, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_RANKS, 2, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_LOGICAL_RANKS, 2, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_STACK, LID_STACK_NONE, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_CHIP_WIDTH, 8, LID_BASIS_TOLD);
  lid_module_set (
      module, LID_FACT_RATED,
      (gint32)lid_rate_snap ((LidGeneration)generation, generation == LID_GENERATION_DDR3   ? 1066
                                                        : generation == LID_GENERATION_DDR4 ? 1600
                                                                                            : 3200),
      LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_ECC, ecc, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_CHECK_BITS, ecc ? 8 : 0, LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_DIE, 4, LID_BASIS_TOLD);
  /* Of DDR3 the plain one: at 1.35 V some boards of the class do not run three on a channel. */
  lid_module_set (module, LID_FACT_VOLTAGE,
                  (gint32)lid_voltage_from_mv (generation == LID_GENERATION_DDR3   ? 1500
                                               : generation == LID_GENERATION_DDR4 ? 1200
                                                                                   : 1100),
                  LID_BASIS_TOLD);
  lid_module_set (module, LID_FACT_HEIGHT, MIN (board->max_height, 3125), LID_BASIS_TOLD);
  return module;
}

static LidAssessment *
assess_first (const LidBoard *board, LidModule *module, guint n, guint processor)
{
  g_autoptr (LidPopulation) population = lid_population_new (board);
  LidQuestion question = { board, population, NULL };

  for (guint i = 0; i < n; i++)
    lid_population_put (population, board->order[i], module);
  for (guint i = 0; i < board->n_sockets; i++)
    population->processors[i].model = (int)processor;
  population->firmware = g_strdup (board->firmware[board->n_firmware - 1].level);
  return lid_assessment_new (&question);
}

static void
complain (const LidBoard *board, guint n, const LidFinding *finding)
{
  g_error ("%s, first %u of the order: %s: %s", board->id, n, finding->rule->id, finding->text);
}

/* Every step of the order that leaves the sockets alike starts and shows all it holds. */
static void
check_every_step (const LidBoard *board)
{
  g_autoptr (LidModule) module = make_module (board);

  for (guint n = board->n_sockets * board->own_modules; n <= board->n_order; n += board->n_sockets)
    {
      g_autoptr (LidAssessment) assessment = assess_first (board, module, n, 0);

      for (guint i = 0; i < assessment->findings->len; i++)
        {
          const LidFinding *finding = assessment->findings->pdata[i];

          if (finding->grade == LID_GRADE_STOPS || finding->rule == &lid_rule_order_of_fitting
              || finding->rule == &lid_rule_unmatched_sockets
              || finding->rule == &lid_rule_lone_module)
            complain (board, n, finding);
        }
      g_assert_true (assessment->figures.starts);
      g_assert_cmpint (assessment->figures.capacity_mib, ==, assessment->figures.fitted_mib);
    }
}

/* Every channel full with one module the slowest table row still feeds: nothing lost; where all
 * channels have as many slots, all of it is one region a socket. */
static void
check_full (const LidBoard *board)
{
  g_autoptr (LidModule) module = make_module (board);
  gboolean even = TRUE;

  for (guint i = 0; i < board->n_channels; i++)
    even = even && board->channels[i].n_slots == board->channels[0].n_slots
           && board->slots[board->channels[i].slots[0]].soldered == NULL;
  for (guint p = 0; p < board->n_processors; p++)
    {
      g_autoptr (LidAssessment) assessment = assess_first (board, module, board->n_order, p);

      for (guint i = 0; i < assessment->findings->len; i++)
        {
          const LidFinding *finding = assessment->findings->pdata[i];

          if (finding->grade == LID_GRADE_STOPS || (even && finding->grade == LID_GRADE_LOSES))
            complain (board, board->n_order, finding);
        }
      g_assert_cmpuint (assessment->figures.channels_in_use, ==, board->n_channels);
      if (!even)
        continue;
      g_assert_cmpuint (assessment->figures.regions->len, ==, board->n_sockets);
      g_assert_cmpint (lid_ratio_compare (assessment->figures.even_share, lid_ratio (1, 1)), ==, 0);
    }
}

static void
check_places (const LidBoard *board)
{
  g_assert_true (board->placed);
  for (guint i = 0; i < board->n_slots; i++)
    {
      const LidBoardSlot *a = &board->slots[i];

      g_assert_cmpfloat (a->turn, ==, 0);
      g_assert_cmpfloat (a->x + a->width, <=, board->width_mm);
      g_assert_cmpfloat (a->y + a->height, <=, board->height_mm);
      for (guint k = 0; k < i; k++)
        {
          const LidBoardSlot *b = &board->slots[k];

          g_assert_true (a->x + a->width <= b->x || b->x + b->width <= a->x
                         || a->y + a->height <= b->y || b->y + b->height <= a->y);
        }
    }
}

/* A figure without a source is nobody's: every source says a code, memory, practice or invention.
 */
static void
check_source (const char *source)
{
  g_assert_nonnull (source);
  if (strstr (source, "(S") == NULL && strstr (source, "(K") == NULL
      && strstr (source, "(one of S") == NULL && strstr (source, "memory") == NULL
      && strstr (source, "invented") == NULL && strstr (source, "common practice") == NULL
      && strstr (source, "nobody has filled it") == NULL)
    g_error ("“%s” does not say where it comes from", source);
}

/* What is invented of a board is its layout; in which order it is filled has a reason of its own,
 * and findings show that. */
static void
check_own_source (const LidBoard *board, const char *source, gboolean told)
{
  if (!told)
    return;
  check_source (source);
  g_assert_cmpstr (source, !=, board->source);
}

static void
check_sources (const LidBoard *board)
{
  check_source (board->source);
  check_own_source (board, board->order_source, board->n_order > 0);
  check_own_source (board, board->lone_source, board->n_lone > 0);
  check_own_source (board, board->larger_first_source, board->larger_first_told);
  check_source (board->efficiency_source);
  for (guint i = 0; i < board->n_processors; i++)
    check_source (board->processors[i].source);
  for (guint i = 0; i < board->n_rates; i++)
    check_source (board->rates[i].source);
  for (guint i = 0; i < board->n_rank_limits; i++)
    check_source (board->rank_limits[i].source);
  for (guint i = 0; i < board->n_exclusions; i++)
    check_source (board->exclusions[i].source);
  for (guint i = 0; i < LID_N_MIXES; i++)
    if (board->mixes[i].told)
      check_source (board->mixes[i].source);
  for (guint i = 0; i < board->n_limits; i++)
    if (board->limits[i].basis != LID_BENCH_PROVEN)
      check_source (board->limits[i].source);
  for (guint i = 0; i < board->n_modes; i++)
    check_source (board->modes[i].source);
  for (guint i = 0; i < board->n_firmware; i++)
    check_source (board->firmware[i].source);
}

static gboolean
order_says (const LidBoard *board, const char *words)
{
  g_autoptr (GPtrArray) tables = lid_board_tables_new (board);

  for (guint i = 0; i < tables->len; i++)
    {
      const LidBoardTable *table = tables->pdata[i];

      if (strcmp (table->title, "Order of fitting") == 0)
        return table->note != NULL && strstr (table->note, words) != NULL;
    }
  return FALSE;
}

/* The page says of an order what is so, and no longer where it is not. */
static void
check_order_said (const LidBoard *board)
{
  guint *order = board->order, last = board->n_order - 1, kept = order[0];

  if (board->n_order < 2)
    return;
  g_assert_cmpint (order_says (board, "First slots come before second ones"), ==,
                   board->slots[order[last]].position > 1);
  if (board->slots[order[last]].position == 1)
    return;
  order[0] = order[last];
  order[last] = kept;
  g_assert_false (order_says (board, "First slots come before second ones"));
  order[last] = order[0];
  order[0] = kept;
}

static void
check_turns_said (const LidBoard *board)
{
  gboolean several = board->n_sockets > 1 || board->sockets[0].n_controllers > 1;

  g_assert_cmpint (order_says (board, "take turns"), ==, several);
}

static void
test_order_said (void)
{
  for_each_board (check_order_said);
  for_each_board (check_turns_said);
}

static void
test_order (void)
{
  for_each_board (check_first_slots_first);
  for_each_board (check_spread);
}

static void
test_every_step (void)
{
  for_each_board (check_every_step);
}

static void
test_full (void)
{
  for_each_board (check_full);
}

static void
test_places (void)
{
  for_each_board (check_places);
}

static void
test_sources (void)
{
  for_each_board (check_sources);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/order", test_order);
  g_test_add_func ("/boards/order-said", test_order_said);
  g_test_add_func ("/boards/every-step", test_every_step);
  g_test_add_func ("/boards/full", test_full);
  g_test_add_func ("/boards/places", test_places);
  g_test_add_func ("/boards/sources", test_sources);
  return g_test_run ();
}
