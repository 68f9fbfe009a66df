/* cw-facet.h: a panel as a few convex polygons, how two of them overlap, and how one is cut by a line.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "panel/cw-panel-map.h"

G_BEGIN_DECLS

/* A trapezoid between two level lines needs four corners; every cut adds one at most. */
#define CW_FACET_CORNERS 8
#define CW_OVERLAP_CORNERS (2 * CW_FACET_CORNERS)

typedef struct
{
  guint n;
  double x[CW_FACET_CORNERS], y[CW_FACET_CORNERS];
} CwFacet;

/* The half-plane nx x + ny y <= d. */
typedef struct
{
  double nx, ny, d;
  guint by; /* the caller's number of what cuts */
} CwCut;

/* Returns: (transfer full): GArray of CwFacet, trapezoids that cover the polygon, holes left out. */
GArray *cw_facets_new (const CwPolygon *polygon);
/* Overlap of two convex polygons in one plane. Returns its area; x, y get its corners. */
double cw_facet_overlap (const CwFacet *a, const CwFacet *b, double x[CW_OVERLAP_CORNERS], double y[CW_OVERLAP_CORNERS],
                         guint *n);
/* Returns: FALSE when nothing of it lies in the half-plane. */
gboolean cw_facet_cut (const CwFacet *facet, const CwCut *cut, CwFacet *kept);

G_END_DECLS
