/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/sheet-compose.h"

/* The balance page: as found beside planned, for the owner. One page, whatever the machine. */
typedef struct
{
  const LidPopulation *population; /* NULL: this side is not drawn */
  const LidAssessment *assessment; /* nullable */
  const LidSlotLook *looks;        /* by slot */
  LidMachine *machine;
} LidBalanceSide;

typedef struct
{
  const LidJob *job;
  const LidChanges *changes;
  LidBalanceSide found, planned;
} LidBalance;

void lid_sheet_balance_compose (LidLayout *layout);

/* sheet-balance-figures.c */
char *lid_sheet_balance_figures_lead (const LidBalance *balance);
char *lid_sheet_balance_figures_total (const LidBalanceSide *side);
char *lid_sheet_balance_figures_right (const LidBalance *balance);
guint lid_sheet_balance_figures_n (void);
const char *lid_sheet_balance_figures_label (guint figure);
char *lid_sheet_balance_figures_value (const LidBalanceSide *side, guint figure);
gboolean lid_sheet_balance_figures_modelled (const LidBalanceSide *side, gboolean *even);

/* sheet-balance-words.c */
void lid_sheet_balance_words_fill (LidFlow *flow, const LidBalance *balance, guint most);
