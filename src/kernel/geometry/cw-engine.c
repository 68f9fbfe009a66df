/* cw-engine.c: values of the kernel to and from the polygon engine.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-engine.h"

#include <math.h>

/**
 * cw_engine_destroy:
 * @engine: an engine
 * @geometry: (transfer full) (nullable): a value of it
 */
void
cw_engine_destroy (GEOSContextHandle_t engine, GEOSGeometry *geometry)
{
  if (geometry != NULL)
    GEOSGeom_destroy_r (engine, geometry);
}

/**
 * cw_engine_points:
 * @engine: an engine
 * @points: (array length=n_points): ticks
 * @n_points: how many
 * @closed: whether the first point comes again at the end
 *
 * Returns: (transfer full): the points as the engine keeps them
 */
GEOSCoordSequence *
cw_engine_points (GEOSContextHandle_t engine, const CwPoint *points, guint n_points, gboolean closed)
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

/**
 * cw_engine_line:
 * @engine: an engine
 * @a: one end, ticks
 * @b: the other
 *
 * Returns: (transfer full): the straight line between them
 */
GEOSGeometry *
cw_engine_line (GEOSContextHandle_t engine, CwPoint a, CwPoint b)
{
  CwPoint ends[2] = { a, b };

  return GEOSGeom_createLineString_r (engine, cw_engine_points (engine, ends, 2, FALSE));
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

/**
 * cw_engine_take_polygons:
 * @engine: an engine
 * @geometry: (nullable): polygons, alone or in collections
 * @put_in_order: brings a polygon into standard form; one left without rings is dropped
 *
 * Returns: (transfer full) (element-type CwPolygon): the polygons, rounded to ticks, in reading order; without a clear
 * function
 */
GArray *
cw_engine_take_polygons (GEOSContextHandle_t engine, const GEOSGeometry *geometry, void (*put_in_order) (CwPolygon *))
{
  GArray *polygons = g_array_new (FALSE, FALSE, sizeof (CwPolygon));

  append_polygons (engine, geometry, put_in_order, polygons);
  g_array_sort (polygons, compare_polygons);
  return polygons;
}
