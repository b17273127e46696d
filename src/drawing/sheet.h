/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/board-geometry.h"

/* A laid-out sheet: pages of items with places in millimetres from the top left corner of the page.
 * Numbers and texts only; draw-sheet.c turns them into ink, tests read them. */
typedef enum
{
  LID_SHEET_BENCH,
  LID_SHEET_LID,
  LID_SHEET_BALANCE, /* always a whole page */
  LID_N_SHEETS
} LidSheetFor;

typedef enum
{
  LID_PAPER_A4,
  LID_PAPER_LETTER,
} LidPaper;

typedef struct
{
  LidSheetFor what;
  LidPaper paper;
  gboolean sideways;
  gboolean half;
} LidSheetOptions;

typedef enum
{
  LID_ITEM_TEXT,    /* text in its box, lines broken at its width */
  LID_ITEM_LINE,    /* text on one line; the middle goes if it does not fit */
  LID_ITEM_RULE,    /* from the box's top left to its bottom right corner */
  LID_ITEM_FRAME,   /* rounded outline */
  LID_ITEM_TICK,    /* a box to tick */
  LID_ITEM_RING,    /* a number in a ring */
  LID_ITEM_PATTERN, /* swatch of a grade's or latch's pattern */
  LID_ITEM_MARK,    /* swatch of an outline or mark, for the key: see LidMark */
  LID_ITEM_SLOT,    /* a slot */
  LID_ITEM_STEM,    /* midrib: tapers from the top of the box to its bottom (or left to right) */
  LID_ITEM_VEIN,    /* from the stem at the box's (x, y) to (x + width, y + height); may be < 0 */
  LID_ITEM_BOARD,   /* the board as the screen draws it, scaled into the box */
} LidItemKind;

typedef struct
{
  LidItemKind kind;
  LidBox box;
  LidType type;
  LidAlign align;
  double weight;   /* of lines, mm */
  gboolean broken; /* line: dashed */
  guint number;    /* ring: number; pattern: LidHatch; mark: LidMark */
  double turn;     /* slot: degrees clockwise about the box's centre; 0, 90, 180, 270 */
  const char *text;
  const LidSlotLook *look; /* of a slot; else NULL */
  const LidSlotShape *shape;
  const LidBoardGeometry *board; /* of a board, owned by the sheet; else NULL */
  LidBox crop;                   /* of a board: the part shown, in its own pixels */
} LidItem;

typedef struct
{
  GArray *items; /* LidItem */
} LidPage;

typedef struct _LidSheet LidSheet;
struct _LidSheet
{
  LidSheetOptions options;
  double width, height, margin; /* mm */
  char *title;
  GPtrArray *pages; /* LidPage */
  GStringChunk *texts;
  guint n_slots;
  LidSlotLook *looks; /* by slot */
  GPtrArray *shapes;  /* LidSlotShape, owned */
  GPtrArray *boards;  /* LidBoardGeometry, owned */
};

LidSheet *lid_sheet_new (const LidSheetOptions *options);
void lid_sheet_free (LidSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidSheet, lid_sheet_free)

LidPage *lid_sheet_add_page (LidSheet *sheet);
const char *lid_sheet_keep (LidSheet *sheet, char *text);
LidItem *lid_sheet_add (LidPage *page, LidItemKind kind, LidBox box);
void lid_sheet_text (LidPage *page, LidBox box, LidType type, LidAlign align, const char *text);
void lid_sheet_line (LidPage *page, LidBox box, LidType type, LidAlign align, const char *text);
void lid_sheet_rule (LidPage *page, double x, double y, double width, double weight);
