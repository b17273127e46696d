/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "locators/locators.h"
#include "locators/teach-groups.h"
#include "support.h"

#include <string.h>

static LidInventory *
make (guint processors, const char *names)
{
  LidInventory *inventory = lid_inventory_new ("x", "smbios");
  g_auto (GStrv) list = g_strsplit (names, "|", -1);

  for (guint i = 0; i < processors; i++)
    lid_inventory_add_processor (inventory, "CPU", TRUE);
  for (guint i = 0; list[i] != NULL; i++)
    {
      LidDevice *device = lid_inventory_add_device (inventory);

      g_free (device->locator);
      device->locator = g_strdup (list[i]);
      device->handle = (gint32)(0x1100 + i);
    }
  lid_locators_place (inventory);
  return inventory;
}

/* "1/A.2" by device: socket/channel.place. */
static char *
print_places (const LidInventory *inventory)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < inventory->devices->len; i++)
    {
      const LidPlace *place = &((LidDevice *)inventory->devices->pdata[i])->place;

      g_string_append_printf (out, "%s%d/%s.%d", i > 0 ? " " : "", place->socket,
                              place->channel != NULL ? place->channel : "-", place->position);
      g_assert_true (place->told_by != LID_TOLD_NOT || place->channel == NULL);
    }
  return g_string_free (out, FALSE);
}

typedef struct
{
  const char *text;
  guint processors;
  const char *names;
  const char *places;    /* NULL: refused */
  const char *complaint; /* in it */
} Case;

static const Case cases[] = {
  { "DIMM 1+DIMM 3,DIMM 2+DIMM 4", 1, "DIMM 1|DIMM 2|DIMM 3|DIMM 4", "1/A.1 1/B.1 1/A.2 1/B.2",
    NULL },
  /* Capitals and blanks as one likes; names told; the order told is the place. */
  { "X=dimm4+dimm 1,Y=DIMM2+Dimm 3", 1, "DIMM 1|DIMM 2|DIMM 3|DIMM 4", "1/X.2 1/Y.1 1/Y.2 1/X.1",
    NULL },
  /* Letters anew on each processor, which the names tell. */
  { "PROC 1 DIMM 1+PROC 1 DIMM 2,PROC 2 DIMM 1+PROC 2 DIMM 2", 2,
    "PROC 1 DIMM 1|PROC 1 DIMM 2|PROC 2 DIMM 1|PROC 2 DIMM 2", "1/A.1 1/A.2 2/A.1 2/A.2", NULL },
  /* The processor told where the names do not. */
  { "A@1=DIMM 1+DIMM 2,A@2=DIMM 3+DIMM 4", 2, "DIMM 1|DIMM 2|DIMM 3|DIMM 4",
    "1/A.1 1/A.2 2/A.1 2/A.2", NULL },
  { "DIMM 1,...", 1, "DIMM 1|DIMM 2", "1/A.1 1/-.0", NULL },
  /* A name given later is not given by the way. */
  { "DIMM 1,A=DIMM 2", 1, "DIMM 1|DIMM 2", "1/B.1 1/A.1", NULL },
  { "J\\+1,J\\,2", 1, "J+1|J,2", "1/A.1 1/B.1", NULL },
  { "DIMM 1+DIMM 9", 1, "DIMM 1|DIMM 2", NULL, "“DIMM 9” is no slot" },
  { "DIMM 1+dimm1,DIMM 2", 1, "DIMM 1|DIMM 2", NULL, "told twice" },
  { "DIMM 1", 1, "DIMM 1|DIMM 2", NULL, "“DIMM 2” is not told" },
  { "PROC 1 DIMM 1+PROC 2 DIMM 1,...", 2, "PROC 1 DIMM 1|PROC 2 DIMM 1", NULL,
    "another processor" },
  { "A=DIMM 1,A=DIMM 2", 1, "DIMM 1|DIMM 2", NULL, "two channels" },
  /* Told once and stated once, it is the same processor. */
  { "A=PROC 1 DIMM 1,A@1=PROC 1 DIMM 2", 1, "PROC 1 DIMM 1|PROC 1 DIMM 2", NULL, "two channels" },
  { "", 1, "DIMM 1", NULL, "missing" },
  { "DIMM 1+,DIMM 2", 1, "DIMM 1|DIMM 2", NULL, "missing" },
  { "DIMM 1,", 1, "DIMM 1", NULL, "missing" },
  { "...", 1, "DIMM 1", NULL, "no slot" },
  { "A@x=DIMM 1", 1, "DIMM 1", NULL, "processor's number" },
  { "A@999=DIMM 1", 1, "DIMM 1", NULL, "processor's number" },
  { "=DIMM 1", 1, "DIMM 1", NULL, "no name" },
};

static void
test_cases (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (LidInventory) inventory = make (cases[i].processors, cases[i].names);
      g_autofree char *before = print_places (inventory), *after = NULL;
      g_autoptr (GError) error = NULL;
      g_autoptr (LidTeachGroups) groups = lid_teach_groups_parse (cases[i].text, &error);
      gboolean fits = groups != NULL && lid_teach_groups_apply (groups, inventory, &error);

      after = print_places (inventory);
      g_test_message ("%s", cases[i].text);
      if (cases[i].places != NULL)
        {
          g_autofree char *text = NULL;

          g_assert_no_error (error);
          g_assert_true (fits);
          g_assert_cmpstr (after, ==, cases[i].places);
          text = lid_teach_groups_to_text (groups);
          g_assert_cmpstr (text, ==, cases[i].text);
        }
      else
        {
          g_assert_false (fits);
          g_assert_nonnull (error);
          g_assert_nonnull (strstr (error->message, cases[i].complaint));
          g_assert_null (strchr (error->message, '\n'));
          g_assert_cmpstr (after, ==, before); /* whole or not at all */
        }
    }
}

/* As they are clicked: put, put elsewhere, taken back. */
static void
test_clicks (void)
{
  g_autoptr (LidTeachGroups) groups = lid_teach_groups_new ();
  g_autofree char *first = lid_teach_groups_next_channel (groups, 0), *second = NULL, *text = NULL;
  g_autofree char *other = NULL;

  g_assert_cmpstr (first, ==, "A");
  lid_teach_groups_put (groups, "D 1", 0, "A");
  lid_teach_groups_put (groups, "D+2", 0, "A");
  second = lid_teach_groups_next_channel (groups, 0);
  other = lid_teach_groups_next_channel (groups, 2);
  g_assert_cmpstr (second, ==, "B");
  g_assert_cmpstr (other, ==, "A");
  lid_teach_groups_put (groups, "D 3", 2, "A");
  lid_teach_groups_put (groups, "D 1", 0, "B");
  g_assert_cmpuint (lid_teach_groups_count (groups, 0, "A"), ==, 1);
  g_assert_cmpstr (lid_teach_groups_find (groups, "D 1", NULL), ==, "B");
  g_assert_true (lid_teach_groups_take (groups, "D 3"));
  g_assert_false (lid_teach_groups_take (groups, "D 3"));
  lid_teach_groups_leave_rest (groups, TRUE);
  text = lid_teach_groups_to_text (groups);
  g_assert_cmpstr (text, ==, "A=D\\+2,B=D 1,...");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/teach-groups/cases", test_cases);
  g_test_add_func ("/teach-groups/clicks", test_clicks);
  return g_test_run ();
}
