/* cw-linkage-solve.c: closing a block: from a guess to angles at which all its loops close, or close best.
 *
 * Gauss-Newton with the least step in the angles, damped (Levenberg, Quart. Appl. Math. 2 (1944) 164-168; Marquardt,
 * SIAM J. Appl. Math. 11 (1963) 431-441; both from memory) when a step does not bring the misfit down. Hinges that
 * are driven or held keep their angle. With bounds, a hinge that would be pushed beyond one is held there for the
 * step. What follows to first order, and how many ways are open to first order, come from the same derivatives.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage-dense.h"
#include "fold/cw-linkage-private.h"
#include "geometry/cw-tolerance.h"

/**
 * cw_linkage_work_new:
 * @linkage: a linkage
 *
 * Returns: (transfer full): scratch for one thread's solves of @linkage
 */
CwLinkageWork *
cw_linkage_work_new (const CwLinkage *linkage)
{
  CwLinkageWork *work;
  gsize n = 0, rows = 0;

  g_return_val_if_fail (linkage != NULL, NULL);

  for (guint k = 0; k < linkage->n_blocks; k++)
    {
      n = MAX (n, linkage->blocks[k].n_joints);
      rows = MAX (rows, linkage->blocks[k].n_loops * (gsize) CW_ROWS_GIVE);
    }
  work = g_new0 (CwLinkageWork, 1);
  work->places = g_new (CwRigid, linkage->n_bodies);
  work->x = g_new (double, n);
  work->trial = g_new (double, n);
  work->step = g_new (double, n);
  work->guess = g_new (double, n);
  work->angles = g_new (double, n);
  work->residual = g_new (double, rows);
  work->jacobian = g_new (double, rows *n);
  work->columns = g_new (double, (rows + n) * n);
  work->right = g_new (double, rows + n);
  work->free = g_new (guint, n);
  work->used = g_new (guint, rows + n);
  work->slots = g_new (CwSlot, n);
  work->driven = g_new (gboolean, n);
  return work;
}

/**
 * cw_linkage_work_free:
 * @work: (transfer full): scratch
 */
void
cw_linkage_work_free (CwLinkageWork *work)
{
  g_return_if_fail (work != NULL);

  g_free (work->places);
  g_free (work->x);
  g_free (work->trial);
  g_free (work->step);
  g_free (work->guess);
  g_free (work->angles);
  g_free (work->residual);
  g_free (work->jacobian);
  g_free (work->columns);
  g_free (work->right);
  g_free (work->free);
  g_free (work->used);
  g_free (work->slots);
  g_free (work->driven);
  g_free (work);
}

static double
norm_of (guint n, const double *v)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += v[i] * v[i];
  return sqrt (sum);
}

/* The free columns of the Jacobian in work->columns with `stride` numbers each; returns how many. */
static guint
gather (CwLinkageWork *work, const CwBlock *block, const CwSlot *slots, guint rows)
{
  guint n = block->n_joints, n_free = 0, stride;

  for (guint i = 0; i < n; i++)
    if (slots[i] == CW_SLOT_FREE)
      work->free[n_free++] = i;
  stride = rows + n_free;
  for (guint c = 0; c < n_free; c++)
    for (guint i = 0; i < rows; i++)
      work->columns[c * stride + i] = work->jacobian[i * n + work->free[c]];
  return n_free;
}

/* The same without room to spare and without rows that are 0, of which loops of parallel hinges have as many as others;
 * `rows`: gets how many are left. */
static guint
gather_full (CwLinkageWork *work, const CwBlock *block, const CwSlot *slots, guint *rows)
{
  guint n = block->n_joints, n_free = 0, n_full = 0;

  for (guint i = 0; i < n; i++)
    if (slots[i] == CW_SLOT_FREE)
      work->free[n_free++] = i;
  for (guint i = 0; i < *rows; i++)
    {
      gboolean full = FALSE;

      for (guint c = 0; c < n_free && !full; c++)
        full = fabs (work->jacobian[i * n + work->free[c]]) > 0;
      if (full)
        work->used[n_full++] = i;
    }
  for (guint c = 0; c < n_free; c++)
    for (guint i = 0; i < n_full; i++)
      work->columns[c * n_full + i] = work->jacobian[work->used[i] * n + work->free[c]];
  *rows = n_full;
  return n_free;
}

