/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

LidRatio lid_bandwidth_peak (LidRate rate, guint channels);
gboolean lid_bandwidth_splits (const LidBoard *board, guint nodes);
guint lid_bandwidth_nodes (const LidBoard *board, guint split, guint socket);
guint lid_bandwidth_node (const LidBoard *board, guint socket, guint nodes, guint node, guint *n);
void lid_bandwidth_compute (const LidSurvey *survey, LidFigures *figures);
