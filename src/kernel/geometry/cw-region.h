/* cw-region.h: the one door to the polygon engine (GEOS): overlay, noding, faces, growing and shrinking.
 *
 * Everything in and out is on the tick grid. Only cw-region.c includes geos_c.h. Every call makes and ends its own
 * engine context, so all of this is safe on any thread.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-polygon.h"

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

/* Which noded edge is a part of which edge that went in. */
typedef struct
{
  guint noded, source;
} CwEdgeLink;

CwRegion cw_region_overlay (const CwRegion *a, const CwRegion *b, CwOverlay what);
CwRegion cw_region_grow (const CwRegion *region, gint32 by_ticks); /* negative shrinks; corners mitred */
CwRegion cw_region_open (const CwRegion *region, gint32 by_ticks);

/* Nodes edges (GArray of CwEdge) at every crossing and touching on the tick grid, and merges edges that fall together
 * (their tags are or-ed). Returns: (transfer full) GArray of CwEdge; if asked for, links (GArray of CwEdgeLink) sorted
 * by noded edge, then source. */
GArray *cw_edges_node (const GArray *edges, GArray **links);

/* Faces of a noded set of edges; edges that bound no face or the same face on both sides are left out of the rings.
 * Returns: (transfer full) GArray of CwPolygon. */
GArray *cw_edges_faces (const GArray *noded);

G_END_DECLS
