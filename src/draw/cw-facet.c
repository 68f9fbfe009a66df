/* cw-facet.c: panels cut into trapezoids once, so that overlaps can be found every frame without allocating.
 *
 * A projection of a flat panel is affine and keeps trapezoids convex: they are cut in flat coordinates, between the
 * levels of all vertices, and joined again where the same two edges bound them. Overlaps and cuts by clipping one
 * convex polygon with lines (Sutherland & Hodgman 1974).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-facet.h"

#include <math.h>

typedef struct
{
  CwPoint a, b; /* a above b */
} Side;

typedef struct
{
  double x; /* at the middle of the band */
  guint side;
} Crossing;

static int
compare_level (const void *a, const void *b)
{
  const gint32 *x = a, *y = b;
  return (*x > *y) - (*x < *y);
}

static int
compare_crossing (const void *a, const void *b)
{
  const Crossing *x = a, *y = b;
  if (x->x < y->x || x->x > y->x)
    return x->x < y->x ? -1 : 1;
  return (x->side > y->side) - (x->side < y->side);
}

static double
side_at (const Side *side, double y)
{
  return side->a.x + (y - side->a.y) / (side->b.y - side->a.y) * (side->b.x - side->a.x);
}

/**
 * cw_facets_new:
 * @polygon: a polygon with any holes
 *
 * Returns: (transfer full): trapezoids that cover it
 */
GArray *
cw_facets_new (const CwPolygon *polygon)
{
  GArray *facets = g_array_new (FALSE, FALSE, sizeof (CwFacet));
  g_autoptr (GArray) levels = g_array_new (FALSE, FALSE, sizeof (gint32));
  g_autoptr (GArray) sides = g_array_new (FALSE, FALSE, sizeof (Side));
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (Crossing));
  /* Left and right side of the facets of the band above, to join them downwards. */
  g_autoptr (GArray) above = g_array_new (FALSE, FALSE, sizeof (guint[3]));
  g_autoptr (GArray) here = g_array_new (FALSE, FALSE, sizeof (guint[3]));

  for (guint r = 0; r < polygon->n_rings; r++)
    for (guint i = 0; i < polygon->rings[r].n_points; i++)
      {
        CwPoint p = polygon->rings[r].points[i];
        CwPoint q = polygon->rings[r].points[(i + 1) % polygon->rings[r].n_points];
        Side side = { p.y < q.y ? p : q, p.y < q.y ? q : p };
        g_array_append_val (levels, p.y);
        if (p.y != q.y)
          g_array_append_val (sides, side);
      }
  g_array_sort (levels, compare_level);

  for (guint i = 0; i + 1 < levels->len; i++)
    {
      double top = g_array_index (levels, gint32, i), bottom = g_array_index (levels, gint32, i + 1);
      if (bottom <= top)
        continue;
      g_array_set_size (crossings, 0);
      g_array_set_size (here, 0);
      for (guint k = 0; k < sides->len; k++)
        {
          const Side *side = &g_array_index (sides, Side, k);
          Crossing crossing = { 0, k };
          if (side->a.y > top || side->b.y < bottom)
            continue;
          crossing.x = side_at (side, (top + bottom) / 2);
          g_array_append_val (crossings, crossing);
        }
      g_array_sort (crossings, compare_crossing);
      for (guint k = 0; k + 1 < crossings->len; k += 2)
        {
          guint ids[3] = { g_array_index (crossings, Crossing, k).side, g_array_index (crossings, Crossing, k + 1).side,
                           G_MAXUINT };
          const Side *left = &g_array_index (sides, Side, ids[0]), *right = &g_array_index (sides, Side, ids[1]);
          for (guint m = 0; m < above->len; m++)
            {
              const guint *old = (const guint *) (gpointer) (above->data + m * sizeof (guint[3]));
              if (old[0] == ids[0] && old[1] == ids[1])
                ids[2] = old[2];
            }
          if (ids[2] == G_MAXUINT)
            {
              CwFacet facet = { 4, { side_at (left, top), side_at (right, top) }, { top, top } };
              ids[2] = facets->len;
              g_array_append_val (facets, facet);
            }
          CwFacet *facet = &g_array_index (facets, CwFacet, ids[2]);
          facet->x[2] = side_at (right, bottom);
          facet->x[3] = side_at (left, bottom);
          facet->y[2] = facet->y[3] = bottom;
          g_array_append_val (here, ids);
        }
      GArray *swap = above;
      above = here;
      here = swap;
    }
  return facets;
}

