/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one question about a plan that is linear: the least money for at least so much capacity in an
 * empty machine, any rate, sockets alike or free. Its program, for GLPK (GNU Linear Programming
 * Kit, Debian's libglpk-dev):
 *
 *   y_r of each row of the shelf, 0 to what it holds; x_k modules of each kind for one socket, or
 *   for the machine where sockets are free
 *   Σ y_r over the rows of kind k = sockets × x_k
 *   Σ x_k ≤ slots            Σ capacity_k × sockets × x_k ≥ N
 *   least Σ price_r × y_r
 *
 * Any modules that are no more than the slots can be placed, since these boards mix freely. */
#include "planner-glpk.h"

#include <glpk.h>

typedef struct
{
  const PlannerLarge *q;
  glp_prob *program;
  guint n_kinds, n_rows, sockets, slots;
} Program;

static guint
kind_of (const PlannerLarge *q, const LidModule *module)
{
  guint k = 0;

  while (q->modules->pdata[k] != module)
    k++;
  return k;
}

/* Columns: x_1 … x_kinds, then y_1 … y_rows; GLPK counts from 1. */
static void
set_columns (Program *p)
{
  glp_add_cols (p->program, (int)(p->n_kinds + p->n_rows));
  for (guint k = 0; k < p->n_kinds; k++)
    {
      glp_set_col_kind (p->program, (int)k + 1, GLP_IV);
      glp_set_col_bnds (p->program, (int)k + 1, GLP_DB, 0, p->slots);
    }
  for (guint r = 0; r < p->n_rows; r++)
    {
      const LidGood *good = &g_array_index (p->q->goods, LidGood, r);
      int column = (int)(p->n_kinds + r) + 1;

      glp_set_col_kind (p->program, column, GLP_IV);
      glp_set_col_bnds (p->program, column, GLP_DB, 0, good->count);
      glp_set_obj_coef (p->program, column, (double)good->price_minor);
    }
}

static void
set_sums (Program *p)
{
  g_autofree int *column = g_new (int, p->n_kinds + 1);
  g_autofree double *ones = g_new (double, p->n_kinds + 1);
  g_autofree double *sizes = g_new (double, p->n_kinds + 1);

  for (guint k = 0; k < p->n_kinds; k++)
    {
      column[k + 1] = (int)k + 1;
      ones[k + 1] = 1;
      sizes[k + 1] = (double)lid_module_capacity (p->q->modules->pdata[k]) * p->sockets;
    }
  glp_add_rows (p->program, 2);
  glp_set_mat_row (p->program, 1, (int)p->n_kinds, column, ones);
  glp_set_row_bnds (p->program, 1, GLP_UP, 0, p->slots);
  glp_set_mat_row (p->program, 2, (int)p->n_kinds, column, sizes);
  glp_set_row_bnds (p->program, 2, GLP_LO, (double)p->q->wish.amount, 0);
}

static void
set_kind (Program *p, guint kind)
{
  g_autofree int *column = g_new (int, p->n_rows + 2);
  g_autofree double *factor = g_new (double, p->n_rows + 2);
  int n = 1, row = glp_add_rows (p->program, 1);

  column[1] = (int)kind + 1;
  factor[1] = -(double)p->sockets;
  for (guint r = 0; r < p->n_rows; r++)
    if (kind_of (p->q, g_array_index (p->q->goods, LidGood, r).module) == kind)
      {
        n++;
        column[n] = (int)(p->n_kinds + r) + 1;
        factor[n] = 1;
      }
  glp_set_mat_row (p->program, row, n, column, factor);
  glp_set_row_bnds (p->program, row, GLP_FX, 0, 0);
}

gint64
planner_glpk_cheapest (const PlannerLarge *q)
{
  const LidBoard *board = q->machine->board;
  Program p = { .q = q, .n_kinds = q->modules->len, .n_rows = q->goods->len };
  gint64 cost = G_MAXINT64;
  glp_iocp how;

  p.sockets = q->wish.sockets_free ? 1 : board->n_sockets;
  p.slots = board->n_slots / p.sockets;
  glp_term_out (GLP_OFF);
  p.program = glp_create_prob ();
  glp_set_obj_dir (p.program, GLP_MIN);
  set_columns (&p);
  set_sums (&p);
  for (guint k = 0; k < p.n_kinds; k++)
    set_kind (&p, k);
  glp_init_iocp (&how);
  how.presolve = GLP_ON;
  how.mip_gap = 0;
  how.msg_lev = GLP_MSG_OFF;
  if (glp_intopt (p.program, &how) == 0 && glp_mip_status (p.program) == GLP_OPT)
    cost = (gint64)(glp_mip_obj_val (p.program) + 0.5);
  glp_delete_prob (p.program);
  return cost;
}

void
planner_glpk_done (void)
{
  glp_free_env ();
}
