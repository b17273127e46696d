/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/wish-line.h"

#include "app/window-actions.h"
#include "base/units-read.h"
#include "stock/stock-amount.h"

#include <glib/gi18n.h>

#define PAUSE_MS 400 /* after the last letter of a path */

/* The rows of the lists, in the order of ui/wish-line.ui. */
static const LidWishWhat whats[] = { LID_WISH_REARRANGE, LID_WISH_CAPACITY, LID_WISH_SPEND };
static const LidReach reaches[] = { LID_HANDS_STAY, LID_HANDS_MOVE, LID_HANDS_PULL };

static const struct
{
  const char *action;
  gboolean of_reach;
  guint row;
} row_actions[] = {
  { "wish.rearrange", FALSE, 0 }, { "wish.reach", FALSE, 1 },   { "wish.spend", FALSE, 2 },
  { "wish.fill-empty", TRUE, 0 }, { "wish.may-move", TRUE, 1 }, { "wish.may-pull", TRUE, 2 },
};

struct _LidWishLine
{
  GtkWidget parent_instance;

  /* template children */
  GtkWidget *content;
  GtkDropDown *what;
  GtkWidget *amount;
  GtkDropDown *reach;
  GtkLabel *shelf_words;
  GtkWidget *shelf_button;
  GtkWidget *more;
  GtkSpinButton *free_slots;
  GtkEditable *least_rate;
  GtkEditable *shelf_path;
  GtkCheckButton *listed_only;
  GtkCheckButton *sure;
  GtkCheckButton *sockets_free;
  guint pause;    /* source; 0: no path is being typed */
  char *proposal; /* owned, nullable: the capacity wished where none is written */
};

G_DEFINE_FINAL_TYPE (LidWishLine, lid_wish_line, GTK_TYPE_WIDGET)

static guint changed_signal;

static LidWishWhat
get_what (LidWishLine *self)
{
  guint row = gtk_drop_down_get_selected (self->what);

  return whats[MIN (row, G_N_ELEMENTS (whats) - 1)];
}

static void
changed (LidWishLine *self)
{
  LidWishWhat what = get_what (self);

  gtk_widget_set_visible (self->amount, what != LID_WISH_REARRANGE);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->amount), what == LID_WISH_SPEND ? _ ("a sum")
                                                            : self->proposal != NULL
                                                                ? self->proposal
                                                                : _ ("256 GB"));
  gtk_widget_set_visible (GTK_WIDGET (self->sockets_free), what != LID_WISH_REARRANGE);
  g_signal_emit (self, changed_signal, 0);
}

void
lid_wish_line_set_what (LidWishLine *self, LidWishWhat what)
{
  for (guint i = 0; i < G_N_ELEMENTS (whats); i++)
    if (whats[i] == what)
      gtk_drop_down_set_selected (self->what, i);
}

void
lid_wish_line_set_amount (LidWishLine *self, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (self->amount), text);
}

void
lid_wish_line_set_reach (LidWishLine *self, LidReach reach)
{
  for (guint i = 0; i < G_N_ELEMENTS (reaches); i++)
    if (reaches[i] == reach)
      gtk_drop_down_set_selected (self->reach, i);
}

LidReach
lid_wish_line_get_reach (LidWishLine *self)
{
  guint row = gtk_drop_down_get_selected (self->reach);

  return reaches[MIN (row, G_N_ELEMENTS (reaches) - 1)];
}

/**
 * lid_wish_line_set_proposal:
 * @capacity: (nullable): what stands in the empty field, and is wished as long as it is empty
 */
void
lid_wish_line_set_proposal (LidWishLine *self, const char *capacity)
{
  g_free (self->proposal);
  self->proposal = g_strdup (capacity);
  changed (self);
}

/**
 * lid_wish_line_set_shelf:
 * @name: (nullable): the file that modules are taken from; NULL: none
 */
