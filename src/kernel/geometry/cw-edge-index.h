/* cw-edge-index.h: the edges near a place; for cw-edges.c only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "geometry/cw-edges.h"
#include "geometry/cw-engine.h"

G_BEGIN_DECLS

/* Finds, for a box, the edges whose boxes it meets. */
typedef struct
{
  GEOSContextHandle_t engine;
  GEOSSTRtree *tree;
  GPtrArray *boxes; /* of GEOSGeometry, owned */
  GArray *found;    /* of guint */
} CwEdgeIndex;

void cw_edge_index_init (CwEdgeIndex *index, GEOSContextHandle_t engine, const GArray *edges);
void cw_edge_index_clear (CwEdgeIndex *index);
const GArray *cw_edge_index_query (CwEdgeIndex *index, CwPoint a, CwPoint b, double room);

G_END_DECLS
