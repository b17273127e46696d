/* SPDX-License-Identifier: GPL-3.0-or-later */
/* window-help.c — what is asked: F1, the words, the keys, about; and F6 through the window. */
#include "app/app-config.h"
#include "app/bench-view.h"
#include "app/help.h"
#include "app/note-button.h"
#include "app/tooltip.h"
#include "app/window-private.h"
#include "app/window-shortcuts.h"
#include "app/words-window.h"

#include <glib/gi18n.h>

#define PARTS 5

/**
 * lid_window_help_show:
 *
 * F1: what has the keyboard says what it is; where nothing can be said, all words.
 */
void
lid_window_help_show (LidWindow *self)
{
  if (!lid_help_show (gtk_window_get_focus (GTK_WINDOW (self))))
    lid_window_help_words (self);
}

static void
present (LidWindow *self, GtkWidget *other)
{
  gtk_window_set_transient_for (GTK_WINDOW (other), GTK_WINDOW (self));
  lid_window_dress (self, other);
  gtk_window_present (GTK_WINDOW (other));
}

void
lid_window_help_words (LidWindow *self)
{
  present (self, lid_words_window_new ());
}

void
lid_window_help_shortcuts (LidWindow *self)
{
  present (self, lid_window_shortcuts_new ());
}

void
lid_window_help_about (LidWindow *self)
{
  static const char *standards[] = { "JEDEC: module labels, SPD, data rates",
                                     "DMTF DSP0134: SMBIOS", "DMTF: Redfish, CIM", NULL };
  static const char *colours[] = { "M. Okabe, K. Ito: Color Universal Design, 2008", NULL };
  GtkWidget *about = gtk_about_dialog_new ();
  GtkAboutDialog *dialog = GTK_ABOUT_DIALOG (about);

  g_object_set (
      about, "program-name", "Lidleaf", "version", LID_VERSION, "logo-icon-name", LID_APP_ID,
      "license-type", GTK_LICENSE_GPL_3_0, "modal", TRUE, "comments",
      _ ("Plans, explains and checks server memory upgrades.\nThe machine maker’s service "
         "guide and local rules come first."),
      "translator-credits", _ ("translator-credits"), NULL);
  gtk_about_dialog_add_credit_section (dialog, _ ("Standards it rests on"), standards);
  gtk_about_dialog_add_credit_section (dialog, _ ("Colours after"), colours);
  present (self, about);
}

static LidBoardArea *
board_of (LidWindow *self)
{
  GtkWidget *bench = gtk_widget_get_first_child (self->board_place);

  return bench != NULL ? lid_bench_view_get_board (LID_BENCH_VIEW (bench)) : NULL;
}

/* The parts in the order of F6: title, figures, board, notes, tray. */
static gboolean
focus_part (LidWindow *self, int part)
{
  LidBoardArea *board = board_of (self);
  GtkWidget *places[PARTS] = { self->facts_button, GTK_WIDGET (self->figures), self->board_place,
                               NULL, self->tray_place };

  if (part == 3)
    return board != NULL && gtk_widget_get_mapped (GTK_WIDGET (board))
           && lid_board_area_focus_notes (board);
  if (part == 2 && board != NULL && gtk_widget_get_mapped (GTK_WIDGET (board)))
    return gtk_widget_grab_focus (GTK_WIDGET (board));
  return gtk_widget_get_mapped (places[part])
         && gtk_widget_child_focus (places[part], GTK_DIR_TAB_FORWARD);
}

static int
part_of (LidWindow *self, GtkWidget *focus)
{
  if (focus == NULL)
    return -1;
  if (gtk_widget_get_ancestor (focus, LID_TYPE_NOTE_BUTTON) != NULL)
    return 3;
  if (gtk_widget_is_ancestor (focus, self->board_place))
    return 2;
  if (gtk_widget_is_ancestor (focus, self->tray_place))
    return 4;
  return gtk_widget_is_ancestor (focus, GTK_WIDGET (self->figures)) ? 1 : 0;
}

static void
step (LidWindow *self, int by)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  int part = part_of (self, focus);

  if (part < 0)
    part = by > 0 ? PARTS - 1 : 0;
  for (int i = 0; i < PARTS; i++)
    {
      part = (part + by + PARTS) % PARTS;
      if (focus_part (self, part))
        {
          gtk_window_set_focus_visible (GTK_WINDOW (self), TRUE);
          return;
        }
    }
  gtk_widget_child_focus (GTK_WIDGET (self->pages), GTK_DIR_TAB_FORWARD);
}

void
lid_window_help_next_part (LidWindow *self)
{
  step (self, 1);
}

void
lid_window_help_previous_part (LidWindow *self)
{
  step (self, -1);
}

/**
 * lid_window_help_install:
 *
 * What the window's own words mean, and what its tooltips say.
 */
void
lid_window_help_install (LidWindow *self)
{
  static const struct
  {
    const char *words;
    const char *tip;
  } populations[] = {
    { "as-found population", N_ ("How the machine was when it came (Alt+1)") },
    { "planned population", N_ ("What the machine shall become (Alt+2)") },
    { "as-left population", N_ ("How the machine was when it went (Alt+3)") },
  };
  GtkWidget *button = gtk_widget_get_first_child (self->populations);

  for (guint i = 0; i < G_N_ELEMENTS (populations) && button != NULL; i++)
    {
      lid_help_set_words (button, populations[i].words);
      lid_tooltip_set (button, _ (populations[i].tip));
      button = gtk_widget_get_next_sibling (button);
    }
  lid_tooltip_set (self->facts_button, _ ("Facts of this job (Ctrl+I)"));
  lid_help_set_words (self->tray_place, "tray stock module");
  lid_help_set_words (self->board_place, "by-channel lid-off board");
  lid_help_set_words (self->links, "bench-sheet lid-sheet");
  lid_window_follow_room (self);
}

/**
 * lid_window_help_refresh:
 * @undo: (nullable): what would be undone
 * @redo: (nullable): what would be done again
 */
void
lid_window_help_refresh (LidWindow *self, const char *undo, const char *redo)
{
  /* Translators: a key stands in brackets; %s is what is undone, "fill A1". */
  g_autofree char *back = undo != NULL ? g_strdup_printf (_ ("Undo: %s (Ctrl+Z)"), undo)
                                       : g_strdup (_ ("Nothing to undo"));
  g_autofree char *on = redo != NULL ? g_strdup_printf (_ ("Redo: %s (Shift+Ctrl+Z)"), redo)
                                     : g_strdup (_ ("Nothing to redo"));

  lid_window_fit_header (self);
  lid_tooltip_set (self->undo_button, back);
  lid_tooltip_set (self->redo_button, on);
  lid_window_actions_name (self->undo_button, back);
  lid_window_actions_name (self->redo_button, on);
}
