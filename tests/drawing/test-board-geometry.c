/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board on the screen by property: whatever the machine and the window, no slot lies on
 * another, all lie inside, each once, the same numbers each time, each within reach of the arrow
 * keys, and large enough for a hand at zoom 1. */
#include "board/board-file.h"
#include "drawing/board-geometry.h"
#include "fake-measure.h"
#include "scenes.h"

static const struct
{
  double width, height, zoom, type;
} views[] = {
  { 1024, 430, 0, 1 },   { 1440, 640, 0, 1 },   { 1280, 500, 0, 1 }, { 2560, 1200, 0, 1 },
  { 1024, 430, 1, 1 },   { 1440, 640, 1.6, 1 }, { 1440, 640, 0, 2 }, { 640, 400, 0, 1 },
  { 1440, 640, 0.4, 1 }, { 300, 200, 0, 1 },
};

static LidBoardGeometry *
make (const LidJob *job, const LidAssessment *assessment, guint v, gboolean lid_off)
{
  LidBoardView view = { lid_off, views[v].width, views[v].height, views[v].zoom, views[v].type };

  return lid_board_geometry_new (job->board, lid_job_get_population (job, LID_PLANNED), assessment,
                                 job->as_found, &view, &fake);
}

static gboolean
overlap (LidBox a, LidBox b)
{
  return a.x + a.width > b.x + 1e-6 && b.x + b.width > a.x + 1e-6 && a.y + a.height > b.y + 1e-6
         && b.y + b.height > a.y + 1e-6;
}

static void
assert_inside (const LidBoardGeometry *g, LidBox box)
{
  g_assert_cmpfloat (box.width, >, 0);
  g_assert_cmpfloat (box.height, >, 0);
  g_assert_cmpfloat (box.x, >=, -1e-6);
  g_assert_cmpfloat (box.y, >=, -1e-6);
  g_assert_cmpfloat (box.x + box.width, <=, g->width + 1e-6);
  g_assert_cmpfloat (box.y + box.height, <=, g->height + 1e-6);
}

static void
check_slots (const LidBoardGeometry *g)
{
  for (guint i = 0; i < g->n_slots; i++)
    {
      LidBox box = g->slots[i].box, hit = g->slots[i].hit;
      LidHit found = lid_board_geometry_hit (g, box.x + box.width / 2, box.y + box.height / 2);

      assert_inside (g, box);
      g_assert_cmpint (found.kind, ==, LID_HIT_SLOT);
      g_assert_cmpuint (found.index, ==, i);
      for (guint k = 0; k < i; k++)
        g_assert_false (overlap (hit, g->slots[k].hit));
      for (guint v = 0; v < g->veins->len; v++)
        g_assert_false (overlap (box, lid_board_geometry_vein (g, v)->caption));
      for (guint l = 0; l < g->leaves->len; l++)
        g_assert_false (overlap (box, lid_board_geometry_leaf (g, l)->box));
    }
}

/* Walked along in small steps: no slot lies under it. */
static void
check_line (const LidBoardGeometry *g, const LidNoteLine *line)
{
  for (guint step = 1; step < 200; step++)
    {
      double x = line->x0 + (line->x1 - line->x0) * step / 200;
      double y = line->y0 + (line->y1 - line->y0) * step / 200;

      for (guint i = 0; i < g->n_slots; i++)
        {
          LidBox box = g->slots[i].box;

          g_assert_false (x > box.x + 2 && x < box.x + box.width - 2 && y > box.y + 2
                          && y < box.y + box.height - 2);
        }
    }
}

static void
check_notes (const LidBoardGeometry *g)
{
  for (guint n = 0; n < g->notes->len; n++)
    {
      const LidBoardNote *note = lid_board_geometry_note (g, n);

      assert_inside (g, note->box);
      for (guint k = 0; k < n; k++)
        g_assert_false (overlap (note->box, lid_board_geometry_note (g, k)->box));
      for (guint i = 0; i < g->n_slots; i++)
        g_assert_false (overlap (note->box, g->slots[i].box));
      for (guint l = 0; l < note->n_lines; l++)
        check_line (g, &note->lines[l]);
      for (guint l = 0; l < g->leaves->len; l++)
        g_assert_false (overlap (note->box, lid_board_geometry_leaf (g, l)->box));
      if (n > 0 && note->finding != NULL)
        g_assert_cmpint (note->grade, <=, lid_board_geometry_note (g, n - 1)->grade);
      if (note->remedy != NULL)
        {
          LidHit hit
              = lid_board_geometry_hit (g, note->link.x + 2, note->link.y + note->link.height / 2);

          g_assert_cmpint (hit.kind, ==, LID_HIT_REMEDY);
          g_assert_cmpuint (hit.index, ==, n);
        }
    }
}

