/* cw-region.h: the one door to the polygon engine (GEOS): overlay, noding, faces, growing and shrinking.
 *
 * Everything in and out is on the tick grid. Only cw-region.c includes geos_c.h. Every call makes and ends its own
 * engine context, so all of this is safe on any thread.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-point.h"

G_BEGIN_DECLS

typedef enum
{
  CW_OVERLAY_UNION,
  CW_OVERLAY_INTERSECTION,
  CW_OVERLAY_DIFFERENCE
} CwOverlay;

/* A straight edge with the caller's tag (any bit set), for noding. */
typedef struct
{
  CwPoint a, b;
  guint64 tag;
} CwEdge;

/* Regions and polygons own their rings. */
void cw_ring_clear (CwRing *ring);
void cw_polygon_clear (CwPolygon *polygon);
CwPolygon cw_polygon_copy (const CwPolygon *polygon);
void cw_region_clear (CwRegion *region);
CwRegion cw_region_copy (const CwRegion *region);
CwRegion cw_region_from_polygon (const CwPolygon *polygon);

gint64 cw_ring_area2 (const CwRing *ring);
gint64 cw_polygon_area2 (const CwPolygon *polygon);
gint64 cw_region_area2 (const CwRegion *region);
CwPoint cw_polygon_inside_point (const CwPolygon *polygon);
gboolean cw_polygon_contains (const CwPolygon *polygon, double x, double y);

CwRegion cw_region_overlay (const CwRegion *a, const CwRegion *b, CwOverlay what);
CwRegion cw_region_grow (const CwRegion *region, gint32 by_ticks); /* negative shrinks; corners mitred */

/* Nodes edges (GArray of CwEdge) at every crossing and touching on the tick grid, and merges edges that fall together
 * (their tags are or-ed). Returns: (transfer full) GArray of CwEdge. */
GArray *cw_edges_node (const GArray *edges);

/* Faces of a noded set of edges; edges that bound no face or the same face on both sides are left out of the rings.
 * Returns: (transfer full) GArray of CwPolygon. */
GArray *cw_edges_faces (const GArray *noded);

G_END_DECLS
