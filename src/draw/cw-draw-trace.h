/* cw-draw-trace.h: outlines of the design as lines of a draw list, through a flat mapping.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-list.h"
#include "geometry/cw-polygon.h"
#include "geometry/cw-vector.h"
#include "text/cw-lie.h"

G_BEGIN_DECLS

/* Where flat places come to on the output: ox = xx x + xy y + x0, oy = yx x + yy y + y0. */
typedef struct
{
  double xx, xy, x0;
  double yx, yy, y0;
} CwFlat;

static inline void
cw_flat_apply (const CwFlat *flat, double x, double y, double *ox, double *oy)
{
  *ox = flat->xx * x + flat->xy * y + flat->x0;
  *oy = flat->yx * x + flat->yy * y + flat->y0;
}

CwFlat cw_flat_from_lying (const CwLying *lying, double scale, double left, double top);
CwFlat cw_flat_of_place (const CwFlat *flat, const CwRigid *place);

/* All add to the item begun. */
void cw_trace_points (CwDrawList *list, const CwFlat *flat, const CwPoint *points, guint n);
void cw_trace_polygon (CwDrawList *list, const CwFlat *flat, const CwPolygon *polygon);
void cw_trace_path (CwDrawList *list, const CwFlat *flat, const CwPath *path, gboolean closed);
void cw_trace_mark (CwDrawList *list, const CwFlat *flat, const CwMark *mark);

G_END_DECLS
