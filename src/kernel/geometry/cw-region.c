/* cw-region.c: the one file that speaks to the polygon engine.
 *
 * Method: GEOS through its reentrant C API, one context for each call, overlay and noding by snap rounding on a grid of
 * one tick (Hobby, "Practical segment intersection with finite precision output", Computational Geometry 13, 1999, as
 * the engine's documentation names it). Snap rounding knows only half a tick; that an end within one tick of a line
 * lies on it (model) is done here before noding, and which edge came from which line is found here after it.
 * What comes out is rounded to ticks, put into standard form and dropped when it has no area. Refuses nothing: rings
 * that cross themselves are mended by even-odd before an overlay; should the engine fail nevertheless, the answer is
 * empty.
 * Over 500 lines because the engine's types may not leave this one file.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#define GEOS_USE_ONLY_R_API 1

#include "geometry/cw-region.h"

#include "geometry/cw-tolerance.h"

#include <geos_c.h>
#include <math.h>
#include <string.h>

static void
destroy (GEOSContextHandle_t engine, GEOSGeometry *geometry)
{
  if (geometry != NULL)
    GEOSGeom_destroy_r (engine, geometry);
}

/* --- Values in and out ------------------------------------------------------------------------------------------- */

static GEOSCoordSequence *
sequence_new (GEOSContextHandle_t engine, const CwPoint *points, guint n_points, gboolean closed)
{
  guint n = n_points + (closed ? 1 : 0);
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (engine, n, 2);

  for (guint i = 0; i < n; i++)
    {
      CwPoint p = points[i < n_points ? i : 0];

      GEOSCoordSeq_setXY_r (engine, sequence, i, p.x, p.y);
    }
  return sequence;
}

static GEOSGeometry *
line_new (GEOSContextHandle_t engine, CwPoint a, CwPoint b)
{
  CwPoint ends[2] = { a, b };

  return GEOSGeom_createLineString_r (engine, sequence_new (engine, ends, 2, FALSE));
}

/* A stride through n things that visits all and spreads them evenly: about n by the golden ratio, without a common
 * divisor. The engine's search trees do not balance themselves and become lists when lines come in order. */
static guint
even_stride (guint n)
{
  guint stride = MAX ((guint) (n * 0.6180339887), 1);

  for (;; stride++)
    {
      guint a = stride, b = n;

      while (b != 0)
        {
          guint rest = a % b;

          a = b;
          b = rest;
        }
      if (a == 1)
        return stride;
    }
}

static GEOSGeometry *
lines_new (GEOSContextHandle_t engine, const GArray *edges)
{
  guint stride = even_stride (MAX (edges->len, 1));
  GPtrArray *lines = g_ptr_array_new ();
  GEOSGeometry *all;

  for (guint i = 0; i < edges->len; i++)
    {
      guint k = (guint) ((guint64) i * stride % edges->len);
      const CwEdge *edge = &g_array_index (edges, CwEdge, k);

      if (!cw_point_equal (edge->a, edge->b))
        g_ptr_array_add (lines, line_new (engine, edge->a, edge->b));
    }
  all = GEOSGeom_createCollection_r (engine, GEOS_MULTILINESTRING, (GEOSGeometry **) lines->pdata, lines->len);
  g_ptr_array_free (lines, TRUE);
  return all;
}

/* A valid multipolygon: rings that cross themselves become their even-odd inside. */
static GEOSGeometry *
region_to_engine (GEOSContextHandle_t engine, const CwRegion *region)
{
  GPtrArray *polygons = g_ptr_array_new ();
  GEOSGeometry *all;

  for (guint i = 0; i < region->n_polygons; i++)
    {
      const CwPolygon *polygon = &region->polygons[i];
      GPtrArray *rings = g_ptr_array_new ();

      for (guint r = 0; r < polygon->n_rings; r++)
        if (polygon->rings[r].n_points >= 3)
          g_ptr_array_add (rings,
                           GEOSGeom_createLinearRing_r (engine, sequence_new (engine, polygon->rings[r].points,
                                                                              polygon->rings[r].n_points, TRUE)));
      if (rings->len > 0)
        g_ptr_array_add (polygons, GEOSGeom_createPolygon_r (engine, rings->pdata[0],
                                                             (GEOSGeometry **) rings->pdata + 1, rings->len - 1));
      g_ptr_array_free (rings, TRUE);
    }
  all = GEOSGeom_createCollection_r (engine, GEOS_MULTIPOLYGON, (GEOSGeometry **) polygons->pdata, polygons->len);
  g_ptr_array_free (polygons, TRUE);
  if (all != NULL && GEOSisValid_r (engine, all) != 1)
    {
      GEOSGeometry *valid = GEOSMakeValid_r (engine, all);

      GEOSGeom_destroy_r (engine, all);
      all = valid;
    }
  return all;
}

