/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-layout.h"
#include "fake-measure.h"
#include "scenes.h"

/* Layout as numbers, without drawing. */
#define SLACK 0.02

static gboolean
overlap (const LidBox *a, const LidBox *b)
{
  return a->x < b->x + b->width - SLACK && b->x < a->x + a->width - SLACK
         && a->y < b->y + b->height - SLACK && b->y < a->y + a->height - SLACK;
}

/* Lines are drawn from their baseline; what is above the capitals and below the descenders may
 * meet. */
static LidBox
ink_of (const LidItem *item)
{
  LidBox box = item->box;

  if (item->kind == LID_ITEM_LINE || item->kind == LID_ITEM_TEXT)
    {
      double used = fake_width (NULL, item->type, item->text);
      double em = item->type.pt * LID_MM_PER_PT;

      used = MIN (used, box.width);
      if (item->align == LID_ALIGN_RIGHT)
        box.x += box.width - used;
      else if (item->align == LID_ALIGN_CENTRE)
        box.x += (box.width - used) / 2;
      box.width = used;
      if (item->kind == LID_ITEM_TEXT)
        box.height = fake_height (NULL, item->type, item->text, item->box.width) - 0.2 * em;
      else
        box.height = em;
      box.y += 0.12 * em;
    }
  return box;
}

static gboolean
is_solid (const LidItem *item)
{
  switch (item->kind)
    {
    case LID_ITEM_TEXT:
    case LID_ITEM_LINE:
    case LID_ITEM_TICK:
    case LID_ITEM_RING:
    case LID_ITEM_PATTERN:
    case LID_ITEM_SLOT:
      return TRUE;
    case LID_ITEM_RULE:
    case LID_ITEM_FRAME:
    case LID_ITEM_MARK:
    case LID_ITEM_STEM:
    case LID_ITEM_VEIN:
    case LID_ITEM_BOARD:
    default:
      return FALSE;
    }
}

static void
check_page (const LidSheet *sheet, const LidPage *page, guint *seen)
{
  double right = sheet->width - sheet->margin, bottom = sheet->height - sheet->margin;

  for (guint i = 0; i < page->items->len; i++)
    {
      const LidItem *item = &g_array_index (page->items, LidItem, i);
      LidBox box = ink_of (item);

      g_assert_cmpfloat (MIN (box.x, box.x + box.width), >=, sheet->margin - SLACK);
      g_assert_cmpfloat (MIN (box.y, box.y + box.height), >=, sheet->margin - 2);
      g_assert_cmpfloat (MAX (box.x, box.x + box.width), <=, right + SLACK);
      g_assert_cmpfloat (MAX (box.y, box.y + box.height), <=, bottom + SLACK);
      if (item->kind == LID_ITEM_SLOT)
        {
          seen[item->look->slot]++;
          g_assert_cmpfloat (item->shape->name_type.pt, >=, LID_NAME_LEAST_PT);
        }
      if (item->kind == LID_ITEM_TEXT || item->kind == LID_ITEM_LINE)
        g_assert_cmpfloat (item->type.pt, >=, 6.5);
      /* The total in the head: of a number without its middle nothing can be read. */
      if (item->kind == LID_ITEM_LINE && item->align == LID_ALIGN_RIGHT && item->type.pt > 12)
        g_assert_cmpfloat (fake_width (NULL, item->type, item->text), <=, item->box.width + SLACK);
      for (guint k = 0; is_solid (item) && k < i; k++)
        {
          const LidItem *other = &g_array_index (page->items, LidItem, k);
          LidBox there = ink_of (other);

          if (is_solid (other) && overlap (&box, &there))
            g_error ("%s “%s” (%.1f %.1f %.1f %.1f) lies over “%s” (%.1f %.1f %.1f %.1f)",
                     sheet->title, item->text ? item->text : "slot", box.x, box.y, box.width,
                     box.height, other->text ? other->text : "slot", there.x, there.y, there.width,
                     there.height);
        }
    }
}

