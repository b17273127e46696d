/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/ratio.h"

typedef __int128 Wide;

static LidRatio
reduce (Wide num, Wide den)
{
  Wide a = num < 0 ? -num : num, b = den;

  g_assert (den > 0);
  while (b != 0)
    {
      Wide rest = a % b;
      a = b;
      b = rest;
    }
  if (a > 1)
    {
      num /= a;
      den /= a;
    }
  /* Beyond 63 bits the last bits go; nothing a machine can hold gets there. */
  while (num > G_MAXINT64 || num < -G_MAXINT64 || den > G_MAXINT64)
    {
      num /= 2;
      den = MAX (den / 2, 1);
    }
  return (LidRatio){ (gint64)num, (gint64)den };
}

/**
 * lid_ratio:
 * @num: numerator
 * @den: denominator; 0 gives the unknown ratio
 *
 * Returns: num/den in lowest terms
 */
LidRatio
lid_ratio (gint64 num, gint64 den)
{
  if (den == 0)
    return LID_RATIO_UNKNOWN;
  return den < 0 ? reduce (-(Wide)num, -(Wide)den) : reduce (num, den);
}

gboolean
lid_ratio_is_known (LidRatio a)
{
  return a.den != 0;
}

/**
 * lid_ratio_add:
 *
 * Returns: a + b, unknown if either is
 */
LidRatio
lid_ratio_add (LidRatio a, LidRatio b)
{
  if (a.den == 0 || b.den == 0)
    return LID_RATIO_UNKNOWN;
  return reduce ((Wide)a.num * b.den + (Wide)b.num * a.den, (Wide)a.den * b.den);
}

/**
 * lid_ratio_mul:
 *
 * Returns: a × b, unknown if either is
 */
LidRatio
lid_ratio_mul (LidRatio a, LidRatio b)
{
  if (a.den == 0 || b.den == 0)
    return LID_RATIO_UNKNOWN;
  return reduce ((Wide)a.num * b.num, (Wide)a.den * b.den);
}

/**
 * lid_ratio_div:
 *
 * Returns: a ÷ b, unknown if either is, or if b is 0
 */
LidRatio
lid_ratio_div (LidRatio a, LidRatio b)
{
  if (b.num == 0)
    return LID_RATIO_UNKNOWN;
  return b.num < 0 ? lid_ratio_mul (a, (LidRatio){ -b.den, -b.num })
                   : lid_ratio_mul (a, (LidRatio){ b.den, b.num });
}

/**
 * lid_ratio_compare:
 *
 * Cross-multiplied in 128 bits. The unknown ratio sorts below every other.
 *
 * Returns: negative, 0 or positive
 */
int
lid_ratio_compare (LidRatio a, LidRatio b)
{
  Wide left, right;

  if (a.den == 0 || b.den == 0)
    return (a.den != 0) - (b.den != 0);
  left = (Wide)a.num * b.den;
  right = (Wide)b.num * a.den;
  return (left > right) - (left < right);
}

/**
 * lid_ratio_round:
 * @a: a known ratio
 *
 * Returns: the nearest integer, halves up (product.md 6, settled reading 9)
 */
gint64
lid_ratio_round (LidRatio a)
{
  Wide twice;

  g_return_val_if_fail (a.den > 0, 0);
  twice = (Wide)a.num * 2 + a.den;
  if (twice < 0)
    return (gint64) - ((-twice + 2 * (Wide)a.den - 1) / (2 * (Wide)a.den));
  return (gint64)(twice / (2 * (Wide)a.den));
}

double
lid_ratio_to_double (LidRatio a)
{
  return a.den == 0 ? 0.0 : (double)a.num / (double)a.den;
}
