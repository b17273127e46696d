/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The questions about a plan that are linear: the least money for at least so much capacity in an
 * empty machine, sockets alike or free. Their program, for GLPK (GNU Linear Programming Kit,
 * Debian's libglpk-dev):
 *
 *   y_r of each row of the shelf, 0 to what it holds; x_ck modules of each kind for each channel of
 *   one socket, or of the machine where sockets are free
 *   Σ y_r over the rows of kind k = sockets × Σ_c x_ck
 *   Σ_k x_ck ≤ slots of a channel         Σ capacity_k × sockets × x_ck ≥ N
 *   least Σ price_r × y_r
 *
 * What is asked can be the population itself, or only which modules: then all slots are one
 * channel, for any modules that are no more than the slots can be placed, since these boards mix
 * freely. Or the even one of a rate: kinds rated as high, as many in a channel as run at it, and
 * Σ_k capacity_k × x_ck = M, the same M for each channel. */
#include "planner-glpk.h"

#include <glpk.h>

typedef struct
{
  const PlannerLarge *q;
  glp_prob *program;
  guint n_kinds, n_rows, sockets;
  guint channels, slots; /* of each */
  LidRate rate;          /* every module is rated so high; 0: any */
  gboolean even;
} Program;

static guint
kind_of (const PlannerLarge *q, const LidModule *module)
{
  guint k = 0;

  while (q->modules->pdata[k] != module)
    k++;
  return k;
}

static int
column_of (const Program *p, guint channel, guint kind)
{
  return (int)(channel * p->n_kinds + kind) + 1;
}

static int
column_of_row (const Program *p, guint row)
{
  return (int)(p->channels * p->n_kinds + row) + 1;
}

static int
column_of_size (const Program *p)
{
  return column_of_row (p, p->n_rows);
}

/* GLPK counts from 1. */
static void
set_columns (Program *p)
{
  glp_add_cols (p->program, column_of_size (p));
  for (guint c = 0; c < p->channels; c++)
    for (guint k = 0; k < p->n_kinds; k++)
      {
        gboolean slow = lid_module_rated (p->q->modules->pdata[k]) < p->rate;

        glp_set_col_kind (p->program, column_of (p, c, k), GLP_IV);
        glp_set_col_bnds (p->program, column_of (p, c, k), slow ? GLP_FX : GLP_DB, 0, p->slots);
      }
  for (guint r = 0; r < p->n_rows; r++)
    {
      const LidGood *good = &g_array_index (p->q->goods, LidGood, r);

      glp_set_col_kind (p->program, column_of_row (p, r), GLP_IV);
      glp_set_col_bnds (p->program, column_of_row (p, r), GLP_DB, 0, good->count);
      glp_set_obj_coef (p->program, column_of_row (p, r), (double)good->price_minor);
    }
  glp_set_col_bnds (p->program, column_of_size (p), GLP_LO, 0, 0);
}

/* A sum over the kinds of one channel, or of all where it is none. */
static void
add_row (Program *p, int channel, gboolean sizes, gboolean less_size, int type, double bound)
{
  g_autofree int *column = g_new (int, p->channels * p->n_kinds + 3);
  g_autofree double *factor = g_new (double, p->channels * p->n_kinds + 3);
  int row = glp_add_rows (p->program, 1), n = 0;

  for (guint c = 0; c < p->channels; c++)
    for (guint k = 0; k < p->n_kinds && (channel < 0 || channel == (int)c); k++)
      {
        n++;
        column[n] = column_of (p, c, k);
        factor[n] = sizes ? (double)lid_module_capacity (p->q->modules->pdata[k]) : 1;
      }
  if (less_size)
    {
      n++;
      column[n] = column_of_size (p);
      factor[n] = -1;
    }
  glp_set_mat_row (p->program, row, n, column, factor);
  glp_set_row_bnds (p->program, row, type, bound, bound);
}

/* What is bought of a kind is what the channels hold of it. */
static void
set_kind (Program *p, guint kind)
{
  g_autofree int *column = g_new (int, p->channels + p->n_rows + 2);
  g_autofree double *factor = g_new (double, p->channels + p->n_rows + 2);
  int n = 0, row = glp_add_rows (p->program, 1);

  for (guint c = 0; c < p->channels; c++)
    {
      n++;
      column[n] = column_of (p, c, kind);
      factor[n] = -(double)p->sockets;
    }
  for (guint r = 0; r < p->n_rows; r++)
    if (kind_of (p->q, g_array_index (p->q->goods, LidGood, r).module) == kind)
      {
        n++;
        column[n] = column_of_row (p, r);
        factor[n] = 1;
      }
  glp_set_mat_row (p->program, row, n, column, factor);
  glp_set_row_bnds (p->program, row, GLP_FX, 0, 0);
}

static gint64
solve (Program *p)
{
  gint64 cost = G_MAXINT64;
  glp_iocp how;

  glp_term_out (GLP_OFF);
  p->n_kinds = p->q->modules->len;
  p->n_rows = p->q->goods->len;
  p->program = glp_create_prob ();
  glp_set_obj_dir (p->program, GLP_MIN);
  set_columns (p);
  add_row (p, -1, TRUE, FALSE, GLP_LO, (double)p->q->wish.amount / p->sockets);
  for (guint c = 0; c < p->channels; c++)
    {
      add_row (p, (int)c, FALSE, FALSE, GLP_UP, p->slots);
      if (p->even)
        add_row (p, (int)c, TRUE, TRUE, GLP_FX, 0);
    }
  for (guint k = 0; k < p->n_kinds; k++)
    set_kind (p, k);
  glp_init_iocp (&how);
  how.presolve = GLP_ON;
  how.mip_gap = 0;
  how.msg_lev = GLP_MSG_OFF;
  how.tm_lim = PLANNER_GLPK_SECONDS * 1000;
  if (glp_intopt (p->program, &how) == 0 && glp_mip_status (p->program) == GLP_OPT)
    cost = (gint64)(glp_mip_obj_val (p->program) + 0.5);
  glp_delete_prob (p->program);
  return cost;
}

static Program
begin (const PlannerLarge *q)
{
  const LidBoard *board = q->machine->board;
  Program p = { .q = q, .sockets = q->wish.sockets_free ? 1 : board->n_sockets };

  p.channels = board->n_channels / p.sockets;
  p.slots = board->n_slots / board->n_channels;
  return p;
}

/**
 * planner_glpk_cheapest:
 *
 * Returns: what modules of at least the wish cost, wherever they go; G_MAXINT64: there are none
 */
gint64
planner_glpk_cheapest (const PlannerLarge *q)
{
  Program p = begin (q);

  p.slots *= p.channels;
  p.channels = 1;
  return solve (&p);
}

/**
 * planner_glpk_placed:
 *
 * Returns: likewise, asked which goes into which channel
 */
gint64
planner_glpk_placed (const PlannerLarge *q)
{
  Program p = begin (q);

  return solve (&p);
}

/**
 * planner_glpk_even:
 * @rate: at which it is to run
 * @slots: so many modules in a channel run at it
 *
 * Returns: likewise, every channel carrying the same
 */
gint64
planner_glpk_even (const PlannerLarge *q, LidRate rate, guint slots)
{
  Program p = begin (q);

  p.rate = rate;
  p.slots = slots;
  p.even = TRUE;
  return solve (&p);
}

void
planner_glpk_done (void)
{
  glp_free_env ();
}
