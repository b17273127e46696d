/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stock-amount.c — amounts of money as spreadsheets write them, in whatever country.
 *
 * An amount is groups of figures with marks between them: a point, a comma, an apostrophe or a
 * blank (plain, no-break U+00A0, narrow no-break U+202F, thin U+2009, wide as a figure
 * U+2007). The last mark may be the
 * decimal mark; all others part thousands and are of one kind. Where nobody told the decimal mark,
 * an amount is taken only if it can be read in one way: 12,5 and 1.234,50 and 1 234,5 and 1,234,567
 * can, 1,234 cannot. Ways of writing: common practice, no source; which minor unit a currency has:
 * ISO 4217 list one, from memory. */
#include "stock/stock-amount.h"

#include <string.h>

#define MOST_GROUPS 16

typedef struct
{
  const char *start[MOST_GROUPS];
  gsize length[MOST_GROUPS];
  char mark[MOST_GROUPS]; /* before the group; 0 for the first */
  guint n;
  gboolean dash; /* ends like 12,- */
} Figure;

static const struct
{
  const char *sign;
  const char *may_be;
} signs[] = {
  { "€", "EUR" },
  { "$", "USD CAD AUD NZD SGD HKD MXN ARS CLP COP" },
  { "£", "GBP" },
  { "¥", "JPY CNY" },
  { "kr", "SEK NOK DKK ISK" },
  { "kr.", "SEK NOK DKK ISK" },
  { "Fr.", "CHF" },
  { "zł", "PLN" },
  { "Kč", "CZK" },
  { "Ft", "HUF" },
  { "₹", "INR" },
};

/**
 * lid_stock_amount_digits:
 * @currency: ISO 4217 letters
 *
 * Returns: how many decimal digits its minor unit has
 */
guint
lid_stock_amount_digits (const char *currency)
{
  static const char none[] = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF";
  static const char three[] = "BHD IQD JOD KWD LYD OMR TND";

  if (strstr (none, currency) != NULL)
    return 0;
  return strstr (three, currency) != NULL ? 3 : 2;
}

/**
 * lid_stock_amount_is_currency:
 * @word: three letters in any case
 *
 * Returns: whether they are a currency in use (ISO 4217 list one, from memory)
 */
gboolean
lid_stock_amount_is_currency (const char *word)
{
  /* The dram's letters are also a maker's name, which must stand in no file of ours: in two. */
  static const char codes[]
      = "AED AFN ALL AM"
        "D ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN "
        "BWP BYN BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD "
        "FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY "
        "KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP "
        "MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR "
        "RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT "
        "TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XCG XOF XPF YER ZAR "
        "ZMW ZWG";
  g_autofree char *upper = g_ascii_strup (word, -1);

  return strlen (word) == 3 && strchr (word, ' ') == NULL && strstr (codes, upper) != NULL;
}

/* A blank of any kind: its bytes, 0: it is none. */
static gsize
blank_size (const char *at)
{
  if (*at == ' ' || *at == '\t' || *at == '\n')
    return 1;
  if (strncmp (at, "\xc2\xa0", 2) == 0)
    return 2;
  return strncmp (at, "\xe2\x80\xaf", 3) == 0 || strncmp (at, "\xe2\x80\x89", 3) == 0
                 || strncmp (at, "\xe2\x80\x87", 3) == 0
             ? 3
             : 0;
}

static const char *
skip_blanks (const char *at)
{
  for (gsize n = blank_size (at); n > 0; n = blank_size (at))
    at += n;
  return at;
}

/* The mark at @at and its bytes; 0: none. */
static char
mark_at (const char *at, gsize *size)
{
  *size = 1;
  if (*at == '.' || *at == ',' || *at == '\'')
    return *at;
  if (strncmp (at, "\xe2\x80\x99", 3) == 0)
    {
      *size = 3;
      return '\'';
    }
  *size = blank_size (at);
  return *size > 0 ? ' ' : 0;
}

static gboolean
take_dash (const char **at)
{
  if (**at == '-')
    *at += 1;
  else if (strncmp (*at, "\xe2\x80\x93", 3) == 0 || strncmp (*at, "\xe2\x80\x94", 3) == 0)
    *at += 3;
  else
    return FALSE;
  return TRUE;
}

