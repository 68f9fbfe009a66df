/* cw-sight-pierce.h: a panel as projected into a picture, and where two of them pierce one another; of the sight room
 * only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"
#include "geometry/cw-edges.h"
#include "geometry/cw-vector.h"

G_BEGIN_DECLS

/* A panel as projected. */
typedef struct
{
  guint panel;
  CwFace face;
  const CwPolygon *outline; /* flat */
  const CwRigid *place;     /* flat to picture */
  CwPoint low, high;        /* picture */
} CwCast;

/* Where the line of sight through a point of the picture meets the panel's plane: its flat coordinates and depth. */
static inline double
cw_cast_meet (const CwRigid *place, double at_x, double at_y, double *u, double *v)
{
  double det = place->r[0][0] * place->r[1][1] - place->r[0][1] * place->r[1][0];
  double x = at_x - place->t.x, y = at_y - place->t.y;

  *u = (x * place->r[1][1] - y * place->r[0][1]) / det;
  *v = (y * place->r[0][0] - x * place->r[1][0]) / det;
  return place->r[2][0] * *u + place->r[2][1] * *v + place->t.z;
}

void cw_cast_add_piercing (const CwCast *a, const CwCast *b, GArray *shares, GArray *edges);

G_END_DECLS
