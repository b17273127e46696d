/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* What the usable modules add up to, channel by channel and processor by processor: what the
 * balance rules compare (settled reading 1). Persistent modules are in none of it. */
typedef struct
{
  gint64 mib;
  guint n;
  guint ranks;
  gboolean ranks_missing; /* those of some are not told */
} LidBalanceSum;

typedef struct _LidBalance
{
  guint n_channels, n_sockets; /* of the board */
  LidBalanceSum *channels;
  LidBalanceSum *sockets;
  guint n; /* modules in all */
} LidBalance;

void lid_balance_init (LidBalance *balance, const LidCheck *check);
gboolean lid_balance_is_sized (LidCheck *check, int socket);
void lid_balance_clear (LidBalance *balance);