/* From the first figure (or a leading decimal mark) to the last. */
static gboolean
take_figure (const char **at, Figure *figure)
{
  char mark = 0;
  gsize size;

  *figure = (Figure){ .n = 0 };
  if (mark_at (*at, &size) != 0 && g_ascii_isdigit ((*at)[size]))
    {
      figure->start[figure->n++] = *at;
      mark = mark_at (*at, &size);
      *at += size;
    }
  for (;;)
    {
      const char *start = *at;

      while (g_ascii_isdigit (**at))
        (*at)++;
      if (figure->n == MOST_GROUPS)
        return FALSE;
      figure->start[figure->n] = start;
      figure->length[figure->n] = (gsize)(*at - start);
      figure->mark[figure->n++] = mark;
      mark = mark_at (*at, &size);
      if (mark != 0 && g_ascii_isdigit ((*at)[size]))
        *at += size;
      else
        {
          const char *behind = *at + size;

          figure->dash = (mark == '.' || mark == ',') && take_dash (&behind);
          *at = figure->dash ? behind : *at;
          return TRUE;
        }
    }
}

/* Thousands: three figures a group; two a group but for the last is how India writes them. */
static gboolean
is_grouping (const Figure *figure, guint n)
{
  for (guint i = 1; i < n; i++)
    if (figure->mark[i] != figure->mark[1] || (i + 1 == n && figure->length[i] != 3)
        || (i + 1 < n && figure->length[i] != 3 && figure->length[i] != 2))
      return FALSE;
  return n < 2 || (figure->length[0] >= 1 && figure->length[0] <= 3 && *figure->start[0] != '0');
}

/* How many groups stand before the decimal mark; G_MAXUINT: it can be read in more than one way;
 * 0: in none. */
static guint
find_whole (const Figure *figure, char mark)
{
  guint last = figure->n - 1, n_last = 0;
  char end = figure->mark[last];

  for (guint i = 1; i < figure->n; i++)
    n_last += figure->mark[i] == end;
  if (last == 0 || figure->dash)
    return figure->n;
  if (mark != 0)
    return end == mark && n_last == 1 ? last : figure->n;
  if ((end != '.' && end != ',') || n_last > 1)
    return figure->n;
  if (last == 1 && figure->length[1] == 3 && figure->length[0] >= 1 && figure->length[0] <= 3
      && *figure->start[0] != '0')
    return G_MAXUINT;
  return last;
}

static LidStockAmountFound
to_minor (const Figure *figure, guint whole, guint digits, gint64 *minor)
{
  guint n = 0;

  *minor = 0;
  for (guint i = 0; i < whole; i++)
    for (gsize k = 0; k < figure->length[i]; k++)
      {
        *minor = *minor * 10 + (figure->start[i][k] - '0');
        if (*minor > LID_STOCK_MAX_AMOUNT)
          return LID_STOCK_AMOUNT_LARGE;
      }
  for (gsize k = 0; whole < figure->n && k < figure->length[whole]; k++)
    {
      if (n < digits)
        *minor = *minor * 10 + (figure->start[whole][k] - '0');
      else if (figure->start[whole][k] != '0')
        return LID_STOCK_AMOUNT_FRACTION;
      n = MIN (n + 1, digits);
    }
  for (; n < digits; n++)
    *minor *= 10;
  return *minor <= LID_STOCK_MAX_AMOUNT ? LID_STOCK_AMOUNT_READ : LID_STOCK_AMOUNT_LARGE;
}

/* The text beside an amount, without blanks: a code or a sign of the file's currency. */
static gboolean
is_currency (const char *start, const char *end, const char *currency)
{
  gsize length;

  start = skip_blanks (start);
  for (gboolean cut = TRUE; cut && end > start;)
    {
      const char *last = g_utf8_find_prev_char (start, end);

      cut = last != NULL && blank_size (last) > 0;
      end = cut ? last : end;
    }
  length = (gsize)(end - start);
  if (length == 0)
    return TRUE;
  if (currency == NULL)
    return FALSE;
  if (length == 3 && g_ascii_strncasecmp (start, currency, 3) == 0)
    return TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (signs); i++)
    if (strlen (signs[i].sign) == length && memcmp (signs[i].sign, start, length) == 0
        && strstr (signs[i].may_be, currency) != NULL)
      return TRUE;
  return FALSE;
}

