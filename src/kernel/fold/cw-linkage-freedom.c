/* cw-linkage-freedom.c: in how many independent ways a linkage can move from where it stands.
 *
 * Hinges less rank of the closing equations counts looseness, which flat and shut states have too much of: coplanar
 * axes give rank 2 where a closed position a little way off gives 3. So a block that is loose to first order is turned
 * some way along its loose directions and closed there; what closes counts only if positions half, a quarter and an
 * eighth as far off close too, so that they lead back to the state, and the looseness is read there: in the end again
 * by closing positions nearby, for a part may lie flat and blind all along a motion of the rest. Several motions may
 * meet in the state: the loosest counts. Hinges that are scored but not folded do not move. Guesses come from a named
 * seed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage-dense.h"
#include "fold/cw-linkage-private.h"
#include "geometry/cw-tolerance.h"

typedef struct
{
  const CwLinkage *linkage;
  CwLinkageWork *work;
  const CwBlock *block;
  const CwSlot *slots;
  CwRows rows;
  double allowed;
  const double *low, *high, *rest;
} Look;

static gboolean
closes (const Look *look, double *x)
{
  double norm = cw_block_close (look->linkage, look->work, look->block, look->slots, look->low, look->high, look->rows,
                                CW_TRIES_CLOSE, x);

  if (look->rows == CW_ROWS_EXACT)
    return norm <= CW_TOL_CLOSED;
  return cw_block_misfit (look->linkage, look->work, look->block, x, NULL) <= look->allowed;
}

/* Where loops need not close exactly, near the rest position they would rather do so farther off: the hinge that turned
 * most is held, so that what closes is as near as was asked. */
static void
hold_farthest (const Look *look, const double *x, CwSlot *slots)
{
  guint most = 0;

  for (guint i = 1; i < look->block->n_joints; i++)
    if (fabs (x[i] - look->rest[i]) > fabs (x[most] - look->rest[most]))
      most = i;
  slots[most] = CW_SLOT_HELD;
}

static guint
looseness (const Look *look, const double *x)
{
  return cw_block_looseness (look->linkage, look->work, look->block, look->slots, x, CW_TOL_LOOSE, NULL);
}

/* How many ways closed positions really spread from `x`, out of those that first order sees. */
static guint
count_ways (const Look *look, const double *x)
{
  guint n = look->block->n_joints, ways = 0;
  g_autofree double *null = g_new (double, (gsize) n *n);
  guint loose = cw_block_looseness (look->linkage, look->work, look->block, look->slots, x, CW_TOL_LOOSE, null);
  g_autofree double *gone = g_new (double, (gsize) n *loose + 1);
  g_autofree double *sigma = g_new (double, loose + 1);

  for (guint k = 0; k < loose; k++)
    {
      double *off = gone + (gsize) k * n;

      for (guint i = 0; i < n; i++)
        off[i] = CLAMP (x[i] + CW_LEAVE_SPREAD * null[k * n + i], look->low[i], look->high[i]);
      if (!closes (look, off))
        for (guint i = 0; i < n; i++)
          off[i] = x[i];
      for (guint i = 0; i < n; i++)
        off[i] = (off[i] - x[i]) / CW_LEAVE_SPREAD;
    }
  if (!cw_dense_spectrum (n, loose, gone, look->work->effort, sigma, NULL))
    return 0;
  while (ways < loose && sigma[ways] > CW_FREEDOM_STRAIGHT)
    ways++;
  return ways;
}

/* Whether closed positions lead from `x` back to the rest position, about straight. `half`: gets the one half way. */
static gboolean
leads_back (const Look *look, const double *x, double *half)
{
  guint n = look->block->n_joints;
  double far = cw_angles_farthest (n, x, look->rest);
  g_autofree double *nearer = g_new (double, n);
  g_autofree CwSlot *slots = g_memdup2 (look->slots, n * sizeof (CwSlot));
  Look held = *look;

  held.slots = slots;
  if (look->rows == CW_ROWS_GIVE)
    hold_farthest (look, x, slots);
  for (double share = 0.5; share >= CW_FREEDOM_NEAREST; share /= 2)
    {
      double distance;

      for (guint i = 0; i < n; i++)
        nearer[i] = look->rest[i] + share * (x[i] - look->rest[i]);
      if (!closes (&held, nearer))
        return FALSE;
      distance = cw_angles_farthest (n, nearer, look->rest) / (share * far);
      if (distance < CW_FREEDOM_STRAIGHT || distance > 1 / CW_FREEDOM_STRAIGHT)
        return FALSE;
      for (guint i = 0; share >= 0.5 && i < n; i++)
        half[i] = nearer[i];
    }
  return TRUE;
}

/* Takes a closed position on, twice as far from the rest position each time, until it is well off; FALSE if it does not
 * go there about straight. */
static gboolean
spreads (const Look *look, double turn, double *x)
{
  guint n = look->block->n_joints;
  double far = cw_angles_farthest (n, x, look->rest);

  if (far < turn * CW_FREEDOM_LEAST)
    return FALSE;
  while (far < turn / 2)
    {
      double before = far;

      for (guint i = 0; i < n; i++)
        x[i] = CLAMP (2 * x[i] - look->rest[i], look->low[i], look->high[i]);
      if (!closes (look, x))
        return FALSE;
      far = cw_angles_farthest (n, x, look->rest);
      if (far < before * (1 + CW_FREEDOM_STRAIGHT))
        return FALSE;
    }
  return TRUE;
}

