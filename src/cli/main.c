/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "commands.h"
#include "config.h"
#include "output.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <string.h>

static void
print_help (void)
{
  lid_output_line (_ ("Usage: lidleaf-cli COMMAND [OPTION…] [ARGUMENT…]"));
  lid_output ("\n", -1);
  lid_output_line (_ ("Plans, explains and checks server memory upgrades, without a screen."));
  lid_output ("\n", -1);
  lid_output_line (_ ("Commands:"));
  for (guint i = 0; lid_commands[i] != NULL; i++)
    lid_output_line ("  %-8s %s", lid_commands[i]->name, _ (lid_commands[i]->summary));
  lid_output ("\n", -1);
  lid_output_line (
      _ ("lidleaf-cli COMMAND --help tells more. A single - stands for standard input or "
         "output."));
  lid_output_line (
      _ ("Exit status: 0 done; 1 wrong call; 2 some input could not be read; 3 something "
         "stops, no plan, or other than planned."));
}

static const LidCommand *
find_command (const char *name)
{
  for (guint i = 0; lid_commands[i] != NULL; i++)
    if (strcmp (lid_commands[i]->name, name) == 0)
      return lid_commands[i];
  return NULL;
}

static LidExit
run_command (const LidCommand *command, int argc, char **argv, gboolean json)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_strdup_printf ("lidleaf-cli %s", command->name);
  GOptionContext *context = g_option_context_new (command->arguments);
  gboolean json_again = FALSE, help = FALSE;
  const GOptionEntry common[] = {
    { "json", 0, 0, G_OPTION_ARG_NONE, &json_again, N_ ("JSON Lines, one object per input"), NULL },
    { "help", 'h', 0, G_OPTION_ARG_NONE, &help, N_ ("Show this help"), NULL },
    G_OPTION_ENTRY_NULL,
  };
  LidExit status;

  /* GLib writes the usage line from the program's name. */
  g_set_prgname (name);
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  g_option_context_set_summary (context, command->summary);
  g_option_context_set_description (context, command->details);
  if (command->entries != NULL)
    g_option_context_add_main_entries (context, command->entries, GETTEXT_PACKAGE);
  g_option_context_add_main_entries (context, common, GETTEXT_PACKAGE);
  if (!g_option_context_parse (context, &argc, &argv, &error))
    {
      lid_complain (_ ("%s. See “lidleaf-cli %s --help”."), error->message, command->name);
      status = LID_EXIT_CALL;
    }
  else if (help)
    {
      g_autofree char *text = g_option_context_get_help (context, TRUE, NULL);
      lid_output (text, -1);
      status = LID_EXIT_DONE;
    }
  else
    {
      /* What is left after "--" keeps the "--": drop it. */
      int first = argc > 1 && strcmp (argv[1], "--") == 0 ? 2 : 1;
      status = command->run (argc - first, argv + first, json);
    }
  g_option_context_free (context);
  return status;
}

/* --json speaks English whatever the locale says (product.md 11), so it has to be known before
 * the first message is translated. */
static gboolean
wants_json (int argc, char **argv)
{
  for (int i = 1; i < argc && strcmp (argv[i], "--") != 0; i++)
    if (strcmp (argv[i], "--json") == 0)
      return TRUE;
  return FALSE;
}

static LidExit
dispatch (int argc, char **argv, gboolean json)
{
  const LidCommand *command;

  if (argc < 2 || strcmp (argv[1], "--help") == 0 || strcmp (argv[1], "-h") == 0)
    {
      print_help ();
      return argc < 2 ? LID_EXIT_CALL : LID_EXIT_DONE;
    }
  if (strcmp (argv[1], "--version") == 0)
    {
      lid_output_line ("lidleaf-cli %s", LID_VERSION);
      return LID_EXIT_DONE;
    }
  command = find_command (argv[1]);
  if (command == NULL)
    {
      lid_complain (_ ("there is no command “%s”. See “lidleaf-cli --help”."), argv[1]);
      return LID_EXIT_CALL;
    }
  return run_command (command, argc - 1, argv + 1, json);
}

int
main (int argc, char **argv)
{
  gboolean json = wants_json (argc, argv);
  LidExit status;

  setlocale (LC_ALL, "");
  setlocale (LC_NUMERIC, "C");
  if (json)
    setlocale (LC_MESSAGES, "C");
  bindtextdomain (GETTEXT_PACKAGE, LID_LOCALEDIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  status = dispatch (argc, argv, json);
  if (!lid_output_flush ())
    {
      lid_complain (_ ("the output could not be written"));
      return LID_EXIT_UNREAD;
    }
  return status;
}
