/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "figures/figures.h"

/* How a slot stands that a rule stops. */
typedef enum
{
  LID_ROOM_COUNTS,  /* it does not */
  LID_ROOM_NOT_YET, /* modules added to its channel may clear it */
  LID_ROOM_NEVER    /* no module added ever does */
} LidRoomStop;

LidRoom lid_room_compute (const LidSurvey *survey, const guint8 *stopped);