static void
check_sheet (const LidJob *job, const LidAssessment *assessment, const LidSheetOptions *options)
{
  g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, assessment, options, &fake);
  g_autofree guint *seen = g_new0 (guint, sheet->n_slots + 1);

  for (guint p = 0; p < sheet->pages->len; p++)
    check_page (sheet, sheet->pages->pdata[p], seen);
  for (guint i = 0; i < sheet->n_slots; i++)
    g_assert_cmpuint (seen[i], ==, 1);
}

static void
check_papers (const Scene *scene, guint first, guint step)
{
  g_autoptr (LidJob) job = scenes_job (scene);
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_PLANNED);

  for (guint o = first; o < 16; o += step)
    {
      LidSheetOptions options
          = { o & 1 ? LID_SHEET_LID : LID_SHEET_BENCH, o & 2 ? LID_PAPER_LETTER : LID_PAPER_A4,
              (o & 4) != 0, (o & 8) != 0 };

      g_test_message ("%s %u slots, options %u", scene->name, job->board->n_slots, o);
      check_sheet (job, assessment, &options);
    }
}

/* product.md 10: A4 and Letter, upright and sideways, half page, 1 to 192 slots: nothing overlaps,
 * nothing outside the margins, every slot once, names at least 14 pt. */
static void
test_counts (void)
{
  for (guint n = 1; n <= 192; n++)
    {
      Scene scene = scenes_plain (n);

      /* All papers on the counts people meet, a different one each on the rest. */
      if (n <= 8 || n % 12 == 0)
        check_papers (&scene, 0, 1);
      else
        check_papers (&scene, n % 5, 5);
    }
}

static void
test_scenes (void)
{
  for (guint i = 0; i < n_scenes; i++)
    check_papers (&scenes[i], 0, 1);
}

/* Up to 48 slots a page, half page up to 24: product.md 10. */
static void
test_slots_a_page (void)
{
  static const guint counts[] = { 1, 24, 25, 48, 49, 96, 192 };

  for (guint i = 0; i < G_N_ELEMENTS (counts) * 2; i++)
    {
      gboolean half = i % 2 == 1;
      guint most = half ? 24 : 48, pages = 0;
      Scene scene = scenes_plain (counts[i / 2]);
      g_autoptr (LidJob) job = scenes_job (&scene);
      LidSheetOptions options = { LID_SHEET_LID, LID_PAPER_A4, FALSE, half };
      g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, NULL, &options, &fake);

      for (guint p = 0; p < sheet->pages->len; p++)
        {
          const LidPage *page = sheet->pages->pdata[p];
          guint slots = 0;

          for (guint k = 0; k < page->items->len; k++)
            slots += g_array_index (page->items, LidItem, k).kind == LID_ITEM_SLOT;
          g_assert_cmpuint (slots, <=, most);
          pages += slots > 0;
        }
      g_assert_cmpuint (pages, >=, (counts[i / 2] + most - 1) / most);
    }
}

/* Up to eight processors of up to twelve channels; of more, the words may need a second page. */
static gboolean
is_real (const LidBoard *board)
{
  return board->n_sockets <= 8 && board->n_channels <= 12 * MAX (board->n_sockets, 1);
}

/* One page for the owner, both sides whole: every slot once on each. */
static void
check_balance (const Scene *scene)
{
  g_autoptr (LidJob) job = scenes_job (scene);
  g_autoptr (LidAssessment) assessment = scenes_assess (job, LID_PLANNED);

  for (guint o = 0; o < 4; o++)
    {
      LidSheetOptions options
          = { LID_SHEET_BALANCE, o & 1 ? LID_PAPER_LETTER : LID_PAPER_A4, (o & 2) != 0, FALSE };
      g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, assessment, &options, &fake);
      const LidPage *page = sheet->pages->pdata[0];
      g_autofree guint *seen = g_new0 (guint, 2 * sheet->n_slots);

      g_test_message ("%s %u slots, options %u", scene->name, job->board->n_slots, o);
      g_assert_cmpuint (sheet->pages->len, <=, (is_real (job->board) ? 1u : 2u));
      check_page (sheet, page, NULL);
      for (guint i = 0; i < page->items->len; i++)
        {
          const LidItem *item = &g_array_index (page->items, LidItem, i);

          if (item->look != NULL)
            seen[item->look - sheet->looks]++;
        }
      for (guint i = 0; i < 2 * sheet->n_slots && is_real (job->board); i++)
        g_assert_cmpuint (seen[i], ==, 1);
    }
}

