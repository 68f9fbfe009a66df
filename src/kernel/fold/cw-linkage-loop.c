/* cw-linkage-loop.c: how far the loops of a block are from closing, and how that changes with every angle.
 *
 * A loop closes when its last hinge, reached on the tree's two ways, is the same line turned the same way: the body
 * beyond it reached through the hinge stands where the tree puts it. Around one vertex of a flat sheet this says that
 * the turns about its creases multiply to the identity (Belcastro & Hull, Linear Algebra Appl. 348 (2002) 273-282).
 * A turn is written as 2 sin(angle/2) times its axis, which is zero only for no turn and never for half a turn.
 * Derivatives: a hinge turns everything beyond it about its axis and shifts it by axis x arm.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage-private.h"

/* 2 sin(angle/2) times the axis of the turn a * transpose(b), by way of the quaternion with its largest part first. */
static CwVec3
turn_between (const CwRigid *a, const CwRigid *b)
{
  double m[3][3];
  double q[4], part[4];
  int largest = 0;

  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      m[i][j] = a->r[i][0] * b->r[j][0] + a->r[i][1] * b->r[j][1] + a->r[i][2] * b->r[j][2];

  part[0] = 1 + m[0][0] + m[1][1] + m[2][2];
  for (int i = 0; i < 3; i++)
    part[i + 1] = 1 + 2 * m[i][i] - m[0][0] - m[1][1] - m[2][2];
  for (int i = 1; i < 4; i++)
    if (part[i] > part[largest])
      largest = i;

  if (largest == 0)
    {
      q[0] = part[0];
      q[1] = m[2][1] - m[1][2];
      q[2] = m[0][2] - m[2][0];
      q[3] = m[1][0] - m[0][1];
    }
  else
    {
      int i = largest - 1, j = (i + 1) % 3, k = (i + 2) % 3;

      q[0] = m[k][j] - m[j][k];
      q[i + 1] = part[largest];
      q[j + 1] = m[j][i] + m[i][j];
      q[k + 1] = m[k][i] + m[i][k];
    }
  return cw_vec3_scale (cw_vec3 (q[1], q[2], q[3]), (q[0] < 0 ? -1 : 1) / sqrt (part[largest]));
}

static void
place_block (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const double *x)
{
  work->places[block->root] = cw_rigid_identity ();
  for (guint i = 0; i < block->n_tree; i++)
    {
      guint body = block->tree[i];

      cw_linkage_place_child (linkage, body, x[linkage->joint_slot[linkage->parent_joint[body]]], work->places);
    }
}

/* What a loop misses: the turn, and the shifts of both ends of its last hinge, in the frame of the block's root. */
typedef struct
{
  CwVec3 turn;
  CwVec3 p[2], q[2]; /* the ends reached through a, and through b */
  CwVec3 axis;
} LoopGap;

static LoopGap
measure_loop (const CwLinkage *linkage, const CwLinkageWork *work, const CwLoop *loop, double rho)
{
  const CwHinge *hinge = &linkage->hinges[loop->joint];
  const CwRigid *a = &work->places[linkage->joints[loop->joint].a];
  const CwRigid *b = &work->places[linkage->joints[loop->joint].b];
  CwRigid step = cw_linkage_joint_rigid (linkage, loop->joint, rho);
  CwRigid reached = cw_rigid_compose (a, &step);
  LoopGap gap;

  gap.turn = turn_between (&reached, b);
  gap.p[0] = cw_rigid_apply (a, hinge->p_a);
  gap.q[0] = cw_rigid_apply (a, hinge->q_a);
  gap.p[1] = cw_rigid_apply (b, hinge->p_b);
  gap.q[1] = cw_rigid_apply (b, hinge->q_b);
  gap.axis = cw_rigid_turn (a, hinge->axis_a);
  return gap;
}

static void
put (double *where, guint stride, CwVec3 v, double scale)
{
  where[0] = v.x * scale;
  where[stride] = v.y * scale;
  where[2 * stride] = v.z * scale;
}

/**
 * cw_block_residual:
 * @linkage: the linkage
 * @work: scratch of this thread
 * @block: one of its blocks
 * @x: (array): the block's angles, radians, in the order of its joints
 * @rows: which numbers; CW_ROWS_EXACT are zero just when CW_ROWS_GIVE are
 * @residual: (array) (out caller-allocates): n_loops * rows numbers
 * @jacobian: (array) (out caller-allocates) (nullable): their derivatives by x, row by row, n_joints numbers each,
 * exact where the loops close
 */