/* Every finding stands in the margin or at the foot, alone, folded or counted. */
static void
check_all_told (const LidBoardGeometry *g, const LidAssessment *assessment)
{
  guint told = 0;

  for (guint n = 0; n < g->notes->len; n++)
    told += lid_board_geometry_note (g, n)->n_findings;
  g_assert_cmpuint (told, ==, assessment->findings->len);
}

static void
check_keys (const LidBoardGeometry *g)
{
  for (guint start = 0; start < g->n_slots; start += MAX (1, g->n_slots - 1))
    {
      g_autofree gboolean *seen = g_new0 (gboolean, g->n_slots);
      g_autofree guint *queue = g_new (guint, g->n_slots);
      guint n = 1;

      queue[0] = start;
      seen[start] = TRUE;
      for (guint at = 0; at < n; at++)
        for (LidWay way = LID_WAY_LEFT; way <= LID_WAY_DOWN; way++)
          {
            int to = lid_board_geometry_neighbour (g, queue[at], way);

            if (to == LID_NOWHERE || seen[to])
              continue;
            seen[to] = TRUE;
            queue[n++] = (guint)to;
          }
      g_assert_cmpuint (n, ==, g->n_slots);
    }
}

static void
check_same (const LidBoardGeometry *a, const LidBoardGeometry *b)
{
  g_assert_cmpmem (a->slots, a->n_slots * sizeof *a->slots, b->slots,
                   b->n_slots * sizeof *b->slots);
  g_assert_cmpuint (a->notes->len, ==, b->notes->len);
  g_assert_cmpfloat (a->width, ==, b->width);
}

static void
test_scene (gconstpointer data)
{
  g_autoptr (LidJob) job = scenes_job (data);
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_PLANNED);

  for (guint v = 0; v < G_N_ELEMENTS (views); v++)
    for (gboolean lid_off = FALSE; lid_off <= TRUE; lid_off++)
      {
        g_autoptr (LidBoardGeometry) g = make (job, assessment, v, lid_off);
        g_autoptr (LidBoardGeometry) again = make (job, assessment, v, lid_off);
        g_autoptr (LidBoardGeometry) bare = make (job, NULL, v, lid_off);

        g_assert_cmpuint (g->n_slots, ==, job->board->n_slots);
        g_assert_cmpint (g->lid_off, ==, lid_off && job->board->placed);
        check_slots (g);
        check_notes (g);
        check_all_told (g, assessment);
        check_keys (g);
        check_same (g, again);
        /* Findings move nothing. */
        g_assert_cmpmem (g->slots, g->n_slots * sizeof *g->slots, bare->slots,
                         bare->n_slots * sizeof *bare->slots);
        if (views[v].zoom >= 1 && !lid_off)
          for (guint i = 0; i < g->n_slots; i++)
            {
              g_assert_cmpfloat (g->slots[i].hit.height, >=, 44);
              g_assert_cmpfloat (g->slots[i].hit.width, >=, 44);
            }
        for (guint i = 0; views[v].zoom >= 1 && i < g->veins->len; i++)
          g_assert_cmpfloat (lid_board_geometry_vein (g, i)->type.pt * LID_MM_PER_PT, >=,
                             13 - 1e-6);
      }
}

/* Any number of slots from 1 to 192 finds its place. */
static void
test_every_count (void)
{
  for (guint n = 1; n <= 192; n += n < 40 ? 1 : 7)
    {
      Scene scene = scenes_plain (n);
      g_autoptr (LidJob) job = scenes_job (&scene);
      g_autoptr (LidBoardGeometry) g = make (job, NULL, 1, FALSE);

      g_assert_cmpuint (g->n_slots, ==, n);
      check_slots (g);
      check_keys (g);
    }
}

