/* test-linkage-random.c: linkages of any shape, asked for anything: no crash, no angle that is not a number, and what
 * is said to be closed is closed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-make-vertex.h"

static CwRigid
random_rigid (void)
{
  CwRigid m = cw_rigid_about_axis (cw_vec3 (0, 0, 0), cw_vec3 (0, 0, 1), g_test_rand_int_range (0, 4) * G_PI / 2);

  m.t = cw_vec3 (g_test_rand_int_range (-2000, 2000), g_test_rand_int_range (-2000, 2000), 0);
  return m;
}

static void
test_random (void)
{
  guint rounds = g_test_thorough () ? 4000 : 40;

  for (guint round = 0; round < rounds; round++)
    {
      guint n_bodies = g_test_rand_int_range (1, 9), n_joints = g_test_rand_int_range (0, 13);
      CwJoint joints[13];
      CwDrive drives[4];
      double start[13], hint[13], rho[13];
      guint n_drives = n_joints > 0 ? g_test_rand_int_range (0, 5) : 0, first;
      double give = g_test_rand_int_range (0, 2) * 254;
      gboolean messy = g_test_rand_bit ();

      for (guint j = 0; j < n_joints; j++)
        {
          joints[j] = (CwJoint){
            .a = g_test_rand_int_range (0, n_bodies),
            .b = g_test_rand_int_range (0, n_bodies),
            .in_a = messy ? random_rigid () : cw_rigid_identity (),
            .in_b = messy ? random_rigid () : cw_rigid_identity (),
            .p = cw_vec3 (g_test_rand_int_range (-20, 20) * 500, g_test_rand_int_range (-20, 20) * 500, 0),
            .way = g_test_rand_int_range (-1, 2),
          };
          joints[j].q = cw_vec3_add (joints[j].p, cw_vec3 (g_test_rand_int_range (1, 9) * 300,
                                                           g_test_rand_int_range (-9, 9) * 300, 0));
          start[j] = g_test_rand_bit () ? 0 : g_test_rand_int_range (-4, 5) * G_PI / 4;
          hint[j] = g_test_rand_double_range (-G_PI, G_PI);
        }
      for (guint k = 0; k < n_drives; k++)
        drives[k] = (CwDrive){ g_test_rand_int_range (0, n_joints), g_test_rand_int_range (-4, 5) * G_PI / 4 };
      {
        g_autoptr (CwLinkage) linkage
          = cw_linkage_new (n_bodies, g_test_rand_int_range (0, n_bodies), n_joints, joints, 20000);
        g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
        g_autoptr (CwTrace) trace
          = cw_linkage_trace_from (linkage, start, g_test_rand_bit () ? hint : NULL, drives, n_drives, give);
        const CwTraceResult *result = cw_trace_get_result (trace);
        double worst = cw_linkage_misfit (linkage, work, start, NULL);

        g_assert_cmpfloat (result->reached, >=, 0);
        g_assert_cmpfloat (result->reached, <=, 1);
        g_assert_true ((result->verdict == CW_TRACE_ARRIVED) == (result->reached >= 1));
        for (guint i = 0; i <= 4; i++)
          {
            cw_trace_get_angles (trace, work, i / 4.0, rho);
            for (guint j = 0; j < n_joints; j++)
              g_assert_true (isfinite (rho[j]));
            if (worst < 1e-6)
              g_assert_cmpfloat (cw_linkage_misfit (linkage, work, rho, NULL), <=, give + 2.5);
          }
        g_assert_cmpuint (cw_linkage_freedom (linkage, start, give, &first), <=, n_joints);
        g_assert_cmpuint (first, <=, n_joints);
      }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/linkage-random/never-crashes", test_random);
  return g_test_run ();
}