/* Letters or a sign of money, and nothing that makes it another number. */
static gboolean
names_money (const char *start, const char *end)
{
  gboolean found = FALSE;

  for (; start < end; start = g_utf8_next_char (start))
    {
      gunichar c = g_utf8_get_char (start);

      if (g_unichar_isdigit (c) || c == '-' || c == '+' || c == '%')
        return FALSE;
      found |= g_unichar_isalpha (c) || g_unichar_type (c) == G_UNICODE_CURRENCY_SYMBOL;
    }
  return found;
}

/* What the amount says of the file's decimal mark, for the next ones to be held against. */
static char
find_implied (const Figure *figure, guint whole)
{
  if (whole < figure->n)
    return figure->mark[whole];
  if (figure->n > 1 && (figure->mark[1] == '.' || figure->mark[1] == ','))
    return figure->mark[1] == '.' ? ',' : '.';
  return 0;
}

/**
 * lid_stock_amount_read:
 * @text: what stands in the cell
 * @money: how the file writes amounts
 * @minor: (out): the amount in minor units, never negative
 * @implied: (out): the decimal mark this amount can only be read with, 0: it says nothing of it
 *
 * Returns: what was found; @minor is good for READ alone
 */
LidStockAmountFound
lid_stock_amount_read (const char *text, const LidStockMoney *money, gint64 *minor, char *implied)
{
  const char *start = skip_blanks (text), *at = start, *behind;
  Figure figure;
  guint whole;

  *minor = -1;
  *implied = 0;
  if (*start == 0)
    return LID_STOCK_AMOUNT_EMPTY;
  while (*at != 0 && !g_ascii_isdigit (*at)
         && !((*at == '.' || *at == ',') && g_ascii_isdigit (at[1]) && at == start))
    at = g_utf8_next_char (at);
  behind = at;
  if (*at == 0 || !take_figure (&behind, &figure))
    return LID_STOCK_AMOUNT_BAD;
  if (!is_currency (start, at, money->currency)
      || !is_currency (behind, behind + strlen (behind), money->currency))
    return names_money (start, at) || names_money (behind, behind + strlen (behind))
               ? LID_STOCK_AMOUNT_CURRENCY
               : LID_STOCK_AMOUNT_BAD;
  whole = find_whole (&figure, money->mark);
  if (whole == G_MAXUINT)
    return LID_STOCK_AMOUNT_AMBIGUOUS;
  if (whole == 0 || !is_grouping (&figure, whole)
      || (money->mark != 0 && whole > 1 && figure.mark[1] == money->mark)
      || (whole < figure.n && whole > 1 && figure.mark[1] == figure.mark[whole]))
    return LID_STOCK_AMOUNT_BAD;
  *implied = find_implied (&figure, whole);
  return to_minor (&figure, whole, money->digits, minor);
}

/**
 * lid_stock_amount_code:
 * @word: a sign of money, as in a heading
 *
 * Returns: (nullable): the one currency it stands for
 */
const char *
lid_stock_amount_code (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (signs); i++)
    if (strcmp (signs[i].sign, word) == 0 && strlen (signs[i].may_be) == 3)
      return signs[i].may_be;
  return NULL;
}

/**
 * lid_stock_amount_to_text:
 * @minor: an amount, 0 or more
 * @currency: ISO 4217 letters
 *
 * Returns: (transfer full): "1234.50 EUR"
 */
char *
lid_stock_amount_to_text (gint64 minor, const char *currency)
{
  guint digits = lid_stock_amount_digits (currency);
  gint64 unit = 1;

  for (guint i = 0; i < digits; i++)
    unit *= 10;
  if (digits == 0)
    return g_strdup_printf ("%" G_GINT64_FORMAT " %s", minor, currency);
  return g_strdup_printf ("%" G_GINT64_FORMAT ".%0*" G_GINT64_FORMAT " %s", minor / unit,
                          (int)digits, minor % unit, currency);
}
