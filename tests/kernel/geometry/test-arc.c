/* test-arc.c: arcs and circles keep their area and stay near the true curve.
 *
 * Sources: area of a circle and of a sector; the inscribed-angle theorem (Euclid, Elements III.20-21) for the circle
 * through three points. Allowed: 0.0005 square inch (model, "Marks and outlines").
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "geometry/cw-arc.h"
#include "geometry/cw-polygon.h"
#include "geometry/cw-tolerance.h"

#include <math.h>

#define SQ_INCH (8128.0 * 8128.0)
#define SEED 19590701

static double
area_of (const GArray *points)
{
  CwRing ring = { points->len, (CwPoint *) (void *) points->data };

  return (double) cw_ring_area2 (&ring) / 2;
}

static void
assert_near_circle (const GArray *points, double cx, double cy, double radius)
{
  for (guint i = 0; i < points->len; i++)
    {
      CwPoint p = g_array_index (points, CwPoint, i);

      g_assert_cmpfloat (fabs (hypot (p.x - cx, p.y - cy) - radius), <=, CW_TOL_ARC_TICKS + 1);
    }
}

static void
test_circles (void)
{
  static const gint32 radii[] = { 64, 127, 508, 1016, 2032, 4064, 6096, 8128, 16256, 40640, 81280, 243840 };

  for (guint i = 0; i < G_N_ELEMENTS (radii); i++)
    {
      g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
      double r = radii[i];

      cw_circle_flatten (cw_point (1000, -2000), radii[i], points);
      g_assert_cmpfloat_with_epsilon (area_of (points) / SQ_INCH, G_PI * r * r / SQ_INCH, 0.0005);
      assert_near_circle (points, 1000, -2000, r);
    }
}

/* Random arcs: the polygon between the arc and its chord has the area of the circle's segment. */
static void
test_arcs (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n_curved = 0;

  for (guint round = 0; round < 3000; round++)
    {
      CwPoint p[3];
      g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
      double cx, cy, r, sweep;

      for (int i = 0; i < 3; i++)
        p[i] = cw_point (g_rand_int_range (rand, 0, 81280), g_rand_int_range (rand, 0, 81280));
      if (!cw_arc_circle (p[0], p[1], p[2], &cx, &cy, &r) || r > 30 * 8128)
        continue;
      n_curved++;
      for (int i = 0; i < 3; i++)
        g_assert_cmpfloat_with_epsilon (hypot (p[i].x - cx, p[i].y - cy), r, 1e-3);
      g_array_append_val (points, p[0]);
      cw_arc_flatten (p[0], p[1], p[2], points);
      assert_near_circle (points, cx, cy, r);
      g_array_append_val (points, p[2]);
      /* The angle at `through` is half the rest of the circle (III.20). */
      sweep = 2
              * (G_PI
                 - fabs (remainder (atan2 (p[0].y - p[1].y, p[0].x - p[1].x) - atan2 (p[2].y - p[1].y, p[2].x - p[1].x),
                                    2 * G_PI)));
      g_assert_cmpfloat_with_epsilon (fabs (area_of (points)) / SQ_INCH, r * r / 2 * (sweep - sin (sweep)) / SQ_INCH,
                                      0.0005);
    }
  g_assert_cmpuint (n_curved, >, 2000);
}

/* What is no arc: in line, without length, or on a circle larger than any sheet. */
static void
test_straight (void)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  double cx, cy, r;

  g_assert_false (cw_arc_circle (cw_point (0, 0), cw_point (10, 10), cw_point (20, 20), &cx, &cy, &r));
  g_assert_false (cw_arc_circle (cw_point (0, 0), cw_point (200000, 1), cw_point (400000, 0), &cx, &cy, &r));
  cw_arc_flatten (cw_point (0, 0), cw_point (10, 10), cw_point (20, 20), points);
  g_assert_cmpuint (points->len, ==, 1);
  g_array_set_size (points, 0);
  cw_arc_flatten (cw_point (5, 5), cw_point (5, 5), cw_point (5, 5), points);
  g_assert_cmpuint (points->len, ==, 0);
  cw_circle_flatten (cw_point (0, 0), 0, points);
  g_assert_cmpuint (points->len, ==, 0);
}

/* Ends in one place: the whole circle with `through` opposite. */
static void
test_closed_arc (void)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  CwPoint a = cw_point (0, 0);

  g_array_append_val (points, a);
  cw_arc_flatten (a, cw_point (16256, 0), a, points);
  g_assert_cmpfloat_with_epsilon (fabs (area_of (points)) / SQ_INCH, G_PI, 0.0005);
}

/* Boxes of arcs whose extremes are known from the circle's equation: a disc 30 mm across is 30 mm either way, a half
 * disc its radius high, a quarter arc between two extremes no wider than its ends. */
static void
test_boxes (void)
{
  const gint32 r = 4800; /* 15 mm */
  const struct
  {
    CwPoint a, through, b, low, high;
  } arcs[] = {
    { { -r, 0 }, { r, 0 }, { -r, 0 }, { -r, -r }, { r, r } },
    { { -r, 0 }, { 0, -r }, { r, 0 }, { -r, -r }, { r, 0 } },
    { { -2880, -3840 }, { 0, -r }, { 2880, -3840 }, { -2880, -r }, { 2880, -3840 } },
    { { -2880, -3840 }, { 0, r }, { 2880, -3840 }, { -r, -3840 }, { r, r } },
    { { 0, -r }, { 2880, -3840 }, { r, 0 }, { 0, -r }, { r, 0 } },
    { { 0, 0 }, { 10, 10 }, { 20, 20 }, { 0, 0 }, { 20, 20 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (arcs); i++)
    {
      CwPoint low = arcs[i].a, high = arcs[i].a;

      cw_arc_extend_box (arcs[i].a, arcs[i].through, arcs[i].b, &low, &high);
      g_assert_true (cw_point_equal (low, arcs[i].low));
      g_assert_true (cw_point_equal (high, arcs[i].high));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/arc/circles-keep-area", test_circles);
  g_test_add_func ("/geometry/arc/arcs-keep-area", test_arcs);
  g_test_add_func ("/geometry/arc/straight", test_straight);
  g_test_add_func ("/geometry/arc/boxes", test_boxes);
  g_test_add_func ("/geometry/arc/closed", test_closed_arc);
  return g_test_run ();
}
