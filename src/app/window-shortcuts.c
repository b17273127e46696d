/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-shortcuts.c — all keys on one page: those of the table of actions, and those that widgets
 * bind themselves. */
#include "app/window-shortcuts.h"

#include <glib/gi18n.h>

static const LidKeyRow keys[] = {
  { N_ ("To the neighbouring slot"), "Up Down Left Right", LID_PART_BOARD },
  { N_ ("Fill the slot with the module in hand"), "Return space", LID_PART_BOARD },
  { N_ ("Held, with nothing in hand: drag the board"), "space", LID_PART_BOARD },
  { N_ ("Fill the next slot in the order of fitting"), "n", LID_PART_BOARD },
  { N_ ("Fill the slot’s channel"), "c", LID_PART_BOARD },
  { N_ ("Empty the slot"), "Delete BackSpace", LID_PART_BOARD },
  { N_ ("Do what its worst finding proposes"), "r", LID_PART_BOARD },
  { N_ ("What the checker says of it, and why"), "question", LID_PART_BOARD },
  { N_ ("Menu of the slot"), "Menu <Shift>F10", LID_PART_BOARD },
  { N_ ("To the next note, or the one before"), "Up Down", LID_PART_NOTES },
  { N_ ("Do what the note proposes"), "Return", LID_PART_NOTES },
  { N_ ("To its slot"), "space", LID_PART_NOTES },
  { N_ ("Why the checker says so"), "question", LID_PART_NOTES },
  { N_ ("Pick the module up"), "space", LID_PART_TRAY },
  { N_ ("Fill the next slot with it"), "Return", LID_PART_TRAY },
  { N_ ("Take it off the tray"), "Delete", LID_PART_TRAY },
  { N_ ("Menu of the module"), "Menu <Shift>F10", LID_PART_TRAY },
  { N_ ("In the field, after a slot’s name: fill that slot"), "Return KP_Enter", LID_PART_TRAY },
  { N_ ("In the field, after a label: onto the tray"), "Return KP_Enter", LID_PART_TRAY },
  { N_ ("In the empty field: fill the next slot"), "Return KP_Enter", LID_PART_TRAY },
  { N_ ("To the next thing, or the one before"), "Tab <Shift>Tab", LID_PART_MOVE },
  { N_ ("Open the menu"), "F10", LID_PART_MOVE },
  { N_ ("Close what is open"), "Escape", LID_PART_MOVE },
};

static const char *const part_words[LID_N_PARTS] = {
  [LID_PART_JOB] = N_ ("Job"),     [LID_PART_EDIT] = N_ ("Change"),
  [LID_PART_LOOK] = N_ ("Look"),   [LID_PART_SHEETS] = N_ ("Sheets"),
  [LID_PART_BOARD] = N_ ("Board"), [LID_PART_NOTES] = N_ ("Notes beside the board"),
  [LID_PART_TRAY] = N_ ("Tray"),   [LID_PART_MOVE] = N_ ("Getting about"),
  [LID_PART_HELP] = N_ ("Help"),
};

/* Pages that hold in a small window: GTK 4.8 warns of its own pager where one of them does not. */
static const struct
{
  const char *name;
  const char *words;
  LidActionPart parts[4];
  guint n_parts;
} sections[] = {
  { "window", N_ ("Window"), { LID_PART_MOVE, LID_PART_EDIT, LID_PART_HELP, LID_PART_LOOK }, 4 },
  { "board", N_ ("Board and Tray"), { LID_PART_BOARD, LID_PART_NOTES, LID_PART_TRAY }, 3 },
  { "job", N_ ("Job and Sheets"), { LID_PART_JOB, LID_PART_SHEETS }, 2 },
};

/**
 * lid_window_shortcuts_keys:
 * @n: (out): how many
 *
 * Returns: (transfer none): the keys that are no actions of the window
 */
const LidKeyRow *
lid_window_shortcuts_keys (guint *n)
{
  *n = G_N_ELEMENTS (keys);
  return keys;
}

static void
add (GString *xml, const char *words, const char *key)
{
  g_autofree char *title = g_markup_escape_text (words, -1);
  g_autofree char *accelerator = g_markup_escape_text (key, -1);

  g_string_append_printf (xml,
                          "<child><object class='GtkShortcutsShortcut'><property name='title'>%s"
                          "</property><property name='accelerator'>%s</property></object></child>",
                          title, accelerator);
}

static void
add_part (GString *xml, LidActionPart part)
{
  g_autofree char *head = g_markup_escape_text (_ (part_words[part]), -1);
  const LidActionRow *rows;
  guint n;

  g_string_append_printf (xml,
                          "<child><object class='GtkShortcutsGroup'><property name='title'>%s"
                          "</property>",
                          head);
  rows = lid_window_actions_all (&n);
  for (guint i = 0; i < n; i++)
    if (rows[i].part == part && rows[i].key != NULL)
      add (xml, _ (rows[i].words), rows[i].key);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i].part == part)
      add (xml, _ (keys[i].words), keys[i].keys);
  g_string_append (xml, "</object></child>");
}

/**
 * lid_window_shortcuts_new:
 *
 * GTK 4.8 makes a shortcuts window from a description only, so one is written from the tables.
 *
 * Returns: (transfer none): a window, to be presented
 */
GtkWidget *
lid_window_shortcuts_new (void)
{
  g_autoptr (GString) xml = g_string_new (
      "<interface><object class='GtkShortcutsWindow' id='window'><property name='modal'>1"
      "</property>");
  g_autoptr (GtkBuilder) builder = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (sections); i++)
    {
      g_autofree char *title = g_markup_escape_text (_ (sections[i].words), -1);

      g_string_append_printf (xml,
                              "<child><object class='GtkShortcutsSection'><property "
                              "name='section-name'>%s</property><property name='title'>%s"
                              "</property><property name='max-height'>15</property>",
                              sections[i].name, title);
      for (guint k = 0; k < sections[i].n_parts; k++)
        add_part (xml, sections[i].parts[k]);
      g_string_append (xml, "</object></child>");
    }
  g_string_append (xml, "</object></interface>");
  builder = gtk_builder_new_from_string (xml->str, (gssize)xml->len);
  return GTK_WIDGET (gtk_builder_get_object (builder, "window"));
}
