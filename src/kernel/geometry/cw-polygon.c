/* cw-polygon.c: rings, polygons and regions as plain values: areas, order, inside points, distances.
 *
 * Areas are shoelace sums in 64-bit integers: with coordinates up to 60 inches each product is under 2^41 and a ring
 * would need 2^21 points to overflow. Inside tests count crossings of a ray (even-odd), so that rings that cross
 * themselves have an answer too. Nothing here speaks to the polygon engine.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-polygon.h"

#include <math.h>
#include <string.h>

/**
 * cw_ring_clear:
 * @ring: a ring; its points are freed and it is left empty
 */
void
cw_ring_clear (CwRing *ring)
{
  g_return_if_fail (ring != NULL);

  g_clear_pointer (&ring->points, g_free);
  ring->n_points = 0;
}

/**
 * cw_polygon_clear:
 * @polygon: a polygon; its rings are freed and it is left empty
 */
void
cw_polygon_clear (CwPolygon *polygon)
{
  g_return_if_fail (polygon != NULL);

  for (guint i = 0; i < polygon->n_rings; i++)
    cw_ring_clear (&polygon->rings[i]);
  g_clear_pointer (&polygon->rings, g_free);
  polygon->n_rings = 0;
}

/**
 * cw_polygon_copy:
 * @polygon: a polygon
 *
 * Returns: (transfer full): a copy with its own rings
 */
CwPolygon
cw_polygon_copy (const CwPolygon *polygon)
{
  CwPolygon copy = { 0 };

  g_return_val_if_fail (polygon != NULL, copy);

  copy.n_rings = polygon->n_rings;
  copy.rings = g_new0 (CwRing, polygon->n_rings);
  for (guint i = 0; i < polygon->n_rings; i++)
    {
      const CwRing *ring = &polygon->rings[i];

      copy.rings[i].n_points = ring->n_points;
      copy.rings[i].points = g_memdup2 (ring->points, ring->n_points * sizeof (CwPoint));
    }
  return copy;
}

/**
 * cw_polygon_from_points:
 * @points: (element-type CwPoint): a closed ring, the first point not repeated
 *
 * Returns: (transfer full): a polygon of that one ring as given, neither turned round nor tidied
 */
CwPolygon
cw_polygon_from_points (const GArray *points)
{
  CwPolygon polygon = { 0 };

  g_return_val_if_fail (points != NULL, polygon);

  polygon.n_rings = 1;
  polygon.rings = g_new0 (CwRing, 1);
  polygon.rings[0].n_points = points->len;
  polygon.rings[0].points = g_memdup2 (points->data, points->len * sizeof (CwPoint));
  return polygon;
}

/**
 * cw_region_clear:
 * @region: a region; its polygons are freed and it is left empty
 */
void
cw_region_clear (CwRegion *region)
{
  g_return_if_fail (region != NULL);

  for (guint i = 0; i < region->n_polygons; i++)
    cw_polygon_clear (&region->polygons[i]);
  g_clear_pointer (&region->polygons, g_free);
  region->n_polygons = 0;
}

/**
 * cw_region_copy:
 * @region: a region
 *
 * Returns: (transfer full): a copy with its own polygons
 */
CwRegion
cw_region_copy (const CwRegion *region)
{
  CwRegion copy = { 0 };

  g_return_val_if_fail (region != NULL, copy);

  copy.n_polygons = region->n_polygons;
  copy.polygons = g_new0 (CwPolygon, region->n_polygons);
  for (guint i = 0; i < region->n_polygons; i++)
    copy.polygons[i] = cw_polygon_copy (&region->polygons[i]);
  return copy;
}

/**
 * cw_region_from_polygon:
 * @polygon: a polygon
 *
 * Returns: (transfer full): a region of a copy of that polygon
 */
CwRegion
cw_region_from_polygon (const CwPolygon *polygon)
{
  CwRegion region = { 0 };

  g_return_val_if_fail (polygon != NULL, region);

  region.n_polygons = 1;
  region.polygons = g_new0 (CwPolygon, 1);
  region.polygons[0] = cw_polygon_copy (polygon);
  return region;
}

/**
 * cw_ring_area2:
 * @ring: a ring
 *
 * Returns: twice the signed area in square ticks, exact; positive when the ring runs clockwise as seen with y down
 */
gint64
cw_ring_area2 (const CwRing *ring)
{
  gint64 sum = 0;

  g_return_val_if_fail (ring != NULL, 0);

  for (guint i = 0; i < ring->n_points; i++)
    {
      CwPoint a = ring->points[i], b = ring->points[i + 1 < ring->n_points ? i + 1 : 0];

      sum += (gint64) a.x * b.y - (gint64) b.x * a.y;
    }
  return sum;
}

