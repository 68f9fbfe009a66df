/* cw-arc.c: circular arcs through three points and circles, flattened once to vertices on ticks.
 *
 * An inscribed polygon would lose area, so the inner vertices stand a little outside the circle: with end vertices on
 * the circle and n equal turns t, the polygon's area 1/2 r^2 sin(t) (2 k + (n - 2) k^2) is made equal to the sector's
 * 1/2 r^2 n t by choosing k. What rounding to ticks then adds or takes is worked off by moving single vertices by one
 * tick. So the area is kept far inside the 0.0005 square inch that the model allows. Elementary geometry, no source.
 * Arcs so flat or so large that they would leave every sheet are taken as straight.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-arc.h"

#include "geometry/cw-tolerance.h"

#include <math.h>

/**
 * cw_arc_circle:
 * @a: one end, ticks
 * @through: a point the arc goes through, ticks
 * @b: other end, ticks
 * @cx: (out): centre, ticks
 * @cy: (out): centre, ticks
 * @radius: (out): radius, ticks
 *
 * Returns: whether the three points lie on a circle small enough to be drawn as one (its radius is at most four times
 *   the largest sheet); if not, the arc is straight
 */
gboolean
cw_arc_circle (CwPoint a, CwPoint through, CwPoint b, double *cx, double *cy, double *radius)
{
  double bx = (double) b.x - a.x, by = (double) b.y - a.y;
  double tx = (double) through.x - a.x, ty = (double) through.y - a.y;
  double twice = 2 * (double) cw_point_orient (a, through, b), ux, uy, r;

  g_return_val_if_fail (cx != NULL && cy != NULL && radius != NULL, FALSE);

  if (cw_point_orient (a, through, b) == 0)
    return FALSE;
  ux = (by * (tx * tx + ty * ty) - ty * (bx * bx + by * by)) / twice;
  uy = (tx * (bx * bx + by * by) - bx * (tx * tx + ty * ty)) / twice;
  r = hypot (ux, uy);
  if (r > 4.0 * CW_COORDINATE_MAX)
    return FALSE;
  *cx = a.x + ux;
  *cy = a.y + uy;
  *radius = r;
  return TRUE;
}

/* Number of equal turns that keep the polygon within the named distance of the circle. */
static guint
count_turns (double radius, double sweep)
{
  double widest = radius > CW_TOL_ARC_TICKS ? 2 * acos (1 - CW_TOL_ARC_TICKS / radius) : G_PI / 4;

  return (guint) CLAMP (ceil (sweep / MIN (widest, G_PI / 4)), 1, 4096);
}

/* Twice the area that the vertices from..to (and the ends before and after them) have against the centre. */
static double
fan_area2 (const GArray *points, guint from, CwPoint before, CwPoint after, double cx, double cy)
{
  double sum = 0;
  CwPoint last = before;

  for (guint i = from; i <= points->len; i++)
    {
      CwPoint p = i < points->len ? g_array_index (points, CwPoint, i) : after;

      sum += (last.x - cx) * (p.y - cy) - (p.x - cx) * (last.y - cy);
      last = p;
    }
  return sum;
}

/* Moves single vertices by one tick as long as that brings twice the area nearer to `wanted`. */
static void
mend_area (GArray *points, guint from, CwPoint before, CwPoint after, double cx, double cy, double radius,
           double wanted)
{
  double error = fan_area2 (points, from, before, after, cx, cy) - wanted;

  for (guint i = from; i < points->len; i++)
    {
      CwPoint *p = &g_array_index (points, CwPoint, i);
      CwPoint left = i > from ? g_array_index (points, CwPoint, i - 1) : before;
      CwPoint right = i + 1 < points->len ? g_array_index (points, CwPoint, i + 1) : after;
      static const CwPoint moves[4] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
      int best = -1;
      double best_error = fabs (error);

      for (int m = 0; m < 4; m++)
        {
          double change
            = (double) moves[m].y * ((double) left.x - right.x) - (double) moves[m].x * ((double) left.y - right.y);
          double off = fabs (hypot (p->x + moves[m].x - cx, p->y + moves[m].y - cy) - radius);

          if (off <= CW_TOL_ARC_TICKS && fabs (error + change) < best_error)
            {
              best = m;
              best_error = fabs (error + change);
            }
        }
      if (best >= 0)
        {
          error += (double) moves[best].y * ((double) left.x - right.x)
                   - (double) moves[best].x * ((double) left.y - right.y);
          *p = cw_point (p->x + moves[best].x, p->y + moves[best].y);
        }
    }
}

/* Appends the vertices between two ends of an arc about a centre; sweep is positive when angles grow (clockwise as
 * seen, y down). */