static CwRing
ring_from_engine (GEOSContextHandle_t engine, const GEOSGeometry *geometry)
{
  const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r (engine, geometry);
  CwRing ring = { 0 };
  guint n = 0;

  if (sequence == NULL || GEOSCoordSeq_getSize_r (engine, sequence, &n) != 1 || n < 4)
    return ring;
  ring.points = g_new (CwPoint, n - 1);
  ring.n_points = n - 1;
  for (guint i = 0; i + 1 < n; i++)
    {
      double x = 0, y = 0;

      GEOSCoordSeq_getXY_r (engine, sequence, i, &x, &y);
      ring.points[i] = cw_point ((gint32) lround (x), (gint32) lround (y));
    }
  return ring;
}

static void
append_polygons (GEOSContextHandle_t engine, const GEOSGeometry *geometry, void (*put_in_order) (CwPolygon *),
                 GArray *polygons)
{
  if (geometry == NULL)
    return;
  if (GEOSGeomTypeId_r (engine, geometry) == GEOS_POLYGON)
    {
      int n_holes = GEOSGetNumInteriorRings_r (engine, geometry);
      CwPolygon polygon = { 0 };

      if (GEOSisEmpty_r (engine, geometry) != 0)
        return;
      polygon.n_rings = 1 + (guint) MAX (n_holes, 0);
      polygon.rings = g_new0 (CwRing, polygon.n_rings);
      polygon.rings[0] = ring_from_engine (engine, GEOSGetExteriorRing_r (engine, geometry));
      for (guint r = 1; r < polygon.n_rings; r++)
        polygon.rings[r] = ring_from_engine (engine, GEOSGetInteriorRingN_r (engine, geometry, (int) r - 1));
      put_in_order (&polygon);
      if (polygon.n_rings > 0)
        g_array_append_val (polygons, polygon);
      else
        cw_polygon_clear (&polygon);
    }
  else if (GEOSGeomTypeId_r (engine, geometry) >= GEOS_MULTIPOINT)
    for (int i = 0, n = GEOSGetNumGeometries_r (engine, geometry); i < n; i++)
      append_polygons (engine, GEOSGetGeometryN_r (engine, geometry, i), put_in_order, polygons);
}

static int
compare_polygons (const void *a, const void *b)
{
  return cw_polygon_compare (a, b);
}

/* Takes @geometry. */
static CwRegion
region_from_engine (GEOSContextHandle_t engine, GEOSGeometry *geometry)
{
  CwRegion region = { 0 };
  GArray *polygons = g_array_new (FALSE, FALSE, sizeof (CwPolygon));

  append_polygons (engine, geometry, cw_polygon_tidy, polygons);
  g_array_sort (polygons, compare_polygons);
  region.n_polygons = polygons->len;
  region.polygons = (CwPolygon *) (void *) g_array_free (polygons, FALSE);
  destroy (engine, geometry);
  return region;
}

/* Rounds to ticks so that the result is still valid. Takes @geometry. */
static GEOSGeometry *
to_ticks (GEOSContextHandle_t engine, GEOSGeometry *geometry)
{
  GEOSGeometry *rounded = geometry == NULL ? NULL : GEOSGeom_setPrecision_r (engine, geometry, 1.0, 0);

  destroy (engine, geometry);
  return rounded;
}

