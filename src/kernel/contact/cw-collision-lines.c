/* cw-collision-lines.c: two edges in space: how far apart their lines are, and whether they cross within their lengths.
 *
 * The common perpendicular of two lines, from their directions and the way between them: textbook geometry.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-collision-lines.h"

#include "geometry/cw-tolerance.h"

/**
 * cw_lines_distance:
 * @l: two edges
 *
 * Returns: the distance of the two lines with a sign, ticks; where they are all but parallel less than that, so that it
 * passes through 0 as they do
 */
double
cw_lines_distance (const CwLines *l)
{
  CwVec3 normal = cw_vec3_cross (l->along_p, l->along_q);
  double lengths = cw_vec3_length (l->along_p) * cw_vec3_length (l->along_q);
  double across = MAX (cw_vec3_length (normal), CW_COLLISION_LEAST_SINE * lengths);

  return cw_vec3_dot (cw_vec3_sub (l->p, l->q), normal) / across;
}

/**
 * cw_lines_nearest:
 * @l: two edges
 * @least_sine: of the angle between them
 * @shares: (out) (array fixed-size=2): where along both, as shares of their lengths, their lines come nearest
 *
 * Returns: %FALSE if they are more nearly parallel than @least_sine
 */
gboolean
cw_lines_nearest (const CwLines *l, double least_sine, double *shares)
{
  double a = cw_vec3_dot (l->along_p, l->along_p), b = cw_vec3_dot (l->along_p, l->along_q);
  double c = cw_vec3_dot (l->along_q, l->along_q), all = a * c - b * b;
  CwVec3 w = cw_vec3_sub (l->p, l->q);
  double d = cw_vec3_dot (l->along_p, w), e = cw_vec3_dot (l->along_q, w);

  if (all < least_sine * least_sine * a * c)
    return FALSE;
  shares[0] = (b * e - c * d) / all;
  shares[1] = (a * e - b * d) / all;
  return TRUE;
}

/**
 * cw_lines_cross:
 * @l: two edges
 * @far: ticks
 * @where: (out): the place on the second edge
 *
 * Returns: %TRUE if they come nearest to one another within both their lengths, no farther apart than @far
 */
gboolean
cw_lines_cross (const CwLines *l, double far, CwVec3 *where)
{
  double shares[2];
  CwVec3 on_p;

  if (!cw_lines_nearest (l, CW_COLLISION_LEAST_SINE, shares) || !(shares[0] > 0 && shares[0] < 1)
      || !(shares[1] > 0 && shares[1] < 1))
    return FALSE;
  on_p = cw_vec3_add (l->p, cw_vec3_scale (l->along_p, shares[0]));
  *where = cw_vec3_add (l->q, cw_vec3_scale (l->along_q, shares[1]));
  return cw_vec3_length (cw_vec3_sub (on_p, *where)) <= far;
}
