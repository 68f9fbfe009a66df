/* cw-polygon.h: what can be asked of a ring, a polygon or a region by exact arithmetic alone.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-point.h"

G_BEGIN_DECLS

/* Regions and polygons own their rings. */
void cw_ring_clear (CwRing *ring);
void cw_polygon_clear (CwPolygon *polygon);
CwPolygon cw_polygon_copy (const CwPolygon *polygon);
void cw_region_clear (CwRegion *region);
CwRegion cw_region_copy (const CwRegion *region);
CwRegion cw_region_from_polygon (const CwPolygon *polygon);
CwPolygon cw_polygon_from_points (const GArray *points);

gint64 cw_ring_area2 (const CwRing *ring);
gint64 cw_polygon_area2 (const CwPolygon *polygon);
gint64 cw_region_area2 (const CwRegion *region);
void cw_polygon_bounds (const CwPolygon *polygon, CwPoint *box_min, CwPoint *box_max);
int cw_polygon_compare (const CwPolygon *a, const CwPolygon *b);
void cw_polygon_arrange (CwPolygon *polygon);
void cw_polygon_tidy (CwPolygon *polygon);
CwPoint cw_polygon_inside_point (const CwPolygon *polygon);
GArray *cw_polygon_find_stretches (const CwPolygon *polygon, gboolean upright, gint32 at);
gboolean cw_polygon_contains (const CwPolygon *polygon, double x, double y);
double cw_polygon_distance (const CwPolygon *polygon, double x, double y);
double cw_segment_distance (CwPoint a, CwPoint b, double x, double y);

G_END_DECLS
