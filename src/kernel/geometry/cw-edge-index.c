/* cw-edge-index.c: the edges near a place, by the polygon engine's packed tree of boxes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-edge-index.h"

static GEOSGeometry *
box_new (GEOSContextHandle_t engine, CwPoint a, CwPoint b, double room)
{
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (engine, 2, 2);

  /* Its diagonal has the same box. */
  GEOSCoordSeq_setXY_r (engine, sequence, 0, MIN (a.x, b.x) - room, MIN (a.y, b.y) - room);
  GEOSCoordSeq_setXY_r (engine, sequence, 1, MAX (a.x, b.x) + room, MAX (a.y, b.y) + room);
  return GEOSGeom_createLineString_r (engine, sequence);
}

/**
 * cw_edge_index_init:
 * @index: (out caller-allocates): cleared by cw_edge_index_clear()
 * @engine: an engine that lives as long
 * @edges: (element-type CwEdge): what to find
 */
void
cw_edge_index_init (CwEdgeIndex *index, GEOSContextHandle_t engine, const GArray *edges)
{
  index->engine = engine;
  index->tree = GEOSSTRtree_create_r (engine, 10);
  index->boxes = g_ptr_array_new ();
  index->found = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < edges->len; i++)
    {
      const CwEdge *edge = &g_array_index (edges, CwEdge, i);
      GEOSGeometry *box = box_new (engine, edge->a, edge->b, 0);

      g_ptr_array_add (index->boxes, box);
      GEOSSTRtree_insert_r (engine, index->tree, box, GUINT_TO_POINTER (i + 1));
    }
}

/**
 * cw_edge_index_clear:
 * @index: an index
 */
void
cw_edge_index_clear (CwEdgeIndex *index)
{
  GEOSSTRtree_destroy_r (index->engine, index->tree);
  for (guint i = 0; i < index->boxes->len; i++)
    cw_engine_destroy (index->engine, index->boxes->pdata[i]);
  g_ptr_array_free (index->boxes, TRUE);
  g_array_free (index->found, TRUE);
}

static void
take_found (void *item, void *found)
{
  guint i = GPOINTER_TO_UINT (item) - 1;

  g_array_append_val ((GArray *) found, i);
}

static int
compare_numbers (const void *a, const void *b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return x < y ? -1 : x > y;
}

/**
 * cw_edge_index_query:
 * @index: an index
 * @a: one corner of a box, ticks
 * @b: the opposite one
 * @room: by how much the box is larger on all sides, ticks
 *
 * Returns: (transfer none) (element-type guint): the edges whose boxes meet it, in their order; good until the next
 * query
 */
const GArray *
cw_edge_index_query (CwEdgeIndex *index, CwPoint a, CwPoint b, double room)
{
  GEOSGeometry *box = box_new (index->engine, a, b, room);

  g_array_set_size (index->found, 0);
  if (index->boxes->len > 0)
    GEOSSTRtree_query_r (index->engine, index->tree, box, take_found, index->found);
  cw_engine_destroy (index->engine, box);
  g_array_sort (index->found, compare_numbers);
  return index->found;
}
