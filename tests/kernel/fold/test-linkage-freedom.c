/* test-linkage-freedom.c: what can really move, and what is only loose to first order.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-make-vertex.h"

static void
assert_freedom (CwLinkage *linkage, const double *rho, double give, guint freedom, guint first_order)
{
  guint first;

  g_assert_cmpuint (cw_linkage_freedom (linkage, rho, give, &first), ==, freedom);
  g_assert_cmpuint (first, ==, first_order);
}

/* Coplanar axes through a point give rank 2, so a flat vertex of n creases is loose in n - 2 ways; off flat the rank is
 * 3 and it moves in n - 3 (mobility of a spherical linkage, textbook). Three creases do not move at all. */
static void
test_vertex (void)
{
  static const double sectors[4][6]
    = { { 90, 150, 120 }, { 60, 90, 120, 90 }, { 60, 90, 70, 80, 60 }, { 50, 70, 60, 65, 55, 60 } };
  static const double flat[6] = { 0 };
  static const int ways[6] = { 1, 1, 1, 1, 1, 1 };

  for (guint n = 3; n <= 6; n++)
    {
      g_autoptr (CwLinkage) linkage = cw_make_vertex (n, sectors[n - 3], ways);

      assert_freedom (linkage, flat, 0, n - 3, n - 2);
    }
}

/* A box is loose in two ways at rest, flat and shut, and moves in one; half open both counts agree. A strip of three
 * hinges glued into a flat ring is loose in one way and rigid: a triangle. */
static void
test_box_and_ring (void)
{
  static const int ways[4] = { 1, 1, -1, 1 };
  static const double flat[4] = { 0 }, shut[4] = { G_PI, G_PI, -G_PI, G_PI }, ring[3] = { 0, G_PI, G_PI };
  static const double half[4] = { G_PI / 2, G_PI / 2, -G_PI / 2, G_PI / 2 };
  g_autoptr (CwLinkage) box = cw_make_four_bar (9600, 12800, 12800, 9600, CW_MAKE_SIZE, ways);
  CwJoint joints[3];

  assert_freedom (box, flat, 0, 1, 2);
  assert_freedom (box, shut, 0, 1, 2);
  assert_freedom (box, half, 0, 1, 1);

  for (guint i = 0; i < 3; i++)
    joints[i] = (CwJoint){ .in_a = cw_rigid_identity (), .in_b = cw_rigid_identity (), .way = 1 };
  /* A strip of 8000, 16000 and 24000 ticks; its end, at 48000, is glued to its beginning. */
  joints[0].a = 1, joints[0].b = 0, joints[0].p.x = joints[0].q.x = 8000;
  joints[1].a = 2, joints[1].b = 1, joints[1].p.x = joints[1].q.x = 24000;
  joints[2].a = 0, joints[2].b = 2, joints[2].in_b.t.x = 48000;
  for (guint i = 0; i < 3; i++)
    joints[i].q.y = 20000;
  {
    g_autoptr (CwLinkage) strip = cw_linkage_new (3, 0, 3, joints, CW_MAKE_SIZE);
    g_autoptr (CwLinkageWork) work = cw_linkage_work_new (strip);

    g_assert_cmpfloat (cw_linkage_misfit (strip, work, ring, NULL), <, 1e-6);
    assert_freedom (strip, ring, 0, 0, 1);
    assert_freedom (strip, ring, 254, 0, 1);
  }
}

/* Steps on a step, as cut from one card: loops of parallel axes, one more hinge pair for each. At rest every loop adds
 * one to the looseness; the card still has the one motion of its spine. Joints are added as a card's hinges lie: a step
 * across the spine, one across each of the first one's page hinges. */
