/* cw-glue-shape.c: outlines of glue zones on a face with any outline and any windows.
 *
 * A zone of the file has one outline without holes, so what has a hole is cut into several: at the top and the bottom
 * of a hole with square corners, which leaves the strips a maker would tear from a roll of tape, and through the middle
 * of any other. Rims are the face less the face shrunk (mitred, so that they keep their width along every edge).
 * Corners are the rhombus between the two edges that meet there, strips the band along an edge; both are then kept
 * within the paper. An edge that bends by less than SMOOTH_TURN is one: an arc is flattened into many short edges. Dots
 * stand in a square grid in the middle of what they may cover; each is a circle of two arcs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue/cw-glue-shape.h"

#include "geometry/cw-region.h"

#include <math.h>

/* Cosine of 30 degrees: edges of one outline that turn by less run on into one another. */
#define SMOOTH_TURN_COS 0.866

static void
free_path (gpointer data)
{
  cw_path_clear (data);
  g_free (data);
}

static GPtrArray *
new_outlines (void)
{
  return g_ptr_array_new_with_free_func (free_path);
}

static void
add_ring (GPtrArray *outlines, const CwRing *ring, CwUnit unit)
{
  CwPath *path = g_new0 (CwPath, 1);

  for (guint i = 0; i < ring->n_points; i++)
    cw_path_append (path, cw_place_from_point (ring->points[i], unit), FALSE);
  g_ptr_array_add (outlines, path);
}

static CwPolygon
new_polygon (const CwPoint *points, guint n_points)
{
  g_autoptr (GArray) array = g_array_sized_new (FALSE, FALSE, sizeof (CwPoint), n_points);

  g_array_append_vals (array, points, n_points);
  return cw_polygon_from_points (array);
}

/* Takes `polygon`. */
static void
unite (CwRegion *all, CwPolygon polygon)
{
  CwRegion one = { 1, &polygon }, both = cw_region_overlay (all, &one, CW_OVERLAY_UNION);

  cw_region_clear (all);
  *all = both;
  cw_polygon_clear (&polygon);
}

static CwRegion
within (const CwRegion *paper, CwRegion *what)
{
  CwRegion kept = cw_region_overlay (paper, what, CW_OVERLAY_INTERSECTION);

  cw_region_clear (what);
  return kept;
}

/* The part of a polygon between two levels. */
static CwRegion
cut_band (const CwPolygon *polygon, CwPoint low, CwPoint high, gint32 top, gint32 bottom)
{
  const CwPoint corners[4] = { { low.x, top }, { high.x, top }, { high.x, bottom }, { low.x, bottom } };
  CwPolygon band = new_polygon (corners, 4);
  CwRegion one = { 1, &band }, whole = cw_region_from_polygon (polygon);
  CwRegion part = cw_region_overlay (&whole, &one, CW_OVERLAY_INTERSECTION);

  cw_region_clear (&whole);
  cw_polygon_clear (&band);
  return part;
}

static gboolean
is_square (const CwRing *ring)
{
  if (ring->n_points != 4)
    return FALSE;
  for (guint i = 0; i < 4; i++)
    if (ring->points[i].x != ring->points[(i + 1) % 4].x && ring->points[i].y != ring->points[(i + 1) % 4].y)
      return FALSE;
  return TRUE;
}

/* Only as deep as there are holes: every cut opens at least one. */
static void
add_without_holes (GPtrArray *outlines, const CwPolygon *polygon, CwUnit unit, gint32 snap)
{
  CwPoint low, high, hole_low, hole_high;
  CwPolygon hole;
  gint32 levels[4];
  guint n = 0;

  if (polygon->n_rings == 1)
    {
      add_ring (outlines, &polygon->rings[0], unit);
      return;
    }
  hole = (CwPolygon){ 1, &polygon->rings[1] };
  cw_polygon_bounds (polygon, &low, &high);
  cw_polygon_bounds (&hole, &hole_low, &hole_high);
  levels[n++] = low.y;
  if (is_square (&polygon->rings[1]))
    {
      levels[n++] = hole_low.y;
      levels[n++] = hole_high.y;
    }
  else
    {
      gint32 middle = hole_low.y + (hole_high.y - hole_low.y) / 2, plain = cw_ticks_snap (middle, snap);

      levels[n++] = plain > hole_low.y && plain < hole_high.y ? plain : middle;
    }
  levels[n++] = high.y;
  for (guint i = 0; i + 1 < n; i++)
    {
      CwRegion part = cut_band (polygon, low, high, levels[i], levels[i + 1]);

      for (guint k = 0; k < part.n_polygons; k++)
        add_without_holes (outlines, &part.polygons[k], unit, snap);
      cw_region_clear (&part);
    }
}

/* A unit step along an edge, and its length. */
static double
edge_way (CwPoint a, CwPoint b, double way[2])
{
  double x = (double) b.x - a.x, y = (double) b.y - a.y, length = hypot (x, y);

  way[0] = length > 0 ? x / length : 0;
  way[1] = length > 0 ? y / length : 0;
  return length;
}

