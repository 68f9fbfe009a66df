/* cw-edges.c: straight edges cut where they meet, and the faces between them.
 *
 * Method: noding by snap rounding on a grid of one tick and polygonizing, both by GEOS (cw-region.c names the source).
 * Snap rounding knows only half a tick; that an end within one tick of a line lies on it (model) is done here before
 * noding, and which edge came from which line is found here after it. Edges that meet nothing stay as they are.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-edges.h"

#include "geometry/cw-edge-index.h"
#include "geometry/cw-tolerance.h"

#include <math.h>

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
        g_ptr_array_add (lines, cw_engine_line (engine, edge->a, edge->b));
    }
  all = GEOSGeom_createCollection_r (engine, GEOS_MULTILINESTRING, (GEOSGeometry **) lines->pdata, lines->len);
  g_ptr_array_free (lines, TRUE);
  return all;
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
  CwEdgeIndex index;

  cw_edge_index_init (&index, engine, edges);
  for (guint i = 0; i < 2 * edges->len; i++)
    {
      const CwEdge *edge = &g_array_index (edges, CwEdge, i / 2);
      CwPoint end = i % 2 == 0 ? edge->a : edge->b;
      const GArray *near_by = cw_edge_index_query (&index, end, end, CW_TOL_MEETS_TICKS);

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
  cw_edge_index_clear (&index);
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

static gboolean
is_end (const CwEdge *edge, CwPoint p)
{
  return cw_point_equal (edge->a, p) || cw_point_equal (edge->b, p);
}

/* Whether an end of `a` lies on `b` or so near that snapping would bend it there. */
static gboolean
ends_on (const CwEdge *a, const CwEdge *b)
{
  return (!is_end (b, a->a) && within (cw_segment_distance (b->a, b->b, a->a.x, a->a.y), CW_TOL_MEETS_TICKS))
         || (!is_end (b, a->b) && within (cw_segment_distance (b->a, b->b, a->b.x, a->b.y), CW_TOL_MEETS_TICKS));
}

static gboolean
crosses (const CwEdge *a, const CwEdge *b)
{
  gint64 p = cw_point_orient (a->a, a->b, b->a), q = cw_point_orient (a->a, a->b, b->b);
  gint64 r = cw_point_orient (b->a, b->b, a->a), s = cw_point_orient (b->a, b->b, a->b);

  return ((p < 0 && q > 0) || (p > 0 && q < 0)) && ((r < 0 && s > 0) || (r > 0 && s < 0));
}

/* Marks the parts that still have to be cut: those that cross or come near one another elsewhere than at ends they
 * share, and those near such a crossing, which snapping would bend there. Snapping moves no other by anything, and the
 * engine asks the operating system for random numbers for every line it is given. */
static gboolean *
find_uncut (GEOSContextHandle_t engine, const GArray *parts)
{
  gboolean *uncut = g_new0 (gboolean, parts->len);
  GArray *crossings = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  CwEdgeIndex index;

  cw_edge_index_init (&index, engine, parts);
  for (guint i = 0; i < parts->len; i++)
    {
      const CwEdge *one = &g_array_index (parts, CwEdge, i);
      const GArray *near_by = cw_edge_index_query (&index, one->a, one->b, CW_TOL_MEETS_TICKS);

      for (guint k = 0; k < near_by->len; k++)
        {
          guint other = g_array_index (near_by, guint, k);
          const CwEdge *two = &g_array_index (parts, CwEdge, other);

          if (other <= i)
            continue;
          if (crosses (one, two))
            {
              double all = (double) cw_point_orient (two->a, two->b, one->a);
              double share = all / (all - (double) cw_point_orient (two->a, two->b, one->b));
              CwPoint at = cw_point (one->a.x + (gint32) lround (share * ((double) one->b.x - one->a.x)),
                                     one->a.y + (gint32) lround (share * ((double) one->b.y - one->a.y)));

              g_array_append_val (crossings, at);
            }
          else if (!ends_on (one, two) && !ends_on (two, one))
            continue;
          uncut[i] = uncut[other] = TRUE;
        }
    }
  for (guint i = 0; i < crossings->len; i++)
    {
      CwPoint at = g_array_index (crossings, CwPoint, i);
      const GArray *near_by = cw_edge_index_query (&index, at, at, 2 * CW_TOL_MEETS_TICKS);

      for (guint k = 0; k < near_by->len; k++)
        {
          const CwEdge *part = &g_array_index (parts, CwEdge, g_array_index (near_by, guint, k));

          if (within (cw_segment_distance (part->a, part->b, at.x, at.y), 2 * CW_TOL_MEETS_TICKS))
            uncut[g_array_index (near_by, guint, k)] = TRUE;
        }
    }
  cw_edge_index_clear (&index);
  g_array_free (crossings, TRUE);
  return uncut;
}

