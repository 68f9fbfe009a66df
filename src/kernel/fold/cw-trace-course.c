/* cw-trace-course.c: one block's motion through a step as it is kept: its ramps and its knots.
 *
 * Knots are closed positions in the order in which they were found; between them the motion is interpolated by the file
 * that follows it (cw-trace-follow.c).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-trace-private.h"

/**
 * cw_course_new:
 * @linkage: a linkage, which must outlive the course
 * @block: one of its blocks
 * @slots: (array): what each of its n_joints hinges does; copied, as the next three are
 * @from: (array): angles at the start, radians
 * @to: (array): angles at the end, read for driven hinges only
 * @sense: (array): the way each hinge should turn from 0; 0: neither
 * @rows: whether loops close, or come as near as can be
 * @allowed: what they may miss by, in ticks, where they need not close
 *
 * Returns: (transfer full): a motion without knots
 */
CwCourse *
cw_course_new (const CwLinkage *linkage, const CwBlock *block, const CwSlot *slots, const double *from,
               const double *to, const int *sense, CwRows rows, double allowed)
{
  CwCourse *path = g_new0 (CwCourse, 1);
  guint n = block->n_joints;

  path->linkage = linkage;
  path->block = block;
  path->slots = g_memdup2 (slots, n * sizeof (CwSlot));
  path->from = g_memdup2 (from, n * sizeof (double));
  path->to = g_memdup2 (to, n * sizeof (double));
  path->sense = g_memdup2 (sense, n * sizeof (int));
  path->rows = rows;
  path->allowed = allowed;
  path->s = g_array_new (FALSE, FALSE, sizeof (double));
  path->x = g_array_new (FALSE, FALSE, sizeof (double));
  path->rate = g_array_new (FALSE, FALSE, sizeof (double));
  path->rests = g_array_new (FALSE, FALSE, sizeof (gboolean));
  path->misfit_joint = G_MAXUINT;
  return path;
}

/**
 * cw_course_copy:
 * @path: a motion
 *
 * Returns: (transfer full): the same motion, without its knots
 */
CwCourse *
cw_course_copy (const CwCourse *path)
{
  return cw_course_new (path->linkage, path->block, path->slots, path->from, path->to, path->sense, path->rows,
                        path->allowed);
}

/**
 * cw_course_free:
 * @path: (transfer full): a motion
 */
void
cw_course_free (CwCourse *path)
{
  g_free (path->slots);
  g_free (path->from);
  g_free (path->to);
  g_free (path->sense);
  g_array_unref (path->s);
  g_array_unref (path->x);
  g_array_unref (path->rate);
  g_array_unref (path->rests);
  g_free (path);
}

/**
 * cw_course_cut:
 * @path: a motion
 * @n_knots: how many of its knots stay, counted from the first
 */
void
cw_course_cut (CwCourse *path, guint n_knots)
{
  guint n = path->block->n_joints;

  g_array_set_size (path->s, n_knots);
  g_array_set_size (path->x, n_knots * n);
  g_array_set_size (path->rate, n_knots * n);
  g_array_set_size (path->rests, n_knots * n);
}

/**
 * cw_course_get_s:
 * @path: a motion
 * @knot: one of its knots
 *
 * Returns: the share of the step at which it stands
 */
double
cw_course_get_s (const CwCourse *path, guint knot)
{
  return g_array_index (path->s, double, knot);
}

/**
 * cw_course_get_x:
 * @path: a motion
 * @knot: one of its knots
 *
 * Returns: (array) (transfer none): the block's n_joints angles there, radians; good until a knot is added
 */
const double *
cw_course_get_x (const CwCourse *path, guint knot)
{
  return &g_array_index (path->x, double, knot * path->block->n_joints);
}

/**
 * cw_course_ramp:
 * @path: a motion
 * @s: a share of the step
 * @x: (array) (inout): n_joints angles; those of driven hinges are set to where they are at @s
 */
void
cw_course_ramp (const CwCourse *path, double s, double *x)
{
  for (guint i = 0; i < path->block->n_joints; i++)
    if (path->slots[i] == CW_SLOT_DRIVEN)
      x[i] = s < 1 || s > 1 ? path->from[i] + (path->to[i] - path->from[i]) * s : path->to[i];
}
