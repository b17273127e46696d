/* SPDX-License-Identifier: GPL-3.0-or-later */
/* units-read.c — sizes and rates as a person types them. */
#include "base/units-read.h"

#include "base/error.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_DIGITS 9u
#define MOST_MIB (G_GINT64_CONSTANT (1) << 40)

static const char *
skip_blanks (const char *text)
{
  while (g_ascii_isspace (*text))
    text++;
  return text;
}

/* Digits with at most one point or comma, as thousandths; NULL where there is no number. */
static const char *
read_number (const char *text, gint64 *thousandths)
{
  guint digits = 0, behind = 0;
  gboolean point = FALSE;

  *thousandths = 0;
  for (;; text++)
    {
      if (!point && digits > 0 && (*text == '.' || *text == ','))
        {
          point = TRUE;
          continue;
        }
      if (!g_ascii_isdigit (*text))
        break;
      if (++digits > MOST_DIGITS || (point && ++behind > 3))
        return NULL;
      *thousandths = *thousandths * 10 + (*text - '0');
    }
  if (digits == 0 || (point && behind == 0))
    return NULL;
  for (; behind < 3; behind++)
    *thousandths *= 10;
  return text;
}

/* Whether @text, but for blanks around it, is @unit, in any case. */
static gboolean
is_unit (const char *text, const char *unit)
{
  gsize length = strlen (unit);

  text = skip_blanks (text);
  return g_ascii_strncasecmp (text, unit, length) == 0 && *skip_blanks (text + length) == 0;
}

/**
 * lid_units_read_capacity:
 * @text: "64", "64 GB", "1.5 TB", "65536 MB"; a number alone is GB; a comma is a point
 * @mib: (out): whole MiB; what is left over is cut
 * @error: LID_ERROR_BAD_CALL with a sentence for the person who typed it
 *
 * Returns: whether it is a size
 */
gboolean
lid_units_read_capacity (const char *text, gint64 *mib, GError **error)
{
  static const struct
  {
    const char *unit;
    gint64 mib;
  } units[] = { { "", 1024 },          { "MB", 1 },           { "MiB", 1 }, { "GB", 1024 },
                { "GiB", 1024 },       { "G", 1024 },         { "M", 1 },   { "T", 1024 * 1024 },
                { "TB", 1024 * 1024 }, { "TiB", 1024 * 1024 } };
  gint64 thousandths;
  const char *rest = read_number (skip_blanks (text), &thousandths);

  for (guint i = 0; rest != NULL && i < G_N_ELEMENTS (units); i++)
    if (is_unit (rest, units[i].unit) && (units[i].mib > 1 || thousandths % 1000 == 0)
        && thousandths * units[i].mib / 1000 <= MOST_MIB)
      {
        *mib = thousandths * units[i].mib / 1000;
        return TRUE;
      }
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
               _ ("“%s” is no size: write a number of GB such as 64, or with MB or TB behind it"),
               text);
  return FALSE;
}

/**
 * lid_units_read_rate:
 * @text: "2933", "2933 MT/s"
 * @generation: whose steps it is snapped to; LID_GENERATION_UNKNOWN: those of all
 * @rate: (out): the rate, never LID_RATE_UNKNOWN
 * @error: LID_ERROR_BAD_CALL with a sentence for the person who typed it
 *
 * Returns: whether it is a rate
 */
gboolean
lid_units_read_rate (const char *text, LidGeneration generation, LidRate *rate, GError **error)
{
  gint64 thousandths;
  const char *rest = read_number (skip_blanks (text), &thousandths);
  gint64 mts = thousandths / 1000;

  if (rest != NULL && thousandths % 1000 == 0 && mts > 0 && mts <= LID_RATE_MAX_MTS
      && (is_unit (rest, "") || is_unit (rest, "MT/s")))
    {
      *rate = lid_rate_snap (generation, (guint)mts);
      return TRUE;
    }
  g_set_error (error, LID_ERROR, LID_ERROR_BAD_CALL,
               _ ("“%s” is no rate: write a number of MT/s such as 2933"), text);
  return FALSE;
}