static void
test_three_steps (void)
{
  /* Hinge lines by x, thousands of ticks: spine 0; step -20..16 with its ridge at -4; a step across -20: -24..-14,
   * ridge at -18, and one across 16: 12..20, ridge at 16. Bodies: 0 right page, 1 left page, 2 and 3 the first step, 4
   * and 5 the second, 6 and 7 the third. */
  static const struct
  {
    guint a, b;
    double x;
    int way;
  } hinges[] = {
    { 0, 1, 0, 1 },    { 2, 1, -20, 1 }, { 3, 2, -4, -1 }, { 0, 3, 16, 1 },  { 4, 1, -24, 1 },
    { 5, 4, -18, -1 }, { 2, 5, -14, 1 }, { 6, 3, 12, 1 },  { 7, 6, 16, -1 }, { 0, 7, 20, 1 },
  };
  double flat[10] = { 0 }, rho[10];
  CwJoint joints[10];
  CwDrive close = { 0, G_PI };

  for (guint i = 0; i < 10; i++)
    {
      joints[i] = (CwJoint){ hinges[i].a, hinges[i].b, cw_rigid_identity (), cw_rigid_identity (),
                             { 0, 0, 0 }, { 0, 0, 0 }, hinges[i].way };
      joints[i].p.x = joints[i].q.x = hinges[i].x * 1000;
      joints[i].q.y = CW_MAKE_SIZE;
    }
  {
    g_autoptr (CwLinkage) linkage = cw_linkage_new (8, 0, 10, joints, 48000);
    g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
    g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, flat, &close, 1, 0);

    g_assert_cmpuint (cw_linkage_get_n_loops (linkage), ==, 3);
    g_assert_cmpuint (cw_linkage_get_n_blocks (linkage), ==, 1);
    assert_freedom (linkage, flat, 0, 1, 4);
    g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
    g_assert_false (cw_trace_get_result (trace)->sways);
    cw_trace_get_angles (trace, work, 1, rho);
    /* All parallelograms: every hinge turns with the spine in its score's own direction. */
    for (guint i = 0; i < 10; i++)
      g_assert_cmpfloat_with_epsilon (rho[i], hinges[i].way * G_PI, 1e-12);
    assert_freedom (linkage, rho, 0, 1, 4);
    cw_trace_get_angles (trace, work, 0.4, rho);
    for (guint i = 0; i < 10; i++)
      g_assert_cmpfloat_with_epsilon (rho[i], hinges[i].way * G_PI * 0.4, 1e-9);
    assert_freedom (linkage, rho, 0, 1, 1);
  }
}

/* Rounding alone takes all exact freedom from a V fold; it moves within two ticks, and a clumsy one within its give. */
static void
test_v_fold_with_give (void)
{
  static const double shut[4] = { G_PI, 0, G_PI, 0 };
  g_autoptr (CwLinkage) half_tick = cw_make_v_fold (37, 37, cw_vec3 (0.5, 0, 0));
  g_autoptr (CwLinkage) clumsy = cw_make_v_fold (37, 37, cw_vec3 (0, 254, 0));

  g_assert_cmpuint (cw_linkage_freedom (half_tick, shut, 0, NULL), ==, 1);
  g_assert_cmpuint (cw_linkage_freedom (clumsy, shut, 0, NULL), ==, 0);
  g_assert_cmpuint (cw_linkage_freedom (clumsy, shut, 254, NULL), ==, 1);
}

static void
test_open_hinges (void)
{
  CwJoint joints[2];
  double rho[2] = { 0.3, 0 };

  for (guint i = 0; i < 2; i++)
    joints[i] = (CwJoint){ i, i + 1, cw_rigid_identity (), cw_rigid_identity (), { 100, 0, 0 }, { 100, 50, 0 }, 1 };
  joints[1].way = 0;
  {
    g_autoptr (CwLinkage) linkage = cw_linkage_new (3, 0, 2, joints, 200);

    /* One hinge each, but not one that is scored and not folded. */
    assert_freedom (linkage, rho, 0, 1, 1);
  }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/linkage-freedom/vertex", test_vertex);
  g_test_add_func ("/fold/linkage-freedom/box-and-ring", test_box_and_ring);
  g_test_add_func ("/fold/linkage-freedom/three-steps", test_three_steps);
  g_test_add_func ("/fold/linkage-freedom/v-fold-with-give", test_v_fold_with_give);
  g_test_add_func ("/fold/linkage-freedom/open-hinges", test_open_hinges);
  return g_test_run ();
}
