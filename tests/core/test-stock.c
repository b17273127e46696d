/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "facts/label.h"
#include "stock/stock.h"
#include "support.h"

#include <string.h>

#define RDIMM "32GB 2Rx4 PC4-3200AA-RB2-12"

static LidStock *
parse (const char *text, const LidStockOptions *options)
{
  g_autoptr (GError) error = NULL;
  LidStock *stock = lid_stock_parse (text, strlen (text), options, &error);

  g_assert_no_error (error);
  return stock;
}

static const LidStockRow *
row_of (const LidStock *stock, guint n)
{
  g_assert_cmpuint (n, <, stock->rows->len);
  return stock->rows->pdata[n];
}

static const LidStockComplaint *
complaint_of (const LidStock *stock, guint n)
{
  g_assert_cmpuint (n, <, stock->complaints->len);
  return stock->complaints->pdata[n];
}

/* RFC 4180 section 2, points 1, 2, 5, 6, 7: CRLF, no last line end, quotes, a line end, a separator
 * and doubled quotes inside a field. */
static void
test_rfc_4180 (void)
{
  g_autoptr (LidStock) stock = parse ("bin,label,quantity,part\r\n"
                                      "\"shelf \"\"A\"\", left\"," RDIMM ",4,TP-1\r\n"
                                      "\"two\r\nlines\",\"32g 2rx4 3200 registered\",2,\r\n"
                                      "\"C\",\"" RDIMM "\",\"1\",\"TP-2\"",
                                      NULL);

  g_assert_cmpuint (stock->n_complaints, ==, 0);
  g_assert_cmpuint (stock->rows->len, ==, 3);
  g_assert_cmpstr (row_of (stock, 0)->bin, ==, "shelf \"A\", left");
  g_assert_cmpstr (row_of (stock, 1)->bin, ==, "two lines");
  g_assert_cmpuint (row_of (stock, 1)->line, ==, 3);
  g_assert_cmpuint (row_of (stock, 2)->line, ==, 5);
  g_assert_cmpstr (row_of (stock, 2)->part, ==, "TP-2");
  g_assert_cmpint (lid_module_capacity (row_of (stock, 1)->module), ==, 32768);
  g_assert_cmpint (row_of (stock, 0)->price_minor, ==, LID_STOCK_NOT_TOLD);
  g_assert_null (stock->currency);
}