static GEOSGeometry *
buffer (GEOSContextHandle_t engine, const GEOSGeometry *geometry, double by, double mitre)
{
  GEOSBufferParams *params = GEOSBufferParams_create_r (engine);
  GEOSGeometry *grown;

  GEOSBufferParams_setJoinStyle_r (engine, params, GEOSBUF_JOIN_MITRE);
  GEOSBufferParams_setMitreLimit_r (engine, params, mitre);
  GEOSBufferParams_setEndCapStyle_r (engine, params, GEOSBUF_CAP_SQUARE);
  grown = geometry == NULL ? NULL : GEOSBufferWithParams_r (engine, geometry, params, by);
  GEOSBufferParams_destroy_r (engine, params);
  return grown;
}

/* --- Regions ----------------------------------------------------------------------------------------------------- */

/**
 * cw_region_overlay:
 * @a: a region
 * @b: a region
 * @what: union, common part, or @a without @b
 *
 * Returns: (transfer full): the result on the tick grid, its polygons in reading order
 */
CwRegion
cw_region_overlay (const CwRegion *a, const CwRegion *b, CwOverlay what)
{
  GEOSContextHandle_t engine;
  GEOSGeometry *one, *two, *result = NULL;
  CwRegion region = { 0 };

  g_return_val_if_fail (a != NULL && b != NULL, region);

  engine = GEOS_init_r ();
  one = region_to_engine (engine, a);
  two = region_to_engine (engine, b);
  if (one != NULL && two != NULL)
    switch (what)
      {
      case CW_OVERLAY_UNION:
        result = GEOSUnionPrec_r (engine, one, two, 1.0);
        break;
      case CW_OVERLAY_INTERSECTION:
        result = GEOSIntersectionPrec_r (engine, one, two, 1.0);
        break;
      case CW_OVERLAY_DIFFERENCE:
        result = GEOSDifferencePrec_r (engine, one, two, 1.0);
        break;
      default:
        g_assert_not_reached ();
      }
  region = region_from_engine (engine, result);
  destroy (engine, one);
  destroy (engine, two);
  GEOS_finish_r (engine);
  return region;
}

/**
 * cw_region_grow:
 * @region: a region
 * @by_ticks: how far every edge moves outward; negative shrinks
 *
 * Returns: (transfer full): the grown region on the tick grid; corners are mitred up to five times the distance
 */
CwRegion
cw_region_grow (const CwRegion *region, gint32 by_ticks)
{
  GEOSContextHandle_t engine;
  GEOSGeometry *from;
  CwRegion grown = { 0 };

  g_return_val_if_fail (region != NULL, grown);

  if (by_ticks == 0)
    return cw_region_copy (region);
  engine = GEOS_init_r ();
  from = region_to_engine (engine, region);
  grown = region_from_engine (engine, to_ticks (engine, buffer (engine, from, by_ticks, 5.0)));
  destroy (engine, from);
  GEOS_finish_r (engine);
  return grown;
}

/**
 * cw_region_open:
 * @region: a region
 * @by_ticks: half the narrowest width that is kept
 *
 * Shrinks and grows again (morphological opening), with mitres so long that every corner but the sharpest comes back
 * whole (%CW_TOL_OPEN_MITRE): what is then missing of @region is narrower than twice @by_ticks.
 *
 * Returns: (transfer full): the opened region on the tick grid
 */
CwRegion
cw_region_open (const CwRegion *region, gint32 by_ticks)
{
  GEOSContextHandle_t engine;
  GEOSGeometry *from, *less;
  CwRegion opened = { 0 };

  g_return_val_if_fail (region != NULL && by_ticks > 0, opened);

  engine = GEOS_init_r ();
  from = region_to_engine (engine, region);
  less = buffer (engine, from, -by_ticks, CW_TOL_OPEN_MITRE);
  opened = region_from_engine (engine, to_ticks (engine, buffer (engine, less, by_ticks, CW_TOL_OPEN_MITRE)));
  destroy (engine, less);
  destroy (engine, from);
  GEOS_finish_r (engine);
  return opened;
}

/* --- Noding ------------------------------------------------------------------------------------------------------ */

/* Finds, for a box, the edges whose boxes it meets. */
typedef struct
{
  GEOSContextHandle_t engine;
  GEOSSTRtree *tree;
  GPtrArray *boxes; /* of GEOSGeometry, owned */
  GArray *found;    /* of guint */
} EdgeIndex;