void
cw_block_residual (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const double *x, CwRows rows,
                   double *residual, double *jacobian)
{
  guint n = block->n_joints;
  double per_size = 1 / linkage->size;

  place_block (linkage, work, block, x);
  if (jacobian != NULL)
    for (guint i = 0; i < block->n_loops * (guint) rows * n; i++)
      jacobian[i] = 0;

  for (guint k = 0; k < block->n_loops; k++)
    {
      const CwLoop *loop = &block->loops[k];
      LoopGap gap = measure_loop (linkage, work, loop, x[linkage->joint_slot[loop->joint]]);
      CwVec3 p = cw_vec3_sub (gap.p[0], gap.p[1]), q = cw_vec3_sub (gap.q[0], gap.q[1]);
      double *r = residual + k * (guint) rows;

      if (rows == CW_ROWS_EXACT)
        {
          put (r, 1, gap.turn, 1);
          put (r + 3, 1, cw_vec3_add (p, q), per_size / 2);
        }
      else
        {
          put (r, 1, p, per_size);
          put (r + 3, 1, q, per_size);
          r[6] = cw_vec3_dot (gap.turn, gap.axis) * 2 * loop->reach;
        }
      if (jacobian == NULL)
        continue;

      for (guint i = 0; i < loop->n_steps; i++)
        {
          guint j = loop->steps[i].joint;
          double sense = loop->steps[i].sense;
          const CwHinge *hinge = &linkage->hinges[j];
          const CwRigid *place = &work->places[linkage->joints[j].a];
          CwVec3 axis = cw_vec3_scale (cw_rigid_turn (place, hinge->axis_a), sense);
          CwVec3 at = cw_rigid_apply (place, hinge->p_a);
          double *column = jacobian + k * (guint) rows * n + linkage->joint_slot[j];

          /* The last hinge's own line does not move by its turn: p and q are reached before it. */
          if (j == loop->joint)
            {
              if (rows == CW_ROWS_EXACT)
                put (column, n, axis, 1);
              else
                column[6 * n] = cw_vec3_dot (axis, gap.axis) * 2 * loop->reach;
              continue;
            }
          p = cw_vec3_cross (axis, cw_vec3_sub (gap.p[0], at));
          q = cw_vec3_cross (axis, cw_vec3_sub (gap.q[0], at));
          if (rows == CW_ROWS_EXACT)
            {
              put (column, n, axis, 1);
              put (column + 3 * n, n, cw_vec3_add (p, q), per_size / 2);
            }
          else
            {
              put (column, n, p, per_size);
              put (column + 3 * n, n, q, per_size);
              column[6 * n] = cw_vec3_dot (axis, gap.axis) * 2 * loop->reach;
            }
        }
    }
}

/**
 * cw_block_misfit:
 * @linkage: the linkage
 * @work: scratch of this thread
 * @block: one of its blocks
 * @x: (array): the block's angles, radians
 * @joint: (out) (nullable): the hinge that misses most
 *
 * Returns: the largest shift in ticks, over the ends of the loops' last hinges, between where the two ways round put
 * them; a twist about the hinge counts as the shift of a corner a hinge's length away
 */
double
cw_block_misfit (const CwLinkage *linkage, CwLinkageWork *work, const CwBlock *block, const double *x, guint *joint)
{
  double worst = -1;

  place_block (linkage, work, block, x);
  for (guint k = 0; k < block->n_loops; k++)
    {
      const CwLoop *loop = &block->loops[k];
      LoopGap gap = measure_loop (linkage, work, loop, x[linkage->joint_slot[loop->joint]]);
      double twist = fabs (cw_vec3_dot (gap.turn, gap.axis)) * 2 * loop->reach * linkage->size;
      double shift
        = MAX (cw_vec3_length (cw_vec3_sub (gap.p[0], gap.p[1])), cw_vec3_length (cw_vec3_sub (gap.q[0], gap.q[1])));

      /* A hinge turned end for end shows in its shift, one turned half round in its twist. */
      shift = MAX (shift, twist);
      if (shift > worst)
        {
          worst = shift;
          if (joint != NULL)
            *joint = loop->joint;
        }
    }
  return MAX (worst, 0);
}

/**
 * cw_linkage_misfit:
 * @linkage: a linkage
 * @work: scratch of this thread
 * @rho: (array): n_joints fold angles, radians
 * @joint: (out) (nullable): the hinge that misses most, G_MAXUINT without loops
 *
 * Returns: the worst shift over all loops at these angles, ticks
 */
double
cw_linkage_misfit (const CwLinkage *linkage, CwLinkageWork *work, const double *rho, guint *joint)
{
  double worst = 0;

  g_return_val_if_fail (linkage != NULL && work != NULL, 0);
  g_return_val_if_fail (rho != NULL || linkage->n_joints == 0, 0);

  if (joint != NULL)
    *joint = G_MAXUINT;
  for (guint k = 0; k < linkage->n_blocks; k++)
    {
      const CwBlock *block = &linkage->blocks[k];
      guint where = G_MAXUINT;
      double misfit;

      for (guint i = 0; i < block->n_joints; i++)
        work->x[i] = rho[block->joints[i]];
      misfit = cw_block_misfit (linkage, work, block, work->x, &where);
      if (misfit > worst || k == 0)
        {
          worst = misfit;
          if (joint != NULL)
            *joint = where;
        }
    }
  return worst;
}
