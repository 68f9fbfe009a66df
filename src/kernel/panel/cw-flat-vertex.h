/* cw-flat-vertex.h: whether creases that meet at one point of the paper can all be folded flat.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* One crease, seen from the point where it meets the others. */
typedef struct
{
  double angle;    /* radians, the way it runs; growing clockwise as seen with y down */
  gboolean toward; /* which way it folds */
  double length;   /* ticks, from the point to its far end */
} CwFlatCrease;

typedef struct
{
  guint n_creases, n_toward;
  double miss_deg; /* every other angle's sum minus 180 degrees, without sign; 180 when their number is odd */
} CwFlatVertex;

CwFlatVertex cw_flat_vertex_judge (CwFlatCrease *creases, guint n);
gboolean cw_flat_vertex_is_good (const CwFlatVertex *vertex, double tolerance_deg);

G_END_DECLS