void
lid_wish_line_set_shelf (LidWishLine *self, const char *name)
{
  g_autofree char *words
      = name != NULL ? g_strdup_printf (_ ("From %s"), name) : g_strdup (_ ("From the shelf…"));

  gtk_label_set_label (self->shelf_words, words);
  lid_window_actions_name (self->shelf_button, words);
}

/* A sum in the currency of the shelf, the mark as the desktop writes it or as the file does: one
 * that can be read in two ways is asked back. */
static gboolean
read_sum (const char *text, const LidStock *stock, gint64 *minor, char **complaint)
{
  LidStockMoney money = { 0 };
  char implied = 0;

  if (stock == NULL || stock->currency == NULL)
    {
      *complaint = g_strdup (_ ("A sum needs a shelf with prices: choose a stock file."));
      return FALSE;
    }
  money.digits = stock->digits;
  money.currency = stock->currency;
  switch (lid_stock_amount_read (text, &money, minor, &implied))
    {
    case LID_STOCK_AMOUNT_READ:
      return TRUE;
    case LID_STOCK_AMOUNT_EMPTY:
      *complaint = g_strdup_printf (_ ("How much may it cost, in %s?"), stock->currency);
      return FALSE;
    case LID_STOCK_AMOUNT_AMBIGUOUS:
      *complaint = g_strdup_printf (
          _ ("“%s” can be read in two ways: write the sum with its cents, or without a mark."),
          text);
      return FALSE;
    case LID_STOCK_AMOUNT_FRACTION:
    case LID_STOCK_AMOUNT_LARGE:
    case LID_STOCK_AMOUNT_CURRENCY:
    case LID_STOCK_AMOUNT_BAD:
      break;
    }
  *complaint = g_strdup_printf (_ ("“%s” is no sum in %s."), text, stock->currency);
  return FALSE;
}

static gboolean
read_capacity (const char *text, gint64 *mib, char **complaint)
{
  g_autoptr (GError) error = NULL;

  if (*text == 0)
    *complaint = g_strdup (_ ("How much memory is needed? Write it as 256 GB."));
  else if (!lid_units_read_capacity (text, mib, &error))
    *complaint = g_strdup (error->message);
  return *complaint == NULL;
}

static gboolean
read_rate (LidWishLine *self, LidGeneration generation, LidRate *rate, char **complaint)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (self->least_rate)));
  g_autoptr (GError) error = NULL;

  *rate = LID_RATE_UNKNOWN;
  if (*text != 0 && !lid_units_read_rate (text, generation, rate, &error))
    *complaint = g_strdup (error->message);
  return *complaint == NULL;
}

/**
 * lid_wish_line_get_wish:
 * @stock: (nullable): the shelf, whose currency a sum is in
 * @generation: of the machine's memory: a rate is one of its steps
 * @wish: (out): what is wished
 * @complaint: (out) (transfer full) (nullable): what is missing, one sentence
 *
 * Returns: whether it can be worked out
 */
gboolean
lid_wish_line_get_wish (LidWishLine *self,
                        const LidStock *stock,
                        LidGeneration generation,
                        LidWish *wish,
                        char **complaint)
{
  g_autofree char *amount
      = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->amount))));

  *complaint = NULL;
  *wish = (LidWish){ .what = get_what (self),
                     .hands = lid_wish_line_get_reach (self),
                     .free_slots = (guint)gtk_spin_button_get_value_as_int (self->free_slots),
                     .listed_only = gtk_check_button_get_active (self->listed_only),
                     .sure = gtk_check_button_get_active (self->sure),
                     .sockets_free = gtk_check_button_get_active (self->sockets_free) };
  if (!read_rate (self, generation, &wish->least_rate, complaint))
    return FALSE;
  if (wish->what == LID_WISH_CAPACITY)
    return read_capacity (*amount == 0 && self->proposal != NULL ? self->proposal : amount,
                          &wish->amount, complaint);
  if (wish->what == LID_WISH_SPEND)
    return read_sum (amount, stock, &wish->amount, complaint);
  return TRUE;
}