/* An idle channel is thin and broken, one that carries is neither. */
static void
test_veins (void)
{
  g_autoptr (LidJob) job = scenes_job (scenes_find ("tern"));
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_AS_FOUND);
  LidBoardView view = { FALSE, 1440, 640, 0, 1 };
  g_autoptr (LidBoardGeometry) g
      = lid_board_geometry_new (job->board, job->as_found, assessment, NULL, &view, &fake);

  g_assert_cmpuint (g->veins->len, ==, job->board->n_channels);
  for (guint i = 0; i < g->veins->len; i++)
    {
      const LidVein *vein = lid_board_geometry_vein (g, i);
      gboolean carries = assessment->figures.starts
                         && assessment->figures.channels[vein->channel].usable_mib > 0;

      g_assert_cmpint (vein->idle, ==, !carries);
      if (carries)
        g_assert_cmpfloat (vein->width, >=, 2);
      else
        g_assert_cmpfloat (vein->width, <, 2);
    }
}

/* The slot straight below is the one the key goes to, and back; sideways it crosses the midrib. */
static void
test_ways (void)
{
  g_autoptr (LidJob) job = scenes_job (scenes_find ("tern"));
  g_autoptr (LidBoardGeometry) g = make (job, NULL, 1, FALSE);
  guint a1 = 0, a2 = 1, c1 = 4;

  g_assert_cmpstr (g->looks[c1].name, ==, "C1");
  g_assert_cmpint (lid_board_geometry_neighbour (g, a1, LID_WAY_DOWN), ==, a2);
  g_assert_cmpint (lid_board_geometry_neighbour (g, a2, LID_WAY_UP), ==, a1);
  g_assert_cmpint (lid_board_geometry_neighbour (g, a1, LID_WAY_RIGHT), ==, c1);
  g_assert_cmpint (lid_board_geometry_neighbour (g, c1, LID_WAY_LEFT), ==, a1);
  g_assert_cmpint (lid_board_geometry_neighbour (g, a2, LID_WAY_DOWN), ==, LID_NOWHERE);
}

/* 192 slots in the smallest window: names are read, because each says only what its place does not.
 */
static void
test_names (void)
{
  g_autoptr (LidJob) job = scenes_job (scenes_find ("onehundredninetytwo"));
  g_autoptr (LidBoardGeometry) small = make (job, NULL, 0, FALSE);
  g_autoptr (LidBoardGeometry) near = make (job, NULL, 4, FALSE);

  g_assert_cmpstr (near->looks[5].name, ==, "1-B3");
  g_assert_cmpfloat (small->shape.name_type.pt * LID_MM_PER_PT, >=, 13 - 1e-6);
  g_assert_cmpfloat (small->height, <=, views[0].height + 1e-6);
  g_assert_cmpstr (small->looks[5].name + strlen (small->looks[5].name) - 1, ==, "3");
  for (guint i = 0; i < small->n_slots; i++)
    g_assert_cmpfloat (fake_width (NULL, small->shape.name_type, small->looks[i].name), <=,
                       small->slots[i].box.width - 2 * small->shape.latch);
}

/* What is dropped is shared by all and ends where a word or a number does. A window so small that
 * only the shortest names are left shows them. */
static void
test_short_names (void)
{
  static const struct
  {
    const char *scene, *first, *second, *last;
  } cases[] = {
    { "fortyeight", "A1", "A2", "L2" },     /* P1-DIMMA1 */
    { "thirtytwo-untold", "1", "2", "16" }, /* PROC 1 DIMM 1 */
    { "six-untold", "1", "2", "6" },        /* DIMM1 */
    { "eighteen", "1", "2", "3" },
    { "gannet", "6", "5", "12" }, /* one slot a channel: its number is all that tells it apart */
  };

  for (guint c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autoptr (LidJob) job = scenes_job (scenes_find (cases[c].scene));
      LidBoardView view = { FALSE, 200, 150, 0, 1 };
      g_autoptr (LidBoardGeometry) g
          = lid_board_geometry_new (job->board, job->as_found, NULL, NULL, &view, &fake);

      g_test_message ("%s: %s %s %s", cases[c].scene, g->looks[0].name, g->looks[1].name,
                      g->looks[g->n_slots - 1].name);
      g_assert_cmpstr (g->looks[0].name, ==, cases[c].first);
      g_assert_cmpstr (g->looks[1].name, ==, cases[c].second);
      g_assert_cmpstr (g->looks[g->n_slots - 1].name, ==, cases[c].last);
    }
}

