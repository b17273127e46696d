/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/board-area.h"
#include "app/board-ground.h"

typedef struct _LidBoardMotion LidBoardMotion;

/* What the files of the board share: board-area.c (what it shows), board-area-shape.c (size and
 * theme), -snapshot.c (how it is drawn), -repaint.c (what an edit paints), -zoom.c, -focus.c (keys
 * and clicks), -notes.c, -motion.c (from one view to the other). */
struct _LidBoardArea
{
  GtkWidget parent_instance;

  /* owned */
  LidHands *hands;
  LidBoard *board; /* whose slots lie here: teaching, and undoing it, puts another in its place */
  LidDrawText *text;
  LidBoardGround *ground; /* as painted of geometry */
  LidPopulation *nothing; /* shown where the job has no population at all */
  /* children, by slot and by note */
  GPtrArray *slots;
  GPtrArray *notes;
  GPtrArray *spare_notes; /* children too, which speak of nothing at the moment */
  GtkWidget *more;        /* opens what finds no room for a note; comes last */
  /* borrowed */
  const LidTheme *theme;
  GtkWidget *last; /* the slot that has the keyboard, or had it last */
  /* chosen by the user */
  double zoom; /* 0: as large as fits */
  gboolean lid_off;
  double pinch_from;
  /* recomputed: by every edit, and by every change of size, zoom or theme */
  LidBoardGeometry *geometry;
  LidChanges *changes; /* against as found; NULL: as found itself */
  double made_width, made_height;
  gboolean stale;         /* the slots too were made anew */
  int next;               /* the slot that comes next for the hand, LID_NOWHERE: none */
  guint telling;          /* the source that tells remedies, 0: none */
  int pointed;            /* the note under the pointer or the keyboard, LID_NOWHERE: none */
  LidBoardMotion *motion; /* NULL: at rest */
};

/* board-area-shape.c */
void lid_board_area_init_shape (LidBoardArea *self);
void lid_board_area_class_init_shape (GtkWidgetClass *klass);
void lid_board_area_view_size (LidBoardArea *self, double *width, double *height);
LidBoardGeometry *lid_board_area_make_geometry (
    LidBoardArea *self, const LidBoardGeometry *like, double width, double height, double zoom);
void lid_board_area_remake_geometry (LidBoardArea *self, const LidBoardGeometry *like);
void lid_board_area_allocate_child (GtkWidget *child, LidBox box);

/* board-area-snapshot.c */
void lid_board_area_class_init_snapshot (GtkWidgetClass *klass);
void lid_board_area_snapshot_ground (LidBoardArea *self, GtkSnapshot *snapshot);

/* board-area-notes.c */
void lid_board_area_place_notes (LidBoardArea *self);
void lid_board_area_allocate_notes (LidBoardArea *self);

/* board-area-motion.c */
void lid_board_area_begin_motion (LidBoardArea *self);
void lid_board_area_end_motion (LidBoardArea *self);
gboolean lid_board_area_snapshot_motion (LidBoardArea *self, GtkSnapshot *snapshot);

/* board-area-zoom.c */
void lid_board_area_init_pan (LidBoardArea *self);
void lid_board_area_init_zoom (LidBoardArea *self);
void lid_board_area_class_init_zoom (GtkWidgetClass *klass);

/* board-area-repaint.c */
void lid_board_area_reshape (LidBoardArea *self);
void lid_board_area_repaint (LidBoardArea *self, LidBoardGeometry *before, int next);
void lid_board_area_repaint_all (LidBoardArea *self);

/* board-area-focus.c */
void lid_board_area_init_focus (LidBoardArea *self);
void lid_board_area_class_init_focus (GtkWidgetClass *klass);