static double
signed_area (const double *x, const double *y, guint n)
{
  double area = 0;

  for (guint i = 0; i < n; i++)
    {
      guint k = i + 1 < n ? i + 1 : 0;
      area += x[i] * y[k] - x[k] * y[i];
    }
  return area / 2;
}

/* One half of a convex polygon: what lies where nx x + ny y <= d (Sutherland & Hodgman 1974). Returns the corners left.
 */
static guint
clip (const double *x, const double *y, guint n, double nx, double ny, double d, double *to_x, double *to_y, guint most)
{
  guint kept = 0;

  for (guint i = 0; i < n; i++)
    {
      guint k = i + 1 < n ? i + 1 : 0;
      double di = d - nx * x[i] - ny * y[i], dk = d - nx * x[k] - ny * y[k];
      if (di >= 0 && kept < most)
        {
          to_x[kept] = x[i];
          to_y[kept++] = y[i];
        }
      if (((di > 0 && dk < 0) || (di < 0 && dk > 0)) && kept < most)
        {
          double t = di / (di - dk);
          to_x[kept] = x[i] + t * (x[k] - x[i]);
          to_y[kept++] = y[i] + t * (y[k] - y[i]);
        }
    }
  return kept;
}

/**
 * cw_facet_overlap:
 * @a: a convex polygon
 * @b: another, in the same plane
 * @x: (out): corners of the overlap
 * @y: (out): the same
 * @n: (out): how many
 *
 * Returns: the overlap's area; 0 with no corners when they do not meet
 */
double
cw_facet_overlap (const CwFacet *a, const CwFacet *b, double x[CW_OVERLAP_CORNERS], double y[CW_OVERLAP_CORNERS],
                  guint *n)
{
  double px[CW_OVERLAP_CORNERS], py[CW_OVERLAP_CORNERS];
  guint count = a->n;
  double turn = signed_area (b->x, b->y, b->n) >= 0 ? 1 : -1;

  for (guint i = 0; i < count; i++)
    {
      x[i] = a->x[i];
      y[i] = a->y[i];
    }
  for (guint side = 0; side < b->n && count > 0; side++)
    {
      guint next = (side + 1) % b->n;
      double nx = turn * (b->y[next] - b->y[side]), ny = -turn * (b->x[next] - b->x[side]);
      /* Two corners of a triangle that fall together make no side. */
      if (fabs (nx) + fabs (ny) <= 0)
        continue;
      count = clip (x, y, count, nx, ny, nx * b->x[side] + ny * b->y[side], px, py, CW_OVERLAP_CORNERS);
      for (guint i = 0; i < count; i++)
        {
          x[i] = px[i];
          y[i] = py[i];
        }
    }
  *n = count >= 3 ? count : 0;
  return count >= 3 ? fabs (signed_area (x, y, count)) : 0;
}

/**
 * cw_facet_cut:
 * @facet: a convex polygon
 * @cut: what to keep of it
 * @kept: (out caller-allocates): that part
 *
 * Returns: %FALSE when nothing is left
 */
gboolean
cw_facet_cut (const CwFacet *facet, const CwCut *cut, CwFacet *kept)
{
  kept->n = clip (facet->x, facet->y, facet->n, cut->nx, cut->ny, cut->d, kept->x, kept->y, CW_FACET_CORNERS);
  return kept->n >= 3 && fabs (signed_area (kept->x, kept->y, kept->n)) > 0;
}