static CwPoint
ring_at (const CwRing *ring, guint i)
{
  return ring->points[i % ring->n_points];
}

/* How the ring turns at a point: the cosine of the turn, and whether it is a corner of paper (not a notch into it). */
static double
turn_at (const CwRing *ring, guint i, gboolean *corner)
{
  CwPoint a = ring_at (ring, i + ring->n_points - 1), p = ring_at (ring, i), b = ring_at (ring, i + 1);
  double in[2], out[2];

  edge_way (a, p, in);
  edge_way (p, b, out);
  /* Paper lies on the right of every ring in standard form (cw-point.h). */
  *corner = cw_point_orient (a, p, b) > 0;
  return in[0] * out[0] + in[1] * out[1];
}

static CwPoint
moved (CwPoint p, const double way[2], double by)
{
  return cw_point ((gint32) lround (p.x + way[0] * by), (gint32) lround (p.y + way[1] * by));
}

static CwRegion
make_corners (const CwPolygon *paper, gint32 size)
{
  const CwRing *ring = &paper->rings[0];
  CwRegion all = { 0 };

  for (guint i = 0; i < ring->n_points; i++)
    {
      CwPoint p = ring_at (ring, i), quad[4];
      double in[2], out[2];
      gboolean corner;

      if (turn_at (ring, i, &corner) > SMOOTH_TURN_COS || !corner)
        continue;
      edge_way (ring_at (ring, i + ring->n_points - 1), p, in);
      edge_way (p, ring_at (ring, i + 1), out);
      quad[0] = p;
      quad[1] = moved (p, out, size);
      quad[3] = moved (p, in, -size);
      quad[2] = moved (quad[1], in, -size);
      unite (&all, new_polygon (quad, 4));
    }
  return all;
}

/* Where the line beside a ring, `by` into the paper, passes its point i. */
static CwPoint
beside (const CwRing *ring, guint i, gboolean first, gboolean last, double by)
{
  CwPoint p = ring_at (ring, i);
  double in[2], out[2], side[2], cosine;

  edge_way (ring_at (ring, i + ring->n_points - 1), p, in);
  edge_way (p, ring_at (ring, i + 1), out);
  if (first)
    in[0] = out[0], in[1] = out[1];
  if (last)
    out[0] = in[0], out[1] = in[1];
  /* To the right of the way, lengthened so that both edges keep the distance. */
  side[0] = -(in[1] + out[1]) / 2;
  side[1] = (in[0] + out[0]) / 2;
  cosine = side[0] * side[0] + side[1] * side[1];
  return moved (p, side, by / cosine);
}

/* The band along the edge nearest to a place, with what runs on from it without a corner. */
static CwRegion
make_strip (const CwPolygon *paper, CwPoint along, gint32 size)
{
  const CwRing *ring = NULL;
  CwRegion all = { 0 };
  double best = INFINITY;
  guint edge = 0, first, last;
  gboolean corner;

  for (guint r = 0; r < paper->n_rings; r++)
    for (guint i = 0; i < paper->rings[r].n_points; i++)
      {
        double distance
          = cw_segment_distance (ring_at (&paper->rings[r], i), ring_at (&paper->rings[r], i + 1), along.x, along.y);

        if (distance >= best)
          continue;
        best = distance;
        ring = &paper->rings[r];
        edge = i;
      }
  if (ring == NULL)
    return all;
  /* From the point `first` to the point `last`; all round where there is no corner. */
  first = edge + ring->n_points;
  last = edge + ring->n_points + 1;
  while (last - first < ring->n_points && turn_at (ring, first, &corner) > SMOOTH_TURN_COS)
    first--;
  while (last - first < ring->n_points && turn_at (ring, last, &corner) > SMOOTH_TURN_COS)
    last++;
  for (guint i = first; i < last; i++)
    {
      gboolean round = last - first == ring->n_points && turn_at (ring, first, &corner) > SMOOTH_TURN_COS;
      const CwPoint quad[4]
        = { ring_at (ring, i), ring_at (ring, i + 1), beside (ring, i + 1, FALSE, i + 1 == last && !round, size),
            beside (ring, i, i == first && !round, FALSE, size) };

      unite (&all, new_polygon (quad, 4));
    }
  return all;
}

/* The first of the places in a row and how many there are, the row in the middle of what there is. */
static guint
spread (gint32 low, gint32 high, gint32 spacing, gint32 snap, gint32 *first)
{
  guint n = (guint) ((high - low) / spacing) + 1;
  gint32 start = low + (high - low - (gint32) (n - 1) * spacing) / 2, plain = cw_ticks_snap (start, snap);

  *first = plain >= low && plain + (gint32) (n - 1) * spacing <= high ? plain : start;
  return n;
}

static gboolean
region_contains (const CwRegion *region, CwPoint p)
{
  for (guint i = 0; i < region->n_polygons; i++)
    if (cw_polygon_distance (&region->polygons[i], p.x, p.y) <= 0)
      return TRUE;
  return FALSE;
}