/**
 * cw_polygon_area2:
 * @polygon: a polygon
 *
 * Returns: twice the area without the holes, square ticks, exact
 */
gint64
cw_polygon_area2 (const CwPolygon *polygon)
{
  gint64 sum = 0;

  g_return_val_if_fail (polygon != NULL, 0);

  for (guint i = 0; i < polygon->n_rings; i++)
    sum += cw_ring_area2 (&polygon->rings[i]);
  return sum;
}

/**
 * cw_region_area2:
 * @region: a region
 *
 * Returns: twice the area of all its polygons, square ticks, exact
 */
gint64
cw_region_area2 (const CwRegion *region)
{
  gint64 sum = 0;

  g_return_val_if_fail (region != NULL, 0);

  for (guint i = 0; i < region->n_polygons; i++)
    sum += cw_polygon_area2 (&region->polygons[i]);
  return sum;
}

/**
 * cw_polygon_bounds:
 * @polygon: a polygon
 * @box_min: (out): its left top corner, ticks; (0, 0) when the polygon is empty
 * @box_max: (out): its right bottom corner, ticks
 */
void
cw_polygon_bounds (const CwPolygon *polygon, CwPoint *box_min, CwPoint *box_max)
{
  CwPoint low = { 0, 0 }, high = { 0, 0 };

  g_return_if_fail (polygon != NULL && box_min != NULL && box_max != NULL);

  for (guint i = 0; polygon->n_rings > 0 && i < polygon->rings[0].n_points; i++)
    {
      CwPoint p = polygon->rings[0].points[i];

      if (i == 0)
        low = high = p;
      low = cw_point (MIN (low.x, p.x), MIN (low.y, p.y));
      high = cw_point (MAX (high.x, p.x), MAX (high.y, p.y));
    }
  *box_min = low;
  *box_max = high;
}

static int
compare_rings (const void *one, const void *two)
{
  const CwRing *a = one, *b = two;

  for (guint i = 0; i < MIN (a->n_points, b->n_points); i++)
    {
      int order = cw_point_compare (a->points[i], b->points[i]);

      if (order != 0)
        return order;
    }
  return a->n_points < b->n_points ? -1 : a->n_points > b->n_points;
}

/**
 * cw_polygon_compare:
 * @a: a tidy polygon
 * @b: a tidy polygon
 *
 * Reading order: by the left edge of the box round them, then its top edge, then point by point.
 *
 * Returns: negative, 0 or positive as @a comes before, with or after @b
 */
int
cw_polygon_compare (const CwPolygon *a, const CwPolygon *b)
{
  CwPoint a_min, a_max, b_min, b_max;

  g_return_val_if_fail (a != NULL && b != NULL, 0);

  cw_polygon_bounds (a, &a_min, &a_max);
  cw_polygon_bounds (b, &b_min, &b_max);
  if (!cw_point_equal (a_min, b_min))
    return cw_point_compare (a_min, b_min);
  if (!cw_point_equal (a_max, b_max))
    return cw_point_compare (a_max, b_max);
  for (guint i = 0; i < MIN (a->n_rings, b->n_rings); i++)
    {
      int order = compare_rings (&a->rings[i], &b->rings[i]);

      if (order != 0)
        return order;
    }
  return a->n_rings < b->n_rings ? -1 : a->n_rings > b->n_rings;
}

/* Drops repeated points and points exactly in line between their neighbours, and turns spikes back. */
static void
drop_straight_points (CwRing *ring)
{
  gboolean again = TRUE;

  while (again && ring->n_points > 2)
    {
      guint n = 0, count = ring->n_points;

      again = FALSE;
      for (guint i = 0; i < count; i++)
        {
          CwPoint before = n > 0 ? ring->points[n - 1] : ring->points[count - 1];
          CwPoint here = ring->points[i];
          CwPoint after = i + 1 < count ? ring->points[i + 1] : ring->points[0];

          if (cw_point_equal (before, here) || cw_point_orient (before, here, after) == 0)
            again = TRUE;
          else
            ring->points[n++] = here;
        }
      ring->n_points = n;
    }
}

