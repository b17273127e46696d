/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/sheet-lists.h"

#include <glib/gi18n-lib.h>

/* Bag tags: cards of one size, to cut out, two across. Each can stand alone, away from the job: it
 * says what it is, whose, from where, and where it goes. */
#define ACROSS 2u
#define GAP 4.0
#define HEIGHT 58.0
#define INSIDE 4.0 /* air inside a card */

static const LidType large = { 14, TRUE };
static const LidType body = { 9.5, FALSE };
static const LidType strong = { 9.5, TRUE };

/* Where the next line of a card goes. */
typedef struct
{
  LidSheet *sheet;
  const LidMeasure *measure;
  LidPage *page;
  LidBox box;
} Card;

static void
put_line (Card *card, LidType type, const char *text)
{
  double line = lid_measure_line (type);

  lid_sheet_line (card->page, (LidBox){ card->box.x, card->box.y, card->box.width, line }, type,
                  LID_ALIGN_LEFT, lid_sheet_keep (card->sheet, g_strdup (text)));
  card->box.y += line + 0.7;
}

static void
put_pair (Card *card, const char *label, const char *text)
{
  double line = lid_measure_line (body), width = 21;

  if (*text == 0)
    return;
  lid_sheet_line (card->page, (LidBox){ card->box.x, card->box.y, width, line }, body,
                  LID_ALIGN_LEFT, label);
  lid_sheet_line (card->page,
                  (LidBox){ card->box.x + width, card->box.y, card->box.width - width, line },
                  strong, LID_ALIGN_LEFT, lid_sheet_keep (card->sheet, g_strdup (text)));
  card->box.y += line + 0.7;
}

static void
put_card (LidSheet *sheet,
          const LidMeasure *measure,
          LidPage *page,
          LidBox box,
          const LidChangeoverList *list,
          char **row)
{
  static const guint pairs[] = { LID_TAG_SLOT,  LID_TAG_PART,  LID_TAG_SERIAL, LID_TAG_MACHINE,
                                 LID_TAG_OWNER, LID_TAG_ASSET, LID_TAG_JOB,    LID_TAG_TO };
  Card card = {
    sheet, measure, page, { box.x + INSIDE, box.y + INSIDE, box.width - 2 * INSIDE, box.height }
  };
  LidItem *frame = lid_sheet_add (page, LID_ITEM_FRAME, box);

  frame->weight = lid_theme_print ()->thin;
  put_line (&card, large, row[LID_TAG_MODULE]);
  if (*row[LID_TAG_DATA] != 0)
    put_line (&card, strong, row[LID_TAG_DATA]);
  card.box.y += 0.6;
  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    put_pair (&card, list->heads[pairs[i]], row[pairs[i]]);
}

/**
 * lid_sheet_tags_put:
 * @sheet: gets pages of cards at its end
 * @measure: of type
 * @list: of the kind LID_LIST_TAGS
 */
void
lid_sheet_tags_put (LidSheet *sheet, const LidMeasure *measure, const LidChangeoverList *list)
{
  double width = (sheet->width - 2 * sheet->margin - (ACROSS - 1) * GAP) / ACROSS;
  double room = sheet->height - 2 * sheet->margin - 8;
  guint rows = MAX (1, (guint)((room + GAP) / (HEIGHT + GAP))), a_page = rows * ACROSS;
  LidPage *page = NULL;

  for (guint i = 0; i < list->rows->len; i++)
    {
      guint at = i % a_page;

      if (at == 0)
        page = lid_sheet_add_page (sheet);
      put_card (sheet, measure, page,
                (LidBox){ sheet->margin + (at % ACROSS) * (width + GAP),
                          sheet->margin + (at / ACROSS) * (HEIGHT + GAP), width, HEIGHT },
                list, list->rows->pdata[i]);
    }
}