static GEOSGeometry *
box_new (GEOSContextHandle_t engine, CwPoint a, CwPoint b, double room)
{
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (engine, 2, 2);

  /* Its diagonal has the same box. */
  GEOSCoordSeq_setXY_r (engine, sequence, 0, MIN (a.x, b.x) - room, MIN (a.y, b.y) - room);
  GEOSCoordSeq_setXY_r (engine, sequence, 1, MAX (a.x, b.x) + room, MAX (a.y, b.y) + room);
  return GEOSGeom_createLineString_r (engine, sequence);
}

static void
edge_index_init (EdgeIndex *index, GEOSContextHandle_t engine, const GArray *edges)
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

static void
edge_index_clear (EdgeIndex *index)
{
  GEOSSTRtree_destroy_r (index->engine, index->tree);
  for (guint i = 0; i < index->boxes->len; i++)
    destroy (index->engine, index->boxes->pdata[i]);
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

static const GArray *
edge_index_query (EdgeIndex *index, CwPoint a, CwPoint b, double room)
{
  GEOSGeometry *box = box_new (index->engine, a, b, room);

  g_array_set_size (index->found, 0);
  if (index->boxes->len > 0)
    GEOSSTRtree_query_r (index->engine, index->tree, box, take_found, index->found);
  destroy (index->engine, box);
  g_array_sort (index->found, compare_numbers);
  return index->found;
}

static gboolean
within (double distance, double tolerance)
{
  return distance <= tolerance;
}

static guint
point_hash (const void *key)
{
  const CwPoint *p = key;

  return (guint) p->x * 2654435761u ^ (guint) p->y * 40503u;
}

static gboolean
point_equal (const void *a, const void *b)
{
  return cw_point_equal (*(const CwPoint *) a, *(const CwPoint *) b);
}

/* Ends within one tick of an end that was there before are put there: the first listed stays. */
static void
join_ends (GArray *edges)
{
  GHashTable *kept = g_hash_table_new_full (point_hash, point_equal, g_free, NULL); /* only looked up, never walked */
  static const CwPoint steps[5] = { { 0, 0 }, { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };

  for (guint i = 0; i < 2 * edges->len; i++)
    {
      CwEdge *edge = &g_array_index (edges, CwEdge, i / 2);
      CwPoint *end = i % 2 == 0 ? &edge->a : &edge->b;
      gboolean found = FALSE;

      for (guint k = 0; k < G_N_ELEMENTS (steps) && !found; k++)
        {
          CwPoint p = cw_point (end->x + steps[k].x, end->y + steps[k].y);

          found = g_hash_table_contains (kept, &p);
          if (found)
            *end = p;
        }
      if (!found)
        g_hash_table_add (kept, g_memdup2 (end, sizeof *end));
    }
  g_hash_table_destroy (kept);
}

typedef struct
{
  guint edge;
  double along; /* share of the edge's length, times the length */
  CwPoint at;
} Bend;

static int
compare_bends (const void *one, const void *two)
{
  const Bend *a = one, *b = two;

  if (a->edge != b->edge)
    return a->edge < b->edge ? -1 : 1;
  return a->along < b->along ? -1 : a->along > b->along;
}

/* Splits every edge at the ends of others that lie within one tick of it. @sources gets, for every part, the edge it
 * came from. */
static GArray *
bend_to_ends (GEOSContextHandle_t engine, const GArray *edges, GArray *sources)
{
  GArray *bends = g_array_new (FALSE, FALSE, sizeof (Bend));
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (CwEdge));
  EdgeIndex index;

  edge_index_init (&index, engine, edges);
  for (guint i = 0; i < 2 * edges->len; i++)
    {
      const CwEdge *edge = &g_array_index (edges, CwEdge, i / 2);
      CwPoint end = i % 2 == 0 ? edge->a : edge->b;
      const GArray *near_by = edge_index_query (&index, end, end, CW_TOL_MEETS_TICKS);

      for (guint k = 0; k < near_by->len; k++)
        {
          guint other = g_array_index (near_by, guint, k);
          const CwEdge *e = &g_array_index (edges, CwEdge, other);

          if (!cw_point_equal (end, e->a) && !cw_point_equal (end, e->b)
              && within (cw_segment_distance (e->a, e->b, end.x, end.y), CW_TOL_MEETS_TICKS))
            {
              double along = ((double) end.x - e->a.x) * ((double) e->b.x - e->a.x)
                             + ((double) end.y - e->a.y) * ((double) e->b.y - e->a.y);
              Bend bend = { other, along, end };

              g_array_append_val (bends, bend);
            }
        }
    }
  edge_index_clear (&index);
  g_array_sort (bends, compare_bends);
  for (guint i = 0, k = 0; i < edges->len; i++)
    {
      CwEdge part = g_array_index (edges, CwEdge, i);
      CwPoint last = part.b;

      for (; k <= bends->len; k++)
        {
          gboolean more = k < bends->len && g_array_index (bends, Bend, k).edge == i;

          part.b = more ? g_array_index (bends, Bend, k).at : last;
          if (!cw_point_equal (part.a, part.b))
            {
              g_array_append_val (parts, part);
              g_array_append_val (sources, i);
            }
          part.a = part.b;
          if (!more)
            break;
        }
    }
  g_array_free (bends, TRUE);
  return parts;
}

static int
compare_edges (const void *one, const void *two)
{
  const CwEdge *a = one, *b = two;
  gint32 x[4] = { a->a.x, a->a.y, a->b.x, a->b.y }, y[4] = { b->a.x, b->a.y, b->b.x, b->b.y };

  for (int i = 0; i < 4; i++)
    if (x[i] != y[i])
      return x[i] < y[i] ? -1 : 1;
  return 0;
}

/* All straight pieces of what the engine gave back, each from its smaller end, sorted, without repeats. */
static GArray *
edges_from_engine (GEOSContextHandle_t engine, const GEOSGeometry *lines)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (CwEdge));
  guint n = 0;

  for (int g = 0, count = lines == NULL ? 0 : GEOSGetNumGeometries_r (engine, lines); g < count; g++)
    {
      const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r (engine, GEOSGetGeometryN_r (engine, lines, g));
      guint size = 0;
      CwEdge edge = { 0 };

      if (sequence != NULL)
        GEOSCoordSeq_getSize_r (engine, sequence, &size);
      for (guint i = 0; i < size; i++)
        {
          double x = 0, y = 0;
          CwPoint p;

          GEOSCoordSeq_getXY_r (engine, sequence, i, &x, &y);
          p = cw_point ((gint32) lround (x), (gint32) lround (y));
          if (i > 0 && !cw_point_equal (edge.b, p))
            {
              CwEdge part = { edge.b, p, 0 };

              if (part.b.x < part.a.x || (part.b.x == part.a.x && part.b.y < part.a.y))
                part = (CwEdge){ p, edge.b, 0 };
              g_array_append_val (all, part);
            }
          edge.b = p;
        }
    }
  g_array_sort (all, compare_edges);
  for (guint i = 0; i < all->len; i++)
    {
      CwEdge *edge = &g_array_index (all, CwEdge, i);

      if (n == 0 || compare_edges (edge, &g_array_index (all, CwEdge, n - 1)) != 0)
        g_array_index (all, CwEdge, n++) = *edge;
    }
  g_array_set_size (all, n);
  return all;
}

