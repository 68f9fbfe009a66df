/* cw-vector.c: the few operations on rigid placements that are too long to be inline.
 *
 * Rotation about an axis is Rodrigues' formula; right angles and half turns are made exact so that flat states stay
 * flat.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-vector.h"

#include "geometry/cw-tolerance.h"

/**
 * cw_rigid_compose:
 * @a: placement applied second
 * @b: placement applied first
 *
 * Returns: the placement p -> a(b(p))
 */
CwRigid
cw_rigid_compose (const CwRigid *a, const CwRigid *b)
{
  CwRigid c;

  g_return_val_if_fail (a != NULL && b != NULL, cw_rigid_identity ());

  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      c.r[i][j] = a->r[i][0] * b->r[0][j] + a->r[i][1] * b->r[1][j] + a->r[i][2] * b->r[2][j];
  c.t = cw_rigid_apply (a, b->t);
  return c;
}

/**
 * cw_rigid_inverse:
 * @m: a placement
 *
 * Returns: the placement that undoes @m (the rotation's transpose)
 */
CwRigid
cw_rigid_inverse (const CwRigid *m)
{
  CwRigid c;

  g_return_val_if_fail (m != NULL, cw_rigid_identity ());

  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++)
      c.r[i][j] = m->r[j][i];
  c.t = cw_vec3 (0, 0, 0);
  c.t = cw_vec3_scale (cw_rigid_turn (&c, m->t), -1);
  return c;
}

/**
 * cw_rigid_about_axis:
 * @p: a point of the axis, ticks
 * @q: another point of the axis, ticks; not equal to @p
 * @angle_rad: turn in radians, by the right-hand rule about the way from @p to @q
 *
 * Returns: the turn about the line through @p and @q
 */
CwRigid
cw_rigid_about_axis (CwVec3 p, CwVec3 q, double angle_rad)
{
  CwVec3 d = cw_vec3_sub (q, p);
  double length = cw_vec3_length (d);
  double c = cos (angle_rad), s = sin (angle_rad);
  CwRigid m = cw_rigid_identity ();

  g_return_val_if_fail (length > 0, m);

  /* Multiples of a right angle come out of cos and sin with an error of 1e-16; make them exact. */
  if (fabs (s) < CW_TOL_RIGHT_ANGLE)
    {
      s = 0;
      c = c > 0 ? 1 : -1;
    }
  if (fabs (c) < CW_TOL_RIGHT_ANGLE)
    {
      c = 0;
      s = s > 0 ? 1 : -1;
    }

  d = cw_vec3_scale (d, 1 / length);
  m.r[0][0] = c + d.x * d.x * (1 - c);
  m.r[0][1] = d.x * d.y * (1 - c) - d.z * s;
  m.r[0][2] = d.x * d.z * (1 - c) + d.y * s;
  m.r[1][0] = d.y * d.x * (1 - c) + d.z * s;
  m.r[1][1] = c + d.y * d.y * (1 - c);
  m.r[1][2] = d.y * d.z * (1 - c) - d.x * s;
  m.r[2][0] = d.z * d.x * (1 - c) - d.y * s;
  m.r[2][1] = d.z * d.y * (1 - c) + d.x * s;
  m.r[2][2] = c + d.z * d.z * (1 - c);
  m.t = cw_vec3_sub (p, cw_rigid_turn (&m, p));
  return m;
}