/* GTK 4.8 gives a screen reader no means to choose from a list; these are the rows as actions. */
static void
choose (GtkWidget *widget, const char *action, GVariant *parameter)
{
  LidWishLine *self = LID_WISH_LINE (widget);

  for (guint i = 0; i < G_N_ELEMENTS (row_actions); i++)
    if (g_str_equal (row_actions[i].action, action))
      gtk_drop_down_set_selected (row_actions[i].of_reach ? self->reach : self->what,
                                  row_actions[i].row);
}

/* A menu button has no action of its own for a screen reader either. */
static void
show_more (GtkWidget *widget, const char *action, GVariant *parameter)
{
  gtk_menu_button_popup (GTK_MENU_BUTTON (LID_WISH_LINE (widget)->more));
}

/* Typed or pasted: the file dialog cannot be used by a screen reader's means alone (GTK 4.8). */
static gboolean
use_path (gpointer data)
{
  LidWishLine *self = data;
  g_autofree char *path = g_strstrip (g_strdup (gtk_editable_get_text (self->shelf_path)));

  self->pause = 0;
  if (g_file_test (path, G_FILE_TEST_IS_REGULAR))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.use-shelf", "s", path);
  return G_SOURCE_REMOVE;
}

static void
path_typed (LidWishLine *self)
{
  g_clear_handle_id (&self->pause, g_source_remove);
  self->pause = g_timeout_add (PAUSE_MS, use_path, self);
}

/* Enter: whatever it is, a complaint says what is wrong with it. */
static void
path_entered (LidWishLine *self)
{
  const char *path = gtk_editable_get_text (self->shelf_path);

  g_clear_handle_id (&self->pause, g_source_remove);
  if (*path != 0)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.use-shelf", "s", path);
}

static gboolean
lid_wish_line_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (LID_WISH_LINE (widget)->what));
}

static void
lid_wish_line_dispose (GObject *object)
{
  g_clear_handle_id (&LID_WISH_LINE (object)->pause, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (object), LID_TYPE_WISH_LINE);
  G_OBJECT_CLASS (lid_wish_line_parent_class)->dispose (object);
}

static void
lid_wish_line_finalize (GObject *object)
{
  g_free (LID_WISH_LINE (object)->proposal);
  G_OBJECT_CLASS (lid_wish_line_parent_class)->finalize (object);
}

static void
lid_wish_line_class_init (LidWishLineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = lid_wish_line_dispose;
  G_OBJECT_CLASS (klass)->finalize = lid_wish_line_finalize;
  widget_class->grab_focus = lid_wish_line_grab_focus;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/lidleaf/Lidleaf/ui/wish-line.ui");
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, content);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, what);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, amount);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, reach);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, shelf_words);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, shelf_button);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, more);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, free_slots);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, least_rate);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, shelf_path);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, listed_only);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, sure);
  gtk_widget_class_bind_template_child (widget_class, LidWishLine, sockets_free);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, path_typed);
  gtk_widget_class_bind_template_callback (widget_class, path_entered);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "wish");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  for (guint i = 0; i < G_N_ELEMENTS (row_actions); i++)
    gtk_widget_class_install_action (widget_class, row_actions[i].action, NULL, choose);
  gtk_widget_class_install_action (widget_class, "wish.more", NULL, show_more);
  changed_signal = g_signal_new ("changed", LID_TYPE_WISH_LINE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static void
lid_wish_line_init (LidWishLine *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  lid_window_actions_name (GTK_WIDGET (self->what), _ ("What is wished"));
  lid_window_actions_name (GTK_WIDGET (self->reach), _ ("How far the hands may go"));
  lid_window_actions_name (self->more, _ ("More wishes"));
  lid_wish_line_set_shelf (self, NULL);
  gtk_widget_set_visible (self->amount, FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->sockets_free), FALSE);
}

GtkWidget *
lid_wish_line_new (void)
{
  return g_object_new (LID_TYPE_WISH_LINE, NULL);
}