/* Tells every noded edge which parts run along it; a part may come twice from one source. */
static GArray *
find_links (GEOSContextHandle_t engine, GArray *noded, const GArray *parts, const GArray *sources)
{
  GArray *links = g_array_new (FALSE, FALSE, sizeof (CwEdgeLink));
  EdgeIndex index;

  edge_index_init (&index, engine, parts);
  for (guint i = 0; i < noded->len; i++)
    {
      CwEdge *edge = &g_array_index (noded, CwEdge, i);
      CwPoint middle
        = cw_point ((gint32) (((gint64) edge->a.x + edge->b.x) / 2), (gint32) (((gint64) edge->a.y + edge->b.y) / 2));
      const GArray *near_by = edge_index_query (&index, middle, middle, 2 * CW_TOL_MEETS_TICKS);
      guint first = links->len;

      for (guint k = 0; k < near_by->len; k++)
        {
          guint part = g_array_index (near_by, guint, k);
          const CwEdge *p = &g_array_index (parts, CwEdge, part);
          CwEdgeLink link = { i, g_array_index (sources, guint, part) };

          if (!within (cw_segment_distance (p->a, p->b, edge->a.x, edge->a.y), CW_TOL_NODED_TICKS)
              || !within (cw_segment_distance (p->a, p->b, edge->b.x, edge->b.y), CW_TOL_NODED_TICKS))
            continue;
          edge->tag |= p->tag;
          /* Parts of one source follow one another in the sorted answer. */
          if (links->len == first || g_array_index (links, CwEdgeLink, links->len - 1).source != link.source)
            g_array_append_val (links, link);
        }
    }
  edge_index_clear (&index);
  return links;
}