/* The most independent motions that really leave the rest position. `null` holds its loose directions. */
static guint
count_motions (const Look *look, guint loose, const double *null, double turn)
{
  guint n = look->block->n_joints, most = 0, ways;
  g_autofree double *x = g_new (double, n);
  g_autofree double *half = g_new (double, n);
  guint64 random = CW_LEAVE_SEED;

  for (guint trial = 0; trial < CW_FREEDOM_TRIALS && most < loose && !cw_effort_is_out (look->work->effort); trial++)
    {
      for (guint i = 0; i < n; i++)
        x[i] = look->rest[i];
      for (guint k = 0; k < loose; k++)
        {
          double share = (cw_linkage_draw (&random) * 2 - 1) * turn;

          for (guint i = 0; i < n; i++)
            x[i] += share * null[k * n + i];
        }
      for (guint i = 0; i < n; i++)
        x[i] = CLAMP (x[i], look->low[i], look->high[i]);
      if (!closes (look, x) || !spreads (look, turn, x) || !leads_back (look, x, half))
        continue;
      /* The position may be as singular as the one of rest: it counts no more than the one half way. */
      ways = MIN (looseness (look, x), looseness (look, half));
      if (ways > most)
        ways = MIN (count_ways (look, x), count_ways (look, half));
      most = MAX (most, ways);
    }
  return most;
}

static guint
block_freedom (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const double *rho, double give,
               guint *first_order)
{
  guint n = block->n_joints, loose, freedom;
  g_autofree CwSlot *slots = g_new (CwSlot, n);
  g_autofree double *null = g_new (double, (gsize) n *n);
  g_autofree double *space = g_new (double, 3 * n);
  double *rest = space, *low = space + n, *high = space + 2 * n;
  Look look = { linkage, work, block, slots, CW_ROWS_EXACT, give + CW_TOL_EXACT_TICKS, low, high, rest };

  for (guint i = 0; i < n; i++)
    {
      slots[i] = linkage->joints[block->joints[i]].way == 0 ? CW_SLOT_HELD : CW_SLOT_FREE;
      rest[i] = rho[block->joints[i]];
      low[i] = MIN (-G_PI, rest[i]);
      high[i] = MAX (G_PI, rest[i]);
    }
  loose = cw_block_looseness (linkage, work, block, slots, rest, CW_TOL_LOOSE, null);
  if (cw_effort_is_out (work->effort))
    {
      guint n_free = 0, n_equations = block->n_loops * (guint) CW_ROWS_EXACT;

      for (guint i = 0; i < n; i++)
        n_free += slots[i] == CW_SLOT_FREE;
      *first_order += n_free > n_equations ? n_free - n_equations : 0;
      return 0;
    }
  *first_order += loose;
  freedom = count_motions (&look, loose, null, CW_FREEDOM_TURN);
  if (freedom == 0 && !cw_effort_is_out (work->effort))
    {
      /* Rounding to ticks alone takes the freedom from a loop: what moves within give, moves. */
      look.rows = CW_ROWS_GIVE;
      loose = cw_block_looseness (linkage, work, block, slots, rest, CW_TOL_LOOSE, null);
      freedom = count_motions (&look, loose, null, CW_FREEDOM_TURN_GIVE);
    }
  return freedom;
}

/**
 * cw_linkage_freedom:
 * @linkage: a linkage
 * @rho: (array): n_joints angles at which its loops close, radians
 * @give_ticks: how far paper bends to let a loop close
 * @first_order: (out) (nullable): hinges less rank of the closing equations at @rho itself
 *
 * Returns: the number of independent finite motions; a hinge outside all loops is one each
 */
guint
cw_linkage_freedom (CwLinkage *linkage, const double *rho, double give_ticks, guint *first_order)
{
  return cw_linkage_freedom_within (linkage, rho, give_ticks, first_order, NULL);
}

/**
 * cw_linkage_freedom_within:
 * @linkage: a linkage
 * @rho: (array): n_joints angles at which its loops close, radians
 * @give_ticks: how far paper bends to let a loop close
 * @first_order: (out) (nullable): hinges less rank of the closing equations at @rho itself
 * @effort: (nullable): how much work it may cost; what was done is taken off
 *
 * Returns: the number of independent finite motions; if the effort is out before, those that were found, and as many at
 *   first order as there are hinges more than closing equations
 */
guint
cw_linkage_freedom_within (CwLinkage *linkage, const double *rho, double give_ticks, guint *first_order,
                           CwEffort *effort)
{
  guint freedom = 0, first = 0;
  g_autoptr (CwLinkageWork) work = NULL;

  g_return_val_if_fail (linkage != NULL, 0);
  g_return_val_if_fail (rho != NULL || linkage->n_joints == 0, 0);

  for (guint j = 0; j < linkage->n_joints; j++)
    if (linkage->joint_block[j] == G_MAXUINT && linkage->joints[j].way != 0)
      freedom++;
  first = freedom;
  work = cw_linkage_work_new (linkage);
  work->effort = effort;
  for (guint k = 0; k < linkage->n_blocks; k++)
    freedom += block_freedom (linkage, work, &linkage->blocks[k], rho, give_ticks, &first);
  if (first_order != NULL)
    *first_order = first;
  return freedom;
}
