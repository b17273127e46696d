/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

/* Exit statuses: product.md 11. */
typedef enum
{
  LID_EXIT_DONE = 0,
  LID_EXIT_CALL = 1,
  LID_EXIT_UNREAD = 2,
  LID_EXIT_STOPS = 3,
} LidExit;

/* What a command is. A new one is one file and one line in commands.c. @entries are its own
 * options; --json and --help come with every command. */
typedef struct
{
  const char *name;
  const char *arguments;       /* as shown behind the options: "LABEL…" */
  const char *summary;         /* N_(): one line */
  const char *details;         /* N_(): paragraphs below the options, nullable */
  const GOptionEntry *entries; /* nullable; targets are static in the command's file */
  LidExit (*run) (int n_arguments, char **arguments, gboolean json);
} LidCommand;

extern const LidCommand *const lid_commands[]; /* NULL-terminated, in the order of the man page */