/* A small board stands in the middle of the window, with and without room for notes. */
static void
test_centred (void)
{
  static const char *const names[] = { "one", "two", "tern" };

  for (guint n = 0; n < G_N_ELEMENTS (names); n++)
    for (guint v = 0; v < 4; v++)
      {
        g_autoptr (LidJob) job = scenes_job (scenes_find (names[n]));
        g_autoptr (LidBoardGeometry) g = make (job, NULL, v, FALSE);
        double left = G_MAXDOUBLE, right = 0;

        for (guint i = 0; i < g->n_slots; i++)
          {
            left = MIN (left, g->slots[i].box.x);
            right = MAX (right, g->slots[i].box.x + g->slots[i].box.width);
          }
        /* Where notes have one side only, a wide board may lean away from them. */
        if (g->left.width > 0 || g->right.width <= 0)
          g_assert_cmpfloat_with_epsilon (left, g->width - right, 1);
        else
          g_assert_cmpfloat (left, <=, g->width - right + 1);
      }
}

/* Text on every ground: WCAG 2.1, success criteria 1.4.3 (4.5:1) and 1.4.6 (7:1). Black on white is
 * 21:1 and #767676 on white 4.54:1, both from the same recommendation's published examples. */
static void
test_contrast (void)
{
  LidColour black = { 0, 0, 0 }, white = { 1, 1, 1 }, grey = lid_theme_hue ("#767676", black);

  g_assert_cmpfloat_with_epsilon (lid_theme_contrast (black, white), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (lid_theme_contrast (white, grey), 4.54, 0.005);
  for (guint t = 0; t < LID_N_THEMES; t++)
    {
      const LidTheme *theme = lid_theme_screen ((LidThemeName)t);
      double least = t >= LID_THEME_HIGH_CONTRAST ? 7 : 4.5;
      LidColour grounds[] = { theme->paper, theme->face };
      LidColour inks[] = { theme->ink,      theme->soft,     theme->leaf,    theme->grade[0],
                           theme->grade[1], theme->grade[2], theme->grade[3] };

      for (guint g = 0; g < G_N_ELEMENTS (grounds); g++)
        for (guint i = 0; i < G_N_ELEMENTS (inks); i++)
          g_assert_cmpfloat (lid_theme_contrast (grounds[g], inks[i]), >=, least);
      /* 1.4.11: what is needed to see a control has 3:1. */
      g_assert_cmpfloat (lid_theme_contrast (theme->paper, theme->outline), >=, 3);
    }
}

/* A channel whose processor is not told: drawn, and nothing said of what the processor takes. */
static void
test_socket_not_told (void)
{
  g_autofree char *path
      = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", "dunlin-s1.json", NULL);
  g_autofree char *text = NULL;
  g_autoptr (LidBoard) board = NULL;
  g_autoptr (LidPopulation) population = NULL;
  g_autoptr (LidBoardGeometry) geometry = NULL;
  g_autoptr (GError) error = NULL;
  LidBoardView view = { FALSE, 900, 600, 0, 1 };
  g_auto (GStrv) halves = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  halves = g_strsplit (text, "\"name\": \"1\"", 2);
  g_assert_nonnull (halves[1]);
  g_free (text);
  text = g_strjoinv ("\"name\": null", halves);
  board = lid_board_file_parse (text, strlen (text), &error);
  g_assert_no_error (error);
  g_assert_cmpint (board->channels[0].socket, ==, LID_NOWHERE);
  population = lid_population_new (board);
  geometry = lid_board_geometry_new (board, population, NULL, NULL, &view, &fake);
  g_assert_cmpuint (geometry->leaves->len, ==, 1);
  g_assert_cmpint (lid_board_geometry_leaf (geometry, 0)->socket, ==, LID_NOWHERE);
  g_assert_null (lid_board_geometry_leaf (geometry, 0)->under);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < n_scenes; i++)
    {
      g_autofree char *name = g_strdup_printf ("/board-geometry/%s", scenes[i].name);

      g_test_add_data_func (name, &scenes[i], test_scene);
    }
  g_test_add_func ("/board-geometry/every-count", test_every_count);
  g_test_add_func ("/board-geometry/veins", test_veins);
  g_test_add_func ("/board-geometry/ways", test_ways);
  g_test_add_func ("/board-geometry/names", test_names);
  g_test_add_func ("/board-geometry/short-names", test_short_names);
  g_test_add_func ("/board-geometry/centred", test_centred);
  g_test_add_func ("/board-geometry/contrast", test_contrast);
  g_test_add_func ("/board-geometry/socket-not-told", test_socket_not_told);
  return g_test_run ();
}
