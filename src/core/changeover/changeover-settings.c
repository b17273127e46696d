/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "changeover/changeover.h"

#include "base/units.h"
#include "figures/mode-words.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *
socket_name (const LidChangeover *changeover, guint socket)
{
  return socket < changeover->board->n_sockets ? changeover->board->sockets[socket].name : "?";
}

/* The model's name; NULL: not told. */
static const char *
model_name (const LidChangeover *changeover, const LidFittedProcessor *processor)
{
  const LidBoard *board = changeover->board;

  if (processor->model < 0 || (guint)processor->model >= board->n_processors)
    return NULL;
  return board->processors[processor->model].name != NULL ? board->processors[processor->model].name
                                                          : board->processors[processor->model].id;
}

static char *
say_processor (const LidChangeover *changeover,
               const char *socket,
               const LidFittedProcessor *before,
               const LidFittedProcessor *after)
{
  const char *now = model_name (changeover, before), *then = model_name (changeover, after);

  if (!after->fitted)
    return g_strdup_printf (_ ("Take processor %s out, now that its slots are empty; cover the "
                               "socket."),
                            socket);
  if (!before->fitted && then == NULL)
    return g_strdup_printf (_ ("Fit processor %s, before its modules."), socket);
  if (!before->fitted)
    return g_strdup_printf (_ ("Fit processor %s, before its modules: %s."), socket, then);
  if (now == NULL)
    return g_strdup_printf (_ ("Exchange processor %s for: %s."), socket, then);
  return g_strdup_printf (_ ("Exchange processor %s: %s out, %s in."), socket, now, then);
}

/* A model that nobody told beside one that was told is no exchange: perhaps it is the same. */
static gboolean
is_exchanged (const LidFittedProcessor *before, const LidFittedProcessor *after)
{
  return before->model != after->model && before->model >= 0 && after->model >= 0;
}

/* Private: processors out, then exchanged, then in. */
void
lid_changeover_add_processors (LidChangeover *changeover)
{
  const LidPopulation *from = changeover->from, *to = changeover->to;

  if (from == NULL || from->n_sockets != to->n_sockets)
    return;
  for (guint pass = 0; pass < 3; pass++)
    for (guint i = 0; i < to->n_sockets; i++)
      {
        const LidFittedProcessor *before = &from->processors[i], *after = &to->processors[i];
        gboolean out = before->fitted && !after->fitted, in = !before->fitted && after->fitted;
        gboolean other = before->fitted && after->fitted && is_exchanged (before, after);

        if ((pass == 0 && out) || (pass == 1 && other) || (pass == 2 && in))
          lid_changeover_add (
              changeover, LID_STEP_PROCESSOR,
              say_processor (changeover, socket_name (changeover, i), before, after))
              ->socket
              = (int)i;
      }
}

static void
add_mode (LidChangeover *changeover)
{
  g_autofree char *now = lid_mode_words_new (changeover->from);
  g_autofree char *then = lid_mode_words_new (changeover->to);

  if (strcmp (now, then) != 0)
    lid_changeover_add (changeover, LID_STEP_SETTING,
                        g_strdup_printf (_ ("In setup: memory mode %s; it was %s."), then, now));
}

static char *
say_rate (LidRate rate)
{
  return rate != LID_RATE_UNKNOWN ? lid_units_rate (rate) : g_strdup (_ ("automatic"));
}

static void
add_rate (LidChangeover *changeover)
{
  g_autofree char *now = say_rate (changeover->from->setup_limit);
  g_autofree char *then = say_rate (changeover->to->setup_limit);

  if (changeover->from->setup_limit != changeover->to->setup_limit)
    lid_changeover_add (changeover, LID_STEP_SETTING,
                        g_strdup_printf (_ ("In setup: memory speed %s; it was %s."), then, now));
}

static char *
say_voltage (guint mv)
{
  return mv > 0 ? g_strdup_printf (_ ("%u.%02u V"), mv / 1000, mv % 1000 / 10)
                : g_strdup (_ ("automatic"));
}

static void
add_voltage (LidChangeover *changeover)
{
  g_autofree char *now = say_voltage (changeover->from->setup_mv);
  g_autofree char *then = say_voltage (changeover->to->setup_mv);

  if (changeover->from->setup_mv != changeover->to->setup_mv)
    lid_changeover_add (changeover, LID_STEP_SETTING,
                        g_strdup_printf (_ ("In setup: memory voltage %s; it was %s."), then, now));
}

static void
add_split (LidChangeover *changeover)
{
  guint now = MAX (changeover->from->numa_split, 1), then = MAX (changeover->to->numa_split, 1);

  if (now != then)
    lid_changeover_add (
        changeover, LID_STEP_SETTING,
        g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                      "In setup: %u node per processor; it was %u.",
                                      "In setup: %u nodes per processor; it was %u.", then),
                         then, now));
}

/* Private: what is set in setup, where it differs. */
void
lid_changeover_add_settings (LidChangeover *changeover)
{
  if (changeover->from == NULL)
    return;
  add_mode (changeover);
  add_rate (changeover);
  add_voltage (changeover);
  add_split (changeover);
}
