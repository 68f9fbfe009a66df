/* cw-vector.h: vectors and rigid placements in space, by value.
 *
 * Space: x right, y down, z away from the viewer (right-handed), in ticks as doubles. Nothing here allocates.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

typedef struct
{
  double x, y, z;
} CwVec3;

/* A rigid placement: p goes to r * p + t. r is a rotation (rows first). */
typedef struct
{
  double r[3][3];
  CwVec3 t;
} CwRigid;

static inline CwVec3
cw_vec3 (double x, double y, double z)
{
  return (CwVec3){ x, y, z };
}

static inline CwVec3
cw_vec3_add (CwVec3 a, CwVec3 b)
{
  return cw_vec3 (a.x + b.x, a.y + b.y, a.z + b.z);
}

static inline CwVec3
cw_vec3_sub (CwVec3 a, CwVec3 b)
{
  return cw_vec3 (a.x - b.x, a.y - b.y, a.z - b.z);
}

static inline CwVec3
cw_vec3_scale (CwVec3 a, double s)
{
  return cw_vec3 (a.x * s, a.y * s, a.z * s);
}

static inline double
cw_vec3_dot (CwVec3 a, CwVec3 b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline CwVec3
cw_vec3_cross (CwVec3 a, CwVec3 b)
{
  return cw_vec3 (a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x);
}

static inline double
cw_vec3_length (CwVec3 a)
{
  return sqrt (cw_vec3_dot (a, a));
}

static inline CwRigid
cw_rigid_identity (void)
{
  return (CwRigid){ { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } }, { 0, 0, 0 } };
}

/* The image of a direction: rotated, not shifted. */
static inline CwVec3
cw_rigid_turn (const CwRigid *m, CwVec3 v)
{
  return cw_vec3 (m->r[0][0] * v.x + m->r[0][1] * v.y + m->r[0][2] * v.z,
                  m->r[1][0] * v.x + m->r[1][1] * v.y + m->r[1][2] * v.z,
                  m->r[2][0] * v.x + m->r[2][1] * v.y + m->r[2][2] * v.z);
}

static inline CwVec3
cw_rigid_apply (const CwRigid *m, CwVec3 p)
{
  return cw_vec3_add (cw_rigid_turn (m, p), m->t);
}

CwRigid cw_rigid_compose (const CwRigid *a, const CwRigid *b);
CwRigid cw_rigid_inverse (const CwRigid *m);
CwRigid cw_rigid_about_axis (CwVec3 p, CwVec3 q, double angle_rad);

G_END_DECLS
