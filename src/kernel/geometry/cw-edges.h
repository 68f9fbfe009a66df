/* cw-edges.h: straight edges cut where they meet, and the faces between them, on the tick grid.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-polygon.h"

G_BEGIN_DECLS

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

/* Nodes edges (GArray of CwEdge) at every crossing and touching on the tick grid, and merges edges that fall together
 * (their tags are or-ed). Returns: (transfer full) GArray of CwEdge; if asked for, links (GArray of CwEdgeLink) sorted
 * by noded edge, then source. */
GArray *cw_edges_node (const GArray *edges, GArray **links);

/* Faces of a noded set of edges; edges that bound no face or the same face on both sides are left out of the rings.
 * Returns: (transfer full) GArray of CwPolygon. */
GArray *cw_edges_faces (const GArray *noded);

G_END_DECLS
