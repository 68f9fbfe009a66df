/* test-linkage.c: the sign of a fold, trees, loops and blocks.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage.h"

/* A sheet 10 by 7, scored from (5, 0) to (5, 7): walking down the sheet, y down, front up, left is where x is
 * larger. */
static CwJoint
spine (guint a, guint b)
{
  return (CwJoint){
    a, b, cw_rigid_identity (), cw_rigid_identity (), cw_vec3 (5, 0, 0), cw_vec3 (5, 7, 0), 1,
  };
}

/* The convention itself (the project's own, no outside source): with the front up, towards the viewer at -z, a fold
 * angle of +180 degrees brings the fronts together, so half way the right panel stands up on the viewer's side. */
static void
test_half_fold_sign (void)
{
  CwJoint joint = spine (0, 1);
  g_autoptr (CwLinkage) linkage = cw_linkage_new (2, 0, 1, &joint, 10);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  CwRigid places[2];
  CwVec3 corner = cw_vec3 (0, 7, 0);
  double rho = G_PI / 2;
  CwVec3 at;

  cw_linkage_place (linkage, work, &rho, places);
  at = cw_rigid_apply (&places[1], corner);
  g_assert_cmpfloat_with_epsilon (at.x, 5, 1e-12);
  g_assert_cmpfloat_with_epsilon (at.z, -5, 1e-12);

  rho = G_PI;
  cw_linkage_place (linkage, work, &rho, places);
  at = cw_rigid_apply (&places[1], corner);
  g_assert_cmpfloat_with_epsilon (at.x, 10, 1e-12);
  g_assert_cmpfloat_with_epsilon (at.z, 0, 1e-12);
  /* The front's outward normal is -z on the sheet; on the panel turned over it looks down onto the other's front. */
  g_assert_cmpfloat_with_epsilon (cw_rigid_turn (&places[1], cw_vec3 (0, 0, -1)).z, 1, 1e-12);

  /* The same fold seen from the other body. */
  {
    g_autoptr (CwLinkage) other = cw_linkage_new (2, 1, 1, &joint, 10);

    rho = G_PI / 2;
    cw_linkage_place (other, work, &rho, places);
    at = cw_rigid_apply (&places[0], cw_vec3 (10, 7, 0));
    g_assert_cmpfloat_with_epsilon (at.x, 5, 1e-12);
    g_assert_cmpfloat_with_epsilon (at.z, -5, 1e-12);
  }
}

static void
test_open_chain_follows_its_ramp (void)
{
  CwJoint joint = spine (0, 1);
  g_autoptr (CwLinkage) linkage = cw_linkage_new (2, 0, 1, &joint, 10);
  g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
  double start = 0.25, rho;
  CwDrive drive = { 0, G_PI };
  g_autoptr (CwTrace) trace = cw_linkage_trace (linkage, &start, &drive, 1, 0);

  cw_trace_get_angles (trace, work, 0, &rho);
  g_assert_cmpfloat_with_epsilon (rho, 0.25, 1e-15);
  cw_trace_get_angles (trace, work, 0.5, &rho);
  g_assert_cmpfloat_with_epsilon (rho, (0.25 + G_PI) / 2, 1e-15);
  cw_trace_get_angles (trace, work, 1, &rho);
  g_assert_cmpfloat_with_epsilon (rho, G_PI, 1e-15);
  g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_ARRIVED);
  g_assert_cmpfloat (cw_trace_get_result (trace)->reached, >=, 1);
}

/* Two rings that share one body but no hinge, and a tail: loops = hinges - bodies + parts (graph theory's cycle
 * number); rings are two blocks, the tail is in none. */
static void
test_blocks (void)
{
  CwJoint joints[] = { spine (0, 1), spine (1, 2), spine (2, 0), spine (2, 3),
                       spine (3, 4), spine (4, 2), spine (4, 5), spine (6, 6) };
  g_autoptr (CwLinkage) linkage = cw_linkage_new (7, 0, G_N_ELEMENTS (joints), joints, 10);

  g_assert_cmpuint (cw_linkage_get_n_loops (linkage), ==, 8 - 7 + 2);
  g_assert_cmpuint (cw_linkage_get_n_blocks (linkage), ==, 3);
  g_assert_cmpuint (cw_linkage_get_joint_block (linkage, 0), ==, 0);
  g_assert_cmpuint (cw_linkage_get_joint_block (linkage, 2), ==, 0);
  g_assert_cmpuint (cw_linkage_get_joint_block (linkage, 3), ==, 1);
  g_assert_cmpuint (cw_linkage_get_joint_block (linkage, 5), ==, 1);
  g_assert_cmpuint (cw_linkage_get_joint_block (linkage, 6), ==, G_MAXUINT);
  g_assert_cmpuint (cw_linkage_get_joint_block (linkage, 7), ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/linkage/half-fold-sign", test_half_fold_sign);
  g_test_add_func ("/fold/linkage/open-chain-follows-its-ramp", test_open_chain_follows_its_ramp);
  g_test_add_func ("/fold/linkage/blocks", test_blocks);
  return g_test_run ();
}
