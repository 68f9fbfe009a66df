/* cw-pile-lines.c: the outlines of panels that lie in one plane, made to meet where they all but meet.
 *
 * A fold lays a corner that was rounded to ticks somewhere near another that was rounded elsewhere: corners nearer than
 * CW_TOL_LAID_TICKS to one that was there before are put on it, and edges that pass a corner so near are bent to it.
 * Edges that then fall together are kept once, so that a stack of any height costs little more than one sheet.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-pile.h"

#include "geometry/cw-edges.h"
#include "geometry/cw-tolerance.h"

static guint
point_hash (const void *key)
{
  const CwPoint *p = key;

  return (guint) p->x * 2654435761u ^ (guint) p->y * 40503u;
}

static gboolean
point_same (const void *a, const void *b)
{
  return cw_point_equal (*(const CwPoint *) a, *(const CwPoint *) b);
}

static int
compare_point_items (const void *one, const void *two)
{
  return cw_point_compare (*(const CwPoint *) one, *(const CwPoint *) two);
}

static int
compare_edges (const void *one, const void *two)
{
  const CwEdge *a = one, *b = two;
  int first = cw_point_compare (a->a, b->a);

  return first != 0 ? first : cw_point_compare (a->b, b->b);
}

/* Corners, each kept once; later ones near an earlier one are put there. */
typedef struct
{
  GHashTable *known; /* CwPoint to itself; only looked up, never walked */
  GArray *corners;   /* of CwPoint */
} Corners;

static CwPoint
join_corner (Corners *corners, CwPoint p)
{
  const int reach = (int) CW_TOL_LAID_TICKS;
  CwPoint best = p;
  int nearest = G_MAXINT;

  for (int dx = -reach; dx <= reach; dx++)
    for (int dy = -reach; dy <= reach; dy++)
      {
        CwPoint q = cw_point (p.x + dx, p.y + dy);
        int far = dx * dx + dy * dy;

        if (far <= reach * reach && far < nearest && g_hash_table_contains (corners->known, &q))
          {
            best = q;
            nearest = far;
          }
      }
  if (nearest == G_MAXINT)
    {
      g_hash_table_add (corners->known, g_memdup2 (&p, sizeof p));
      g_array_append_val (corners->corners, p);
    }
  return best;
}

static void
add_edge (GArray *edges, CwPoint a, CwPoint b)
{
  CwEdge edge = { a, b, 0 };

  if (cw_point_equal (a, b))
    return;
  if (cw_point_compare (a, b) > 0)
    edge = (CwEdge){ b, a, 0 };
  g_array_append_val (edges, edge);
}

static void
keep_once (GArray *edges)
{
  guint n = 0;

  g_array_sort (edges, compare_edges);
  for (guint i = 0; i < edges->len; i++)
    if (n == 0 || compare_edges (&g_array_index (edges, CwEdge, i), &g_array_index (edges, CwEdge, n - 1)) != 0)
      g_array_index (edges, CwEdge, n++) = g_array_index (edges, CwEdge, i);
  g_array_set_size (edges, n);
}

typedef struct
{
  double along;
  CwPoint at;
} Bend;

static int
compare_bends (const void *one, const void *two)
{
  const Bend *a = one, *b = two;

  return a->along < b->along ? -1 : a->along > b->along;
}

/* First corner (sorted) with x at or beyond `x`. */
static guint
first_from (const GArray *corners, gint32 x)
{
  guint low = 0, high = corners->len;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (g_array_index (corners, CwPoint, middle).x < x)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* Every edge goes through the corners that all but lie on it. */
static GArray *
bend_to_corners (const GArray *edges, GArray *corners)
{
  const gint32 reach = (gint32) CW_TOL_LAID_TICKS;
  GArray *bent = g_array_new (FALSE, FALSE, sizeof (CwEdge));
  g_autoptr (GArray) bends = g_array_new (FALSE, FALSE, sizeof (Bend));

  g_array_sort (corners, compare_point_items);
  for (guint i = 0; i < edges->len; i++)
    {
      const CwEdge *e = &g_array_index (edges, CwEdge, i);
      double dx = (double) e->b.x - e->a.x, dy = (double) e->b.y - e->a.y, length2 = dx * dx + dy * dy;
      gint32 top = MIN (e->a.y, e->b.y) - reach, bottom = MAX (e->a.y, e->b.y) + reach;
      CwPoint last = e->a;

      g_array_set_size (bends, 0);
      for (guint k = first_from (corners, e->a.x - reach);
           k < corners->len && g_array_index (corners, CwPoint, k).x <= e->b.x + reach; k++)
        {
          CwPoint p = g_array_index (corners, CwPoint, k);
          Bend bend = { ((double) p.x - e->a.x) * dx + ((double) p.y - e->a.y) * dy, p };

          if (p.y < top || p.y > bottom || bend.along <= 0 || bend.along >= length2 || cw_point_equal (p, e->a)
              || cw_point_equal (p, e->b) || cw_segment_distance (e->a, e->b, p.x, p.y) > CW_TOL_LAID_TICKS)
            continue;
          g_array_append_val (bends, bend);
        }
      g_array_sort (bends, compare_bends);
      for (guint k = 0; k < bends->len; k++)
        {
          CwPoint at = g_array_index (bends, Bend, k).at;

          add_edge (bent, last, at);
          last = at;
        }
      add_edge (bent, last, e->b);
    }
  keep_once (bent);
  return bent;
}

/**
 * cw_pile_find_lines:
 * @members: (array length=n_members): panels as they lie
 * @n_members: how many
 *
 * Returns: (transfer full) (element-type CwEdge): their outlines on ticks of the plane, each edge once, bent to the
 *   corners that all but lie on it; they may still cross
 */
GArray *
cw_pile_find_lines (const CwLaid *members, guint n_members)
{
  Corners corners
    = { g_hash_table_new_full (point_hash, point_same, g_free, NULL), g_array_new (FALSE, FALSE, sizeof (CwPoint)) };
  GArray *edges = g_array_new (FALSE, FALSE, sizeof (CwEdge)), *bent;

  for (guint i = 0; i < n_members; i++)
    for (guint r = 0; r < members[i].outline->n_rings; r++)
      {
        const CwRing *ring = &members[i].outline->rings[r];
        CwPoint first, last;

        if (ring->n_points < 3)
          continue;
        first = last = join_corner (&corners, cw_laid_point (&members[i], ring->points[0]));
        for (guint k = 1; k < ring->n_points; k++)
          {
            CwPoint p = join_corner (&corners, cw_laid_point (&members[i], ring->points[k]));

            add_edge (edges, last, p);
            last = p;
          }
        add_edge (edges, last, first);
      }
  keep_once (edges);
  bent = bend_to_corners (edges, corners.corners);
  g_array_unref (edges);
  g_hash_table_unref (corners.known);
  g_array_unref (corners.corners);
  return bent;
}
