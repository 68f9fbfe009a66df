/* cw-facet.h: a panel as a few convex quadrilaterals, and how two of them overlap.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

/* Trapezoids between two level lines; three corners may fall together to make a triangle. Flat ticks. */
typedef struct
{
  double x[4], y[4];
} CwFacet;

/* Returns: (transfer full): GArray of CwFacet that cover the polygon, holes left out. */
GArray *cw_facets_new (const CwPolygon *polygon);
/* Overlap of two convex quadrilaterals in one plane. Returns its area; x, y get its corners (at most 8). */
double cw_facet_overlap (const CwFacet *a, const CwFacet *b, double x[8], double y[8], guint *n);

G_END_DECLS
