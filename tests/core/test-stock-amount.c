/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "stock/stock-amount.h"

/* The amounts one thousand two hundred thirty-four and a half as the monetary sections of glibc's
 * locales write them (localedata/locales: de_DE, en_US, fr_FR, de_CH, en_IN, sv_SE), and how people
 * round them off (common practice, no source). */
static const struct
{
  const char *text;
  char mark;
  gint64 minor;
} amounts[] = {
  { "1.234,50", ',', 123450 },
  { "1.234,50", 0, 123450 },
  { "1,234.50", '.', 123450 },
  { "1,234.50", 0, 123450 },
  { "1\u202f234,50", ',', 123450 },
  { "1\u202f234,50", 0, 123450 },
  { "1\u00a0234,50", 0, 123450 },
  { "1 234,5", 0, 123450 },
  { "1'234.50", '.', 123450 },
  { "1’234.50", 0, 123450 },
  { "12,34,567.50", '.', 123456750 },
  { "1234,5", 0, 123450 },
  { "1234.5", 0, 123450 },
  { "1234", 0, 123400 },
  { "1,234,567", 0, 123456700 },
  { "1,234", '.', 123400 },
  { "1.234", ',', 123400 },
  { "12,500", ',', 1250 },
  { "0,500", 0, 50 },
  { ",5", 0, 50 },
  { "12,-", ',', 1200 },
  { "12.–", '.', 1200 },
  { "€ 1.234,50", 0, 123450 },
  { "1.234,50\u00a0€", 0, 123450 },
  { "EUR 12.50", 0, 1250 },
  { "  12.50 eur ", 0, 1250 },
};

static const struct
{
  const char *text;
  char mark;
  LidStockAmountFound found;
} refused[] = {
  { "", 0, LID_STOCK_AMOUNT_EMPTY },
  { " \u00a0", 0, LID_STOCK_AMOUNT_EMPTY },
  { "1,234", 0, LID_STOCK_AMOUNT_AMBIGUOUS },
  { "1.234", 0, LID_STOCK_AMOUNT_AMBIGUOUS },
  { "123.456", 0, LID_STOCK_AMOUNT_AMBIGUOUS },
  { "€ 1,234", 0, LID_STOCK_AMOUNT_AMBIGUOUS },
  { "1,234", ',', LID_STOCK_AMOUNT_FRACTION },
  { "1,234.567", 0, LID_STOCK_AMOUNT_FRACTION },
  { "1.234.50", 0, LID_STOCK_AMOUNT_BAD },
  { "1.234.50", '.', LID_STOCK_AMOUNT_BAD },
  { "1,23.4", 0, LID_STOCK_AMOUNT_BAD },
  { "1,2,3", '.', LID_STOCK_AMOUNT_BAD },
  { "12,50", '.', LID_STOCK_AMOUNT_BAD },
  { "-12.50", 0, LID_STOCK_AMOUNT_BAD },
  { "(12.50)", 0, LID_STOCK_AMOUNT_BAD },
  { "12 %", 0, LID_STOCK_AMOUNT_BAD },
  { "12.", 0, LID_STOCK_AMOUNT_BAD },
  { "free", 0, LID_STOCK_AMOUNT_BAD },
  { "12 x 3", 0, LID_STOCK_AMOUNT_BAD },
  { "$ 12.50", 0, LID_STOCK_AMOUNT_CURRENCY },
  { "12.50 USD", 0, LID_STOCK_AMOUNT_CURRENCY },
  { "99999999999999", 0, LID_STOCK_AMOUNT_LARGE },
  { "١٢", 0, LID_STOCK_AMOUNT_BAD },
};

static void
test_amounts (void)
{
  gint64 minor;
  char implied;

  for (guint i = 0; i < G_N_ELEMENTS (amounts); i++)
    {
      LidStockMoney money = { amounts[i].mark, 2, "EUR" };

      g_test_message ("%s", amounts[i].text);
      g_assert_cmpint (lid_stock_amount_read (amounts[i].text, &money, &minor, &implied), ==,
                       LID_STOCK_AMOUNT_READ);
      g_assert_cmpint (minor, ==, amounts[i].minor);
    }
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      LidStockMoney money = { refused[i].mark, 2, "EUR" };

      g_test_message ("%s", refused[i].text);
      g_assert_cmpint (lid_stock_amount_read (refused[i].text, &money, &minor, &implied), ==,
                       refused[i].found);
    }
}

/* Minor units: ISO 4217 list one (from memory). */
static void
test_digits (void)
{
  g_autofree char *yen = lid_stock_amount_to_text (1250, "JPY");
  g_autofree char *euro = lid_stock_amount_to_text (1205, "EUR");
  g_autofree char *dinar = lid_stock_amount_to_text (1205, "KWD");

  g_assert_cmpuint (lid_stock_amount_digits ("EUR"), ==, 2);
  g_assert_cmpuint (lid_stock_amount_digits ("JPY"), ==, 0);
  g_assert_cmpuint (lid_stock_amount_digits ("KWD"), ==, 3);
  g_assert_cmpstr (yen, ==, "1250 JPY");
  g_assert_cmpstr (euro, ==, "12.05 EUR");
  g_assert_cmpstr (dinar, ==, "1.205 KWD");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stock-amount/amounts", test_amounts);
  g_test_add_func ("/stock-amount/digits", test_digits);
  return g_test_run ();
}
