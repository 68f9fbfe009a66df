/* cw-polygon-inside.c: a point well inside a polygon, and where a level or upright line lies on it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-polygon.h"

#include <math.h>
#include <stdlib.h>

static int
compare_doubles (const void *one, const void *two)
{
  double a = *(const double *) one, b = *(const double *) two;

  return a < b ? -1 : a > b;
}

/* Crossings of the rings with the level line y = at (or x = at when upright), sorted. */
static void
crossings (const CwPolygon *polygon, double at, gboolean upright, GArray *out)
{
  g_array_set_size (out, 0);
  for (guint r = 0; r < polygon->n_rings; r++)
    {
      const CwRing *ring = &polygon->rings[r];

      for (guint i = 0; i < ring->n_points; i++)
        {
          CwPoint a = ring->points[i], b = ring->points[i + 1 < ring->n_points ? i + 1 : 0];
          double a_along = upright ? a.y : a.x, b_along = upright ? b.y : b.x;
          double a_level = upright ? a.x : a.y, b_level = upright ? b.x : b.y;

          if ((a_level > at) != (b_level > at))
            {
              double cross = a_along + (at - a_level) * (b_along - a_along) / (b_level - a_level);

              g_array_append_val (out, cross);
            }
        }
    }
  g_array_sort (out, compare_doubles);
}

/* Middle and half width of the widest stretch inside, or of the one that holds `near` when it is given. */
static gboolean
middle_of (const GArray *cuts, const double *near_to, double *middle, double *half)
{
  gboolean found = FALSE;

  for (guint i = 0; i + 1 < cuts->len; i += 2)
    {
      double from = g_array_index (cuts, double, i), to = g_array_index (cuts, double, i + 1);

      if (near_to != NULL && (*near_to < from || *near_to > to))
        continue;
      if (!found || to - from > 2 * *half)
        {
          *middle = (from + to) / 2;
          *half = (to - from) / 2;
          found = TRUE;
        }
    }
  return found;
}

/* How far the point is from the nearest edge; negative outside. */
static double
room_at (const CwPolygon *polygon, CwPoint point)
{
  double room = G_MAXDOUBLE;

  if (!cw_polygon_contains (polygon, point.x, point.y))
    return -1;
  for (guint r = 0; r < polygon->n_rings; r++)
    {
      const CwRing *ring = &polygon->rings[r];

      for (guint i = 0; i < ring->n_points; i++)
        room = MIN (room, cw_segment_distance (ring->points[i], ring->points[i + 1 < ring->n_points ? i + 1 : 0],
                                               point.x, point.y));
    }
  return room;
}

/**
 * cw_polygon_inside_point:
 * @polygon: a polygon with area
 *
 * Looks along seven level lines for the widest stretch and centres the point both ways; takes what is farthest from all
 * edges. It is not the very centre of the largest circle, which costs more and is needed nowhere.
 *
 * Returns: a point inside on the tick grid, as far from the edges as a quick look finds; a corner when the polygon is
 *   too small to hold a grid point
 */
CwPoint
cw_polygon_inside_point (const CwPolygon *polygon)
{
  enum
  {
    N_LEVELS = 8
  };
  CwPoint low, high, best = { 0, 0 };
  double best_room = -1;
  g_autoptr (GArray) cuts = g_array_new (FALSE, FALSE, sizeof (double));

  g_return_val_if_fail (polygon != NULL && polygon->n_rings > 0, best);

  cw_polygon_bounds (polygon, &low, &high);
  best = polygon->rings[0].points[0];
  for (int k = 1; k < N_LEVELS; k++)
    {
      double y = floor (low.y + ((double) high.y - low.y) * k / N_LEVELS) + 0.5, x, across = 0, upright = 0;

      crossings (polygon, y, FALSE, cuts);
      if (!middle_of (cuts, NULL, &x, &across))
        continue;
      crossings (polygon, x, TRUE, cuts);
      if (!middle_of (cuts, &y, &y, &upright))
        continue;
      for (int turn = 0; turn < 2; turn++)
        {
          CwPoint here = cw_point ((gint32) lround (x), (gint32) lround (y));
          double room = room_at (polygon, here);

          if (room > best_room)
            {
              best_room = room;
              best = here;
            }
          crossings (polygon, y, FALSE, cuts);
          if (!middle_of (cuts, &x, &x, &across))
            break;
        }
    }
  return best;
}

static int
compare_ticks (const void *one, const void *two)
{
  gint32 a = *(const gint32 *) one, b = *(const gint32 *) two;

  return (a > b) - (a < b);
}

/**
 * cw_polygon_find_stretches:
 * @polygon: a polygon, ticks
 * @upright: whether the line is x = @at, else y = @at
 * @at: ticks
 *
 * An edge counts for the points just to its near side, so that touching corners never leave an odd number.
 *
 * Returns: (transfer full) (element-type gint32): where the line lies on the polygon, from edge to edge: pairs, sorted
 */
GArray *
cw_polygon_find_stretches (const CwPolygon *polygon, gboolean upright, gint32 at)
{
  GArray *cuts = g_array_new (FALSE, FALSE, sizeof (gint32));

  for (guint r = 0; r < polygon->n_rings; r++)
    for (guint i = 0; i < polygon->rings[r].n_points; i++)
      {
        const CwRing *ring = &polygon->rings[r];
        CwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
        gint64 run, rise, half;
        gint32 crossing;

        if (!upright)
          {
            a = cw_point (a.y, a.x);
            b = cw_point (b.y, b.x);
          }
        if ((a.x <= at) == (b.x <= at))
          continue;
        run = (gint64) b.x - a.x;
        rise = ((gint64) b.y - a.y) * ((gint64) at - a.x) * (run < 0 ? -1 : 1);
        half = ABS (run) / 2;
        crossing = a.y + (gint32) ((rise >= 0 ? rise + half : rise - half) / ABS (run));
        g_array_append_val (cuts, crossing);
      }
  g_array_sort (cuts, compare_ticks);
  return cuts;
}
