/* cw-sight-pierce.c: the line along which two sheets pierce one another, as it is seen.
 *
 * Depth over the picture is linear for either sheet, so where both are equally deep is a straight line; what lies
 * within both outlines, to both sides of it, is where they pierce. Sheets that only meet at a fold line have paper on
 * one side of it, or one each.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sight/cw-sight-pierce.h"

#include "geometry/cw-tolerance.h"

#include <math.h>

/* Shares of the line from a to b at which it crosses the panel's rim. */
static void
add_crossings (const CwCast *cast, const double a[2], const double b[2], GArray *shares)
{
  double dx = b[0] - a[0], dy = b[1] - a[1];

  for (guint r = 0; r < cast->outline->n_rings; r++)
    for (guint k = 0, n = cast->outline->rings[r].n_points; k < n; k++)
      {
        CwPoint p = cast->outline->rings[r].points[k], q = cast->outline->rings[r].points[(k + 1) % n];
        CwVec3 at = cw_rigid_apply (cast->place, cw_vec3 (p.x, p.y, 0));
        CwVec3 to = cw_rigid_apply (cast->place, cw_vec3 (q.x, q.y, 0));
        double from_p = dx * (at.y - a[1]) - dy * (at.x - a[0]), from_q = dx * (to.y - a[1]) - dy * (to.x - a[0]);
        double u, share;

        if ((from_p > 0) == (from_q > 0))
          continue;
        u = from_p / (from_p - from_q);
        share = ((at.x + u * (to.x - at.x) - a[0]) * dx + (at.y + u * (to.y - at.y) - a[1]) * dy) / (dx * dx + dy * dy);
        if (share > 0 && share < 1)
          g_array_append_val (shares, share);
      }
}

static int
compare_shares (const void *one, const void *two)
{
  const double *a = one, *b = two;

  return *a < *b ? -1 : *a > *b;
}

static gboolean
covers (const CwCast *cast, double x, double y)
{
  double u, v;

  cw_cast_meet (cast->place, x, y, &u, &v);
  return cw_polygon_contains (cast->outline, u, v);
}

/* Both sheets lie on both sides of the stretch: they pierce there, not only meet at a fold line. */
static gboolean
pierces (const CwCast *a, const CwCast *b, double x, double y, const double across[2])
{
  for (int side = -1; side <= 1; side += 2)
    if (!covers (a, x + side * across[0], y + side * across[1])
        || !covers (b, x + side * across[0], y + side * across[1]))
      return FALSE;
  return TRUE;
}

/**
 * cw_cast_add_piercing:
 * @a: a panel as projected, not seen from its edge
 * @b: another
 * @shares: (element-type double): scratch
 * @edges: (element-type CwEdge) (inout): gets the stretches along which they pierce one another, in the picture, a
 *   hair longer at both ends than that
 */
void
cw_cast_add_piercing (const CwCast *a, const CwCast *b, GArray *shares, GArray *edges)
{
  double left = MAX (a->low.x, b->low.x) - 1.0, right = MIN (a->high.x, b->high.x) + 1.0;
  double top = MAX (a->low.y, b->low.y) - 1.0, bottom = MIN (a->high.y, b->high.y) + 1.0;
  double u, v, gap[3], zero = 0, one = 1, reach, from[2], to[2], way[2], length, across[2];

  if (left >= right || top >= bottom)
    return;
  /* The difference in depth is gap[0] + gap[1] x + gap[2] y from the box's corner. */
  gap[0] = cw_cast_meet (a->place, left, top, &u, &v) - cw_cast_meet (b->place, left, top, &u, &v);
  gap[1] = (cw_cast_meet (a->place, right, top, &u, &v) - cw_cast_meet (b->place, right, top, &u, &v) - gap[0])
           / (right - left);
  gap[2] = (cw_cast_meet (a->place, left, bottom, &u, &v) - cw_cast_meet (b->place, left, bottom, &u, &v) - gap[0])
           / (bottom - top);
  reach = hypot (right - left, bottom - top);
  length = hypot (gap[1], gap[2]);
  if (length * reach <= CW_TOL_SAME_DEPTH_TICKS || fabs (gap[0]) > length * reach)
    return;
  way[0] = -gap[2] / length;
  way[1] = gap[1] / length;
  for (guint i = 0; i < 2; i++)
    {
      double foot = (i == 0 ? left : top) - gap[0] * gap[1 + i] / (length * length);

      from[i] = foot - 2 * reach * way[i];
      to[i] = foot + 2 * reach * way[i];
    }
  across[0] = CW_TOL_SHOWS_TICKS / 2.0 * way[1];
  across[1] = -CW_TOL_SHOWS_TICKS / 2.0 * way[0];
  g_array_set_size (shares, 0);
  g_array_append_val (shares, zero);
  g_array_append_val (shares, one);
  add_crossings (a, from, to, shares);
  add_crossings (b, from, to, shares);
  g_array_sort (shares, compare_shares);
  for (guint i = 0; i + 1 < shares->len; i++)
    {
      double s = g_array_index (shares, double, i), t = g_array_index (shares, double, i + 1), m = (s + t) / 2;
      /* A little beyond the rims, so that rounding leaves no loose end. */
      double more = CW_TOL_SAME_DEPTH_TICKS / (4 * reach);
      CwEdge edge = { .tag = 1 };

      if ((t - s) * 4 * reach <= CW_TOL_SHOWS_TICKS
          || !pierces (a, b, from[0] + m * (to[0] - from[0]), from[1] + m * (to[1] - from[1]), across))
        continue;
      s -= more;
      t += more;
      edge.a = cw_point ((gint32) lround (from[0] + s * (to[0] - from[0])),
                         (gint32) lround (from[1] + s * (to[1] - from[1])));
      edge.b = cw_point ((gint32) lround (from[0] + t * (to[0] - from[0])),
                         (gint32) lround (from[1] + t * (to[1] - from[1])));
      g_array_append_val (edges, edge);
    }
}
