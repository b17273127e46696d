/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of a board says all the definition says: every board of platforms/, found by scan, with
 * every text and every figure of its JSON looked for on the pages; both pictures whole. */
#include "drawing/board-page.h"

#include "board/board-file.h"
#include "drawing/draw-text.h"
#include "drawing/export.h"
#include "help/board-tables.h"
#include "support.h"

#include <string.h>

#define SLACK 0.05

static LidDrawText *text;

typedef void (*Test) (const LidBoard *board, const LidSheet *sheet);

static void
with_page (const char *path, Test test)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (LidBoard) board = lid_board_file_load (path, &error);
  LidMeasure measure = lid_draw_text_measure (text);
  g_autoptr (LidSheet) sheet = NULL;

  g_assert_no_error (error);
  g_test_message ("%s", board->id);
  sheet = lid_board_page_new (board, LID_PAPER_A4, &measure);
  test (board, sheet);
}

static void
for_each_board (Test test)
{
  g_autofree char *folder = g_build_filename (g_getenv ("LID_SOURCE"), "platforms", NULL);
  g_autofree char *small = support_data ("board/small.json");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".json"))
      {
        g_autofree char *path = g_build_filename (folder, name, NULL);

        with_page (path, test);
        n++;
      }
  g_assert_cmpuint (n, >=, 29);
  with_page (small, test);
}

static char *
all_words (const LidSheet *sheet)
{
  GString *out = g_string_new (NULL);

  for (guint p = 0; p < sheet->pages->len; p++)
    {
      const LidPage *page = sheet->pages->pdata[p];

      for (guint i = 0; i < page->items->len; i++)
        if (g_array_index (page->items, LidItem, i).text != NULL)
          g_string_append_printf (out, "%s\n", g_array_index (page->items, LidItem, i).text);
    }
  return g_string_free (out, FALSE);
}

/* Members whose text a person reads as it is; the others are words of the format. */
static gboolean
is_read (const char *member)
{
  static const char *const read[]
      = { "id",    "name",     "about",   "source", "word",    "who",   "when",
          "level", "firmware", "locator", "bank",   "product", "board", NULL };

  return member != NULL && g_strv_contains (read, member);
}

/* Every such text below @node stands in @words. */
static void
look_for (JsonNode *node, const char *member, const char *words)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    {
      JsonObjectIter iter;
      const char *name;
      JsonNode *value;

      json_object_iter_init (&iter, json_node_get_object (node));
      while (json_object_iter_next (&iter, &name, &value))
        if (strcmp (name, "modes") != 0 && strcmp (name, "soldered") != 0)
          look_for (value, name, words);
    }
  else if (JSON_NODE_HOLDS_ARRAY (node))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
      look_for (json_array_get_element (json_node_get_array (node), i), member, words);
  else if (json_node_get_value_type (node) == G_TYPE_STRING && is_read (member)
           && strstr (words, json_node_get_string (node)) == NULL)
    g_error ("%s “%s” is not on the page", member, json_node_get_string (node));
}

static void
check_says_all (const LidBoard *board, const LidSheet *sheet)
{
  g_autofree char *words = all_words (sheet);

  look_for (board->json, NULL, words);
  for (guint i = 0; i < board->n_modes; i++)
    if (board->modes[i].source != NULL)
      g_assert_nonnull (strstr (words, board->modes[i].source));
}

static const LidBoardTable *
find_table (const GPtrArray *tables, const char *title)
{
  for (guint i = 0; i < tables->len; i++)
    if (strcmp (((LidBoardTable *)tables->pdata[i])->title, title) == 0)
      return tables->pdata[i];
  g_error ("there is no table %s", title);
}

/* Row by row what the definition says, in its order: nothing folded, nothing left out. */
static void
check_rows (const LidBoard *board, const LidSheet *sheet)
{
  g_autoptr (GPtrArray) tables = lid_board_tables_new (board);
  const LidBoardTable *rates = find_table (tables, "What runs on a channel");
  const LidBoardTable *limits = find_table (tables, "How much it takes");
  const LidBoardTable *names = find_table (tables, "What its firmware calls the slots");

  g_assert_cmpuint (rates->rows->len, ==, board->n_rates);
  g_assert_cmpuint (limits->rows->len, ==, board->n_limits);
  g_assert_cmpuint (names->rows->len, ==, board->n_spellings);
  g_assert_cmpuint (find_table (tables, "Channels and slots")->rows->len, >=, board->n_channels);
  for (guint i = 0; i < board->n_rates; i++)
    {
      g_autofree char *rate = g_strdup_printf ("%u MT/s", lid_rate_mts (board->rates[i].rate));
      char **cells = rates->rows->pdata[i];

      g_assert_cmpstr (cells[6], ==, rate);
      g_assert_true ((board->rates[i].voltage_mv == 0) == (strcmp (cells[4], "any") == 0));
      g_assert_true ((board->rates[i].processor == LID_NOWHERE) == (strcmp (cells[5], "any") == 0));
      g_assert_true ((board->rates[i].most_ranks == 0) == (strcmp (cells[1], "any") == 0));
    }
}

