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
  gboolean told; /* capacity and ranks of all of them */
} LidBalanceSum;

typedef struct _LidBalance
{
  guint n_channels, n_sockets; /* of the board */
  LidBalanceSum *channels;
  LidBalanceSum *sockets;
  gint64 mib; /* in all */
  guint n;
} LidBalance;

void lid_balance_init (LidBalance *balance, const LidCheck *check);
gboolean lid_balance_is_sized (LidCheck *check, int socket);
void lid_balance_clear (LidBalance *balance);
