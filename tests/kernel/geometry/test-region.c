/* test-region.c: noding, faces, overlay and growing.
 *
 * Sources: Euler's formula for plane graphs, V - E + F = 1 + components (bounded faces); inclusion and exclusion of
 * areas; Steiner's formula for mitred right angles (worked out beside the check).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-edges.h"
#include "geometry/cw-region.h"

#define SEED 17520214

static CwEdge
random_edge (GRand *rand, guint64 tag)
{
  CwEdge edge = { { g_rand_int_range (rand, 0, 80000), g_rand_int_range (rand, 0, 60000) },
                  { g_rand_int_range (rand, 0, 80000), g_rand_int_range (rand, 0, 60000) },
                  tag };

  return edge;
}

/* Whether two segments cross or touch other than at common ends. Exact. */
static gboolean
meet_inside (const CwEdge *e, const CwEdge *f)
{
  gint64 a = cw_point_orient (e->a, e->b, f->a), b = cw_point_orient (e->a, e->b, f->b);
  gint64 c = cw_point_orient (f->a, f->b, e->a), d = cw_point_orient (f->a, f->b, e->b);

  if (cw_point_equal (e->a, f->a) || cw_point_equal (e->a, f->b) || cw_point_equal (e->b, f->a)
      || cw_point_equal (e->b, f->b))
    return FALSE; /* nearly parallel ones that share an end are told apart by Euler's formula */
  return ((a > 0) != (b > 0) || a == 0 || b == 0) && ((c > 0) != (d > 0) || c == 0 || d == 0)
         && !(a == 0 && b == 0 && c == 0 && d == 0);
}

static guint
root (guint *parent, guint i)
{
  while (parent[i] != i)
    i = parent[i] = parent[parent[i]];
  return i;
}

static guint
place_of (GArray *places, CwPoint p)
{
  for (guint i = 0; i < places->len; i++)
    if (cw_point_equal (g_array_index (places, CwPoint, i), p))
      return i;
  g_array_append_val (places, p);
  return places->len - 1;
}

static void
assert_euler (const GArray *noded)
{
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  g_autoptr (GArray) faces = cw_edges_faces (noded);
  g_autofree guint *parent = g_new (guint, 2 * noded->len + 1);
  guint components;

  for (guint i = 0; i < 2 * noded->len; i++)
    parent[i] = i;
  for (guint i = 0; i < noded->len; i++)
    {
      const CwEdge *edge = &g_array_index (noded, CwEdge, i);
      guint a = root (parent, place_of (places, edge->a)), b = root (parent, place_of (places, edge->b));

      parent[a] = b;
    }
  components = 0;
  for (guint i = 0; i < places->len; i++)
    components += parent[i] == i;
  g_assert_cmpint ((int) faces->len, ==, (int) noded->len - (int) places->len + (int) components);
}

static void
test_random_lines (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (GArray) edges = g_array_new (FALSE, FALSE, sizeof (CwEdge));
      g_autoptr (GArray) noded = NULL;
      g_autoptr (GArray) links = NULL;

      for (guint i = 0; i < 3 + round / 3; i++)
        {
          CwEdge edge = random_edge (rand, (guint64) 1 << (i % 60));

          g_array_append_val (edges, edge);
          if (i % 7 == 0) /* twice, and once the other way round */
            {
              CwEdge back = { edge.b, edge.a, edge.tag };

              g_array_append_val (edges, back);
            }
        }
      noded = cw_edges_node (edges, &links);
      for (guint i = 0; i < noded->len; i++)
        for (guint k = i + 1; k < noded->len; k++)
          g_assert_false (meet_inside (&g_array_index (noded, CwEdge, i), &g_array_index (noded, CwEdge, k)));
      assert_euler (noded);
      for (guint i = 0, k = 0; i < noded->len; i++)
        {
          guint64 tags = 0;

          for (; k < links->len && g_array_index (links, CwEdgeLink, k).noded == i; k++)
            tags |= g_array_index (edges, CwEdge, g_array_index (links, CwEdgeLink, k).source).tag;
          g_assert_cmpuint (tags, !=, 0);
          g_assert_cmpuint (tags, ==, g_array_index (noded, CwEdge, i).tag);
        }
    }
}

