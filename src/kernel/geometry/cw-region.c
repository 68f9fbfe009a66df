/* cw-region.c: regions of paper laid over one another, grown and opened.
 *
 * Method: GEOS through its reentrant C API, one context for each call, overlay by snap rounding on a grid of one tick
 * (Hobby, "Practical segment intersection with finite precision output", Computational Geometry 13, 1999, as the
 * engine's documentation names it). Where all edges run along the axes, as on most cards, crossings are whole ticks
 * anyway: then the engine need not snap, for which it asks the operating system for random numbers with every line.
 * What comes out is rounded to ticks, put into standard form and dropped when it has no area. Refuses nothing: rings
 * that cross themselves are mended by even-odd before an overlay; should the engine fail nevertheless, the answer is
 * empty.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-region.h"

#include "geometry/cw-engine.h"
#include "geometry/cw-tolerance.h"

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
                           GEOSGeom_createLinearRing_r (engine, cw_engine_points (engine, polygon->rings[r].points,
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

/* Whether every edge runs along an axis. */
static gboolean
is_upright (const CwPolygon *polygons, guint n_polygons)
{
  for (guint i = 0; i < n_polygons; i++)
    for (guint r = 0; r < polygons[i].n_rings; r++)
      {
        const CwRing *ring = &polygons[i].rings[r];

        for (guint k = 0; k < ring->n_points; k++)
          {
            CwPoint a = ring->points[k], b = ring->points[(k + 1) % ring->n_points];

            if (a.x != b.x && a.y != b.y)
              return FALSE;
          }
      }
  return TRUE;
}

/* Takes @geometry. */
static CwRegion
region_from_engine (GEOSContextHandle_t engine, GEOSGeometry *geometry)
{
  CwRegion region = { 0 };
  GArray *polygons = cw_engine_take_polygons (engine, geometry, cw_polygon_tidy);

  region.n_polygons = polygons->len;
  region.polygons = (CwPolygon *) (void *) g_array_free (polygons, FALSE);
  cw_engine_destroy (engine, geometry);
  return region;
}

/* Rounds to ticks so that the result is still valid. Takes @geometry. */
static GEOSGeometry *
to_ticks (GEOSContextHandle_t engine, GEOSGeometry *geometry)
{
  GEOSGeometry *rounded = geometry == NULL ? NULL : GEOSGeom_setPrecision_r (engine, geometry, 1.0, 0);

  cw_engine_destroy (engine, geometry);
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
  gboolean upright;

  g_return_val_if_fail (a != NULL && b != NULL, region);

  upright = is_upright (a->polygons, a->n_polygons) && is_upright (b->polygons, b->n_polygons);

  engine = GEOS_init_r ();
  one = region_to_engine (engine, a);
  two = region_to_engine (engine, b);
  if (one != NULL && two != NULL)
    switch (what)
      {
      case CW_OVERLAY_UNION:
        result = upright ? GEOSUnion_r (engine, one, two) : GEOSUnionPrec_r (engine, one, two, 1.0);
        break;
      case CW_OVERLAY_INTERSECTION:
        result = upright ? GEOSIntersection_r (engine, one, two) : GEOSIntersectionPrec_r (engine, one, two, 1.0);
        break;
      case CW_OVERLAY_DIFFERENCE:
        result = upright ? GEOSDifference_r (engine, one, two) : GEOSDifferencePrec_r (engine, one, two, 1.0);
        break;
      default:
        g_assert_not_reached ();
      }
  region = region_from_engine (engine, result);
  cw_engine_destroy (engine, one);
  cw_engine_destroy (engine, two);
  GEOS_finish_r (engine);
  return region;
}

/**
 * cw_region_join:
 * @polygons: (array length=n_polygons): polygons that may touch or overlap
 * @n_polygons: how many
 *
 * Returns: (transfer full): all of them as one region on the tick grid
 */
CwRegion
cw_region_join (const CwPolygon *polygons, guint n_polygons)
{
  GEOSContextHandle_t engine;
  GEOSGeometry *all;
  g_autofree GEOSGeometry **parts = g_new (GEOSGeometry *, n_polygons + 1);
  CwRegion region = { 0 };
  guint n = 0;

  g_return_val_if_fail (polygons != NULL || n_polygons == 0, region);

  if (n_polygons == 1)
    return cw_region_from_polygon (polygons);
  engine = GEOS_init_r ();
  for (guint i = 0; i < n_polygons; i++)
    {
      CwRegion own = { 1, (CwPolygon *) &polygons[i] };

      parts[n] = region_to_engine (engine, &own);
      n += parts[n] != NULL ? 1 : 0;
    }
  all = GEOSGeom_createCollection_r (engine, GEOS_GEOMETRYCOLLECTION, parts, n);
  if (all != NULL)
    region = region_from_engine (engine, is_upright (polygons, n_polygons) ? GEOSUnaryUnion_r (engine, all)
                                                                           : GEOSUnaryUnionPrec_r (engine, all, 1.0));
  cw_engine_destroy (engine, all);
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
  cw_engine_destroy (engine, from);
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
  cw_engine_destroy (engine, less);
  cw_engine_destroy (engine, from);
  GEOS_finish_r (engine);
  return opened;
}
