/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Source of the form "(L)…(S)…(P)…(M)…": facts/module_label.md section 5, texts of real modules. */
#include "facts/label.h"

#include <string.h>

#define LINE "64GB 2Rx4 PC5-4800B-RA0-1010-XT"

static const struct
{
  const char *text;
  const char *serial, *part, *maker; /* NULL serial: refused */
  LidLabelField field;               /* where refused */
} cases[] = {
  { "(L)" LINE "(S)0A1B2C3D(P)TP-64R-48(M)80CE", "0A1B2C3D", "TP-64R-48", "80CE", 0 },
  { "(m)80CE(p)TP-64R-48(s)0A1B2C3D(l)" LINE, "0A1B2C3D", "TP-64R-48", "80CE", 0 },
  { " (L) " LINE " (S) 0A1B \r\n", "0A1B", "", "", 0 },
  { "(L)" LINE, "", "", "", 0 },
  { "(L)" LINE "(S)(P)TP-1(rev 2)", "", "TP-1(rev 2)", "", 0 },
  { "4x (L)" LINE "(P)TP-1", "", "TP-1", "", 0 },
  { "(S)0A1B", NULL, NULL, NULL, LID_LABEL_FIELD_TEXT },
  { "(L)" LINE "(S)1(S)2", NULL, NULL, NULL, LID_LABEL_FIELD_TEXT },
  { "(L)" LINE "(D)2301", NULL, NULL, NULL, LID_LABEL_FIELD_TEXT },
  { "(", NULL, NULL, NULL, LID_LABEL_FIELD_TEXT },
  { "(L)", NULL, NULL, NULL, LID_LABEL_FIELD_CAPACITY },
  { "(L)64g 2rx4 4800 registered", NULL, NULL, NULL, LID_LABEL_FIELD_CAPACITY },
  { "(L)64GB 2Rx4 PC5-4700B-R(S)1", NULL, NULL, NULL, LID_LABEL_FIELD_RATE },
  { "(L)" LINE "(S)\xc3\xa9", NULL, NULL, NULL, LID_LABEL_FIELD_SERIAL },
  { "2x (L)" LINE "(S)0A1B", NULL, NULL, NULL, LID_LABEL_FIELD_QUANTITY },
  { "(L)" LINE "(P)00000000001111111111222222222233333333334444444444555555555566666", NULL, NULL,
    NULL, LID_LABEL_FIELD_PART },
};

static void
test_cases (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      LidLabelFault fault;
      LidLabel label;
      gboolean ok = lid_label_parse (cases[i].text, -1, &label, &fault, &error);

      g_test_message ("%s: %s", cases[i].text, ok ? "taken" : error->message);
      g_assert_true (ok == (cases[i].serial != NULL));
      if (!ok)
        {
          g_assert_cmpstr (lid_label_field_to_text (fault.field), ==,
                           lid_label_field_to_text (cases[i].field));
          continue;
        }
      g_assert_cmpint (label.form, ==, LID_LABEL_QR);
      g_assert_cmpuint (label.capacity_mib, ==, 65536);
      g_assert_cmpstr (label.temperature, ==, "XT");
      g_assert_cmpstr (label.serial, ==, cases[i].serial);
      g_assert_cmpstr (label.part, ==, cases[i].part);
      g_assert_cmpstr (label.maker, ==, cases[i].maker);
    }
}

/* Serial and part go to the module, and the label's text in normal form. */
static void
test_module (void)
{
  LidLabel label;
  g_autoptr (LidModule) module = NULL;

  g_assert_true (lid_label_parse (cases[0].text, -1, &label, NULL, NULL));
  module = lid_label_facts_to_module (&label);
  g_assert_cmpstr (module->label, ==, LINE);
  g_assert_cmpstr (module->serial, ==, "0A1B2C3D");
  g_assert_cmpstr (module->part, ==, "TP-64R-48");
  g_assert_cmpstr (module->maker, ==, "80CE");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/label-qr/cases", test_cases);
  g_test_add_func ("/label-qr/module", test_module);
  return g_test_run ();
}
