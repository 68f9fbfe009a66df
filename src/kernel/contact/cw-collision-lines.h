/* cw-collision-lines.h: two edges in space.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-vector.h"

G_BEGIN_DECLS

/* The two edges' directions and the way from b's to a's, in b's coordinates. */
typedef struct
{
  CwVec3 p, along_p, q, along_q;
} CwLines;

double cw_lines_distance (const CwLines *l);
gboolean cw_lines_nearest (const CwLines *l, double least_sine, double *shares);
gboolean cw_lines_cross (const CwLines *l, double far, CwVec3 *where);

G_END_DECLS
