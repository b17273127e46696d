/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "checks/check.h"

/* Moves that clear a finding, looked for and tried before anybody is offered them.
 *
 * A remedy with moves is a promise, so each is carried out on a copy and judged before it stands:
 * its finding is gone, and nothing stops that did not stop before. One that fails loses its moves
 * and keeps its words. Where a rule gives no moves by itself, or only says to leave slots empty,
 * the ways it names in .cures are tried (every arrangement, where they are few, and then against
 * the rule's own moves too), and of those that clear it the best by the planner's measure is taken:
 * usable capacity, reading all of it, hands. They may lose neither capacity nor balance: that would
 * be no remedy. What it lowers all the same it says. */
void lid_cure_all (const LidQuestion *question, LidCheck *check);

/* Ways to move, for cure.c: each gives moves to try, or none. Modules are borrowed. */
typedef enum
{
  LID_CURE_BY_LOAD,       /* to the channel that holds least */
  LID_CURE_BY_ORDER,      /* into the first slots of the board's order */
  LID_CURE_SORTED,        /* each class of module on channels of its own */
  LID_CURE_SORTED_SOCKETS /* at processors of its own */
} LidCureDeal;

GArray *lid_cure_spread (const LidCheck *check, gboolean each_socket, LidCureDeal how);
GPtrArray *lid_cure_arrangements (const LidCheck *check);
GPtrArray *lid_cure_nudges (const LidCheck *check);
GArray *lid_cure_settle (
    const LidCheck *check, const guint *slots, guint n_slots, int socket, gboolean by_order);
GArray *lid_cure_fit (const LidCheck *check, const LidModule *like, guint count);
GArray *
lid_cure_exchange (const LidCheck *check, const guint *slots, guint n_slots, const LidModule *like);
gboolean lid_cure_same (const LidModule *a, const LidModule *b);
gboolean lid_cure_empties (const LidCheck *check, const GArray *moves);
guint lid_cure_count_alike (const LidCheck *check, const GArray *moves);
gboolean lid_cure_may_change (const LidCheck *check, guint slot);
gboolean lid_cure_is_held (const LidCheck *check, guint slot);