static void
append_arc (GArray *points, CwPoint a, CwPoint b, double cx, double cy, double radius, double sweep)
{
  guint from = points->len, n = MAX (count_turns (radius, fabs (sweep)), 2);
  double start = atan2 (a.y - cy, a.x - cx), turn = sweep / n;
  /* Solve sin(turn) (2 k + (n - 2) k^2) = n turn for k. */
  double s = n * turn / sin (turn);
  double k = n == 2 ? s / 2 : (sqrt (1 + (n - 2) * s) - 1) / (n - 2);

  for (guint i = 1; i < n; i++)
    {
      double t = start + turn * i;
      CwPoint p = cw_point ((gint32) lround (cx + radius * k * cos (t)), (gint32) lround (cy + radius * k * sin (t)));

      g_array_append_val (points, p);
    }
  mend_area (points, from, a, b, cx, cy, radius, radius * radius * sweep);
}

/**
 * cw_circle_flatten:
 * @centre: ticks
 * @radius: ticks, positive
 * @points: (element-type CwPoint): a closed ring is appended, first point not repeated, clockwise as seen; its right,
 *   bottom, left and top points are vertices
 */
void
cw_circle_flatten (CwPoint centre, gint32 radius, GArray *points)
{
  static const CwPoint ways[5] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 }, { 1, 0 } };

  g_return_if_fail (points != NULL);

  if (radius <= 0)
    return;
  for (int i = 0; i < 4; i++)
    {
      CwPoint a = cw_point (centre.x + ways[i].x * radius, centre.y + ways[i].y * radius);
      CwPoint b = cw_point (centre.x + ways[i + 1].x * radius, centre.y + ways[i + 1].y * radius);

      g_array_append_val (points, a);
      append_arc (points, a, b, centre.x, centre.y, radius, G_PI / 2);
    }
}

/**
 * cw_arc_flatten:
 * @a: where the arc starts, ticks
 * @through: a point it goes through, ticks
 * @b: where it ends, ticks
 * @points: (element-type CwPoint): the vertices between @a and @b, without these, are appended
 *
 * Three points in line, or on a circle larger than any sheet: the arc is the straight way from @a by @through to @b.
 * @a and @b in one place: the circle on which @through lies opposite.
 */
void
cw_arc_flatten (CwPoint a, CwPoint through, CwPoint b, GArray *points)
{
  double cx, cy, r, sweep;

  g_return_if_fail (points != NULL);

  if (cw_point_equal (a, b) && !cw_point_equal (a, through))
    {
      cx = (a.x + (double) through.x) / 2;
      cy = (a.y + (double) through.y) / 2;
      append_arc (points, a, b, cx, cy, hypot (a.x - cx, a.y - cy), 2 * G_PI);
    }
  else if (cw_arc_circle (a, through, b, &cx, &cy, &r))
    {
      gboolean clockwise = cw_point_orient (a, through, b) > 0;

      sweep = atan2 (b.y - cy, b.x - cx) - atan2 (a.y - cy, a.x - cx);
      if (clockwise && sweep <= 0)
        sweep += 2 * G_PI;
      else if (!clockwise && sweep >= 0)
        sweep -= 2 * G_PI;
      append_arc (points, a, b, cx, cy, r, sweep);
    }
  else if (!cw_point_equal (through, a) && !cw_point_equal (through, b))
    g_array_append_val (points, through);
}

/**
 * cw_arc_extend_box:
 * @a: where the arc starts, ticks
 * @through: a point it goes through
 * @b: where it ends; with @a the whole circle, on which @through lies opposite
 * @low: (inout): left top corner of a box
 * @high: (inout): right bottom corner
 *
 * Makes the box hold the true arc, to the nearest tick: its flattened vertices stand a little outside it.
 */
void
cw_arc_extend_box (CwPoint a, CwPoint through, CwPoint b, CwPoint *low, CwPoint *high)
{
  gboolean whole = cw_point_equal (a, b);
  CwPoint ends[3] = { a, through, b };
  double cx = (a.x + (double) through.x) / 2, cy = (a.y + (double) through.y) / 2, r = hypot (a.x - cx, a.y - cy);

  g_return_if_fail (low != NULL && high != NULL);

  for (guint i = 0; i < 3; i++)
    {
      *low = cw_point (MIN (low->x, ends[i].x), MIN (low->y, ends[i].y));
      *high = cw_point (MAX (high->x, ends[i].x), MAX (high->y, ends[i].y));
    }
  if (!whole && !cw_arc_circle (a, through, b, &cx, &cy, &r))
    return;
  for (guint i = 0; i < 4; i++)
    {
      const int way[4][2] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
      double x = cx + way[i][0] * r, y = cy + way[i][1] * r;
      double side = ((double) b.x - a.x) * (y - a.y) - ((double) b.y - a.y) * (x - a.x);

      /* Only where the arc itself comes: on that side of its chord on which it goes through. */
      if (!whole && (side < 0) != (cw_point_orient (a, b, through) < 0))
        continue;
      *low = cw_point (MIN (low->x, (gint32) lround (x)), MIN (low->y, (gint32) lround (y)));
      *high = cw_point (MAX (high->x, (gint32) lround (x)), MAX (high->y, (gint32) lround (y)));
    }
}