/* The damped least step of the free angles that brings the residual down; 0 for the rest, and for all if the effort is
 * out. */
static void
newton_step (CwLinkageWork *work, const CwBlock *block, const CwSlot *slots, guint rows, double damping)
{
  guint n_free;

  for (guint i = 0; i < block->n_joints; i++)
    work->step[i] = 0;
  /* The derivatives have been written and are gathered. */
  if (!cw_effort_spend (work->effort, 2 * (gint64) rows * block->n_joints))
    return;
  n_free = gather (work, block, slots, rows);
  for (guint i = 0; i < rows; i++)
    work->right[i] = -work->residual[i];
  if (!cw_dense_least (rows, n_free, work->columns, work->right, damping, work->used, work->effort, work->x))
    return;
  for (guint c = 0; c < n_free; c++)
    work->step[work->free[c]] = work->x[c];
}

/* Holds, for this step, hinges that stand at a bound and are pushed on. */
static gboolean
hold_at_bounds (CwLinkageWork *work, const CwBlock *block, const double *x, const double *low, const double *high)
{
  gboolean held = FALSE;

  for (guint i = 0; i < block->n_joints; i++)
    if (work->slots[i] == CW_SLOT_FREE
        && ((x[i] <= low[i] && work->step[i] < 0) || (x[i] >= high[i] && work->step[i] > 0)))
      {
        work->slots[i] = CW_SLOT_HELD;
        held = TRUE;
      }
  return held;
}

/**
 * cw_block_close:
 * @linkage: the linkage
 * @work: scratch of this thread
 * @block: one of its blocks
 * @slots: (array): which of its hinges may move
 * @low: (array) (nullable): least angles, radians
 * @high: (array) (nullable): largest angles; given with @low
 * @rows: CW_ROWS_EXACT to close, CW_ROWS_GIVE to come as near as can be with the ends' shifts as the measure
 * @n_tries: at most so many evaluations
 * @x: (array) (inout): the guess, then the best angles found, radians
 *
 * Gauss-Newton, damped as Levenberg and Marquardt do.
 *
 * Returns: the residual's length at @x; boundless if the effort is out
 */
double
cw_block_close (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const CwSlot *slots,
                const double *low, const double *high, CwRows rows, guint n_tries, double *x)
{
  guint n = block->n_joints, n_rows = block->n_loops * (guint) rows;
  double damping = CW_DAMPING_LEAST;
  double norm;

  if (cw_effort_is_out (work->effort))
    return G_MAXDOUBLE;
  cw_block_residual (linkage, work, block, x, rows, work->residual, work->jacobian);
  norm = norm_of (n_rows, work->residual);
  for (guint tries = 0; tries < n_tries && norm > CW_TOL_NEWTON; tries++)
    {
      double longest = 0, norm_new;

      if (rows == CW_ROWS_GIVE)
        damping = MAX (damping, CW_DAMPING_GIVE * norm);
      for (guint i = 0; i < n; i++)
        work->slots[i] = slots[i];
      newton_step (work, block, work->slots, n_rows, damping);
      for (guint again = 0; low != NULL && again < n && hold_at_bounds (work, block, x, low, high); again++)
        newton_step (work, block, work->slots, n_rows, damping);
      if (cw_effort_is_out (work->effort))
        break;
      for (guint i = 0; i < n; i++)
        longest = MAX (longest, fabs (work->step[i]));
      if (longest < CW_TOL_NEWTON)
        break;
      for (guint i = 0; i < n; i++)
        {
          work->trial[i] = x[i] + work->step[i] * (longest > CW_NEWTON_REACH ? CW_NEWTON_REACH / longest : 1);
          if (low != NULL)
            work->trial[i] = CLAMP (work->trial[i], low[i], high[i]);
        }
      cw_block_residual (linkage, work, block, work->trial, rows, work->residual, work->jacobian);
      norm_new = norm_of (n_rows, work->residual);
      if (norm_new < norm)
        {
          gboolean settled = norm_new > norm * (1 - CW_TOL_SETTLED);

          for (guint i = 0; i < n; i++)
            x[i] = work->trial[i];
          norm = norm_new;
          damping = MAX (damping / CW_DAMPING_EASE, CW_DAMPING_LEAST);
          if (settled)
            break;
          continue;
        }
      if (norm <= CW_TOL_CLOSED / CW_CLOSED_MARGIN || damping > CW_DAMPING_MOST)
        break;
      damping = MAX (CW_DAMPING_FIRST, damping * CW_DAMPING_EASE);
      cw_block_residual (linkage, work, block, x, rows, work->residual, work->jacobian);
    }
  return norm;
}