/* The parts of one line, put together, are as long as the line. */
static void
test_parts_add_up (void)
{
  CwEdge edges[5] = { { { 0, 0 }, { 80000, 0 }, 1 },
                      { { 100, -500 }, { 100, 500 }, 2 },
                      { { 70000, 1 }, { 70000, 900 }, 4 }, /* ends within a tick of the first */
                      { { 20000, 0 }, { 90000, 0 }, 8 },   /* lies on it in part */
                      { { 30000, 30000 }, { 30000, 30000 }, 16 } /* no length */ };
  g_autoptr (GArray) in = g_array_new (FALSE, FALSE, sizeof (CwEdge));
  g_autoptr (GArray) noded = NULL;
  gint64 first = 0, both = 0;

  g_array_append_vals (in, edges, 5);
  noded = cw_edges_node (in, NULL);
  for (guint i = 0; i < noded->len; i++)
    {
      const CwEdge *edge = &g_array_index (noded, CwEdge, i);

      g_assert_cmpuint (edge->tag & 16, ==, 0);
      if (edge->tag & 1)
        first += edge->b.x - edge->a.x;
      if ((edge->tag & 9) == 9)
        both += edge->b.x - edge->a.x;
    }
  g_assert_cmpint (first, ==, 80000);
  g_assert_cmpint (both, ==, 60000);
}

static CwRegion
rectangle (gint32 x0, gint32 y0, gint32 x1, gint32 y1)
{
  CwPoint corners[4] = { { x0, y0 }, { x1, y0 }, { x1, y1 }, { x0, y1 } };
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  CwPolygon polygon;
  CwRegion region;

  g_array_append_vals (points, corners, 4);
  polygon = cw_polygon_from_points (points);
  region = cw_region_from_polygon (&polygon);
  cw_polygon_clear (&polygon);
  return region;
}

/* Inclusion and exclusion, exact for upright rectangles. */
static void
test_overlay (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 1);

  for (guint round = 0; round < 300; round++)
    {
      gint32 v[8];
      CwRegion a, b, sum, common, rest;
      gint64 wide, high;

      for (int i = 0; i < 8; i++)
        v[i] = g_rand_int_range (rand, -50000, 50000);
      a = rectangle (MIN (v[0], v[1]), MIN (v[2], v[3]), MAX (v[0], v[1]) + 1, MAX (v[2], v[3]) + 1);
      b = rectangle (MIN (v[4], v[5]), MIN (v[6], v[7]), MAX (v[4], v[5]) + 1, MAX (v[6], v[7]) + 1);
      sum = cw_region_overlay (&a, &b, CW_OVERLAY_UNION);
      common = cw_region_overlay (&a, &b, CW_OVERLAY_INTERSECTION);
      rest = cw_region_overlay (&a, &b, CW_OVERLAY_DIFFERENCE);
      wide = MIN (MAX (v[0], v[1]), MAX (v[4], v[5])) + 1 - MAX (MIN (v[0], v[1]), MIN (v[4], v[5]));
      high = MIN (MAX (v[2], v[3]), MAX (v[6], v[7])) + 1 - MAX (MIN (v[2], v[3]), MIN (v[6], v[7]));
      g_assert_cmpint (cw_region_area2 (&common), ==, wide > 0 && high > 0 ? 2 * wide * high : 0);
      g_assert_cmpint (cw_region_area2 (&rest), ==, cw_region_area2 (&a) - cw_region_area2 (&common));
      g_assert_cmpint (cw_region_area2 (&sum), ==, cw_region_area2 (&rest) + cw_region_area2 (&b));
      cw_region_clear (&a);
      cw_region_clear (&b);
      cw_region_clear (&sum);
      cw_region_clear (&common);
      cw_region_clear (&rest);
    }
}

/* A w x h rectangle grown by d with mitred corners is (w + 2 d) x (h + 2 d); opening leaves it whole until its narrow
 * side is gone. */
static void
test_grow (void)
{
  CwRegion a = rectangle (0, 0, 4000, 2000);
  CwRegion more = cw_region_grow (&a, 300), less = cw_region_grow (&a, -300), gone = cw_region_grow (&a, -1000);
  CwRegion open = cw_region_open (&a, 990), shut = cw_region_open (&a, 1010);

  g_assert_cmpint (cw_region_area2 (&more), ==, 2 * 4600 * 2600);
  g_assert_cmpint (cw_region_area2 (&less), ==, 2 * 3400 * 1400);
  g_assert_cmpuint (gone.n_polygons, ==, 0);
  g_assert_cmpint (cw_region_area2 (&open), ==, cw_region_area2 (&a));
  g_assert_cmpuint (shut.n_polygons, ==, 0);
  cw_region_clear (&a);
  cw_region_clear (&more);
  cw_region_clear (&less);
  cw_region_clear (&gone);
  cw_region_clear (&open);
  cw_region_clear (&shut);
}