/* Turns the ring so that its area has the wanted sign, and starts it at its left-most (then top-most) point. */
static void
arrange_ring (CwRing *ring, gboolean positive)
{
  guint first = 0;
  g_autofree CwPoint *points = g_new (CwPoint, ring->n_points);
  gboolean turn = (cw_ring_area2 (ring) > 0) != positive;

  for (guint i = 1; i < ring->n_points; i++)
    if (cw_point_compare (ring->points[i], ring->points[first]) < 0)
      first = i;
  for (guint i = 0; i < ring->n_points; i++)
    points[i] = ring->points[(turn ? first + ring->n_points - i : first + i) % ring->n_points];
  memcpy (ring->points, points, ring->n_points * sizeof (CwPoint));
}

/**
 * cw_polygon_tidy:
 * @polygon: a polygon
 *
 * Puts a polygon into its one standard form: as cw_polygon_arrange(), and without points in line between their
 * neighbours.
 */
void
cw_polygon_tidy (CwPolygon *polygon)
{
  g_return_if_fail (polygon != NULL);

  for (guint i = 0; i < polygon->n_rings; i++)
    drop_straight_points (&polygon->rings[i]);
  cw_polygon_arrange (polygon);
}

/**
 * cw_polygon_arrange:
 * @polygon: a polygon
 *
 * Makes the outer ring positive and holes negative, starts each ring at its left-most (then top-most) point and puts
 * the holes in order. Rings without area are dropped; a polygon whose outer ring has none becomes empty.
 */
void
cw_polygon_arrange (CwPolygon *polygon)
{
  guint n = 0;

  g_return_if_fail (polygon != NULL);

  for (guint i = 0; i < polygon->n_rings; i++)
    {
      CwRing *ring = &polygon->rings[i];

      if (ring->n_points < 3 || cw_ring_area2 (ring) == 0)
        {
          cw_ring_clear (ring);
          if (i == 0)
            {
              cw_polygon_clear (polygon);
              return;
            }
          continue;
        }
      arrange_ring (ring, i == 0);
      polygon->rings[n++] = *ring;
    }
  polygon->n_rings = n;
  if (n > 2)
    qsort (polygon->rings + 1, n - 1, sizeof (CwRing), compare_rings);
}

/**
 * cw_polygon_contains:
 * @polygon: a polygon
 * @x: ticks
 * @y: ticks
 *
 * Even-odd over all rings. For a point on a ring the answer is one or the other.
 *
 * Returns: whether the point lies in the polygon
 */
gboolean
cw_polygon_contains (const CwPolygon *polygon, double x, double y)
{
  gboolean inside = FALSE;

  g_return_val_if_fail (polygon != NULL, FALSE);

  for (guint r = 0; r < polygon->n_rings; r++)
    {
      const CwRing *ring = &polygon->rings[r];

      for (guint i = 0; i < ring->n_points; i++)
        {
          CwPoint a = ring->points[i], b = ring->points[i + 1 < ring->n_points ? i + 1 : 0];

          if ((a.y > y) != (b.y > y) && x < a.x + (y - a.y) * ((double) b.x - a.x) / ((double) b.y - a.y))
            inside = !inside;
        }
    }
  return inside;
}

/**
 * cw_segment_distance:
 * @a: one end, ticks
 * @b: other end, ticks; may be equal to @a
 * @x: ticks
 * @y: ticks
 *
 * Returns: the distance of the point from the segment, ticks
 */
double
cw_segment_distance (CwPoint a, CwPoint b, double x, double y)
{
  double dx = (double) b.x - a.x, dy = (double) b.y - a.y;
  double ax = x - a.x, ay = y - a.y;
  double square = dx * dx + dy * dy, along = ax * dx + ay * dy;

  if (along <= 0 || square <= 0)
    return hypot (ax, ay);
  if (along >= square)
    return hypot (x - b.x, y - b.y);
  /* Off the line by cross product, not by the foot of the perpendicular: exact 0 on the line. */
  return fabs (ax * dy - ay * dx) / sqrt (square);
}

/**
 * cw_polygon_distance:
 * @polygon: a polygon
 * @x: ticks
 * @y: ticks
 *
 * Returns: how far the point is from the polygon, ticks; 0 inside
 */
double
cw_polygon_distance (const CwPolygon *polygon, double x, double y)
{
  double best = G_MAXDOUBLE;

  g_return_val_if_fail (polygon != NULL, best);

  if (cw_polygon_contains (polygon, x, y))
    return 0;
  for (guint r = 0; r < polygon->n_rings; r++)
    {
      const CwRing *ring = &polygon->rings[r];

      for (guint i = 0; i < ring->n_points; i++)
        best
          = MIN (best, cw_segment_distance (ring->points[i], ring->points[i + 1 < ring->n_points ? i + 1 : 0], x, y));
    }
  return best;
}
