/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "facts/module-json.h"

#include <string.h>

static const gint32 samples[LID_N_FACTS] = {
  [LID_FACT_GENERATION] = LID_GENERATION_DDR4,
  [LID_FACT_KIND] = LID_KIND_REGISTERED,
  [LID_FACT_FORM] = LID_FORM_DIMM,
  [LID_FACT_CAPACITY] = 32768,
  [LID_FACT_RANKS] = 2,
  [LID_FACT_LOGICAL_RANKS] = 8,
  [LID_FACT_STACK] = LID_STACK_3DS,
  [LID_FACT_CHIP_WIDTH] = 4,
  [LID_FACT_RATED] = 8000,
  [LID_FACT_ECC] = 1,
  [LID_FACT_CHECK_BITS] = 8,
  [LID_FACT_DIE] = 16,
  [LID_FACT_VOLTAGE] = LID_VOLTAGE_1350 | LID_VOLTAGE_1500,
  [LID_FACT_HEIGHT] = 3125,
};

static void
test_round_trip (void)
{
  for (guint left_out = 0; left_out <= LID_N_FACTS; left_out++)
    {
      g_autoptr (LidModule) module = lid_module_new (), again = NULL;
      g_autoptr (JsonNode) node = NULL;
      g_autoptr (GError) error = NULL;
      LidJsonAt at;

      lid_module_set_text (&module->part, "TRN-32R");
      for (guint i = 0; i < LID_N_FACTS; i++)
        if (i != left_out)
          lid_module_set (module, i, samples[i], LID_BASIS_REMEMBERED + i % (LID_N_BASES - 1));
      node = lid_module_json_write (module);
      at = lid_json_root (node);
      again = lid_module_json_read (&at, &error);
      g_assert_no_error (error);
      g_assert_cmpstr (again->part, ==, "TRN-32R");
      g_assert_null (again->serial);
      g_assert_cmpmem (again->basis, sizeof again->basis, module->basis, sizeof module->basis);
      g_assert_cmpmem (again->value, sizeof again->value, module->value, sizeof module->value);
    }
}

static void
test_complaints (void)
{
  static const char *const bad[][2] = {
    { "{\"facts\":{\"ranks\":{\"value\":0,\"basis\":\"label\"}}}", "facts.ranks.value: is 0" },
    { "{\"facts\":{\"ranks\":{\"value\":2,\"basis\":\"guess\"}}}", "facts.ranks.basis: “guess”" },
    { "{\"facts\":{\"kind\":{\"value\":\"odd\",\"basis\":\"told\"}}}", "facts.kind.value: “odd”" },
    { "{\"facts\":{\"voltages_mv\":{\"value\":[1234],\"basis\":\"told\"}}}",
      "voltages_mv.value[0]" },
    { "{\"part\":7}", "part: must be a text" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (JsonNode) node = lid_json_parse (bad[i][0], strlen (bad[i][0]), NULL);
      g_autoptr (GError) error = NULL;
      LidJsonAt at = lid_json_root (node);

      g_assert_null (lid_module_json_read (&at, &error));
      g_assert_nonnull (strstr (error->message, bad[i][1]));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/module-json/round-trip", test_round_trip);
  g_test_add_func ("/module-json/complaints", test_complaints);
  return g_test_run ();
}