static gboolean
overlap (const LidBox *a, const LidBox *b)
{
  return a->x < b->x + b->width - SLACK && b->x < a->x + a->width - SLACK
         && a->y < b->y + b->height - SLACK && b->y < a->y + a->height - SLACK;
}

/* A picture of all slots, whole, none over another, each told by its whole name. */
static void
check_picture (const LidBoard *board, const LidItem *item)
{
  const LidBoardGeometry *geometry = item->board;

  g_assert_cmpuint (geometry->n_slots, ==, board->n_slots);
  for (guint i = 0; i < geometry->n_slots; i++)
    {
      const LidBox *box = &geometry->slots[i].box;

      g_assert_cmpfloat (box->x, >=, item->crop.x);
      g_assert_cmpfloat (box->y, >=, item->crop.y);
      g_assert_cmpfloat (box->x + box->width, <=, item->crop.x + item->crop.width);
      g_assert_cmpfloat (box->y + box->height, <=, item->crop.y + item->crop.height);
      g_assert_cmpstr (geometry->looks[i].name, ==, lid_board_name_slot (board, i));
      for (guint k = 0; k < i; k++)
        g_assert_false (overlap (box, &geometry->slots[k].box));
    }
}

static void
check_pictures (const LidBoard *board, const LidSheet *sheet)
{
  guint n = 0;

  for (guint p = 0; p < sheet->pages->len; p++)
    {
      const LidPage *page = sheet->pages->pdata[p];

      for (guint i = 0; i < page->items->len; i++)
        if (g_array_index (page->items, LidItem, i).kind == LID_ITEM_BOARD)
          {
            check_picture (board, &g_array_index (page->items, LidItem, i));
            g_assert_true (n == 0 || g_array_index (page->items, LidItem, i).board->lid_off);
            n++;
          }
    }
  g_assert_cmpuint (n, ==, board->placed ? 2 : 1);
}

/* Texts stand inside the margins and not on each other; the foot has its own room. */
static void
check_pages (const LidBoard *board, const LidSheet *sheet)
{
  for (guint p = 0; p < sheet->pages->len; p++)
    {
      const GArray *items = ((LidPage *)sheet->pages->pdata[p])->items;

      g_assert_cmpuint (items->len, >, 2);
      for (guint i = 0; i < items->len; i++)
        {
          const LidItem *a = &g_array_index (items, LidItem, i);

          g_assert_cmpfloat (a->box.x, >=, sheet->margin - SLACK);
          g_assert_cmpfloat (a->box.x + a->box.width, <=, sheet->width - sheet->margin + SLACK);
          g_assert_cmpfloat (a->box.y + a->box.height, <=, sheet->height - sheet->margin + SLACK);
          for (guint k = 0; k < i && a->kind == LID_ITEM_TEXT; k++)
            if (g_array_index (items, LidItem, k).kind == LID_ITEM_TEXT)
              g_assert_false (overlap (&a->box, &g_array_index (items, LidItem, k).box));
        }
    }
}

static void
check_export (const LidBoard *board, const LidSheet *sheet)
{
  gsize n;
  const LidExport *formats = lid_export_all (&n);

  for (gsize i = 0; i < n; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) bytes = lid_export_bytes (&formats[i], text, sheet, 0, &error);

      g_assert_no_error (error);
      g_assert_cmpuint (g_bytes_get_size (bytes), >, 5000);
    }
}

static void
test_says_all (void)
{
  for_each_board (check_says_all);
}

static void
test_rows (void)
{
  for_each_board (check_rows);
}

static void
test_pictures (void)
{
  for_each_board (check_pictures);
}

static void
test_pages (void)
{
  for_each_board (check_pages);
}

static void
test_export (void)
{
  for_each_board (check_export);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  text = lid_draw_text_new (lid_theme_print ());
  g_test_add_func ("/board-page/says-all", test_says_all);
  g_test_add_func ("/board-page/rows", test_rows);
  g_test_add_func ("/board-page/pictures", test_pictures);
  g_test_add_func ("/board-page/pages", test_pages);
  g_test_add_func ("/board-page/export", test_export);
  status = g_test_run ();
  lid_draw_text_free (text);
  return status;
}