/* Rings that cross themselves count by even-odd; empty regions and rings of two points are nothing. */
static void
test_odd_input (void)
{
  CwPoint bow[4] = { { 0, 0 }, { 1000, 1000 }, { 1000, 0 }, { 0, 1000 } }, two[2] = { { 0, 0 }, { 5, 5 } };
  CwRing rings[2] = { { 4, bow }, { 2, two } };
  CwPolygon polygons[2] = { { 1, &rings[0] }, { 1, &rings[1] } };
  CwRegion crossed = { 1, &polygons[0] }, line = { 1, &polygons[1] }, none = { 0, NULL };
  CwRegion a = cw_region_overlay (&crossed, &none, CW_OVERLAY_UNION);
  CwRegion b = cw_region_overlay (&line, &none, CW_OVERLAY_UNION), c = cw_region_grow (&none, 10);

  g_assert_cmpint (cw_region_area2 (&a), ==, 2 * 500000);
  g_assert_cmpuint (b.n_polygons, ==, 0);
  g_assert_cmpuint (c.n_polygons, ==, 0);
  cw_region_clear (&a);
  cw_region_clear (&b);
  cw_region_clear (&c);
}

/* A point inside is inside, also of thin and holed polygons; standard form does not depend on where a ring starts. */
static void
test_inside_points (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED + 2);

  for (guint round = 0; round < 500; round++)
    {
      g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
      g_autoptr (GArray) turned = g_array_new (FALSE, FALSE, sizeof (CwPoint));
      CwPolygon polygon, again;

      for (int i = 0; i < 3; i++)
        {
          CwPoint p = cw_point (g_rand_int_range (rand, 0, 80000), g_rand_int_range (rand, 0, 1 + (gint32) round * 50));

          g_array_append_val (points, p);
          g_array_prepend_val (turned, p);
        }
      polygon = cw_polygon_from_points (points);
      again = cw_polygon_from_points (turned);
      cw_polygon_tidy (&polygon);
      cw_polygon_tidy (&again);
      g_assert_cmpint (cw_polygon_compare (&polygon, &again), ==, 0);
      if (polygon.n_rings > 0 && cw_polygon_area2 (&polygon) > 1000000)
        {
          CwPoint p = cw_polygon_inside_point (&polygon);

          g_assert_true (cw_polygon_contains (&polygon, p.x, p.y));
        }
      cw_polygon_clear (&polygon);
      cw_polygon_clear (&again);
    }
}

/* A page less a triangle whose level edge lies half way up: the middle of the page, found both ways, falls on that
 * edge. 3/4 inch is what a square of 1 1/2 inches, that fits in beside the triangle, has round its middle. */
static void
test_inside_point_off_edges (void)
{
  static const CwPoint corners[]
    = { { 48768, 28448 }, { 48768, 56896 }, { 97536, 56896 }, { 97536, 0 }, { 77216, 0 }, { 77216, 28448 } };
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  double room = G_MAXDOUBLE;

  g_array_append_vals (points, corners, G_N_ELEMENTS (corners));
  CwPolygon page = cw_polygon_from_points (points);
  CwPoint p = cw_polygon_inside_point (&page);

  g_assert_true (cw_polygon_contains (&page, p.x, p.y));
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    room = MIN (room, cw_segment_distance (corners[i], corners[(i + 1) % G_N_ELEMENTS (corners)], p.x, p.y));
  g_assert_cmpfloat (room, >=, 0.75 * 8128);
  cw_polygon_clear (&page);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region/random-lines-are-noded", test_random_lines);
  g_test_add_func ("/geometry/region/parts-add-up", test_parts_add_up);
  g_test_add_func ("/geometry/region/overlay-areas", test_overlay);
  g_test_add_func ("/geometry/region/grow-and-open", test_grow);
  g_test_add_func ("/geometry/region/odd-input", test_odd_input);
  g_test_add_func ("/geometry/region/inside-points", test_inside_points);
  g_test_add_func ("/geometry/region/inside-point-keeps-off-edges", test_inside_point_off_edges);
  return g_test_run ();
}