static void
add_edge (GArray *edges, CwPoint a, CwPoint b)
{
  gboolean turn = b.x < a.x || (b.x == a.x && b.y < a.y);
  CwEdge edge = { turn ? b : a, turn ? a : b, 0 };

  if (!cw_point_equal (a, b))
    g_array_append_val (edges, edge);
}

/* Adds all straight pieces of what the engine gave back. */
static void
add_from_engine (GEOSContextHandle_t engine, const GEOSGeometry *lines, GArray *edges)
{
  for (int g = 0, count = lines == NULL ? 0 : GEOSGetNumGeometries_r (engine, lines); g < count; g++)
    {
      const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r (engine, GEOSGetGeometryN_r (engine, lines, g));
      guint size = 0;
      CwPoint last = { 0, 0 };

      if (sequence != NULL)
        GEOSCoordSeq_getSize_r (engine, sequence, &size);
      for (guint i = 0; i < size; i++)
        {
          double x = 0, y = 0;
          CwPoint p;

          GEOSCoordSeq_getXY_r (engine, sequence, i, &x, &y);
          p = cw_point ((gint32) lround (x), (gint32) lround (y));
          if (i > 0)
            add_edge (edges, last, p);
          last = p;
        }
    }
}

/* Whether every edge runs along an axis, so that crossings are whole ticks. */
static gboolean
are_upright (const GArray *edges)
{
  for (guint i = 0; i < edges->len; i++)
    {
      const CwEdge *edge = &g_array_index (edges, CwEdge, i);

      if (edge->a.x != edge->b.x && edge->a.y != edge->b.y)
        return FALSE;
    }
  return TRUE;
}

/* The parts cut at every crossing, each piece from its smaller end, sorted, without repeats. */
static GArray *
cut_parts (GEOSContextHandle_t engine, const GArray *parts)
{
  g_autofree gboolean *uncut = find_uncut (engine, parts);
  GArray *whole = g_array_new (FALSE, FALSE, sizeof (CwEdge));
  GArray *all = g_array_new (FALSE, FALSE, sizeof (CwEdge));
  guint n = 0;

  for (guint i = 0; i < parts->len; i++)
    {
      const CwEdge *part = &g_array_index (parts, CwEdge, i);

      if (uncut[i])
        g_array_append_val (whole, *part);
      else
        add_edge (all, part->a, part->b);
    }
  if (whole->len > 0)
    {
      GEOSGeometry *lines = lines_new (engine, whole);
      GEOSGeometry *cut = lines == NULL         ? NULL
                          : are_upright (whole) ? GEOSUnaryUnion_r (engine, lines)
                                                : GEOSUnaryUnionPrec_r (engine, lines, 1.0);

      add_from_engine (engine, cut, all);
      cw_engine_destroy (engine, cut);
      cw_engine_destroy (engine, lines);
    }
  g_array_free (whole, TRUE);
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
  CwEdgeIndex index;

  cw_edge_index_init (&index, engine, parts);
  for (guint i = 0; i < noded->len; i++)
    {
      CwEdge *edge = &g_array_index (noded, CwEdge, i);
      CwPoint middle
        = cw_point ((gint32) (((gint64) edge->a.x + edge->b.x) / 2), (gint32) (((gint64) edge->a.y + edge->b.y) / 2));
      const GArray *near_by = cw_edge_index_query (&index, middle, middle, 2 * CW_TOL_MEETS_TICKS);
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
  cw_edge_index_clear (&index);
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
  GArray *moved, *parts, *sources, *noded, *found;

  g_return_val_if_fail (edges != NULL, NULL);

  engine = GEOS_init_r ();
  moved = g_array_copy ((GArray *) edges);
  join_ends (moved);
  sources = g_array_new (FALSE, FALSE, sizeof (guint));
  parts = bend_to_ends (engine, moved, sources);
  noded = cut_parts (engine, parts);
  found = find_links (engine, noded, parts, sources);
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
  lines = g_ptr_array_new ();
  for (guint i = 0; i < noded->len; i++)
    {
      const CwEdge *edge = &g_array_index (noded, CwEdge, i);

      g_ptr_array_add (lines, cw_engine_line (engine, edge->a, edge->b));
    }
  result = lines->len == 0 ? NULL : GEOSPolygonize_r (engine, (const GEOSGeometry *const *) lines->pdata, lines->len);
  faces = cw_engine_take_polygons (engine, result, cw_polygon_arrange); /* every node stays a corner */
  cw_engine_destroy (engine, result);
  for (guint i = 0; i < lines->len; i++)
    cw_engine_destroy (engine, lines->pdata[i]);
  g_ptr_array_free (lines, TRUE);
  GEOS_finish_r (engine);
  g_array_set_clear_func (faces, (GDestroyNotify) cw_polygon_clear);
  return faces;
}
