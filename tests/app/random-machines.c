/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "random-machines.h"

#define BIG "192 slots"
#define EXAMPLE "../../resources/example.lidleaf"

/* In tests/data, but for the last. */
static const char *const machines[] = { "machines/plover-r2.bin",
                                        "machines/curlew-r2.bin",
                                        "machines/gannet-r2.bin",
                                        "machines/dunlin-s1.txt",
                                        "machines/tern-w4.txt",
                                        "report/station.whole.txt",
                                        EXAMPLE,
                                        BIG };
const char *
random_machines_get (guint i)
{
  return machines[i % G_N_ELEMENTS (machines)];
}

/* An invented machine of 8 sockets, 12 channels each, 2 slots a channel. */
static void
write_big (const char *path)
{
  g_autoptr (GString) text
      = g_string_new ("# dmidecode 3.4\n\nHandle 0x0001, DMI type 1, 27 bytes\n"
                      "System Information\n\tProduct Name: Reef Model\n\n");

  for (guint i = 0; i < 192; i++)
    g_string_append_printf (text,
                            "Handle 0x%04X, DMI type 17, 40 bytes\nMemory Device\n"
                            "\tForm Factor: DIMM\n\tLocator: CPU%u_DIMM_%c%u\n\tBank Locator: Not "
                            "Specified\n\tSize: %s\n\n",
                            0x1100 + i, i / 24 + 1, (char)('A' + i / 2 % 12), i % 2 + 1,
                            i % 2 == 0 ? "16 GB" : "No Module Installed");
  g_assert_true (g_file_set_contents (path, text->str, (gssize)text->len, NULL));
}

/* A copy: what is saved must not change the machines. */
GFile *
random_machines_copy (const char *machine)
{
  g_autofree char *from = g_build_filename (g_getenv ("LID_SOURCE"), "tests/data", machine, NULL);
  g_autofree char *name = g_path_get_basename (machine);
  g_autofree char *to = g_build_filename (g_get_user_runtime_dir (), name, NULL);
  g_autofree char *bytes = NULL;
  gsize size;

  if (g_str_equal (machine, BIG))
    write_big (to);
  else
    {
      g_assert_true (g_file_get_contents (from, &bytes, &size, NULL));
      g_assert_true (g_file_set_contents (to, bytes, (gssize)size, NULL));
    }
  return g_file_new_for_path (to);
}
