/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "board/board-file.h"
#include "figures/figures.h"

/* A population told in a few lines of JSON, with its figures. tests/cases/figures/README says how
 * the lines look. */
typedef struct
{
  LidBoard *board;
  LidPopulation *population;
  LidPopulation *as_found; /* nullable */
  LidSurvey *survey;
  guint8 *unusable;
  LidFigures figures;
  LidRoom room;
} FiguresCase;

FiguresCase *figures_case_new (JsonObject *file, JsonObject *one);
FiguresCase *figures_case_parse (const char *format, ...) G_GNUC_PRINTF (1, 2);
void figures_case_free (FiguresCase *c);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FiguresCase, figures_case_free)
int figures_case_channel (const FiguresCase *c, const char *name);