/* A heading says currency and decimal mark in several ways; the separator is found or told. */
static void
test_headings (void)
{
  static const struct
  {
    const char *text;
    const char *currency;
    gint64 price;
  } cases[] = {
    { "label;quantity;price EUR 0,00;bin\n" RDIMM ";4;1.234;A1\n", "EUR", 123400 },
    { "sep=;\nlabel;quantity;Price (EUR, decimal comma);bin\n" RDIMM ";4;1.234;A1\n", "EUR",
      123400 },
    { "bin,\"price (USD, decimal point)\",QTY,Label\nA1,\"1,234\",4," RDIMM "\n", "USD", 123400 },
    { "label\tcount\tprice [€] 0,00\tshelf\n" RDIMM "\t4\t1.234\tA1\n", "EUR", 123400 },
    { "label;quantity;price JPY;bin\n" RDIMM ";4;12345;A1\n", "JPY", 12345 },
    { "\xef\xbb\xbf\"label\";\"quantity\";\"price in EUR 0,00\";\"bin\"\r\n\"" RDIMM
      "\";4;\"12,5\";\"A1\"\r\n",
      "EUR", 1250 },
    { "label;quantity;price;credit CHF 0.00;bin\n" RDIMM ";4;12.50;3.00;A1\n", "CHF", 1250 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (LidStock) stock = parse (cases[i].text, NULL);

      g_assert_cmpuint (stock->rows->len, ==, 1);
      g_assert_cmpstr (stock->currency, ==, cases[i].currency);
      g_assert_cmpint (row_of (stock, 0)->price_minor, ==, cases[i].price);
      g_assert_cmpuint (row_of (stock, 0)->quantity, ==, 4);
      g_assert_cmpstr (row_of (stock, 0)->bin, ==, "A1");
    }
}

static void
test_wrong_files (void)
{
  static const struct
  {
    const char *text;
    LidError code;
    const char *complaint;
  } cases[] = {
    { "", LID_ERROR_BAD_FORMAT, "its first row has to name the columns" },
    { "hello\nworld\n", LID_ERROR_BAD_FORMAT, "its first row has to name the columns" },
    { "quantity,price EUR\n1,2\n", LID_ERROR_BAD_FORMAT, "no column says what the modules are" },
    { "label,label\n", LID_ERROR_BAD_FORMAT, "two columns" },
    { "label;price per pair\n", LID_ERROR_BAD_FORMAT, "“per” is not understood" },
    { "label;price net\n", LID_ERROR_BAD_FORMAT, "“net” is not understood" },
    { "label;price EUR 0,00;credit EUR 0.00\n", LID_ERROR_BAD_FORMAT,
      "another currency or decimal" },
    { "label;price EUR;credit USD\n", LID_ERROR_BAD_FORMAT, "another currency or decimal" },
    { "label;price\n" RDIMM ";12\n", LID_ERROR_BAD_CALL, "line 2: an amount of money" },
    { "label;price EUR\n" RDIMM ";12,5\n" RDIMM ";12.5\n", LID_ERROR_BAD_CALL, "lines 2 and 3" },
    { "label;price EUR\n" RDIMM ";1,234,567\n" RDIMM ";12,5\n", LID_ERROR_BAD_CALL,
      "lines 2 and 3" },
    { "label\ncaf\x81\n", LID_ERROR_BAD_FORMAT, "line 2: the text is not in UTF-8 (byte 81)" },
    { "\xff\xfel", LID_ERROR_BAD_FORMAT, "calls itself UTF-16 and is not" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (LidStock) stock
          = lid_stock_parse (cases[i].text, strlen (cases[i].text), NULL, &error);

      g_assert_null (stock);
      g_assert_error (error, LID_ERROR, (int)cases[i].code);
      if (strstr (error->message, cases[i].complaint) == NULL)
        g_error ("%s: no “%s” in it", error->message, cases[i].complaint);
    }
}

static void
test_rows_kept_out (void)
{
  g_autoptr (LidStock) stock
      = parse ("label;part;quantity;price EUR;bin\n"
               "33GB nonsense;;4;10,5;A1\n" RDIMM ";;4;1,234;A1\n" RDIMM ";;-4;10,5;A1\n" RDIMM
               ";;4;10;5;A1\n"
               ";TP-9;4;10,5;A1\n"
               "16x " RDIMM ";;4;10,5;A1\n" RDIMM ";;\"4;10,5;A1\n" RDIMM ";;4;10,5;A\"1\n"
               ";;;;\n"
               "\n" RDIMM ";;0;10,5;A1\n"
               "16x " RDIMM ";;;;\n",
               NULL);
  static const struct
  {
    guint line;
    const char *text;
  } told[] = {
    { 2, "label “33GB nonsense”" },
    { 3, "can be read in two ways" },
    { 4, "no whole number" },
    { 5, "6 fields under 5 headings" },
    { 6, "nothing is known of the part “TP-9”" },
    { 7, "the quantity is 4, and 16 before the label" },
    { 8, "opened here and closed nowhere" },
  };

  g_assert_cmpuint (stock->n_complaints, ==, G_N_ELEMENTS (told));
  for (guint i = 0; i < G_N_ELEMENTS (told); i++)
    {
      g_assert_cmpuint (complaint_of (stock, i)->line, ==, told[i].line);
      if (strstr (complaint_of (stock, i)->text, told[i].text) == NULL)
        g_error ("%s: no “%s” in it", complaint_of (stock, i)->text, told[i].text);
    }
  g_assert_cmpuint (stock->n_ambiguous, ==, 1);
  g_assert_cmpuint (stock->rows->len, ==, 2);
  g_assert_cmpstr (row_of (stock, 0)->bin, ==, "A\"1");
  g_assert_cmpuint (row_of (stock, 1)->quantity, ==, 16);
}

/* What a person tells once settles what the file leaves open, and must not contradict it. */
static void
test_told_once (void)
{
  static const char text[] = "label;price\n" RDIMM ";1,234\n";
  g_autoptr (LidStock) comma = parse (text, &(LidStockOptions){ ',', "KWD", NULL });
  g_autoptr (LidStock) point = parse (text, &(LidStockOptions){ '.', "eur", NULL });
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (row_of (comma, 0)->price_minor, ==, 1234);
  g_assert_cmpint (row_of (point, 0)->price_minor, ==, 123400);
  g_assert_cmpstr (point->currency, ==, "EUR");
  g_assert_null (lid_stock_parse ("label;price EUR 0,00\n", 21,
                                  &(LidStockOptions){ '.', NULL, NULL }, &error));
  g_assert_nonnull (strstr (error->message, "another currency or decimal mark"));
  g_clear_error (&error);
  g_assert_null (
      lid_stock_parse (text, strlen (text), &(LidStockOptions){ 0, "euros", NULL }, &error));
  g_assert_error (error, LID_ERROR, LID_ERROR_BAD_CALL);
}

static void
test_utf16 (void)
{
  static const char text[] = "label\tquantity\tprice EUR 0,00\n" RDIMM "\t4\t12,5\n";

  for (guint big = 0; big < 2; big++)
    {
      gsize size;
      g_autofree char *wide
          = g_convert (text, -1, big ? "UTF-16BE" : "UTF-16LE", "UTF-8", NULL, &size, NULL);
      g_autofree char *whole = g_malloc (size + 2);
      g_autoptr (LidStock) stock = NULL;

      memcpy (whole, big ? "\xfe\xff" : "\xff\xfe", 2);
      memcpy (whole + 2, wide, size);
      stock = lid_stock_parse (whole, size + 2, NULL, NULL);
      g_assert_nonnull (stock);
      g_assert_cmpint (row_of (stock, 0)->price_minor, ==, 1250);
    }
}

/* One shelf as four countries write it (tests/data/stock). */
static void
test_countries (void)
{
  static const char *const names[] = { "en", "de", "fr", "ch" };
  static const gint64 prices[] = { 8450, 105400, LID_STOCK_NOT_TOLD };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *name = g_strdup_printf ("stock/%s.csv", names[i]);
      g_autofree char *path = support_data (name);
      g_autoptr (GError) error = NULL;
      g_autoptr (LidStock) stock = lid_stock_read (path, NULL, &error);

      g_assert_no_error (error);
      g_assert_cmpuint (stock->n_complaints, ==, 0);
      g_assert_cmpuint (stock->rows->len, ==, G_N_ELEMENTS (prices));
      for (guint k = 0; k < G_N_ELEMENTS (prices); k++)
        g_assert_cmpint (row_of (stock, k)->price_minor, ==, prices[k]);
      g_assert_cmpint (row_of (stock, 0)->credit_minor, ==, 2000);
      g_assert_cmpstr (row_of (stock, 1)->bin, ==, "A10");
    }
}

static void
test_parts_memory (void)
{
  g_autoptr (LidParts) parts = lid_parts_load ("/nonexistent/parts.json", NULL);
  g_autoptr (LidModule) known = NULL;
  g_autoptr (LidStock) stock = NULL;
  LidLabel label;

  g_assert_true (lid_label_parse (RDIMM, -1, &label, NULL, NULL));
  known = lid_label_facts_to_module (&label);
  lid_module_set_text (&known->part, "TP-9");
  g_assert_true (lid_parts_learn (parts, known));
  stock = parse ("part,label\nTP-9,\nTP-9,32g registered\n", &(LidStockOptions){ .parts = parts });
  for (guint i = 0; i < 2; i++)
    g_assert_cmpint (lid_module_get (row_of (stock, i)->module, LID_FACT_CHIP_WIDTH, 0), ==, 4);
  g_assert_cmpint (row_of (stock, 0)->module->basis[LID_FACT_CAPACITY], ==, LID_BASIS_REMEMBERED);
  g_assert_cmpint (row_of (stock, 1)->module->basis[LID_FACT_CAPACITY], ==, LID_BASIS_STOCK);
}

/* Two part numbers of equal, known facts are one kind; unknown facts hold parts apart. */
static void
test_reduce (void)
{
  g_autoptr (LidStock) stock = parse ("part;label;quantity;price EUR;bin\n"
                                      "A;" RDIMM ";2;30,5;9\n"
                                      "B;" RDIMM ";1;20,5;9\n"
                                      "B;" RDIMM ";4;;1\n"
                                      "A;" RDIMM ";2;20,5;3\n"
                                      "A;32g registered;5;1,5;1\n"
                                      "B;32g registered;5;2,5;1\n"
                                      "A;32g registered;5;0,5;1\n",
                                      NULL);
  static const guint cheapest[] = { 5, 3, 2, 4 };
  g_autoptr (GPtrArray) all = lid_stock_reduce (stock, 0), few = lid_stock_reduce (stock, 3);
  const LidStockKind *kind = all->pdata[0];

  g_assert_cmpuint (stock->n_complaints, ==, 0);
  g_assert_cmpuint (all->len, ==, 3);
  g_assert_cmpuint (kind->quantity, ==, 9);
  g_assert_cmpuint (kind->rows->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpuint (((LidStockRow *)kind->rows->pdata[i])->line, ==, cheapest[i]);
  kind = all->pdata[1];
  g_assert_cmpuint (kind->rows->len, ==, 2);
  g_assert_cmpint (((LidStockRow *)kind->rows->pdata[0])->price_minor, ==, 50);
  kind = few->pdata[0];
  g_assert_cmpuint (kind->rows->len, ==, 2); /* three modules are in the two cheapest rows */
  g_assert_cmpuint (kind->quantity, ==, 9);
}

/* What is reserved is not there; a kind of which nothing is free is none. */
static void
test_reduce_reserved (void)
{
  g_autoptr (LidStock) stock = parse ("label;quantity\n" RDIMM ";2\n" RDIMM ";3\n", NULL);
  g_autoptr (GPtrArray) kinds = NULL;
  LidStockRow *first = stock->rows->pdata[0], *second = stock->rows->pdata[1];

  first->reserved = 2;
  second->reserved = 1;
  kinds = lid_stock_reduce (stock, 0);
  g_assert_cmpuint (kinds->len, ==, 1);
  g_assert_cmpuint (((LidStockKind *)kinds->pdata[0])->quantity, ==, 2);
  g_assert_true (((LidStockKind *)kinds->pdata[0])->rows->pdata[0] == second);
  second->reserved = 3;
  g_ptr_array_unref (kinds);
  kinds = lid_stock_reduce (stock, 0);
  g_assert_cmpuint (kinds->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stock/rfc-4180", test_rfc_4180);
  g_test_add_func ("/stock/headings", test_headings);
  g_test_add_func ("/stock/wrong-files", test_wrong_files);
  g_test_add_func ("/stock/rows-kept-out", test_rows_kept_out);
  g_test_add_func ("/stock/told-once", test_told_once);
  g_test_add_func ("/stock/utf16", test_utf16);
  g_test_add_func ("/stock/countries", test_countries);
  g_test_add_func ("/stock/parts-memory", test_parts_memory);
  g_test_add_func ("/stock/reduce", test_reduce);
  g_test_add_func ("/stock/reduce-reserved", test_reduce_reserved);
  return g_test_run ();
}
