/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* An exact fraction, lowest terms, den > 0. {0, 0} means "not known". Products inside are 128 bits
 * wide, so populations compare exactly, never in floating point. */
typedef struct
{
  gint64 num;
  gint64 den;
} LidRatio;

#define LID_RATIO_UNKNOWN ((LidRatio){ 0, 0 })

LidRatio lid_ratio (gint64 num, gint64 den);
gboolean lid_ratio_is_known (LidRatio a);
LidRatio lid_ratio_add (LidRatio a, LidRatio b);
LidRatio lid_ratio_mul (LidRatio a, LidRatio b);
LidRatio lid_ratio_div (LidRatio a, LidRatio b);
int lid_ratio_compare (LidRatio a, LidRatio b);
gint64 lid_ratio_round (LidRatio a);
double lid_ratio_to_double (LidRatio a);