/**
 * cw_block_tangent:
 * @linkage: the linkage
 * @work: scratch of this thread
 * @block: one of its blocks
 * @slots: (array): which of its hinges drive, follow or are held
 * @x: (array): angles at which the loops close, radians
 * @rows: how the misfit is written
 * @rate: (array): how fast each driven hinge turns; others are not read
 * @tangent: (array) (out caller-allocates): how fast every hinge turns, the least that keeps the loops closed
 */
void
cw_block_tangent (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const CwSlot *slots,
                  const double *x, CwRows rows, const double *rate, double *tangent)
{
  guint n = block->n_joints, n_rows = block->n_loops * (guint) rows;
  double damping = CW_DAMPING_LEAST;

  cw_block_residual (linkage, work, block, x, rows, work->residual, work->jacobian);
  if (rows == CW_ROWS_GIVE)
    damping = MAX (damping, CW_DAMPING_GIVE * norm_of (n_rows, work->residual));
  for (guint i = 0; i < n_rows; i++)
    {
      work->residual[i] = 0;
      for (guint c = 0; c < n; c++)
        if (slots[c] == CW_SLOT_DRIVEN)
          work->residual[i] += work->jacobian[i * n + c] * rate[c];
    }
  newton_step (work, block, slots, n_rows, damping);
  for (guint i = 0; i < n; i++)
    tangent[i] = slots[i] == CW_SLOT_DRIVEN ? rate[i] : work->step[i];
}

/**
 * cw_block_looseness:
 * @linkage: the linkage
 * @work: scratch of this thread
 * @block: one of its blocks
 * @slots: (array): which of its hinges may move
 * @x: (array): angles at which the loops close, radians
 * @tolerance: singular values up to this count as none, or up to what the misfit at @x blurs
 * @null: (array) (out caller-allocates) (nullable): room for n_joints * n_joints numbers; the directions in which the
 *   free hinges can turn, one after another, n_joints numbers each, 0 for hinges that are not free
 *
 * Returns: how many independent directions leave all loops closed to first order; 0 if the effort is out
 */
guint
cw_block_looseness (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const CwSlot *slots,
                    const double *x, double tolerance, double *null)
{
  guint n = block->n_joints, n_rows = block->n_loops * (guint) CW_ROWS_EXACT, n_free, rank = 0;
  g_autofree double *v = NULL;
  g_autofree double *sigma = NULL;

  if (!cw_effort_spend (work->effort, 2 * (gint64) n_rows * n))
    return 0;
  cw_block_residual (linkage, work, block, x, CW_ROWS_EXACT, work->residual, work->jacobian);
  tolerance = MAX (tolerance, CW_TOL_LOOSE_BLUR * norm_of (n_rows, work->residual));
  n_free = gather_full (work, block, slots, &n_rows);
  if (null != NULL)
    v = g_new (double, n_free *n_free + 1);
  sigma = g_new (double, n_free + 1);
  if (!cw_dense_spectrum (n_rows, n_free, work->columns, work->effort, sigma, v))
    return 0;
  while (rank < n_free && sigma[rank] > tolerance)
    rank++;
  if (null != NULL)
    for (guint k = rank; k < n_free; k++)
      {
        double *direction = null + (k - rank) * n;

        for (guint i = 0; i < n; i++)
          direction[i] = 0;
        for (guint c = 0; c < n_free; c++)
          direction[work->free[c]] = v[k * n_free + c];
      }
  return n_free - rank;
}
