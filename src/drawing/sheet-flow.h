/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet.h"

/* The words of a sheet: rows under headings, set into columns of equal width, as short as the
 * columns allow, continued on the next page where they do not fit. */
typedef enum
{
  LID_ROW_HEAD,
  LID_ROW_TEXT,
  LID_ROW_TICK,  /* a box to tick, then text */
  LID_ROW_PAIR,  /* label at the left, value in bold */
  LID_ROW_FILL,  /* label and a line to write on */
  LID_ROW_GRADE, /* pattern, grade in bold, text */
  LID_ROW_STEP,  /* a box to tick, a number, a slot, text */
  LID_ROW_CELLS, /* several boxes to tick, each with number and slot */
} LidRowKind;

typedef struct
{
  LidRowKind kind;
  const char *label;
  const char *text;
  guint number;  /* step: number in front; grade: LidGrade */
  gboolean ring; /* the numbers stand in rings */
  guint cell;    /* cells: first of LidFlow.cells */
  guint n_cells;
  double height; /* for the width last measured */
} LidRow;

typedef struct
{
  guint number;
  const char *name;
} LidCell;

typedef struct
{
  LidSheet *sheet;
  LidMeasure measure;
  LidType head, body, strong;
  GArray *rows;  /* LidRow */
  GArray *cells; /* LidCell */
  double label;  /* widest label of the pairs */
  double cell;   /* widest name of the cells */
  double width;  /* column width the heights are for */
} LidFlow;

void lid_sheet_flow_init (LidFlow *flow, LidSheet *sheet, const LidMeasure *measure);
void lid_sheet_flow_clear (LidFlow *flow);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (LidFlow, lid_sheet_flow_clear)

void lid_sheet_flow_head (LidFlow *flow, const char *text);
void lid_sheet_flow_end (LidFlow *flow);
void lid_sheet_flow_text (LidFlow *flow, const char *text);
void lid_sheet_flow_tick (LidFlow *flow, const char *text);
void lid_sheet_flow_pair (LidFlow *flow, const char *label, const char *value);
void lid_sheet_flow_fill (LidFlow *flow, const char *label);
void lid_sheet_flow_grade (LidFlow *flow, LidGrade grade, const char *text);
void lid_sheet_flow_step (
    LidFlow *flow, guint number, gboolean ring, const char *name, const char *text);
void lid_sheet_flow_cell (LidFlow *flow, guint number, gboolean ring, const char *name);

void lid_sheet_flow_set_size (LidFlow *flow, double pt);
double lid_sheet_flow_height (LidFlow *flow, guint from, double width, guint columns, double most);
guint lid_sheet_flow_set (
    LidFlow *flow, guint from, LidPage *page, LidBox area, guint columns, double height);
double lid_sheet_flow_column (double width, guint columns);
