/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/assessment.h"

/* The figures as one line of large numbers with small words below (look.md). Texts only. */
#define LID_FIGURES_LINE_MOST 4u

typedef struct
{
  char *large;      /* "448 GB" */
  char *small;      /* "of 480 GB fitted" */
  char *was;        /* "was 384 GB", nullable: see lid_figures_line_compare() */
  const char *help; /* static: the words of the glossary that explain it, blanks between */
  gboolean model;   /* rests on the model of bandwidth, whose assumptions are told beside */
} LidFigureWords;

typedef struct
{
  guint n;
  LidFigureWords words[LID_FIGURES_LINE_MOST];
} LidFiguresLine;

LidFiguresLine *lid_figures_line_new (const LidAssessment *assessment);
void lid_figures_line_compare (LidFiguresLine *line, const LidAssessment *before);
char *lid_figures_line_to_text (const LidFiguresLine *line);
void lid_figures_line_free (LidFiguresLine *line);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (LidFiguresLine, lid_figures_line_free)
const char *lid_figures_line_cap (LidCap what);