/**
 * cw_edges_node:
 * @edges: (element-type CwEdge): straight edges in any order; those without length are passed over
 * @links: (out) (optional) (transfer full) (element-type CwEdgeLink): which result came from which of @edges
 *
 * Cuts edges where they cross, touch or come within one tick of one another's ends. Edges move by at most one tick for
 * that; crossings are rounded to ticks.
 *
 * Returns: (transfer full) (element-type CwEdge): edges that meet only at their ends, each from its left (then upper)
 *   end, sorted, with or-ed tags
 */
GArray *
cw_edges_node (const GArray *edges, GArray **links)
{
  GEOSContextHandle_t engine;
  GEOSGeometry *lines, *merged;
  GArray *moved, *parts, *sources, *noded, *found;

  g_return_val_if_fail (edges != NULL, NULL);

  engine = GEOS_init_r ();
  moved = g_array_copy ((GArray *) edges);
  join_ends (moved);
  sources = g_array_new (FALSE, FALSE, sizeof (guint));
  parts = bend_to_ends (engine, moved, sources);
  lines = lines_new (engine, parts);
  merged = lines == NULL ? NULL : GEOSUnaryUnionPrec_r (engine, lines, 1.0);
  noded = edges_from_engine (engine, merged);
  found = find_links (engine, noded, parts, sources);
  destroy (engine, merged);
  destroy (engine, lines);
  GEOS_finish_r (engine);
  g_array_free (parts, TRUE);
  g_array_free (sources, TRUE);
  g_array_free (moved, TRUE);
  if (links != NULL)
    *links = found;
  else
    g_array_free (found, TRUE);
  return noded;
}

/**
 * cw_edges_faces:
 * @noded: (element-type CwEdge): edges that meet only at their ends
 *
 * Returns: (transfer full) (element-type CwPolygon): every bounded face, in reading order, with all corners where edges
 *   meet; free the polygons by cw_polygon_clear(), which is set as the array's clear function
 */
GArray *
cw_edges_faces (const GArray *noded)
{
  GEOSContextHandle_t engine;
  GArray *faces;
  GPtrArray *lines;
  GEOSGeometry *result;

  g_return_val_if_fail (noded != NULL, NULL);

  engine = GEOS_init_r ();
  faces = g_array_new (FALSE, FALSE, sizeof (CwPolygon));
  lines = g_ptr_array_new ();
  for (guint i = 0; i < noded->len; i++)
    {
      const CwEdge *edge = &g_array_index (noded, CwEdge, i);

      g_ptr_array_add (lines, line_new (engine, edge->a, edge->b));
    }
  result = lines->len == 0 ? NULL : GEOSPolygonize_r (engine, (const GEOSGeometry *const *) lines->pdata, lines->len);
  append_polygons (engine, result, cw_polygon_arrange, faces); /* every node stays a corner */
  destroy (engine, result);
  for (guint i = 0; i < lines->len; i++)
    destroy (engine, lines->pdata[i]);
  g_ptr_array_free (lines, TRUE);
  GEOS_finish_r (engine);
  g_array_set_clear_func (faces, (GDestroyNotify) cw_polygon_clear);
  g_array_sort (faces, compare_polygons);
  return faces;
}