static void
add_dots (GPtrArray *outlines, const CwRegion *paper, const CwGluePlan *plan, CwUnit unit, gint32 snap)
{
  gint32 r = plan->size / 2;
  CwRegion middles = cw_region_grow (paper, -r);
  CwPoint low = { G_MAXINT32, G_MAXINT32 }, high = { G_MININT32, G_MININT32 }, first;
  guint n_x, n_y;

  for (guint i = 0; i < middles.n_polygons; i++)
    {
      CwPoint a, b;

      cw_polygon_bounds (&middles.polygons[i], &a, &b);
      low = cw_point (MIN (low.x, a.x), MIN (low.y, a.y));
      high = cw_point (MAX (high.x, b.x), MAX (high.y, b.y));
    }
  n_x = middles.n_polygons > 0 ? spread (low.x, high.x, plan->spacing, snap, &first.x) : 0;
  n_y = middles.n_polygons > 0 ? spread (low.y, high.y, plan->spacing, snap, &first.y) : 0;
  for (guint k = 0; k < n_x * n_y && outlines->len <= CW_GLUE_SHAPE_MOST; k++)
    {
      CwPoint c = cw_point (first.x + (gint32) (k % n_x) * plan->spacing, first.y + (gint32) (k / n_x) * plan->spacing);
      CwPath *path;

      if (!region_contains (&middles, c))
        continue;
      path = g_new0 (CwPath, 1);
      cw_path_append (path, cw_place_from_point (cw_point (c.x - r, c.y), unit), FALSE);
      cw_path_append (path, cw_place_from_point (cw_point (c.x, c.y - r), unit), TRUE);
      cw_path_append (path, cw_place_from_point (cw_point (c.x + r, c.y), unit), FALSE);
      cw_path_append (path, cw_place_from_point (cw_point (c.x, c.y + r), unit), TRUE);
      g_ptr_array_add (outlines, path);
    }
  cw_region_clear (&middles);
}

/**
 * cw_glue_shape_from_region:
 * @region: where glue may lie, ticks
 * @unit: for the measures written
 * @snap: the maker's finest mark in ticks, 0 for none; cuts through holes lie on it where they can
 *
 * Returns: (transfer full) (element-type CwPath): outlines without holes that together are @region
 */
GPtrArray *
cw_glue_shape_from_region (const CwRegion *region, CwUnit unit, gint32 snap)
{
  GPtrArray *outlines = new_outlines ();

  g_return_val_if_fail (region != NULL, outlines);

  for (guint i = 0; i < region->n_polygons; i++)
    add_without_holes (outlines, &region->polygons[i], unit, snap);
  return outlines;
}

/**
 * cw_glue_shape_outline:
 * @paper: the panel, in its piece's front coordinates, ticks
 * @plan: how the glue is to lie
 * @unit: for the measures written
 * @snap: the maker's finest mark in ticks, 0 for none
 *
 * Returns: (transfer full) (element-type CwPath): outlines without holes, one for each zone; none where there is no
 *   room for it or the shape has no corner; more than %CW_GLUE_SHAPE_MOST when it is too many
 */
GPtrArray *
cw_glue_shape_outline (const CwPolygon *paper, const CwGluePlan *plan, CwUnit unit, gint32 snap)
{
  GPtrArray *outlines = NULL;
  CwRegion whole, face, glued = { 0 };

  g_return_val_if_fail (paper != NULL && plan != NULL && plan->inset >= 0, NULL);
  g_return_val_if_fail (plan->shape == CW_GLUE_SHAPE_ALL_OVER || plan->size > 0, NULL);
  g_return_val_if_fail (plan->shape != CW_GLUE_SHAPE_DOTS || plan->spacing > 0, NULL);

  whole = cw_region_from_polygon (paper);
  face = cw_region_grow (&whole, -plan->inset);
  cw_region_clear (&whole);
  switch (plan->shape)
    {
    case CW_GLUE_SHAPE_RIM:
      {
        CwRegion inner = cw_region_grow (&face, -plan->size);

        glued = cw_region_overlay (&face, &inner, CW_OVERLAY_DIFFERENCE);
        cw_region_clear (&inner);
        break;
      }
    case CW_GLUE_SHAPE_CORNERS:
    case CW_GLUE_SHAPE_STRIP:
      for (guint i = 0; i < face.n_polygons; i++)
        {
          CwRegion part = plan->shape == CW_GLUE_SHAPE_CORNERS
                            ? make_corners (&face.polygons[i], plan->size)
                            : make_strip (&face.polygons[i], plan->along, plan->size);

          for (guint k = 0; k < part.n_polygons; k++)
            unite (&glued, cw_polygon_copy (&part.polygons[k]));
          cw_region_clear (&part);
        }
      glued = within (&face, &glued);
      break;
    case CW_GLUE_SHAPE_DOTS:
      outlines = new_outlines ();
      add_dots (outlines, &face, plan, unit, snap);
      break;
    case CW_GLUE_SHAPE_ALL_OVER:
    default:
      glued = cw_region_copy (&face);
      break;
    }
  if (outlines == NULL)
    outlines = cw_glue_shape_from_region (&glued, unit, snap);
  cw_region_clear (&glued);
  cw_region_clear (&face);
  return outlines;
}