static void
test_balance (void)
{
  for (guint i = 0; i < n_scenes; i++)
    check_balance (&scenes[i]);
  for (guint n = 1; n <= 192; n += n < 12 ? 1 : 7)
    {
      Scene scene = scenes_plain (n);

      check_balance (&scene);
    }
}

/* Both sides are set alike, planned to the right: the eye compares row by row. */
static void
test_balance_sides (void)
{
  g_autoptr (LidJob) job = scenes_job (scenes_find ("twentyfour"));
  LidSheetOptions options = { LID_SHEET_BALANCE, LID_PAPER_A4, FALSE, FALSE };
  g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, NULL, &options, &fake);
  const LidPage *page = sheet->pages->pdata[0];
  g_autofree LidBox *boxes = g_new0 (LidBox, 2 * sheet->n_slots);

  for (guint i = 0; i < page->items->len; i++)
    {
      const LidItem *item = &g_array_index (page->items, LidItem, i);

      if (item->look != NULL)
        boxes[item->look - sheet->looks] = item->box;
    }
  for (guint i = 0; i < sheet->n_slots; i++)
    {
      const LidBox *planned = &boxes[i], *found = &boxes[sheet->n_slots + i];

      g_assert_cmpfloat_with_epsilon (planned->y + planned->height / 2,
                                      found->y + found->height / 2, 0.01);
      g_assert_cmpfloat_with_epsilon (planned->x + planned->width / 2 - found->x - found->width / 2,
                                      boxes[0].x + boxes[0].width / 2 - boxes[sheet->n_slots].x
                                          - boxes[sheet->n_slots].width / 2,
                                      0.01);
      g_assert_cmpfloat (found->x + found->width, <, sheet->width / 2);
      g_assert_cmpfloat (planned->x, >, sheet->width / 2);
    }
}

/* Columns stand straight: on a page all slots have one width, one height, few left edges. */
static void
test_aligned (void)
{
  for (guint i = 0; i < n_scenes; i++)
    {
      g_autoptr (LidJob) job = scenes_job (&scenes[i]);
      LidSheetOptions options = { LID_SHEET_BENCH, LID_PAPER_A4, FALSE, FALSE };
      g_autoptr (LidSheet) sheet = lid_sheet_layout_new (job, NULL, &options, &fake);

      for (guint p = 0; p < sheet->pages->len; p++)
        {
          const LidPage *page = sheet->pages->pdata[p];
          const LidItem *first = NULL;

          for (guint k = 0; k < page->items->len; k++)
            {
              const LidItem *item = &g_array_index (page->items, LidItem, k);

              if (item->kind != LID_ITEM_SLOT || item->turn != 0)
                continue;
              first = first != NULL ? first : item;
              g_assert_cmpfloat_with_epsilon (item->box.width, first->box.width, 1e-6);
              g_assert_cmpfloat_with_epsilon (item->box.height, first->box.height, 1e-6);
            }
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet-layout/counts", test_counts);
  g_test_add_func ("/sheet-layout/scenes", test_scenes);
  g_test_add_func ("/sheet-layout/slots-a-page", test_slots_a_page);
  g_test_add_func ("/sheet-layout/aligned", test_aligned);
  g_test_add_func ("/sheet-layout/balance", test_balance);
  g_test_add_func ("/sheet-layout/balance-sides", test_balance_sides);
  return g_test_run ();
}
