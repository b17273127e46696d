/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/figures-layout.h"

#define GAP 36 /* between figures */
#define LEAST_GAP 12
#define ROW_GAP 4
#define MOST 8
/* Of their width on one line, words need as much for two. */
#define LEAST_PERCENT 50
#define MOST_PERCENT 62

struct _LidFiguresLayout
{
  GtkLayoutManager parent_instance;

  GtkWidget *end; /* borrowed, nullable: a child of the widget too */
};

/* How the figures stand in a width. */
typedef struct
{
  guint n;
  GtkWidget *figures[MOST];
  GtkWidget *end;
  guint across; /* figures in a line */
  int column[MOST];
  int row, height; /* of a line, of all */
  int gap;
} Layout;

G_DEFINE_FINAL_TYPE (LidFiguresLayout, lid_figures_layout, GTK_TYPE_LAYOUT_MANAGER)

static void
find_children (LidFiguresLayout *self, GtkWidget *widget, Layout *layout)
{
  *layout = (Layout){ 0 };
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child) && child == self->end)
      layout->end = child;
    else if (gtk_widget_should_layout (child) && layout->n < MOST)
      layout->figures[layout->n++] = child;
}

static int
height_for (GtkWidget *widget, int width)
{
  int least, size = 0;

  /* A menu button trades no height for width (GTK 4.8), what is in it does. */
  if (GTK_IS_MENU_BUTTON (widget))
    widget = gtk_widget_get_first_child (widget);
  if (widget != NULL)
    gtk_widget_measure (widget, GTK_ORIENTATION_VERTICAL, width, &least, &size, NULL, NULL);
  return size;
}

/* The small words are broken into lines before figures go below each other: into two if that will
 * do. */
typedef enum
{
  LOOSE,
  HALF,
  TIGHT,
} Fit;

/* The least width for two lines of what takes @size on one: words break where they can. */
static int
half_of (GtkWidget *widget, int size)
{
  int high = height_for (widget, size * MOST_PERCENT / 100);

  for (int percent = LEAST_PERCENT; percent < MOST_PERCENT; percent += 2)
    if (height_for (widget, size * percent / 100) <= high)
      return size * percent / 100;
  return size * MOST_PERCENT / 100;
}

static int
width_of (GtkWidget *widget, Fit fit)
{
  int least = 0, size = 0;

  if (widget != NULL)
    gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &least, &size, NULL, NULL);
  if (fit == LOOSE)
    return size;
  if (fit == HALF)
    return MAX (least, half_of (widget, size));
  return MIN (size, least + least / 10);
}

/* Returns the least width for @across figures in a line, with the least gaps. */
static int
try_across (Layout *layout, guint across, Fit fit)
{
  int width = width_of (layout->end, LOOSE);

  layout->across = across;
  layout->row = 0;
  for (guint c = 0; c < MOST; c++)
    layout->column[c] = 0;
  for (guint i = 0; i < layout->n; i++)
    layout->column[i % across]
        = MAX (layout->column[i % across], width_of (layout->figures[i], fit));
  for (guint i = 0; i < layout->n; i++)
    layout->row = MAX (layout->row, height_for (layout->figures[i], layout->column[i % across]));
  for (guint c = 0; c < across; c++)
    width += layout->column[c] + LEAST_GAP;
  return width;
}

/* Broken words get what room is left before the gaps do. */
static int
widen (Layout *layout, int left)
{
  Layout whole = *layout;
  GtkRequestedSize sizes[MOST];
  int given = left;

  try_across (&whole, layout->across, LOOSE);
  for (guint c = 0; c < layout->across; c++)
    sizes[c] = (GtkRequestedSize){ NULL, layout->column[c], whole.column[c] };
  left = gtk_distribute_natural_allocation (left, layout->across, sizes);
  layout->row = 0;
  for (guint c = 0; c < layout->across; c++)
    layout->column[c] = sizes[c].minimum_size;
  for (guint i = 0; i < layout->n; i++)
    layout->row
        = MAX (layout->row, height_for (layout->figures[i], layout->column[i % layout->across]));
  return given - left;
}

static void
fit_into (Layout *layout, int width)
{
  guint across = MAX (layout->n, 1), rows;
  int need = try_across (layout, across, LOOSE);

  while (need > width)
    {
      need = try_across (layout, across, HALF);
      if (need > width)
        need = try_across (layout, across, TIGHT);
      if (need <= width)
        need += widen (layout, width - need);
      if (need <= width || across == 1)
        break;
      across = (across + 1) / 2;
      need = try_across (layout, across, LOOSE);
    }
  layout->gap = LEAST_GAP + CLAMP ((width - need) / (int)across, 0, GAP - LEAST_GAP);
  rows = (layout->n + across - 1) / across;
  layout->height = MAX ((int)rows * (layout->row + ROW_GAP) - ROW_GAP,
                        height_for (layout->end, width_of (layout->end, LOOSE)));
}

static GtkSizeRequestMode
lid_figures_layout_get_request_mode (GtkLayoutManager *manager, GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
lid_figures_layout_measure (GtkLayoutManager *manager,
                            GtkWidget *widget,
                            GtkOrientation orientation,
                            int for_size,
                            int *minimum,
                            int *natural,
                            int *minimum_baseline,
                            int *natural_baseline)
{
  Layout layout;

  find_children (LID_FIGURES_LAYOUT (manager), widget, &layout);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = try_across (&layout, 1, TIGHT);
      *natural = try_across (&layout, MAX (layout.n, 1), LOOSE) + (GAP - LEAST_GAP) * (int)layout.n;
      return;
    }
  fit_into (&layout, for_size < 0 ? G_MAXINT / 2 : for_size);
  *minimum = *natural = layout.height;
}

/* @x counts from where a line begins, right to left too. */
static void
place (GtkWidget *child, gboolean mirrored, int width, int x, int y, int wide)
{
  GtkAllocation at = {
    .x = mirrored ? width - x - wide : x, .y = y, .width = wide, .height = height_for (child, wide)
  };

  gtk_widget_size_allocate (child, &at, -1);
}

static void
lid_figures_layout_allocate (
    GtkLayoutManager *manager, GtkWidget *widget, int width, int height, int baseline)
{
  gboolean mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  Layout layout;
  int x = 0, end;

  find_children (LID_FIGURES_LAYOUT (manager), widget, &layout);
  fit_into (&layout, width);
  for (guint i = 0; i < layout.n; i++)
    {
      guint column = i % layout.across;

      if (column == 0)
        x = 0;
      place (layout.figures[i], mirrored, width, x,
             (int)(i / layout.across) * (layout.row + ROW_GAP), layout.column[column]);
      x += layout.column[column] + layout.gap;
    }
  end = width_of (layout.end, LOOSE);
  if (layout.end != NULL)
    place (layout.end, mirrored, width, width - end, 0, end);
}

/**
 * lid_figures_layout_set_end:
 * @end: (nullable): a child of the same widget
 */
void
lid_figures_layout_set_end (LidFiguresLayout *self, GtkWidget *end)
{
  self->end = end;
  gtk_layout_manager_layout_changed (GTK_LAYOUT_MANAGER (self));
}

static void
lid_figures_layout_class_init (LidFiguresLayoutClass *klass)
{
  GtkLayoutManagerClass *manager_class = GTK_LAYOUT_MANAGER_CLASS (klass);

  manager_class->get_request_mode = lid_figures_layout_get_request_mode;
  manager_class->measure = lid_figures_layout_measure;
  manager_class->allocate = lid_figures_layout_allocate;
}

static void
lid_figures_layout_init (LidFiguresLayout *self)
{
}
